//! Reading a print size as it is written.

use super::ask::{number_alone, of_type};
use super::notation::{Notation, Print, WrittenLength};
use super::typeface::{Letters, Typeface};
use crate::error::{Error, Text, Why};
use crate::list::List;
use crate::scan::{self, Cursor, LengthUnit};
use crate::unit::{LogMar, PrintSize};

/// What a text was understood as.
#[expect(clippy::large_enum_variant, reason = "the choices are kept in place, without an allocator")]
#[derive(Clone, Debug, PartialEq)]
pub enum Parsed {
    /// Nothing was written.
    Empty,
    /// It can mean one thing only.
    Understood(Print),
    /// It can mean any of these; one of them is to be confirmed.
    Ask {
        /// What it can mean; at least one.
        choices: List<Print, 8>,
    },
    /// It cannot be used.
    Refused(Error),
}

/// What `text` says of a print size, in trade notation with a decimal point and plain digits; capitals count for nothing.
///
/// * `1.6 M`, `M 1.6`, `1.6M`; `0.4/1.6 M` is 1.6 M read at 0.4 m.
/// * `N8`, `N 8`; what N means is asked of [`Print::size`].
/// * `12 pt Times`, `16 px Arial`, `8 pt Helvetica capitals`, `12 pt Verdana 0.55` or `12 pt 0.55` with the x-height over
///   the body. Without a typeface, and where sources disagree about it, it is asked. Pixels are taken at 96 to the inch.
/// * `1.45 mm`, `x-height 1.45 mm`: the x-height as measured.
/// * `20/50 at 40 cm`, `logMAR 0.4 at 40 cm`: on cards made for that distance. Without a distance 40 cm is asked about.
/// * `J5`, `J1+`: kept as it is written; it has no size.
/// * A number alone is asked about: M units, N notation or millimetres.
///
/// A distance may follow any of them: `N8 at 25 cm`, `1 M @ 40cm`.
///
/// # Example
/// ```
/// use arcminute_core::print::{Parsed, parse};
/// let Parsed::Understood(print) = parse("1.6M @ 40cm") else { panic!() };
/// assert_eq!(print.to_string(), "1.6 M at 40 cm");
/// let Parsed::Ask { choices } = parse("8") else { panic!() };
/// assert_eq!(choices.iter().map(ToString::to_string).collect::<Vec<_>>(), ["8 M", "N8", "x-height 8 mm"]);
/// ```
#[must_use]
pub fn parse(text: &str) -> Parsed {
    read(text).unwrap_or_else(Parsed::Refused)
}

const PRINT: &str = "print size";
const CAPITALS: &[&str] = &["capitals", "caps"];
const X_HEIGHT: &[&str] = &["x-height", "x height"];

/// What was written before the distance.
enum Kind {
    Is(Notation),
    Type { count: f64, pixels: bool, typeface: Option<Typeface>, letters: Letters, ratio: Option<f64> },
    Number(f64),
}

pub(super) fn missing(text: &str, part: &'static str, example: &'static str) -> Error {
    Error::new(PRINT, text, Why::Missing { part, example })
}

fn read(text: &str) -> Result<Parsed, Error> {
    let text = scan::entry(PRINT, text)?;
    if text.is_empty() {
        return Ok(Parsed::Empty);
    }
    let cursor = &mut Cursor::new(text);
    let (kind, at) = match named(cursor, text)? {
        Some(kind) => (kind, distance(cursor, text)?),
        None => numbered(cursor, text)?,
    };
    cursor.end(PRINT, text)?;
    match kind {
        Kind::Is(notation) if at.is_none() && notation.needs_distance() => {
            let at = Some(WrittenLength::FORTY_CENTIMETRES);
            Ok(Parsed::Ask { choices: List::of_one(Print::of(notation, at)?) })
        }
        Kind::Is(notation) => Print::of(notation, at).map(Parsed::Understood),
        Kind::Type { count, pixels, typeface, letters, ratio } => {
            of_type(text, at, pixels, count, (typeface, letters, ratio))
        }
        Kind::Number(value) => number_alone(text, value, at),
    }
}

/// A notation whose name comes first, if it does.
fn named(cursor: &mut Cursor<'_>, text: &str) -> Result<Option<Kind>, Error> {
    let notation = if cursor.phrase(&["m"]) {
        Notation::M(PrintSize::from_m_units(number(cursor, text, "M 1.6")?))
    } else if cursor.phrase(&["n"]) {
        Notation::N(number(cursor, text, "N8")?)
    } else if cursor.phrase(&["logmar"]) {
        let sign = cursor.sign().unwrap_or(1.0);
        // Adding zero turns −0 into 0.
        Notation::LogMar(LogMar::from_log(sign * number(cursor, text, "logMAR 0.4")? + 0.0))
    } else if cursor.phrase(&["jaeger", "j"]) {
        jaeger(cursor, text)?
    } else if cursor.phrase(X_HEIGHT) {
        let value = number(cursor, text, "x-height 1.45 mm")?;
        let Some(unit) = cursor.length_unit() else {
            return Err(missing(text, "the unit of the x-height", "x-height 1.45 mm"));
        };
        Notation::Height(WrittenLength { value, unit })
    } else {
        return Ok(None);
    };
    Ok(Some(Kind::Is(notation)))
}

fn number(cursor: &mut Cursor<'_>, text: &str, example: &'static str) -> Result<f64, Error> {
    cursor.number().map(|number| number.value).ok_or_else(|| missing(text, "a number", example))
}

/// One or two digits and perhaps a plus.
fn jaeger(cursor: &mut Cursor<'_>, text: &str) -> Result<Notation, Error> {
    let written = cursor.number().map(|number| number.text);
    let Some(digits) = written.filter(|digits| digits.len() <= 2 && !digits.contains('.')) else {
        return Err(missing(text, "one of the Jaeger numbers", "J5"));
    };
    let plus = if cursor.take('+') { "+" } else { "" };
    Ok(Notation::Jaeger(Text::of(format_args!("{digits}{plus}"))))
}

/// A notation that begins with a number, and the distance.
fn numbered(cursor: &mut Cursor<'_>, text: &str) -> Result<(Kind, Option<WrittenLength>), Error> {
    let sign = cursor.sign();
    let Some(number) = cursor.number() else {
        return Err(Error::new(PRINT, text, Why::NotANumber { example: "1.6 M" }));
    };
    let value = number.value;
    if cursor.phrase(&["logmar"]) {
        let log_mar = LogMar::from_log(sign.unwrap_or(1.0) * value + 0.0);
        return Ok((Kind::Is(Notation::LogMar(log_mar)), distance(cursor, text)?));
    }
    if sign.is_some() {
        return Err(Error::new(PRINT, text, Why::NotANumber { example: "1.6 M" }));
    }
    if cursor.take('/') {
        return fraction(cursor, text, value);
    }
    let kind = if cursor.phrase(&["m units", "m unit", "m"]) {
        Kind::Is(Notation::M(PrintSize::from_m_units(value)))
    } else if cursor.phrase(&["pt", "pts", "point", "points"]) {
        type_behind(cursor, value, false)
    } else if cursor.phrase(&["px", "pixel", "pixels"]) {
        type_behind(cursor, value, true)
    } else if let Some(unit) = cursor.length_unit() {
        cursor.phrase(X_HEIGHT);
        Kind::Is(Notation::Height(WrittenLength { value, unit }))
    } else {
        Kind::Number(value)
    };
    Ok((kind, distance(cursor, text)?))
}

/// What stands behind the unit of type: typeface, capitals, ratio, each of them or none.
fn type_behind(cursor: &mut Cursor<'_>, count: f64, pixels: bool) -> Kind {
    let typeface = Typeface::ALL.into_iter().find(|face| cursor.phrase(face.words()));
    let letters = if cursor.phrase(CAPITALS) { Letters::Capitals } else { Letters::LowerCase };
    let ratio = cursor.number().map(|number| number.value);
    Kind::Type { count, pixels, typeface, letters, ratio }
}

/// The rest of a fraction after its stroke: the denominator, and the distance or an M.
fn fraction(
    cursor: &mut Cursor<'_>,
    text: &str,
    numerator: f64,
) -> Result<(Kind, Option<WrittenLength>), Error> {
    let Some(number) = cursor.number() else {
        return Err(missing(text, "a number after the stroke", "20/50 at 40 cm"));
    };
    if cursor.phrase(&["m"]) {
        let size = PrintSize::from_m_units(number.value);
        let at = WrittenLength { value: numerator, unit: LengthUnit::Metre };
        return Ok((Kind::Is(Notation::M(size)), Some(at)));
    }
    let line = Notation::ReducedSnellen { numerator, denominator: number.value };
    Ok((Kind::Is(line), distance(cursor, text)?))
}

/// The distance behind `at`, if there is one.
fn distance(cursor: &mut Cursor<'_>, text: &str) -> Result<Option<WrittenLength>, Error> {
    const EXAMPLE: &str = "1.6 M at 40 cm";
    if !(cursor.take('@') || cursor.phrase(&["at"])) {
        return Ok(None);
    }
    let Some(number) = cursor.number() else { return Err(missing(text, "the distance", EXAMPLE)) };
    let Some(unit) = cursor.length_unit() else {
        return Err(missing(text, "the unit of the distance", EXAMPLE));
    };
    Ok(Some(WrittenLength { value: number.value, unit }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::{String, ToString};
    use alloc::vec::Vec;

    #[track_caller]
    fn understood(text: &str) -> Print {
        match parse(text) {
            Parsed::Understood(print) => print,
            other => panic!("{text} gave {other:?}"),
        }
    }
    #[track_caller]
    fn asked(text: &str) -> Vec<String> {
        match parse(text) {
            Parsed::Ask { choices } => choices.iter().map(ToString::to_string).collect(),
            other => panic!("{text} gave {other:?}"),
        }
    }
    #[track_caller]
    fn refused(text: &str) -> (String, String) {
        match parse(text) {
            Parsed::Refused(error) => (error.to_string(), error.hint().to_string()),
            other => panic!("{text} gave {other:?}"),
        }
    }

    #[test]
    fn what_practitioners_type() {
        for (text, written) in [
            ("1.6 M", "1.6 M"),
            ("M 1.6", "1.6 M"),
            ("m1.6", "1.6 M"),
            (" 1.6M at 40 cm ", "1.6 M at 40 cm"),
            ("1.6m@16in", "1.6 M at 16 in"),
            ("2 M units", "2 M"),
            ("1 M unit", "1 M"),
            ("0.4/1.6M", "1.6 M at 0.4 m"),
            ("N8", "N8"),
            ("n 8 at 25cm", "N8 at 25 cm"),
            ("12 pt Times", "12 pt Times"),
            ("12pt times new roman", "12 pt Times"),
            ("12 points Times Roman 0.45", "12 pt Times"),
            ("12 pt Verdana 0.55", "12 pt Verdana 0.55"),
            ("12 pts 0.5", "12 pt 0.5"),
            ("1 point Arial at 1 m", "1 pt Helvetica at 1 m"),
            ("16 px Helvetica", "16 px Helvetica"),
            ("16 pixels courier new", "16 px Courier"),
            ("16 pixel Georgia", "16 px Georgia"),
            ("8 pt Arial caps", "8 pt Helvetica capitals"),
            ("8 pt Georgia capitals 0.69", "8 pt Georgia capitals 0.69"),
            ("1.45 mm", "x-height 1.45 mm"),
            ("1.45mm x-height at 40 cm", "x-height 1.45 mm at 40 cm"),
            ("x-height 0.2 cm", "x-height 0.2 cm"),
            ("x height 0.1 in", "x-height 0.1 in"),
            ("20/50 at 40 cm", "20/50 at 40 cm"),
            ("6/15@40cm", "6/15 at 40 cm"),
            ("logMAR 0.4 at 40 cm", "logMAR 0.4 at 40 cm"),
            ("-0.1 logMAR at 40 cm", "logMAR -0.1 at 40 cm"),
            ("+0.1 logMAR at 40 cm", "logMAR 0.1 at 40 cm"),
            ("logMAR -0 at 40 cm", "logMAR 0 at 40 cm"),
            ("-0 logMAR at 40 cm", "logMAR 0 at 40 cm"),
            ("logMAR +0.1 at 40 cm", "logMAR 0.1 at 40 cm"),
            ("J5", "J5"),
            ("j 16 at 40 cm", "J16 at 40 cm"),
            ("Jaeger 1+", "J1+"),
        ] {
            assert_eq!(understood(text).to_string(), written, "{text}");
        }
        assert_eq!(parse("  "), Parsed::Empty);
    }

    #[test]
    fn what_is_asked() {
        assert_eq!(asked("1.6"), ["1.6 M", "N1.6", "x-height 1.6 mm"]);
        assert_eq!(asked("80 at 1 m"), ["N80 at 1 m", "x-height 80 mm at 1 m"]);
        assert_eq!(asked("0.5"), ["0.5 M", "x-height 0.5 mm"]);
        assert_eq!(
            asked("12 pt"),
            [
                "12 pt Times",
                "12 pt Helvetica",
                "12 pt Georgia",
                "12 pt Courier",
                "12 pt Verdana 0.545",
                "12 pt Verdana 0.58"
            ]
        );
        assert_eq!(
            asked("16px Verdana at 60 cm"),
            ["16 px Verdana 0.545 at 60 cm", "16 px Verdana 0.58 at 60 cm"]
        );
        assert_eq!(
            asked("12 pt capitals"),
            ["12 pt Times capitals", "12 pt Helvetica capitals", "12 pt Verdana capitals"]
        );
        assert_eq!(asked("20/50"), ["20/50 at 40 cm"]);
        assert_eq!(asked("0.4 logMAR"), ["logMAR 0.4 at 40 cm"]);
    }

    #[test]
    fn what_is_refused_says_why() {
        for (text, message, hint) in [
            ("big", "print size `big` was not understood", "type for example `1.6 M`"),
            ("-1 M", "print size `-1 M` was not understood", "type for example `1.6 M`"),
            ("M", "print size `M` needs a number", "type for example `M 1.6`"),
            ("N", "print size `N` needs a number", "type for example `N8`"),
            ("logMAR", "print size `logMAR` needs a number", "type for example `logMAR 0.4`"),
            ("J", "print size `J` needs one of the Jaeger numbers", "type for example `J5`"),
            ("J1.5", "print size `J1.5` needs one of the Jaeger numbers", "type for example `J5`"),
            ("J100", "print size `J100` needs one of the Jaeger numbers", "type for example `J5`"),
            ("x-height", "print size `x-height` needs a number", "type for example `x-height 1.45 mm`"),
            (
                "x-height 2",
                "print size `x-height 2` needs the unit of the x-height",
                "type for example `x-height 1.45 mm`",
            ),
            ("20/", "print size `20/` needs a number after the stroke", "type for example `20/50 at 40 cm`"),
            ("1 M at", "print size `1 M at` needs the distance", "type for example `1.6 M at 40 cm`"),
            (
                "1 M at 40",
                "print size `1 M at 40` needs the unit of the distance",
                "type for example `1.6 M at 40 cm`",
            ),
            ("1 M 2", "print size `1 M 2` was understood only in part", "take away `2`"),
            (
                "12 pt Unknown",
                "print size `12 pt Unknown` was understood only in part",
                "take away `Unknown`",
            ),
            (
                "12 pt Courier capitals",
                "print size `12 pt Courier capitals` needs the height of its capitals over the body",
                "type for example `12 pt capitals 0.7`",
            ),
            ("12 pt 2", "x-height over text size `2` is not possible", "use 0.2 to 1"),
            ("500 pt", "print size `500 points` is not possible", "use 1 to 400 points"),
            ("2001 px", "text size `2001 px` is not possible", "use 1 to 2000 px"),
            ("0 M", "print size `0 M` is not possible", "use 0.1 to 60 M"),
            ("N0", "print size `0 points` is not possible", "use 1 to 400 points"),
            ("40/1 M", "test distance `40 m` is not possible", "use 0.05 to 20 m"),
            ("8 at 40 m", "test distance `40 m` is not possible", "use 0.05 to 20 m"),
            ("5000", "print size `5000` needs its notation beside it", "type for example `1.6 M`"),
            ("20/0 at 40 cm", "part of the fraction `0` is not possible", "use 0.1 to 20000"),
            ("20/5000", "print size `100 M` is not possible", "use 0.1 to 60 M"),
        ] {
            assert_eq!(refused(text), (message.into(), hint.into()), "{text}");
        }
        let long = "9".repeat(201);
        assert_eq!(refused(&long).1, "use at most 200 characters");
    }
}
