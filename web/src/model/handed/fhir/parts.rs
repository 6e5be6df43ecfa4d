//! What the resources are made of.

use super::super::json::{Json, fill, list, number, text};
use crate::model::draft::Draft;
use crate::model::entry;
use crate::model::field::{FieldId, Kind};
use crate::model::format::decimals;
use arcminute_core::math;

/// A unit: what a person reads, and its code.
#[derive(Clone, Copy)]
pub(super) struct Unit(&'static str, &'static str);

pub(super) const MM: Unit = Unit("mm", "mm");
pub(super) const DEGREE: Unit = Unit("degrees", "deg");
pub(super) const TIMES: Unit = Unit("x", "1");
pub(super) const PRISM: Unit = Unit("prism dioptres", "[p'diop]");
pub(super) const LOG: Unit = Unit("log units", "1");
pub(super) const LOG_MAR: Unit = Unit("logMAR", "{logMAR}");
pub(super) const FEET: Unit = Unit("ft", "[ft_i]");
pub(super) const METRE: Unit = Unit("m", "m");

impl Unit {
    /// What a person reads.
    pub(super) fn shown(self) -> &'static str {
        self.0
    }
}

/// A concept in words alone.
pub(super) fn concept(words: &str) -> Json {
    fill(r#"{"text": %}"#, &[&text(words)])
}

pub(super) fn quantity(digits: String, unit: Unit) -> Json {
    let pattern = r#"{"value": %, "unit": %, "system": "http://unitsofmeasure.org", "code": %}"#;
    fill(pattern, &[&number(digits), &text(unit.0), &text(unit.1)])
}

/// A part of an observation or of an order: what it is, name of the element, value.
pub(super) fn component(what: &str, name: &str, value: &Json) -> Json {
    fill(r#"{"code": {"text": %}, %: %}"#, &[&text(what), &text(name), value])
}

/// Notes, with the comma before them; nothing when there are none.
pub(super) fn notes<T: AsRef<str>>(notes: &[T]) -> Json {
    if notes.is_empty() {
        return fill("", &[]);
    }
    let notes: Vec<Json> = notes.iter().map(|note| concept(note.as_ref())).collect();
    fill(",\n\"note\": %", &[&list(&notes)])
}

/// The number that stands in a box, in millimetres if it is a length; none when the box is empty or cannot be used.
pub(super) fn typed_number(draft: &Draft, field: FieldId) -> Option<f64> {
    match field.info().kind {
        Kind::Length(bound) => Some(entry::length(field.text(draft), bound).ok()??.mm()),
        Kind::Number(bound) => entry::number(field.text(draft), bound).ok()?,
        _ => None,
    }
}

/// Stands for an element that was not asked for.
pub(super) fn absent() -> Json {
    let pattern = r#"{"extension": [{"url": "http://hl7.org/fhir/StructureDefinition/data-absent-reason", "valueCode": "not-asked"}]}"#;
    fill(pattern, &[])
}

/// So many decimals, or more if there are more, up to a millionth: what was typed is not rounded.
pub(super) fn at_least(value: f64, least: usize) -> String {
    let (mut places, mut scale) = (least, 1.0);
    for _ in 0..least {
        scale *= 10.0;
    }
    while places < 6 && 1e-6 < math::abs(value * scale - math::round(value * scale)) {
        places += 1;
        scale *= 10.0;
    }
    decimals(value, places)
}

/// A logarithm: two decimals as charts have, three where two would round.
pub(super) fn log_digits(value: f64) -> String {
    let hundredths = value * 100.0;
    let places = if math::abs(hundredths - math::round(hundredths)) < 0.01 { 2 } else { 3 };
    decimals(value, places)
}

/// Words as XHTML: what could be markup is written as signs.
pub(super) fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
