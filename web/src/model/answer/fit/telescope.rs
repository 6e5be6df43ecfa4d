//! A telescope in a carrier lens, before one eye or each.

use super::boxes::Boxes;
use super::{ALLOWANCE_MM, FitAnswer, Known};
use crate::model::answer::person::EyeAnswer;
use crate::model::answer::reader::Reader;
use crate::model::draft::{EyeChoice, FellowChoice};
use crate::model::field::FieldId;
use arcminute_core::Error;
use arcminute_core::fit::{
    Alignment, Blank, Check, CheckId, Context, Fit, Mounting, MountingRequest, NearCentres, Point,
    TurnedOver, alignment, blank, check, mount, near_centres, turned_over,
};
use arcminute_core::refraction::Prescription;
use arcminute_core::unit::{Angle, Length};

/// A fit, placed and judged.
#[derive(Clone, Debug, PartialEq)]
pub struct FitDone {
    /// What was asked.
    pub request: MountingRequest,
    /// Where it sits.
    pub mounting: Mounting,
    /// The checks.
    pub checks: Vec<Check>,
    /// The telescope before the other eye, where each has one.
    pub other: Option<OtherEye>,
    /// Light left when the axis passes beside the eye; nothing where the exit pupil is not known.
    pub alignment: Option<Alignment>,
    /// How the same telescope would serve the other eye, where it is to be turned over.
    pub turned_over: Option<TurnedOver>,
    /// The blank that the carrier lens is cut from.
    pub blank: Option<Blank>,
    /// How far segments are set in, where the carrier has one and its refraction an add.
    pub segment: Option<NearCentres>,
    /// The verdict over all checks.
    pub verdict: Fit,
    /// Whether the corner radius is assumed.
    pub corner_assumed: bool,
}

/// The telescope before the other eye.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherEye {
    /// Where it sits.
    pub mounting: Mounting,
    /// The checks that are of this eye alone.
    pub checks: Vec<Check>,
}

impl FitDone {
    /// The telescopes, the one of the chosen eye first.
    pub fn mountings(&self) -> impl Iterator<Item = &Mounting> {
        [&self.mounting].into_iter().chain(self.other.as_ref().map(|other| &other.mounting))
    }
}

/// Whether a check says the same of both eyes: it stands once.
fn is_shared(id: CheckId) -> bool {
    matches!(
        id,
        CheckId::PdSum
            | CheckId::FrameUsual
            | CheckId::CarrierKind
            | CheckId::FellowLens
            | CheckId::Weight
            | CheckId::FullDiameter
            | CheckId::Pair
            | CheckId::WhichEye
    )
}

pub(super) fn fit(reader: &Reader<'_>, known: Known<'_>, boxes: &Boxes) -> FitAnswer {
    let Known { draft, right, left, .. } = known;
    let choice = draft.bench.eye;
    let eyes = |choice: EyeChoice| (choice, if choice == EyeChoice::Right { right } else { left });
    let wanted = if draft.fit.both_eyes { vec![choice, choice.other()] } else { vec![choice] };
    let mut missing = boxes.missing_of_frame(reader);
    missing.extend(boxes.missing_of_telescope(reader, draft));
    missing.extend(wanted.iter().flat_map(|choice| missing_of_eye(eyes(*choice))));
    // What stands in a box of the other eye and cannot be used is not taken as empty.
    let of_other = |make| FieldId::of_eye(make, choice.other());
    let others = [of_other(FieldId::Pd), of_other(FieldId::PupilHeight)];
    if draft.order.fellow == FellowChoice::TurnedOver || super::boxes::has_segment(draft) {
        let unusable = others.into_iter().filter(|field| reader.state(*field).is_trouble());
        let more: Vec<FieldId> = unusable.filter(|field| !missing.contains(field)).collect();
        missing.extend(more);
    }
    if !missing.is_empty() {
        return FitAnswer::Waiting(missing);
    }
    let near = boxes.near_distance(reader);
    let exit_pupil = known
        .device()
        .and_then(|device| device.telescope().ok())
        .map(|telescope| telescope.afocal().exit_pupil);
    let placed = |choice: EyeChoice| -> Option<Result<Mounting, Error>> {
        let request = boxes.telescope(draft, eyes(choice), near, exit_pupil)?;
        Some(request.and_then(|request| mount(&request)))
    };
    let Some(mounting) = placed(choice) else { return FitAnswer::Waiting(missing) };
    let other = if draft.fit.both_eyes { placed(choice.other()).transpose() } else { Ok(None) };
    let (mounting, other) = match (mounting, other) {
        (Ok(mounting), Ok(other)) => (mounting, other),
        (Err(error), _) | (_, Err(error)) => return FitAnswer::Impossible(error),
    };
    let context = known.context(boxes);
    let checks = check(&mounting, &Context { fellow_mounting: other, ..context });
    let other = other.map(|other| {
        let checks = check(&other, &Context { fellow_mounting: Some(mounting), ..context });
        OtherEye { mounting: other, checks: checks.into_iter().filter(|one| !is_shared(one.id)).collect() }
    });
    let checks: Vec<Check> = checks.into_iter().collect();
    let asked = mounting.request;
    let pupil = asked.pupil_radius * 2.0;
    let fellow = eyes(choice.other()).1;
    let turned = || turned_over(&mounting, fellow.pd?, fellow.pupil_height?).ok();
    let verdicts = [Fit::of(&checks), other.as_ref().map_or(Fit::Accepted, |other| Fit::of(&other.checks))];
    let worst_first = [Fit::Refused, Fit::AcceptedWithWarnings];
    let verdict = worst_first.into_iter().find(|fit| verdicts.contains(fit)).unwrap_or(Fit::Accepted);
    let corner_assumed = boxes.effective_diameter.is_none();
    FitAnswer::Done(Box::new(FitDone {
        request: asked,
        mounting,
        checks,
        other,
        alignment: exit_pupil.and_then(|exit| alignment(exit, pupil).ok()),
        turned_over: (draft.order.fellow == FellowChoice::TurnedOver).then(turned).flatten(),
        blank: blank(
            &asked.frame,
            Point { x: asked.monocular_pd, y: asked.pupil_height },
            Length::from_mm(ALLOWANCE_MM),
        )
        .ok(),
        segment: segment(known, boxes, eyes(choice).1),
        verdict,
        corner_assumed,
    }))
}

fn missing_of_eye((choice, eye): (EyeChoice, &EyeAnswer)) -> Vec<FieldId> {
    let of_eye = |make| FieldId::of_eye(make, choice);
    let there = |value: Option<Length>| value.is_some();
    super::boxes::missing(&[
        (of_eye(FieldId::Pd), there(eye.pd)),
        (of_eye(FieldId::PupilHeight), there(eye.pupil_height)),
        (of_eye(FieldId::Pupil), there(eye.pupil)),
    ])
}

/// How far the segments of both lenses are set in for the distance that the add is for; the carrier's own power across
/// moves the line of sight.
fn segment(known: Known<'_>, boxes: &Boxes, eye: &EyeAnswer) -> Option<NearCentres> {
    // A box that cannot be used is not taken as empty.
    let typed = eye.carrier?;
    let carrier = if typed == Prescription::default() { eye.prescription? } else { typed };
    let add = carrier.add.filter(|_| super::boxes::has_segment(known.draft))?;
    let pd = boxes.pd_both.or_else(|| Some(known.right.pd? + known.left.pd?))?;
    let across = carrier.refraction.power_along(Angle::ZERO);
    let distance = Length::from_m(1.0 / add.dioptres());
    near_centres(pd, distance, boxes.vertex? + boxes.rotation?, across).ok()
}
