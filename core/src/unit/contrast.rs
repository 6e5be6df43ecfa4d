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
    ///
    /// ```
    /// use arcminute_core::unit::LogContrast;
    /// // Whoever only just sees a contrast of 1 % has a log contrast sensitivity of 2.
    /// assert!((LogContrast::of_threshold(0.01).log() - 2.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn of_threshold(threshold: f64) -> Self {
        Self(-math::log10(threshold))
    }
    /// The least contrast seen, `10^−log`; a pure ratio.
    ///
    /// ```
    /// use arcminute_core::unit::LogContrast;
    /// // 1.5 log units: 3.16 % (computed).
    /// assert!((LogContrast::from_log(1.5).threshold() - 0.0316).abs() < 5e-5);
    /// ```
    #[must_use]
    pub fn threshold(self) -> f64 {
        math::pow(10.0, -self.0)
    }
}
