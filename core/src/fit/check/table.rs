//! The checks of a telescope one by one, each worked by hand on both sides of its limit.
//!
//! The wearer is that of the worked example of the fitting reference: lens from 10 to 58 mm and up to 44, pupil of 4 mm at
//! 31.5 and 23, barrel 14, play 0.5; eyepiece at 32.413, opening 7.5 to each side and 7.913 up, head drop 19.220 degrees.

use super::{Carrier, CheckId, Context, FellowLens, Grams, Limit, Severity, WayOut, check};
use crate::fit::{Eye, Frame, Mounting, MountingRequest, Placement, Point, TiltReference, mount};
use crate::unit::{Angle, Length, LogMar, Vergence};
use Severity::{Pass, Refuse, Warning};
use alloc::vec::Vec;

/// A fit, the outcome of one check (`None` when it is not made) and the value it names.
struct Row(CheckId, MountingRequest, Context, Option<Severity>, Option<f64>);

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn example() -> MountingRequest {
    let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("a usual frame");
    MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0))
}

fn near(eye: Eye, pd: f64, distance: f64) -> MountingRequest {
    MountingRequest { eye, monocular_pd: mm(pd), working_distance: Some(mm(distance)), ..example() }
}

fn mounted(request: MountingRequest) -> Mounting {
    mount(&request).expect("possible")
}

/// C1 to C7.
fn of_the_lens(rows: &mut Vec<Row>) {
    let none = Context::default();
    let leaning = MountingRequest { pantoscopic: Angle::from_degrees(8.0), ..example() };
    let at_pd = |pd: f64| MountingRequest { monocular_pd: mm(pd), ..example() };
    let narrow = |pd: f64| {
        let frame = Frame { box_width: mm(40.0), ..example().frame };
        MountingRequest { frame, ..at_pd(pd) }
    };
    let segment = |top: f64| MountingRequest { segment_height: Some(mm(top)), ..example() };
    let wide = |width: f64, inset: f64| Context {
        segment_width: Some(mm(width)),
        segment_inset: Some(mm(inset)),
        ..Context::default()
    };
    rows.extend([
        Row(CheckId::WebAllRound, example(), none, Some(Pass), Some(3.674)),
        Row(CheckId::WebAllRound, leaning, none, Some(Refuse), Some(2.612)),
        Row(CheckId::WebAbove, example(), none, Some(Pass), Some(3.674)),
        Row(CheckId::WebAbove, leaning, none, Some(Refuse), Some(2.612)),
        Row(CheckId::WebNasal, at_pd(20.5), none, Some(Pass), Some(3.0)),
        Row(CheckId::WebNasal, at_pd(20.4), none, Some(Refuse), Some(2.9)),
        Row(CheckId::WebTemporal, narrow(39.5), none, Some(Pass), Some(3.0)),
        Row(CheckId::WebTemporal, narrow(39.6), none, Some(Refuse), Some(2.9)),
        Row(CheckId::SegmentBelowEyepiece, segment(15.0), none, Some(Pass), Some(15.0)),
        Row(CheckId::SegmentBelowEyepiece, segment(15.1), none, Some(Refuse), Some(15.1)),
        Row(CheckId::SegmentBelowEyepiece, example(), none, None, None),
        // Twice 31.5 − 10, and with its middle 3 mm nearer the nose twice 28.5 − 10.
        Row(CheckId::SegmentOnLens, segment(15.0), wide(43.0, 0.0), Some(Pass), Some(15.0)),
        Row(CheckId::SegmentOnLens, segment(15.0), wide(43.1, 0.0), Some(Refuse), Some(43.1)),
        Row(CheckId::SegmentOnLens, segment(15.0), wide(37.0, 3.0), Some(Pass), Some(15.0)),
        Row(CheckId::SegmentOnLens, segment(15.0), wide(37.1, 3.0), Some(Refuse), Some(37.1)),
        // In the corner the lens begins 8·(1 − √0.75) farther out, 1.072 mm: twice 31.5 − 11.072.
        Row(CheckId::SegmentOnLens, segment(4.0), wide(40.8, 0.0), Some(Warning), Some(4.0)),
        Row(CheckId::SegmentOnLens, segment(4.0), wide(40.9, 0.0), Some(Refuse), Some(40.9)),
        Row(CheckId::SegmentOnLens, segment(10.0), none, Some(Pass), Some(10.0)),
        Row(CheckId::SegmentOnLens, segment(9.9), none, Some(Warning), Some(9.9)),
        Row(CheckId::SegmentBelowPupil, segment(21.0), none, Some(Pass), Some(21.0)),
        Row(CheckId::SegmentBelowPupil, segment(21.1), none, Some(Warning), Some(21.1)),
    ]);
}

/// C8 to C12.
fn of_the_aim(rows: &mut Vec<Row>) {
    let none = Context::default();
    let pds = |both: f64| Context {
        pd_right: Some(mm(31.5)),
        pd_left: Some(mm(32.0)),
        pd_both: Some(mm(both)),
        ..Context::default()
    };
    let made = |x: f64| Context { eyepiece_x: Some(mm(x)), ..Context::default() };
    let by_hand = |x: f64| MountingRequest { rule: Placement::ByHand(Point::from_mm(x, 32.0)), ..example() };
    let ordered = |tilt: f64, tilt_reference| MountingRequest {
        ordered_tilt: Some(Angle::from_degrees(tilt)),
        tilt_reference,
        exit_pupil: Some(mm(4.0)),
        ..example()
    };
    let (normal, unstated) = (TiltReference::CarrierNormal, TiltReference::NotStated);
    rows.extend([
        Row(CheckId::PdSum, example(), pds(64.0), Some(Pass), Some(63.5)),
        Row(CheckId::PdSum, example(), pds(64.1), Some(Warning), Some(63.5)),
        Row(CheckId::PdSum, example(), none, None, None),
        Row(CheckId::EyepieceOnPd, example(), made(32.0), Some(Pass), Some(32.0)),
        Row(CheckId::EyepieceOnPd, example(), made(32.1), Some(Warning), Some(32.1)),
        // For 400 mm it belongs at 31.5·400/427, 29.508 mm.
        Row(CheckId::EyepieceOnPd, near(Eye::Right, 31.5, 400.0), made(29.1), Some(Pass), Some(29.1)),
        Row(CheckId::EyepieceOnPd, near(Eye::Right, 31.5, 400.0), made(31.5), Some(Warning), Some(31.5)),
        Row(CheckId::EyepieceOnPd, by_hand(31.0), none, Some(Pass), Some(31.0)),
        Row(CheckId::EyepieceOnPd, by_hand(30.9), none, Some(Warning), Some(30.9)),
        Row(CheckId::TiltAsComputed, ordered(16.3, normal), none, Some(Pass), Some(16.3)),
        Row(CheckId::TiltAsComputed, ordered(16.2, normal), none, Some(Warning), Some(16.2)),
        Row(CheckId::TiltAsComputed, example(), none, None, None),
        Row(CheckId::TiltReferenceStated, ordered(19.0, normal), none, Some(Pass), Some(19.0)),
        Row(CheckId::TiltReferenceStated, ordered(19.0, unstated), none, Some(Warning), Some(19.0)),
        // (9.413 − 27·tan t)·cos t: 3.594 mm at 12 degrees, 4.582 at 10; pupil and exit pupil of 4 mm meet up to 4.
        Row(CheckId::AxisThroughEye, ordered(12.0, normal), none, Some(Pass), Some(3.594)),
        Row(CheckId::AxisThroughEye, ordered(10.0, normal), none, Some(Warning), Some(4.582)),
    ]);
}

/// C13 to C16.
fn of_frame_and_carrier(rows: &mut Vec<Row>) {
    let none = Context::default();
    let tall = |height: f64, rule| {
        let frame = Frame { box_height: mm(height), ..example().frame };
        MountingRequest { frame, rule, pupil_height: mm(18.0), ..example() }
    };
    let carrier = |carrier| Context { carrier, ..Context::default() };
    let turned = |cylinder: f64, carrier_turned| Context {
        carrier_cylinder: Some(Vergence::from_dioptres(cylinder)),
        carrier_turned,
        ..Context::default()
    };
    let acuity = |right: Option<f64>, left: Option<f64>| Context {
        acuity_right: right.map(LogMar::from_log),
        acuity_left: left.map(LogMar::from_log),
        ..Context::default()
    };
    rows.extend([
        Row(CheckId::FrameUsual, tall(36.0, Placement::PupilTop), none, Some(Pass), Some(36.0)),
        Row(CheckId::FrameUsual, tall(35.9, Placement::PupilTop), none, Some(Warning), Some(35.9)),
        // Low and centred ones need no tall frame.
        Row(CheckId::FrameUsual, tall(35.9, Placement::Low), none, Some(Pass), Some(35.9)),
        Row(CheckId::FrameUsual, tall(35.9, Placement::Centred), none, Some(Pass), Some(35.9)),
        Row(CheckId::CarrierKind, example(), carrier(Carrier::Bifocal), Some(Pass), None),
        Row(CheckId::CarrierKind, example(), carrier(Carrier::Trifocal), Some(Warning), None),
        Row(CheckId::CarrierKind, example(), carrier(Carrier::Progressive), Some(Warning), None),
        Row(CheckId::CarrierAxis, example(), turned(-1.5, false), Some(Pass), None),
        Row(CheckId::CarrierAxis, example(), turned(0.0, true), Some(Pass), None),
        Row(CheckId::CarrierAxis, example(), turned(-1.5, true), Some(Warning), None),
        Row(CheckId::CarrierAxis, example(), none, None, None),
        Row(CheckId::WhichEye, example(), acuity(Some(0.8), Some(1.0)), Some(Pass), Some(0.8)),
        Row(CheckId::WhichEye, example(), acuity(Some(1.0), Some(0.8)), Some(Warning), Some(1.0)),
        Row(CheckId::WhichEye, example(), acuity(None, Some(0.8)), Some(Warning), None),
        Row(CheckId::WhichEye, example(), none, None, None),
    ]);
}

/// C17 to C20.
fn of_the_person(rows: &mut Vec<Row>) {
    let none = Context::default();
    let exit = MountingRequest { exit_pupil: Some(mm(3.0)), ..example() };
    // Exit pupil and pupil meet up to 3.5 mm. Straight sideways the axis misses by what the PDs differ by.
    let flipped = |pd: f64, height: f64| Context {
        fellow_lens: Some(FellowLens::FlipOver),
        pd_left: Some(mm(pd)),
        fellow_height: Some(mm(height)),
        ..Context::default()
    };
    let centred = MountingRequest { rule: Placement::Centred, ..example() };
    let walking = Context { worn_walking: true, ..Context::default() };
    let weight = |grams| Context { front_weight: Some(Grams(grams)), ..Context::default() };
    let pair = |fellow, both: Option<f64>| Context {
        fellow_mounting: Some(mounted(fellow)),
        pd_both: both.map(mm),
        ..Context::default()
    };
    let right = near(Eye::Right, 31.5, 400.0);
    let left = near(Eye::Left, 32.0, 400.0);
    let beside = MountingRequest { rule: Placement::ByHand(Point::from_mm(31.0, 32.413)), ..left };
    let higher = |radius: f64| MountingRequest { pupil_radius: mm(radius), ..left };
    // Deeper behind its lens by 0.5 mm, the fellow eye crosses it at 32·400/427.5.
    let deeper = MountingRequest { vertex: mm(13.5), ..left };
    rows.extend([
        Row(CheckId::FellowLens, example(), none, Some(Warning), None),
        Row(
            CheckId::FellowLens,
            example(),
            Context { fellow_lens: Some(FellowLens::Clear), ..none },
            Some(Pass),
            None,
        ),
        Row(CheckId::FellowLens, exit, flipped(28.1, 23.0), Some(Pass), Some(3.4)),
        Row(CheckId::FellowLens, exit, flipped(27.9, 23.0), Some(Warning), Some(3.6)),
        // Upward it misses by 4·cos 19.220°.
        Row(CheckId::FellowLens, exit, flipped(31.5, 27.0), Some(Warning), Some(3.777)),
        Row(
            CheckId::FellowLens,
            MountingRequest { eye: Eye::Left, ..exit },
            Context { pd_right: Some(mm(31.5)), pd_left: None, ..flipped(0.0, 23.0) },
            Some(Pass),
            Some(0.0),
        ),
        // Without an exit pupil there is no limit, and the miss is told.
        Row(CheckId::FellowLens, example(), flipped(27.9, 23.0), Some(Pass), Some(3.6)),
        Row(
            CheckId::FellowLens,
            exit,
            Context { fellow_height: None, ..flipped(27.9, 23.0) },
            Some(Pass),
            None,
        ),
        Row(CheckId::Weight, example(), weight(60.0), Some(Pass), Some(60.0)),
        Row(CheckId::Weight, example(), weight(60.1), Some(Warning), Some(60.1)),
        Row(CheckId::FullDiameter, example(), walking, None, None),
        Row(CheckId::FullDiameter, centred, none, Some(Warning), None),
        Row(CheckId::FullDiameter, centred, walking, Some(Refuse), None),
        // (31.5 + 32)·400/427.
        Row(CheckId::Pair, right, pair(left, Some(63.5)), Some(Pass), Some(59.485)),
        Row(CheckId::Pair, right, pair(left, Some(64.1)), Some(Warning), Some(59.485)),
        Row(CheckId::Pair, right, pair(beside, None), Some(Warning), Some(60.508)),
        Row(CheckId::Pair, right, pair(deeper, Some(63.5)), Some(Pass), Some(59.450)),
        // At 9.4 mm of rise over 27 mm a millimetre more is 1.9 degrees: 0.2 mm are 0.4, 0.3 mm are 0.6.
        Row(CheckId::Pair, right, pair(higher(2.2), None), Some(Pass), Some(59.485)),
        Row(CheckId::Pair, right, pair(higher(2.3), None), Some(Warning), Some(19.220)),
        Row(CheckId::Pair, right, pair(near(Eye::Left, 32.0, 350.0), None), Some(Refuse), None),
        Row(CheckId::Pair, right, pair(right, None), Some(Refuse), None),
        Row(CheckId::Pair, example(), none, None, None),
    ]);
}

#[test]
fn each_check_on_both_sides_of_its_limit() {
    let mut rows = Vec::new();
    of_the_lens(&mut rows);
    of_the_aim(&mut rows);
    of_frame_and_carrier(&mut rows);
    of_the_person(&mut rows);
    for (place, Row(id, request, context, wanted, named)) in rows.iter().enumerate() {
        let checks = check(&mounted(*request), context);
        let got = checks.iter().find(|check| check.id == *id);
        assert_eq!(got.map(|check| check.severity), *wanted, "row {place}: {got:?}");
        let Some(got) = got else { continue };
        let found = got.found.map(|found| found.value);
        let near = named.zip(found).is_none_or(|(named, found)| (named - found).abs() < 6e-4);
        assert!(near && named.is_some() == found.is_some(), "row {place}: {named:?}, {got:?}");
        assert_eq!(
            got.ways_out.is_empty(),
            *wanted == Some(Pass) || *id == CheckId::FrameUsual,
            "row {place}"
        );
    }
    for id in CheckId::ALL.into_iter().take(20) {
        let of_it = || rows.iter().filter(|row| row.0 == id).map(|row| row.3);
        let good = |outcome: Option<Severity>| outcome.is_none_or(|severity| severity == Pass);
        assert!(of_it().any(good) && of_it().any(|outcome| !good(outcome)), "{id:?} both ways");
    }
}

#[test]
fn a_segment_that_is_too_wide_says_how_wide_it_may_be() {
    let request = MountingRequest { segment_height: Some(mm(15.0)), ..example() };
    let outcome = |inset: f64| {
        let context =
            Context { segment_width: Some(mm(44.0)), segment_inset: Some(mm(inset)), ..Context::default() };
        let checks = check(&mounted(request), &context);
        checks.iter().find(|check| check.id == CheckId::SegmentOnLens).expect("has a segment").clone()
    };
    let check = outcome(0.0);
    assert!(
        matches!(check.limit, Some(Limit::AtMost(most)) if (most.value - 43.0).abs() < 1e-9),
        "{check:?}"
    );
    assert!(
        matches!(check.ways_out[..], [WayOut::NarrowerSegment(width), WayOut::SingleVisionCarrier]
            if (width.mm() - 43.0).abs() < 1e-9),
        "{check:?}"
    );
    // Its middle 3.5 mm nasal of the lens.
    let off = outcome(25.0);
    assert_eq!(off.ways_out[..], [WayOut::SingleVisionCarrier], "{off:?}");
}

/// For near both telescopes point at the thing: each is turned in by atan(PD/(W + s)).
#[test]
fn a_pair_for_near_is_turned_in_toward_one_place() {
    let (right, left) = (mounted(near(Eye::Right, 31.5, 400.0)), mounted(near(Eye::Left, 32.0, 400.0)));
    // 31.5 and 32 over 427.
    assert!((right.toe_in.degrees() - 4.2191).abs() < 5e-5, "{:?}", right.toe_in);
    assert!((left.toe_in.degrees() - 4.2858).abs() < 5e-5, "{:?}", left.toe_in);
    for mounting in [right, left] {
        let on_midline = mounting.eyepiece.x - mm(400.0) * mounting.toe_in.tangent();
        assert!(on_midline.abs().mm() < 1e-9, "{on_midline:?}");
    }
}
