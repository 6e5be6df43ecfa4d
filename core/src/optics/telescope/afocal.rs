//! A telescope set for a far thing and a relaxed corrected eye.

use super::Telescope;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::optics::{RayMatrix, Sight, Train, view};
use crate::unit::{Length, Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Facts of a telescope focused for infinity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Afocal {
    /// Power of the objective.
    pub objective: Vergence,
    /// Power of the eyepiece.
    pub eyepiece: Vergence,
    /// Clear diameter of the objective.
    pub objective_diameter: Length,
    /// Lens to lens, prism path counted in air.
    pub length: Length,
    /// Angular magnification; negative for a Keplerian.
    pub magnification: Magnification,
    /// Diameter of the exit pupil.
    pub exit_pupil: Length,
    /// Exit pupil behind the eyepiece; negative inside the tube.
    pub exit_pupil_behind_eyepiece: Length,
}

impl Telescope {
    /// Facts of the telescope focused for infinity, from the ray-transfer engine.
    ///
    /// The exit pupil is where the train images the objective; it is the aperture as long as the objective limits the
    /// bundle. Source: Smith, chapter 13.
    ///
    /// ```
    /// use arcminute_core::{optics::Telescope, unit::{Length, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// // 2.5x with a minus eyepiece: the exit pupil of 10 mm lies 12 mm inside the tube (computed).
    /// let galilean = Telescope::from_lenses(d(20.0), d(-50.0), Length::from_mm(25.0))?.afocal();
    /// assert!((galilean.exit_pupil.mm() - 10.0).abs() < 1e-9);
    /// assert!((galilean.exit_pupil_behind_eyepiece.mm() + 12.0).abs() < 1e-9);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn afocal(&self) -> Afocal {
        let length = self.objective.focal_length() + self.eyepiece.focal_length();
        let seen = view(&self.afocal_train(), Sight::Far);
        let behind_objective = RayMatrix::gap(length).then(RayMatrix::lens(self.eyepiece));
        let exit_pupil_behind_eyepiece = -behind_objective.b / behind_objective.d;
        let imaged = behind_objective.then(RayMatrix::gap(exit_pupil_behind_eyepiece));
        Afocal {
            objective: self.objective,
            eyepiece: self.eyepiece,
            objective_diameter: self.objective_diameter,
            length,
            magnification: Magnification::from_times(seen.enlargement),
            exit_pupil: self.objective_diameter * math::abs(imaged.a),
            exit_pupil_behind_eyepiece,
        }
    }

    /// The train, objective to eyepiece, focused for infinity.
    ///
    /// ```
    /// use arcminute_core::{optics::{Sight, Telescope, view}, unit::{Length, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// let train = Telescope::from_lenses(d(20.0), d(-50.0), Length::from_mm(25.0))?.afocal_train();
    /// // 50 − 20 mm; light from afar leaves it parallel (computed).
    /// assert!((train.length().mm() - 30.0).abs() < 1e-9);
    /// assert!(view(&train, Sight::Far).focus_demand.dioptres().abs() < 1e-9);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn afocal_train(&self) -> Train {
        let length = self.objective.focal_length() + self.eyepiece.focal_length();
        self.train(length, self.eyepiece.focal_length())
    }
}

#[cfg(feature = "alloc")]
impl Explain for Afocal {
    fn steps(&self) -> Vec<Step> {
        let f_o = Named::new("F_o", self.objective.dioptres(), Unit::Dioptre);
        let f_e = Named::new("F_e", self.eyepiece.dioptres(), Unit::Dioptre);
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        let d = Named::new("d", self.length.mm(), Unit::Millimetre);
        let d_o = Named::new("D_o", self.objective_diameter.mm(), Unit::Millimetre);
        let e = Named::new("E", self.exit_pupil.mm(), Unit::Millimetre);
        let l = Named::new("l", self.exit_pupil_behind_eyepiece.mm(), Unit::Millimetre);
        alloc::vec![
            Step::formula(&formula::EYEPIECE_RULE, m, [f_o, f_e]),
            Step::formula(&formula::TUBE_LENGTH, d, [f_o, f_e]),
            Step::formula(&formula::EXIT_PUPIL, e, [d_o, m]),
            Step::formula(&formula::EXIT_PUPIL_PLACE, l, [d, m]),
        ]
    }
}

/// The two lens powers of a telescope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lenses {
    /// Lens to lens.
    pub length: Length,
    /// Magnification, with its sign.
    pub magnification: Magnification,
    /// Power of the objective.
    pub objective: Vergence,
    /// Power of the eyepiece.
    pub eyepiece: Vergence,
}

/// Lenses that give a magnification in a tube of this length: `f_e = d/(1 − M)`, `f_o = M·d/(M − 1)`.
///
/// `magnification` is signed: negative asks for a Keplerian. Source: Smith, p. 289.
///
/// # Errors
/// [`Why::NoSolution`] when the magnification is 1 or 0 or the length is not above zero.
///
/// ```
/// use arcminute_core::{optics::lenses_from_length, unit::{Length, Magnification}};
/// // Smith: 10 inches and −4x take 8 and 2 inches.
/// let lenses = lenses_from_length(Length::from_inches(10.0), Magnification::from_times(-4.0))?;
/// assert!((lenses.objective.focal_length().inches() - 8.0).abs() < 1e-9);
/// assert!((lenses.eyepiece.focal_length().inches() - 2.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn lenses_from_length(length: Length, magnification: Magnification) -> Result<Lenses, Error> {
    let m = magnification.times();
    let objective = Vergence::of_focal_length(length * (m / (m - 1.0)));
    let eyepiece = Vergence::of_focal_length(length / (1.0 - m));
    // A magnification of 1 would be two lenses without power.
    let powerless = objective == Vergence::ZERO || !objective.is_finite() || !eyepiece.is_finite();
    if powerless || length <= Length::ZERO || m == 0.0 {
        return Err(Error::about(
            "telescope",
            format_args!("{m} x in {} mm", length.mm()),
            Why::NoSolution { because: "no two lenses do this" },
        ));
    }
    Ok(Lenses { length, magnification, objective, eyepiece })
}

#[cfg(feature = "alloc")]
impl Explain for Lenses {
    fn steps(&self) -> Vec<Step> {
        let inputs = [
            Named::new("M", self.magnification.times(), Unit::Times),
            Named::new("d", self.length.mm(), Unit::Millimetre),
        ];
        let dioptres = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        alloc::vec![
            Step::formula(&formula::OBJECTIVE_FROM_LENGTH, dioptres("F_o", self.objective), inputs),
            Step::formula(&formula::EYEPIECE_FROM_LENGTH, dioptres("F_e", self.eyepiece), inputs),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;
    use alloc::string::ToString;

    #[test]
    fn what_no_two_lenses_do_is_told() {
        let lenses = |millimetres: f64, times: f64| {
            lenses_from_length(Length::from_mm(millimetres), Magnification::from_times(times))
        };
        for (millimetres, times, read) in [
            (50.0, 1.0, "1 x in 50 mm"),
            (50.0, 0.0, "0 x in 50 mm"),
            (0.0, 4.0, "4 x in 0 mm"),
            (-9.0, 4.0, "4 x in -9 mm"),
        ] {
            let error = lenses(millimetres, times).expect_err(read);
            assert_eq!(
                error.to_string(),
                format!("telescope `{read}` has no solution: no two lenses do this")
            );
            assert_eq!(error.hint().to_string(), "change one of the values it depends on");
        }
        assert!(lenses(f64::NAN, 4.0).is_err() && lenses(50.0, f64::NAN).is_err(), "no numbers");
        // The objective would be possible, the eyepiece stronger than any number.
        assert!(lenses(10.0, 1e307).is_err() && lenses(10.0, -1e307).is_err(), "no eyepiece");
    }

    #[test]
    fn lenses_without_a_tube_are_told() {
        let d = Vergence::from_dioptres;
        let made = |objective: f64, eyepiece: f64| {
            Telescope::from_lenses(d(objective), d(eyepiece), Length::from_mm(20.0))
        };
        let error = made(20.0, -20.0).expect_err("no length");
        let told = "telescope `20 D and -20 D` has no solution: the lenses leave no tube between them";
        assert_eq!(error.to_string(), told);
        assert!(made(40.0, -20.0).is_err(), "the eyepiece before the objective");
        assert!(made(0.0, 40.0).is_err() && made(f64::NAN, 40.0).is_err(), "no lens");
        assert!(made(20.0, -20.1).is_ok(), "a quarter of a millimetre");
    }
}
