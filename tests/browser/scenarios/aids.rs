//! The other aids on Bench: they are there, say what they do and how that follows, wait for what is missing, and fit a
//! phone.

use super::cases::case;
use super::places::{fill, go, load, unfold};
use crate::driver::Options;
use crate::page::Page;
use crate::wait::{SOON, within};
use crate::{act, see};
use serde_json::json;

#[test]
fn near_and_far_aids_are_shown_and_each_opens_its_working() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    go(&page, "Bench");
    assert_eq!(see::count(&page, "#near-aids article"), 14, "near aids");
    assert_eq!(see::count(&page, "#far-aids article"), 4, "far aids");
    // 8 arcmin at (1 + 16.05 mm * 1.25 D)/12 D, in M units; the print is in the focus.
    let least = 8.0 * (1.0 + 0.016_05 * 1.25) / 12.0;
    see::reads(&page, "aid-hand-12-reads", &format!("{least:.2} M"));
    see::reads(&page, "aid-hand-12-focus", "+0.00 D");
    see::reads(&page, "aid-hand-12-reserve", &format!("{:.2}x", 1.0 / least));
    see::holds(&page, "aid-hand-12", "Sun and fire");
    see::holds(&page, "aid-head-mounted", "Not for walking");
    see::holds(&page, "other-aids", "Never look at or near the sun through it");

    act::click(&page, "button", "Show the working: Hand magnifier, +12 D, 60 mm");
    assert!(see::count(&page, "#aid-hand-12-working li") > 10, "its steps");
    see::holds(&page, "aid-hand-12-working", "8.00′");
    assert_eq!(see::count(&page, "#aid-hand-28-working li"), 0, "only the one that was asked for");
    act::click(&page, "button", "Hide the working: Hand magnifier, +12 D, 60 mm");
    assert_eq!(see::count(&page, "#aid-hand-12-working li"), 0, "folded again");
    see::no_errors(&page);
}

#[test]
fn near_aids_wait_for_the_print_and_lead_to_its_box() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-300"));
    go(&page, "Bench");
    assert_eq!(see::count(&page, "#near-aids article"), 0, "no print, no near aids");
    assert_eq!(see::count(&page, "#far-aids article"), 4, "far aids need none");
    act::click(&page, "button", "Print to read near: go to the box");
    arrived_at_the_box(&page);
    fill(&page, "Print to read near", "N8");
    see::holds(&page, "goal-1-print-said", "N8 = 1 M");
    go(&page, "Bench");
    assert_eq!(see::count(&page, "#near-aids article"), 14, "near aids");
    see::no_errors(&page);
}

#[track_caller]
fn arrived_at_the_box(page: &Page) {
    within(SOON, "the focus on the box", || {
        let focused = see::focused(page);
        if focused.contains("goal-1-print") || focused.contains("Print to read near") {
            Ok(())
        } else {
            Err(focused)
        }
    });
}

#[test]
fn the_cards_fit_a_phone_with_everything_open() {
    let page = super::open(&Options::sized(360, 740));
    load(&page, case("pupil-reads-the-board"));
    go(&page, "Bench");
    unfold(&page);
    assert_eq!(see::overflow(&page), 0, "nothing sticks out at 360 pixels");
    let body = "return [...document.querySelectorAll('.aid .fact')].filter(it => it.scrollWidth > it.clientWidth + 1).length";
    assert_eq!(page.script(body, &[]), json!(0), "no fact is wider than its place");
    see::no_errors(&page);
}
