//! A table of text, read without the page's own reader.

use std::collections::BTreeMap;

/// The rows under the headings, each cell by its heading.
pub(super) fn rows(text: &str) -> Vec<BTreeMap<String, String>> {
    let mut lines = text.lines().map(cells);
    let headings = lines.next().expect("headings");
    lines.map(|row| headings.iter().cloned().zip(row).collect()).collect()
}

/// The cells of a line; those with a comma stand between quotation marks.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for sign in line.chars() {
        match sign {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            sign => cells.last_mut().expect("one at least").push(sign),
        }
    }
    cells
}
