//! Every box on the page in one table: its key, label, unit, accepted range, and what is taken when it is empty.
//!
//! To add a box: a variant here, a line in `place!`, in [`FieldId::info`] and in [`FieldId::all`], and an
//! `<Entry field=…/>` where it is shown. Which boxes a goal of each kind has is a table of its own ([`boxes`]).

mod goal;
mod info;
#[cfg(test)]
mod tests;

pub use goal::{Boxes, boxes};

use super::draft::{Draft, EyeChoice};
use arcminute_core::bounds::Bound;

/// A box on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each variant is described by its label in the table below")]
pub enum FieldId {
    Label,
    Acuity(bool),
    Refraction(bool),
    Pupil(bool),
    Accommodation(bool),
    ContrastSensitivity(bool),
    Pd(bool),
    PupilHeight(bool),
    Age,
    RetestLimit,
    Vertex,
    PersonNotes,
    GoalName(usize),
    GoalAcuity(usize),
    GoalHeight(usize),
    GoalDetail(usize),
    GoalPrint(usize),
    GoalDistance(usize),
    GoalFarthest(usize),
    GoalContrast(usize),
    GoalReserve(usize),
    GoalWidth(usize),
    GoalCharacters(usize),
    GoalLight(usize),
    BoxWidth,
    BoxHeight,
    Bridge,
    EffectiveDiameter,
    Pantoscopic,
    RotationDepth,
    PdBoth,
    Barrel,
    Play,
    LeastWeb,
    SegmentGap,
    OrderedTilt,
    SegmentHeight,
    SegmentWidth,
    SegmentInset,
    EyepieceAcross,
    EyepieceUp,
    FromLens,
    WornVertex,
    FaceForm,
    BaseIn,
    FrontWeight,
    CarrierRx(bool),
    Delivered(bool),
    Cap,
    OrderFrame,
    OrderLens,
    FollowUp,
    PersonSheetNotes,
    SchoolNotes,
    OrderNotes,
    TrialAcuity,
    TrialPrint,
    TrialBeside,
    TrialNotes,
}

/// What a box holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// Words; never parsed.
    Words,
    /// An acuity in any notation.
    Acuity,
    /// Sphere, cylinder and axis.
    Refraction,
    /// A print size in any notation.
    Print,
    /// A length; a bare number is in the bound's unit.
    Length(&'static Bound),
    /// A number in the bound's unit.
    Number(&'static Bound),
}

/// All there is to say of a box.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldInfo {
    /// Key: the element's id on the page.
    pub key: String,
    /// Label, without unit.
    pub label: String,
    /// Unit glued to the label; empty where the entry says its own.
    pub unit: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// What is taken when it is empty, in the unit; `None` when the answer then waits for it.
    pub assumed: Option<f64>,
    /// One line of help under the label; may be empty.
    pub help: &'static str,
}

/// The box's place in the draft, `Option<&String>` or `Option<&mut String>`: one list for reading and writing.
macro_rules! place {
    ($field:expr, $draft:expr, $get:ident $(, $mutable:tt)?) => {{
        macro_rules! eye {
            ($right:expr) => {
                if $right { & $($mutable)? $draft.person.right } else { & $($mutable)? $draft.person.left }
            };
        }
        macro_rules! goal {
            ($index:expr, $name:ident) => { $draft.goals.$get($index).map(|goal| & $($mutable)? goal.$name) };
        }
        match $field {
            FieldId::Label => Some(& $($mutable)? $draft.label),
            FieldId::Acuity(right) => Some(& $($mutable)? eye!(right).acuity),
            FieldId::Refraction(right) => Some(& $($mutable)? eye!(right).refraction),
            FieldId::Pupil(right) => Some(& $($mutable)? eye!(right).pupil_mm),
            FieldId::Accommodation(right) => Some(& $($mutable)? eye!(right).accommodation_d),
            FieldId::ContrastSensitivity(right) => Some(& $($mutable)? eye!(right).contrast_log_cs),
            FieldId::Pd(right) => Some(& $($mutable)? eye!(right).pd_mm),
            FieldId::PupilHeight(right) => Some(& $($mutable)? eye!(right).pupil_height_mm),
            FieldId::Age => Some(& $($mutable)? $draft.person.age_years),
            FieldId::RetestLimit => Some(& $($mutable)? $draft.person.retest_limit_log_mar),
            FieldId::Vertex => Some(& $($mutable)? $draft.person.vertex_mm),
            FieldId::PersonNotes => Some(& $($mutable)? $draft.person.notes),
            FieldId::GoalName(index) => goal!(index, name),
            FieldId::GoalAcuity(index) => goal!(index, acuity),
            FieldId::GoalHeight(index) => goal!(index, letter_height_mm),
            FieldId::GoalDetail(index) => goal!(index, detail_mm),
            FieldId::GoalPrint(index) => goal!(index, print),
            FieldId::GoalDistance(index) => goal!(index, distance_m),
            FieldId::GoalFarthest(index) => goal!(index, farthest_m),
            FieldId::GoalContrast(index) => goal!(index, contrast_percent),
            FieldId::GoalReserve(index) => goal!(index, reserve_times),
            FieldId::GoalWidth(index) => goal!(index, width_m),
            FieldId::GoalCharacters(index) => goal!(index, characters),
            FieldId::GoalLight(index) => goal!(index, light_lux),
            FieldId::BoxWidth => Some(& $($mutable)? $draft.fit.box_width_mm),
            FieldId::BoxHeight => Some(& $($mutable)? $draft.fit.box_height_mm),
            FieldId::Bridge => Some(& $($mutable)? $draft.fit.bridge_mm),
            FieldId::EffectiveDiameter => Some(& $($mutable)? $draft.fit.effective_diameter_mm),
            FieldId::Pantoscopic => Some(& $($mutable)? $draft.fit.pantoscopic_deg),
            FieldId::RotationDepth => Some(& $($mutable)? $draft.fit.cornea_to_rotation_mm),
            FieldId::PdBoth => Some(& $($mutable)? $draft.fit.pd_both_mm),
            FieldId::Barrel => Some(& $($mutable)? $draft.fit.barrel_mm),
            FieldId::Play => Some(& $($mutable)? $draft.fit.play_mm),
            FieldId::LeastWeb => Some(& $($mutable)? $draft.fit.least_web_mm),
            FieldId::SegmentGap => Some(& $($mutable)? $draft.fit.segment_gap_mm),
            FieldId::OrderedTilt => Some(& $($mutable)? $draft.fit.ordered_tilt_deg),
            FieldId::SegmentHeight => Some(& $($mutable)? $draft.fit.segment_height_mm),
            FieldId::SegmentWidth => Some(& $($mutable)? $draft.fit.segment_width_mm),
            FieldId::SegmentInset => Some(& $($mutable)? $draft.fit.segment_inset_mm),
            FieldId::EyepieceAcross => Some(& $($mutable)? $draft.fit.eyepiece_x_mm),
            FieldId::EyepieceUp => Some(& $($mutable)? $draft.fit.eyepiece_y_mm),
            FieldId::FromLens => Some(& $($mutable)? $draft.fit.from_lens_mm),
            FieldId::WornVertex => Some(& $($mutable)? $draft.fit.worn_vertex_mm),
            FieldId::FaceForm => Some(& $($mutable)? $draft.fit.face_form_deg),
            FieldId::BaseIn => Some(& $($mutable)? $draft.fit.base_in_pd),
            FieldId::FrontWeight => Some(& $($mutable)? $draft.fit.front_weight_g),
            FieldId::Cap => Some(& $($mutable)? $draft.order.cap_d),
            FieldId::OrderFrame => Some(& $($mutable)? $draft.order.frame),
            FieldId::OrderLens => Some(& $($mutable)? $draft.order.lens),
            FieldId::FollowUp => Some(& $($mutable)? $draft.order.follow_up),
            FieldId::PersonSheetNotes => Some(& $($mutable)? $draft.order.person_notes),
            FieldId::SchoolNotes => Some(& $($mutable)? $draft.order.school_notes),
            FieldId::Delivered(true) => Some(& $($mutable)? $draft.order.delivered_right),
            FieldId::Delivered(false) => Some(& $($mutable)? $draft.order.delivered_left),
            FieldId::CarrierRx(true) => Some(& $($mutable)? $draft.order.carrier_right),
            FieldId::CarrierRx(false) => Some(& $($mutable)? $draft.order.carrier_left),
            FieldId::OrderNotes => Some(& $($mutable)? $draft.order.notes),
            FieldId::TrialAcuity => Some(& $($mutable)? $draft.trial.acuity),
            FieldId::TrialPrint => Some(& $($mutable)? $draft.trial.print),
            FieldId::TrialBeside => Some(& $($mutable)? $draft.trial.beside_deg),
            FieldId::TrialNotes => Some(& $($mutable)? $draft.trial.notes),
        }
    }};
}

impl FieldId {
    /// The box of this eye: `FieldId::of_eye(FieldId::Acuity, eye)`.
    #[must_use]
    pub fn of_eye(make: fn(bool) -> Self, eye: EyeChoice) -> Self {
        make(eye == EyeChoice::Right)
    }

    /// The box's text in a draft; empty for a goal that is not there.
    #[must_use]
    pub fn text(self, draft: &Draft) -> &str {
        place!(self, draft, get).map_or("", String::as_str)
    }

    /// Puts a text into the box; nothing happens for a goal that is not there.
    pub fn set_text(self, draft: &mut Draft, text: String) {
        // What is reached at a trial is reached with the aid that is looked at, and stays of it.
        if matches!(self, Self::TrialAcuity | Self::TrialPrint) {
            draft.trial.aid = draft.bench.looked_at().to_owned();
        }
        if let Some(place) = place!(self, draft, get_mut, mut) {
            *place = text;
        }
    }

    /// Every box of a case with this many goals.
    #[must_use]
    pub fn all(goals: usize) -> Vec<Self> {
        let eyes: [fn(bool) -> Self; 9] = [
            Self::Acuity,
            Self::Refraction,
            Self::Pupil,
            Self::Accommodation,
            Self::ContrastSensitivity,
            Self::Pd,
            Self::PupilHeight,
            Self::CarrierRx,
            Self::Delivered,
        ];
        let mut all = vec![Self::Label, Self::Age, Self::RetestLimit, Self::Vertex, Self::PersonNotes];
        all.extend(eyes.iter().flat_map(|make| [make(true), make(false)]));
        all.extend((0..goals).flat_map(|goal| goal::ALL.iter().map(move |make| make(goal))));
        all.extend([
            Self::BoxWidth,
            Self::BoxHeight,
            Self::Bridge,
            Self::EffectiveDiameter,
            Self::Pantoscopic,
            Self::RotationDepth,
            Self::PdBoth,
            Self::Barrel,
            Self::Play,
            Self::LeastWeb,
            Self::SegmentGap,
            Self::OrderedTilt,
            Self::SegmentHeight,
            Self::SegmentWidth,
            Self::SegmentInset,
            Self::EyepieceAcross,
            Self::EyepieceUp,
            Self::FromLens,
            Self::WornVertex,
            Self::FaceForm,
            Self::BaseIn,
            Self::FrontWeight,
            Self::Cap,
            Self::OrderFrame,
            Self::OrderLens,
            Self::FollowUp,
            Self::PersonSheetNotes,
            Self::SchoolNotes,
            Self::OrderNotes,
            Self::TrialAcuity,
            Self::TrialPrint,
            Self::TrialBeside,
            Self::TrialNotes,
        ]);
        all
    }
}
