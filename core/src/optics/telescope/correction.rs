//! Where a refraction goes when a telescope stands in front of the eye.

use super::{Afocal, Telescope};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, Train, view};
use crate::unit::{Length, Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A spectacle power carried to the plane of the eyepiece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtEyepiece {
    /// Power at the spectacle plane.
    pub spectacle: Vergence,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Eyepiece to the eye's entrance pupil.
    pub eyepiece_to_eye: Length,
    /// Power that does the same in the plane of the eyepiece.
    pub ametropia: Vergence,
}

/// The power needed in the plane of the eyepiece in place of `spectacle` at the spectacle plane.
///
/// Source: Schwartz, chapter 12; the usual effectivity.
///
/// ```
/// use arcminute_core::{optics::ametropia_at_eyepiece, unit::{Length, Vergence}};
/// let mm = Length::from_mm;
/// // −10 D at 12 mm from the cornea is −9.62 D at 8 mm.
/// let moved = ametropia_at_eyepiece(Vergence::from_dioptres(-10.0), mm(12.0), mm(8.0));
/// assert!((moved.ametropia.dioptres() + 9.62).abs() < 0.005);
/// ```
#[must_use]
pub fn ametropia_at_eyepiece(
    spectacle: Vergence,
    spectacle_to_eye: Length,
    eyepiece_to_eye: Length,
) -> AtEyepiece {
    let ametropia = spectacle.after(spectacle_to_eye - eyepiece_to_eye);
    AtEyepiece { spectacle, spectacle_to_eye, eyepiece_to_eye, ametropia }
}

#[cfg(feature = "alloc")]
impl Explain for AtEyepiece {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::AT_EYEPIECE,
            Named::new("K", self.ametropia.dioptres(), Unit::Dioptre),
            [
                Named::new("F_s", self.spectacle.dioptres(), Unit::Dioptre),
                Named::new("e", self.eyepiece_to_eye.mm(), Unit::Millimetre),
                Named::new("v", self.spectacle_to_eye.mm(), Unit::Millimetre),
            ],
        )]
    }
}

/// A correction worn on the objective of a telescope whose tube stays as it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CorrectionOnObjective {
    /// The telescope without it, set for far.
    pub afocal: Afocal,
    /// Ametropia K, in the plane of the eyepiece.
    pub ametropia: Vergence,
    /// Lens needed on the objective.
    pub cap: Vergence,
    /// What the short rule `K/M²` says; exact only for ametropia referred to the exit pupil.
    pub short_rule: Vergence,
    /// Magnification with the cap, for an eye that sees through a lens K in the plane of the eyepiece.
    pub magnification: Magnification,
}

/// The lens on the objective that corrects ametropia K (in the plane of the eyepiece): `K/(M² + d·M·K)`.
///
/// Source: paraxial.
///
/// # Errors
/// [`Why::NoSolution`] when `M² + d·M·K` is not above zero: so strong an ametropia no lens there corrects.
///
/// ```
/// use arcminute_core::optics::{Telescope, correction_on_objective};
/// use arcminute_core::unit::{Length, Vergence};
/// let d = Vergence::from_dioptres;
/// // 4x Keplerian, −8 D: −0.444 D, where the short rule says −0.500 (computed).
/// let keplerian = Telescope::from_lenses(d(20.0), d(80.0), Length::from_mm(12.0))?;
/// let correction = correction_on_objective(&keplerian, d(-8.0))?;
/// assert!((correction.cap.dioptres() + 0.4444).abs() < 5e-5);
/// assert!((correction.short_rule.dioptres() + 0.5).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn correction_on_objective(
    telescope: &Telescope,
    ametropia_at_eyepiece: Vergence,
) -> Result<CorrectionOnObjective, Error> {
    let afocal = telescope.afocal();
    let (m, d, k) = (afocal.magnification.times(), afocal.length.m(), ametropia_at_eyepiece.dioptres());
    let divisor = m * m + d * m * k;
    if !(0.0 < divisor && divisor.is_finite()) {
        let why = Why::NoSolution { because: "no lens on the objective corrects so much" };
        return Err(Error::about("ametropia", format_args!("{k} D"), why));
    }
    let cap = Vergence::from_dioptres(k / divisor);
    // The lens K in the plane of the eyepiece makes the light parallel there and leaves its height, so far things are as
    // large without it.
    let train =
        Train::new([Element::Lens { power: cap, clear_diameter: None }]).then(&telescope.afocal_train())?;
    Ok(CorrectionOnObjective {
        afocal,
        ametropia: ametropia_at_eyepiece,
        cap,
        short_rule: Vergence::from_dioptres(k / (m * m)),
        magnification: Magnification::from_times(view(&train, Sight::Far).enlargement),
    })
}

#[cfg(feature = "alloc")]
impl Explain for CorrectionOnObjective {
    fn steps(&self) -> Vec<Step> {
        let dioptres = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let times = |symbol, value: Magnification| Named::new(symbol, value.times(), Unit::Times);
        let (m, k) = (times("M", self.afocal.magnification), dioptres("K", self.ametropia));
        let d = Named::new("d", self.afocal.length.mm(), Unit::Millimetre);
        let cap = dioptres("C", self.cap);
        let lenses = [dioptres("F_o", self.afocal.objective), dioptres("F_e", self.afocal.eyepiece), k, cap];
        let mut steps = self.afocal.steps();
        steps.extend([
            Step::formula(&formula::CAP_FOR_AMETROPIA, cap, [m, d, k]),
            Step::formula(&formula::CAP_SHORT_RULE, dioptres("C_rule", self.short_rule), [m, k]),
            Step::formula(&formula::POWER_WITH_CAP, times("M_cap", self.magnification), lenses),
        ]);
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    /// Law: light from afar leaves cap and telescope with the vergence K, so the eye behind them sees it sharply, and a
    /// lens −K after them makes it parallel and changes no size.
    #[test]
    fn the_lens_on_the_objective_corrects() -> Result<(), Error> {
        let d = Vergence::from_dioptres;
        for (objective, eyepiece) in [(20.0, 80.0), (20.0, -50.0), (25.0, 150.0)] {
            let telescope = Telescope::from_lenses(d(objective), d(eyepiece), Length::from_mm(12.0))?;
            for k in [-12.0, -8.0, -0.5, 0.0, 3.0, 6.0] {
                let correction = correction_on_objective(&telescope, d(k))?;
                let lens = |power| Train::new([Element::Lens { power, clear_diameter: None }]);
                let train = lens(correction.cap).then(&telescope.afocal_train())?;
                let demand = view(&train, Sight::Far).focus_demand.dioptres();
                assert!((demand + k).abs() < 1e-9, "{objective} {eyepiece}, {k} D: {demand} D");
                let parallel = view(&train.then(&lens(d(-k)))?, Sight::Far);
                assert!(parallel.focus_demand.dioptres().abs() < 1e-9, "{objective} {eyepiece}, {k} D");
                let times = correction.magnification.times();
                assert!((parallel.enlargement - times).abs() < 1e-12, "{objective} {eyepiece}, {k} D");
            }
        }
        Ok(())
    }

    #[test]
    fn too_much_for_a_lens_on_the_objective_is_told() -> Result<(), Error> {
        let d = Vergence::from_dioptres;
        // M² + d·M·K is zero at K = −M/d: 64 D for this one.
        let keplerian = Telescope::from_lenses(d(20.0), d(80.0), Length::from_mm(12.0))?;
        for power in [64.0, 65.0] {
            let error = correction_on_objective(&keplerian, d(power)).expect_err("too much");
            let told = "has no solution: no lens on the objective corrects so much";
            assert_eq!(error.to_string(), alloc::format!("ametropia `{power} D` {told}"));
            assert_eq!(error.hint().to_string(), "change one of the values it depends on");
        }
        assert!(correction_on_objective(&keplerian, d(63.9)).is_ok(), "just not too much");
        assert!(correction_on_objective(&keplerian, d(f64::NAN)).is_err(), "no number");
        assert_eq!(correction_on_objective(&keplerian, d(-8.0))?.steps().len(), 7);
        Ok(())
    }
}
