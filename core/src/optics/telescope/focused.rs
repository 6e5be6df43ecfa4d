//! A telescope focused by the length of its tube, for a near thing, an ametropic eye, or both.

use super::{Telescope, same_sign};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, RayMatrix, Sight, Train};
use crate::unit::{Length, Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A telescope refocused by its tube.
#[derive(Clone, Debug, PartialEq)]
pub struct Focused {
    /// Power of the objective.
    pub objective: Vergence,
    /// Power of the eyepiece.
    pub eyepiece: Vergence,
    /// What it is focused for.
    pub sight: Sight,
    /// Lens power the eye lacks, in the plane of the eyepiece.
    pub ametropia_at_eyepiece: Vergence,
    /// Lens to lens when focused for infinity and no ametropia.
    pub afocal_length: Length,
    /// Lens to lens as focused.
    pub length: Length,
    /// Change of length; longer is positive.
    pub travel: Length,
    /// Magnification against the angle at the objective, for an eye that sees through a lens of the ametropia's power in
    /// the plane of the eyepiece; negative when inverted.
    pub magnification: Magnification,
    /// The train, objective to eyepiece, as focused.
    pub train: Train,
}

impl Telescope {
    /// The telescope refocused by tube length so that light of a thing at `sight` leaves with the vergence that an eye
    /// of this ametropia needs (both in the plane of the eyepiece).
    ///
    /// The tube gets longer for near things and for hyperopes, shorter for myopes, in both designs. Source: Schwartz,
    /// chapter 12, and Newton's relation.
    ///
    /// # Errors
    /// [`Why::NoSolution`] when the thing is within the objective's focal length, or the eyepiece cannot lend the power.
    ///
    /// ```
    /// use arcminute_core::{optics::{Sight, Telescope}, unit::{Length, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// // Schwartz, chapter 12: +10/−50 D for a myope of 10 D becomes 4.0x at 7.50 cm.
    /// let galilean = Telescope::from_lenses(d(10.0), d(-50.0), Length::from_mm(30.0))?;
    /// let focused = galilean.focused(Sight::Far, d(-10.0))?;
    /// assert!((focused.magnification.times() - 4.0).abs() < 1e-12);
    /// assert!((focused.length.cm() - 7.5).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn focused(&self, sight: Sight, ametropia_at_eyepiece: Vergence) -> Result<Focused, Error> {
        let behind_objective = self.objective + sight.vergence();
        let afocal_eyepiece = self.eyepiece - ametropia_at_eyepiece;
        let image_to_eyepiece = afocal_eyepiece.focal_length();
        let length = behind_objective.focal_length() + image_to_eyepiece;
        let same_kind =
            same_sign(behind_objective, self.objective) && same_sign(afocal_eyepiece, self.eyepiece);
        if !same_kind || length <= Length::ZERO {
            let (why, k) =
                (Why::NoSolution { because: "no tube length focuses it" }, ametropia_at_eyepiece.dioptres());
            return Err(match sight {
                Sight::Far => Error::about("focus", format_args!("far, {k} D"), why),
                Sight::At(distance) => Error::about("focus", format_args!("{} m, {k} D", distance.m()), why),
            });
        }
        let afocal_length = self.objective.focal_length() + self.eyepiece.focal_length();
        // The eyepiece lends part of its power to the eye; the rest makes the light parallel.
        let parallel_part = Train::new([
            Element::Lens { power: self.objective, clear_diameter: None },
            Element::Gap(length),
            Element::Lens { power: afocal_eyepiece, clear_diameter: None },
        ])
        .matrix();
        let times = match sight {
            Sight::Far => 1.0 / parallel_part.a,
            Sight::At(distance) => distance / RayMatrix::gap(distance).then(parallel_part).b,
        };
        Ok(Focused {
            objective: self.objective,
            eyepiece: self.eyepiece,
            sight,
            ametropia_at_eyepiece,
            afocal_length,
            length,
            travel: length - afocal_length,
            magnification: Magnification::from_times(times),
            train: self.train(length, image_to_eyepiece),
        })
    }
}

#[cfg(feature = "alloc")]
impl Explain for Focused {
    fn steps(&self) -> Vec<Step> {
        let f_o = Named::new("F_o", self.objective.dioptres(), Unit::Dioptre);
        let f_e = Named::new("F_e", self.eyepiece.dioptres(), Unit::Dioptre);
        let k = Named::new("K", self.ametropia_at_eyepiece.dioptres(), Unit::Dioptre);
        let u = Named::new("U", self.sight.vergence().dioptres(), Unit::Dioptre);
        let d = Named::new("d", self.afocal_length.mm(), Unit::Millimetre);
        let d_focused = Named::new("d'", self.length.mm(), Unit::Millimetre);
        let travel = Named::new("travel", self.travel.mm(), Unit::Millimetre);
        let m = Named::new("M_near", self.magnification.times(), Unit::Times);
        let mut steps = Vec::new();
        if let Sight::At(distance) = self.sight {
            steps.push(Step::formula(
                &formula::OBJECT_VERGENCE,
                u,
                [Named::new("x", distance.m(), Unit::Metre)],
            ));
        }
        steps.push(Step::formula(&formula::FOCUS_LENGTH, d_focused, [f_o, f_e, u, k]));
        steps.push(Step::formula(&formula::FOCUS_TRAVEL, travel, [d_focused, d]));
        steps.push(Step::formula(&formula::NEAR_MAGNIFICATION, m, [f_o, f_e, u, k]));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn d(power: f64) -> Vergence {
        Vergence::from_dioptres(power)
    }

    /// The eyepiece of −50 D lends 40 D to the eye and keeps −10, whose focus lies where that of the objective does.
    #[test]
    fn a_tube_has_a_length() -> Result<(), Error> {
        let galilean = Telescope::from_lenses(d(10.0), d(-50.0), Length::from_mm(30.0))?;
        for (k, read) in [(-40.0, "far, -40 D"), (-42.0, "far, -42 D"), (-50.0, "far, -50 D")] {
            let error = galilean.focused(Sight::Far, d(k)).expect_err(read);
            let told = "has no solution: no tube length focuses it";
            assert_eq!(error.to_string(), alloc::format!("focus `{read}` {told}"));
            assert_eq!(error.hint().to_string(), "change one of the values it depends on");
        }
        // 1/10 − 1/11 m.
        let short = galilean.focused(Sight::Far, d(-39.0))?;
        assert!((short.length.mm() - 9.091).abs() < 5e-4, "{:?}", short.length);
        Ok(())
    }

    #[test]
    fn what_no_tube_focuses_is_told() -> Result<(), Error> {
        let keplerian = Telescope::from_lenses(d(20.0), d(80.0), Length::from_mm(12.0))?;
        // In the focus of the objective, and within it.
        for (metres, read) in [(0.05, "0.05 m, 0 D"), (0.04, "0.04 m, 0 D")] {
            let error = keplerian.focused(Sight::At(Length::from_m(metres)), d(0.0)).expect_err(read);
            let told = "has no solution: no tube length focuses it";
            assert_eq!(error.to_string(), alloc::format!("focus `{read}` {told}"));
        }
        for (sight, k) in [(Sight::At(Length::from_m(f64::NAN)), 0.0), (Sight::Far, f64::NAN)] {
            assert!(keplerian.focused(sight, d(k)).is_err(), "no number");
        }
        Ok(())
    }
}
