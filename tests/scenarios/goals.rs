//! What each wish of a case asks for, by a second road: closed forms from what stands in the file.
//!
//! Nothing here calls the core but for its floating-point functions.

use crate::independent::detail;
use crate::reading::{case, meet, result, rounds_to, value};
use arcminute_core::math::{log10, pow};
use arcminute_web::model::answer::Answer;
use arcminute_web::model::compared::Wish;
use arcminute_web::model::draft::{Draft, GoalDraft, GoalKind, Hands, HowWell, Posture};
use arcminute_web::model::field::FieldId;
use arcminute_web::model::report::report;

/// 1 M of print: tan 5 arcmin at 1 m, in millimetres.
const M: f64 = 1.454_442_068_9;

fn one(goal: GoalDraft) -> Draft {
    let mut draft = Draft { goals: vec![goal], ..Draft::default() };
    draft.person.right.acuity = "20/200".into();
    draft
}

/// The adult of 20/160 and 20/400 with a log contrast sensitivity of 1.2, and print of 1 M, contrast 70 %, reserve 1.
#[test]
fn print_is_an_angle_from_40_cm_and_a_distance_from_which_it_would_be_read() {
    let report = report(&case("adult-20-160"));
    let asks = result(&report, "goal-2");
    meet(value(asks, "detail", "arcmin"), detail(M, 400.0), "detail of the print");
    meet(value(asks, "acuity", "logMAR"), log10(detail(M, 400.0)), "no reserve");
    assert_eq!(asks["reserve_from"], "dispensing-notes", "to spot it");
    for (eye, now) in [("right", 8.0), ("left", 20.0)] {
        let larger = now / detail(M, 400.0);
        let of_eye = result(&report, &format!("goal-2-{eye}"));
        meet(value(of_eye, "larger", "x"), larger, eye);
        meet(value(of_eye, "steps_short", ""), 10.0 * log10(larger), eye);
        // 1 M is one minute of detail from 1 m: a least detail of 8 minutes reads it from 1/8 m.
        let near = result(&report, &format!("goal-2-{eye}-near"));
        meet(value(near, "equivalent_viewing_distance", "mm"), 1000.0 / now, eye);
        meet(value(near, "equivalent_viewing_power", "D"), now, eye);
    }
    let contrast = result(&report, "goal-2-right-contrast");
    meet(value(contrast, "contrast_reserve", "x"), 0.70 * pow(10.0, 1.2), "contrast reserve");
    assert_eq!(contrast["limit"], "enough");
    let results = report["results"].as_array().expect("results");
    assert!(!results.iter().any(|one| one["key"] == "goal-2-left-contrast"), "the left eye was not measured");
    // An acuity is asked for as it is.
    let far = result(&report, "goal-1");
    rounds_to(value(far, "acuity", "logMAR"), "0.3010");
    rounds_to(value(result(&report, "goal-1-right"), "steps_short", ""), "6.0206");
    assert_eq!(far["reserve_from"], "none");
}

/// Source: Hofstetter's lines, by hand: 15 - 0.25 * 9, 18.5 - 0.3 * 9, 25 - 0.4 * 9.
#[test]
fn the_age_tells_what_is_usual() {
    let report = report(&case("pupil-reads-the-board"));
    let at_age = result(&report, "accommodation-at-age");
    for (name, wanted) in [("least", "12.75"), ("mean", "15.8"), ("most", "21.4")] {
        rounds_to(value(at_age, name, "D"), wanted);
    }
}

/// A range asks for most from its far end. The face of 140 mm: 11.1 cycles of two details, and 8 to 16 beside it.
#[test]
fn a_range_and_a_face_by_hand() {
    let report = report(&case("frame-too-shallow"));
    let cycles = |count: f64, distance: f64| log10(detail(5.0 * 140.0 / (2.0 * count), distance));
    let (far, near) = (result(&report, "goal-2"), result(&report, "goal-2-nearest"));
    meet(value(far, "acuity", "logMAR"), cycles(11.1, 3000.0), "from 3 m");
    meet(value(far, "acuity_fewest_cycles", "logMAR"), cycles(8.0, 3000.0), "8 cycles");
    meet(value(far, "acuity_most_cycles", "logMAR"), cycles(16.0, 3000.0), "16 cycles");
    meet(value(near, "acuity", "logMAR"), cycles(11.1, 1200.0), "from 1.2 m");
    meet(value(result(&report, "goal-2-face"), "detail", "mm"), 140.0 / 22.2, "half a cycle");
    let short = value(result(&report, "goal-2-right"), "steps_short", "");
    meet(short, 10.0 * (1.04 - cycles(11.1, 3000.0)), "from where it asks for most");
    // Print to be read for long: 1.45 mm, a reserve of 3.
    let print = result(&report, "goal-3");
    meet(value(print, "acuity", "logMAR"), log10(detail(1.45, 400.0) / 3.0), "newspaper");
}

#[test]
fn each_kind_of_goal_by_hand() {
    let asked = |goal: GoalDraft| {
        let report = report(&one(goal));
        value(result(&report, "goal-1"), "acuity", "logMAR")
    };
    let text = str::to_owned;
    let letters = GoalDraft {
        kind: GoalKind::Letters,
        letter_height_mm: text("40"),
        distance_m: text("6"),
        ..GoalDraft::default()
    };
    for (how_well, reserve) in [(HowWell::Spot, 1.0), (HowWell::Read, 2.0), (HowWell::ReadLong, 3.0)] {
        let goal = GoalDraft { how_well, ..letters.clone() };
        meet(asked(goal), log10(detail(40.0, 6000.0) / reserve), "letters");
    }
    let typed = GoalDraft { reserve_times: text("1.3"), ..letters.clone() };
    meet(asked(typed), log10(detail(40.0, 6000.0) / 1.3), "what is typed goes before the choice");
    let stroke =
        GoalDraft { kind: GoalKind::Detail, detail_mm: text("14"), how_well: HowWell::Spot, ..letters };
    meet(asked(stroke), log10(detail(70.0, 6000.0)), "a detail is a fifth of a letter");
    let acuity = GoalDraft { acuity: text("20/100"), reserve_times: text("2"), ..GoalDraft::default() };
    meet(asked(acuity), log10(2.5), "an acuity with a reserve");
    let music = GoalDraft {
        kind: GoalKind::Print,
        print: text("2 M"),
        distance_m: text("65 cm"),
        ..GoalDraft::default()
    };
    meet(asked(music.clone()), log10(detail(2.0 * M, 650.0) / 2.0), "print that stays where it is");
    let bare = GoalDraft { distance_m: String::new(), ..music };
    meet(asked(bare), log10(detail(2.0 * M, 400.0) / 2.0), "print that is held");
}

#[test]
fn what_a_goal_waits_for() {
    let waits = |goal: GoalDraft| {
        let answer = Answer::of(&one(goal));
        let goal = &answer.goals[0];
        assert_eq!(goal.demand.is_none(), !goal.missing.is_empty(), "{goal:?}");
        goal.missing.clone()
    };
    let of = |kind: GoalKind| GoalDraft { kind, ..GoalDraft::default() };
    let (height, detail, distance, farthest) =
        (FieldId::GoalHeight(0), FieldId::GoalDetail(0), FieldId::GoalDistance(0), FieldId::GoalFarthest(0));
    assert_eq!(waits(of(GoalKind::Acuity)), [FieldId::GoalAcuity(0)]);
    assert_eq!(waits(of(GoalKind::Letters)), [height, distance]);
    assert_eq!(waits(of(GoalKind::Detail)), [detail, distance]);
    assert_eq!(waits(of(GoalKind::Face)), [distance]);
    assert_eq!(waits(of(GoalKind::Print)), [FieldId::GoalPrint(0)], "any distance will do");
    let print = || GoalDraft { print: "1 M".into(), ..of(GoalKind::Print) };
    assert_eq!(waits(print()), []);
    assert_eq!(waits(GoalDraft { farthest_m: "2".into(), ..print() }), [distance], "the farthest alone");
    assert_eq!(waits(GoalDraft { distance_m: "?".into(), ..print() }), [distance], "no silent 40 cm");
    let face = |nearest: &str, far: &str| GoalDraft {
        distance_m: nearest.into(),
        farthest_m: far.into(),
        ..of(GoalKind::Face)
    };
    assert_eq!(waits(face("1", "3")), []);
    assert_eq!(waits(face("1", "?")), [farthest]);
    assert_eq!(waits(face("3", "1")), [farthest], "farther than the nearest");
    assert_eq!(waits(face("3", "3")), [], "no range");
    assert_eq!(waits(GoalDraft { reserve_times: "0".into(), ..face("3", "") }), [FieldId::GoalReserve(0)]);
    let hidden = GoalDraft { acuity: "20/40".into(), letter_height_mm: "?".into(), ..GoalDraft::default() };
    let answer = Answer::of(&one(hidden.clone()));
    assert_eq!((waits(hidden), answer.troubles()), (vec![], 0), "a box that the kind does not have");
}

/// What a goal is to the aids: their wish, with the thing at both ends of its range.
#[test]
fn a_goal_is_a_wish_to_the_aids() {
    let wish = |goal: GoalDraft| -> Wish {
        Answer::of(&one(goal)).goals.remove(0).wish().expect("nothing is missing")
    };
    let ends = |wish: &Wish| -> Vec<(f64, Option<f64>, f64)> {
        let end = |detail: &arcminute_core::device::Detail| {
            (detail.height.mm(), detail.distance.map(|distance| distance.m()), detail.reserve)
        };
        wish.ends.iter().map(end).collect()
    };
    let print = GoalDraft {
        kind: GoalKind::Print,
        print: "1.45 mm".into(),
        characters: "10".into(),
        width_m: "2".into(),
        hands: Hands::OneFree,
        posture: Posture::Walking,
        both_eyes: true,
        ..GoalDraft::default()
    };
    let held = wish(print.clone());
    assert_eq!(ends(&held), [(1.45, None, 2.0)]);
    assert_eq!((held.print, held.at, held.width, held.characters), (true, None, None, Some(10.0)));
    assert_eq!((held.hands, held.walking, held.both_eyes), (1, true, true));
    let stand = wish(GoalDraft { distance_m: "0.6".into(), farthest_m: "0.7".into(), ..print });
    assert_eq!(ends(&stand), [(1.45, Some(0.6), 2.0), (1.45, Some(0.7), 2.0)]);
    let at = stand.at.expect("it stays where it is");
    assert_eq!((at.0.m(), at.1.m()), (0.6, 0.7));
    let bus = wish(GoalDraft {
        kind: GoalKind::Letters,
        letter_height_mm: "200".into(),
        distance_m: "20".into(),
        farthest_m: "50".into(),
        how_well: HowWell::Spot,
        width_m: "2".into(),
        characters: "3".into(),
        hands: Hands::BothFree,
        ..GoalDraft::default()
    });
    assert_eq!(ends(&bus), [(200.0, Some(20.0), 1.0), (200.0, Some(50.0), 1.0)]);
    assert_eq!((bus.print, bus.at.is_some(), bus.characters, bus.hands), (false, false, None, 2));
    assert!(bus.width.is_some_and(|width| (width.m() - 2.0).abs() < 1e-12));
    let acuity =
        wish(GoalDraft { acuity: "20/40".into(), reserve_times: "2".into(), ..GoalDraft::default() });
    let (height, distance, reserve) = ends(&acuity)[0];
    // Letters of 2 minutes of detail at 6 m, assumed there.
    meet(detail(height, 6000.0), 2.0, "letters of the line");
    assert_eq!((distance, reserve), (Some(6.0), 2.0));
}

/// Every message of a goal's boxes.
#[test]
fn what_is_said_of_entries_that_cannot_be_used() {
    let said = |make: fn(usize) -> FieldId, text: &str| {
        let mut draft =
            one(GoalDraft { kind: GoalKind::Letters, distance_m: "6".into(), ..GoalDraft::default() });
        make(0).set_text(&mut draft, text.into());
        match Answer::of(&draft).field(make(0)) {
            arcminute_web::model::answer::FieldState::Refused { message, hint } => {
                format!("{message} {hint}")
            }
            other => panic!("{text} is {other:?}"),
        }
    };
    for (make, text, words) in [
        (
            FieldId::GoalAcuity as fn(usize) -> FieldId,
            "CF 1 m",
            "Acuity `CF 1 m` is a category, not a size, and cannot be used in this sum. Enter an acuity measured with \
             letters or rings, nearer if need be.",
        ),
        (FieldId::GoalHeight, "0", "Letter height `0 mm` is not possible. Use 0.1 to 20000 mm."),
        (FieldId::GoalDetail, "6 m", "Detail `6000 mm` is not possible. Use 0.01 to 5000 mm."),
        (
            FieldId::GoalPrint,
            "J5",
            "Print size `J5` needs a measured size: a Jaeger number stands for none. Type for example `1.6 M`.",
        ),
        (FieldId::GoalDistance, "0", "Distance `0 m` is not possible. Use 0.1 to 1000 m."),
        (FieldId::GoalFarthest, "3", "Farthest distance `3 m` is not possible. Use 6 to 1000 m."),
        (FieldId::GoalFarthest, "2000", "Distance `2000 m` is not possible. Use 0.1 to 1000 m."),
        (FieldId::GoalContrast, "0", "Contrast `0 %` is not possible. Use 0.1 to 100 %."),
        (FieldId::GoalReserve, "11", "Acuity reserve `11 times` is not possible. Use 0.5 to 10 times."),
        (FieldId::GoalWidth, "0", "Width `0 m` is not possible. Use 0.01 to 100 m."),
        (
            FieldId::GoalCharacters,
            "0",
            "Characters `0 characters` is not possible. Use 1 to 1000 characters.",
        ),
        (FieldId::GoalLight, "-1", "Illuminance `-1 lx` is not possible. Use 0 to 200000 lx."),
        (|_| FieldId::Age, "121", "Age `121 years` is not possible. Use 0 to 120 years."),
        (
            |_| FieldId::ContrastSensitivity(true),
            "3",
            "Log contrast sensitivity `3` is not possible. Use -0.5 to 2.6.",
        ),
    ] {
        assert_eq!(said(make, text), words, "{text}");
    }
}
