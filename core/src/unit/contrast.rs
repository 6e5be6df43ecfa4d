//! Contrast sensitivity.

use crate::math;

quantity! {
    /// Logarithm (base ten) of contrast sensitivity, the reciprocal of the least Weber contrast seen; higher is better.
    ///
    /// ```
    /// use arcminute_core::unit::LogContrast;
    /// assert!((LogContrast::from_log(1.65).threshold() - 0.0224).abs() < 5e-5);
    /// ```
    LogContrast {
        /// From log units.
        from_log / log = 1.0;
    }
}

impl LogContrast {
    /// Of the least contrast seen, above zero; a pure ratio of 0 to 1.
    #[must_use]
    pub fn of_threshold(threshold: f64) -> Self {
        Self(-math::log10(threshold))
    }
    /// The least contrast seen, `10^−log`; a pure ratio.
    #[must_use]
    pub fn threshold(self) -> f64 {
        math::pow(10.0, -self.0)
    }
}
