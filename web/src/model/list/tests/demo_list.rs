//! The demonstration list: in order and large enough.

use super::*;
use crate::model::format::times;
use crate::model::list::{For, Wears};
use arcminute_core::Error;
use arcminute_core::device::{Aid, Detail, Eye, Outcome, RefractionBy, Setting, Worn, every_outcome};
use arcminute_core::explain::Explain;
use arcminute_core::unit::{Length, LogMar, Vergence};

/// A child's eye of 20/200 with glasses for near of 2.5 D.
fn eye(aid: &ListedAid) -> Eye {
    let worn = match aid.traits().glasses {
        Wears::Nothing => Worn::Nothing,
        Wears::Distance => Worn::Distance,
        Wears::Add => Worn::Near { add: Vergence::from_dioptres(2.5) },
    };
    let accommodation = Vergence::from_dioptres(8.0);
    Eye { worn, accommodation, ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)) }
}

/// 1 M of print, or a letter of 20/40 at 6 m.
fn detail(aid: &ListedAid) -> Detail {
    let (height, distance) = match aid.serves() {
        For::Print => (1.4544, None),
        For::Far | For::Field => (17.45, Some(Length::from_m(6.0))),
    };
    Detail { height: Length::from_mm(height), distance, reserve: 1.0 }
}

fn outcome(aid: &ListedAid) -> Result<Outcome, Error> {
    let (eye, detail) = (eye(aid), detail(aid));
    let mut seen = None;
    let used = aid.used(eye.spectacle_to_eye, detail.distance)?;
    every_outcome(&[used], &[detail], &eye, |_, _, outcome| seen = Some(outcome));
    seen.expect("one aid, one detail")
}

#[test]
fn it_has_no_trouble_and_some_aids_of_every_family() {
    assert_eq!(said(demo()), [""; 0]);
    assert!(40 <= demo().list.len(), "{}", demo().list.len());
    assert_eq!(demo().about, "An invented list, some aids of each family; no real device is in it.");
    for about in family::ALL {
        let of = demo().list.iter().filter(|aid| aid.family == about.family).count();
        assert!(2 <= of, "{}: {of}", about.name);
    }
}

#[test]
fn it_stands_in_the_tree_as_the_page_writes_it() {
    let written = write_csv(&demo().list).replace("\r\n", "\n");
    assert!(written.trim_start_matches('\u{feff}') == DEMO, "write it anew with `write_csv`");
}

#[test]
fn every_aid_serves_an_eye_of_twenty_two_hundred() {
    for aid in &demo().list {
        let outcome = outcome(aid).unwrap_or_else(|error| panic!("{}: {error}", aid.id));
        let reserve = outcome.reserve_reached;
        assert!(0.0 < reserve && reserve.is_finite(), "{}: {reserve}", aid.id);
        // 20/200 read with a twentieth of what is seen would be no aid at all; only a wide view may cost detail.
        assert!(aid.serves() == For::Field || 0.2 < reserve, "{}: {}", aid.id, times(reserve));
        let eye = eye(aid);
        let distance = detail(aid).distance;
        let own = aid
            .used(eye.spectacle_to_eye, distance)
            .and_then(|used| family_steps(&used, &eye, distance))
            .unwrap_or_else(|error| panic!("{}: {error}", aid.id));
        assert_ne!(own, [], "{}: its family has a working", aid.id);
        for step in own.iter().chain(&outcome.steps()) {
            assert_eq!(step.check(), Ok(()), "{}", aid.id);
        }
    }
}

/// The reserve grows with the power inside each family of plain lenses.
#[test]
fn stronger_lenses_show_more_and_are_smaller() {
    for family in [Family::HighPlus, Family::Hand, Family::Stand] {
        let of: Vec<_> = demo().list.iter().filter(|aid| aid.family == family).collect();
        for pair in of.windows(2) {
            let [weak, strong] = pair else { unreachable!("two at a time") };
            let distance = |aid: &ListedAid| {
                let outcome = outcome(aid).expect("it serves");
                outcome.equivalent_viewing_distance.expect("a near aid").mm()
            };
            assert!(distance(strong) < distance(weak), "{} after {}", strong.id, weak.id);
            let wide = |aid: &ListedAid| aid.number(Column::ClearDiameter).expect("it has one");
            assert!(wide(strong) < wide(weak), "{} after {}", strong.id, weak.id);
        }
    }
}

/// By hand, for 2.2x of 26 mm, 15 mm before the eye: the thing stands D − 0.041 m before the objective, and the eye
/// meets `M²/(x + M·(d + M·v))` = `4.84/(D + 0.0888)`; the thing looks `2.2·D/(D + 0.0888)` times as large.
#[test]
fn a_telescope_fixed_for_far_is_out_of_focus_for_a_near_thing() {
    let aid = demo_aid("g22-20").expect("it is in the list");
    let seen = |metres: f64, accommodation: f64| {
        let accommodation = Vergence::from_dioptres(accommodation);
        let eye = Eye { accommodation, ..Eye::corrected(LogMar::from_log(0.3), LogMar::from_log(0.2)) };
        let eye = Eye { spectacle_to_eye: Length::from_mm(15.0), ..eye };
        let distance = Some(Length::from_m(metres));
        // A letter as large from everywhere.
        let detail = Detail { height: Length::from_mm(10.0 * metres), distance, reserve: 1.0 };
        let mut seen = None;
        every_outcome(&[aid.used(eye.spectacle_to_eye, distance)?], &[detail], &eye, |_, _, outcome| {
            seen = Some(outcome);
        });
        seen.expect("one aid, one detail")
    };
    for metres in [0.5, 1.0, 2.0, 8.0] {
        let (old, young) = (seen(metres, 0.0).expect("seen"), seen(metres, 12.0).expect("seen"));
        let (asked, times) = (4.84 / (metres + 0.0888), 2.2 * metres / (metres + 0.0888));
        for (who, outcome) in [("old", &old), ("young", &young)] {
            let demand = outcome.focus.demand.dioptres();
            assert!((demand - asked).abs() < 1e-9, "{who}, {metres} m: {demand} D, by hand {asked} D");
            let angular = outcome.angular.times();
            assert!((angular - times).abs() < 1e-9, "{who}, {metres} m: {angular}x, by hand {times}x");
        }
        assert!(
            (old.focus.defocus.dioptres() - asked).abs() < 1e-9,
            "{metres} m: the old eye is left with it"
        );
        assert!(young.focus.defocus.abs().dioptres() < 1e-9, "{metres} m: the young eye focuses it");
        let [chance, sharp] = [&old, &young].map(|outcome| outcome.prediction.chance);
        assert!(chance < sharp, "{metres} m: blur costs, {chance} and {sharp}");
        assert_eq!(old.tolerance < old.focus.defocus.abs(), metres < 7.0, "{metres} m: {:?}", old.tolerance);
    }
    let error = seen(0.04, 0.0).expect_err("the objective is 41 mm before the eye");
    assert_eq!(
        error.to_string(),
        "distance `0.04 m` has no solution: it is nearer than the telescope is long"
    );
}

#[test]
fn a_telescope_is_set_for_the_distance_that_it_can_be() {
    let at = |id: &str, distance: Option<f64>| {
        let aid = demo_aid(id).expect("it is in the list");
        aid.used(Length::from_mm(15.0), distance.map(Length::from_m))
    };
    let setting = |used: Result<Aid, Error>| match used {
        Ok(Aid::Telescope { setting, .. }) => setting,
        other => panic!("no telescope: {other:?}"),
    };
    let refraction = |id| match at(id, None) {
        Ok(Aid::Telescope { refraction, .. }) => refraction,
        other => panic!("no telescope: {other:?}"),
    };
    let met = ["k40-13", "g22-20", "hand-telescope-40", "reading-cap"].map(refraction);
    let by_glasses = RefractionBy::Glasses;
    assert_eq!(
        met,
        [RefractionBy::Tube, by_glasses, by_glasses, by_glasses],
        "only a mounted one that focuses"
    );
    let focused = Setting::Tube { thing_to_eye: Length::from_m(3.0) };
    assert_eq!(setting(at("k40-13", Some(3.0))), focused);
    assert_eq!(setting(at("hand-telescope-40", Some(3.0))), focused);
    assert_eq!(setting(at("k40-13", None)), Setting::Far);
    let fixed = Setting::FixedFar { thing_to_eye: Length::from_m(3.0) };
    for id in ["g22-20", "reversed-telescope"] {
        assert_eq!(setting(at(id, Some(3.0))), fixed, "{id}");
        assert_eq!(setting(at(id, None)), Setting::Far, "{id}");
    }
    let cap = Setting::Cap { cap: Vergence::from_dioptres(4.0) };
    assert_eq!(setting(at("reading-cap", Some(3.0))), cap);
    let error = at("k40-13", Some(0.2)).expect_err("nearer than 25 cm");
    assert_eq!(
        error.to_string(),
        "distance `0.2 m` has no solution: it cannot be focused for so near a thing"
    );
    assert!(at("k40-13", Some(0.25)).is_ok(), "its nearest");
}
