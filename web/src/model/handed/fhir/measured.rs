//! What was measured, one observation each: value, and beside it what was typed.

use super::parts::{
    DEGREE, FEET, LOG, LOG_MAR, METRE, MM, Unit, at_least, component, concept, log_digits, quantity,
    typed_number,
};
use super::{File, Json, Section, fill, list, number, text};
use crate::model::answer::{Answer, FieldState};
use crate::model::draft::{Draft, EyeChoice};
use crate::model::field::FieldId;
use crate::model::format;
use arcminute_core::acuity::{Category, Notation, Reading};

/// Code and name of the best corrected acuity of an eye, as public guides carry them.
fn best_corrected(eye: EyeChoice) -> (&'static str, &'static str) {
    match eye {
        EyeChoice::Right => ("65893-0", "Visual acuity best corrected Right eye"),
        EyeChoice::Left => ("65897-1", "Visual acuity best corrected Left eye"),
    }
}

/// One observation in the making.
struct Observed<'a> {
    code: Json,
    eye: Option<EyeChoice>,
    /// Name of the element, and the value.
    value: (&'static str, Json),
    typed: &'a str,
    more: Vec<Json>,
}

/// What was measured, as far as it was entered and understood.
pub(super) fn observations(file: &mut File<'_>, draft: &Draft, answer: &Answer) -> Section {
    let mut section = Section { title: "Measured", lines: Vec::new(), entries: Vec::new() };
    for eye in [EyeChoice::Right, EyeChoice::Left] {
        acuity(file, draft, answer, eye, &mut section);
        for (make, name, unit) in [
            (
                FieldId::ContrastSensitivity as fn(bool) -> FieldId,
                "Log contrast sensitivity for letters",
                (LOG, 2),
            ),
            (FieldId::Pd, "PD, middle of the bridge to the pupil centre, looking far", (MM, 0)),
            (FieldId::Pupil, "Pupil diameter", (MM, 0)),
        ] {
            entered(file, draft, FieldId::of_eye(make, eye), name, Some(eye), unit, &mut section);
        }
    }
    let name = "Vertex distance of the refraction, back of the lens to the cornea";
    entered(file, draft, FieldId::Vertex, name, None, (MM, 0), &mut section);
    trial(file, draft, answer, &mut section);
    section
}

fn acuity(file: &mut File<'_>, draft: &Draft, answer: &Answer, eye: EyeChoice, section: &mut Section) {
    let field = FieldId::of_eye(FieldId::Acuity, eye);
    let what = ["Best corrected distance acuity, ", eye.label()].concat();
    let Some(reading) = &answer.eye_answer(eye).acuity else {
        section.lines.push([&what, ": ", blank(answer, field)].concat());
        return;
    };
    let (value, mut more, words) = match reading {
        Reading::Category(category) => {
            let words = category_words(category);
            (("valueCodeableConcept", concept(&words)), Vec::new(), words)
        }
        Reading::Measured(acuity) => {
            let log_mar = quantity(log_digits(acuity.log_mar.log()), LOG_MAR);
            let value = match acuity.notation {
                Notation::Feet { numerator, denominator, .. } => ratio(numerator, denominator, FEET),
                Notation::Metres { numerator, denominator, .. } => ratio(numerator, denominator, METRE),
                Notation::Decimal(_) | Notation::LogMar { .. } | Notation::LetterScore(_) => {
                    ("valueQuantity", log_mar.clone())
                }
            };
            let derived =
                component("Derived logMAR, letters counted at 0.02 each", "valueQuantity", &log_mar);
            let words = [&acuity.notation.to_string(), " (", &format::log_mar(acuity.log_mar), ")"].concat();
            (value, vec![derived], words)
        }
    };
    let letters = reading.measured().map_or(0, |acuity| acuity.notation.letters());
    if letters != 0 {
        let count = number(letters.to_string());
        more.push(component("Letters read beyond the line, or missed on it", "valueInteger", &count));
    }
    let (code, display) = best_corrected(eye);
    let pattern = r#"{"coding": [{"system": "http://loinc.org", "code": %, "display": %}], "text": %}"#;
    let code = fill(pattern, &[&text(code), &text(display), &text(&what)]);
    let observed = Observed { code, eye: Some(eye), value, typed: field.text(draft), more };
    section.entries.push(observation(file, observed));
    section.lines.push([&what, ": ", &words].concat());
}

/// A fraction as it was written: the test distance, and the distance of the line.
fn ratio(numerator: f64, denominator: f64, unit: Unit) -> (&'static str, Json) {
    let part = |value| quantity(at_least(value, 0), unit);
    let pattern = r#"{"numerator": %, "denominator": %}"#;
    ("valueRatio", fill(pattern, &[&part(numerator), &part(denominator)]))
}

fn category_words(category: &Category) -> String {
    let words = match category {
        Category::CountsFingers { .. } => "counts fingers",
        Category::HandMotion { .. } => "sees a hand move",
        Category::LightPerception => "sees light",
        Category::NoLightPerception => "sees no light",
    };
    [words, " (", &category.to_string(), ")"].concat()
}

/// A number that stands in a box, if one does; what is assumed for an empty box is no observation.
fn entered(
    file: &mut File<'_>,
    draft: &Draft,
    field: FieldId,
    name: &str,
    eye: Option<EyeChoice>,
    (unit, places): (Unit, usize),
    section: &mut Section,
) {
    let Some(value) = typed_number(draft, field) else { return };
    let what = match eye {
        Some(eye) => [name, ", ", eye.label()].concat(),
        None => name.into(),
    };
    let digits = at_least(value, places);
    section.lines.push([&what, ": ", &digits, " ", unit.shown()].concat());
    let value = ("valueQuantity", quantity(digits, unit));
    let code = concept(&what);
    let observed = Observed { code, eye, value, typed: field.text(draft), more: Vec::new() };
    section.entries.push(observation(file, observed));
}

/// What was reached at the trial, of the goal that is served.
fn trial(file: &mut File<'_>, draft: &Draft, answer: &Answer, section: &mut Section) {
    let Some(goal) = answer.goal_answer() else { return };
    let aid = match draft.trial.aid.trim() {
        "" => "not said".into(),
        key => ["key ", key, " of the list of aids"].concat(),
    };
    let reached = [
        (
            FieldId::TrialAcuity,
            "Acuity reached at the trial, with the aid",
            answer.trial.acuity.map(|reached| quantity(log_digits(reached.log()), LOG_MAR)),
        ),
        (
            FieldId::TrialPrint,
            "Height of the small letters of print just read at the trial, with the aid",
            answer.trial.print.map(|height| quantity(at_least(height.mm(), 0), MM)),
        ),
    ];
    for (field, what, value) in reached {
        let (Some(value), true) = (value, field.is_of(goal.kind)) else { continue };
        let typed = field.text(draft);
        let mut more = vec![component("Aid that was tried", "valueString", &text(&aid))];
        if let Some(beside) = typed_number(draft, FieldId::TrialBeside) {
            let beside = quantity(at_least(beside, 0), DEGREE);
            more.push(component("Fovea to the place of the retina looked with", "valueQuantity", &beside));
        }
        section.lines.push([what, ": ", typed.trim(), "; the aid: ", &aid].concat());
        let value = ("valueQuantity", value);
        let observed = Observed { code: concept(what), eye: Some(answer.eye), value, typed, more };
        section.entries.push(observation(file, observed));
    }
}

fn observation(file: &mut File<'_>, observed: Observed<'_>) -> Json {
    let Observed { code, eye, value, typed, more } = observed;
    let mut parts = vec![component("Exactly as typed", "valueString", &text(typed))];
    parts.extend(more);
    let site = match eye {
        Some(eye) => fill(r#""bodySite": {"text": %}, "#, &[&text(eye.label())]),
        None => fill("", &[]),
    };
    let pattern = r#""status": "preliminary",
"category": [{"coding": [{"system": "http://terminology.hl7.org/CodeSystem/observation-category", "code": "exam", "display": "Exam"}], "text": "Exam"}],
"code": %,
"subject": %, %%: %,
"component": %"#;
    let (name, value) = (text(value.0), value.1);
    let elements = fill(pattern, &[&code, &file.patient, &site, &name, &value, &list(&parts)]);
    file.add("Observation", &elements)
}

/// Why a box has no value.
pub(super) fn blank(answer: &Answer, field: FieldId) -> &'static str {
    match answer.field(field) {
        FieldState::Ask { .. } | FieldState::Refused { .. } => "cannot be used as it was typed",
        FieldState::Unread | FieldState::Empty { .. } | FieldState::Understood { .. } => "not entered",
    }
}
