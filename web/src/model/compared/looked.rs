//! One aid in full: the eye behind it, what is looked at, and what it does.

use super::cell::{Cannot, is_for};
use super::{Asked, Named};
use crate::model::answer::{Answer, CORNEA_TO_PUPIL_MM};
use crate::model::list::{ListedAid, family_steps};
use arcminute_core::convergence::{Convergence, EyeAndLens};
use arcminute_core::device::{Aid, Detail, Eye, LensForm, Outcome, look};
use arcminute_core::explain::{Explain, Step};
use arcminute_core::steadiness::{Image, SteadyHead, steady_head};
use arcminute_core::unit::{Length, Magnification, Prism};

/// Speed of the eye over that of the head, in a reflex that is as it should be.
const EYE_KEEPS_UP: f64 = 1.0;

/// Entrance pupil to the eye's centre of rotation, which is taken 14 mm behind the cornea, as on Fit. Assumed.
const PUPIL_TO_ROTATION_MM: f64 = 14.0 - CORNEA_TO_PUPIL_MM;

/// An aid before an eye, for a wish; of a range the end where its chance is lower.
#[derive(Clone, Debug, PartialEq)]
pub struct LookedAt {
    /// The aid.
    pub aid: ListedAid,
    /// The wish.
    pub named: Named,
    /// The eye, with what it wears.
    pub eye: Eye,
    /// What is looked at, and what the aid does; or why it is none.
    pub does: Result<Seen, Cannot>,
}

/// What an aid does for what is looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// What is looked at.
    pub detail: Detail,
    /// The aid as it is used.
    pub used: Aid,
    /// What it does.
    pub outcome: Outcome,
}

impl LookedAt {
    /// An aid for the wish of a goal; nothing while something of the eye or of the goal is missing.
    #[must_use]
    pub fn of(asked: &Asked, goal: usize, aid: &ListedAid) -> Option<Self> {
        let behind = asked.behind?;
        let named = asked.wishes.get(asked.of_goal(goal).next()?)?.clone();
        let seen = |detail: &Detail| {
            let (used, eye) = behind.used(aid, detail.distance)?;
            let outcome = look(&used.arrange(&eye, detail.distance)?, &eye, *detail)?;
            Ok(Seen { detail: *detail, used, outcome })
        };
        let chance = |seen: &Seen| seen.outcome.prediction.chance;
        let mut does: Option<Result<Seen, Cannot>> = None;
        for detail in &named.wish.ends {
            let here = seen(detail).map_err(Cannot::NoAnswer);
            let is_worse = match (&does, &here) {
                (None, _) | (Some(Ok(_)), Err(_)) => true,
                (Some(Ok(worst)), Ok(here)) => chance(here) < chance(worst),
                (Some(Err(_)), _) => false,
            };
            if is_worse {
                does = Some(here);
            }
        }
        let does = is_for(aid, &named.wish).and(does?);
        Some(Self { aid: aid.clone(), named, eye: behind.with(aid), does })
    }

    /// What it does; nothing when it is none for the wish.
    #[must_use]
    pub fn seen(&self) -> Option<&Seen> {
        self.does.as_ref().ok()
    }

    /// The working: first the family's own formulas, then those that hold for all; empty when it is none.
    #[must_use]
    pub fn steps(&self) -> Vec<Step> {
        let Some(seen) = self.seen() else { return Vec::new() };
        let mut steps = family_steps(&seen.used, &self.eye, seen.detail.distance).unwrap_or_default();
        steps.extend(seen.outcome.steps());
        steps.extend(self.steady().iter().flat_map(Explain::steps));
        steps
    }

    /// What both eyes turn in behind spectacles for near that are centred on the pupils, both as far from the midline as
    /// this one; nothing for any other aid, or without a PD.
    #[must_use]
    pub fn turned_in(&self, answer: &Answer) -> Option<Convergence> {
        let (seen, pd) = (self.seen()?, answer.viewing().pd?);
        let Aid::HighPlus { spectacles, .. } = &seen.used else { return None };
        let (LensForm::Addition { add }, true) = (spectacles.form, self.aid.traits().both_eyes) else {
            return None;
        };
        let eye = EyeAndLens {
            eye_from_midline: pd,
            centre_from_midline: pd,
            power: self.eye.mean_sphere() + add,
            base_in: Prism::ZERO,
            stop_distance: self.eye.spectacle_to_eye + Length::from_mm(PUPIL_TO_ROTATION_MM),
        };
        eye.converge(seen.outcome.arrangement.hand_room?).ok()
    }

    /// How still the head has to be for what is worn and magnifies a far thing; nothing for any other aid.
    #[must_use]
    pub fn steady(&self) -> Option<SteadyHead> {
        let outcome = &self.seen()?.outcome;
        let (traits, times) = (self.aid.traits(), outcome.angular.size());
        let moves = traits.worn && !traits.shines && outcome.detail.distance.is_some() && 1.0 < times;
        let magnification = Magnification::from_times(times);
        steady_head(magnification, Image::Upright, EYE_KEEPS_UP).ok().filter(|_| moves)
    }
}
