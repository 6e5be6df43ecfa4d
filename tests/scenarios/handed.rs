//! Files for other systems, of any case one may type: the table comes back exactly, and no spreadsheet runs anything in it.

use crate::random::any_draft;
use arcminute_tests::fhir::faults;
use arcminute_web::model::answer::{Answer, FieldState};
use arcminute_web::model::draft::Draft;
use arcminute_web::model::field::{FieldId, Kind};
use arcminute_web::model::handed::csv::{HEADINGS, numbers, read_back};
use arcminute_web::model::handed::fhir::{self, Made};
use proptest::prelude::*;

/// The cells of a table by a road of its own: states of a machine over the signs, of RFC 4180 only what is quoted.
fn cells(table: &str) -> Vec<Vec<String>> {
    let mut rows = vec![vec![]];
    let mut rest = table.strip_prefix('\u{feff}').expect("the mark of UTF-8 stands first");
    while let Some(inside) = rest.strip_prefix('"') {
        let mut cell = String::new();
        let mut signs = inside.char_indices();
        let end = loop {
            let (place, sign) = signs.next().expect("a cell ends");
            if sign != '"' {
                cell.push(sign);
            } else if inside[place + 1..].starts_with('"') {
                cell.push('"');
                signs.next();
            } else {
                break place + 1;
            }
        };
        rows.last_mut().expect("a row").push(cell);
        rest = &inside[end..];
        if let Some(after) = rest.strip_prefix(',') {
            rest = after;
        } else {
            rest = rest.strip_prefix("\r\n").expect("a row ends as RFC 4180 has it");
            rows.push(vec![]);
        }
    }
    assert_eq!((rest, rows.pop()), ("", Some(vec![])), "nothing stands outside of cells");
    rows
}

/// Whether a spreadsheet takes it for more than text or a number: a formula, or a date of a bare fraction.
fn is_taken_for_more(cell: &str) -> bool {
    let fraction = cell.split_once('/').is_some_and(|(above, below)| {
        [above, below].iter().all(|part| part.trim().parse::<f64>().is_ok_and(f64::is_finite))
    });
    fraction || cell.trim_start().starts_with(['=', '+', '-', '@']) || cell.starts_with(['\t', '\r'])
}

/// What is typed in boxes of numbers, in the order of the table.
fn typed(draft: &Draft, answer: &Answer) -> Vec<String> {
    let is_told = |field: &FieldId| {
        let kind = field.goal().map(|goal| draft.goals[goal].kind);
        field.info().kind != Kind::Words
            && kind.is_none_or(|kind| field.is_of(kind))
            && !matches!(answer.field(*field), FieldState::Empty { .. })
            && !field.text(draft).trim().is_empty()
    };
    let fields = FieldId::all(draft.goals.len()).into_iter().filter(is_told);
    fields.map(|field| field.text(draft).to_owned()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(1_000) })]

    /// Everything typed comes back exactly, and no cell is more than text or a number.
    #[test]
    fn a_table_comes_back_exactly_and_runs_nothing(mut draft in any_draft(), junk in any::<String>()) {
        draft.label = junk;
        let answer = Answer::of(&draft);
        let table = numbers(&draft, &answer);
        let written = cells(&table);
        prop_assert_eq!(&written[0], &HEADINGS);
        for cell in written.iter().flatten() {
            prop_assert!(!is_taken_for_more(cell), "{:?}", cell);
        }
        let rows = read_back(&table).expect("it is read back");
        prop_assert_eq!(rows.len() + 1, written.len());
        let mut values = rows.iter().map(|row| &row[1]);
        for text in typed(&draft, &answer) {
            prop_assert!(values.any(|value| *value == text), "{:?} did not come back, in its order", text);
        }
        // The guard is one sign before the cell, or none.
        for (row, cells) in rows.iter().zip(&written[1..]) {
            for (read, cell) in row.iter().zip(cells) {
                prop_assert!(cell == read || cell.strip_prefix('\'') == Some(read), "{:?} of {:?}", read, cell);
            }
        }
    }

    /// Any case is a document in which our own checks find nothing.
    #[test]
    fn any_case_is_a_document_without_a_fault(mut draft in any_draft(), label in any::<String>(), ids in any::<[u8; 16]>()) {
        draft.label = label;
        let made = Made { at: "2026-11-29T10:15:00Z", build: "0.1.0", ids };
        let text = fhir::written(&draft, &Answer::of(&draft), &made);
        prop_assert_eq!(faults(&text), [""; 0], "{}", text);
    }
}

#[test]
fn the_road_of_the_test_sees_what_a_spreadsheet_would_run() {
    for run in ["+2.00", "-1.50", "=1+1", "@x", " =1", "\t1", "\r1", "6/12", "3 / 60", "1.5/2"] {
        assert!(is_taken_for_more(run), "{run:?}");
    }
    for plain in ["'+2.00", "2.00", "CF 1 m", "'6/12", "20/160-2", "a/b", ""] {
        assert!(!is_taken_for_more(plain), "{plain:?}");
    }
}

/// Fitting case 15. Source: what a spreadsheet takes for a formula or a date, common practice, and RFC 4180 for the cells.
#[test]
fn fitting_case_15_a_table_that_no_spreadsheet_changes() {
    for text in ["+2.00", "-1.50", "6/12", "=1+1", "@a", "\"", "a,b", ""] {
        let draft = Draft { label: text.into(), ..Draft::default() };
        let table = numbers(&draft, &Answer::of(&draft));
        for cell in cells(&table).iter().flatten() {
            assert!(!cell.starts_with(['+', '-', '=', '@']), "{cell:?}");
            assert!(!is_taken_for_more(cell), "{cell:?}");
        }
        let rows = read_back(&table).expect("it is read back");
        let label = rows.iter().find(|row| row[0] == "Case label").map(|row| row[1].as_str());
        assert_eq!(label, Some(if text.is_empty() { "not filled in" } else { text }), "{rows:?}");
    }
    let mut draft = Draft::default();
    draft.person.right.acuity = "6/12".into();
    draft.person.right.refraction = "+2.00".into();
    draft.person.left.refraction = "-1.50".into();
    let rows = read_back(&numbers(&draft, &Answer::of(&draft))).expect("it is read back");
    for typed in ["6/12", "+2.00", "-1.50"] {
        assert!(rows.iter().any(|row| row[1] == typed), "{typed}: {rows:?}");
    }
}
