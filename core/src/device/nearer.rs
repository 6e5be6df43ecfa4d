//! Without a device: moving nearer, and larger print.
//!
//! Half the distance is twice the angle, and so is a copy twice as large from the same place. Moving nearer asks for
//! focus; a larger copy does not.

use super::{Arrangement, Eye};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, Train};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A thing looked at without an aid, or its enlarged copy.
#[derive(Clone, Debug, PartialEq)]
pub struct NearerAndLarger {
    /// Size of the copy over the size of the thing; one for the thing itself. A pure ratio.
    pub larger: f64,
    /// Thing, or its copy, to the eye's entrance pupil.
    pub thing_to_eye: Length,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Power that stands in the spectacle plane.
    pub worn: Vergence,
    /// Distance at which the thing itself would look as large.
    pub equivalent_viewing_distance: Length,
    /// Demand at the eye's entrance pupil.
    pub focus_demand: Vergence,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// A thing, or a copy `larger` times its size, looked at from `thing_to_eye` through what the eye wears.
///
/// The relative-distance and relative-size parts of `EVD = d/(RS·ER·M)`. Source: Ryan & Margrain 2006.
///
/// # Errors
/// [`Why::NoSolution`] when the thing would have to be behind the glasses; [`Why::OutOfRange`] for a copy that is not
/// larger than nothing.
///
/// ```
/// use arcminute_core::device::{Eye, look_from};
/// use arcminute_core::unit::{Length, LogMar};
/// // Moving from 40 to 10 cm is 4x; print 1.8 times as large at 10 cm is like the original at 5.56 cm (computed).
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// let copy = look_from(&eye, Length::from_cm(10.0), 1.8)?;
/// assert!((copy.equivalent_viewing_distance.cm() - 5.556).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn look_from(eye: &Eye, thing_to_eye: Length, larger: f64) -> Result<NearerAndLarger, Error> {
    let thing_to_glasses = thing_to_eye - eye.spectacle_to_eye;
    if !(Length::ZERO < thing_to_glasses && thing_to_glasses.is_finite()) {
        let why = Why::NoSolution { because: "the thing would have to be behind the glasses" };
        return Err(Error::about("distance", format_args!("{} mm", thing_to_eye.mm()), why));
    }
    crate::bounds::ENLARGEMENT.check(larger)?;
    let worn = eye.worn_power();
    let train =
        Train::new([Element::Lens { power: worn, clear_diameter: None }]).to_eye(eye.spectacle_to_eye);
    let arrangement =
        Arrangement { shown_larger: larger, ..Arrangement::of(train, Sight::At(thing_to_glasses)) };
    let seen = arrangement.view();
    Ok(NearerAndLarger {
        larger,
        thing_to_eye,
        spectacle_to_eye: eye.spectacle_to_eye,
        worn,
        equivalent_viewing_distance: arrangement.equivalent_viewing_distance().unwrap_or(thing_to_eye),
        focus_demand: seen.focus_demand,
        arrangement,
    })
}

#[cfg(feature = "alloc")]
impl Explain for NearerAndLarger {
    fn steps(&self) -> Vec<Step> {
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let (d, v) = (mm("d", self.thing_to_eye), mm("v", self.spectacle_to_eye));
        let f_w = dioptre("F_w", self.worn);
        let larger = Named::new("RS", self.larger, Unit::Times);
        alloc::vec![
            Step::formula(
                &formula::EVD_NEARER_LARGER,
                mm("EVD", self.equivalent_viewing_distance),
                [d, v, f_w, larger],
            ),
            Step::formula(&formula::DEMAND_NEARER, dioptre("A", self.focus_demand), [d, v, f_w]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::Worn;
    use crate::unit::LogMar;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() {
        for worn in [Worn::Nothing, Worn::Distance, Worn::Near { add: Vergence::from_dioptres(4.0) }] {
            for sphere in [-6.0, 0.0, 8.0] {
                let eye = Eye {
                    worn,
                    sphere: Vergence::from_dioptres(sphere),
                    ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
                };
                for (distance, larger) in [(5.0, 1.0), (40.0, 1.8), (600.0, 3.0)] {
                    let steps = look_from(&eye, Length::from_cm(distance), larger)
                        .expect("before the glasses")
                        .steps();
                    for step in steps {
                        assert_eq!(step.check(), Ok(()), "{worn:?} {sphere} D {distance} cm");
                    }
                }
            }
        }
    }

    #[test]
    fn what_is_behind_the_glasses_or_no_copy_is_refused() {
        let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
        let error = look_from(&eye, Length::from_mm(15.0), 1.0).expect_err("in the spectacle plane");
        assert_eq!(
            error.to_string(),
            "distance `15 mm` has no solution: the thing would have to be behind the glasses"
        );
        let error = look_from(&eye, Length::from_cm(40.0), 0.0).expect_err("no copy");
        assert_eq!(error.to_string(), "enlargement `0 times` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.05 to 200 times");
    }
}
