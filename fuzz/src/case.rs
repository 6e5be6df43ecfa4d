//! A whole case: whatever stands in its boxes, there is an answer, its working agrees, and no refused text counts.
//!
//! A line each: where in the case file, a colon, and what stands there, as in `person.right.acuity: 20/160`.

use arcminute_core::acuity::Reading;
use arcminute_core::explain::{Explain, Step};
use arcminute_web::model::answer::{Answer, FieldState, FitAnswer};
use arcminute_web::model::draft::{Draft, GoalDraft};
use arcminute_web::model::field::{FieldId, Kind};
use arcminute_web::model::report::report;
use arcminute_web::model::{case_file, entry, shown, summary};
use serde_json::Value;

/// What every box but one of words refuses.
const JUNK: &str = "?!";

/// Lines as above; those that name nothing are passed over.
pub(crate) fn any(text: &str) {
    let Some(draft) = draft(text) else { return };
    let answer = Answer::of(&draft);
    let fields = FieldId::all(draft.goals.len());
    for field in &fields {
        fits(*field, &draft, &answer.field(*field));
    }
    for step in steps(&answer) {
        assert_eq!(step.check(), Ok(()), "{step:?}");
    }
    let report = report(&draft);
    numbers(&report);
    let _ = (summary::sentence(&answer, None), shown::checks(&answer.fit), shown::marks(&answer.fit));
    let _ = shown::sheet(&draft, &answer);
    let _ = (summary::short(&answer), shown::age_words(&answer));
    for index in 0..answer.goals.len() {
        let _ = (shown::goal_line(&answer, index), shown::goal_asks(&answer, index));
        let _ = shown::goal_notes(&answer, &draft, index);
    }
    let written = case_file::write("", &draft);
    assert_eq!(
        case_file::read(&written).map(|file| file.case).as_ref(),
        Ok(&draft),
        "the case is not read back"
    );
    without_refused(&draft, &answer, &report);
}

fn draft(text: &str) -> Option<Draft> {
    let mut start = Draft::default();
    start.goals.push(GoalDraft::default());
    let mut case = serde_json::to_value(start).ok()?;
    for (place, said) in text.lines().filter_map(|line| line.split_once(": ")) {
        let pointer = format!("/{}", place.replace('.', "/"));
        let Some(value) = case.pointer_mut(&pointer) else { continue };
        match value {
            Value::String(text) => *text = said.into(),
            Value::Bool(yes) => *yes = said == "yes",
            Value::Number(_) => *value = Value::from(said.parse::<u8>().unwrap_or_default()),
            _ => {}
        }
    }
    serde_json::from_value(case).ok()
}

/// What became of a box agrees with what stands in it.
fn fits(field: FieldId, draft: &Draft, state: &FieldState) {
    let info = field.info();
    let blank = entry::normalise(field.text(draft)).is_ok_and(|plain| plain.is_empty());
    let good = match state {
        FieldState::Unread => info.kind == Kind::Words,
        FieldState::Empty { assumed } => blank && assumed.is_some() == info.assumed.is_some(),
        FieldState::Understood { echo, .. } => !blank && !echo.is_empty(),
        FieldState::Ask { question, choices } => !blank && !question.is_empty() && !choices.is_empty(),
        FieldState::Refused { message, hint } => !blank && 2 < message.len() && 2 < hint.len(),
    };
    assert!(good, "{field:?} holds {:?} and is {state:?}", field.text(draft));
}

fn steps(answer: &Answer) -> Vec<Step> {
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
    if let FitAnswer::Done(done) = &answer.fit {
        steps.extend(done.mounting.steps());
    }
    steps
}

/// Every value of a report is a finite number with its unit; JSON has `null` for the rest.
fn numbers(report: &Value) {
    for result in report["results"].as_array().into_iter().flatten() {
        for (name, quantity) in result["values"].as_object().into_iter().flatten() {
            let whole = quantity["value"].is_f64() && quantity["unit"].is_string();
            assert!(whole, "{} {name}: {quantity}", result["key"]);
        }
    }
}

/// Other junk in the place of an entry that cannot be used changes no result.
fn without_refused(draft: &Draft, answer: &Answer, before: &Value) {
    let mut junk = draft.clone();
    let mut any = false;
    for (field, state) in answer.fields.iter().filter(|(_, state)| state.is_trouble()) {
        assert!(!matches!(field.info().kind, Kind::Words), "{field:?} is {state:?}");
        field.set_text(&mut junk, JUNK.into());
        any = true;
    }
    if any {
        assert_eq!(report(&junk)["results"], before["results"], "an entry that cannot be used counts");
    }
}
