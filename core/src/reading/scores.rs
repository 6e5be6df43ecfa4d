//! Scores of a chart of sentences: reading acuity and accessibility index.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{Length, LogMar, ReadingSpeed};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Reading acuity from a chart of sentences.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadingAcuity {
    /// Sentences tried, from the largest on.
    pub attempted: u8,
    /// Words missed or misread in all of them.
    pub errors: u16,
    /// Eye to chart.
    pub distance: Length,
    /// The acuity.
    pub log_mar: LogMar,
}

/// Reading acuity, `1.4 − 0.1·sentences + 0.01·errors + log10(40 cm/d)`.
///
/// For charts of sentences of ten words from 1.3 logMAR at 40 cm down in steps of 0.1, each sentence tried from the
/// largest on. From memory: [`source::READING_ACUITY_RULE`](crate::source::READING_ACUITY_RULE).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::SENTENCES`], [`bounds::WORD_ERRORS`],
/// [`bounds::CHART_DISTANCE`] or, for the acuity, [`bounds::LOG_MAR`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::reading_acuity, unit::Length};
/// // 12 sentences with 4 errors: 0.24 at 40 cm, 0.54 at 20 cm (computed).
/// assert!((reading_acuity(12, 4, Length::from_cm(40.0))?.log_mar.log() - 0.24).abs() < 1e-12);
/// assert!((reading_acuity(12, 4, Length::from_cm(20.0))?.log_mar.log() - 0.54).abs() < 5e-3);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn reading_acuity(attempted: u8, errors: u16, distance: Length) -> Result<ReadingAcuity, Error> {
    bounds::SENTENCES.check(f64::from(attempted))?;
    bounds::WORD_ERRORS.check(f64::from(errors))?;
    bounds::CHART_DISTANCE.check(distance.m())?;
    // In hundredths, which are exact.
    let at_forty = (140.0 - 10.0 * f64::from(attempted) + f64::from(errors)) / 100.0;
    let log_mar = LogMar::from_log(at_forty + math::log10(Length::from_cm(40.0) / distance));
    bounds::LOG_MAR.check(log_mar.log())?;
    Ok(ReadingAcuity { attempted, errors, distance, log_mar })
}

#[cfg(feature = "alloc")]
impl Explain for ReadingAcuity {
    fn steps(&self) -> Vec<Step> {
        let log_mar = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
        let inputs = [
            Named::new("n", f64::from(self.attempted), Unit::Plain),
            Named::new("errors", f64::from(self.errors), Unit::Plain),
            Named::new("D", self.distance.m(), Unit::Metre),
        ];
        alloc::vec![Step::formula(&formula::READING_ACUITY, log_mar, inputs)]
    }
}

/// How much of everyday print is read, and how fast, against young readers with normal sight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AccessibilityIndex {
    /// Speeds at the ten sizes, largest first.
    pub speeds: [ReadingSpeed; 10],
    /// Their sum.
    pub sum: ReadingSpeed,
    /// Mean speed over 200 words a minute; 1 is usual. A pure ratio.
    pub index: f64,
}

/// The ten sizes of the index, 1.3 to 0.4 logMAR at 40 cm, largest first.
///
/// ```
/// use arcminute_core::reading::index_sizes;
/// let sizes = index_sizes();
/// assert_eq!((sizes[0].log(), sizes[9].log()), (1.3, 0.4));
/// ```
#[must_use]
pub fn index_sizes() -> [LogMar; 10] {
    [1.3, 1.2, 1.1, 1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4].map(LogMar::from_log)
}

/// The accessibility index: mean speed over the sizes of [`index_sizes`], over 200 words a minute.
///
/// * `speeds`: at the ten sizes as printed for 40 cm, largest first; they are not corrected for another distance. A size
///   that was not read counts as nothing (from memory).
///
/// Source: [`source::CALABRESE_INDEX`](crate::source::CALABRESE_INDEX).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) for a speed outside [`bounds::SENTENCE_SPEED`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::accessibility_index, unit::ReadingSpeed};
/// let speeds = [150.0, 150.0, 150.0, 150.0, 145.0, 140.0, 130.0, 100.0, 60.0, 20.0];
/// let index = accessibility_index(speeds.map(ReadingSpeed::from_words_per_minute))?;
/// assert!((index.index - 0.5975).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn accessibility_index(speeds: [ReadingSpeed; 10]) -> Result<AccessibilityIndex, Error> {
    let mut sum = ReadingSpeed::ZERO;
    for speed in speeds {
        bounds::SENTENCE_SPEED.check(speed.words_per_minute())?;
        sum = sum + speed;
    }
    Ok(AccessibilityIndex { speeds, sum, index: sum.words_per_minute() / 10.0 / 200.0 })
}

#[cfg(feature = "alloc")]
impl Explain for AccessibilityIndex {
    fn steps(&self) -> Vec<Step> {
        let index = Named::new("ACC", self.index, Unit::Plain);
        let sum = Named::new("sum", self.sum.words_per_minute(), Unit::WordsPerMinute);
        alloc::vec![Step::formula(&formula::ACCESSIBILITY_INDEX, index, [sum])]
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for attempted in [1, 12, 19] {
            for errors in [0, 4, 25] {
                for cm in [20.0, 33.0, 40.0] {
                    for step in reading_acuity(attempted, errors, Length::from_cm(cm))?.steps() {
                        assert_eq!(step.check(), Ok(()), "{attempted} sentences, {errors} errors, {cm} cm");
                    }
                }
            }
        }
        for step in accessibility_index([ReadingSpeed::from_words_per_minute(123.4); 10])?.steps() {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    #[test]
    fn a_sentence_is_a_tenth_and_a_word_a_hundredth() -> Result<(), Error> {
        let forty = Length::from_cm(40.0);
        let at = |attempted, errors| reading_acuity(attempted, errors, forty).map(|read| read.log_mar.log());
        assert!((at(10, 0)? - at(11, 0)? - 0.1).abs() < 1e-12);
        assert!((at(10, 1)? - at(10, 0)? - 0.01).abs() < 1e-12);
        assert!((at(10, 10)? - at(9, 0)?).abs() < 1e-12, "ten words are a sentence");
        Ok(())
    }

    #[test]
    fn sizes_are_a_tenth_apart() {
        for pair in index_sizes().windows(2) {
            assert!(((pair[0] - pair[1]).log() - 0.1).abs() < 1e-12, "{pair:?}");
        }
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let forty = Length::from_cm(40.0);
        let error = reading_acuity(0, 0, forty).expect_err("nothing was tried");
        assert_eq!(error.to_string(), "sentences tried `0 sentences` is not possible");
        assert_eq!(error.hint().to_string(), "use 1 to 19 sentences");
        assert!(reading_acuity(20, 0, forty).is_err(), "no chart is so long");
        let error = reading_acuity(12, 191, forty).expect_err("more than there are");
        assert_eq!(error.to_string(), "words missed `191 words` is not possible");
        assert!(reading_acuity(12, 0, Length::ZERO).is_err(), "no distance");
        assert!(reading_acuity(19, 0, Length::from_m(4.0)).is_err(), "logMAR -1.5");
        let speed = ReadingSpeed::from_words_per_minute;
        let error = accessibility_index([speed(-1.0); 10]).expect_err("no speed");
        assert_eq!(error.to_string(), "speed of a sentence `-1 words per minute` is not possible");
        assert_eq!(error.hint().to_string(), "use 0 to 2000 words per minute");
        assert_eq!(accessibility_index([ReadingSpeed::ZERO; 10]).expect("nothing read").index, 0.0);
    }
}
