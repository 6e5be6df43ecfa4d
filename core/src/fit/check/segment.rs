//! Checks of a segment in the carrier.

use super::{Check, CheckId, Context, Limit, MOST_WAYS_OUT, Severity, WayOut, judged, mm};
use crate::fit::frame::Point;
use crate::fit::mounting::Mounting;
use crate::fit::ways_out::{ROUNDING, WaysOut};
use crate::list::List;
use crate::unit::Length;

/// Least depth of a segment that can be used; common practice, no source.
const USABLE_DEPTH: f64 = 10.0;
/// Top of the segment below the pupil by at least this much; common practice, no source.
const BELOW_PUPIL: f64 = 2.0;

/// C5 to C7, for a carrier with a segment.
pub(super) fn checks(mounting: &Mounting, context: &Context, ways: &WaysOut) -> Option<[Check; 3]> {
    let top = mounting.request.segment_height?;
    Some([below_eyepiece(mounting, top, ways), on_lens(mounting, context, top), below_pupil(mounting, top)])
}

/// C5.
fn below_eyepiece(mounting: &Mounting, top: Length, ways: &WaysOut) -> Check {
    let highest = mounting.segment_max;
    let sizes = [
        ways.highest_segment.map(WayOut::LowerSegment),
        Some(WayOut::HigherTelescope(top - highest)),
        ways.largest_barrel.map(WayOut::LargestBarrel),
        ways.smallest_box_height.map(WayOut::SmallestBoxHeight),
    ];
    let rules = ways.rules.iter().copied().map(WayOut::OtherRule);
    let mut list: List<WayOut, MOST_WAYS_OUT> = List::new();
    for way in sizes.into_iter().flatten().chain(rules).chain([WayOut::SingleVisionCarrier]) {
        // There is room for all of them.
        let _ = list.try_push(way);
    }
    let good = top.mm() <= highest.mm() + ROUNDING;
    let limit = Some(Limit::AtMost(mm("H_max", highest)));
    judged(CheckId::SegmentBelowEyepiece, good, Severity::Refuse, Some(mm("H_s", top)), limit, &list)
}

/// C6: off the lens is refused, too shallow only warns.
fn on_lens(mounting: &Mounting, context: &Context, top: Length) -> Check {
    let frame = &mounting.request.frame;
    let middle = mounting.request.monocular_pd - context.segment_inset.unwrap_or(Length::ZERO);
    let half = context.segment_width.map_or(Length::ZERO, |width| width / 2.0);
    let corners_on = [middle - half, middle + half]
        .into_iter()
        .all(|x| frame.signed_distance(Point { x, y: top }).mm() <= ROUNDING);
    let on = Length::ZERO < top && top < frame.box_height && corners_on;
    let severity = if on { Severity::Warning } else { Severity::Refuse };
    let good = on && top.mm() >= USABLE_DEPTH - ROUNDING;
    let limit = Some(Limit::AtLeast(mm("H_s", Length::from_mm(USABLE_DEPTH))));
    judged(
        CheckId::SegmentOnLens,
        good,
        severity,
        Some(mm("H_s", top)),
        limit,
        &[WayOut::SingleVisionCarrier],
    )
}

/// C7.
fn below_pupil(mounting: &Mounting, top: Length) -> Check {
    let highest = Length::from_mm(mounting.request.pupil_height.mm() - BELOW_PUPIL);
    let good = top.mm() <= highest.mm() + ROUNDING;
    let limit = Some(Limit::AtMost(mm("H_s", highest)));
    let ways = [WayOut::LowerSegment(highest)];
    judged(CheckId::SegmentBelowPupil, good, Severity::Warning, Some(mm("H_s", top)), limit, &ways)
}
