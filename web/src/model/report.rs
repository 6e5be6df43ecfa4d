//! The whole answer as JSON, for programs: every value at full precision with its unit, its sources and its working.
//!
//! The page does not use it. A value that is no number in this case is `null`.

mod aids;
mod goals;
mod worn;

use super::answer::{Answer, BenchRow, EyeAnswer, FieldState, FitAnswer, FitDone};
use super::compared::{Asked, LookedAt};
use super::draft::{Draft, EyeChoice};
use super::field::FieldId;
use super::{list, shown, words};
use arcminute_core::acuity::Reading;
use arcminute_core::device::{FocusReach, TelescopeOutcome};
use arcminute_core::explain::{Explain, Named, Step, Unit};
use arcminute_core::fit::{Check, Limit, Mounting, WayOut};
use arcminute_core::optics::Field;
use arcminute_core::source::Source;
use arcminute_core::unit::{Angle, Length, LogMar, Vergence};
use arcminute_core::{Error, predict::Prediction};
use serde_json::{Map, Value, json};
use std::fmt::Debug;

/// Everything that follows from a draft.
///
/// * `entries`: each box, what stands in it, and what became of it.
/// * `results`: one record for each answer: `key`, `what`, `values` (by name: `value` and `unit`), further words by
///   name, `sources`, and `steps`, the working in order.
/// * `undecided`: what cannot be said yet, and the boxes it waits for.
///
/// ```
/// use arcminute_web::model::{draft::Draft, report::report};
/// let mut draft = Draft::default();
/// draft.person.right.acuity = "20/160".into();
/// let report = report(&draft);
/// let needed = report["results"].as_array().and_then(|all| all.iter().find(|one| one["key"] == "power-needed"));
/// let power = &needed.expect("acuity and goal are known")["values"]["power"];
/// assert!(power["value"].as_f64().is_some_and(|power| (power - 4.0).abs() < 1e-12));
/// assert_eq!(power["unit"], "x");
/// ```
#[must_use]
pub fn report(draft: &Draft) -> Value {
    let answer = Answer::of(draft);
    let fields = FieldId::all(draft.goals.len());
    let entries: Vec<Value> =
        fields.into_iter().map(|field| entry(field, draft, &answer.field(field))).collect();
    let mut results = Vec::new();
    for eye in [EyeChoice::Right, EyeChoice::Left] {
        results.extend(acuity(eye, answer.eye_answer(eye)));
    }
    results.extend(answer.at_age.map(|at_age| goals::accommodation(&at_age)));
    results.extend(answer.goals.iter().enumerate().flat_map(|(index, goal)| goals::goal(index, goal)));
    if let Some(needed) = &answer.needed {
        let values = [("power", times(needed.power.times())), ("whole_power", times(needed.whole.times()))];
        results.push(result("power-needed", "power needed", &values, &[], &needed.steps()));
    }
    for row in &answer.powers {
        let mut values = predicted(&row.prediction);
        values.push(("usual_field", degrees(row.usual_field)));
        let words = [("reach", key(&row.prediction.reach))];
        let name = format!("{}x", row.power);
        results.push(result(&format!("whole-power-{}", row.power), &name, &values, &words, &row.steps()));
    }
    results.extend(answer.bench.iter().map(telescope));
    let asked = Asked::of(&answer);
    for looked in list::demo().list.iter().filter_map(|aid| LookedAt::of(&asked, answer.goal, aid)) {
        results.extend(aids::aid(&looked));
        if looked.aid.id == draft.bench.looked_at() {
            results.extend(aids::trial(&answer, &looked));
        }
    }
    results.extend(fit(&answer.fit));
    let undecided: Vec<Value> = answer
        .undecided
        .iter()
        .map(|item| json!({ "what": item.what, "waits_for": keys(&item.waits_for) }))
        .collect();
    json!({
        "format": "arcminute-report",
        "version": 1,
        "eye": key(&answer.eye),
        "goal": answer.goal,
        "chosen_telescope": answer.chosen_row().map(|row| &row.device.id),
        "lowest_telescope": answer.lowest.and_then(|index| answer.bench.get(index)).map(|row| &row.device.id),
        "entries": entries,
        "results": results,
        "undecided": undecided,
    })
}

fn entry(field: FieldId, draft: &Draft, state: &FieldState) -> Value {
    let info = field.info();
    let mut entry = json!({
        "key": info.key, "label": info.label, "unit": info.unit, "typed": field.text(draft),
    });
    let (name, more) = match state {
        FieldState::Unread => ("unread", json!({})),
        FieldState::Empty { assumed } => ("empty", json!({ "assumed": assumed })),
        FieldState::Understood { echo, unusual } => {
            ("understood", json!({ "echo": echo, "unusual": unusual }))
        }
        FieldState::Ask { question, choices } => {
            let choices: Vec<Value> =
                choices.iter().map(|choice| json!({ "label": choice.label, "text": choice.text })).collect();
            ("ask", json!({ "question": question, "choices": choices }))
        }
        FieldState::Refused { message, hint } => ("refused", json!({ "message": message, "hint": hint })),
    };
    entry["state"] = name.into();
    if let (Some(entry), Value::Object(more)) = (entry.as_object_mut(), more) {
        entry.extend(more);
    }
    entry
}

fn acuity(eye: EyeChoice, answer: &EyeAnswer) -> Option<Value> {
    let key = format!("acuity-{}", key(&eye));
    let what = format!("{}: acuity", eye.label());
    Some(match answer.acuity.as_ref()? {
        Reading::Measured(acuity) => {
            let values = [("acuity", log(acuity.log_mar)), ("detail", arcmin(acuity.log_mar.mar()))];
            result(&key, &what, &values, &[("read", acuity.notation.to_string())], &acuity.steps())
        }
        Reading::Category(category) => result(&key, &what, &[], &[("category", category.to_string())], &[]),
    })
}

fn predicted(prediction: &Prediction) -> Vec<(&'static str, Value)> {
    vec![
        ("acuity_with", log(prediction.with_aid)),
        ("band_best", log(prediction.best)),
        ("band_worst", log(prediction.worst)),
        ("spread", log(prediction.spread)),
        ("chance", plain(prediction.chance)),
    ]
}

fn telescope(row: &BenchRow) -> Value {
    let key = format!("telescope-{}", row.device.id);
    match &row.outcome {
        Ok(outcome) => telescope_does(&key, &row.device.name, outcome),
        Err(error) => result(&key, &row.device.name, &[], &refusal(error), &[]),
    }
}

fn telescope_does(name: &str, what: &str, outcome: &TelescopeOutcome) -> Value {
    let TelescopeOutcome { afocal, focused, refraction, light, ring, .. } = outcome;
    let mut values = vec![
        ("magnification", times(afocal.magnification.times())),
        ("magnification_in_use", times(outcome.in_use.times())),
        ("tube_length", mm(afocal.length)),
        ("tube_length_focused", mm(focused.length)),
        ("focus_travel", mm(focused.travel)),
        ("exit_pupil", mm(afocal.exit_pupil)),
        ("exit_pupil_behind_eyepiece", mm(afocal.exit_pupil_behind_eyepiece)),
        ("light", plain(light.share)),
        ("real_field", degrees(outcome.real_field)),
        ("ring_outer", degrees(ring.outer)),
        ("ring_width", degrees(ring.width)),
        ("ametropia_at_eyepiece", dioptres(refraction.ametropia)),
        ("cylinder_left", dioptres(refraction.cylinder_left)),
        ("cylinder_blur", arcmin(refraction.blur)),
        ("cylinder_blur_on_target", arcmin(refraction.blur_in_object)),
    ];
    values.extend(predicted(&outcome.prediction));
    if let Some(Field { full, half, last }) = outcome.apparent {
        let edges =
            [("apparent_field_full", full), ("apparent_field_half", half), ("apparent_field_last", last)];
        values.extend(edges.map(|(name, angle)| (name, degrees(angle))));
    }
    values.extend(outcome.distance.map(|distance| ("distance", metres(distance))));
    values.extend(outcome.width_at_task.map(|width| ("width_at_task", metres(width))));
    if let FocusReach::TooNear { demand } | FocusReach::FixedForFar { demand } = outcome.reach {
        values.push(("focus_demand_left", dioptres(demand)));
    }
    let focus = match outcome.reach {
        FocusReach::InFocus => "in-focus",
        FocusReach::TooNear { .. } => "too-near",
        FocusReach::FixedForFar { .. } => "fixed-for-far",
    };
    let words = [
        ("reach", key(&outcome.prediction.reach)),
        ("focus", focus.to_owned()),
        ("field_basis", key(&outcome.field_basis)),
        ("cylinder_verdict", key(&refraction.verdict)),
    ];
    result(name, what, &values, &words, &outcome.steps())
}

fn fit(fit: &FitAnswer) -> Option<Value> {
    match fit {
        FitAnswer::Waiting(_) => None,
        FitAnswer::Impossible(error) => Some(result("fit", "fit", &[], &refusal(error), &[])),
        FitAnswer::Done(done) => Some(fitted(done, &shown::fit_steps(fit))),
        FitAnswer::Near(done) => Some(worn::near(done, &shown::fit_steps(fit))),
    }
}

fn fitted(done: &FitDone, steps: &[Step]) -> Value {
    let Mounting { eyepiece, to_mark, web, .. } = &done.mounting;
    let mounting = &done.mounting;
    let mut values = vec![
        ("eyepiece_x", mm(eyepiece.x)),
        ("eyepiece_y", mm(eyepiece.y)),
        ("mark_x", mm(to_mark.x)),
        ("mark_y", mm(to_mark.y)),
        ("rise", mm(mounting.rise)),
        ("head_drop", degrees(mounting.head_drop)),
        ("tilt_to_carrier", degrees(mounting.tilt_to_carrier)),
        ("stop_distance", mm(mounting.stop_distance)),
        ("opening_width", mm(mounting.hole_half_width * 2.0)),
        ("opening_height", mm(mounting.hole_half_height * 2.0)),
        ("clearance", mm(mounting.clearance)),
        ("least_web", mm(web.least)),
        ("least_web_direction", degrees(web.direction)),
        ("smallest_box_height", mm(mounting.smallest_box_height)),
        ("segment_top_at_most", mm(mounting.segment_max)),
        ("segment_drop", mm(mounting.segment_drop)),
    ];
    values.extend(mounting.miss_distance.map(|miss| ("miss_distance", mm(miss))));
    values.extend(mounting.miss_limit.map(|limit| ("miss_limit", mm(limit))));
    values.extend(worn::beside(done));
    let mut fit = result("fit", "fit", &values, &[("verdict", key(&done.verdict))], steps);
    fit["corner_assumed"] = done.corner_assumed.into();
    fit["checks"] = done.checks.iter().map(checked).collect();
    fit
}

fn checked(check: &Check) -> Value {
    let limit = check.limit.map(|limit| match limit {
        Limit::AtLeast(least) => json!({ "at_least": named(&least) }),
        Limit::AtMost(most) => json!({ "at_most": named(&most) }),
        Limit::Between(low, high) => json!({ "at_least": named(&low), "at_most": named(&high) }),
    });
    json!({
        "key": key(&check.id),
        "severity": key(&check.severity),
        "found": check.found.as_ref().map(named),
        "limit": limit,
        "ways_out": check.ways_out.iter().map(way_out).collect::<Vec<_>>(),
    })
}

fn way_out(way: &WayOut) -> Value {
    let words = words::way_out(way);
    match way {
        WayOut::SmallestBoxHeight(size)
        | WayOut::LargestBarrel(size)
        | WayOut::DeeperBelow(size)
        | WayOut::LowerSegment(size)
        | WayOut::HigherTelescope(size)
        | WayOut::NarrowerSegment(size)
        | WayOut::BlankOf(size)
        | WayOut::NarrowerFrame(size)
        | WayOut::ReachBeyondCentre(size)
        | WayOut::LowerCentre(size)
        | WayOut::PrintAt(size)
        | WayOut::MoveEyepiece(size) => json!({ "words": words, "size": mm(*size) }),
        WayOut::OrderTilt(tilt) | WayOut::LessTilt(tilt) => json!({ "words": words, "size": degrees(*tilt) }),
        _ => json!({ "words": words }),
    }
}

/// One answer: values by name, words by name, and the working with its sources.
fn result(
    key: &str,
    what: &str,
    values: &[(&str, Value)],
    words: &[(&str, String)],
    steps: &[Step],
) -> Value {
    let mut sources: Vec<&str> = Vec::new();
    for source in steps.iter().map(source_of) {
        if !sources.contains(&source.id) {
            sources.push(source.id);
        }
    }
    let values: Map<String, Value> =
        values.iter().map(|(name, value)| ((*name).to_owned(), value.clone())).collect();
    let mut result = json!({ "key": key, "what": what, "values": values, "sources": sources });
    for (name, word) in words {
        result[*name] = word.as_str().into();
    }
    result["steps"] = steps.iter().map(step).collect();
    result
}

fn refusal(error: &Error) -> [(&'static str, String); 2] {
    [("refused", error.to_string()), ("hint", error.hint().to_string())]
}

fn source_of(step: &Step) -> &'static Source {
    match step {
        Step::Formula { formula, .. } => formula.source,
        Step::Lookup { source, .. } | Step::Rule { source, .. } => source,
    }
}

fn step(step: &Step) -> Value {
    let source = source_of(step);
    let cited =
        json!({ "id": source.id, "citation": source.citation, "standing": words::standing(source.standing) });
    match step {
        Step::Formula { formula, result, inputs } => json!({
            "formula": formula.id,
            "title": words::title(formula.id),
            "text": format!("{} = {}", formula.gives, formula.text),
            "domain": formula.domain,
            "inputs": inputs.iter().map(named).collect::<Vec<_>>(),
            "result": named(result),
            "source": cited,
        }),
        Step::Lookup { table, row, value, .. } => {
            json!({ "table": table, "row": row, "result": named(value), "source": cited })
        }
        Step::Rule { because, .. } => json!({ "rule": because, "source": cited }),
    }
}

fn named(named: &Named) -> Value {
    let mut value = quantity(named.value, named.unit.symbol());
    value["symbol"] = named.symbol.into();
    value
}

fn quantity(value: f64, unit: &str) -> Value {
    json!({ "value": value, "unit": unit })
}
fn plain(value: f64) -> Value {
    quantity(value, Unit::Plain.symbol())
}
fn times(value: f64) -> Value {
    quantity(value, Unit::Times.symbol())
}
fn mm(length: Length) -> Value {
    quantity(length.mm(), Unit::Millimetre.symbol())
}
fn metres(length: Length) -> Value {
    quantity(length.m(), Unit::Metre.symbol())
}
fn degrees(angle: Angle) -> Value {
    quantity(angle.degrees(), Unit::Degree.symbol())
}
fn arcmin(angle: Angle) -> Value {
    quantity(angle.arcmin(), Unit::Arcmin.symbol())
}
fn dioptres(power: Vergence) -> Value {
    quantity(power.dioptres(), Unit::Dioptre.symbol())
}
fn log(value: LogMar) -> Value {
    quantity(value.log(), Unit::LogMar.symbol())
}

fn keys(fields: &[FieldId]) -> Vec<String> {
    fields.iter().map(|field| field.info().key).collect()
}

/// The name of a variant as a key: `WholeBand` is `whole-band`.
fn key(variant: &impl Debug) -> String {
    let mut key = String::new();
    for letter in format!("{variant:?}").chars() {
        if letter.is_ascii_uppercase() && !key.is_empty() {
            key.push('-');
        }
        key.push(letter.to_ascii_lowercase());
    }
    key
}
