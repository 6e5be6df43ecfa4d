//! Critical print size as a share of the greatest speed, read between the sizes of a series.
//!
//! 80 % and 90 % are both in use; a result says which. The greatest speed is given: that of a plateau, or the fastest
//! size. From the fastest size on towards smaller print, the first fall below the share counts, so that a chance fall
//! gives a larger size, not a smaller one.

use super::series::{Series, SizeRead};
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{LogMar, ReadingSpeed};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Where a series falls below a share of the greatest speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShareCrossing {
    /// The greatest speed that was given.
    pub greatest: ReadingSpeed,
    /// Share of it; a pure ratio.
    pub share: f64,
    /// The speed it amounts to.
    pub wanted: ReadingSpeed,
    /// The last size that reaches it.
    pub larger: SizeRead,
    /// The next smaller one, which does not.
    pub smaller: SizeRead,
    /// Critical print size, on the straight line between the two over the logarithm of size.
    pub critical: LogMar,
}

/// Why there is no such place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoCrossing {
    /// No size reaches the share.
    NotReached,
    /// No smaller size falls below it: the critical size is this or smaller.
    AtMost(LogMar),
}

/// The critical print size as the size at which the series falls below a share of the greatest speed.
///
/// * `greatest`: that of a [`Plateau`](super::Plateau), or of the fastest size.
/// * `share`: 0.8 and 0.9 are both in use; a pure ratio.
///
/// Definition as in [`source::LEGGE_2007`](crate::source::LEGGE_2007); the straight line is ours.
///
/// # Errors
/// Outer: [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::READING_SPEED`] or [`bounds::SPEED_SHARE`].
/// Inner: [`NoCrossing`], which is a finding and no fault.
///
/// # Example
/// ```
/// use arcminute_core::reading::{Sentence, Trial, critical_by_share, series};
/// use arcminute_core::unit::{Duration, LogMar, ReadingSpeed};
/// let read = |log, seconds| Sentence {
///     size: LogMar::from_log(log),
///     trial: Trial::Read { time: Duration::from_seconds(seconds), errors: 0 },
/// };
/// // 150 and 90 words a minute: 120 lies half way.
/// let series = series(&[read(1.0, 4.0), read(0.8, 600.0 / 90.0)])?;
/// let found = critical_by_share(&series, ReadingSpeed::from_words_per_minute(150.0), 0.8)?;
/// assert!((found.expect("it falls below").critical.log() - 0.9).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn critical_by_share(
    series: &Series,
    greatest: ReadingSpeed,
    share: f64,
) -> Result<Result<ShareCrossing, NoCrossing>, Error> {
    bounds::READING_SPEED.check(greatest.words_per_minute())?;
    bounds::SPEED_SHARE.check(share)?;
    let wanted = greatest * share;
    let Some(fastest) = series.fastest().filter(|fastest| wanted <= fastest.speed) else {
        return Ok(Err(NoCrossing::NotReached));
    };
    let mut larger = *fastest;
    for smaller in series.sizes.iter().filter(|at| at.size < fastest.size) {
        if smaller.speed < wanted {
            let way = (wanted - larger.speed) / (smaller.speed - larger.speed);
            let critical = larger.size + (smaller.size - larger.size) * way;
            return Ok(Ok(ShareCrossing { greatest, share, wanted, larger, smaller: *smaller, critical }));
        }
        larger = *smaller;
    }
    Ok(Err(NoCrossing::AtMost(larger.size)))
}

#[cfg(feature = "alloc")]
impl Explain for ShareCrossing {
    fn steps(&self) -> Vec<Step> {
        let words =
            |symbol, speed: ReadingSpeed| Named::new(symbol, speed.words_per_minute(), Unit::WordsPerMinute);
        let log = |symbol, size: LogMar| Named::new(symbol, size.log(), Unit::LogMar);
        let wanted = words("R_s", self.wanted);
        let share = Named::new("s", self.share, Unit::Plain);
        let inputs = [
            log("x_a", self.larger.size),
            wanted,
            words("R_a", self.larger.speed),
            words("R_b", self.smaller.speed),
            log("x_b", self.smaller.size),
        ];
        alloc::vec![
            Step::formula(&formula::SPEED_WANTED, wanted, [share, words("R_max", self.greatest)]),
            Step::formula(&formula::SIZE_BETWEEN, log("x", self.critical), inputs),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::list::List;
    use alloc::string::ToString;

    fn wpm(speed: f64) -> ReadingSpeed {
        ReadingSpeed::from_words_per_minute(speed)
    }
    /// Speeds from size 1.0 down, a tenth of a log apart.
    fn of(speeds: &[f64]) -> Series {
        let mut sizes = List::new();
        for (step, speed) in speeds.iter().enumerate() {
            let size = LogMar::from_log(1.0 - step as f64 / 10.0);
            sizes.try_push(SizeRead { size, speed: wpm(*speed), sentences: 1 }).expect("few sizes");
        }
        Series { sizes }
    }

    #[test]
    fn between_two_sizes() {
        let series = of(&[100.0, 150.0, 150.0, 130.0, 90.0, 140.0, 10.0]);
        for (share, critical) in [(0.8, 0.675), (0.9, 0.7 + 0.1 * 5.0 / 20.0)] {
            let found = critical_by_share(&series, wpm(150.0), share).expect("in range").expect("it falls");
            assert!((found.critical.log() - critical).abs() < 1e-12, "{share}: {found:?}");
            for step in found.steps() {
                assert_eq!(step.check(), Ok(()), "{share}");
            }
        }
    }

    #[test]
    fn the_share_itself_is_reached() {
        let series = of(&[150.0, 120.0, 60.0]);
        let found = critical_by_share(&series, wpm(150.0), 0.8).expect("in range").expect("it falls");
        assert!((found.critical.log() - 0.9).abs() < 1e-12, "{found:?}");
        assert_eq!(found.larger.speed, wpm(120.0));
    }

    #[test]
    fn findings_that_are_none() {
        let at = |series: &Series, greatest| critical_by_share(series, wpm(greatest), 0.8).expect("in range");
        assert_eq!(at(&of(&[]), 150.0), Err(NoCrossing::NotReached));
        assert_eq!(at(&of(&[0.0, 0.0]), 150.0), Err(NoCrossing::NotReached));
        assert_eq!(at(&of(&[100.0, 50.0]), 150.0), Err(NoCrossing::NotReached));
        let reached = at(&of(&[150.0, 140.0, 130.0]), 150.0);
        assert_eq!(reached, Err(NoCrossing::AtMost(LogMar::from_log(0.8))));
        assert_eq!(at(&of(&[150.0]), 150.0), Err(NoCrossing::AtMost(LogMar::from_log(1.0))));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let series = of(&[150.0, 60.0]);
        let error = critical_by_share(&series, wpm(0.0), 0.8).expect_err("no speed");
        assert_eq!(error.to_string(), "reading speed `0 words per minute` is not possible");
        let error = critical_by_share(&series, wpm(150.0), 1.0).expect_err("never falls below");
        assert_eq!(error.to_string(), "share of the greatest speed `1` is not possible");
        assert_eq!(error.hint().to_string(), "use 0 to 0.999");
    }
}
