//! Where the lines of sight cross the lens for near work.

use crate::bounds;
use crate::error::{Error, Why};
use crate::unit::{Length, Vergence};

/// Near PD and inset of a segment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearCentres {
    /// Distance PD, both eyes.
    pub pd: Length,
    /// From the lens to what is looked at.
    pub working_distance: Length,
    /// From the back of the lens to the eye's centre of rotation.
    pub stop_distance: Length,
    /// Power of the distance portion in the horizontal meridian.
    pub distance_power: Vergence,
    /// Distance between the crossing points in the lens plane, lens power left out.
    pub near_pd: Length,
    /// Total inset of a segment (both eyes together) in a lens with its optical centres at the distance PD.
    pub segment_inset: Length,
}

/// Near PD by geometry, and the inset of a segment, which the distance portion's prism changes.
///
/// `NPD = PD·W / (W + s)` and `I = PD / (1 + W(1/s − F/1000))`, lengths in millimetres and F in dioptres.
///
/// * `distance_power` belongs to a segment in a lens whose optical centres stand at the distance PD; zero when they
///   stand at the near crossing points, and then `I = PD − NPD`.
/// * `stop_distance`: vertex distance and 13 to 14 mm; commonly 27 mm.
/// * Source: [`crate::source::STOP_DISTANCE`].
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible PD or distance; [`Why::NoSolution`] when a very strong plus lens leaves no
/// crossing point.
///
/// ```
/// use arcminute_core::{fit::near_centres, unit::{Length, Vergence}};
/// let mm = Length::from_mm;
/// let near = near_centres(mm(63.0), mm(400.0), mm(27.0), Vergence::from_dioptres(-9.0)).expect("possible");
/// assert!((near.near_pd.mm() - 59.016).abs() < 5e-4);
/// assert!((near.segment_inset.mm() - 3.245).abs() < 5e-4);
/// ```
pub fn near_centres(
    pd: Length,
    working_distance: Length,
    stop_distance: Length,
    distance_power: Vergence,
) -> Result<NearCentres, Error> {
    let between = bounds::PD.check(pd.mm())?;
    let w = bounds::MOUNT_DISTANCE.check(working_distance.mm())?;
    let s = bounds::STOP_DISTANCE.check(stop_distance.mm())?;
    let power = bounds::SPHERE.check(distance_power.dioptres())?;
    let spread = 1.0 + w * (1.0 / s - power / 1000.0);
    if spread <= 0.0 {
        let because = "so strong a plus lens turns both lines of sight away from the object";
        return Err(Error::about("segment inset", format_args!("{power} D"), Why::NoSolution { because }));
    }
    Ok(NearCentres {
        pd,
        working_distance,
        stop_distance,
        distance_power,
        near_pd: Length::from_mm(between * w / (w + s)),
        segment_inset: Length::from_mm(between / spread),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;

    #[test]
    fn without_power_the_inset_is_what_the_near_pd_lost() {
        for w in [80.0, 125.0, 400.0, 2000.0] {
            let mm = Length::from_mm;
            let near = near_centres(mm(64.0), mm(w), mm(27.0), Vergence::ZERO).expect("possible");
            assert!(
                ((near.pd - near.near_pd).mm() - near.segment_inset.mm()).abs() < 1e-9,
                "at {w} mm: {near:?}"
            );
        }
    }

    #[test]
    fn a_lens_that_leaves_no_crossing_point_is_said_so() {
        let mm = Length::from_mm;
        let error =
            near_centres(mm(64.0), mm(2000.0), mm(27.0), Vergence::from_dioptres(39.0)).expect_err("39 D");
        let told = "segment inset `39 D` has no solution: so strong a plus lens turns both lines of sight away from the object";
        assert_eq!(format!("{error}"), told);
    }
}
