//! Boxes for one number: what is taken is within the box's range and is read back, with its unit and without.

use crate::check;
use arcminute_core::bounds::Bound;
use arcminute_core::scan::{LONGEST, LengthUnit};
use arcminute_core::{Error, Why};
use arcminute_web::model::entry;

/// Plain characters: made plain once, a text stays as it is.
pub(crate) fn plain(text: &str) {
    match entry::normalise(text) {
        Ok(plain) => {
            assert_eq!(entry::normalise(&plain).as_deref(), Ok(plain.as_str()), "made plain twice");
            assert_eq!(plain.trim(), plain, "no blanks are left round it");
            assert!(!plain.contains("  "), "no two blanks are left");
        }
        Err(error) => {
            let known = matches!(error.why, Why::TooLong { .. } | Why::GroupedOrDecimal);
            assert!(known, "{error}");
            check::refusal(&error);
        }
    }
}

/// A number in one of the ranges.
pub(crate) fn number(bytes: &[u8]) {
    let Some((bound, text)) = check::bound(bytes) else { return };
    let read = entry::number(text, bound);
    let angle = entry::angle(text, bound).map(|angle| angle.map(|angle| angle.degrees()));
    assert_eq!(angle.is_ok(), read.is_ok(), "`{text}` is an angle where it is a number");
    let printed = |value: f64| [format!("{value}"), format!("{value} {}", bound.unit)];
    judged(text, bound, read, printed, |text| entry::number(text, bound));
}

/// A lens power in one of the ranges.
pub(crate) fn dioptres(bytes: &[u8]) {
    let Some((bound, text)) = check::bound(bytes) else { return };
    let read = |text: &str| entry::dioptres(text, bound).map(|power| power.map(|power| power.dioptres()));
    judged(text, bound, read(text), |value| [format!("{value:+}"), format!("{value:+} D")], read);
}

/// A length in one of the ranges.
pub(crate) fn length(bytes: &[u8]) {
    let Some((bound, text)) = check::bound(bytes) else { return };
    let unit = LengthUnit::of_symbol(bound.unit).unwrap_or(LengthUnit::Millimetre);
    let symbol = if LengthUnit::of_symbol(bound.unit).is_some() { bound.unit } else { "mm" };
    let read = |text: &str| entry::length(text, bound).map(|length| length.map(|length| unit.value(length)));
    judged(text, bound, read(text), |value| [format!("{value}"), format!("{value} {symbol}")], read);
}

fn judged(
    text: &str,
    bound: &Bound,
    read: Result<Option<f64>, Error>,
    printed: impl Fn(f64) -> [String; 2],
    again: impl Fn(&str) -> Result<Option<f64>, Error>,
) {
    match read {
        Ok(None) => {
            let plain = entry::normalise(text);
            assert_eq!(plain.as_deref(), Ok(""), "something was written");
        }
        Ok(Some(value)) => {
            let (least, greatest) = bound.possible;
            assert!(least <= value && value <= greatest, "{value} is not between {least} and {greatest}");
            // What cannot be seen stands between letters too.
            let plain = entry::normalise(text).unwrap_or_default().to_lowercase();
            assert!(plain.contains(char::is_numeric) || plain.contains("pl"), "`{text}` holds no number");
            // A value next to nothing has more digits than an entry may have.
            for printed in printed(value).into_iter().filter(|printed| printed.len() <= LONGEST) {
                let again = again(&printed);
                let Ok(Some(again)) = again else { panic!("`{printed}` is not read back: {again:?}") };
                check::same(printed, again, value);
            }
        }
        Err(error) => check::refusal(&error),
    }
}
