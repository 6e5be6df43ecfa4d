//! Minifiers: a reversed telescope, or a minus lens held before the eye. More field, less detail.
//!
//! ```text
//!   scene ──► ( minus lens )<-- lens to spectacle -->( worn )<-- to the eye -->| entrance pupil     M below 1
//! ```
//!
//! A telescope looked through from its other end is a [`Telescope`](crate::optics::Telescope) whose objective is the old
//! eyepiece; [`aim`](super::aim) arranges it like any other. This file holds the minus lens and what both do to a field
//! that is small.

use super::{Arrangement, Eye};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, Train};
use crate::unit::{Angle, Length, LogMar, Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A minus lens held before the eye, looking at a far scene.
#[derive(Clone, Debug, PartialEq)]
pub struct MinusLensInUse {
    /// Power of the lens, below zero.
    pub power: Vergence,
    /// Lens to the spectacle plane.
    pub lens_to_spectacle: Length,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Power that stands in the spectacle plane.
    pub worn: Vergence,
    /// Angular magnification against the same eye without the minus lens; below one.
    pub magnification: Magnification,
    /// Demand at the eye's entrance pupil.
    pub focus_demand: Vergence,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// A minus lens held `lens_to_spectacle` before the glasses (or the plane where they would be), looking far.
///
/// Source: paraxial; without glasses `M = 1/(1 − D·F)` and the demand is `−F/(1 − D·F)`.
///
/// # Errors
/// [`Why::NoSolution`] for a lens that is not of minus power, or that is not in front of the glasses.
///
/// ```
/// use arcminute_core::device::{Eye, hold_minus};
/// use arcminute_core::unit::{Length, LogMar, Vergence};
/// let mut eye = Eye::corrected(LogMar::from_log(0.3), LogMar::from_log(0.2));
/// eye.spectacle_to_eye = Length::from_mm(0.0);
/// // −5 D at 30 cm: 0.40x, +2.00 D to focus (computed).
/// let held = hold_minus(Vergence::from_dioptres(-5.0), Length::from_mm(80.0), &eye, Length::from_cm(30.0))?;
/// assert!((held.magnification.times() - 0.4).abs() < 1e-12);
/// assert!((held.focus_demand.dioptres() - 2.0).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn hold_minus(
    power: Vergence,
    clear_diameter: Length,
    eye: &Eye,
    lens_to_spectacle: Length,
) -> Result<MinusLensInUse, Error> {
    if !(power < Vergence::ZERO && power.is_finite()) {
        let why = Why::NoSolution { because: "a lens of minus power is wanted" };
        return Err(Error::about("power of the lens", format_args!("{} D", power.dioptres()), why));
    }
    if !(Length::ZERO <= lens_to_spectacle && lens_to_spectacle.is_finite()) {
        let why = Why::NoSolution { because: "the lens has to be in front of the glasses" };
        return Err(Error::about("lens to glasses", format_args!("{} mm", lens_to_spectacle.mm()), why));
    }
    let worn = eye.worn_power();
    let glasses = Element::Lens { power: worn, clear_diameter: None };
    let train = Train::new([
        Element::Lens { power, clear_diameter: Some(clear_diameter) },
        Element::Gap(lens_to_spectacle),
        glasses,
    ])
    .to_eye(eye.spectacle_to_eye);
    let arrangement = Arrangement::of(train, Sight::Far);
    let bare = Arrangement::of(Train::new([glasses]).to_eye(eye.spectacle_to_eye), Sight::Far);
    let seen = arrangement.view();
    Ok(MinusLensInUse {
        power,
        lens_to_spectacle,
        spectacle_to_eye: eye.spectacle_to_eye,
        worn,
        magnification: Magnification::from_times(seen.enlargement / bare.view().enlargement),
        focus_demand: seen.focus_demand,
        arrangement,
    })
}

#[cfg(feature = "alloc")]
impl Explain for MinusLensInUse {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let metre = |symbol, length: Length| Named::new(symbol, length.m(), Unit::Metre);
        let (f, f_w) = (dioptre("F", self.power), dioptre("F_w", self.worn));
        let (z, v) = (metre("z", self.lens_to_spectacle), metre("v", self.spectacle_to_eye));
        alloc::vec![
            Step::formula(
                &formula::MINUS_LENS,
                Named::new("M", self.magnification.times(), Unit::Times),
                [f, f_w, z, v],
            ),
            Step::formula(&formula::MINUS_LENS_DEMAND, dioptre("A", self.focus_demand), [f, f_w, z, v]),
        ]
    }
}

/// What a minifier does for a field that is small.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldGain {
    /// Magnification of the minifier, below one, without sign.
    pub magnification: Magnification,
    /// The person's own field, full angle.
    pub own_field: Angle,
    /// What of the world falls into it, full angle.
    pub seen_extent: Angle,
    /// What is lost of acuity, in log units.
    pub acuity_loss: LogMar,
}

/// How much more of the world a minifier brings into a field, and what it costs of acuity: `log10(1/M)`.
///
/// * `own_field`: full angle, above zero and below 180 degrees.
/// * Source: definition; tangent rule, image without distortion.
///
/// # Errors
/// [`crate::Why::OutOfRange`] outside those limits.
///
/// ```
/// use arcminute_core::{device::field_gain, unit::{Angle, Magnification}};
/// // 10° through 0.5x take in 19.8° and cost 0.30 log (computed).
/// let gain = field_gain(Magnification::from_times(0.5), Angle::from_degrees(10.0))?;
/// assert!((gain.seen_extent.degrees() - 19.8).abs() < 0.05);
/// assert!((gain.acuity_loss.log() - 0.301).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn field_gain(magnification: Magnification, own_field: Angle) -> Result<FieldGain, Error> {
    bounds::MINIFICATION.check(magnification.size())?;
    bounds::FIELD_DIAMETER.check(own_field.degrees())?;
    let magnification = Magnification::from_times(magnification.size());
    Ok(FieldGain {
        magnification,
        own_field,
        seen_extent: Angle::from_tangent((own_field / 2.0).tangent() / magnification.times()) * 2.0,
        acuity_loss: LogMar::from_log(-crate::math::log10(magnification.times())),
    })
}

#[cfg(feature = "alloc")]
impl Explain for FieldGain {
    fn steps(&self) -> Vec<Step> {
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        let own = Named::new("f", self.own_field.degrees(), Unit::Degree);
        alloc::vec![
            Step::formula(
                &formula::FIELD_GAIN,
                Named::new("f_seen", self.seen_extent.degrees(), Unit::Degree),
                [own, m],
            ),
            Step::formula(
                &formula::ACUITY_LOSS_OF_MINIFIER,
                Named::new("loss", self.acuity_loss.log(), Unit::LogMar),
                [m],
            ),
        ]
    }
}

/// Diameter of a lens that fills a field of this full angle from this distance: `2·D·tan(f/2)`.
///
/// ```
/// use arcminute_core::{device::diameter_to_fill, unit::{Angle, Length}};
/// // 10° at 30 cm: 52 mm (computed).
/// let diameter = diameter_to_fill(Angle::from_degrees(10.0), Length::from_cm(30.0));
/// assert!((diameter.mm() - 52.5).abs() < 0.05);
/// ```
#[must_use]
pub fn diameter_to_fill(own_field: Angle, lens_to_eye: Length) -> Length {
    lens_to_eye * (2.0 * (own_field / 2.0).tangent())
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn eye(worn_sphere: f64) -> Eye {
        Eye {
            sphere: Vergence::from_dioptres(worn_sphere),
            ..Eye::corrected(LogMar::from_log(0.3), LogMar::from_log(0.2))
        }
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for sphere in [-5.0, 0.0, 4.0] {
            for (power, z) in [(-2.0, 0.0), (-5.0, 0.3), (-10.0, 0.5)] {
                let held = hold_minus(
                    Vergence::from_dioptres(power),
                    Length::from_mm(80.0),
                    &eye(sphere),
                    Length::from_m(z),
                )?;
                for step in held.steps() {
                    assert_eq!(step.check(), Ok(()), "{sphere} D {power} D {z} m");
                }
            }
        }
        for step in field_gain(Magnification::from_times(-0.25), Angle::from_degrees(12.0))?.steps() {
            assert_eq!(step.check(), Ok(()), "a quarter");
        }
        Ok(())
    }

    #[test]
    fn a_lens_that_does_not_make_smaller_is_refused() {
        let hold = |power: f64, z: f64| {
            hold_minus(Vergence::from_dioptres(power), Length::from_mm(80.0), &eye(0.0), Length::from_mm(z))
        };
        assert_eq!(
            hold(0.0, 300.0).expect_err("no power").to_string(),
            "power of the lens `0 D` has no solution: a lens of minus power is wanted"
        );
        assert_eq!(
            hold(-5.0, -1.0).expect_err("behind the glasses").to_string(),
            "lens to glasses `-1 mm` has no solution: the lens has to be in front of the glasses"
        );
        assert!(hold(-5.0, 0.0).is_ok(), "on the glasses");
        let gain =
            |times: f64, field: f64| field_gain(Magnification::from_times(times), Angle::from_degrees(field));
        assert_eq!(gain(1.5, 10.0).expect_err("larger").to_string(), "minification `1.5 x` is not possible");
        assert_eq!(
            gain(0.5, 180.0).expect_err("half the world").to_string(),
            "field diameter `180 degrees` is not possible"
        );
    }
}
