//! Parts of a view that change.
//!
//! Each closure in a view makes the compiler write its rendering code anew. These put the closure behind one type, so
//! that the code is there once: on this page that is a good part of what a visit has to load.

use leptos::prelude::*;
use std::sync::Arc;

/// A part that is made anew when what it reads changes.
pub fn live<V: IntoAny + 'static>(part: impl Fn() -> V + Send + Sync + 'static) -> AnyView {
    let part: Arc<dyn Fn() -> AnyView + Send + Sync> = Arc::new(move || part().into_any());
    (move || part()).into_any()
}

/// A part that is there while a condition holds.
pub fn when<V: IntoAny + 'static>(
    condition: impl Fn() -> bool + Send + Sync + 'static,
    part: impl Fn() -> V + Send + Sync + 'static,
) -> AnyView {
    let condition: Box<dyn Fn() -> bool + Send + Sync> = Box::new(condition);
    let there = Memo::new(move |_| condition());
    live(move || if there.get() { part().into_any() } else { ().into_any() })
}

/// A text that changes.
pub fn words(text: impl Fn() -> String + Send + Sync + 'static) -> Signal<String> {
    Signal::derive(text)
}

/// A yes or no that changes.
pub fn is(condition: impl Fn() -> bool + Send + Sync + 'static) -> Signal<bool> {
    Signal::derive(condition)
}

/// Sentences as the items of a list.
#[must_use]
pub fn items(sentences: Vec<String>) -> AnyView {
    sentences.into_iter().map(|sentence| view! { <li>{sentence}</li> }.into_any()).collect_view().into_any()
}
