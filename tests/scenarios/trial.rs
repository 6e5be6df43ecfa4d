//! A trial by a second road: what was reached against what closed forms predict, by hand from the case and the list.
//!
//! Nothing here calls the core but for its floating-point functions. Lengths in metres where no unit is named.

use crate::independent::{Looking, detail};
use crate::reading::{case, meet, result, value};
use arcminute_core::math::{hypot, log10, sqrt};
use arcminute_core::trial::{Cause, Explanation, Grounds};
use arcminute_web::model::answer::{Answer, FieldState};
use arcminute_web::model::compared::{Asked, LookedAt, trial};
use arcminute_web::model::draft::Draft;
use arcminute_web::model::field::FieldId;
use arcminute_web::model::report::report;
use arcminute_web::model::{list, shown};
use proptest::prelude::*;
use proptest::sample::select;
use serde_json::Value;

/// 20/160, the right eye of `adult-20-160`.
const MAR: f64 = 8.0;
const SPHERE: f64 = -1.25;
const TO_EYE: f64 = 0.013 + 0.003_05;
/// Glasses of that sphere make everything this many times smaller, far things and parallel light alike.
const SMALLER: f64 = 1.0 - TO_EYE * SPHERE;
const LIMIT: f64 = 0.20;

/// The adult before an aid; goal 1 is 20/40, goal 2 is print of 1 M.
fn with(aid: &str, goal: usize) -> Draft {
    let mut draft = case("adult-20-160");
    draft.bench.goal = goal;
    draft.bench.aid = aid.into();
    draft
}

fn tried(draft: &Draft) -> Value {
    result(&report(draft), "trial").clone()
}

/// The record says by how much the size that was read differs from the predicted one, `ratio` times as large.
#[track_caller]
fn agrees(draft: &Draft, ratio: f64, class: &str) {
    let told = tried(draft);
    let difference = log10(ratio);
    meet(value(&told, "difference", "logMAR"), difference, class);
    meet(value(&told, "beyond", "logMAR"), (difference.abs() - LIMIT).max(0.0), class);
    assert_eq!(told["class"], class, "{difference} log off");
}

/// 28 D make 1 M look as large as from 1/28 m: 28 minutes, where 8 are just seen, so 8/28 M is just read. The glasses for
/// far make the print smaller, as they did the letters of the acuity.
#[test]
fn print_through_a_hand_magnifier() {
    let mut draft = with("hand-28", 1);
    let seen = detail(1.454_442_068_9e-3, SMALLER / 28.0) * SMALLER;
    for (read, class) in [
        (0.4, "within-band"),
        (0.8, "worse-than-band"),
        (0.15, "better-than-band"),
        // 0.2 log either way are 0.45 M and 0.18 M.
        (0.45, "within-band"),
        (0.46, "worse-than-band"),
        (0.19, "within-band"),
        (0.18, "better-than-band"),
    ] {
        draft.trial.print = format!("{read} M");
        agrees(&draft, read / (MAR / seen), class);
    }
}

/// A display of 40 degrees for 10 is worth four times: 20/160 should read 20/40.
#[test]
fn letters_at_a_distance_through_a_display() {
    let mut draft = with("head-mounted", 0);
    for (below, class) in [(40.0, "within-band"), (80.0, "worse-than-band"), (20.0, "better-than-band")] {
        draft.trial.acuity = format!("20/{below}");
        agrees(&draft, below / 40.0, class);
    }
}

/// The 4x telescope of the case, its tube set for the refraction and for 6 m; no cylinder, so nothing is blurred.
///
/// The acuity counts as one of far letters, which the glasses make a hair smaller than letters at 6 m.
#[test]
fn letters_at_a_distance_through_the_telescope_of_the_case() {
    let mut draft = with("", 0);
    draft.person.right.refraction = "-1.25".into();
    let in_use = Looking {
        power: 4.0,
        length: 62.0,
        real_field_degrees: 12.2,
        mean_sphere: SPHERE,
        in_eyepiece: false,
        vertex: 13.0,
        distance: 6000.0,
    }
    .magnification_in_use();
    let in_use = in_use * 6.0 * SMALLER / ((6.0 - TO_EYE) * SMALLER + TO_EYE);
    for (below, class) in [(40.0, "within-band"), (80.0, "worse-than-band"), (20.0, "better-than-band")] {
        draft.trial.acuity = format!("20/{below}");
        agrees(&draft, below / 20.0 / (MAR / in_use), class);
    }
}

/// What was typed for the one kind of goal says nothing about the other.
#[test]
fn print_is_no_trial_of_a_far_aid_nor_letters_of_a_near_one() {
    let has_trial = |draft: &Draft| {
        let results = report(draft)["results"].as_array().cloned().expect("results");
        results.iter().any(|one| one["key"] == "trial")
    };
    let mut near = with("hand-28", 1);
    assert!(!has_trial(&near), "nothing was typed");
    near.trial.acuity = "20/40".into();
    assert!(!has_trial(&near), "letters");
    near.trial.print = "0.4 M".into();
    assert!(has_trial(&near), "print");
    near.bench.goal = 0;
    assert!(!has_trial(&near), "a near aid for a far goal");
    near.bench.aid = "head-mounted".into();
    near.trial.acuity = "CF 1 m".into();
    assert!(!has_trial(&near), "a category has no size");
}

fn explained(draft: &Draft, id: &str) -> Vec<Explanation> {
    let answer = Answer::of(draft);
    let aid = list::demo_aid(id).expect("it is in the list");
    let looked = LookedAt::of(&Asked::of(&answer), answer.goal, aid).expect("eye and goal are known");
    let verdict = trial(&answer, &looked).expect("something was reached").expect("it can be judged");
    assert_eq!(shown::trial_checks(&verdict).len(), verdict.explanations.iter().count(), "a line for each");
    verdict.explanations.iter().copied().collect()
}

/// A focus missed by this much, as a loss: squares add with what the blur takes from a normal eye of 1.25 minutes.
fn loss(mar: f64, dioptres: f64) -> f64 {
    let normal = 1.25 * (1.0 + 1.08 * dioptres * dioptres);
    log10(sqrt(mar * mar + normal * normal - 1.25 * 1.25) / mar)
}

/// 20/30 should read −0.43 logMAR with four times; −0.07 is 0.156 beyond the band. One dioptre costs that eye 0.26 log and
/// would explain it, half a dioptre 0.08 log would not.
#[test]
fn a_missed_focus_is_weighed_against_the_miss() {
    let mut draft = with("head-mounted", 0);
    draft.person.right.acuity = "20/30".into();
    draft.person.right.refraction.clear();
    draft.trial.acuity = "-0.07 logMAR".into();
    agrees(&draft, arcminute_core::math::pow(10.0, -0.07) / (1.5 / 4.0), "worse-than-band");
    let found = explained(&draft, "head-mounted");
    let focus: Vec<_> = found.iter().filter(|one| one.cause == Cause::FocusMissed).collect();
    assert_eq!(focus.len(), 2, "{found:?}");
    for (one, (dioptres, is_enough)) in focus.iter().zip([(1.0, true), (0.5, false)]) {
        let effect = one.effect.expect("the law of blur tells").log();
        meet(effect, loss(1.5, dioptres), "missed focus");
        assert_eq!(one.is_enough, Some(is_enough), "{dioptres} D cost {effect} log");
    }
    assert_eq!(found.first().map(|one| one.cause), Some(Cause::FocusMissed), "what is known comes first");
}

/// Share of the smaller disc's light on the larger one, by counting points of a grid.
fn counted_share(exit_pupil: f64, pupil: f64, apart: f64) -> f64 {
    const STEPS: i32 = 400;
    let (mut both, mut centred) = (0_u32, 0_u32);
    for across in -STEPS..=STEPS {
        for up in -STEPS..=STEPS {
            let (x, y) = (f64::from(across) / f64::from(STEPS), f64::from(up) / f64::from(STEPS));
            let (x, y) = (x * exit_pupil / 2.0, y * exit_pupil / 2.0);
            let is_lit = hypot(x, y) <= exit_pupil / 2.0;
            both += u32::from(is_lit && hypot(x + apart, y) <= pupil / 2.0);
            centred += u32::from(is_lit && hypot(x, y) <= pupil / 2.0);
        }
    }
    f64::from(both) / f64::from(centred)
}

/// 13 mm over 4x leave a pencil of 3.25 mm for a pupil of 4 mm.
#[test]
fn a_pupil_off_the_middle_loses_the_light_that_is_counted() {
    let mut draft = with("", 0);
    draft.trial.acuity = "20/200".into();
    let found = explained(&draft, "k40-13");
    let shares: Vec<(f64, f64)> = found
        .iter()
        .filter_map(|one| match one.grounds {
            Grounds::OffCentre(off) => Some((off.apart.mm(), off.share)),
            _ => None,
        })
        .collect();
    assert_eq!(shares.len(), 3, "{found:?}");
    for (apart, share) in shares {
        let counted = counted_share(13.0 / 4.0, 4.0, apart);
        assert!((share - counted).abs() < 1e-3, "{apart} mm: {share}, counted {counted}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    /// Whatever is typed, there is a verdict or a refusal when the box was understood, and nothing otherwise.
    #[test]
    fn whatever_is_typed_is_judged_or_left_out(
        reached in prop_oneof![
            any::<String>(),
            "[-+0-9,./ NMxlogARCFm]{0,10}",
            select(vec!["20/20000", "3 logMAR", "-0.5 logMAR", "0.1 M", "60 M", "N80", "20/50 at 40 cm", "NLP"])
                .prop_map(str::to_owned),
        ],
        beside in prop_oneof![Just(String::new()), "[-+0-9,.]{0,5}", any::<String>()],
        aid in select(list::demo().list.iter().map(|aid| aid.id.clone()).collect::<Vec<_>>()),
        goal in 0_usize..2,
    ) {
        let mut draft = with(&aid, goal);
        (draft.trial.acuity, draft.trial.print, draft.trial.beside_deg) = (reached.clone(), reached, beside);
        let answer = Answer::of(&draft);
        let listed = list::demo_aid(&aid).expect("it is in the list");
        let looked = LookedAt::of(&Asked::of(&answer), answer.goal, listed).expect("eye and goal are known");
        let field = if goal == 1 { FieldId::TrialPrint } else { FieldId::TrialAcuity };
        let is_understood = matches!(answer.field(field), FieldState::Understood { .. });
        prop_assert!(!shown::trial_predicted(&answer, &looked).is_empty());
        let judged = trial(&answer, &looked);
        prop_assert_eq!(judged.is_some(), is_understood && looked.seen().is_some());
        if let Some(Ok(verdict)) = judged {
            let words = shown::trial_words(&verdict);
            prop_assert!(words.ends_with('.') && !words.contains("NaN") && !words.contains("inf"), "{}", words);
            for check in shown::trial_checks(&verdict) {
                prop_assert!(check.ends_with('.') && !check.contains("NaN"), "{}", check);
            }
        }
    }
}
