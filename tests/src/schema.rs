//! The JSON Schemas of the files that the page reads, and a check of files against them.

mod aids;

use arcminute_web::model::case_file::CaseFile;
use serde_json::Value;

/// A schema that is kept in the tree.
#[derive(Clone, Copy, Debug)]
pub struct Kept {
    /// What it is called.
    pub name: &'static str,
    /// Where it is kept.
    pub path: &'static str,
    /// Its text, made anew from the structs.
    pub text: fn() -> String,
}

/// All of them.
pub const ALL: &[Kept] = &[
    Kept {
        name: "case",
        path: "demo-scenarios/case.schema.json",
        text: || pretty(schemars::schema_for!(CaseFile)),
    },
    Kept { name: "aids", path: "demo-scenarios/aids.schema.json", text: || pretty(aids::schema()) },
];

/// Documents that are made from the same tables.
pub const DOCUMENTS: &[Kept] =
    &[Kept { name: "aids.md", path: "demo-scenarios/aids.md", text: aids::document }];

fn pretty(schema: schemars::Schema) -> String {
    let text = serde_json::to_string_pretty(&schema).expect("a schema is JSON");
    format!("{text}\n")
}

/// What a value breaks of a schema, each with its place; empty when it keeps it.
///
/// It knows the words that our schemas use and refuses any other, so that nothing is passed unread.
///
/// # Errors
/// The word of the schema that is not known here.
pub fn broken(schema: &Value, value: &Value) -> Result<Vec<String>, String> {
    let mut found = Vec::new();
    Checker { root: schema, found: &mut found }.check(schema, value, "")?;
    Ok(found)
}

struct Checker<'a> {
    root: &'a Value,
    found: &'a mut Vec<String>,
}

impl Checker<'_> {
    fn say(&mut self, bad: bool, at: &str, what: &str) {
        if bad {
            self.found.push(format!("{at}: {what}"));
        }
    }

    fn check(&mut self, schema: &Value, value: &Value, at: &str) -> Result<(), String> {
        let words = schema.as_object().ok_or_else(|| format!("{at}: the schema is no object"))?;
        for (word, said) in words {
            match word.as_str() {
                "$schema"
                | "$defs"
                | "title"
                | "description"
                | "default"
                | "format"
                | "additionalProperties" => {}
                "$ref" => {
                    let pointer = said.as_str().and_then(|text| text.strip_prefix('#')).unwrap_or("?");
                    let target =
                        self.root.pointer(pointer).ok_or_else(|| format!("{at}: {said} leads nowhere"))?;
                    self.check(target, value, at)?;
                }
                "type" => {
                    let is_one = said.as_str().map(|name| is(value, name));
                    let is_any =
                        said.as_array().map(|all| all.iter().any(|n| is(value, n.as_str().unwrap_or("?"))));
                    self.say(!is_one.or(is_any).unwrap_or(false), at, &format!("is not {said}"));
                }
                "const" => self.say(value != said, at, &format!("is not {said}")),
                "enum" => {
                    let listed = said.as_array().is_some_and(|all| all.contains(value));
                    self.say(!listed, at, &format!("is none of {said}"));
                }
                "minimum" | "exclusiveMinimum" => {
                    let (least, number) = (said.as_f64().unwrap_or(f64::NAN), value.as_f64());
                    let good = |n: f64| least < n || (word == "minimum" && least <= n);
                    self.say(!number.is_none_or(good), at, &format!("is not above {least}"));
                }
                "maximum" => {
                    let (most, number) = (said.as_f64().unwrap_or(f64::NAN), value.as_f64());
                    self.say(!number.is_none_or(|n| n <= most), at, &format!("is above {most}"));
                }
                "minItems" | "maxItems" => {
                    let limit = said.as_u64().unwrap_or_default();
                    let items = value.as_array().map(|all| all.len() as u64);
                    let good = |n: u64| if word == "minItems" { limit <= n } else { n <= limit };
                    self.say(!items.is_none_or(good), at, &format!("breaks {word} {limit}"));
                }
                "oneOf" => {
                    let mut kept = 0;
                    for one in said.as_array().into_iter().flatten() {
                        kept += usize::from(self.quiet(one, value, at)?);
                    }
                    self.say(kept != 1, at, &format!("keeps {kept} of the alternatives, not one"));
                }
                "required" => {
                    for name in said.as_array().into_iter().flatten().filter_map(Value::as_str) {
                        let missing = value.as_object().is_some_and(|object| !object.contains_key(name));
                        self.say(missing, at, &format!("`{name}` is missing"));
                    }
                }
                "items" => {
                    for (index, item) in value.as_array().into_iter().flatten().enumerate() {
                        self.check(said, item, &format!("{at}/{index}"))?;
                    }
                }
                "properties" => {
                    let closed = words.get("additionalProperties") == Some(&Value::Bool(false));
                    for (name, inner) in value.as_object().into_iter().flatten() {
                        match said.get(name) {
                            Some(schema) => self.check(schema, inner, &format!("{at}/{name}"))?,
                            None => self.say(closed, at, &format!("`{name}` is not known")),
                        }
                    }
                }
                other => return Err(format!("{at}: the schema says `{other}`, which is not read here")),
            }
        }
        Ok(())
    }

    /// Whether a value keeps one alternative.
    fn quiet(&self, schema: &Value, value: &Value, at: &str) -> Result<bool, String> {
        let mut found = Vec::new();
        Checker { root: self.root, found: &mut found }.check(schema, value, at)?;
        Ok(found.is_empty())
    }
}

fn is(value: &Value, name: &str) -> bool {
    match name {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        "number" => value.is_number(),
        "integer" => value.is_u64() || value.is_i64(),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn what_breaks_a_schema_is_said_with_its_place() {
        let schema = json!({
            "$defs": { "Eye": { "oneOf": [{ "const": "right" }, { "const": "left" }] } },
            "type": "object",
            "required": ["eye"],
            "additionalProperties": false,
            "properties": {
                "eye": { "$ref": "#/$defs/Eye" },
                "goals": { "type": "array", "minItems": 1, "maxItems": 2, "items": { "type": ["integer", "null"], "minimum": 0 } },
                "power": { "type": "number", "exclusiveMinimum": 0, "maximum": 20 },
            },
        });
        let broken = |value: Value| broken(&schema, &value).expect("every word is known");
        assert_eq!(broken(json!({ "eye": "left", "goals": [0, null], "power": 4.5 })), [""; 0]);
        assert_eq!(broken(json!({ "goals": [] })), ["/goals: breaks minItems 1", ": `eye` is missing"]);
        assert_eq!(
            broken(json!({ "eye": "up", "goals": [1.5, -1, 2] })).len(),
            4,
            "eye, two items, too many"
        );
        assert_eq!(broken(json!({ "eye": "left", "power": 0 })), ["/power: is not above 0"]);
        assert_eq!(broken(json!({ "eye": "left", "power": 21 })), ["/power: is above 20"]);
        assert_eq!(broken(json!({ "eye": "left", "extra": 1 })), [": `extra` is not known"]);
        assert_eq!(broken(json!([])), [": is not \"object\""]);
        let unknown = super::broken(&json!({ "pattern": "x" }), &json!("x"));
        assert_eq!(unknown, Err(": the schema says `pattern`, which is not read here".into()));
    }
}
