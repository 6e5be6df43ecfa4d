//! Size of print.

use super::{Angle, Length};
use crate::math;

/// 1 M in millimetres: what subtends 5 minutes of arc at 1 m, `1000·tan 5′`.
fn millimetres_of_one_m() -> f64 {
    1000.0 * math::tan(Angle::from_arcmin(5.0).radians())
}

quantity! {
    /// Size of print in M units: 1 M subtends 5 minutes of arc at 1 m, 1.4544 mm. In lower case it is the x-height
    /// that is measured, in capitals their height.
    ///
    /// ```
    /// use arcminute_core::unit::{Length, PrintSize};
    /// // Sloan's definition: 1 M is 1.4544 mm.
    /// assert!((PrintSize::from_m_units(1.0).x_height().mm() - 1.4544).abs() < 5e-5);
    /// assert!((PrintSize::of_x_height(Length::from_mm(1.2)).m_units() - 0.825).abs() < 5e-4);
    /// ```
    PrintSize {
        /// From M units.
        from_m_units / m_units = 1.0;
    }
}

impl PrintSize {
    /// The print whose x-height (or height of capitals) this is.
    ///
    /// ```
    /// use arcminute_core::unit::{Length, PrintSize};
    /// // An x-height of 5.82 mm is 4 M, which subtends 5 minutes of arc at 4 m (computed).
    /// assert!((PrintSize::of_x_height(Length::from_mm(5.82)).m_units() - 4.0).abs() < 0.005);
    /// ```
    #[must_use]
    pub fn of_x_height(x_height: Length) -> Self {
        Self(x_height.mm() / millimetres_of_one_m())
    }
    /// Its x-height, or the height of its capitals if it is in capitals.
    ///
    /// ```
    /// use arcminute_core::unit::PrintSize;
    /// // 0.4 M: 0.58 mm (computed).
    /// assert!((PrintSize::from_m_units(0.4).x_height().mm() - 0.58).abs() < 0.005);
    /// ```
    #[must_use]
    pub fn x_height(self) -> Length {
        Length::from_mm(self.0 * millimetres_of_one_m())
    }
}
