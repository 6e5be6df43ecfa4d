//! What would explain a miss, and how large its effect would be.

use super::{Circumstances, MOST_EXPLANATIONS, SAME};
use crate::bounds;
use crate::eccentric::{BestCase, best_case};
use crate::error::Error;
use crate::list::List;
use crate::math;
use crate::optics::{Blurred, blurred, disc_overlap};
use crate::predict::Prediction;
use crate::reading::{ContrastReserve, contrast_reserve};
use crate::source::{self, Source};
use crate::steadiness::{HeadMotion, Image, SteadyHead, head_motion, steady_head};
use crate::unit::{Length, LogMar, Vergence};

/// Focus that may be missed in a trial, in dioptres: the two steps that are tried here. Chosen here.
pub const MISSED_FOCUS: [f64; 2] = [0.5, 1.0];
/// Ways by which the exit pupil may be off the middle of the eye's pupil, in millimetres. Chosen here.
pub const OFF_CENTRE: [f64; 3] = [0.5, 1.0, 2.0];

/// Something to check when a trial falls short, in the order of looking for it where no effect is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cause {
    /// Sphere that is known to be left out of focus.
    FocusLeft,
    /// Focus missed by the one who focused it.
    FocusMissed,
    /// Cylinder that nothing corrects.
    CylinderLeft,
    /// The exit pupil beside the eye's pupil.
    Alignment,
    /// Less light than in the measurement without the aid.
    Light,
    /// Contrast not far above the least that is seen.
    Contrast,
    /// Movement of the head.
    Steadiness,
    /// Looking with another place of the retina.
    EccentricView,
}

impl Cause {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::FocusLeft,
        Self::FocusMissed,
        Self::CylinderLeft,
        Self::Alignment,
        Self::Light,
        Self::Contrast,
        Self::Steadiness,
        Self::EccentricView,
    ];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::trial::Cause;
    /// assert_eq!(Cause::FocusMissed.key(), "focus-missed");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::FocusLeft => "focus-left",
            Self::FocusMissed => "focus-missed",
            Self::CylinderLeft => "cylinder-left",
            Self::Alignment => "alignment",
            Self::Light => "light",
            Self::Contrast => "contrast",
            Self::Steadiness => "steadiness",
            Self::EccentricView => "eccentric-view",
        }
    }

    /// What its effect rests on; for light and alignment only their share is known.
    ///
    /// ```
    /// use arcminute_core::source::Standing;
    /// use arcminute_core::trial::Cause;
    /// assert_eq!(Cause::FocusLeft.source().standing, Standing::Assumed, "a model, not validated in a clinic");
    /// ```
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::FocusLeft | Self::FocusMissed | Self::CylinderLeft => &source::BLUR_IN_LOW_VISION,
            Self::Alignment => &source::GEOMETRY,
            Self::Light => &source::COMMON_PRACTICE,
            Self::Contrast => &source::WHITTAKER_1993,
            Self::Steadiness => &source::DEMER_AMJADI_1993,
            Self::EccentricView => &source::SONG_2014,
        }
    }
}

/// Light that an exit pupil beside the middle of the eye's pupil leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffCentre {
    /// Diameter of the exit pupil.
    pub exit_pupil: Length,
    /// Diameter of the eye's pupil.
    pub pupil: Length,
    /// Distance of their centres.
    pub apart: Length,
    /// Light left of that with the two centred; a pure ratio.
    pub share: f64,
}

/// The light that is left when the exit pupil stands beside the middle of the eye's pupil, over that when it stands on it.
///
/// Source: circle geometry, [`disc_overlap`]. What less light does to acuity is not told by it.
///
/// # Errors
/// [`crate::Why::OutOfRange`] outside [`bounds::EXIT_PUPIL`] and [`bounds::PUPIL`].
///
/// ```
/// use arcminute_core::{trial::off_centre, unit::Length};
/// // 3 mm on 4 mm, 1 mm apart: 83 % is left (computed).
/// let mm = Length::from_mm;
/// assert!((off_centre(mm(3.0), mm(4.0), mm(1.0))?.share - 0.835).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn off_centre(exit_pupil: Length, pupil: Length, apart: Length) -> Result<OffCentre, Error> {
    bounds::EXIT_PUPIL.check(exit_pupil.mm())?;
    bounds::PUPIL.check(pupil.mm())?;
    Ok(OffCentre { exit_pupil, pupil, apart, share: disc_overlap(exit_pupil, pupil, apart) })
}

/// What an effect was reckoned from: what was told of the trial, or what was assumed.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(
    clippy::large_enum_variant,
    reason = "one of eleven at most is the large one, and a box needs an allocator; on the page it is not large"
)]
pub enum Grounds {
    /// Blur of this defocus and cylinder.
    Blur(Blurred),
    /// An exit pupil so far off the middle.
    OffCentre(OffCentre),
    /// So much of the light; a pure ratio.
    LightShare(f64),
    /// Contrast so many times the least that is seen.
    Contrast(ContrastReserve),
    /// The movement told of.
    Motion(HeadMotion),
    /// No movement was told of: it costs something from this speed on, the eye not adapted and the image upright.
    SteadyUpTo(SteadyHead),
    /// What a healthy retina sees at that eccentricity.
    Eccentric(BestCase),
    /// Nothing that it could be reckoned from was told.
    NotGiven,
}

/// Something that would explain a miss.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Explanation {
    /// What to check.
    pub cause: Cause,
    /// Acuity that it alone would cost this eye; `None` when no law is known that would tell.
    pub effect: Option<LogMar>,
    /// Whether that alone would bring the measurement back into the band; `None` when the effect is not known.
    pub is_enough: Option<bool>,
    /// What it was reckoned from.
    pub grounds: Grounds,
}

pub(super) type Explanations = List<Explanation, MOST_EXPLANATIONS>;

/// Everything that would explain a miss, in the order of [`Cause`]; what is known to cost nothing is left out.
pub(super) fn possible(
    prediction: &Prediction,
    circumstances: &Circumstances,
    beyond: LogMar,
) -> Result<Explanations, Error> {
    let mut all = Explanations::new();
    let mut add = |cause, effect: Option<LogMar>, grounds| {
        if effect.is_none_or(|effect| SAME < effect.log()) {
            let is_enough = effect.map(|effect| beyond.log() <= effect.log() + SAME);
            // There is room for one of each below.
            let _ = all.try_push(Explanation { cause, effect, is_enough, grounds });
        }
    };
    let blur = |defocus, cylinder: Vergence| {
        let seen = blurred(prediction.now.mar(), defocus, cylinder.abs());
        (Some(seen.loss), Grounds::Blur(seen))
    };
    let nothing = (None, Grounds::NotGiven);
    let left = circumstances.defocus.map_or(nothing, |defocus| blur(defocus, Vergence::ZERO));
    add(Cause::FocusLeft, left.0, left.1);
    for missed in MISSED_FOCUS.map(Vergence::from_dioptres) {
        let (effect, grounds) = blur(missed, Vergence::ZERO);
        add(Cause::FocusMissed, effect, grounds);
    }
    let left = circumstances.cylinder_left.map_or(nothing, |cylinder| blur(Vergence::ZERO, cylinder));
    add(Cause::CylinderLeft, left.0, left.1);
    if let (Some(exit_pupil), Some(pupil)) = (circumstances.exit_pupil, circumstances.pupil) {
        for apart in OFF_CENTRE.map(Length::from_mm) {
            let left = off_centre(exit_pupil, pupil, apart)?;
            if left.share < 1.0 {
                add(Cause::Alignment, None, Grounds::OffCentre(left));
            }
        }
    } else {
        add(Cause::Alignment, None, Grounds::NotGiven);
    }
    match circumstances.light {
        None => add(Cause::Light, None, Grounds::NotGiven),
        Some(share) if share < 1.0 => add(Cause::Light, None, Grounds::LightShare(share)),
        Some(_) => {}
    }
    match (circumstances.contrast, circumstances.sensitivity) {
        (Some(contrast), Some(sensitivity)) => {
            add(Cause::Contrast, None, Grounds::Contrast(contrast_reserve(contrast, sensitivity)?));
        }
        _ => add(Cause::Contrast, None, Grounds::NotGiven),
    }
    let (effect, grounds) = motion(prediction, circumstances)?;
    add(Cause::Steadiness, effect, grounds);
    match circumstances.eccentricity {
        None => add(Cause::EccentricView, None, Grounds::NotGiven),
        Some(eccentricity) => {
            let floor = best_case(eccentricity)?;
            // At best; an eye that sees less than that already is told nothing by it.
            let short = floor.best - prediction.now;
            let effect = (SAME < short.log()).then_some(short);
            add(Cause::EccentricView, effect, Grounds::Eccentric(floor));
        }
    }
    Ok(all)
}

fn motion(
    prediction: &Prediction,
    circumstances: &Circumstances,
) -> Result<(Option<LogMar>, Grounds), Error> {
    let magnification = circumstances.magnification.unwrap_or(prediction.magnification);
    let Some(motion) = circumstances.motion else {
        let steady = steady_head(magnification, Image::Upright, 1.0);
        return Ok((None, steady.map_or(Grounds::NotGiven, Grounds::SteadyUpTo)));
    };
    let moved = head_motion(magnification, motion.image, motion.gain, motion.head)?;
    Ok((Some(LogMar::from_log(math::log10(moved.loss))), Grounds::Motion(moved)))
}

/// The same, the largest effect first and those without a known one last; what is alike stays in order.
pub(super) fn largest_first(all: Explanations) -> Explanations {
    let mut sorted = all.clone();
    let size = |one: &Explanation| one.effect.unwrap_or(-LogMar::from_log(1.0));
    for (place, one) in (0..all.len()).zip(&all) {
        let ahead = |(other_place, other): &(usize, &Explanation)| {
            size(one) < size(other) || (size(one) <= size(other) && *other_place < place)
        };
        // As many stand before it as are ahead of it: no two share that number.
        let before = (0..all.len()).zip(&all).filter(ahead);
        let before = before.fold(0_usize, |count, _| count.saturating_add(1));
        if let Some(slot) = sorted.get_mut(before) {
            *slot = *one;
        }
    }
    sorted
}
