//! What the checks may know beyond the geometry of one eye.

use crate::fit::mounting::Mounting;
use crate::unit::{Length, LogMar, Vergence};

/// Kind of carrier lens.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Carrier {
    /// One power.
    #[default]
    SingleVision,
    /// Distance and one segment.
    Bifocal,
    /// Distance and two segments.
    Trifocal,
    /// Power rising down the lens.
    Progressive,
}

/// What is before the eye without the telescope.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FellowLens {
    /// A clear lens, with the person's correction or without power.
    Clear,
    /// Occluded or frosted.
    Occluded,
    /// The telescope flips over and serves this eye too.
    FlipOver,
}

/// A weight in grams.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Grams(pub f64);

/// What is known beyond the geometry of one eye; leave out what is not.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Context {
    /// Carrier lens.
    pub carrier: Carrier,
    /// Cylinder of the carrier.
    pub carrier_cylinder: Option<Vergence>,
    /// The carrier was turned for drilling.
    pub carrier_turned: bool,
    /// Width of the segment.
    pub segment_width: Option<Length>,
    /// Middle of the segment inward of the pupil.
    pub segment_inset: Option<Length>,
    /// Right monocular PD as typed.
    pub pd_right: Option<Length>,
    /// Left monocular PD as typed.
    pub pd_left: Option<Length>,
    /// Binocular PD as typed.
    pub pd_both: Option<Length>,
    /// Eyepiece centre from the middle of the bridge as ordered, or as measured on the made job.
    pub eyepiece_x: Option<Length>,
    /// Acuity of the right eye.
    pub acuity_right: Option<LogMar>,
    /// Acuity of the left eye.
    pub acuity_left: Option<LogMar>,
    /// What is before the fellow eye.
    pub fellow_lens: Option<FellowLens>,
    /// Pupil height of the fellow eye in the same front.
    pub fellow_height: Option<Length>,
    /// The telescope before the fellow eye, if there is one.
    pub fellow_mounting: Option<Mounting>,
    /// Weight of the front with all that is on it.
    pub front_weight: Option<Grams>,
    /// It is to be worn while walking.
    pub worn_walking: bool,
}
