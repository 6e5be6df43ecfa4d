//! Where a prism puts the image, and how that depends on the way light meets it.
//!
//! A prism is rated for one incidence. Light that arrives otherwise is turned by another angle, and beyond one incidence
//! not at all.

use super::real_ray::{RayLost, RealRay, Shape, Surface, trace_real};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{Angle, Length, Prism};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Sideways shift of the image of a thing at `distance`: `P·x/100`; the angle is [`Prism::deviation`].
///
/// Source: definition; 40 prism dioptres are about 22 degrees in [`crate::source::APFELBAUM_2013`].
///
/// ```
/// use arcminute_core::{optics::prism_displacement, unit::{Length, Prism}};
/// let shift = prism_displacement(Prism::from_prism_dioptres(40.0), Length::from_m(2.0));
/// assert!((shift.m() - 0.80).abs() < 1e-12);
/// ```
#[must_use]
pub fn prism_displacement(prism: Prism, distance: Length) -> Length {
    distance * (prism.prism_dioptres() / 100.0)
}

/// A prism with two flat faces, in air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlatPrism {
    /// Angle between the faces.
    pub apex: Angle,
    /// Refractive index, above 1; a pure ratio.
    pub index: f64,
    /// Rating: the deviation of light that meets the first face at right angles.
    pub rated: Prism,
}

/// How a flat prism turns light of one incidence.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrismAtIncidence {
    /// The prism.
    pub prism: FlatPrism,
    /// Between the light and the normal of the first face; positive when it comes from the base side of the normal.
    pub incidence: Angle,
    /// Refracted, inside the first face.
    pub inside: Angle,
    /// On the second face, from inside.
    pub second_incidence: Angle,
    /// Leaving the second face, from its normal.
    pub leaving: Angle,
    /// Deviation, towards the base.
    pub deviation: Angle,
    /// The deviation in prism dioptres, to be held against the rating.
    pub power: Prism,
}

impl FlatPrism {
    /// The flat prism of this index that has this rating for light at right angles to its first face.
    ///
    /// `tan a = sin δ/(n − cos δ)`. Source: Snell's law.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for an impossible rating or index; [`Why::NoSolution`] when no flat prism of this index turns
    /// light so far.
    ///
    /// ```
    /// use arcminute_core::{optics::FlatPrism, unit::Prism};
    /// let prism = FlatPrism::rated(Prism::from_prism_dioptres(40.0), 1.49)?;
    /// assert!((prism.apex.degrees() - 33.5).abs() < 0.05); // computed
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn rated(rated: Prism, index: f64) -> Result<Self, Error> {
        bounds::PRISM.check(rated.prism_dioptres())?;
        bounds::INDEX.check(index)?;
        let deviation = rated.deviation();
        let apex = Angle::from_radians(math::atan2(deviation.sine(), index - deviation.cosine()));
        // At 90 degrees the light would leave along the second face.
        if (apex + deviation).degrees() < 90.0 {
            return Ok(Self { apex, index, rated });
        }
        let why = Why::NoSolution { because: "no flat prism of this index turns light so far" };
        Err(Error::about("prism", format_args!("{} prism dioptres", rated.prism_dioptres()), why))
    }

    /// How it turns light that meets its first face with this incidence, positive from the base side of the normal.
    ///
    /// * Domain: in the plane across the edge, exact.
    /// * Source: Snell's law ([`trace_real`]); that the rating is not constant: [`crate::source::JUNG_PELI_2014`].
    ///
    /// # Errors
    /// [`RayLost::TotalReflection`] when the light does not leave the second face.
    ///
    /// ```
    /// use arcminute_core::{optics::FlatPrism, unit::{Angle, Prism}};
    /// let prism = FlatPrism::rated(Prism::from_prism_dioptres(40.0), 1.49)?;
    /// // Light from 10 degrees on the side of the apex is turned by 58.9 prism dioptres (computed).
    /// let turned = prism.at_incidence(Angle::from_degrees(-10.0)).expect("it comes out");
    /// assert!((turned.power.prism_dioptres() - 58.9).abs() < 0.05);
    /// assert!(prism.at_incidence(Angle::from_degrees(-14.0)).is_err());
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn at_incidence(&self, incidence: Angle) -> Result<PrismAtIncidence, RayLost> {
        // Apex upward: the second face leans back as it goes up, and light from the base side runs upward.
        let face = |at, tilt, index_behind| Surface {
            at: Length::from_mm(at),
            shape: Shape::Plane { tilt },
            index_behind,
        };
        let arriving = RealRay { along: Length::ZERO, height: Length::ZERO, direction: incidence };
        let within = trace_real(arriving, 1.0, &[face(0.0, Angle::ZERO, self.index)])?;
        let out = trace_real(within, self.index, &[face(10.0, self.apex, 1.0)])?;
        let deviation = incidence - out.direction;
        Ok(PrismAtIncidence {
            prism: *self,
            incidence,
            inside: within.direction,
            second_incidence: self.apex - within.direction,
            leaving: self.apex - out.direction,
            deviation,
            power: Prism::of_deviation(deviation),
        })
    }

    /// Incidence of the light that is turned least: the path is symmetrical, `asin(n·sin(a/2))`.
    ///
    /// ```
    /// use arcminute_core::{optics::FlatPrism, unit::Prism};
    /// let prism = FlatPrism::rated(Prism::from_prism_dioptres(40.0), 1.49)?;
    /// let least = prism.at_incidence(prism.incidence_of_least_deviation()).expect("it comes out");
    /// assert!((least.leaving - least.incidence).abs().degrees() < 1e-9);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn incidence_of_least_deviation(&self) -> Angle {
        Angle::from_radians(math::asin(self.index * (self.apex / 2.0).sine()))
    }

    /// Incidence below which light is reflected inside, `asin(n·sin(a − asin(1/n)))`; −90 degrees for a plate.
    ///
    /// ```
    /// use arcminute_core::{optics::FlatPrism, unit::Prism};
    /// let prism = FlatPrism::rated(Prism::from_prism_dioptres(40.0), 1.49)?;
    /// assert!((prism.least_incidence().degrees() + 13.0).abs() < 0.05); // computed
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn least_incidence(&self) -> Angle {
        let critical = Angle::from_radians(math::asin(1.0 / self.index));
        // Of a plate the product is −1 but for rounding.
        Angle::from_radians(math::asin((self.index * (self.apex - critical).sine()).max(-1.0)))
    }
}

#[cfg(feature = "alloc")]
impl Explain for PrismAtIncidence {
    fn steps(&self) -> Vec<Step> {
        let degrees = |symbol, angle: Angle| Named::new(symbol, angle.degrees(), Unit::Degree);
        let index = Named::new("n", self.prism.index, Unit::Plain);
        let (apex, incidence) = (degrees("a", self.prism.apex), degrees("i", self.incidence));
        let (inside, second) = (degrees("r", self.inside), degrees("r_2", self.second_incidence));
        let (leaving, deviation) = (degrees("e", self.leaving), degrees("dev", self.deviation));
        let prism = |symbol, value: Prism| Named::new(symbol, value.prism_dioptres(), Unit::PrismDioptre);
        let rated_deviation = degrees("dev_0", self.prism.rated.deviation());
        alloc::vec![
            Step::formula(&formula::PRISM_DEVIATION, rated_deviation, [prism("P_0", self.prism.rated)]),
            Step::formula(&formula::PRISM_APEX, apex, [rated_deviation, index]),
            Step::formula(&formula::PRISM_INSIDE, inside, [incidence, index]),
            Step::formula(&formula::PRISM_SECOND_FACE, second, [apex, inside]),
            Step::formula(&formula::PRISM_LEAVING, leaving, [second, index]),
            Step::formula(&formula::PRISM_TURN, deviation, [incidence, leaving, apex]),
            Step::formula(&formula::PRISM_POWER, prism("P", self.power), [deviation]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn rated(prism: f64, index: f64) -> Result<FlatPrism, Error> {
        FlatPrism::rated(Prism::from_prism_dioptres(prism), index)
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for (power, index) in [(1.0, 1.49), (20.0, 1.586), (40.0, 1.49), (57.0, 1.67)] {
            for degrees in [-60.0, -12.0, 0.0, 3.0, 20.0, 70.0] {
                let Ok(turned) = rated(power, index)?.at_incidence(Angle::from_degrees(degrees)) else {
                    continue;
                };
                assert_eq!(turned.steps().len(), 7);
                for step in turned.steps() {
                    assert_eq!(step.check(), Ok(()), "{turned:?}");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_no_prism_does_is_told() {
        let error = rated(90.0, 1.3).expect_err("1.3 is too little for 42 degrees");
        let told =
            "prism `90 prism dioptres` has no solution: no flat prism of this index turns light so far";
        assert_eq!(error.to_string(), told);
        assert_eq!(error.hint().to_string(), "change one of the values it depends on");
        let error = rated(-1.0, 1.5).expect_err("below");
        assert_eq!(error.to_string(), "prism `-1 prism dioptres` is not possible");
        assert_eq!(error.hint().to_string(), "use 0 to 100 prism dioptres");
        assert!(rated(f64::NAN, 1.5).is_err() && rated(10.0, f64::NAN).is_err(), "no numbers");
        assert!(rated(40.0, 1.0).is_err(), "air is no prism");
        // The index is the root of two: apex and deviation of 45 degrees each.
        assert!(rated(100.0, core::f64::consts::SQRT_2).is_err(), "along the second face");
        assert!(rated(100.0, 1.415).is_ok(), "a little more index");
        assert_eq!(rated(0.0, 1.5).map(|plate| plate.apex), Ok(Angle::ZERO), "no prism is a plate");
    }

    #[test]
    fn light_is_lost_below_the_least_incidence() -> Result<(), Error> {
        for (power, index) in [(40.0, 1.49), (57.0, 1.586)] {
            let prism = rated(power, index)?;
            let least = prism.least_incidence();
            let near = Angle::from_degrees(0.001);
            assert_eq!(prism.at_incidence(least - near).err(), Some(RayLost::TotalReflection), "{prism:?}");
            assert_eq!(prism.at_incidence(least + near).err(), None, "{prism:?}");
        }
        for index in [1.3, 1.49, 1.586, 1.67, 1.74] {
            let plate = rated(0.0, index)?.least_incidence();
            assert!((plate.degrees() + 90.0).abs() < 1e-5, "a plate of {index} lets all through: {plate:?}");
        }
        Ok(())
    }
}
