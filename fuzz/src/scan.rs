//! The cursor: whatever is asked of it in whatever order, it takes what it says and no more.

use crate::check;
use arcminute_core::scan::{Cursor, LengthUnit, entry};

const PHRASES: &[&str] = &["logmar", "light perception", "ft", "d", "°", "m", "no perception of light"];
const SIGNS: &[char] = &['/', '@', '°', 'x', '٣', '-'];

/// Up to the first line feed what is asked, a letter each; then the text.
pub(crate) fn any(bytes: &[u8]) {
    let text = check::text(bytes);
    let (asked, text) = text.split_once('\n').unwrap_or((text, ""));
    if let Err(error) = entry("entry", text) {
        return check::refusal(&error);
    }
    let mut cursor = Cursor::new(text);
    for letter in asked.bytes() {
        let before = cursor.rest();
        let taken = step(&mut cursor, letter);
        let after = cursor.rest();
        assert_eq!(after, after.trim(), "blanks are left round the rest");
        assert!(before.ends_with(after), "`{after}` is no end of `{before}`");
        assert_eq!(taken, after.len() < before.len(), "asked `{letter}` of `{before}`, left `{after}`");
        assert_eq!(cursor.end("entry", text).is_ok(), after.is_empty(), "the end is where nothing is left");
    }
}

fn step(cursor: &mut Cursor<'_>, letter: u8) -> bool {
    let place = usize::from(letter / 8);
    match letter % 8 {
        0 => cursor.sign().inspect(|sign| assert!([1.0, -1.0].contains(sign), "{sign} is no sign")).is_some(),
        1 | 2 => number(cursor),
        3 => unit(cursor),
        4 | 5 => SIGNS.get(place % SIGNS.len()).is_some_and(|sign| cursor.take(*sign)),
        _ => PHRASES.get(place % PHRASES.len()).is_some_and(|phrase| cursor.phrase(&[phrase])),
    }
}

fn number(cursor: &mut Cursor<'_>) -> bool {
    let before = cursor.rest();
    let Some(number) = cursor.number() else {
        assert!(!before.starts_with(|first: char| first.is_ascii_digit()), "`{before}` begins with a number");
        return false;
    };
    assert!(before.starts_with(number.text), "{number:?} is not the beginning of `{before}`");
    let value: f64 = number.text.parse().expect("the language reads it too");
    check::same(number.text, number.value / value.max(1.0), value / value.max(1.0));
    true
}

fn unit(cursor: &mut Cursor<'_>) -> bool {
    let before = cursor.rest();
    let Some(unit) = cursor.length_unit() else { return false };
    let written = before.strip_suffix(cursor.rest()).unwrap_or_default().trim_end();
    assert_eq!(LengthUnit::of_symbol(written), Some(unit), "`{written}`");
    check::same("a length and back", unit.value(unit.length(2.5)), 2.5);
    true
}
