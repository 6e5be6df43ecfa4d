//! A refraction at another distance from the eye.

use super::Refraction;
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A refraction at one plane and what it is at another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// At the plane it was given for.
    pub from: Refraction,
    /// How much nearer the eye the other plane is; negative when farther away.
    pub towards_eye: Length,
    /// At the other plane.
    pub to: Refraction,
}

impl Refraction {
    /// What corrects the same eye at a plane nearer by `towards_eye`.
    ///
    /// Each principal meridian by itself: `F' = F / (1 − d·F)`, light from far away, thin lens. The axis stays.
    /// Moving back by the same distance gives the lens back. Matters above some 4 to 6 D.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] when the lens would stand further off than [`bounds::VERTEX`] allows;
    /// [`Why::NoSolution`] when a meridian's focus lies between the planes or on the new one.
    ///
    /// # Example
    /// ```
    /// use arcminute_core::refraction::Refraction;
    /// use arcminute_core::unit::{Length, Vergence};
    /// let lens = Refraction::of_sphere(Vergence::from_dioptres(12.0));
    /// let moved = lens.moved(Length::from_mm(3.0))?; // from 13 mm to 10 mm
    /// assert!((moved.to.sphere.dioptres() - 12.448).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn moved(&self, towards_eye: Length) -> Result<Moved, Error> {
        bounds::VERTEX.check(towards_eye.abs().mm())?;
        let meridian = |power: Vergence| {
            if towards_eye.m() * power.dioptres() < 1.0 {
                return Ok(power.after(towards_eye));
            }
            let because = "the focus lies between the two planes";
            Err(Error::about("refraction", format_args!("{self}"), Why::NoSolution { because }))
        };
        let sphere = meridian(self.sphere)?;
        // Without a cylinder the two meridians are the same, to the last bit.
        let cylinder = meridian(self.sphere + self.cylinder)? - sphere;
        Ok(Moved { from: *self, towards_eye, to: Self { sphere, cylinder, axis: self.axis } })
    }
}

#[cfg(feature = "alloc")]
impl Explain for Moved {
    fn steps(&self) -> Vec<Step> {
        let meridian = |from: Vergence, to: Vergence| {
            let result = Named::new("F_moved", to.dioptres(), Unit::Dioptre);
            let power = Named::new("F", from.dioptres(), Unit::Dioptre);
            Step::formula(
                &formula::EFFECTIVITY,
                result,
                [power, Named::new("d", self.towards_eye.mm(), Unit::Millimetre)],
            )
        };
        let mut steps = vec![meridian(self.from.sphere, self.to.sphere)];
        if self.from.cylinder != Vergence::ZERO {
            steps.push(meridian(self.from.sphere + self.from.cylinder, self.to.sphere + self.to.cylinder));
        }
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        let d = Vergence::from_dioptres;
        let cylinder = Refraction::of(d(12.0), d(-2.5), Some(30))?;
        for (refraction, meridians) in [(Refraction::of_sphere(d(-8.0)), 1), (cylinder, 2)] {
            for towards_eye in [3.0, -4.0] {
                let moved = refraction.moved(Length::from_mm(towards_eye))?;
                assert_eq!(moved.steps().len(), meridians, "{moved:?}");
                for step in moved.steps() {
                    assert_eq!(step.check(), Ok(()), "{moved:?}");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn a_focus_between_the_planes_has_no_answer() {
        let strong = Refraction::of_sphere(Vergence::from_dioptres(40.0));
        let error = strong.moved(Length::from_mm(25.0)).expect_err("focus on the new plane");
        assert_eq!(
            error.to_string(),
            "refraction `+40.00` has no solution: the focus lies between the two planes"
        );
        assert!(strong.moved(Length::from_mm(24.0)).is_ok(), "focus behind the new plane");
        assert!(strong.moved(Length::from_mm(41.0)).is_err(), "no lens stands so far off");
    }
}
