//! What a tilted spherical lens does.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// The line in the lens about which it is turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TiltAbout {
    /// The horizontal: pantoscopic tilt, axis 180.
    Horizontal,
    /// The vertical: face form, axis 90.
    Vertical,
}

/// A spherical lens and what it acts as when tilted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tilted {
    /// Power of the lens, upright.
    pub power: Vergence,
    /// How far it is turned.
    pub tilt: Angle,
    /// Sphere it acts as.
    pub sphere: Vergence,
    /// Cylinder that comes with it, of the sphere's sign.
    pub cylinder: Vergence,
    /// Axis of that cylinder, degrees.
    pub axis: u16,
}

/// What a spherical lens acts as when tilted (Martin's formula).
///
/// `S' = S · (1 + sin²t / 3)`, `C = S' · tan²t`; index near 1.5, small tilt, thin lens, spherical: a lens with a
/// cylinder of its own is not covered. Some texts use `S · tan²t` for the cylinder, a little less.
/// Source: [`source::MARTIN_TILT`](crate::source::MARTIN_TILT).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) for a tilt outside [`bounds::LENS_TILT`] or a power outside
/// [`bounds::SPHERE`].
///
/// # Example
/// ```
/// use arcminute_core::refraction::{TiltAbout, tilted};
/// use arcminute_core::unit::{Angle, Vergence};
/// let lens = tilted(Vergence::from_dioptres(15.0), Angle::from_degrees(10.0), TiltAbout::Horizontal)?;
/// assert!((lens.sphere.dioptres() - 15.151).abs() < 5e-4);
/// assert!((lens.cylinder.dioptres() - 0.471).abs() < 5e-4);
/// assert_eq!(lens.axis, 180);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn tilted(power: Vergence, tilt: Angle, about: TiltAbout) -> Result<Tilted, Error> {
    bounds::SPHERE.check(power.dioptres())?;
    bounds::LENS_TILT.check(tilt.degrees())?;
    let (sine, tangent) = (tilt.sine(), tilt.tangent());
    let sphere = power * (1.0 + sine * sine / 3.0);
    let axis = match about {
        TiltAbout::Horizontal => 180,
        TiltAbout::Vertical => 90,
    };
    Ok(Tilted { power, tilt, sphere, cylinder: sphere * (tangent * tangent), axis })
}

#[cfg(feature = "alloc")]
impl Explain for Tilted {
    fn steps(&self) -> Vec<Step> {
        let dioptres = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let tilt = Named::new("t", self.tilt.degrees(), Unit::Degree);
        let sphere = dioptres("S_t", self.sphere);
        vec![
            Step::formula(&formula::TILT_SPHERE, sphere, [dioptres("S", self.power), tilt]),
            Step::formula(&formula::TILT_CYLINDER, dioptres("C_t", self.cylinder), [sphere, tilt]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for about in [TiltAbout::Horizontal, TiltAbout::Vertical] {
            for (power, tilt) in [(15.0, 10.0), (-8.0, -6.5), (4.0, 0.0)] {
                let lens = tilted(Vergence::from_dioptres(power), Angle::from_degrees(tilt), about)?;
                assert_eq!(lens.steps().len(), 2);
                for step in lens.steps() {
                    assert_eq!(step.check(), Ok(()), "{lens:?}");
                }
            }
        }
        Ok(())
    }
}
