//! Apparent field from real field, and the ring that a worn telescope hides.

#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, Magnification};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Apparent field, full angle, of an image without distortion: `tan(a/2) = |M|·tan(r/2)`.
///
/// Source: ISO 14132-1 rule. The short form `a = |M|·r` is 3 to 11 % larger.
///
/// ```
/// use arcminute_core::{optics::apparent_field, unit::{Angle, Magnification}};
/// let apparent = apparent_field(Magnification::from_times(8.0), Angle::from_degrees(8.8));
/// assert!((apparent.degrees() - 63.2).abs() < 0.05); // the example printed with the rule
/// ```
#[must_use]
pub fn apparent_field(magnification: Magnification, real: Angle) -> Angle {
    Angle::from_tangent(magnification.size() * (real / 2.0).tangent()) * 2.0
}

/// What the telescope eye alone cannot see: a ring between the real and the apparent edge of the field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    /// Magnification.
    pub magnification: Magnification,
    /// Inner diameter, full angle: the real field.
    pub inner: Angle,
    /// Outer diameter, full angle: the apparent field; the housing may hide more.
    pub outer: Angle,
    /// Width of the ring.
    pub width: Angle,
}

/// The ring scotoma of a telescope worn before one eye; `real` is its real field, full angle.
///
/// It reaches from the real field to the [`apparent_field`]; its width is half of the difference.
///
/// ```
/// use arcminute_core::{optics::ring_scotoma, unit::{Angle, Magnification}};
/// // 4x with a real field of 10 degrees: hidden from 10 to 38.6 degrees, a ring of 14.3 (computed).
/// let ring = ring_scotoma(Magnification::from_times(4.0), Angle::from_degrees(10.0));
/// assert!((ring.outer.degrees() - 38.6).abs() < 0.05);
/// assert!((ring.width.degrees() - 14.3).abs() < 0.05);
/// ```
#[must_use]
pub fn ring_scotoma(magnification: Magnification, real: Angle) -> Ring {
    let outer = apparent_field(magnification, real);
    Ring { magnification, inner: real, outer, width: (outer - real) / 2.0 }
}

#[cfg(feature = "alloc")]
impl Explain for Ring {
    fn steps(&self) -> Vec<Step> {
        let a = Named::new("a", self.outer.degrees(), Unit::Degree);
        let r = Named::new("r", self.inner.degrees(), Unit::Degree);
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        alloc::vec![
            Step::formula(&formula::APPARENT_FIELD, a, [m, r]),
            Step::formula(
                &formula::RING_WIDTH,
                Named::new("w_ring", self.width.degrees(), Unit::Degree),
                [a, r]
            ),
        ]
    }
}
