//! The accessibility rules find what is planted and are content with what is right.

use super::{open, open_fixture};
use crate::axe;
use crate::driver::Options;
use crate::fixture;

#[test]
fn content_with_a_good_page_under_its_policy() {
    let (page, _folder) = open_fixture(&Options::desktop());
    axe::assert_clean(&page);
    crate::see::no_errors(&page);
}

#[test]
fn finds_planted_faults() {
    // Grey on white at 4.6 to 1: enough at AA, too little at AAA. Then none at all for the label.
    let body = "<main><h1>Faulty</h1><p id=\"faint\">faint words</p><input id=\"nameless\"></main>";
    let (page, _folder) = open(&fixture::single_file_with(body), &Options::desktop());
    page.script("document.getElementById('faint').style.color = '#757575'", &[]);
    let report = axe::run(&page);
    let found: Vec<(&str, &str)> =
        report.faults.iter().map(|fault| (fault.rule.as_str(), fault.html.as_str())).collect();
    let contrast = "<p id=\"faint\" style=\"color: rgb(117, 117, 117);\">faint words</p>";
    assert!(found.contains(&("color-contrast-enhanced", contrast)), "{found:?}");
    assert!(found.contains(&("label", "<input id=\"nameless\">")), "{found:?}");
    assert_eq!(found.len(), 2, "and nothing else: {found:?}");
    assert!(report.faults[0].message.contains("contrast"), "says why: {}", report.faults[0]);
    page.script("document.getElementById('faint').style.color = '#999'", &[]);
    let rules: Vec<String> = axe::run(&page).faults.into_iter().map(|fault| fault.rule).collect();
    assert!(rules.contains(&"color-contrast".to_owned()), "fails at AA too: {rules:?}");
}

#[test]
fn is_unsure_about_words_on_a_picture() {
    let body = "<main><h1>Words</h1><p id=\"over\">on a gradient</p></main>";
    let (page, _folder) = open(&fixture::single_file_with(body), &Options::desktop());
    page.script("document.getElementById('over').style.background = 'linear-gradient(#fff, #777)'", &[]);
    let unsure = axe::run(&page).unsure;
    assert!(unsure.iter().any(|fault| fault.rule.starts_with("color-contrast")), "{unsure:?}");
}
