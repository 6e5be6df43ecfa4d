//! Reading an acuity as it is written.

use super::{Acuity, Category, Notation};
use crate::bounds;
use crate::error::{Error, Text, Why};
use crate::list::List;
use crate::scan::{self, Cursor};
use crate::unit::LogMar;

/// What a number with no notation beside it is taken for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BareNumber {
    /// For nothing: the person is asked, unless only one notation can hold it.
    #[default]
    Ask,
    /// For decimal acuity.
    Decimal,
    /// For the logarithm of the minimum angle of resolution.
    LogMar,
}

/// What a text was understood as.
#[derive(Clone, Debug, PartialEq)]
pub enum Parsed {
    /// Nothing was written.
    Empty,
    /// It can mean one thing only.
    Understood(Reading),
    /// It can mean any of these; one of them is to be confirmed.
    Ask {
        /// What it can mean; at least one.
        choices: List<Acuity, 2>,
    },
    /// It cannot be used.
    Refused(Error),
}

/// A recorded acuity: a size or a category.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// Measured with letters or rings.
    Measured(Acuity),
    /// No letter read.
    Category(Category),
}

impl Reading {
    /// The size, for a sum.
    ///
    /// # Errors
    /// [`Why::NotUsableInSum`] for a category; [`Category::published_mean`] must be asked for by name.
    ///
    /// ```
    /// use arcminute_core::acuity::{BareNumber, Category, Parsed, Reading, parse};
    /// let Parsed::Understood(read) = parse("6/60", BareNumber::Ask) else { unreachable!() };
    /// assert_eq!(read.measured()?.log_mar.log(), 1.0);
    /// assert!(Reading::Category(Category::LightPerception).measured().is_err());
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn measured(&self) -> Result<Acuity, Error> {
        match self {
            Self::Measured(acuity) => Ok(*acuity),
            Self::Category(category) => {
                Err(Error::about("acuity", format_args!("{category}"), Why::NotUsableInSum))
            }
        }
    }
}

/// What `text` says, in trade notation with a decimal point and plain digits.
///
/// * `20/200`, `6/60`, `5/200`, with `ft` or `m` if need be, and letters beside the line: `20/200-2`. Without a unit a
///   numerator above 6.1 is feet, 6 is metres, and less is metres unless the denominator is 200 or more.
/// * `decimal 0.1`, `logMAR 1.0`, `1.0 logMAR`, `logMAR 1.00 -2`, `35 letters`.
/// * `CF 1 m`, `FC`, `CF @ 3'`, `HM`, `HMM`, `LP`, `PL`, `NLP`, `NPL`; in capitals or not.
/// * A bare number goes by `bare`. With [`BareNumber::Ask`] a number that is a possible decimal and a possible logMAR
///   is asked about; one with a sign can only be logMAR; a bare `0` can only be logMAR but is written for blindness
///   too, so it is asked about with its one choice.
///
/// Nothing is converted on the way: an [`Acuity`] keeps its notation and a category stays one.
///
/// # Example
/// ```
/// use arcminute_core::acuity::{BareNumber, Parsed, Reading, parse};
/// let Parsed::Understood(Reading::Measured(acuity)) = parse("20/200-2", BareNumber::Ask) else { panic!() };
/// assert!((acuity.log_mar.log() - 1.04).abs() < 1e-12);
/// let Parsed::Ask { choices } = parse("0.1", BareNumber::Ask) else { panic!() };
/// assert_eq!(choices[0].to_string(), "decimal 0.1");
/// assert_eq!(choices[1].to_string(), "logMAR 0.10");
/// ```
#[must_use]
pub fn parse(text: &str, bare: BareNumber) -> Parsed {
    read(text, bare).unwrap_or_else(Parsed::Refused)
}

fn measured(notation: Notation) -> Result<Parsed, Error> {
    Ok(Parsed::Understood(Reading::Measured(Acuity::of(notation)?)))
}

fn missing(text: &str, part: &'static str, example: &'static str) -> Error {
    Error::new("acuity", text, Why::Missing { part, example })
}

fn read(text: &str, bare: BareNumber) -> Result<Parsed, Error> {
    let text = scan::entry("acuity", text)?;
    if text.is_empty() {
        return Ok(Parsed::Empty);
    }
    let cursor = &mut Cursor::new(text);
    if let Some(category) = Category::read(cursor)? {
        cursor.end("acuity", text)?;
        return Ok(Parsed::Understood(Reading::Category(category)));
    }
    let named = if cursor.phrase(&["logmar"]) {
        Some(BareNumber::LogMar)
    } else if cursor.phrase(&["decimal"]) {
        Some(BareNumber::Decimal)
    } else {
        None
    };
    if cursor.take('/') {
        return Err(missing(text, "a number before the stroke", "20/200"));
    }
    let sign = cursor.sign();
    let Some(number) = cursor.number() else {
        return Err(match named {
            Some(_) => missing(text, "a number", "logMAR 1.0"),
            None => Error::new("acuity", text, Why::NotANumber { example: "20/200" }),
        });
    };
    // Adding zero turns −0 into 0.
    let value = sign.unwrap_or(1.0) * number.value + 0.0;
    if named.is_none() && cursor.take('/') {
        let fraction = fraction(cursor, text, value)?;
        cursor.end("acuity", text)?;
        return measured(fraction);
    }
    let named = if named.is_some() {
        named
    } else if cursor.phrase(&["logmar"]) {
        Some(BareNumber::LogMar)
    } else if cursor.phrase(&["decimal"]) {
        Some(BareNumber::Decimal)
    } else if cursor.phrase(&["letters", "letter"]) {
        cursor.end("acuity", text)?;
        return measured(Notation::LetterScore(value));
    } else {
        None
    };
    let letters = if named == Some(BareNumber::LogMar) { letters(cursor, text)? } else { 0 };
    cursor.end("acuity", text)?;
    match named.unwrap_or(bare) {
        BareNumber::LogMar => measured(Notation::LogMar { value: LogMar::from_log(value), letters }),
        BareNumber::Decimal => measured(Notation::Decimal(value)),
        BareNumber::Ask => bare_number(text, value, sign.is_some()),
    }
}

fn bare_number(text: &str, value: f64, signed: bool) -> Result<Parsed, Error> {
    let understood = |acuity| Ok(Parsed::Understood(Reading::Measured(acuity)));
    let decimal = if signed { None } else { Acuity::of(Notation::Decimal(value)).ok() };
    let log_mar = Acuity::of_log_mar(LogMar::from_log(value)).ok();
    match (decimal, log_mar) {
        (Some(decimal), Some(log_mar)) => Ok(Parsed::Ask { choices: [decimal, log_mar].into() }),
        (None, Some(log_mar)) if !signed && value <= 0.0 => {
            Ok(Parsed::Ask { choices: List::of_one(log_mar) })
        }
        (None, Some(only)) | (Some(only), None) => understood(only),
        (None, None) => Err(missing(text, "its notation beside it", "20/200")),
    }
}

/// The rest of a fraction after its stroke: denominator, unit, letters, the last two in either order.
fn fraction(cursor: &mut Cursor<'_>, text: &str, numerator: f64) -> Result<Notation, Error> {
    let sign = cursor.sign();
    let Some(number) = cursor.number() else {
        return Err(missing(text, "a number after the stroke", "20/200"));
    };
    let denominator = sign.unwrap_or(1.0) * number.value;
    let mut unit = feet_or_metres(cursor);
    let letters = letters(cursor, text)?;
    if unit.is_none() {
        unit = feet_or_metres(cursor);
    }
    Ok(if unit.unwrap_or_else(|| Notation::looks_like_feet(numerator, denominator)) {
        Notation::Feet { numerator, denominator, letters }
    } else {
        Notation::Metres { numerator, denominator, letters }
    })
}

/// Whether feet (and not metres) were written.
fn feet_or_metres(cursor: &mut Cursor<'_>) -> Option<bool> {
    if cursor.phrase(&["ft", "feet", "foot"]) {
        Some(true)
    } else if cursor.phrase(&["m", "metres", "meters"]) {
        Some(false)
    } else {
        None
    }
}

/// Letters beside the line, `+1` or `-2`; zero if there are none.
fn letters(cursor: &mut Cursor<'_>, text: &str) -> Result<i8, Error> {
    let Some(sign) = cursor.sign() else { return Ok(0) };
    let before = *cursor;
    let Some(number) = cursor.number() else {
        return Err(missing(text, "the number of letters after its sign", "20/200-2"));
    };
    match number.whole().map(i8::try_from) {
        Some(Ok(count)) if count <= 9 => Ok(if sign < 0.0 { count.saturating_neg() } else { count }),
        None if number.text.contains('.') => {
            let rest = Text::new(before.rest());
            Err(Error::new("letters beside the line", rest.as_str(), Why::NotANumber { example: "20/200-2" }))
        }
        _ => Err(bounds::LETTERS_BESIDE
            .check(sign * number.value)
            .err()
            .unwrap_or_else(|| missing(text, "the number of letters after its sign", "20/200-2"))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::{String, ToString};

    fn told(text: &str) -> String {
        match parse(text, BareNumber::Ask) {
            Parsed::Refused(error) => error.to_string(),
            other => panic!("{text} was taken: {other:?}"),
        }
    }

    /// Charts have up to nine letters a line; a number too long to be counted is refused like any other.
    #[test]
    fn too_many_letters_beside_the_line_are_refused() {
        let letters = |text| match parse(text, BareNumber::Ask) {
            Parsed::Understood(Reading::Measured(acuity)) => acuity.notation.letters(),
            other => panic!("{text}: {other:?}"),
        };
        assert_eq!([letters("20/200-9"), letters("20/200+9"), letters("20/200-0")], [-9, 9, 0]);
        for (text, count) in [
            ("20/200-10", "-10"),
            ("20/200+10", "10"),
            ("20/200-127", "-127"),
            ("20/200-128", "-128"),
            ("20/200-65535", "-65535"),
            ("20/200-65536", "-65536"),
            ("20/200+99999999", "99999999"),
        ] {
            let message = alloc::format!("letters beside the line `{count} letters` is not possible");
            assert_eq!(told(text), message, "{text}");
        }
        for text in ["20/200-1.5", "20/200-1.", "20/200-10.0"] {
            let (_, written) = text.split_once('-').expect("a sign");
            let message = alloc::format!("letters beside the line `{written}` was not understood");
            assert_eq!(told(text), message, "{text}");
        }
    }

    #[test]
    fn of_two_faults_the_first_one_read_is_told() {
        let letters = "letters beside the line `-10 letters` is not possible";
        assert_eq!(told("20/200-10 x"), letters, "and not what is left over");
        assert_eq!(told("0/200-10"), letters, "fractions are judged as a whole");
    }
}
