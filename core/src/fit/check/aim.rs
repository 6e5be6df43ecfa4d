//! Checks of where the axis points.

use super::{Check, CheckId, Context, Limit, Severity, WayOut, degrees, judged, mm};
use crate::fit::mounting::Mounting;
use crate::fit::request::{Placement, TiltReference};
use crate::fit::ways_out::ROUNDING;
use crate::unit::{Angle, Length};

/// Eyepiece beside the PD by at most this much, in millimetres.
const BESIDE: f64 = 0.5;
/// Ordered tilt away from the computed one by at most this much, in degrees.
const ASKEW: f64 = 3.0;

/// C9, against the place that the PD gives at the ordered distance, once the made place is known.
pub(super) fn on_pd(mounting: &Mounting, context: &Context) -> Option<Check> {
    let by_hand = match mounting.request.rule {
        Placement::ByHand(place) => Some(place.x),
        _ => None,
    };
    let made = context.eyepiece_x.or(by_hand)?;
    let wanted = mounting.line_of_sight;
    let beside = Length::from_mm(BESIDE);
    let good = (made - wanted).abs().mm() <= BESIDE + ROUNDING;
    let limit = Limit::Between(mm("X_e", wanted - beside), mm("X_e", wanted + beside));
    let ways = [WayOut::MoveEyepiece(wanted)];
    Some(judged(CheckId::EyepieceOnPd, good, Severity::Warning, Some(mm("X_e", made)), Some(limit), &ways))
}

/// C10 to C12, for an ordered tilt.
pub(super) fn ordered(mounting: &Mounting) -> [Option<Check>; 3] {
    let asked = &mounting.request;
    let (Some(to_carrier), Some(miss)) = (mounting.ordered_to_carrier, mounting.miss_distance) else {
        return [None, None, None];
    };
    let computed = mounting.tilt_to_carrier;
    let askew = Angle::from_degrees(ASKEW);
    let ways = [WayOut::OrderTilt(computed)];
    let good = (to_carrier - computed).abs().degrees() <= ASKEW + ROUNDING;
    let limit = Limit::Between(degrees("tau_0", computed - askew), degrees("tau_0", computed + askew));
    let found = Some(degrees("tau_0", to_carrier));
    let as_computed = judged(CheckId::TiltAsComputed, good, Severity::Warning, found, Some(limit), &ways);

    let stated = asked.tilt_reference != TiltReference::NotStated;
    let say = [WayOut::StateTiltReference];
    let reference = judged(CheckId::TiltReferenceStated, stated, Severity::Warning, found, None, &say);

    let through_eye = mounting.miss_limit.map(|most| {
        let good = miss.abs().mm() <= most.mm() + ROUNDING;
        let limit = Some(Limit::AtMost(mm("miss", most)));
        judged(CheckId::AxisThroughEye, good, Severity::Warning, Some(mm("miss", miss)), limit, &ways)
    });
    [Some(as_computed), Some(reference), through_eye]
}

/// The straight-ahead view, for every rule but the centred one, which gives it up.
pub(super) fn straight_ahead(mounting: &Mounting) -> Option<Check> {
    if mounting.request.rule == Placement::Centred {
        return None;
    }
    let good = mounting.clearance.mm() >= -ROUNDING;
    let limit = Some(Limit::AtLeast(mm("clear", Length::ZERO)));
    let found = Some(mm("clear", mounting.clearance));
    let other = if mounting.rise < Length::ZERO { Placement::Low } else { Placement::PupilTop };
    let higher = [WayOut::HigherTelescope(-mounting.clearance), WayOut::OtherRule(other)];
    // One that stands below the middle of the pupil would have to go lower, which its rule does.
    let ways = if mounting.rise < Length::ZERO { &higher[1..] } else { &higher[..] };
    Some(judged(CheckId::StraightAhead, good, Severity::Warning, found, limit, ways))
}
