//! Light lost at the surfaces of lenses.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::source::{self, Source};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What is left behind a number of surfaces between air and glass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surfaces {
    /// Index of the glass, if the loss was worked out from it.
    pub index: Option<f64>,
    /// Share of the light that each surface sends back.
    pub reflection: f64,
    /// Surfaces between air and glass; a lens has two.
    pub surfaces: u8,
    /// Share that gets through all of them, nothing taken up by the glass.
    pub transmittance: f64,
}

fn behind(index: Option<f64>, reflection: f64, surfaces: u8) -> Surfaces {
    let transmittance = math::pow(1.0 - reflection, f64::from(surfaces));
    Surfaces { index, reflection, surfaces, transmittance }
}

/// What uncoated surfaces let through: `(1 − R)^N` with `R = ((n − 1)/(n + 1))²`.
///
/// * Domain: light at right angles; light that is sent back twice is left out, as is what the glass takes up.
/// * Source: [`source::FRESNEL`].
///
/// ```
/// use arcminute_core::light::filter::uncoated;
/// // One lens of index 1.5 sends back 4.0 % at each side: 0.922 is left, computed by hand.
/// assert!((uncoated(1.5, 2)?.transmittance - 0.922).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible index.
pub fn uncoated(index: f64, surfaces: u8) -> Result<Surfaces, Error> {
    let n = bounds::INDEX.check(index)?;
    let amplitude = (n - 1.0) / (n + 1.0);
    Ok(behind(Some(index), amplitude * amplitude, surfaces))
}

/// What surfaces of a known loss let through: `(1 − R)^N`.
///
/// * `reflection`: share that each surface sends back, 0 to 1; as measured, or of [`COATINGS`].
/// * Source: definition.
///
/// ```
/// use arcminute_core::light::filter::coated;
/// // Four surfaces of 1.5 %: 0.941, computed by hand.
/// assert!((coated(0.015, 4)?.transmittance - 0.941).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`crate::Why::OutOfRange`] for what is no share.
pub fn coated(reflection: f64, surfaces: u8) -> Result<Surfaces, Error> {
    bounds::REFLECTANCE.check(reflection)?;
    Ok(behind(None, reflection, surfaces))
}

#[cfg(feature = "alloc")]
impl Explain for Surfaces {
    fn steps(&self) -> Vec<Step> {
        let plain = |symbol, value| Named::new(symbol, value, Unit::Plain);
        let reflection = plain("R", self.reflection);
        let mut steps = Vec::new();
        if let Some(index) = self.index {
            steps.push(Step::formula(&formula::SURFACE_REFLECTION, reflection, [plain("n", index)]));
        }
        steps.push(Step::formula(
            &formula::SURFACES_TRANSMITTANCE,
            plain("T", self.transmittance),
            [reflection, plain("N", f64::from(self.surfaces))],
        ));
        steps
    }
}

/// What a coated surface sends back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coating {
    /// The coating.
    pub name: &'static str,
    /// Share that a surface sends back.
    pub reflection: f64,
    /// How well that is known.
    pub source: &'static Source,
}

/// Typical coatings. No measured transmittance of a telescope for low vision is published: ask for it, or measure it.
pub static COATINGS: &[Coating] = &[
    Coating { name: "one layer", reflection: 0.015, source: &source::COATED_SURFACES },
    Coating { name: "several layers", reflection: 0.005, source: &source::COATED_SURFACES },
];

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn no_surface_takes_nothing_and_many_take_more() -> Result<(), Error> {
        assert_eq!(uncoated(1.5, 0)?.transmittance, 1.0);
        assert_eq!(uncoated(1.0, 12)?.transmittance, 1.0, "air in air");
        assert_eq!(coated(1.0, 1)?.transmittance, 0.0, "a mirror");
        assert!((uncoated(1.5, 1)?.reflection - 0.04).abs() < 1e-15);
        for surfaces in 0..=20 {
            let found = uncoated(1.67, surfaces)?;
            assert_eq!((found.index, found.surfaces), (Some(1.67), surfaces));
            assert!(uncoated(1.67, surfaces + 1)?.transmittance < found.transmittance);
            assert_eq!(found.steps().len(), 2);
            let known = coated(found.reflection, surfaces)?;
            assert_eq!((known.index, known.transmittance), (None, found.transmittance));
            assert_eq!(known.steps().len(), 1);
            for step in found.steps().into_iter().chain(known.steps()) {
                assert_eq!(step.check(), Ok(()));
            }
        }
        Ok(())
    }

    #[test]
    fn what_is_no_surface_is_refused() {
        let index = uncoated(0.9, 2).expect_err("below air");
        assert_eq!(index.to_string(), "refractive index `0.9` is not possible");
        assert!(uncoated(f64::NAN, 2).is_err() && coated(f64::NAN, 2).is_err());
        assert_eq!(coated(1.01, 2).expect_err("above one").to_string(), "reflectance `1.01` is not possible");
        for coating in COATINGS {
            assert!(
                coated(coating.reflection, 4).is_ok_and(|found| found.transmittance > 0.9),
                "{}",
                coating.name
            );
        }
    }
}
