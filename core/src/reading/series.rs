//! Sentences read at several print sizes, scored.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::list::List;
use crate::math;
use crate::print::print_angle;
use crate::unit::{Duration, Length, LogMar, PrintSize, ReadingSpeed};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;
use core::mem;

/// Standard words of a sentence: 60 characters, six a word.
const WORDS: f64 = 10.0;
/// Sizes nearer to each other than this are one size: half a hundredth, less what rounding may take from it.
const SAME_SIZE: f64 = 0.005 - 1e-9;
/// Most sizes of a series.
pub(super) const SIZES: usize = 24;

/// The speed at which one sentence was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SentenceSpeed {
    /// Time taken.
    pub time: Duration,
    /// Words missed or misread.
    pub errors: u8,
    /// The speed.
    pub speed: ReadingSpeed,
}

/// The speed of one sentence of ten standard words, `60·(10 − errors)/t`; nothing with ten errors or more.
///
/// Source: [`source::SENTENCE_CHARTS`](crate::source::SENTENCE_CHARTS).
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::READING_TIME`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::sentence_speed, unit::Duration};
/// // One error in 4.5 s: 120 words a minute (computed).
/// let read = sentence_speed(Duration::from_seconds(4.5), 1)?;
/// assert!((read.speed.words_per_minute() - 120.0).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn sentence_speed(time: Duration, errors: u8) -> Result<SentenceSpeed, Error> {
    bounds::READING_TIME.check(time.seconds())?;
    let right = (WORDS - f64::from(errors)).max(0.0);
    let speed = ReadingSpeed::from_words_per_minute(60.0 * right / time.seconds());
    Ok(SentenceSpeed { time, errors, speed })
}

#[cfg(feature = "alloc")]
impl Explain for SentenceSpeed {
    fn steps(&self) -> Vec<Step> {
        let speed = Named::new("R", self.speed.words_per_minute(), Unit::WordsPerMinute);
        let inputs = [
            Named::new("errors", f64::from(self.errors), Unit::Plain),
            Named::new("t", self.time.seconds(), Unit::Second),
        ];
        alloc::vec![Step::formula(&formula::SENTENCE_SPEED, speed, inputs)]
    }
}

/// What came of a sentence.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Trial {
    /// It was read, or tried.
    Read {
        /// Time taken.
        time: Duration,
        /// Words missed or misread.
        errors: u8,
    },
    /// It could not be read.
    NotRead,
}

/// One sentence of a series.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sentence {
    /// Its print size as an angle at the distance of reading.
    pub size: LogMar,
    /// What came of it.
    pub trial: Trial,
}

impl Sentence {
    /// A sentence in print of this size, read from this distance.
    ///
    /// # Errors
    /// As [`print_angle`].
    ///
    /// # Example
    /// ```
    /// use arcminute_core::reading::{Sentence, Trial};
    /// use arcminute_core::unit::{Length, PrintSize};
    /// let read = Sentence::of_print(PrintSize::from_m_units(4.0), Length::from_cm(40.0), Trial::NotRead)?;
    /// assert!((read.size.log() - 1.0).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn of_print(print: PrintSize, distance: Length, trial: Trial) -> Result<Self, Error> {
        Ok(Self { size: print_angle(print, distance)?.log_mar, trial })
    }
}

/// What was read at one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizeRead {
    /// The size.
    pub size: LogMar,
    /// Mean speed of the sentences at this size; one that could not be read counts as nothing.
    pub speed: ReadingSpeed,
    /// How many sentences there were.
    pub sentences: u16,
}

/// A series, largest size first, each size once.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// The sizes.
    pub sizes: List<SizeRead, SIZES>,
}

/// A series of sentences, scored; sizes are put in order, and those less than 0.005 log apart are one.
///
/// # Errors
/// [`Why::OutOfRange`] for a size outside [`bounds::LOG_MAR`], a time outside [`bounds::READING_TIME`], and for more than
/// 24 sizes.
///
/// # Example
/// ```
/// use arcminute_core::reading::{Sentence, Trial, series};
/// use arcminute_core::unit::{Duration, LogMar};
/// let read = |log, seconds| Sentence {
///     size: LogMar::from_log(log),
///     trial: Trial::Read { time: Duration::from_seconds(seconds), errors: 0 },
/// };
/// let series = series(&[read(1.0, 5.0), read(1.2, 4.0), read(1.0, 6.0)])?;
/// let speeds: Vec<f64> = series.sizes.iter().map(|size| size.speed.words_per_minute()).collect();
/// assert_eq!(speeds, [150.0, 110.0]);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn series(sentences: &[Sentence]) -> Result<Series, Error> {
    let mut sizes = List::new();
    for sentence in sentences {
        bounds::LOG_MAR.check(sentence.size.log())?;
        let speed = match sentence.trial {
            Trial::Read { time, errors } => sentence_speed(time, errors)?.speed,
            Trial::NotRead => ReadingSpeed::ZERO,
        };
        put(&mut sizes, SizeRead { size: sentence.size, speed, sentences: 1 }).map_err(|_| {
            let why = Why::OutOfRange { min: 0.0, max: 24.0, unit: "sizes" };
            Error::new("print sizes of a series", "25", why)
        })?;
    }
    Ok(Series { sizes })
}

/// Puts a sentence in its place; hands back what there is no room for.
fn put(sizes: &mut List<SizeRead, SIZES>, mut new: SizeRead) -> Result<(), SizeRead> {
    let same = |at: &&mut SizeRead| math::abs((at.size - new.size).log()) < SAME_SIZE;
    if let Some(at) = sizes.iter_mut().find(same) {
        let before = f64::from(at.sentences);
        at.speed = (at.speed * before + new.speed) / (before + 1.0);
        at.sentences = at.sentences.saturating_add(1);
        return Ok(());
    }
    // The new one pushes each smaller one a place further.
    for at in sizes.iter_mut() {
        if at.size < new.size {
            mem::swap(at, &mut new);
        }
    }
    sizes.try_push(new)
}

impl Series {
    /// The smallest size of which anything was read: the reading threshold.
    ///
    /// ```
    /// use arcminute_core::reading::series;
    /// assert_eq!(series(&[])?.threshold(), None);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn threshold(&self) -> Option<LogMar> {
        self.sizes.iter().rev().find(|at| ReadingSpeed::ZERO < at.speed).map(|at| at.size)
    }

    /// The size that was read fastest, the smallest of several alike; nothing if none was read.
    ///
    /// ```
    /// use arcminute_core::reading::{Sentence, Trial, series};
    /// use arcminute_core::unit::{Duration, LogMar};
    /// let read = |log, seconds| {
    ///     let trial = Trial::Read { time: Duration::from_seconds(seconds), errors: 0 };
    ///     Sentence { size: LogMar::from_log(log), trial }
    /// };
    /// // Two sizes are read at 150 words a minute: the smaller is the fastest.
    /// let series = series(&[read(1.2, 4.0), read(1.1, 4.0), read(1.0, 6.0)])?;
    /// assert_eq!(series.fastest().map(|at| at.size.log()), Some(1.1));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn fastest(&self) -> Option<&SizeRead> {
        let mut fastest: Option<&SizeRead> = None;
        for at in &self.sizes {
            if ReadingSpeed::ZERO < at.speed && fastest.is_none_or(|best| best.speed <= at.speed) {
                fastest = Some(at);
            }
        }
        fastest
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn read(log: f64, seconds: f64, errors: u8) -> Sentence {
        let time = Duration::from_seconds(seconds);
        Sentence { size: LogMar::from_log(log), trial: Trial::Read { time, errors } }
    }
    fn unread(log: f64) -> Sentence {
        Sentence { size: LogMar::from_log(log), trial: Trial::NotRead }
    }
    fn wpm(at: &SizeRead) -> f64 {
        at.speed.words_per_minute()
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for errors in [0, 1, 9, 10, 11, 255] {
            for seconds in [0.5, 4.5, 60.0] {
                let speed = sentence_speed(Duration::from_seconds(seconds), errors)?;
                for step in speed.steps() {
                    assert_eq!(step.check(), Ok(()), "{errors} errors in {seconds} s");
                }
                assert_eq!(speed.speed == ReadingSpeed::ZERO, 10 <= errors, "{errors} errors");
            }
        }
        Ok(())
    }

    #[test]
    fn sizes_are_put_in_order_and_once() -> Result<(), Error> {
        let series = series(&[
            read(0.5, 10.0, 0),
            read(1.0, 4.0, 0),
            unread(0.4),
            read(0.7, 6.0, 0),
            read(1.004, 6.0, 0),
            read(0.996, 5.0, 0),
        ])?;
        let logs: Vec<f64> = series.sizes.iter().map(|at| at.size.log()).collect();
        assert_eq!(logs, [1.0, 0.7, 0.5, 0.4]);
        let counts: Vec<u16> = series.sizes.iter().map(|at| at.sentences).collect();
        assert_eq!(counts, [3, 1, 1, 1]);
        assert!((wpm(&series.sizes[0]) - (150.0 + 100.0 + 120.0) / 3.0).abs() < 1e-9, "the mean of three");
        assert_eq!(series.threshold(), Some(LogMar::from_log(0.5)), "0.4 was not read");
        assert_eq!(series.fastest().map(|at| at.size.log()), Some(1.0));
        Ok(())
    }

    #[test]
    fn sizes_half_a_hundredth_apart_are_two() -> Result<(), Error> {
        assert_eq!(series(&[unread(0.5), unread(0.5051)])?.sizes.len(), 2);
        assert_eq!(series(&[unread(0.5), unread(0.5049)])?.sizes.len(), 1);
        // As numbers these are apart by 0.005, a little more, and a little less.
        for size in [0.0, 0.5, 1.0] {
            assert_eq!(series(&[unread(size), unread(size + 0.005)])?.sizes.len(), 2, "{size}");
        }
        Ok(())
    }

    #[test]
    fn of_sizes_read_alike_the_smallest_is_the_fastest() -> Result<(), Error> {
        let series = series(&[read(1.0, 4.0, 0), read(0.9, 4.0, 0), read(0.8, 5.0, 0)])?;
        assert_eq!(series.fastest().map(|at| at.size.log()), Some(0.9));
        Ok(())
    }

    #[test]
    fn nothing_read_has_no_threshold() -> Result<(), Error> {
        for sentences in [&[][..], &[unread(1.0), read(0.9, 5.0, 10)]] {
            let series = series(sentences)?;
            assert_eq!((series.threshold(), series.fastest()), (None, None), "{sentences:?}");
        }
        Ok(())
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let error = sentence_speed(Duration::ZERO, 0).expect_err("no time");
        assert_eq!(error.to_string(), "reading time `0 s` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.1 to 3600 s");
        assert!(series(&[read(f64::NAN, 5.0, 0)]).is_err(), "no size");
        assert!(series(&[read(1.0, -1.0, 0)]).is_err(), "no time");
        let sizes =
            |count: u8| -> Vec<_> { (0..count).map(|step| unread(f64::from(step) * 0.1 - 0.3)).collect() };
        assert_eq!(series(&sizes(24)).expect("as many as there is room for").sizes.len(), 24);
        let error = series(&sizes(25)).expect_err("one more");
        assert_eq!(error.to_string(), "print sizes of a series `25` is not possible");
        assert_eq!(error.hint().to_string(), "use 0 to 24 sizes");
        let distance = Length::ZERO;
        assert!(Sentence::of_print(PrintSize::from_m_units(1.0), distance, Trial::NotRead).is_err());
    }
}
