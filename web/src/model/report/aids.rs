//! Aids other than telescopes, and the print they are for, in the report.

use super::{arcmin, dioptres, key, metres, mm, plain, predicted, quantity, refusal, result, times};
use crate::model::answer::AidRow;
use arcminute_core::explain::{Explain, Unit};
use arcminute_core::print::SizedPrint;
use serde_json::Value;

pub(super) fn print(index: usize, sized: &SizedPrint) -> Value {
    let size = quantity(sized.size.m_units(), Unit::PrintM.symbol());
    let values = [("size", size), ("x_height", mm(sized.height))];
    let words = [("read", sized.print.to_string())];
    result(&format!("goal-{}-print", index + 1), "print to read near", &values, &words, &sized.steps())
}

pub(super) fn aid(row: &AidRow) -> Value {
    let listed = row.listed();
    let name = format!("aid-{}", listed.id);
    let outcome = match &row.does {
        Ok(outcome) => outcome,
        Err(error) => return result(&name, listed.name, &[], &refusal(error), &[]),
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
    let words = [("reach", key(&outcome.prediction.reach)), ("worn", key(&row.listed().wears))];
    result(&name, listed.name, &values, &words, &row.steps())
}
