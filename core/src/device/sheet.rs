//! A Fresnel sheet laid or held over the page.
//!
//! Thin and wide, it shows much of a page at once and little of it larger. Optically it is the hand magnifier of its
//! power; only its loss of contrast, which is not modelled, is its own.

use super::HandMagnifier;
use crate::unit::{Length, Vergence};

/// A flat sheet lens: weak, wide, and with less contrast than a polished lens; how much less was not found published.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FresnelSheet {
    /// Equivalent power, above zero.
    pub power: Vergence,
    /// Width, along the lines of print.
    pub width: Length,
    /// Share of the light it lets through; a pure ratio.
    pub transmittance: f64,
}

impl FresnelSheet {
    /// The hand magnifier it is in use: optically the same, as wide as its lines are long.
    ///
    /// Source: common practice, no source. An advertised "2x" of a sheet may be of area: 1.4x in length.
    ///
    /// ```
    /// use arcminute_core::{device::FresnelSheet, unit::{Length, Vergence}};
    /// let sheet = FresnelSheet {
    ///     power: Vergence::from_dioptres(3.0),
    ///     width: Length::from_mm(200.0),
    ///     transmittance: 0.85,
    /// };
    /// assert_eq!(sheet.as_hand_magnifier().clear_diameter.mm(), 200.0);
    /// ```
    #[must_use]
    pub fn as_hand_magnifier(&self) -> HandMagnifier {
        HandMagnifier { power: self.power, clear_diameter: self.width, transmittance: self.transmittance }
    }
}

/// Enlargement in length of a sheet that is advertised by area: the square root. A pure ratio.
///
/// ```
/// assert!((arcminute_core::device::length_from_area_enlargement(2.0) - 1.414).abs() < 5e-4);
/// ```
#[must_use]
pub fn length_from_area_enlargement(area: f64) -> f64 {
    crate::math::sqrt(area)
}
