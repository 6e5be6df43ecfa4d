//! Documents for other systems against two validators of others in other languages, and damaged ones against all three.

use crate::outside::{Random, asked, asked_outside};
use arcminute_core::math;
use arcminute_tests::fhir::faults;
use arcminute_web::model::answer::Answer;
use arcminute_web::model::draft::{CarrierChoice, Draft, EyeChoice, FellowChoice, PlacementChoice, TiltFrom};
use arcminute_web::model::field::{FieldId, Kind};
use arcminute_web::model::handed::fhir::{self, Made};
use arcminute_web::model::{case_file, devices};
use serde_json::{Value, json};
use std::process::Command;

/// Random cases.
const RANDOM_CASES: usize = 200;

/// The demonstration cases, by name.
fn demonstrations() -> Vec<(String, Draft)> {
    let folder = arcminute_tests::root().join("demo-scenarios");
    let mut cases: Vec<(String, Draft)> = std::fs::read_dir(folder)
        .expect("the cases are there")
        .filter_map(|entry| {
            let path = entry.ok()?.path();
            let name = path.file_name()?.to_str()?.strip_suffix(".json")?.to_owned();
            let is_case = !name.ends_with(".schema");
            is_case.then(|| (name, std::fs::read_to_string(&path).expect("the case can be read")))
        })
        .map(|(name, text)| (name, case_file::read(&text).expect("it is a case").case))
        .collect();
    cases.sort_by(|one, other| one.0.cmp(&other.0));
    cases
}

fn written(draft: &Draft, random: &mut Random) -> String {
    let ids = std::array::from_fn(|_| random.between(0.0, 256.0) as u8);
    let made = Made { at: "2026-11-29T10:15:00+01:00", build: "0.1.0", ids };
    fhir::written(draft, &Answer::of(draft), &made)
}

fn one_of<T: Clone>(random: &mut Random, among: &[T]) -> T {
    among[random.between(0.0, among.len() as f64) as usize].clone()
}

/// A number with up to two decimals, point or comma.
fn number(random: &mut Random, (low, high): (f64, f64)) -> String {
    let places = random.between(0.0, 3.0) as usize;
    let text = format!("{:.places$}", random.between(low, high));
    if random.between(0.0, 1.0) < 0.2 { text.replace('.', ",") } else { text }
}

fn quarters(random: &mut Random, least: f64, most: f64) -> f64 {
    math::round(random.between(least, most) * 4.0) / 4.0
}

/// What may stand in a box: something plausible, nothing, or what cannot be used.
fn typed(random: &mut Random, kind: Kind) -> String {
    let chance = random.between(0.0, 1.0);
    if chance < 0.1 {
        return String::new();
    }
    if chance < 0.2 {
        let junk = [
            "?!",
            "=1+1",
            "<b>&amp;",
            "\"'\\",
            "1,250",
            "½",
            " ",
            "\u{0}\u{1b}\u{ffff}",
            "語 𝛼",
            "-2.00 -1.50",
        ];
        return one_of(random, &junk).into();
    }
    match kind {
        Kind::Words => one_of(random, &["A-17", "<script>alert(1)</script>", "a & b", "語 𝛼", "x\ty"]).into(),
        Kind::Acuity => match random.between(0.0, 8.0) as u32 {
            0 | 1 => {
                let letters = one_of(random, &["", "-2", "+1", "-1"]);
                format!("20/{}{letters}", one_of(random, &["40", "160", "200", "400", "12.5"]))
            }
            2 => format!("6/{}", one_of(random, &["6", "9.5", "48", "60"])),
            3 => format!("{:.2} logMAR", random.between(-0.2, 1.8)),
            4 => format!("{} letters", random.between(0.0, 100.0) as u32),
            5 => one_of(random, &["decimal 0.1", "3/60", "5/200", "10/350", "decimal 0,32"]).into(),
            6 => one_of(random, &["CF 1 m", "CF", "HM", "HM 0.3 m", "LP", "NLP"]).into(),
            _ => format!("{:.2}", random.between(0.01, 1.5)),
        },
        Kind::Refraction => {
            let sphere =
                one_of(random, &[0.0, 0.0, 0.0, 0.125, 0.12, 0.13, 0.07]) + quarters(random, -15.0, 12.0);
            let cylinder = quarters(random, -4.0, 4.0);
            let axis = random.between(0.0, 181.0) as u32;
            let add = one_of(random, &["", " add +2.50", " add +0.75"]);
            match random.between(0.0, 4.0) as u32 {
                0 => format!("plano{add}"),
                1 => format!("{sphere:+.2}{add}"),
                2 => format!("{sphere:+.3} {cylinder:+.2} x {axis:03}{add}"),
                _ => format!("{sphere:+.2} {cylinder:+.2} x {axis:03}{add}"),
            }
        }
        Kind::Print => one_of(random, &["1.6 M", "N8", "12 pt Times", "0.4/1.6 M", "2 mm"]).into(),
        Kind::Length(bound) | Kind::Number(bound) => number(random, bound.usual),
    }
}

/// A demonstration case of which some boxes and choices are others.
fn random_case(random: &mut Random, cases: &[(String, Draft)]) -> Draft {
    let mut draft = one_of(random, cases).1;
    let share = random.between(0.02, 0.6);
    for field in FieldId::all(draft.goals.len()) {
        if random.between(0.0, 1.0) < share {
            let text = typed(random, field.info().kind);
            field.set_text(&mut draft, text);
        }
    }
    draft.bench.eye = one_of(random, EyeChoice::ALL);
    draft.fit.placement = one_of(random, PlacementChoice::ALL);
    draft.fit.carrier = one_of(random, CarrierChoice::ALL);
    draft.fit.tilt_from = one_of(random, TiltFrom::ALL);
    draft.fit.both_eyes = random.between(0.0, 1.0) < 0.3;
    draft.order.fellow = one_of(random, FellowChoice::ALL);
    draft.bench.goal = random.between(0.0, draft.goals.len() as f64) as usize;
    let stock = devices::demo_stock();
    let spectacles = stock.spectacles.iter().map(|one| one.id.clone());
    let worn: Vec<String> =
        spectacles.chain(stock.near_telescopes.iter().map(|device| device.id.clone())).collect();
    if random.between(0.0, 1.0) < 0.3 {
        draft.bench.aid = one_of(random, &worn);
    }
    draft.trial.aid = one_of(random, &["", "kep-4x12", "<x>"]).into();
    draft
}

/// What a validator of others says of each document.
fn said(answer: &Value, documents: &[String]) -> Vec<Vec<String>> {
    let lists = answer.as_array().expect("a list");
    assert_eq!(lists.len(), documents.len(), "one answer for each document");
    let words = |list: &Value| -> Vec<String> {
        list.as_array().expect("a list").iter().map(|one| one.as_str().expect("words").to_owned()).collect()
    };
    lists.iter().map(words).collect()
}

/// By a library of the resources, in Python.
fn by_classes(documents: &[String]) -> Vec<Vec<String>> {
    said(&asked_outside("fhir_check.py", &json!(documents)), documents)
}

/// By a validator with code lists, in JavaScript.
fn by_lists(documents: &[String]) -> Vec<Vec<String>> {
    let library = std::env::var_os("ARCMINUTE_FHIR")
        .expect("run `cargo xtask test`, which sets up the packages of npm");
    let mut node = Command::new("node");
    node.arg(format!("{}/reference/outside/fhir_check.mjs", env!("CARGO_MANIFEST_DIR"))).arg(library);
    said(&asked(&mut node, &json!(documents)), documents)
}

fn resources<'a>(document: &'a Value, kind: &str) -> Vec<&'a Value> {
    let entries = document["entry"].as_array().expect("entries");
    entries.iter().map(|entry| &entry["resource"]).filter(|one| one["resourceType"] == kind).collect()
}

/// Every fraction beside its logarithm, by the definition of the logarithm.
fn fractions_agree(name: &str, document: &Value) -> usize {
    let mut looked_at = 0;
    for observation in resources(document, "Observation") {
        let ratio = &observation["valueRatio"];
        let (Some(above), Some(below)) =
            (ratio["numerator"]["value"].as_f64(), ratio["denominator"]["value"].as_f64())
        else {
            continue;
        };
        let parts = observation["component"].as_array().expect("components");
        let log_mar = parts.iter().find_map(|part| part["valueQuantity"]["value"].as_f64());
        let letters = parts.iter().find_map(|part| part["valueInteger"].as_f64()).unwrap_or_default();
        let wanted = math::log10(below / above) - 0.02 * letters;
        let log_mar = log_mar.expect("a fraction has a logarithm");
        assert!((log_mar - wanted).abs() < 6e-4, "{name}: {above}/{below} is {wanted}, not {log_mar}");
        looked_at += 1;
    }
    looked_at
}

/// Source: the resource definitions of release 4, as two libraries of others have them.
#[test]
fn every_document_is_valid_by_all_three() {
    let cases = demonstrations();
    let mut random = Random(20_29);
    let mut named: Vec<(String, String)> =
        cases.iter().map(|(name, draft)| (name.clone(), written(draft, &mut random))).collect();
    for number in 0..RANDOM_CASES {
        let draft = random_case(&mut random, &cases);
        named.push((format!("random case {number}"), written(&draft, &mut random)));
    }
    let (names, documents): (Vec<String>, Vec<String>) = named.into_iter().unzip();
    let (classes, lists) = (by_classes(&documents), by_lists(&documents));
    let mut fractions = 0;
    let mut with = [("VisionPrescription", 0), ("DeviceRequest", 0), ("Practitioner", 0)];
    for (place, text) in documents.iter().enumerate() {
        let found = [&faults(text), &classes[place], &lists[place]];
        assert!(found.iter().all(|found| found.is_empty()), "{}: {found:?}\n{text}", names[place]);
        let document: Value = serde_json::from_str(text).expect("it is JSON");
        fractions += fractions_agree(&names[place], &document);
        for (kind, count) in &mut with {
            *count += resources(&document, kind).len();
        }
    }
    assert!(50 <= fractions, "only {fractions} fractions");
    assert_eq!(with[0].1, with[2].1, "whoever prescribes stands there with lenses, and only then");
    assert!(50 <= with[0].1 && 30 <= with[1].1, "too few cases have lenses or an order: {with:?}");
    assert!(with[1].1 < documents.len() * 3 / 4, "too few cases have none: {with:?}");
}

/// One way to damage a document. A place begins with the type of a resource, or with a stroke for the document itself.
enum Damage {
    Set(&'static str, Value),
    Remove(&'static str),
    /// The first of these texts becomes the second.
    Text(&'static str, &'static str),
    /// What no place can say.
    Other(fn(&mut Value)),
}
use Damage::{Other, Remove, Set, Text};

/// A place as a pointer.
fn pointer(document: &Value, place: &str) -> String {
    let (kind, rest) = place.split_once('/').expect("a place has a type");
    if kind.is_empty() {
        return place.into();
    }
    let entries = document["entry"].as_array().expect("entries");
    let entry = entries.iter().position(|entry| entry["resource"]["resourceType"] == kind);
    format!("/entry/{}/resource/{rest}", entry.expect("a resource of this type"))
}

fn damaged(good: &str, damage: &Damage) -> String {
    let mut document: Value = serde_json::from_str(good).expect("it is JSON");
    let mut object_of = |place: &str| {
        let pointer = pointer(&document, place);
        let (parent, name) = pointer.rsplit_once('/').expect("a place has a name");
        let object = document.pointer_mut(parent).and_then(Value::as_object_mut);
        let object = object.unwrap_or_else(|| panic!("`{parent}` is no object"));
        match damage {
            Set(_, value) => drop(object.insert(name.to_owned(), value.clone())),
            _ => drop(object.remove(name).unwrap_or_else(|| panic!("`{place}` was not there"))),
        }
    };
    match damage {
        Set(place, _) | Remove(place) => object_of(place),
        Other(change) => change(&mut document),
        Text(right, wrong) => {
            assert!(good.contains(right), "`{right}` does not stand in the document");
            return good.replacen(right, wrong, 1);
        }
    }
    document.to_string()
}

/// Ways to damage a document, each with a name.
///
/// Source: the damages that were tried on a library of the resources when this file was planned, and what the order and the
/// acuities of a low-vision case add to them.
#[expect(clippy::too_many_lines, reason = "it is a table")]
fn damages() -> Vec<(&'static str, Damage)> {
    vec![
        ("no product", Remove("VisionPrescription/lensSpecification/0/product")),
        ("no eye", Remove("VisionPrescription/lensSpecification/0/eye")),
        ("no prescriber", Remove("VisionPrescription/prescriber")),
        ("no date of making", Remove("VisionPrescription/created")),
        ("no status", Remove("VisionPrescription/status")),
        ("no intent", Remove("DeviceRequest/intent")),
        ("nothing asked for", Remove("DeviceRequest/codeCodeableConcept")),
        ("no code", Remove("Observation/code")),
        ("an unknown element", Set("VisionPrescription/colour", json!("blue"))),
        ("half a degree of axis", Set("VisionPrescription/lensSpecification/0/axis", json!(90.5))),
        ("a plus sign before a power", Text("\"sphere\": 2.00", "\"sphere\": \"+2.00\"")),
        ("a decimal comma", Text("\"sphere\": 2.00", "\"sphere\": \"2,00\"")),
        ("a date without a zone", Set("VisionPrescription/dateWritten", json!("2026-11-29T10:15:00"))),
        ("a date with strokes", Set("VisionPrescription/dateWritten", json!("04/03/2025"))),
        ("a day that there is not", Set("Composition/date", json!("2026-02-30T10:15:00Z"))),
        ("two values", Set("Observation/valueString", json!("20/160"))),
        ("blanks and strokes in an id", Set("Patient/id", json!("a b/c"))),
        ("a prism without a base", Remove("VisionPrescription/lensSpecification/0/prism/0/base")),
        ("a third eye", Set("VisionPrescription/lensSpecification/0/eye", json!("middle"))),
        (
            "a base that there is not",
            Set("VisionPrescription/lensSpecification/0/prism/0/base", json!("lateral")),
        ),
        ("an axis beyond 180", Set("VisionPrescription/lensSpecification/0/axis", json!(270))),
        ("an axis of nothing", Set("VisionPrescription/lensSpecification/0/axis", json!(0))),
        ("an axis as text", Set("VisionPrescription/lensSpecification/0/axis", json!("090"))),
        ("a final prescription", Set("VisionPrescription/status", json!("final"))),
        ("an active prescription", Set("VisionPrescription/status", json!("active"))),
        ("an active order", Set("DeviceRequest/status", json!("active"))),
        ("a power in odd steps", Text("\"sphere\": 2.00", "\"sphere\": 2.13")),
        ("a cylinder without its axis", Remove("VisionPrescription/lensSpecification/0/axis")),
        ("an axis without its cylinder", Remove("VisionPrescription/lensSpecification/0/cylinder")),
        ("a prism below nothing", Text("\"amount\": 8.00", "\"amount\": -8.00")),
        ("a wrong check digit", Text("65893-0", "65893-1")),
        ("the code of the other eye", Text("65893-0", "65897-1")),
        (
            "code and name of the other eye",
            Text(
                "\"65893-0\", \"display\": \"Visual acuity best corrected Right eye\"",
                "\"65897-1\", \"display\": \"Visual acuity best corrected Left eye\"",
            ),
        ),
        (
            "a code that is right elsewhere",
            Set(
                "Observation/code/coding",
                json!([{ "system": "http://loinc.org", "code": "98499-7",
                "display": "Visual acuity uncorrected Right eye" }]),
            ),
        ),
        ("a unit in words", Text("\"code\": \"mm\"", "\"code\": \"millimetre\"")),
        (
            "a reference to nothing",
            Set(
                "VisionPrescription/patient/reference",
                json!("urn:uuid:00000000-0000-4000-8000-000000000000"),
            ),
        ),
        (
            "a reference to the wrong thing",
            Other(|document| {
                let device = document["entry"][2]["fullUrl"].clone();
                document["entry"][0]["resource"]["subject"]["reference"] = device;
            }),
        ),
        (
            "the composition not first",
            Other(|document| document["entry"].as_array_mut().expect("entries").swap(0, 1)),
        ),
        (
            "no composition",
            Other(|document| drop(document["entry"].as_array_mut().expect("entries").remove(0))),
        ),
        ("no identifier", Remove("/identifier")),
        ("no time", Remove("/timestamp")),
        (
            "an address twice",
            Other(|document| document["entry"][2]["fullUrl"] = document["entry"][1]["fullUrl"].clone()),
        ),
        ("a type of bundle that there is not", Set("/type", json!("report"))),
        ("a bundle that is sent", Set("/type", json!("transaction"))),
        ("a script in the words", Text("<p>Case label", "<script>alert(1)</script><p>Case label")),
        ("a handler in the words", Text("<p>Case label", "<p onclick=\\\"x\\\">Case label")),
        ("a bare sign in the words", Text("<p>Case label", "<p>a < b & c; Case label")),
        ("a fraction without its upper half", Remove("Observation/valueRatio/numerator")),
        ("a fraction without its lower half", Remove("Observation/valueRatio/denominator")),
        ("feet over metres", Set("Observation/valueRatio/numerator/code", json!("m"))),
        ("a name", Set("Patient/name", json!([{ "text": "somebody" }]))),
        ("a date of birth", Set("Patient/birthDate", json!("1950-01-01"))),
        (
            "what was typed left out",
            Other(|document| {
                let entries = document["entry"].as_array_mut().expect("entries");
                let first = entries.iter_mut().find(|one| one["resource"]["resourceType"] == "Observation");
                let parts = first.expect("an observation")["resource"]["component"].as_array_mut();
                drop(parts.expect("parts").remove(0));
            }),
        ),
        ("not closed", Text("\"timestamp\"", "\"timestamp")),
    ]
}

/// A case with everything in it.
fn full_case() -> Draft {
    let (_, mut draft) =
        demonstrations().into_iter().find(|(name, _)| name == "adult-20-160").expect("a demonstration case");
    draft.label = "A-17".into();
    draft.person.right.acuity = "20/160-2".into();
    draft.person.right.refraction = "+2.00 -1.50 x 090".into();
    draft.person.left.refraction = "-0.50 -0.75 x 12".into();
    draft.person.right.contrast_log_cs = "1.05".into();
    draft.fit.base_in_pd = "8".into();
    draft
}

/// Source: the resource definitions of release 4 and UCUM, LOINC and RFC 4122, as the rules of our own checks cite them.
///
/// Everything that the two of others let pass is found by our own checks, and so is the rest.
#[test]
fn every_planted_damage_is_found() {
    let good = written(&full_case(), &mut Random(20_30));
    let table = damages();
    let mut documents = vec![good.clone()];
    documents.extend(table.iter().map(|(_, damage)| damaged(&good, damage)));
    let (classes, lists) = (by_classes(&documents), by_lists(&documents));
    for found in [&faults(&good), &classes[0], &lists[0]] {
        assert!(found.is_empty(), "the undamaged document: {found:?}");
    }
    let mut only_ours = Vec::new();
    for (place, (name, _)) in table.iter().enumerate() {
        let text = &documents[place + 1];
        assert_ne!(text, &good, "`{name}` changes nothing");
        assert!(!faults(text).is_empty(), "`{name}` is not found by our own checks");
        if classes[place + 1].is_empty() && lists[place + 1].is_empty() {
            only_ours.push(*name);
        }
        assert_eq!(table.iter().filter(|(other, _)| other == name).count(), 1, "`{name}` stands twice");
    }
    // The two of others are asked in earnest: they find some, and for some they are not enough.
    assert!(10 <= only_ours.len(), "only {only_ours:?} need our own checks");
    let found = |told: &[Vec<String>]| told.iter().filter(|found| !found.is_empty()).count();
    assert!(15 <= found(&classes) && 5 <= found(&lists), "{} and {}", found(&classes), found(&lists));
}

/// Fitting case 14. Source: what a library of the resources lets pass, as it was tried on release R4B of them.
#[test]
fn fitting_case_14_what_a_library_lets_pass_our_own_checks_find() {
    let good = written(&full_case(), &mut Random(20_31));
    let names = [
        "a third eye",
        "an axis beyond 180",
        "a base that there is not",
        "a cylinder without its axis",
        "a wrong check digit",
        "the composition not first",
    ];
    let table = damages();
    let documents = names.map(|name| {
        let (_, damage) = table.iter().find(|(other, _)| *other == name).expect("it is in the table");
        damaged(&good, damage)
    });
    let by_library = by_classes(&documents);
    for ((name, text), told) in names.iter().zip(&documents).zip(by_library) {
        assert!(told.is_empty(), "{name}: the library finds {told:?} now");
        assert!(!faults(text).is_empty(), "{name} is not found");
    }
}

/// Source: the JSON format of release 4, by which nothing may stand in a file beyond the elements of each type.
#[test]
fn nothing_can_be_put_in_anywhere() {
    let good = written(&full_case(), &mut Random(20_31));
    let document: Value = serde_json::from_str(&good).expect("it is JSON");
    let mut places = Vec::new();
    objects(&document, "", &mut places);
    assert!(150 < places.len(), "only {} places", places.len());
    for place in places {
        let mut more = document.clone();
        let object = more.pointer_mut(&place).and_then(Value::as_object_mut).expect("an object");
        drop(object.insert("more".into(), json!("x")));
        assert!(!faults(&more.to_string()).is_empty(), "an element more in `{place}` is not found");
    }
}

fn objects(value: &Value, place: &str, places: &mut Vec<String>) {
    match value {
        Value::Object(object) => {
            places.push(place.into());
            object.iter().for_each(|(name, value)| objects(value, &format!("{place}/{name}"), places));
        }
        Value::Array(values) => {
            values
                .iter()
                .enumerate()
                .for_each(|(index, value)| objects(value, &format!("{place}/{index}"), places));
        }
        _ => {}
    }
}
