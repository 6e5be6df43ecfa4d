//! The pupil in steady light, and the light that it lets on to the retina.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{Age, Angle, Length, Luminance, RetinalIlluminance, SquareDegrees};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Age to which the formula without age belongs, years.
const REFERENCE_AGE: f64 = 28.58;
/// Ages that the formula was made from, years.
const AGES: (f64, f64) = (20.0, 83.0);

/// How many eyes the light falls into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Eyes {
    /// One; the other is covered or blind to light, and the pupil is wider.
    One,
    /// Both.
    Two,
}

impl Eyes {
    /// What the light counts, a pure ratio: 0.1 for one eye, 1 for two ([`crate::source::WATSON_YELLOTT_2012`]).
    ///
    /// ```
    /// use arcminute_core::light::Eyes;
    /// // One eye covered counts as a tenth of the light: Watson & Yellott 2012.
    /// assert_eq!((Eyes::One.factor(), Eyes::Two.factor()), (0.1, 1.0));
    /// ```
    #[must_use]
    pub fn factor(self) -> f64 {
        match self {
            Self::One => 0.1,
            Self::Two => 1.0,
        }
    }
}

/// Area of a round field: `a = π·(diameter/2)²`, in square degrees.
///
/// ```
/// use arcminute_core::{light::field_area, unit::Angle};
/// assert!((field_area(Angle::from_degrees(10.0)).square_degrees() - 78.54).abs() < 5e-3);
/// ```
#[must_use]
pub fn field_area(diameter: Angle) -> SquareDegrees {
    let radius = diameter.degrees() / 2.0;
    SquareDegrees::from_square_degrees(math::PI * radius * radius)
}

/// A pupil in steady light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pupil {
    /// Luminance of the field.
    pub luminance: Luminance,
    /// Area of the field.
    pub field: SquareDegrees,
    /// Eyes that see it.
    pub eyes: Eyes,
    /// The person's age.
    pub age: Age,
    /// The age that was reckoned with, 20 to 83 years.
    pub age_used: Age,
    /// Whether the person's age lies outside 20 to 83 years, so that the nearer of the two stood in for it.
    pub age_was_moved: bool,
    /// Luminance times area times the factor of the eyes, in cd/m² times square degrees; a size with no unit of its own.
    pub flux_density: f64,
    /// Diameter at the reference age of 28.58 years.
    pub at_reference_age: Length,
    /// Diameter at the age that was reckoned with.
    pub diameter: Length,
    /// Light of the field on the retina through it; the lower yield of the pupil's edge is not counted.
    pub on_retina: RetinalIlluminance,
}

/// The pupil of an eye that has grown used to an even, centred field.
///
/// ```text
/// F    = L·a·m                                          m = 1 for two eyes, 0.1 for one
/// D_SD = 7.75 − 5.75·(F/846)^0.41/((F/846)^0.41 + 2)    mm
/// D    = D_SD + (age − 28.58)·(0.02132 − 0.009562·D_SD) mm
/// ```
///
/// * Domain: steady state, even centred field, no focusing near and no feeling; made from ages 20 to 83 years, and an
///   age outside is moved to the nearer of them, which the record says. People of one age differ by a millimetre and
///   more; a drug or an eye disease may make any of it wrong: measure the pupil where it matters.
/// * `field`: area, so π·r² of a round field ([`field_area`]).
/// * Source: [`crate::source::WATSON_YELLOTT_2012`].
///
/// ```
/// use arcminute_core::light::{Eyes, field_area, pupil};
/// use arcminute_core::unit::{Age, Angle, Luminance};
/// // 100 cd/m², 60 degrees, 30 years, both eyes: 2.887 mm, computed by hand.
/// let field = field_area(Angle::from_degrees(60.0));
/// let light = Luminance::from_candela_per_m2(100.0);
/// let found = pupil(light, field, Age::from_years(30.0), Eyes::Two)?;
/// assert!((found.diameter.mm() - 2.887).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible luminance, field or age.
pub fn pupil(luminance: Luminance, field: SquareDegrees, age: Age, eyes: Eyes) -> Result<Pupil, Error> {
    let light = bounds::LUMINANCE.check(luminance.candela_per_m2())?;
    let area = bounds::FIELD_AREA.check(field.square_degrees())?;
    let years = bounds::AGE.check(age.years())?;
    let used = years.clamp(AGES.0, AGES.1);
    let flux_density = light * area * eyes.factor();
    let share = math::pow(flux_density / 846.0, 0.41);
    let at_reference_age = 7.75 - 5.75 * (share / (share + 2.0));
    let diameter =
        Length::from_mm(at_reference_age + (used - REFERENCE_AGE) * (0.02132 - 0.009562 * at_reference_age));
    Ok(Pupil {
        luminance,
        field,
        eyes,
        age,
        age_used: Age::from_years(used),
        age_was_moved: used < years || years < used,
        flux_density,
        at_reference_age: Length::from_mm(at_reference_age),
        diameter,
        on_retina: RetinalIlluminance::through(luminance, diameter),
    })
}

#[cfg(feature = "alloc")]
impl Explain for Pupil {
    fn steps(&self) -> Vec<Step> {
        let luminance = Named::new("L", self.luminance.candela_per_m2(), Unit::CandelaPerSquareMetre);
        let flux_density = Named::new("F", self.flux_density, Unit::Plain);
        let at_reference_age = Named::new("D_SD", self.at_reference_age.mm(), Unit::Millimetre);
        let diameter = Named::new("p", self.diameter.mm(), Unit::Millimetre);
        let age = Named::new("y", self.age_used.years(), Unit::Year);
        let on_retina = Named::new("T", self.on_retina.troland(), Unit::Troland);
        alloc::vec![
            Step::formula(
                &formula::FLUX_DENSITY,
                flux_density,
                [
                    luminance,
                    Named::new("a", self.field.square_degrees(), Unit::SquareDegree),
                    Named::new("m", self.eyes.factor(), Unit::Plain),
                ],
            ),
            Step::formula(&formula::PUPIL_AT_REFERENCE_AGE, at_reference_age, [flux_density]),
            Step::formula(&formula::PUPIL_AT_AGE, diameter, [at_reference_age, age]),
            Step::formula(&formula::RETINAL_ILLUMINANCE, on_retina, [luminance, diameter]),
        ]
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use alloc::string::ToString;

    fn at(luminance: f64, area: f64, years: f64, eyes: Eyes) -> Result<Pupil, Error> {
        pupil(
            Luminance::from_candela_per_m2(luminance),
            SquareDegrees::from_square_degrees(area),
            Age::from_years(years),
            eyes,
        )
    }

    #[test]
    fn an_age_outside_is_moved_and_says_so() -> Result<(), Error> {
        for (years, used, moved) in [
            (8.0, 20.0, true),
            (19.9, 20.0, true),
            (20.0, 20.0, false),
            (83.0, 83.0, false),
            (83.1, 83.0, true),
        ] {
            let found = at(100.0, 2827.0, years, Eyes::Two)?;
            assert_eq!((found.age_used.years(), found.age_was_moved), (used, moved), "{years}");
            assert_eq!(found.age.years(), years, "the age itself is kept");
            assert_eq!(found.diameter, at(100.0, 2827.0, used, Eyes::Two)?.diameter, "{years}");
        }
        Ok(())
    }

    #[test]
    fn without_light_the_pupil_is_at_its_widest() -> Result<(), Error> {
        let dark = at(0.0, 100.0, 30.0, Eyes::Two)?;
        assert_eq!(dark.at_reference_age.mm(), 7.75);
        assert_eq!(dark.on_retina.troland(), 0.0);
        let bright = at(1e6, 20_000.0, 83.0, Eyes::Two)?;
        assert!((2.0..2.2).contains(&bright.diameter.mm()), "{}", bright.diameter.mm());
        assert_eq!((Unit::Year.symbol(), Unit::Year.decimals()), ("years", 0), "as ages are given");
        Ok(())
    }

    #[test]
    fn impossible_fields_are_refused() {
        for (found, message, hint) in [
            (
                at(-1.0, 100.0, 30.0, Eyes::Two),
                "luminance `-1 cd/m²` is not possible",
                "use 0 to 1000000 cd/m²",
            ),
            (at(1.0, 0.0, 30.0, Eyes::Two), "field area `0 deg²` is not possible", "use 0.01 to 26000 deg²"),
            (at(1.0, 100.0, 130.0, Eyes::One), "age `130 years` is not possible", "use 0 to 120 years"),
        ] {
            let error = found.expect_err(message);
            assert_eq!(error.to_string(), message);
            assert_eq!(error.hint().to_string(), hint);
        }
        for number in [f64::NAN, f64::INFINITY] {
            assert!(at(number, 100.0, 30.0, Eyes::Two).is_err());
            assert!(at(1.0, number, 30.0, Eyes::Two).is_err());
            assert!(at(1.0, 100.0, number, Eyes::Two).is_err());
        }
    }
}
