//! `NOTICE`: the licences of everything that the page is built from. It is written by this module, kept with the project, and
//! travels with both flavours of the page.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::{Outcome, paths, run};

const ADVICE: &str = "see the message above; `cargo build` must work first";
const MIT: &str = include_str!("../notice/mit.txt");
const HEAD: &str = include_str!("../notice/head.txt");

/// A licence that we can keep to by printing its text and the holders of the rights.
struct Licence {
    id: &'static str,
    text: &'static str,
}

/// In order of preference: where a crate offers a choice, the first one here is taken.
const LICENCES: &[Licence] = &[
    Licence { id: "MIT", text: MIT },
    Licence { id: "Zlib", text: include_str!("../notice/zlib.txt") },
    Licence { id: "Unicode-3.0", text: include_str!("../notice/unicode.txt") },
    Licence { id: "BSL-1.0", text: include_str!("../notice/boost.txt") },
];

#[derive(Debug, Default)]
struct Package {
    expression: String,
    folder: PathBuf,
    authors: Vec<String>,
}

/// Name and version.
type Id = (String, String);

/// Writes the file.
pub(crate) fn write() -> Outcome {
    paths::write(&paths::root().join("NOTICE"), text()?)?;
    println!("Wrote NOTICE.");
    Ok(())
}

/// Checks that the file is what [`write()`] would write.
pub(crate) fn check() -> Outcome {
    if paths::read("NOTICE").is_ok_and(|kept| Ok(kept) == text()) {
        return Ok(());
    }
    Err("NOTICE is not up to date with what the page is built from; write it anew with `cargo xtask notice`"
        .into())
}

fn text() -> Outcome<String> {
    let all = packages()?;
    let mut by_licence: BTreeMap<usize, String> = BTreeMap::new();
    for id in in_the_page()? {
        let package = all.get(&id).ok_or_else(|| format!("cargo knows nothing of {} {}", id.0, id.1))?;
        let holders = holders(&package.folder).unwrap_or_else(|| package.authors.clone());
        let holders = if holders.is_empty() { "its authors".to_owned() } else { holders.join("; ") };
        for licence in licences(&package.expression).map_err(|error| format!("{} {}: {error}", id.0, id.1))? {
            *by_licence.entry(licence).or_default() += &format!("{} {}: {holders}\n", id.0, id.1);
        }
    }
    let mut text = HEAD.to_owned();
    let mut section = |title: &str, terms: &str| {
        text += &format!("\n{}\n{title}\n\n{}\n", "-".repeat(80), terms.trim_end())
    };
    for (licence, list) in by_licence {
        let Licence { id, text: terms } = &LICENCES[licence];
        section(&format!("Under the {id} licence"), &format!("{list}\n{terms}"));
    }
    section(
        "The typeface, a modified version of Atkinson Hyperlegible Next",
        &paths::read("web/fonts/OFL.txt")?,
    );
    Ok(text)
}

/// The crates that are compiled into the program, ours and the compile-time ones left out.
fn in_the_page() -> Outcome<BTreeSet<Id>> {
    let mut cargo =
        run::cargo(&["tree", "--locked", "--package", "arcminute-web", "--target", "wasm32-unknown-unknown"]);
    cargo.args(["--edges", "normal,no-proc-macro", "--prefix", "none", "--format", "{p}"]);
    let list = run::capture(&mut cargo, ADVICE)?;
    // Our own are printed with their folder.
    let ours = format!("({}", paths::root().display());
    Ok(list.lines().filter(|line| !line.contains(&ours)).filter_map(id).collect())
}

/// `name v1.2.3 (*)` as cargo prints it.
fn id(line: &str) -> Option<Id> {
    let mut words = line.split_whitespace();
    let name = words.next()?;
    Some((name.to_owned(), words.next()?.strip_prefix('v')?.to_owned()))
}

fn packages() -> Outcome<BTreeMap<Id, Package>> {
    let json = run::capture(&mut run::cargo(&["metadata", "--locked", "--format-version", "1"]), ADVICE)?;
    let metadata: Value =
        serde_json::from_str(&json).map_err(|error| format!("cannot read cargo's metadata: {error}"))?;
    let text = |package: &Value, key: &str| package[key].as_str().unwrap_or_default().to_owned();
    let read = |package: &Value| {
        let manifest = PathBuf::from(text(package, "manifest_path"));
        let authors = package["authors"].as_array().into_iter().flatten().filter_map(Value::as_str);
        let details = Package {
            expression: text(package, "license"),
            folder: manifest.parent().unwrap_or(Path::new("")).to_owned(),
            authors: authors.map(|author| author.split(" <").next().unwrap_or(author).to_owned()).collect(),
        };
        ((text(package, "name"), text(package, "version")), details)
    };
    Ok(metadata["packages"].as_array().into_iter().flatten().map(read).collect())
}

/// Which of [`LICENCES`] to keep to for a licence expression: for each part joined by AND, the first known one offered.
fn licences(expression: &str) -> Outcome<Vec<usize>> {
    let part = |part: &str| {
        let offered: Vec<&str> =
            part.trim_matches(['(', ')', ' ']).split(" OR ").flat_map(|one| one.split('/')).collect();
        LICENCES.iter().position(|licence| offered.contains(&licence.id)).ok_or_else(|| {
            format!("its licence `{part}` is not one that NOTICE covers; add its text to xtask/notice/ or leave the crate out")
        })
    };
    expression.split(" AND ").map(part).collect()
}

/// The copyright lines of a crate's licence file.
fn holders(folder: &Path) -> Option<Vec<String>> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .ok()?
        .flatten()
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    let named = |part: &str| names.iter().find(|name| name.to_uppercase().starts_with(part));
    let file = ["LICENSE-MIT", "LICENSE-ZLIB", "LICENSE", "COPYING"].into_iter().find_map(named)?;
    let found = copyright_lines(&std::fs::read_to_string(folder.join(file)).ok()?);
    (!found.is_empty()).then_some(found)
}

fn copyright_lines(text: &str) -> Vec<String> {
    let is_one = |line: &&str| {
        let rest = line.strip_prefix("Copyright ").unwrap_or_default();
        rest.starts_with(|c: char| c == '(' || c == '©' || c.is_ascii_digit()) || rest.starts_with("The ")
    };
    let mut lines: Vec<String> = text.lines().map(str::trim).filter(is_one).map(str::to_owned).collect();
    lines.dedup();
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(expression: &str) -> Outcome<Vec<&'static str>> {
        Ok(licences(expression)?.into_iter().map(|licence| LICENCES[licence].id).collect())
    }

    #[test]
    fn a_choice_takes_the_licence_we_print() {
        assert_eq!(names("MIT OR Apache-2.0"), Ok(vec!["MIT"]));
        assert_eq!(names("Unlicense/MIT"), Ok(vec!["MIT"]));
        assert_eq!(names("(MIT OR Apache-2.0) AND Unicode-3.0"), Ok(vec!["MIT", "Unicode-3.0"]));
    }

    #[test]
    fn a_licence_without_a_text_is_refused() {
        assert!(names("GPL-3.0-only").expect_err("this must fail").contains("`GPL-3.0-only`"));
        assert!(names("MIT AND GPL-3.0-only").is_err());
        assert!(names("").is_err());
    }

    #[test]
    fn only_lines_that_name_a_holder_are_copied() {
        let text = "  Copyright (c) 2020 A\nCopyright notice\nCOPYRIGHT HOLDERS\nCopyright 2021 B\nCopyright [yyyy] [name]";
        assert_eq!(copyright_lines(text), ["Copyright (c) 2020 A", "Copyright 2021 B"]);
    }

    #[test]
    fn a_line_of_the_tree_names_a_crate() {
        assert_eq!(id("leptos v0.8.23 (*)"), Some(("leptos".into(), "0.8.23".into())));
        assert_eq!(id(""), None);
    }
}
