//! The schema of a list of aids in its JSON form, and the document of its columns, both made from the page's own tables.

use arcminute_web::model::list::Wears;
use arcminute_web::model::list::column::{self, Column, Kind};
use arcminute_web::model::list::family::{self, About, Measure, Need, PAIRS, Walking};
use arcminute_web::model::list::{MOST_AIDS, VERSION};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;

/// The schema.
pub(super) fn schema() -> schemars::Schema {
    let defs: Map<String, Value> = family::ALL.iter().map(|about| (key(about), entry(about))).collect();
    let aids: Vec<Value> =
        family::ALL.iter().map(|about| json!({ "$ref": format!("#/$defs/{}", key(about)) })).collect();
    let schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "ListOfAids",
        "description": "A list of aids.",
        "type": "object",
        "properties": {
            "version": { "description": "Version of the format: 1.", "type": "integer", "const": VERSION },
            "about": { "description": "What the list is.", "type": "string" },
            "aids": {
                "description": "The aids.",
                "type": "array",
                "maxItems": MOST_AIDS,
                "items": { "oneOf": aids },
            },
        },
        "additionalProperties": false,
        "required": ["version", "aids"],
        "$defs": defs,
    });
    schemars::Schema::try_from(schema).expect("an object")
}

fn key(about: &About) -> String {
    about.name.replace(' ', "-")
}

/// One family: its columns, and which of them it needs.
fn entry(about: &About) -> Value {
    let columns = || column::ALL.iter().map(|one| one.column).filter(|column| about.family.has(*column));
    let properties: Map<String, Value> =
        columns().map(|column| (column.key(), property(about, column))).collect();
    let required: Vec<String> =
        columns().filter(|column| about.family.must(*column)).map(Column::key).collect();
    let mut entry = json!({
        "description": format!("An aid of the family `{}`.", about.name),
        "type": "object",
        "properties": properties,
        "additionalProperties": false,
        "required": required,
    });
    if about.measures.iter().any(|measure| measure.need == Need::Pair) {
        let pairs = PAIRS.map(|pair| json!({ "required": pair.map(Column::key) }));
        entry["oneOf"] = json!(pairs);
    }
    entry
}

fn property(about: &About, column: Column) -> Value {
    let help = column.about().help;
    if column == Column::Family {
        return json!({ "description": help, "type": "string", "const": about.name });
    }
    match column.about().kind {
        Kind::Text(_) => json!({ "description": help, "type": "string" }),
        Kind::Words(words) if words == column::NO_YES => json!({ "description": help, "type": "boolean" }),
        Kind::Words(words) if words == column::HANDS => {
            json!({ "description": help, "type": "integer", "minimum": 0, "maximum": 2 })
        }
        Kind::Words(words) => {
            let most =
                if column == Column::Walking { about.walking_at_most as usize + 1 } else { words.len() };
            json!({ "description": help, "type": "string", "enum": words.iter().take(most).collect::<Vec<_>>() })
        }
        Kind::Number(_) => {
            let measure = about.family.measure(column).expect("the family has it");
            let (least, most) = measure.bound.possible;
            let mut said =
                json!({ "description": help, "type": "number", "minimum": least, "maximum": most });
            if let Need::Assumed(value) = measure.need {
                said["default"] = json!(value);
            }
            said
        }
    }
}

/// The document: every column, and what each family needs of it.
pub(super) fn document() -> String {
    let mut text = String::from(BEGINNING);
    text.push_str(
        "## Columns\n\n| heading | key in JSON | cells | what it means |\n| --- | --- | --- | --- |\n",
    );
    for about in column::ALL {
        let cells = match about.kind {
            Kind::Text(most) => format!("text, at most {most} characters"),
            Kind::Number(_) => "a number".into(),
            Kind::Words(words) => quoted(words),
        };
        let (heading, key) = (about.column.heading(), about.column.key());
        writeln!(text, "| {heading} | {key} | {cells} | {} |", about.help).expect("memory");
    }
    text.push_str("\n## Families\n\n| family | also | must say | may say | assumed where it is not said |\n");
    text.push_str("| --- | --- | --- | --- | --- |\n");
    for about in family::ALL {
        writeln!(
            text,
            "| {} | {} | {} | {} | {} |",
            about.name,
            about.also.join(", "),
            needed(about),
            joined(about, |need| need == Need::May),
            assumed(about)
        )
        .expect("memory");
    }
    text.push_str(ENDING);
    text
}

const BEGINNING: &str = "\
# A list of aids

A list is a table of text that any spreadsheet program writes as `CSV UTF-8`, with one aid in each row under a row of headings.
Columns may stand in any order, and those that no aid of the list needs may be left out.
Capitals do not count in headings and words, nor do blanks, hyphens and low lines.
The unit of a heading may be left out; another unit is refused, in a heading and in a cell, and nothing is converted.
Cells are separated by commas, semicolons or tabs; a decimal comma is understood where it can mean nothing else.
The JSON form holds the same under the keys of the second column.

This document is made from the tables that the page reads a list with; do not edit it.

";

const ENDING: &str = "
Of a stand magnifier two measures are given and no third, because three can contradict each other.
What is measured is worth more than what is marked: give the enlargement and the place of the image where they are known.
";

fn quoted(words: &[&str]) -> String {
    words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}

fn joined(about: &About, takes: impl Fn(Need) -> bool) -> String {
    let taken = about.measures.iter().filter(|measure| takes(measure.need));
    taken.map(ranged).collect::<Vec<_>>().join(", ")
}

/// `power 0.5 to 120 D`.
fn ranged(measure: &Measure) -> String {
    let (least, most) = measure.bound.possible;
    let text = format!("{} {least} to {most} {}", measure.column.about().name, measure.column.unit());
    text.trim_end().into()
}

fn needed(about: &About) -> String {
    let mut needed = joined(about, |need| need == Need::Must);
    if about.family.is_telescope() {
        needed.push_str(", design");
    }
    if about.measures.iter().any(|measure| measure.need == Need::Pair) {
        let ranges = |column| about.family.measure(column).map_or_else(String::new, ranged);
        let pairs = PAIRS.map(|pair| pair.map(ranges).join(" and "));
        write!(needed, "; {}", pairs.join(", or ")).expect("memory");
    }
    needed
}

fn assumed(about: &About) -> String {
    let mut all: Vec<String> = about
        .measures
        .iter()
        .filter_map(|measure| match measure.need {
            Need::Assumed(value) => {
                let unit = measure.column.unit();
                let text = format!("{} {value} {unit}", measure.column.about().name);
                Some(text.trim_end().into())
            }
            _ => None,
        })
        .collect();
    all.push(match about.glasses {
        Wears::Nothing => "no glasses".into(),
        Wears::Distance => "glasses for far".into(),
        Wears::Add => "glasses for near".into(),
    });
    all.push(format!("hands free {}", about.hands_free));
    for (name, is) in [("worn", about.worn), ("both eyes", about.both_eyes), ("shines", about.shines)] {
        all.extend(is.then(|| name.to_owned()));
    }
    all.extend((about.walking == Walking::Yes).then(|| "walking".to_owned()));
    all.join(", ")
}
