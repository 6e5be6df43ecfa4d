//! The refused fit names what would do, and each of those, followed, is accepted.

use crate::cases::shallow_setting;
use crate::independent::Setting;
use crate::reading::{case, result};
use arcminute_core::fit::{Fit, Placement, WayOut};
use arcminute_web::model::answer::{Answer, FitAnswer, FitDone};
use arcminute_web::model::draft::{CarrierChoice, Draft, PlacementChoice};
use arcminute_web::model::report::report;
use arcminute_web::model::words;
use serde_json::Value;

const NAME: &str = "frame-too-shallow";
const WEB: f64 = 3.0;

#[track_caller]
fn fit(draft: &Draft) -> Box<FitDone> {
    match Answer::of(draft).fit {
        FitAnswer::Done(done) => done,
        other => panic!("the fit is {other:?}"),
    }
}

/// The ways out of the refused checks, each once.
fn ways(done: &FitDone) -> Vec<WayOut> {
    let mut ways: Vec<WayOut> = Vec::new();
    for check in &done.checks {
        if check.severity == arcminute_core::fit::Severity::Refuse {
            for way in &check.ways_out {
                if !ways.contains(way) {
                    ways.push(*way);
                }
            }
        }
    }
    ways
}

/// The size that a sentence names: `… of 41.4 mm or more`.
fn size_in(words: &str) -> String {
    words
        .split_whitespace()
        .find(|word| word.parse::<f64>().is_ok())
        .expect("the sentence names a size")
        .to_owned()
}

/// The draft with a way out followed as its words say.
fn followed(draft: &Draft, way: &WayOut) -> Draft {
    let mut draft = draft.clone();
    let words = words::way_out(way);
    match way {
        WayOut::SmallestBoxHeight(_) => draft.fit.box_height_mm = size_in(&words),
        WayOut::LargestBarrel(_) => draft.fit.barrel_mm = size_in(&words),
        WayOut::OtherRule(rule) => {
            draft.fit.placement = match rule {
                Placement::PupilTop => PlacementChoice::PupilTop,
                Placement::Highest => PlacementChoice::Highest,
                Placement::Centred => PlacementChoice::Centred,
                Placement::Low => PlacementChoice::Low,
                Placement::ByHand(_) => panic!("a place by hand is no rule to take"),
            }
        }
        WayOut::DeeperBelow(_) => {
            let deeper: f64 = size_in(&words).parse().expect("a size");
            let person = &mut draft.person;
            for height in [
                &mut draft.fit.box_height_mm,
                &mut person.right.pupil_height_mm,
                &mut person.left.pupil_height_mm,
            ] {
                *height = format!("{:.3}", height.parse::<f64>().expect("a height") + deeper);
            }
        }
        WayOut::NarrowerSegment(_) => draft.fit.segment_width_mm = size_in(&words),
        WayOut::LowerSegment(_) => draft.fit.segment_height_mm = size_in(&words),
        WayOut::SingleVisionCarrier => draft.fit.carrier = CarrierChoice::SingleVision,
        other => panic!("what is refused here is not mended by {other:?}"),
    }
    draft
}

#[test]
fn the_shallow_frame_is_refused_and_says_what_would_do() {
    let setting = shallow_setting();
    let tallest = |setting: Setting, box_height: f64| Setting { box_height, ..setting };
    let thinnest = |setting: Setting, barrel: f64| Setting { barrel, ..setting };
    let smallest_box = setting.turning_point(WEB, 38.0, 50.0, tallest);
    let largest_barrel = setting.turning_point(WEB, 14.0, 4.0, thinnest);
    let done = fit(&case(NAME));
    assert_eq!(done.verdict, Fit::Refused);
    let ways = ways(&done);
    let named =
        |wanted: fn(&WayOut) -> Option<f64>| ways.iter().find_map(wanted).expect("it is among the ways out");
    let height = named(|way| match way {
        WayOut::SmallestBoxHeight(height) => Some(height.mm()),
        _ => None,
    });
    let barrel = named(|way| match way {
        WayOut::LargestBarrel(barrel) => Some(barrel.mm()),
        _ => None,
    });
    assert!((height - smallest_box).abs() < 1e-4, "{height} named, {smallest_box} by the other road");
    assert!((barrel - largest_barrel).abs() < 1e-4, "{barrel} named, {largest_barrel} by the other road");
    let said: Vec<String> = ways.iter().map(words::way_out).collect();
    assert_eq!(
        said[..2],
        [
            "take a frame with a box height B of 41.4 mm or more",
            "take a telescope with a barrel of 11.0 mm or less",
        ]
    );
}

#[test]
fn every_way_out_followed_as_said_is_accepted() {
    let draft = case(NAME);
    let ways = ways(&fit(&draft));
    assert!(3 <= ways.len(), "box, barrel and another rule: {ways:?}");
    for way in &ways {
        let verdict = fit(&followed(&draft, way)).verdict;
        assert_ne!(verdict, Fit::Refused, "{}", words::way_out(way));
    }
}

/// The same frame with a near telescope below the pupil, 2.6 mm of lens left under its opening.
fn low() -> Draft {
    let mut draft = case(NAME);
    draft.fit.placement = PlacementChoice::Low;
    draft.fit.from_lens_mm = "400".into();
    draft.person.right.pupil_height_mm = "20".into();
    draft.person.left.pupil_height_mm = "20".into();
    draft
}

/// The same frame with a thinner barrel, which it takes, and a segment that is wider than the lens leaves room for.
fn too_wide_a_segment() -> Draft {
    let mut draft = case(NAME);
    draft.fit.barrel_mm = "10".into();
    draft.fit.carrier = CarrierChoice::Bifocal;
    draft.fit.segment_height_mm = "12".into();
    draft.fit.segment_width_mm = "46".into();
    draft.fit.segment_inset_mm = "0".into();
    draft
}

#[test]
fn a_low_telescope_and_a_wide_segment_say_what_would_do() {
    for (draft, wanted) in [
        (low(), "take a frame that reaches 0.4 mm or more farther below the pupil"),
        (too_wide_a_segment(), "take a segment of 43.0 mm or less"),
    ] {
        let done = fit(&draft);
        assert_eq!(done.verdict, Fit::Refused, "{wanted}");
        let ways = ways(&done);
        let said: Vec<String> = ways.iter().map(words::way_out).collect();
        assert!(said.iter().any(|way| way == wanted), "{said:?}");
        for way in &ways {
            let verdict = fit(&followed(&draft, way)).verdict;
            assert_ne!(verdict, Fit::Refused, "{}", words::way_out(way));
        }
    }
}

#[test]
fn a_little_less_than_a_way_out_is_still_refused() {
    let mut shallower = case(NAME);
    shallower.fit.box_height_mm = "41.3".into();
    let mut thicker = case(NAME);
    thicker.fit.barrel_mm = "11.1".into();
    for draft in [shallower, thicker] {
        assert_eq!(fit(&draft).verdict, Fit::Refused, "{:?}", draft.fit);
    }
}

#[test]
fn the_report_names_the_same_sizes() {
    let report = report(&case(NAME));
    let checks = result(&report, "fit")["checks"].as_array().expect("the checks").clone();
    let web = checks.iter().find(|check| check["key"] == "web-all-round").expect("the web is checked");
    assert_eq!(web["severity"], "refuse");
    let sizes: Vec<Option<f64>> = web["ways_out"]
        .as_array()
        .into_iter()
        .flatten()
        .map(|way: &Value| way["size"]["value"].as_f64())
        .collect();
    assert!(sizes[0].is_some_and(|size| (size - 41.3264).abs() < 1e-3), "{sizes:?}");
    assert!(sizes[1].is_some_and(|size| (size - 11.0537).abs() < 1e-3), "{sizes:?}");
}
