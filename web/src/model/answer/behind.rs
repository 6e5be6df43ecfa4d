//! The eye that looks through an aid, as far as it is known.

use super::goals::GoalAnswer;
use super::person::EyeAnswer;
use super::to_entrance_pupil;
use crate::model::draft::{CorrectionChoice, EyeChoice};
use crate::model::field::FieldId;
use arcminute_core::device::Eye;
use arcminute_core::unit::{Length, LogMar, Vergence};

/// The eye behind an aid, and what it may wear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Behind {
    /// The eye, with the correction for far.
    pub eye: Eye,
    /// The add written with it.
    pub add: Option<Vergence>,
    /// Whether a telescope that is set in a lens has the refraction in its eyepiece, and is not focused for it.
    pub in_eyepiece: bool,
}

/// What is still needed of the eye, box by box.
pub(super) struct Needs<'a> {
    pub(super) choice: EyeChoice,
    pub(super) eye: &'a EyeAnswer,
    pub(super) retest_limit: Option<LogMar>,
    pub(super) vertex: Option<Length>,
    pub(super) correction: CorrectionChoice,
}

impl Needs<'_> {
    /// The boxes of the eye, and those of the goal, that aids wait for.
    pub(super) fn missing(&self, goal: Option<&GoalAnswer>) -> Vec<FieldId> {
        let of = |make| FieldId::of_eye(make, self.choice);
        [
            (of(FieldId::Acuity), self.eye.log_mar().is_some()),
            (of(FieldId::Refraction), self.eye.refraction.is_some()),
            (of(FieldId::Pupil), self.eye.pupil.is_some()),
            (of(FieldId::Accommodation), self.eye.accommodation.is_some()),
            (FieldId::RetestLimit, self.retest_limit.is_some()),
            (FieldId::Vertex, self.vertex.is_some()),
        ]
        .into_iter()
        .filter(|(_, there)| !there)
        .map(|(field, _)| field)
        .chain(goal.into_iter().flat_map(|goal| goal.missing.iter().copied()))
        .collect()
    }

    /// The eye with the correction for far; `None` while something is missing.
    pub(super) fn behind(&self) -> Option<Behind> {
        let (sphere, cylinder) = self.eye.refraction?;
        let eye = Eye {
            pupil: self.eye.pupil?,
            sphere,
            cylinder,
            spectacle_to_eye: to_entrance_pupil(self.vertex?),
            accommodation: self.eye.accommodation?,
            ..Eye::corrected(self.eye.log_mar()?, self.retest_limit?)
        };
        let in_eyepiece = self.correction == CorrectionChoice::InEyepiece;
        Some(Behind { eye, add: self.eye.add, in_eyepiece })
    }
}
