//! Checks of the opening, the frame and the carrier lens.

use super::{Carrier, Check, CheckId, Context, Limit, MOST_WAYS_OUT, Severity, WayOut, judged, mm};
use crate::bounds;
use crate::fit::frame::Frame;
use crate::fit::mounting::Mounting;
use crate::fit::request::Placement;
use crate::fit::ways_out::{ROUNDING, WaysOut};
use crate::list::List;
use crate::unit::{Length, Vergence};

/// Least box height for a telescope above the pupil; common practice, no source.
const TALL_ENOUGH: f64 = 36.0;

/// C14.
pub(super) fn carrier_kind(context: &Context) -> Check {
    let plain = matches!(context.carrier, Carrier::SingleVision | Carrier::Bifocal);
    let ways = [WayOut::SingleVisionCarrier];
    judged(CheckId::CarrierKind, plain, Severity::Warning, None, None, &ways)
}

/// C15, for a carrier whose cylinder is known.
pub(super) fn carrier_axis(context: &Context) -> Option<Check> {
    let cylinder = context.carrier_cylinder?;
    let in_order = cylinder == Vergence::ZERO || !context.carrier_turned;
    let ways = [WayOut::MarkAxisAgain];
    Some(judged(CheckId::CarrierAxis, in_order, Severity::Warning, None, None, &ways))
}

/// C1 to C4.
pub(super) fn webs(mounting: &Mounting, ways: &WaysOut) -> [Check; 4] {
    let asked = &mounting.request;
    let (x, y) = (mounting.eyepiece.x.mm(), mounting.eyepiece.y.mm());
    let (half_width, half_height) = (mounting.hole_half_width.mm(), mounting.hole_half_height.mm());
    let nasal_side = asked.frame.bridge.mm() / 2.0;
    let above = asked.frame.box_height.mm() - (y + half_height);
    let nasal = x - half_width - nasal_side;
    let temporal = nasal_side + asked.frame.box_width.mm() - (x + half_width);
    let least = asked.least_web;
    let limit = Some(Limit::AtLeast(mm("m", least)));
    let ways = web_ways(ways);
    [
        (CheckId::WebAllRound, mounting.web.least),
        (CheckId::WebAbove, Length::from_mm(above)),
        (CheckId::WebNasal, Length::from_mm(nasal)),
        (CheckId::WebTemporal, Length::from_mm(temporal)),
    ]
    .map(|(id, web)| judged(id, enough(web, least), Severity::Refuse, Some(mm("web", web)), limit, &ways))
}

/// The web as marked, where the exact place keeps it.
pub(super) fn web_as_marked(mounting: &Mounting) -> Option<Check> {
    let least = mounting.request.least_web;
    if !enough(mounting.web.least, least) {
        return None;
    }
    let marked = mounting.web_as_marked().least;
    let (good, found) = (enough(marked, least), Some(mm("web", marked)));
    let limit = Some(Limit::AtLeast(mm("m", least)));
    Some(judged(CheckId::WebAsMarked, good, Severity::Warning, found, limit, &[WayOut::MarkExactly]))
}

fn enough(web: Length, least: Length) -> bool {
    web.mm() >= least.mm() - ROUNDING
}

fn web_ways(ways: &WaysOut) -> List<WayOut, MOST_WAYS_OUT> {
    let mut list = List::new();
    let sizes = [
        ways.smallest_box_height.map(WayOut::SmallestBoxHeight),
        ways.largest_barrel.map(WayOut::LargestBarrel),
        ways.deeper_below.map(WayOut::DeeperBelow),
    ];
    let rules = ways.rules.iter().copied().map(WayOut::OtherRule);
    for way in sizes.into_iter().flatten().chain(rules) {
        // There is room for all of them.
        let _ = list.try_push(way);
    }
    list
}

/// C13, with the height a superior telescope wants.
pub(super) fn frame(mounting: &Mounting) -> [Check; 3] {
    let asked = &mounting.request;
    let mut height = bounds::BOX_HEIGHT.usual;
    if !matches!(asked.rule, Placement::Centred | Placement::Low) {
        height.0 = TALL_ENOUGH;
    }
    frame_sizes(&asked.frame, height)
}

/// One check for each size: B within this height, A, DBL.
pub(super) fn frame_sizes(frame: &Frame, height: (f64, f64)) -> [Check; 3] {
    [
        ("B", frame.box_height, height),
        ("A", frame.box_width, bounds::BOX_WIDTH.usual),
        ("DBL", frame.bridge, bounds::BRIDGE.usual),
    ]
    .map(|(symbol, size, (low, high))| {
        let good = low - ROUNDING <= size.mm() && size.mm() <= high + ROUNDING;
        let limit = Limit::Between(mm(symbol, Length::from_mm(low)), mm(symbol, Length::from_mm(high)));
        judged(CheckId::FrameUsual, good, Severity::Warning, Some(mm(symbol, size)), Some(limit), &[])
    })
}
