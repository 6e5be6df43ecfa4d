//! How exactly a telescope has to be aimed: what light is left when its exit pupil stands beside the eye's pupil.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::fit::ways_out::halved;
#[cfg(feature = "alloc")]
use crate::fit::working::mm;
use crate::optics::{LightThrough, disc_overlap, light_through};
use crate::unit::Length;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Shifts that are always told, in millimetres.
const TOLD: [f64; 3] = [0.5, 1.0, 2.0];

/// The exit pupil this far beside the middle of the eye's pupil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shift {
    /// Distance of the centres.
    pub aside: Length,
    /// Light that is left, as a share of that when they are centred.
    pub left: f64,
}

/// What light is left beside the middle of the pupil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Alignment {
    /// Diameter of the telescope's exit pupil.
    pub exit_pupil: Length,
    /// Diameter of the eye's pupil.
    pub pupil: Length,
    /// Centred: the share of the pupil that the exit pupil fills, glass left out.
    pub centred: LightThrough,
    /// At 0.5, 1 and 2 mm.
    pub shifts: [Shift; 3],
    /// Where half the light of the centred case is left.
    pub half_at: Shift,
    /// Where no light is left.
    pub none_at: Length,
}

/// Light left when the exit pupil stands beside the middle of the eye's pupil.
///
/// * Both pupils are taken as round and evenly lit; the exit pupil in the plane of the pupil.
/// * Source: circle geometry ([`disc_overlap`]); where half is left is found by halving.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible pupil.
///
/// ```
/// use arcminute_core::{fit::alignment, unit::Length};
/// let mm = Length::from_mm;
/// // Exit pupil 3 mm, pupil 4 mm: 83 % of the light at 1 mm and 42 % at 2 mm, none at 3.5 mm (computed).
/// let halo = alignment(mm(3.0), mm(4.0))?;
/// assert!((halo.shifts[1].left - 0.8349).abs() < 5e-5 && (halo.shifts[2].left - 0.4192).abs() < 5e-5);
/// assert_eq!(halo.none_at, mm(3.5));
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn alignment(exit_pupil: Length, pupil: Length) -> Result<Alignment, Error> {
    bounds::EXIT_PUPIL.check(exit_pupil.mm())?;
    bounds::PUPIL.check(pupil.mm())?;
    let at = |mm: f64| {
        let aside = Length::from_mm(mm);
        Shift { aside, left: disc_overlap(exit_pupil, pupil, aside) }
    };
    let none_at = exit_pupil / 2.0 + pupil / 2.0;
    // From where nothing is left back towards the middle.
    let half = halved(0.0, none_at.mm(), &|mm| at(mm).left <= 0.5);
    Ok(Alignment {
        exit_pupil,
        pupil,
        centred: light_through(exit_pupil, pupil, 1.0),
        shifts: TOLD.map(at),
        half_at: at(half),
        none_at,
    })
}

#[cfg(feature = "alloc")]
impl Explain for Alignment {
    /// Shifts at which the discs cross; before, all light is left, and beyond, none.
    fn steps(&self) -> Vec<Step> {
        let (exit, pupil) = (mm("E", self.exit_pupil), mm("p", self.pupil));
        let inside = (self.exit_pupil - self.pupil).abs() / 2.0;
        let mut steps = self.centred.steps();
        for Shift { aside, left } in self.shifts.iter().chain([&self.half_at]) {
            if inside < *aside && *aside < self.none_at {
                let share = Named::new("share", *left, Unit::Plain);
                steps.push(Step::formula(&formula::OFF_CENTRE_SHARE, share, [exit, pupil, mm("c", *aside)]));
            }
        }
        let inputs = [exit, mm("r_p", self.pupil / 2.0)];
        steps.push(Step::formula(&formula::MISS_LIMIT, mm("miss_most", self.none_at), inputs));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Share of the smaller disc that lies in the other, counted on a fine grid: an independent road.
    fn counted(exit: f64, pupil: f64, aside: f64) -> f64 {
        const ACROSS: i32 = 400;
        let (small, large) = (exit.min(pupil) / 2.0, exit.max(pupil) / 2.0);
        let (mut all, mut shared) = (0_u32, 0_u32);
        for row in 0..ACROSS {
            for column in 0..ACROSS {
                let place = |step: i32| (f64::from(step) + 0.5) * 2.0 * small / f64::from(ACROSS) - small;
                let (x, y) = (place(column), place(row));
                if x * x + y * y <= small * small {
                    all += 1;
                    shared += u32::from((x - aside) * (x - aside) + y * y <= large * large);
                }
            }
        }
        f64::from(shared) / f64::from(all)
    }

    #[test]
    fn the_light_left_is_what_counting_finds() -> Result<(), Error> {
        let mm = Length::from_mm;
        for (exit, pupil) in [(1.25, 4.0), (2.5, 2.5), (3.0, 4.0), (5.0, 3.0), (7.0, 2.0)] {
            let halo = alignment(mm(exit), mm(pupil))?;
            for Shift { aside, left } in halo.shifts {
                let counted = counted(exit, pupil, aside.mm());
                assert!(
                    (left - counted).abs() < 1e-3,
                    "{exit} on {pupil} at {aside:?}: {left}, counted {counted}"
                );
            }
            let half = halo.half_at.aside.mm();
            assert!((counted(exit, pupil, half) - 0.5).abs() < 1e-3, "{exit} on {pupil}: half at {half}");
            let none = halo.none_at.mm();
            assert!(counted(exit, pupil, none) <= 0.0, "{exit} on {pupil}: none at {none}");
            assert!(counted(exit, pupil, none - 0.1) > 0.0, "{exit} on {pupil}: a little before {none}");
        }
        Ok(())
    }

    /// By hand: two discs of one size share half of their area at 0.80795 of the radius; and an exit pupil of 2 mm on a pupil
    /// of 4 mm fills a quarter of it.
    #[test]
    fn half_and_fill_by_hand() -> Result<(), Error> {
        let mm = Length::from_mm;
        let alike = alignment(mm(4.0), mm(4.0))?;
        assert!((alike.half_at.aside.mm() / 2.0 - 0.807_95).abs() < 5e-6, "{alike:?}");
        let small = alignment(mm(2.0), mm(4.0))?;
        assert!((small.centred.share - 0.25).abs() < 1e-12, "{small:?}");
        assert!((small.shifts[1].left - 1.0).abs() < 1e-12, "1 mm aside it still lies within: {small:?}");
        Ok(())
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        let mm = Length::from_mm;
        for (exit, pupil, crossing) in [(3.0, 4.0, 3), (2.0, 4.0, 2), (0.4, 1.0, 2), (20.0, 3.0, 1)] {
            let halo = alignment(mm(exit), mm(pupil))?;
            let steps = halo.steps();
            assert_eq!(steps.len(), 2 + crossing, "{halo:?}");
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{halo:?}");
            }
        }
        Ok(())
    }

    #[test]
    fn an_impossible_pupil_is_refused() {
        use alloc::string::ToString;
        let mm = Length::from_mm;
        let told = |exit, pupil| alignment(mm(exit), mm(pupil)).expect_err("not possible").to_string();
        assert_eq!(told(0.1, 4.0), "exit pupil `0.1 mm` is not possible");
        assert_eq!(told(3.0, 11.0), "pupil diameter `11 mm` is not possible");
    }
}
