//! Aids of the demonstration list against wishes.

use super::*;
use crate::model::answer::Behind;
use crate::model::list;
use arcminute_core::device::{Detail, Eye};
use arcminute_core::unit::{Length, LogMar};

fn behind() -> Behind {
    Behind {
        eye: Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)),
        add: None,
        in_eyepiece: false,
    }
}

fn print(mm: f64) -> Wish {
    Wish {
        print: true,
        ends: vec![Detail { height: Length::from_mm(mm), distance: None, reserve: 2.0 }],
        at: None,
        width: None,
        characters: None,
        hands: 0,
        walking: false,
        both_eyes: false,
    }
}

fn far(mm: f64, metres: &[f64]) -> Wish {
    let end =
        |m: &f64| Detail { height: Length::from_mm(mm), distance: Some(Length::from_m(*m)), reserve: 1.0 };
    Wish { print: false, ends: metres.iter().map(end).collect(), ..print(mm) }
}

#[track_caller]
fn one(id: &str, wish: &Wish) -> Result<Cell, Cannot> {
    let aid = list::demo_aid(id).expect("it is in the demonstration list");
    cells(aid, &behind(), std::slice::from_ref(wish)).remove(0)
}

#[test]
fn a_hand_magnifier_gives_its_closed_form() {
    let cell = one("hand-28", &print(1.4544)).expect("it serves");
    // Print of 1 M in the focus of 28 D: 5 x 28 / 5 minutes = 28 minutes of detail, over 10 is 2.8.
    assert!((cell.reserve_reached - 2.8).abs() < 1e-3, "{}", cell.reserve_reached);
    assert!(cell.lacks.is_empty() && cell.covers(0.5), "{:?}", cell.lacks);
    assert!(!cell.covers(0.95), "chance {}", cell.prediction.chance);
}

#[test]
fn the_harder_end_of_a_range_counts() {
    let telescope = list::demo().list.iter().find(|aid| aid.family == list::Family::HandTelescope);
    let telescope = telescope.expect("there is one");
    let chance = |metres: &[f64]| {
        let cell = cells(telescope, &behind(), &[far(40.0, metres)]).remove(0).expect("it serves");
        (cell.prediction.chance, cell.detail.distance.unwrap_or_default().m())
    };
    let (near, farther, range) = (chance(&[3.0]), chance(&[8.0]), chance(&[3.0, 8.0]));
    assert!(farther.0 < near.0, "{near:?} {farther:?}");
    assert_eq!(range, farther);
}

#[test]
fn what_is_asked_and_not_given_is_said() {
    let wish = Wish { hands: 2, walking: true, both_eyes: true, characters: Some(1e3), ..print(1.4544) };
    let cell = one("hand-28", &wish).expect("it serves but for that");
    assert_eq!(cell.lacks, [Lack::Seen, Lack::Hands, Lack::Walking, Lack::BothEyes]);
    assert!(!cell.covers(0.0), "something is lacking");
    let music = Wish { at: Some((Length::from_cm(60.0), Length::from_cm(70.0))), ..print(3.0) };
    assert_eq!(one("hand-28", &music).map(|cell| cell.lacks), Ok(vec![Lack::Distance]));
    assert_eq!(one("desk-screen", &music).map(|cell| cell.lacks.contains(&Lack::Distance)), Ok(false));
}

#[test]
fn an_aid_is_for_near_or_for_far() {
    assert_eq!(one("hand-28", &far(40.0, &[6.0])), Err(Cannot::OnlyPrint));
    assert_eq!(one("distance-camera", &print(1.0)), Err(Cannot::OnlyFar));
}

/// A cylinder stays behind a telescope that its tube focuses for the eye; one in the eyepiece mends it.
#[test]
fn a_cylinder_costs_acuity_behind_a_tube_that_is_focused_for_the_eye() {
    let mut behind = behind();
    behind.eye.cylinder = arcminute_core::unit::Vergence::from_dioptres(-3.0);
    let aid = list::demo_aid("k40-13").expect("it is in the demonstration list");
    let loss = |behind: &Behind| {
        cells(aid, behind, &[far(40.0, &[6.0])]).remove(0).map(|cell| cell.loss.log()).expect("it serves")
    };
    let by_tube = loss(&behind);
    behind.in_eyepiece = true;
    assert!(0.02 < by_tube && loss(&behind).abs() < 1e-9, "{by_tube} and {}", loss(&behind));
}

#[test]
fn less_at_once_than_is_wanted_is_a_price_and_no_bar() {
    let cell = one("hand-28", &Wish { characters: Some(1e3), ..print(1.4544) }).expect("it serves");
    assert_eq!((cell.lacks.as_slice(), cell.serves(), cell.covers(0.5)), (&[Lack::Seen][..], true, true));
    let cell = one("hand-28", &Wish { hands: 2, ..print(1.4544) }).expect("it would serve");
    assert_eq!((cell.lacks.as_slice(), cell.serves()), (&[Lack::Hands][..], false));
}
