//! What this computer keeps for the page, if that was asked for: the list of aids, in which nothing is of a person, and one
//! case, sealed.

use crate::model::kept::SealedCase;
use leptos::prelude::*;

const LIST: &str = "arcminute-aids";
const CASE: &str = "arcminute-sealed-case";

fn store() -> Option<web_sys::Storage> {
    // A browser that keeps nothing, or forbids it, is one without a store.
    window().local_storage().ok().flatten()
}

fn get(key: &str) -> Option<String> {
    store()?.get_item(key).ok().flatten()
}

fn set(key: &str, text: &str) -> bool {
    store().is_some_and(|store| store.set_item(key, text).is_ok())
}

fn forget(key: &str) {
    if let Some(store) = store() {
        // What is not there need not be taken away.
        let _ = store.remove_item(key);
    }
}

/// The list that was kept, as text; nothing if none was.
#[must_use]
pub fn kept_list() -> Option<String> {
    get(LIST)
}

/// Keeps a list; whether the browser did.
#[must_use]
pub fn keep_list(text: &str) -> bool {
    set(LIST, text)
}

/// Keeps no list any more.
pub fn forget_list() {
    forget(LIST);
}

/// Whether a case may be kept: only where the page comes from a server. Of a page that is a file, some browsers let every
/// other file on the computer read what is kept.
#[must_use]
pub fn may_keep_case() -> bool {
    window().location().protocol().is_ok_and(|protocol| protocol == "https:" || protocol == "http:")
}

/// The case that was kept: when, and its sealed text; nothing if none was.
#[must_use]
pub fn kept_case() -> Option<(String, String)> {
    let kept = get(CASE).filter(|_| may_keep_case())?;
    let (when, sealed) = kept.split_once('\n').unwrap_or(("a time unknown", &kept));
    Some((when.to_owned(), sealed.to_owned()))
}

/// Keeps a case, which is sealed; whether the browser did.
#[must_use]
pub fn keep_case(when: &str, case: &SealedCase) -> bool {
    may_keep_case() && set(CASE, &format!("{when}\n{}", case.text()))
}

/// Keeps no case any more.
pub fn forget_case() {
    forget(CASE);
}
