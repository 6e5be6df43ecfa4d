//! Angles.

use super::Length;
use crate::math;

quantity! {
    /// An angle, stored in minutes of arc, the unit of the acuity tables.
    Angle {
        /// From minutes of arc.
        from_arcmin / arcmin = 1.0;
        /// From degrees.
        from_degrees / degrees = (1.0 / 60.0);
        /// From radians.
        from_radians / radians = (math::PI / 10_800.0);
    }
}

impl Angle {
    /// The angle whose tangent is `tangent`, a pure ratio.
    ///
    /// ```
    /// use arcminute_core::unit::Angle;
    /// // 1 cm aside at 1 m, which is 1 prism dioptre: 0.573 degrees (computed).
    /// assert!((Angle::from_tangent(0.01).degrees() - 0.573).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn from_tangent(tangent: f64) -> Self {
        Self::from_radians(math::atan(tangent))
    }
    /// Its tangent, a pure ratio.
    ///
    /// ```
    /// use arcminute_core::unit::Angle;
    /// // 5 minutes of arc at 1 m are 1.4544 mm: Sloan's definition of 1 M.
    /// assert!((1000.0 * Angle::from_arcmin(5.0).tangent() - 1.4544).abs() < 5e-5);
    /// ```
    #[must_use]
    pub fn tangent(self) -> f64 {
        math::tan(self.radians())
    }
    /// Its sine, a pure ratio.
    ///
    /// ```
    /// use arcminute_core::unit::Angle;
    /// assert!((Angle::from_degrees(30.0).sine() - 0.5).abs() < 1e-15);
    /// ```
    #[must_use]
    pub fn sine(self) -> f64 {
        math::sin(self.radians())
    }
    /// Its cosine, a pure ratio.
    ///
    /// ```
    /// use arcminute_core::unit::Angle;
    /// assert!((Angle::from_degrees(60.0).cosine() - 0.5).abs() < 1e-15);
    /// ```
    #[must_use]
    pub fn cosine(self) -> f64 {
        math::cos(self.radians())
    }
    /// The full angle that a thing `size` wide subtends, centred, at `distance`.
    ///
    /// ```
    /// use arcminute_core::unit::{Angle, Length};
    /// // A 20/20 letter at 4 m: 5 minutes of arc, 5.818 mm (domain table: university optics course, 5.82 mm).
    /// let angle = Angle::subtended(Length::from_mm(5.818), Length::from_m(4.0));
    /// assert!((angle.arcmin() - 5.0).abs() < 1e-3);
    /// ```
    #[must_use]
    pub fn subtended(size: Length, distance: Length) -> Self {
        Self::from_tangent(size / distance / 2.0) * 2.0
    }
}
