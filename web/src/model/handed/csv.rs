//! The numbers of a case as a table that a spreadsheet opens.
//!
//! Columns: what, value, unit, note. Separated by commas, every cell in quotation marks, lines as RFC 4180 ends them, with
//! the mark that tells a spreadsheet that it is UTF-8.
//!
//! A spreadsheet takes `+2.00`, `=1+1` or `@x` for a formula and `6/12` for a date. A cell that begins with one of `= + - @`,
//! a tab or a line end, or that could be a date, begins with an apostrophe here; so does one that begins with an apostrophe
//! before such a text, so that taking one apostrophe off gives back exactly what was typed.

use crate::model::answer::{Answer, FieldState, FitAnswer};
use crate::model::draft::Draft;
use crate::model::field::{FieldId, Kind};
use crate::model::format::decimals;
use crate::model::list::split;
use arcminute_core::fit::{Eye, Mounting};

/// Tells a spreadsheet that the text is UTF-8.
const MARK: char = '\u{feff}';
/// Stands before what a spreadsheet would change.
const GUARD: char = '\'';
/// The columns.
pub const HEADINGS: [&str; 4] = ["what", "value", "unit", "note"];
/// Most rows read back.
const MOST_ROWS: usize = 10_000;

/// Why a table cannot be read back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TableError {
    /// The first row is not that of the columns.
    OtherColumns,
    /// A row, counted from 1, has another number of cells.
    Cells(usize),
    /// A quotation mark opens in this row and never closes.
    OpenQuote(usize),
    /// Too many rows.
    TooLong,
}

impl std::fmt::Display for TableError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::OtherColumns => write!(f, "the first row is not `what, value, unit, note`"),
            Self::Cells(row) => write!(f, "row {row} does not have {} cells", HEADINGS.len()),
            Self::OpenQuote(row) => write!(f, "a quotation mark in row {row} never closes"),
            Self::TooLong => write!(f, "the table has more than {MOST_ROWS} rows"),
        }
    }
}

impl std::error::Error for TableError {}

/// The numbers of a case: what was typed, exactly, and what follows from it.
///
/// ```
/// use arcminute_web::model::{answer::Answer, draft::Draft, handed::csv};
/// let mut draft = Draft::default();
/// draft.person.right.refraction = "+2.00".into();
/// let table = csv::numbers(&draft, &Answer::of(&draft));
/// assert!(table.contains("\"RIGHT eye: refraction\",\"'+2.00\",\"\",\"read as +2.00\"\r\n"));
/// let rows = csv::read_back(&table)?;
/// assert!(rows.iter().any(|row| row[1] == "+2.00"));
/// # Ok::<(), csv::TableError>(())
/// ```
#[must_use]
pub fn numbers(draft: &Draft, answer: &Answer) -> String {
    let mut table = String::from(MARK);
    line(&mut table, &HEADINGS);
    let label = draft.label.trim();
    line(&mut table, &["Case label", if label.is_empty() { "not filled in" } else { label }, "", ""]);
    for field in FieldId::all(draft.goals.len()) {
        typed(&mut table, draft, answer, field);
    }
    found(&mut table, answer);
    table
}

/// One box, if it holds a number or stands for one.
fn typed(table: &mut String, draft: &Draft, answer: &Answer, field: FieldId) {
    let info = field.info();
    let kind = field.goal().and_then(|goal| Some(draft.goals.get(goal)?.kind));
    if info.kind == Kind::Words || kind.is_some_and(|kind| !field.is_of(kind)) {
        return;
    }
    let text = field.text(draft);
    let (value, note) = match answer.field(field) {
        FieldState::Empty { assumed: None } => return,
        FieldState::Empty { assumed: Some(assumed) } => (assumed, "assumed; the box is empty".into()),
        FieldState::Understood { echo, unusual } => {
            (text.to_owned(), ["read as ", &echo, ". ", &unusual.unwrap_or_default()].concat())
        }
        FieldState::Ask { question, .. } => (text.to_owned(), ["not used. ", &question].concat()),
        FieldState::Refused { message, .. } => (text.to_owned(), ["not used. ", &message].concat()),
        FieldState::Unread if text.trim().is_empty() => return,
        FieldState::Unread => (text.to_owned(), "not used in this case".into()),
    };
    let note = note.trim_end_matches([' ', '.']);
    let what = match field.goal() {
        Some(goal) => ["Goal ", &(goal + 1).to_string(), ": ", &info.label].concat(),
        None => info.label,
    };
    line(table, &[&what, &value, info.unit, note]);
}

/// What follows from the boxes.
fn found(table: &mut String, answer: &Answer) {
    let mut row = |what: &str, value: f64, places: usize, unit: &str, note: &str| {
        line(table, &[what, &decimals(value, places), unit, note]);
    };
    for (what, eye) in [("RIGHT eye: logMAR", &answer.right), ("LEFT eye: logMAR", &answer.left)] {
        if let Some(log_mar) = eye.log_mar() {
            row(what, log_mar.log(), 3, "logMAR", "letters counted at 0.02 log each");
        }
    }
    if let Some(needed) = &answer.needed {
        row("Power needed", needed.power.times(), 2, "x", "for the goal that is served; exact");
    }
    if let Some((bench, outcome)) = answer.chosen_outcome() {
        let name = &bench.device.name;
        row("Power of the telescope", bench.device.power_times, 2, "x", name);
        row("Acuity predicted with it", outcome.prediction.with_aid.log(), 3, "logMAR", name);
        row("Real field, full angle", outcome.real_field.degrees(), 1, "degrees", name);
        row("Exit pupil", outcome.afocal.exit_pupil.mm(), 1, "mm", name);
    }
    match &answer.fit {
        FitAnswer::Done(done) => done.mountings().for_each(|mounting| telescope(&mut row, mounting)),
        FitAnswer::Near(done) => {
            for lens in [&done.fit.right, &done.fit.left].into_iter().flatten() {
                let mut of = |what: &str, value: f64, unit: &str, note: &str| {
                    row(&[side(lens.eye), what].concat(), value, 1, unit, note);
                };
                let across = "across the front";
                of("optical centre from the middle of the bridge", lens.optical_centre.x.mm(), "mm", across);
                of("optical centre above the lowest point of the lens", lens.optical_centre.y.mm(), "mm", "");
                let base_in = lens.asked.base_in.prism_dioptres();
                of("prism worked on the lens", base_in, "prism dioptres", "base in");
            }
        }
        FitAnswer::Waiting(_) | FitAnswer::Impossible(_) => {}
    }
}

fn side(eye: Eye) -> &'static str {
    match eye {
        Eye::Right => "RIGHT eye: ",
        Eye::Left => "LEFT eye: ",
    }
}

/// Where one telescope sits.
fn telescope(row: &mut impl FnMut(&str, f64, usize, &str, &str), mounting: &Mounting) {
    let mut of = |what: &str, value: f64, places, unit: &str, note: &str| {
        row(&[side(mounting.request.eye), what].concat(), value, places, unit, note);
    };
    let across = "eyepiece centre from the middle of the bridge";
    let up = "eyepiece centre above the lowest point of the lens";
    for (place, places, note) in
        [(mounting.to_mark, 1, "to the half millimetre"), (mounting.eyepiece, 3, "exact")]
    {
        of(across, place.x.mm(), places, "mm", note);
        of(up, place.y.mm(), places, "mm", note);
    }
    of("tilt from the carrier lens, upward", mounting.tilt_to_carrier.degrees(), 1, "degrees", "");
    of("head drop to use it", mounting.head_drop.degrees(), 1, "degrees", "");
    of("opening, width", (mounting.hole_half_width * 2.0).mm(), 1, "mm", "");
    of("opening, height", (mounting.hole_half_height * 2.0).mm(), 1, "mm", "");
    of("thinnest lens left", mounting.web.least.mm(), 1, "mm", "");
    of("smallest box height for this place", mounting.smallest_box_height.mm(), 1, "mm", "");
}

fn line(table: &mut String, cells: &[&str; 4]) {
    for (place, cell) in cells.iter().enumerate() {
        table.push_str(if place == 0 { "\"" } else { ",\"" });
        if is_changed(cell.trim_start_matches(GUARD)) {
            table.push(GUARD);
        }
        table.push_str(&cell.replace('"', "\"\""));
        table.push('"');
    }
    table.push_str("\r\n");
}

/// Whether a spreadsheet would make something else of it: a formula, or a date.
fn is_changed(cell: &str) -> bool {
    let begins = cell.trim_start_matches([' ', '\u{a0}', '"']);
    if begins
        .starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'])
    {
        return true;
    }
    let is_of_a_date = |sign: char| sign.is_ascii_digit() || matches!(sign, '/' | '-' | '.' | ',' | ' ');
    begins.contains(['/', '-']) && begins.chars().all(is_of_a_date)
}

/// The rows of a table that [`numbers`] wrote, without that of the columns; each cell exactly as it was before the guard.
///
/// # Errors
/// [`TableError`], whole or not at all.
pub fn read_back(text: &str) -> Result<Vec<[String; 4]>, TableError> {
    let table = split::split(text.strip_prefix(MARK).unwrap_or(text), MOST_ROWS);
    if let Some(row) = table.open_quote {
        return Err(TableError::OpenQuote(row));
    }
    if MOST_ROWS < table.rows.len() {
        return Err(TableError::TooLong);
    }
    if table.rows.is_empty() {
        return Err(TableError::OtherColumns);
    }
    let mut rows = Vec::new();
    for (place, cells) in table.rows.into_iter().enumerate() {
        let cells = <[String; 4]>::try_from(cells).map_err(|_| TableError::Cells(place + 1))?;
        if place == 0 {
            if cells != HEADINGS {
                return Err(TableError::OtherColumns);
            }
        } else {
            rows.push(cells.map(unguarded));
        }
    }
    Ok(rows)
}

fn unguarded(cell: String) -> String {
    match cell.strip_prefix(GUARD) {
        Some(rest) if is_changed(rest.trim_start_matches(GUARD)) => rest.into(),
        _ => cell,
    }
}

#[cfg(test)]
mod tests;
