//! Light: how much falls on a thing, comes from it, and reaches the retina.

use super::Length;
use crate::math;

quantity! {
    /// Light falling on a surface, stored in lux.
    Illuminance {
        /// From lux.
        from_lux / lux = 1.0;
    }
}

quantity! {
    /// Light coming from a surface, stored in candela per square metre.
    Luminance {
        /// From candela per square metre.
        from_candela_per_m2 / candela_per_m2 = 1.0;
    }
}

quantity! {
    /// Light a small source sends in a direction, stored in candela.
    LuminousIntensity {
        /// From candela.
        from_candela / candela = 1.0;
        /// From the lumens of a source that shines alike in all directions: `I = lumens/4π`.
        from_isotropic_lumens / isotropic_lumens = (4.0 * math::PI);
    }
}

quantity! {
    /// Light on the retina, stored in troland: luminance in cd/m² times pupil area in mm².
    RetinalIlluminance {
        /// From troland.
        from_troland / troland = 1.0;
    }
}

impl RetinalIlluminance {
    /// `T = L·π·p²/4`, p the pupil's diameter in mm; the lower yield of the pupil's edge is not counted.
    ///
    /// ```
    /// use arcminute_core::unit::{Length, Luminance, RetinalIlluminance};
    /// // 160 cd/m² through a pupil of 3 mm: 1131 td, computed by hand.
    /// let on_retina = RetinalIlluminance::through(Luminance::from_candela_per_m2(160.0), Length::from_mm(3.0));
    /// assert!((on_retina.troland() - 1131.0).abs() < 0.5);
    /// ```
    #[must_use]
    pub fn through(luminance: Luminance, pupil: Length) -> Self {
        Self(luminance.candela_per_m2() * math::PI * pupil.mm() * pupil.mm() / 4.0)
    }
}
