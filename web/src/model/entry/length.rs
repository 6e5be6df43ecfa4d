//! Lengths in any unit.

use super::{number::unsigned, plain::plain};
use arcminute_core::bounds::Bound;
use arcminute_core::scan::{Cursor, LengthUnit};
use arcminute_core::unit::Length;
use arcminute_core::{Error, Why};

/// The length that a box holds.
///
/// Units: mm, cm, m, in or `"`, ft or `'`; a bare number has the bound's unit, which the box shows. Fractions of a half
/// to a thirty-second may be written: `16 1/2 in`, `16½ in`. The bound's unit must be one of lengths; if it is not,
/// millimetres are taken.
///
/// # Errors
/// What [`normalise`](super::normalise) refuses; [`Why::NotANumber`], [`Why::Trailing`], [`Why::WrongUnit`] for a unit
/// of something else, [`Why::OutOfRange`].
///
/// # Example
/// ```
/// use arcminute_core::bounds;
/// use arcminute_web::model::entry::length;
/// let metres = |text| length(text, &bounds::TASK_DISTANCE).map(|entry| entry.map(|length| length.m()));
/// assert_eq!(metres("6")?, Some(6.0));
/// assert_eq!(metres("40 cm")?, Some(0.4));
/// assert!((metres("13'")?.expect("not empty") - 3.9624).abs() < 1e-9);
/// assert_eq!(metres("")?, None);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn length(text: &str, bound: &'static Bound) -> Result<Option<Length>, Error> {
    let plain = plain(bound.name, text)?;
    if plain.is_empty() {
        return Ok(None);
    }
    let plain = with_spelled_halves(&plain);
    let cursor = &mut Cursor::new(&plain);
    let sign = cursor.sign().unwrap_or(1.0);
    let value = sign * with_fraction(cursor, text, bound)?;
    let own_unit = LengthUnit::of_symbol(bound.unit).unwrap_or(LengthUnit::Millimetre);
    let unit = written_unit(cursor, text, bound.name)?.unwrap_or(own_unit);
    cursor.end(bound.name, text.trim())?;
    let length = unit.length(value);
    bound.check(own_unit.value(length))?;
    Ok(Some(length))
}

/// A length unit if one is written.
///
/// # Errors
/// [`Why::WrongUnit`] for a word or sign that is none.
pub(super) fn written_unit(
    cursor: &mut Cursor<'_>,
    text: &str,
    quantity: &'static str,
) -> Result<Option<LengthUnit>, Error> {
    let unit = cursor.length_unit();
    let rest = cursor.rest();
    let is_word = !rest.is_empty() && rest.chars().all(|c| c.is_alphabetic() || "°%µ".contains(c));
    if unit.is_none() && is_word && rest.chars().count() <= 8 {
        let why = Why::WrongUnit { accepted: LengthUnit::ACCEPTED };
        return Err(Error::new(quantity, text.trim(), why));
    }
    Ok(unit)
}

/// `½` and the like as ` 1/2`.
fn with_spelled_halves(plain: &str) -> String {
    [("½", " 1/2"), ("¼", " 1/4"), ("¾", " 3/4"), ("⅛", " 1/8"), ("⅜", " 3/8"), ("⅝", " 5/8"), ("⅞", " 7/8")]
        .iter()
        .fold(plain.to_owned(), |text, (sign, spelled)| text.replace(sign, spelled))
}

/// A number, a proper fraction, or a whole number and a proper fraction.
fn with_fraction(cursor: &mut Cursor<'_>, text: &str, bound: &Bound) -> Result<f64, Error> {
    if let Some(fraction) = fraction(cursor) {
        return Ok(fraction);
    }
    let mut whole = *cursor;
    let value = unsigned(cursor, text, bound)?;
    let is_whole = whole.number().is_some_and(|number| number.text.bytes().all(|byte| byte.is_ascii_digit()));
    let part = if is_whole { fraction(cursor) } else { None };
    Ok(value + part.unwrap_or(0.0))
}

/// A proper fraction with a power of two below, if one came next.
fn fraction(cursor: &mut Cursor<'_>) -> Option<f64> {
    let mut ahead = *cursor;
    let above: u8 = ahead.number()?.text.parse().ok()?;
    if !ahead.take('/') {
        return None;
    }
    let below: u8 = ahead.number()?.text.parse().ok()?;
    if !matches!(below, 2 | 4 | 8 | 16 | 32) || above == 0 || above >= below {
        return None;
    }
    *cursor = ahead;
    Some(f64::from(above) / f64::from(below))
}
