//! Focusing a telescope for a goal whose distance is measured from the eye.

use super::FocusReach;
use crate::error::{Error, Why};
use crate::optics::{Focused, Sight, Telescope};
use crate::unit::{Length, Vergence};

/// The telescope focused for a thing this far from the eye; the tube is part of that distance and grows as it focuses.
pub(super) fn focused_at(
    telescope: &Telescope,
    distance: Option<Length>,
    ametropia: Vergence,
    eyepiece_to_eye: Length,
) -> Result<Focused, Error> {
    let Some(distance) = distance else { return telescope.focused(Sight::Far, ametropia) };
    let mut length = telescope.focused(Sight::Far, ametropia)?.length;
    // Each round is nearer by the ratio of focal length to distance, squared.
    for _ in 0..100 {
        let focused =
            telescope.focused(Sight::At(before_objective(distance, length + eyepiece_to_eye)?), ametropia)?;
        let moved = (focused.length - length).abs();
        length = focused.length;
        if moved < Length::from_m(1e-16) {
            break;
        }
    }
    telescope.focused(Sight::At(before_objective(distance, length + eyepiece_to_eye)?), ametropia)
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
