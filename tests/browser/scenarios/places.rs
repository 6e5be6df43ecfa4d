//! Going round the page, and reading what it shows.

use super::cases::{CASES, Case};
use crate::page::{Element, Page, plain_spaces};
use crate::wait::{SOON, within};
use crate::{act, find};
use serde_json::{Value, json};

/// The places, in the order of the work.
pub(super) const PLACES: [&str; 6] = ["Person", "Goals", "Ladder", "Bench", "Fit", "Sheets"];

/// Goes to a place by its button and waits until the focus has arrived: what is typed before would be lost.
#[track_caller]
pub(super) fn go(page: &Page, place: &str) {
    let bar = find::role(page, "navigation", "Places");
    act::click(&bar, "button", place);
    arrived(page, place);
}

/// Waits until a place is shown and its heading has the focus.
#[track_caller]
pub(super) fn arrived(page: &Page, place: &str) {
    let id = format!("place-{}", place.to_lowercase());
    within(SOON, &format!("the focus on the heading of {place}"), || {
        let body = "return document.activeElement?.id ?? ''";
        let focused = page.try_script(body, &[]).map_err(|refusal| refusal.to_string())?;
        if focused == json!(id) { Ok(()) } else { Err(focused.to_string()) }
    });
}

/// Loads a demonstration case from the menu.
#[track_caller]
pub(super) fn load(page: &Page, case: &Case) {
    if find::id(page, "demo-menu").attribute("aria-expanded").as_deref() != Some("true") {
        into_view(&find::role(page, "button", "Demonstration cases")).click();
    }
    // The focus may have been on this heading before; it is on the menu now.
    into_view(&find::role(page, "button", case.about())).click();
    if page.script("return document.getElementById('replace') !== null", &[]) == json!(true) {
        act::click(page, "button", "Replace it");
    }
    arrived(page, "Person");
}

/// Wipes the case, if there is one.
#[track_caller]
pub(super) fn wipe(page: &Page) {
    act::click(page, "button", "New case");
    if page.script("return document.getElementById('wipe') !== null", &[]) == json!(true) {
        act::click(page, "button", "Wipe it");
    }
    arrived(page, "Person");
}

/// Opens all that is folded away on the place shown: working, numbers of pictures, lists, aids.
#[track_caller]
pub(super) fn unfold(page: &Page) {
    let body = "for (const details of document.querySelectorAll('main details:not([open]) > summary')) details.click(); \
                for (const fold of document.querySelectorAll('main button.fold, aside .strip')) \
                    if (fold.getAttribute('aria-expanded') === 'false' && fold.checkVisibility()) fold.click()";
    page.script(body, &[]);
}

/// Uses everything there is: each case, each place, all that can be unfolded, and the printer.
pub(super) fn use_everything(page: &Page) {
    for case in CASES {
        load(page, case);
        for place in PLACES {
            go(page, place);
            unfold(page);
        }
        page.cdp("Page.printToPDF", json!({ "preferCSSPageSize": true, "printBackground": true }));
    }
    go(page, "Person");
    fill(page, "RIGHT eye: best corrected distance acuity", "20/200-2");
    fill(page, "Case label", "Label-7");
    into_view(&find::role(page, "radio", "Decimal acuity")).click();
    go(page, "Goals");
    into_view(&find::role(page, "button", "Add a goal")).click();
    go(page, "Sheets");
    into_view(&find::role(page, "button", "Print the sheet")).click();
}

/// Brings an element to the middle of the window, as one scrolls before one taps: at the edge the bar may lie over it.
#[track_caller]
pub(super) fn into_view<'p>(element: &Element<'p>) -> Element<'p> {
    element.page.script("arguments[0].scrollIntoView({ block: 'center' })", &[element.id.to_json()]);
    element.clone()
}

/// Empties a box, found by its label, and types into it key by key. A button that leads to a box has the box's name, so
/// the role is said too.
#[track_caller]
pub(super) fn fill(page: &Page, label: &str, text: &str) {
    into_view(&find::role(page, "textbox", label)).click();
    act::press(page, &["Control+a", "Delete"]);
    act::type_keys(page, text);
}

/// Which keys of the case are boxes on the place shown.
#[track_caller]
pub(super) fn boxes(page: &Page) -> Vec<String> {
    let body = "return [...document.querySelectorAll('main input[type=text]')].map(input => input.id)";
    words(&page.script(body, &[]))
}

/// Everything that a place shows: words and numbers, texts in boxes, what is chosen.
#[track_caller]
pub(super) fn shown(page: &Page) -> String {
    let body = "const main = document.querySelector('main'); \
        const boxes = [...main.querySelectorAll('input')].map(input => \
            input.type === 'text' ? `${input.id}=${input.value}` : `${input.id}:${input.checked}`); \
        return [main.textContent, ...boxes, document.querySelector('aside')?.textContent ?? ''].join('\\n')";
    let text = page.script(body, &[]);
    let text = plain_spaces(text.as_str().expect("a text"));
    // The day is not part of the case.
    match text.split_once("printed 20") {
        Some((before, after)) => {
            let day: String = after.chars().take(8).collect();
            format!("{before}{}", after.replace(&day, "").replace("printed 20", ""))
        }
        None => text,
    }
}

/// The cells of each row that a selector finds, as words.
#[track_caller]
pub(super) fn rows(page: &Page, css: &str) -> Vec<Vec<String>> {
    let body = "return [...document.querySelectorAll(arguments[0])].map(row => \
                [...row.cells].map(cell => cell.innerText))";
    let found = page.script(body, &[json!(css)]);
    found.as_array().into_iter().flatten().map(words).collect()
}

fn words(list: &Value) -> Vec<String> {
    let texts = list.as_array().into_iter().flatten();
    texts.map(|text| plain_spaces(text.as_str().unwrap_or_default())).collect()
}
