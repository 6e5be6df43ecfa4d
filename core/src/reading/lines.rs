//! How much of a line is seen at once, and how often an aid has to be moved along it.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::print::Typeface;
use crate::unit::{Length, PrintSize};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Width of a mean character of 1 M print, spaces included.
const PITCH_OF_ONE_M_MM: f64 = 1.3;

/// Mean distance from character to character over the x-height, spaces included; a pure ratio.
///
/// From letter frequencies of English and widths of two typefaces:
/// [`source::CHARACTER_WIDTH`](crate::source::CHARACTER_WIDTH). Nothing is known of the others.
///
/// ```
/// use arcminute_core::{print::Typeface, reading::mean_pitch};
/// assert_eq!(mean_pitch(Typeface::Times), Some(0.89));
/// ```
#[must_use]
pub fn mean_pitch(typeface: Typeface) -> Option<f64> {
    match typeface {
        Typeface::Times => Some(0.89),
        Typeface::Helvetica => Some(0.85),
        Typeface::Georgia | Typeface::Courier | Typeface::Verdana => None,
    }
}

/// What a field of so many characters is good for; thresholds for planning, ours
/// ([`source::FIELD_PLAN`](crate::source::FIELD_PLAN)).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ReadingField {
    /// Below 4: too narrow.
    TooNarrow,
    /// 4 to below 10: for a word or a price.
    SpotOnly,
    /// 10 to 15.
    Workable,
    /// Above 15.
    Comfortable,
}

impl ReadingField {
    /// All of them, narrowest first.
    pub const ALL: [Self; 4] = [Self::TooNarrow, Self::SpotOnly, Self::Workable, Self::Comfortable];

    /// What a field of so many characters is good for; nothing for what is not a number.
    ///
    /// ```
    /// use arcminute_core::reading::ReadingField;
    /// assert_eq!(ReadingField::of(15.0), Some(ReadingField::Workable));
    /// ```
    #[must_use]
    pub fn of(characters: f64) -> Option<Self> {
        if characters.is_nan() {
            None
        } else if characters < 4.0 {
            Some(Self::TooNarrow)
        } else if characters < 10.0 {
            Some(Self::SpotOnly)
        } else if characters <= 15.0 {
            Some(Self::Workable)
        } else {
            Some(Self::Comfortable)
        }
    }
}

/// Characters seen at once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CharactersSeen {
    /// Width seen, on the page.
    pub width: Length,
    /// Print on the page.
    pub print: PrintSize,
    /// How many characters of it; not a whole number.
    pub characters: f64,
    /// What that is good for.
    pub good_for: ReadingField,
}

/// How many characters of print a width on the page holds, `n = w/(1.30 mm·M)`.
///
/// * `width`: on the page, not on a screen.
///
/// Source: [`source::CHARACTER_WIDTH`](crate::source::CHARACTER_WIDTH); the thresholds are ours.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::SEEN_WIDTH`] or [`bounds::PRINT_M`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::characters, unit::{Length, PrintSize}};
/// // 20 mm of 1 M print: 15 characters (computed).
/// let seen = characters(Length::from_mm(20.0), PrintSize::from_m_units(1.0))?;
/// assert!((seen.characters - 15.4).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn characters(width: Length, print: PrintSize) -> Result<CharactersSeen, Error> {
    bounds::SEEN_WIDTH.check(width.mm())?;
    bounds::PRINT_M.check(print.m_units())?;
    let characters = width.mm() / (PITCH_OF_ONE_M_MM * print.m_units());
    let good_for = ReadingField::of(characters).unwrap_or(ReadingField::TooNarrow);
    Ok(CharactersSeen { width, print, characters, good_for })
}

#[cfg(feature = "alloc")]
impl Explain for CharactersSeen {
    fn steps(&self) -> Vec<Step> {
        let characters = Named::new("n", self.characters, Unit::Plain);
        let width = Named::new("w", self.width.mm(), Unit::Millimetre);
        let print = Named::new("P", self.print.m_units(), Unit::PrintM);
        alloc::vec![Step::formula(&formula::CHARACTERS, characters, [width, print])]
    }
}

/// How often an aid is set along a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Positions {
    /// Characters of the line.
    pub line: f64,
    /// Characters seen at once.
    pub seen: f64,
    /// Characters seen twice between neighbouring positions.
    pub overlap: f64,
    /// How many positions; a whole number, 1 for a line seen at once.
    pub positions: f64,
}

/// How many positions an aid takes along a line, `ceil((L − W)/(W − overlap)) + 1`, and 1 for a line seen at once.
///
/// Geometry. No work links it to seconds: no speed follows from it.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::LINE_CHARACTERS`] or [`bounds::OVERLAP`]; [`Why::NoSolution`] when the overlap is
/// not smaller than what is seen, so that the aid does not get on.
///
/// # Example
/// ```
/// use arcminute_core::reading::positions;
/// // A line of 65 characters, 10 seen at once: 7 positions (computed).
/// assert_eq!(positions(65.0, 10.0, 0.0)?.positions, 7.0);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn positions(line: f64, seen: f64, overlap: f64) -> Result<Positions, Error> {
    bounds::LINE_CHARACTERS.check(line)?;
    bounds::LINE_CHARACTERS.check(seen)?;
    bounds::OVERLAP.check(overlap)?;
    if seen <= overlap {
        let why = Why::NoSolution { because: "the aid does not get on along the line" };
        return Err(Error::about("overlap", format_args!("{overlap} characters"), why));
    }
    let positions = (math::ceil((line - seen) / (seen - overlap)) + 1.0).max(1.0);
    Ok(Positions { line, seen, overlap, positions })
}

#[cfg(feature = "alloc")]
impl Explain for Positions {
    fn steps(&self) -> Vec<Step> {
        let positions = Named::new("n", self.positions, Unit::Plain);
        let inputs = [
            Named::new("L", self.line, Unit::Plain),
            Named::new("W", self.seen, Unit::Plain),
            Named::new("overlap", self.overlap, Unit::Plain),
        ];
        alloc::vec![Step::formula(&formula::POSITIONS, positions, inputs)]
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for (seen, overlap) in [(4.0, 0.0), (10.0, 2.0), (64.9, 0.0), (65.0, 0.0), (80.0, 5.0)] {
            for step in positions(65.0, seen, overlap)?.steps() {
                assert_eq!(step.check(), Ok(()), "{seen} seen, {overlap} twice");
            }
        }
        for mm in [1.0, 50.0, 167.0] {
            for step in characters(Length::from_mm(mm), PrintSize::from_m_units(1.6))?.steps() {
                assert_eq!(step.check(), Ok(()), "{mm} mm");
            }
        }
        Ok(())
    }

    #[test]
    fn both_sides_of_each_threshold() {
        for (characters, field) in [
            (0.0, ReadingField::TooNarrow),
            (3.99, ReadingField::TooNarrow),
            (4.0, ReadingField::SpotOnly),
            (9.99, ReadingField::SpotOnly),
            (10.0, ReadingField::Workable),
            (15.0, ReadingField::Workable),
            (15.01, ReadingField::Comfortable),
        ] {
            assert_eq!(ReadingField::of(characters), Some(field), "{characters} characters");
        }
        assert_eq!(ReadingField::of(f64::NAN), None);
        assert!(ReadingField::ALL.is_sorted(), "narrowest first");
        let seen = characters(Length::from_mm(13.0), PrintSize::from_m_units(1.0)).expect("in range");
        assert_eq!(seen.good_for, ReadingField::Workable, "{seen:?}");
    }

    #[test]
    fn a_line_seen_at_once_has_one_position() -> Result<(), Error> {
        for (seen, count) in [(64.9, 2.0), (65.0, 1.0), (66.0, 1.0), (200.0, 1.0)] {
            assert_eq!(positions(65.0, seen, 0.0)?.positions, count, "{seen} seen");
        }
        assert_eq!(positions(65.0, 10.0, 5.0)?.positions, 12.0, "5 of 10 are seen twice");
        Ok(())
    }

    #[test]
    fn pitches_agree_with_the_width_in_use() {
        let x_height = PrintSize::from_m_units(1.0).x_height().mm();
        for (typeface, pitch) in [(Typeface::Times, 1.29), (Typeface::Helvetica, 1.24)] {
            let mm = mean_pitch(typeface).expect("known") * x_height;
            assert!((mm - pitch).abs() < 5e-3, "{typeface:?}: {mm} mm");
        }
        for typeface in [Typeface::Georgia, Typeface::Courier, Typeface::Verdana] {
            assert_eq!(mean_pitch(typeface), None, "{typeface:?}");
        }
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let one = PrintSize::from_m_units(1.0);
        let error = characters(Length::from_mm(-1.0), one).expect_err("no width");
        assert_eq!(error.to_string(), "width seen `-1 mm` is not possible");
        assert_eq!(error.hint().to_string(), "use 0 to 2000 mm");
        assert!(characters(Length::from_mm(20.0), PrintSize::ZERO).is_err(), "no print");
        let error = positions(65.0, 4.0, 4.0).expect_err("it stays where it is");
        assert_eq!(
            error.to_string(),
            "overlap `4 characters` has no solution: the aid does not get on along the line"
        );
        assert!(positions(65.0, 4.0, 3.9).is_ok(), "it moves a little");
        let error = positions(65.0, 0.0, 0.0).expect_err("nothing seen");
        assert_eq!(error.to_string(), "characters `0` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.5 to 1000");
        assert!(positions(f64::NAN, 4.0, 0.0).is_err(), "no line");
        let error = positions(65.0, 4.0, -1.0).expect_err("less than nothing");
        assert_eq!(error.to_string(), "overlap `-1 characters` is not possible");
    }
}
