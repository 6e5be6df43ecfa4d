//! Coordinates and words against values worked out by hand for the worked example: A 48, B 44, DBL 20, corners 8,
//! PD 31.5, pupil height 23, barrel 14; eyepiece at 32.413, hole 7.5 by 7.913.

use super::*;
use arcminute_core::fit::{MountingRequest, Placement, mount};
use arcminute_core::unit::Length;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn frame() -> Frame {
    Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("the example's frame")
}

fn mounting(eye: Eye) -> Mounting {
    let usual = MountingRequest::usual(eye, frame(), mm(31.5), mm(23.0), mm(14.0));
    mount(&MountingRequest { segment_height: Some(mm(14.0)), ..usual }).expect("possible")
}

/// The elements of a class, as written.
fn elements(drawing: &Drawing, class: &str) -> Vec<String> {
    drawing.shapes.iter().filter(|shape| shape.class() == class).map(Shape::svg).collect()
}

#[track_caller]
fn draws(eye: Eye, class: &str, wanted: &[&str]) {
    assert_eq!(elements(&frame_front(&frame(), &[mounting(eye)]), class), wanted, "{eye:?} {class}");
}

#[test]
fn the_view_holds_the_front_and_its_measures() {
    let drawing = frame_front(&frame(), &[mounting(Eye::Right)]);
    // 10 + 48 + 26 to each side; 44 + 14 up, 22 down.
    assert_eq!(drawing.view_box, ViewBox { x: -84.0, y: -58.0, width: 168.0, height: 80.0 });
    assert_eq!(drawing.unit_mm, Some(1.0), "a drawing unit is a millimetre");
}

#[test]
fn lenses_and_box_lines() {
    let drawing = frame_front(&frame(), &[]);
    let d = |left: f64| {
        let at = |x: f64| number(left + x);
        format!(
            "<path class=\"lens\" d=\"M {} -44.000 H {} A 8.000 8.000 0 0 1 {} -36.000 V -8.000 A 8.000 8.000 0 0 1 {} \
             0.000 H {} A 8.000 8.000 0 0 1 {} -8.000 V -36.000 A 8.000 8.000 0 0 1 {} -44.000 Z\"/>",
            at(8.0),
            at(40.0),
            at(48.0),
            at(40.0),
            at(8.0),
            at(0.0),
            at(8.0)
        )
    };
    assert_eq!(elements(&drawing, "lens"), [d(-58.0), d(10.0)]);
    assert_eq!(
        elements(&drawing, "box-centre"),
        [
            r#"<line class="box-centre" x1="-58.000" y1="-22.000" x2="58.000" y2="-22.000"/>"#,
            r#"<line class="box-centre" x1="-34.000" y1="0.000" x2="-34.000" y2="-44.000"/>"#,
            r#"<line class="box-centre" x1="34.000" y1="0.000" x2="34.000" y2="-44.000"/>"#,
        ]
    );
}

#[test]
fn the_right_eye_is_on_the_viewers_left() {
    draws(Eye::Right, "pupil", &[r#"<circle class="pupil" cx="-31.500" cy="-23.000" r="2.000"/>"#]);
    draws(Eye::Left, "pupil", &[r#"<circle class="pupil" cx="31.500" cy="-23.000" r="2.000"/>"#]);
    draws(
        Eye::Right,
        "eye",
        &[
            r#"<text class="eye" x="-34.000" y="6.000" text-anchor="middle">RIGHT eye</text>"#,
            r#"<text class="eye" x="34.000" y="6.000" text-anchor="middle">LEFT eye</text>"#,
        ],
    );
}

#[test]
fn eyepiece_hole_and_web() {
    draws(
        Eye::Right,
        "eyepiece",
        &[r#"<ellipse class="eyepiece" cx="-31.500" cy="-32.413" rx="7.000" ry="7.413"/>"#],
    );
    draws(Eye::Left, "hole", &[r#"<ellipse class="hole" cx="31.500" cy="-32.413" rx="7.500" ry="7.913"/>"#]);
    // The web is thinnest straight above: from 32.413 + 7.913 up to 44.
    draws(Eye::Right, "web", &[r#"<line class="web" x1="-31.500" y1="-40.326" x2="-31.500" y2="-44.000"/>"#]);
    let said =
        |text| format!(r#"<text class="web-text" x="-30.000" y="-41.163" text-anchor="start">{text}</text>"#);
    draws(Eye::Right, "web-text", &[&said("3.7 mm")]);
    let thin = MountingRequest { least_web: mm(4.0), ..mounting(Eye::Right).request };
    let drawing = frame_front(&frame(), &[mount(&thin).expect("possible")]);
    assert_eq!(
        (elements(&drawing, "web").len(), elements(&drawing, "web-short").len()),
        (0, 1),
        "short of 4 mm"
    );
    assert_eq!(elements(&drawing, "web-text"), [said("3.7 mm: too thin")], "not by colour alone");
}

#[test]
fn segment_lines_reach_from_edge_to_edge() {
    draws(
        Eye::Right,
        "segment",
        &[r#"<line class="segment" x1="-10.000" y1="-14.000" x2="-58.000" y2="-14.000"/>"#],
    );
    draws(
        Eye::Left,
        "segment-max",
        &[r#"<line class="segment-max" x1="10.000" y1="-15.000" x2="58.000" y2="-15.000"/>"#],
    );
    // 3 mm up the corner arc is 5 mm from its centre's height: √(64 − 25) = 6.245 of 8.
    assert!(
        (half_chord(&frame(), 3.0).expect("on the lens") - 22.245).abs() < 5e-4,
        "a chord through the corners"
    );
    assert_eq!(half_chord(&frame(), 44.5), None);
}

#[test]
fn measures_run_from_bridge_and_lowest_tangent() {
    draws(
        Eye::Right,
        "measure",
        &[
            r#"<line class="measure" x1="0.000" y1="-49.000" x2="-31.500" y2="-49.000"/>"#,
            r#"<line class="measure" x1="-63.000" y1="0.000" x2="-63.000" y2="-32.413"/>"#,
        ],
    );
    draws(
        Eye::Left,
        "measure-text",
        &[
            r#"<text class="measure-text" x="15.750" y="-50.500" text-anchor="middle">X 31.5 mm</text>"#,
            r#"<text class="measure-text" x="64.500" y="-16.207" text-anchor="start">Y 32.5 mm</text>"#,
        ],
    );
    draws(
        Eye::Left,
        "scale-bar",
        &[r#"<rect class="scale-bar" x="-5.000" y="13.500" width="10.000" height="1.000"/>"#],
    );
}

#[test]
fn the_words_say_all_that_is_drawn() {
    let drawing = frame_front(&frame(), &[mounting(Eye::Right)]);
    assert_eq!(drawing.title, "Front of the frame with the telescope before the RIGHT eye");
    assert_eq!(
        drawing.description,
        "Front of the frame, at true size when printed at 100 %. Seen from in front: the person's RIGHT eye is on the viewer's left. Each lens is \
         48.0 mm wide (A) and 44.0 mm high (B), 20.0 mm apart (DBL), with corners of 8.0 mm radius; the outline is a model, \
         the traced shape decides. RIGHT eye: the pupil is 31.5 mm from the middle of the bridge and 23.0 mm above the \
         lowest tangent. The eyepiece centre is 31.50 mm from the middle of the bridge and 32.41 mm above the lowest \
         tangent; mark 31.5 mm and 32.5 mm. The opening is 15.0 mm wide and 15.8 mm high. The barrel is tilted 19.2 degrees \
         to the carrier lens, and the head drops by 19.2 degrees to use it. The web of lens is thinnest above: 3.7 mm, at \
         least the 3.0 mm wanted. A segment may reach up to 15.0 mm. The segment line is at 14.0 mm."
    );
    let row = |label: &str| drawing.rows.iter().find(|row| row.0 == label).map(|row| row.1.as_str());
    assert_eq!(row("RIGHT eye: least web"), Some("3.67 mm above"));
    assert_eq!(row("RIGHT eye: opening, width and height"), Some("15.00 by 15.83 mm"));
    assert_eq!(row("Effective diameter ED"), Some("58.5 mm"));
}

#[test]
fn a_near_pair_and_a_hole_off_the_lens_are_put_in_words() {
    let near = |eye| {
        let request = MountingRequest { working_distance: Some(mm(400.0)), ..mounting(eye).request };
        mount(&request).expect("possible")
    };
    let drawing = frame_front(&frame(), &[near(Eye::Right), near(Eye::Left)]);
    assert!(drawing.title.ends_with("before the RIGHT eye and the LEFT eye"), "{}", drawing.title);
    assert!(drawing.description.contains("It is turned in by 4.2 degrees."), "{}", drawing.description);
    assert_eq!(elements(&drawing, "hole").len(), 2);

    let low = Frame { box_height: mm(38.0), ..frame() };
    let request = MountingRequest {
        pupil_height: mm(21.0),
        frame: low,
        rule: Placement::PupilTop,
        ..near(Eye::Right).request
    };
    let drawing = frame_front(&low, &[mount(&request).expect("possible")]);
    assert!(
        drawing.description.contains("The opening leaves the lens by 0.3 mm, above."),
        "{}",
        drawing.description
    );
}
