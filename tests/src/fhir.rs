//! Whether a document of HL7 FHIR, release 4, says what it should: checks of our own, for what general validators let pass.
//!
//! Three kinds: the shape of each element ([`shapes`]), what values mean ([`meaning`]), and what makes the whole a document
//! ([`whole`]). Only what this program writes is known here; everything else is a fault, so that nothing comes in unseen.

mod meaning;
mod shapes;
mod whole;

pub use meaning::{LOINC, has_check_digit};

use serde_json::Value;

/// Everything that is wrong with a document, each with its place; empty when nothing is.
#[must_use]
pub fn faults(text: &str) -> Vec<String> {
    let document: Value = match serde_json::from_str(text) {
        Ok(document) => document,
        Err(error) => return vec![format!("it is no JSON: {error}")],
    };
    let mut faults = Vec::new();
    shapes::resource("Bundle", &document, &mut faults);
    whole::document(&document, &mut faults);
    let entries = document["entry"].as_array().map_or(&[][..], Vec::as_slice);
    for (place, entry) in entries.iter().enumerate() {
        let resource = &entry["resource"];
        let kind = resource["resourceType"].as_str().unwrap_or_default();
        let path = format!("entry {place}, {kind}");
        meaning::resource(&path, kind, resource, &mut faults);
    }
    faults
}
