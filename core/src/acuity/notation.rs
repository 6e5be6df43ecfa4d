//! An acuity in the notation it was recorded in.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What was written down.
///
/// `letters` counts letters of the next line gained (positive) or of this line missed (negative), as in `20/200-2`.
/// On a log chart with five letters a line each is worth 0.02 log; on other charts they have no defined value
/// ([`source::DICOM_ACUITY`](crate::source::DICOM_ACUITY), RR.2.3), and [`Acuity::line`] leaves them out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Notation {
    /// A fraction with the test distance in feet: `20/200`.
    Feet {
        /// Test distance.
        numerator: f64,
        /// Distance at which the letter subtends five minutes of arc.
        denominator: f64,
        /// Letters gained or missed.
        letters: i8,
    },
    /// A fraction with the test distance in metres: `6/60`.
    Metres {
        /// Test distance.
        numerator: f64,
        /// Distance at which the letter subtends five minutes of arc.
        denominator: f64,
        /// Letters gained or missed.
        letters: i8,
    },
    /// Decimal acuity, a pure ratio: 0.1 is 6/60.
    Decimal(f64),
    /// Logarithm of the minimum angle of resolution.
    LogMar {
        /// The line.
        value: LogMar,
        /// Letters gained or missed.
        letters: i8,
    },
    /// Letters right on a log chart, 0 to 100; 85 letters are 20/20.
    LetterScore(f64),
}

/// An acuity as recorded, and its logarithm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Acuity {
    /// Logarithm of the minimum angle of resolution, letters counted at 0.02 log each.
    pub log_mar: LogMar,
    /// What was recorded.
    pub notation: Notation,
}

impl Notation {
    /// Minimum angle of resolution of the line, where the notation gives one.
    fn line_angle(self) -> Option<Angle> {
        match self {
            Self::Feet { numerator, denominator, .. } | Self::Metres { numerator, denominator, .. } => {
                Some(Angle::from_arcmin(denominator / numerator))
            }
            Self::Decimal(decimal) => Some(Angle::from_arcmin(1.0 / decimal)),
            Self::LogMar { .. } | Self::LetterScore(_) => None,
        }
    }

    /// Logarithm of the line, letters left out.
    fn line(self) -> LogMar {
        match self {
            Self::LogMar { value, .. } => value,
            Self::LetterScore(score) => LogMar::from_log(1.7 - 0.02 * score),
            _ => self.line_angle().map_or(LogMar::ZERO, LogMar::of_angle),
        }
    }

    /// Letters gained (positive) or missed (negative) beside the line; zero for notations that cannot say so.
    ///
    /// ```
    /// use arcminute_core::acuity::Notation;
    /// // 20/200-2: two letters of the line missed.
    /// assert_eq!(Notation::Feet { numerator: 20.0, denominator: 200.0, letters: -2 }.letters(), -2);
    /// assert_eq!(Notation::Decimal(0.1).letters(), 0);
    /// ```
    #[must_use]
    pub fn letters(self) -> i8 {
        match self {
            Self::Feet { letters, .. } | Self::Metres { letters, .. } | Self::LogMar { letters, .. } => {
                letters
            }
            Self::Decimal(_) | Self::LetterScore(_) => 0,
        }
    }

    /// Whether a fraction is in feet when no unit is written.
    ///
    /// A numerator above 6.1 is feet, 6 is metres. Below 6 it is metres unless the denominator is 200 or more, as on
    /// charts in feet held nearer (`5/200`). The ratio, so the acuity, does not depend on it.
    pub(super) fn looks_like_feet(numerator: f64, denominator: f64) -> bool {
        numerator > 6.1 || (numerator < 6.0 && denominator >= 200.0)
    }

    fn check(self) -> Result<(), Error> {
        match self {
            Self::Feet { numerator, denominator, .. } | Self::Metres { numerator, denominator, .. } => {
                bounds::FRACTION_PART.check(numerator)?;
                bounds::FRACTION_PART.check(denominator)?;
            }
            Self::Decimal(decimal) => {
                bounds::DECIMAL_ACUITY.check(decimal)?;
            }
            Self::LogMar { value, .. } => {
                bounds::LOG_MAR.check(value.log())?;
            }
            Self::LetterScore(score) => {
                bounds::LETTER_SCORE.check(score)?;
            }
        }
        bounds::LETTERS_BESIDE.check(f64::from(self.letters())).map(|_| ())
    }
}

impl Acuity {
    /// The acuity that was recorded so.
    ///
    /// `logMAR = log10(denominator / numerator)`, `−log10(decimal)` or `1.7 − 0.02·letters`, and 0.02 log for each
    /// letter beside the line (log chart, five letters a line).
    ///
    /// # Errors
    /// [`Why::OutOfRange`] when a part or the whole is outside [`bounds`].
    ///
    /// # Example
    /// ```
    /// use arcminute_core::acuity::{Acuity, Notation};
    /// let read = Notation::Feet { numerator: 20.0, denominator: 200.0, letters: -2 };
    /// assert!((Acuity::of(read)?.log_mar.log() - 1.04).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn of(notation: Notation) -> Result<Self, Error> {
        notation.check()?;
        let missed = -f64::from(notation.letters());
        let log_mar = notation.line() + LogMar::from_log(0.02 * missed);
        bounds::LOG_MAR.check(log_mar.log()).map_err(|error| {
            let Why::OutOfRange { min, max, .. } = error.why else { return error };
            Error::about("acuity", format_args!("{notation}"), Why::OutOfRange { min, max, unit: "logMAR" })
        })?;
        Ok(Self { log_mar, notation })
    }

    /// Of a logarithm that was not recorded in another notation.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] outside [`bounds::LOG_MAR`].
    ///
    /// ```
    /// use arcminute_core::{acuity::Acuity, unit::LogMar};
    /// assert_eq!(Acuity::of_log_mar(LogMar::from_log(1.0))?.log_mar.log(), 1.0);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn of_log_mar(value: LogMar) -> Result<Self, Error> {
        Self::of(Notation::LogMar { value, letters: 0 })
    }

    /// Logarithm of the line itself, for charts on which letters beside the line have no defined value.
    ///
    /// ```
    /// use arcminute_core::acuity::{Acuity, Notation};
    /// let read = Notation::Metres { numerator: 6.0, denominator: 60.0, letters: -2 };
    /// assert_eq!(Acuity::of(read)?.line().log(), 1.0);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn line(&self) -> LogMar {
        self.notation.line()
    }
}

#[cfg(feature = "alloc")]
impl Explain for Acuity {
    fn steps(&self) -> Vec<Step> {
        let letters = self.notation.letters();
        let mut steps = Vec::new();
        if let Some(angle) = self.notation.line_angle() {
            let mar = Named::new("MAR", angle.arcmin(), Unit::Arcmin);
            steps.push(match self.notation {
                Notation::Decimal(decimal) => {
                    let decimal = Named::new("V", decimal, Unit::Plain);
                    Step::formula(&formula::MAR_FROM_DECIMAL, mar, [decimal])
                }
                Notation::Metres { numerator, denominator, .. } => {
                    fraction_step(mar, numerator, denominator, Unit::Metre)
                }
                Notation::Feet { numerator, denominator, .. } => {
                    fraction_step(mar, numerator, denominator, Unit::Plain)
                }
                Notation::LogMar { .. } | Notation::LetterScore(_) => return steps,
            });
            let line = Named::new("logMAR", self.line().log(), Unit::LogMar);
            steps.push(Step::formula(&formula::LOG_FROM_MAR, line, [mar]));
        }
        if let Notation::LetterScore(score) = self.notation {
            let result = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
            steps.push(Step::formula(
                &formula::LOG_FROM_SCORE,
                result,
                [Named::new("letters", score, Unit::Plain)],
            ));
        }
        if letters != 0 {
            let line = Named::new("logMAR_line", self.line().log(), Unit::LogMar);
            let missed = Named::new("missed", -f64::from(letters), Unit::Plain);
            let result = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
            steps.push(Step::formula(&formula::LOG_LETTERS, result, [line, missed]));
        }
        // Sums take the angle: where the record is a logarithm or has letters beside the line, it is worked back.
        if letters != 0 || self.notation.line_angle().is_none() {
            let mar = Named::new("MAR", self.log_mar.mar().arcmin(), Unit::Arcmin);
            let log_mar = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
            steps.push(Step::formula(&formula::MAR_FROM_LOG, mar, [log_mar]));
        }
        steps
    }
}

#[cfg(feature = "alloc")]
fn fraction_step(mar: Named, numerator: f64, denominator: f64, unit: Unit) -> Step {
    let inputs = [Named::new("denominator", denominator, unit), Named::new("numerator", numerator, unit)];
    Step::formula(&formula::MAR_FROM_FRACTION, mar, inputs)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math;
    use alloc::string::ToString;

    fn all() -> [Notation; 7] {
        [
            Notation::Feet { numerator: 20.0, denominator: 70.0, letters: 0 },
            Notation::Feet { numerator: 10.0, denominator: 350.0, letters: 1 },
            Notation::Metres { numerator: 6.0, denominator: 18.0, letters: -2 },
            Notation::Decimal(0.32),
            Notation::LogMar { value: LogMar::from_log(0.9), letters: 0 },
            Notation::LogMar { value: LogMar::from_log(-0.1), letters: 2 },
            Notation::LetterScore(35.0),
        ]
    }

    #[test]
    fn working_agrees() {
        let (angle, log) = ("mar-from-fraction", "log-from-mar");
        // Letters beside a line have a step of their own, and what is no angle of itself is worked back to one.
        let wanted: [&[&str]; 7] = [
            &[angle, log],
            &[angle, log, "log-letters", "mar-from-log"],
            &[angle, log, "log-letters", "mar-from-log"],
            &["mar-from-decimal", log],
            &["mar-from-log"],
            &["log-letters", "mar-from-log"],
            &["log-from-score", "mar-from-log"],
        ];
        for (notation, wanted) in all().into_iter().zip(wanted) {
            let steps = Acuity::of(notation).expect("in range").steps();
            for step in &steps {
                assert_eq!(step.check(), Ok(()), "{notation:?}");
            }
            let ids = steps.iter().map(|step| match step {
                Step::Formula { formula, .. } => formula.id,
                _ => panic!("{notation:?} has formulas only: {step:?}"),
            });
            assert_eq!(ids.collect::<Vec<_>>(), wanted, "{notation:?}");
        }
    }

    /// Above 6.1 feet, 6 to 6.1 metres; below 6 feet only over 200 or more, as on charts in feet held nearer.
    #[test]
    fn a_fraction_tells_feet_from_metres() {
        for (numerator, denominator, feet) in [
            (20.0, 200.0, true),
            (20.0, 20.0, true),
            (6.2, 62.0, true),
            (6.1, 61.0, false),
            (6.1, 200.0, false),
            (6.05, 240.0, false),
            (6.0, 60.0, false),
            (6.0, 200.0, false),
            (6.0, 360.0, false),
            (5.0, 200.0, true),
            (5.0, 199.0, false),
            (3.0, 60.0, false),
            (2.0, 400.0, true),
            (1.0, 60.0, false),
        ] {
            assert_eq!(Notation::looks_like_feet(numerator, denominator), feet, "{numerator}/{denominator}");
        }
    }

    #[test]
    fn the_whole_must_be_possible_as_well_as_its_parts() {
        let error = Acuity::of(Notation::Feet { numerator: 20.0, denominator: 5.0, letters: 0 })
            .expect_err("four times better than 20/20");
        assert_eq!(error.to_string(), "acuity `20/5` is not possible");
        assert_eq!(error.hint().to_string(), "use -0.5 to 3 logMAR");
    }

    #[test]
    fn letters_count_only_beside_a_line() {
        for notation in all() {
            let acuity = Acuity::of(notation).expect("in range");
            let difference = (acuity.log_mar - acuity.line()).log();
            assert!(math::abs(difference + 0.02 * f64::from(notation.letters())) < 1e-12, "{notation:?}");
        }
    }
}
