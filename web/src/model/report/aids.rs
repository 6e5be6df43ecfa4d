//! The aids of the demonstration list, in the report.

use super::{arcmin, dioptres, key, log, metres, mm, plain, predicted, refusal, result, times};
use crate::model::answer::Answer;
use crate::model::compared::{Cannot, LookedAt, trial as judged};
use arcminute_core::explain::Explain;
use serde_json::Value;

/// An aid as a record; nothing where it is none for such a wish.
pub(super) fn aid(looked: &LookedAt) -> Option<Value> {
    let listed = &looked.aid;
    let name = format!("aid-{}", listed.id);
    let outcome = match &looked.does {
        Ok(seen) => &seen.outcome,
        Err(Cannot::NoAnswer(error)) => {
            return Some(result(&name, &listed.name, &[], &refusal(error), &[]));
        }
        Err(Cannot::OnlyPrint | Cannot::OnlyFar) => return None,
    };
    let mut values = vec![
        ("magnification", times(outcome.angular.times())),
        ("reserve_reached", times(outcome.reserve_reached)),
        ("least_height", mm(outcome.least_height)),
        ("detail_seen", arcmin(outcome.detail_seen)),
        ("focus_needed", dioptres(outcome.focus.needed)),
        ("accommodation_used", dioptres(outcome.focus.used)),
        ("defocus", dioptres(outcome.focus.defocus)),
        ("cylinder_left", dioptres(outcome.focus.cylinder_left)),
        ("light", plain(outcome.light)),
    ];
    values.extend(predicted(&outcome.prediction));
    values.extend(outcome.equivalent_viewing_distance.map(|evd| ("equivalent_viewing_distance", mm(evd))));
    values.extend(outcome.arrangement.hand_room.map(|room| ("hand_room", mm(room))));
    values.extend(outcome.widths.map(|widths| ("width", metres(widths.half))));
    values.extend(outcome.characters.map(|characters| ("characters", plain(characters))));
    values.extend(outcome.depth.map(|depth| ("in_focus_from", mm(depth.nearest))));
    values.extend(outcome.depth.and_then(|depth| depth.farthest).map(|far| ("in_focus_to", mm(far))));
    let words = [("reach", key(&outcome.prediction.reach)), ("worn", key(&listed.traits().glasses))];
    Some(result(&name, &listed.name, &values, &words, &looked.steps()))
}

/// What was reached with the aid that is looked at, against its prediction; nothing while nothing was typed.
pub(super) fn trial(answer: &Answer, looked: &LookedAt) -> Option<Value> {
    let what = format!("trial of {}", looked.aid.title());
    let verdict = match judged(answer, looked)? {
        Ok(verdict) => verdict,
        Err(error) => return Some(result("trial", &what, &[], &refusal(&error), &[])),
    };
    let values = [
        ("measured", log(verdict.measured)),
        ("difference", log(verdict.difference)),
        ("beyond", log(verdict.beyond)),
    ];
    let words = [("class", verdict.class.key().to_owned())];
    Some(result("trial", &what, &values, &words, &verdict.steps()))
}
