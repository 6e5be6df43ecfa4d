//! What is worn and where it sits: a draft of a request, only when the fit is done and not refused.

use super::parts::{DEGREE, MM, PRISM, TIMES, Unit, at_least, component, concept, notes, quantity};
use super::{File, Section, fill, list, text};
use crate::model::answer::{Answer, FieldState, FitAnswer, FitDone, NearDone};
use crate::model::draft::Draft;
use crate::model::field::FieldId;
use crate::model::{format, shown, words};
use arcminute_core::fit::{Eye, Fit, Mounting, Severity};
use arcminute_core::unit::{Angle, Length};

/// Title of its section.
pub(super) const TITLE: &str = "What is worn, and where it sits";

/// A number of the order: what it is, its digits, its unit.
type Ordered = (String, String, Unit);

/// What is asked for, or why nothing is.
pub(super) fn order(file: &mut File<'_>, draft: &Draft, answer: &Answer) -> Section {
    let mut section = Section { title: TITLE, lines: Vec::new(), entries: Vec::new() };
    match &answer.fit {
        FitAnswer::Waiting(missing) => {
            let labels: Vec<String> = missing.iter().map(|field| field.info().label).collect();
            let sentence = "The fit is not decided, so nothing is ordered. Fill in or mend: ";
            section.lines.push([sentence, &labels.join("; "), "."].concat());
        }
        FitAnswer::Impossible(error) => {
            let (why, hint) = (error.to_string(), error.hint().to_string());
            let sentence = "Nothing can be placed, so nothing is ordered: ";
            section.lines.push([sentence, &why, "; ", &hint, "."].concat());
        }
        _ if answer.fit.verdict() == Some(Fit::Refused) => {
            let reasons = said(answer, Severity::Refuse);
            section.lines.push(["The fit is refused, so nothing is ordered. ", &reasons.join(" ")].concat());
        }
        FitAnswer::Done(done) => {
            section.lines.push(["Rule for the height: ", words::placement(done.request.rule), "."].concat());
            let name = telescope_name(draft, answer);
            request(file, answer, &name, telescope(draft, answer, done), &mut section);
        }
        FitAnswer::Near(done) => request(file, answer, &done.name, spectacles(answer, done), &mut section),
    }
    section
}

/// The checks of one severity, a sentence each.
pub(super) fn said(answer: &Answer, severity: Severity) -> Vec<String> {
    let checks = shown::checks(&answer.fit).into_iter().filter(|check| check.severity == severity);
    checks.map(|check| [&check.title, ": ", check.sentence.trim_end_matches('.'), "."].concat()).collect()
}

/// What it is called: as the list has it, or that none was chosen.
fn telescope_name(draft: &Draft, answer: &Answer) -> String {
    match (answer.chosen_row(), draft.bench.looked_at().trim()) {
        (Some(row), key) if row.device.id == key => [&row.device.marking(), ", ", &row.device.name].concat(),
        (_, "") => "Telescope in a carrier lens; which one is not chosen".into(),
        (_, key) => ["Telescope in a carrier lens: key ", key, " of the list of aids"].concat(),
    }
}

fn mm(what: &str, length: Length) -> Ordered {
    (what.into(), at_least(length.mm(), 0), MM)
}

fn degrees(what: &str, angle: Angle) -> Ordered {
    (what.into(), at_least(angle.degrees(), 0), DEGREE)
}

/// Says so where a number is not typed but assumed.
fn assumed(answer: &Answer, field: FieldId, what: &str) -> String {
    match answer.field(field) {
        FieldState::Empty { assumed: Some(_) } => [what, ", assumed"].concat(),
        _ => what.into(),
    }
}

fn side(eye: Eye) -> &'static str {
    match eye {
        Eye::Right => "RIGHT eye, ",
        Eye::Left => "LEFT eye, ",
    }
}

fn telescope(draft: &Draft, answer: &Answer, done: &FitDone) -> Vec<Ordered> {
    let request = &done.request;
    let mut numbers: Vec<Ordered> = done.mountings().flat_map(places).collect();
    if let Some(ordered) = request.ordered_tilt {
        let from = ["Tilt ordered by hand, measured: ", draft.fit.tilt_from.label()].concat();
        numbers.push(degrees(&from, ordered));
    }
    let vertex = assumed(answer, FieldId::Vertex, "Vertex distance, back of the lens to the cornea");
    numbers.push(mm(&vertex, request.vertex));
    let pantoscopic = assumed(answer, FieldId::Pantoscopic, "Pantoscopic angle, bottom in positive");
    numbers.push(degrees(&pantoscopic, request.pantoscopic));
    numbers.push(mm("Barrel diameter where it passes the lens", request.barrel_radius * 2.0));
    if let Some(row) = answer.chosen_row().filter(|row| row.device.id == draft.bench.looked_at()) {
        numbers.push(("Magnification".into(), at_least(row.device.power_times, 0), TIMES));
    }
    numbers
}

/// Where one telescope sits.
fn places(mounting: &Mounting) -> [Ordered; 3] {
    let side = side(mounting.request.eye);
    let of = |what: &str| [side, what].concat();
    // What is computed: to a tenth, as the sheet has it.
    let tenths = |value| format::decimals(value, 1);
    let place = mounting.to_mark;
    [
        (of("X: middle of the bridge to the eyepiece centre, outward"), tenths(place.x.mm()), MM),
        (of("Y: eyepiece centre above the lowest point of the lens"), tenths(place.y.mm()), MM),
        (
            of("tilt, upward, from the normal of the carrier lens"),
            tenths(mounting.tilt_to_carrier.degrees()),
            DEGREE,
        ),
    ]
}

fn spectacles(answer: &Answer, done: &NearDone) -> Vec<Ordered> {
    let request = &done.fit.request;
    let mut numbers = Vec::new();
    for lens in [&done.fit.right, &done.fit.left].into_iter().flatten() {
        let of = |what: &str| [side(lens.eye), what].concat();
        let tenths = |length: Length| format::decimals(length.mm(), 1);
        let centre = lens.optical_centre;
        numbers.push((
            of("X: middle of the bridge to the optical centre, across the front"),
            tenths(centre.x),
            MM,
        ));
        numbers.push((of("Y: optical centre above the lowest point of the lens"), tenths(centre.y), MM));
        let base_in = at_least(lens.asked.base_in.prism_dioptres(), 2);
        numbers.push((of("prism worked on the lens, base in"), base_in, PRISM));
    }
    numbers.push(mm("Vertex distance as worn, back of the lens to the cornea", request.vertex));
    let pantoscopic = assumed(answer, FieldId::Pantoscopic, "Pantoscopic angle, bottom in positive");
    numbers.push(degrees(&pantoscopic, request.pantoscopic));
    numbers.push(("Print to the lens".into(), format::decimals(request.print_to_lens.mm(), 0), MM));
    numbers
}

fn request(file: &mut File<'_>, answer: &Answer, name: &str, numbers: Vec<Ordered>, section: &mut Section) {
    section.lines.push(["Draft of an order: ", name, "; eye looked at: ", answer.eye.label(), "."].concat());
    let mut parameters =
        vec![component("Eye looked at", "valueCodeableConcept", &concept(answer.eye.label()))];
    for (what, digits, unit) in numbers {
        section.lines.push([&what, ": ", &digits, " ", unit.shown()].concat());
        parameters.push(component(&what, "valueQuantity", &quantity(digits, unit)));
    }
    let warnings = said(answer, Severity::Warning);
    if !warnings.is_empty() {
        section.lines.push(["Look again before it is ordered. ", &warnings.join(" ")].concat());
    }
    let pattern = r#""status": "draft", "intent": "order", "codeCodeableConcept": {"text": %},
"subject": %, "authoredOn": %,
"parameter": %%"#;
    let (name, parameters, notes) = (text(name), list(&parameters), notes(&warnings));
    let elements = fill(pattern, &[&name, &file.patient, &file.at, &parameters, &notes]);
    section.entries.push(file.add("DeviceRequest", &elements));
}
