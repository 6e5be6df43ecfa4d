//! Scoring charts letter by letter.

use super::distance::{ReadAt, read_at};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
#[cfg(feature = "alloc")]
use crate::source;
use crate::unit::{Length, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A chart of lines in equal logarithmic steps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chart {
    /// Label of the top line shown; lines above it are credited.
    pub top_line: LogMar,
    /// Step from line to line.
    pub line_step: LogMar,
    /// Letters on a line.
    pub letters_per_line: u8,
    /// Distance for which the labels hold.
    pub design_distance: Length,
}

impl Chart {
    /// The usual log chart: five letters a line, 0.1 log a line, so 0.02 log a letter; `top_line` is the label of the
    /// top line shown, which holds at `design_distance`.
    ///
    /// ```
    /// use arcminute_core::{acuity::Chart, unit::{Length, LogMar}};
    /// let chart = Chart::five_letters(LogMar::from_log(1.0), Length::from_m(4.0));
    /// assert_eq!((chart.line_step / f64::from(chart.letters_per_line)).log(), 0.02);
    /// ```
    #[must_use]
    pub fn five_letters(top_line: LogMar, design_distance: Length) -> Self {
        Self { top_line, line_step: LogMar::from_log(0.1), letters_per_line: 5, design_distance }
    }
}

/// Acuity from letters counted on a chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChartScore {
    /// The chart.
    pub chart: Chart,
    /// Letters right in all, lines above the first one shown included.
    pub letters_right: u16,
    /// The label that the letters amount to, and the acuity at the distance of the test.
    pub read: ReadAt,
}

/// Acuity from letters counted on a chart.
///
/// `logMAR_label = logMAR_top + step − step / n · N`, then the change of distance of [`read_at`]. With no letter right
/// it is one step above the top line, which is as bad as the chart can tell.
///
/// * `letters_right`: all letters right, crediting lines above the first one shown.
///
/// # Errors
/// [`Why::OutOfRange`] for a chart without letters on a line, and as [`read_at`].
///
/// # Example
/// ```
/// use arcminute_core::acuity::{Chart, score_chart};
/// use arcminute_core::unit::{Length, LogMar};
/// let four_metres = Length::from_m(4.0);
/// let chart = Chart::five_letters(LogMar::from_log(1.0), four_metres);
/// assert!((score_chart(chart, 35, four_metres)?.read.log_mar.log() - 0.4).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn score_chart(chart: Chart, letters_right: u16, test_distance: Length) -> Result<ChartScore, Error> {
    if chart.letters_per_line == 0 {
        let why = Why::OutOfRange { min: 1.0, max: f64::from(u8::MAX), unit: "letters" };
        return Err(Error::new("letters on a line", "0", why));
    }
    bounds::LETTER_SCORE.check(f64::from(letters_right))?;
    let per_letter = chart.line_step / f64::from(chart.letters_per_line);
    let label = chart.top_line + chart.line_step - per_letter * f64::from(letters_right);
    let read = read_at(label, chart.design_distance, test_distance)?;
    Ok(ChartScore { chart, letters_right, read })
}

#[cfg(feature = "alloc")]
impl Explain for ChartScore {
    fn steps(&self) -> Vec<Step> {
        let label = Named::new("logMAR_label", self.read.label.log(), Unit::LogMar);
        let inputs = [
            Named::new("logMAR_top", self.chart.top_line.log(), Unit::LogMar),
            Named::new("step", self.chart.line_step.log(), Unit::LogMar),
            Named::new("n", f64::from(self.chart.letters_per_line), Unit::Plain),
            Named::new("N", f64::from(self.letters_right), Unit::Plain),
        ];
        let mut steps = vec![Step::formula(&formula::LOG_FROM_LETTERS, label, inputs)];
        steps.extend(self.read.steps());
        steps
    }
}

/// How a score from two distances is made up; clinics differ, so it is a setting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TwoDistanceRule {
    /// Letters right far away from which on nothing is read near.
    pub enough: u16,
    /// Letters credited when the near test is not needed.
    pub credited: u16,
    /// Most letters that count near.
    pub near_most: u16,
}

/// The study protocol: 20 letters at 4 m are enough; 30 credited; six lines of five at 1 m, with 0.75 D added.
/// The 20 and the six lines are from memory ([`crate::source::TWO_DISTANCE_SCORE`]).
impl Default for TwoDistanceRule {
    fn default() -> Self {
        Self { enough: 20, credited: 30, near_most: 30 }
    }
}

/// A letter score from a far and, if need be, a near reading of the chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoDistanceScore {
    /// Letters right far away.
    pub far: u16,
    /// Letters added to them: the credit or those read near.
    pub added: u16,
    /// Whether the near reading was needed.
    pub near_counts: bool,
    /// The sum; a chart of 70 letters gives 0 to 100.
    pub score: u16,
    /// The acuity, `1.7 − 0.02·score`.
    pub log_mar: LogMar,
}

/// Letter score from letters right far away (4 m) and near (1 m).
///
/// With enough letters far away the credit is added; with fewer, the letters read near. A near reading that is not
/// needed is left out of the sum. At the switch the score can jump: 19 far and 30 near give 49, 20 far give 50.
///
/// # Errors
/// [`Why::Missing`] when the near reading is needed and not given, [`Why::OutOfRange`] for more letters than there are.
///
/// # Example
/// ```
/// use arcminute_core::acuity::{TwoDistanceRule, score_two_distances};
/// let rule = TwoDistanceRule::default();
/// assert_eq!(score_two_distances(55, None, rule)?.score, 85);
/// assert_eq!(score_two_distances(12, Some(27), rule)?.score, 39);
/// assert!(score_two_distances(12, None, rule).is_err());
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn score_two_distances(
    far: u16,
    near: Option<u16>,
    rule: TwoDistanceRule,
) -> Result<TwoDistanceScore, Error> {
    let near_counts = far < rule.enough;
    let added = match near {
        Some(near) if near > rule.near_most => {
            let why = Why::OutOfRange { min: 0.0, max: f64::from(rule.near_most), unit: "letters" };
            return Err(Error::about("letters read near", format_args!("{near}"), why));
        }
        _ if !near_counts => rule.credited,
        Some(near) => near,
        None => {
            let why = Why::Missing { part: "the letters read near", example: "27" };
            return Err(Error::about("letters read far", format_args!("{far}"), why));
        }
    };
    let score = far.saturating_add(added);
    bounds::LETTER_SCORE.check(f64::from(score))?;
    let log_mar = LogMar::from_log(1.7 - 0.02 * f64::from(score));
    Ok(TwoDistanceScore { far, added, near_counts, score, log_mar })
}

#[cfg(feature = "alloc")]
impl Explain for TwoDistanceScore {
    fn steps(&self) -> Vec<Step> {
        let because = if self.near_counts { "too-few-letters-far" } else { "enough-letters-far" };
        let score = Named::new("letters", f64::from(self.score), Unit::Plain);
        let inputs = [
            Named::new("N_far", f64::from(self.far), Unit::Plain),
            Named::new("added", f64::from(self.added), Unit::Plain),
        ];
        let log_mar = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
        vec![
            Step::Rule { because, source: &source::TWO_DISTANCE_SCORE },
            Step::formula(&formula::SCORE_TWO_DISTANCES, score, inputs),
            Step::formula(&formula::LOG_FROM_SCORE, log_mar, [score]),
        ]
    }
}

/// Letter score that an acuity amounts to, `85 − 50·logMAR`; 85 is 20/20. Not to be mixed with
/// [`visual_acuity_score`], which is 15 higher. A count of letters, neither rounded nor cut at zero.
///
/// ```
/// use arcminute_core::{acuity::letter_score, unit::LogMar};
/// // 20/200 is 35 letters, and six lines better is 65 (computed).
/// assert_eq!(letter_score(LogMar::from_log(1.0)), 35.0);
/// assert_eq!(letter_score(LogMar::from_log(0.4)), 65.0);
/// ```
#[must_use]
pub fn letter_score(log_mar: LogMar) -> f64 {
    85.0 - 50.0 * log_mar.log()
}

/// Visual acuity score (VAS, or visual acuity rating), `100 − 50·logMAR`; 100 is 20/20
/// ([`crate::source::DICOM_ACUITY`], RR.2.2). In points, neither rounded nor cut at zero.
///
/// ```
/// use arcminute_core::{acuity::visual_acuity_score, unit::LogMar};
/// // 20/200 is 50 points (computed); a line is worth five.
/// assert_eq!(visual_acuity_score(LogMar::from_log(1.0)), 50.0);
/// assert_eq!(visual_acuity_score(LogMar::from_log(0.9)), 55.0);
/// ```
#[must_use]
pub fn visual_acuity_score(log_mar: LogMar) -> f64 {
    100.0 - 50.0 * log_mar.log()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acuity::{Acuity, Notation};
    use crate::math;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        let log = LogMar::from_log;
        let three = Chart {
            top_line: log(1.5),
            line_step: log(0.15),
            letters_per_line: 3,
            design_distance: Length::from_cm(40.0),
        };
        let ids = |steps: &[Step]| -> Vec<&str> {
            let id = |step: &Step| match step {
                Step::Formula { formula, .. } => formula.id,
                Step::Rule { because, .. } => because,
                Step::Lookup { table, .. } => table,
            };
            steps.iter().map(id).collect()
        };
        let mut steps = score_chart(three, 7, Length::from_cm(25.0))?.steps();
        assert_eq!(ids(&steps), [formula::LOG_FROM_LETTERS.id, formula::LOG_DISTANCE.id]);
        for (far, near, because) in [
            (0, Some(30), "too-few-letters-far"),
            (19, Some(30), "too-few-letters-far"),
            (20, None, "enough-letters-far"),
            (20, Some(3), "enough-letters-far"),
            (70, None, "enough-letters-far"),
        ] {
            let more = score_two_distances(far, near, TwoDistanceRule::default())?.steps();
            let wanted = [because, formula::SCORE_TWO_DISTANCES.id, formula::LOG_FROM_SCORE.id];
            assert_eq!(ids(&more), wanted, "{far} far, {near:?} near");
            steps.extend(more);
        }
        for step in steps {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    #[test]
    fn what_cannot_be_counted_is_refused() {
        let rule = TwoDistanceRule::default();
        let missing = score_two_distances(12, None, rule).expect_err("near reading needed");
        assert_eq!(missing.to_string(), "letters read far `12` needs the letters read near");
        let many = score_two_distances(12, Some(31), rule).expect_err("six lines of five");
        assert_eq!(many.to_string(), "letters read near `31` is not possible");
        assert_eq!(many.hint().to_string(), "use 0 to 30 letters");
        assert!(score_two_distances(u16::MAX, None, rule).is_err(), "the sum does not wrap");
        let empty = Chart { letters_per_line: 0, ..Chart::five_letters(LogMar::ZERO, Length::from_m(4.0)) };
        let error = score_chart(empty, 1, Length::from_m(4.0)).expect_err("no letters on a line");
        assert_eq!(error.to_string(), "letters on a line `0` is not possible");
    }

    #[test]
    fn letter_score_is_the_inverse_of_its_notation() -> Result<(), Error> {
        for score in 0..=100 {
            let acuity = Acuity::of(Notation::LetterScore(f64::from(score)))?;
            let back = letter_score(acuity.log_mar);
            assert!(math::abs(back - f64::from(score)) < 1e-9, "{score} letters came back as {back}");
            assert!(
                math::abs(visual_acuity_score(acuity.log_mar) - back - 15.0) < 1e-9,
                "the scales are 15 apart"
            );
        }
        Ok(())
    }
}
