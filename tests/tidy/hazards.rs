//! The table of hazards: each row has its controls and its tests, and they are there.

use crate::tree::{self, File};

const TABLE: &str = "hazards.md";
/// Rows that were there from the start.
const LEAST_ROWS: usize = 15;

/// Words in backticks.
fn named(cell: &str) -> Vec<&str> {
    cell.split('`').skip(1).step_by(2).collect()
}

/// What is wrong with the table.
fn faults(table: &File, files: &[File]) -> Vec<String> {
    let mut found = Vec::new();
    let mut rows = 0;
    for (index, line) in table.text.lines().enumerate() {
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        let Some(number) = cells.first().and_then(|cell| cell.parse::<usize>().ok()) else { continue };
        rows += 1;
        let mut say = |what: String| found.push(format!("{}:{}: {what}", table.path, index + 1));
        if number != rows {
            say(format!("row {number} stands in place {rows}"));
        }
        let [_, hazard, how, harm, control, places, tests] = cells[..] else {
            say(format!("{} cells", cells.len()));
            continue;
        };
        if [hazard, how, harm, control].iter().any(|cell| cell.is_empty()) {
            say("an empty cell".into());
        }
        let places = named(places);
        for place in &places {
            if !files.iter().any(|file| file.path == *place) {
                say(format!("`{place}` is not there"));
            }
        }
        let tests = named(tests);
        for test in &tests {
            let (file, name) = test.split_once("::").unwrap_or((test, ""));
            let is_it = |one: &&File| one.path.ends_with(&format!("/{file}")) && is_test(one, name);
            if !files.iter().any(|one| is_it(&one)) {
                say(format!("no test `{test}`"));
            }
        }
        if places.is_empty() || tests.is_empty() {
            say("no control or no test".into());
        }
    }
    if rows < LEAST_ROWS {
        found.push(format!("{}: {rows} rows", table.path));
    }
    found
}

/// Whether a file holds a test of this name: one that is marked as such, alone or among properties.
fn is_test(file: &File, name: &str) -> bool {
    let lines: Vec<&str> = file.text.lines().map(str::trim_start).collect();
    let starts = |line: &&str| {
        line.strip_prefix("fn ")
            .and_then(|rest| rest.strip_prefix(name))
            .is_some_and(|rest| rest.starts_with('('))
    };
    !name.is_empty()
        && lines
            .iter()
            .enumerate()
            .any(|(at, line)| starts(line) && at > 0 && lines[..at].ends_with(&["#[test]"]))
}

#[test]
fn every_hazard_has_its_control_and_its_test() {
    let files = tree::all();
    let table = files.iter().find(|file| file.path == TABLE).expect("the table of hazards");
    crate::nothing(&faults(table, &files));
    let row = |number: usize, tests: &str| format!("| {number} | a | b | c | d | `src/a.rs` | {tests} |\n");
    let mut text: String = (1..LEAST_ROWS).map(|number| row(number, "`t.rs::good`")).collect();
    text += &row(16, "`t.rs::gone`");
    text += "| 16 | a | | c | d | `src/b.rs` | none |\n";
    let there =
        [File::planted("src/a.rs", ""), File::planted("tests/t.rs", "#[test]\nfn good() {}\nfn gone() {}\n")];
    crate::planted(
        &faults(&File::planted("hazards.md", &text), &there),
        &[
            "hazards.md:15: row 16 stands in place 15",
            "hazards.md:15: no test `t.rs::gone`",
            "hazards.md:16: an empty cell",
            "hazards.md:16: `src/b.rs` is not there",
            "hazards.md:16: no control or no test",
        ],
    );
}
