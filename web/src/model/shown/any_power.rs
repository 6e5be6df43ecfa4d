//! What would do of each kind if any power could be had: for a start without a list, and to see what a list lacks.

use crate::model::answer::Answer;
use crate::model::format;
use arcminute_core::unit::Length;

/// Print is usually held here; not measured on this person.
pub(super) const USUAL_CM: f64 = 40.0;

/// What would reach the goal that is served, kind by kind; nothing where it is reached already or not known.
#[must_use]
pub fn any_power(answer: &Answer) -> Vec<String> {
    let Some(goal) = answer.goal_answer() else { return Vec::new() };
    let eye = goal.of_eye(answer.eye);
    if eye.is_reached() != Some(false) {
        return Vec::new();
    }
    if let Some(near) = eye.near {
        let (power, distance) = (format::dioptres(near.evp), format::close(near.evd));
        let usual = Length::from_cm(USUAL_CM);
        return vec![
            format!("A hand magnifier of {power}, the print in its focus"),
            format!("Spectacles with {power} added, the print {distance} before them"),
            format!(
                "A screen or a copy {} times as large, at {}",
                format::trimmed(usual / near.evd, 1),
                format::close(usual)
            ),
            format!("The print itself from {distance}, for an eye that can focus {power}"),
        ];
    }
    let Some(needed) = eye.larger else { return Vec::new() };
    let times = needed.power.times();
    let mut ways = vec![
        format!("A telescope of {}", format::times(times)),
        format!("The thing itself {} times as large", format::trimmed(times, 1)),
    ];
    let distance = goal.ends.last().and_then(|end| end.distance);
    ways.extend(distance.map(|distance| format!("The same from {}", format::distance(distance / times))));
    ways
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::draft::{Draft, GoalDraft, GoalKind};

    fn said(acuity: &str, goal: GoalDraft) -> Vec<String> {
        let mut draft = Draft::default();
        draft.person.right.acuity = acuity.into();
        draft.goals[0] = goal;
        any_power(&Answer::of(&draft))
    }

    #[test]
    fn each_kind_of_goal_has_its_ways() {
        // 10 minutes, a reserve of 2 and 1 M: 20 D.
        let print = GoalDraft { kind: GoalKind::Print, print: "1 M".into(), ..GoalDraft::default() };
        assert_eq!(
            said("20/200", print.clone()),
            [
                "A hand magnifier of +20.00 D, the print in its focus",
                "Spectacles with +20.00 D added, the print 5 cm before them",
                "A screen or a copy 8 times as large, at 40 cm",
                "The print itself from 5 cm, for an eye that can focus +20.00 D",
            ]
        );
        let sign = GoalDraft { acuity: "20/40".into(), ..GoalDraft::default() };
        assert_eq!(said("20/200", sign.clone()), ["A telescope of 5x", "The thing itself 5 times as large"]);
        let board = GoalDraft {
            kind: GoalKind::Letters,
            letter_height_mm: "43.6332".into(),
            distance_m: "6".into(),
            reserve_times: "1".into(),
            ..GoalDraft::default()
        };
        // Five minutes of detail; ten are seen.
        assert_eq!(said("20/200", board)[2], "The same from 3 m");
        assert_eq!((said("20/20", sign), said("", print)), (vec![], vec![]), "reached, and not known");
    }
}
