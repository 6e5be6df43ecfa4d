//! Style sheet and markup agree: what is named in one is there in the other.

use crate::rust::{Rust, code};
use crate::tree::{self, Except, File, without};
use arcminute_web::model::answer::{Answer, FitAnswer};
use arcminute_web::model::demo;
use arcminute_web::plot::frame_front;
use std::collections::{BTreeMap, BTreeSet};

/// Classes in the markup that the style sheet does not name.
const UNSTYLED: &[Except] = &[];
/// Selectors of the style sheet that no markup has.
const UNUSED: &[Except] = &[];

/// Classes (`.name`) and ids (`#name`) that a style sheet names, with where.
fn selectors(sheet: &File) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut prelude = String::new();
    let mut line = 1;
    let mut text = sheet.text.as_str();
    while let Some(first) = text.chars().next() {
        if let Some(comment) = text.strip_prefix("/*") {
            let end = comment.find("*/").map_or(comment.len(), |end| end + 2);
            line += comment[..end].matches('\n').count();
            text = &comment[end..];
            continue;
        }
        match first {
            '{' => {
                if !prelude.trim_start().starts_with('@') {
                    for name in names(&prelude) {
                        found.entry(name).or_insert_with(|| format!("{}:{line}", sheet.path));
                    }
                }
                prelude.clear();
            }
            '}' | ';' => prelude.clear(),
            other => prelude.push(other),
        }
        line += usize::from(first == '\n');
        text = &text[first.len_utf8()..];
    }
    found
}

/// `.a` and `#b` in a selector.
fn names(selector: &str) -> Vec<String> {
    let mut names = Vec::new();
    for (at, sign) in selector.match_indices(['.', '#']) {
        let rest = &selector[at + 1..];
        let end = rest.find(|c: char| !c.is_alphanumeric() && c != '-' && c != '_').unwrap_or(rest.len());
        if rest.starts_with(|c: char| c.is_ascii_alphabetic()) {
            names.push(format!("{sign}{}", &rest[..end]));
        }
    }
    names
}

/// Classes that the markup and the pictures give, with where: `class="a b"`, `class: "a"`, `class:a=`.
fn classes(files: &[File], rust: &[Rust]) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for file in rust {
        for text in file.strings.iter().filter(|text| {
            let before = text.before.as_str();
            before.ends_with("class=") || before.ends_with("class:")
        }) {
            for class in text.text.split_whitespace().filter(|class| !class.contains(['{', '\\'])) {
                found.entry(format!(".{class}")).or_insert_with(|| format!("{}:{}", file.path, text.line));
            }
        }
    }
    for file in files.iter().filter(|file| file.is_in(&["web/src/ui/", "web/src/page/", "web/src/app.rs"])) {
        for (index, line) in file.text.lines().enumerate() {
            for rest in line.split("class:").skip(1) {
                let end = rest.find(|c: char| !c.is_alphanumeric() && c != '-').unwrap_or(rest.len());
                if 0 < end && rest[end..].starts_with('=') {
                    let place = format!("{}:{}", file.path, index + 1);
                    found.entry(format!(".{}", &rest[..end])).or_insert(place);
                }
            }
        }
    }
    found
}

/// Every word of a string that consists of nothing but words a class or an id may be.
fn words(files: &[File], rust: &[Rust]) -> BTreeSet<String> {
    let may_be = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-' || c == ' ';
    let mut found: BTreeSet<String> = rust
        .iter()
        .flat_map(|file| &file.strings)
        .filter(|text| text.text.chars().all(may_be))
        .flat_map(|text| text.text.split_whitespace().map(str::to_owned))
        .collect();
    let page = files.iter().filter(|file| file.path == "index.html");
    found.extend(page.flat_map(|file| file.text.split('"').skip(1).step_by(2).map(str::to_owned)));
    found.extend(classes(files, rust).into_keys().map(|class| class[1..].to_owned()));
    found
}

fn unstyled(given: &BTreeMap<String, String>, sheets: &BTreeMap<String, String>) -> Vec<String> {
    let missing = given.iter().filter(|(class, _)| !sheets.contains_key(*class));
    missing.map(|(class, place)| format!("{place}: class `{}` is in no style sheet", &class[1..])).collect()
}

fn unused(sheets: &BTreeMap<String, String>, given: &BTreeSet<String>) -> Vec<String> {
    let useless = sheets.iter().filter(|(name, _)| !given.contains(&name[1..]));
    useless.map(|(name, place)| format!("{place}: `{name}` is given by nothing")).collect()
}

fn sheets(files: &[File]) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    for sheet in files.iter().filter(|file| file.is_in(&["web/style/"]) && file.ends(".css")) {
        all.extend(selectors(sheet));
    }
    all
}

#[test]
fn every_class_has_its_style() {
    let files = tree::all();
    let rust = code(&files, &["web/src/"]);
    let given = classes(&files, &rust);
    assert!(50 < given.len(), "only {} classes were found", given.len());
    crate::nothing(&without(unstyled(&given, &sheets(&files)), UNSTYLED));
    let planted = [File::planted(
        "web/src/ui/a.rs",
        "view! { <p class=\"seen unseen\" class:off=x> }\nA { class: \"gone\" }",
    )];
    let sheet = selectors(&File::planted("a.css", ".seen { }"));
    crate::planted(
        &unstyled(&classes(&planted, &code(&planted, &["web/src/"])), &sheet),
        &[
            "web/src/ui/a.rs:2: class `gone` is in no style sheet",
            "web/src/ui/a.rs:1: class `off` is in no style sheet",
            "web/src/ui/a.rs:1: class `unseen` is in no style sheet",
        ],
    );
}

#[test]
fn every_selector_has_its_markup() {
    let files = tree::all();
    let rust = code(&files, &["web/src/"]);
    crate::nothing(&without(unused(&sheets(&files), &words(&files, &rust)), UNUSED));
    let css = "/* .no */ @media (min-width: 0.5rem) { .a, p.b:not(.c) > #d { color: #fff; margin: .5em } }";
    let sheet = selectors(&File::planted("a.css", css));
    assert_eq!(sheet.keys().map(String::as_str).collect::<Vec<_>>(), ["#d", ".a", ".b", ".c"]);
    let given = BTreeSet::from(["a".to_owned(), "b".to_owned(), "d".to_owned()]);
    crate::planted(&unused(&sheet, &given), &["a.css:1: `.c` is given by nothing"]);
}

/// Classes of the shapes of a real picture, which the text of the program does not show next to the word `class`.
#[test]
fn the_frame_of_every_case_is_styled() {
    let sheets = sheets(&tree::all());
    let mut drawn = BTreeSet::new();
    for case in demo::CASES {
        if let FitAnswer::Done(done) = Answer::of(&case.case()).fit {
            let svg = frame_front(&done.request.frame, &[done.mounting]).svg();
            for classes in svg.split("class=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
                drawn.extend(classes.split_whitespace().map(|class| format!(".{class}")));
            }
        }
    }
    assert!(10 < drawn.len(), "the frames have shapes: {drawn:?}");
    let missing: Vec<String> = drawn.into_iter().filter(|class| !sheets.contains_key(class)).collect();
    crate::nothing(&missing);
}
