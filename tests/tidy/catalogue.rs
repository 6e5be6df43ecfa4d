//! Formulas, sources and references: each is used, each is cited.

use crate::rust::{Rust, code};
use crate::tree::{self, Except, File, except, without};
use arcminute_core::explain::{Expression, FORMULAS, Formula};
use arcminute_core::source::{self, Source};
use arcminute_web::model::words;
use std::collections::BTreeSet;

const CATALOGUE: &str = "core/src/explain/catalogue.rs";
const SOURCES: &str = "core/src/source.rs";

/// What the page calls a formula that it has no title for.
const NO_TITLE: &str = "Step";

/// Formulas that no result shows.
const UNSHOWN: &[Except] = &[
    except("REAL_FIELD_STOP", "for the sheet of formulas: the engine takes the stop as one more opening"),
    except(
        "PUPIL_OVERLAP",
        "for the sheet of formulas: the share of two discs is given bare, without working",
    ),
];

/// Sources that nothing rests on yet.
const UNCITED: &[Except] = &[];

/// Names of the constants of a table: lines that begin `NAME: "id"`.
fn constants(file: &File) -> Vec<String> {
    let name = |line: &str| {
        let (name, rest) = line.trim().split_once(": \"")?;
        let good = !rest.is_empty()
            && name.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_');
        good.then(|| name.to_owned())
    };
    file.text.lines().filter_map(name).collect()
}

fn found<'a>(files: &'a [File], path: &str) -> &'a File {
    files.iter().find(|file| file.path == path).expect("the table is where it was")
}

/// Constants of a table that no code outside it names.
fn unused(table: &File, rust: &[Rust], texts: &[File]) -> Vec<String> {
    let named: BTreeSet<&str> = rust
        .iter()
        .filter(|file| file.path != table.path)
        .flat_map(|file| &file.names)
        .flat_map(|name| name.parts.iter().map(String::as_str))
        .collect();
    let linked = |name: &String| {
        let link = format!("source::{name}`]");
        texts.iter().any(|file| file.path != table.path && file.text.contains(&link))
    };
    constants(table)
        .into_iter()
        .filter(|name| !named.contains(name.as_str()) && !linked(name))
        .map(|name| format!("{}: {name} is used nowhere", table.path))
        .collect()
}

/// What is wrong with a list of formulas.
fn faulty(formulas: &[&Formula], sources: &[&Source]) -> Vec<String> {
    let mut ids = BTreeSet::new();
    let mut found = Vec::new();
    for formula in formulas {
        let Formula { id, gives, text, domain, source } = formula;
        let mut say = |bad: bool, what: &str| {
            if bad {
                found.push(format!("formula {id}: {what}"));
            }
        };
        say(!ids.insert(*id), "its id stands twice");
        say(!sources.contains(source), "its source is not in the list");
        say(gives.is_empty(), "it does not say what it gives");
        say(domain.is_empty(), "it does not say where it holds");
        say(Expression::parse(text).is_err(), "its text is no formula");
        say(words::title_on_sheet(id) == NO_TITLE, "it has no title on the page");
    }
    found
}

/// What a reference test may say instead of a work.
const GROUNDS: &[&str] = &["Source:", "common practice, no source", "computed", "measurement", "Law:"];

/// Reference tests whose comment names no source.
fn sourceless(files: &[File]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.is_in(&["tests/reference/"]) && file.ends(".rs")) {
        let mut comment = String::new();
        let mut is_test = false;
        for (index, line) in file.text.lines().map(str::trim).enumerate() {
            if let Some(said) = line.strip_prefix("///") {
                comment.push_str(said);
            } else if line == "#[test]" {
                is_test = true;
            } else if !line.starts_with("#[") {
                if is_test && !GROUNDS.iter().any(|ground| comment.contains(ground)) {
                    found.push(format!("{}:{}: `{line}` names no source", file.path, index + 1));
                }
                comment.clear();
                is_test = false;
            }
        }
    }
    found
}

const NO_REFERENCE: &[Except] = &[except("tests/reference/support.rs", "it tests the helper, not a value")];

#[test]
fn every_formula_is_whole() {
    crate::nothing(&faulty(FORMULAS, source::ALL));
    static ELSEWHERE: Source =
        Source { id: "elsewhere", citation: "planted", standing: source::Standing::Published };
    static PLANTED: Formula =
        Formula { id: "planted", gives: "", text: "a +", domain: "", source: &ELSEWHERE };
    crate::planted(
        &faulty(&[FORMULAS[0], FORMULAS[0], &PLANTED], source::ALL),
        &[
            "formula mar-from-fraction: its id stands twice",
            "formula planted: its source is not in the list",
            "formula planted: it does not say what it gives",
            "formula planted: it does not say where it holds",
            "formula planted: its text is no formula",
            "formula planted: it has no title on the page",
        ],
    );
}

#[test]
fn every_formula_and_every_source_is_used() {
    let files = tree::all();
    let rust = code(&files, &["core/src/", "web/src/"]);
    let (catalogue, sources) = (found(&files, CATALOGUE), found(&files, SOURCES));
    assert_eq!(constants(catalogue).len(), FORMULAS.len(), "the names of the formulas are all found");
    assert_eq!(constants(sources).len(), source::ALL.len(), "the names of the sources are all found");
    crate::nothing(&without(unused(catalogue, &rust, &[]), UNSHOWN));
    let texts: Vec<File> =
        files.iter().filter(|file| file.is_in(&["core/src/", "web/src/"])).cloned().collect();
    crate::nothing(&without(unused(sources, &rust, &texts), UNCITED));
    let table =
        File::planted("table.rs", "    ONE: \"one\", x;\n    TWO: \"two\", y;\n    THREE: \"three\", z;");
    let user = File::planted("core/src/a.rs", "/// [`crate::source::THREE`], TWO\nfn f() { formula::ONE }");
    crate::planted(
        &unused(&table, &code(std::slice::from_ref(&user), &["core/src/"]), &[user]),
        &["table.rs: TWO is used nowhere"],
    );
}

#[test]
fn every_reference_test_names_its_source() {
    crate::nothing(&without(sourceless(&tree::all()), NO_REFERENCE));
    let planted = "/// Source: a work.\n#[test]\nfn one() {}\n\n/// A claim.\n#[test]\nfn two() {}\n";
    crate::planted(
        &sourceless(&[File::planted("tests/reference/a.rs", planted)]),
        &["tests/reference/a.rs:7: `fn two() {}` names no source"],
    );
}
