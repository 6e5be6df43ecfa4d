//! Files of version 1 still open, and what they ask for is what they asked for.

use crate::reading::{case, names};
use arcminute_web::model::answer::Answer;
use arcminute_web::model::case_file::{self, VERSION};
use arcminute_web::model::draft::Draft;
use arcminute_web::model::report::report;
use serde_json::Value;

/// A demonstration case as version 1 wrote it.
#[track_caller]
fn old(name: &str) -> (Value, Draft) {
    let path = arcminute_tests::root().join(format!("tests/scenarios/version_1/{name}.json"));
    let text = std::fs::read_to_string(path).expect("each case has its file of version 1");
    let file = case_file::read(&text).expect("version 1 is read");
    assert_eq!(file.version, VERSION, "what was read is of this version now");
    (serde_json::from_str(&text).expect("JSON"), file.case)
}

/// Every text of the old file stands in the case, in the box that it was typed in.
#[test]
fn every_case_of_version_1_opens_with_all_that_was_typed() {
    for name in names() {
        let (typed, draft) = old(&name);
        let now = serde_json::to_value(&draft).expect("a case is JSON");
        for part in ["label", "person", "bench", "fit", "order"] {
            holds(&now[part], &typed["case"][part], &format!("{name} {part}"));
        }
        let mut texts: Vec<&str> = Vec::new();
        for goal in typed["case"]["goals"].as_array().expect("goals") {
            texts.extend(
                goal.as_object()
                    .expect("a goal")
                    .iter()
                    .filter(|(key, _)| *key != "kind")
                    .filter_map(|(_, text)| text.as_str()),
            );
        }
        let goals = now["goals"].to_string();
        for text in texts {
            assert!(goals.contains(&format!("\"{text}\"")), "{name}: {text} is lost in {goals}");
        }
        let answer = Answer::of(&draft);
        assert_eq!(answer.troubles(), 0, "{name}");
        assert_eq!(answer.undecided, [], "{name}");
        let written = case_file::write("", &draft);
        assert_eq!(case_file::read(&written).map(|file| file.case), Ok(draft), "{name}");
    }
}

#[track_caller]
fn holds(now: &Value, typed: &Value, what: &str) {
    match typed {
        Value::Object(parts) => {
            parts.iter().for_each(|(key, part)| holds(&now[key], part, &format!("{what} {key}")))
        }
        other => assert_eq!(now, other, "{what}"),
    }
}

/// The goal that is served, what aids do for it and the fit are those of the case as it is now; print has become a goal.
#[test]
fn a_case_of_version_1_gives_the_same_results() {
    for name in names() {
        let (_, draft) = old(&name);
        let (before, now) = (report(&draft), report(&case(&name)));
        for key in ["eye", "goal", "chosen_telescope", "lowest_telescope"] {
            assert_eq!(before[key], now[key], "{name}: {key}");
        }
        let of = |report: &Value, wanted: &str| -> Vec<Value> {
            let all = report["results"].as_array().expect("results").clone();
            let one = |result: &Value| result["key"].as_str().is_some_and(|key| key.starts_with(wanted));
            all.into_iter().filter(one).collect()
        };
        for kind in ["power-needed", "whole-power-", "telescope-", "fit"] {
            assert_eq!(of(&before, kind), of(&now, kind), "{name}: {kind}");
            assert!(!of(&before, kind).is_empty(), "{name}: there is a {kind}");
        }
    }
    let goals = |name: &str| {
        let goals = old(name).1.goals;
        goals.into_iter().map(|goal| (goal.name, goal.kind.label(), goal.print)).collect::<Vec<_>>()
    };
    let one = |name: &str, kind: &'static str, print: &str| (name.to_owned(), kind, print.to_owned());
    assert_eq!(
        goals("adult-20-160"),
        [
            one("Signs and faces across a room", "An acuity to reach", ""),
            one("Signs and faces across a room, print", "Print to read", "1 M")
        ]
    );
    assert_eq!(
        goals("pupil-reads-the-board"),
        [
            one("Writing on the board", "Letters or signs of a known height", ""),
            one("Writing on the board, print", "Print to read", "12 pt Times")
        ]
    );
    assert_eq!(goals("adult-20-300").len(), 1, "no print, no second goal");
}
