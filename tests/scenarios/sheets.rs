//! Every sheet of every demonstration case, and of any case one may type: whole, without gaps, in plain words, and with a
//! digest that changes with what it depends on and with nothing else.

mod content;
mod digest;
mod readability;

use crate::random::any_draft;
use arcminute_core::unit::Length;
use arcminute_web::model::answer::Answer;
use arcminute_web::model::compared::{Asked, Table};
use arcminute_web::model::draft::{Draft, Paper};
use arcminute_web::model::sheets::{Block, Inputs, Leaf, Setting, Sheet, SheetKind, pages, sheet};
use arcminute_web::model::{demo, devices, list};
use proptest::prelude::*;

/// A sheet of a case, with the demonstration list and everything compared.
pub(crate) fn of(kind: SheetKind, draft: &Draft) -> Sheet {
    let list = &list::demo().list;
    let answer = Answer::among(draft, devices::demo_stock());
    let table = Table::of(Asked::of(&answer), list);
    sheet(kind, &Inputs::new(draft, &answer, list, "").compared(&table))
}

/// Its leaves on a paper.
fn leaves(sheet: &Sheet, paper: Paper, large: bool) -> Vec<Leaf> {
    pages(sheet, &Setting { paper, large, drawing: Some(Length::from_mm(92.0)), build: 12 })
}

/// What is read in a block, piece by piece.
fn pieces(block: &Block) -> Vec<&str> {
    match block {
        Block::Heading(words) | Block::Text(words) | Block::Step(words) | Block::Small(words) => vec![words],
        Block::Row(cells) | Block::Columns(cells) => cells.iter().map(String::as_str).collect(),
        Block::Point(head, words) | Block::Stop(head, words) | Block::Again(head, words) => vec![head, words],
        Block::Drawing => Vec::new(),
    }
}

/// Everything that is read on it, a block a line.
pub(crate) fn words(sheet: &Sheet) -> String {
    let lines: Vec<String> = sheet.blocks.iter().map(|block| pieces(block).join(" | ")).collect();
    format!("{}\n{}", sheet.title, lines.join("\n"))
}

/// The value of a line.
#[track_caller]
fn line<'a>(sheet: &'a Sheet, what: &str) -> &'a str {
    let found = sheet.blocks.iter().find_map(|block| match block {
        Block::Row(cells) if cells.first().is_some_and(|first| first == what) => cells.get(1),
        _ => None,
    });
    found.unwrap_or_else(|| panic!("no line {what:?} on {}:\n{}", sheet.title, words(sheet)))
}

/// The number with which a text begins.
#[track_caller]
fn first_number(text: &str) -> f64 {
    let end = text.find(|c: char| !c.is_ascii_digit() && !"+-.".contains(c)).unwrap_or(text.len());
    text[..end].parse().unwrap_or_else(|_| panic!("{text:?} begins with no number"))
}

/// What is wrong with a sheet in itself, whatever the case.
fn faults(sheet: &Sheet) -> Vec<String> {
    let mut faults = Vec::new();
    let text = words(sheet);
    for word in ["undefined", "NaN", "inf ", "Some(", "None", "()"] {
        if text.contains(word) {
            faults.push(format!("holds {word:?}"));
        }
    }
    for (place, block) in sheet.blocks.iter().enumerate() {
        let next = sheet.blocks.get(place + 1);
        match block {
            Block::Heading(_) if matches!(next, None | Some(Block::Heading(_) | Block::Small(_))) => {
                faults.push(format!("nothing under {block:?}"));
            }
            Block::Columns(cells) if !matches!(next, Some(Block::Row(row)) if row.len() == cells.len()) => {
                faults.push(format!("no line like {block:?}"));
            }
            Block::Row(cells) if cells.len() < 2 || cells[0].trim().is_empty() => {
                faults.push(format!("a line without name or value: {block:?}"));
            }
            Block::Text(words) | Block::Step(words) | Block::Small(words) if words.trim().is_empty() => {
                faults.push("an empty paragraph".into());
            }
            _ => {}
        }
    }
    let named: String = sheet.blocks.iter().take(3).flat_map(pieces).collect();
    for blank in sheet.blanks.iter().chain(&sheet.open) {
        if !named.contains(blank.as_str()) {
            faults.push(format!("{blank:?} is not filled in, and the top does not say so"));
        }
    }
    faults
}

/// What is wrong with its leaves.
fn faults_of_leaves(sheet: &Sheet) -> Vec<String> {
    let mut faults = Vec::new();
    for paper in [Paper::A4, Paper::Letter] {
        for large in [false, true] {
            let leaves = leaves(sheet, paper, large);
            let all: Vec<&Block> = leaves.iter().flat_map(|leaf| &leaf.blocks).collect();
            if all != sheet.blocks.iter().collect::<Vec<_>>() {
                faults.push(format!("{paper:?}, large {large}: not whole, or in another order"));
            }
            for (page, leaf) in leaves.iter().enumerate() {
                let last = leaf.blocks.last();
                if matches!(last, None | Some(Block::Heading(_) | Block::Columns(_))) {
                    faults.push(format!("{paper:?}, large {large}, page {}: ends with {last:?}", page + 1));
                }
            }
        }
    }
    faults
}

#[test]
fn every_sheet_of_every_case_is_whole() {
    for case in demo::CASES {
        for kind in SheetKind::ALL {
            let sheet = of(kind, &case.case());
            assert_eq!(faults(&sheet), [""; 0], "{}: {}", case.id, sheet.title);
            assert_eq!(faults_of_leaves(&sheet), [""; 0], "{}: {}", case.id, sheet.title);
            assert_eq!(sheet.label, case.case().label, "the label and no name");
            assert_eq!(sheet.digest.len(), 8, "eight digits: {}", sheet.digest);
        }
    }
}

#[test]
fn every_sheet_of_an_empty_case_is_whole_and_says_what_is_missing() {
    for kind in SheetKind::ALL {
        let sheet = of(kind, &Draft::default());
        assert_eq!(faults(&sheet), [""; 0], "{}", sheet.title);
        assert_eq!(faults_of_leaves(&sheet), [""; 0], "{}", sheet.title);
        assert!(sheet.open.contains(&"case label".to_owned()), "{}: {:?}", sheet.title, sheet.open);
        assert_eq!(kind.is_about_ordering(), !sheet.stop.is_empty(), "{}: {:?}", sheet.title, sheet.stop);
        assert_eq!(kind.is_about_ordering(), words(&sheet).contains("VOID"), "{}", sheet.title);
    }
}

#[test]
fn letter_and_summary_take_one_page_in_letters_of_normal_size() {
    for case in demo::CASES {
        for kind in [SheetKind::School, SheetKind::Summary] {
            for paper in [Paper::A4, Paper::Letter] {
                let count = leaves(&of(kind, &case.case()), paper, false).len();
                assert_eq!(count, 1, "{}: {kind:?} on {paper:?}", case.id);
            }
        }
    }
}

/// Every aid of the list, as the one that is looked at: its own words, cautions and distances.
#[test]
fn every_sheet_of_every_aid_is_whole() {
    let mut draft = crate::reading::case("adult-20-160");
    for goal in 0..draft.goals.len() {
        draft.bench.goal = goal;
        for aid in &list::demo().list {
            draft.bench.aid = aid.id.clone();
            for kind in SheetKind::ALL {
                let sheet = of(kind, &draft);
                assert_eq!(faults(&sheet), [""; 0], "{}: {}", aid.id, sheet.title);
                assert_eq!(faults_of_leaves(&sheet), [""; 0], "{}: {}", aid.id, sheet.title);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn every_sheet_of_any_case_is_whole(draft in any_draft()) {
        for kind in SheetKind::ALL {
            let sheet = of(kind, &draft);
            prop_assert_eq!(faults(&sheet), Vec::<String>::new(), "{}", words(&sheet));
            prop_assert_eq!(faults_of_leaves(&sheet), Vec::<String>::new(), "{}", words(&sheet));
            prop_assert_eq!(&of(kind, &draft), &sheet, "the same case gives the same sheet");
        }
    }
}

#[test]
fn long_words_find_room_and_lose_nothing() {
    let mut draft = crate::reading::case("adult-20-160");
    let long = "Lives alone and wants to see who is at the door. ".repeat(40);
    let endless = "x".repeat(1500);
    draft.order.notes = format!("{long}{endless}");
    draft.goals[0].name = long.clone();
    draft.label = "9".repeat(300);
    let sheet = of(SheetKind::Order, &draft);
    assert_eq!(faults_of_leaves(&sheet), [""; 0]);
    let notes: String = sheet
        .blocks
        .iter()
        .filter_map(|block| match block {
            Block::Row(cells) if cells[0].starts_with("Notes") => Some(cells[1].replace(' ', "")),
            _ => None,
        })
        .collect();
    assert_eq!(notes, draft.order.notes.replace(' ', ""), "every letter of the notes, in order");
    assert!(sheet.label.chars().count() <= 61, "the label stays a label: {}", sheet.label);
}
