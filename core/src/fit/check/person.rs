//! Checks of the person: which eye, both eyes together, weight, use.

use super::{Check, CheckId, Context, FellowLens, Grams, Limit, Severity, WayOut, degrees, judged, mm};
use crate::explain::{Named, Unit};
use crate::fit::mounting::Mounting;
use crate::fit::request::Placement;
use crate::fit::turned_over::{TurnedOver, turned_over};
use crate::fit::ways_out::ROUNDING;
use crate::refraction::Eye;
use crate::unit::{Angle, Length, LogMar};

/// The two monocular PDs may miss the binocular one by this much, in millimetres.
const PD_SLACK: f64 = 0.5;
/// Head drops of a pair may differ by this much, in degrees; assumed here, no source. Both eyes have to bring the two images
/// together, which are apart by this times the magnification.
const UNLEVEL: f64 = 0.5;
/// Weight of a front that the nose carries; common practice, no source.
const HEAVY: Grams = Grams(60.0);

/// C8, once all three are known.
pub(super) fn pd_sum(context: &Context) -> Option<Check> {
    let sum = context.pd_right.zip(context.pd_left).map(|(right, left)| right + left);
    pds_add_up(sum, context.pd_both)
}

/// The sum of the monocular PDs against the binocular one.
pub(super) fn pds_add_up(sum: Option<Length>, both: Option<Length>) -> Option<Check> {
    Some(sum_is(CheckId::PdSum, sum?, both?, &[WayOut::MeasurePdAgain]))
}

/// C17: decided, and a telescope that is turned over points at the fellow eye, as far as that eye and the exit pupil are
/// known.
pub(super) fn fellow_lens(mounting: &Mounting, context: &Context) -> Check {
    let ways = [WayOut::DecideFellowLens];
    if context.fellow_lens == Some(FellowLens::FlipOver)
        && let Some(turned) = turned(mounting, context)
    {
        let good = turned.limit.is_none_or(|most| turned.miss.mm() <= most.mm() + ROUNDING);
        let limit = turned.limit.map(|most| Limit::AtMost(mm("miss_f", most)));
        let found = Some(mm("miss_f", turned.miss));
        return judged(CheckId::FellowLens, good, Severity::Warning, found, limit, &ways);
    }
    let decided = context.fellow_lens.is_some() || context.fellow_mounting.is_some();
    judged(CheckId::FellowLens, decided, Severity::Warning, None, None, &ways)
}

fn turned(mounting: &Mounting, context: &Context) -> Option<TurnedOver> {
    let pd = match mounting.request.eye {
        Eye::Right => context.pd_left,
        Eye::Left => context.pd_right,
    };
    turned_over(mounting, pd?, context.fellow_height?).ok()
}

/// C18, once the weight is known.
pub(super) fn weight(context: &Context) -> Option<Check> {
    weight_of(context.front_weight)
}

/// The weight of a front, once it is known.
pub(super) fn weight_of(front: Option<Grams>) -> Option<Check> {
    let Grams(weight) = front?;
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
    Some(seated_only(CheckId::FullDiameter, context.worn_walking))
}

/// What is for use seated: said each time, and refused for walking.
pub(super) fn seated_only(id: CheckId, worn_walking: bool) -> Check {
    let severity = if worn_walking { Severity::Refuse } else { Severity::Warning };
    judged(id, false, severity, None, None, &[WayOut::SeatedOnly])
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

/// C20, once there is a telescope before each eye: one working distance, one head drop, and eyepieces as far apart as the PD
/// asks at that distance.
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
    let (drop, other_drop) = (mounting.head_drop, fellow.head_drop);
    if (drop - other_drop).abs().degrees() > UNLEVEL + ROUNDING {
        let unlevel = Angle::from_degrees(UNLEVEL);
        let (from, to) = (degrees("beta", other_drop - unlevel), degrees("beta", other_drop + unlevel));
        let (found, limit) = (Some(degrees("beta", drop)), Some(Limit::Between(from, to)));
        return Some(judged(CheckId::Pair, false, Severity::Warning, found, limit, &[WayOut::OneRise]));
    }
    // Each eye by its own depth behind its lens; a binocular PD that is not the sum is shared out in proportion.
    let sum = one.monocular_pd + other.monocular_pd;
    let share = context.pd_both.map_or(1.0, |both| both / sum);
    let wanted = (mounting.line_of_sight + fellow.line_of_sight) * share;
    Some(sum_is(CheckId::Pair, mounting.eyepiece.x + fellow.eyepiece.x, wanted, &[WayOut::MeasurePdAgain]))
}
