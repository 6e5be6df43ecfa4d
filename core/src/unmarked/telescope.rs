//! A telescope's power from its objective and its exit pupil.

use super::{measured, no_solution, spread};
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::Telescope;
use crate::unit::{Length, Magnification};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A power from two diameters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExitPupilPower {
    /// Clear diameter of the objective, or of a strip of known width laid on it.
    pub objective: Length,
    /// Its image seen in the eyepiece, measured.
    pub exit_pupil: Length,
    /// The power, without sign.
    pub power: Magnification,
    /// Least and greatest power with both diameters misread by half a millimetre; `None` where no power is left.
    pub misread: Option<(Magnification, Magnification)>,
}

/// The power of a telescope that is set for far: objective over exit pupil.
///
/// * Holds in afocal setting only, and for a near object with parallel light leaving. Refocused for an ametropic eye
///   the reading is wrong: see [`exit_pupil_reading`].
/// * A strip laid on the objective is safer than its rim, which may not be what limits the light.
/// * Source: Smith, chapter 13.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for diameters that are not possible.
///
/// ```
/// use arcminute_core::{unmarked::by_exit_pupil, unit::Length};
/// // 12 mm and 3 mm: 4x (computed); half a millimetre misread makes it anything from 3.3x to 5x.
/// let power = by_exit_pupil(Length::from_mm(12.0), Length::from_mm(3.0))?;
/// assert!((power.power.times() - 4.0).abs() < 1e-12);
/// let (least, most) = power.misread.expect("a power is left");
/// assert!((least.times() - 3.286).abs() < 5e-4 && (most.times() - 5.0).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn by_exit_pupil(objective: Length, exit_pupil: Length) -> Result<ExitPupilPower, Error> {
    let (across, image) = (measured(objective)?, measured(exit_pupil)?);
    let times = Magnification::from_times;
    Ok(ExitPupilPower {
        objective,
        exit_pupil,
        power: times(across / image),
        misread: spread([across, image], |[across, image]| across / image)
            .map(|(least, most)| (times(least), times(most))),
    })
}

#[cfg(feature = "alloc")]
impl Explain for ExitPupilPower {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::POWER_FROM_EXIT_PUPIL,
            Named::new("M", self.power.times(), Unit::Times),
            [
                Named::new("D_o", self.objective.mm(), Unit::Millimetre),
                Named::new("E", self.exit_pupil.mm(), Unit::Millimetre),
            ],
        )]
    }
}

/// What objective over exit pupil reads on a telescope whose tube has this length: right only while it is afocal.
///
/// The image of the objective that the eyepiece forms is `1/(1 − d'·F_e)` times its size. A 5x Galilean (+10/−50 D) set
/// for a myope of 10 D reads 4.75 though its power is 4.00; a 5x Keplerian reads 4.83 and is 6.00 (computed). Without
/// sign.
///
/// # Errors
/// [`crate::Why::NoSolution`] when the objective lies in the eyepiece's front focus: there is no exit pupil.
///
/// ```
/// use arcminute_core::{optics::{Sight, Telescope}, unmarked::exit_pupil_reading, unit::{Length, Vergence}};
/// let d = Vergence::from_dioptres;
/// let galilean = Telescope::from_lenses(d(10.0), d(-50.0), Length::from_mm(30.0))?;
/// let set = galilean.focused(Sight::Far, d(-10.0))?;
/// assert!((exit_pupil_reading(&galilean, set.length)?.times() - 4.75).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn exit_pupil_reading(telescope: &Telescope, tube: Length) -> Result<Magnification, Error> {
    let matrix = crate::optics::RayMatrix::gap(tube).then(crate::optics::RayMatrix::lens(telescope.eyepiece));
    // Behind the last lens the image of the objective is where its rays meet again; D is the object's size over it.
    let reading = crate::math::abs(matrix.d);
    if !(1e-9 < reading && reading.is_finite()) {
        return Err(no_solution(
            "tube length",
            format_args!("{} mm", tube.mm()),
            "the eyepiece forms no image of the objective",
        ));
    }
    Ok(Magnification::from_times(reading))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::optics::Sight;
    use crate::unit::Vergence;
    use alloc::string::ToString;

    fn mm(length: f64) -> Length {
        Length::from_mm(length)
    }

    #[test]
    fn working_agrees_and_a_misread_small_pupil_leaves_no_power() -> Result<(), Error> {
        for (objective, exit_pupil) in [(12.0, 3.0), (25.0, 10.0), (30.0, 2.0)] {
            for step in by_exit_pupil(mm(objective), mm(exit_pupil))?.steps() {
                assert_eq!(step.check(), Ok(()), "{objective} mm {exit_pupil} mm");
            }
        }
        assert_eq!(by_exit_pupil(mm(8.0), mm(0.5))?.misread, None, "it may be nothing");
        assert_eq!(by_exit_pupil(mm(0.5), mm(3.0))?.misread, None, "nor may the strip be nothing");
        let error = by_exit_pupil(mm(0.0), mm(3.0)).expect_err("no objective");
        assert_eq!(error.to_string(), "measured length `0 mm` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.1 to 2000 mm");
        Ok(())
    }

    /// Source: exact paraxial, computed: the afocal caveat.
    #[test]
    fn a_refocused_tube_misleads() -> Result<(), Error> {
        let d = Vergence::from_dioptres;
        for (eyepiece, reads, is) in [(-50.0, 4.75, 4.0), (50.0, 4.83, 6.0)] {
            let telescope = Telescope::from_lenses(d(10.0), d(eyepiece), mm(30.0))?;
            let set = telescope.focused(Sight::Far, d(-10.0))?;
            assert!((exit_pupil_reading(&telescope, set.length)?.times() - reads).abs() < 0.005, "{reads}");
            assert!((set.magnification.size() - is).abs() < 1e-9, "{is}");
            let afocal = telescope.afocal();
            let reading = exit_pupil_reading(&telescope, afocal.length)?;
            assert!((reading.times() - afocal.magnification.size()).abs() < 1e-9, "right while afocal");
        }
        let telescope = Telescope::from_lenses(d(10.0), d(50.0), mm(30.0))?;
        assert_eq!(
            exit_pupil_reading(&telescope, mm(20.0)).expect_err("in its focus").to_string(),
            "tube length `20 mm` has no solution: the eyepiece forms no image of the objective"
        );
        Ok(())
    }
}
