//! What is said of an aid that is looked at.

use super::*;
use crate::model::compared::Asked;
use crate::model::draft::{Draft, GoalDraft, GoalKind};
use crate::model::list;

/// 20/200; the first goal is print, the second an acuity.
fn answer(refraction: &str, accommodation: &str, goal: usize) -> Answer {
    let mut draft = Draft::default();
    draft.person.right.acuity = "20/200".into();
    draft.person.right.refraction = refraction.into();
    draft.person.right.accommodation_d = accommodation.into();
    draft.goals[0] = GoalDraft { kind: GoalKind::Print, print: "1 M".into(), ..GoalDraft::default() };
    draft.goals.push(GoalDraft { name: "Signs".into(), acuity: "20/40".into(), ..GoalDraft::default() });
    draft.bench.goal = goal;
    Answer::of(&draft)
}

#[track_caller]
fn looked(answer: &Answer, id: &str) -> LookedAt {
    let aid = list::demo_aid(id).expect("it is in the demonstration list");
    LookedAt::of(&Asked::of(answer), answer.goal, aid).expect("eye and goal are known")
}

#[track_caller]
fn said(answer: &Answer, id: &str, name: &str) -> (String, String) {
    let key = format!("looked-{name}");
    let facts = looked_facts(answer, &looked(answer, id));
    let fact = facts.iter().find(|fact| fact.key == key).expect("it has this fact");
    (fact.value.clone(), fact.note.clone())
}

#[test]
fn what_is_read_and_what_is_wanted() {
    let print = answer("", "", 0);
    // 10 arcmin at 1/28 m; the band is 0.2 log either way.
    let read = "x-height 0.52 mm; band 0.23 to 0.57 M";
    assert_eq!(said(&print, "hand-28", "reads"), ("0.36 M".into(), read.into()));
    assert_eq!(said(&print, "hand-28", "reserve"), ("2.8x".into(), "2x wanted".into()));
    assert_eq!(
        said(&print, "hand-28", "size"),
        ("3.6 cm".into(), "equivalent viewing power +28.00 D".into())
    );
    let page = "page to eye; 3.6 cm free over the page";
    assert_eq!(said(&print, "hand-28", "distance"), ("10.2 cm".into(), page.into()));
    let reach = "the middle of the retest band reaches the goal, its worse end does not";
    let hand = looked(&print, "hand-28");
    assert_eq!(looked_words(&hand), format!("{}: chance 92 %; {reach}.", print.goals[0].name));
    assert_eq!(looked_notes(&hand), [""; 0]);
    assert_eq!(
        instead_words(&hand),
        "Without it, print looks as large 3.6 cm from the eye, for an eye that can focus +28.00 D; or printed 11.2 times as large, at 40 cm."
    );
}

#[test]
fn far_things_are_said_as_an_acuity() {
    let far = answer("", "", 1);
    let (value, note) = said(&far, "hand-telescope-40", "reads");
    // 20/200 through 4x, set for 6 m and so a little stronger: 20/49, in the steps of a chart.
    assert_eq!(value, "20/50 (0.39 logMAR)");
    assert_eq!(note, "letters 21.3 mm high at 6 m; band 20/32 to 20/80");
    let telescope = looked(&far, "hand-telescope-40");
    let words = instead_words(&telescope);
    assert!(
        words.starts_with("Without it, it looks as large from 1.4")
            && words.ends_with(" times as large from 6 m."),
        "{words}"
    );
    assert_eq!(looked_words(&looked(&far, "hand-28")), "Signs: for print near only.");
    assert!(
        looked_facts(&far, &looked(&far, "hand-28")).is_empty()
            && instead_words(&looked(&far, "hand-28")).is_empty()
    );
    assert_eq!(looked(&far, "hand-28").steps().len(), 0);
    assert!(2 < telescope.steps().len(), "its family and what holds for all");
}

#[test]
fn what_meets_the_demand_is_said() {
    let larger = |refraction, accommodation| {
        let answer = answer(refraction, accommodation, 0);
        (said(&answer, "larger", "focus"), looked_notes(&looked(&answer, "larger")).len())
    };
    let ((asked, note), notes) = larger("", "");
    assert_eq!(asked, "+2.50 D");
    assert!(note.starts_with("correction for far worn; the eye has +0.00 D: 2.50 D out of focus"), "{note}");
    assert_eq!(notes, 1, "too near");
    let ((asked, note), notes) = larger("", "3");
    assert_eq!((asked.as_str(), notes), ("+2.50 D", 0));
    assert_eq!(note, "correction for far worn; the eye has +3.00 D: sharp");
    let ((_, note), notes) = larger("plano add +2.50", "");
    assert!(note.starts_with("correction for far and add +2.50 D worn; the eye has +0.00 D: "), "{note}");
    assert_eq!(notes, 0);
    let (_, note) = said(&answer("-2.00 -1.00 x 90", "", 0), "high-plus-thick", "focus");
    assert!(note.starts_with("no glasses; the eye has +0.00 D: 0.00 D and a cylinder of 0.9"), "{note}");
}

#[test]
fn what_holds_for_one_family_is_said_there() {
    let print = answer("plano add +2.50", "", 0);
    let light = "of the glasses alone: the screen shines by itself";
    assert_eq!(said(&print, "desk-screen", "light").1, light);
    assert_eq!(said(&print, "dome", "distance").1, "page to eye; it lies on the page");
    assert_eq!(said(&print, "tablet", "distance").1, "screen to eye; nothing in the way of the hand");
    assert_eq!(said(&print, "nearer", "seen").0, "no limit");
    assert!(looked_notes(&looked(&print, "bar"))[0].starts_with("It makes letters higher"), "the bar");
    let far = answer("plano add +2.50", "", 1);
    assert_eq!(said(&far, "reversed-telescope", "size").0, "0.4x");
    let notes = looked_notes(&looked(&far, "reversed-telescope"));
    assert!(notes[0].starts_with("For a field that is small: everything looks 0.4x"), "{notes:?}");
    assert_eq!(instead_words(&looked(&far, "reversed-telescope")), "");
}

/// Print in the focus of the addition: the two lines of sight turn in by 100·p·F together twice (near reference).
#[test]
fn what_both_eyes_turn_in_is_said_of_spectacles() {
    let mut draft = Draft::default();
    draft.person.right.acuity = "20/200".into();
    draft.person.right.pd_mm = "32".into();
    draft.goals[0] = GoalDraft { kind: GoalKind::Print, print: "1 M".into(), ..GoalDraft::default() };
    let print = Answer::of(&draft);
    let (both, note) = said(&print, "high-plus-6", "both");
    assert_eq!(both, "38 prism dioptres");
    // 16.7 cm and 26.95 mm to the centre of rotation: 3.2/0.1936.
    let turned = looked(&print, "high-plus-6").turned_in(&print).expect("a PD is known");
    for step in arcminute_core::explain::Explain::steps(&turned) {
        assert_eq!(step.check(), Ok(()));
        let title = crate::model::working::line(&step).title;
        assert!(!title.is_empty() && title != "Step", "{step:?} has a title on the page");
    }
    assert!(note.starts_with("each 19 through lenses centred on the pupils, 17 without;"), "{note}");
    let facts =
        |id: &str| looked_facts(&print, &looked(&print, id)).iter().any(|fact| fact.key == "looked-both");
    assert!(!facts("hand-28") && !facts("high-plus-thick"), "only of a thin lens for both eyes");
}

#[test]
fn a_step_is_to_the_next_power_of_the_same_kind() {
    let print = answer("", "", 0);
    let table = Table::of(Asked::of(&print), &list::demo().list);
    let all = &list::demo().list;
    let at = |id: &str| all.iter().position(|aid| aid.id == id).expect("it is there");
    let named =
        |id: &str| neighbours(&table, all, 0, at(id)).map(|place| place.map(|place| all[place].id.as_str()));
    assert_eq!(named("hand-20"), [Some("hand-16"), Some("hand-28")]);
    assert_eq!(named("hand-40"), [Some("hand-28"), None]);
    assert_eq!(named("hand-6"), [None, Some("hand-8")]);
    assert_eq!(neighbours(&table, all, 0, 9999), [None, None]);
    let cell = |id: &str| table.cell(at(id), 0).expect("a row").as_ref().expect("it serves");
    let words = step_words("X", true, cell("hand-28"), cell("hand-20"));
    assert!(words.starts_with("One step more, X: chance 92 % instead of 50 %; seen at once "), "{words}");
    assert!(words.ends_with("; light 92 % instead of 92 %."), "{words}");
}
