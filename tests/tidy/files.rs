//! What every file must be like.

use crate::tree::{self, File};

/// Most lines of a Rust file.
const MOST_LINES: usize = 500;

/// Files without the comment at their head that says what they are for.
fn heads(files: &[File]) -> Vec<String> {
    let rust = files.iter().filter(|file| file.ends(".rs"));
    rust.filter(|file| !file.text.starts_with("//! "))
        .map(|file| format!("{}: does not begin with a `//!` comment", file.path))
        .collect()
}

fn lengths(files: &[File]) -> Vec<String> {
    let lines = |file: &File| file.text.lines().count();
    let long = files.iter().filter(|file| file.ends(".rs") && MOST_LINES < lines(file));
    long.map(|file| format!("{}: {} lines; split it", file.path, lines(file))).collect()
}

fn blanks(files: &[File]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| !file.path.starts_with("LICENSE") && !file.ends(".txt")) {
        for (index, line) in file.text.lines().enumerate() {
            if line.ends_with([' ', '\t', '\r']) {
                found.push(format!("{}:{}: blanks at the end of the line", file.path, index + 1));
            }
        }
        if !file.text.is_empty() && (!file.text.ends_with('\n') || file.text.ends_with("\n\n")) {
            found.push(format!("{}: does not end with one line feed", file.path));
        }
    }
    found
}

/// What must not stand in a Rust file. Written in two pieces, so that this file does not hold them itself.
const NEVER: &[(&str, &str)] = &[
    (concat!("#[ig", "nore"), "a test that does not run proves nothing"),
    (concat!("#[should", "_panic"), "say which error is meant, with expect_err or catch_unwind"),
    (concat!("to", "do!("), "finish it, or leave it out"),
    (concat!("unimple", "mented!("), "finish it, or leave it out"),
    (concat!("db", "g!("), "it is for the one who looks for a fault"),
];

fn unfinished(files: &[File]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.ends(".rs")) {
        for (index, line) in file.text.lines().enumerate() {
            for (never, because) in NEVER.iter().filter(|(never, _)| line.contains(never)) {
                found.push(format!("{}:{}: `{never}`: {because}", file.path, index + 1));
            }
        }
    }
    found
}

/// Style attributes: the page's policy makes browsers drop them.
fn inline_styles(files: &[File]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.is_in(&["web/src/", "index.html"])) {
        for (index, line) in file.text.lines().enumerate() {
            let dense = line.replace(' ', "");
            if dense.contains("style=\"") || dense.contains("style:") || dense.contains("style=move") {
                found.push(format!(
                    "{}:{}: a style in the markup, which the policy blocks",
                    file.path,
                    index + 1
                ));
            }
        }
    }
    found
}

#[test]
fn every_module_says_what_it_is_for() {
    crate::nothing(&heads(&tree::all()));
    let planted =
        [File::planted("core/src/a.rs", "use b;\n"), File::planted("core/src/b.rs", "//! What it is for.\n")];
    crate::planted(&heads(&planted), &["core/src/a.rs: does not begin with a `//!` comment"]);
}

#[test]
fn no_file_is_too_long() {
    crate::nothing(&lengths(&tree::all()));
    let planted = |lines: usize| [File::planted("core/src/a.rs", &"x\n".repeat(lines))];
    crate::planted(&lengths(&planted(501)), &["core/src/a.rs: 501 lines; split it"]);
    crate::planted(&lengths(&planted(500)), &[]);
}

#[test]
fn lines_end_where_they_end() {
    crate::nothing(&blanks(&tree::all()));
    let planted = [
        File::planted("a.md", "one \ntwo\n"),
        File::planted("b.md", "one"),
        File::planted("c.md", "one\n\n"),
    ];
    crate::planted(
        &blanks(&planted),
        &[
            "a.md:1: blanks at the end of the line",
            "b.md: does not end with one line feed",
            "c.md: does not end with one line feed",
        ],
    );
}

#[test]
fn nothing_is_left_unfinished() {
    crate::nothing(&unfinished(&tree::all()));
    for (never, because) in NEVER {
        let planted = [File::planted("core/src/a.rs", &format!("//! A.\n    {never}\n"))];
        crate::planted(&unfinished(&planted), &[&format!("core/src/a.rs:2: `{never}`: {because}")]);
    }
}

#[test]
fn styles_stand_in_the_style_sheet() {
    crate::nothing(&inline_styles(&tree::all()));
    for text in ["<p style=\"color: red\">", "<p style:color=\"red\">", "<p style=move || x>"] {
        let found = inline_styles(&[File::planted("web/src/page/a.rs", text)]);
        crate::planted(&found, &["web/src/page/a.rs:1: a style in the markup, which the policy blocks"]);
    }
}
