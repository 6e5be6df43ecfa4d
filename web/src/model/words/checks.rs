//! The checks of a fit, in words.

use crate::model::format;
use arcminute_core::explain::Named;
use arcminute_core::fit::{Check, CheckId, Limit, Placement, Severity, WayOut};

/// What a check looks at.
#[must_use]
pub fn check_title(id: CheckId) -> &'static str {
    match id {
        CheckId::WebAllRound => "Lens left all round the opening",
        CheckId::WebAbove => "Lens left above the opening",
        CheckId::WebNasal => "Lens left on the nasal side",
        CheckId::WebTemporal => "Lens left on the temporal side",
        CheckId::SegmentBelowEyepiece => "Gap from eyepiece to segment",
        CheckId::SegmentOnLens => "Segment on the lens",
        CheckId::SegmentBelowPupil => "Segment below the pupil",
        CheckId::PdSum => "Right and left PD add up",
        CheckId::EyepieceOnPd => "Eyepiece centred on the pupil",
        CheckId::TiltAsComputed => "Tilt ordered against tilt computed",
        CheckId::TiltReferenceStated => "What the tilt is measured from",
        CheckId::AxisThroughEye => "Axis meets the eye",
        CheckId::FrameUsual => "Size of the frame",
        CheckId::CarrierKind => "Kind of carrier lens",
        CheckId::CarrierAxis => "Axis of the carrier lens",
        CheckId::WhichEye => "Which eye",
        CheckId::FellowLens => "Lens before the other eye",
        CheckId::Weight => "Weight of the front",
        CheckId::FullDiameter => "Full-diameter telescope",
        CheckId::Pair => "The two telescopes together",
        CheckId::StraightAhead => "Straight-ahead view stays free",
        CheckId::WebAsMarked => "Lens left when marked in half millimetres",
        CheckId::BlankSize => "Lens can be cut from the blank",
        CheckId::CentreOnLens => "Lens left round the optical centre",
        CheckId::PrismGroundIn => "Prism worked on the lens",
        CheckId::TiltChangesPower => "Power changed by tilt and face form",
        CheckId::OneDistance => "Addition in focus at the print",
        CheckId::NearOnly => "Spectacles for near",
    }
}

/// What a check looks at, with the measure's own name where one check serves several.
#[must_use]
pub fn check_name(check: &Check) -> String {
    match (check.id, check.found.map(|found| found.symbol)) {
        (CheckId::FrameUsual, Some("A")) => "Box width A".into(),
        (CheckId::FrameUsual, Some("B")) => "Box height B".into(),
        (CheckId::FrameUsual, Some("DBL")) => "Bridge DBL".into(),
        (id, _) => check_title(id).into(),
    }
}

/// How a limit is known that the trade keeps to without a source.
pub const PRACTICE_BASIS: &str = "common practice, no source";

/// How the limit of a check is known.
#[must_use]
pub fn check_basis(id: CheckId) -> &'static str {
    match id {
        CheckId::WebAllRound
        | CheckId::WebAbove
        | CheckId::WebNasal
        | CheckId::WebTemporal
        | CheckId::WebAsMarked => "3 mm in Greer and in Yoho 2009; yours to set",
        CheckId::AxisThroughEye => "geometry; axis through the rotation centre: Greer",
        CheckId::Pair => "Yoho 2009",
        CheckId::FullDiameter
        | CheckId::SegmentBelowEyepiece
        | CheckId::SegmentOnLens
        | CheckId::SegmentBelowPupil
        | CheckId::PdSum
        | CheckId::EyepieceOnPd
        | CheckId::TiltAsComputed
        | CheckId::TiltReferenceStated
        | CheckId::FrameUsual
        | CheckId::CarrierKind
        | CheckId::CarrierAxis
        | CheckId::WhichEye
        | CheckId::FellowLens
        | CheckId::Weight
        | CheckId::StraightAhead
        | CheckId::CentreOnLens
        | CheckId::PrismGroundIn
        | CheckId::TiltChangesPower
        | CheckId::OneDistance
        | CheckId::NearOnly => PRACTICE_BASIS,
        CheckId::BlankSize => "geometry of the model outline; the blank is yours to set",
    }
}

/// How severe, in a word that stands beside its sign.
#[must_use]
pub fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Pass => "In order",
        Severity::Warning => "Look again",
        Severity::Refuse => "Will not do",
    }
}

fn value(named: &Named) -> String {
    format::named(named)
}

/// What was found against what is allowed.
#[must_use]
pub fn check_sentence(check: &Check) -> String {
    let found = check.found.as_ref().map(value);
    let limit = check.limit.as_ref().map(|limit| match limit {
        Limit::AtLeast(least) => format!("at least {}", value(least)),
        Limit::AtMost(most) => format!("at most {}", value(most)),
        Limit::Between(low, high) => format!("{} to {}", value(low), value(high)),
    });
    match (found, limit) {
        (Some(found), Some(limit)) => format!("{found}; wanted {limit}"),
        (Some(found), None) => found,
        (None, Some(limit)) => format!("wanted {limit}"),
        (None, None) => String::new(),
    }
}

/// The rule that places the eyepiece, as it goes on the sheet.
#[must_use]
pub fn placement(rule: Placement) -> &'static str {
    match rule {
        Placement::PupilTop => "eyepiece bottom level with the top of the pupil",
        Placement::Highest => "as high as the lens allows",
        Placement::Centred => "centred on the pupil",
        Placement::Low => "eyepiece top level with the bottom of the pupil, for near",
        Placement::ByHand(_) => "put by hand",
    }
}

/// What would mend it, with the number.
#[must_use]
pub fn way_out(way: &WayOut) -> String {
    use format::{degrees, mm};
    match way {
        WayOut::SmallestBoxHeight(height) => {
            format!("take a frame with a box height B of {} or more", mm_up(*height))
        }
        WayOut::LargestBarrel(diameter) => {
            format!("take a telescope with a barrel of {} or less", mm_down(*diameter))
        }
        WayOut::DeeperBelow(length) => {
            format!("take a frame that reaches {} or more farther below the pupil", mm_up(*length))
        }
        WayOut::OtherRule(Placement::Low) => {
            "place it low: eyepiece top level with the bottom of the pupil, for near only".into()
        }
        WayOut::OtherRule(Placement::Centred) => {
            "centre it on the pupil: a full-diameter telescope, for use seated only".into()
        }
        WayOut::OtherRule(rule) => format!("place it by the other rule: {}", placement(*rule)),
        WayOut::LowerSegment(height) => format!("lower the segment to {} or less", mm_down(*height)),
        WayOut::HigherTelescope(rise) => format!("raise the telescope by {}", mm(*rise)),
        WayOut::NarrowerSegment(width) => format!("take a segment of {} or less", mm_down(*width)),
        WayOut::SingleVisionCarrier => "take a single vision or bifocal carrier".into(),
        WayOut::OrderTilt(tilt) => format!("order a tilt of {} from the carrier lens", degrees(*tilt)),
        WayOut::StateTiltReference => "say what the tilt is measured from".into(),
        WayOut::MeasurePdAgain => "measure the PD again, each eye and both".into(),
        WayOut::MoveEyepiece(x) => {
            format!("move the eyepiece centre to {} from the middle of the bridge", mm(*x))
        }
        WayOut::MarkAxisAgain => "mark the axis again when the lens is turned for drilling".into(),
        WayOut::ConfirmEye => "make sure that this is the eye meant".into(),
        WayOut::DecideFellowLens => "decide what stands before the other eye".into(),
        WayOut::CarryTheWeight => "give it large nose pads and a head strap".into(),
        WayOut::SeatedOnly => "use it seated only; not for walking".into(),
        WayOut::OneRise => "set both eyepieces equally far above their pupils, with one barrel".into(),
        WayOut::OneWorkingDistance => "set both telescopes for one working distance".into(),
        WayOut::MarkExactly => "mark the exact height, not the half millimetre".into(),
        WayOut::BlankOf(diameter) => format!("order a blank of {} or more", mm_up(*diameter)),
        WayOut::NarrowerFrame(width) => {
            format!("take a frame with a box width A of {} or less", mm_down(*width))
        }
        WayOut::ReachBeyondCentre(length) => {
            format!("take a frame whose lens reaches {} farther round the optical centre", mm_up(*length))
        }
        WayOut::LessPrism(most) => {
            format!("order no more than {} prism dioptres in each lens", most.prism_dioptres())
        }
        WayOut::LowerCentre(height) => {
            format!("set the optical centre at {} above the lowest point of the lens", mm(*height))
        }
        WayOut::LessTilt(most) => format!("adjust the front to {} or less", degrees(*most)),
        WayOut::PrintAt(distance) => format!("hold the print {} from the lens", mm(*distance)),
        WayOut::OneAddition => "give both eyes one addition, or use one eye".into(),
    }
}

/// A least size is rounded up and a greatest size down, so that following the words is enough.
fn mm_up(length: arcminute_core::unit::Length) -> String {
    format!("{} mm", format::decimals(arcminute_core::math::ceil(length.mm() * 10.0 - 1e-6) / 10.0, 1))
}
fn mm_down(length: arcminute_core::unit::Length) -> String {
    format!("{} mm", format::decimals(arcminute_core::math::floor(length.mm() * 10.0 + 1e-6) / 10.0, 1))
}
