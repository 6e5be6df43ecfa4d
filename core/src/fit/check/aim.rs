//! Checks of where the axis points.

use super::{Check, CheckId, Context, Limit, Severity, WayOut, degrees, judged, mm};
use crate::fit::mounting::Mounting;
use crate::fit::request::{Placement, TiltReference};
use crate::fit::ways_out::ROUNDING;
use crate::unit::{Angle, Length};
use alloc::vec::Vec;

/// Eyepiece beside the PD by at most this much, in millimetres.
const BESIDE: f64 = 0.5;
/// Ordered tilt away from the computed one by at most this much, in degrees.
const ASKEW: f64 = 3.0;

pub(super) fn checks(mounting: &Mounting, context: &Context) -> Vec<Check> {
    let mut checks = Vec::new();
    checks.extend(context.eyepiece_x.map(|made| on_pd(mounting, made)));
    checks.extend(ordered(mounting));
    if mounting.request.rule != Placement::Centred {
        let good = mounting.clearance.mm() >= -ROUNDING;
        let limit = Some(Limit::AtLeast(mm("clear", Length::ZERO)));
        let found = Some(mm("clear", mounting.clearance));
        let ways = [WayOut::HigherTelescope(-mounting.clearance), WayOut::OtherRule(Placement::PupilTop)];
        checks.push(judged(CheckId::StraightAhead, good, Severity::Warning, found, limit, &ways));
    }
    checks
}

/// C9, against the place that the PD gives at the ordered distance.
fn on_pd(mounting: &Mounting, made: Length) -> Check {
    let wanted = mounting.eyepiece.x;
    let beside = Length::from_mm(BESIDE);
    let good = (made - wanted).abs().mm() <= BESIDE + ROUNDING;
    let limit = Limit::Between(mm("X_e", wanted - beside), mm("X_e", wanted + beside));
    let ways = [WayOut::MoveEyepiece(wanted)];
    judged(CheckId::EyepieceOnPd, good, Severity::Warning, Some(mm("X_e", made)), Some(limit), &ways)
}

/// C10 to C12, for an ordered tilt.
fn ordered(mounting: &Mounting) -> Vec<Check> {
    let asked = &mounting.request;
    let (Some(to_carrier), Some(miss)) = (mounting.ordered_to_carrier, mounting.miss_distance) else {
        return Vec::new();
    };
    let computed = mounting.tilt_to_carrier;
    let askew = Angle::from_degrees(ASKEW);
    let ways = [WayOut::OrderTilt(computed)];
    let good = (to_carrier - computed).abs().degrees() <= ASKEW + ROUNDING;
    let limit = Limit::Between(degrees("tau_0", computed - askew), degrees("tau_0", computed + askew));
    let mut checks = Vec::new();
    let found = Some(degrees("tau_0", to_carrier));
    checks.push(judged(CheckId::TiltAsComputed, good, Severity::Warning, found, Some(limit), &ways));

    let stated = asked.tilt_reference != TiltReference::NotStated;
    let say = [WayOut::StateTiltReference];
    checks.push(judged(CheckId::TiltReferenceStated, stated, Severity::Warning, found, None, &say));

    if let Some(most) = mounting.miss_limit {
        let good = miss.abs().mm() <= most.mm() + ROUNDING;
        let limit = Some(Limit::AtMost(mm("miss", most)));
        let found = Some(mm("miss", miss));
        checks.push(judged(CheckId::AxisThroughEye, good, Severity::Warning, found, limit, &ways));
    }
    checks
}
