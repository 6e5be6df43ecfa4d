//! Cases of version 1: goals were an acuity or a thing of known size, each with print beside it.

use crate::model::draft::{BenchDraft, Draft, FirstChoice, GoalDraft, GoalKind, HowWell, TrialDraft};
use crate::model::entry;
use arcminute_core::bounds;

/// The case with every wish a goal of its own. What an empty box stood for stays: a reserve of 1.
///
/// The reserve of an acuity was that of the print beside it. Where there was no print it counted for nothing and is left
/// out.
///
/// # Errors
/// What version 1 did not have, in words.
pub(super) fn read(case: Draft) -> Result<Draft, &'static str> {
    if !case.person.age_years.is_empty() {
        return Err("age");
    }
    if [&case.person.right, &case.person.left].iter().any(|eye| !eye.contrast_log_cs.is_empty()) {
        return Err("contrast sensitivity");
    }
    if case.trial != TrialDraft::default() {
        return Err("trial");
    }
    let chosen = BenchDraft { aid: String::new(), first: FirstChoice::default(), ..case.bench.clone() };
    if chosen != case.bench {
        return Err("such choice on Bench");
    }
    let mut goals = Vec::with_capacity(case.goals.len());
    let wanted = case.bench.goal.min(case.goals.len().saturating_sub(1));
    let mut served = 0;
    for (place, goal) in case.goals.into_iter().enumerate() {
        if place == wanted {
            served = goals.len();
        }
        let (goal, print) = split(goal)?;
        goals.push(goal);
        goals.extend(print);
    }
    Ok(Draft { goals, bench: BenchDraft { goal: served, ..case.bench }, ..case })
}

/// A goal of version 1 without its print, and the print.
fn split(old: GoalDraft) -> Result<(GoalDraft, Option<GoalDraft>), &'static str> {
    let known = GoalDraft {
        name: old.name.clone(),
        kind: old.kind,
        acuity: old.acuity.clone(),
        letter_height_mm: old.letter_height_mm.clone(),
        distance_m: old.distance_m.clone(),
        width_m: old.width_m.clone(),
        print: old.print.clone(),
        reserve_times: old.reserve_times.clone(),
        ..GoalDraft::default()
    };
    if known != old || !matches!(old.kind, GoalKind::Acuity | GoalKind::Letters) {
        return Err("such goal");
    }
    let (print, reserve_times) = (old.print, old.reserve_times);
    let how_well = how_well(&reserve_times);
    let print_goal = (!print.is_empty()).then(|| GoalDraft {
        name: if old.name.is_empty() { String::new() } else { format!("{}, print", old.name) },
        kind: GoalKind::Print,
        print,
        how_well,
        reserve_times: reserve_times.clone(),
        ..GoalDraft::default()
    });
    let goal = match old.kind {
        GoalKind::Letters => GoalDraft { print: String::new(), how_well, reserve_times, ..known },
        _ => GoalDraft { print: String::new(), reserve_times: String::new(), ..known },
    };
    Ok((goal, print_goal))
}

/// The choice nearest to a reserve; an empty one was 1.
fn how_well(reserve: &str) -> HowWell {
    match entry::number(reserve, &bounds::RESERVE) {
        Ok(Some(times)) if 2.5 <= times => HowWell::ReadLong,
        Ok(Some(times)) if 1.5 <= times => HowWell::Read,
        _ => HowWell::Spot,
    }
}

#[cfg(test)]
mod tests {
    use crate::model::case_file::read;
    use crate::model::draft::{Draft, GoalKind, HowWell};

    fn case(goals: &str, served: usize) -> String {
        format!(
            r#"{{ "format": "arcminute-case", "version": 1, "case": {{ "goals": [{goals}], "bench": {{ "goal": {served} }} }} }}"#
        )
    }
    fn opened(goals: &str, served: usize) -> Draft {
        read(&case(goals, served)).expect("version 1 is read").case
    }

    const BOARD: &str = r#"{ "name": "Board", "kind": "target", "letter_height_mm": "40", "distance_m": "6", "reserve_times": "2", "print": "12 pt Times" }"#;
    const SIGN: &str = r#"{ "kind": "acuity", "acuity": "20/40", "reserve_times": "3" }"#;
    const FACE: &str = r#"{ "name": "Faces", "acuity": "20/40", "print": "N8" }"#;

    #[test]
    fn print_beside_a_goal_becomes_a_goal_right_after_it() {
        let draft = opened(&format!("{BOARD}, {SIGN}, {FACE}"), 1);
        let told: Vec<_> = draft
            .goals
            .iter()
            .map(|goal| {
                (
                    goal.name.as_str(),
                    goal.kind,
                    goal.print.as_str(),
                    goal.how_well,
                    goal.reserve_times.as_str(),
                )
            })
            .collect();
        assert_eq!(
            told,
            [
                ("Board", GoalKind::Letters, "", HowWell::Read, "2"),
                ("Board, print", GoalKind::Print, "12 pt Times", HowWell::Read, "2"),
                ("", GoalKind::Acuity, "", HowWell::Read, ""),
                ("Faces", GoalKind::Acuity, "", HowWell::Read, ""),
                ("Faces, print", GoalKind::Print, "N8", HowWell::Spot, ""),
            ]
        );
        assert_eq!(
            (draft.goals[0].letter_height_mm.as_str(), draft.goals[0].distance_m.as_str()),
            ("40", "6")
        );
        assert_eq!(draft.bench.goal, 2, "the goal that was served is served still");
        assert_eq!(opened(FACE, 7).bench.goal, 0, "one that is not there stands for the last");
    }

    #[test]
    fn what_version_1_did_not_have_is_refused() {
        let said = |text: &str| read(text).expect_err("refused").to_string();
        let of = |field: &str| case(&BOARD.replace("\"name\"", &format!("{field}, \"name\"")), 0);
        for field in ["\"detail_mm\": \"1\"", "\"how_well\": \"spot\"", "\"both_eyes\": true"] {
            assert_eq!(said(&of(field)), "the file says that it is of version 1, which had no such goal");
        }
        let face = case(r#"{ "kind": "face" }"#, 0);
        assert_eq!(said(&face), "the file says that it is of version 1, which had no such goal");
        let person =
            |part: &str| case(BOARD, 0).replace("\"goals\"", &format!("\"person\": {{ {part} }}, \"goals\""));
        let aged = person("\"age_years\": \"7\"");
        assert_eq!(said(&aged), "the file says that it is of version 1, which had no age");
        let seen = person("\"left\": { \"contrast_log_cs\": \"1\" }");
        assert_eq!(said(&seen), "the file says that it is of version 1, which had no contrast sensitivity");
        let tried = case(BOARD, 0).replace("\"goals\"", "\"trial\": { \"print\": \"1 M\" }, \"goals\"");
        assert_eq!(said(&tried), "the file says that it is of version 1, which had no trial");
        for choice in ["\"aid\": \"hand-12\"", "\"first\": \"light\""] {
            let chosen = case(BOARD, 0).replace("\"goal\": 0", &format!("\"goal\": 0, {choice}"));
            let wanted = "the file says that it is of version 1, which had no such choice on Bench";
            assert_eq!(said(&chosen), wanted, "{choice}");
        }
        let many = vec![BOARD; 16].join(", ");
        assert_eq!(said(&case(&many, 0)), "the file holds 32 goals; a case holds 1 to 30");
    }
}
