//! What would make a refused fit possible.

use super::mounting::{Mounting, mount};
use super::request::{MountingRequest, Placement};
use crate::bounds;
use crate::list::List;
use crate::unit::Length;

/// Most placement rules beside the one that was asked for: all of them, where it was put by hand.
pub(super) const OTHER_RULES: usize = Placement::ALL.len();

/// Changes of one thing at a time that make a fit possible; `None` where no value of it does.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WaysOut {
    /// Least box height B with which the fit is possible, all else unchanged.
    pub smallest_box_height: Option<Length>,
    /// Greatest barrel diameter with which the fit is possible, all else unchanged.
    pub largest_barrel: Option<Length>,
    /// How much farther the lens must reach below the pupil, all else unchanged; for what sits low.
    pub deeper_below: Option<Length>,
    /// Other placement rules under which the fit is possible.
    pub rules: List<Placement, OTHER_RULES>,
    /// Highest top of a segment that keeps its gap from the eyepiece; `None` when nothing of it would be on the lens.
    pub highest_segment: Option<Length>,
}

/// Shortfall that is a rounding error of the sum and not of the lens, in millimetres.
pub(super) const ROUNDING: f64 = 1e-6;

/// Whether web and segment gap are kept.
pub(super) fn fits(mounting: &Mounting) -> bool {
    let asked = &mounting.request;
    let web_kept = mounting.web.least.mm() >= asked.least_web.mm() - ROUNDING;
    web_kept && asked.segment_height.is_none_or(|top| top.mm() <= mounting.segment_max.mm() + ROUNDING)
}

/// The single changes that make this fit possible: least box height, greatest barrel, other rules, highest segment.
///
/// "Possible" means that the web is kept all round the opening and the segment keeps its gap. Box height and barrel are
/// searched in steps of two millimetres over [`bounds`] and then halved down to a millionth.
///
/// ```
/// use arcminute_core::{fit::{ways_out, Eye, Frame, MountingRequest}, unit::Length};
/// let mm = Length::from_mm;
/// let low = Frame::new(mm(48.0), mm(38.0), mm(20.0), mm(8.0)).expect("a low frame");
/// let ways = ways_out(&MountingRequest::usual(Eye::Right, low, mm(31.5), mm(21.0), mm(14.0)));
/// assert!((ways.smallest_box_height.expect("a taller frame").mm() - 41.326).abs() < 5e-4);
/// assert!(ways.largest_barrel.expect("a thinner barrel").mm() > 10.0);
/// ```
#[must_use]
pub fn ways_out(request: &MountingRequest) -> WaysOut {
    let possible = |request: &MountingRequest| mount(request).is_ok_and(|mounting| fits(&mounting));
    let with_box_height = |height: f64| {
        let mut changed = *request;
        changed.frame.box_height = Length::from_mm(height);
        possible(&changed)
    };
    let with_barrel = |diameter: f64| {
        possible(&MountingRequest { barrel_radius: Length::from_mm(diameter / 2.0), ..*request })
    };
    let with_depth = |deeper: f64| {
        let mut changed = *request;
        let taller = request.frame.box_height.mm() + deeper;
        (changed.frame.box_height, changed.pupil_height) =
            (Length::from_mm(taller), request.pupil_height + Length::from_mm(deeper));
        possible(&changed)
    };
    let (low, high) = bounds::BOX_HEIGHT.possible;
    let (thin, thick) = bounds::BARREL.possible;
    let mut rules = List::new();
    for rule in Placement::ALL {
        // Below the straight-ahead view only near things are looked at.
        let for_it = rule != Placement::Low || request.working_distance.is_some();
        if for_it && rule != request.rule && possible(&MountingRequest { rule, ..*request }) {
            // There is room for every rule but the one asked for.
            let _ = rules.try_push(rule);
        }
    }
    WaysOut {
        smallest_box_height: first_possible(low, high, &with_box_height).map(Length::from_mm),
        deeper_below: (request.rule == Placement::Low)
            .then(|| first_possible(0.0, high, &with_depth))
            .flatten()
            .map(Length::from_mm),
        largest_barrel: first_possible(thick, thin, &with_barrel).map(Length::from_mm),
        rules,
        highest_segment: mount(request).ok().map(|m| m.segment_max).filter(|top| *top > Length::ZERO),
    }
}

/// The first possible value on the way from `from` to `to`.
pub(super) fn first_possible(from: f64, to: f64, possible: &dyn Fn(f64) -> bool) -> Option<f64> {
    let step = if from < to { 2.0 } else { -2.0 };
    let mut before = None;
    let mut value = from;
    while (to - value) * step >= 0.0 {
        if possible(value) {
            return Some(before.map_or(value, |not| halved(not, value, possible)));
        }
        before = Some(value);
        value += step;
    }
    None
}

/// The value between an impossible and a possible one where it becomes possible, on the possible side.
pub(super) fn halved(mut impossible: f64, mut good: f64, possible: &dyn Fn(f64) -> bool) -> f64 {
    for _ in 0..21 {
        let middle = (impossible + good) / 2.0;
        if possible(middle) {
            good = middle;
        } else {
            impossible = middle;
        }
    }
    good
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::{Eye, Frame};

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn usual(box_height: f64, pupil_height: f64, barrel: f64) -> MountingRequest {
        let frame = Frame::new(mm(48.0), mm(box_height), mm(20.0), mm(8.0)).expect("a usual frame");
        MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(pupil_height), mm(barrel))
    }

    /// By hand: a low eyepiece of 14 mm below a pupil of 4 mm at 23 mm, without any tilt 3.5 mm of lens below the opening. The
    /// tilt makes its oval taller, so more is wanted than for 3 mm; deeper by that, the web is there, and not by a tenth less.
    #[test]
    fn a_low_one_wants_a_deeper_frame() {
        let request = MountingRequest {
            rule: Placement::Low,
            working_distance: Some(mm(400.0)),
            ..usual(44.0, 19.0, 14.0)
        };
        let deeper = ways_out(&request).deeper_below.expect("a deeper frame helps").mm();
        let with = |deeper: f64| {
            let mut changed = request;
            changed.frame.box_height = mm(44.0 + deeper);
            changed.pupil_height = mm(19.0 + deeper);
            mount(&changed).is_ok_and(|mounting| fits(&mounting))
        };
        assert!(deeper > 0.1 && with(deeper) && !with(deeper - 0.1), "{deeper} mm deeper");
        let above = MountingRequest { rule: Placement::PupilTop, ..request };
        assert_eq!(ways_out(&above).deeper_below, None, "it does not help above");
    }

    /// By hand: pupil at 23 mm, its radius 2 mm, gap 10 mm; the top may be at 15 mm.
    #[test]
    fn a_segment_may_reach_up_to_its_gap() {
        for (top, kept) in [(15.0, true), (14.9, true), (15.1, false)] {
            let request = MountingRequest { segment_height: Some(mm(top)), ..usual(44.0, 23.0, 14.0) };
            assert_eq!(fits(&mount(&request).expect("possible")), kept, "top at {top} mm");
        }
    }

    /// By hand, with the eyepiece centred on the pupil: 17 mm less 7 mm of barrel less 10 mm is the edge of the lens.
    #[test]
    fn a_segment_of_no_height_is_no_way_out() {
        for (pupil_height, highest) in [(16.0, None), (17.0, None), (18.0, Some(1.0))] {
            let request = MountingRequest { rule: Placement::Centred, ..usual(44.0, pupil_height, 14.0) };
            assert_eq!(
                ways_out(&request).highest_segment.map(Length::mm),
                highest,
                "pupil at {pupil_height}"
            );
        }
    }

    #[test]
    fn only_other_rules_that_help_are_named() {
        let fitting = usual(44.0, 23.0, 14.0);
        assert!(fits(&mount(&fitting).expect("possible")));
        assert_eq!(ways_out(&fitting).rules[..], [Placement::Highest, Placement::Centred]);
        let near = MountingRequest { working_distance: Some(mm(400.0)), ..usual(56.0, 34.0, 14.0) };
        let rules = [Placement::Highest, Placement::Centred, Placement::Low];
        assert_eq!(ways_out(&near).rules[..], rules, "the low place is for near only");
        // No opening of 23 mm leaves 3 mm above and below it in a lens of 24 mm.
        let low = usual(24.0, 12.0, 22.0);
        assert_eq!(ways_out(&low).rules[..], []);
    }
}
