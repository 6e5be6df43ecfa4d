//! What a missing entry leaves undecided.

use super::{Answer, FitAnswer};
use crate::model::field::FieldId;
use arcminute_core::acuity::{Category, Reading};

/// Something that cannot be said yet, and the boxes it waits for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Undecided {
    /// What cannot be said.
    pub what: &'static str,
    /// The boxes that would decide it.
    pub waits_for: Vec<FieldId>,
}

pub(super) fn list(answer: &Answer) -> Vec<Undecided> {
    let eye = answer.eye;
    let mut list = Vec::new();
    let mut say = |what: &'static str, waits_for: Vec<FieldId>| list.push(Undecided { what, waits_for });
    if answer.viewing().log_mar().is_none() {
        let what = match answer.viewing().acuity {
            Some(Reading::Category(Category::LightPerception | Category::NoLightPerception)) => {
                "the power needed: this eye sees nothing that could be magnified"
            }
            Some(Reading::Category(_)) => {
                "the power needed: a category has no size, so an acuity measured nearer is needed"
            }
            _ => "the power needed and every prediction",
        };
        say(what, vec![FieldId::of_eye(FieldId::Acuity, eye)]);
    }
    if let Some(goal) = answer.goal_answer().filter(|goal| goal.demand.is_none()) {
        say("what the goal asks for", goal.missing.clone());
    }
    let trouble = |field: FieldId| answer.field(field).is_trouble();
    if trouble(FieldId::RetestLimit) {
        say("the band and the chance", vec![FieldId::RetestLimit]);
    }
    let refraction = FieldId::of_eye(FieldId::Refraction, eye);
    if trouble(refraction) {
        say("focus and blur behind the telescope", vec![refraction]);
    }
    let accommodation = FieldId::of_eye(FieldId::Accommodation, eye);
    if trouble(accommodation) {
        say("what near aids would do", vec![accommodation]);
    }
    if let Some(goal) = answer.goal_answer() {
        let boxes = [FieldId::TrialAcuity, FieldId::TrialPrint, FieldId::TrialBeside];
        let unusable = boxes.into_iter().filter(|field| field.is_of(goal.kind) && trouble(*field));
        let unusable: Vec<FieldId> = unusable.collect();
        if !unusable.is_empty() {
            say("what the trial says", unusable);
        }
    }
    if answer.needed.is_some() && answer.chosen.is_none() {
        say("the telescope: none is chosen on Bench", Vec::new());
    }
    if let FitAnswer::Waiting(missing) = &answer.fit {
        say("where it sits in the frame", missing.clone());
    }
    list
}
