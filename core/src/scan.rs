//! A cursor over typed text, shared by the parsers of trade notation.
//!
//! It knows numbers with a decimal point, words without regard to case, signs and length units; nothing else. Decimal
//! commas, wide digits and typographic signs are made plain before the text comes here. It never panics and never
//! looks ahead further than what it takes.

use crate::error::{Error, Text, Why};
use crate::math;
use crate::unit::Length;

/// Most characters that an entry may have.
pub const LONGEST: usize = 200;

/// The text without the blanks round it, if it is short enough for an entry.
///
/// # Errors
/// [`Why::TooLong`] above [`LONGEST`] characters; the message quotes the beginning only.
///
/// ```
/// use arcminute_core::scan::{LONGEST, entry};
/// assert_eq!(entry("refraction", "  +2.00 ")?, "+2.00");
/// assert!(entry("refraction", &"1".repeat(LONGEST + 1)).is_err());
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn entry<'a>(quantity: &'static str, text: &'a str) -> Result<&'a str, Error> {
    let text = text.trim();
    if text.chars().nth(LONGEST).is_some() {
        return Err(Error::new(quantity, text, Why::TooLong { max: LONGEST }));
    }
    Ok(text)
}

/// A unit in which a length may be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches of 25.4 mm.
    Inch,
    /// Feet of 0.3048 m.
    Foot,
}

impl LengthUnit {
    /// The ways of writing length units, to be named in a message.
    pub const ACCEPTED: &'static str = "mm, cm, m, in or ft";

    /// The unit with this symbol, if it is one of lengths: `mm`, `cm`, `m`, `in`, `ft`.
    ///
    /// ```
    /// use arcminute_core::{bounds, scan::LengthUnit};
    /// assert_eq!(LengthUnit::of_symbol(bounds::BOX_HEIGHT.unit), Some(LengthUnit::Millimetre));
    /// assert_eq!(LengthUnit::of_symbol("degrees"), None);
    /// ```
    #[must_use]
    pub fn of_symbol(symbol: &str) -> Option<Self> {
        let mut cursor = Cursor::new(symbol);
        cursor.length_unit().filter(|_| cursor.rest().is_empty())
    }

    /// So much of this unit as a number.
    ///
    /// ```
    /// use arcminute_core::{scan::LengthUnit, unit::Length};
    /// // 40 cm are 15.75 inches (computed).
    /// assert!((LengthUnit::Inch.value(Length::from_cm(40.0)) - 15.75).abs() < 0.005);
    /// ```
    #[must_use]
    pub fn value(self, length: Length) -> f64 {
        match self {
            Self::Millimetre => length.mm(),
            Self::Centimetre => length.cm(),
            Self::Metre => length.m(),
            Self::Inch => length.inches(),
            Self::Foot => length.feet(),
        }
    }

    /// The length of so many of this unit.
    ///
    /// ```
    /// use arcminute_core::scan::LengthUnit;
    /// assert_eq!(LengthUnit::Inch.length(16.0).mm(), 406.4);
    /// ```
    #[must_use]
    pub fn length(self, value: f64) -> Length {
        match self {
            Self::Millimetre => Length::from_mm(value),
            Self::Centimetre => Length::from_cm(value),
            Self::Metre => Length::from_m(value),
            Self::Inch => Length::from_inches(value),
            Self::Foot => Length::from_feet(value),
        }
    }
}

/// A number without sign, and how it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number<'a> {
    /// Its value.
    pub value: f64,
    /// Its digits and point.
    pub text: &'a str,
}

impl Number<'_> {
    /// Its value where it was written as a whole number, without a point, and is at most 65 535.
    ///
    /// ```
    /// use arcminute_core::scan::Cursor;
    /// let whole = |text| Cursor::new(text).number().and_then(|number| number.whole());
    /// assert_eq!((whole("090"), whole("65535"), whole("65536"), whole("9.")), (Some(90), Some(65_535), None, None));
    /// ```
    #[must_use]
    pub fn whole(&self) -> Option<u16> {
        self.text.bytes().try_fold(0_u16, |so_far, digit| match digit {
            b'0'..=b'9' => so_far.checked_mul(10)?.checked_add(u16::from(digit.saturating_sub(b'0'))),
            _ => None,
        })
    }
}

/// A place in a text; what was taken lies before it.
#[derive(Clone, Copy, Debug)]
pub struct Cursor<'a> {
    rest: &'a str,
}

impl<'a> Cursor<'a> {
    /// At the beginning of the text, blanks round it left out.
    ///
    /// ```
    /// use arcminute_core::scan::Cursor;
    /// assert_eq!(Cursor::new("  20 / 200 ").rest(), "20 / 200");
    /// ```
    #[must_use]
    pub fn new(text: &'a str) -> Self {
        Self { rest: text.trim() }
    }
    /// What has not been taken, without blanks round it.
    ///
    /// ```
    /// use arcminute_core::scan::Cursor;
    /// let mut cursor = Cursor::new("20 / 200");
    /// cursor.number();
    /// assert_eq!(cursor.rest(), "/ 200");
    /// ```
    #[must_use]
    pub fn rest(&self) -> &'a str {
        self.rest
    }
    /// Nothing, if all was taken.
    ///
    /// # Errors
    /// [`Why::Trailing`] with the part left over; `text` is the whole entry.
    ///
    /// ```
    /// use arcminute_core::scan::Cursor;
    /// let mut cursor = Cursor::new("40 cm away");
    /// assert!(cursor.number().is_some() && cursor.length_unit().is_some());
    /// let left_over = cursor.end("distance", "40 cm away").unwrap_err();
    /// assert_eq!(left_over.to_string(), "distance `40 cm away` was understood only in part");
    /// ```
    pub fn end(&self, quantity: &'static str, text: &str) -> Result<(), Error> {
        if self.rest.is_empty() {
            return Ok(());
        }
        Err(Error::new(quantity, text, Why::Trailing { rest: Text::new(self.rest) }))
    }
    /// Whether this sign came next; if so it is taken, and the blanks behind it.
    ///
    /// ```
    /// use arcminute_core::scan::Cursor;
    /// let mut cursor = Cursor::new("x 90");
    /// assert_eq!((cursor.take('@'), cursor.take('x'), cursor.rest()), (false, true, "90"));
    /// ```
    pub fn take(&mut self, wanted: char) -> bool {
        match self.rest.strip_prefix(wanted) {
            Some(rest) => {
                self.rest = rest.trim_start();
                true
            }
            None => false,
        }
    }
    /// Whether one of these phrases came next, in capitals or not; it is taken. A phrase ends where a word ends.
    ///
    /// ```
    /// use arcminute_core::scan::Cursor;
    /// let mut cursor = Cursor::new("Light  Perception");
    /// assert!(!cursor.phrase(&["light", "l"][1..]));
    /// assert!(cursor.phrase(&["light perception"]));
    /// ```
    pub fn phrase(&mut self, phrases: &[&str]) -> bool {
        phrases.iter().any(|phrase| {
            let before = *self;
            let taken = phrase.split_ascii_whitespace().all(|word| self.word(word));
            if !taken {
                *self = before;
            }
            taken
        })
    }
    fn word(&mut self, word: &str) -> bool {
        let Some((head, tail)) = self.rest.split_at_checked(word.len()) else { return false };
        let ends = !tail.starts_with(|next: char| next.is_alphabetic());
        let taken = ends && head.eq_ignore_ascii_case(word);
        if taken {
            self.rest = tail.trim_start();
        }
        taken
    }
    /// `1` or `-1` if a sign came next; it is taken.
    ///
    /// ```
    /// use arcminute_core::scan::Cursor;
    /// assert_eq!(["-1.50", "+2.00", "2.00"].map(|text| Cursor::new(text).sign()), [Some(-1.0), Some(1.0), None]);
    /// ```
    pub fn sign(&mut self) -> Option<f64> {
        if self.take('-') {
            Some(-1.0)
        } else if self.take('+') {
            Some(1.0)
        } else {
            None
        }
    }
    /// A number such as `200`, `0.1`, `.5` if it came next; exponents, `inf` and the like are not numbers here.
    ///
    /// ```
    /// use arcminute_core::scan::Cursor;
    /// let mut cursor = Cursor::new("12.5e9");
    /// assert_eq!(cursor.number().map(|number| number.value), Some(12.5));
    /// assert_eq!(cursor.rest(), "e9");
    /// ```
    pub fn number(&mut self) -> Option<Number<'a>> {
        let behind_digits = |text: &'a str| text.trim_start_matches(|next: char| next.is_ascii_digit());
        let rest = behind_digits(self.rest);
        let rest = rest.strip_prefix('.').map_or(rest, behind_digits);
        // Without a digit it is nothing, or a point alone: neither writes a number.
        let text = self.rest.strip_suffix(rest)?;
        let value = math::of_decimal(text)?;
        self.rest = rest.trim_start();
        Some(Number { value, text })
    }
    /// A length unit if it came next; it is taken.
    ///
    /// ```
    /// use arcminute_core::scan::{Cursor, LengthUnit};
    /// let unit = |text| Cursor::new(text).length_unit();
    /// assert_eq!((unit("CM"), unit("feet")), (Some(LengthUnit::Centimetre), Some(LengthUnit::Foot)));
    /// assert_eq!((unit("''"), unit("minutes")), (Some(LengthUnit::Inch), None));
    /// ```
    pub fn length_unit(&mut self) -> Option<LengthUnit> {
        const WORDS: &[(LengthUnit, &[&str])] = &[
            (LengthUnit::Millimetre, &["mm"]),
            (LengthUnit::Centimetre, &["cm"]),
            (LengthUnit::Metre, &["m", "metre", "metres", "meter", "meters"]),
            (LengthUnit::Inch, &["in", "inch", "inches"]),
            (LengthUnit::Foot, &["ft", "foot", "feet"]),
        ];
        if let Some((unit, _)) = WORDS.iter().find(|(_, words)| self.phrase(words)) {
            return Some(*unit);
        }
        if self.take('"') || (self.rest.starts_with("''") && self.take('\'') && self.take('\'')) {
            Some(LengthUnit::Inch)
        } else if self.take('\'') {
            Some(LengthUnit::Foot)
        } else {
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_taken_as_written_and_no_further() {
        for (text, value, rest) in [
            ("20/200", 20.0, "/200"),
            (".5x", 0.5, "x"),
            ("5.", 5.0, ""),
            ("1.2.3", 1.2, ".3"),
            ("007", 7.0, ""),
        ] {
            let mut cursor = Cursor::new(text);
            let number = cursor.number().expect(text);
            assert!((number.value - value).abs() < 1e-15, "{text} gave {number:?}");
            assert_eq!(cursor.rest(), rest, "{text}");
        }
        for text in ["", ".", ".x", "..5", "-1", "inf", "NaN", "٣", "e5"] {
            let mut cursor = Cursor::new(text);
            assert_eq!((cursor.number(), cursor.rest()), (None, text), "{text} is left");
        }
    }

    #[test]
    fn units_of_length() {
        for (text, unit) in [
            ("mm", LengthUnit::Millimetre),
            ("CM", LengthUnit::Centimetre),
            ("m", LengthUnit::Metre),
            ("in", LengthUnit::Inch),
            ("\"", LengthUnit::Inch),
            ("''", LengthUnit::Inch),
            ("'", LengthUnit::Foot),
            ("ft", LengthUnit::Foot),
        ] {
            let mut cursor = Cursor::new(text);
            assert_eq!(cursor.length_unit(), Some(unit), "{text}");
            assert_eq!(cursor.rest(), "", "{text}");
        }
        assert_eq!(Cursor::new("mmm").length_unit(), None, "a word is taken whole");
    }

    /// Source: the inch is 25.4 mm and the foot 304.8 mm by definition.
    #[test]
    fn units_and_back() {
        for (unit, symbol, millimetres) in [
            (LengthUnit::Millimetre, "mm", 1.0),
            (LengthUnit::Centimetre, "cm", 10.0),
            (LengthUnit::Metre, "m", 1000.0),
            (LengthUnit::Inch, "in", 25.4),
            (LengthUnit::Foot, "ft", 304.8),
        ] {
            assert_eq!(LengthUnit::of_symbol(symbol), Some(unit), "{symbol}");
            let length = unit.length(2.5);
            assert!((length.mm() - 2.5 * millimetres).abs() < 1e-9, "2.5 {symbol} are {length:?}");
            assert!((unit.value(length) - 2.5).abs() < 1e-12, "2.5 {symbol} and back");
        }
        for symbol in ["", "kg", "mm2", "degrees"] {
            assert_eq!(LengthUnit::of_symbol(symbol), None, "{symbol}");
        }
    }

    #[test]
    fn a_long_text_is_cut_between_characters() {
        let text = "٣".repeat(300);
        assert_eq!(Text::new(&text).as_str(), "٣".repeat(20) + "…", "two bytes each");
        let error = entry("acuity", &text).expect_err("300 characters");
        assert_eq!(error.why, Why::TooLong { max: 200 });
        assert!(entry("acuity", &"٣".repeat(200)).is_ok(), "characters are counted, not bytes");
    }
}
