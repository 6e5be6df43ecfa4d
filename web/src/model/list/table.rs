//! The list as a table that a spreadsheet opens, and the template of one.

use super::aid::{ListedAid, written};
use super::cell::guarded;
use super::column::{self, Column};
use super::{demo, family};

/// Tells a spreadsheet that the text is UTF-8.
const MARK: char = '\u{feff}';

/// A list as a table: commas, decimal points, quotation marks where a cell needs them, lines as RFC 4180 ends them.
///
/// Reading it back gives the same. Text that a spreadsheet would run as a formula is written behind an apostrophe.
#[must_use]
pub fn write_csv(list: &[ListedAid]) -> String {
    let mut text = String::from(MARK);
    line(&mut text, column::ALL.iter().map(|about| about.column.heading()));
    for aid in list {
        line(&mut text, column::ALL.iter().map(|about| cell(aid, about.column)));
    }
    text
}

/// The headings of every column, and an invented aid of each family as an example.
#[must_use]
pub fn template_csv() -> String {
    let list = &demo().list;
    let first = |about: &family::About| list.iter().find(|aid| aid.family == about.family).cloned();
    write_csv(&family::ALL.iter().filter_map(first).collect::<Vec<_>>())
}

fn cell(aid: &ListedAid, column: Column) -> String {
    match column {
        Column::Id => guarded(&aid.id),
        Column::Name => guarded(&aid.name),
        Column::Family => aid.family.about().name.into(),
        Column::Note => guarded(&aid.note),
        _ => aid.said(column).map(|value| written(column, value)).unwrap_or_default(),
    }
}

fn line(text: &mut String, cells: impl Iterator<Item = String>) {
    for (place, cell) in cells.enumerate() {
        if place != 0 {
            text.push(',');
        }
        if cell.contains([',', ';', '"', '\n', '\r', '\t']) {
            text.push('"');
            text.push_str(&cell.replace('"', "\"\""));
            text.push('"');
        } else {
            text.push_str(&cell);
        }
    }
    text.push_str("\r\n");
}
