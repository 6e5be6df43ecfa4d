//! What this computer keeps for the page: the list of aids, if that was asked for, and nothing of a person.

use leptos::prelude::*;

const KEY: &str = "arcminute-aids";

fn store() -> Option<web_sys::Storage> {
    // A browser that keeps nothing, or forbids it, is one without a store.
    window().local_storage().ok().flatten()
}

/// The list that was kept, as text; nothing if none was.
#[must_use]
pub fn kept_list() -> Option<String> {
    store()?.get_item(KEY).ok().flatten()
}

/// Keeps a list; whether the browser did.
#[must_use]
pub fn keep_list(text: &str) -> bool {
    store().is_some_and(|store| store.set_item(KEY, text).is_ok())
}

/// Keeps no list any more.
pub fn forget_list() {
    if let Some(store) = store() {
        // What is not there need not be taken away.
        let _ = store.remove_item(KEY);
    }
}
