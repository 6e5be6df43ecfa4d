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
    ///
    /// ```
    /// use arcminute_core::unit::{Angle, LogMar};
    /// // 20/200: 10 minutes of arc.
    /// assert_eq!(LogMar::of_angle(Angle::from_arcmin(10.0)).log(), 1.0);
    /// ```
    #[must_use]
    pub fn of_angle(mar: Angle) -> Self {
        Self(math::log10(mar.arcmin()))
    }
    /// The minimum angle of resolution, `10^logMAR` minutes of arc.
    ///
    /// ```
    /// use arcminute_core::unit::LogMar;
    /// // Three lines of 0.1 make the least detail all but twice as large (computed).
    /// assert!((LogMar::from_log(0.3).mar().arcmin() - 1.995).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn mar(self) -> Angle {
        Angle::from_arcmin(math::pow(10.0, self.0))
    }
    /// Decimal acuity, `1/MAR`; a pure ratio.
    ///
    /// ```
    /// use arcminute_core::unit::LogMar;
    /// // 20/200 is 0.1, and one line better than 20/20 is 1.26 (computed).
    /// assert!((LogMar::from_log(1.0).decimal() - 0.1).abs() < 1e-12);
    /// assert!((LogMar::from_log(-0.1).decimal() - 1.26).abs() < 0.005);
    /// ```
    #[must_use]
    pub fn decimal(self) -> f64 {
        1.0 / self.mar().arcmin()
    }
}
