//! High-plus spectacles, thin and thick.
//!
//! ```text
//!   print |<-- to the front -->( front  t  back )<-- spectacle to eye -->| entrance pupil
//! ```
//!
//! Strong lenses are thick: the power that magnifies is the equivalent power, the distance to the print follows from the
//! front vertex power, and a label with the back vertex power says more than either.

use super::{Arrangement, Eye};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, ThickLens, Train, distance_for_demand};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// The form of the lens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LensForm {
    /// Thin: the refraction for far and this addition in one.
    Addition {
        /// The addition, above zero.
        add: Vergence,
    },
    /// Two surfaces and the glass between them; the whole power, whatever part of it is the refraction for far.
    Thick(ThickLens),
}

/// High-plus spectacles before one eye; the back of the lens stands in the spectacle plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HighPlusSpectacles {
    /// The lens.
    pub form: LensForm,
    /// Clear diameter.
    pub clear_diameter: Length,
    /// Share of the light it lets through; a pure ratio.
    pub transmittance: f64,
}

/// High-plus spectacles in use.
#[derive(Clone, Debug, PartialEq)]
pub struct HighPlusInUse {
    /// The spectacles.
    pub spectacles: HighPlusSpectacles,
    /// Whole power of the lens: of a thick one, its equivalent power.
    pub power: Vergence,
    /// Back vertex power; that of a label.
    pub back_vertex_power: Vergence,
    /// Front vertex power: its reciprocal is the distance to the print of an eye that does not focus.
    pub front_vertex_power: Vergence,
    /// Back of the lens to the eye's entrance pupil.
    pub lens_to_eye: Length,
    /// Demand at the eye's entrance pupil that the print is placed for.
    pub focus_demand: Vergence,
    /// Print to the front of the lens.
    pub print_to_lens: Length,
    /// Distance at which the bare print would look as large, to the eye's entrance pupil.
    pub equivalent_viewing_distance: Length,
    /// Its reciprocal.
    pub equivalent_viewing_power: Vergence,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// High-plus spectacles with the print where an eye that uses this much of its accommodation sees it sharply.
///
/// `EVP = F + A − v·F·A` and, for a thin lens, `u = (1 − v·A)/EVP`: the sum of addition and accommodation overstates
/// both. Source: paraxial; exact for the form given.
///
/// # Errors
/// [`Why::NoSolution`] when no print in front of the lens is in focus; what [`ThickLens::powers`] refuses.
///
/// ```
/// use arcminute_core::device::{Eye, HighPlusSpectacles, LensForm, wear};
/// use arcminute_core::unit::{Length, LogMar, Vergence};
/// let d = Vergence::from_dioptres;
/// let lens = HighPlusSpectacles {
///     form: LensForm::Addition { add: d(8.0) },
///     clear_diameter: Length::from_mm(40.0),
///     transmittance: 1.0,
/// };
/// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// eye.spectacle_to_eye = Length::from_mm(14.0);
/// // +8 D and 4 D of accommodation: 11.552 D, print 81.72 mm from the lens (computed).
/// let worn = wear(lens, &eye, d(4.0))?;
/// assert!((worn.equivalent_viewing_power.dioptres() - 11.552).abs() < 5e-4);
/// assert!((worn.print_to_lens.mm() - 81.72).abs() < 5e-3);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn wear(
    spectacles: HighPlusSpectacles,
    eye: &Eye,
    accommodation_used: Vergence,
) -> Result<HighPlusInUse, Error> {
    let (power, back_vertex_power, front_vertex_power) = powers_of(&spectacles, eye.mean_sphere())?;
    let train = train_of(&spectacles, eye.mean_sphere()).to_eye(eye.spectacle_to_eye);
    let focus_demand = eye.relaxed_demand() + accommodation_used;
    let Some(print_to_lens) = distance_for_demand(&train, focus_demand) else {
        let why = Why::NoSolution { because: "nothing in front of the lens is in focus" };
        return Err(Error::about("power of the lens", format_args!("{} D", power.dioptres()), why));
    };
    let arrangement = Arrangement {
        hand_room: Some(print_to_lens),
        transmittance: spectacles.transmittance,
        ..Arrangement::of(train, Sight::At(print_to_lens))
    };
    let equivalent_viewing_distance = arrangement.equivalent_viewing_distance().unwrap_or(print_to_lens);
    Ok(HighPlusInUse {
        spectacles,
        power,
        back_vertex_power,
        front_vertex_power,
        lens_to_eye: eye.spectacle_to_eye,
        focus_demand,
        print_to_lens,
        equivalent_viewing_distance,
        equivalent_viewing_power: Vergence::of_focal_length(equivalent_viewing_distance),
        arrangement,
    })
}

/// Equivalent, back vertex and front vertex power; of a thin lens all are one.
fn powers_of(
    spectacles: &HighPlusSpectacles,
    refraction: Vergence,
) -> Result<(Vergence, Vergence, Vergence), Error> {
    Ok(match spectacles.form {
        LensForm::Addition { add } => (refraction + add, refraction + add, refraction + add),
        LensForm::Thick(lens) => {
            let powers = lens.powers()?;
            (powers.equivalent, powers.back_vertex, powers.front_vertex)
        }
    })
}

fn train_of(spectacles: &HighPlusSpectacles, refraction: Vergence) -> Train {
    let clear_diameter = Some(spectacles.clear_diameter);
    match spectacles.form {
        LensForm::Addition { add } => Train::new([Element::Lens { power: refraction + add, clear_diameter }]),
        LensForm::Thick(ThickLens { front, back, thickness, index }) => Train::new([
            Element::Lens { power: front, clear_diameter: None },
            Element::Glass { thickness, index },
            Element::Lens { power: back, clear_diameter },
        ]),
    }
}

/// Spectacle magnification of a distance lens, `1/(1 − v·F)`: how much larger a thing looks than without it; a pure
/// ratio.
///
/// Only to compare with an eye without that lens: an acuity measured through it contains the factor already.
///
/// ```
/// use arcminute_core::{device::spectacle_magnification, unit::{Length, Vergence}};
/// // −10 D at 14 mm: an addition of +10 D is worth 8.772 D against the bare eye (computed).
/// let times = spectacle_magnification(Vergence::from_dioptres(-10.0), Length::from_mm(14.0));
/// assert!((10.0 * times - 8.772).abs() < 5e-4);
/// ```
#[must_use]
pub fn spectacle_magnification(distance_power: Vergence, lens_to_eye: Length) -> f64 {
    1.0 / (1.0 - lens_to_eye.m() * distance_power.dioptres())
}

#[cfg(feature = "alloc")]
impl Explain for HighPlusInUse {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let (f, a, v) =
            (dioptre("F", self.power), dioptre("A", self.focus_demand), mm("v", self.lens_to_eye));
        let (u, evp) = (mm("u", self.print_to_lens), dioptre("EVP", self.equivalent_viewing_power));
        let mut steps = Vec::new();
        // What the front of the lens adds to or takes from the distance to the print.
        let front_vertex = dioptre("F_v", self.front_vertex_power);
        match self.spectacles.form {
            LensForm::Addition { .. } => {
                steps.push(Step::formula(&formula::EVP_OF_SPECTACLES, evp, [f, a, v]));
                steps.push(Step::formula(&formula::PRINT_TO_SPECTACLES, u, [v, a, evp]));
            }
            LensForm::Thick(ThickLens { front, back, thickness, index }) => {
                let (f_1, f_2, t) = (dioptre("F_1", front), dioptre("F_2", back), mm("t", thickness));
                let n = Named::new("n", index, Unit::Plain);
                let back_vertex = dioptre("F_v'", self.back_vertex_power);
                steps.push(Step::formula(&formula::EQUIVALENT_POWER, f, [f_1, f_2, t, n]));
                steps.push(Step::formula(&formula::BACK_VERTEX_POWER, back_vertex, [f, f_1, t, n]));
                steps.push(Step::formula(&formula::FRONT_VERTEX_POWER, front_vertex, [f, f_2, t, n]));
                steps.push(Step::formula(&formula::EVP_OF_THICK_SPECTACLES, evp, [f, a, v, f_1, t, n]));
                steps.push(Step::formula(&formula::PRINT_TO_THICK_SPECTACLES, u, [v, a, evp, f_2, t, n]));
            }
        }
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::LogMar;
    use alloc::string::ToString;

    fn eye(sphere: f64) -> Eye {
        Eye {
            sphere: Vergence::from_dioptres(sphere),
            ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
        }
    }

    fn lens(form: LensForm) -> HighPlusSpectacles {
        HighPlusSpectacles { form, clear_diameter: Length::from_mm(40.0), transmittance: 0.92 }
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        let d = Vergence::from_dioptres;
        let thick = |front: f64, back: f64| {
            LensForm::Thick(ThickLens {
                front: d(front),
                back: d(back),
                thickness: Length::from_mm(10.0),
                index: 1.498,
            })
        };
        for form in [LensForm::Addition { add: d(10.0) }, thick(14.0, 7.0), thick(20.0, 0.0)] {
            for sphere in [-4.0, 0.0, 3.0] {
                for accommodation in [0.0, 2.5] {
                    let worn = wear(lens(form), &eye(sphere), d(accommodation))?;
                    let used = &worn.arrangement;
                    assert_eq!(
                        (used.hand_room, used.transmittance),
                        (Some(worn.print_to_lens), 0.92),
                        "{form:?}"
                    );
                    for step in worn.steps() {
                        assert_eq!(step.check(), Ok(()), "{form:?} {sphere} D {accommodation} D");
                    }
                }
            }
        }
        Ok(())
    }

    #[test]
    fn a_lens_that_does_not_bring_print_into_focus_is_refused() {
        let error = wear(lens(LensForm::Addition { add: Vergence::ZERO }), &eye(0.0), Vergence::ZERO)
            .expect_err("nothing near is in focus without an addition");
        assert_eq!(
            error.to_string(),
            "power of the lens `0 D` has no solution: nothing in front of the lens is in focus"
        );
        let plano = ThickLens {
            front: Vergence::ZERO,
            back: Vergence::ZERO,
            thickness: Length::from_mm(2.0),
            index: 1.498,
        };
        let error = wear(lens(LensForm::Thick(plano)), &eye(0.0), Vergence::ZERO).expect_err("no power");
        assert!(error.to_string().starts_with("power of the lens `0 D` "), "{error}");
        let turned = ThickLens {
            front: Vergence::from_dioptres(14.0),
            back: Vergence::from_dioptres(7.0),
            thickness: Length::from_mm(-10.0),
            index: 1.498,
        };
        let error = wear(lens(LensForm::Thick(turned)), &eye(0.0), Vergence::ZERO).expect_err("no lens");
        assert!(error.to_string().starts_with("lens thickness `-10 mm` "), "{error}");
    }
}
