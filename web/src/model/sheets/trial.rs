//! The trial sheet: what is predicted of the aid that is looked at, beside room for what is reached.

use super::rows::{BLANK, clipped, heading, row, row_of, step, write};
use super::{Block, Inputs, cautions};
use crate::model::compared::trial;
use crate::model::shown;
use crate::model::words::{IF_TRIAL_FALLS_SHORT, Where};

/// The facts of an aid that can be met at a trial, by their keys.
const TO_BE_MET: [&str; 5] =
    ["looked-reads", "looked-distance", "looked-seen", "looked-focus", "looked-light"];

pub(super) fn body(inputs: &Inputs<'_>) -> (String, Vec<Block>) {
    let answer = inputs.answer;
    let aid = inputs.looked_aid();
    let goal = answer.goal_answer();
    let mut blocks = vec![heading("Aid and goal"), row("Aid", aid.map_or(BLANK.into(), |aid| aid.title()))];
    blocks.extend(aid.map(|aid| row("How it is used", aid.how())));
    blocks.push(row("Eye", answer.eye.label()));
    blocks.push(row("Goal", goal.map_or(BLANK.into(), |goal| clipped(&goal.name, 120))));
    let asks = shown::goal_asks(answer, answer.goal);
    blocks.extend((!asks.is_empty()).then(|| row("It asks for", asks)));
    blocks.push(heading("Predicted, and reached"));
    blocks.push(Block::Columns(["What", "Predicted", "Reached"].map(Into::into).into()));
    let looked = inputs.look_served(aid);
    match looked.as_ref() {
        Some(looked) if looked.seen().is_some() => {
            let facts = shown::looked_facts(answer, looked).into_iter();
            for fact in facts.filter(|fact| TO_BE_MET.contains(&fact.key.as_str())) {
                let note = if fact.note.is_empty() { String::new() } else { format!(" ({})", fact.note) };
                blocks.push(row_of([fact.what, format!("{}{note}", fact.value), String::new()]));
            }
        }
        Some(looked) => {
            blocks.push(row_of(["Prediction".into(), shown::looked_words(looked), String::new()]))
        }
        None => blocks.push(row_of(["Acuity or print", BLANK, ""])),
    }
    if let Some(said) = looked.as_ref().and_then(|looked| trial(answer, looked)).and_then(Result::ok) {
        blocks.push(row("Entered so far", shown::trial_words(&said)));
    }
    blocks.push(heading("Seen at the trial"));
    blocks.push(row("Task done (ring one)", "yes   /   in part   /   no"));
    for what in [
        "Chart or task, its distance, light on it",
        "Comfort",
        "Verdict of the person",
        "Tried next, and why",
    ] {
        blocks.push(write(what));
    }
    blocks.push(write("Tested by, date"));
    blocks.push(heading("If it falls short, in this order"));
    blocks.extend(IF_TRIAL_FALLS_SHORT.iter().map(step));
    let places = aid.map(|aid| aid.cautions()).unwrap_or_default();
    blocks.extend(cautions(&[&places[..], &[Where::Prediction]].concat()));
    ("Trial sheet".into(), blocks)
}
