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
    before_objective(distance, far.length + eyepiece_to_eye)?;
    let focal_length = telescope.objective.focal_length().m();
    let rest = distance.m() - far.length.m() - eyepiece_to_eye.m() - focal_length;
    let inside = rest * rest - 4.0 * focal_length * focal_length;
    if !(0.0 <= inside && 0.0 < rest) {
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
