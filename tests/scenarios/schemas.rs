//! The schemas that are kept are those of the structs, and every demonstration file keeps its schema.

use crate::reading::{case, names};
use arcminute_tests::{root, schema};
use arcminute_web::model::case_file;
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
    for kept in schema::ALL {
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
    let list = read_to_string(root().join("demo-scenarios/telescopes.json")).expect("the list");
    keeps("telescopes", &list, "telescopes");
}

#[test]
fn what_the_reader_refuses_breaks_the_schema() {
    let good = case_file::write("", &case("adult-20-160"));
    for (from, to) in [
        ("arcminute-case", "another-format"),
        ("\"version\": 1", "\"version\": 2"),
        ("\"label\"", "\"lable\""),
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
