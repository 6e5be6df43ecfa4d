//! Aids on Bench: they are there, say what they do and how that follows, wait for what is missing, and fit a
//! phone.

use super::cases::{case, look_at};
use super::places::{fill, go, into_view, load, unfold};
use crate::driver::Options;
use crate::page::Page;
use crate::wait::{SOON, within};
use crate::{act, find, see};
use serde_json::json;

#[test]
fn near_and_far_aids_are_shown_and_each_opens_its_working() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    go(&page, "Bench");
    see::holds(&page, "aids-name", "Aids for Signs and faces across a room");
    look_at(&page, "head-mounted");
    see::holds(&page, "looked", "Not for walking");
    // The picture of what is gained and lost, by keyboard: each point is an option, and choosing one keeps the focus.
    act::select(&page, "Point", "5x16 Keplerian, focusing, bright");
    see::reads(&page, "looked-name", "5x16 Keplerian, focusing, bright");
    assert_eq!(see::focused(&page), "combobox \"Point\"", "the focus stays on the points");
    assert_eq!(see::count(&page, "#tradeoff-picture .tradeoff-chosen"), 1, "the point is marked");
    act::select(&page, "Goal", "Prices and labels");
    see::holds(&page, "aids-name", "Prices and labels");
    look_at(&page, "hand-12");
    // 8 arcmin, as measured through the same glasses, at 1/12 m, in M units; the print is in the focus.
    let least = 8.0 / 12.0;
    see::reads(&page, "looked-reads", &format!("{least:.2} M"));
    see::reads(&page, "looked-focus", "+0.00 D");
    see::reads(&page, "looked-reserve", &format!("{}x", 1.0 / least));
    see::holds(&page, "looked", "Sun and fire");
    see::holds(&page, "looked", "Never look at or near the sun through it");

    act::click(&page, "button", "Show the working: Hand magnifier, +12 D, 60 mm");
    assert!(see::count(&page, "#looked-working li") > 10, "its steps");
    see::holds(&page, "looked-working", "8.00′");
    act::click(&page, "button", "Hide the working: Hand magnifier, +12 D, 60 mm");
    assert_eq!(see::count(&page, "#looked-working li"), 0, "folded again");
    see::no_errors(&page);
}

#[test]
fn aids_wait_for_the_print_and_lead_to_its_box() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-300"));
    go(&page, "Goals");
    into_view(&find::id(&page, "goal-2-open")).click();
    fill(&page, "Print to read", "");
    go(&page, "Bench");
    assert_eq!(see::count(&page, "#aids"), 0, "no print, no aids");
    act::click(&find::id(&page, "work"), "button", "Print to read: go to the box");
    arrived_at_the_box(&page);
    fill(&page, "Print to read", "N8");
    see::holds(&page, "goal-2-print-said", "N8 = 1 M");
    go(&page, "Bench");
    assert_eq!(see::count(&page, "#aids"), 1, "aids for print");
    see::no_errors(&page);
}

#[track_caller]
fn arrived_at_the_box(page: &Page) {
    within(SOON, "the focus on the box", || {
        let focused = see::focused(page);
        if focused == "textbox \"Print to read\"" { Ok(()) } else { Err(focused) }
    });
}

#[test]
fn the_rows_fit_a_phone_with_everything_open() {
    let page = super::open(&Options::sized(360, 740));
    load(&page, case("pupil-reads-the-board"));
    go(&page, "Bench");
    unfold(&page);
    assert_eq!(see::overflow(&page), 0, "nothing sticks out at 360 pixels");
    let body = "return [...document.querySelectorAll('#work .fact, #work td')].filter(it => it.scrollWidth > it.clientWidth + 1).length";
    assert_eq!(page.script(body, &[]), json!(0), "no fact is wider than its place");
    see::no_errors(&page);
}
