//! Prism by decentration.
//!
//! ```text
//!   as the examiner sees the person        up
//!                                          |
//!     right eye   nose   left eye          +-- examiner's right, towards which the right eye's nose lies
//! ```
//!
//! A line of sight that does not go through the optical centre meets a prism: `P = c·F`, Prentice's rule. A cylinder has
//! no one power to put into it: what counts is the power along the shift, and where the axis is oblique a shift across
//! gives prism up or down as well. So the rule stands here with the whole power matrix. The sphere of a prescription taken
//! for its power is the usual slip; what that would give is recorded beside it.

use super::Refraction;
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
#[cfg(doc)]
use crate::source;
use crate::unit::{Angle, Length, Prism, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// One of a person's two eyes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Eye {
    /// The person's right eye; drawn on the viewer's left.
    Right,
    /// The person's left eye; drawn on the viewer's right.
    Left,
}

impl Eye {
    /// The other eye.
    ///
    /// ```
    /// use arcminute_core::refraction::Eye;
    /// assert_eq!((Eye::Right.fellow(), Eye::Left.fellow()), (Eye::Left, Eye::Right));
    /// ```
    #[must_use]
    pub fn fellow(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }

    /// 1 where the nose lies towards the examiner's right, which is so of the right eye; −1 of the left.
    ///
    /// ```
    /// use arcminute_core::refraction::Eye;
    /// assert_eq!((Eye::Right.nose_side(), Eye::Left.nose_side()), (1.0, -1.0));
    /// ```
    #[must_use]
    pub fn nose_side(self) -> f64 {
        match self {
            Self::Right => 1.0,
            Self::Left => -1.0,
        }
    }
}

/// Where the base of a prism is, for the person who wears it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Base {
    /// Towards the nose.
    In,
    /// Towards the temple.
    Out,
    /// Upward.
    Up,
    /// Downward.
    Down,
}

/// A lens whose optical centre is beside the pupil, and the prism it has there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Decentred {
    /// The lens.
    pub refraction: Refraction,
    /// The eye behind it.
    pub eye: Eye,
    /// From the pupil to the optical centre, towards the nose positive.
    pub inward: Length,
    /// From the pupil to the optical centre, upward positive.
    pub upward: Length,
    /// Power across for a shift across, `S + C·sin²a`.
    pub across: Vergence,
    /// Power across for a shift upward, towards the examiner's right, and the other way round: `−C·sin a·cos a`.
    pub crossed: Vergence,
    /// Power upward for a shift upward, `S + C·cos²a`.
    pub upright: Vergence,
    /// Prism at the pupil across; base in positive, base out negative.
    pub base_in: Prism,
    /// Prism at the pupil up and down; base up positive, base down negative.
    pub base_up: Prism,
    /// Both together, without sign.
    pub prism: Prism,
    /// What the sphere of the prescription taken for its power would give across; base in positive.
    pub base_in_by_sphere: Prism,
}

impl Refraction {
    /// The prism before the pupil of this eye, when the optical centre is this far from it, towards the nose and upward.
    ///
    /// * Domain: thin lens, paraxial; millimetres in the plane of the lens.
    /// * Source: geometry, Prentice's rule ([`source::PRENTICE`]) with the power matrix.
    ///
    /// # Errors
    /// [`OutOfRange`](crate::Why::OutOfRange) for an impossible power, axis or place;
    /// [`Missing`](crate::Why::Missing) for a cylinder without an axis.
    ///
    /// ```
    /// use arcminute_core::refraction::{Base, Eye, Refraction};
    /// use arcminute_core::unit::{Length, Prism, Vergence};
    /// let d = Vergence::from_dioptres;
    /// let lens = Refraction::of(d(2.0), d(-1.5), Some(90))?;
    /// // 2.5 mm to the nose: the power along 180 is +0.50, so 0.125 base in and not 0.50 (computed).
    /// let seen = lens.decentred(Eye::Right, Length::from_mm(2.5), Length::ZERO)?;
    /// assert_eq!(seen.horizontal(), Some((Prism::from_prism_dioptres(0.125), Base::In)));
    /// assert_eq!(seen.vertical(), None);
    /// assert_eq!(seen.base_in_by_sphere, Prism::from_prism_dioptres(0.5));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn decentred(&self, eye: Eye, inward: Length, upward: Length) -> Result<Decentred, Error> {
        let lens = Self::of(self.sphere, self.cylinder, self.axis)?;
        for shift in [inward, upward] {
            bounds::DECENTRATION.check(shift.mm())?;
        }
        let degrees = lens.axis.unwrap_or(180);
        let axis = Angle::from_degrees(f64::from(degrees));
        let (sine, cosine) = (axis.sine(), axis.cosine());
        let across = lens.sphere + lens.cylinder * (sine * sine);
        let upright = lens.sphere + lens.cylinder * (cosine * cosine);
        // Along a principal meridian nothing is crossed, to the last bit.
        let crossed = if degrees % 90 == 0 { Vergence::ZERO } else { -lens.cylinder * (sine * cosine) };
        let times = |power: Vergence, shift: Length| power.dioptres() * shift.cm();
        let side = eye.nose_side();
        let base_in = times(across, inward) + side * times(crossed, upward);
        let base_up = side * times(crossed, inward) + times(upright, upward);
        Ok(Decentred {
            refraction: lens,
            eye,
            inward,
            upward,
            across,
            crossed,
            upright,
            base_in: Prism::from_prism_dioptres(base_in),
            base_up: Prism::from_prism_dioptres(base_up),
            prism: Prism::from_prism_dioptres(math::hypot(base_in, base_up)),
            base_in_by_sphere: Prism::from_prism_dioptres(times(lens.sphere, inward)),
        })
    }
}

impl Decentred {
    /// Prism across without sign, and its base; `None` without any.
    ///
    /// ```
    /// use arcminute_core::refraction::{Base, Eye, Refraction};
    /// use arcminute_core::unit::{Length, Prism, Vergence};
    /// // Prentice's rule: +4 D with its centre 5 mm outward, 2 prism dioptres base out.
    /// let lens = Refraction::of(Vergence::from_dioptres(4.0), Vergence::ZERO, None)?;
    /// let seen = lens.decentred(Eye::Left, Length::from_cm(-0.5), Length::ZERO)?;
    /// assert_eq!(seen.horizontal(), Some((Prism::from_prism_dioptres(2.0), Base::Out)));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn horizontal(&self) -> Option<(Prism, Base)> {
        named(self.base_in, Base::In, Base::Out)
    }
    /// Prism up or down without sign, and its base; `None` without any.
    ///
    /// ```
    /// use arcminute_core::refraction::{Base, Eye, Refraction};
    /// use arcminute_core::unit::{Length, Prism, Vergence};
    /// // Prentice's rule: −4 D with its centre 5 mm up, 2 prism dioptres base down.
    /// let lens = Refraction::of(Vergence::from_dioptres(-4.0), Vergence::ZERO, None)?;
    /// let seen = lens.decentred(Eye::Left, Length::ZERO, Length::from_cm(0.5))?;
    /// assert_eq!(seen.vertical(), Some((Prism::from_prism_dioptres(2.0), Base::Down)));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn vertical(&self) -> Option<(Prism, Base)> {
        named(self.base_up, Base::Up, Base::Down)
    }
}

fn named(prism: Prism, positive: Base, negative: Base) -> Option<(Prism, Base)> {
    let base = if Prism::ZERO < prism { positive } else { negative };
    (prism != Prism::ZERO).then(|| (prism.abs(), base))
}

#[cfg(feature = "alloc")]
impl Explain for Decentred {
    fn steps(&self) -> Vec<Step> {
        let dioptres = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let prism = |symbol, prism: Prism| Named::new(symbol, prism.prism_dioptres(), Unit::PrismDioptre);
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let (inward, upward) = (mm("d_in", self.inward), mm("d_up", self.upward));
        let (sphere, cylinder) =
            (dioptres("S", self.refraction.sphere), dioptres("C", self.refraction.cylinder));
        let (base_in, base_up) = (prism("P_in", self.base_in), prism("P_up", self.base_up));
        let together = Step::formula(&formula::PRISM_TOGETHER, prism("P", self.prism), [base_in, base_up]);
        let Some(axis) = self.refraction.axis else {
            return vec![
                Step::formula(&formula::PRENTICE_ACROSS, base_in, [sphere, inward]),
                Step::formula(&formula::PRENTICE_UPWARD, base_up, [sphere, upward]),
                together,
            ];
        };
        let axis = Named::new("axis", f64::from(axis), Unit::Degree);
        let side = Named::new("nose", self.eye.nose_side(), Unit::Plain);
        let across = dioptres("F_across", self.across);
        let crossed = dioptres("F_crossed", self.crossed);
        let upright = dioptres("F_upright", self.upright);
        vec![
            Step::formula(&formula::POWER_ACROSS, across, [sphere, cylinder, axis]),
            Step::formula(&formula::POWER_CROSSED, crossed, [cylinder, axis]),
            Step::formula(&formula::POWER_UPRIGHT, upright, [sphere, cylinder, axis]),
            Step::formula(&formula::DECENTRED_ACROSS, base_in, [across, crossed, inward, upward, side]),
            Step::formula(&formula::DECENTRED_UPWARD, base_up, [crossed, upright, inward, upward, side]),
            together,
            Step::formula(
                &formula::PRENTICE_BY_SPHERE,
                prism("P_sphere", self.base_in_by_sphere),
                [sphere, inward],
            ),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn lens(sphere: f64, cylinder: f64, axis: Option<u16>) -> Refraction {
        Refraction {
            sphere: Vergence::from_dioptres(sphere),
            cylinder: Vergence::from_dioptres(cylinder),
            axis,
        }
    }
    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn prism(value: f64) -> Prism {
        Prism::from_prism_dioptres(value)
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for eye in [Eye::Right, Eye::Left] {
            for axis in [1, 30, 45, 90, 135, 180] {
                for (inward, upward) in [(2.5, 0.0), (0.0, -4.0), (-3.0, 6.5)] {
                    let seen = lens(-3.25, 2.75, Some(axis)).decentred(eye, mm(inward), mm(upward))?;
                    assert_eq!(seen.steps().len(), 7);
                    for step in seen.steps() {
                        assert_eq!(step.check(), Ok(()), "{seen:?}");
                    }
                }
            }
            let sphere = lens(8.0, 0.0, None).decentred(eye, mm(1.0), mm(-2.0))?;
            assert_eq!(sphere.steps().len(), 3);
            for step in sphere.steps() {
                assert_eq!(step.check(), Ok(()), "{sphere:?}");
            }
        }
        Ok(())
    }

    #[test]
    fn bases_by_eye_and_sign() -> Result<(), Error> {
        // +4 and −4, 5 mm: 2 prism dioptres towards the centre, or away from it.
        for eye in [Eye::Right, Eye::Left] {
            for (power, inward, base) in
                [(4.0, 5.0, Base::In), (4.0, -5.0, Base::Out), (-4.0, 5.0, Base::Out), (-4.0, -5.0, Base::In)]
            {
                let seen = lens(power, 0.0, None).decentred(eye, mm(inward), Length::ZERO)?;
                assert_eq!(
                    (seen.horizontal(), seen.vertical()),
                    (Some((prism(2.0), base)), None),
                    "{seen:?}"
                );
            }
            for (power, upward, base) in [
                (4.0, 5.0, Base::Up),
                (4.0, -5.0, Base::Down),
                (-4.0, 5.0, Base::Down),
                (-4.0, -5.0, Base::Up),
            ] {
                let seen = lens(power, 0.0, None).decentred(eye, Length::ZERO, mm(upward))?;
                assert_eq!(
                    (seen.horizontal(), seen.vertical()),
                    (None, Some((prism(2.0), base))),
                    "{seen:?}"
                );
            }
        }
        Ok(())
    }

    /// A minus cylinder at 45 is a prism with its base across the axis: a shift across gives prism up or down as well,
    /// and the two eyes have it the other way round.
    #[test]
    fn an_oblique_axis_crosses() -> Result<(), Error> {
        let oblique = lens(0.0, -2.0, Some(45));
        for (eye, base_up) in [(Eye::Right, 0.5), (Eye::Left, -0.5)] {
            let seen = oblique.decentred(eye, mm(5.0), Length::ZERO)?;
            assert!((seen.across.dioptres() + 1.0).abs() < 1e-12, "{seen:?}");
            assert!((seen.crossed.dioptres() - 1.0).abs() < 1e-12, "{seen:?}");
            assert!((seen.upright.dioptres() + 1.0).abs() < 1e-12, "{seen:?}");
            assert!((seen.base_in.prism_dioptres() + 0.5).abs() < 1e-12, "{seen:?}");
            assert!((seen.base_up.prism_dioptres() - base_up).abs() < 1e-12, "{seen:?}");
            assert!(
                (seen.prism.prism_dioptres() - 0.5 * core::f64::consts::SQRT_2).abs() < 1e-12,
                "{seen:?}"
            );
        }
        let upward = oblique.decentred(Eye::Left, Length::ZERO, mm(5.0))?;
        assert!((upward.base_in.prism_dioptres() + 0.5).abs() < 1e-12, "{upward:?}");
        assert!((upward.base_up.prism_dioptres() + 0.5).abs() < 1e-12, "{upward:?}");
        Ok(())
    }

    #[test]
    fn what_is_not_possible_is_told() {
        let told = |lens: Refraction, inward: f64, upward: f64| {
            lens.decentred(Eye::Right, mm(inward), mm(upward)).expect_err("refused").to_string()
        };
        let plain = lens(2.0, 0.0, None);
        assert_eq!(told(plain, 40.5, 0.0), "decentration `40.5 mm` is not possible");
        assert_eq!(told(plain, 0.0, -41.0), "decentration `-41 mm` is not possible");
        assert_eq!(told(plain, f64::NAN, 0.0), "decentration `NaN mm` is not possible");
        assert_eq!(told(lens(2.0, -1.5, None), 1.0, 0.0), "cylinder `-1.50` needs an axis");
        assert_eq!(told(lens(99.0, 0.0, None), 1.0, 0.0), "sphere `99 D` is not possible");
        let error = plain.decentred(Eye::Left, mm(41.0), mm(0.0)).expect_err("refused");
        assert_eq!(error.hint().to_string(), "use -40 to 40 mm");
        assert!(plain.decentred(Eye::Left, mm(40.0), mm(-40.0)).is_ok(), "at the limits");
    }

    #[test]
    fn the_other_eye_is_mirrored() {
        assert_eq!((Eye::Right.fellow(), Eye::Left.fellow()), (Eye::Left, Eye::Right));
        assert_eq!((Eye::Right.nose_side(), Eye::Left.nose_side()), (1.0, -1.0));
    }
}
