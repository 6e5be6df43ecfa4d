//! The scene: by hand, in words, and whatever comes.

mod near;

use super::super::laws::check_sound;
use super::*;
use arcminute_core::math;

fn seen(label: &str, degrees: f64, width: Option<f64>) -> Seen {
    let real_field = Some(Angle::from_degrees(degrees));
    Seen { label: label.into(), real_field, width: width.map(Length::from_m), window: false }
}

fn board(letter_mm: f64, distance: f64, wanted: Option<f64>) -> Scene {
    Scene::Task {
        what: "the board".into(),
        letter_height: Length::from_mm(letter_mm),
        distance: Length::from_m(distance),
        wanted_width: wanted.map(Length::from_m),
    }
}

fn usual() -> FieldSceneInput {
    FieldSceneInput {
        scene: board(40.0, 6.0, Some(2.4)),
        chosen: seen("4x", 11.9, Some(1.25)),
        less: Some(seen("3x", 15.9, Some(1.67))),
        more: Some(seen("5x", 9.5, Some(1.0))),
    }
}

fn radii(drawing: &Drawing) -> Vec<(&'static str, f64)> {
    let radius = |shape: &Shape| match shape {
        Shape::Circle { r, class, .. } if class.starts_with("scene-seen") => Some((*class, *r)),
        _ => None,
    };
    drawing.shapes.iter().filter_map(radius).collect()
}

#[test]
fn a_board_at_the_back_of_the_class() {
    let drawing = field_scene(&usual(), true);
    assert_eq!(
        drawing.description,
        "Through the 4x you see 1.25 m of the board at once: about half of the 2.40 m wanted; 5x would show 1.00 m, \
         3x would show 1.67 m. Drawn to scale: letters 40.0 mm high, 6.00 m away."
    );
    assert_eq!(drawing.rows[1], ("4x (chosen)".into(), "1.25 m at once; real field 11.9°".into()));
    assert_eq!(drawing.rows.len(), 6);
}

/// By hand: 2.4 m on 300 units is 125 units a metre; 1.25 m is a radius of 78.125.
#[test]
fn widths_are_to_scale() {
    let drawing = field_scene(&usual(), true);
    for ((class, r), (expected_class, expected)) in radii(&drawing).into_iter().zip([
        ("scene-seen-less", 104.375),
        ("scene-seen", 78.125),
        ("scene-seen-more", 62.5),
    ]) {
        assert_eq!(class, expected_class);
        assert!(math::abs(r - expected) < 1e-9, "{class} {r}");
    }
    let lengths = |wanted: &str| {
        drawing.shapes.iter().find_map(|shape| match shape {
            Shape::Line { x1, x2, class, .. } if *class == wanted => Some(x2 - x1),
            _ => None,
        })
    };
    assert_eq!(lengths("scene-seen").map(math::round), Some(156.0), "the bar is as wide as the circle");
    assert_eq!(lengths("plot-scale"), Some(62.5), "0.5 m");
    assert!(drawing.svg().contains(">scale: 50 cm<"), "the bar says its length");
}

/// By hand: 2·6 m·tan(5°) = 1.04985 m.
#[test]
fn a_goal_without_distance_gets_a_door() {
    let input =
        FieldSceneInput { scene: Scene::Door, chosen: seen("6x", 10.0, None), less: None, more: None };
    let drawing = field_scene(&input, false);
    assert_eq!(
        drawing.description,
        "Through the 6x you see a circle 1.05 m across at 6.00 m: 1.2 times the width of a door. The goal names no \
         distance, so a door 0.9 m wide and 2 m high is drawn to scale, 6 m away."
    );
    let [(_, r)] = radii(&drawing)[..] else { panic!("one circle") };
    assert!(math::abs(r - 1.049_856 / 2.0 * 165.0) < 1e-2, "330 units are 2 m: {r}");
}

#[test]
fn shares_in_words() {
    for (ratio, words) in [
        (2.0, "all of"),
        (1.0, "all of"),
        (0.95, "nearly all of"),
        (0.75, "about three quarters of"),
        (0.66, "about two thirds of"),
        (0.52, "about half of"),
        (0.33, "about a third of"),
        (0.25, "about a quarter of"),
        (0.2, "about a fifth of"),
        (0.1, "about a tenth of"),
        (0.05, "about a twentieth of"),
        (0.01, "less than a twentieth of"),
        (f64::NAN, "an unknown part of"),
    ] {
        assert_eq!(words::share(ratio), words, "{ratio}");
    }
}

#[test]
fn sound_whatever_comes() {
    for scene in [
        board(40.0, 6.0, Some(2.4)),
        board(40.0, 6.0, None),
        board(0.0, 0.0, Some(0.0)),
        board(2000.0, 1.0, Some(0.05)),
        board(1.0, 1000.0, Some(100.0)),
        board(f64::NAN, f64::INFINITY, Some(f64::NAN)),
        Scene::Door,
    ] {
        for degrees in [0.0, 1.0, 12.0, 120.0, 180.0, 400.0, f64::NAN] {
            for width in [None, Some(1.25), Some(0.0), Some(1e9), Some(f64::INFINITY)] {
                for narrow in [true, false] {
                    let chosen = seen("the long name of a telescope that nobody will read", degrees, width);
                    let step = Some(seen("3x", degrees * 1.3, width));
                    let input = FieldSceneInput {
                        scene: scene.clone(),
                        chosen,
                        less: step.clone(),
                        more: step.clone(),
                    };
                    check_sound(&field_scene(&input, narrow));
                }
            }
        }
    }
}

#[test]
fn letters_have_their_true_size() {
    let mut input = usual();
    input.scene = board(400.0, 6.0, Some(2.4));
    let drawing = field_scene(&input, true);
    let path = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Path { d, class: "scene-letters" } => Some(d.as_str()),
        _ => None,
    });
    // 400 mm are 50 units, a bar 10; three letters fit on 300 units, centred: (300 − 190) / 2 + 10 from the left.
    assert!(
        path.is_some_and(|d| d.starts_with("M65.000 ") && d.contains("h10.000v50.000h-10.000Z")),
        "{path:?}"
    );
}
