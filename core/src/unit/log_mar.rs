//! Acuity on the logarithmic scale.

use super::Angle;
use crate::math;

quantity! {
    /// Logarithm (base ten) of the minimum angle of resolution in minutes of arc, and differences of such.
    ///
    /// Higher is worse: 0 is 20/20, 1 is 20/200.
    LogMar {
        /// From log units.
        from_log / log = 1.0;
    }
}

impl LogMar {
    /// Of a minimum angle of resolution above zero.
    #[must_use]
    pub fn of_angle(mar: Angle) -> Self {
        Self(math::log10(mar.arcmin()))
    }
    /// The minimum angle of resolution, `10^logMAR` minutes of arc.
    #[must_use]
    pub fn mar(self) -> Angle {
        Angle::from_arcmin(math::pow(10.0, self.0))
    }
    /// Decimal acuity, `1/MAR`; a pure ratio.
    #[must_use]
    pub fn decimal(self) -> f64 {
        1.0 / self.mar().arcmin()
    }
}
