//! Checks of near spectacles.

use super::{Check, CheckId, Limit, Severity, WayOut, degrees_of, judged, lens, mm, person};
use crate::bounds;
use crate::explain::{Named, Unit};
use crate::fit::blank::blank_for;
use crate::fit::near_spectacles::{NearLensFit, NearSpectacles, change_of};
use crate::fit::ways_out::{ROUNDING, first_possible, halved};
use crate::list::List;
use crate::refraction::{Eye, TiltAbout, Tilted, tilted};
use crate::unit::{Angle, Length, Prism, Vergence};

/// Least lens on every side of the optical centre, in millimetres; common practice, no source.
const LEAST_ROOM: f64 = 10.0;
/// Most that a tilt may change a meridian, in dioptres; common practice, no source.
const MOST_CHANGE: f64 = 0.25;
/// Two additions, or an addition and its print, may differ by this much, in dioptres; common practice, no source.
const SAME_FOCUS: f64 = 0.25;

/// Most checks of near spectacles: five of each lens; frame for each of its sizes, PD, weight, walking and the two
/// distances together.
pub const MOST_NEAR_CHECKS: usize = 2 * 5 + 3 + 4;

/// A check of near spectacles, and the eye whose lens it is about.
#[derive(Clone, Debug, PartialEq)]
pub struct NearCheck {
    /// The eye; `None` for both together and the frame.
    pub eye: Option<Eye>,
    /// The check.
    pub check: Check,
}

/// Every check of near spectacles that its inputs allow: those of the right lens, of the left one, of both together.
///
/// Limits are common practice; only a lens that cannot be made is refused, and one worn for walking.
///
/// ```
/// use arcminute_core::fit::{Fit, Frame, NearLens, NearSpectaclesRequest, check_near, fit_near_spectacles};
/// use arcminute_core::unit::{Length, Vergence};
/// let mm = Length::from_mm;
/// let frame = Frame::new(mm(48.0), mm(36.0), mm(20.0), mm(8.0))?;
/// let lens = NearLens::of_add(mm(32.0), mm(18.0), Vergence::from_dioptres(8.0));
/// let pair = NearSpectaclesRequest::usual(frame, Some(lens), Some(lens), mm(125.0));
/// let verdict = |request| -> Result<Fit, arcminute_core::Error> {
///     Ok(Fit::worst(check_near(&fit_near_spectacles(&request)?).iter().map(|near| near.check.severity)))
/// };
/// assert_eq!(verdict(pair)?, Fit::AcceptedWithWarnings, "for use seated");
/// assert_eq!(verdict(NearSpectaclesRequest { worn_walking: true, ..pair })?, Fit::Refused);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
#[must_use]
pub fn check_near(near: &NearSpectacles) -> List<NearCheck, MOST_NEAR_CHECKS> {
    let request = &near.request;
    let mut checks = List::new();
    // There is room for all of them.
    let mut add = |eye, check| drop(checks.try_push(NearCheck { eye, check }));
    for lens in [&near.right, &near.left].into_iter().flatten() {
        let of_lens = [
            blank_size(lens),
            Some(centre_on_lens(lens)),
            Some(prism_ground_in(lens)),
            Some(tilt_changes_power(lens)),
            Some(in_focus(lens)),
        ];
        of_lens.into_iter().flatten().for_each(|check| add(Some(lens.eye), check));
    }
    lens::frame_sizes(&request.frame, bounds::BOX_HEIGHT.usual)
        .into_iter()
        .for_each(|check| add(None, check));
    let both = near.right.as_ref().zip(near.left.as_ref());
    let sum = both.map(|(right, left)| right.asked.monocular_pd + left.asked.monocular_pd);
    person::pds_add_up(sum, request.pd_both).into_iter().for_each(|check| add(None, check));
    person::weight_of(request.front_weight).into_iter().for_each(|check| add(None, check));
    both.map(one_distance).into_iter().for_each(|check| add(None, check));
    add(None, person::seated_only(CheckId::NearOnly, request.worn_walking));
    checks
}

/// C23, once the largest blank is known.
fn blank_size(lens: &NearLensFit) -> Option<Check> {
    let largest = lens.request.largest_blank?;
    let fits = |diameter: Length| diameter.mm() <= largest.mm() + ROUNDING;
    let frame = &lens.request.frame;
    let with_width = |width: f64| {
        let mut narrower = *frame;
        narrower.box_width = Length::from_mm(width);
        let blank = blank_for(&narrower, lens.optical_centre, lens.request.blank_allowance);
        narrower.verify().is_ok() && fits(blank.diameter)
    };
    let mut ways = List::<WayOut, 2>::of_one(WayOut::BlankOf(lens.blank.diameter));
    let narrower = first_possible(frame.box_width.mm(), bounds::BOX_WIDTH.possible.0, &with_width);
    // There is room for both.
    let _ = narrower.map(|width| ways.try_push(WayOut::NarrowerFrame(Length::from_mm(width))));
    let (found, limit) = (Some(mm("MBS", lens.blank.diameter)), Some(Limit::AtMost(mm("MBS", largest))));
    Some(judged(CheckId::BlankSize, fits(lens.blank.diameter), Severity::Refuse, found, limit, &ways))
}

/// C24: off the lens is refused, near its edge only warns.
fn centre_on_lens(lens: &NearLensFit) -> Check {
    let least = Length::from_mm(LEAST_ROOM);
    let good = lens.room.mm() >= LEAST_ROOM - ROUNDING;
    let severity = if lens.room < Length::ZERO { Severity::Refuse } else { Severity::Warning };
    let limit = Some(Limit::AtLeast(mm("room", least)));
    let ways = [WayOut::ReachBeyondCentre(least - lens.room)];
    judged(CheckId::CentreOnLens, good, severity, Some(mm("room", lens.room)), limit, &ways)
}

/// C25, against what ready-made pairs have; of either base.
fn prism_ground_in(lens: &NearLensFit) -> Check {
    let prism = |value| Named::new("delta", value, Unit::PrismDioptre);
    let worked = lens.asked.base_in.prism_dioptres();
    let most = bounds::BASE_IN.usual.1;
    let good = lens.asked.base_in.abs().prism_dioptres() <= most + ROUNDING;
    let limit = Some(Limit::Between(prism(-most), prism(most)));
    let ways = [WayOut::LessPrism(Prism::from_prism_dioptres(most))];
    judged(CheckId::PrismGroundIn, good, Severity::Warning, Some(prism(worked)), limit, &ways)
}

/// C26: the pantoscopic angle and the face form, the one that changes more.
fn tilt_changes_power(lens: &NearLensFit) -> Check {
    let change = |value| Named::new("dF", value, Unit::Dioptre);
    let kept = |change: Vergence| change.dioptres() <= MOST_CHANGE + ROUNDING;
    let [up_and_down, sideways] = lens.tilt_change;
    let mut ways = List::<WayOut, 3>::new();
    for (changed, effect, about) in [
        (up_and_down, &lens.pantoscopic_effect, TiltAbout::Horizontal),
        (sideways, &lens.face_form_effect, TiltAbout::Vertical),
    ] {
        if kept(changed) {
            continue;
        }
        if about == TiltAbout::Horizontal {
            // There is room for all of them.
            let _ = ways.try_push(WayOut::LowerCentre(lens.centre_for_tilt));
        }
        let _ = ways.try_push(WayOut::LessTilt(most_tilt(effect, about)));
    }
    let found = up_and_down.max(sideways);
    let limit = Some(Limit::AtMost(change(MOST_CHANGE)));
    let found_named = Some(change(found.dioptres()));
    judged(CheckId::TiltChangesPower, kept(found), Severity::Warning, found_named, limit, &ways)
}

/// The greatest tilt that changes this lens by no more than it may.
fn most_tilt(effect: &Tilted, about: TiltAbout) -> Angle {
    let kept = |degrees: f64| {
        tilted(effect.power, degrees_of(degrees), about)
            .is_ok_and(|tilted| change_of(&tilted).dioptres() <= MOST_CHANGE)
    };
    degrees_of(halved(effect.tilt.abs().degrees(), 0.0, &kept))
}

/// C27 of one lens: print farther away than where the addition is in focus stays blurred, whatever the eye does.
fn in_focus(lens: &NearLensFit) -> Check {
    let farthest = farthest_in_focus(lens.asked.add);
    let print = lens.request.print_to_lens;
    let good = farthest.is_none_or(|farthest| print.mm() <= farthest.mm() + ROUNDING);
    let limit = farthest.map(|farthest| Limit::AtMost(mm("u", farthest)));
    let ways = [WayOut::PrintAt(lens.in_focus_at)];
    judged(CheckId::OneDistance, good, Severity::Warning, Some(mm("u", print)), limit, &ways)
}

/// C27 of two lenses: their additions are in focus at one distance.
fn one_distance((right, left): (&NearLensFit, &NearLensFit)) -> Check {
    let good = (right.asked.add - left.asked.add).abs().dioptres() <= SAME_FOCUS + ROUNDING;
    let nearest = (left.asked.add + Vergence::from_dioptres(SAME_FOCUS)).focal_length();
    let limit = match farthest_in_focus(left.asked.add) {
        Some(farthest) => Limit::Between(mm("u_0", nearest), mm("u_0", farthest)),
        None => Limit::AtLeast(mm("u_0", nearest)),
    };
    let found = Some(mm("u_0", right.in_focus_at));
    judged(CheckId::OneDistance, good, Severity::Warning, found, Some(limit), &[WayOut::OneAddition])
}

/// How far away print is still taken for in focus; `None` where the addition is no more than what is let pass.
fn farthest_in_focus(add: Vergence) -> Option<Length> {
    let least = add - Vergence::from_dioptres(SAME_FOCUS);
    (Vergence::from_dioptres(ROUNDING) < least).then(|| least.focal_length())
}
