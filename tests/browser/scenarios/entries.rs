//! What people put into boxes, sensible or not: it is kept as typed, what it means is said, and nothing becomes a number
//! in silence.

use super::cases::case;
use super::places::{fill, go, load};
use crate::driver::Options;
use crate::page::Page;
use crate::{act, find, see};
use serde_json::json;

/// What becomes of an entry; the words are those under the box.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Became {
    /// Used.
    Used(&'static str),
    /// Understood, but of no size: what needs one waits.
    NoSize(&'static str),
    /// Not used: refused, or asked about.
    Stopped(&'static str),
    /// Nothing there.
    Empty,
}
use Became::{Empty, NoSize, Stopped, Used};

/// Ten thousand bytes of nothing.
const JUNK: &str = "junk";

/// What the results wait for, on Person.
const UNDECIDED: &str = "section[aria-labelledby=undecided] > ul > li";

const TENTH: &str = "0.1 can mean more than one thing. Choose one. \
    decimal 0.1, decimal acuity: 20/200 logMAR 0.10, logMAR: 20/25";
const TENTH_WITH_COMMA: &str = "0,1 can mean more than one thing. Choose one. \
    decimal 0.1, decimal acuity: 20/200 logMAR 0.10, logMAR: 20/25";

/// Text and what becomes of it in an acuity box.
const ACUITIES: &[(&str, Became)] = &[
    ("20/200-2", Used("20/200-2 = 20/220 = 6/66 = logMAR 1.04")),
    ("6/60", Used("6/60 = 20/200 = logMAR 1.00")),
    ("0,1", Stopped(TENTH_WITH_COMMA)),
    ("0.1", Stopped(TENTH)),
    ("CF 1m", NoSize("CF 1 m: a category, no size; it cannot be used in a sum")),
    ("1,250", Stopped("Acuity `1,250` can mean two numbers a thousand times apart.")),
    ("-", Stopped("Acuity `-` was not understood. Type for example `20/200`.")),
    ("", Empty),
    (JUNK, Stopped("Acuity `x7/ x7/")),
    ("1e9", Stopped("Acuity `1e9` was understood only in part. Take away `e9`.")),
    ("-5", Stopped("Acuity `-5` needs its notation beside it.")),
    ("0", Stopped("0 is also written for blindness. Is this meant? logMAR 0.00, logMAR: 20/20")),
    ("NaN", Stopped("Acuity `NaN` was not understood. Type for example `20/200`.")),
    ("２０/２００", Used("20/200 = 6/60 = logMAR 1.00")),
    ("20/2OO", Stopped("Acuity `20/2OO` was understood only in part. Take away `OO`.")),
    ("20/200", Used("20/200 = 6/60 = logMAR 1.00")),
];

/// Text and what becomes of it in a box for the height of letters, in millimetres.
const HEIGHTS: &[(&str, Became)] = &[
    ("20/200-2", Stopped("Letter height `20/200-2` was understood only in part.")),
    ("6/60", Stopped("Letter height `6/60` was understood only in part.")),
    ("0,1", Used("0.1 mm Unusual: 2 to 2000 mm is usual. It is used as typed.")),
    ("0.1", Used("0.1 mm Unusual: 2 to 2000 mm is usual. It is used as typed.")),
    ("CF 1m", Stopped("Letter height `CF 1m` was not understood. Type for example `12.5`.")),
    ("1,250", Stopped("Letter height `1,250` can mean two numbers a thousand times apart.")),
    ("-", Stopped("Letter height `-` was not understood. Type for example `12.5`.")),
    ("", Empty),
    (JUNK, Stopped("Letter height `x7/ x7/")),
    ("1e9", Stopped("Letter height `1e9` was understood only in part. Take away `e9`.")),
    ("-5", Stopped("Letter height `-5 mm` is not possible. Use 0.1 to 20000 mm.")),
    ("0", Stopped("Letter height `0 mm` is not possible. Use 0.1 to 20000 mm.")),
    ("NaN", Stopped("Letter height `NaN` was not understood. Type for example `12.5`.")),
    ("４０", Used("40 mm")),
    ("4 cm", Used("40 mm")),
    ("40", Used("")),
];

/// Puts a text into the box at one stroke, as pasting does.
#[track_caller]
fn paste(page: &Page, id: &str, text: &str) -> String {
    let text = if text == JUNK { "x7/ ".repeat(2560) } else { text.to_owned() };
    find::id(page, id).click();
    act::press(page, &["Control+a", "Delete"]);
    page.cdp("Input.insertText", json!({ "text": text }));
    text
}

/// What stands in the box.
#[track_caller]
fn value(page: &Page, id: &str) -> String {
    find::id(page, id).property("value").as_str().unwrap_or_default().to_owned()
}

/// Sees to one entry: the words, the mark for assistive technology, and the text left as it was.
#[track_caller]
fn became(page: &Page, id: &str, typed: &str, became: Became) {
    let said = format!("{id}-said");
    match became {
        Used(words) | NoSize(words) => see::reads(page, &said, words),
        Stopped(words) => see::holds(page, &said, words),
        Empty => see::reads(page, &said, ""),
    }
    let invalid = find::id(page, id).attribute("aria-invalid");
    let wanted = if matches!(became, Stopped(_)) { "true" } else { "false" };
    assert_eq!(invalid.as_deref(), Some(wanted), "aria-invalid of {id} for {typed:.20?}");
    let described = find::id(page, id).attribute("aria-describedby").unwrap_or_default();
    assert!(described.split(' ').any(|part| part == said), "{id} is described by {described:?}");
    assert!(value(page, id) == typed, "{id} keeps {typed:.20?} as it was typed");
}

#[test]
fn an_acuity_box_says_what_it_understood_and_uses_nothing_else() {
    let page = super::open(&Options::desktop());
    load(&page, case("pupil-reads-the-board"));
    for (text, what) in ACUITIES {
        let typed = paste(&page, "acuity-right", text);
        became(&page, "acuity-right", &typed, *what);
        let waiting = see::texts(&page, UNDECIDED);
        let waits = match what {
            Used(_) => "",
            NoSize(_) => "the power needed: a category has no size, so an acuity measured nearer is needed",
            Stopped(_) | Empty => "the power needed and every prediction",
        };
        if waits.is_empty() {
            assert!(waiting.is_empty(), "{text:?} leaves nothing open: {waiting:?}");
        } else {
            let box_named = "RIGHT eye: best corrected distance acuity";
            assert_eq!(waiting, [format!("{waits} {box_named}")], "what waits with {text:?}");
        }
        // The other places tell no number from before either.
        if matches!(text, &("0.1" | "CF 1m" | "1e9" | JUNK)) {
            go(&page, "Bench");
            see::holds(&page, "work", "Nothing can be compared yet.");
            assert_eq!(see::count(&page, "#aids"), 0, "no aid is judged");
            assert_eq!(see::count(&page, "#looked"), 0, "no acuity is predicted");
            go(&page, "Sheets");
            assert!(!see::text(&page, "sheet").contains("Chance of the goal"), "nor on paper");
            go(&page, "Person");
        }
    }
    see::no_errors(&page);
}

#[test]
fn a_length_box_says_what_it_understood_and_uses_nothing_else() {
    let page = super::open(&Options::desktop());
    load(&page, case("pupil-reads-the-board"));
    go(&page, "Goals");
    for (text, what) in HEIGHTS {
        let typed = paste(&page, "goal-1-height", text);
        became(&page, "goal-1-height", &typed, *what);
        let needed = see::text(&page, "needed");
        match what {
            // Half the height is twice the power: 6/48 and letters of 40 mm, twice as large as just seen, need 3.5x.
            Used(_) if text.starts_with('0') => assert!(needed.starts_with("1396.3x is needed"), "{needed}"),
            Used(_) => assert_eq!(needed, "3.5x is needed; the next whole power is 4x.", "{text:?}"),
            _ => assert_eq!(needed, "The power needed cannot be said yet.", "{text:?}"),
        }
    }
    fill(&page, "Height of the letters mm", "junk");
    go(&page, "Person");
    let waiting = see::texts(&page, UNDECIDED);
    assert_eq!(waiting, ["what the goal asks for Height of the letters"], "what waits, and for what");
    // The name of the box is the way to it.
    act::click(&page, "button", "Height of the letters: go to the box");
    crate::wait::within(crate::wait::SOON, "the focus in the box", || match see::focused(&page).as_str() {
        "textbox \"Height of the letters mm\"" => Ok(()),
        other => Err(other.to_owned()),
    });
    see::no_errors(&page);
}

#[test]
fn a_box_of_the_fit_that_cannot_be_used_makes_the_fit_wait_for_it() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    go(&page, "Fit");
    see::reads(&page, "fit-verdict", "The fit is possible.");
    for text in ["NaN", "1,250", "-44", "4400", "44 kg", "44 48"] {
        let typed = paste(&page, "box-height", text);
        became(&page, "box-height", &typed, Stopped("Box height B `"));
        see::reads(&page, "fit-verdict", "The fit is not decided yet.");
        assert_eq!(see::texts(&page, "main .missing"), ["Box height B"], "what it waits for, with {text:?}");
        assert_eq!(see::count(&page, "#fit-x"), 0, "nothing to mark");
    }
    for text in ["44", " 44,0 mm", "4.4 cm", "1.7323 in"] {
        let typed = paste(&page, "box-height", text);
        assert_eq!(value(&page, "box-height"), typed, "kept");
        see::reads(&page, "fit-verdict", "The fit is possible.");
    }
    see::no_errors(&page);
}

#[test]
fn a_number_that_can_mean_two_things_is_resolved_by_its_button() {
    let page = super::open(&Options::desktop());
    fill(&page, "RIGHT eye: best corrected distance acuity", "0.1");
    see::holds(&page, "acuity-right-said", "0.1 can mean more than one thing.");
    act::click(&page, "button", "decimal 0.1, decimal acuity: 20/200");
    see::reads(&page, "acuity-right-said", "decimal 0.1 = 20/200 = 6/60 = logMAR 1.00");
    assert_eq!(value(&page, "acuity-right"), "decimal 0.1", "the meaning stands in the box");
    see::reads(&page, "voice", "5x is needed.");

    fill(&page, "RIGHT eye: best corrected distance acuity", "0.1");
    act::click(&page, "button", "logMAR 0.10, logMAR: 20/25");
    see::reads(&page, "acuity-right-said", "logMAR 0.10 = 20/25 = 6/7.5");
    see::reads(&page, "voice", "The goal is reached without a telescope.");
    see::no_errors(&page);
}

#[test]
fn a_number_that_can_mean_two_things_is_resolved_for_all_boxes_by_the_choice() {
    let page = super::open(&Options::desktop());
    fill(&page, "RIGHT eye: best corrected distance acuity", "0.1");
    fill(&page, "LEFT eye: best corrected distance acuity", "0,05");
    see::holds(&page, "acuity-right-said", "more than one thing");
    see::holds(&page, "acuity-left-said", "more than one thing");
    act::choose(&page, "Decimal acuity");
    see::reads(&page, "acuity-right-said", "decimal 0.1 = 20/200 = 6/60 = logMAR 1.00");
    see::reads(&page, "acuity-left-said", "decimal 0.05 = 20/400 = 6/120 = logMAR 1.30");
    act::choose(&page, "logMAR");
    see::reads(&page, "acuity-right-said", "logMAR 0.10 = 20/25 = 6/7.5");
    act::choose(&page, "Ask me each time");
    see::holds(&page, "acuity-right-said", "more than one thing");
    assert_eq!([value(&page, "acuity-right"), value(&page, "acuity-left")], ["0.1", "0,05"], "as typed");
    see::no_errors(&page);
}

#[test]
fn what_is_typed_is_kept_letter_by_letter_while_it_is_not_yet_a_number() {
    let page = super::open(&Options::desktop());
    find::role(&page, "textbox", "RIGHT eye: best corrected distance acuity").click();
    let mut typed = String::new();
    for letter in "0.35".chars() {
        act::type_keys(&page, &letter.to_string());
        typed.push(letter);
        assert_eq!(value(&page, "acuity-right"), typed, "nothing is put right while typing");
    }
    act::press(&page, &["Tab"]);
    assert_eq!(value(&page, "acuity-right"), "0.35", "nor on leaving");
    // 20/20 corrected to 20/200: nothing but the last word counts.
    find::role(&page, "textbox", "RIGHT eye: best corrected distance acuity").click();
    act::press(&page, &["Control+a"]);
    act::type_keys(&page, "20/20");
    see::reads(&page, "acuity-right-said", "20/20 = 6/6 = logMAR 0.00");
    act::type_keys(&page, "0");
    see::reads(&page, "acuity-right-said", "20/200 = 6/60 = logMAR 1.00");
    act::press(&page, &["Backspace", "Backspace", "Backspace"]);
    act::type_keys(&page, "160");
    see::reads(&page, "acuity-right-said", "20/160 = 6/48 = logMAR 0.90");
    see::reads(&page, "voice", "4x is needed.");
    see::no_errors(&page);
}
