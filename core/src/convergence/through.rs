//! Near things seen with both eyes through a pair of telescopes.
//!
//! With parallel axes each eye has to turn in by what its telescope makes of the angle, which is not the magnification
//! times the bare convergence. Two ways round it: axes that cross at the thing, which ask for what bare eyes do, or a
//! cap over both telescopes, centred on the midline. Both hold at one distance only ([`crate::source::YOHO_2009`]).

#[cfg(feature = "alloc")]
use super::near_pair::{dioptre, mm, prism};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::optics::{Sight, Telescope, view};
use crate::unit::{Length, Magnification, Prism, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What one eye turns in behind one of a pair of afocal telescopes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThroughPair {
    /// Eye and axis of the telescope from the midline.
    pub eye_from_midline: Length,
    /// Thing on the midline to the objectives.
    pub thing_to_objective: Length,
    /// Magnification of each; negative for a Keplerian.
    pub magnification: Magnification,
    /// Objective to eyepiece, prism path counted in air.
    pub length: Length,
    /// Eyepiece to the eye.
    pub eyepiece_to_eye: Length,
    /// What this eye turns in with parallel axes and an upright image.
    pub per_eye: Prism,
    /// What two such eyes turn in together.
    pub both: Prism,
    /// What two bare eyes in the same place turn in; also with axes that cross at the thing.
    pub bare_both: Prism,
    /// The one over the other; a pure ratio.
    pub factor: f64,
}

/// Convergence behind a pair of afocal telescopes with parallel axes: `tan c = M·p/(x + M(d + M·v))`.
///
/// * `magnification` of the telescope keeps its sign; an erecting system is taken to be there, so the result has none.
/// * Domain: paraxial. Source: the ray-transfer engine; closed form in the working.
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible PD or distance; [`Why::NoSolution`] when the image cannot be viewed.
///
/// ```
/// use arcminute_core::{convergence::through_pair, optics::Telescope, unit::{Length, Vergence}};
/// let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
/// // 2x Galilean, PD 60, 40 cm: 23.5 in place of 13.6 prism dioptres (computed).
/// let telescope = Telescope::from_lenses(d(20.0), d(-40.0), mm(20.0))?;
/// let pair = through_pair(&telescope, mm(30.0), mm(400.0), mm(15.0))?;
/// assert!((pair.both.prism_dioptres() - 23.5).abs() < 0.05);
/// assert!((pair.bare_both.prism_dioptres() - 13.6).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn through_pair(
    telescope: &Telescope,
    eye_from_midline: Length,
    thing_to_objective: Length,
    eyepiece_to_eye: Length,
) -> Result<ThroughPair, Error> {
    bounds::MONOCULAR_PD.check(eye_from_midline.mm())?;
    bounds::MOUNT_DISTANCE.check(thing_to_objective.mm())?;
    bounds::EYEPIECE_TO_EYE.check(eyepiece_to_eye.mm())?;
    let afocal = telescope.afocal();
    let train = telescope.afocal_train().to_eye(eyepiece_to_eye);
    // The thing is p off each axis, and looks as it would at the equivalent viewing distance.
    let seen = view(&train, Sight::At(thing_to_objective));
    let upright = 0.0 < seen.enlargement * afocal.magnification.times();
    let bare_both =
        Prism::from_prism_dioptres(200.0 * (eye_from_midline / (thing_to_objective + train.length())));
    let factor = math::abs(seen.enlargement);
    if !(upright && factor.is_finite()) {
        let why = Why::NoSolution { because: "the image cannot be viewed" };
        return Err(Error::about("distance", format_args!("{} mm", thing_to_objective.mm()), why));
    }
    let both = bare_both * factor;
    Ok(ThroughPair {
        eye_from_midline,
        thing_to_objective,
        magnification: afocal.magnification,
        length: afocal.length,
        eyepiece_to_eye,
        per_eye: both / 2.0,
        both,
        bare_both,
        factor,
    })
}

#[cfg(feature = "alloc")]
impl Explain for ThroughPair {
    fn steps(&self) -> Vec<Step> {
        let (p, x) = (mm("p", self.eye_from_midline), mm("x", self.thing_to_objective));
        let (d, v) = (mm("d", self.length), mm("v", self.eyepiece_to_eye));
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        let (both, bare) = (prism("both", self.both), prism("bare", self.bare_both));
        alloc::vec![
            Step::formula(&formula::CONVERGENCE_THROUGH, both, [m, p, x, d, v]),
            Step::formula(&formula::CONVERGENCE_BARE_PAIR, bare, [p, x, d, v]),
            Step::formula(
                &formula::CONVERGENCE_FACTOR,
                Named::new("k", self.factor, Unit::Plain),
                [both, bare]
            ),
        ]
    }
}

/// One cap over a pair of telescopes, its optical centre on the midline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CapOnMidline {
    /// Power of the cap.
    pub cap: Vergence,
    /// Axis of the telescope from the midline.
    pub eye_from_midline: Length,
    /// Base-in prism that it gives each eye.
    pub base_in: Prism,
}

/// Base-in prism of a cap centred on the midline: its power times half the PD in centimetres.
///
/// With print in its focus the light reaches each telescope parallel to its axis, so nothing is left to turn in.
/// Source: the rule of decentration, [`crate::source::PARAXIAL`].
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible power or PD.
///
/// ```
/// use arcminute_core::{convergence::cap_on_midline, unit::{Length, Vergence}};
/// // PD 64, +2.50: 8 prism dioptres an eye (computed).
/// let cap = cap_on_midline(Vergence::from_dioptres(2.5), Length::from_mm(32.0))?;
/// assert!((cap.base_in.prism_dioptres() - 8.0).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn cap_on_midline(cap: Vergence, eye_from_midline: Length) -> Result<CapOnMidline, Error> {
    bounds::SPHERE.check(cap.dioptres())?;
    bounds::MONOCULAR_PD.check(eye_from_midline.mm())?;
    let base_in = Prism::from_prism_dioptres(cap.dioptres() * eye_from_midline.cm());
    Ok(CapOnMidline { cap, eye_from_midline, base_in })
}

#[cfg(feature = "alloc")]
impl Explain for CapOnMidline {
    fn steps(&self) -> Vec<Step> {
        let inputs = [dioptre("F_cap", self.cap), mm("p", self.eye_from_midline)];
        alloc::vec![Step::formula(&formula::CAP_ON_MIDLINE, prism("delta", self.base_in), inputs)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn pair(eyepiece: f64, half_pd: f64, x: f64, v: f64) -> Result<ThroughPair, Error> {
        let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
        let telescope = Telescope::from_lenses(d(20.0), d(eyepiece), mm(20.0))?;
        through_pair(&telescope, mm(half_pd), mm(x), mm(v))
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for eyepiece in [-40.0, -50.0, 60.0, 80.0] {
            for x in [300.0, 400.0, 3000.0] {
                let pair = pair(eyepiece, 30.0, x, 15.0)?;
                assert_eq!(pair.steps().len(), 3);
                for step in pair.steps() {
                    assert_eq!(step.check(), Ok(()), "{pair:?}");
                }
            }
        }
        for step in cap_on_midline(Vergence::from_dioptres(4.0), Length::from_mm(30.0))?.steps() {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    #[test]
    fn what_cannot_be_viewed_is_told() {
        // 8x Keplerian: x + M(d + M·v) is 400 − 450 + 64 v, below zero up to 0.78 mm behind the eyepiece.
        let error = pair(160.0, 30.0, 400.0, 0.5).expect_err("the light crosses over");
        assert_eq!(error.to_string(), "distance `400 mm` has no solution: the image cannot be viewed");
        assert_eq!(error.hint().to_string(), "change one of the values it depends on");
        assert!(
            pair(160.0, 30.0, 400.0, 0.77).is_err() && pair(160.0, 30.0, 400.0, 0.79).is_ok(),
            "the border"
        );
        assert!(pair(160.0, 30.0, f64::NAN, 15.0).is_err() && pair(160.0, 30.0, 400.0, f64::NAN).is_err());
        let error = pair(-40.0, 50.0, 400.0, 15.0).expect_err("100 mm of PD");
        assert_eq!(error.to_string(), "monocular PD `50 mm` is not possible");
        let cap = cap_on_midline(Vergence::from_dioptres(f64::NAN), Length::from_mm(30.0));
        assert!(cap.is_err(), "no power");
        assert!(cap_on_midline(Vergence::from_dioptres(2.5), Length::from_mm(14.0)).is_err(), "no such PD");
    }
}
