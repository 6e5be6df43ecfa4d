//! From a lamp to the light that comes from a page.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math::PI;
use crate::unit::{Angle, Illuminance, Length, Luminance, LuminousIntensity};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// How many times its own width a lamp has to be away to count as small; nearer, the rule gives too much light.
const SMALL: f64 = 5.0;
/// Eye to page below which the head is in the way of light from above.
const HEAD_SHADES_CM: f64 = 10.0;

/// Light of one small lamp on a page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FromLamp {
    /// Light the lamp sends towards the page.
    pub intensity: LuminousIntensity,
    /// Lamp to page.
    pub lamp_to_page: Length,
    /// Between the light and a line at right angles to the page.
    pub incidence: Angle,
    /// Widest measure of what shines.
    pub lamp_size: Length,
    /// Light on the page, other lamps not counted.
    pub illuminance: Illuminance,
    /// Least distance at which the rule holds: five times the lamp's size.
    pub rule_holds_from: Length,
    /// Whether the lamp is that far; nearer, the page gets less light than is said here.
    pub rule_holds: bool,
}

/// The light of one lamp on a page: `E = I·cos θ/d²`.
///
/// * `lamp_to_page`: lamp to the place on the page.
/// * `incidence`: 0 for light at right angles to the page, to 90 degrees for light along it.
/// * `lamp_size`: widest measure of what shines, zero for a point; the rule holds beyond five times it.
/// * Source: definitions of intensity and illuminance; the five times is common practice, no source.
///
/// ```
/// use arcminute_core::light::from_lamp;
/// use arcminute_core::unit::{Angle, Length, LuminousIntensity};
/// // 500 cd at half a metre and 60 degrees: 1000 lx, computed by hand.
/// let lamp = LuminousIntensity::from_candela(500.0);
/// let lit = from_lamp(lamp, Length::from_m(0.5), Angle::from_degrees(60.0), Length::from_cm(5.0))?;
/// assert!((lit.illuminance.lux() - 1000.0).abs() < 1e-9);
/// assert!(lit.rule_holds);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible lamp, distance or angle.
pub fn from_lamp(
    intensity: LuminousIntensity,
    lamp_to_page: Length,
    incidence: Angle,
    lamp_size: Length,
) -> Result<FromLamp, Error> {
    bounds::LAMP_INTENSITY.check(intensity.candela())?;
    let distance = bounds::LAMP_DISTANCE.check(lamp_to_page.m())?;
    bounds::INCIDENCE.check(incidence.degrees())?;
    bounds::LAMP_SIZE.check(lamp_size.cm())?;
    let illuminance = Illuminance::from_lux(intensity.candela() * incidence.cosine() / (distance * distance));
    let rule_holds_from = lamp_size * SMALL;
    Ok(FromLamp {
        intensity,
        lamp_to_page,
        incidence,
        lamp_size,
        illuminance,
        rule_holds_from,
        rule_holds: rule_holds_from < lamp_to_page,
    })
}

#[cfg(feature = "alloc")]
impl Explain for FromLamp {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::ILLUMINANCE,
            Named::new("E", self.illuminance.lux(), Unit::Lux),
            [
                Named::new("I", self.intensity.candela(), Unit::Candela),
                Named::new("theta", self.incidence.degrees(), Unit::Degree),
                Named::new("d", self.lamp_to_page.m(), Unit::Metre),
            ],
        )]
    }
}

/// Light that comes from a matt page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PageLight {
    /// Light on the page.
    pub illuminance: Illuminance,
    /// Share that the paper sends back.
    pub reflectance: f64,
    /// Light that comes from it, from wherever it is looked at.
    pub luminance: Luminance,
}

/// The luminance of a matt page: `L = ρE/π`.
///
/// * `reflectance`: share that the paper sends back, 0 to 1; white paper about 0.8.
/// * Domain: matt surfaces; gloss adds mirror images, which are glare.
/// * Source: definition of a surface that sends light alike in all directions.
///
/// ```
/// use arcminute_core::{light::page_light, unit::Illuminance};
/// // 500 lx on paper of 0.8: 127.3 cd/m², computed by hand.
/// assert!((page_light(Illuminance::from_lux(500.0), 0.8)?.luminance.candela_per_m2() - 127.3).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible illuminance or reflectance.
pub fn page_light(illuminance: Illuminance, reflectance: f64) -> Result<PageLight, Error> {
    let lux = bounds::ILLUMINANCE.check(illuminance.lux())?;
    bounds::REFLECTANCE.check(reflectance)?;
    Ok(PageLight {
        illuminance,
        reflectance,
        luminance: Luminance::from_candela_per_m2(reflectance * lux / PI),
    })
}

#[cfg(feature = "alloc")]
impl Explain for PageLight {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::PAGE_LUMINANCE,
            Named::new("L", self.luminance.candela_per_m2(), Unit::CandelaPerSquareMetre),
            [
                Named::new("rho", self.reflectance, Unit::Plain),
                Named::new("E", self.illuminance.lux(), Unit::Lux),
            ],
        )]
    }
}

/// Whether the reader's own head is in the way of light from above: below about 10 cm from eye to page. The lamp has to
/// come from the side of the better eye then, or from below the brow.
///
/// Source: [`crate::source::COMMON_PRACTICE`].
///
/// ```
/// use arcminute_core::{light::head_shades, unit::Length};
/// assert!(head_shades(Length::from_cm(8.0)));
/// assert!(!head_shades(Length::from_cm(25.0)));
/// ```
#[must_use]
pub fn head_shades(eye_to_page: Length) -> bool {
    eye_to_page < Length::from_cm(HEAD_SHADES_CM)
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn lit(candela: f64, metres: f64, degrees: f64, size_cm: f64) -> Result<FromLamp, Error> {
        from_lamp(
            LuminousIntensity::from_candela(candela),
            Length::from_m(metres),
            Angle::from_degrees(degrees),
            Length::from_cm(size_cm),
        )
    }

    #[test]
    fn a_wide_lamp_has_to_be_farther() -> Result<(), Error> {
        for (size, metres, holds) in
            [(0.0, 0.05, true), (5.0, 0.25, false), (5.0, 0.26, true), (10.0, 0.4, false)]
        {
            let found = lit(300.0, metres, 0.0, size)?;
            assert_eq!(found.rule_holds, holds, "{size} cm at {metres} m");
            assert!((found.rule_holds_from.cm() - 5.0 * size).abs() < 1e-12);
            assert!((found.illuminance.lux() - 300.0 / (metres * metres)).abs() < 1e-9);
        }
        Ok(())
    }

    #[test]
    fn what_lights_nothing_is_refused() -> Result<(), Error> {
        for (found, message, hint) in [
            (lit(-1.0, 1.0, 0.0, 1.0), "lamp intensity `-1 cd` is not possible", "use 0 to 1000000 cd"),
            (lit(1.0, 0.0, 0.0, 1.0), "lamp to page `0 m` is not possible", "use 0.01 to 100 m"),
            (
                lit(1.0, 1.0, 91.0, 1.0),
                "angle of the light `91 degrees` is not possible",
                "use 0 to 90 degrees",
            ),
            (lit(1.0, 1.0, 0.0, -1.0), "lamp size `-1 cm` is not possible", "use 0 to 300 cm"),
        ] {
            let error = found.expect_err(message);
            assert_eq!(error.to_string(), message);
            assert_eq!(error.hint().to_string(), hint);
        }
        for number in [f64::NAN, f64::INFINITY] {
            assert!(lit(number, 1.0, 0.0, 1.0).is_err());
            assert!(lit(1.0, number, 0.0, 1.0).is_err());
            assert!(lit(1.0, 1.0, number, 1.0).is_err());
            assert!(lit(1.0, 1.0, 0.0, number).is_err());
            assert!(page_light(Illuminance::from_lux(number), 0.8).is_err());
            assert!(page_light(Illuminance::from_lux(100.0), number).is_err());
        }
        let more = page_light(Illuminance::from_lux(100.0), 1.1).expect_err("more than falls on it");
        assert_eq!(more.to_string(), "reflectance `1.1` is not possible");
        let negative = page_light(Illuminance::from_lux(-5.0), 0.8).expect_err("no such light");
        assert_eq!(negative.to_string(), "illuminance `-5 lx` is not possible");
        assert_eq!(negative.hint().to_string(), "use 0 to 200000 lx");
        assert!(lit(1.0, 1.0, 90.0, 1.0)?.illuminance.lux() < 1e-12, "light along the page");
        Ok(())
    }

    #[test]
    fn the_head_is_in_the_way_below_ten_centimetres() {
        assert!(head_shades(Length::from_mm(99.9)) && !head_shades(Length::from_cm(10.0)));
    }
}
