//! The result in one sentence, for the ear and for the top of a place.

use super::answer::Answer;
use super::compared::LookedAt;
use super::format;
use arcminute_core::fit::Fit;
use arcminute_core::predict::PowerNeeded;

/// What can be said of the case so far, in one or two short sentences; of the aid that is looked at what Bench says.
#[must_use]
pub fn sentence(answer: &Answer, looked: Option<&LookedAt>) -> String {
    let mut parts = vec![power(answer)];
    if let Some((aid, seen)) = looked.and_then(|looked| Some((&looked.aid, looked.seen()?))) {
        let chance = format::chance(seen.outcome.prediction.chance);
        let name = aid.device().map_or_else(|| aid.name.clone(), |device| device.marking());
        parts.push(format!("{name} chosen: chance of the goal {chance}."));
    }
    parts.extend(answer.fit.verdict().map(|fit| verdict(fit).to_owned()));
    match answer.troubles() {
        0 => {}
        1 => parts.push("1 entry cannot be used.".into()),
        several => parts.push(format!("{several} entries cannot be used.")),
    }
    parts.retain(|part| !part.is_empty());
    parts.join(" ")
}

/// The power needed, or why it cannot be said; of print, from where it has to be seen.
#[must_use]
pub fn power(answer: &Answer) -> String {
    let near = answer.goal_answer().and_then(|goal| goal.of_eye(answer.eye).near);
    match (&answer.needed, near, answer.viewing().acuity.is_some()) {
        (Some(needed), ..) => needed_words(needed),
        (None, Some(near), _) => {
            let power = format::dioptres(near.evp);
            format!(
                "It has to look as large as from {}: {power} of equivalent viewing power.",
                format::close(near.evd)
            )
        }
        (None, None, true) => "The power needed cannot be said yet.".into(),
        (None, None, false) => String::new(),
    }
}

/// How many wishes the eye that is looked at falls short of, and by how much of the open one; empty while nothing is
/// known of either.
#[must_use]
pub fn short(answer: &Answer) -> String {
    let eye = answer.eye.label();
    let known = answer.goals.iter().filter_map(|goal| goal.of_eye(answer.eye).is_reached());
    let (reached, all) = known.fold((0, 0), |(reached, all), one| (reached + usize::from(one), all + 1));
    let mut parts = Vec::new();
    if 1 < all {
        parts.push(if reached == all {
            format!("The {eye} reaches all {all} wishes without an aid.")
        } else {
            format!("The {eye} falls short of {} of {all} wishes.", all - reached)
        });
    }
    if let Some((goal, needed)) =
        answer.goal_answer().and_then(|goal| Some((goal, goal.of_eye(answer.eye).larger?)))
    {
        let name = &goal.name;
        let times = needed.power.times();
        parts.push(if goal.of_eye(answer.eye).is_reached() == Some(true) {
            format!("“{name}” is reached without an aid.")
        } else {
            format!("“{name}” needs to look {} times as large.", format::trimmed(times, 1))
        });
    }
    parts.join(" ")
}

/// The power needed and the whole power that gives it.
#[must_use]
pub fn needed_words(needed: &PowerNeeded) -> String {
    let power = needed.power.times();
    if power <= 1.0 + 1e-9 {
        return "The goal is reached without a telescope.".into();
    }
    let exact = format::trimmed(power, 1);
    let whole = format::trimmed(needed.whole.times(), 0);
    if exact == whole {
        format!("{whole}x is needed.")
    } else {
        format!("{exact}x is needed; the next whole power is {whole}x.")
    }
}

/// The verdict of a fit.
#[must_use]
pub fn verdict(fit: Fit) -> &'static str {
    match fit {
        Fit::Accepted => "The fit is possible.",
        Fit::AcceptedWithWarnings => "The fit is possible; look again at what is marked.",
        Fit::Refused => "The fit is refused.",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::draft::{Draft, GoalDraft, GoalKind};

    fn said(draft: &Draft) -> (String, String) {
        let answer = Answer::of(draft);
        (short(&answer), power(&answer))
    }

    #[test]
    fn what_is_short_is_said_of_all_and_of_the_open_one() {
        let mut draft = Draft::default();
        assert_eq!(said(&draft), (String::new(), String::new()), "nothing is known");
        draft.person.right.acuity = "20/160".into();
        draft.goals[0].name = "Signs".into();
        assert_eq!(said(&draft), ("“Signs” needs to look 4 times as large.".into(), "4x is needed.".into()));
        let print = GoalDraft { kind: GoalKind::Print, print: "1 M".into(), ..GoalDraft::default() };
        draft.goals.push(GoalDraft { name: "Labels".into(), ..print });
        draft.goals.push(GoalDraft { name: "Door".into(), acuity: "20/200".into(), ..GoalDraft::default() });
        draft.goals.push(GoalDraft { name: "Open".into(), ..GoalDraft::default() });
        draft.bench.goal = 1;
        // 8 minutes, a reserve of 2 and 1 M: 16 D, 62.5 mm; from 40 cm the print has 2.5 minutes of detail.
        assert_eq!(
            said(&draft),
            (
                "The RIGHT eye falls short of 2 of 3 wishes. “Labels” needs to look 6.4 times as large."
                    .into(),
                "It has to look as large as from 6.3 cm: +16.00 D of equivalent viewing power.".into()
            )
        );
        draft.bench.goal = 2;
        let (short, power) = said(&draft);
        assert!(short.ends_with(" “Door” is reached without an aid."), "{short}");
        assert_eq!(power, "The goal is reached without a telescope.");
        draft.bench.goal = 3;
        assert_eq!(
            said(&draft),
            (
                "The RIGHT eye falls short of 2 of 3 wishes.".into(),
                "The power needed cannot be said yet.".into()
            )
        );
        draft.person.right.acuity = "20/20".into();
        draft.bench.goal = 0;
        let (short, _) = said(&draft);
        assert_eq!(
            short,
            "The RIGHT eye reaches all 3 wishes without an aid. “Signs” is reached without an aid."
        );
    }
}
