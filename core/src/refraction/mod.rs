//! Refractions and spectacle prescriptions: sphere, cylinder, axis.
//!
//! A prescription is three numbers that are one lens: its power along two meridians at right angles, and which way they
//! lie. Whoever moves, tilts or decentres the lens changes what reaches the eye.
//!
//! ```text
//!         90                       as the examiner sees the wearer
//!    135   |   45                  axis anticlockwise from the horizontal, 1 to 180
//!       \  |  /                    power along the axis: S; across it: S + C
//!  180 ────+──── 0
//! ```
//!
//! Powers are of thin lenses in air at one plane. The axis is in degrees from 1 to 180 as the examiner sees it,
//! anticlockwise from the horizontal, the same for both eyes. Plus and minus cylinder forms are the same lens
//! ([`Refraction::transposed`]); sums are done on meridians or power vectors, never on sphere alone.
//!
//! Then read [`crate::device`]: the aids.

mod decentration;
mod moved;
mod parse;
mod power;
mod print;
mod tilted;

#[cfg(test)]
mod laws;

pub use decentration::{Base, Decentred, Eye};
pub use moved::Moved;
pub use parse::{Parsed, Prescription, parse};
pub use tilted::{TiltAbout, Tilted, tilted};

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{Angle, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A sphero-cylinder.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Refraction {
    /// Power in the meridian of the axis.
    pub sphere: Vergence,
    /// Power added at right angles to the axis.
    pub cylinder: Vergence,
    /// Axis of the cylinder, degrees from 1 to 180; not needed without a cylinder.
    pub axis: Option<u16>,
}

/// A refraction as a vector: mean sphere and two crossed cylinders. Vectors may be added and averaged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerVector {
    /// What it is the vector of.
    pub refraction: Refraction,
    /// Mean sphere, `S + C/2`.
    pub mean_sphere: Vergence,
    /// Crossed cylinder at 180 and 90, `−C/2 · cos 2α`.
    pub j0: Vergence,
    /// Crossed cylinder at 45 and 135, `−C/2 · sin 2α`.
    pub j45: Vergence,
}

impl Refraction {
    /// A sphere alone.
    ///
    /// ```
    /// use arcminute_core::{refraction::Refraction, unit::Vergence};
    /// assert_eq!(Refraction::of_sphere(Vergence::from_dioptres(-2.5)).to_string(), "-2.50");
    /// ```
    #[must_use]
    pub fn of_sphere(sphere: Vergence) -> Self {
        Self { sphere, ..Self::default() }
    }

    /// A sphero-cylinder, its parts checked; axis 0 becomes 180.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for a power or axis outside [`bounds`], [`Why::Missing`] for a cylinder without an axis.
    ///
    /// # Example
    /// ```
    /// use arcminute_core::{refraction::Refraction, unit::Vergence};
    /// let d = Vergence::from_dioptres;
    /// assert_eq!(Refraction::of(d(2.0), d(-1.5), Some(0))?.to_string(), "+2.00 -1.50 x180");
    /// assert!(Refraction::of(d(2.0), d(-1.5), None).is_err());
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn of(sphere: Vergence, cylinder: Vergence, axis: Option<u16>) -> Result<Self, Error> {
        bounds::SPHERE.check(sphere.dioptres())?;
        bounds::CYLINDER.check(cylinder.dioptres())?;
        if let Some(axis) = axis {
            bounds::AXIS.check(f64::from(axis))?;
        } else if cylinder != Vergence::ZERO {
            let why = Why::Missing { part: "an axis", example: "+2.00 -1.50 x 090" };
            return Err(Error::about("cylinder", format_args!("{:+.2}", cylinder.dioptres()), why));
        }
        let axis = axis.map(|axis| if axis == 0 { 180 } else { axis });
        Ok(Self { sphere, cylinder, axis })
    }

    /// The same lens with the cylinder of the other sign: `S + C`, `−C`, axis turned by 90 degrees.
    ///
    /// Transposing twice gives the lens back. Without a cylinder nothing changes.
    ///
    /// ```
    /// use arcminute_core::{refraction::Refraction, unit::Vergence};
    /// let d = Vergence::from_dioptres;
    /// let minus = Refraction::of(d(2.0), d(-1.5), Some(90))?;
    /// assert_eq!(minus.transposed().to_string(), "+0.50 +1.50 x180");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn transposed(&self) -> Self {
        if self.cylinder == Vergence::ZERO {
            return *self;
        }
        let axis =
            self.axis.map(|axis| if axis > 90 { axis.saturating_sub(90) } else { axis.saturating_add(90) });
        Self { sphere: self.sphere + self.cylinder, cylinder: -self.cylinder, axis }
    }

    /// Mean sphere (spherical equivalent), `S + C/2`.
    ///
    /// ```
    /// use arcminute_core::{refraction::Refraction, unit::Vergence};
    /// let d = Vergence::from_dioptres;
    /// assert_eq!(Refraction::of(d(2.0), d(-1.5), Some(90))?.mean_sphere(), d(1.25));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn mean_sphere(&self) -> Vergence {
        self.sphere + self.cylinder / 2.0
    }

    /// The same as a vector ([`source::THIBOS_1997`](crate::source::THIBOS_1997)); a lens and its transposed form have
    /// the same.
    ///
    /// ```
    /// use arcminute_core::{refraction::Refraction, unit::Vergence};
    /// let d = Vergence::from_dioptres;
    /// let vector = Refraction::of(d(2.0), d(-1.5), Some(90))?.power_vector();
    /// assert_eq!(vector.mean_sphere, d(1.25));
    /// assert_eq!(vector.j0, d(-0.75));
    /// assert!(vector.j45.abs() < d(1e-12));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn power_vector(&self) -> PowerVector {
        let twice_axis = Angle::from_degrees(2.0 * f64::from(self.axis.unwrap_or(180)));
        let half = -self.cylinder / 2.0;
        PowerVector {
            refraction: *self,
            mean_sphere: self.mean_sphere(),
            j0: half * twice_axis.cosine(),
            j45: half * twice_axis.sine(),
        }
    }

    /// Power in the meridian at this angle, `S + C · sin²(θ − α)`.
    ///
    /// Along the axis it is the sphere, at right angles to it sphere and cylinder.
    ///
    /// ```
    /// use arcminute_core::{refraction::Refraction, unit::{Angle, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// // Thirty degrees from the axis: 2 - 1.5 * 0.25 (computed).
    /// let oblique = Refraction::of(d(2.0), d(-1.5), Some(60))?.power_along(Angle::from_degrees(30.0));
    /// assert!((oblique - d(1.625)).abs() < d(1e-12));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn power_along(&self, meridian: Angle) -> Vergence {
        let axis = Angle::from_degrees(f64::from(self.axis.unwrap_or(180)));
        let sine = (meridian - axis).sine();
        self.sphere + self.cylinder * (sine * sine)
    }

    /// The power of the stronger of the two principal meridians, which lens tolerances go by.
    ///
    /// ```
    /// use arcminute_core::{refraction::Refraction, unit::Vergence};
    /// let d = Vergence::from_dioptres;
    /// assert_eq!(Refraction::of(d(-2.0), d(-1.5), Some(90))?.strongest_meridian(), d(-3.5));
    /// assert_eq!(Refraction::of(d(2.0), d(-1.5), Some(90))?.strongest_meridian(), d(2.0));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn strongest_meridian(&self) -> Vergence {
        let other = self.sphere + self.cylinder;
        if math::abs(other.dioptres()) > math::abs(self.sphere.dioptres()) { other } else { self.sphere }
    }
}

#[cfg(feature = "alloc")]
impl Explain for PowerVector {
    fn steps(&self) -> Vec<Step> {
        let dioptres = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let sphere = dioptres("S", self.refraction.sphere);
        let cylinder = dioptres("C", self.refraction.cylinder);
        let mean = dioptres("M", self.mean_sphere);
        let mut steps = vec![Step::formula(&formula::MEAN_SPHERE, mean, [sphere, cylinder])];
        if let Some(axis) = self.refraction.axis {
            let axis = Named::new("axis", f64::from(axis), Unit::Degree);
            steps.push(Step::formula(&formula::POWER_VECTOR_J0, dioptres("J0", self.j0), [cylinder, axis]));
            steps.push(Step::formula(
                &formula::POWER_VECTOR_J45,
                dioptres("J45", self.j45),
                [cylinder, axis],
            ));
        }
        steps
    }
}
