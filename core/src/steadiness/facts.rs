//! What was measured of movement behind telescopes.

use crate::source::{self, Source};
use crate::unit::{AngularSpeed, Magnification};

/// How much acuity fell with a power while the head moved, on normal eyes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MotionLoss {
    /// Times that the least detail grew; a pure ratio.
    pub loss: f64,
    /// Where it was published.
    pub source: &'static Source,
    times: f64,
}

impl MotionLoss {
    /// The telescope.
    ///
    /// ```
    /// use arcminute_core::steadiness::MOTION_LOSSES;
    /// assert_eq!(MOTION_LOSSES.map(|measured| measured.magnification().times()), [1.9, 4.0, 6.0]);
    /// ```
    #[must_use]
    pub fn magnification(&self) -> Magnification {
        Magnification::from_times(self.times)
    }
    /// Peak speed of the head, up and down: 40 degrees a second.
    ///
    /// ```
    /// use arcminute_core::steadiness::MOTION_LOSSES;
    /// // Demer & Amjadi 1993: alike in all rows.
    /// assert!(MOTION_LOSSES.iter().all(|measured| measured.head().degrees_per_second() == 40.0));
    /// ```
    #[must_use]
    pub fn head(&self) -> AngularSpeed {
        AngularSpeed::from_degrees_per_second(40.0)
    }
    /// Magnification that the loss left.
    ///
    /// ```
    /// use arcminute_core::steadiness::MOTION_LOSSES;
    /// assert_eq!(MOTION_LOSSES[1].net().times(), 1.0);
    /// ```
    #[must_use]
    pub fn net(&self) -> Magnification {
        self.magnification() / self.loss
    }
}

const fn lost(times: f64, loss: f64) -> MotionLoss {
    MotionLoss { loss, source: &source::DEMER_AMJADI_1993, times }
}

/// The whole gain or more went at 40 degrees a second ([`source::DEMER_AMJADI_1993`]).
pub static MOTION_LOSSES: [MotionLoss; 3] = [lost(1.9, 2.0), lost(4.0, 4.0), lost(6.0, 8.0)];

/// Gain of the vestibulo-ocular reflex through a telescope; it would have to be the magnification.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReflexGain {
    /// Stable key.
    pub id: &'static str,
    /// Mean of the people; a pure ratio.
    pub gain: f64,
    /// Standard deviation; a pure ratio.
    pub deviation: f64,
    /// Where it was published.
    pub source: &'static Source,
}

impl ReflexGain {
    /// The telescope, 2.2 times, which is also the gain that would leave no slip.
    ///
    /// ```
    /// use arcminute_core::steadiness::REFLEX_GAINS;
    /// assert!(REFLEX_GAINS[0].gain < REFLEX_GAINS[0].magnification().times());
    /// ```
    #[must_use]
    pub fn magnification(&self) -> Magnification {
        Magnification::from_times(2.2)
    }
}

const fn reflex(id: &'static str, gain: f64, deviation: f64) -> ReflexGain {
    ReflexGain { id, gain, deviation, source: &source::REFLEX_MAGNIFIED }
}

/// At first, and after a quarter of an hour ([`source::REFLEX_MAGNIFIED`]).
pub static REFLEX_GAINS: [ReflexGain; 2] =
    [reflex("at-first", 1.37, 0.53), reflex("after-15-minutes", 1.54, 0.25)];

/// Something that was found and has no law.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fact {
    /// Stable key.
    pub id: &'static str,
    /// What was found.
    pub finding: &'static str,
    /// Where it was published.
    pub source: &'static Source,
}

macro_rules! facts {
    ($($id:literal, $source:ident, $finding:literal;)+) => {
        /// The findings.
        pub static FACTS: &[Fact] =
            &[$(Fact { id: $id, finding: $finding, source: &source::$source }),+];
    };
}

facts! {
    "law", DEMER_AMJADI_1993, "the 0.6th power of the slip explained 95 % of the variance";
    "sitting-still", PORTER_1989, "even the small sway of a head held still costs acuity";
    "walking", DEMER_1988, "walking can cost more acuity than the telescope gives";
    "sideways", DEMER_1988, "turning the head up to 30 degrees a second costs nothing with 2x, and more and more with 4x and 6x";
    "practice", DEMER_1988, "15 minutes of practice with 4x improve acuity in motion";
    "prognosis", DEMER_1991, "a steady head and a small loss by its movement went with success; acuity and the gain of the reflex did not tell";
}
