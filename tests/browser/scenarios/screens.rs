//! Pictures of every place for people to look at, and a check that there is something on them.

use super::cases::{CASES, case};
use super::picture::assert_not_blank;
use super::places::{PLACES, go, load};
use crate::driver::Options;
use crate::{pdf, see};
use serde_json::json;

/// Name, size of the window, and what the reader prefers.
type Look = (&'static str, u32, u32, &'static [(&'static str, &'static str)]);

const LOOKS: &[Look] = &[
    ("desktop", 1360, 900, &[("prefers-color-scheme", "light")]),
    ("dark", 1360, 900, &[("prefers-color-scheme", "dark")]),
    ("phone", 360, 740, &[("prefers-color-scheme", "light")]),
    ("400-percent", 320, 256, &[("prefers-color-scheme", "light")]),
    ("forced-colours", 1360, 900, &[("forced-colors", "active"), ("prefers-reduced-motion", "reduce")]),
];

#[test]
fn every_place_in_every_look() {
    let page = super::open(&Options::sized(1360, 900));
    // A picture of the whole page has no scroll bar, and would be cut by the width of one.
    page.cdp("Emulation.setScrollbarsHidden", json!({ "hidden": true }));
    load(&page, case("adult-20-160"));
    for place in PLACES {
        go(&page, place);
        for (look, width, height, settings) in LOOKS {
            page.set_viewport(*width, *height);
            page.prefer(settings);
            assert_not_blank(&page.screenshot(&format!("{look}-{}", place.to_lowercase())));
        }
        page.set_viewport(1360, 900);
        page.prefer(&[]);
    }
    load(&page, case("frame-too-shallow"));
    for place in ["Bench", "Fit"] {
        go(&page, place);
        assert_not_blank(&page.screenshot(&format!("refused-{}", place.to_lowercase())));
    }
    see::no_errors(&page);
}

#[test]
fn nothing_moves_for_a_reader_who_wants_no_motion() {
    let page = super::open(&Options::desktop());
    page.prefer(&[("prefers-reduced-motion", "reduce")]);
    load(&page, case("adult-20-160"));
    for place in PLACES {
        go(&page, place);
        let moving = page.script("return document.getAnimations().length", &[]);
        assert_eq!(moving, 0, "animations on {place}");
    }
}

#[test]
fn every_sheet_on_paper() {
    let page = super::open(&Options::desktop());
    for case in CASES {
        load(&page, case);
        go(&page, "Sheets");
        let name = format!("sheet-{}", case.id);
        let pictures = pdf::pictures(&pdf::print(&page, &name), &name);
        assert!(2 <= pictures.len(), "pages: {pictures:?}");
        for picture in pictures {
            assert_not_blank(&picture);
        }
    }
}
