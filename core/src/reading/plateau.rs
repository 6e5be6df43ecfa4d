//! The plateau of a reading series: sizes at which reading is as fast as it gets.
//!
//! The published rule: sizes read at least 1.96 standard deviations faster than the rest; the greatest speed is their
//! mean, the critical print size the smallest of them ([`source::LEGGE_2007`](crate::source::LEGGE_2007)). The words
//! leave open of what and over which sizes the deviation is taken. Here
//! ([`source::PLATEAU_READING`](crate::source::PLATEAU_READING), our reading of it):
//!
//! A plateau is a run of three or more neighbouring sizes with mean `m` and standard deviation `s` (divisor `n − 1`) such
//! that
//! 1. each size outside it, smaller or larger, is read slower than `m − 1.96·s`;
//! 2. no size in it is;
//! 3. its smallest and its largest size are read at 80 % of `m` or faster, so that a steady fall is no plateau.
//!
//! By 1 and 2, of two plateaus the one lies within the other; the longest counts. A size not read counts as nothing.

use super::series::{Series, SizeRead};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
#[cfg(feature = "alloc")]
use crate::source;
use crate::unit::{LogMar, ReadingSpeed};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Standard deviations below the mean that are still the same.
const APART: f64 = 1.96;
/// Fewest sizes of a plateau.
const FEWEST: usize = 3;
/// Share of its mean at which its ends have to be read.
const EDGE: f64 = 0.8;
/// Speeds closer than this share of each other are one: rounding, not measurement.
const SAME: f64 = 1e-9;

/// Critical print size, as far as the series tells.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Critical {
    /// This size: smaller ones were read slower.
    At(LogMar),
    /// This size or smaller: it is the smallest of the series.
    AtMost(LogMar),
}

/// The plateau of a series, by the rule of this module.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plateau {
    /// Its largest size.
    pub largest: LogMar,
    /// Its smallest size, the critical print size.
    pub critical: Critical,
    /// How many sizes it has.
    pub sizes: u8,
    /// Sum of their speeds.
    pub sum: ReadingSpeed,
    /// Their mean: the greatest reading speed.
    pub greatest: ReadingSpeed,
    /// Their standard deviation.
    pub spread: ReadingSpeed,
    /// Speed below which all other sizes were read.
    pub limit: ReadingSpeed,
}

/// Why a series shows no plateau.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoPlateau {
    /// Fewer than three sizes.
    TooFewSizes,
    /// Nothing was read.
    NothingRead,
    /// No run of sizes stands out from the rest.
    NoneStandsOut,
}

/// Sum, mean and standard deviation of speeds.
struct Speeds {
    sum: ReadingSpeed,
    mean: ReadingSpeed,
    spread: ReadingSpeed,
}

impl Speeds {
    fn of<'a>(sizes: impl Iterator<Item = &'a SizeRead> + Clone) -> Self {
        let (mut count, mut sum) = (0.0, ReadingSpeed::ZERO);
        for at in sizes.clone() {
            count += 1.0;
            sum = sum + at.speed;
        }
        let mean = sum / count;
        let square = |at: &SizeRead| {
            let apart = (at.speed - mean).words_per_minute();
            apart * apart
        };
        let squares: f64 = sizes.map(square).sum();
        let spread = ReadingSpeed::from_words_per_minute(math::sqrt(squares / (count - 1.0)));
        Self { sum, mean, spread }
    }
    fn limit(&self) -> ReadingSpeed {
        self.mean - self.spread * APART
    }
}

/// The plateau of a series, or why there is none.
///
/// # Errors
/// [`NoPlateau`], which is a finding and no fault.
///
/// # Example
/// ```
/// use arcminute_core::reading::{Critical, Sentence, Trial, plateau, series};
/// use arcminute_core::unit::{Duration, LogMar};
/// let read = |log, seconds| Sentence {
///     size: LogMar::from_log(log),
///     trial: Trial::Read { time: Duration::from_seconds(seconds), errors: 0 },
/// };
/// let series = series(&[read(1.2, 4.0), read(1.1, 4.2), read(1.0, 4.1), read(0.9, 4.3), read(0.8, 9.0)])?;
/// let plateau = plateau(&series).expect("four sizes stand out");
/// assert_eq!(plateau.critical, Critical::At(LogMar::from_log(0.9)));
/// assert!((plateau.greatest.words_per_minute() - 144.7).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn plateau(series: &Series) -> Result<Plateau, NoPlateau> {
    if series.sizes.len() < FEWEST {
        return Err(NoPlateau::TooFewSizes);
    }
    if series.fastest().is_none() {
        return Err(NoPlateau::NothingRead);
    }
    // Longest first.
    for count in (FEWEST..=series.sizes.len()).rev() {
        for skipped in 0..series.sizes.len() {
            if let Some(found) = run(series, skipped, count) {
                return Ok(found);
            }
        }
    }
    Err(NoPlateau::NoneStandsOut)
}

/// The run of `count` sizes after the first `skipped`, if it is a plateau.
fn run(series: &Series, skipped: usize, count: usize) -> Option<Plateau> {
    let run = series.sizes.get(skipped..)?.get(..count)?;
    let (larger, smaller) =
        (series.sizes.iter().take(skipped), series.sizes.iter().skip(skipped).skip(count));
    let speeds = Speeds::of(run.iter());
    let (limit, grain) = (speeds.limit(), speeds.mean * SAME);
    let is_alone = larger.chain(smaller.clone()).all(|at| at.speed < limit - grain);
    let is_whole = run.iter().all(|at| limit - grain <= at.speed);
    let (first, last) = (run.first()?, run.last()?);
    let least_at_ends = speeds.mean * EDGE - grain;
    if !(is_alone && is_whole && least_at_ends <= first.speed && least_at_ends <= last.speed) {
        return None;
    }
    let ends_the_series = smaller.count() == 0;
    Some(Plateau {
        largest: first.size,
        critical: if ends_the_series { Critical::AtMost(last.size) } else { Critical::At(last.size) },
        sizes: u8::try_from(count).ok()?,
        sum: speeds.sum,
        greatest: speeds.mean,
        spread: speeds.spread,
        limit,
    })
}

#[cfg(feature = "alloc")]
impl Explain for Plateau {
    fn steps(&self) -> Vec<Step> {
        let words =
            |symbol, speed: ReadingSpeed| Named::new(symbol, speed.words_per_minute(), Unit::WordsPerMinute);
        let greatest = words("R_max", self.greatest);
        let count = Named::new("n", f64::from(self.sizes), Unit::Plain);
        alloc::vec![
            Step::Rule { because: "plateau-stands-out", source: &source::PLATEAU_READING },
            Step::formula(&formula::PLATEAU_MEAN, greatest, [words("sum", self.sum), count]),
            Step::formula(
                &formula::PLATEAU_LIMIT,
                words("R_limit", self.limit),
                [greatest, words("SD", self.spread)],
            ),
        ]
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use crate::list::List;

    /// Speeds from size 1.3 down, a tenth of a log apart.
    fn of(speeds: &[f64]) -> Series {
        let mut sizes = List::new();
        let mut size = 1.3;
        for speed in speeds {
            let speed = ReadingSpeed::from_words_per_minute(*speed);
            let at = SizeRead { size: LogMar::from_log(size), speed, sentences: 1 };
            sizes.try_push(at).expect("few sizes");
            size -= 0.1;
        }
        Series { sizes }
    }
    /// Largest size, critical size, whether the series ends there, mean.
    #[track_caller]
    fn found(speeds: &[f64]) -> (f64, f64, bool, f64) {
        let plateau = plateau(&of(speeds)).expect("a plateau");
        for step in plateau.steps() {
            assert_eq!(step.check(), Ok(()), "{speeds:?}");
        }
        let (size, ends) = match plateau.critical {
            Critical::At(size) => (size, false),
            Critical::AtMost(size) => (size, true),
        };
        let tenths = |size: LogMar| math::round_to(size.log(), 0.1);
        (
            tenths(plateau.largest),
            tenths(size),
            ends,
            math::round_to(plateau.greatest.words_per_minute(), 0.1),
        )
    }

    #[test]
    fn a_plateau_and_a_fall() {
        assert_eq!(found(&[150.0, 148.0, 152.0, 150.0, 60.0, 20.0, 0.0]), (1.3, 1.0, false, 150.0));
        assert_eq!(found(&[152.0, 148.0, 155.0, 147.0, 150.0, 120.0, 60.0]), (1.3, 0.9, false, 150.4));
    }

    #[test]
    fn a_size_far_below_the_others_is_not_carried_by_them() {
        // The run with the 60 has a limit of 39, but 60 is less than 80 % of its mean.
        assert_eq!(found(&[150.0, 150.0, 150.0, 60.0, 20.0]), (1.3, 1.1, false, 150.0));
    }

    #[test]
    fn two_fast_sizes_do_not_hide_the_longer_plateau() {
        let speeds = [170.0, 169.5, 150.0, 148.0, 155.0, 147.0, 100.0, 50.0];
        assert_eq!(found(&speeds), (1.3, 0.8, false, 156.6));
    }

    #[test]
    fn larger_print_may_be_read_slower() {
        assert_eq!(found(&[90.0, 100.0, 150.0, 148.0, 152.0, 149.0, 40.0]), (1.1, 0.8, false, 149.8));
        assert_eq!(found(&[100.0, 105.0, 110.0, 150.0, 155.0, 150.0, 60.0]), (1.0, 0.8, false, 151.7));
    }

    #[test]
    fn a_plateau_to_the_end_of_the_series_tells_no_more_than_that() {
        assert_eq!(found(&[150.0, 148.0, 152.0]), (1.3, 1.1, true, 150.0));
        assert_eq!(found(&[80.0, 150.0, 148.0, 152.0]), (1.2, 1.0, true, 150.0));
    }

    #[test]
    fn equal_speeds_are_a_plateau() {
        assert_eq!(found(&[150.1; 7]), (1.3, 0.7, true, 150.1));
        assert_eq!(found(&[150.1, 150.1, 150.1, 150.1, 50.0]), (1.3, 1.0, false, 150.1));
    }

    #[test]
    fn the_longest_of_those_within_one_another() {
        // Four at 150 stand out as well, and so do five down to 145; 130 is below the limit of seven, 130.02.
        let speeds = [150.0, 150.0, 150.0, 150.0, 145.0, 140.0, 130.0, 100.0, 60.0, 20.0];
        assert_eq!(found(&speeds), (1.3, 0.8, false, 147.5));
    }

    #[test]
    fn a_steady_fall_is_no_plateau() {
        for speeds in [&[150.0, 100.0, 60.0, 10.0][..], &[160.0, 120.0, 80.0, 40.0, 0.0]] {
            assert_eq!(plateau(&of(speeds)), Err(NoPlateau::NoneStandsOut), "{speeds:?}");
        }
    }

    #[test]
    fn both_ends_are_read_at_four_fifths_of_the_mean() {
        // 96 is 80 % of the mean of 120; 95.7 is 79.8 % of 119.9.
        assert_eq!(found(&[144.0, 120.0, 96.0]), (1.3, 1.1, true, 120.0));
        assert_eq!(plateau(&of(&[144.0, 120.0, 95.7])), Err(NoPlateau::NoneStandsOut));
        assert_eq!(found(&[96.0, 120.0, 144.0]), (1.3, 1.1, true, 120.0));
        assert_eq!(plateau(&of(&[95.7, 120.0, 144.0])), Err(NoPlateau::NoneStandsOut));
    }

    #[test]
    fn why_there_is_none() {
        assert_eq!(plateau(&of(&[])), Err(NoPlateau::TooFewSizes));
        assert_eq!(plateau(&of(&[150.0, 150.0])), Err(NoPlateau::TooFewSizes));
        assert_eq!(plateau(&of(&[0.0, 0.0, 0.0])), Err(NoPlateau::NothingRead));
        assert_eq!(plateau(&of(&[150.0, 0.0, 0.0])), Err(NoPlateau::NoneStandsOut));
        assert_eq!(plateau(&of(&[150.0, 0.0, 0.0, 0.0, 0.0])), Err(NoPlateau::NoneStandsOut));
    }

    #[test]
    fn the_limit_is_1_96_deviations_below_the_mean() {
        let plateau = plateau(&of(&[149.0, 150.0, 151.0, 100.0])).expect("three stand out");
        assert!((plateau.spread.words_per_minute() - 1.0).abs() < 1e-12, "{plateau:?}");
        assert!((plateau.limit.words_per_minute() - 148.04).abs() < 1e-9, "{plateau:?}");
        assert_eq!((plateau.sizes, plateau.sum.words_per_minute()), (3, 450.0));
    }

    #[test]
    fn both_sides_of_the_limit() {
        // Outside a run of 149, 150, 151 the limit is 148.04.
        assert_eq!(found(&[149.0, 150.0, 151.0, 100.0, 10.0]).1, 1.1, "100 lies below it");
        // 130 does too, but with it the limit falls to 125.3.
        assert_eq!(found(&[149.0, 150.0, 151.0, 130.0, 10.0]).1, 1.0, "130 is of the plateau");
        // 130, 150, 170 have a mean of 150 and a deviation of 20: the limit is 110.8. What is read as fast as that is not
        // slower, and with it four fifths of the mean are 112.2.
        assert_eq!(found(&[130.0, 150.0, 170.0, 110.7]), (1.3, 1.1, false, 150.0));
        assert_eq!(plateau(&of(&[130.0, 150.0, 170.0, 110.8])), Err(NoPlateau::NoneStandsOut));
    }
}
