//! Each check of near spectacles passes and fails where it should, and offers what it should.

use super::{Check, CheckId, Fit, Grams, Limit, MOST_NEAR_CHECKS, NearCheck, Severity, WayOut, check_near};
use crate::fit::{Centration, Eye, Frame, NearLens, NearSpectaclesRequest, fit_near_spectacles};
use crate::list::List;
use crate::unit::{Angle, Length, Prism, Vergence};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}
fn d(value: f64) -> Vergence {
    Vergence::from_dioptres(value)
}
fn lens(add: f64) -> NearLens {
    NearLens::of_add(mm(32.0), mm(18.0), d(add))
}
fn usual() -> NearSpectaclesRequest {
    let frame = Frame::new(mm(48.0), mm(36.0), mm(20.0), mm(8.0)).expect("a usual frame");
    NearSpectaclesRequest::usual(frame, Some(lens(8.0)), Some(lens(8.0)), mm(125.0))
}

fn checked(request: NearSpectaclesRequest) -> List<NearCheck, MOST_NEAR_CHECKS> {
    check_near(&fit_near_spectacles(&request).expect("possible"))
}

/// One check of the right lens, or of both.
#[track_caller]
fn of(request: NearSpectaclesRequest, eye: Option<Eye>, id: CheckId) -> Check {
    let checks = checked(request);
    let mut of_it = checks.iter().filter(|near| near.eye == eye && near.check.id == id);
    let check = of_it.next().expect("has its inputs").check.clone();
    assert!(of_it.next().is_none(), "{id:?} once");
    check
}
const RIGHT: Option<Eye> = Some(Eye::Right);

#[test]
fn with_everything_known_there_are_as_many_checks_as_can_be() {
    let known = NearSpectaclesRequest {
        pd_both: Some(mm(64.0)),
        largest_blank: Some(mm(80.0)),
        front_weight: Some(Grams(40.0)),
        ..usual()
    };
    let checks = checked(known);
    assert_eq!(checks.len(), MOST_NEAR_CHECKS, "{checks:?}");
    let wrong = |near: &&NearCheck| near.check.severity != Severity::Pass;
    let wrong: List<CheckId, 2> = List::of_one(checks.iter().find(wrong).expect("for use seated").check.id);
    assert_eq!(wrong[..], [CheckId::NearOnly], "{checks:?}");
    assert_eq!(Fit::worst(checks.iter().map(|near| near.check.severity)), Fit::AcceptedWithWarnings);
    // Of one lens: five, and the sizes, the weight and the use seated.
    let one = checked(NearSpectaclesRequest { left: None, ..known });
    assert_eq!(one.len(), 5 + 3 + 1 + 1, "{one:?}");
    assert!(one.iter().all(|near| near.eye != Some(Eye::Left)), "{one:?}");
}

/// By hand: centred at the PD the lens of 48 by 36 wants 59.183 mm; see `near_spectacles`.
#[test]
fn a_blank_that_is_too_small_is_refused() {
    let right = Some(NearLens { centration: Centration::DistancePd, ..lens(8.0) });
    let with = |largest: f64| NearSpectaclesRequest { right, largest_blank: Some(mm(largest)), ..usual() };
    assert_eq!(of(with(59.2), RIGHT, CheckId::BlankSize).severity, Severity::Pass);
    let check = of(with(59.1), RIGHT, CheckId::BlankSize);
    assert_eq!(check.severity, Severity::Refuse);
    assert!(check.found.is_some_and(|found| (found.value - 59.183).abs() < 5e-4), "{check:?}");
    assert!(
        matches!(check.limit, Some(Limit::AtMost(most)) if (most.value - 59.1).abs() < 1e-9),
        "{check:?}"
    );
    let [WayOut::BlankOf(blank), WayOut::NarrowerFrame(width)] = check.ways_out[..] else {
        panic!("{check:?}")
    };
    assert!((blank.mm() - 59.183).abs() < 5e-4, "{blank:?}");
    let narrower = |width: f64| {
        let mut request = with(59.1);
        request.frame.box_width = mm(width);
        of(request, RIGHT, CheckId::BlankSize).severity
    };
    assert_eq!(narrower(width.mm()), Severity::Pass, "{width:?}");
    assert_eq!(narrower(width.mm() + 0.01), Severity::Refuse, "{width:?}");
    assert!(
        !checked(usual()).iter().any(|near| near.check.id == CheckId::BlankSize),
        "no largest blank is known"
    );
}

/// By hand: the box goes from 10 to 58 mm and up to 36.
#[test]
fn the_optical_centre_has_lens_round_it() {
    for (x, y, room, severity) in [
        (32.0, 18.0, 18.0, Severity::Pass),
        (32.0, 10.0, 10.0, Severity::Pass),
        (32.0, 9.9, 9.9, Severity::Warning),
        (19.0, 18.0, 9.0, Severity::Warning),
        (10.0, 18.0, 0.0, Severity::Warning),
        (9.0, 18.0, -1.0, Severity::Refuse),
        (32.0, -2.0, -2.0, Severity::Refuse),
    ] {
        let centration = Centration::Given(mm(x));
        let right = Some(NearLens { centration, centre_height: Some(mm(y)), ..lens(8.0) });
        let check = of(NearSpectaclesRequest { right, ..usual() }, RIGHT, CheckId::CentreOnLens);
        assert_eq!(check.severity, severity, "({x}, {y})");
        assert!(check.found.is_some_and(|found| (found.value - room).abs() < 1e-9), "({x}, {y}): {check:?}");
        match check.ways_out[..] {
            [] => assert_eq!(severity, Severity::Pass),
            [WayOut::ReachBeyondCentre(more)] => {
                assert!((more.mm() - (10.0 - room)).abs() < 1e-9, "{more:?}")
            }
            _ => panic!("{check:?}"),
        }
    }
}

/// Ready-made pairs have up to 14 prism dioptres in each lens.
#[test]
fn prism_beyond_what_is_ground_in_warns() {
    for (base_in, severity) in
        [(0.0, Severity::Pass), (14.0, Severity::Pass), (14.5, Severity::Warning), (-14.5, Severity::Warning)]
    {
        let right = Some(NearLens { base_in: Prism::from_prism_dioptres(base_in), ..lens(8.0) });
        let check = of(NearSpectaclesRequest { right, ..usual() }, RIGHT, CheckId::PrismGroundIn);
        assert_eq!(check.severity, severity, "{base_in}");
        let most = [WayOut::LessPrism(Prism::from_prism_dioptres(14.0))];
        assert_eq!(check.ways_out[..] == most, severity == Severity::Warning, "{check:?}");
    }
}

/// By hand: +8 D changes by `8·((1 + sin²t/3)(1 + tan²t) − 1)`, 0.2676 D at 9 degrees and 0.2107 D at 8; 0.25 D at 8.704.
#[test]
fn a_tilt_that_changes_the_power_warns() {
    let tilted = |lean: f64, wrap: f64| NearSpectaclesRequest {
        pantoscopic: Angle::from_degrees(lean),
        face_form: Angle::from_degrees(wrap),
        ..usual()
    };
    for (lean, wrap, change, severity) in [
        (8.0, 0.0, 0.2107, Severity::Pass),
        (9.0, 0.0, 0.2676, Severity::Warning),
        (-9.0, 0.0, 0.2676, Severity::Warning),
        (0.0, 9.0, 0.2676, Severity::Warning),
        (8.0, 9.0, 0.2676, Severity::Warning),
    ] {
        let check = of(tilted(lean, wrap), RIGHT, CheckId::TiltChangesPower);
        assert_eq!(check.severity, severity, "{lean} and {wrap}");
        assert!(check.found.is_some_and(|found| (found.value - change).abs() < 5e-5), "{check:?}");
    }
    let both = of(tilted(10.0, 12.0), RIGHT, CheckId::TiltChangesPower);
    let [WayOut::LowerCentre(height), WayOut::LessTilt(lean), WayOut::LessTilt(wrap)] = both.ways_out[..]
    else {
        panic!("{both:?}")
    };
    assert!((18.0 - height.mm() - 4.689).abs() < 5e-4, "{height:?}");
    assert!((lean.degrees() - 8.704).abs() < 5e-4 && (wrap.degrees() - 8.704).abs() < 5e-4, "{both:?}");
}

/// By hand: +8 D is in focus at 125 mm, +7.75 D at 129.03 mm, +8.25 D at 121.21 mm.
#[test]
fn additions_and_print_are_in_focus_at_one_distance() {
    let print = |distance: f64| NearSpectaclesRequest { print_to_lens: mm(distance), ..usual() };
    for (distance, severity) in [(100.0, Severity::Pass), (129.0, Severity::Pass), (129.1, Severity::Warning)]
    {
        let check = of(print(distance), RIGHT, CheckId::OneDistance);
        assert_eq!(check.severity, severity, "{distance}");
        assert!(
            matches!(check.limit, Some(Limit::AtMost(most)) if (most.value - 129.032).abs() < 5e-4),
            "{check:?}"
        );
    }
    let check = of(print(200.0), RIGHT, CheckId::OneDistance);
    assert!(
        matches!(check.ways_out[..], [WayOut::PrintAt(at)] if (at.mm() - 125.0).abs() < 1e-9),
        "{check:?}"
    );
    for (add, severity) in [
        (8.0, Severity::Pass),
        (8.25, Severity::Pass),
        (7.75, Severity::Pass),
        (8.5, Severity::Warning),
        (7.5, Severity::Warning),
    ] {
        let check =
            of(NearSpectaclesRequest { right: Some(lens(add)), ..usual() }, None, CheckId::OneDistance);
        assert_eq!(check.severity, severity, "{add} beside 8");
        assert_eq!(check.ways_out[..] == [WayOut::OneAddition], severity == Severity::Warning, "{check:?}");
        let Some(Limit::Between(from, to)) = check.limit else { panic!("{check:?}") };
        assert!((from.value - 121.212).abs() < 5e-4 && (to.value - 129.032).abs() < 5e-4, "{check:?}");
    }
    // The weakest addition is no more than what is let pass: print is not too far for it anywhere.
    let weak = Some(lens(0.25));
    let weakest = NearSpectaclesRequest { right: weak, left: weak, print_to_lens: mm(9000.0), ..usual() };
    assert_eq!(of(weakest, RIGHT, CheckId::OneDistance).severity, Severity::Pass);
    assert!(matches!(of(weakest, None, CheckId::OneDistance).limit, Some(Limit::AtLeast(_))));
}

#[test]
fn the_front_as_with_a_telescope() {
    let seated = of(usual(), None, CheckId::NearOnly);
    assert_eq!((seated.severity, &seated.ways_out[..]), (Severity::Warning, &[WayOut::SeatedOnly][..]));
    let walking = NearSpectaclesRequest { worn_walking: true, ..usual() };
    assert_eq!(of(walking, None, CheckId::NearOnly).severity, Severity::Refuse);
    for (both, severity) in [(64.0, Severity::Pass), (64.5, Severity::Pass), (64.6, Severity::Warning)] {
        let typed = NearSpectaclesRequest { pd_both: Some(mm(both)), ..usual() };
        assert_eq!(of(typed, None, CheckId::PdSum).severity, severity, "{both}");
    }
    for (grams, severity) in [(60.0, Severity::Pass), (61.0, Severity::Warning)] {
        let weighed = NearSpectaclesRequest { front_weight: Some(Grams(grams)), ..usual() };
        assert_eq!(of(weighed, None, CheckId::Weight).severity, severity, "{grams} g");
    }
    let low = |height: f64| {
        let mut request = usual();
        request.frame.box_height = mm(height);
        let usual_sizes = |near: &&NearCheck| near.check.id == CheckId::FrameUsual;
        Fit::worst(checked(request).iter().filter(usual_sizes).map(|near| near.check.severity))
    };
    // From 24 mm on: a half-eye frame is usual here, other than above a pupil.
    assert_eq!((low(24.0), low(23.5)), (Fit::Accepted, Fit::AcceptedWithWarnings));
}
