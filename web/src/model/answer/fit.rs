//! Where the telescope sits in the carrier lens, and whether it may.

use super::person::EyeAnswer;
use super::reader::Reader;
use crate::model::devices::Device;
use crate::model::draft::{CarrierChoice, Draft, EyeChoice, FellowChoice, PlacementChoice};
use crate::model::field::FieldId;
use arcminute_core::Error;
use arcminute_core::fit::{
    Carrier, Check, Context, FellowLens, Fit, Frame, Grams, Mounting, MountingRequest, Placement, TiltReference,
    check, corner_radius_from_effective_diameter, mount,
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

pub(super) fn fit(
    reader: &mut Reader<'_>,
    draft: &Draft,
    right: &EyeAnswer,
    left: &EyeAnswer,
    vertex: Option<Length>,
    device: Option<&Device>,
) -> FitAnswer {
    let choice = draft.bench.eye;
    let this = if choice == EyeChoice::Right { right } else { left };
    let box_width = reader.length(FieldId::BoxWidth);
    let box_height = reader.length(FieldId::BoxHeight);
    let bridge = reader.length(FieldId::Bridge);
    let effective_diameter = reader.length(FieldId::EffectiveDiameter);
    let pantoscopic = reader.number(FieldId::Pantoscopic).map(Angle::from_degrees);
    let rotation = reader.length(FieldId::RotationDepth);
    let pd_both = reader.length(FieldId::PdBoth);
    let typed_barrel = reader.length(FieldId::Barrel);
    let play = reader.length(FieldId::Play);
    let least_web = reader.length(FieldId::LeastWeb);
    let segment_gap = reader.length(FieldId::SegmentGap);
    let ordered_tilt = reader.number(FieldId::OrderedTilt).map(Angle::from_degrees);
    let segment_height = reader.length(FieldId::SegmentHeight);
    let usable = |field| !reader.state(field).is_trouble();
    let barrel = typed_barrel.or_else(|| {
        device.filter(|_| usable(FieldId::Barrel)).map(|device| Length::from_mm(device.barrel_mm))
    });
    let has_segment = matches!(draft.fit.carrier, CarrierChoice::Bifocal | CarrierChoice::Trifocal);
    let needed = [
        (FieldId::BoxWidth, box_width.is_some()),
        (FieldId::BoxHeight, box_height.is_some()),
        (FieldId::Bridge, bridge.is_some()),
        (FieldId::EffectiveDiameter, usable(FieldId::EffectiveDiameter)),
        (FieldId::of_eye(FieldId::Pd, choice), this.pd.is_some()),
        (FieldId::of_eye(FieldId::PupilHeight, choice), this.pupil_height.is_some()),
        (FieldId::of_eye(FieldId::Pupil, choice), this.pupil.is_some()),
        (FieldId::Vertex, vertex.is_some()),
        (FieldId::RotationDepth, rotation.is_some()),
        (FieldId::Pantoscopic, pantoscopic.is_some()),
        (FieldId::Barrel, barrel.is_some()),
        (FieldId::Play, play.is_some()),
        (FieldId::LeastWeb, least_web.is_some()),
        (FieldId::SegmentGap, segment_gap.is_some()),
        (FieldId::OrderedTilt, usable(FieldId::OrderedTilt)),
        (FieldId::SegmentHeight, !has_segment || segment_height.is_some()),
    ];
    let missing: Vec<FieldId> = needed.iter().filter(|(_, there)| !there).map(|(field, _)| *field).collect();
    if !missing.is_empty() {
        return FitAnswer::Waiting(missing);
    }
    let (Some(box_width), Some(box_height), Some(bridge)) = (box_width, box_height, bridge) else {
        return FitAnswer::Waiting(missing);
    };
    let corner = match effective_diameter {
        Some(diameter) => corner_radius_from_effective_diameter(box_width, box_height, diameter),
        None => Ok(Length::from_mm(USUAL_CORNER_MM).min(box_height.min(box_width) / 2.0)),
    };
    let frame = match corner.and_then(|corner| Frame::new(box_width, box_height, bridge, corner)) {
        Ok(frame) => frame,
        Err(error) => return FitAnswer::Impossible(error),
    };
    let zero = Length::ZERO;
    let request = MountingRequest {
        eye: choice.eye(),
        frame,
        monocular_pd: this.pd.unwrap_or(zero),
        pupil_height: this.pupil_height.unwrap_or(zero),
        pupil_radius: this.pupil.unwrap_or(zero) / 2.0,
        barrel_radius: barrel.unwrap_or(zero) / 2.0,
        play: play.unwrap_or(zero),
        vertex: vertex.unwrap_or(zero),
        cornea_to_rotation: rotation.unwrap_or(zero),
        pantoscopic: pantoscopic.unwrap_or(Angle::ZERO),
        least_web: least_web.unwrap_or(zero),
        segment_gap: segment_gap.unwrap_or(zero),
        rule: match draft.fit.placement {
            PlacementChoice::PupilTop => Placement::PupilTop,
            PlacementChoice::Highest => Placement::Highest,
            PlacementChoice::Centred => Placement::Centred,
        },
        working_distance: None,
        segment_height: segment_height.filter(|_| has_segment),
        ordered_tilt,
        tilt_reference: TiltReference::CarrierNormal,
        exit_pupil: device.and_then(|device| device.telescope().ok()).map(|telescope| telescope.afocal().exit_pupil),
    };
    let mounting = match mount(&request) {
        Ok(mounting) => mounting,
        Err(error) => return FitAnswer::Impossible(error),
    };
    let context = Context {
        carrier: match draft.fit.carrier {
            CarrierChoice::SingleVision => Carrier::SingleVision,
            CarrierChoice::Bifocal => Carrier::Bifocal,
            CarrierChoice::Trifocal => Carrier::Trifocal,
            CarrierChoice::Progressive => Carrier::Progressive,
        },
        carrier_cylinder: this.refraction.map(|(_, cylinder)| cylinder),
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
    };
    let checks = check(&mounting, &context);
    let verdict = Fit::of(&checks);
    let corner_assumed = effective_diameter.is_none();
    FitAnswer::Done(Box::new(FitDone { request, mounting, checks, verdict, corner_assumed }))
}
