//! Focusing a telescope for a goal whose distance is measured from the eye.

use super::FocusReach;
use crate::error::{Error, Why};
use crate::math;
use crate::optics::{Focused, Sight, Telescope};
use crate::unit::{Length, Vergence};

/// The telescope focused for a thing this far from the eye; the tube is part of that distance and grows as it focuses.
///
/// With the thing s beyond the objective's front focus the image lies `f_o²/s` beyond the rear one (Newton), so the
/// whole distance is `s + 2·f_o + f_o²/s + f_e' + e`; the larger root is the shorter tube.
pub(super) fn focused_at(
    telescope: &Telescope,
    distance: Option<Length>,
    ametropia: Vergence,
    eyepiece_to_eye: Length,
) -> Result<Focused, Error> {
    let far = telescope.focused(Sight::Far, ametropia)?;
    let Some(distance) = distance else { return Ok(far) };
    // Beyond the tube the rest is above minus one focal length: where the root is real, it is above zero.
    before_objective(distance, far.length + eyepiece_to_eye)?;
    let focal_length = telescope.objective.focal_length().m();
    let rest = distance.m() - far.length.m() - eyepiece_to_eye.m() - focal_length;
    let inside = rest * rest - 4.0 * focal_length * focal_length;
    if inside < 0.0 {
        let why = Why::NoSolution { because: "no tube length focuses it" };
        return Err(Error::about("distance", format_args!("{} m", distance.m()), why));
    }
    let beyond_focus = (rest + math::sqrt(inside)) / 2.0;
    telescope.focused(Sight::At(Length::from_m(beyond_focus + focal_length)), ametropia)
}

/// What is left of a distance from the eye in front of an instrument that reaches so far from the eye.
pub(super) fn before_objective(distance: Length, reaches: Length) -> Result<Length, Error> {
    let left = distance - reaches;
    if Length::ZERO < left {
        return Ok(left);
    }
    let why = Why::NoSolution { because: "it is nearer than the telescope is long" };
    Err(Error::about("distance", format_args!("{} m", distance.m()), why))
}

/// No eye focuses more than this: greatest amplitude of the Hofstetter lines, 25 − 0.40 × age, at age 0.
const MOST_FOCUS: f64 = 25.0;

/// What the eye is left to do; light that arrives converging, or far too diverging, cannot be focused by any eye.
pub(super) fn focus_reach(
    out_of_range: Option<Option<Length>>,
    demand: Vergence,
) -> Result<FocusReach, Error> {
    let Some(nearest) = out_of_range else { return Ok(FocusReach::InFocus) };
    if !(0.0..=MOST_FOCUS).contains(&demand.dioptres()) {
        let why = Why::NoSolution { because: "the image cannot be viewed" };
        return Err(Error::about("focus demand", format_args!("{} D", demand.dioptres()), why));
    }
    Ok(match nearest {
        Some(_) => FocusReach::TooNear { demand },
        None => FocusReach::FixedForFar { demand },
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;
    use alloc::string::{String, ToString};

    fn told<T: core::fmt::Debug>(result: Result<T, Error>) -> String {
        result.expect_err("refused").to_string()
    }

    /// 4x of +16 and +64 D, the eye 15.625 mm behind it: all lengths are whole parts of 64, so nothing is rounded.
    fn focused(distance: f64) -> Result<Focused, Error> {
        let d = Vergence::from_dioptres;
        let telescope = Telescope::from_lenses(d(16.0), d(64.0), Length::from_mm(12.0))?;
        focused_at(&telescope, Some(Length::from_m(distance)), Vergence::ZERO, Length::from_mm(15.625))
    }

    /// The least distance is the tube for far, the eye behind it, and three focal lengths: at it the thing lies two focal
    /// lengths before the objective, the image two behind it (by hand).
    #[test]
    fn the_least_distance_is_where_the_image_is_as_large_as_the_thing() -> Result<(), Error> {
        let least = (62.5 + 15.625 + 15.625 + 3.0 * 62.5) / 1000.0;
        let nearest = focused(least)?;
        assert_eq!(nearest.sight, Sight::At(Length::from_mm(125.0)));
        assert!((nearest.length.mm() - (125.0 + 15.625)).abs() < 1e-9, "{nearest:?}");
        for distance in [least - 1e-6, 0.2, 0.1] {
            let message = format!("distance `{distance} m` has no solution: no tube length focuses it");
            assert_eq!(told(focused(distance)), message);
        }
        Ok(())
    }

    #[test]
    fn a_thing_within_the_telescope_is_told() {
        let inside = |distance: &str| {
            format!("distance `{distance} m` has no solution: it is nearer than the telescope is long")
        };
        // The objective stands 93.75 mm before the eye.
        for distance in ["0.09375", "0.09", "0.07", "0", "NaN"] {
            assert_eq!(told(focused(distance.parse().expect("a number"))), inside(distance));
        }
        let mm = Length::from_mm;
        assert_eq!(told(before_objective(mm(80.0), mm(80.0))), inside("0.08"));
        assert_eq!(before_objective(mm(81.0), mm(80.0)), Ok(mm(81.0) - mm(80.0)));
    }
}
