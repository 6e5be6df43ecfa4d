//! Rust text as the rules see it: code without comments, without the insides of strings, without its tests.

use crate::tree::File;
use std::collections::BTreeSet;

/// A Rust file, taken apart.
pub(crate) struct Rust {
    /// Path from the top.
    pub(crate) path: String,
    /// Paths of names in the code, tests left out.
    pub(crate) names: Vec<Name>,
    /// Strings in the code, tests left out.
    pub(crate) strings: Vec<Text>,
}

/// A path of names, groups taken apart: `use a::{b, c::d}` is `a::b` and `a::c::d`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Name {
    /// Line, from 1.
    pub(crate) line: usize,
    /// The names.
    pub(crate) parts: Vec<String>,
    /// Whether a point stands before it, as before a method or a field.
    pub(crate) dotted: bool,
    /// Whether a bracket follows, as after a function.
    pub(crate) called: bool,
}

/// A string in the code.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Text {
    /// Line it begins on, from 1.
    pub(crate) line: usize,
    /// What stands between the quotes, escapes as written.
    pub(crate) text: String,
    /// The code just before it on its line, without blanks.
    pub(crate) before: String,
}

impl Name {
    /// Whether one of its parts is one of these.
    pub(crate) fn has(&self, words: &[&str]) -> bool {
        self.parts.iter().any(|part| words.contains(&part.as_str()))
    }
    /// As written.
    pub(crate) fn written(&self) -> String {
        self.parts.join("::")
    }
}

/// Files of these folders, taken apart; test modules are left out whole.
pub(crate) fn code(files: &[File], folders: &[&str]) -> Vec<Rust> {
    let tests = test_modules(files);
    files
        .iter()
        .filter(|file| file.ends(".rs") && file.is_in(folders))
        .filter(|file| {
            let module = file.path.trim_end_matches(".rs").trim_end_matches("/mod");
            !tests.iter().any(|test| module == test || module.starts_with(&format!("{test}/")))
        })
        .map(taken_apart)
        .collect()
}

/// Modules that files declare under `#[cfg(test)]`, as paths without ending.
fn test_modules(files: &[File]) -> BTreeSet<String> {
    let mut modules = BTreeSet::new();
    for file in files.iter().filter(|file| file.ends(".rs")) {
        let stem = file.path.trim_end_matches(".rs");
        let (folder, name) = stem.rsplit_once('/').unwrap_or(("", stem));
        let folder = if matches!(name, "mod" | "lib" | "main") { folder } else { stem };
        let mut under_test = false;
        for line in file.text.lines().map(str::trim) {
            let module = line.strip_prefix("mod ").and_then(|rest| rest.strip_suffix(';'));
            modules.extend(module.filter(|_| under_test).map(|module| format!("{folder}/{module}")));
            under_test = line == "#[cfg(test)]" || (under_test && line.starts_with("#["));
        }
    }
    modules
}

fn taken_apart(file: &File) -> Rust {
    let (mut code, strings) = scrubbed(&file.text);
    let tests = blank_tests(&mut code);
    let in_tests = |at: usize| tests.iter().any(|(from, to)| *from <= at && at < *to);
    let strings = strings
        .into_iter()
        .filter(|(at, _)| !in_tests(*at))
        .map(|(at, text)| {
            let line = line_of(&code, at);
            let mut before: Vec<char> =
                code[..at].iter().rev().take_while(|c| **c != '\n').copied().collect();
            before.reverse();
            Text { line, text, before: before.into_iter().filter(|c| !c.is_whitespace()).collect() }
        })
        .collect();
    Rust { path: file.path.clone(), names: names(&code), strings }
}

fn line_of(code: &[char], at: usize) -> usize {
    1 + code[..at].iter().filter(|c| **c == '\n').count()
}

/// The text with comments and the insides of strings and characters blanked, and each string with its place.
fn scrubbed(text: &str) -> (Vec<char>, Vec<(usize, String)>) {
    let chars: Vec<char> = text.chars().collect();
    let mut code = chars.clone();
    let mut strings = Vec::new();
    let starts = |at: usize, what: &str| what.chars().enumerate().all(|(i, c)| chars.get(at + i) == Some(&c));
    let mut at = 0;
    while at < chars.len() {
        let from = at;
        if starts(at, "//") {
            at = (at..chars.len()).find(|i| chars[*i] == '\n').unwrap_or(chars.len());
        } else if starts(at, "/*") {
            let mut depth = 0;
            loop {
                if starts(at, "/*") {
                    (depth, at) = (depth + 1, at + 2);
                } else if starts(at, "*/") {
                    (depth, at) = (depth - 1, at + 2);
                } else {
                    at += 1;
                }
                if depth == 0 || chars.len() <= at {
                    break;
                }
            }
            at = at.min(chars.len());
        } else if let Some(hashes) = raw_string(&chars, at) {
            let close: String = std::iter::once('"').chain(std::iter::repeat_n('#', hashes)).collect();
            let inside = at + 2 + hashes;
            let end = (inside..chars.len()).find(|i| starts(*i, &close)).unwrap_or(chars.len());
            strings.push((at, chars[inside.min(end)..end].iter().collect()));
            at = (end + 1 + hashes).min(chars.len());
        } else if chars[at] == '"' {
            let end = closing(&chars, at, '"');
            strings.push((at, chars[at + 1..end.max(at + 1)].iter().collect()));
            at = (end + 1).min(chars.len());
        } else if chars[at] == '\'' && (chars.get(at + 1) == Some(&'\\') || chars.get(at + 2) == Some(&'\''))
        {
            at = (closing(&chars, at, '\'') + 1).min(chars.len());
        } else {
            at += 1;
            continue;
        }
        for c in &mut code[from..at] {
            if *c != '\n' {
                *c = ' ';
            }
        }
    }
    (code, strings)
}

/// How many `#` a raw string that begins here has.
fn raw_string(chars: &[char], at: usize) -> Option<usize> {
    let inside_a_name = at > 0 && (chars[at - 1].is_alphanumeric() || chars[at - 1] == '_');
    if chars[at] != 'r' || (inside_a_name && chars[at - 1] != 'b') {
        return None;
    }
    let hashes = chars[at + 1..].iter().take_while(|c| **c == '#').count();
    (chars.get(at + 1 + hashes) == Some(&'"')).then_some(hashes)
}

/// The place of the closing quote.
fn closing(chars: &[char], open: usize, quote: char) -> usize {
    let mut at = open + 1;
    while at < chars.len() && chars[at] != quote {
        at += if chars[at] == '\\' { 2 } else { 1 };
    }
    at.min(chars.len())
}

/// Blanks everything under `#[cfg(test)]`, and gives where it was.
fn blank_tests(code: &mut [char]) -> Vec<(usize, usize)> {
    let mark: Vec<char> = "#[cfg(test)]".chars().collect();
    let mut places = Vec::new();
    let mut at = 0;
    while at + mark.len() <= code.len() {
        if code[at..at + mark.len()] != mark[..] {
            at += 1;
            continue;
        }
        let mut depth = 0;
        let mut end = at + mark.len();
        while end < code.len() {
            match code[end] {
                '{' => depth += 1,
                '}' if depth == 1 => break,
                '}' => depth -= 1,
                ';' if depth == 0 => break,
                _ => {}
            }
            end += 1;
        }
        let end = (end + 1).min(code.len());
        for c in code[at..end].iter_mut().filter(|c| **c != '\n') {
            *c = ' ';
        }
        places.push((at, end));
        at = end;
    }
    places
}

/// Every path of names.
fn names(code: &[char]) -> Vec<Name> {
    let mut found = Vec::new();
    let (mut at, mut line, mut counted) = (0, 1, 0);
    while at < code.len() {
        if is_start(code, at) {
            line += code[counted..at].iter().filter(|c| **c == '\n').count();
            counted = at;
            let before = code[..at].iter().rev().find(|c| !c.is_whitespace());
            at = name(code, at, Vec::new(), (line, before == Some(&'.')), &mut found);
        } else {
            // A number such as 1e9 holds no name.
            let number = code[at].is_ascii_digit();
            at += 1;
            while number && at < code.len() && (code[at].is_alphanumeric() || code[at] == '_') {
                at += 1;
            }
        }
    }
    found
}

fn is_start(code: &[char], at: usize) -> bool {
    code[at].is_alphabetic() || code[at] == '_'
}

fn blanks(code: &[char], at: usize) -> usize {
    at + code[at..].iter().take_while(|c| c.is_whitespace()).count()
}

/// Reads a path that begins here, and what is grouped behind it; gives the place after it.
fn name(
    code: &[char],
    mut at: usize,
    mut parts: Vec<String>,
    (line, dotted): (usize, bool),
    found: &mut Vec<Name>,
) -> usize {
    loop {
        let end = at + code[at..].iter().take_while(|c| c.is_alphanumeric() || **c == '_').count();
        parts.push(code[at..end].iter().collect());
        let next = blanks(code, end);
        let goes_on = code.get(next) == Some(&':') && code.get(next + 1) == Some(&':');
        let after = if goes_on { blanks(code, next + 2) } else { next };
        if goes_on && after < code.len() && is_start(code, after) {
            at = after;
            continue;
        }
        if goes_on && code.get(after) == Some(&'{') {
            return group(code, after + 1, &parts, (line, dotted), found);
        }
        let called = code.get(next) == Some(&'(');
        found.push(Name { line, parts, dotted, called });
        return end;
    }
}

fn group(
    code: &[char],
    mut at: usize,
    parts: &[String],
    place: (usize, bool),
    found: &mut Vec<Name>,
) -> usize {
    let line = place.0;
    let start = at;
    while at < code.len() && code[at] != '}' {
        if is_start(code, at) {
            let line = line + code[start..at].iter().filter(|c| **c == '\n').count();
            at = name(code, at, parts.to_vec(), (line, place.1), found);
        } else {
            at += 1;
        }
    }
    (at + 1).min(code.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn apart(text: &str) -> Rust {
        taken_apart(&File::planted("a.rs", text))
    }

    fn written(text: &str) -> Vec<String> {
        apart(text).names.iter().map(Name::written).collect()
    }

    #[test]
    fn comments_strings_and_characters_hold_no_names() {
        assert_eq!(written("a /* b /* c */ d */ // e\n\"f \\\" g\" r#\"h \" i\"# 'j' '\\'' k"), ["a", "k"]);
        assert_eq!(
            written("fn f<'a>(x: &'a str)"),
            ["fn", "f", "a", "x", "a", "str"],
            "a lifetime is no character"
        );
        assert_eq!(written("1e9 + 2_f64 + x"), ["x"]);
    }

    #[test]
    fn groups_are_taken_apart() {
        let names = apart("use crate::{a::B, c::{D, e}};\nx.f64().sin ()").names;
        let written: Vec<String> = names.iter().map(Name::written).collect();
        assert_eq!(written, ["use", "crate::a::B", "crate::c::D", "crate::c::e", "x", "f64", "sin"]);
        let last = &names[6];
        assert!(last.dotted && last.called && last.line == 2, "{last:?}");
    }

    #[test]
    fn tests_are_left_out() {
        let rust =
            apart("a \"s\" #[cfg(test)]\nmod tests { fn b() { \"t\" } }\n#[cfg(test)] mod laws;\nc \"u\"");
        assert_eq!(rust.names.iter().map(Name::written).collect::<Vec<_>>(), ["a", "c"]);
        let strings: Vec<_> = rust.strings.iter().map(|text| (text.line, text.text.as_str())).collect();
        assert_eq!(strings, [(1, "s"), (4, "u")]);
        assert_eq!(rust.strings[1].before, "c");
    }

    #[test]
    fn files_of_test_modules_are_left_out() {
        let files = [
            File::planted("p/a/mod.rs", "#[cfg(test)]\nmod laws;\nmod sums;"),
            File::planted("p/a/laws.rs", ""),
            File::planted("p/a/sums.rs", "#[cfg(test)]\n#[path = \"x\"]\nmod tests;"),
            File::planted("p/a/sums/tests.rs", ""),
        ];
        let left: Vec<String> = code(&files, &["p/"]).into_iter().map(|rust| rust.path).collect();
        assert_eq!(left, ["p/a/mod.rs", "p/a/sums.rs"]);
    }
}
