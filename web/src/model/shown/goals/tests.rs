//! What is said of wishes, spelled out.

use super::*;
use crate::model::draft::{GoalDraft, HowWell};

fn case(goal: GoalDraft) -> Draft {
    let mut draft = Draft { goals: vec![goal], ..Draft::default() };
    draft.person.right.acuity = "20/160".into();
    draft.person.left.acuity = "20/400".into();
    draft
}
fn said(draft: &Draft) -> (String, String, Vec<String>) {
    let answer = Answer::of(draft);
    let line = goal_line(&answer, 0).map(|line| line.asks).unwrap_or_default();
    (line, goal_asks(&answer, 0), goal_notes(&answer, draft, 0))
}
fn of(line: &str, asks: &str, notes: &[&str]) -> (String, String, Vec<String>) {
    (line.into(), asks.into(), notes.iter().map(|note| (*note).to_owned()).collect())
}

#[test]
fn an_acuity_is_wanted_as_it_is() {
    let mut draft = case(GoalDraft { acuity: "20/40".into(), ..GoalDraft::default() });
    assert_eq!(
        said(&draft),
        of(
            "asks for 20/40; 6 steps short, 4x",
            "Asks for 20/40 (0.30 logMAR): detail of 2.0′. The RIGHT eye is 6 steps of 0.1 log short.",
            &["LEFT eye: 10 steps short, 10x."]
        )
    );
    draft.goals[0].reserve_times = "2".into();
    assert_eq!(
        said(&draft),
        of(
            "asks for 20/20; 9 steps short, 8x",
            "Asks for 20/20 (0.00 logMAR): detail of 1.0′. The RIGHT eye is 9 steps of 0.1 log short.",
            &["LEFT eye: 13 steps short, 20x.", "Reserve 2x: as typed."]
        )
    );
    draft.person.right.acuity = "20/10".into();
    draft.person.left.acuity.clear();
    let (line, asks, notes) = said(&draft);
    assert_eq!(line, "asks for 20/20; reached without an aid");
    assert!(asks.ends_with("1.0′. The RIGHT eye reaches it without an aid."), "{asks}");
    assert_eq!(notes, ["Reserve 2x: as typed."]);
    draft.person.right.acuity.clear();
    assert_eq!(said(&draft).0, "asks for 20/20");
    draft.goals[0].acuity.clear();
    assert_eq!(said(&draft), of("waits for its boxes", "", &[]));
}

#[test]
fn a_range_is_told_from_both_ends() {
    let goal = GoalDraft {
        kind: GoalKind::Letters,
        letter_height_mm: "200".into(),
        distance_m: "20".into(),
        farthest_m: "50".into(),
        how_well: HowWell::Spot,
        shelf: "bus-number".into(),
        ..GoalDraft::default()
    };
    let (line, asks, notes) = said(&case(goal));
    assert_eq!(line, "asks for 20/55; 4.6 steps short, 2.9x");
    assert_eq!(
        asks,
        "Asks for 20/55 (0.44 logMAR): detail of 2.8′, from 50 m. The RIGHT eye is 4.6 steps of 0.1 log short."
    );
    assert_eq!(
        notes[..2],
        [
            "From 20 m it asks for 20/140 (0.84 logMAR); the farther, the more.",
            "LEFT eye: 8.6 steps short, 7.3x."
        ]
    );
    assert!(notes[2].starts_with("Reserve 1x: spot reading is possible at the threshold; "), "{notes:?}");
    let shelf = notes.last().expect("a note");
    assert!(
        shelf.starts_with(
            "From the shelf: numbers 200 mm or more; from 20 to 50 m (assumed: an example). Size: "
        ),
        "{shelf}"
    );
    assert!(shelf.ends_with(" (published)."), "{shelf}");
}

#[test]
fn print_says_from_where_it_would_be_read() {
    let goal = GoalDraft { kind: GoalKind::Print, print: "1 M".into(), ..GoalDraft::default() };
    let mut draft = case(goal);
    let (line, asks, notes) = said(&draft);
    assert_eq!(line, "asks for 20/25 from 40 cm; 8.1 steps short, 6.4x");
    assert_eq!(
        asks,
        "Asks for 20/25 (0.10 logMAR): detail of 1.3′, from 40 cm. The RIGHT eye is 8.1 steps of 0.1 log short."
    );
    assert_eq!(
        notes[1],
        "Large enough from 6.3 cm, or through an aid that does the same (+16.00 D): a first estimate from the acuity. \
         Words may ask for more than letters."
    );
    assert_eq!(notes[2], "It may be held where it suits; 40 cm is assumed so that it has an angle.");
    assert!(notes[3].starts_with("Reserve 2x: a fixed reserve of 0.3 log; no slower than"), "{}", notes[3]);
    assert!(notes[3].ends_with("(published)."), "{}", notes[3]);
    draft.goals[0].distance_m = "65 cm".into();
    let (line, _, notes) = said(&draft);
    assert_eq!(line, "asks for 20/16 from 65 cm; 10.2 steps short, 10.4x");
    assert!(!notes.iter().any(|note| note.contains("held where it suits")), "{notes:?}");
}

#[test]
fn a_face_is_never_told_as_one_number_alone() {
    let goal = GoalDraft { kind: GoalKind::Face, distance_m: "3".into(), ..GoalDraft::default() };
    let (line, _, notes) = said(&case(goal));
    // 140 mm at 3 m with 11.1 cycles: 7.23 minutes; 8 and 16 cycles: 10.03 and 5.01.
    assert_eq!(line, "asks for 20/145; 0.4 steps short, 1.1x");
    assert!(
        notes[1].starts_with(
            "From 3 m a face asks for something from 20/200 (1.00 logMAR) to 20/100 (0.70 logMAR): 8 to 16 cycles \
             across it carry who it is, 11.1 best (Parker & Costen 1999"
        ),
        "{notes:?}"
    );
    assert_eq!(notes.len(), 2, "no reserve is taken: {notes:?}");
}

#[test]
fn contrast_is_told_of_each_eye_that_was_measured() {
    let goal = GoalDraft {
        kind: GoalKind::Print,
        print: "1 M".into(),
        contrast_percent: "70".into(),
        ..GoalDraft::default()
    };
    let mut draft = case(goal);
    let told = |draft: &Draft| {
        let notes = said(draft).2;
        notes.into_iter().filter(|note| note.contains("contrast")).collect::<Vec<_>>()
    };
    assert_eq!(told(&draft), [""; 0], "no eye was measured");
    draft.person.right.contrast_log_cs = "1.05".into();
    draft.person.left.contrast_log_cs = "0".into();
    assert_eq!(
        told(&draft),
        [
            "RIGHT eye: contrast reserve 7.9x, below 10x, which slows reading (guideline of a review; published).",
            "LEFT eye: its contrast is below the least this eye sees (0.7x)."
        ]
    );
    draft.person.right.contrast_log_cs = "1.65".into();
    draft.person.left.contrast_log_cs = "0.5".into();
    assert_eq!(
        told(&draft),
        [
            "RIGHT eye: contrast reserve 31.3x, 10x or more, where contrast does not limit reading (guideline of a review; \
             published).",
            "LEFT eye: contrast reserve 2.2x, below 4x, which slows reading markedly and costs accuracy (guideline of a \
             review; published)."
        ]
    );
    draft.goals[0].contrast_percent.clear();
    assert_eq!(told(&draft), [""; 0], "nothing is known of the print");
}

#[test]
fn the_age_says_what_is_usual_and_changes_nothing() {
    let words = |age: &str| {
        let mut draft = case(GoalDraft { acuity: "20/40".into(), ..GoalDraft::default() });
        draft.person.age_years = age.into();
        let answer = Answer::of(&draft);
        assert_eq!(answer.right.accommodation.map(|a| a.dioptres()), Some(0.0), "an empty box is 0 D");
        age_words(&answer)
    };
    assert_eq!(
        words("10"),
        "At this age 12.50 D to 21.00 D of accommodation are usual, 15.50 D in the mean (Hofstetter's formulas); half of \
         it is commonly taken as usable. It counts only if it is typed for an eye: an empty box is 0 D."
    );
    assert_eq!(words("75"), "Past 60 years the formulas for accommodation stop: none is expected.");
    assert_eq!(words("old"), "");
    assert_eq!(words(""), "");
}
