//! The logarithmic curve that lies nearest to a series, by least squares.
//!
//! Ours, with the form of [`LogCurve`]: threshold and rise are sought on a grid over all that is possible, then on a small
//! one about the best place, which is drawn closer when it finds nothing better; the greatest speed follows from them.
//! What the series does not determine is said, not guessed.

use super::series::{SIZES, Series};
use super::speed::LogCurve;
use crate::math;
use crate::unit::{LogMar, ReadingSpeed};

/// Fewest sizes for three unknowns.
const FEWEST: usize = 4;
/// How far below the smallest size reading may begin.
const BELOW: f64 = 1.0;
/// Least and greatest rise for each log unit.
const RISE: (f64, f64) = (0.5, 100.0);
/// How much faster than the fastest size the curve may become: beyond it, no levelling off was seen.
const BEYOND: f64 = 1.25;
/// Places of the first grid each way from its middle, and of the later ones.
const FIRST: i16 = 12;
const LATER: i16 = 2;
/// Most grids that are laid.
const ROUNDS: u16 = 300;
/// Half width of a grid in log units at which the search ends.
const ENOUGH: f64 = 1e-9;

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
    let (Some(first), Some(last)) = (series.sizes.first(), series.sizes.last()) else {
        return Err(NoFit::TooFewSizes);
    };
    if series.sizes.len() < FEWEST {
        return Err(NoFit::TooFewSizes);
    }
    let Some(fastest) = series.fastest() else { return Err(NoFit::NothingRead) };
    let threshold = (last.size.log() - BELOW, first.size.log());
    let rise = (math::ln(RISE.0), math::ln(RISE.1));
    let mut best = near(series, middle(threshold), middle(rise));
    let (mut wide, mut high, mut reach) = (half(threshold), half(rise), FIRST);
    for _ in 0..ROUNDS {
        let (x, y, before) = (best.curve.threshold.log(), math::ln(best.curve.rise), best.left);
        for across in reach.saturating_neg()..=reach {
            for up in reach.saturating_neg()..=reach {
                let place = |middle, half, step| middle + half * f64::from(step) / f64::from(reach);
                let within = |value: f64, (least, most): (f64, f64)| value.max(least).min(most);
                let at = within(place(x, wide, across), threshold);
                let tried = near(series, at, within(place(y, high, up), rise));
                if tried.left < best.left {
                    best = tried;
                }
            }
        }
        if reach == FIRST {
            // From here on within two steps of the first grid.
            wide *= f64::from(LATER) / f64::from(FIRST);
            high *= f64::from(LATER) / f64::from(FIRST);
            reach = LATER;
        } else if best.left == before {
            wide /= 2.0;
            high /= 2.0;
        }
        if wide < ENOUGH {
            break;
        }
    }
    let inside = |value: f64, ends: (f64, f64)| {
        let edge = 0.01 * (ends.1 - ends.0);
        ends.0 + edge < value && value < ends.1 - edge
    };
    if !(inside(best.curve.threshold.log(), threshold) && inside(math::ln(best.curve.rise), rise)) {
        return Err(NoFit::NotDetermined);
    }
    if fastest.speed * BEYOND < best.curve.greatest {
        return Err(NoFit::NoLevellingOff);
    }
    Ok(best)
}

fn middle((least, most): (f64, f64)) -> f64 {
    (least + most) / 2.0
}
fn half((least, most): (f64, f64)) -> f64 {
    (most - least) / 2.0
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
