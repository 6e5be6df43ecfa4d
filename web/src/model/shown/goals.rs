//! The wishes in words: what each asks for, how far the eyes are from it, what is known of it.

use crate::model::answer::{Answer, EyeToGoal, GoalAnswer, ReserveFrom};
use crate::model::draft::{Draft, EyeChoice, GoalKind};
use crate::model::{format, shelf, words};
use arcminute_core::reading::{ContrastLimit, ContrastReserve};
use arcminute_core::scene::USUAL_CYCLES;
use arcminute_core::task::Goal;

/// A wish in one line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GoalLine {
    /// What it is called.
    pub name: String,
    /// What it asks for, and how far the eye that is looked at is from it.
    pub asks: String,
    /// How much it matters.
    pub priority: &'static str,
}

/// A wish in one line; nothing for one that is not there.
#[must_use]
pub fn goal_line(answer: &Answer, index: usize) -> Option<GoalLine> {
    let goal = answer.goals.get(index)?;
    let asks = match &goal.demand {
        None => "waits for its boxes".into(),
        Some(demand) => {
            let asks = arcminute_core::acuity::written(demand.to_reach, answer.scale);
            let short = short(goal.of_eye(answer.eye)).map(|short| format!("; {short}")).unwrap_or_default();
            format!("asks for {asks}{}{short}", from(goal))
        }
    };
    Some(GoalLine { name: goal.name.clone(), asks, priority: goal.asked.priority.label() })
}

/// From where print is taken to be read.
fn from(goal: &GoalAnswer) -> String {
    match (goal.kind, goal.demand.map(|demand| demand.goal)) {
        (GoalKind::Print, Some(Goal::Target(target))) => format!(" from {}", format::close(target.distance)),
        _ => String::new(),
    }
}

/// `6 steps short, 4x`.
fn short(eye: &EyeToGoal) -> Option<String> {
    let (steps, needed) = eye.steps_short().zip(eye.larger)?;
    Some(if steps <= 1e-9 {
        "reached without an aid".into()
    } else {
        format!("{} short, {}", words::steps(steps), format::times(rounded(needed.power.times())))
    })
}

/// To one digit behind the point: how much larger a thing has to look is not known better.
fn rounded(times: f64) -> f64 {
    arcminute_core::math::round_to(times, 0.1)
}

/// What a wish asks for and how far the eye that is looked at is from it, in sentences; empty while it waits.
#[must_use]
pub fn goal_asks(answer: &Answer, index: usize) -> String {
    let Some((goal, demand)) = answer.goals.get(index).and_then(|goal| Some((goal, goal.demand?))) else {
        return String::new();
    };
    let at = match goal.ends.last().and_then(|end| end.distance) {
        _ if goal.kind == GoalKind::Print => format!(",{}", from(goal)),
        Some(distance) if 1 < goal.ends.len() => format!(", from {}", format::distance(distance)),
        _ => String::new(),
    };
    let asks = format!(
        "Asks for {}: detail of {}{at}.",
        answer.acuity(demand.to_reach),
        format::arcmin(demand.to_reach.mar())
    );
    let eye = answer.eye.label();
    match goal.of_eye(answer.eye).steps_short() {
        None => asks,
        Some(short) if short <= 1e-9 => format!("{asks} The {eye} reaches it without an aid."),
        Some(short) => format!("{asks} The {eye} is {} of 0.1 log short.", words::steps(short)),
    }
}

/// What else there is to say of a wish: its other end, the other eye, the reserve, the contrast, where its size is from.
#[must_use]
pub fn goal_notes(answer: &Answer, draft: &Draft, index: usize) -> Vec<String> {
    let Some(goal) = answer.goals.get(index) else { return Vec::new() };
    let mut notes = Vec::new();
    if let (Some(nearest), true) = (goal.ends.first().filter(|end| !end.hardest), 1 < goal.ends.len()) {
        let from = nearest.distance.map(format::distance).unwrap_or_default();
        notes.push(format!(
            "From {from} it asks for {}; the farther, the more.",
            answer.acuity(nearest.demand.to_reach)
        ));
    }
    let other = answer.eye.other();
    if let Some(short) = short(goal.of_eye(other)) {
        notes.push(format!("{}: {short}.", other.label()));
    }
    if goal.kind == GoalKind::Print && !goal.ends.is_empty() {
        notes.extend(near(answer, goal));
    }
    notes.extend(face(answer, goal));
    if let Some(reserve) = goal.reserve.filter(|_| !goal.ends.is_empty()) {
        let times = format::times(reserve);
        notes.extend(match goal.reserve_from {
            ReserveFrom::Typed => Some(format!("Reserve {times}: as typed.")),
            ReserveFrom::HowWell(anchor) => Some(format!(
                "Reserve {times}: {}; {} ({}).",
                anchor.says,
                anchor.source.citation,
                words::standing(anchor.source.standing)
            )),
            ReserveFrom::None => None,
        });
    }
    for eye in [answer.eye, other] {
        notes.extend(goal.of_eye(eye).contrast.map(|reserve| contrast(eye, &reserve)));
    }
    if let Some(item) = draft.goals.get(index).and_then(shelf::taken_from) {
        let told = [item.size, item.distance, item.contrast].into_iter().filter(|part| !part.is_empty());
        let told = told.collect::<Vec<_>>().join("; ");
        notes.push(format!("From the shelf: {told}. Size: {}.", item.source));
    }
    notes
}

/// From where the eye would read print, and how its angle was taken.
fn near(answer: &Answer, goal: &GoalAnswer) -> Vec<String> {
    let mut notes = Vec::new();
    if let Some(near) = &goal.of_eye(answer.eye).near {
        notes.push(format!(
            "Large enough from {}, or through an aid that does the same ({}): a first estimate from the acuity. \
             Words may ask for more than letters.",
            format::close(near.evd),
            format::dioptres(near.evp)
        ));
    }
    if goal.ends.iter().all(|end| end.distance.is_none()) {
        notes.push("It may be held where it suits; 40 cm is assumed so that it has an angle.".into());
    }
    notes
}

/// The band of a face, always beside its one number.
fn face(answer: &Answer, goal: &GoalAnswer) -> Vec<String> {
    let Some((end, [fewest, most])) =
        goal.ends.last().and_then(|end| Some((end, end.band?))).filter(|(end, _)| end.hardest)
    else {
        return Vec::new();
    };
    let from = end.distance.map(format::distance).unwrap_or_default();
    vec![format!(
        "From {from} a face asks for something from {} to {}: {} to {} cycles across it carry who it is, {} best ({}). \
         Light and contrast matter as much: acuity and contrast together explained less than half of how people \
         differed. Its width of 140 mm is from memory.",
        answer.acuity(fewest.to_reach),
        answer.acuity(most.to_reach),
        format::trimmed(USUAL_CYCLES.fewest, 1),
        format::trimmed(USUAL_CYCLES.most, 1),
        format::trimmed(USUAL_CYCLES.best, 1),
        USUAL_CYCLES.source.citation
    )]
}

/// The contrast of a thing against the least an eye sees.
fn contrast(eye: EyeChoice, reserve: &ContrastReserve) -> String {
    let eye = eye.label();
    let times = format::times(rounded(reserve.reserve));
    if reserve.reserve < 1.0 {
        return format!("{eye}: its contrast is below the least this eye sees ({times}).");
    }
    let says = match reserve.limit {
        ContrastLimit::MarkedlySlow => "below 4x, which slows reading markedly and costs accuracy",
        ContrastLimit::Slow => "below 10x, which slows reading",
        ContrastLimit::Enough => "10x or more, where contrast does not limit reading",
    };
    format!("{eye}: contrast reserve {times}, {says} (guideline of a review; published).")
}

/// What accommodation is usual at the age, where one was given.
#[must_use]
pub fn age_words(answer: &Answer) -> String {
    let Some(at_age) = answer.at_age else { return String::new() };
    if at_age.past_formulas {
        return "Past 60 years the formulas for accommodation stop: none is expected.".into();
    }
    let d = |power| format::dioptres(power).replace('+', "");
    format!(
        "At this age {} to {} of accommodation are usual, {} in the mean (Hofstetter's formulas); half of it is \
         commonly taken as usable. It counts only if it is typed for an eye: an empty box is 0 D.",
        d(at_age.least),
        d(at_age.most),
        d(at_age.mean)
    )
}

#[cfg(test)]
mod tests;
