//! What was measured with an aid, against what was predicted; and what would explain a miss.
//!
//! A prediction stems from one measurement and the trial is another, so the two differ by chance as repeats do: up to the
//! retest limit nothing has to be explained. Beyond it, on the worse side, each thing worth checking is listed with what
//! it would cost *this* eye, in log units, where a law is known. It says what would explain the miss, never that it does,
//! and nothing about the person.
//!
//! ```text
//!   logMAR  0.3 ─ better end ┐
//!           0.5 ─ predicted  │ within the band: nothing to explain
//!           0.7 ─ worse end  ┘
//!           0.9 ─ measured   ┐ beyond it by 0.2: what would cost as much?
//! ```
//!
//! Then read [`crate::unmarked`]: finding the power of an aid that carries no mark.

mod explanation;
#[cfg(feature = "alloc")]
mod working;

pub use explanation::{Cause, Explanation, Grounds, MISSED_FOCUS, OFF_CENTRE, OffCentre, off_centre};

use crate::bounds;
use crate::error::{Error, Why};
use crate::list::List;
use crate::predict::Prediction;
use crate::steadiness::Image;
use crate::unit::{Angle, AngularSpeed, Length, LogContrast, LogMar, Magnification, Vergence};

/// Explanations there is room for: one for each cause, and one more for each further assumption about it.
pub const MOST_EXPLANATIONS: usize = 11;
/// Acuities closer than this are one: rounding of `log10`, not measurement.
const SAME: f64 = 1e-9;

/// How the head moved during the trial.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// How the image stands.
    pub image: Image,
    /// Speed of the eye over that of the head; a pure ratio.
    pub gain: f64,
    /// Peak speed of the head.
    pub head: AngularSpeed,
}

/// What is known of the trial, as far as the prediction does not count it already; `None` is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Circumstances {
    /// Sphere left out of focus at the eye, either way.
    pub defocus: Option<Vergence>,
    /// Cylinder left uncorrected at the eye; its sign does not count.
    pub cylinder_left: Option<Vergence>,
    /// Diameter of the exit pupil of the aid.
    pub exit_pupil: Option<Length>,
    /// Diameter of the eye's pupil.
    pub pupil: Option<Length>,
    /// Light with the aid over that of the measurement without it; a pure ratio.
    pub light: Option<f64>,
    /// Weber contrast of what was read, 0 to 1; a pure ratio.
    pub contrast: Option<f64>,
    /// Contrast sensitivity for letters.
    pub sensitivity: Option<LogContrast>,
    /// Magnification of what moves with the head, where it is not that of the prediction; its sign does not count.
    pub magnification: Option<Magnification>,
    /// How the head moved.
    pub motion: Option<Motion>,
    /// Fovea to the place looked with.
    pub eccentricity: Option<Angle>,
}

/// Where the measurement lies against the band.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TrialClass {
    /// Better than the better end.
    Better,
    /// Within it.
    WithinBand,
    /// Worse than the worse end.
    Worse,
}

impl TrialClass {
    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::trial::TrialClass;
    /// assert_eq!(TrialClass::WithinBand.key(), "within-band");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Better => "better-than-band",
            Self::WithinBand => "within-band",
            Self::Worse => "worse-than-band",
        }
    }
}

/// A trial against its prediction.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialVerdict {
    /// What was predicted.
    pub prediction: Prediction,
    /// What was measured with the aid.
    pub measured: LogMar,
    /// Measured less predicted: positive when worse.
    pub difference: LogMar,
    /// How far outside the band, either way; zero within it.
    pub beyond: LogMar,
    /// Where it lies.
    pub class: TrialClass,
    /// What would explain a measurement worse than the band, the largest effect first, what has no known effect last;
    /// none otherwise.
    pub explanations: List<Explanation, MOST_EXPLANATIONS>,
}

/// What was measured with an aid against what was predicted, and what would explain a miss.
///
/// * Band: the prediction's, the retest limit either way. That limit is one of the *difference* of two measurements, so
///   the scatter of both is in it.
/// * `measured`: on the scale of the prediction, read through the aid.
/// * Each effect is that of its cause alone, on an eye that sees the prediction's acuity now.
///
/// # Errors
/// [`Why::OutOfRange`] for an acuity outside [`bounds::LOG_MAR`] and for circumstances outside their bounds;
/// [`Why::NoSolution`] for a prediction that is no number.
///
/// ```
/// use arcminute_core::predict::predict;
/// use arcminute_core::trial::{Cause, Circumstances, TrialClass, judge};
/// use arcminute_core::unit::{LogMar, Magnification, Vergence};
/// let log = LogMar::from_log;
/// // 0.9 through 4x should be 0.298; 0.6 is 0.302 worse, 0.102 beyond a limit of 0.2 (computed).
/// let predicted = predict(log(0.9), Magnification::from_times(4.0), log(0.3), log(0.2));
/// let known = Circumstances { defocus: Some(Vergence::from_dioptres(2.5)), ..Circumstances::default() };
/// let verdict = judge(&predicted, log(0.6), &known)?;
/// assert_eq!(verdict.class, TrialClass::Worse);
/// assert!((verdict.beyond.log() - 0.102).abs() < 5e-4);
/// // 2.5 D would cost an eye of 0.9 logMAR 0.196 log: enough to bring it back into the band.
/// let first = verdict.explanations[0];
/// assert_eq!((first.cause, first.is_enough), (Cause::FocusLeft, Some(true)));
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn judge(
    prediction: &Prediction,
    measured: LogMar,
    circumstances: &Circumstances,
) -> Result<TrialVerdict, Error> {
    bounds::LOG_MAR.check(measured.log())?;
    bounds::LOG_MAR.check(prediction.now.log())?;
    bounds::RETEST_LIMIT.check(prediction.retest_limit.log())?;
    let difference = measured - prediction.with_aid;
    if !difference.is_finite() {
        let why = Why::NoSolution { because: "there is no such prediction" };
        return Err(Error::about("predicted acuity", format_args!("{}", prediction.with_aid.log()), why));
    }
    let outside = difference.abs() - prediction.retest_limit;
    let class = if outside.log() <= SAME {
        TrialClass::WithinBand
    } else if difference < LogMar::ZERO {
        TrialClass::Better
    } else {
        TrialClass::Worse
    };
    let beyond = outside.max(LogMar::ZERO);
    let possible = explanation::possible(prediction, circumstances, beyond)?;
    let explanations =
        if class == TrialClass::Worse { explanation::largest_first(possible) } else { List::new() };
    Ok(TrialVerdict { prediction: *prediction, measured, difference, beyond, class, explanations })
}

#[cfg(test)]
mod tests;
