//! The case as a document of HL7 FHIR, release 4: what was measured, the lenses, and the order of a telescope.
//!
//! ```text
//! Bundle, type document
//!   Composition        preliminary: what stands in it, in words, and the cautions
//!   Patient            the case label; no name, no date of birth
//!   Practitioner       who prescribes: not filled in                      with lenses
//!   Device             this program, its version
//!   Observation ...    acuity, contrast, PD, pupil, vertex, trial         as far as entered
//!   VisionPrescription draft                                              when a refraction was understood
//!   DeviceRequest      draft: what is worn, where it sits                 when the fit is done and not refused
//! ```
//!
//! Everything is a draft: the page prescribes and orders nothing. What was not entered, is asked about or cannot be used has
//! no resource; the words say so. Units are UCUM; codes are LOINC where one fits exactly, and words elsewhere. A file of
//! release 4 is not valid in release 5, so the release stands in its words and belongs in the file's name.
//!
//! Source: the resource definitions of HL7 FHIR R4, and its JSON format.

mod composition;
mod device;
mod lenses;
mod measured;
mod parts;

use super::json::{Json, fill, list, number, text};
use crate::model::answer::Answer;
use crate::model::draft::Draft;
use parts::absent;
use sha2::{Digest, Sha256};

/// What only the browser knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Made<'a> {
    /// When it is made, with seconds and the zone: `2026-11-29T10:15:00+01:00`.
    pub at: &'a str,
    /// Version of the program.
    pub build: &'a str,
    /// Random bytes, fresh for each file: the identifiers in it follow from them.
    pub ids: [u8; 16],
}

/// The case as a document; `.json`, media type `application/fhir+json`.
///
/// ```
/// use arcminute_web::model::{answer::Answer, draft::Draft, handed::fhir};
/// let mut draft = Draft::default();
/// draft.person.right.refraction = "-2.00 -1.50 x 90".into();
/// let made = fhir::Made { at: "2026-11-29T10:15:00+01:00", build: "0.1.0", ids: [7; 16] };
/// let file = fhir::written(&draft, &Answer::of(&draft), &made);
/// assert!(file.contains("\"sphere\": -2.00,"), "zeros at the end are kept");
/// assert!(file.contains("\"axis\": 90"));
/// ```
#[must_use]
pub fn written(draft: &Draft, answer: &Answer, made: &Made<'_>) -> String {
    let at = text(made.at);
    let mut file = File { made, at, count: 0, entries: Vec::new(), patient: text("") };
    let identifier = file.uuid();
    // The composition comes first in the file and is written last: it names all others.
    let own = file.uuid();
    let patient = patient(draft);
    file.patient = file.add("Patient", &patient);
    let program = program(&mut file);
    let measured = measured::observations(&mut file, draft, answer);
    let lenses = lenses::prescription(&mut file, draft, answer);
    let order = device::order(&mut file, draft, answer);
    let composition = composition::composition(&file, draft, answer, &program, &[measured, lenses, order]);
    file.entries.insert(0, entry(&own, "Composition", &composition));
    let pattern = r#"{"resourceType": "Bundle",
"identifier": {"system": "urn:ietf:rfc:3986", "value": "urn:uuid:%"},
"type": "document", "timestamp": %,
"entry": %}"#;
    fill(pattern, &[&identifier, &file.at, &list(&file.entries)]).written()
}

/// The file while it is made.
struct File<'a> {
    made: &'a Made<'a>,
    /// When it is made.
    at: Json,
    /// Identifiers given out.
    count: u8,
    entries: Vec<Json>,
    /// Reference to the patient.
    patient: Json,
}

/// A group of lines of the document, and references to the resources they tell of.
struct Section {
    title: &'static str,
    lines: Vec<String>,
    entries: Vec<Json>,
}

impl File<'_> {
    /// The next identifier: of version 4 in shape, from the random bytes and its number.
    fn uuid(&mut self) -> Json {
        self.count = self.count.wrapping_add(1);
        let digest = Sha256::new().chain_update(self.made.ids).chain_update([self.count]).finalize();
        let mut uuid = String::new();
        for (place, byte) in digest.iter().take(16).enumerate() {
            let byte = match place {
                6 => byte & 0x0f | 0x40,
                8 => byte & 0x3f | 0x80,
                _ => *byte,
            };
            if matches!(place, 4 | 6 | 8 | 10) {
                uuid.push('-');
            }
            uuid.push_str(&format!("{byte:02x}"));
        }
        number(uuid)
    }

    /// Adds a resource with these elements and gives a reference to it.
    fn add(&mut self, kind: &str, elements: &Json) -> Json {
        let id = self.uuid();
        self.entries.push(entry(&id, kind, elements));
        fill(r#"{"reference": "urn:uuid:%"}"#, &[&id])
    }
}

fn entry(id: &Json, kind: &str, elements: &Json) -> Json {
    let pattern = r#"{"fullUrl": "urn:uuid:%", "resource": {"resourceType": %, "id": "%",
%}}"#;
    fill(pattern, &[id, &text(kind), id, elements])
}

fn patient(draft: &Draft) -> Json {
    let label = draft.label.trim();
    if label.is_empty() {
        return fill(r#""identifier": [%]"#, &[&absent()]);
    }
    fill(r#""identifier": [{"value": %}]"#, &[&text(label)])
}

fn program(file: &mut File<'_>) -> Json {
    let pattern = r#""deviceName": [{"name": "Arcminute", "type": "user-friendly-name"}],
"type": {"text": "a calculator and record aid, no medical device"},
"version": [{"value": %}]"#;
    let elements = fill(pattern, &[&text(file.made.build)]);
    file.add("Device", &elements)
}

#[cfg(test)]
mod tests;
