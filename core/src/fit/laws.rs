//! What holds for every fit, over a grid of faces, frames and orders.

use super::{
    Eye, Frame, MountingRequest, Placement, Point, TiltReference, blank, face_form, mount, near_centres,
    ways_out,
};
use crate::error::Why;
use crate::explain::Explain;
use crate::unit::{Angle, Length, Vergence};
use alloc::format;
use alloc::vec::Vec;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn frame(box_height: f64) -> Frame {
    Frame::new(mm(48.0), mm(box_height), mm(20.0), mm(8.0)).expect("a usual frame")
}

fn usual(box_height: f64, barrel: f64) -> MountingRequest {
    MountingRequest::usual(Eye::Right, frame(box_height), mm(31.5), mm(box_height / 2.0 + 1.0), mm(barrel))
}

/// Every combination of the values that change the geometry.
fn grid() -> Vec<MountingRequest> {
    let mut requests = Vec::new();
    let by_hand = [Point::from_mm(31.0, 27.0), Point::from_mm(29.5, 6.0)].map(Placement::ByHand);
    for rule in Placement::ALL.into_iter().chain(by_hand) {
        for box_height in [30.0, 38.0, 44.0, 52.3] {
            for barrel in [8.0, 14.0, 18.0, 23.7] {
                for pantoscopic in [-5.0, 0.0, 8.0, 13.3] {
                    for (distance, tilt, reference) in [
                        (None, None, TiltReference::CarrierNormal),
                        (Some(mm(400.0)), Some(10.0), TiltReference::CarrierNormal),
                        (Some(mm(120.0)), Some(17.0), TiltReference::StraightAhead),
                    ] {
                        requests.push(MountingRequest {
                            rule,
                            pantoscopic: Angle::from_degrees(pantoscopic),
                            working_distance: distance,
                            ordered_tilt: tilt.map(Angle::from_degrees),
                            tilt_reference: reference,
                            exit_pupil: Some(mm(4.0)),
                            ..usual(box_height, barrel)
                        });
                    }
                }
            }
        }
    }
    requests
}

#[test]
fn working_agrees() {
    let mut seen = 0;
    for mounting in grid().iter().filter_map(|request| mount(request).ok()) {
        seen += 1;
        let steps = mounting.steps();
        for step in &steps {
            assert_eq!(step.check(), Ok(()), "{:?}", mounting.request);
        }
        // Four of the place (five near, which has the toe-in), five of the tilt, six of the lens; of an order its miss and
        // the limit of that, and the turn to the carrier where it is not ordered so. By hand, no rule gives place and height.
        let by_hand = if matches!(mounting.request.rule, Placement::ByHand(_)) { 2 } else { 0 };
        let wanted = match (mounting.request.ordered_tilt, mounting.request.tilt_reference) {
            (None, _) => 4 + 5 + 6,
            (Some(_), TiltReference::StraightAhead) => 5 + 5 + 6 + 3,
            (Some(_), _) => 5 + 5 + 6 + 2,
        };
        assert_eq!(steps.len(), wanted - by_hand, "{:?}", mounting.request);
    }
    assert!(seen > 500, "most of the grid has a fit, {seen} did");
    for (x, y) in [(31.5, 22.0), (34.0, 22.0), (36.0, 15.0)] {
        let steps = blank(&frame(44.0), Point::from_mm(x, y), mm(2.0)).expect("possible").steps();
        assert_eq!(steps.len(), 6);
        for step in steps {
            assert_eq!(step.check(), Ok(()), "optical centre ({x}, {y})");
        }
    }
    let steps = face_form(mm(34.0), Angle::from_degrees(7.0)).expect("possible").steps();
    assert_eq!(steps.len(), 1);
    for step in steps {
        assert_eq!(step.check(), Ok(()), "face form");
    }
    for (distance, power) in [(400.0, -9.0), (100.0, 10.0), (125.0, 0.0)] {
        let power = Vergence::from_dioptres(power);
        let steps = near_centres(mm(63.0), mm(distance), mm(27.0), power).expect("possible").steps();
        assert_eq!(steps.len(), 2);
        for step in steps {
            assert_eq!(step.check(), Ok(()), "{distance} mm, {power:?}");
        }
    }
}

#[test]
fn the_axis_passes_the_rotation_centre_and_the_rule_is_kept() {
    for request in grid() {
        let Ok(mounting) = mount(&request) else { continue };
        let over_gaze = mounting.tilt_to_carrier - mounting.head_drop;
        assert!(
            (over_gaze - request.pantoscopic).abs().degrees() < 1e-12,
            "tau less beta is phi: {request:?}"
        );
        let missed = mounting.rise - mounting.stop_distance * mounting.head_drop.tangent();
        assert!(missed.abs().mm() < 1e-9, "axis through the rotation centre: {request:?}");
        match request.rule {
            Placement::PupilTop => {
                assert!(mounting.clearance.abs().mm() < 1e-9, "bottom at the pupil's top: {request:?}")
            }
            Placement::Highest => {
                let above = request.frame.box_height - mounting.eyepiece.y - mounting.hole_half_height;
                assert!(
                    (above - request.least_web).abs().mm() < 1e-9,
                    "web above is the least web: {request:?}"
                );
                let lower = mounting.eyepiece.y - mounting.to_mark.y;
                assert!(
                    (0.0..0.5).contains(&lower.mm()),
                    "marked no higher, by less than a half: {request:?}"
                );
                let halves = mounting.to_mark.y.mm() * 2.0;
                assert!((halves - halves.round()).abs() < 1e-9, "in half millimetres: {request:?}");
            }
            Placement::Low => {
                let top = mounting.eyepiece.y + mounting.oval_half_height;
                let bottom = request.pupil_height - request.pupil_radius;
                assert!((top - bottom).abs().mm() < 1e-9, "top at the pupil's bottom: {request:?}");
                assert!(mounting.head_drop < Angle::ZERO, "looked down through: {request:?}");
            }
            Placement::ByHand(place) => assert_eq!(mounting.eyepiece, place),
            Placement::Centred => {
                assert!(mounting.head_drop.abs().degrees() < 1e-12, "no head drop: {request:?}")
            }
        }
        let highest_by_hole = mounting.segment_max - request.play;
        assert!(
            (mounting.segment_max_hole - highest_by_hole).abs().mm() < 1e-9,
            "stricter by the play: {request:?}"
        );
    }
}

#[test]
fn ordering_the_computed_tilt_misses_nothing() {
    for reference in [TiltReference::CarrierNormal, TiltReference::StraightAhead] {
        for request in grid() {
            let Ok(mounting) = mount(&request) else { continue };
            let tilt = match reference {
                TiltReference::StraightAhead => mounting.head_drop,
                _ => mounting.tilt_to_carrier,
            };
            let ordered = MountingRequest { ordered_tilt: Some(tilt), tilt_reference: reference, ..request };
            let Ok(mounting) = mount(&ordered) else { continue };
            let miss = mounting.miss_distance.expect("a tilt is ordered");
            assert!(miss.abs().mm() < 1e-9, "{reference:?}: {ordered:?}");
        }
    }
}

#[test]
fn both_eyes_are_one_in_the_coordinates() {
    let right = usual(44.0, 14.0);
    let left = MountingRequest { eye: right.eye.fellow(), ..right };
    let (right, left) = (mount(&right).expect("possible"), mount(&left).expect("possible"));
    assert_eq!((right.eyepiece, right.web), (left.eyepiece, left.web));
    assert_ne!(right.request.eye, left.request.eye);
}

/// The higher, the taller the opening: half of each step is gone, or the height would swing for ever.
#[test]
fn the_highest_place_is_found_on_a_front_that_leans() {
    let request = MountingRequest {
        rule: Placement::Highest,
        pupil_height: mm(10.0),
        pantoscopic: Angle::from_degrees(25.0),
        ..usual(60.0, 18.0)
    };
    let mounting = mount(&request).expect("a height that settles");
    // Solved by halving: 33.908 + 9/cos(atan(23.908/27) + 25°) + 0.5 + 3 is 60.
    assert!((mounting.eyepiece.y.mm() - 33.908).abs() < 5e-4, "{:?}", mounting.eyepiece);
    assert!((mounting.tilt_to_carrier.degrees() - 66.524).abs() < 5e-4, "{:?}", mounting.tilt_to_carrier);
}

/// Two heights that fulfil the equations: one with the barrel 81.6 degrees against the lens, one beyond 90, where the
/// opening would have a negative height.
#[test]
fn a_barrel_that_would_lie_along_the_lens_is_refused() {
    for pantoscopic in [25.0, 30.0] {
        let request = MountingRequest {
            rule: Placement::Highest,
            pupil_height: mm(2.0),
            pantoscopic: Angle::from_degrees(pantoscopic),
            ..usual(60.0, 4.0)
        };
        let error = mount(&request).expect_err("along the lens");
        assert!(matches!(error.why, Why::NoSolution { .. }), "{error}");
    }
}

#[test]
fn what_has_no_solution_is_said_so() {
    let request = MountingRequest { pantoscopic: Angle::from_degrees(25.0), ..usual(60.0, 44.0) };
    let error = mount(&request).expect_err("a barrel as thick as the stop distance, on a leaning front");
    assert!(matches!(error.why, Why::NoSolution { .. }), "{error}");
    assert_eq!(
        format!("{error}"),
        "eyepiece height `barrel 44 mm` has no solution: the higher the eyepiece, the more it must be tilted, and the \
         taller its opening: the height never settles"
    );
    let error =
        mount(&MountingRequest { pupil_height: mm(46.0), ..usual(44.0, 14.0) }).expect_err("above the lens");
    assert_eq!(format!("{error}; {}", error.hint()), "pupil height `46 mm` is not possible; use 2 to 44 mm");
}

#[test]
fn ways_out_lie_on_the_line_between_possible_and_not() {
    for (box_height, barrel) in [(38.0, 14.0), (34.0, 12.0), (44.0, 18.0)] {
        let request = usual(box_height, barrel);
        let ways = ways_out(&request);
        let fits = |request: &MountingRequest| {
            mount(request).is_ok_and(|mounting| mounting.web.least >= request.least_web - mm(1e-6))
        };
        let with_height =
            |height| MountingRequest { frame: Frame { box_height: height, ..request.frame }, ..request };
        let tall = ways.smallest_box_height.expect("a taller frame helps");
        assert!(
            fits(&with_height(tall)) && !fits(&with_height(tall - mm(0.01))),
            "B {tall:?} for {request:?}"
        );
        let with_barrel = |diameter: Length| MountingRequest { barrel_radius: diameter / 2.0, ..request };
        let thick = ways.largest_barrel.expect("a thinner barrel helps");
        assert!(
            fits(&with_barrel(thick)) && !fits(&with_barrel(thick + mm(0.01))),
            "barrel {thick:?} for {request:?}"
        );
        for rule in ways.rules {
            assert!(
                rule != request.rule && fits(&MountingRequest { rule, ..request }),
                "{rule:?} for {request:?}"
            );
        }
    }
}
