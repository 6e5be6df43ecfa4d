//! What there is to say of each box.

use super::{FieldId, FieldInfo, Kind, goal};
use arcminute_core::bounds;

/// What there is to say of a box whose unit is that of its bound.
pub(super) fn of(key: &str, label: &str, kind: Kind, assumed: Option<f64>, help: &'static str) -> FieldInfo {
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
                "Optional. Say below what it is measured from",
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
            Self::SegmentWidth => of(
                "segment-width",
                "Segment width",
                length(&bounds::SEGMENT_WIDTH),
                None,
                "Optional: checks that the segment lies on the lens",
            ),
            Self::SegmentInset => of(
                "segment-inset",
                "Segment inset",
                length(&bounds::SEGMENT_INSET),
                None,
                "Middle of the segment inward of the pupil. Empty: none",
            ),
            Self::EyepieceAcross => of(
                "eyepiece-x",
                "Eyepiece centre sideways",
                length(&bounds::EYEPIECE_ACROSS),
                None,
                "From the middle of the bridge. Empty: at the PD",
            ),
            Self::EyepieceUp => of(
                "eyepiece-y",
                "Eyepiece centre height",
                length(&bounds::EYEPIECE_UP),
                None,
                "Above the lowest point of the lens",
            ),
            Self::FromLens => of(
                "from-lens",
                "Lens to what is looked at",
                length(&bounds::MOUNT_DISTANCE),
                None,
                "For near. Empty: far, or where a cap or strong spectacles are in focus. Both eyes turn in for this distance alone",
            ),
            Self::WornVertex => of(
                "worn-vertex",
                "Vertex distance of the worn lens",
                length(&bounds::VERTEX),
                None,
                "Empty: as at the refraction",
            ),
            Self::FaceForm => of(
                "face-form",
                "Face form angle",
                number(&bounds::FACE_FORM),
                Some(0.0),
                "Each lens against the plane of the front",
            ),
            Self::BaseIn => of(
                "base-in",
                "Base-in prism, each lens",
                number(&bounds::BASE_IN),
                Some(0.0),
                "Worked on the lens, besides what its centring gives",
            ),
            Self::FrontWeight => of(
                "front-weight",
                "Weight of the front",
                number(&bounds::WEIGHT),
                None,
                "With all that is on it. Empty: frame 30 g (assumed) and the aid",
            ),
            Self::Delivered(r) => {
                eye(r, "delivered", "lens as delivered", Kind::Refraction, None, "As the focimeter reads it")
            }
            Self::Cap => of(
                "cap",
                "Cap for near",
                number(&bounds::ADD),
                None,
                "Power of a lens that goes over the objective. Empty: none",
            ),
            Self::OrderFrame => {
                of("order-frame", "Frame", Kind::Words, None, "Shape, colour and sides, in your words")
            }
            Self::OrderLens => of(
                "order-lens",
                "Lens material, tint, coating",
                Kind::Words,
                None,
                "A drilled lens: of a material that does not splinter",
            ),
            Self::FollowUp => {
                of("follow-up", "Comes again", Kind::Words, None, "When and where, in your words")
            }
            Self::PersonSheetNotes => {
                of("person-sheet-notes", "Notes for the person", Kind::Words, None, "No names.")
            }
            Self::SchoolNotes => of("school-notes", "Notes for the school", Kind::Words, None, "No names."),
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
}
