//! One aid in full: what it does, what to look at, and what would do as well without it.

use super::Shown;
use super::any_power::USUAL_CM;
use crate::model::answer::Answer;
use crate::model::compared::{Cell, LookedAt, Table};
use crate::model::format;
use crate::model::list::{For, ListedAid};
use crate::model::words;
use arcminute_core::device::{FOCUS_LOSS, Outcome, Worn};
use arcminute_core::math;
use arcminute_core::optics::Sight;
use arcminute_core::unit::{Angle, Length, LogMar, PrintSize, Prism, Vergence};

/// The prediction in one sentence, or why there is none.
#[must_use]
pub fn looked_words(looked: &LookedAt) -> String {
    match &looked.does {
        Ok(seen) => {
            let prediction = &seen.outcome.prediction;
            let chance = format::chance(prediction.chance);
            format!("{}: chance {chance}; {}.", looked.named.name, words::reach_words(prediction.reach))
        }
        Err(cannot) => format!("{}: {}.", looked.named.name, super::cannot_words(cannot)),
    }
}

/// What it does, value by value.
#[must_use]
pub fn looked_facts(answer: &Answer, looked: &LookedAt) -> Vec<Shown> {
    let Some(seen) = looked.seen() else { return Vec::new() };
    let (aid, outcome) = (&looked.aid, &seen.outcome);
    let shines = aid.traits().shines;
    let reserve = format!("{} wanted", format::times(outcome.detail.reserve));
    let light =
        if shines { "of the glasses alone: the screen shines by itself" } else { "against the bare eye" };
    let near = outcome.detail.distance.is_none();
    let mut said: Vec<(&str, &str, (String, String))> = vec![
        ("reads", "Would just read", just_read(answer, outcome)),
        ("reserve", "Reserve reached", (format::times(outcome.reserve_reached), reserve)),
        ("size", if near { "As large as from" } else { "Magnification" }, size(outcome)),
        ("seen", "Seen at once", seen_at_once(answer, outcome)),
        ("distance", if near { "Working distance" } else { "Distance" }, distance(shines, outcome)),
        (
            "focus",
            "Focusing asked for",
            (format::dioptres(outcome.focus.needed), focus_note(looked, outcome)),
        ),
        ("depth", "In focus", depth(shines, outcome)),
        ("light", "Light", (format::percent(outcome.light), light.into())),
    ];
    if let Some(steady) = looked.steady() {
        let head =
            format!("head turning under {}° a second", format::trimmed(steady.head.degrees_per_second(), 1));
        let note =
            "faster, and the picture slips and costs acuity; measured with normal sight, not with low vision";
        said.push(("steady", "Steady enough", (head, note.into())));
    }
    said.extend(both_eyes(answer, looked).map(|told| ("both", "Both eyes turn in by", told)));
    let contrast = answer.goals.get(looked.named.goal).and_then(|goal| goal.of_eye(answer.eye).contrast);
    if let Some(contrast) = contrast {
        let note =
            "contrast of the thing over the least this eye sees, with good light; no aid of glass adds any";
        said.push(("contrast", "Contrast reserve", (format::times(contrast.reserve), note.into())));
    }
    if aid.device().is_some() {
        // Its power in use stands beside, against the person's own glasses.
        said.retain(|fact| fact.0 != "size");
    }
    if let Some(grams) = aid.weight_g() {
        said.push(("weight", "Weight", (format!("{} g", format::trimmed(grams, 0)), "as listed".into())));
    }
    said.into_iter()
        .map(|(name, what, (value, note))| Shown::new(format!("looked-{name}"), what, value, note))
        .collect()
}

/// The print, or the acuity, that would only just be read.
pub(super) fn just_read(answer: &Answer, outcome: &Outcome) -> (String, String) {
    // What scatters is the acuity, and the size that is just read with it.
    let scatter = |end: LogMar| math::pow(10.0, end.log() - outcome.prediction.with_aid.log());
    let (best, worst) = (scatter(outcome.prediction.best), scatter(outcome.prediction.worst));
    match outcome.detail.distance {
        None => {
            let print = |share: f64| {
                let print = PrintSize::of_x_height(outcome.least_height * share);
                format::trimmed(print.m_units(), 2)
            };
            let height = format::decimals(outcome.least_height.mm(), 2);
            let note = format!("x-height {height} mm; band {} to {} M", print(best), print(worst));
            (format!("{} M", print(1.0)), note)
        }
        Some(distance) => {
            let acuity = |share: f64| {
                LogMar::of_angle(Angle::subtended(outcome.least_height * (share / 5.0), distance))
            };
            let height = format::trimmed(outcome.least_height.mm(), 1);
            let (best, worst) = (acuity(best), acuity(worst));
            let written = |acuity| arcminute_core::acuity::written(acuity, answer.scale);
            let note = format!(
                "letters {height} mm high at {}; band {} to {}",
                format::distance(distance),
                written(best),
                written(worst)
            );
            (answer.acuity(acuity(1.0)), note)
        }
    }
}

/// What both eyes turn in behind spectacles for near.
fn both_eyes(answer: &Answer, looked: &LookedAt) -> Option<(String, String)> {
    let turned = looked.turned_in(answer)?;
    let prism = |prism: Prism| format::decimals(prism.prism_dioptres(), 0);
    let note = format!(
        "each {} through lenses centred on the pupils, {} without; base-in prism or closer centres spare it; 14 mm from cornea to centre of rotation assumed",
        prism(turned.per_eye),
        prism(turned.bare)
    );
    Some((format!("{} prism dioptres", prism(turned.both)), note))
}

fn size(outcome: &Outcome) -> (String, String) {
    match (outcome.detail.distance, outcome.equivalent_viewing_distance) {
        (None, Some(evd)) => {
            let power = Vergence::of_focal_length(evd);
            (format::close(evd), format!("equivalent viewing power {}", format::dioptres(power)))
        }
        _ => (format::times(outcome.angular.size()), "against the bare eye from the same place".into()),
    }
}

fn distance(shines: bool, outcome: &Outcome) -> (String, String) {
    let room = match outcome.arrangement.hand_room {
        Some(room) if room <= Length::ZERO => "it lies on the page".to_owned(),
        Some(room) => format!("{} free over the page", format::close(room)),
        None => "nothing in the way of the hand".to_owned(),
    };
    match (outcome.detail.distance, outcome.arrangement.shown_to_eye()) {
        (Some(distance), _) => (format::distance(distance), "eye to the thing".into()),
        (None, Some(to_eye)) => {
            let from = if shines { "screen to eye" } else { "page to eye" };
            (format::close(to_eye), format!("{from}; {room}"))
        }
        (None, None) => ("far".into(), room),
    }
}

/// What meets the demand: glasses, add, accommodation; and what stays out of focus.
fn focus_note(looked: &LookedAt, outcome: &Outcome) -> String {
    let focus = &outcome.focus;
    let worn = match looked.eye.worn {
        Worn::Nothing => "no glasses".to_owned(),
        Worn::Distance => "correction for far worn".to_owned(),
        Worn::Near { add } => format!("correction for far and add {} worn", format::dioptres(add)),
    };
    let has = format!("{worn}; the eye has {}", format::dioptres(focus.available));
    if focus.is_sharp() {
        return format!("{has}: sharp");
    }
    let left = format!("{} D", format::decimals(focus.defocus.abs().dioptres(), 2));
    let cylinder = if focus.cylinder_left.dioptres() < 0.01 {
        String::new()
    } else {
        format!(" and a cylinder of {} D", format::decimals(focus.cylinder_left.dioptres(), 2))
    };
    let loss = format::decimals(outcome.blurred.loss.log(), 2);
    format!("{has}: {left}{cylinder} out of focus, which costs {loss} log")
}

fn seen_at_once(answer: &Answer, outcome: &Outcome) -> (String, String) {
    let Some(widths) = outcome.widths else { return ("no limit".into(), "as wide as without it".into()) };
    let seen = widths.half;
    if outcome.detail.distance.is_none()
        && let Some(characters) = outcome.characters
    {
        return (format::close(seen), format!("about {} characters", format::decimals(characters, 0)));
    }
    let note = match answer.goal_answer().and_then(|goal| goal.width) {
        Some(wanted) if wanted <= seen => format!("all of the {} wanted", format::width(wanted)),
        Some(wanted) => {
            format!("{} of the {} wanted", format::percent(seen / wanted), format::width(wanted))
        }
        None => "at the goal, to half light".into(),
    };
    (format::width(seen), note)
}

fn depth(shines: bool, outcome: &Outcome) -> (String, String) {
    let from = match outcome.arrangement.sight {
        _ if shines => "glasses to screen",
        Sight::At(distance) if distance <= Length::ZERO => "below the flat face",
        Sight::At(_) | Sight::Far => "before the first lens",
    };
    let note = format!("{from}; acuity falls by no more than {FOCUS_LOSS} log there");
    match outcome.depth {
        None => ("nothing".into(), "no distance is sharp".into()),
        Some(depth) => match depth.farthest {
            None => (format!("from {} on", format::close(depth.nearest)), note),
            Some(farthest) => {
                (format!("{} to {}", format::close(depth.nearest), format::close(farthest)), note)
            }
        },
    }
}

/// What to look at with it: each a sentence that says what to do.
#[must_use]
pub fn looked_notes(looked: &LookedAt) -> Vec<String> {
    let mut notes = Vec::new();
    if let Some(seen) = looked.seen() {
        let outcome = &seen.outcome;
        if looked.aid.serves() == For::Field {
            notes.push(format!(
                "For a field that is small: everything looks {} the size, so more is seen at once and detail is lost.",
                format::times(outcome.angular.size())
            ));
        }
        if outcome.tolerance < outcome.focus.defocus {
            notes.push(
                "It is too near for this eye: an add, accommodation or more distance would make it sharp."
                    .into(),
            );
        } else if outcome.focus.defocus < -outcome.tolerance {
            notes.push("The light converges more than this eye can use: a weaker add or another distance would make it sharp.".into());
        }
        if outcome.blurred.beyond_domain {
            notes.push("The blur is stronger than the figures behind its cost, which end at 3.5 D.".into());
        }
    }
    if !looked.aid.note.is_empty() {
        notes.push(looked.aid.note.clone());
    }
    notes
}

/// What would look as large without it: coming nearer, or a larger thing.
#[must_use]
pub fn instead_words(looked: &LookedAt) -> String {
    let Some(seen) = looked.seen() else { return String::new() };
    let outcome = &seen.outcome;
    match (outcome.detail.distance, outcome.equivalent_viewing_distance) {
        (None, Some(evd)) => {
            let usual = Length::from_cm(USUAL_CM);
            let focusing = format::dioptres(Vergence::of_focal_length(evd));
            let larger = format::trimmed(usual / evd, 1);
            format!(
                "Without it, print looks as large {} from the eye, for an eye that can focus {focusing}; or printed {larger} times as large, at {}.",
                format::close(evd),
                format::close(usual)
            )
        }
        (Some(distance), _) => {
            let times = outcome.angular.size();
            if times <= 1.0 {
                return String::new();
            }
            format!(
                "Without it, it looks as large from {}, or {} times as large from {}.",
                format::distance(distance / times),
                format::trimmed(times, 1),
                format::distance(distance)
            )
        }
        _ => String::new(),
    }
}

/// The aids of the same family that are next in power, weaker and stronger, by their places in the list.
#[must_use]
pub fn neighbours(table: &Table, list: &[ListedAid], wish: usize, at: usize) -> [Option<usize>; 2] {
    /// Powers nearer than this to each other are no step.
    const STEP: f64 = 1.02;
    let power = |place: usize| -> Option<f64> {
        let cell = table.cell(place, wish)?.as_ref().ok()?;
        Some(cell.merits.power?.size())
    };
    let mut found: [Option<(usize, f64)>; 2] = [None, None];
    let (Some(here), Some(aid)) = (power(at), list.get(at)) else { return [None, None] };
    for (place, other) in list.iter().enumerate().filter(|(_, other)| other.family == aid.family) {
        let Some(there) = power(place) else { continue };
        let ratio = there / here;
        let side = usize::from(1.0 < ratio);
        if other.id == aid.id || (1.0 / STEP..STEP).contains(&ratio) {
            continue;
        }
        let is_nearer = |best: (usize, f64)| if side == 1 { there < best.1 } else { best.1 < there };
        if found[side].is_none_or(is_nearer) {
            found[side] = Some((place, there));
        }
    }
    found.map(|found| found.map(|(place, _)| place))
}

/// What a step to another aid would do, against the one looked at.
#[must_use]
pub fn step_words(name: &str, more: bool, there: &Cell, here: &Cell) -> String {
    let direction = if more { "One step more" } else { "One step less" };
    let width = |cell: &Cell| cell.width.map_or("no limit".into(), format::width);
    format!(
        "{direction}, {name}: chance {} instead of {}; seen at once {} instead of {}; light {} instead of {}.",
        format::chance(there.prediction.chance),
        format::chance(here.prediction.chance),
        width(there),
        width(here),
        format::percent(there.light),
        format::percent(here.light),
    )
}

#[cfg(test)]
mod tests;
