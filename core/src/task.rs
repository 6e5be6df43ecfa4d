//! What a wish asks of the eye, as an angle.
//!
//! A goal is an acuity to reach, or a thing of a height at a distance. Both come down to the smallest detail that has
//! to be seen, and to the acuity that sees it with the reserve wanted. Heights are of things five details high; the
//! distance ends at the eye.
//!
//! Then read [`crate::optics`]: what lenses do to that angle.

#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, Length, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A wish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Goal {
    /// Reach this acuity.
    Acuity(LogMar),
    /// See something of a known size at a known distance.
    Target(Target),
}

/// A letter or other thing five details high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target {
    /// Height of the letter.
    pub height: Length,
    /// Eye to letter.
    pub distance: Length,
    /// Size over the least size seen: 1 only just, 2 with ease. A pure ratio.
    pub reserve: f64,
}

/// What a goal asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Demand {
    /// The goal.
    pub goal: Goal,
    /// Detail of the target, one fifth of its height, as an angle at the eye; for an acuity goal its MAR.
    pub detail: Angle,
    /// Acuity to reach so that the reserve is kept.
    pub to_reach: LogMar,
}

/// What acuity a goal asks for.
///
/// ```
/// use arcminute_core::{task::{Goal, Target, demand}, unit::Length};
/// // Letters 40 mm high on a board 6 m away: 4.6 minutes of detail, 0.66 logMAR.
/// let board = Target { height: Length::from_mm(40.0), distance: Length::from_m(6.0), reserve: 1.0 };
/// assert!((demand(Goal::Target(board)).to_reach.log() - 0.66).abs() < 0.005);
/// ```
#[must_use]
pub fn demand(goal: Goal) -> Demand {
    let (detail, reserve) = match goal {
        Goal::Acuity(acuity) => (acuity.mar(), 1.0),
        Goal::Target(target) => (Angle::subtended(target.height / 5.0, target.distance), target.reserve),
    };
    Demand { goal, detail, to_reach: LogMar::of_angle(detail / reserve) }
}

#[cfg(feature = "alloc")]
impl Explain for Demand {
    fn steps(&self) -> Vec<Step> {
        let mar_goal = Named::new("MAR_goal", self.to_reach.mar().arcmin(), Unit::Arcmin);
        let log = Named::new("logMAR", self.to_reach.log(), Unit::LogMar);
        let as_log = Step::formula(
            &formula::LOG_FROM_MAR,
            log,
            [Named::new("MAR", self.to_reach.mar().arcmin(), Unit::Arcmin)],
        );
        match self.goal {
            Goal::Acuity(_) => alloc::vec![as_log],
            Goal::Target(target) => {
                let detail = Named::new("MAR_target", self.detail.arcmin(), Unit::Arcmin);
                let h = Named::new("h", target.height.m(), Unit::Metre);
                let x = Named::new("x", target.distance.m(), Unit::Metre);
                alloc::vec![
                    Step::formula(&formula::MAR_OF_DETAIL, detail, [h, x]),
                    Step::formula(
                        &formula::MAR_TO_REACH,
                        mar_goal,
                        [detail, Named::new("reserve", target.reserve, Unit::Times)],
                    ),
                    as_log,
                ]
            }
        }
    }
}
