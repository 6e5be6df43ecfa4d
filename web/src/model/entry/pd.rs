//! Pupillary distances: both eyes together, each by itself, or far and near.

use super::{length::written_unit, number::unsigned, plain::plain};
use arcminute_core::bounds;
use arcminute_core::scan::{Cursor, LengthUnit};
use arcminute_core::unit::Length;
use arcminute_core::{Error, Why};
use std::fmt;

/// A pupillary distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pd {
    /// Pupil to pupil.
    Binocular(Length),
    /// Middle of the bridge to each pupil.
    Monocular {
        /// The right eye's.
        right: Length,
        /// The left eye's.
        left: Length,
    },
    /// Pupil to pupil, looking far and looking near.
    FarNear {
        /// Looking far.
        far: Length,
        /// Looking near.
        near: Length,
    },
}

impl Pd {
    /// Whether a value is outside what is usually met.
    #[must_use]
    pub fn is_unusual(&self) -> bool {
        match self {
            Self::Binocular(both) => bounds::PD.is_unusual(both.mm()),
            Self::Monocular { right, left } => {
                bounds::MONOCULAR_PD.is_unusual(right.mm()) || bounds::MONOCULAR_PD.is_unusual(left.mm())
            }
            Self::FarNear { far, near } => {
                bounds::PD.is_unusual(far.mm()) || bounds::PD.is_unusual(near.mm())
            }
        }
    }
}

/// In words, with the sides named.
impl fmt::Display for Pd {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Metres times a thousand may leave a tail of digits.
        let mm = |length: &Length| arcminute_core::math::round_to(length.mm(), 0.01);
        match self {
            Self::Binocular(both) => write!(f, "{} mm, both eyes", mm(both)),
            Self::Monocular { right, left } => write!(f, "RIGHT {} mm, LEFT {} mm", mm(right), mm(left)),
            Self::FarNear { far, near } => write!(f, "{} mm far, {} mm near", mm(far), mm(near)),
        }
    }
}

/// What a text was understood as.
#[derive(Clone, Debug, PartialEq)]
pub enum PdParsed {
    /// Nothing was written.
    Empty,
    /// It can mean one thing only.
    Understood(Pd),
    /// It can mean any of these; one of them is to be confirmed.
    Ask {
        /// What it can mean; at least one.
        choices: Vec<Pd>,
    },
    /// It cannot be used.
    Refused(Error),
}

/// What a PD box says: `63`, `31.5/32` (right and left), `63/60` (far and near), in mm unless another unit is written.
///
/// Sizes tell two values apart: both 20 to 40 mm are right and left, both 48 to 80 mm are far and near if the second
/// is not the larger. Other possible pairs are asked about. A single value that can also be one eye's (35 to 45 mm) is
/// asked about; a smaller one lacks the other eye's.
///
/// ```
/// use arcminute_web::model::entry::{PdParsed, pd};
/// let PdParsed::Understood(both) = pd("31,5/32") else { panic!() };
/// assert_eq!(both.to_string(), "RIGHT 31.5 mm, LEFT 32 mm");
/// ```
#[must_use]
pub fn pd(text: &str) -> PdParsed {
    read(text).unwrap_or_else(PdParsed::Refused)
}

fn read(text: &str) -> Result<PdParsed, Error> {
    let plain = plain(bounds::PD.name, text)?;
    if plain.is_empty() {
        return Ok(PdParsed::Empty);
    }
    let cursor = &mut Cursor::new(&plain);
    let first = value(cursor, text)?;
    let second = if cursor.take('/') { Some(value(cursor, text)?) } else { None };
    cursor.end(bounds::PD.name, text.trim())?;
    let unit = second.and_then(|(_, unit)| unit).or(first.1);
    let of = |(value, own): (f64, Option<LengthUnit>)| {
        own.or(unit).unwrap_or(LengthUnit::Millimetre).length(value)
    };
    match second {
        None => single(of(first), text),
        Some(second) => pair(of(first), of(second), text),
    }
}

fn value(cursor: &mut Cursor<'_>, text: &str) -> Result<(f64, Option<LengthUnit>), Error> {
    let value = unsigned(cursor, text, &bounds::PD)?;
    Ok((value, written_unit(cursor, text, bounds::PD.name)?))
}

fn single(both: Length, text: &str) -> Result<PdParsed, Error> {
    let can_be_one_eye = bounds::MONOCULAR_PD.check(both.mm()).is_ok();
    match (bounds::PD.check(both.mm()), can_be_one_eye) {
        (Ok(_), true) => Ok(PdParsed::Ask { choices: vec![Pd::Binocular(both)] }),
        (Ok(_), false) => Ok(PdParsed::Understood(Pd::Binocular(both))),
        (Err(_), true) => {
            let why = Why::Missing { part: "the other eye's beside it", example: "31.5/32" };
            Err(Error::new(bounds::PD.name, text.trim(), why))
        }
        (Err(error), false) => Err(error),
    }
}

fn pair(first: Length, second: Length, text: &str) -> Result<PdParsed, Error> {
    let both_in = |min: f64, max: f64| [first, second].iter().all(|value| (min..=max).contains(&value.mm()));
    let monocular = Pd::Monocular { right: first, left: second };
    let far_near = Pd::FarNear { far: first.max(second), near: first.min(second) };
    if both_in(20.0, 40.0) {
        return Ok(PdParsed::Understood(monocular));
    }
    if both_in(48.0, 80.0) && second <= first {
        return Ok(PdParsed::Understood(far_near));
    }
    let possible = |range: (f64, f64)| both_in(range.0, range.1);
    let mut choices = Vec::new();
    if possible(bounds::MONOCULAR_PD.possible) {
        choices.push(monocular);
    }
    if possible(bounds::PD.possible) {
        choices.push(far_near);
    }
    if choices.is_empty() {
        let why = Why::NotANumber { example: "31.5/32" };
        return Err(Error::new(bounds::PD.name, text.trim(), why));
    }
    Ok(PdParsed::Ask { choices })
}
