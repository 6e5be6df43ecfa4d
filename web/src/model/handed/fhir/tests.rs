//! What the document says, in single cases.

use super::*;
use crate::model::draft::{CarrierChoice, TiltFrom};
use crate::model::{demo, devices};
use arcminute_core::fit::Severity;
use serde_json::{Value, json};

const MADE: Made<'_> = Made { at: "2026-11-29T10:15:00+01:00", build: "0.1.0", ids: *b"sixteen of these" };

fn of(change: impl FnOnce(&mut Draft)) -> (String, Value) {
    let mut draft = Draft::default();
    change(&mut draft);
    let text = written(&draft, &Answer::of(&draft), &MADE);
    let value = serde_json::from_str(&text).expect("it is JSON");
    (text, value)
}

/// All resources of a type.
fn all<'a>(document: &'a Value, kind: &str) -> Vec<&'a Value> {
    let entries = document["entry"].as_array().expect("entries");
    entries.iter().map(|entry| &entry["resource"]).filter(|one| one["resourceType"] == kind).collect()
}

/// The words of the section with this title.
fn told(document: &Value, title: &str) -> String {
    let sections = document["entry"][0]["resource"]["section"].as_array().expect("sections");
    let found = sections.iter().find(|section| section["title"] == title).expect("a section of this title");
    found["text"]["div"].as_str().expect("words").into()
}

#[test]
fn an_empty_case_is_a_document_that_says_what_is_missing() {
    let (_, document) = of(|_| {});
    let kinds: Vec<&Value> = document["entry"]
        .as_array()
        .expect("entries")
        .iter()
        .map(|one| &one["resource"]["resourceType"])
        .collect();
    assert_eq!(kinds, ["Composition", "Patient", "Device"]);
    assert_eq!(
        all(&document, "Patient")[0]["identifier"],
        json!([{ "extension": [{
            "url": "http://hl7.org/fhir/StructureDefinition/data-absent-reason", "valueCode": "not-asked"
        }] }])
    );
    let measured = told(&document, "Measured");
    assert!(measured.contains("<p>Best corrected distance acuity, RIGHT eye: not entered</p>"), "{measured}");
    assert!(told(&document, "Lenses").contains("<p>Lens before the LEFT eye: not entered</p>"));
    let order = told(&document, device::TITLE);
    assert!(
        order.contains("<p>The fit is not decided, so nothing is ordered. Fill in or mend: Box width A; "),
        "{order}"
    );
    assert!(told(&document, "Cautions").contains("<p>Trial first: "), "a record is read for a trial");
    assert!(!told(&document, "Cautions").contains("Driving"), "no telescope is asked for");
}

#[test]
fn acuities_stand_in_their_own_notation() {
    let value = |typed: &str| {
        let (_, document) = of(|draft| draft.person.right.acuity = typed.into());
        let found = all(&document, "Observation");
        assert_eq!(found.len(), 1, "{typed}");
        let object = found[0].as_object().expect("an object");
        let (name, value) = object.iter().find(|(name, _)| name.starts_with("value")).expect("a value");
        (name.clone(), value.clone(), found[0]["component"].clone())
    };
    let distance = |value: u32, unit: &str, code: &str| json!({ "value": value, "unit": unit, "system": "http://unitsofmeasure.org", "code": code });
    let log = |value: f64| json!({ "value": value, "unit": "logMAR", "system": "http://unitsofmeasure.org", "code": "{logMAR}" });
    let (name, ratio, parts) = value("20/160-2");
    assert_eq!(name, "valueRatio");
    assert_eq!(
        ratio,
        json!({ "numerator": distance(20, "ft", "[ft_i]"), "denominator": distance(160, "ft", "[ft_i]") })
    );
    assert_eq!(
        parts,
        json!([
            { "code": { "text": "Exactly as typed" }, "valueString": "20/160-2" },
            { "code": { "text": "Derived logMAR, letters counted at 0.02 each" }, "valueQuantity": log(0.943) },
            { "code": { "text": "Letters read beyond the line, or missed on it" }, "valueInteger": -2 },
        ])
    );
    let (_, ratio, _) = value(" 6/60 ");
    assert_eq!(ratio, json!({ "numerator": distance(6, "m", "m"), "denominator": distance(60, "m", "m") }));
    for (typed, logarithm) in [("0.90 logMAR", 0.9), ("decimal 0.1", 1.0), ("35 letters", 1.0)] {
        let (name, found, _) = value(typed);
        assert_eq!((name.as_str(), found), ("valueQuantity", log(logarithm)), "{typed}");
    }
    for (typed, words) in [
        ("CF 1 m", "counts fingers (CF 1 m)"),
        ("HM", "sees a hand move (HM)"),
        ("LP", "sees light (LP)"),
        ("NLP", "sees no light (NLP)"),
    ] {
        let (name, found, parts) = value(typed);
        assert_eq!((name.as_str(), found), ("valueCodeableConcept", json!({ "text": words })), "{typed}");
        assert_eq!(parts.as_array().map(Vec::len), Some(1), "a category has no logMAR");
    }
}

#[test]
fn each_eye_has_its_own_code() {
    let (_, document) = of(|draft| {
        draft.person.right.acuity = "6/60".into();
        draft.person.left.acuity = "6/36".into();
    });
    let told: Vec<[&Value; 4]> = all(&document, "Observation")
        .into_iter()
        .map(|one| {
            let coding = &one["code"]["coding"][0];
            [
                &coding["code"],
                &coding["display"],
                &one["bodySite"]["text"],
                &one["component"][0]["valueString"],
            ]
        })
        .collect();
    assert_eq!(
        told,
        [
            ["65893-0", "Visual acuity best corrected Right eye", "RIGHT eye", "6/60"],
            ["65897-1", "Visual acuity best corrected Left eye", "LEFT eye", "6/36"],
        ]
    );
}

#[test]
fn what_cannot_be_used_and_what_is_assumed_is_no_observation() {
    let (_, document) = of(|draft| {
        draft.person.right.acuity = "0.1".into();
        draft.person.right.pupil_mm = "4 apples".into();
        draft.person.left.pd_mm = "31,5".into();
    });
    let found = all(&document, "Observation");
    assert_eq!(found.len(), 1, "the pupil and the vertex distance would be assumed");
    assert_eq!(found[0]["valueQuantity"]["value"], 31.5);
    assert_eq!(found[0]["component"][0]["valueString"], "31,5");
    assert!(found[0]["code"].get("coding").is_none(), "no code is for a PD by rule");
    let measured = told(&document, "Measured");
    assert!(measured.contains("acuity, RIGHT eye: cannot be used as it was typed</p>"), "{measured}");
}

#[test]
fn lenses_keep_their_zeros_and_what_belongs_together() {
    let (text, document) = of(|draft| {
        draft.person.right.refraction = "+2.00 -1.50 x 90".into();
        draft.person.left.refraction = "plano".into();
        draft.fit.base_in_pd = "8".into();
    });
    for digits in [
        "\"sphere\": 2.00,",
        "\"cylinder\": -1.50,",
        "\"axis\": 90,",
        "\"sphere\": 0.00,",
        "\"amount\": 8.00,",
    ] {
        assert!(text.contains(digits), "{digits}");
    }
    let [prescription] = all(&document, "VisionPrescription")[..] else { panic!("one prescription") };
    assert_eq!(prescription["status"], "draft");
    let lenses = prescription["lensSpecification"].as_array().expect("lenses");
    assert_eq!([&lenses[0]["eye"], &lenses[1]["eye"]], ["right", "left"]);
    assert_eq!(lenses[0]["prism"], json!([{ "amount": 8.0, "base": "in" }]));
    assert!(lenses[1].get("axis").is_none() && lenses[1].get("cylinder").is_none());
    assert_eq!(all(&document, "Practitioner").len(), 1, "a prescription names who prescribes, if nobody yet");
}

#[test]
fn an_add_goes_only_into_a_lens_that_has_a_place_for_it() {
    let lens = |carrier: CarrierChoice, own: &str| {
        let (_, document) = of(|draft| {
            draft.person.right.refraction = "-2.00 add +2.50".into();
            draft.order.carrier_right = own.into();
            draft.fit.carrier = carrier;
        });
        let lens = all(&document, "VisionPrescription")[0]["lensSpecification"][0].clone();
        (lens["add"].clone(), lens["note"][0]["text"].clone(), told(&document, "Lenses"))
    };
    let (add, note, words) = lens(CarrierChoice::SingleVision, "");
    assert_eq!(add, Value::Null);
    let sentence = "An add was typed with the refraction. It is left out here: the carrier lens is single vision and has no place for it.";
    assert_eq!(note, sentence);
    assert!(words.contains(&format!("<p>Lens before the RIGHT eye: -2.00. {sentence}</p>")), "{words}");
    let (add, note, words) = lens(CarrierChoice::Bifocal, "");
    assert_eq!((add, note), (json!(2.5), Value::Null));
    assert!(words.contains("<p>Lens before the RIGHT eye: -2.00 add +2.50.</p>"), "{words}");
    assert_eq!(
        lens(CarrierChoice::SingleVision, "-1.00 add +3.00").0,
        json!(3.0),
        "typed for the carrier itself"
    );
    let (_, document) = of(|draft| {
        draft.person.right.refraction = "-2.00".into();
        draft.order.carrier_right = "-2.00 -1.00".into();
    });
    assert!(all(&document, "VisionPrescription").is_empty(), "what cannot be used is not replaced");
    assert!(told(&document, "Lenses").contains("RIGHT eye: cannot be used as it was typed</p>"));
}

#[test]
fn a_power_that_no_lens_is_made_in_says_so() {
    for (typed, odd) in
        [("-2.00", false), ("+0.12", false), ("+0.125", false), ("-2.13", true), ("+5.10", true)]
    {
        let (text, document) = of(|draft| draft.person.left.refraction = typed.into());
        let lens = &all(&document, "VisionPrescription")[0]["lensSpecification"][0];
        let note = "A power is not in steps of 0.25 or 0.125 D; it stands as it was typed.";
        assert_eq!(lens["note"][0]["text"] == note, odd, "{typed}");
        assert!(text.contains(&format!("\"sphere\": {}", typed.trim_start_matches('+'))), "{typed}: {text}");
    }
}

fn demonstration(id: &str) -> Draft {
    demo::CASES.iter().find(|case| case.id == id).expect("a demonstration case").case()
}

/// Each number of the order: what, digits as they stand in the file, code of the unit.
fn ordered(document: &Value) -> Vec<String> {
    let request = all(document, "DeviceRequest")[0];
    assert_eq!([&request["status"], &request["intent"]], ["draft", "order"]);
    let parameters = request["parameter"].as_array().expect("parameters");
    let numbers = parameters.iter().filter(|one| one["valueQuantity"].is_object());
    numbers
        .map(|one| {
            let quantity = &one["valueQuantity"];
            let what = one["code"]["text"].as_str().unwrap_or_default();
            format!("{what}: {} {}", quantity["value"], quantity["code"].as_str().unwrap_or_default())
        })
        .collect()
}

/// The numbers of the worked case: rule of half millimetres, tilt to a tenth.
#[test]
fn an_order_says_where_a_telescope_sits_and_from_what_its_tilt_is_measured() {
    let case = |tilt: &str| {
        of(|draft| {
            *draft = demonstration("adult-20-160");
            draft.fit.ordered_tilt_deg = tilt.into();
            draft.fit.tilt_from = TiltFrom::CarrierLens;
            draft.person.vertex_mm = String::new();
        })
        .1
    };
    let document = case("");
    assert_eq!(
        ordered(&document),
        [
            "RIGHT eye, X: middle of the bridge to the eyepiece centre, outward: 31.5 mm",
            "RIGHT eye, Y: eyepiece centre above the lowest point of the lens: 32.5 mm",
            "RIGHT eye, tilt, upward, from the normal of the carrier lens: 19.2 deg",
            "Vertex distance, back of the lens to the cornea, assumed: 13 mm",
            "Pantoscopic angle, bottom in positive: 0 deg",
            "Barrel diameter where it passes the lens: 14 mm",
            "Magnification: 4 1",
        ]
    );
    assert_eq!(
        all(&document, "DeviceRequest")[0]["codeCodeableConcept"]["text"],
        "4x13, Keplerian, focusing, bright"
    );
    for head in ["Sun", "Fire", "Walking", "Driving", "Trial first", "Licensed work", "Lens shape"] {
        assert!(told(&document, "Cautions").contains(&format!("<p>{head}: ")), "{head}");
    }
    let by_hand = ordered(&case("19"));
    let wanted = "Tilt ordered by hand, measured: From the carrier lens, at right angles to it: 19 deg";
    assert!(by_hand.iter().any(|line| line == wanted), "{by_hand:?}");
}

#[test]
fn a_fit_that_is_refused_orders_nothing_and_says_why() {
    let (_, document) = of(|draft| *draft = demonstration("frame-too-shallow"));
    assert!(all(&document, "DeviceRequest").is_empty());
    let told = told(&document, device::TITLE);
    assert!(told.contains("<p>The fit is refused, so nothing is ordered. "), "{told}");
    let reasons = device::said(&Answer::of(&demonstration("frame-too-shallow")), Severity::Refuse);
    assert!(!reasons.is_empty() && reasons.iter().all(|reason| told.contains(&parts::escaped(reason))));
}

#[test]
fn spectacles_for_near_are_ordered_by_their_centres_and_carry_their_own_cautions() {
    let spectacles = &devices::demo_stock().spectacles;
    let (_, document) = of(|draft| {
        *draft = demonstration("adult-20-160");
        let with_both = spectacles.iter().find(|one| one.both_eyes).expect("a pair in the list");
        draft.bench.aid = with_both.id.clone();
        draft.fit.base_in_pd = "6".into();
        draft.person.right.pupil_height_mm = "21".into();
        draft.person.left.pupil_height_mm = "21".into();
    });
    let numbers = ordered(&document);
    for eye in ["RIGHT eye", "LEFT eye"] {
        for what in ["X: middle of the bridge to the optical centre", "Y: optical centre above"] {
            let line = format!("{eye}, {what}");
            assert!(numbers.iter().any(|number| number.starts_with(&line)), "{line}: {numbers:?}");
        }
        let prism = format!("{eye}, prism worked on the lens, base in: 6.0 [p'diop]");
        assert!(numbers.contains(&prism), "{numbers:?}");
    }
    let cautions = told(&document, "Cautions");
    assert!(
        cautions.contains("<p>Sun and fire: ") && cautions.contains("<p>Working distance: "),
        "{cautions}"
    );
    assert!(!cautions.contains("<p>Sun: "), "that of a telescope");
}

#[test]
fn what_was_reached_at_a_trial_names_the_aid() {
    let (_, document) = of(|draft| {
        draft.trial.aid = "kep-4x12".into();
        draft.trial.acuity = "20/40".into();
        draft.trial.print = "1 M".into();
        draft.trial.beside_deg = "4".into();
    });
    let [reached] = all(&document, "Observation")[..] else { panic!("the print is not of this goal") };
    assert_eq!(reached["valueQuantity"]["value"], 0.301);
    let parts = reached["component"].as_array().expect("parts");
    assert_eq!(parts[0]["valueString"], "20/40");
    assert_eq!(parts[1]["valueString"], "key kep-4x12 of the list of aids");
    assert_eq!(parts[2]["valueQuantity"]["value"], 4);
    assert!(
        told(&document, "Measured")
            .contains("with the aid: 20/40; the aid: key kep-4x12 of the list of aids</p>")
    );
}

#[test]
fn nothing_typed_becomes_markup() {
    let (_, document) = of(|draft| {
        draft.label = "</div><script>alert(1)</script>&\u{0}".into();
        draft.person.right.acuity = "20/160".into();
    });
    let about = told(&document, "About this document");
    let wanted = "<p>Case label: &lt;/div&gt;&lt;script&gt;alert(1)&lt;/script&gt;&amp;\u{fffd}.</p>";
    assert!(about.contains(wanted), "{about}");
    let label = &all(&document, "Patient")[0]["identifier"][0]["value"];
    assert_eq!(label, "</div><script>alert(1)</script>&\u{fffd}", "in an element of words it is words");
}

#[test]
fn free_notes_and_names_go_into_no_file() {
    let (text, _) = of(|draft| {
        for notes in [
            &mut draft.person.notes,
            &mut draft.order.notes,
            &mut draft.order.person_notes,
            &mut draft.order.school_notes,
            &mut draft.trial.notes,
        ] {
            *notes = "Zebedee".into();
        }
    });
    assert!(!text.contains("Zebedee"));
}

#[test]
fn identifiers_follow_from_the_random_bytes() {
    let ids = |ids: [u8; 16]| {
        let draft = Draft::default();
        let text = written(&draft, &Answer::of(&draft), &Made { ids, ..MADE });
        let value: Value = serde_json::from_str(&text).expect("it is JSON");
        let entries = value["entry"].as_array().expect("entries").clone();
        entries.iter().map(|one| one["fullUrl"].as_str().expect("an address").to_owned()).collect::<Vec<_>>()
    };
    let (one, other) = (ids([1; 16]), ids([2; 16]));
    assert_eq!(one, ids([1; 16]), "the same bytes give the same file");
    assert!(one.iter().all(|id| !other.contains(id)), "other bytes give others");
    assert!(one.iter().enumerate().all(|(place, id)| !one[..place].contains(id)), "no two are the same");
    for id in one {
        let shape: String = id.chars().map(|sign| if sign == '-' { '-' } else { 'x' }).collect();
        assert_eq!(shape, "xxxxxxxxxxxxxxxxx-xxxx-xxxx-xxxx-xxxxxxxxxxxx");
        assert!(id.as_bytes()[23] == b'4' && b"89ab".contains(&id.as_bytes()[28]), "version 4: {id}");
    }
}
