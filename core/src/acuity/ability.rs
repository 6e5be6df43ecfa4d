//! Acuities and contrast sensitivities beyond which most people of a survey were limited in a task.
//!
//! Medians of a population, no limits for a person; its authors warn that one cut-off is arbitrary, and
//! [`Caution::CutOffArbitrary`](super::cautions::Caution::CutOffArbitrary) goes beside them.

use crate::source::{self, Source};
use crate::unit::{LogContrast, LogMar};

/// Kind of task.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tasks {
    /// Getting about.
    Mobility,
    /// Reading and the like.
    Reading,
}

/// Where most people of the survey were limited.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AbilityThreshold {
    /// In what.
    pub tasks: Tasks,
    /// How many people were surveyed.
    pub people: u16,
    /// Where it was published.
    pub source: &'static Source,
    acuity: f64,
    contrast: f64,
}

impl AbilityThreshold {
    /// Most were limited with acuity worse than this.
    ///
    /// ```
    /// use arcminute_core::acuity::ability::MOBILITY;
    /// assert_eq!((MOBILITY.acuity().log(), MOBILITY.contrast().log()), (1.0, 0.9));
    /// ```
    #[must_use]
    pub fn acuity(&self) -> LogMar {
        LogMar::from_log(self.acuity)
    }
    /// Or with contrast sensitivity below this, in log units.
    ///
    /// ```
    /// use arcminute_core::acuity::ability::READING;
    /// // West et al. 2002: reading wants more than getting about does.
    /// assert_eq!(READING.contrast().log(), 1.4);
    /// ```
    #[must_use]
    pub fn contrast(&self) -> LogContrast {
        LogContrast::from_log(self.contrast)
    }
}

/// Getting about.
pub static MOBILITY: AbilityThreshold = AbilityThreshold {
    tasks: Tasks::Mobility,
    people: 2520,
    source: &source::WEST_2002,
    acuity: 1.0,
    contrast: 0.9,
};
/// Reading and the like.
pub static READING: AbilityThreshold = AbilityThreshold {
    tasks: Tasks::Reading,
    people: 2520,
    source: &source::WEST_2002,
    acuity: 0.2,
    contrast: 1.4,
};
