//! Strong spectacles for near: a lens before each eye that is used.

use super::boxes::{Boxes, missing};
use super::{ALLOWANCE_MM, FitAnswer, Known};
use crate::model::answer::person::EyeAnswer;
use crate::model::answer::reader::Reader;
use crate::model::devices::Spectacles;
use crate::model::draft::EyeChoice;
use crate::model::field::FieldId;
use arcminute_core::Error;
use arcminute_core::fit::{
    Centration, Fit, NearCheck, NearLens, NearSpectacles, NearSpectaclesRequest, check_near,
    fit_near_spectacles,
};
use arcminute_core::refraction::Refraction;
use arcminute_core::unit::Length;

/// Spectacles for near, centred and judged.
#[derive(Clone, Debug, PartialEq)]
pub struct NearDone {
    /// What they are called.
    pub name: String,
    /// How they sit.
    pub fit: NearSpectacles,
    /// The checks.
    pub checks: Vec<NearCheck>,
    /// The verdict over all checks.
    pub verdict: Fit,
    /// Whether the corner radius is assumed.
    pub corner_assumed: bool,
}

pub(super) fn fit(
    reader: &Reader<'_>,
    known: Known<'_>,
    boxes: &Boxes,
    spectacles: &Spectacles,
) -> FitAnswer {
    let Known { draft, right, left, .. } = known;
    let choice = draft.bench.eye;
    let with_both = spectacles.is_for_both(draft);
    let is_used = |eye: EyeChoice| with_both || eye == choice;
    let mut waits = boxes.missing_of_frame(reader);
    waits.extend(missing(&[(FieldId::BaseIn, boxes.base_in.is_some())]));
    for (eye, of) in [(EyeChoice::Right, right), (EyeChoice::Left, left)] {
        if is_used(eye) {
            waits.extend(missing_of_eye(eye, of));
        }
    }
    if !waits.is_empty() {
        return FitAnswer::Waiting(waits);
    }
    let lens = |eye: EyeChoice, of: &EyeAnswer| is_used(eye).then(|| lens(of, boxes, spectacles)).flatten();
    let lenses = (lens(EyeChoice::Right, right), lens(EyeChoice::Left, left));
    match asked(known, boxes, spectacles, lenses) {
        None => FitAnswer::Waiting(waits),
        Some(asked) => match asked.and_then(|asked| fit_near_spectacles(&asked)) {
            Ok(fit) => done(fit, boxes, spectacles),
            Err(error) => FitAnswer::Impossible(error),
        },
    }
}

fn done(fit: NearSpectacles, boxes: &Boxes, spectacles: &Spectacles) -> FitAnswer {
    let checks: Vec<NearCheck> = check_near(&fit).into_iter().collect();
    let verdict = Fit::worst(checks.iter().map(|one| one.check.severity));
    let corner_assumed = boxes.effective_diameter.is_none();
    FitAnswer::Near(Box::new(NearDone {
        name: spectacles.name.clone(),
        fit,
        checks,
        verdict,
        corner_assumed,
    }))
}

fn missing_of_eye(choice: EyeChoice, eye: &EyeAnswer) -> Vec<FieldId> {
    let of_eye = |make| FieldId::of_eye(make, choice);
    missing(&[
        (of_eye(FieldId::Refraction), eye.prescription.is_some()),
        (of_eye(FieldId::Pd), eye.pd.is_some()),
        (of_eye(FieldId::PupilHeight), eye.pupil_height.is_some()),
    ])
}

/// One lens; nothing while something of its eye is missing.
fn lens(eye: &EyeAnswer, boxes: &Boxes, spectacles: &Spectacles) -> Option<NearLens> {
    let far = eye.prescription?.refraction;
    let add = spectacles.power;
    let power = if spectacles.adds_refraction {
        Refraction { sphere: far.sphere + add, ..far }
    } else {
        Refraction::of_sphere(add)
    };
    Some(NearLens {
        monocular_pd: eye.pd?,
        pupil_height: eye.pupil_height?,
        centre_height: None,
        power,
        add,
        base_in: boxes.base_in?,
        centration: Centration::NearCrossing,
    })
}

fn asked(
    known: Known<'_>,
    boxes: &Boxes,
    spectacles: &Spectacles,
    (right, left): (Option<NearLens>, Option<NearLens>),
) -> Option<Result<NearSpectaclesRequest, Error>> {
    let frame = match boxes.frame()? {
        Ok(frame) => frame,
        Err(error) => return Some(Err(error)),
    };
    let context = known.context(boxes);
    let vertex = boxes.vertex?;
    Some(Ok(NearSpectaclesRequest {
        frame,
        right,
        left,
        vertex,
        refraction_vertex: known.vertex.unwrap_or(vertex),
        cornea_to_rotation: boxes.rotation?,
        pantoscopic: boxes.pantoscopic?,
        face_form: boxes.face_form?,
        print_to_lens: boxes.from_lens.unwrap_or_else(|| Length::from_m(1.0 / spectacles.power.dioptres())),
        blank_allowance: Length::from_mm(ALLOWANCE_MM),
        pd_both: boxes.pd_both,
        largest_blank: None,
        front_weight: context.front_weight,
        worn_walking: context.worn_walking,
    }))
}
