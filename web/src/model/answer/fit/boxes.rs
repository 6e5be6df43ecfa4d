//! The boxes of a fit, read; and which of them it still waits for.

use crate::model::answer::person::EyeAnswer;
use crate::model::answer::reader::Reader;
use crate::model::devices::Device;
use crate::model::draft::{CarrierChoice, Draft, EyeChoice, PlacementChoice, TiltFrom};
use crate::model::field::FieldId;
use arcminute_core::Error;
use arcminute_core::fit::{
    Frame, Grams, MountingRequest, Placement, Point, TiltReference, corner_radius_from_effective_diameter,
};
use arcminute_core::unit::{Angle, Length, Prism, Vergence};

/// Corner radius of the lens shape when ED is not given. Assumed.
const USUAL_CORNER_MM: f64 = 8.0;

/// The boxes of a fit; `None` where a box is empty or cannot be used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Boxes {
    pub(super) box_width: Option<Length>,
    pub(super) box_height: Option<Length>,
    pub(super) bridge: Option<Length>,
    pub(super) effective_diameter: Option<Length>,
    pub(super) pantoscopic: Option<Angle>,
    pub(super) face_form: Option<Angle>,
    /// Back of the worn lens to the cornea.
    pub(super) vertex: Option<Length>,
    pub(super) rotation: Option<Length>,
    pub(super) pd_both: Option<Length>,
    pub(super) barrel: Option<Length>,
    pub(super) play: Option<Length>,
    pub(super) least_web: Option<Length>,
    pub(super) segment_gap: Option<Length>,
    pub(super) ordered_tilt: Option<Angle>,
    pub(super) segment_height: Option<Length>,
    pub(super) segment_width: Option<Length>,
    pub(super) segment_inset: Option<Length>,
    pub(super) across: Option<Length>,
    pub(super) up: Option<Length>,
    pub(super) from_lens: Option<Length>,
    pub(super) base_in: Option<Prism>,
    pub(super) front_weight: Option<Grams>,
    pub(super) cap: Option<Vergence>,
}

impl Boxes {
    /// `vertex` is that of the refraction; the worn lens has it too unless its own box says otherwise.
    pub(super) fn read(reader: &mut Reader<'_>, vertex: Option<Length>, device: Option<&Device>) -> Self {
        let typed_barrel = reader.length(FieldId::Barrel);
        let listed_barrel = device
            .filter(|_| !reader.state(FieldId::Barrel).is_trouble())
            .map(|device| Length::from_mm(device.barrel_mm));
        let worn = reader.length(FieldId::WornVertex);
        let same = vertex.filter(|_| !reader.state(FieldId::WornVertex).is_trouble());
        let cap = reader.number(FieldId::Cap).or(device.and_then(|device| device.cap_d));
        Self {
            box_width: reader.length(FieldId::BoxWidth),
            box_height: reader.length(FieldId::BoxHeight),
            bridge: reader.length(FieldId::Bridge),
            effective_diameter: reader.length(FieldId::EffectiveDiameter),
            pantoscopic: reader.number(FieldId::Pantoscopic).map(Angle::from_degrees),
            face_form: reader.number(FieldId::FaceForm).map(Angle::from_degrees),
            vertex: worn.or(same),
            rotation: reader.length(FieldId::RotationDepth),
            pd_both: reader.length(FieldId::PdBoth),
            barrel: typed_barrel.or(listed_barrel),
            play: reader.length(FieldId::Play),
            least_web: reader.length(FieldId::LeastWeb),
            segment_gap: reader.length(FieldId::SegmentGap),
            ordered_tilt: reader.number(FieldId::OrderedTilt).map(Angle::from_degrees),
            segment_height: reader.length(FieldId::SegmentHeight),
            segment_width: reader.length(FieldId::SegmentWidth),
            segment_inset: reader.length(FieldId::SegmentInset),
            across: reader.length(FieldId::EyepieceAcross),
            up: reader.length(FieldId::EyepieceUp),
            from_lens: reader.length(FieldId::FromLens),
            base_in: reader.number(FieldId::BaseIn).map(Prism::from_prism_dioptres),
            front_weight: reader.number(FieldId::FrontWeight).map(Grams),
            cap: cap.filter(|cap| *cap > 0.0).map(Vergence::from_dioptres),
        }
    }

    /// Lens to what is looked at: as typed, or for a telescope with a cap the focal length of the cap; `None` for far.
    pub(super) fn near_distance(&self, reader: &Reader<'_>) -> Option<Length> {
        let of_cap = || self.cap.map(|cap| Length::from_m(1.0 / cap.dioptres()));
        self.from_lens.or_else(|| of_cap().filter(|_| !reader.state(FieldId::FromLens).is_trouble()))
    }

    /// The frame; `None` while a box of it is missing.
    pub(super) fn frame(&self) -> Option<Result<Frame, Error>> {
        let (width, height, bridge) = (self.box_width?, self.box_height?, self.bridge?);
        let corner = match self.effective_diameter {
            Some(diameter) => corner_radius_from_effective_diameter(width, height, diameter),
            None => Ok(Length::from_mm(USUAL_CORNER_MM).min(height.min(width) / 2.0)),
        };
        Some(corner.and_then(|corner| Frame::new(width, height, bridge, corner)))
    }

    /// The boxes that each fit waits for, of the frame and of how it sits.
    pub(super) fn missing_of_frame(&self, reader: &Reader<'_>) -> Vec<FieldId> {
        let usable = |field| !reader.state(field).is_trouble();
        missing(&[
            (FieldId::BoxWidth, self.box_width.is_some()),
            (FieldId::BoxHeight, self.box_height.is_some()),
            (FieldId::Bridge, self.bridge.is_some()),
            (FieldId::EffectiveDiameter, usable(FieldId::EffectiveDiameter)),
            (FieldId::PdBoth, usable(FieldId::PdBoth)),
            (FieldId::Vertex, self.vertex.is_some() || !usable(FieldId::WornVertex)),
            (FieldId::WornVertex, usable(FieldId::WornVertex)),
            (FieldId::RotationDepth, self.rotation.is_some()),
            (FieldId::Pantoscopic, self.pantoscopic.is_some()),
            (FieldId::FaceForm, self.face_form.is_some()),
            (FieldId::FromLens, usable(FieldId::FromLens)),
            (FieldId::FrontWeight, usable(FieldId::FrontWeight)),
        ])
    }

    /// The boxes that a telescope waits for beside those.
    pub(super) fn missing_of_telescope(&self, reader: &Reader<'_>, draft: &Draft) -> Vec<FieldId> {
        let usable = |field| !reader.state(field).is_trouble();
        let (has_segment, by_hand) = (has_segment(draft), draft.fit.placement == PlacementChoice::ByHand);
        missing(&[
            (FieldId::Barrel, self.barrel.is_some()),
            (FieldId::Play, self.play.is_some()),
            (FieldId::LeastWeb, self.least_web.is_some()),
            (FieldId::EyepieceUp, !by_hand || self.up.is_some()),
            (FieldId::EyepieceAcross, !by_hand || usable(FieldId::EyepieceAcross)),
            (FieldId::OrderedTilt, usable(FieldId::OrderedTilt)),
            (FieldId::Cap, usable(FieldId::Cap)),
            (FieldId::SegmentGap, self.segment_gap.is_some()),
            (FieldId::SegmentHeight, !has_segment || self.segment_height.is_some()),
            (FieldId::SegmentWidth, !has_segment || usable(FieldId::SegmentWidth)),
            (FieldId::SegmentInset, !has_segment || usable(FieldId::SegmentInset)),
        ])
    }

    /// What is asked of core for a telescope before one eye; `None` while a box is missing.
    pub(super) fn telescope(
        &self,
        draft: &Draft,
        (choice, eye): (EyeChoice, &EyeAnswer),
        near: Option<Length>,
        exit_pupil: Option<Length>,
    ) -> Option<Result<MountingRequest, Error>> {
        let frame = match self.frame()? {
            Ok(frame) => frame,
            Err(error) => return Some(Err(error)),
        };
        let monocular_pd = eye.pd?;
        let (vertex, rotation) = (self.vertex?, self.rotation?);
        let rule = match draft.fit.placement {
            PlacementChoice::PupilTop => Placement::PupilTop,
            PlacementChoice::Highest => Placement::Highest,
            PlacementChoice::Centred => Placement::Centred,
            PlacementChoice::Low => Placement::Low,
            PlacementChoice::ByHand => {
                let s = vertex + rotation;
                let line_of_sight = near.map_or(monocular_pd, |w| monocular_pd * (w / (w + s)));
                Placement::ByHand(Point { x: self.across.unwrap_or(line_of_sight), y: self.up? })
            }
        };
        Some(Ok(MountingRequest {
            eye: choice.eye(),
            frame,
            monocular_pd,
            pupil_height: eye.pupil_height?,
            pupil_radius: eye.pupil? / 2.0,
            barrel_radius: self.barrel? / 2.0,
            play: self.play?,
            vertex,
            cornea_to_rotation: rotation,
            pantoscopic: self.pantoscopic?,
            least_web: self.least_web?,
            segment_gap: self.segment_gap?,
            rule,
            working_distance: near,
            segment_height: self.segment_height.filter(|_| has_segment(draft)),
            ordered_tilt: self.ordered_tilt,
            tilt_reference: match draft.fit.tilt_from {
                TiltFrom::NotSaid => TiltReference::NotStated,
                TiltFrom::CarrierLens => TiltReference::CarrierNormal,
                TiltFrom::StraightAhead => TiltReference::StraightAhead,
            },
            exit_pupil,
        }))
    }
}

/// Those of these boxes that are not there.
pub(super) fn missing(boxes: &[(FieldId, bool)]) -> Vec<FieldId> {
    boxes.iter().filter(|(_, there)| !there).map(|(field, _)| *field).collect()
}

pub(super) fn has_segment(draft: &Draft) -> bool {
    matches!(draft.fit.carrier, CarrierChoice::Bifocal | CarrierChoice::Trifocal)
}
