//! Files that a person chooses, and files that the page hands over. Nothing goes to an address.

use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::{JsCast, JsValue};
use std::time::Duration;
use wasm_bindgen_futures::JsFuture;

/// What became of a file that was chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Chosen {
    /// It is larger than is read.
    TooLarge {
        /// Its name.
        name: String,
    },
    /// It could not be read.
    Unreadable {
        /// Its name.
        name: String,
    },
    /// It is here.
    Read {
        /// Its name.
        name: String,
        /// What is in it.
        bytes: Vec<u8>,
    },
}

/// Reads the file chosen in a file box, if one is, and empties the box, so that the same file can be chosen again. A file
/// of more than `most` bytes is not read.
pub fn read_chosen(input: &web_sys::HtmlInputElement, most: f64, then: impl Fn(Chosen) + 'static) {
    let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
    input.set_value("");
    let name = file.name();
    if most < file.size() {
        then(Chosen::TooLarge { name });
        return;
    }
    spawn_local(async move {
        let buffer = JsFuture::from(file.array_buffer()).await;
        then(match buffer {
            Ok(buffer) => Chosen::Read { name, bytes: js_sys::Uint8Array::new(&buffer).to_vec() },
            Err(_) => Chosen::Unreadable { name },
        });
    });
}

/// Hands a text over as a file; the browser asks where to put it, or puts it where files go.
pub fn hand_over(name: &str, media_type: &str, text: &str) {
    let Some(link) = link_to(name, media_type, text) else { return };
    link.click();
}

fn link_to(name: &str, media_type: &str, text: &str) -> Option<web_sys::HtmlElement> {
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let kind = web_sys::BlobPropertyBag::new();
    kind.set_type(media_type);
    let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &kind).ok()?;
    let address = web_sys::Url::create_object_url_with_blob(&blob).ok()?;
    let link = document().create_element("a").ok()?;
    link.set_attribute("href", &address).ok()?;
    link.set_attribute("download", name).ok()?;
    // The browser has taken it by then.
    set_timeout(
        move || {
            // What is not there any more needs no freeing.
            let _ = web_sys::Url::revoke_object_url(&address);
        },
        Duration::from_secs(60),
    );
    link.dyn_into().ok()
}
