//! The sheet of formulas is that of the catalogue and of the results, and holds every formula once, with an example.

use arcminute_core::explain::{Expression, FORMULAS, Named, Step};
use arcminute_tests::samples::Samples;
use arcminute_tests::{root, sheet};
use std::fs::read_to_string;

fn samples() -> Samples {
    Samples::all().expect("every sample is possible")
}

#[test]
fn the_sheet_in_the_tree_is_up_to_date() {
    let text = read_to_string(root().join(sheet::PATH)).unwrap_or_default();
    let page = sheet::page().expect("every formula has an example");
    assert!(text == page, "{} is not what the core says; run `cargo xtask formulas --write`", sheet::PATH);
}

#[test]
fn every_sample_agrees_with_its_formulas() {
    let wrong: Vec<String> = samples().steps().iter().filter_map(|step| step.check().err()).collect();
    assert_eq!(wrong, [""; 0]);
}

#[test]
fn every_formula_stands_on_the_sheet_once() {
    let page = sheet::page().expect("every formula has an example");
    for formula in FORMULAS {
        let entries = page.matches(&format!("<article id=\"{}\">", formula.id)).count();
        assert_eq!(entries, 1, "{}", formula.id);
    }
    assert_eq!(page.matches("<article ").count(), FORMULAS.len());
    let lines = page.lines().filter(|line| line.contains("<math ")).count();
    assert_eq!(lines, FORMULAS.len(), "each formula is written out");
}

/// A tag that is opened is closed in its turn, so that a browser shows what is meant.
#[test]
fn its_tags_are_balanced() {
    let page = sheet::page().expect("every formula has an example");
    let mut open: Vec<&str> = Vec::new();
    for tag in page.split('<').skip(1).filter_map(|rest| rest.split('>').next()) {
        let name = tag.trim_start_matches('/').split([' ', '\n']).next().unwrap_or_default();
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(name), "in `<{tag}>`");
        } else if !["!doctype", "meta"].contains(&name) {
            open.push(name);
        }
    }
    assert_eq!(open, [""; 0]);
    for word in ["<script", "javascript:", "http://", "https://", "src="] {
        assert!(!page.contains(word), "the sheet needs nothing but itself: `{word}`");
    }
}

/// Who puts the printed numbers into the printed formula gets the printed result, to half a per cent.
#[test]
fn the_examples_can_be_reckoned_again() {
    let samples = samples();
    let rounded = |value: &Named| sheet::printed(value).parse::<f64>().expect("a number is printed");
    let mut wrong = Vec::new();
    for formula in FORMULAS {
        let Some(Step::Formula { result, inputs, .. }) = samples.first(formula) else { continue };
        let expression = Expression::parse(formula.text).expect("the catalogue is well formed");
        let lookup = |name: &str| inputs.iter().find(|input| input.symbol == name).map(rounded);
        let again = expression.value(&lookup).expect("every input is printed");
        let printed = rounded(result);
        if (again - printed).abs() > 0.005 * printed.abs() + 1e-3 {
            wrong.push(format!("{}: {again} for {printed}", formula.id));
        }
    }
    assert_eq!(wrong, [""; 0]);
}
