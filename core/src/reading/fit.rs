//! The logarithmic curve that lies nearest to a series, by least squares.
//!
//! Ours, with the form of [`LogCurve`]: threshold and rise are sought on a grid over all that is possible, then on a small
//! one about the best place, which is drawn closer when it finds nothing better; the greatest speed follows from them.
//! What the series does not determine is said, not guessed.

use super::series::{SIZES, Series};
use super::speed::LogCurve;
use crate::math;
use crate::unit::{LogMar, ReadingSpeed};

/// How far below the smallest size reading may begin.
const BELOW: f64 = 1.0;
/// Least and greatest rise for each log unit.
const RISE: (f64, f64) = (0.5, 100.0);
/// How much faster than the fastest size the curve may become: beyond it, no levelling off was seen.
const BEYOND: f64 = 1.25;
/// Share of a range next to its ends in which nothing counts as found.
const EDGE: f64 = 0.01;
/// Steps of the first grid along each side, and of the later ones.
const FIRST: u8 = 24;
const LATER: u8 = 4;
/// How far the second grid reaches to each side: two steps of the first.
const REACH: f64 = 2.0 / FIRST as f64;
/// Most grids that are laid.
const ROUNDS: u16 = 300;
/// Reach of a grid at which the search ends: less than a billionth of a log unit of size.
const ENOUGH: f64 = 2.5e-10;

/// The curve nearest to a series.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// The curve.
    pub curve: LogCurve,
    /// Root of the mean square of what is left between speeds and curve.
    pub left: ReadingSpeed,
    /// How many sizes it was drawn through.
    pub sizes: u8,
}

/// Why a series has no nearest curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoFit {
    /// Fewer than four sizes.
    TooFewSizes,
    /// Nothing was read.
    NothingRead,
    /// Threshold or rise run to the end of the range sought, as where no size is slower or one step is all there is.
    NotDetermined,
    /// The curve would level off more than a quarter above the fastest size: larger print has to be tried.
    NoLevellingOff,
}

/// The logarithmic curve nearest to a series by least squares; sizes not read count as nothing.
///
/// Its critical print sizes are those of [`LogCurve::size_for`]. Method: ours; form:
/// [`source::CHEUNG_2008`](crate::source::CHEUNG_2008).
///
/// # Errors
/// [`NoFit`], which is a finding and no fault.
///
/// # Example
/// ```
/// use arcminute_core::reading::{LogCurve, Sentence, Trial, fit_curve, series};
/// use arcminute_core::unit::{Duration, LogMar, ReadingSpeed};
/// let curve = LogCurve {
///     greatest: ReadingSpeed::from_words_per_minute(120.0),
///     threshold: LogMar::from_log(0.6),
///     rise: 5.0,
/// };
/// let mut sentences = Vec::new();
/// for step in 0..10 {
///     let size = LogMar::from_log(1.6 - f64::from(step) * 0.1);
///     let speed = curve.speed_at(size)?.speed.words_per_minute();
///     let trial = match speed {
///         0.0 => Trial::NotRead,
///         _ => Trial::Read { time: Duration::from_seconds(600.0 / speed), errors: 0 },
///     };
///     sentences.push(Sentence { size, trial });
/// }
/// let fit = fit_curve(&series(&sentences)?).expect("a curve was put in");
/// assert!((fit.curve.size_for(0.8)?.size.log() - 0.922).abs() < 1e-3);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn fit_curve(series: &Series) -> Result<Fit, NoFit> {
    // Four sizes or more, for three unknowns.
    let [first, _, _, .., last] = series.sizes.as_slice() else { return Err(NoFit::TooFewSizes) };
    let Some(fastest) = series.fastest() else { return Err(NoFit::NothingRead) };
    let threshold = (last.size.log() - BELOW, first.size.log());
    let log_rise = (math::ln(RISE.0), math::ln(RISE.1));
    let at = |across, up| near(series, between(threshold, across), between(log_rise, up));
    let place = least_place(&|across, up| at(across, up).left.words_per_minute());
    if [place.across, place.up].iter().any(|share| !(EDGE..1.0 - EDGE).contains(share)) {
        return Err(NoFit::NotDetermined);
    }
    let best = at(place.across, place.up);
    if fastest.speed * BEYOND < best.curve.greatest {
        return Err(NoFit::NoLevellingOff);
    }
    Ok(best)
}

/// The value at this share of the way between two.
fn between((least, most): (f64, f64), share: f64) -> f64 {
    least + (most - least) * share
}

/// A place in the square of side 1, and what is left there.
#[derive(Clone, Copy)]
struct Place {
    across: f64,
    up: f64,
    left: f64,
}

impl Place {
    /// The first of the best places of a grid about this one, or this one if none is better.
    fn or_better(self, left_at: &dyn Fn(f64, f64) -> f64, reach: f64, steps: u8) -> Self {
        let mut best = self;
        for across in grid(self.across, reach, steps) {
            for up in grid(self.up, reach, steps) {
                let left = left_at(across, up);
                if left < best.left {
                    best = Self { across, up, left };
                }
            }
        }
        best
    }
}

/// Places from `reach` before the middle to as far behind it, so many steps; what lies outside of 0 to 1 is put at its end.
fn grid(middle: f64, reach: f64, steps: u8) -> impl Iterator<Item = f64> {
    let ends = (middle - reach, middle + reach);
    (0..=steps).map(move |step| between(ends, f64::from(step) / f64::from(steps)).clamp(0.0, 1.0))
}

/// Where in the square of side 1 the least is left: on a grid over all of it, then on small ones about the best place,
/// drawn closer when they find nothing better.
fn least_place(left_at: &dyn Fn(f64, f64) -> f64) -> Place {
    let mut best = Place { across: 0.5, up: 0.5, left: f64::INFINITY }.or_better(left_at, 0.5, FIRST);
    let mut reach = REACH;
    for _ in 0..ROUNDS {
        let found = best.or_better(left_at, reach, LATER);
        if best.left <= found.left {
            reach /= 2.0;
        }
        best = found;
        if reach < ENOUGH {
            break;
        }
    }
    best
}

/// The nearest curve with this threshold and logarithm of the rise.
fn near(series: &Series, threshold: f64, log_rise: f64) -> Fit {
    let unit = LogCurve {
        greatest: ReadingSpeed::from_words_per_minute(1.0),
        threshold: LogMar::from_log(threshold),
        rise: math::exp(log_rise),
    };
    let mut shares = [0.0; SIZES];
    let (mut both, mut squares, mut sizes) = (0.0, 0.0, 0_u8);
    for (at, share) in series.sizes.iter().zip(&mut shares) {
        *share = unit.share_at(at.size);
        both += *share * at.speed.words_per_minute();
        squares += *share * *share;
        sizes = sizes.saturating_add(1);
    }
    let greatest = if squares > 0.0 { both / squares } else { 0.0 };
    let mut left = 0.0;
    for (at, share) in series.sizes.iter().zip(&shares) {
        let apart = at.speed.words_per_minute() - greatest * share;
        left += apart * apart;
    }
    Fit {
        curve: LogCurve { greatest: ReadingSpeed::from_words_per_minute(greatest), ..unit },
        left: ReadingSpeed::from_words_per_minute(math::sqrt(left / f64::from(sizes))),
        sizes,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::list::List;
    use crate::reading::SizeRead;

    fn curve(greatest: f64, threshold: f64, rise: f64) -> LogCurve {
        LogCurve {
            greatest: ReadingSpeed::from_words_per_minute(greatest),
            threshold: LogMar::from_log(threshold),
            rise,
        }
    }
    /// Sizes from `largest` down, a tenth of a log apart, with these speeds.
    fn of(largest: f64, speeds: impl IntoIterator<Item = f64>) -> Series {
        let mut sizes = List::new();
        for (step, speed) in speeds.into_iter().enumerate() {
            let size = LogMar::from_log(largest - step as f64 / 10.0);
            let speed = ReadingSpeed::from_words_per_minute(speed);
            sizes.try_push(SizeRead { size, speed, sentences: 1 }).expect("few sizes");
        }
        Series { sizes }
    }
    fn on(curve: LogCurve, largest: f64, sizes: u8) -> Series {
        of(
            largest,
            (0..sizes).map(|step| {
                let size = LogMar::from_log(largest - f64::from(step) / 10.0);
                curve.greatest.words_per_minute() * curve.share_at(size)
            }),
        )
    }

    #[test]
    fn a_grid_reaches_as_far_to_both_sides() {
        let places = |middle, reach, steps| grid(middle, reach, steps).collect::<alloc::vec::Vec<_>>();
        assert_eq!(places(0.5, 0.5, 4), [0.0, 0.25, 0.5, 0.75, 1.0]);
        assert_eq!(places(0.5, 0.125, 2), [0.375, 0.5, 0.625]);
        assert_eq!(places(0.875, 0.25, 4), [0.625, 0.75, 0.875, 1.0, 1.0]);
        assert_eq!(places(0.125, 0.25, 2), [0.0, 0.125, 0.375]);
    }

    /// Law: wherever in the square a valley is deepest, it is found, also where a wide and shallow one is about it.
    #[test]
    fn the_least_is_found_wherever_it_lies() {
        let apart = |x: f64, y: f64| x * x + y * y;
        for (x, y) in [(0.31, 0.77), (0.93, 0.06), (0.5, 0.5), (0.011, 0.989), (0.7, 0.2)] {
            let narrow = |across, up| 100.0 * apart(across - x, up - y);
            let found =
                least_place(&|across, up| narrow(across, up).min(1.0 + apart(across - 0.4, up - 0.6)));
            assert!(apart(found.across - x, found.up - y) < 1e-16, "({}, {})", found.across, found.up);
            // Slanted: a step along one side alone makes it worse.
            let slanted = |across: f64, up: f64| apart(across - x + up - y, 20.0 * (across - x - up + y));
            let found = least_place(&slanted);
            assert!(apart(found.across - x, found.up - y) < 1e-14, "({}, {})", found.across, found.up);
        }
        let corner = least_place(&|across, up| across - up);
        assert_eq!((corner.across, corner.up, corner.left), (0.0, 1.0, -1.0), "at the end of the range");
        let level = least_place(&|_, _| 3.0);
        assert_eq!((level.across, level.up, level.left), (0.0, 0.0, 3.0), "the first of places alike");
    }

    /// The first grid of 25 by 25 meets the place; then each of 5 by 5 is half as wide: 1/12 halved 29 times is 1.6e-10.
    #[test]
    fn the_search_ends_when_its_grid_is_narrow_enough() {
        let tried = core::cell::Cell::new(0);
        least_place(&|across, up| {
            tried.set(tried.get() + 1);
            math::abs(across - 0.25) + math::abs(up - 0.75)
        });
        assert_eq!(tried.get(), 625 + 29 * 25);
    }

    #[test]
    fn a_curve_put_in_comes_out() {
        for (greatest, threshold, rise) in
            [(120.0, 0.6, 5.0), (40.0, 0.9, 4.0), (200.0, -0.05, 8.0), (80.0, 0.55, 12.0)]
        {
            let put_in = curve(greatest, threshold, rise);
            let fit = fit_curve(&on(put_in, threshold + 1.0, 14)).expect("a curve was put in");
            assert!((fit.curve.greatest / put_in.greatest - 1.0).abs() < 1e-4, "{put_in:?} gave {fit:?}");
            assert!((fit.curve.threshold - put_in.threshold).log().abs() < 1e-4, "{put_in:?} gave {fit:?}");
            assert!((fit.curve.rise / rise - 1.0).abs() < 1e-3, "{put_in:?} gave {fit:?}");
            assert!(fit.left.words_per_minute() < 1e-2, "{fit:?}");
            assert_eq!(fit.sizes, 14);
        }
    }

    #[test]
    fn scatter_is_evened_out() {
        let put_in = curve(120.0, 0.6, 5.0);
        let mut series = on(put_in, 1.6, 12);
        for (step, at) in series.sizes.iter_mut().enumerate() {
            at.speed = at.speed * if step % 2 == 0 { 1.05 } else { 0.95 };
        }
        let fit = fit_curve(&series).expect("a curve with scatter");
        let apart = (fit.curve.size_for(0.8).expect("in range").size - LogMar::from_log(0.922)).log();
        assert!(apart.abs() < 0.06, "{fit:?}");
        assert!((2.0..7.0).contains(&fit.left.words_per_minute()), "5 % of scatter is left: {fit:?}");
    }

    #[test]
    fn what_is_left_is_the_root_of_the_mean_square() {
        let series = of(1.0, [10.0, 10.0, 10.0, 30.0]);
        // Far above the threshold the share is 1, so the nearest speed is the mean of 15.
        let flat = near(&series, -30.0, math::ln(50.0));
        assert!((flat.curve.greatest.words_per_minute() - 15.0).abs() < 1e-9, "{flat:?}");
        assert!((flat.left.words_per_minute() - math::sqrt(75.0)).abs() < 1e-9, "{flat:?}");
        // Below the threshold nothing is read.
        let none = near(&series, 2.0, 1.0);
        assert_eq!(none.curve.greatest, ReadingSpeed::ZERO);
    }

    #[test]
    fn what_is_not_determined_is_said() {
        assert_eq!(fit_curve(&of(1.0, [])), Err(NoFit::TooFewSizes));
        assert_eq!(fit_curve(&of(1.0, [9.0, 9.0, 5.0])), Err(NoFit::TooFewSizes));
        assert_eq!(fit_curve(&of(1.0, [0.0; 5])), Err(NoFit::NothingRead));
        // Four are enough: 12·0.3 is so far up that the curve is nearly level.
        let fit = fit_curve(&on(curve(90.0, 0.6, 12.0), 0.9, 4)).expect("three unknowns");
        assert!((fit.curve.threshold.log() - 0.6).abs() < 1e-4 && fit.sizes == 4, "{fit:?}");
        assert_eq!(fit_curve(&of(1.0, [150.0; 6])), Err(NoFit::NotDetermined), "no slower size");
        assert_eq!(
            fit_curve(&of(1.0, [150.0, 150.0, 150.0, 0.0, 0.0])),
            Err(NoFit::NotDetermined),
            "one step is all there is"
        );
        let rising = on(curve(400.0, 0.4, 1.0), 0.9, 6);
        assert_eq!(fit_curve(&rising), Err(NoFit::NoLevellingOff));
    }
}
