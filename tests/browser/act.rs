//! What a person does to the page, with real key presses and clicks.

use crate::find;
use crate::keyboard::chord;
use crate::page::{Element, Page, Place, plain_spaces};
use crate::wait::{SOON, within};
use serde_json::json;
use std::path::Path;

/// Presses keys one after the other on whatever has the focus: `&["Tab", "Shift+Tab", "Space"]`.
#[track_caller]
pub(crate) fn press(page: &Page, keys: &[&str]) {
    page.keys(&keys.iter().map(|text| chord(text)).collect::<Vec<_>>());
}

/// Types text key by key on whatever has the focus.
#[track_caller]
pub(crate) fn type_keys(page: &Page, text: &str) {
    page.keys(&text.chars().map(|letter| vec![letter.to_string()]).collect::<Vec<_>>());
}

/// Clicks the one element of this role and name.
#[track_caller]
pub(crate) fn click(place: &impl Place, role: &str, name: &str) {
    find::role(place, role, name).click();
}

/// Empties the box with this label and types the text into it, key by key.
#[track_caller]
pub(crate) fn fill(place: &impl Place, label: &str, text: &str) {
    clear(place, label);
    type_keys(place.page(), text);
}

/// Empties the box with this label by keyboard, and leaves the focus in it.
#[track_caller]
pub(crate) fn clear(place: &impl Place, label: &str) {
    find::label(place, label).click();
    press(place.page(), &["Control+a", "Delete"]);
}

/// Takes one of several radio buttons by its label.
#[track_caller]
pub(crate) fn choose(place: &impl Place, label: &str) {
    let radio = find::role(place, "radio", label);
    switch(&radio, true, label);
}

/// Sets a tick box (or a switch) by its label.
#[track_caller]
pub(crate) fn tick(place: &impl Place, label: &str, on: bool) {
    let tick = find::label(place, label);
    if is_on(&tick) != on {
        switch(&tick, on, label);
    }
}

/// Takes an option, by its words, from the list with this label.
#[track_caller]
pub(crate) fn select(place: &impl Place, label: &str, option: &str) {
    let list = find::label(place, label);
    let offered = find::all(&list, "option");
    let words: Vec<String> = offered
        .iter()
        .map(|option| plain_spaces(option.property("textContent").as_str().unwrap_or_default()))
        .collect();
    let Some(index) = words.iter().position(|words| words == option) else {
        panic!("{label:?} offers no {option:?}, but {words:?}");
    };
    offered[index].click();
}

/// Gives a file to the file chooser with this label.
#[track_caller]
pub(crate) fn attach(place: &impl Place, label: &str, file: &Path) {
    find::label(place, label).send_keys(file.to_str().expect("a path in UTF-8"));
}

/// A person presses the words beside the button as often as the button, and it may be drawn by them alone.
#[track_caller]
fn switch(control: &Element<'_>, on: bool, label: &str) {
    // In the middle of the window: at its edge a bar may lie over it.
    let body = "const it = arguments[0].labels?.[0] ?? arguments[0]; \
                it.scrollIntoView({ block: 'center' }); return it";
    let pressed = control.page.script(body, &[control.id.to_json()]);
    let id = crate::driver::ElementId::from_json(&pressed).expect("the control or its label");
    Element { page: control.page, id }.click();
    within(SOON, &format!("{label:?} switched {}", if on { "on" } else { "off" }), || {
        if is_on(control) == on { Ok(()) } else { Err("the other way".to_owned()) }
    });
}

pub(crate) fn is_on(control: &Element<'_>) -> bool {
    let body = "const it = arguments[0]; \
                return it.checked ?? ['aria-checked', 'aria-pressed', 'aria-selected'].some(\
                    name => it.getAttribute(name) === 'true')";
    control.page.script(body, &[control.id.to_json()]) == json!(true)
}
