//! Checks of a segment in the carrier.

use super::{Check, CheckId, Context, Limit, MOST_WAYS_OUT, Severity, WayOut, judged, mm};
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
    let width = context.segment_width.unwrap_or(Length::ZERO);
    // Twice what is left from the middle of the segment to the nearer end of the lens.
    let widest = frame
        .ends_at(top)
        .filter(|_| Length::ZERO < top && top < frame.box_height)
        .map(|(nasal, temporal)| (middle - nasal).min(temporal - middle) * 2.0);
    let (id, single_vision) = (CheckId::SegmentOnLens, WayOut::SingleVisionCarrier);
    if let Some(widest) = widest.filter(|widest| widest.mm() < width.mm() - ROUNDING) {
        let ways = [WayOut::NarrowerSegment(widest), single_vision];
        // Of a segment whose middle is off the lens no width is left.
        let ways = if Length::ZERO < widest { &ways[..] } else { &ways[1..] };
        let limit = Some(Limit::AtMost(mm("width", widest)));
        return judged(id, false, Severity::Refuse, Some(mm("width", width)), limit, ways);
    }
    let severity = if widest.is_some() { Severity::Warning } else { Severity::Refuse };
    let good = widest.is_some() && top.mm() >= USABLE_DEPTH - ROUNDING;
    let limit = Some(Limit::AtLeast(mm("H_s", Length::from_mm(USABLE_DEPTH))));
    judged(id, good, severity, Some(mm("H_s", top)), limit, &[single_vision])
}

/// C7.
fn below_pupil(mounting: &Mounting, top: Length) -> Check {
    let highest = Length::from_mm(mounting.request.pupil_height.mm() - BELOW_PUPIL);
    let good = top.mm() <= highest.mm() + ROUNDING;
    let limit = Some(Limit::AtMost(mm("H_s", highest)));
    let ways = [WayOut::LowerSegment(highest)];
    judged(CheckId::SegmentBelowPupil, good, Severity::Warning, Some(mm("H_s", top)), limit, &ways)
}
