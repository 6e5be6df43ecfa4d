//! The standard ladder of acuity lines, 0.1 log apart, with the labels that charts print.

use crate::math;
use crate::unit::LogMar;

/// One line of the ladder.
///
/// A label is a rounded number: it differs from the exact value by up to 0.0051 log (decimal 0.32). It is for showing
/// only ([`source::LADDER`](crate::source::LADDER)).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rung {
    /// Tenths of a log unit; 10 is logMAR 1.0.
    pub tenths: i8,
    /// Label in decimal notation.
    pub decimal: &'static str,
    /// Label in feet.
    pub feet: &'static str,
    /// Label in metres.
    pub metres: &'static str,
    /// Label of charts for 4 m, which end at 4/80.
    pub four_metres: Option<&'static str>,
    /// Label of charts for 1 m.
    pub one_metre: &'static str,
}

impl Rung {
    /// The exact value of the line.
    ///
    /// ```
    /// use arcminute_core::{acuity::LADDER, unit::{Angle, LogMar}};
    /// let line = LADDER.iter().find(|rung| rung.feet == "20/32").expect("on the ladder");
    /// assert_eq!(line.log_mar().log(), 0.2);
    /// // Its label taken at its word is 0.204 (computed).
    /// assert!((LogMar::of_angle(Angle::from_arcmin(32.0 / 20.0)).log() - 0.204).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn log_mar(&self) -> LogMar {
        LogMar::from_log(f64::from(self.tenths) / 10.0)
    }
}

const fn rung(
    tenths: i8,
    decimal: &'static str,
    feet: &'static str,
    metres: &'static str,
    four_metres: Option<&'static str>,
    one_metre: &'static str,
) -> Rung {
    Rung { tenths, decimal, feet, metres, four_metres, one_metre }
}

/// The ladder, best line first.
pub static LADDER: &[Rung] = &[
    rung(-3, "2.0", "20/10", "6/3", Some("4/2"), "1/0.5"),
    rung(-2, "1.6", "20/12.5", "6/3.8", Some("4/2.5"), "1/0.63"),
    rung(-1, "1.25", "20/16", "6/4.8", Some("4/3.2"), "1/0.8"),
    rung(0, "1.0", "20/20", "6/6", Some("4/4"), "1/1"),
    rung(1, "0.8", "20/25", "6/7.5", Some("4/5"), "1/1.25"),
    rung(2, "0.63", "20/32", "6/9.5", Some("4/6.3"), "1/1.6"),
    rung(3, "0.5", "20/40", "6/12", Some("4/8"), "1/2"),
    rung(4, "0.4", "20/50", "6/15", Some("4/10"), "1/2.5"),
    rung(5, "0.32", "20/63", "6/19", Some("4/12.5"), "1/3.2"),
    rung(6, "0.25", "20/80", "6/24", Some("4/16"), "1/4"),
    rung(7, "0.2", "20/100", "6/30", Some("4/20"), "1/5"),
    rung(8, "0.16", "20/125", "6/38", Some("4/25"), "1/6.3"),
    rung(9, "0.125", "20/160", "6/48", Some("4/32"), "1/8"),
    rung(10, "0.1", "20/200", "6/60", Some("4/40"), "1/10"),
    rung(11, "0.08", "20/250", "6/75", Some("4/50"), "1/12.5"),
    rung(12, "0.063", "20/320", "6/95", Some("4/63"), "1/16"),
    rung(13, "0.05", "20/400", "6/120", Some("4/80"), "1/20"),
    rung(14, "0.04", "20/500", "6/150", None, "1/25"),
    rung(15, "0.032", "20/630", "6/190", None, "1/32"),
    rung(16, "0.025", "20/800", "6/240", None, "1/40"),
    rung(17, "0.02", "20/1000", "6/300", None, "1/50"),
    rung(20, "0.01", "20/2000", "6/600", None, "1/100"),
];

/// The line whose label suits this acuity: the one within 0.02 log (one letter), or none.
///
/// For showing only; the value itself is never changed to fit.
///
/// ```
/// use arcminute_core::acuity::ladder_label;
/// use arcminute_core::unit::LogMar;
/// let label = |log| ladder_label(LogMar::from_log(log)).map(|rung| rung.feet);
/// assert_eq!(label(0.9031), Some("20/160"));
/// assert_eq!(label(0.8751), None); // 20/150
/// ```
#[must_use]
pub fn ladder_label(log_mar: LogMar) -> Option<&'static Rung> {
    // The last digits of a sum must not decide: 0.98 is one letter from 1.0.
    LADDER.iter().find(|rung| math::abs((log_mar - rung.log_mar()).log()) <= 0.02 + 1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acuity::{BareNumber, Parsed, Reading, parse};

    /// Source: the ladder's rule, steps of 0.1 log; labels differ by at most 0.0051 log (computed).
    #[test]
    fn every_label_means_its_line() {
        for rung in LADDER {
            for (label, bare) in [
                (rung.decimal, BareNumber::Decimal),
                (rung.feet, BareNumber::Ask),
                (rung.metres, BareNumber::Ask),
                (rung.four_metres.unwrap_or(rung.feet), BareNumber::Ask),
                (rung.one_metre, BareNumber::Ask),
            ] {
                let Parsed::Understood(Reading::Measured(acuity)) = parse(label, bare) else {
                    panic!("{label} is not understood")
                };
                let off = math::abs((acuity.log_mar - rung.log_mar()).log());
                assert!(off <= 0.0052, "{label} is {off} log from its line");
            }
        }
    }

    #[test]
    fn a_label_reaches_one_letter_to_either_side() {
        let label = |log| ladder_label(LogMar::from_log(log)).map(|rung| rung.tenths);
        assert_eq!(label(0.98), Some(10));
        assert_eq!(label(1.02), Some(10));
        assert_eq!(label(0.97), None);
        assert_eq!(label(1.85), None, "the ladder has no line here");
        assert_eq!(label(f64::NAN), None);
    }
}
