//! A short clinical summary, one page: measured, wished, compared, chosen, fitted, tried, planned.

use super::rows::{self, BLANK, OPEN, clipped, heading, lens, row, row_of, side, typed_words, write};
use super::{BOTH_EYES, Block, Inputs, order};
use crate::model::compared::{Cell, trial};
use crate::model::draft::EyeChoice;
use crate::model::field::FieldId;
use crate::model::{format, shown, summary, words};
use arcminute_core::delivery::Lens;
use arcminute_core::fit::Severity;

/// Goals and aids that find room on one page.
const MOST_GOALS: usize = 5;
const MOST_AIDS: usize = 4;

pub(super) fn body(inputs: &Inputs<'_>) -> (String, Vec<Block>) {
    let mut blocks = vec![heading("Measured")];
    blocks.push(Block::Columns(["", "RIGHT eye", "LEFT eye"].map(Into::into).into()));
    blocks.extend(measured(inputs));
    blocks.push(heading("Goals"));
    blocks.extend(goals(inputs));
    blocks.push(heading("Aids compared for the goal that is served"));
    blocks.extend(aids(inputs));
    blocks.push(heading("Chosen, fitted, tried"));
    blocks.extend(chosen(inputs));
    blocks.push(heading("Plan"));
    blocks.extend(typed_words("Follow-up", &inputs.draft.order.follow_up, OPEN));
    blocks.extend([write("Plan"), write("Seen by, licence number, date")]);
    ("Summary".into(), blocks)
}

fn measured(inputs: &Inputs<'_>) -> Vec<Block> {
    let answer = inputs.answer;
    let both = |what: &str, of: &dyn Fn(EyeChoice) -> String| {
        row_of([what.to_owned(), of(EyeChoice::Right), of(EyeChoice::Left)])
    };
    let typed = |make: fn(bool) -> FieldId, none: &'static str| {
        move |eye: EyeChoice| {
            let field = FieldId::of_eye(make, eye);
            match rows::typed(answer, field) {
                Some(typed) => typed,
                None if answer.field(field).is_trouble() => BLANK.into(),
                None => none.to_owned(),
            }
        }
    };
    vec![
        both("Best corrected acuity", &|eye| rows::acuity(answer, eye, "not entered")),
        both("Refraction", &typed(FieldId::Refraction, "none entered")),
        both("Pupil", &typed(FieldId::Pupil, "")),
        both("Log contrast sensitivity", &typed(FieldId::ContrastSensitivity, "not entered")),
    ]
}

fn goals(inputs: &Inputs<'_>) -> Vec<Block> {
    let answer = inputs.answer;
    let aid = inputs.looked_aid();
    let count = answer.goals.len();
    let mut blocks =
        vec![Block::Columns(vec!["Goal".into(), "Asks for".into(), "With the aid that is looked at".into()])];
    for (index, goal) in answer.goals.iter().enumerate().take(MOST_GOALS) {
        let asks = shown::goal_line(answer, index).map(|line| line.asks).unwrap_or_default();
        let with = match inputs.look(index, aid) {
            None => BLANK.to_owned(),
            Some(looked) => match &looked.does {
                Ok(seen) => {
                    let prediction = &seen.outcome.prediction;
                    let chance = format::chance(prediction.chance);
                    format!("chance {chance}, {}", words::reach_short(prediction.reach))
                }
                Err(cannot) => shown::cannot_words(cannot),
            },
        };
        blocks.push(row_of([clipped(&goal.name, 60), asks, with]));
    }
    if MOST_GOALS < count {
        blocks.push(row("More goals", format!("{} more, in the case itself", count - MOST_GOALS)));
    }
    blocks
}

/// The best few aids for the wish that is served, as Bench puts them.
fn aids(inputs: &Inputs<'_>) -> Vec<Block> {
    let none = || vec![row("Aids", "nothing can be compared yet")];
    let Some(table) = inputs.table else { return none() };
    let Some(wish) = table.wish_of(inputs.answer.goal) else { return none() };
    let ranked = table.ranked(wish, &[inputs.draft.bench.first.criterion()]);
    let best: Vec<usize> = ranked.front.iter().chain(&ranked.but_for).copied().take(MOST_AIDS).collect();
    let looked = inputs.draft.bench.looked_at();
    let chosen = inputs.list.iter().position(|aid| aid.id == looked);
    let mut blocks =
        vec![Block::Columns(["Aid", "Chance", "Would just read", "Seen at once"].map(Into::into).into())];
    for place in best.iter().copied().chain(chosen.filter(|place| !best.contains(place))) {
        let scale = inputs.answer.scale;
        let Some(line) = shown::aid_line(table, inputs.list, (place, wish), None, scale) else { continue };
        let name = if Some(place) == chosen { format!("{} (looked at)", line.name) } else { line.name };
        let has: Option<&Cell> = table.cell(place, wish).and_then(|cell| cell.as_ref().ok());
        if has.is_some() {
            blocks.push(row_of([name, format!("{}, {}", line.chance, line.reach), line.reads, line.seen]));
        } else {
            blocks.push(row_of([name, "–".into(), line.trouble, "–".into()]));
        }
    }
    if blocks.len() == 1 { vec![row("Aids", "none of the list has a chance of it")] } else { blocks }
}

fn chosen(inputs: &Inputs<'_>) -> Vec<Block> {
    let answer = inputs.answer;
    let looked_aid = inputs.looked_aid();
    let mut blocks = vec![row(
        "Aid",
        looked_aid.map_or(BLANK.into(), |aid| format!("{}, {}", aid.title(), answer.eye.label())),
    )];
    let looked = inputs.look_served(looked_aid);
    blocks.extend(looked.as_ref().map(|looked| row("Prediction", order::predicted(answer, looked))));
    let carriers: Vec<String> = BOTH_EYES
        .into_iter()
        .filter_map(|eye| {
            let typed: Lens = answer.order.carrier(eye).typed?;
            Some(format!("{} {}", side(eye), lens(&typed)))
        })
        .collect();
    match answer.fit.verdict() {
        None => blocks.push(row("Fit", "not decided")),
        Some(verdict) => {
            blocks.push(row("Fit", summary::verdict(verdict)));
            let marks = shown::marks(&answer.fit).into_iter().take(4);
            let said: Vec<String> =
                marks.map(|mark| format!("{} {}", mark.what.to_lowercase(), mark.value)).collect();
            blocks.push(row("To mark and order", said.join("; ")));
            blocks.push(row("Carrier lenses", carriers.join("; ")));
        }
    }
    let again: Vec<String> = shown::checks(&answer.fit)
        .into_iter()
        .filter(|check| check.severity != Severity::Pass)
        .map(|check| format!("{}: {}", check.severity_words.to_lowercase(), check.title.to_lowercase()))
        .collect();
    blocks.extend((!again.is_empty()).then(|| row("Look again", again.join("; "))));
    let tried = looked.as_ref().and_then(|looked| trial(answer, looked));
    blocks.push(match tried {
        Some(Ok(verdict)) => row("Trial", shown::trial_words(&verdict)),
        Some(Err(error)) => row("Trial", error.to_string()),
        None => row("Trial", "nothing entered yet"),
    });
    let notes = inputs.draft.trial.notes.trim();
    if !notes.is_empty() {
        blocks.extend(typed_words("Notes on the trial", notes, ""));
    }
    blocks
}
