//! What blur costs: the disc on the retina, the acuity of a normal eye, and that of an eye that sees little.
//!
//! Blur is measured by its strength b, in dioptres: what is left of sphere and cylinder, taken as a power vector. An eye
//! of low acuity is hurt less by the same blur: its own loss and the blur add as the root of the sum of their squares.
//! That sum is a model of ours, not validated in a clinic; "harmless to reading" is not "unnoticed".

#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
#[cfg(feature = "alloc")]
use crate::source;
use crate::unit::{Angle, Length, LogMar, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// MAR of the normal eye in the fit without blur, in minutes of arc.
const NORMAL_MAR: f64 = 1.25;
/// Rise of the fit with the square of the strength, per square dioptre.
const NORMAL_RISE: f64 = 1.08;
/// Strength up to which the fitted table runs, in dioptres.
const TABLE_END: f64 = 3.5;

/// A disc of blur on the retina.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlurDisc {
    /// Diameter of the eye's pupil.
    pub pupil: Length,
    /// Sphere out of focus, either way.
    pub defocus: Vergence,
    /// Diameter of the disc, as an angle in front of the eye.
    pub disc: Angle,
}

/// Diameter of the disc that a point becomes: pupil times defocus, 3.4377 arcmin for each millimetre and dioptre.
///
/// * Domain: geometry, so without diffraction; one fifth of it is the order of the acuity that is left.
/// * Source: [`crate::source::STRASBURGER_2018`].
///
/// ```
/// use arcminute_core::{optics::blur_disc, unit::{Length, Vergence}};
/// let blur = blur_disc(Length::from_mm(4.0), Vergence::from_dioptres(2.5));
/// assert!((blur.disc.arcmin() - 34.38).abs() < 0.005); // computed
/// ```
#[must_use]
pub fn blur_disc(pupil: Length, defocus: Vergence) -> BlurDisc {
    BlurDisc { pupil, defocus, disc: Angle::from_radians(pupil.m() * defocus.abs().dioptres()) }
}

#[cfg(feature = "alloc")]
impl Explain for BlurDisc {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::BLUR_DISC,
            Named::new("disc", self.disc.arcmin(), Unit::Arcmin),
            [
                Named::new("p", self.pupil.mm(), Unit::Millimetre),
                Named::new("E", self.defocus.dioptres(), Unit::Dioptre),
            ],
        )]
    }
}

/// Strength of blur, `b = √(M² + J0² + J45²)`, from the sphere and the cylinder that are left.
///
/// * `mean_sphere_left`: mean sphere out of focus, either sign. `cylinder_left`: its sign does not count; its axis is left
///   out, as `J0² + J45² = (C/2)²`.
/// * Source: [`crate::source::THIBOS_1997`].
///
/// ```
/// use arcminute_core::{optics::blur_strength, unit::Vergence};
/// // A cylinder of 2 D in best focus is worth 1 D of sphere (definition).
/// let two = Vergence::from_dioptres(2.0);
/// assert_eq!(blur_strength(Vergence::ZERO, two).dioptres(), 1.0);
/// ```
#[must_use]
pub fn blur_strength(mean_sphere_left: Vergence, cylinder_left: Vergence) -> Vergence {
    Vergence::from_dioptres(math::hypot(mean_sphere_left.dioptres(), cylinder_left.dioptres() / 2.0))
}

/// Acuity of a blurred normal eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NormalEyeBlur {
    /// Strength of the blur.
    pub strength: Vergence,
    /// Least detail seen.
    pub mar: Angle,
    /// Whether the strength lies beyond the table that the fit stands on, which ends at 3.5 D.
    pub beyond_domain: bool,
}

/// Least detail that a normal eye sees with this blur: `1.25·(1 + 1.08·b²)` arcmin.
///
/// * Domain: daylight, natural pupil, young healthy eyes, strength to 3.5 D; beyond, the record says so. It must not be
///   multiplied with a low acuity: for that see [`blurred`].
/// * Source: form of [`crate::source::BLENDOWSKE_2015`], constants fitted here to the table it names.
///
/// ```
/// use arcminute_core::{optics::normal_eye_mar, unit::Vergence};
/// let blurred = normal_eye_mar(Vergence::from_dioptres(2.5));
/// assert!((blurred.mar.arcmin() - 9.69).abs() < 0.005); // computed; the table says 10
/// ```
#[must_use]
pub fn normal_eye_mar(strength: Vergence) -> NormalEyeBlur {
    let b = strength.dioptres();
    NormalEyeBlur {
        strength,
        mar: Angle::from_arcmin(NORMAL_MAR * (1.0 + NORMAL_RISE * b * b)),
        beyond_domain: TABLE_END < math::abs(b),
    }
}

#[cfg(feature = "alloc")]
impl Explain for NormalEyeBlur {
    fn steps(&self) -> Vec<Step> {
        let mut steps = alloc::vec![Step::formula(
            &formula::NORMAL_EYE_BLUR,
            Named::new("MAR_n", self.mar.arcmin(), Unit::Arcmin),
            [Named::new("b", self.strength.dioptres(), Unit::Dioptre)],
        )];
        steps.extend(beyond(self.beyond_domain));
        steps
    }
}

#[cfg(feature = "alloc")]
fn beyond(beyond_domain: bool) -> Option<Step> {
    let source = &source::BLENDOWSKE_2015;
    beyond_domain.then_some(Step::Rule { because: "blur-beyond-the-table-which-ends-at-3.5-D", source })
}

/// What blur does to the acuity of one person.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blurred {
    /// Least detail seen without blur.
    pub own: Angle,
    /// Mean sphere left out of focus.
    pub defocus: Vergence,
    /// Cylinder left, without sign.
    pub cylinder_left: Vergence,
    /// Strength of the blur.
    pub strength: Vergence,
    /// What the blur alone adds to a normal eye, as a detail.
    pub blur_term: Angle,
    /// Least detail seen with the blur.
    pub mar: Angle,
    /// What the blur costs.
    pub loss: LogMar,
    /// Whether the strength lies beyond the table that the blur term stands on, which ends at 3.5 D.
    pub beyond_domain: bool,
}

/// Least detail that a person sees with blur, `√(MAR₀² + B²)`, B being what the blur adds to a normal eye.
///
/// * `own`: MAR in best correction, above zero; for another the loss is not finite.
/// * Domain: strength to 3.5 D; beyond, the record says so.
/// * Source: [`crate::source::BLUR_IN_LOW_VISION`]: assumed, not clinically validated; the form is that of
///   `McAnany` et al. 2011.
///
/// ```
/// use arcminute_core::{optics::blurred, unit::{Angle, Vergence}};
/// // 20/200 and 2 D of blur: 11.94 arcmin, a loss of 0.077 log (computed).
/// let seen = blurred(Angle::from_arcmin(10.0), Vergence::from_dioptres(2.0), Vergence::ZERO);
/// assert!((seen.mar.arcmin() - 11.94).abs() < 0.005);
/// assert!((seen.loss.log() - 0.077).abs() < 0.0005);
/// ```
#[must_use]
pub fn blurred(own: Angle, defocus: Vergence, cylinder_left: Vergence) -> Blurred {
    let strength = blur_strength(defocus, cylinder_left);
    let rise = NORMAL_RISE * strength.dioptres() * strength.dioptres();
    // √(MAR_n² − 1.25²) without the difference of two numbers that are nearly the same.
    let blur_term = Angle::from_arcmin(NORMAL_MAR * math::sqrt(rise * (2.0 + rise)));
    let mar = Angle::from_arcmin(math::hypot(own.arcmin(), blur_term.arcmin()));
    Blurred {
        own,
        defocus,
        cylinder_left,
        strength,
        blur_term,
        mar,
        loss: LogMar::from_log(math::log10(mar / own)),
        beyond_domain: normal_eye_mar(strength).beyond_domain,
    }
}

#[cfg(feature = "alloc")]
impl Explain for Blurred {
    fn steps(&self) -> Vec<Step> {
        let strength = Named::new("b", self.strength.dioptres(), Unit::Dioptre);
        let blur_term = Named::new("B", self.blur_term.arcmin(), Unit::Arcmin);
        let own = Named::new("MAR_0", self.own.arcmin(), Unit::Arcmin);
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let left = [
            Named::new("E", self.defocus.dioptres(), Unit::Dioptre),
            Named::new("C", self.cylinder_left.dioptres(), Unit::Dioptre),
        ];
        let mut steps = alloc::vec![
            Step::formula(&formula::BLUR_STRENGTH, strength, left),
            Step::formula(&formula::BLUR_TERM, blur_term, [strength]),
            Step::formula(&formula::BLURRED_MAR, mar, [own, blur_term]),
            Step::formula(&formula::BLUR_LOSS, Named::new("loss", self.loss.log(), Unit::LogMar), [mar, own],),
        ];
        steps.extend(beyond(self.beyond_domain));
        steps
    }
}

/// How much defocus a person can bear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlurTolerance {
    /// Least detail seen without blur.
    pub own: Angle,
    /// Loss that is allowed; zero or more.
    pub loss: LogMar,
    /// Blur term that costs it.
    pub blur_term: Angle,
    /// Defocus, either way, that costs it.
    pub defocus: Vergence,
    /// What the trade rule for the step that is just noticed says, either way: MAR/10 dioptres.
    pub trade_rule: Vergence,
    /// Whether the defocus lies beyond the table that the blur term stands on, which ends at 3.5 D.
    pub beyond_domain: bool,
}

/// The defocus that costs a person this much: the closed inverse of [`blurred`], and the trade rule MAR/10 beside it.
///
/// * `own`: MAR in best correction, above zero. `loss`: zero or more; less is taken as zero.
/// * Domain: to 3.5 D; beyond, the record says so.
/// * Source: [`crate::source::BLUR_IN_LOW_VISION`]: assumed, not clinically validated.
///
/// ```
/// use arcminute_core::{optics::blur_tolerance, unit::{Angle, LogMar}};
/// // 20/200: 0.1 log is lost at 2.19 D (computed); the trade rule says 1 D either way.
/// let tolerance = blur_tolerance(Angle::from_arcmin(10.0), LogMar::from_log(0.1));
/// assert!((tolerance.defocus.dioptres() - 2.19).abs() < 0.005);
/// assert_eq!(tolerance.trade_rule.dioptres(), 1.0);
/// ```
#[must_use]
pub fn blur_tolerance(own: Angle, loss: LogMar) -> BlurTolerance {
    let loss = loss.max(LogMar::ZERO);
    let blur_term = own * math::sqrt(math::pow(10.0, 2.0 * loss.log()) - 1.0);
    let square = math::pow(blur_term.arcmin() / NORMAL_MAR, 2.0);
    // √(1 + q) − 1, without the difference of two numbers that are nearly the same.
    let rise = square / (1.0 + math::sqrt(1.0 + square));
    let defocus = Vergence::from_dioptres(math::sqrt(rise / NORMAL_RISE));
    BlurTolerance {
        own,
        loss,
        blur_term,
        defocus,
        trade_rule: Vergence::from_dioptres(own.arcmin() / 10.0),
        beyond_domain: normal_eye_mar(defocus).beyond_domain,
    }
}

/// The defocus alone, of [`blur_tolerance`].
///
/// ```
/// use arcminute_core::{optics::{blurred, defocus_for_loss}, unit::{Angle, LogMar, Vergence}};
/// let own = Angle::from_arcmin(4.0);
/// let defocus = defocus_for_loss(own, LogMar::from_log(0.1));
/// assert!((blurred(own, defocus, Vergence::ZERO).loss.log() - 0.1).abs() < 1e-12);
/// ```
#[must_use]
pub fn defocus_for_loss(own: Angle, loss: LogMar) -> Vergence {
    blur_tolerance(own, loss).defocus
}

#[cfg(feature = "alloc")]
impl Explain for BlurTolerance {
    fn steps(&self) -> Vec<Step> {
        let own = Named::new("MAR_0", self.own.arcmin(), Unit::Arcmin);
        let blur_term = Named::new("B", self.blur_term.arcmin(), Unit::Arcmin);
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let loss = Named::new("loss", self.loss.log(), Unit::LogMar);
        let mut steps = alloc::vec![
            Step::formula(&formula::BLUR_ALLOWED, blur_term, [own, loss]),
            Step::formula(&formula::DEFOCUS_ALLOWED, dioptre("b", self.defocus), [blur_term]),
            Step::formula(&formula::TRADE_STEP, dioptre("step", self.trade_rule), [own]),
        ];
        steps.extend(beyond(self.beyond_domain));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn d(dioptres: f64) -> Vergence {
        Vergence::from_dioptres(dioptres)
    }

    #[test]
    fn the_end_of_the_table_is_told() {
        for (b, beyond) in [(0.0, false), (3.5, false), (3.501, true), (-3.5, false), (-3.501, true)] {
            assert_eq!(normal_eye_mar(d(b)).beyond_domain, beyond, "{b} D");
            let seen = blurred(Angle::from_arcmin(4.0), d(b), Vergence::ZERO);
            assert_eq!(seen.beyond_domain, beyond, "{b} D");
            assert_eq!(seen.steps().len(), if beyond { 5 } else { 4 }, "{b} D");
            assert_eq!(normal_eye_mar(d(b)).steps().len(), if beyond { 2 } else { 1 }, "{b} D");
        }
        let much = blur_tolerance(Angle::from_arcmin(40.0), LogMar::from_log(0.1));
        assert!(much.beyond_domain && 3.5 < much.defocus.dioptres(), "{much:?}");
        assert_eq!(much.steps().len(), 4, "and the end is told");
    }

    #[test]
    fn working_agrees() {
        for mar in [0.5, 1.0, 4.0, 10.0, 63.0] {
            for b in [-6.0, -1.0, 0.0, 1e-6, 0.25, 3.5, 9.0] {
                for cylinder in [0.0, 0.75, 4.0] {
                    let seen = blurred(Angle::from_arcmin(mar), d(b), d(cylinder));
                    let disc = blur_disc(Length::from_mm(3.0), d(b));
                    let all = [seen.steps(), disc.steps(), normal_eye_mar(d(b)).steps()];
                    for step in all.iter().flatten() {
                        assert_eq!(step.check(), Ok(()), "{mar} {b} {cylinder}");
                    }
                }
            }
            for loss in [0.0, 0.001, 0.1, 0.3, 1.0] {
                for step in blur_tolerance(Angle::from_arcmin(mar), LogMar::from_log(loss)).steps() {
                    assert_eq!(step.check(), Ok(()), "{mar} {loss}");
                }
            }
        }
    }

    #[test]
    fn no_loss_allows_no_defocus() {
        for loss in [0.0, -0.2] {
            let none = blur_tolerance(Angle::from_arcmin(10.0), LogMar::from_log(loss));
            assert_eq!((none.defocus, none.loss), (Vergence::ZERO, LogMar::ZERO), "{loss} log");
        }
        let own = Angle::from_arcmin(10.0);
        assert_eq!(blurred(own, Vergence::ZERO, Vergence::ZERO).mar, own, "no blur, no loss");
    }

    #[test]
    fn what_is_no_number_stays_none() {
        assert!(!blurred(Angle::ZERO, d(1.0), Vergence::ZERO).loss.is_finite(), "no own acuity");
        assert!(
            !blurred(Angle::from_arcmin(10.0), d(f64::NAN), Vergence::ZERO).mar.is_finite(),
            "no defocus"
        );
        assert!(!blur_tolerance(Angle::from_arcmin(f64::NAN), LogMar::from_log(0.1)).defocus.is_finite());
    }
}
