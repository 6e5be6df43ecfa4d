//! The schemas that are kept are those of the structs, and every demonstration file keeps its schema.

use crate::reading::{case, names};
use arcminute_tests::{root, schema};
use arcminute_web::model::{case_file, list};
use serde_json::Value;
use std::fs::read_to_string;

fn schema_of(name: &str) -> Value {
    let kept = schema::ALL.iter().find(|one| one.name == name).expect("there is such a schema");
    serde_json::from_str(&(kept.text)()).expect("a schema is JSON")
}

#[track_caller]
fn keeps(schema: &str, text: &str, what: &str) {
    let value = serde_json::from_str(text).expect("JSON");
    let broken = schema::broken(&schema_of(schema), &value).expect("the schema has known words only");
    assert!(broken.is_empty(), "{what}: {broken:?}");
}

#[test]
fn the_schemas_in_the_tree_are_up_to_date() {
    for kept in schema::ALL.iter().chain(schema::DOCUMENTS) {
        let text = read_to_string(root().join(kept.path)).unwrap_or_default();
        let advice = "run `cargo run --package arcminute-tests --bin schema -- --write`";
        assert!(text == (kept.text)(), "{} is not what the structs say; {advice}", kept.path);
    }
}

#[test]
fn every_demonstration_file_keeps_its_schema() {
    for name in names() {
        let text = read_to_string(root().join(format!("demo-scenarios/{name}.json"))).expect("the case");
        keeps("case", &text, &name);
        keeps("case", &case_file::write("as the page writes it", &case(&name)), &name);
    }
    let aids = &list::demo().list;
    keeps("aids", &list::write_json("as the page writes it", aids), "aids");
    let template = list::read(list::template_csv().as_bytes());
    keeps("aids", &list::write_json("", &template.list), "template");
}

/// What breaks the schema of a list of aids is refused by the reader, and the other way round.
#[test]
fn the_schema_of_aids_and_the_reader_agree() {
    let good = r#"{ "version": 1, "about": "", "aids": [{ "id": "a", "name": "A", "family": "stand magnifier",
        "power_d": 20, "clear_diameter_mm": 50, "stand_height_mm": 45, "hands_free": 1, "worn": false,
        "walking": "no", "note": "" }] }"#;
    keeps("aids", good, "as it stands");
    assert_eq!(list::read(good.as_bytes()).troubles, []);
    for (from, to) in [
        ("\"version\": 1", "\"version\": 2"),
        ("\"version\": 1, ", ""),
        ("\"aids\"", "\"lids\""),
        ("\"id\": \"a\", ", ""),
        ("\"id\": \"a\"", "\"id\": 1"),
        ("stand magnifier", "stand"),
        ("stand magnifier", "bar"),
        ("\"power_d\": 20", "\"power_d\": 200"),
        ("\"power_d\": 20", "\"power_d\": \"20\""),
        ("\"power_d\": 20, ", ""),
        ("\"clear_diameter_mm\": 50, ", ""),
        ("\"clear_diameter_mm\"", "\"clear_diameter_cm\""),
        ("\"note\": \"\"", "\"enlargement_times\": 3"),
        ("\"note\": \"\"", "\"barrel_mm\": 10"),
        ("\"hands_free\": 1", "\"hands_free\": 3"),
        ("\"worn\": false", "\"worn\": \"no\""),
        ("\"walking\": \"no\"", "\"walking\": \"yes\""),
    ] {
        let text = good.replace(from, to);
        assert_ne!(text, good, "{from} is in it");
        let value = serde_json::from_str(&text).expect("JSON still");
        let broken = schema::broken(&schema_of("aids"), &value).expect("known words only");
        assert!(!broken.is_empty(), "{to} in place of {from} keeps the schema");
        assert_ne!(list::read(text.as_bytes()).troubles, [], "{to} in place of {from} is read");
    }
}

#[test]
fn what_the_reader_refuses_breaks_the_schema() {
    let good = case_file::write("", &case("adult-20-160"));
    for (from, to) in [
        ("arcminute-case", "another-format"),
        ("\"version\": 3", "\"version\": 4"),
        ("\"label\"", "\"lable\""),
        ("\"kind\": \"print\"", "\"kind\": \"prints\""),
        ("\"detail_mm\"", "\"detail_cm\""),
        ("\"by_focusing\"", "\"by_magic\""),
        ("\"large_nose_pads\": true", "\"large_nose_pads\": 1"),
    ] {
        let text = good.replace(from, to);
        assert_ne!(text, good, "{from} is in a case");
        let value = serde_json::from_str(&text).expect("JSON still");
        let broken = schema::broken(&schema_of("case"), &value).expect("known words only");
        assert!(!broken.is_empty(), "{to} keeps the schema");
        assert!(case_file::read(&text).is_err(), "{to} is read");
    }
}

/// Every property is described, so that the schema can be read alone.
#[test]
fn everything_in_a_schema_is_described() {
    fn undescribed(schema: &Value, at: &str, found: &mut Vec<String>) {
        for (name, inner) in schema["properties"].as_object().into_iter().flatten() {
            if inner.get("description").is_none() {
                found.push(format!("{at}/{name}"));
            }
        }
        for (name, inner) in schema["$defs"].as_object().into_iter().flatten() {
            undescribed(inner, &format!("{at}/{name}"), found);
        }
    }
    for kept in schema::ALL {
        let mut found = Vec::new();
        undescribed(&schema_of(kept.name), kept.name, &mut found);
        assert!(found.is_empty(), "no description: {found:?}");
    }
}
