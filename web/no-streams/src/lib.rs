//! Nothing, in the shape of `wasm-streams`.
//!
//! The framework's calls to a server need that crate. The page has no server and never calls it, yet what the crate exports
//! to scripts cannot be left out by the linker: some kilobytes of each first visit. So `[patch]` in the workspace puts
//! this in its place: streams that hold nothing.

use core::pin::Pin;
use core::task::{Context, Poll};
use futures_core::Stream;
use wasm_bindgen::JsValue;

/// A stream that holds nothing.
#[derive(Debug)]
pub struct ReadableStream(web_sys::ReadableStream);

impl ReadableStream {
    /// A stream of the browser; what it holds is not read.
    #[must_use]
    pub fn from_raw(raw: web_sys::ReadableStream) -> Self {
        Self(raw)
    }
    /// Nothing of the browser's, whatever the type says: what `stream` gives is not sent.
    pub fn from_stream<S>(_stream: S) -> Self {
        Self(JsValue::UNDEFINED.into())
    }
    /// The stream of the browser.
    #[must_use]
    pub fn into_raw(self) -> web_sys::ReadableStream {
        self.0
    }
    /// Nothing.
    #[must_use]
    pub fn into_stream(self) -> Empty {
        Empty
    }
}

/// Ends at once.
#[derive(Debug)]
pub struct Empty;

impl Stream for Empty {
    type Item = Result<JsValue, JsValue>;

    fn poll_next(self: Pin<&mut Self>, _: &mut Context<'_>) -> Poll<Option<Self::Item>> {
        Poll::Ready(None)
    }
}
