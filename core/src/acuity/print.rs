//! Writing an acuity, as recorded or in another notation.

use super::{Acuity, Notation, ladder_label};
use crate::math;
use crate::unit::LogMar;
use core::fmt;

/// A notation to show acuity in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// `20/200`.
    Feet,
    /// `6/60`.
    Metres,
    /// `0.1`.
    Decimal,
    /// `1.00`.
    LogMar,
}

/// An acuity on a scale, to be printed: what [`written`] returns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Written(Form);

#[derive(Clone, Copy, Debug, PartialEq)]
enum Form {
    Label(&'static str),
    Number { before: &'static str, number: f64 },
    Log(f64),
}

impl fmt::Display for Written {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Form::Label(label) => f.write_str(label),
            Form::Number { before, number } => write!(f, "{before}{number}"),
            Form::Log(log) => write!(f, "{log:.2}"),
        }
    }
}

/// The text that shows this acuity on a scale; 20 and 6 are the numerators, whatever the test distance was.
///
/// Within 0.02 log of a line of the ladder it is that line's label; else a number that is off by at most half a letter
/// or so. For showing only: the text of a fraction or decimal means a slightly different value than the one given.
///
/// ```
/// use arcminute_core::acuity::{Scale, written};
/// use arcminute_core::unit::LogMar;
/// assert_eq!(written(LogMar::from_log(0.9031), Scale::Feet).to_string(), "20/160");
/// assert_eq!(written(LogMar::from_log(0.8751), Scale::Feet).to_string(), "20/150");
/// assert_eq!(written(LogMar::from_log(0.4771), Scale::Metres).to_string(), "6/18");
/// assert_eq!(written(LogMar::from_log(0.4771), Scale::Decimal).to_string(), "0.333");
/// assert_eq!(written(LogMar::from_log(-0.001), Scale::LogMar).to_string(), "0.00");
/// ```
#[must_use]
pub fn written(log_mar: LogMar, scale: Scale) -> Written {
    let mar = log_mar.mar().arcmin();
    let number = match scale {
        // Adding zero turns −0.00 into 0.00.
        Scale::LogMar => return Written(Form::Log(math::round_to(log_mar.log(), 0.01) + 0.0)),
        Scale::Feet => few_digits(20.0 * mar, 0.05, 0.1),
        Scale::Metres => few_digits(6.0 * mar, 0.05, 0.1),
        Scale::Decimal => few_digits(1.0 / mar, 0.01, 0.01),
    };
    // Rounding may bring it within reach of a label; then the label is shown, so that reading it back shows the same.
    let rounded = match scale {
        Scale::Feet => math::log10(number / 20.0),
        Scale::Metres => math::log10(number / 6.0),
        Scale::Decimal | Scale::LogMar => -math::log10(number),
    };
    let label = ladder_label(log_mar).or_else(|| ladder_label(LogMar::from_log(rounded)));
    Written(match (scale, label) {
        (Scale::Feet, Some(rung)) => Form::Label(rung.feet),
        (Scale::Metres, Some(rung)) => Form::Label(rung.metres),
        (_, Some(rung)) => Form::Label(rung.decimal),
        (Scale::Feet, None) => Form::Number { before: "20/", number },
        (Scale::Metres, None) => Form::Number { before: "6/", number },
        (_, None) => Form::Number { before: "", number },
    })
}

/// `x` rounded in its decade: to `fine` below 2.5, to `coarse` above, both as of numbers from 1 to 10.
fn few_digits(x: f64, fine: f64, coarse: f64) -> f64 {
    let decade = math::floor(math::log10(x));
    let step = if x < 2.5 * math::pow(10.0, decade) { fine } else { coarse };
    // Whole multiples over whole powers: the quotient prints without a tail of digits.
    let per_one = math::round(1.0 / step);
    let count = math::round(x / math::pow(10.0, decade) * per_one);
    if decade < 0.0 {
        count / (per_one * math::pow(10.0, -decade))
    } else {
        count * math::pow(10.0, decade) / per_one
    }
}

/// A logarithm with two decimals, or with all it has if it has more.
struct LogText(f64);

impl fmt::Display for LogText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let log = self.0;
        let is_short = math::abs(math::round_to(log, 0.01) - log) < f64::EPSILON;
        // Adding zero turns −0.00 into 0.00.
        if is_short { write!(f, "{:.2}", math::round_to(log, 0.01) + 0.0) } else { write!(f, "{log}") }
    }
}

/// As recorded, so that [`parse`](super::parse) reads it back without asking.
impl fmt::Display for Notation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Feet { numerator, denominator, .. } => write!(f, "{numerator}/{denominator}")?,
            Self::Metres { numerator, denominator, .. } => write!(f, "{numerator}/{denominator}")?,
            Self::Decimal(decimal) => write!(f, "decimal {decimal}")?,
            Self::LogMar { value, .. } => write!(f, "logMAR {}", LogText(value.log()))?,
            Self::LetterScore(score) => write!(f, "{score} letters")?,
        }
        let letters = self.letters();
        if letters != 0 {
            let space = if matches!(self, Self::LogMar { .. }) { " " } else { "" };
            write!(f, "{space}{letters:+}")?;
        }
        match *self {
            Self::Feet { numerator, denominator, .. } if !Self::looks_like_feet(numerator, denominator) => {
                write!(f, " ft")
            }
            Self::Metres { numerator, denominator, .. } if Self::looks_like_feet(numerator, denominator) => {
                write!(f, " m")
            }
            _ => Ok(()),
        }
    }
}

/// As recorded.
impl fmt::Display for Acuity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.notation.fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;
    use alloc::string::ToString;

    #[test]
    fn off_the_ladder_the_number_stays_near() {
        for (fraction, text) in [
            (20.0 / 30.0, "20/30"),
            (20.0 / 60.0, "20/60"),
            (20.0 / 70.0, "20/70"),
            (20.0 / 15.0, "20/15"),
            (20.0 / 150.0, "20/150"),
            (20.0 / 300.0, "20/300"),
            (5.0 / 300.0, "20/1200"),
            (10.0 / 350.0, "20/700"),
        ] {
            assert_eq!(written(LogMar::from_log(-math::log10(fraction)), Scale::Feet).to_string(), text);
        }
        assert_eq!(written(LogMar::from_log(0.8751), Scale::Decimal).to_string(), "0.133");
        assert_eq!(written(LogMar::from_log(1.7782), Scale::Metres).to_string(), "6/360");
    }

    /// To half a tenth of a decade below 2.5 and to a tenth above, by hand.
    #[test]
    fn fewer_digits_above_two_and_a_half() {
        for (feet, wanted) in [(133.0, "20/135"), (283.0, "20/280"), (13.6, "20/13.5"), (36.4, "20/36")] {
            let acuity = LogMar::from_log(math::log10(feet / 20.0));
            assert_eq!(written(acuity, Scale::Feet).to_string(), wanted, "20/{feet}");
        }
    }

    #[test]
    fn what_is_no_number_is_still_written() {
        for scale in [Scale::Feet, Scale::Metres, Scale::Decimal, Scale::LogMar] {
            for log in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
                assert!(!written(LogMar::from_log(log), scale).to_string().is_empty(), "{log}");
            }
        }
    }

    /// Found by fuzzing: `logMAR -0.00` was printed, which is read back as `logMAR 0.00`.
    #[test]
    fn a_logarithm_next_to_zero_has_no_sign() {
        for log in [-1e-17, -0.0, 0.0, 1e-17] {
            let notation = Notation::LogMar { value: LogMar::from_log(log), letters: 0 };
            assert_eq!(notation.to_string(), "logMAR 0.00", "{log}");
        }
        let notation = Notation::LogMar { value: LogMar::from_log(-0.01), letters: 0 };
        assert_eq!(notation.to_string(), "logMAR -0.01");
    }

    #[test]
    fn a_unit_is_written_where_the_numbers_do_not_tell() {
        let fraction = |numerator, denominator, feet: bool| {
            let notation = if feet {
                Notation::Feet { numerator, denominator, letters: -1 }
            } else {
                Notation::Metres { numerator, denominator, letters: -1 }
            };
            format!("{notation}")
        };
        assert_eq!(fraction(20.0, 200.0, true), "20/200-1");
        assert_eq!(fraction(6.0, 60.0, true), "6/60-1 ft");
        assert_eq!(fraction(6.0, 60.0, false), "6/60-1");
        assert_eq!(fraction(20.0, 200.0, false), "20/200-1 m");
    }

    /// Law: three digits of a decimal below 0.1 or below 1 are printed as three digits, without a tail of rounding.
    #[test]
    fn small_decimals_print_without_a_tail() {
        for count in 100..1000_u32 {
            for (decade, digits) in [(1000.0, 3), (10_000.0, 4)] {
                let decimal = f64::from(count) / decade;
                let text = written(LogMar::from_log(-math::log10(decimal)), Scale::Decimal).to_string();
                assert!(text.len() <= "0.".len() + digits, "{decimal} is printed as {text}");
            }
        }
        assert_eq!(written(LogMar::from_log(-math::log10(0.141)), Scale::Decimal).to_string(), "0.141");
    }

    /// Two decimals, or all there are: what differs in the last digit there is must not be read back as another.
    #[test]
    fn a_logarithm_is_cut_to_two_decimals_only_where_it_has_no_more() {
        let printed = |log| Notation::LogMar { value: LogMar::from_log(log), letters: 0 }.to_string();
        assert_eq!(printed(0.1 + 0.2), "logMAR 0.30", "rounding below the last digit of 1");
        assert_eq!(printed(1.0 + f64::EPSILON), "logMAR 1.0000000000000002");
        assert_eq!(printed(1.005), "logMAR 1.005");
    }
}
