//! Near things through a telescope that stays focused for infinity, and reading caps.

use super::{Afocal, Telescope};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, Train, view};
use crate::unit::{Length, Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Vergences of a near thing seen through a telescope focused for infinity; diverging light is negative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThroughAfocal {
    /// The telescope.
    pub afocal: Afocal,
    /// The thing, in front of the objective.
    pub distance: Length,
    /// Eyepiece to the eye's entrance pupil.
    pub eyepiece_to_eye: Length,
    /// Vergence leaving the eyepiece.
    pub at_eyepiece: Vergence,
    /// Vergence at the exit pupil: exactly M² times that of the thing.
    pub at_exit_pupil: Vergence,
    /// Vergence at the eye; an eye without ametropia has to focus by this much.
    pub at_eye: Vergence,
}

/// What a thing at `distance` asks of an eye behind a telescope that stays focused for infinity.
///
/// Source: paraxial; the M² rule holds at the exit pupil only, so it overstates the demand of a Galilean.
///
/// ```
/// use arcminute_core::optics::{Telescope, through_afocal};
/// use arcminute_core::unit::{Length, Vergence};
/// let d = Vergence::from_dioptres;
/// // A thing at 2 m through 2.5x: −0.5 D times 6.25 at the exit pupil, less at an eye 15 mm behind (computed).
/// let telescope = Telescope::from_lenses(d(20.0), d(-50.0), Length::from_mm(25.0))?;
/// let through = through_afocal(&telescope, Length::from_m(2.0), Length::from_mm(15.0));
/// assert!((through.at_exit_pupil.dioptres() + 3.125).abs() < 1e-9);
/// assert!((through.at_eye.dioptres() + 2.882).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
#[must_use]
pub fn through_afocal(telescope: &Telescope, distance: Length, eyepiece_to_eye: Length) -> ThroughAfocal {
    let afocal = telescope.afocal();
    let arriving =
        |behind: Length| -view(&telescope.afocal_train().to_eye(behind), Sight::At(distance)).focus_demand;
    ThroughAfocal {
        afocal,
        distance,
        eyepiece_to_eye,
        at_eyepiece: arriving(Length::ZERO),
        at_exit_pupil: arriving(afocal.exit_pupil_behind_eyepiece),
        at_eye: arriving(eyepiece_to_eye),
    }
}

#[cfg(feature = "alloc")]
impl Explain for ThroughAfocal {
    fn steps(&self) -> Vec<Step> {
        let x = Named::new("x", self.distance.m(), Unit::Metre);
        let u = Named::new("U", Vergence::of_object_at(self.distance).dioptres(), Unit::Dioptre);
        let m = Named::new("M", self.afocal.magnification.times(), Unit::Times);
        let d = Named::new("d", self.afocal.length.mm(), Unit::Millimetre);
        let v = Named::new("v", self.eyepiece_to_eye.mm(), Unit::Millimetre);
        let out = Named::new("U_out", self.at_eyepiece.dioptres(), Unit::Dioptre);
        let eye = Named::new("U_eye", self.at_eye.dioptres(), Unit::Dioptre);
        alloc::vec![
            Step::formula(&formula::OBJECT_VERGENCE, u, [x]),
            Step::formula(&formula::VERGENCE_OUT, out, [m, u, d]),
            Step::formula(&formula::VERGENCE_AT_EYE, eye, [m, u, d, v]),
        ]
    }
}

/// A telescope focused for infinity with a cap on the objective.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cap {
    /// Magnification of the telescope alone.
    pub magnification: Magnification,
    /// Power of the cap.
    pub cap: Vergence,
    /// Cap to print.
    pub working_distance: Length,
    /// Distance at which the bare print would look as large.
    pub equivalent_viewing_distance: Length,
    /// Its reciprocal.
    pub equivalent_viewing_power: Vergence,
}

/// A reading cap with the print at its front focus: equivalent power is |M| times that of the cap.
///
/// Source: Schwartz, chapter 12; exact for a thin cap, wherever the eye is.
///
/// # Errors
/// [`Why::NoSolution`] for a cap that is not above zero: it has no front focus to put the print in.
///
/// ```
/// use arcminute_core::optics::{Telescope, reading_cap};
/// use arcminute_core::unit::{Length, Vergence};
/// let d = Vergence::from_dioptres;
/// // Schwartz: +5 on a 2.5x telescope is 12.5 D at 20 cm.
/// let telescope = Telescope::from_lenses(d(20.0), d(-50.0), Length::from_mm(25.0))?;
/// let cap = reading_cap(&telescope, d(5.0))?;
/// assert!((cap.equivalent_viewing_power.dioptres() - 12.5).abs() < 1e-9);
/// assert!((cap.working_distance.cm() - 20.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn reading_cap(telescope: &Telescope, cap: Vergence) -> Result<Cap, Error> {
    let working_distance = cap.focal_length();
    if !(Length::ZERO < working_distance && working_distance.is_finite()) {
        let why = Why::NoSolution { because: "it has no focus in front of it" };
        return Err(Error::about("cap", format_args!("{} D", cap.dioptres()), why));
    }
    let train =
        Train::new([Element::Lens { power: cap, clear_diameter: None }]).then(&telescope.afocal_train())?;
    let seen = view(&train, Sight::At(working_distance));
    let equivalent_viewing_distance = seen.equivalent_viewing_distance.unwrap_or(working_distance);
    Ok(Cap {
        magnification: telescope.afocal().magnification,
        cap,
        working_distance,
        equivalent_viewing_distance,
        equivalent_viewing_power: Vergence::of_focal_length(equivalent_viewing_distance),
    })
}

#[cfg(feature = "alloc")]
impl Explain for Cap {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::CAP_POWER,
            Named::new("EVP", self.equivalent_viewing_power.dioptres(), Unit::Dioptre),
            [
                Named::new("M", self.magnification.times(), Unit::Times),
                Named::new("F_cap", self.cap.dioptres(), Unit::Dioptre),
            ],
        )]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;
    use alloc::string::ToString;

    #[test]
    fn a_cap_has_its_focus_in_front_of_it() -> Result<(), Error> {
        let d = Vergence::from_dioptres;
        let telescope = Telescope::from_lenses(d(20.0), d(-50.0), Length::from_mm(25.0))?;
        // The focus of an endless power would lie in the cap itself.
        for (power, read) in [(0.0, "0"), (-5.0, "-5"), (f64::INFINITY, "inf"), (f64::NAN, "NaN")] {
            let error = reading_cap(&telescope, d(power)).expect_err(read);
            let told = format!("cap `{read} D` has no solution: it has no focus in front of it");
            assert_eq!(error.to_string(), told);
            assert_eq!(error.hint().to_string(), "change one of the values it depends on");
        }
        assert!((reading_cap(&telescope, d(0.25))?.working_distance.m() - 4.0).abs() < 1e-12, "a weak one");
        Ok(())
    }
}
