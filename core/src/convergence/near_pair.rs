//! Bare eyes and eyes behind a pair of near lenses.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::RayMatrix;
use crate::unit::{Length, Prism, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// One eye and the near lens before it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EyeAndLens {
    /// Centre of rotation of the eye from the midline: its part of the distance PD.
    pub eye_from_midline: Length,
    /// Optical centre of the lens from the midline.
    pub centre_from_midline: Length,
    /// Power of the lens.
    pub power: Vergence,
    /// Prism worked on the lens besides what its decentration gives; base-in positive.
    pub base_in: Prism,
    /// Lens to the eye's centre of rotation.
    pub stop_distance: Length,
}

/// How far one eye turns in for print on the midline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Convergence {
    /// Eye and lens.
    pub eye: EyeAndLens,
    /// Print to the lens.
    pub print_to_lens: Length,
    /// Image of the print to the lens, on the side of the print; `None` when the print is in the focus or beyond it.
    pub image_to_lens: Option<Length>,
    /// Where the line of sight crosses the lens, from the midline.
    pub crossing: Length,
    /// What this eye turns in, at its centre of rotation.
    pub per_eye: Prism,
    /// What two such eyes turn in together.
    pub both: Prism,
    /// What this eye would turn in without lens and prism.
    pub bare: Prism,
    /// What lens and prism spare it; negative when they ask for more.
    pub relief: Prism,
    /// Rule of thumb for two such bare eyes: metre angles times the PD in centimetres.
    pub metre_angle_rule: Prism,
}

impl EyeAndLens {
    pub(super) fn checked(&self, print_to_lens: Length) -> Result<RayMatrix, Error> {
        bounds::MONOCULAR_PD.check(self.eye_from_midline.mm())?;
        bounds::CENTRE_FROM_MIDLINE.check(self.centre_from_midline.mm())?;
        bounds::SPHERE.check(self.power.dioptres())?;
        bounds::BASE_IN.check(self.base_in.prism_dioptres())?;
        bounds::STOP_DISTANCE.check(self.stop_distance.mm())?;
        bounds::MOUNT_DISTANCE.check(print_to_lens.mm())?;
        let from_print = RayMatrix::gap(print_to_lens)
            .then(RayMatrix::lens(self.power))
            .then(RayMatrix::gap(self.stop_distance));
        if Length::ZERO < from_print.b {
            return Ok(from_print);
        }
        let why = Why::NoSolution { because: "the light crosses over before the eye" };
        Err(Error::about("print to lens", format_args!("{} mm", print_to_lens.mm()), why))
    }

    /// Slope, away from the midline positive, that lens and prism give a ray that crosses the lens on the midline.
    pub(super) fn turn_at_midline(&self) -> f64 {
        self.power.dioptres() * self.centre_from_midline.m() - self.base_in.prism_dioptres() / 100.0
    }

    /// How far the eye turns in for print on the midline, `print_to_lens` in front of the lens.
    ///
    /// With print in the focus it is `100·p_c·F − δ`, whatever the PD and the place of the eye.
    ///
    /// * Domain: thin lens, paraxial, a line of sight through the centre of rotation.
    /// * Source: the ray-transfer engine; closed form in the working ([`crate::source::PARAXIAL`]).
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for an impossible value; [`Why::NoSolution`] when the light crosses over before the eye.
    ///
    /// ```
    /// use arcminute_core::convergence::EyeAndLens;
    /// use arcminute_core::unit::{Length, Prism, Vergence};
    /// let mm = Length::from_mm;
    /// // PD 64, +10 D centred at the PD with 12 prism dioptres base-in, print in the focus: 20 an eye (computed).
    /// let eye = EyeAndLens {
    ///     eye_from_midline: mm(32.0),
    ///     centre_from_midline: mm(32.0),
    ///     power: Vergence::from_dioptres(10.0),
    ///     base_in: Prism::from_prism_dioptres(12.0),
    ///     stop_distance: mm(27.0),
    /// };
    /// let turned = eye.converge(mm(100.0))?;
    /// assert!((turned.per_eye.prism_dioptres() - 20.0).abs() < 1e-9);
    /// assert!((turned.bare.prism_dioptres() - 25.20).abs() < 0.005);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn converge(&self, print_to_lens: Length) -> Result<Convergence, Error> {
        let from_print = self.checked(print_to_lens)?;
        let (p, s, turn) = (self.eye_from_midline, self.stop_distance, self.turn_at_midline());
        // The ray from the midline that goes through the centre of rotation.
        let slope = (p - s * turn) / from_print.b;
        let per_eye = Prism::from_prism_dioptres(100.0 * (from_print.d * slope + turn));
        let bare = Prism::from_prism_dioptres(100.0 * (p / (print_to_lens + s)));
        Ok(Convergence {
            eye: *self,
            print_to_lens,
            image_to_lens: (IN_FOCUS < from_print.d).then(|| print_to_lens / from_print.d),
            crossing: print_to_lens * slope,
            per_eye,
            both: per_eye * 2.0,
            bare,
            relief: bare - per_eye,
            metre_angle_rule: Prism::from_prism_dioptres(p.cm() * 2.0 / print_to_lens.m()),
        })
    }
}

/// Share of the focal length within which print counts as in the focus; rounding, not measurement.
const IN_FOCUS: f64 = 1e-9;

#[cfg(feature = "alloc")]
pub(super) fn mm(symbol: &'static str, length: Length) -> Named {
    Named::new(symbol, length.mm(), Unit::Millimetre)
}
#[cfg(feature = "alloc")]
pub(super) fn prism(symbol: &'static str, prism: Prism) -> Named {
    Named::new(symbol, prism.prism_dioptres(), Unit::PrismDioptre)
}
#[cfg(feature = "alloc")]
pub(super) fn dioptre(symbol: &'static str, power: Vergence) -> Named {
    Named::new(symbol, power.dioptres(), Unit::Dioptre)
}

/// The exact step, with this prism.
#[cfg(feature = "alloc")]
pub(super) fn convergence_step(
    eye: &EyeAndLens,
    print_to_lens: Length,
    base_in: Prism,
    per_eye: Prism,
) -> Step {
    let inputs = [
        mm("p", eye.eye_from_midline),
        mm("p_c", eye.centre_from_midline),
        mm("s", eye.stop_distance),
        mm("u", print_to_lens),
        dioptre("F", eye.power),
        prism("delta", base_in),
    ];
    Step::formula(&formula::CONVERGENCE, prism("theta", per_eye), inputs)
}

#[cfg(feature = "alloc")]
impl Explain for Convergence {
    fn steps(&self) -> Vec<Step> {
        let (p, u) = (mm("p", self.eye.eye_from_midline), mm("u", self.print_to_lens));
        let s = mm("s", self.eye.stop_distance);
        let (bare, per_eye) = (prism("theta_0", self.bare), prism("theta", self.per_eye));
        let mut steps = alloc::vec![Step::formula(&formula::BARE_CONVERGENCE, bare, [p, u, s])];
        if let Some(image) = self.image_to_lens {
            let inputs = [u, dioptre("F", self.eye.power)];
            steps.push(Step::formula(&formula::IMAGE_OF_PRINT, mm("v", image), inputs));
        }
        steps.extend([
            convergence_step(&self.eye, self.print_to_lens, self.eye.base_in, self.per_eye),
            Step::formula(&formula::CONVERGENCE_RELIEF, prism("relief", self.relief), [bare, per_eye]),
            Step::formula(&formula::METRE_ANGLES, prism("rule", self.metre_angle_rule), [p, u]),
        ]);
        steps
    }
}

/// How far a near lens has to be set in so that it adds no prism.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inset {
    /// Centre of rotation of the eye from the midline.
    pub eye_from_midline: Length,
    /// Print to the lens.
    pub print_to_lens: Length,
    /// Lens to the eye's centre of rotation.
    pub stop_distance: Length,
    /// Power of the lens.
    pub power: Vergence,
    /// From the place for far to the line of sight, inward.
    pub inset: Length,
    /// The line of sight in the plane of the lens, from the midline.
    pub crossing: Length,
    /// Base-out prism that a lens centred for far adds.
    pub induced_base_out: Prism,
    /// Inset by a rule that is remembered only: the exact one with a lens 38 mm before the centre of rotation.
    pub remembered_rule: Length,
}

/// Inset of one near lens that puts its optical centre on the line of sight: `c = p·s/(u + s)`.
///
/// The prism that a lens centred for far adds is `c·F`, base-out for plus.
///
/// * Domain: print on the midline. Source: geometry; the rule from [`crate::source::LEBENSOHN_FONDA`].
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible value.
///
/// ```
/// use arcminute_core::{convergence::inset, unit::{Length, Vergence}};
/// let mm = Length::from_mm;
/// // PD 64, print at 10 cm through +10 D: 6.80 mm an eye, or 6.80 prism dioptres base-out (computed).
/// let set_in = inset(mm(32.0), mm(100.0), mm(27.0), Vergence::from_dioptres(10.0))?;
/// assert!((set_in.inset.mm() - 6.80).abs() < 0.005);
/// assert!((set_in.induced_base_out.prism_dioptres() - 6.80).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn inset(
    eye_from_midline: Length,
    print_to_lens: Length,
    stop_distance: Length,
    power: Vergence,
) -> Result<Inset, Error> {
    let bare = EyeAndLens {
        eye_from_midline,
        centre_from_midline: eye_from_midline,
        power: Vergence::ZERO,
        base_in: Prism::ZERO,
        stop_distance,
    };
    bounds::SPHERE.check(power.dioptres())?;
    let crossing = bare.converge(print_to_lens)?.crossing;
    let inset = eye_from_midline - crossing;
    let remembered = Length::from_inches(1.5);
    Ok(Inset {
        eye_from_midline,
        print_to_lens,
        stop_distance,
        power,
        inset,
        crossing,
        induced_base_out: Prism::from_prism_dioptres(inset.cm() * power.dioptres()),
        remembered_rule: eye_from_midline * (remembered / (print_to_lens + remembered)),
    })
}

#[cfg(feature = "alloc")]
impl Explain for Inset {
    fn steps(&self) -> Vec<Step> {
        let (p, u) = (mm("p", self.eye_from_midline), mm("u", self.print_to_lens));
        let c = mm("c", self.inset);
        alloc::vec![
            Step::formula(&formula::NEAR_INSET, c, [p, u, mm("s", self.stop_distance)]),
            Step::formula(&formula::NEAR_CROSSING, mm("p_n", self.crossing), [p, c]),
            Step::formula(
                &formula::INDUCED_BASE_OUT,
                prism("BO", self.induced_base_out),
                [c, dioptre("F", self.power)]
            ),
            Step::formula(&formula::REMEMBERED_INSET, mm("c_r", self.remembered_rule), [p, u]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn eye(power: f64, centre: f64, base_in: f64) -> EyeAndLens {
        EyeAndLens {
            eye_from_midline: Length::from_mm(32.0),
            centre_from_midline: Length::from_mm(centre),
            power: Vergence::from_dioptres(power),
            base_in: Prism::from_prism_dioptres(base_in),
            stop_distance: Length::from_mm(27.0),
        }
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for (power, centre, base_in) in
            [(0.0, 32.0, 0.0), (10.0, 28.0, 12.0), (-5.0, 32.0, -3.0), (4.0, 0.0, 0.0)]
        {
            for print in [60.0, 100.0, 251.0, 400.0] {
                let Ok(turned) = eye(power, centre, base_in).converge(Length::from_mm(print)) else {
                    continue;
                };
                assert_eq!(turned.steps().len(), if turned.image_to_lens.is_some() { 5 } else { 4 });
                let set_in = inset(
                    Length::from_mm(32.0),
                    Length::from_mm(print),
                    Length::from_mm(27.0),
                    Vergence::from_dioptres(power),
                )?;
                for step in turned.steps().iter().chain(&set_in.steps()) {
                    assert_eq!(step.check(), Ok(()), "{turned:?}");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn the_image_is_there_before_the_focus_only() -> Result<(), Error> {
        let image = |print| {
            eye(10.0, 32.0, 0.0)
                .converge(Length::from_mm(print))
                .map(|turned| turned.image_to_lens.map(|image| image.mm()))
        };
        assert!((image(80.0)?.unwrap_or_default() - 400.0).abs() < 1e-9, "80 mm of 100");
        assert_eq!((image(100.0)?, image(120.0)?), (None, None), "in the focus and beyond");
        Ok(())
    }

    #[test]
    fn relief_is_what_is_spared() -> Result<(), Error> {
        let at_focus = |base_in| eye(10.0, 32.0, base_in).converge(Length::from_mm(100.0));
        assert!(
            (at_focus(0.0)?.relief.prism_dioptres() + 6.803).abs() < 5e-4,
            "centred for far: 32 for 25.2"
        );
        assert!((at_focus(12.0)?.relief.prism_dioptres() - 5.197).abs() < 5e-4, "20 for 25.2");
        assert!((at_focus(12.0)?.both.prism_dioptres() - 40.0).abs() < 1e-9, "two eyes");
        Ok(())
    }

    #[test]
    fn impossible_values_are_refused() {
        let told = |eye: EyeAndLens, print: f64| {
            let error = eye.converge(Length::from_mm(print)).expect_err("not possible");
            (error.to_string(), error.hint().to_string())
        };
        let usual = eye(10.0, 32.0, 0.0);
        let mm = Length::from_mm;
        for (bad, message, hint) in [
            (EyeAndLens { eye_from_midline: mm(50.0), ..usual }, "monocular PD `50 mm`", "use 15 to 45 mm"),
            (eye(10.0, -21.0, 0.0), "optical centre from the midline `-21 mm`", "use -20 to 60 mm"),
            (eye(41.0, 32.0, 0.0), "sphere `41 D`", "use -60 to 40 D"),
            (eye(10.0, 32.0, 101.0), "base-in prism `101 prism dioptres`", "use -100 to 100 prism dioptres"),
            (
                EyeAndLens { stop_distance: mm(f64::NAN), ..usual },
                "lens to rotation centre `NaN mm`",
                "use 8 to 60 mm",
            ),
        ] {
            assert_eq!(told(bad, 100.0), (alloc::format!("{message} is not possible"), hint.into()));
        }
        assert_eq!(told(usual, 10.0).0, "working distance `10 mm` is not possible");
        let (message, hint) = told(eye(40.0, 32.0, 0.0), 9000.0);
        let crossed = "print to lens `9000 mm` has no solution: the light crosses over before the eye";
        assert_eq!((message.as_str(), hint.as_str()), (crossed, "change one of the values it depends on"));
        // 1/125 and 1/31.25 per millimetre are 40 D: the light comes together in the centre of rotation itself.
        let in_the_eye = EyeAndLens { stop_distance: mm(31.25), ..eye(40.0, 32.0, 0.0) };
        let message = "print to lens `125 mm` has no solution: the light crosses over before the eye";
        assert_eq!(told(in_the_eye, 125.0).0, message);
        let d = Vergence::from_dioptres;
        assert!(inset(mm(32.0), mm(100.0), mm(27.0), d(f64::NAN)).is_err(), "no power");
        assert!(inset(mm(32.0), mm(f64::NAN), mm(27.0), d(1.0)).is_err(), "no distance");
    }
}
