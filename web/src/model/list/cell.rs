//! What one cell says: a number in its column's unit, a word, or text.

use super::column::{Column, Kind, unit};
use super::near::same_word;
use super::trouble::Wrong;
use crate::model::entry::normalise;
use arcminute_core::Why;
use arcminute_core::scan::Cursor;

/// What a row says in a column that is not plain text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// A number in the column's unit.
    Number(f64),
    /// The place of a word among those of the column.
    Word(usize),
}

/// Most digits of a number: so many are kept to the last.
const MOST_DIGITS: usize = 15;

/// Whether a spreadsheet would take text that begins so for a formula.
fn begins_a_formula(text: &str) -> bool {
    text.starts_with(['=', '+', '-', '@', '\t', '\r'])
}

/// Text for a cell, so that no spreadsheet runs it as a formula: an apostrophe before what begins like one.
pub(super) fn guarded(text: &str) -> String {
    if begins_a_formula(text.trim_start_matches('\'')) { format!("'{text}") } else { text.into() }
}

/// The text that [`guarded`] wrote.
fn unguarded(text: &str) -> &str {
    match text.strip_prefix('\'') {
        Some(rest) if begins_a_formula(rest.trim_start_matches('\'')) => rest,
        _ => text,
    }
}

/// The text of a cell, its blanks made single; an apostrophe that guards it is taken off.
///
/// # Errors
/// [`Wrong::Unprintable`], [`Wrong::TooLong`].
pub(super) fn text(cell: &str, most: usize) -> Result<String, Wrong> {
    tidied(unguarded(cell.trim()), most)
}

/// Text with its blanks made single.
///
/// # Errors
/// As [`text`].
pub(super) fn tidied(text: &str, most: usize) -> Result<String, Wrong> {
    let mut tidy = String::new();
    for part in text.split_whitespace() {
        if !tidy.is_empty() {
            tidy.push(' ');
        }
        tidy.push_str(part);
    }
    if tidy.chars().any(char::is_control) {
        return Err(Wrong::Unprintable);
    }
    if most < tidy.chars().count() {
        return Err(Wrong::TooLong(most));
    }
    Ok(tidy)
}

/// What a cell that is not empty says; `separator` is that of the file.
///
/// # Errors
/// What is wrong with it.
pub(super) fn value(column: Column, cell: &str, separator: char) -> Result<Value, Wrong> {
    match column.about().kind {
        Kind::Number(own) => number(cell, own, separator).map(Value::Number),
        Kind::Words(words) => word(cell, words).map(Value::Word),
        Kind::Text(most) => Err(Wrong::TooLong(most)),
    }
}

fn word(cell: &str, words: &'static [&'static str]) -> Result<usize, Wrong> {
    let ways = |word: &&str| -> &[&str] {
        match *word {
            "yes" => &["y", "true"],
            "no" => &["n", "false"],
            _ => &[],
        }
    };
    let is = |word: &&str| same_word(cell, word) || ways(word).iter().any(|way| same_word(cell, way));
    words.iter().position(is).ok_or(Wrong::UnknownWord(words))
}

/// A number in the column's own unit, which may be written after it.
///
/// A comma is a decimal sign unless it can group thousands. So is a point where commas separate cells; where they do not,
/// the file may come from a place where points group thousands, and one before exactly three digits is refused as well.
fn number(cell: &str, own: &'static str, separator: char) -> Result<f64, Wrong> {
    let cell = cell.trim();
    let behind_sign = cell.trim_start_matches(['+', '-']).trim_start();
    let is_signed_number =
        cell != behind_sign && behind_sign.starts_with(|c: char| c.is_ascii_digit() || ".,".contains(c));
    if begins_a_formula(cell) && !is_signed_number {
        return Err(Wrong::Formula);
    }
    let not = Wrong::NotANumber(own);
    let plain = match normalise(cell) {
        Ok(plain) => plain,
        Err(error) if error.why == Why::GroupedOrDecimal => return Err(Wrong::GroupedOrDecimal),
        Err(_) => return Err(not),
    };
    let cursor = &mut Cursor::new(&plain);
    let sign = cursor.sign().unwrap_or(1.0);
    let Some(number) = cursor.number() else { return Err(not) };
    if separator != ',' && cell.contains('.') && may_group(number.text) {
        return Err(Wrong::GroupedOrDecimal);
    }
    match (cursor.rest(), unit(cursor.rest())) {
        ("", _) => {}
        (_, Some(written)) if written == own => {}
        (_, Some(_)) if !own.is_empty() => return Err(Wrong::CellUnit(own)),
        _ => return Err(not),
    }
    if too_many_digits(number.text) {
        return Err(Wrong::TooManyDigits);
    }
    // No zero with a minus sign.
    Ok(sign * number.value + 0.0)
}

/// Whether its point can group thousands: exactly three digits behind it, and more than zeros before it.
fn may_group(number: &str) -> bool {
    number
        .split_once('.')
        .is_some_and(|(whole, part)| part.len() == 3 && whole.bytes().any(|digit| digit != b'0'))
}

/// Whether a number has more digits than are kept, zeros at its ends left out.
pub(super) fn too_many_digits(number: &str) -> bool {
    let number = number.trim_start_matches('-');
    let number = if number.contains('.') { number.trim_end_matches('0') } else { number };
    let digits = number.trim_start_matches(['0', '.']).bytes().filter(u8::is_ascii_digit).count();
    MOST_DIGITS < digits
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(cell: &str) -> Result<f64, Wrong> {
        number(cell, "mm", ',')
    }

    #[test]
    fn numbers_are_read_as_people_write_them() {
        for (cell, wanted) in [
            ("12", 12.0),
            ("12.5", 12.5),
            ("12,5", 12.5),
            (" +12 ", 12.0),
            ("-5.00", -5.0),
            ("−5", -5.0),
            ("60 mm", 60.0),
            ("60mm", 60.0),
            ("60 Millimetres", 60.0),
            (".5", 0.5),
            ("0,125", 0.125),
            ("1.250", 1.25),
            ("-0", 0.0),
            ("1000", 1000.0),
        ] {
            let number = read(cell).unwrap_or_else(|wrong| panic!("{cell}: {wrong:?}"));
            assert_eq!(number.to_bits(), f64::to_bits(wanted), "{cell}");
        }
        assert_eq!(number("4×", "x", ','), Ok(4.0));
        assert_eq!(number("92 %", "%", ','), Ok(92.0));
        assert_eq!(number("10°", "degrees", ','), Ok(10.0));
        assert_eq!(number("1.49", "", ','), Ok(1.49));
    }

    #[test]
    fn what_is_no_number_of_the_column_is_refused() {
        let not = Wrong::NotANumber("mm");
        for (cell, wrong) in [
            ("6 cm", Wrong::CellUnit("mm")),
            ("2\"", Wrong::CellUnit("mm")),
            ("60 D", Wrong::CellUnit("mm")),
            ("sixty", not.clone()),
            ("60 or so", not.clone()),
            ("12e3", not.clone()),
            ("1/2", not.clone()),
            ("#N/A", not.clone()),
            ("NaN", not.clone()),
            ("inf", not.clone()),
            ("20 - 30", not.clone()),
            ("--5", not),
            ("=6*10", Wrong::Formula),
            ("+B2", Wrong::Formula),
            ("-B2", Wrong::Formula),
            ("@SUM(A1)", Wrong::Formula),
            ("1,250", Wrong::GroupedOrDecimal),
            ("1.250,5", Wrong::GroupedOrDecimal),
            ("1,250.5", Wrong::GroupedOrDecimal),
            ("0.1234567890123456", Wrong::TooManyDigits),
        ] {
            assert_eq!(read(cell), Err(wrong), "{cell}");
        }
        assert_eq!(number("1.49 mm", "", ','), Err(Wrong::NotANumber("")), "a plain number has no unit");
        assert!(read(&"9".repeat(300)).is_err());
    }

    #[test]
    fn a_point_before_three_digits_is_doubtful_where_commas_are_decimal() {
        for separator in [';', '\t'] {
            assert_eq!(number("1.250", "mm", separator), Err(Wrong::GroupedOrDecimal));
            assert_eq!(number("0.250", "mm", separator), Ok(0.25), "no one groups so");
            assert_eq!(number("1.25", "mm", separator), Ok(1.25));
            assert_eq!(number("1,25", "mm", separator), Ok(1.25));
            assert_eq!(number("1,2500", "mm", separator), Ok(1.25));
        }
    }

    #[test]
    fn words_are_read_with_or_without_capitals() {
        let shines = |cell| value(Column::Shines, cell, ',');
        for (cell, place) in
            [("no", 0), ("No", 0), ("FALSE", 0), ("n", 0), ("yes", 1), (" TRUE ", 1), ("Y", 1)]
        {
            assert_eq!(shines(cell), Ok(Value::Word(place)), "{cell}");
        }
        assert_eq!(shines("perhaps"), Err(Wrong::UnknownWord(&["no", "yes"])));
        assert_eq!(value(Column::HandsFree, "2", ','), Ok(Value::Word(2)));
        assert_eq!(value(Column::HandsFree, "3", ','), Err(Wrong::UnknownWord(&["0", "1", "2"])));
    }

    #[test]
    fn what_begins_like_a_formula_is_guarded_and_read_back() {
        for (text, cell) in [
            ("=1+1", "'=1+1"),
            ("-5 D lens", "'-5 D lens"),
            ("+8", "'+8"),
            ("@work", "'@work"),
            ("'=x", "''=x"),
            ("'s lens", "'s lens"),
            ("lens", "lens"),
            ("", ""),
        ] {
            assert_eq!(guarded(text), cell);
            assert_eq!(super::text(cell, 40), Ok(text.into()), "{cell} is read back");
        }
        assert_eq!(text("=1+1", 40), Ok("=1+1".into()), "a name from elsewhere, not guarded");
    }

    #[test]
    fn text_is_tidied() {
        assert_eq!(text("  two\n words \t", 40), Ok("two words".into()));
        assert_eq!(text("12345", 4), Err(Wrong::TooLong(4)));
        assert_eq!(text("l\u{7}ens", 40), Err(Wrong::Unprintable));
    }

    #[test]
    fn fifteen_digits_are_kept() {
        for (number, too_many) in [
            ("123456789012345", false),
            ("1234567890123456", true),
            ("0.000123456789012345", false),
            ("1.10000000000000000000", false),
            ("-0.30000000000000004", true),
        ] {
            assert_eq!(too_many_digits(number), too_many, "{number}");
        }
    }
}
