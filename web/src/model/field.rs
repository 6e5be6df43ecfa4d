//! Every box on the page in one table: its key, label, unit, accepted range, and what is taken when it is empty.
//!
//! To add a box: a variant here, a line in `place!`, in [`FieldId::info`] and in [`FieldId::all`], and an
//! `<Entry field=…/>` where it is shown. Which boxes a goal of each kind has is a table of its own ([`boxes`]).

mod goal;
#[cfg(test)]
mod tests;

pub use goal::{Boxes, boxes};

use super::draft::{Draft, EyeChoice};
use arcminute_core::bounds::{self, Bound};

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
    CarrierRx(bool),
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

/// What there is to say of a box whose unit is that of its bound.
fn of(key: &str, label: &str, kind: Kind, assumed: Option<f64>, help: &'static str) -> FieldInfo {
    let unit = match kind {
        Kind::Length(bound) | Kind::Number(bound) => bound.unit,
        Kind::Words | Kind::Acuity | Kind::Refraction | Kind::Print => "",
    };
    FieldInfo { key: key.into(), label: label.into(), unit, kind, assumed, help }
}

fn side(right: bool) -> (&'static str, &'static str) {
    if right { ("right", "RIGHT eye") } else { ("left", "LEFT eye") }
}

impl FieldId {
    /// The box of this eye: `FieldId::of_eye(FieldId::Acuity, eye)`.
    #[must_use]
    pub fn of_eye(make: fn(bool) -> Self, eye: EyeChoice) -> Self {
        make(eye == EyeChoice::Right)
    }

    /// What there is to say of the box.
    #[must_use]
    #[expect(clippy::too_many_lines, reason = "it is the table: a line or two for each box")]
    pub fn info(self) -> FieldInfo {
        let eye =
            |right: bool, key: &str, label: &str, kind: Kind, assumed: Option<f64>, help: &'static str| {
                let (short, words) = side(right);
                of(&format!("{key}-{short}"), &format!("{words}: {label}"), kind, assumed, help)
            };
        let length = Kind::Length;
        let number = Kind::Number;
        match self {
            Self::Label => {
                of("case-label", "Case label", Kind::Words, None, "A number or code of yours. No names.")
            }
            Self::Acuity(r) => eye(
                r,
                "acuity",
                "best corrected distance acuity",
                Kind::Acuity,
                None,
                "As you wrote it: 20/160-2, 6/48, 0.9 logMAR, 45 letters, CF 1 m",
            ),
            Self::Refraction(r) => eye(
                r,
                "refraction",
                "refraction",
                Kind::Refraction,
                None,
                "For example -2.00 -1.50 x 090, or with an add for near: -2.00 add +2.50. Empty: none",
            ),
            Self::Pupil(r) => eye(r, "pupil", "pupil diameter", length(&bounds::PUPIL), Some(4.0), ""),
            Self::Accommodation(r) => eye(
                r,
                "accommodation",
                "usable accommodation",
                number(&bounds::AMPLITUDE),
                Some(0.0),
                "For near aids: what can be kept up while reading",
            ),
            Self::ContrastSensitivity(r) => eye(
                r,
                "contrast",
                "log contrast sensitivity",
                number(&bounds::LETTER_CONTRAST),
                None,
                "From a chart of letters, such as 1.05. Empty: contrast is not judged",
            ),
            Self::Pd(r) => eye(
                r,
                "pd",
                "PD",
                length(&bounds::MONOCULAR_PD),
                None,
                "Middle of the bridge to the pupil centre, looking far",
            ),
            Self::PupilHeight(r) => eye(
                r,
                "pupil-height",
                "pupil height",
                length(&bounds::PUPIL_HEIGHT),
                None,
                "Pupil centre above the lowest point of the lens",
            ),
            Self::Age => of(
                "age",
                "Age",
                number(&bounds::AGE),
                None,
                "Optional: tells what accommodation is usual at that age",
            ),
            Self::RetestLimit => of(
                "retest-limit",
                "Retest limit",
                number(&bounds::RETEST_LIMIT),
                Some(0.20),
                "95 % of repeated measurements differ by less than this",
            ),
            Self::Vertex => of(
                "vertex",
                "Vertex distance",
                length(&bounds::VERTEX),
                Some(13.0),
                "Back of the lens to the cornea",
            ),
            Self::PersonNotes => of("person-notes", "Notes", Kind::Words, None, "No names."),
            Self::GoalName(i)
            | Self::GoalAcuity(i)
            | Self::GoalHeight(i)
            | Self::GoalDetail(i)
            | Self::GoalPrint(i)
            | Self::GoalDistance(i)
            | Self::GoalFarthest(i)
            | Self::GoalContrast(i)
            | Self::GoalReserve(i)
            | Self::GoalWidth(i)
            | Self::GoalCharacters(i)
            | Self::GoalLight(i) => goal::info(self, i),
            Self::BoxWidth => of("box-width", "Box width A", length(&bounds::BOX_WIDTH), None, ""),
            Self::BoxHeight => of("box-height", "Box height B", length(&bounds::BOX_HEIGHT), None, ""),
            Self::Bridge => of("bridge", "Bridge DBL", length(&bounds::BRIDGE), None, ""),
            Self::EffectiveDiameter => of(
                "effective-diameter",
                "Effective diameter ED",
                length(&bounds::EFFECTIVE_DIAMETER),
                None,
                "Empty: corners rounded by 8 mm are assumed",
            ),
            Self::Pantoscopic => of(
                "pantoscopic",
                "Pantoscopic angle",
                number(&bounds::PANTOSCOPIC),
                Some(0.0),
                "Bottom of the front in: positive",
            ),
            Self::RotationDepth => of(
                "rotation-depth",
                "Cornea to centre of rotation",
                length(&bounds::ROTATION_DEPTH),
                Some(14.0),
                "",
            ),
            Self::PdBoth => {
                of("pd-both", "PD, both eyes", length(&bounds::PD), None, "Optional: checks the two halves")
            }
            Self::Barrel => of(
                "barrel",
                "Barrel diameter at the lens",
                length(&bounds::BARREL),
                None,
                "Empty: that of the telescope chosen on Bench",
            ),
            Self::Play => of(
                "play",
                "Play round the barrel",
                length(&bounds::PLAY),
                Some(0.5),
                "Opening cut oversize, for fine adjustment (common practice, no source)",
            ),
            Self::LeastWeb => of(
                "least-web",
                "Least web of lens",
                length(&bounds::WEB),
                Some(3.0),
                "Lens left round the opening; 3 mm in Greer and in Yoho 2009",
            ),
            Self::SegmentGap => of(
                "segment-gap",
                "Eyepiece to segment, at least",
                length(&bounds::SEGMENT_GAP),
                Some(10.0),
                "10 mm is common practice, no source",
            ),
            Self::OrderedTilt => of(
                "ordered-tilt",
                "Tilt ordered by hand",
                number(&bounds::TILT),
                None,
                "Optional. Measured from the carrier lens",
            ),
            Self::SegmentHeight => of(
                "segment-height",
                "Segment height",
                length(&bounds::SEGMENT_HEIGHT),
                None,
                "Top of the segment above the lowest point of the lens",
            ),
            Self::CarrierRx(r) => eye(
                r,
                "carrier-rx",
                "carrier prescription",
                Kind::Refraction,
                None,
                "Empty: as the refraction above",
            ),
            Self::OrderNotes => of("order-notes", "Notes for the workshop", Kind::Words, None, "No names."),
            Self::TrialAcuity => of(
                "trial-acuity",
                "Acuity reached with the aid",
                Kind::Acuity,
                None,
                "Tested through it, as you wrote it: 20/40-1, 6/12, 0.3 logMAR",
            ),
            Self::TrialPrint => of(
                "trial-print",
                "Print just read with the aid",
                Kind::Print,
                None,
                "The smallest that was read, in any notation: 0.8 M, N6, 1.2 mm",
            ),
            Self::TrialBeside => of(
                "trial-beside",
                "Looks beside by",
                number(&bounds::ECCENTRICITY),
                None,
                "Optional, where the centre is lost: how far from it the place is that looks",
            ),
            Self::TrialNotes => of("trial-notes", "Notes on the trial", Kind::Words, None, "No names."),
        }
    }

    /// The box's text in a draft; empty for a goal that is not there.
    #[must_use]
    pub fn text(self, draft: &Draft) -> &str {
        place!(self, draft, get).map_or("", String::as_str)
    }

    /// Puts a text into the box; nothing happens for a goal that is not there.
    pub fn set_text(self, draft: &mut Draft, text: String) {
        if let Some(place) = place!(self, draft, get_mut, mut) {
            *place = text;
        }
    }

    /// Every box of a case with this many goals.
    #[must_use]
    pub fn all(goals: usize) -> Vec<Self> {
        let eyes: [fn(bool) -> Self; 8] = [
            Self::Acuity,
            Self::Refraction,
            Self::Pupil,
            Self::Accommodation,
            Self::ContrastSensitivity,
            Self::Pd,
            Self::PupilHeight,
            Self::CarrierRx,
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
            Self::OrderNotes,
            Self::TrialAcuity,
            Self::TrialPrint,
            Self::TrialBeside,
            Self::TrialNotes,
        ]);
        all
    }
}
