//! A clinic's own list: loaded, checked row by row, compared at once, kept only if that was asked for; and files that are
//! no list, which change nothing.

use super::cases::{case, look_at};
use super::places::{go, into_view, load};
use crate::driver::Options;
use crate::page::Page;
use crate::temp::TempDir;
use crate::wait::{SOON, within};
use crate::{act, find, see};
use serde_json::json;

/// With a mark at the front, decimal commas, a unit that is not asked for, cells run together, a formula, a letter too
/// many; three rows are in order.
const MIXED: &str = "\u{feff}id;name;family;power (D);clear diameter (mm);note\r\n\
    c10;Our ten;hand magnifier;10,5;60;drawer 2\r\n\
    c20;Our twenty;hand magnifier;20 mm;40;\r\n\
    ;;;;;\r\n\
    ;Run together with the row above;;;;\r\n\
    =1+2;A formula;hand magnifier;12;60;\r\n\
    c12;\"=HYPERLINK(\"\"x\"\")\";hand magnifier;12;50;\r\n\
    c28;Our strong one;hand magnifer;28;35;\r\n\
    c30;Our strongest;hand magnifier;30;30;\r\n";

const TOLD: [&str; 4] = ["row 3", "row 5", "row 6", "row 8"];

/// Opens what loads and saves a list.
#[track_caller]
fn unfold_list(page: &Page) {
    go(page, "Bench");
    if find::id(page, "aid-list-change").attribute("aria-expanded").as_deref() == Some("false") {
        into_view(&find::id(page, "aid-list-change")).click();
    }
}

#[track_caller]
fn give(page: &Page, folder: &TempDir, name: &str, content: impl AsRef<[u8]>) {
    folder.write(name, content);
    act::attach(page, "Load your own list", &folder.path().join(name));
    within(SOON, "something said of the file", || {
        let told = see::text(page, "aid-list-told");
        if told.contains(name) { Ok(()) } else { Err(told) }
    });
}

fn kept(page: &Page) -> bool {
    page.script("return localStorage.length", &[]) != json!(0)
}

#[test]
fn a_list_with_faults_is_told_row_by_row_and_its_good_rows_are_compared() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    unfold_list(&page);
    act::select(&page, "Goal", "Prices and labels");
    let folder = TempDir::new();
    give(&page, &folder, "ours.csv", MIXED);
    see::reads(&page, "aid-list-told", "ours.csv: 3 aids taken, 4 rows left out.");
    see::reads(&page, "aid-list-in-use", "In use: ours.csv, 3 aids.");
    let troubles = see::texts(&page, "#aid-list-troubles li");
    assert_eq!(troubles.len(), 5, "{troubles:#?}");
    for (row, trouble) in TOLD.iter().zip(["20 mm", "id", "=1+2", "hand magnifer"]) {
        let told = |line: &&String| line.to_lowercase().contains(row) && line.contains(trouble);
        assert!(troubles.iter().any(|line| told(&line)), "{row} {trouble}: {troubles:#?}");
    }
    look_at(&page, "c30");
    see::holds(&page, "looked-name", "Our strongest");
    assert_eq!(see::count(&page, "#aid-hand-28"), 0, "the list before it is not in use");
    see::holds(&page, "aid-c12", "=HYPERLINK(\"x\")");
    assert!(!kept(&page), "nothing is kept that was not asked for");
    // The case is as it was.
    go(&page, "Person");
    let label = find::role(&page, "textbox", "Case label").property("value");
    assert_eq!(label, json!(case("adult-20-160").text("/label")));
    unfold_list(&page);
    act::click(&page, "button", "Back to the demonstration list");
    see::holds(&page, "aid-list-in-use", "64 aids");
    see::no_errors(&page);
}

#[test]
fn what_is_no_list_changes_nothing() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    unfold_list(&page);
    let folder = TempDir::new();
    give(&page, &folder, "ours.csv", MIXED);
    let in_use = "In use: ours.csv, 3 aids.";
    see::reads(&page, "aid-list-in-use", in_use);
    let random: Vec<u8> = (0_u32..40_000).map(|at| (at.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
    let wrong: [(&str, Vec<u8>, &str); 6] = [
        (
            "large.csv",
            vec![b','; 20_000_000],
            "large.csv is larger than 2 MB, so it is no list of aids; the list in use stays.",
        ),
        ("random.bin.csv", random, "No aid of random.bin.csv could be used; the list in use stays."),
        (
            "book.csv",
            b"PK\x03\x04\x14\0\x06\0\x08\0xl/workbook.xml".to_vec(),
            "No aid of book.csv could be used; the list in use stays.",
        ),
        ("empty.csv", Vec::new(), "No aid of empty.csv could be used; the list in use stays."),
        (
            "other.csv",
            b"date,amount\n2026-01-01,7\n".to_vec(),
            "No aid of other.csv could be used; the list in use stays.",
        ),
        (
            "units.csv",
            b"id,name,family,power (mm),clear diameter (mm)\na,A,hand magnifier,12,60\n".to_vec(),
            "No aid of units.csv could be used; the list in use stays.",
        ),
    ];
    for (name, content, told) in wrong {
        give(&page, &folder, name, content);
        see::reads(&page, "aid-list-told", told);
        see::reads(&page, "aid-list-in-use", in_use);
    }
    let troubles = see::texts(&page, "#aid-list-troubles li");
    assert!(troubles.iter().any(|line| line.contains("power (mm)") && line.contains("D")), "{troubles:#?}");
    see::no_errors(&page);
}

#[test]
fn a_list_is_kept_when_it_is_asked_for_and_forgotten_again() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    unfold_list(&page);
    let folder = TempDir::new();
    give(&page, &folder, "ours.csv", MIXED);
    act::tick(&page, "Keep this list on this computer (only the list, nothing of a person)", true);
    assert!(kept(&page), "the list is kept");
    let stored = page.script("return JSON.stringify(localStorage)", &[]);
    let stored = stored.as_str().expect("text").to_owned();
    assert!(stored.contains("Our strongest") && !stored.contains("20/160"), "{stored}");
    page.reload();
    page.wait_until_up();
    unfold_list(&page);
    see::reads(&page, "aid-list-in-use", "In use: the list kept on this computer, 3 aids.");
    act::tick(&page, "Keep this list on this computer (only the list, nothing of a person)", false);
    assert!(!kept(&page), "and nothing is");
    page.reload();
    page.wait_until_up();
    unfold_list(&page);
    see::holds(&page, "aid-list-in-use", "64 aids");
    see::no_errors(&page);
}

#[test]
fn a_list_that_is_saved_is_read_back_whole() {
    let page = super::open(&Options::desktop());
    unfold_list(&page);
    for (button, name) in [
        ("Save this list as a table", "aids.csv"),
        ("Save this list as JSON", "aids.json"),
        ("Save a template to fill in", "aids-template.csv"),
    ] {
        act::click(&page, "button", button);
        let saved = see::download(&page, name);
        act::attach(&page, "Load your own list", &saved);
        within(SOON, "the file taken whole", || {
            let told = see::text(&page, "aid-list-told");
            let whole = told.starts_with(&format!("{name}: ")) && told.ends_with(" aids taken.");
            if whole { Ok(()) } else { Err(told) }
        });
        assert_eq!(see::texts(&page, "#aid-list-troubles li"), [""; 0], "{name}");
        if !name.contains("template") {
            see::holds(&page, "aid-list-in-use", "64 aids");
        }
    }
    see::no_errors(&page);
}
