//! What the person takes home: what the aid is for, how it is used, looked after, and what to be careful of.
//!
//! Nothing of a diagnosis, no acuity, no medical word.

use super::rows::{clipped, heading, point, row, step, text, typed_words, write};
use super::{Block, Inputs};
use crate::model::compared::LookedAt;
use crate::model::format;
use crate::model::list::ListedAid;
use crate::model::words::{Care, IF_IT_FAILS, IF_SIGHT_CHANGES, Where, careful, instructions, steps_for};
use arcminute_core::unit::Length;

/// What the page is and is not, for whom it is not written otherwise.
pub(super) const INTENDED_USE_PLAIN: &str = "Made with Arcminute, a tool that does sums and keeps notes. It is not a medical device. It does not say what you need. Ask the one who gave you this sheet.";

/// From this chance on the sheet says that the aid is for a goal.
const LIKELY: f64 = 0.5;

pub(super) fn body(inputs: &Inputs<'_>) -> (String, Vec<Block>) {
    let mut blocks = Vec::new();
    let Some(aid) = inputs.looked_aid() else {
        blocks.push(row("Your aid", super::BLANK));
        blocks.extend(ends(inputs));
        return ("Your aid".into(), blocks);
    };
    let told = instructions(aid.family);
    let looked = inputs.look_served(Some(aid));
    blocks.push(heading("What it is for"));
    blocks.push(text(format!("This is {}.", told.plain_name)));
    blocks.push(text("You can try it for this:"));
    blocks.extend(purposes(inputs));
    blocks.push(heading("How to use it"));
    blocks.extend(steps_for(aid).iter().map(step));
    blocks.extend(looked.as_ref().and_then(distance).map(text));
    blocks.extend(be_careful(aid));
    blocks.push(heading("Look after it"));
    blocks.extend(told.care.sentences().iter().map(|words| point(*words)));
    blocks.push(heading("If it does not work"));
    blocks.extend(IF_IT_FAILS.iter().map(|words| point(*words)));
    blocks.push(heading("If your sight changes"));
    blocks.extend(IF_SIGHT_CHANGES.iter().map(|words| point(*words)));
    blocks.extend(ends(inputs));
    ("Your aid, and how to use it".into(), blocks)
}

/// What to be careful of; nothing for what has no risk of its own.
fn be_careful(aid: &ListedAid) -> Vec<Block> {
    let mut places = aid.cautions();
    // A telescope's own words say what those of standing say.
    if places.contains(&Where::Telescope) {
        places.retain(|place| *place != Where::Standing);
    }
    let mut points: Vec<Block> =
        places.iter().flat_map(|place| careful(*place)).map(|words| point(*words)).collect();
    if instructions(aid.family).care == Care::Electric {
        points.push(point("Do not walk, use stairs or run a machine while you look at the screen."));
    }
    let head = (!points.is_empty()).then(|| heading("Be careful"));
    head.into_iter().chain(points).collect()
}

/// The goals that it may well reach, the one that it was chosen for first.
fn purposes(inputs: &Inputs<'_>) -> Vec<Block> {
    let answer = inputs.answer;
    let aid = inputs.looked_aid();
    let likely = |goal: usize| {
        let looked = inputs.look(goal, aid);
        looked.and_then(|looked| Some(LIKELY <= looked.seen()?.outcome.prediction.chance)).unwrap_or(false)
    };
    let others = (0..answer.goals.len()).filter(|goal| *goal != answer.goal && likely(*goal));
    let all = [answer.goal].into_iter().chain(others).take(6);
    all.filter_map(|goal| answer.goals.get(goal)).map(|goal| point(clipped(&goal.name, 120))).collect()
}

/// How far the page or the screen is from the eye.
fn distance(looked: &LookedAt) -> Option<String> {
    let outcome = &looked.seen()?.outcome;
    if outcome.detail.distance.is_some() {
        return None;
    }
    let to_eye = outcome.arrangement.shown_to_eye()?;
    let thing = if looked.aid.traits().shines { "screen" } else { "page" };
    let mut said = format!("Keep the {thing} about {} from your eye.", in_both(to_eye));
    if let Some(room) = outcome.arrangement.hand_room.filter(|room| Length::ZERO < *room && thing == "page") {
        said.push_str(&format!(" Then there are about {} between the lens and the page.", in_both(room)));
    }
    Some(said)
}

fn in_both(length: Length) -> String {
    if length.m() < 1.0 {
        format!("{} cm ({} inches)", format::trimmed(length.cm(), 0), format::trimmed(length.inches(), 1))
    } else {
        format::distance(length)
    }
}

/// Notes, the next visit, whom to ask.
fn ends(inputs: &Inputs<'_>) -> Vec<Block> {
    let order = &inputs.draft.order;
    let mut blocks = vec![heading("When you come again")];
    blocks.extend(typed_words("Come again", &order.follow_up, super::OPEN));
    blocks.push(write("Ask this person, and call this number"));
    if !order.person_notes.trim().is_empty() {
        blocks.extend(typed_words("For you", &order.person_notes, ""));
    }
    blocks
}
