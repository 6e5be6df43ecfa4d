//! Wishes found on the shelf, entered by keyboard, moved, taken away and put back.

use super::cases::case;
use super::places::{fill, go, into_view, load};
use crate::driver::Options;
use crate::page::Page;
use crate::wait::{SOON, within};
use crate::{act, find, see};

/// The names of the wishes, in order.
fn names(page: &Page) -> Vec<String> {
    see::texts(page, ".goal-name")
}

/// Which wish is open, by what its button says to assistive technology.
fn open(page: &Page) -> Vec<usize> {
    let body = "return [...document.querySelectorAll('.goal-open')].flatMap((it, place) => \
                it.getAttribute('aria-expanded') === 'true' ? [place + 1] : [])";
    let found = page.script(body, &[]);
    found.as_array().into_iter().flatten().filter_map(|place| place.as_u64()?.try_into().ok()).collect()
}

#[track_caller]
fn has_focus(page: &Page, wanted: &str) {
    within(SOON, &format!("the focus on {wanted}"), || {
        let focused = see::focused(page);
        if focused == wanted { Ok(()) } else { Err(focused) }
    });
}

#[test]
fn wishes_are_added_by_typing_a_word_and_enter() {
    let page = super::open(&Options::desktop());
    fill(&page, "RIGHT eye: best corrected distance acuity", "20/200");
    go(&page, "Goals");
    find::role(&page, "searchbox", "Search everyday things").click();
    for (typed, name) in [
        ("news", "Newspaper text"),
        ("BUS", "Bus number, front or rear"),
        ("friend", "Face, between the ears"),
    ] {
        act::type_keys(&page, typed);
        act::press(&page, &["Enter"]);
        see::reads(&page, "goals-said", &format!("“{name}” was added."));
    }
    assert_eq!(see::focused(&page), "searchbox \"Search everyday things\"", "ready for the next");
    assert_eq!(names(&page), ["Newspaper text", "Bus number, front or rear", "Face, between the ears"]);
    assert_eq!(open(&page), [3], "the last one is open");
    see::reads(
        &page,
        "short",
        // 145 mm, 11.1 cycles across it, from 2 m: 11.2 minutes; 20/200 is 10.
        "The RIGHT eye falls short of 2 of 3 wishes. “Face, between the ears” is reached without an aid.",
    );
    see::holds(&page, "goal-3-notes", "8 to 16 cycles across it carry who it is");
    see::holds(&page, "goal-3-notes", "From the shelf: width 140 to 150 mm; from 2 m (assumed: an example)");
    fill(&page, "Distance from the eye m", "4");
    within(SOON, "no source for what was changed", || {
        let notes = see::text(&page, "goal-3-notes");
        if notes.contains("From the shelf") { Err(notes) } else { Ok(()) }
    });
    find::role(&page, "searchbox", "Search everyday things").click();
    act::type_keys(&page, "zebra");
    see::reads(&page, "shelf-found", "Nothing is found. Add a goal and type its size.");
    act::press(&page, &["Enter"]);
    assert_eq!(names(&page).len(), 3, "nothing is added for nothing found");
    see::no_errors(&page);
}

#[test]
fn six_wishes_at_once_are_a_start_to_edit() {
    let page = super::open(&Options::desktop());
    fill(&page, "RIGHT eye: best corrected distance acuity", "20/200");
    go(&page, "Goals");
    act::click(&page, "button", "Add six common wishes");
    see::reads(&page, "goals-said", "6 wishes were added.");
    assert_eq!(names(&page).len(), 6, "the untouched goal of a new case gives way");
    assert!(
        see::texts(&page, ".goal-asks").iter().all(|asks| asks.starts_with("asks for ")),
        "each asks for something"
    );
    see::holds(&page, "short", "The RIGHT eye falls short of ");
    go(&page, "Ladder");
    let picture = see::text(&page, "ladder-picture");
    assert!(picture.contains("Board from the back row"), "the open one is spoken of: {picture}");
    see::no_errors(&page);
}

#[test]
fn wishes_are_moved_doubled_taken_away_and_put_back() {
    let page = super::open(&Options::desktop());
    load(&page, case("frame-too-shallow"));
    go(&page, "Goals");
    let all = ["Television captions", "A friend at the table", "Newspaper"];
    assert_eq!((names(&page), open(&page)), (all.map(str::to_owned).to_vec(), vec![1]));
    act::click(&page, "button", "Move down");
    has_focus(&page, "button \"Move down\"");
    assert_eq!(names(&page), [all[1], all[0], all[2]]);
    assert_eq!(open(&page), [2], "what was open stays open");
    act::click(&page, "button", "Move up");
    has_focus(&page, "button \"Move up\"");
    assert_eq!((names(&page), open(&page)), (all.map(str::to_owned).to_vec(), vec![1]));
    act::click(&page, "button", "Double it");
    assert_eq!(names(&page), [all[0], all[0], all[1], all[2]]);
    act::click(&page, "button", "Take this goal away");
    has_focus(&page, "button \"Put it back\"");
    assert_eq!(names(&page), all);
    into_view(&find::id(&page, "goal-3-open")).click();
    assert_eq!(open(&page), [3], "one is open at a time");
    act::click(&page, "button", "Take this goal away");
    assert_eq!(names(&page), [all[0], all[1]]);
    act::click(&page, "button", "Put it back");
    assert_eq!((names(&page), open(&page)), (all.map(str::to_owned).to_vec(), vec![3]));
    find::id(&page, "goal-3-open").click();
    assert_eq!(open(&page), [0_usize; 0], "and it can be folded");
    see::no_errors(&page);
}
