//! Checks of the person: which eye, both eyes together, weight, use.

use super::{Check, CheckId, Context, Grams, Limit, Severity, WayOut, judged, mm};
use crate::explain::{Named, Unit};
use crate::fit::mounting::Mounting;
use crate::fit::request::{Eye, Placement};
use crate::fit::ways_out::ROUNDING;
use crate::unit::{Length, LogMar};
use alloc::vec::Vec;

/// The two monocular PDs may miss the binocular one by this much, in millimetres.
const PD_SLACK: f64 = 0.5;
/// Weight of a front that the nose carries; common practice, no source.
const HEAVY: Grams = Grams(60.0);

pub(super) fn checks(mounting: &Mounting, context: &Context) -> Vec<Check> {
    let mut checks = Vec::new();
    if let (Some(right), Some(left), Some(both)) = (context.pd_right, context.pd_left, context.pd_both) {
        checks.push(sum_is(CheckId::PdSum, right + left, both, &[WayOut::MeasurePdAgain]));
    }
    checks.extend(which_eye(mounting, context));
    let decided = context.fellow_lens.is_some() || context.fellow_mounting.is_some();
    let ways = [WayOut::DecideFellowLens];
    checks.push(judged(CheckId::FellowLens, decided, Severity::Warning, None, None, &ways));
    if let Some(Grams(weight)) = context.front_weight {
        let grams = |value| Named::new("weight", value, Unit::Gram);
        let (found, limit) = (Some(grams(weight)), Some(Limit::AtMost(grams(HEAVY.0))));
        let ways = [WayOut::CarryTheWeight];
        checks.push(judged(CheckId::Weight, weight <= HEAVY.0, Severity::Warning, found, limit, &ways));
    }
    if mounting.request.rule == Placement::Centred {
        let severity = if context.worn_walking { Severity::Refuse } else { Severity::Warning };
        checks.push(judged(CheckId::FullDiameter, false, severity, None, None, &[WayOut::SeatedOnly]));
    }
    checks.extend(context.fellow_mounting.map(|fellow| pair(mounting, &fellow, context.pd_both)));
    checks
}

/// A sum of two halves against a whole.
fn sum_is(id: CheckId, sum: Length, whole: Length, ways: &[WayOut]) -> Check {
    let slack = Length::from_mm(PD_SLACK);
    let good = (sum - whole).abs().mm() <= PD_SLACK + ROUNDING;
    let limit = Limit::Between(mm("PD", whole - slack), mm("PD", whole + slack));
    judged(id, good, Severity::Warning, Some(mm("PD", sum)), Some(limit), ways)
}

/// C16, once an acuity is known: the eye has one, and not the worse one. A higher logMAR is worse.
fn which_eye(mounting: &Mounting, context: &Context) -> Option<Check> {
    let (this, fellow) = match mounting.request.eye {
        Eye::Right => (context.acuity_right, context.acuity_left),
        Eye::Left => (context.acuity_left, context.acuity_right),
    };
    if this.is_none() && fellow.is_none() {
        return None;
    }
    let good = this.is_some_and(|this| fellow.is_none_or(|fellow| this <= fellow));
    let named = |acuity: LogMar| Named::new("logMAR", acuity.log(), Unit::LogMar);
    let limit = fellow.map(named).map(Limit::AtMost);
    let ways = [WayOut::ConfirmEye];
    Some(judged(CheckId::WhichEye, good, Severity::Warning, this.map(named), limit, &ways))
}

/// C20: two eyes, one working distance, and eyepieces as far apart as the PD asks at that distance.
fn pair(mounting: &Mounting, fellow: &Mounting, pd_both: Option<Length>) -> Check {
    let (one, other) = (&mounting.request, &fellow.request);
    if one.eye == other.eye {
        return judged(CheckId::Pair, false, Severity::Refuse, None, None, &[WayOut::ConfirmEye]);
    }
    if one.working_distance != other.working_distance {
        return judged(CheckId::Pair, false, Severity::Refuse, None, None, &[WayOut::OneWorkingDistance]);
    }
    let pd = pd_both.unwrap_or(one.monocular_pd + other.monocular_pd);
    let wanted = one.working_distance.map_or(pd, |w| pd * (w / (w + one.stop_distance())));
    sum_is(CheckId::Pair, mounting.eyepiece.x + fellow.eyepiece.x, wanted, &[WayOut::MeasurePdAgain])
}
