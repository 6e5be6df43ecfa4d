//! Letter charts of contrast: letters right to log contrast sensitivity.

use super::Weber;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::LogContrast;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A chart of letters of one size that fade from letter to letter or from group to group.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LetterChart {
    /// What a letter is worth.
    pub per_letter: LogContrast,
    /// What stands in the sum before any letter is read.
    pub offset: LogContrast,
    /// Letters on the chart.
    pub letters: u16,
}

impl LetterChart {
    /// Sixteen triplets in steps of 0.15 log, so 0.05 a letter; the first triplet has full contrast, log 0.
    ///
    /// Source: [`crate::source::ARDITI_2005`]; the offset of −0.15 is from memory, and follows if a triplet read whole
    /// is to give its own label.
    ///
    /// ```
    /// use arcminute_core::contrast::LetterChart;
    /// let chart = LetterChart::triplets();
    /// // All 48 letters: 2.25, and the first triplet alone full contrast, 0 (computed).
    /// let read = |letters: f64| (chart.offset + chart.per_letter * letters).log();
    /// assert!((read(48.0) - 2.25).abs() < 1e-12 && read(3.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn triplets() -> Self {
        Self { per_letter: LogContrast::from_log(0.05), offset: LogContrast::from_log(-0.15), letters: 48 }
    }
    /// Every letter fainter than the one before by 0.04 log, 48 letters, to 1.92.
    ///
    /// Source: [`crate::source::ARDITI_2005`] for the 0.04; that the first letter counts 0.04 and that there are 48 are
    /// from memory.
    ///
    /// ```
    /// use arcminute_core::contrast::{LetterChart, ScoringRule, StopRule, score_letters};
    /// let rule = ScoringRule { stop: StopRule::TwoInARow, c_and_o_alike: false };
    /// // The last letter is 1.92: a contrast of 1.2 % (computed).
    /// let score = score_letters(LetterChart::single_steps(), 48, rule)?;
    /// assert!((score.threshold.map_or(0.0, |least| least.ratio()) - 0.012).abs() < 5e-5);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn single_steps() -> Self {
        Self { per_letter: LogContrast::from_log(0.04), offset: LogContrast::ZERO, letters: 48 }
    }
}

/// When the test was ended; the result depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StopRule {
    /// Two of a triplet missed.
    TwoOfThreeMissed,
    /// A whole triplet missed.
    AllThreeMissed,
    /// Two letters missed one after the other.
    TwoInARow,
    /// Not noted.
    NotNoted,
}

/// How the chart was scored: scores by different rules do not compare ([`crate::source::ARDITI_2005`]).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScoringRule {
    /// When the test was ended.
    pub stop: StopRule,
    /// Whether C and O counted as the same letter.
    pub c_and_o_alike: bool,
}

/// Log contrast sensitivity from letters read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ContrastScore {
    /// The chart.
    pub chart: LetterChart,
    /// Letters right in all.
    pub letters_right: u16,
    /// How it was scored, kept with the result.
    pub rule: ScoringRule,
    /// The log contrast sensitivity.
    pub sensitivity: LogContrast,
    /// The least contrast seen; nothing when the sum lies below full contrast, at one or two letters of triplets.
    pub threshold: Option<Weber>,
}

/// Log contrast sensitivity from the letters right on a chart: `step·N + offset`.
///
/// Source: [`crate::source::ARDITI_2005`].
///
/// ```
/// use arcminute_core::contrast::{LetterChart, ScoringRule, StopRule, score_letters};
/// let rule = ScoringRule { stop: StopRule::TwoOfThreeMissed, c_and_o_alike: true };
/// // 36 letters of a triplet chart: 1.65, a threshold of 2.24 %, computed by hand.
/// let score = score_letters(LetterChart::triplets(), 36, rule)?;
/// assert!((score.sensitivity.log() - 1.65).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`Why::OutOfRange`] for more letters than the chart has; [`Why::NoSolution`] for none, which says only that the
/// sensitivity lies below the chart.
pub fn score_letters(
    chart: LetterChart,
    letters_right: u16,
    rule: ScoringRule,
) -> Result<ContrastScore, Error> {
    let refused = |why| Err(Error::about("letters read", format_args!("{letters_right}"), why));
    if letters_right == 0 {
        return refused(Why::NoSolution { because: "it says only that the sensitivity is below the chart" });
    }
    if chart.letters < letters_right {
        return refused(Why::OutOfRange { min: 0.0, max: f64::from(chart.letters), unit: "letters" });
    }
    let sum = chart.per_letter * f64::from(letters_right) + chart.offset;
    // A sum such as 0.05·3 − 0.15 is meant to be nothing at all.
    let sensitivity = if sum.abs() < LogContrast::from_log(1e-12) { LogContrast::ZERO } else { sum };
    let threshold = Weber::threshold_of(sensitivity).ok();
    Ok(ContrastScore { chart, letters_right, rule, sensitivity, threshold })
}

#[cfg(feature = "alloc")]
impl Explain for ContrastScore {
    fn steps(&self) -> Vec<Step> {
        let log = |symbol, value: LogContrast| Named::new(symbol, value.log(), Unit::Log);
        let sensitivity = log("log_CS", self.sensitivity);
        let mut steps = alloc::vec![Step::formula(
            &formula::CONTRAST_FROM_LETTERS,
            sensitivity,
            [
                log("step", self.chart.per_letter),
                Named::new("N", f64::from(self.letters_right), Unit::Plain),
                log("offset", self.chart.offset),
            ],
        )];
        if let Some(threshold) = self.threshold {
            let threshold = Named::new("C_t", threshold.ratio(), Unit::Plain);
            steps.push(Step::formula(&formula::LEAST_CONTRAST, threshold, [sensitivity]));
        }
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math;
    use alloc::string::ToString;

    const RULE: ScoringRule = ScoringRule { stop: StopRule::NotNoted, c_and_o_alike: false };

    #[test]
    fn every_score_of_both_charts_shows_its_working() -> Result<(), Error> {
        for (chart, per_letter, offset) in
            [(LetterChart::triplets(), 0.05, -0.15), (LetterChart::single_steps(), 0.04, 0.0)]
        {
            for letters in 1..=chart.letters {
                let score = score_letters(chart, letters, RULE)?;
                let log = per_letter * f64::from(letters) + offset;
                assert!(math::abs(score.sensitivity.log() - log) < 1e-12, "{letters} letters");
                match score.threshold {
                    Some(least) => {
                        assert!(-1e-12 < log && math::abs(least.ratio() - math::pow(10.0, -log)) < 1e-12);
                    }
                    None => assert!(log < 0.0, "{letters} letters have a threshold"),
                }
                assert_eq!(score.rule, RULE, "the rule is kept");
                assert_eq!(score.steps().len(), if score.threshold.is_some() { 2 } else { 1 });
                for step in score.steps() {
                    assert_eq!(step.check(), Ok(()));
                }
            }
        }
        let first = score_letters(LetterChart::triplets(), 3, RULE)?;
        assert_eq!((first.sensitivity.log(), first.threshold.map(Weber::ratio)), (0.0, Some(1.0)));
        Ok(())
    }

    #[test]
    fn letters_that_cannot_be_scored_are_refused() {
        let none = score_letters(LetterChart::triplets(), 0, RULE).expect_err("none read");
        assert_eq!(
            none.to_string(),
            "letters read `0` has no solution: it says only that the sensitivity is below the chart"
        );
        let many = score_letters(LetterChart::single_steps(), 49, RULE).expect_err("more than there are");
        assert_eq!(many.to_string(), "letters read `49` is not possible");
        assert_eq!(many.hint().to_string(), "use 0 to 48 letters");
        assert!(score_letters(LetterChart::triplets(), 48, RULE).is_ok(), "the whole chart");
    }
}
