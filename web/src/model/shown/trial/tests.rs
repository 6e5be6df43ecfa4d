//! What is said of a trial, every sentence spelled out.

use super::*;
use crate::model::compared::{Asked, trial};
use crate::model::draft::{Draft, GoalDraft, GoalKind};
use crate::model::list;
use arcminute_core::unit::{Angle, Vergence};

/// 20/200; a sign at 6 m to be read at 20/40, and print.
fn draft() -> Draft {
    let mut draft = Draft::default();
    draft.person.right.acuity = "20/200".into();
    draft.goals[0] = GoalDraft { name: "Sign".into(), acuity: "20/40".into(), ..GoalDraft::default() };
    draft.goals.push(GoalDraft { kind: GoalKind::Print, print: "1 M".into(), ..GoalDraft::default() });
    draft
}

fn looked(answer: &Answer, id: &str) -> LookedAt {
    let aid = list::demo_aid(id).expect("it is in the demonstration list");
    LookedAt::of(&Asked::of(answer), answer.goal, aid).expect("eye and goal are known")
}

#[track_caller]
fn judged(draft: &Draft, id: &str) -> TrialVerdict {
    let answer = Answer::of(draft);
    trial(&answer, &looked(&answer, id)).expect("something was reached").expect("it can be judged")
}

#[test]
fn what_was_predicted_is_said_first() {
    let answer = Answer::of(&draft());
    assert_eq!(
        trial_predicted(&answer, &looked(&answer, "k40-13")),
        "4x13 Keplerian, focusing, bright for “Sign”: should just read 20/50 (0.39 logMAR); \
         letters 21.4 mm high at 6 m; band 20/32 to 20/80 (95 %)."
    );
    assert_eq!(
        trial_predicted(&answer, &looked(&answer, "hand-28")),
        "Hand magnifier, +28 D, 30 mm for “Sign”: for print near only."
    );
    assert_eq!(trial(&answer, &looked(&answer, "k40-13")), None, "nothing was reached yet");
}

#[test]
fn what_was_reached_is_better_as_predicted_or_worse() {
    let words = |acuity: &str| {
        let mut draft = draft();
        draft.trial.acuity = acuity.into();
        trial_words(&judged(&draft, "k40-13"))
    };
    // Predicted: 10 minutes through 4.07x.
    assert_eq!(
        words("20/50"),
        "As predicted: 0.01 log from it, and tests scatter by 0.20 log. Nothing has to be explained."
    );
    assert_eq!(
        words("20/20"),
        "Better than predicted by 0.39 log, and tests scatter by 0.20 log. Look whether a weaker aid would do."
    );
    assert_eq!(
        words("20/160"),
        "Worse than predicted by 0.51 log (5.1 lines), 0.31 log more than tests scatter. Check these in turn."
    );
}

#[test]
fn print_is_held_against_the_print_that_was_predicted() {
    let mut draft = draft();
    draft.bench.goal = 1;
    // 28 D: 0.36 M of x-height 0.519 mm; 0.72 M is twice that, 0.30 log.
    draft.trial.print = "1.039 mm".into();
    let verdict = judged(&draft, "hand-28");
    assert!((verdict.difference.log() - 0.301).abs() < 2e-3, "{:?}", verdict.difference);
    let checks = trial_checks(&verdict);
    assert!(
        checks.iter().any(|check| check.starts_with("See that the eye looks through the middle of the aid."))
    );
    assert!(checks.iter().any(|check| check.starts_with("Rest hand, elbow and head.")), "{checks:#?}");
}

#[test]
fn each_check_says_what_to_do_and_what_it_would_cost() {
    let mut draft = draft();
    draft.trial.acuity = "20/160".into();
    draft.trial.beside_deg = "10".into();
    draft.person.right.contrast_log_cs = "1.0".into();
    draft.goals[0].contrast_percent = "80".into();
    let checks = trial_checks(&judged(&draft, "k40-13"));
    // By hand: 10 minutes and 1 D of blur are √(10² + 2.6² − 1.25²) = 10.26 minutes, 0.011 log; the head 2/(4.1 − 1).
    assert_eq!(
        checks,
        [
            "Focus again, slowly and from both sides: it may be missed by 1 D. It would cost 0.01 log: not enough alone.",
            "Focus again, slowly and from both sides: it may be missed by 0.5 D. It would cost less than 0.01 log: not enough alone.",
            "Bring the exit pupil on the pupil: 0.5 mm beside it leaves 97 % of the light.",
            "Bring the exit pupil on the pupil: 1.0 mm beside it leaves 79 % of the light.",
            "Bring the exit pupil on the pupil: 2.0 mm beside it leaves 41 % of the light.",
            "Add light: the aid leaves 53 % of it.",
            "Compare with full contrast: what was read has 8x the least contrast seen.",
            "Rest the head: the picture holds still while the head turns under 0.6° a second.",
            "Find the place looked with: 10.0° beside the centre reads 0.65 logMAR at best.",
        ]
    );
}

#[test]
fn what_is_not_known_is_asked_for() {
    let mut draft = draft();
    draft.trial.acuity = "20/160".into();
    let checks = trial_checks(&judged(&draft, "distance-camera"));
    for wanted in [
        "See that the eye looks through the middle of the aid.",
        "Compare with full contrast: the contrast of the thing, or of this eye, is not entered.",
        "Rest hand, elbow and head.",
        "Where the centre is lost, find the place looked with and hold it.",
    ] {
        assert!(checks.iter().any(|check| check.starts_with(wanted)), "{wanted}: {checks:#?}");
    }
    assert!(!checks.iter().any(|check| check.contains("light: ")), "a screen shines by itself: {checks:#?}");
    // What the page does not ask for has words all the same.
    let blur = arcminute_core::optics::blurred(
        Angle::from_arcmin(10.0),
        Vergence::from_dioptres(2.0),
        Vergence::ZERO,
    );
    let one = |cause, grounds| Explanation { cause, effect: None, is_enough: None, grounds };
    assert_eq!(check(&one(Cause::FocusLeft, Grounds::Blur(blur))), "Mend the focus: 2 D is left out of it.");
    assert_eq!(
        check(&one(Cause::CylinderLeft, Grounds::Blur(blur))),
        "Correct the cylinder: it blurs like 2 D."
    );
    for cause in Cause::ALL {
        assert!(not_known(cause).ends_with('.'), "{cause:?}");
    }
    let enough = Explanation {
        effect: Some(LogMar::from_log(0.2)),
        is_enough: Some(true),
        ..one(Cause::Light, Grounds::NotGiven)
    };
    assert_eq!(cost(&enough), "It would cost 0.20 log: alone enough to explain the miss.");
}
