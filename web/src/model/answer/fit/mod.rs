//! How what is worn sits in its frame, and whether it may: a telescope in a carrier lens before one eye or each, or strong
//! spectacles for near.

mod boxes;
mod near;
mod telescope;

pub use near::NearDone;
pub use telescope::{FitDone, OtherEye};

use super::person::EyeAnswer;
use super::reader::Reader;
use crate::model::devices::{Device, Spectacles, Stock};
use crate::model::draft::{CarrierChoice, Draft, EyeChoice, FellowChoice, Posture};
use crate::model::field::FieldId;
use arcminute_core::Error;
use arcminute_core::fit::{Carrier, Context, FellowLens, Fit, Grams};
use arcminute_core::unit::Length;
use boxes::Boxes;

/// Weight of a frame with its lenses, to which the aid's is added. Assumed.
const USUAL_FRAME_G: f64 = 30.0;

/// Added to the diameter of a blank for edging. Common practice, no source.
const ALLOWANCE_MM: f64 = 2.0;

/// The fit so far.
#[derive(Clone, Debug, PartialEq)]
pub enum FitAnswer {
    /// These boxes are still needed; some may be filled, but not usable.
    Waiting(Vec<FieldId>),
    /// Nothing can be placed.
    Impossible(Error),
    /// A telescope, placed and judged.
    Done(Box<FitDone>),
    /// Spectacles for near, centred and judged.
    Near(Box<NearDone>),
}

impl FitAnswer {
    /// The verdict over all checks; nothing while there is none.
    #[must_use]
    pub fn verdict(&self) -> Option<Fit> {
        match self {
            Self::Done(done) => Some(done.verdict),
            Self::Near(done) => Some(done.verdict),
            Self::Waiting(_) | Self::Impossible(_) => None,
        }
    }

    /// Whether the corners of the lens are assumed.
    #[must_use]
    pub fn corner_assumed(&self) -> bool {
        match self {
            Self::Done(done) => done.corner_assumed,
            Self::Near(done) => done.corner_assumed,
            Self::Waiting(_) | Self::Impossible(_) => false,
        }
    }
}

/// What is to be fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Worn<'a> {
    /// A telescope in a carrier lens.
    Telescope(&'a Device),
    /// Spectacles for near.
    Spectacles(&'a Spectacles),
}

impl<'a> Worn<'a> {
    /// What Fit is about: the aid that is looked at when it is worn in a frame, or else the telescope that was chosen.
    #[must_use]
    pub fn of(draft: &Draft, stock: &'a Stock) -> Option<Self> {
        let looked_at = draft.bench.looked_at();
        let of_near = stock.near_telescopes.iter().find(|device| device.id == looked_at);
        let of_far = || stock.telescopes.iter().find(|device| device.id == draft.bench.telescope);
        let spectacles = stock.spectacles.iter().find(|one| one.id == looked_at);
        spectacles.map(Self::Spectacles).or_else(|| of_near.or_else(of_far).map(Self::Telescope))
    }

    fn weight_g(self) -> Option<f64> {
        match self {
            Self::Telescope(device) => Some(device.weight_g),
            Self::Spectacles(spectacles) => spectacles.weight_g,
        }
    }
}

/// What is known of the case beside the boxes of Fit.
#[derive(Clone, Copy)]
pub(super) struct Known<'a> {
    pub(super) draft: &'a Draft,
    pub(super) right: &'a EyeAnswer,
    pub(super) left: &'a EyeAnswer,
    /// Vertex distance of the refraction.
    pub(super) vertex: Option<Length>,
    pub(super) worn: Option<Worn<'a>>,
}

impl<'a> Known<'a> {
    fn device(&self) -> Option<&'a Device> {
        match self.worn {
            Some(Worn::Telescope(device)) => Some(device),
            _ => None,
        }
    }

    /// What the checks may know beyond the geometry of one eye.
    fn context(&self, boxes: &Boxes) -> Context {
        let Self { draft, right, left, .. } = *self;
        let is_right = draft.bench.eye == EyeChoice::Right;
        let eye = if is_right { right } else { left };
        let posture = draft.goals.get(draft.bench.goal).map(|goal| goal.posture);
        // Spectacles weigh once, whatever was chosen for a telescope before.
        let times = if draft.fit.both_eyes && self.device().is_some() { 2.0 } else { 1.0 };
        let listed = self.worn.and_then(Worn::weight_g).map(|weight| Grams(USUAL_FRAME_G + times * weight));
        Context {
            carrier: match draft.fit.carrier {
                CarrierChoice::SingleVision => Carrier::SingleVision,
                CarrierChoice::Bifocal => Carrier::Bifocal,
                CarrierChoice::Trifocal => Carrier::Trifocal,
                CarrierChoice::Progressive => Carrier::Progressive,
            },
            carrier_cylinder: eye.refraction.map(|(_, cylinder)| cylinder),
            carrier_turned: draft.fit.carrier_turned,
            segment_width: boxes.segment_width,
            segment_inset: boxes.segment_inset,
            pd_right: right.pd,
            pd_left: left.pd,
            pd_both: boxes.pd_both,
            acuity_right: right.log_mar(),
            acuity_left: left.log_mar(),
            fellow_lens: Some(match draft.order.fellow {
                FellowChoice::AsWorn => FellowLens::Clear,
                FellowChoice::TurnedOver => FellowLens::FlipOver,
                FellowChoice::Covered => FellowLens::Occluded,
            }),
            // Pads or a strap are the way out of a heavy front: once they are ordered there is nothing left to say.
            front_weight: boxes
                .front_weight
                .or(listed)
                .filter(|_| !draft.order.large_nose_pads && !draft.order.head_strap),
            worn_walking: posture == Some(Posture::Walking),
            fellow_height: if is_right { left.pupil_height } else { right.pupil_height },
            ..Context::default()
        }
    }
}

pub(super) fn fit(reader: &mut Reader<'_>, known: Known<'_>) -> FitAnswer {
    let boxes = Boxes::read(reader, known.vertex, known.device());
    match known.worn {
        Some(Worn::Spectacles(spectacles)) => near::fit(reader, known, &boxes, spectacles),
        _ => telescope::fit(reader, known, &boxes),
    }
}

#[cfg(test)]
mod tests {
    use super::FitAnswer;
    use crate::model::answer::Answer;
    use crate::model::demo;
    use arcminute_core::fit::CheckId;

    /// 30 g of frame and 28 g of the spectacles, by the list; a telescope before each eye was chosen earlier.
    #[test]
    fn spectacles_weigh_once_though_two_telescopes_were_chosen_before() {
        let mut draft = demo::CASES[0].case();
        draft.bench.aid = "high-plus-6".into();
        draft.order.large_nose_pads = false;
        for both in [false, true] {
            draft.fit.both_eyes = both;
            let FitAnswer::Near(done) = Answer::of(&draft).fit else { panic!("spectacles are fitted") };
            let weight = done.checks.iter().find(|one| one.check.id == CheckId::Weight);
            let found = weight.and_then(|one| one.check.found).map(|found| found.value);
            assert_eq!(found, Some(58.0), "both: {both}");
        }
    }
}
