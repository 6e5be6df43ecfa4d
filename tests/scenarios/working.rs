//! The working of every answer agrees with the answer.

use crate::reading::{case, names};
use arcminute_core::acuity::Reading;
use arcminute_core::explain::{Explain, Step};
use arcminute_web::model::answer::Answer;
use arcminute_web::model::compared::{Asked, LookedAt, trial};
use arcminute_web::model::list;
use arcminute_web::model::report::report;
use arcminute_web::model::shown::fit_steps;
use arcminute_web::model::working::line;
use serde_json::Value;

/// The steps behind everything in an answer.
pub(crate) fn steps(answer: &Answer, looked_at: &str) -> Vec<Step> {
    let mut steps = Vec::new();
    for eye in [&answer.right, &answer.left] {
        if let Some(Reading::Measured(acuity)) = &eye.acuity {
            steps.extend(acuity.steps());
        }
    }
    steps.extend(answer.at_age.iter().flat_map(Explain::steps));
    for goal in &answer.goals {
        steps.extend(goal.print.iter().flat_map(Explain::steps));
        steps.extend(goal.face.iter().flat_map(Explain::steps));
        steps.extend(goal.ends.iter().flat_map(Explain::steps));
        steps.extend([&goal.right, &goal.left].into_iter().flat_map(Explain::steps));
    }
    steps.extend(answer.needed.iter().flat_map(Explain::steps));
    steps.extend(answer.powers.iter().flat_map(Explain::steps));
    steps.extend(answer.bench.iter().filter_map(|row| row.outcome.as_ref().ok()).flat_map(Explain::steps));
    let asked = Asked::of(answer);
    for looked in list::demo().list.iter().filter_map(|aid| LookedAt::of(&asked, answer.goal, aid)) {
        steps.extend(looked.steps());
        if looked.aid.id == looked_at {
            steps.extend(trial(answer, &looked).and_then(Result::ok).iter().flat_map(Explain::steps));
        }
    }
    steps.extend(fit_steps(&answer.fit));
    steps
}

/// Every step that does not agree with its own numbers, or cannot be shown.
pub(crate) fn disagreeing(steps: &[Step]) -> Vec<String> {
    steps
        .iter()
        .filter_map(|step| {
            let shown = line(step);
            let empty = shown.title.is_empty() || shown.title == "Step" || shown.source.is_empty();
            step.check().err().or_else(|| empty.then(|| format!("{step:?} cannot be shown")))
        })
        .collect()
}

/// How many steps a report holds.
pub(crate) fn reported(report: &Value) -> usize {
    let of = |result: &Value| result["steps"].as_array().map_or(0, Vec::len);
    report["results"].as_array().into_iter().flatten().map(of).sum()
}

/// Every value of a report that is no number, or has no unit.
pub(crate) fn not_numbers(report: &Value) -> Vec<String> {
    let mut found = Vec::new();
    for result in report["results"].as_array().into_iter().flatten() {
        for (name, quantity) in result["values"].as_object().into_iter().flatten() {
            if !quantity["value"].is_f64() || !quantity["unit"].is_string() {
                found.push(format!("{} {name}: {quantity}", result["key"]));
            }
        }
    }
    found
}

#[test]
fn every_step_of_every_case_agrees() {
    for name in names() {
        let draft = case(&name);
        let steps = steps(&Answer::of(&draft), draft.bench.looked_at());
        assert!(100 < steps.len(), "{name} has {} steps only", steps.len());
        assert_eq!(disagreeing(&steps), [""; 0], "{name}");
        let report = report(&draft);
        assert_eq!(reported(&report), steps.len(), "{name}: the report holds every step");
        assert_eq!(not_numbers(&report), [""; 0], "{name}");
    }
}

#[test]
fn every_result_with_values_has_working_and_sources() {
    for name in names() {
        let report = report(&case(&name));
        for result in report["results"].as_array().expect("results") {
            let values = result["values"].as_object().map_or(0, serde_json::Map::len);
            let (steps, sources) = (&result["steps"], &result["sources"]);
            if 0 < values {
                assert_ne!(steps.as_array().map(Vec::len), Some(0), "{name} {}: no working", result["key"]);
                assert_ne!(sources.as_array().map(Vec::len), Some(0), "{name} {}: no source", result["key"]);
            }
        }
    }
}

/// The checker sees a result that its formula does not give.
#[test]
fn a_step_that_disagrees_is_seen() {
    let mut steps = steps(&Answer::of(&case("adult-20-160")), "");
    let Some(Step::Formula { result, .. }) =
        steps.iter_mut().find(|step| matches!(step, Step::Formula { .. }))
    else {
        panic!("there is a formula");
    };
    result.value *= 1.000_001;
    assert_eq!(disagreeing(&steps).len(), 1);
}
