//! The part of the header that takes back, saves, opens, keeps and locks.

use super::{keep_device, keep_file, keep_lock};
use crate::ui::{REPLACE, fold, press, use_case, when, words};
use leptos::prelude::*;

/// The buttons for a step back and forth, the part that saves and opens, and the lock.
#[component]
pub fn KeepTools() -> impl IntoView {
    let case = use_case();
    let keep = case.keep;
    let step = move |key: &'static str, name: &'static str, forth: bool| {
        let none = words(move || {
            let history = keep.history.read();
            ((if forth { history.forth() } else { history.back() }) == 0).to_string()
        });
        view! { <button type="button" id=key aria-disabled=none on:click=move |_| case.step(forth)>{name}</button> }.into_any()
    };
    // Its name says what the press does; what is not saved is asked about first.
    let lock = words(move || {
        if keep.lock_secret.read().is_empty() { "Lock and wipe" } else { "Lock and seal" }.into()
    });
    vec![
        step("undo", "Undo", false),
        step("redo", "Redo", true),
        fold("keep", "Save or open", keep.open),
        view! { <button type="button" id="lock-now" on:click=move |_| case.lock_or_ask()>{lock}</button> }
            .into_any(),
    ]
    .into_any()
}

/// What stands below the buttons: the last step, what the lock will do, a question, and the part that saves and opens.
#[component]
pub fn KeepNotes() -> impl IntoView {
    let case = use_case();
    let keep = case.keep;
    let lock = words(move || keep_lock::what_comes(keep.minutes.get(), keep.lock_does()));
    let question = move || {
        view! {
            <div class="ask" role="group" aria-label="Another case" id=REPLACE tabindex="-1">
                <p>"The case on the page is not saved. Another case in its place wipes it."</p>
                {press("replace", "Replace it", Callback::new(move |()| case.replace()))}
                {press("stay", "Stay with this case", Callback::new(move |()| case.stay()))}
            </div>
        }
        .into_any()
    };
    let parts = || {
        let parts =
            vec![keep_file::save(), keep_file::open(), keep_device::on_device(), keep_lock::locking()];
        view! { <section id="keep-part" class="keep-part" aria-label="Save or open">{parts}</section> }
            .into_any()
    };
    let notes = view! {
        <div class="keep-notes">
            <p id="stepped">{keep.stepped}</p>
            <p id="lock-comes">{lock}</p>
        </div>
    };
    let before_lock = move || {
        view! {
            <div class="ask" role="group" aria-label="Lock" id=REPLACE tabindex="-1">
                <p>"The case is not saved, and the lock has no passphrase: it wipes the case."</p>
                {press("lock-wipes", "Wipe it and lock", Callback::new(move |()| case.lock()))}
                {press("stay-open", "Stay with this case", Callback::new(move |()| case.stay()))}
            </div>
        }
        .into_any()
    };
    vec![
        notes.into_any(),
        when(move || keep.asks.get(), question),
        when(move || keep.asks_lock.get(), before_lock),
        when(move || keep.open.get(), parts),
    ]
    .into_any()
}
