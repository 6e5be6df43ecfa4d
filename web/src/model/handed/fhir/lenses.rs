//! The lenses: a draft of a vision prescription, only as far as one was typed and understood.

use super::measured::blank;
use super::parts::{absent, at_least, notes, typed_number};
use super::{File, Json, Section, fill, list, number, text};
use crate::model::answer::Answer;
use crate::model::draft::{CarrierChoice, Draft, EyeChoice};
use crate::model::entry;
use crate::model::field::FieldId;
use arcminute_core::math;
use arcminute_core::refraction::{Parsed, Prescription};
use arcminute_core::unit::Vergence;

/// A power that no lens is made in stands with this beside it.
const ODD_STEP: &str = "A power is not in steps of 0.25 or 0.125 D; it stands as it was typed.";
const ADD_LEFT_OUT: &str = "An add was typed with the refraction. It is left out here: the carrier lens is single vision and has no place for it.";

/// The lens of an eye, and the box it comes from.
fn lens(draft: &Draft, answer: &Answer, eye: EyeChoice) -> (FieldId, Option<Prescription>) {
    let [carrier, refraction] =
        [FieldId::CarrierRx, FieldId::Refraction].map(|make| FieldId::of_eye(make, eye));
    // A carrier that cannot be used is not replaced by the refraction.
    let is_own = !entry::normalise(carrier.text(draft)).is_ok_and(|plain| plain.is_empty());
    let field = if is_own { carrier } else { refraction };
    let understood = match entry::prescription(field.text(draft)) {
        Parsed::Understood(read) if !answer.field(field).is_trouble() => Some(read),
        _ => None,
    };
    (field, understood)
}

/// The lenses of both eyes, and the resource if there is one of either.
pub(super) fn prescription(file: &mut File<'_>, draft: &Draft, answer: &Answer) -> Section {
    let mut section = Section { title: "Lenses", lines: Vec::new(), entries: Vec::new() };
    let base_in = typed_number(draft, FieldId::BaseIn).filter(|amount| 0.0 < *amount);
    let mut specified = Vec::new();
    for eye in [EyeChoice::Right, EyeChoice::Left] {
        let (field, lens) = lens(draft, answer, eye);
        let what = ["Lens before the ", eye.label(), ": "].concat();
        let Some(mut lens) = lens else {
            section.lines.push([&what, blank(answer, field)].concat());
            continue;
        };
        let mut said = Vec::new();
        let from_refraction = matches!(field, FieldId::Refraction(_));
        if from_refraction && draft.fit.carrier == CarrierChoice::SingleVision && lens.add.is_some() {
            lens.add = None;
            said.push(ADD_LEFT_OUT);
        }
        let powers = [Some(lens.refraction.sphere), Some(lens.refraction.cylinder), lens.add];
        if powers.into_iter().flatten().any(is_odd) {
            said.push(ODD_STEP);
        }
        let prism = base_in
            .map_or(String::new(), |amount| [", ", &at_least(amount, 2), " prism dioptres base in"].concat());
        let words = said.iter().fold(String::new(), |words, note| [&words, " ", note].concat());
        section.lines.push([&what, &lens.to_string(), &prism, ".", &words].concat());
        specified.push(specification(eye, &lens, base_in, &said));
    }
    if specified.is_empty() {
        return section;
    }
    section.lines.push("Powers are as typed, for the vertex distance of the refraction.".into());
    section.lines.push("Who prescribes: not filled in.".into());
    let nobody = file.add("Practitioner", &fill(r#""name": [%]"#, &[&absent()]));
    let pattern = r#""status": "draft", "created": %, "patient": %, "dateWritten": %, "prescriber": %,
"lensSpecification": %"#;
    let elements = fill(pattern, &[&file.at, &file.patient, &file.at, &nobody, &list(&specified)]);
    section.entries.push(file.add("VisionPrescription", &elements));
    section
}

/// Whether no lens is made in it: a multiple of 0.25 D or of 0.125 D, written out or cut to 0.12. Stricter than the page,
/// which takes 0.13 and 0.38 for eighths: another program knows nothing of how it was typed.
fn is_odd(power: Vergence) -> bool {
    let size = math::abs(power.dioptres());
    let beyond = size - math::round(size * 4.0) / 4.0;
    ![0.0, 0.12, 0.125, -0.125].iter().any(|step| math::abs(beyond - step) < 1e-6)
}

fn power(power: Vergence) -> Json {
    number(at_least(power.dioptres(), 2))
}

fn specification(eye: EyeChoice, lens: &Prescription, base_in: Option<f64>, said: &[&str]) -> Json {
    let side = match eye {
        EyeChoice::Right => "right",
        EyeChoice::Left => "left",
    };
    let pattern = r#"{"product": {"coding": [{"system": "http://terminology.hl7.org/CodeSystem/ex-visionprescriptionproduct", "code": "lens", "display": "Lens"}], "text": "Spectacle lens"},
"eye": %, "sphere": %"#;
    let mut lens_of = fill(pattern, &[&text(side), &power(lens.refraction.sphere)]);
    if let Some(axis) = lens.refraction.axis {
        let cylinder = power(lens.refraction.cylinder);
        lens_of.push(&fill(r#", "cylinder": %, "axis": %"#, &[&cylinder, &number(axis.to_string())]));
    }
    if let Some(amount) = base_in {
        let amount = number(at_least(amount, 2));
        lens_of.push(&fill(r#", "prism": [{"amount": %, "base": "in"}]"#, &[&amount]));
    }
    if let Some(add) = lens.add {
        lens_of.push(&fill(r#", "add": %"#, &[&power(add)]));
    }
    fill("%%}", &[&lens_of, &notes(said)])
}
