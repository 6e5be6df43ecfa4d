//! The eye behind an aid, what it wears, and what it can focus.
//!
//! What is worn stands in the spectacle plane; everything is reckoned to the eye's entrance pupil, some 3 mm behind the
//! cornea. A demand is positive when light arrives diverging, and accommodation is what can meet it.

use crate::unit::{Length, LogMar, Vergence};

/// What stands in the spectacle plane while the aid is used.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Worn {
    /// No glasses: sphere and cylinder stay uncorrected.
    Nothing,
    /// The refraction for far.
    #[default]
    Distance,
    /// The refraction for far and this addition.
    Near {
        /// The addition, above zero.
        add: Vergence,
    },
}

/// One eye that looks through an aid.
///
/// The refraction is that for far, at the spectacle plane; light that meets a demand arrives diverging, and the eye
/// answers with what it lacks of being corrected, with an addition, or with accommodation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eye {
    /// Acuity with best correction.
    pub acuity: LogMar,
    /// 95 % limit of repeats of that measurement, above zero.
    pub retest_limit: LogMar,
    /// Diameter of the eye's pupil.
    pub pupil: Length,
    /// Sphere for far.
    pub sphere: Vergence,
    /// Cylinder for far.
    pub cylinder: Vergence,
    /// What is worn.
    pub worn: Worn,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Accommodation that can be used, zero or more.
    pub accommodation: Vergence,
}

impl Eye {
    /// An eye without ametropia and without accommodation, pupil 4 mm, spectacle plane 15 mm before its entrance pupil:
    /// assumed values, to start from.
    ///
    /// ```
    /// use arcminute_core::{device::Eye, unit::LogMar};
    /// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// assert_eq!(eye.relaxed_demand().dioptres(), 0.0);
    /// ```
    #[must_use]
    pub fn corrected(acuity: LogMar, retest_limit: LogMar) -> Self {
        Self {
            acuity,
            retest_limit,
            pupil: Length::from_mm(4.0),
            sphere: Vergence::ZERO,
            cylinder: Vergence::ZERO,
            worn: Worn::Distance,
            spectacle_to_eye: Length::from_mm(15.0),
            accommodation: Vergence::ZERO,
        }
    }

    /// Mean sphere for far, at the spectacle plane: `S + C/2`.
    ///
    /// ```
    /// use arcminute_core::{device::Eye, unit::{LogMar, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// let bare = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// // -3.00 -2.00: mean sphere -4 (computed).
    /// assert_eq!(Eye { sphere: d(-3.0), cylinder: d(-2.0), ..bare }.mean_sphere(), d(-4.0));
    /// ```
    #[must_use]
    pub fn mean_sphere(&self) -> Vergence {
        self.sphere + self.cylinder / 2.0
    }

    /// Mean power that stands in the spectacle plane; zero without glasses.
    ///
    /// ```
    /// use arcminute_core::device::{Eye, Worn};
    /// use arcminute_core::unit::{LogMar, Vergence};
    /// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// (eye.sphere, eye.worn) = (Vergence::from_dioptres(-4.0), Worn::Near { add: Vergence::from_dioptres(2.5) });
    /// assert_eq!(eye.worn_power().dioptres(), -1.5); // computed
    /// eye.worn = Worn::Nothing;
    /// assert_eq!(eye.worn_power().dioptres(), 0.0);
    /// ```
    #[must_use]
    pub fn worn_power(&self) -> Vergence {
        match self.worn {
            Worn::Nothing => Vergence::ZERO,
            Worn::Distance => self.mean_sphere(),
            Worn::Near { add } => self.mean_sphere() + add,
        }
    }

    /// Addition worn; zero without one.
    ///
    /// ```
    /// use arcminute_core::device::{Eye, Worn};
    /// use arcminute_core::unit::{LogMar, Vergence};
    /// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// eye.sphere = Vergence::from_dioptres(-4.0);
    /// assert_eq!(eye.add(), Vergence::ZERO, "the glasses for far");
    /// eye.worn = Worn::Near { add: Vergence::from_dioptres(2.5) };
    /// assert_eq!(eye.add().dioptres(), 2.5); // whatever the refraction
    /// ```
    #[must_use]
    pub fn add(&self) -> Vergence {
        match self.worn {
            Worn::Nothing | Worn::Distance => Vergence::ZERO,
            Worn::Near { add } => add,
        }
    }

    /// Demand at the entrance pupil that the relaxed eye itself meets: minus the refraction carried there, so positive
    /// for a myope.
    ///
    /// ```
    /// use arcminute_core::{device::Eye, unit::{Length, LogMar, Vergence}};
    /// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// (eye.sphere, eye.spectacle_to_eye) = (Vergence::from_dioptres(-10.0), Length::from_mm(14.0));
    /// // K = −8.77 D (computed, near reference): print is sharp 114 mm from the eye.
    /// assert!((eye.relaxed_demand().focal_length().mm() - 114.0).abs() < 0.05);
    /// ```
    #[must_use]
    pub fn relaxed_demand(&self) -> Vergence {
        -self.mean_sphere().after(self.spectacle_to_eye)
    }

    /// Cylinder that reaches the retina, without sign: both meridians carried to the entrance pupil; none behind glasses.
    ///
    /// ```
    /// use arcminute_core::device::{Eye, Worn};
    /// use arcminute_core::unit::{LogMar, Vergence};
    /// let d = Vergence::from_dioptres;
    /// let glasses = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// // -3.00 -2.00 bare, spectacle plane at 15 mm: 1.780 D at the entrance pupil (computed).
    /// let bare = Eye { sphere: d(-3.0), cylinder: d(-2.0), worn: Worn::Nothing, ..glasses };
    /// assert!((bare.cylinder_left().dioptres() - 1.780).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn cylinder_left(&self) -> Vergence {
        match self.worn {
            Worn::Distance | Worn::Near { .. } => Vergence::ZERO,
            Worn::Nothing => {
                let carried = |power: Vergence| power.after(self.spectacle_to_eye);
                (carried(self.sphere + self.cylinder) - carried(self.sphere)).abs()
            }
        }
    }
}

/// What the eye does about the light that reaches it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Focus {
    /// Demand at the entrance pupil: positive when the light arrives diverging.
    pub demand: Vergence,
    /// Demand that the relaxed eye meets.
    pub relaxed: Vergence,
    /// What is left for accommodation; negative when the light converges more than the relaxed eye can use.
    pub needed: Vergence,
    /// Accommodation there is.
    pub available: Vergence,
    /// Accommodation that is used.
    pub used: Vergence,
    /// Sphere left out of focus: positive when the thing is too near, negative when the light converges too much.
    pub defocus: Vergence,
    /// Cylinder left, without sign.
    pub cylinder_left: Vergence,
}

impl Focus {
    /// What this eye does about light that arrives with `demand`.
    ///
    /// ```
    /// use arcminute_core::{device::{Eye, Focus}, unit::{LogMar, Vergence}};
    /// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// eye.accommodation = Vergence::from_dioptres(3.0);
    /// let focus = Focus::of(&eye, Vergence::from_dioptres(4.0));
    /// assert_eq!((focus.used.dioptres(), focus.defocus.dioptres()), (3.0, 1.0));
    /// ```
    #[must_use]
    pub fn of(eye: &Eye, demand: Vergence) -> Self {
        let relaxed = eye.relaxed_demand();
        let needed = demand - relaxed;
        let used = needed.max(Vergence::ZERO).min(eye.accommodation);
        Self {
            demand,
            relaxed,
            needed,
            available: eye.accommodation,
            used,
            defocus: needed - used,
            cylinder_left: eye.cylinder_left(),
        }
    }

    /// Whether sphere and cylinder are both met, to less than a hundredth of a dioptre.
    ///
    /// ```
    /// use arcminute_core::{device::{Eye, Focus}, unit::{LogMar, Vergence}};
    /// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// eye.accommodation = Vergence::from_dioptres(3.0);
    /// let sharp = |dioptres| Focus::of(&eye, Vergence::from_dioptres(dioptres)).is_sharp();
    /// assert_eq!([-0.5, 0.0, 3.0, 3.5].map(sharp), [false, true, true, false]);
    /// ```
    #[must_use]
    pub fn is_sharp(&self) -> bool {
        let least = Vergence::from_dioptres(0.01);
        self.defocus.abs() < least && self.cylinder_left < least
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn eye(sphere: f64, cylinder: f64, worn: Worn, accommodation: f64) -> Eye {
        Eye {
            sphere: Vergence::from_dioptres(sphere),
            cylinder: Vergence::from_dioptres(cylinder),
            worn,
            accommodation: Vergence::from_dioptres(accommodation),
            ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
        }
    }

    #[test]
    fn glasses_take_the_cylinder_and_add_the_addition() {
        let add = Vergence::from_dioptres(2.5);
        let near = eye(-3.0, -2.0, Worn::Near { add }, 0.0);
        assert!((near.worn_power().dioptres() + 1.5).abs() < 1e-12, "mean sphere -4 and +2.50");
        assert!((near.add().dioptres() - 2.5).abs() < 1e-12, "the addition alone");
        assert_eq!(near.cylinder_left(), Vergence::ZERO);
        let bare = eye(-3.0, -2.0, Worn::Nothing, 0.0);
        assert_eq!((bare.worn_power(), bare.add()), (Vergence::ZERO, Vergence::ZERO));
        // −3/(1+0.045) = −2.8708 and −5/(1+0.075) = −4.6512, by hand.
        assert!((bare.cylinder_left().dioptres() - 1.780_4).abs() < 1e-4, "{:?}", bare.cylinder_left());
        let far = eye(-3.0, -2.0, Worn::Distance, 0.0);
        assert!((far.worn_power().dioptres() + 4.0).abs() < 1e-12, "mean sphere");
        assert_eq!(far.add(), Vergence::ZERO);
    }

    #[test]
    fn accommodation_meets_what_it_can_and_no_more() {
        let demand = Vergence::from_dioptres;
        for (needed, used, defocus) in
            [(-1.0, 0.0, -1.0), (0.0, 0.0, 0.0), (2.0, 2.0, 0.0), (3.0, 3.0, 0.0), (4.5, 3.0, 1.5)]
        {
            let focus = Focus::of(&eye(0.0, 0.0, Worn::Distance, 3.0), demand(needed));
            assert!((focus.used.dioptres() - used).abs() < 1e-12, "used at {needed} D: {focus:?}");
            assert!((focus.defocus.dioptres() - defocus).abs() < 1e-12, "left at {needed} D: {focus:?}");
            assert_eq!(focus.is_sharp(), defocus.abs() < 0.01, "{focus:?}");
        }
        let myope = Focus::of(&eye(-5.0, 0.0, Worn::Nothing, 0.0), demand(5.0 / 1.075));
        assert!(myope.is_sharp(), "a bare myope needs diverging light: {myope:?}");
        let astigmatic = Focus::of(&eye(0.0, -2.0, Worn::Nothing, 0.0), demand(1.0 / 1.015));
        assert!(astigmatic.defocus.abs().dioptres() < 1e-9 && !astigmatic.is_sharp(), "{astigmatic:?}");
    }

    #[test]
    fn sharp_is_less_than_a_hundredth_of_a_dioptre() {
        let d = Vergence::from_dioptres;
        let at = |demand| Focus::of(&eye(0.0, 0.0, Worn::Nothing, 0.0), d(demand));
        for (left, sharp) in [(0.009, true), (0.01, false), (-0.009, true), (-0.01, false)] {
            assert_eq!(at(left).is_sharp(), sharp, "{left} D of sphere");
            let cylinder = Focus { cylinder_left: d(left).abs(), ..at(0.0) };
            assert_eq!(cylinder.is_sharp(), sharp, "{left} D of cylinder");
        }
    }
}
