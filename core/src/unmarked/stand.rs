//! A stand magnifier, from the height of its lens and the vergence that comes out.

use super::{measured, no_solution, spread};
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A stand magnifier as measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandMeasured {
    /// Page to lens.
    pub height: Length,
    /// Vergence of the light that leaves the lens; negative where it diverges.
    pub emergent: Vergence,
    /// Power of the lens.
    pub power: Vergence,
    /// Enlargement ratio: image height over object height; a pure ratio.
    pub enlargement_ratio: f64,
    /// Image to lens, on the page's side; `None` for an image far away.
    pub image_to_lens: Option<Length>,
    /// Least and greatest power with the height misread by half a millimetre; `None` where no height is left.
    pub misread_power: Option<(Vergence, Vergence)>,
    /// Least and greatest enlargement ratio likewise, for the lens whose vergence was measured: `1/(−L'·u)`.
    pub misread_ratio: Option<(f64, f64)>,
}

/// Power and enlargement of a stand magnifier from its height and its emergent vergence.
///
/// `F = 1/u + L'`, `v = −1/L'`, `ER = v/u`. The vergence is found with trial lenses against a far target or with a
/// telescope; methods named in teaching notes.
///
/// * `emergent`: zero for parallel light, negative for diverging light.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for a height that is not possible; [`crate::Why::NoSolution`] for light that converges
/// (the page would lie beyond the focus) or when no plus power is left.
///
/// ```
/// use arcminute_core::{unmarked::by_stand_height, unit::{Length, Vergence}};
/// // 33.33 mm high, light leaves with −10 D: 20 D and three times as large (computed).
/// let stand = by_stand_height(Length::from_mm(100.0 / 3.0), Vergence::from_dioptres(-10.0))?;
/// assert!((stand.power.dioptres() - 20.0).abs() < 1e-9);
/// assert!((stand.enlargement_ratio - 3.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn by_stand_height(height: Length, emergent: Vergence) -> Result<StandMeasured, Error> {
    let u = measured(height)?;
    let leaving = emergent.dioptres();
    let power = |[u]: [f64; 1]| 1.0 / u + leaving;
    if !(leaving <= 0.0 && 0.0 < power([u])) {
        return Err(no_solution(
            "emergent vergence",
            format_args!("{leaving} D"),
            "a stand magnifier of plus power sends out diverging light",
        ));
    }
    let d = Vergence::from_dioptres;
    let ratio = |[u]: [f64; 1]| 1.0 / (-leaving * u);
    Ok(StandMeasured {
        height,
        emergent,
        power: d(power([u])),
        enlargement_ratio: ratio([u]),
        image_to_lens: (leaving < 0.0).then(|| Length::from_m(-1.0 / leaving)),
        misread_power: spread([u], power).map(|(least, most)| (d(least), d(most))),
        misread_ratio: spread([u], ratio),
    })
}

#[cfg(feature = "alloc")]
impl Explain for StandMeasured {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let u = Named::new("u", self.height.mm(), Unit::Millimetre);
        let leaving = dioptre("L'", self.emergent);
        let mut steps =
            alloc::vec![Step::formula(&formula::POWER_FROM_STAND, dioptre("F", self.power), [u, leaving])];
        if let Some(image) = self.image_to_lens {
            let v = Named::new("v", image.mm(), Unit::Millimetre);
            let ratio = Named::new("ER", self.enlargement_ratio, Unit::Times);
            steps.push(Step::formula(&formula::IMAGE_FROM_VERGENCE, v, [leaving]));
            steps.push(Step::formula(&formula::ENLARGEMENT_FROM_PLACES, ratio, [v, u]));
        }
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn stand(height: f64, emergent: f64) -> Result<StandMeasured, Error> {
        by_stand_height(Length::from_mm(height), Vergence::from_dioptres(emergent))
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for (height, emergent) in [(33.3, -10.0), (40.0, -5.0), (50.0, 0.0)] {
            for step in stand(height, emergent)?.steps() {
                assert_eq!(step.check(), Ok(()), "{height} mm {emergent} D");
            }
        }
        let parallel = stand(50.0, 0.0)?;
        assert_eq!((parallel.image_to_lens, parallel.misread_ratio), (None, None), "no image to compare");
        assert_eq!(parallel.steps().len(), 1, "the power alone");
        // Light that diverges by 10 D comes from 1/10 m.
        let diverging = stand(33.3, -10.0)?;
        let image = diverging.image_to_lens.expect("an image on the side of the page");
        assert!((image.mm() - 100.0).abs() < 1e-9, "{image:?}");
        assert_eq!(diverging.steps().len(), 3, "power, image, enlargement");
        Ok(())
    }

    #[test]
    fn half_a_millimetre_is_half_a_dioptre_at_20() -> Result<(), Error> {
        let measured = stand(33.0, -10.0)?;
        let (least, most) = measured.misread_power.expect("a height is left");
        // 1/33.5 mm and 1/32.5 mm, less 10 D, by hand.
        assert!((least.dioptres() - 19.850_7).abs() < 1e-4, "{least:?}");
        assert!((most.dioptres() - 20.769_2).abs() < 1e-4, "{most:?}");
        let (least, most) = measured.misread_ratio.expect("a height is left");
        assert!((least - 2.985_1).abs() < 1e-4 && (most - 3.076_9).abs() < 1e-4, "{least} {most}");
        Ok(())
    }

    #[test]
    fn what_is_no_stand_magnifier_is_refused() {
        for (height, emergent) in [(33.0, 1.0), (50.0, -20.0)] {
            let error = stand(height, emergent).expect_err("not one");
            assert!(
                error.to_string().ends_with("a stand magnifier of plus power sends out diverging light"),
                "{error}"
            );
        }
        assert!(stand(50.0, -19.9).is_ok(), "a tenth of a dioptre is left");
    }
}
