//! The shelf: every thing of the table can be found and taken, and its source is told while it stands as it was taken.

use super::*;
use crate::model::answer::Answer;
use crate::model::draft::Draft;
use std::collections::BTreeSet;

fn keys(text: &str) -> Vec<&'static str> {
    search(text).into_iter().map(|item| item.key).collect()
}

#[track_caller]
fn one(key: &str) -> ShelfItem {
    by_key(key).expect("it is in the table")
}

#[test]
fn every_thing_of_the_table_has_a_line_of_ours_and_the_other_way_round() {
    let ours: BTreeSet<_> = OURS.iter().map(|ours| ours.key).collect();
    assert_eq!(ours.len(), OURS.len(), "a key stands twice");
    assert_eq!(ours, ALL.iter().map(|row| row.id).collect());
    for ours in OURS {
        let plain = |c: char| c.is_ascii_lowercase() || c == ' ';
        assert!(!ours.also.is_empty() && ours.also.chars().all(plain), "{}: {}", ours.key, ours.also);
    }
}

#[test]
fn words_are_found_in_any_order_case_and_by_their_beginning() {
    assert_eq!(keys("").len(), ALL.len());
    assert_eq!(keys(" - ").len(), ALL.len(), "no word in it");
    assert_eq!(keys("label food"), ["food-label", "food-label-small"]);
    assert_eq!(keys("LABELS"), ["food-label", "food-label-small", "price-tag"], "several, and `shelf label`");
    assert_eq!(keys("news"), ["newspaper", "headline"], "by its name first");
    assert_eq!(keys("small print"), ["food-label", "food-label-small"]);
    assert_eq!(keys("friend"), ["face"]);
    assert_eq!(keys("book story"), ["paperback", "childrens-book"], "a name and another word");
    assert_eq!(keys("mobile mess"), ["phone-message"]);
    assert_eq!(keys("us"), ["bus-number"; 0], "no beginning of a word");
}

/// What is taken from the shelf asks for what the core's table says, to the digits that stand in the boxes.
#[test]
fn what_is_taken_asks_for_what_the_table_says() {
    for item in search("") {
        let mut draft = Draft { goals: vec![item.goal.clone()], ..Draft::default() };
        if draft.goals[0].distance_m.is_empty() && draft.goals[0].kind == GoalKind::Letters {
            draft.goals[0].distance_m = "10".into();
        }
        let answer = Answer::of(&draft);
        assert_eq!(answer.troubles(), 0, "{}: {:?}", item.key, answer.fields);
        let goal = &answer.goals[0];
        assert_eq!(goal.name, item.name);
        let end = goal.ends.first().unwrap_or_else(|| panic!("{} waits for {:?}", item.key, goal.missing));
        let Some(row) = ALL.iter().find(|row| row.id == item.key) else { panic!("{}", item.key) };
        let from = match end.demand.goal {
            arcminute_core::task::Goal::Target(target) => Some(target.distance),
            arcminute_core::task::Goal::Acuity(_) => None,
        };
        match everyday_demand(row, from, end.reserve) {
            Ok(demand) => {
                let apart = (demand.to_reach() - end.demand.to_reach).abs().log();
                assert!(apart < 0.005 + 1e-9, "{}: {apart} log apart", item.key);
            }
            Err(_) => assert_eq!(goal.kind, GoalKind::Face, "{}", item.key),
        }
    }
}

#[test]
fn things_are_shown_with_size_distance_contrast_and_source() {
    let bus = one("bus-number");
    assert_eq!(bus.size, "numbers 200 mm or more");
    assert_eq!(bus.distance, "from 20 to 50 m (assumed: an example)");
    assert_eq!(bus.asks, "asks for 0.84 logMAR from 20 m");
    assert!(bus.source.ends_with("(published)"), "{}", bus.source);
    let told = |key: &str| (one(key).size, one(key).distance, one(key).contrast, one(key).asks);
    let of = |size: &str, distance: &str, contrast: &str, asks: &str| {
        (size.to_owned(), distance.to_owned(), contrast.to_owned(), asks.to_owned())
    };
    assert_eq!(
        told("newspaper"),
        of(
            "x-height 1.45 mm, 1 M",
            "",
            "contrast 60 to 70 %, of what kind is not said (from memory, to be verified)",
            "asks for 0.40 logMAR from 40 cm (15.7 in)"
        )
    );
    assert_eq!(
        told("phone-message"),
        of(
            "x-height 1.6 mm (1.02 to 3.05), 1.1 M (0.7 to 2.1)",
            "from 0.362 m (0.175 to 0.58) (published)",
            "",
            "asks for 0.44 logMAR from 40 cm (15.7 in)"
        )
    );
    assert_eq!(
        told("face"),
        of(
            "width 140 to 150 mm",
            "from 2 m (assumed: an example)",
            "contrast 50 % or less, of what kind is not said (from memory, to be verified)",
            "8 to 16 cycles across the face"
        )
    );
    assert_eq!(told("us-back").0, "measured by what it asks for");
    assert_eq!(told("us-back").3, "asks for 0.46 logMAR");
    assert_eq!(told("display-letters").0, "capitals 20 to 22 minutes of arc");
    assert_eq!(told("browser-text").0, "x-height 1.9 to 2.2 mm, 1.3 to 1.51 M");
}

#[test]
fn each_kind_of_thing_fills_its_own_boxes() {
    let goal = |key: &str| one(key).goal;
    let boxes = |goal: &GoalDraft| {
        [
            &goal.acuity,
            &goal.letter_height_mm,
            &goal.detail_mm,
            &goal.print,
            &goal.distance_m,
            &goal.farthest_m,
        ]
        .map(|text| text.as_str())
        .join("|")
    };
    for (key, kind, filled, how_well, contrast) in [
        ("bus-number", GoalKind::Letters, "|200|||20|50", Spot, ""),
        ("number-plate-stroke", GoalKind::Detail, "||14||20|", Spot, ""),
        ("newspaper", GoalKind::Print, "|||1.45 mm||", ReadLong, "60"),
        ("paperback", GoalKind::Print, "|||0.8 M||", ReadLong, "75"),
        ("price-tag", GoalKind::Print, "|||1 M||", Spot, ""),
        ("building-sign-low", GoalKind::Letters, "|16|||1.83|", Spot, ""),
        ("us-back", GoalKind::Acuity, "0.46 logMAR|||||", Read, "25"),
        ("in-distance", GoalKind::Acuity, "0.28 logMAR|||||", Read, "40"),
        ("display-letters", GoalKind::Acuity, "0.60 logMAR|||||", Read, ""),
        ("face", GoalKind::Face, "||||2|", Spot, ""),
    ] {
        let goal = goal(key);
        assert_eq!((goal.kind, boxes(&goal).as_str(), goal.how_well), (kind, filled, how_well), "{key}");
        assert_eq!(goal.contrast_percent, contrast, "{key}");
        assert_eq!(goal.reserve_times, if kind == GoalKind::Acuity { "2" } else { "" }, "{key}");
    }
}

#[test]
fn the_source_is_told_while_the_measures_stand_as_they_were_filled() {
    let mut goal = one("bus-number").goal;
    assert_eq!(taken_from(&goal).map(|item| item.key), Some("bus-number"));
    goal.name = "The 27".into();
    goal.how_well = ReadLong;
    goal.reserve_times = "1.5".into();
    assert!(taken_from(&goal).is_some(), "name and reserve are the person's own");
    let touched = |change: fn(&mut GoalDraft)| {
        let mut goal = goal.clone();
        change(&mut goal);
        taken_from(&goal).is_none()
    };
    assert!(touched(|goal| goal.letter_height_mm = "180".into()));
    assert!(touched(|goal| goal.distance_m = "30".into()));
    assert!(touched(|goal| goal.farthest_m.clear()));
    assert!(touched(|goal| goal.contrast_percent = "80".into()));
    assert!(touched(|goal| goal.kind = GoalKind::Detail));
    assert!(touched(|goal| goal.shelf.clear()));
    assert!(touched(|goal| goal.shelf = "no-such-thing".into()));
}

#[test]
fn the_usual_six_are_six_and_each_asks_for_something() {
    let six = usual_six();
    let draft = Draft { goals: six.clone(), ..Draft::default() };
    let answer = Answer::of(&draft);
    assert_eq!(six.len(), 6);
    assert_eq!(answer.troubles(), 0);
    for (goal, typed) in answer.goals.iter().zip(&six) {
        assert!(goal.demand.is_some() && goal.wish().is_some(), "{} waits for {:?}", goal.name, goal.missing);
        assert_eq!(taken_from(typed).map(|item| item.name), Some(goal.name.as_str()));
    }
    let kinds: BTreeSet<_> = six.iter().map(|goal| format!("{:?}", goal.kind)).collect();
    assert!(4 <= kinds.len(), "of several kinds: {kinds:?}");
}
