//! Each check passes and fails where it should, and offers what it should.

use super::{
    Carrier, Check, CheckId, Context, FellowLens, Fit, Grams, Limit, MOST_CHECKS, Severity, WayOut, check,
};
use crate::fit::{Eye, Frame, MountingRequest, Placement, TiltReference, mount};
use crate::list::List;
use crate::unit::{Angle, Length, LogMar, Vergence};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn request() -> MountingRequest {
    let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("a usual frame");
    MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0))
}

fn decided() -> Context {
    Context { fellow_lens: Some(FellowLens::Clear), ..Context::default() }
}

fn checked(request: MountingRequest, context: Context) -> List<Check, MOST_CHECKS> {
    check(&mount(&request).expect("possible"), &context)
}

/// The gravest outcome of one check; `None` when it was left out.
#[track_caller]
fn outcome(request: MountingRequest, context: Context, id: CheckId) -> Option<Severity> {
    checked(request, context).iter().filter(|check| check.id == id).map(|check| check.severity).max()
}

/// One check that is made once.
#[track_caller]
fn single(request: MountingRequest, context: Context, id: CheckId) -> Check {
    let checks = checked(request, context);
    let mut of_it = checks.iter().filter(|check| check.id == id);
    let check = of_it.next().expect("has its inputs").clone();
    assert!(of_it.next().is_none(), "{id:?} once");
    check
}

#[test]
fn codes_follow_the_order_of_the_checks() {
    for (place, id) in CheckId::ALL.into_iter().enumerate() {
        assert_eq!(usize::from(id.code()), place + 1, "{id:?}");
    }
}

#[test]
fn a_fit_in_order_has_nothing_to_offer() {
    let checks = checked(request(), decided());
    assert_eq!(Fit::of(&checks), Fit::Accepted, "{checks:?}");
    assert!(checks.iter().all(|check| check.ways_out.is_empty()), "{checks:?}");
    assert!(checks.is_sorted_by_key(|check| check.id), "{checks:?}");
}

/// There is room for all of them, and not for one more.
#[test]
fn with_everything_known_there_are_as_many_checks_as_can_be() {
    let other = MountingRequest { eye: Eye::Left, ..request() };
    let context = Context {
        carrier: Carrier::Bifocal,
        carrier_cylinder: Some(Vergence::ZERO),
        pd_right: Some(mm(31.5)),
        pd_left: Some(mm(31.5)),
        pd_both: Some(mm(63.0)),
        eyepiece_x: Some(mm(31.5)),
        acuity_right: Some(LogMar::from_log(1.0)),
        front_weight: Some(Grams(40.0)),
        fellow_mounting: Some(mount(&other).expect("possible")),
        ..decided()
    };
    let asked = MountingRequest {
        segment_height: Some(mm(18.0)),
        ordered_tilt: Some(Angle::from_degrees(20.0)),
        exit_pupil: Some(mm(5.0)),
        ..request()
    };
    let checks = checked(asked, context);
    assert_eq!(checks.len(), MOST_CHECKS, "{checks:?}");
    assert!(checks.is_sorted_by_key(|check| check.id), "{checks:?}");
}

#[test]
fn a_thin_web_is_refused_with_the_ways_out() {
    let tilted = MountingRequest { pantoscopic: Angle::from_degrees(8.0), ..request() };
    let checks = checked(tilted, decided());
    assert_eq!(Fit::of(&checks), Fit::Refused);
    let web = checks.iter().find(|check| check.id == CheckId::WebAllRound).expect("always checked");
    assert!(
        matches!(
            web.ways_out[..],
            [WayOut::SmallestBoxHeight(b), WayOut::LargestBarrel(d), WayOut::OtherRule(Placement::Highest), WayOut::OtherRule(Placement::Centred)]
                if (b.mm() - 44.388).abs() < 1e-3 && d.mm() < 14.0
        ),
        "{:?}",
        web.ways_out
    );
    assert!(
        !checks.iter().any(|check| check.id == CheckId::WebAsMarked),
        "nothing is marked on a refused lens"
    );
}

/// Source: fitting reference, C2 to C4, by hand from its worked example: the opening is 7.5 mm to each side of 31.5 and
/// 7.913 above 32.413, the box goes from 10 to 58 and up to 44.
#[test]
fn webs_are_told_against_the_box() {
    for (id, web) in [(CheckId::WebAbove, 3.674), (CheckId::WebNasal, 14.0), (CheckId::WebTemporal, 19.0)] {
        let check = single(request(), decided(), id);
        let found = check.found.expect("a web");
        assert!((found.value - web).abs() < 5e-4, "{id:?}: {found:?}");
        assert!(
            matches!(check.limit, Some(Limit::AtLeast(least)) if (least.value - 3.0).abs() < 1e-9),
            "{check:?}"
        );
    }
    // An eye nearer the nose: 10.5 − 7.5 − 10 mm, and 58 − 18.
    let narrow = MountingRequest { monocular_pd: mm(18.0), ..request() };
    for (id, web, severity) in
        [(CheckId::WebNasal, 0.5, Severity::Refuse), (CheckId::WebTemporal, 32.5, Severity::Pass)]
    {
        let check = single(narrow, decided(), id);
        let found = check.found.expect("a web");
        assert!((found.value - web).abs() < 1e-9, "{id:?}: {found:?}");
        assert_eq!(check.severity, severity, "{id:?}");
    }
}

/// Source: fitting reference, C8 to C10: half a millimetre either side of the PD, three degrees either side of the tilt.
/// The tilt is that of its worked example.
#[test]
fn what_may_lie_between_is_told() {
    let tilted = MountingRequest { ordered_tilt: Some(Angle::from_degrees(10.0)), ..request() };
    let made = Context { eyepiece_x: Some(mm(33.0)), ..decided() };
    let pds =
        Context { pd_right: Some(mm(31.5)), pd_left: Some(mm(32.0)), pd_both: Some(mm(64.0)), ..decided() };
    for (id, request, context, found, [low, high]) in [
        (CheckId::EyepieceOnPd, request(), made, 33.0, [31.0, 32.0]),
        (CheckId::PdSum, request(), pds, 63.5, [63.5, 64.5]),
        (CheckId::TiltAsComputed, tilted, decided(), 10.0, [16.220, 22.220]),
    ] {
        let check = single(request, context, id);
        assert!(check.found.is_some_and(|named| (named.value - found).abs() < 1e-9), "{check:?}");
        let Some(Limit::Between(from, to)) = check.limit else { panic!("{check:?}") };
        assert!((from.value - low).abs() < 1e-3 && (to.value - high).abs() < 1e-3, "{check:?}");
    }
}

#[test]
fn a_place_rounded_to_half_millimetres_can_lose_the_web() {
    let frame = Frame { box_height: mm(43.35), ..request().frame };
    let tight = MountingRequest { frame, ..request() };
    assert_eq!(outcome(tight, decided(), CheckId::WebAllRound), Some(Severity::Pass));
    assert_eq!(outcome(tight, decided(), CheckId::WebAsMarked), Some(Severity::Warning));
}

#[test]
fn segment_checks() {
    let with = |top| MountingRequest { segment_height: Some(mm(top)), ..request() };
    for (top, below_eyepiece, on_lens, below_pupil) in [
        (15.0, Severity::Pass, Severity::Pass, Severity::Pass),
        (15.1, Severity::Refuse, Severity::Pass, Severity::Pass),
        (9.0, Severity::Pass, Severity::Warning, Severity::Pass),
        // Ten millimetres will do, and two below the pupil.
        (10.0, Severity::Pass, Severity::Pass, Severity::Pass),
        (21.0, Severity::Refuse, Severity::Pass, Severity::Pass),
        (21.5, Severity::Refuse, Severity::Pass, Severity::Warning),
    ] {
        let got = |id| outcome(with(top), decided(), id);
        assert_eq!(got(CheckId::SegmentBelowEyepiece), Some(below_eyepiece), "top {top}");
        assert_eq!(got(CheckId::SegmentOnLens), Some(on_lens), "top {top}");
        assert_eq!(got(CheckId::SegmentBelowPupil), Some(below_pupil), "top {top}");
    }
    let wide = Context { segment_width: Some(mm(46.0)), segment_inset: Some(mm(2.0)), ..decided() };
    assert_eq!(
        outcome(with(15.0), wide, CheckId::SegmentOnLens),
        Some(Severity::Refuse),
        "46 mm reach off the lens"
    );
    let on_lens = |request, width| {
        let context = Context { segment_width: Some(mm(width)), ..decided() };
        outcome(request, context, CheckId::SegmentOnLens)
    };
    assert_eq!(on_lens(with(15.0), 28.0), Some(Severity::Pass), "from 17.5 to 45.5 of 10 to 58");
    assert_eq!(on_lens(with(15.0), 42.0), Some(Severity::Pass), "from 10.5 to 52.5");
    assert_eq!(on_lens(with(15.0), 44.0), Some(Severity::Refuse), "from 9.5");
    let outward = |top| MountingRequest { monocular_pd: mm(36.5), ..with(top) };
    assert_eq!(on_lens(outward(15.0), 42.0), Some(Severity::Pass), "to 57.5");
    assert_eq!(on_lens(outward(15.0), 44.0), Some(Severity::Refuse), "to 58.5, on the temporal side alone");
    // Source: fitting reference, C6: above the lowest point of the lens and below the highest.
    for top in [0.0, 44.0] {
        assert_eq!(
            outcome(with(top), decided(), CheckId::SegmentOnLens),
            Some(Severity::Refuse),
            "top {top}"
        );
    }
    let checks = checked(with(17.0), decided());
    let ways = &checks
        .iter()
        .find(|check| check.id == CheckId::SegmentBelowEyepiece)
        .expect("has a segment")
        .ways_out;
    assert!(
        matches!(ways[..2], [WayOut::LowerSegment(low), WayOut::HigherTelescope(by)]
            if (low.mm() - 15.0).abs() < 1e-9 && (by.mm() - 2.0).abs() < 1e-9),
        "{ways:?}"
    );
}

#[test]
fn an_ordered_tilt_is_compared_and_its_miss_judged() {
    let ordered = |degrees, reference| MountingRequest {
        ordered_tilt: Some(Angle::from_degrees(degrees)),
        tilt_reference: reference,
        exit_pupil: Some(mm(4.0)),
        ..request()
    };
    for (tilt, reference, as_computed, stated, through_eye) in [
        (19.0, TiltReference::CarrierNormal, Severity::Pass, Severity::Pass, Severity::Pass),
        (10.0, TiltReference::CarrierNormal, Severity::Warning, Severity::Pass, Severity::Warning),
        (19.0, TiltReference::NotStated, Severity::Pass, Severity::Warning, Severity::Pass),
        (15.0, TiltReference::CarrierNormal, Severity::Warning, Severity::Pass, Severity::Pass),
    ] {
        let got = |id| outcome(ordered(tilt, reference), decided(), id);
        assert_eq!(got(CheckId::TiltAsComputed), Some(as_computed), "{tilt} {reference:?}");
        assert_eq!(got(CheckId::TiltReferenceStated), Some(stated), "{tilt} {reference:?}");
        assert_eq!(got(CheckId::AxisThroughEye), Some(through_eye), "{tilt} {reference:?}");
    }
    assert_eq!(outcome(request(), decided(), CheckId::AxisThroughEye), None, "no tilt ordered");
}

/// A centred telescope looks straight ahead, so its tilt is the pantoscopic angle, and one ordered 30 degrees off passes
/// a centre 24 mm behind the lens at 12 mm: half of it.
#[test]
fn the_edges_of_a_tilt_are_in_order() {
    let centred = MountingRequest {
        rule: Placement::Centred,
        vertex: mm(10.0),
        pantoscopic: Angle::from_degrees(8.0),
        ..request()
    };
    for (degrees, wanted) in
        [(4.9, Severity::Warning), (5.0, Severity::Pass), (11.0, Severity::Pass), (11.1, Severity::Warning)]
    {
        let ordered = MountingRequest { ordered_tilt: Some(Angle::from_degrees(degrees)), ..centred };
        assert_eq!(outcome(ordered, decided(), CheckId::TiltAsComputed), Some(wanted), "{degrees} for 8");
    }
    // Half of exit pupil and pupil: 20 and 4 mm.
    for (exit_pupil, wanted) in [(20.0, Severity::Pass), (19.9, Severity::Warning)] {
        let ordered = MountingRequest {
            ordered_tilt: Some(Angle::from_degrees(38.0)),
            exit_pupil: Some(mm(exit_pupil)),
            ..centred
        };
        assert_eq!(outcome(ordered, decided(), CheckId::AxisThroughEye), Some(wanted), "{exit_pupil} mm");
    }
}

#[test]
fn the_person() {
    let base = decided;
    let acuity = |right: Option<f64>, left: Option<f64>| Context {
        acuity_right: right.map(LogMar::from_log),
        acuity_left: left.map(LogMar::from_log),
        ..base()
    };
    let pd = |both| Context {
        pd_right: Some(mm(31.5)),
        pd_left: Some(mm(32.0)),
        pd_both: Some(mm(both)),
        ..base()
    };
    let weight = |grams| Context { front_weight: Some(Grams(grams)), ..base() };
    let cylinder = |d, carrier_turned| Context {
        carrier_cylinder: Some(Vergence::from_dioptres(d)),
        carrier_turned,
        ..base()
    };
    for (id, context, wanted) in [
        (CheckId::WhichEye, acuity(None, None), None),
        (CheckId::WhichEye, acuity(Some(0.8), Some(1.0)), Some(Severity::Pass)),
        (CheckId::WhichEye, acuity(Some(1.0), Some(0.8)), Some(Severity::Warning)),
        (CheckId::WhichEye, acuity(None, Some(0.8)), Some(Severity::Warning)),
        (CheckId::WhichEye, acuity(Some(1.0), None), Some(Severity::Pass)),
        (CheckId::PdSum, base(), None),
        (CheckId::PdSum, pd(64.0), Some(Severity::Pass)),
        (CheckId::PdSum, pd(62.9), Some(Severity::Warning)),
        (CheckId::Weight, weight(60.0), Some(Severity::Pass)),
        (CheckId::Weight, weight(61.0), Some(Severity::Warning)),
        (CheckId::FellowLens, Context::default(), Some(Severity::Warning)),
        (CheckId::CarrierAxis, cylinder(-1.5, true), Some(Severity::Warning)),
        (CheckId::CarrierAxis, cylinder(-1.5, false), Some(Severity::Pass)),
        (CheckId::CarrierAxis, cylinder(0.0, true), Some(Severity::Pass)),
        (CheckId::CarrierKind, Context { carrier: Carrier::Progressive, ..base() }, Some(Severity::Warning)),
        (CheckId::CarrierKind, Context { carrier: Carrier::Trifocal, ..base() }, Some(Severity::Warning)),
        (CheckId::CarrierKind, Context { carrier: Carrier::Bifocal, ..base() }, Some(Severity::Pass)),
        (CheckId::EyepieceOnPd, Context { eyepiece_x: Some(mm(32.0)), ..base() }, Some(Severity::Pass)),
        (CheckId::EyepieceOnPd, Context { eyepiece_x: Some(mm(32.1)), ..base() }, Some(Severity::Warning)),
    ] {
        assert_eq!(outcome(request(), context, id), wanted, "{id:?}");
    }
}

#[test]
fn frames_out_of_the_usual_and_low_ones_are_pointed_out() {
    let sized = |a, b| {
        let frame = Frame { box_width: mm(a), box_height: mm(b), ..request().frame };
        MountingRequest { frame, pupil_height: mm(b / 2.0), barrel_radius: mm(4.0), ..request() }
    };
    for (a, b, wanted) in
        [(48.0, 44.0, Severity::Pass), (64.0, 44.0, Severity::Warning), (48.0, 35.0, Severity::Warning)]
    {
        assert_eq!(outcome(sized(a, b), decided(), CheckId::FrameUsual), Some(wanted), "A {a}, B {b}");
    }
    // The ends of the usual sizes are usual: B from 36 for this rule, A from 40 to 62, DBL from 12 to 26.
    for (a, b, bridge) in [(40.0, 36.0, 12.0), (62.0, 56.0, 26.0)] {
        let request = sized(a, b);
        let frame = Frame { bridge: mm(bridge), ..request.frame };
        let edge = MountingRequest { frame, ..request };
        assert_eq!(outcome(edge, decided(), CheckId::FrameUsual), Some(Severity::Pass), "{frame:?}");
    }
    let centred = MountingRequest { rule: Placement::Centred, ..sized(48.0, 35.0) };
    assert_eq!(
        outcome(centred, decided(), CheckId::FrameUsual),
        Some(Severity::Pass),
        "35 mm will do when centred"
    );
}

#[test]
fn a_full_diameter_telescope_is_for_sitting() {
    let centred = MountingRequest { rule: Placement::Centred, ..request() };
    let walking = Context { worn_walking: true, ..decided() };
    assert_eq!(outcome(centred, decided(), CheckId::FullDiameter), Some(Severity::Warning));
    assert_eq!(outcome(centred, walking, CheckId::FullDiameter), Some(Severity::Refuse));
    assert_eq!(outcome(request(), walking, CheckId::FullDiameter), None, "a superior one is worn walking");
    assert_eq!(
        outcome(centred, decided(), CheckId::StraightAhead),
        None,
        "it is meant to stand before the pupil"
    );
}

#[test]
fn an_eyepiece_before_the_pupil_is_pointed_out() {
    let low = MountingRequest { rule: Placement::Highest, pupil_height: mm(27.0), ..request() };
    let check = single(low, decided(), CheckId::StraightAhead);
    assert_eq!(check.severity, Severity::Warning);
    // Eyepiece at 33.311 mm, its half height 7.189 (computed): 2.877 mm of it before the pupil of 2 mm about 27.
    assert!(
        matches!(check.ways_out[..], [WayOut::HigherTelescope(by), WayOut::OtherRule(Placement::PupilTop)]
            if (by.mm() - 2.877).abs() < 1e-3),
        "{check:?}"
    );
    assert!(check.found.is_some_and(|clear| (clear.value + 2.877).abs() < 1e-3), "{check:?}");
    assert_eq!(outcome(request(), decided(), CheckId::StraightAhead), Some(Severity::Pass));
}

#[test]
fn two_telescopes_aim_at_one_place() {
    let at = |eye, pd, distance: Option<f64>| MountingRequest {
        eye,
        monocular_pd: mm(pd),
        working_distance: distance.map(mm),
        ..request()
    };
    let pair = |other: MountingRequest, both: Option<f64>| {
        let fellow_mounting = Some(mount(&other).expect("possible"));
        let context = Context { fellow_mounting, pd_both: both.map(mm), ..Context::default() };
        outcome(at(Eye::Right, 31.5, Some(400.0)), context, CheckId::Pair)
    };
    assert_eq!(pair(at(Eye::Left, 32.0, Some(400.0)), Some(63.5)), Some(Severity::Pass));
    assert_eq!(pair(at(Eye::Left, 32.0, Some(400.0)), None), Some(Severity::Pass));
    assert_eq!(pair(at(Eye::Left, 32.0, Some(400.0)), Some(66.0)), Some(Severity::Warning));
    assert_eq!(pair(at(Eye::Left, 32.0, Some(350.0)), Some(63.5)), Some(Severity::Refuse));
    assert_eq!(
        pair(at(Eye::Right, 32.0, Some(400.0)), Some(63.5)),
        Some(Severity::Refuse),
        "the same eye twice"
    );
}
