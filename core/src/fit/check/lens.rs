//! Checks of the opening, the frame and the carrier lens.

use super::{Carrier, Check, CheckId, Context, Limit, Severity, WayOut, judged, mm};
use crate::bounds;
use crate::fit::mounting::Mounting;
use crate::fit::request::Placement;
use crate::fit::ways_out::{ROUNDING, WaysOut};
use crate::unit::{Length, Vergence};
use alloc::vec::Vec;

/// Least box height for a telescope above the pupil; common practice, no source.
const TALL_ENOUGH: f64 = 36.0;

pub(super) fn checks(mounting: &Mounting, context: &Context, ways: &WaysOut) -> Vec<Check> {
    let mut checks = webs(mounting, ways);
    checks.extend(frame(mounting));
    let plain = matches!(context.carrier, Carrier::SingleVision | Carrier::Bifocal);
    let ways = [WayOut::SingleVisionCarrier];
    checks.push(judged(CheckId::CarrierKind, plain, Severity::Warning, None, None, &ways));
    if let Some(cylinder) = context.carrier_cylinder {
        let in_order = cylinder == Vergence::ZERO || !context.carrier_turned;
        let ways = [WayOut::MarkAxisAgain];
        checks.push(judged(CheckId::CarrierAxis, in_order, Severity::Warning, None, None, &ways));
    }
    checks
}

/// C1 to C4, and the web as marked.
fn webs(mounting: &Mounting, ways: &WaysOut) -> Vec<Check> {
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
    let mut checks: Vec<Check> = [
        (CheckId::WebAllRound, mounting.web.least),
        (CheckId::WebAbove, Length::from_mm(above)),
        (CheckId::WebNasal, Length::from_mm(nasal)),
        (CheckId::WebTemporal, Length::from_mm(temporal)),
    ]
    .into_iter()
    .map(|(id, web)| judged(id, enough(web, least), Severity::Refuse, Some(mm("web", web)), limit, &ways))
    .collect();
    if enough(mounting.web.least, least) {
        let marked = mounting.web_as_marked().least;
        let (good, found) = (enough(marked, least), Some(mm("web", marked)));
        let ways = [WayOut::MarkExactly];
        checks.push(judged(CheckId::WebAsMarked, good, Severity::Warning, found, limit, &ways));
    }
    checks
}

fn enough(web: Length, least: Length) -> bool {
    web.mm() >= least.mm() - ROUNDING
}

fn web_ways(ways: &WaysOut) -> Vec<WayOut> {
    let mut list = Vec::new();
    list.extend(ways.smallest_box_height.map(WayOut::SmallestBoxHeight));
    list.extend(ways.largest_barrel.map(WayOut::LargestBarrel));
    list.extend(ways.rules.iter().copied().map(WayOut::OtherRule));
    list
}

/// C13, one check for each size: B (with the height a superior telescope wants), A, DBL.
fn frame(mounting: &Mounting) -> Vec<Check> {
    let asked = &mounting.request;
    let mut height = bounds::BOX_HEIGHT.usual;
    if asked.rule != Placement::Centred {
        height.0 = TALL_ENOUGH;
    }
    [
        ("B", asked.frame.box_height, height),
        ("A", asked.frame.box_width, bounds::BOX_WIDTH.usual),
        ("DBL", asked.frame.bridge, bounds::BRIDGE.usual),
    ]
    .into_iter()
    .map(|(symbol, size, (low, high))| {
        let good = low - ROUNDING <= size.mm() && size.mm() <= high + ROUNDING;
        let limit = Limit::Between(mm(symbol, Length::from_mm(low)), mm(symbol, Length::from_mm(high)));
        judged(CheckId::FrameUsual, good, Severity::Warning, Some(mm(symbol, size)), Some(limit), &[])
    })
    .collect()
}
