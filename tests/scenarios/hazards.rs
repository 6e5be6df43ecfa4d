//! One test for each control of the table of hazards that no other test shows; the numbers are those of its rows.

use crate::random::any_draft;
use crate::reading::{case, names};
use crate::sheets::{of, words};
use arcminute_web::model::answer::{Answer, FieldState, FitAnswer};
use arcminute_web::model::draft::{Draft, EyeChoice, GoalKind, TiltFrom};
use arcminute_web::model::field::FieldId;
use arcminute_web::model::handed::fhir::{self, Made};
use arcminute_web::model::report::report;
use arcminute_web::model::sheets::SheetKind;
use arcminute_web::model::words::{CAUTIONS, INTENDED_USE, Where};
use arcminute_web::model::{format, list, shown};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// What becomes of a text in a box of an otherwise empty case.
fn became(field: FieldId, text: &str) -> FieldState {
    let mut draft = Draft::default();
    if matches!(field, FieldId::GoalPrint(_)) {
        draft.goals[0].kind = GoalKind::Print;
    }
    field.set_text(&mut draft, text.into());
    Answer::of(&draft).field(field)
}

#[track_caller]
fn is_said_back(field: FieldId, text: &str, echo: &str) {
    match became(field, text) {
        FieldState::Understood { echo: said, .. } => assert!(said.contains(echo), "{text:?}: {said:?}"),
        other => panic!("{text:?} became {other:?}"),
    }
}

#[track_caller]
fn is_asked(field: FieldId, text: &str, choices: usize) {
    match became(field, text) {
        FieldState::Ask { choices: told, .. } => assert_eq!(told.len(), choices, "{text:?}: {told:?}"),
        other => panic!("{text:?} became {other:?}"),
    }
}

#[track_caller]
fn is_refused(field: FieldId, text: &str) {
    let state = became(field, text);
    assert!(matches!(state, FieldState::Refused { .. }), "{text:?} became {state:?}");
}

#[test]
fn h01_a_unit_is_said_back_and_what_can_mean_two_things_is_asked() {
    let pd = FieldId::Pd(true);
    is_said_back(pd, "31.5", "31.5 mm");
    is_said_back(pd, "3.15 cm", "31.5 mm");
    // Centimetres typed as millimetres, and the other way round.
    is_refused(pd, "3.15");
    is_refused(FieldId::Vertex, "130");
    is_asked(FieldId::Acuity(true), "0.1", 2);
    is_said_back(FieldId::Acuity(true), "0.1 logMAR", "logMAR 0.10");
    is_refused(pd, "1,250");
}

/// The two eyes exchanged in all that was typed and chosen.
fn exchanged(draft: &Draft) -> Draft {
    let mut other = draft.clone();
    std::mem::swap(&mut other.person.right, &mut other.person.left);
    std::mem::swap(&mut other.order.carrier_right, &mut other.order.carrier_left);
    std::mem::swap(&mut other.order.delivered_right, &mut other.order.delivered_left);
    other.bench.eye = draft.bench.eye.other();
    other
}

/// The two eyes exchanged in the name of a result or of a value: `acuity-right`, `left_centre_x`.
fn exchanged_name(name: &str) -> String {
    for (from, to) in [("right", "left"), ("left", "right")] {
        if let Some(rest) = name.strip_prefix(from) {
            return format!("{to}{rest}");
        }
        if name.split('-').any(|part| part == from) {
            let parts: Vec<&str> = name.split('-').map(|part| if part == from { to } else { part }).collect();
            return parts.join("-");
        }
    }
    name.to_owned()
}

/// Every value of every result by their names, and every check of a fit.
fn values(draft: &Draft, name: fn(&str) -> String) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    for one in report(draft)["results"].as_array().expect("results") {
        let key = name(one["key"].as_str().expect("a key"));
        for (what, value) in one["values"].as_object().into_iter().flatten() {
            all.insert(format!("{key} {}", name(what)), value["value"].to_string());
        }
        for check in one["checks"].as_array().into_iter().flatten() {
            let eye = name(check["eye"].as_str().unwrap_or_default());
            let what = format!("{key} {} {eye} {}", check["key"], check["found"]["symbol"]);
            all.insert(what, format!("{} {}", check["severity"], check["found"]["value"]));
        }
    }
    all
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    #[test]
    fn h02_exchanging_the_eyes_exchanges_every_result(draft in any_draft()) {
        let here = values(&draft, str::to_owned);
        let there = values(&exchanged(&draft), exchanged_name);
        prop_assert_eq!(here, there);
    }
}

#[test]
fn h02_the_order_spells_the_eye_on_every_leaf() {
    for name in names() {
        for eye in [EyeChoice::Right, EyeChoice::Left] {
            let mut draft = case(&name);
            draft.bench.eye = eye;
            let order = of(SheetKind::Order, &draft);
            assert!(order.title.contains(eye.label()), "{name}: {:?}", order.title);
            assert!(!order.title.contains(eye.other().label()), "{name}: {:?}", order.title);
        }
    }
}

#[test]
fn h03_a_sign_is_asked_for_and_always_shown() {
    let box_of = FieldId::Refraction(true);
    is_asked(box_of, "2.00", 2);
    is_said_back(box_of, "+2", "+2.00");
    is_said_back(box_of, "-2", "-2.00");
    let mut draft = case("adult-20-160");
    draft.person.right.refraction = "+2".into();
    draft.order.carrier_right = String::new();
    let order = words(&of(SheetKind::Order, &draft));
    assert!(order.contains("+2.00") && !order.contains(" 2.00"), "{order}");
}

#[test]
fn h03_both_ways_to_write_a_cylinder_give_the_same_order() {
    let with = |refraction: &str| {
        let mut draft = case("adult-20-160");
        draft.person.right.refraction = refraction.into();
        let report = report(&draft);
        let number = |key: &str, value: &str| {
            let all = report["results"].as_array().expect("results");
            let one = all.iter().find(|one| one["key"] == key).expect("it is there");
            one["values"][value]["value"].as_f64().expect("a number")
        };
        let telescope = format!("telescope-{}", draft.bench.telescope);
        ["acuity_with", "chance", "cylinder_left", "focus_travel"].map(|value| number(&telescope, value))
    };
    let (minus, plus) = (with("+2.00 -1.50 x 90"), with("+0.50 +1.50 x 180"));
    for (minus, plus) in minus.into_iter().zip(plus) {
        assert!((minus.abs() - plus.abs()).abs() < 1e-9, "{minus} and {plus}");
    }
}

#[test]
fn h07_what_is_measured_in_low_vision_is_taken() {
    for text in ["1/60", "0.5/60", "10/350", "5/200", "6/9.5", "3/120", "20/2000", "2.6 logMAR", "3.0 logMAR"]
    {
        let state = became(FieldId::Acuity(true), text);
        assert!(matches!(state, FieldState::Understood { .. }), "{text:?} became {state:?}");
    }
    for (field, text) in [
        (FieldId::Refraction(true), "-24.00 -6.00 x 010"),
        (FieldId::Refraction(true), "+22.00 -1.00 x 090 add +10.00"),
        (FieldId::Pd(true), "21"),
        (FieldId::Pupil(true), "1"),
        (FieldId::GoalPrint(0), "20 M"),
        (FieldId::Accommodation(true), "16"),
        (FieldId::ContrastSensitivity(true), "0"),
    ] {
        let state = became(field, text);
        assert!(matches!(state, FieldState::Understood { .. }), "{text:?} became {state:?}");
    }
}

#[test]
fn h08_what_is_rounded_for_the_workshop_stands_beside_the_exact_value() {
    for name in names() {
        let answer = Answer::of(&case(&name));
        let FitAnswer::Done(done) = &answer.fit else { panic!("{name} has a fit") };
        let marks = shown::marks(&answer.fit);
        for (key, exact) in [("fit-x", done.mounting.eyepiece.x), ("fit-y", done.mounting.eyepiece.y)] {
            let mark = marks.iter().find(|mark| mark.key == key).expect("it is marked");
            assert!(mark.note.contains(&format!("exact {}", format::mm(exact))), "{name}: {mark:?}");
        }
    }
}

#[test]
fn h09_a_tilt_says_what_it_is_measured_from() {
    let told = |from: TiltFrom| {
        let mut draft = case("adult-20-160");
        (draft.fit.ordered_tilt_deg, draft.fit.tilt_from) = ("19".into(), from);
        let answer = Answer::of(&draft);
        let marks = shown::marks(&answer.fit);
        let miss = marks.iter().find(|mark| mark.key == "fit-miss").expect("it is told").value.clone();
        let ways = shown::checks(&answer.fit).into_iter().flat_map(|check| check.ways);
        let asked = ways.into_iter().any(|way| way == "say what the tilt is measured from");
        (miss, asked, words(&of(SheetKind::Order, &draft)))
    };
    for (from, line, asked) in [
        (TiltFrom::NotSaid, "not said from what", true),
        (TiltFrom::CarrierLens, "from the carrier lens", false),
        (TiltFrom::StraightAhead, "from the straight-ahead line of sight", false),
    ] {
        let (miss, is_asked, order) = told(from);
        assert!(miss.contains(line), "{from:?}: {miss}");
        assert_eq!(is_asked, asked, "{from:?}");
        assert!(order.contains(line), "{from:?} on the order:\n{order}");
    }
    let plain = words(&of(SheetKind::Order, &case("adult-20-160")));
    assert!(plain.contains("Tilt from the carrier lens"), "{plain}");
}

#[test]
fn h10_no_prediction_is_certain_and_every_sheet_asks_for_a_trial() {
    for chance in [0.0, 1e-9, 0.999, 1.0] {
        let told = format::chance(chance);
        assert!(!["0 %", "100 %"].contains(&told.as_str()), "{chance} is told as {told:?}");
    }
    for name in names() {
        // What the person takes home is of an aid that was tried; the foot of each leaf says it there too.
        for kind in SheetKind::ALL.into_iter().filter(|kind| *kind != SheetKind::Person) {
            let sheet = words(&of(kind, &case(&name)));
            let says = [INTENDED_USE, "trial", "see in the room whether they hold"];
            assert!(says.iter().any(|words| sheet.contains(words)), "{name}, {kind:?}:\n{sheet}");
        }
    }
}

#[test]
fn h11_every_aid_has_its_cautions_on_screen_and_paper() {
    let mut told = 0;
    for aid in &list::demo().list {
        let places = aid.cautions();
        if aid.traits().shines || ["nearer", "larger"].iter().any(|word| aid.id.contains(word)) {
            continue;
        }
        let burns = [Where::PlusLens, Where::Telescope];
        assert!(
            places.iter().any(|place| burns.contains(place)) || aid.id.contains("minus"),
            "{}: {places:?}",
            aid.id
        );
        let mut draft = case("adult-20-160");
        draft.bench.aid = aid.id.clone();
        let sheet = words(&of(SheetKind::Person, &draft)).to_lowercase();
        let on_screen: String = CAUTIONS
            .iter()
            .filter(|caution| places.contains(&caution.place))
            .map(|caution| format!("{} {}", caution.head, caution.text).to_lowercase())
            .collect();
        for risk in ["sun", "fire"] {
            if on_screen.contains(risk) {
                told += 1;
                assert!(sheet.contains(risk), "{}: no {risk} on\n{sheet}", aid.id);
            }
        }
    }
    assert!(60 < told, "only {told} cautions were looked for");
}

#[test]
fn h12_what_is_handed_over_names_its_build() {
    let draft = case("adult-20-160");
    let made = Made { at: "2026-11-29T10:15:00+01:00", build: "0123abc", ids: [7; 16] };
    let file = fhir::written(&draft, &Answer::of(&draft), &made);
    assert!(file.contains("0123abc"), "the build is in the document");
}

#[test]
fn h13_no_number_has_a_minus_that_is_not_read_aloud() {
    const TYPOGRAPHIC: [char; 3] = ['\u{2212}', '\u{2013}', '\u{2011}'];
    for name in names() {
        let draft = case(&name);
        let answer = Answer::of(&draft);
        let mut said = vec![report(&draft)["results"].to_string()];
        said.extend(SheetKind::ALL.map(|kind| words(&of(kind, &draft))));
        said.extend(shown::marks(&answer.fit).into_iter().flat_map(|mark| [mark.value, mark.note]));
        said.extend(shown::checks(&answer.fit).into_iter().map(|check| check.sentence));
        for text in said {
            let after = |at: usize, sign: char| text[at + sign.len_utf8()..].chars().next();
            let bad = text.char_indices().find(|(at, sign)| {
                TYPOGRAPHIC.contains(sign) && after(*at, *sign).is_some_and(|c| c.is_ascii_digit())
            });
            assert_eq!(bad, None, "{name}: {text}");
        }
    }
}

#[test]
fn h15_a_near_acuity_without_its_distance_is_asked_about() {
    let print = FieldId::GoalPrint(0);
    let state = became(print, "20/50");
    assert!(state.is_trouble(), "{state:?}");
    is_said_back(print, "20/50 at 40 cm", "1 M");
}
