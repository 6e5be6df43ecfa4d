//! The head of the document: what stands in it, in words that a person reads without a program.

use super::parts::escaped;
use super::{File, Json, Section, fill, list, text};
use crate::model::answer::{Answer, FitAnswer};
use crate::model::draft::Draft;
use crate::model::words::{CAUTIONS, INTENDED_USE, Where};
use arcminute_core::fit::Fit;

/// Owed to the owner of the codes wherever one of them stands.
const CODES: &str = "The codes of acuity are LOINC (loinc.org), copyright Regenstrief Institute, Inc. and the Logical Observation Identifiers Names and Codes (LOINC) Committee, available at no cost under the licence at loinc.org/license.";

pub(super) fn composition(
    file: &File<'_>,
    draft: &Draft,
    answer: &Answer,
    program: &Json,
    told: &[Section],
) -> Json {
    let mut sections = vec![section(&about(file, draft))];
    sections.extend(told.iter().map(section));
    sections.push(section(&cautions(answer)));
    let pattern = r#""status": "preliminary",
"type": {"text": "Low-vision record with drafts of lenses and of an order"},
"subject": %, "date": %, "author": [%],
"title": "Low-vision record, preliminary",
"section": %"#;
    fill(pattern, &[&file.patient, &file.at, program, &list(&sections)])
}

fn about(file: &File<'_>, draft: &Draft) -> Section {
    let label = match draft.label.trim() {
        "" => "not filled in",
        label => label,
    };
    let lines = vec![
        ["Case label: ", label, "."].concat(),
        ["Made by Arcminute ", file.made.build, ", ", file.made.at, ". HL7 FHIR release 4."].concat(),
        "Preliminary: everything here is a draft, and nothing in it is prescribed or ordered.".into(),
        INTENDED_USE.into(),
        CODES.into(),
    ];
    Section { title: "About this document", lines, entries: Vec::new() }
}

/// Those of what is asked for; those of every prediction always.
fn cautions(answer: &Answer) -> Section {
    let (near, refused) =
        (matches!(answer.fit, FitAnswer::Near(_)), answer.fit.verdict() == Some(Fit::Refused));
    let ordered = answer.fit.verdict().is_some() && !refused;
    let stands = |place: Where| match place {
        Where::Prediction => true,
        Where::Fit => ordered,
        Where::Telescope => ordered && !near,
        Where::PlusLens | Where::Standing | Where::Close => ordered && near,
    };
    let lines = CAUTIONS.iter().filter(|caution| stands(caution.place));
    let lines = lines.map(|caution| [caution.head, ": ", caution.text].concat()).collect();
    Section { title: "Cautions", lines, entries: Vec::new() }
}

fn section(section: &Section) -> Json {
    let mut div = String::from("<div xmlns=\"http://www.w3.org/1999/xhtml\">");
    for line in &section.lines {
        for part in ["<p>", &escaped(line), "</p>"] {
            div.push_str(part);
        }
    }
    div.push_str("</div>");
    let pattern = r#"{"title": %, "text": {"status": "generated", "div": %}%}"#;
    let entries = if section.entries.is_empty() {
        fill("", &[])
    } else {
        fill(r#", "entry": %"#, &[&list(&section.entries)])
    };
    fill(pattern, &[&text(section.title), &text(&div), &entries])
}
