//! Checks of the person: which eye, both eyes together, weight, use.

use super::{Check, CheckId, Context, Grams, Limit, Severity, WayOut, judged, mm};
use crate::explain::{Named, Unit};
use crate::fit::mounting::Mounting;
use crate::fit::request::Placement;
use crate::fit::ways_out::ROUNDING;
use crate::refraction::Eye;
use crate::unit::{Length, LogMar};

/// The two monocular PDs may miss the binocular one by this much, in millimetres.
const PD_SLACK: f64 = 0.5;
/// Weight of a front that the nose carries; common practice, no source.
const HEAVY: Grams = Grams(60.0);

/// C8, once all three are known.
pub(super) fn pd_sum(context: &Context) -> Option<Check> {
    let sum = context.pd_right? + context.pd_left?;
    Some(sum_is(CheckId::PdSum, sum, context.pd_both?, &[WayOut::MeasurePdAgain]))
}

/// C17.
pub(super) fn fellow_lens(context: &Context) -> Check {
    let decided = context.fellow_lens.is_some() || context.fellow_mounting.is_some();
    let ways = [WayOut::DecideFellowLens];
    judged(CheckId::FellowLens, decided, Severity::Warning, None, None, &ways)
}

/// C18, once the weight is known.
pub(super) fn weight(context: &Context) -> Option<Check> {
    let Grams(weight) = context.front_weight?;
    let grams = |value| Named::new("weight", value, Unit::Gram);
    let (found, limit) = (Some(grams(weight)), Some(Limit::AtMost(grams(HEAVY.0))));
    let ways = [WayOut::CarryTheWeight];
    Some(judged(CheckId::Weight, weight <= HEAVY.0, Severity::Warning, found, limit, &ways))
}

/// C19, for the centred rule.
pub(super) fn full_diameter(mounting: &Mounting, context: &Context) -> Option<Check> {
    if mounting.request.rule != Placement::Centred {
        return None;
    }
    let severity = if context.worn_walking { Severity::Refuse } else { Severity::Warning };
    Some(judged(CheckId::FullDiameter, false, severity, None, None, &[WayOut::SeatedOnly]))
}

/// A sum of two halves against a whole.
fn sum_is(id: CheckId, sum: Length, whole: Length, ways: &[WayOut]) -> Check {
    let slack = Length::from_mm(PD_SLACK);
    let good = (sum - whole).abs().mm() <= PD_SLACK + ROUNDING;
    let limit = Limit::Between(mm("PD", whole - slack), mm("PD", whole + slack));
    judged(id, good, Severity::Warning, Some(mm("PD", sum)), Some(limit), ways)
}

/// C16, once an acuity is known: the eye has one, and not the worse one. A higher logMAR is worse.
pub(super) fn which_eye(mounting: &Mounting, context: &Context) -> Option<Check> {
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

/// C20, once there is a telescope before each eye: one working distance, and eyepieces as far apart as the PD asks at
/// that distance.
pub(super) fn pair(mounting: &Mounting, context: &Context) -> Option<Check> {
    let fellow = context.fellow_mounting?;
    let (one, other) = (&mounting.request, &fellow.request);
    if one.eye == other.eye {
        return Some(judged(CheckId::Pair, false, Severity::Refuse, None, None, &[WayOut::ConfirmEye]));
    }
    if one.working_distance != other.working_distance {
        let ways = [WayOut::OneWorkingDistance];
        return Some(judged(CheckId::Pair, false, Severity::Refuse, None, None, &ways));
    }
    let pd = context.pd_both.unwrap_or(one.monocular_pd + other.monocular_pd);
    let wanted = one.working_distance.map_or(pd, |w| pd * (w / (w + one.stop_distance())));
    Some(sum_is(CheckId::Pair, mounting.eyepiece.x + fellow.eyepiece.x, wanted, &[WayOut::MeasurePdAgain]))
}
