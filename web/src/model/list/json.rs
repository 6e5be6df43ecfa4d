//! The list as JSON: `{ "version": 1, "about": "…", "aids": [ … ] }`, with the columns' keys.

use super::aid::ListedAid;
use super::cell::{self, Value};
use super::column::{self, Column, Kind};
use super::reading::{Reader, Row};
use super::trouble::{Place, Wrong};
use super::{MOST_ROWS, MOST_TROUBLES};
use serde_json::Value as Json;

/// Version written and read.
pub const VERSION: u64 = 1;

/// Reads the JSON form.
pub(super) fn read(text: &str, reader: &mut Reader) {
    let file: Json = match serde_json::from_str(text) {
        Ok(file) => file,
        Err(error) => return reader.tell(Place::File, None, "", Wrong::NotJson(error.to_string())),
    };
    match file.get("version") {
        Some(version) if version.as_u64() == Some(VERSION) => {}
        version => {
            let found = version.map_or("nothing".into(), Json::to_string);
            return reader.tell(Place::File, None, &found, Wrong::OtherVersion);
        }
    }
    let Some(aids) = file.get("aids").and_then(Json::as_array) else {
        return reader.tell(Place::File, None, "", Wrong::OtherShape);
    };
    match file.get("about") {
        None | Some(Json::Null) => {}
        Some(Json::String(about)) => match cell::tidied(about, MOST_ABOUT) {
            Ok(about) => reader.reading.about = about,
            Err(wrong) => reader.tell(Place::File, None, about, wrong),
        },
        Some(other) => {
            reader.tell(Place::File, None, &other.to_string(), Wrong::OtherKind(Kind::Text(MOST_ABOUT)))
        }
    }
    for key in file.as_object().into_iter().flat_map(|file| file.keys()) {
        if !["version", "about", "aids"].contains(&key.as_str()) {
            reader.tell(Place::File, None, key, Wrong::UnknownColumn(None));
        }
    }
    let keys: Vec<String> = column::ALL.iter().map(|about| about.column.key()).collect();
    let mut unknown: Vec<&String> = Vec::new();
    for (place, aid) in (1..).zip(aids) {
        if MOST_ROWS < place {
            return reader.tell(Place::Entry(place), None, "", Wrong::TooManyRows);
        }
        if reader.is_full(Place::Entry(place)) {
            return;
        }
        let Some(aid) = aid.as_object() else {
            reader.tell(Place::Entry(place), None, &aid.to_string(), Wrong::NotAnEntry);
            continue;
        };
        let mut row = Row::at(Place::Entry(place));
        for (key, value) in aid {
            let known = column::ALL.iter().zip(&keys).find(|(_, known)| *known == key);
            match known {
                Some((about, _)) => say(about.column, value, &mut row),
                // Each is told once; beyond what is listed they are only counted.
                None if unknown.len() == MOST_TROUBLES => reader.reading.more += 1,
                None if unknown.contains(&key) => {}
                None => {
                    unknown.push(key);
                    let near = super::heading::column(key).ok();
                    reader.tell(Place::Entry(place), None, key, Wrong::UnknownColumn(near));
                }
            }
        }
        reader.take(row);
    }
}

/// Most characters of what a list says of itself.
const MOST_ABOUT: usize = 300;

fn say(column: Column, value: &Json, row: &mut Row) {
    let kind = column.about().kind;
    let said = match (kind, value) {
        (_, Json::Null) => return,
        (Kind::Text(most), Json::String(text)) => {
            return match cell::tidied(text, most) {
                Ok(text) => row.text(column, text),
                Err(wrong) => row.fault(column, text, wrong),
            };
        }
        (Kind::Number(_), Json::Number(number)) => number.as_f64().map(Value::Number),
        (Kind::Words(words), value) => {
            let text = value.as_str().map_or_else(|| value.to_string(), |text| format!("\"{text}\""));
            let place = (0..words.len()).find(|place| word(words, *place) == text);
            place.map(Value::Word)
        }
        _ => None,
    };
    match said {
        Some(said) => row.aid.say(column, said),
        None => row.fault(column, &value.to_string(), Wrong::OtherKind(kind)),
    }
}

/// A word as JSON has it: no and yes are its own, and numbers are numbers.
pub(super) fn word(words: &'static [&'static str], place: usize) -> String {
    let word = words.get(place).copied().unwrap_or_default();
    if words == column::NO_YES {
        return (place == 1).to_string();
    }
    if word.bytes().all(|byte| byte.is_ascii_digit()) { word.into() } else { format!("\"{word}\"") }
}

/// A list in the JSON form; reading it back gives the same.
#[must_use]
pub fn write_json(about: &str, list: &[ListedAid]) -> String {
    let mut text =
        format!("{{\n  \"version\": {VERSION},\n  \"about\": {},\n  \"aids\": [", Json::from(about));
    for (place, aid) in list.iter().enumerate() {
        text.push_str(if place == 0 { "\n    { " } else { ",\n    { " });
        let mut sign = "";
        for about in column::ALL {
            let value = match (about.column, about.kind) {
                (Column::Id, _) => Json::from(aid.id.as_str()).to_string(),
                (Column::Name, _) => Json::from(aid.name.as_str()).to_string(),
                (Column::Family, _) => Json::from(aid.family.about().name).to_string(),
                (Column::Note, _) if aid.note.is_empty() => continue,
                (Column::Note, _) => Json::from(aid.note.as_str()).to_string(),
                (column, kind) => match (aid.said(column), kind) {
                    (Some(Value::Number(number)), _) => number.to_string(),
                    (Some(Value::Word(place)), Kind::Words(words)) => word(words, place),
                    _ => continue,
                },
            };
            text.push_str(&format!("{sign}\"{}\": {value}", about.column.key()));
            sign = ", ";
        }
        text.push_str(" }");
    }
    text.push_str(if list.is_empty() { "]\n}\n" } else { "\n  ]\n}\n" });
    text
}

/// Whether a text is meant to be the JSON form: no row of headings begins so.
pub(super) fn is_meant(text: &str) -> bool {
    text.trim_start().starts_with(['{', '['])
}
