//! Each of the six sheets on either paper, in letters of normal size and in large ones.

use super::{A4, LETTER, every_word_is_on_paper, nothing_is_cut_off, whole_pages_of};
use crate::driver::Options;
use crate::page::Page;
use crate::scenarios::cases::{CASES, case};
use crate::scenarios::places::{go, into_view, load};
use crate::{act, find, pdf, see};
use serde_json::json;

/// What the page calls the sheets, and how the title of each begins.
const SHEETS: [(&str, &str); 6] = [
    ("Order and fitting", "Order and fitting sheet"),
    ("Trial", "Trial sheet"),
    ("For the person", "Your aid, and how to use it"),
    ("For the school", "Letter to the school"),
    ("Summary", "Summary"),
    ("Delivery check", "Delivery check"),
];

const LARGE: &str = "Large print (18 points); the sheet for the person always is";

/// The smallest letters of the leaves that are not part of a drawing, points.
const SMALLEST: &str = "
    const sizes = [...document.querySelectorAll('.leaf *')]
        .filter(part => !part.closest('svg') && part.checkVisibility() && [...part.childNodes].some(
            node => node.nodeType === Node.TEXT_NODE && node.data.trim() !== ''))
        .map(part => parseFloat(getComputedStyle(part).fontSize) * 72 / 96);
    return Math.min(...sizes)";

#[track_caller]
fn choose_sheet(page: &Page, name: &str) {
    into_view(&find::role(page, "radio", name)).click();
    let title = SHEETS.iter().find(|(sheet, _)| *sheet == name).expect("a sheet of this name").1;
    see::holds(page, "sheet", title);
}

fn smallest_in_print(page: &Page) -> f64 {
    page.cdp("Emulation.setEmulatedMedia", json!({ "media": "print" }));
    let smallest = page.script(SMALLEST, &[]).as_f64().expect("letters");
    page.cdp("Emulation.setEmulatedMedia", json!({ "media": "" }));
    smallest
}

#[test]
fn every_sheet_prints_whole_on_either_paper_in_either_size() {
    let page = super::super::open(&Options::desktop());
    for case in CASES {
        load(&page, case);
        go(&page, "Sheets");
        for (name, title) in SHEETS {
            choose_sheet(&page, name);
            for large in [false, true] {
                act::tick(&page, LARGE, large);
                for (choice, paper) in [("US Letter", LETTER), ("A4", A4)] {
                    act::choose(&page, choice);
                    let what =
                        format!("{} {name} {choice} {}", case.id, if large { "large" } else { "normal" });
                    let file =
                        pdf::print(&page, &format!("sheets-{}", what.replace(' ', "-").to_lowercase()));
                    let count = whole_pages_of(&page, &file, paper);
                    nothing_is_cut_off(&page, paper, &what);
                    every_word_is_on_paper(&page, &file, paper);
                    let first = pdf::words(&file)[0].join(" ");
                    assert!(first.starts_with(title), "{what}: {first:.80}");
                    assert!(
                        first.contains(&format!("Case {} ·", case.text("/label"))),
                        "{what}: {first:.200}"
                    );
                    let one_page = !large && matches!(name, "For the school" | "Summary");
                    assert!(!one_page || count == 1, "{what}: {count} pages");
                    let (least, wanted) = (smallest_in_print(&page), large || name == "For the person");
                    assert!(!wanted || 18.0 - 1e-6 <= least, "{what}: letters of {least} points");
                    assert!(8.0 <= least, "{what}: letters of {least} points");
                }
            }
            act::tick(&page, LARGE, false);
        }
    }
    see::no_errors(&page);
}

/// Aids of other kinds than a telescope, whose sheets have other words; and the order of spectacles for near.
#[test]
fn the_sheets_of_a_near_aid_print_whole() {
    let page = super::super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    go(&page, "Goals");
    into_view(&find::id(&page, "goal-2-open")).click();
    for aid in ["high-plus", "desk-screen"] {
        go(&page, "Bench");
        crate::scenarios::cases::look_at(&page, aid);
        go(&page, "Sheets");
        for (name, _) in SHEETS {
            choose_sheet(&page, name);
            for large in [false, true] {
                act::tick(&page, LARGE, large);
                let what = format!("{aid} {name} {}", if large { "large" } else { "normal" });
                let file = pdf::print(&page, &format!("near-{}", what.replace(' ', "-").to_lowercase()));
                whole_pages_of(&page, &file, A4);
                nothing_is_cut_off(&page, A4, &what);
                every_word_is_on_paper(&page, &file, A4);
            }
            act::tick(&page, LARGE, false);
        }
    }
    see::no_errors(&page);
}
