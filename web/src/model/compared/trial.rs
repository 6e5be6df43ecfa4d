//! What was reached with the aid that is looked at, against its prediction.

use super::LookedAt;
use crate::model::answer::Answer;
use arcminute_core::device::Aid;
use arcminute_core::trial::{Circumstances, TrialVerdict, judge};
use arcminute_core::unit::{Angle, Length, LogMar, Vergence};
use arcminute_core::{Error, bounds, math};

/// Whether what was typed was reached with this aid, as far as that was said.
#[must_use]
pub fn is_of(answer: &Answer, looked: &LookedAt) -> bool {
    answer.tried.is_empty() || answer.tried == looked.aid.id
}

/// The trial of an aid; nothing while nothing was typed, or the aid is none for the wish.
///
/// What was read is brought to the scale of the prediction by its size over the size that was predicted to be just read.
///
/// # Errors
/// For an acuity outside what an acuity can be.
#[must_use]
pub fn trial(answer: &Answer, looked: &LookedAt) -> Option<Result<TrialVerdict, Error>> {
    let seen = looked.seen().filter(|_| is_of(answer, looked))?;
    let outcome = &seen.outcome;
    let ratio = match outcome.detail.distance {
        None => answer.trial.print? / outcome.least_height,
        Some(distance) => {
            let predicted = Angle::subtended(outcome.least_height / 5.0, distance);
            answer.trial.acuity?.mar() / predicted
        }
    };
    let measured = outcome.prediction.with_aid + LogMar::from_log(math::log10(ratio));
    let goal = answer.goals.get(looked.named.goal)?;
    let exit_pupil = match &seen.used {
        Aid::Telescope { telescope, .. } => Some(telescope.afocal().exit_pupil),
        _ => None,
    };
    let can_be = |exit_pupil: &Length| bounds::EXIT_PUPIL.check(exit_pupil.mm()).is_ok();
    let known = Circumstances {
        // The prediction has counted what is left out of focus.
        defocus: Some(Vergence::ZERO),
        cylinder_left: Some(Vergence::ZERO),
        exit_pupil: exit_pupil.filter(can_be),
        pupil: Some(looked.eye.pupil),
        light: Some(if looked.aid.traits().shines { 1.0 } else { outcome.light }),
        contrast: goal.contrast,
        sensitivity: answer.viewing().contrast,
        magnification: looked.steady().map(|steady| steady.magnification),
        motion: None,
        eccentricity: answer.trial.beside,
    };
    Some(judge(&outcome.prediction, measured, &known))
}
