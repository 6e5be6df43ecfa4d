//! Prism power.

use super::Angle;
use crate::math;

quantity! {
    /// Prismatic deviation, stored in prism dioptres: 1 cm aside at 1 m. Base-in is positive where eyes are relieved.
    ///
    /// ```
    /// use arcminute_core::unit::Prism;
    /// assert!((Prism::from_prism_dioptres(40.0).deviation().degrees() - 21.80).abs() < 0.005);
    /// ```
    Prism {
        /// From prism dioptres.
        from_prism_dioptres / prism_dioptres = 1.0;
    }
}

impl Prism {
    /// The prism that turns a ray by this angle: `100·tan`.
    ///
    /// ```
    /// use arcminute_core::unit::{Angle, Prism};
    /// // 45 degrees: 100 prism dioptres, 1 m aside at 1 m.
    /// assert!((Prism::of_deviation(Angle::from_degrees(45.0)).prism_dioptres() - 100.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn of_deviation(deviation: Angle) -> Self {
        Self(100.0 * deviation.tangent())
    }
    /// The angle it turns a ray by: `atan(P/100)`.
    ///
    /// ```
    /// use arcminute_core::unit::Prism;
    /// // 1 prism dioptre: 34.4 minutes of arc (computed).
    /// assert!((Prism::from_prism_dioptres(1.0).deviation().arcmin() - 34.4).abs() < 0.05);
    /// ```
    #[must_use]
    pub fn deviation(self) -> Angle {
        Angle::from_radians(math::atan(self.0 / 100.0))
    }
}
