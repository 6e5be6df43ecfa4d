//! The wishes in the report, and what is usual at the person's age.

use super::{arcmin, dioptres, key, log, metres, mm, plain, quantity, result, times};
use crate::model::answer::{EyeToGoal, GoalAnswer, GoalEnd, ReserveFrom};
use crate::model::draft::EyeChoice;
use arcminute_core::accommodation::AmplitudeAtAge;
use arcminute_core::explain::{Explain, Unit};
use arcminute_core::print::SizedPrint;
use serde_json::Value;

/// Accommodation that is usual at the age.
pub(super) fn accommodation(at_age: &AmplitudeAtAge) -> Value {
    let values =
        [("least", dioptres(at_age.least)), ("mean", dioptres(at_age.mean)), ("most", dioptres(at_age.most))];
    result("accommodation-at-age", "accommodation that is usual at the age", &values, &[], &at_age.steps())
}

/// One record for what the wish asks for from each distance, for its print or face, and for each eye.
pub(super) fn goal(index: usize, goal: &GoalAnswer) -> Vec<Value> {
    let own = format!("goal-{}", index + 1);
    let mut records = Vec::new();
    records.extend(goal.print.map(|print| sized(&format!("{own}-print"), &print)));
    records.extend(goal.face.map(|face| {
        let values = [("width", mm(face.width)), ("cycles", plain(face.cycles)), ("detail", mm(face.detail))];
        result(&format!("{own}-face"), "detail of the face", &values, &[], &face.steps())
    }));
    for end in &goal.ends {
        let key = if end.hardest { own.clone() } else { format!("{own}-nearest") };
        records.push(asks(&key, goal, end));
    }
    for eye in [EyeChoice::Right, EyeChoice::Left] {
        records.extend(of_eye(&format!("{own}-{}", key(&eye)), &goal.name, goal.of_eye(eye)));
    }
    records
}

fn sized(key: &str, sized: &SizedPrint) -> Value {
    let size = quantity(sized.size.m_units(), Unit::PrintM.symbol());
    let words = [("read", sized.print.to_string())];
    result(key, "print to read", &[("size", size), ("x_height", mm(sized.height))], &words, &sized.steps())
}

fn asks(name: &str, goal: &GoalAnswer, end: &GoalEnd) -> Value {
    let mut values = vec![
        ("acuity", log(end.demand.to_reach)),
        ("detail", arcmin(end.demand.detail)),
        ("reserve", times(end.reserve)),
    ];
    values.extend(end.distance.map(|distance| ("distance", metres(distance))));
    if let Some([fewest, most]) = end.band {
        values.extend([
            ("acuity_fewest_cycles", log(fewest.to_reach)),
            ("acuity_most_cycles", log(most.to_reach)),
        ]);
    }
    let from = match goal.reserve_from {
        ReserveFrom::Typed => "typed",
        ReserveFrom::HowWell(anchor) => anchor.source.id,
        ReserveFrom::None => "none",
    };
    let words = [("kind", key(&goal.kind)), ("reserve_from", from.to_owned())];
    result(name, &goal.name, &values, &words, &end.steps())
}

fn of_eye(name: &str, what: &str, eye: &EyeToGoal) -> Vec<Value> {
    let mut records = Vec::new();
    if let (Some(needed), Some(short)) = (&eye.larger, eye.steps_short()) {
        let values = [("larger", times(needed.power.times())), ("steps_short", plain(short))];
        records.push(result(name, what, &values, &[], &needed.steps()));
    }
    if let Some(near) = &eye.near {
        let values =
            [("equivalent_viewing_distance", mm(near.evd)), ("equivalent_viewing_power", dioptres(near.evp))];
        records.push(result(&format!("{name}-near"), what, &values, &[], &near.steps()));
    }
    if let Some(contrast) = &eye.contrast {
        let values = [("contrast_reserve", times(contrast.reserve))];
        let words = [("limit", key(&contrast.limit))];
        records.push(result(&format!("{name}-contrast"), what, &values, &words, &contrast.steps()));
    }
    records
}
