//! The ladder in words.

use super::super::scale::number;
use super::{LadderArrow, LadderInput, sane};
use arcminute_core::math;
use arcminute_core::predict::Reach;
use arcminute_core::unit::LogMar;

/// Steps between two values: `6.0 steps up`.
fn steps(up: f64, (higher, lower): (&str, &str)) -> String {
    let direction = if up < -0.005 { lower } else { higher };
    let count = number(math::abs(up) * 10.0, 1);
    let plural = if count == "1.0" { "step" } else { "steps" };
    format!("{count} {plural} {direction}").trim_end().into()
}

fn reach(arrow: &LadderArrow) -> &'static str {
    match arrow.reaches {
        Reach::No => "no part of its band reaches it",
        Reach::BetterEnd => "only the better end of its band reaches it",
        Reach::Middle => "its middle reaches it",
        Reach::WholeBand => "even the worse end of its band reaches it",
    }
}

impl LadderInput<'_> {
    /// `Board (20/40)`, or the acuity alone when that is the name.
    fn goal_words(&self, (name, acuity): &(String, LogMar)) -> String {
        let written = self.written(sane(*acuity));
        if *name == written || name.is_empty() { written } else { format!("{name} ({written})") }
    }

    fn climb_words(&self, arrow: &LadderArrow) -> String {
        let verb = if arrow.climb() < -0.005 { "goes down" } else { "climbs" };
        format!("{verb} {}", steps(arrow.climb(), ("", "")))
    }

    fn lands(&self, arrow: &LadderArrow) -> String {
        self.written(self.now() - arrow.climb())
    }

    /// The arrow that the sentence is about: the chosen one, or else the first.
    pub(super) fn spoken(&self) -> Option<&LadderArrow> {
        self.arrows.iter().find(|arrow| arrow.chosen).or_else(|| self.arrows.first())
    }
}

/// One sentence, and what a step is.
pub(super) fn summary(input: &LadderInput<'_>) -> String {
    let mut words = format!("Standing at {}", input.person_label);
    let goal = input.goals.first();
    if let Some(goal) = goal {
        let up = input.now() - sane(goal.1);
        let name = input.goal_words(goal);
        words += &if math::abs(up) < 0.005 {
            format!("; the goal {name} is on the same rung")
        } else {
            format!("; the goal {name} is {}", steps(up, ("up", "down: reached already")))
        };
    }
    if let Some(arrow) = input.spoken() {
        words += &format!("; {} {}", arrow.label, input.climb_words(arrow));
        words += &match goal {
            Some(_) => format!(": {}", reach(arrow)),
            None => format!(", to {}", input.lands(arrow)),
        };
    }
    words + ". A step is one line of a letter chart; higher on the ladder is finer detail."
}

/// Every number on it.
pub(super) fn rows(input: &LadderInput<'_>) -> Vec<(String, String)> {
    let band = steps(input.limit(), ("", ""));
    let mut rows =
        vec![("Standing at".into(), format!("{}; 95 % of repeats within {band} of it", input.person_label))];
    for (index, goal) in input.goals.iter().enumerate() {
        let up = input.now() - sane(goal.1);
        let value = format!("{}: {}", input.written(sane(goal.1)), steps(up, ("up", "down")));
        let name =
            if goal.0.is_empty() { format!("Goal {}", index + 1) } else { format!("Goal: {}", goal.0) };
        rows.push((name, value));
    }
    for arrow in &input.arrows {
        let name = if arrow.chosen { format!("{} (chosen)", arrow.label) } else { arrow.label.clone() };
        let mut value = format!("{}, to {}", input.climb_words(arrow), input.lands(arrow));
        if let Some(goal) = input.goals.first() {
            value += &format!("; of {}: {}", input.goal_words(goal), reach(arrow));
        }
        rows.push((name, value));
    }
    rows
}
