//! Where the telescope sits in the carrier lens, and whether it may.

use super::person::EyeAnswer;
use super::reader::Reader;
use crate::model::devices::Device;
use crate::model::draft::{CarrierChoice, Draft, EyeChoice, FellowChoice, PlacementChoice};
use crate::model::field::FieldId;
use arcminute_core::Error;
use arcminute_core::fit::{
    Carrier, Check, Context, FellowLens, Fit, Frame, Grams, Mounting, MountingRequest, Placement,
    TiltReference, check, corner_radius_from_effective_diameter, mount,
};
use arcminute_core::unit::{Angle, Length};

/// Corner radius of the lens shape when ED is not given. Assumed.
const USUAL_CORNER_MM: f64 = 8.0;
/// Weight of a frame with its lenses, to which the telescope's is added. Assumed.
const USUAL_FRAME_G: f64 = 30.0;

/// The fit so far.
#[derive(Clone, Debug, PartialEq)]
pub enum FitAnswer {
    /// These boxes are still needed; some may be filled, but not usable.
    Waiting(Vec<FieldId>),
    /// Nothing can be placed.
    Impossible(Error),
    /// Placed and judged.
    Done(Box<FitDone>),
}

/// A fit, placed and judged.
#[derive(Clone, Debug, PartialEq)]
pub struct FitDone {
    /// What was asked.
    pub request: MountingRequest,
    /// Where it sits.
    pub mounting: Mounting,
    /// The checks.
    pub checks: Vec<Check>,
    /// The verdict over all checks.
    pub verdict: Fit,
    /// Whether the corner radius is assumed.
    pub corner_assumed: bool,
}

/// The boxes of a fit, read; `None` where a box is empty or cannot be used.
struct Boxes {
    box_width: Option<Length>,
    box_height: Option<Length>,
    bridge: Option<Length>,
    effective_diameter: Option<Length>,
    pantoscopic: Option<Angle>,
    vertex: Option<Length>,
    rotation: Option<Length>,
    pd_both: Option<Length>,
    barrel: Option<Length>,
    play: Option<Length>,
    least_web: Option<Length>,
    segment_gap: Option<Length>,
    ordered_tilt: Option<Angle>,
    segment_height: Option<Length>,
}

impl Boxes {
    fn read(reader: &mut Reader<'_>, vertex: Option<Length>, device: Option<&Device>) -> Self {
        let typed_barrel = reader.length(FieldId::Barrel);
        let listed_barrel = device
            .filter(|_| !reader.state(FieldId::Barrel).is_trouble())
            .map(|device| Length::from_mm(device.barrel_mm));
        Self {
            box_width: reader.length(FieldId::BoxWidth),
            box_height: reader.length(FieldId::BoxHeight),
            bridge: reader.length(FieldId::Bridge),
            effective_diameter: reader.length(FieldId::EffectiveDiameter),
            pantoscopic: reader.number(FieldId::Pantoscopic).map(Angle::from_degrees),
            vertex,
            rotation: reader.length(FieldId::RotationDepth),
            pd_both: reader.length(FieldId::PdBoth),
            barrel: typed_barrel.or(listed_barrel),
            play: reader.length(FieldId::Play),
            least_web: reader.length(FieldId::LeastWeb),
            segment_gap: reader.length(FieldId::SegmentGap),
            ordered_tilt: reader.number(FieldId::OrderedTilt).map(Angle::from_degrees),
            segment_height: reader.length(FieldId::SegmentHeight),
        }
    }

    /// The boxes that a fit still waits for: empty ones it needs, and filled ones that cannot be used.
    fn missing(
        &self,
        reader: &Reader<'_>,
        choice: EyeChoice,
        eye: &EyeAnswer,
        has_segment: bool,
    ) -> Vec<FieldId> {
        let usable = |field| !reader.state(field).is_trouble();
        let of_eye = |make| FieldId::of_eye(make, choice);
        [
            (FieldId::BoxWidth, self.box_width.is_some()),
            (FieldId::BoxHeight, self.box_height.is_some()),
            (FieldId::Bridge, self.bridge.is_some()),
            (FieldId::EffectiveDiameter, usable(FieldId::EffectiveDiameter)),
            (of_eye(FieldId::Pd), eye.pd.is_some()),
            (of_eye(FieldId::PupilHeight), eye.pupil_height.is_some()),
            (of_eye(FieldId::Pupil), eye.pupil.is_some()),
            (FieldId::Vertex, self.vertex.is_some()),
            (FieldId::RotationDepth, self.rotation.is_some()),
            (FieldId::Pantoscopic, self.pantoscopic.is_some()),
            (FieldId::Barrel, self.barrel.is_some()),
            (FieldId::Play, self.play.is_some()),
            (FieldId::LeastWeb, self.least_web.is_some()),
            (FieldId::SegmentGap, self.segment_gap.is_some()),
            (FieldId::OrderedTilt, usable(FieldId::OrderedTilt)),
            (FieldId::SegmentHeight, !has_segment || self.segment_height.is_some()),
        ]
        .into_iter()
        .filter(|(_, there)| !there)
        .map(|(field, _)| field)
        .collect()
    }

    /// What is asked of core; `None` while a box is missing.
    fn request(
        &self,
        draft: &Draft,
        eye: &EyeAnswer,
        device: Option<&Device>,
    ) -> Option<Result<MountingRequest, Error>> {
        let (box_width, box_height, bridge) = (self.box_width?, self.box_height?, self.bridge?);
        let corner = match self.effective_diameter {
            Some(diameter) => corner_radius_from_effective_diameter(box_width, box_height, diameter),
            None => Ok(Length::from_mm(USUAL_CORNER_MM).min(box_height.min(box_width) / 2.0)),
        };
        let frame = match corner.and_then(|corner| Frame::new(box_width, box_height, bridge, corner)) {
            Ok(frame) => frame,
            Err(error) => return Some(Err(error)),
        };
        Some(Ok(MountingRequest {
            eye: draft.bench.eye.eye(),
            frame,
            monocular_pd: eye.pd?,
            pupil_height: eye.pupil_height?,
            pupil_radius: eye.pupil? / 2.0,
            barrel_radius: self.barrel? / 2.0,
            play: self.play?,
            vertex: self.vertex?,
            cornea_to_rotation: self.rotation?,
            pantoscopic: self.pantoscopic?,
            least_web: self.least_web?,
            segment_gap: self.segment_gap?,
            rule: match draft.fit.placement {
                PlacementChoice::PupilTop => Placement::PupilTop,
                PlacementChoice::Highest => Placement::Highest,
                PlacementChoice::Centred => Placement::Centred,
            },
            working_distance: None,
            segment_height: self.segment_height.filter(|_| has_segment(draft)),
            ordered_tilt: self.ordered_tilt,
            tilt_reference: TiltReference::CarrierNormal,
            exit_pupil: device
                .and_then(|device| device.telescope().ok())
                .map(|telescope| telescope.afocal().exit_pupil),
        }))
    }
}

fn has_segment(draft: &Draft) -> bool {
    matches!(draft.fit.carrier, CarrierChoice::Bifocal | CarrierChoice::Trifocal)
}

pub(super) fn fit(
    reader: &mut Reader<'_>,
    draft: &Draft,
    right: &EyeAnswer,
    left: &EyeAnswer,
    vertex: Option<Length>,
    device: Option<&Device>,
) -> FitAnswer {
    let choice = draft.bench.eye;
    let eye = if choice == EyeChoice::Right { right } else { left };
    let boxes = Boxes::read(reader, vertex, device);
    let missing = boxes.missing(reader, choice, eye, has_segment(draft));
    let request = match boxes.request(draft, eye, device) {
        Some(Ok(request)) if missing.is_empty() => request,
        Some(Err(error)) if missing.is_empty() => return FitAnswer::Impossible(error),
        _ => return FitAnswer::Waiting(missing),
    };
    let mounting = match mount(&request) {
        Ok(mounting) => mounting,
        Err(error) => return FitAnswer::Impossible(error),
    };
    let checks = check(&mounting, &context(draft, right, left, boxes.pd_both, device));
    let verdict = Fit::of(&checks);
    let corner_assumed = boxes.effective_diameter.is_none();
    FitAnswer::Done(Box::new(FitDone {
        request,
        mounting,
        checks: checks.into_iter().collect(),
        verdict,
        corner_assumed,
    }))
}

fn context(
    draft: &Draft,
    right: &EyeAnswer,
    left: &EyeAnswer,
    pd_both: Option<Length>,
    device: Option<&Device>,
) -> Context {
    let eye = if draft.bench.eye == EyeChoice::Right { right } else { left };
    Context {
        carrier: match draft.fit.carrier {
            CarrierChoice::SingleVision => Carrier::SingleVision,
            CarrierChoice::Bifocal => Carrier::Bifocal,
            CarrierChoice::Trifocal => Carrier::Trifocal,
            CarrierChoice::Progressive => Carrier::Progressive,
        },
        carrier_cylinder: eye.refraction.map(|(_, cylinder)| cylinder),
        pd_right: right.pd,
        pd_left: left.pd,
        pd_both,
        acuity_right: right.log_mar(),
        acuity_left: left.log_mar(),
        fellow_lens: Some(match draft.order.fellow {
            FellowChoice::AsWorn => FellowLens::Clear,
            FellowChoice::TurnedOver => FellowLens::FlipOver,
            FellowChoice::Covered => FellowLens::Occluded,
        }),
        // Pads or a strap are the way out of a heavy front: once they are ordered there is nothing left to say.
        front_weight: device
            .filter(|_| !draft.order.large_nose_pads && !draft.order.head_strap)
            .map(|device| Grams(USUAL_FRAME_G + device.weight_g)),
        ..Context::default()
    }
}
