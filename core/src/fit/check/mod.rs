//! Whether a telescope may sit where it was put, as data: the words for each check are the page's.
//!
//! A check without its inputs is left out of the list. A fit is refused when any check refuses it.

mod aim;
mod context;
mod lens;
mod near;
#[cfg(test)]
mod near_tests;
mod person;
mod segment;
#[cfg(test)]
mod table;
#[cfg(test)]
mod tests;

pub use context::{Carrier, Context, FellowLens, Grams};
pub use near::{MOST_NEAR_CHECKS, NearCheck, check_near};

use super::mounting::Mounting;
use super::request::Placement;
use super::ways_out::{OTHER_RULES, WaysOut, fits, ways_out};
use crate::explain::{Named, Unit};
use crate::list::List;
use crate::unit::{Angle, Length, Prism};

/// How much a check weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// In order.
    Pass,
    /// To be looked at or asked about.
    Warning,
    /// Not to be made like this.
    Refuse,
}

/// Which check; [`CheckId::code`] is its stable key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CheckId {
    /// Least web all round the opening, against the outline.
    WebAllRound,
    /// Web above the opening, against the box.
    WebAbove,
    /// Web on the nasal side, against the box.
    WebNasal,
    /// Web on the temporal side, against the box.
    WebTemporal,
    /// Top of the segment below the eyepiece.
    SegmentBelowEyepiece,
    /// Segment on the lens, and deep enough to use.
    SegmentOnLens,
    /// Top of the segment below the pupil.
    SegmentBelowPupil,
    /// Monocular PDs add up to the binocular one.
    PdSum,
    /// Eyepiece as ordered or made stands on the PD.
    EyepieceOnPd,
    /// Ordered tilt as the geometry gives it.
    TiltAsComputed,
    /// What the ordered tilt is measured from is stated.
    TiltReferenceStated,
    /// Exit pupil and eye pupil meet with the ordered tilt.
    AxisThroughEye,
    /// Frame sizes as usually met, and tall enough for a superior telescope.
    FrameUsual,
    /// Kind of carrier lens.
    CarrierKind,
    /// Axis of a carrier that was turned for drilling.
    CarrierAxis,
    /// The telescope is before the intended eye.
    WhichEye,
    /// What becomes of the fellow lens.
    FellowLens,
    /// Weight of the front.
    Weight,
    /// A full-diameter telescope is not worn walking.
    FullDiameter,
    /// Two telescopes aim at one place.
    Pair,
    /// The straight-ahead view stays free of the eyepiece.
    StraightAhead,
    /// Least web when the centre is marked in half millimetres.
    WebAsMarked,
    /// A near lens can be cut from the largest blank to be had.
    BlankSize,
    /// The optical centre of a near lens has lens on every side.
    CentreOnLens,
    /// Prism worked on a near lens.
    PrismGroundIn,
    /// What tilt and face form make of the power of a near lens.
    TiltChangesPower,
    /// Additions and print are in focus at one distance.
    OneDistance,
    /// Spectacles for near are not worn walking.
    NearOnly,
}

impl CheckId {
    /// All checks, in order of their codes.
    pub const ALL: [Self; 28] = [
        Self::WebAllRound,
        Self::WebAbove,
        Self::WebNasal,
        Self::WebTemporal,
        Self::SegmentBelowEyepiece,
        Self::SegmentOnLens,
        Self::SegmentBelowPupil,
        Self::PdSum,
        Self::EyepieceOnPd,
        Self::TiltAsComputed,
        Self::TiltReferenceStated,
        Self::AxisThroughEye,
        Self::FrameUsual,
        Self::CarrierKind,
        Self::CarrierAxis,
        Self::WhichEye,
        Self::FellowLens,
        Self::Weight,
        Self::FullDiameter,
        Self::Pair,
        Self::StraightAhead,
        Self::WebAsMarked,
        Self::BlankSize,
        Self::CentreOnLens,
        Self::PrismGroundIn,
        Self::TiltChangesPower,
        Self::OneDistance,
        Self::NearOnly,
    ];

    /// Number of the check in the fitting reference: 1 for C1; from 21 on they are ours, from 23 on of near spectacles.
    ///
    /// ```
    /// use arcminute_core::fit::CheckId;
    /// assert_eq!((CheckId::WhichEye.code(), CheckId::WebAsMarked.code()), (16, 22));
    /// ```
    #[must_use]
    pub fn code(self) -> u8 {
        (self as u8).saturating_add(1)
    }
}

/// What a value is held against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Limit {
    /// Not below.
    AtLeast(Named),
    /// Not above.
    AtMost(Named),
    /// From the first to the second.
    Between(Named, Named),
}

/// Something that would put a check in order; lengths and angles are exact, rounding is the page's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WayOut {
    /// A frame at least this tall, all else unchanged.
    SmallestBoxHeight(Length),
    /// A barrel of at most this diameter, all else unchanged.
    LargestBarrel(Length),
    /// A frame that reaches farther below the pupil by this much.
    DeeperBelow(Length),
    /// Another placement rule.
    OtherRule(Placement),
    /// A segment with its top no higher than this.
    LowerSegment(Length),
    /// An eyepiece higher by this much.
    HigherTelescope(Length),
    /// A segment no wider than this.
    NarrowerSegment(Length),
    /// A carrier without a segment.
    SingleVisionCarrier,
    /// This tilt to the carrier's normal.
    OrderTilt(Angle),
    /// Say what the tilt is measured from.
    StateTiltReference,
    /// Measure the PDs again.
    MeasurePdAgain,
    /// Move the eyepiece centre to this distance from the middle of the bridge.
    MoveEyepiece(Length),
    /// Mark the cylinder axis again after drilling.
    MarkAxisAgain,
    /// Confirm the eye, or choose the other.
    ConfirmEye,
    /// Decide on the fellow lens.
    DecideFellowLens,
    /// Headstrap, broader nose pads or a lighter telescope.
    CarryTheWeight,
    /// Use it seated only.
    SeatedOnly,
    /// Order both telescopes for one working distance.
    OneWorkingDistance,
    /// Set both eyepieces equally far above their pupils.
    OneRise,
    /// Mark the exact place, not the half millimetre.
    MarkExactly,
    /// A blank of at least this diameter.
    BlankOf(Length),
    /// A frame no wider than this, all else unchanged.
    NarrowerFrame(Length),
    /// A lens that reaches this much farther round its optical centre.
    ReachBeyondCentre(Length),
    /// Prism of no more than this, the rest left to the eyes.
    LessPrism(Prism),
    /// The optical centre at this height.
    LowerCentre(Length),
    /// A front that leans or wraps no more than this.
    LessTilt(Angle),
    /// Print at this distance from the lens.
    PrintAt(Length),
    /// One addition for both eyes.
    OneAddition,
}

/// Checks that a telescope in a carrier lens may have; the others are of near spectacles.
const OF_TELESCOPES: usize = 22;

/// Most checks of one telescope: every one, the frame's for each of its three sizes, and either the straight-ahead view or
/// the full diameter.
pub const MOST_CHECKS: usize = OF_TELESCOPES + 1;

/// Most ways out of one check: the segment's top, the telescope, the barrel, the frame's height and its depth, the other
/// rules, another carrier.
pub const MOST_WAYS_OUT: usize = 6 + OTHER_RULES;

/// One check and how it came out.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// Which.
    pub id: CheckId,
    /// How it came out.
    pub severity: Severity,
    /// The value that was judged, when there is one.
    pub found: Option<Named>,
    /// What it was held against.
    pub limit: Option<Limit>,
    /// What would put it in order; empty when it is.
    pub ways_out: List<WayOut, MOST_WAYS_OUT>,
}

/// The verdict over all checks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Every check passes.
    Accepted,
    /// Nothing stands against it, something is to be looked at.
    AcceptedWithWarnings,
    /// Something stands against it.
    Refused,
}

impl Fit {
    /// The verdict over a list of checks: the gravest of them.
    ///
    /// ```
    /// use arcminute_core::fit::Fit;
    /// assert_eq!(Fit::of(&[]), Fit::Accepted, "nothing stands against it");
    /// ```
    #[must_use]
    pub fn of(checks: &[Check]) -> Self {
        Self::worst(checks.iter().map(|check| check.severity))
    }

    /// The verdict over several severities: the gravest of them.
    ///
    /// ```
    /// use arcminute_core::fit::{Fit, Severity};
    /// assert_eq!(Fit::worst([Severity::Pass, Severity::Warning]), Fit::AcceptedWithWarnings);
    /// ```
    #[must_use]
    pub fn worst(severities: impl IntoIterator<Item = Severity>) -> Self {
        match severities.into_iter().max() {
            Some(Severity::Refuse) => Self::Refused,
            Some(Severity::Warning) => Self::AcceptedWithWarnings,
            Some(Severity::Pass) | None => Self::Accepted,
        }
    }
}

/// Every check that its inputs allow, in order of code.
///
/// A web below the least web is refused all round; so is a segment that does not keep its gap. Limits marked common
/// practice in the fitting reference only warn, but for these two.
///
/// # Example
/// ```
/// use arcminute_core::{fit::{check, mount, Context, Eye, Fit, Frame, MountingRequest}, unit::{Angle, Length}};
/// let mm = Length::from_mm;
/// let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("a usual frame");
/// let upright = MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0));
/// let tilted = MountingRequest { pantoscopic: Angle::from_degrees(8.0), ..upright };
/// let verdict = |request| Fit::of(&check(&mount(request).expect("possible"), &Context::default()));
/// assert_eq!(verdict(&upright), Fit::AcceptedWithWarnings, "the fellow lens is not decided");
/// assert_eq!(verdict(&tilted), Fit::Refused, "2.6 mm of web");
/// ```
#[must_use]
pub fn check(mounting: &Mounting, context: &Context) -> List<Check, MOST_CHECKS> {
    let ways = if fits(mounting) { WaysOut::default() } else { ways_out(&mounting.request) };
    let mut checks = List::new();
    // In order of code. There is room for all of them.
    let mut add = |check| drop(checks.try_push(check));
    lens::webs(mounting, &ways).into_iter().for_each(&mut add);
    segment::checks(mounting, context, &ways).into_iter().flatten().for_each(&mut add);
    person::pd_sum(context).into_iter().for_each(&mut add);
    aim::on_pd(mounting, context).into_iter().for_each(&mut add);
    aim::ordered(mounting).into_iter().flatten().for_each(&mut add);
    lens::frame(mounting).into_iter().for_each(&mut add);
    add(lens::carrier_kind(context));
    lens::carrier_axis(context).into_iter().for_each(&mut add);
    person::which_eye(mounting, context).into_iter().for_each(&mut add);
    add(person::fellow_lens(mounting, context));
    person::weight(context).into_iter().for_each(&mut add);
    person::full_diameter(mounting, context).into_iter().for_each(&mut add);
    person::pair(mounting, context).into_iter().for_each(&mut add);
    aim::straight_ahead(mounting).into_iter().for_each(&mut add);
    lens::web_as_marked(mounting).into_iter().for_each(&mut add);
    checks
}

/// `found` against a limit: passes when `good`, otherwise weighs `severity` and offers `ways`.
fn judged(
    id: CheckId,
    good: bool,
    severity: Severity,
    found: Option<Named>,
    limit: Option<Limit>,
    ways: &[WayOut],
) -> Check {
    if good {
        return Check { id, severity: Severity::Pass, found, limit, ways_out: List::new() };
    }
    let mut ways_out = List::new();
    // No list is longer than there is room for.
    let _ = ways_out.try_push_all(ways);
    Check { id, severity, found, limit, ways_out }
}

fn mm(symbol: &'static str, length: Length) -> Named {
    Named::new(symbol, length.mm(), Unit::Millimetre)
}
fn degrees_of(degrees: f64) -> Angle {
    Angle::from_degrees(degrees)
}
fn degrees(symbol: &'static str, angle: Angle) -> Named {
    Named::new(symbol, angle.degrees(), Unit::Degree)
}
