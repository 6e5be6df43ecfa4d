//! Pages, faces, buses and details: by hand, in words, and whatever comes.

use super::super::super::laws::check_sound;
use super::super::*;
use super::radii;
use arcminute_core::device::characters_in;
use arcminute_core::math;
use arcminute_core::unit::PrintSize;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// An aid for near things.
fn near(label: &str, width: f64) -> Seen {
    Seen { label: label.into(), width: Some(mm(width)), ..Seen::bare() }
}

/// 1 M print in lines of 65 characters.
fn page(wanted: Option<f64>, true_size: bool) -> Scene {
    Scene::Page { x_height: PrintSize::from_m_units(1.0).x_height(), line_width: None, wanted, true_size }
}

fn input(scene: Scene, chosen: Seen) -> FieldSceneInput {
    FieldSceneInput { scene, chosen, less: None, more: None }
}

fn typed(drawing: &Drawing) -> Vec<&str> {
    let line = |shape: &'_ Shape| matches!(shape, Shape::Text { class: "scene-type", .. });
    let lines = drawing.shapes.iter().filter(|shape| line(shape));
    lines
        .filter_map(|shape| match shape {
            Shape::Text { content, .. } => Some(content.as_str()),
            _ => None,
        })
        .collect()
}

/// By hand: letters of 16 units have an x-height of 7.936, which is 1.4544 mm here: 5.45655 units a millimetre; 26 mm are
/// 20 characters of 1.3 mm.
#[test]
fn a_page_is_set_in_type_of_its_own_size() {
    let mut input = input(page(Some(15.0), false), near("8 D", 26.0));
    input.more = Some(near("12 D", 15.6));
    for narrow in [true, false] {
        let drawing = field_scene(&input, narrow);
        check_sound(&drawing);
        let [(_, chosen), (_, more)] = radii(&drawing)[..] else { panic!("two circles") };
        assert!(
            math::abs(chosen - 26.0 / 2.0 * 5.456_55) < 1e-2 && math::abs(more / chosen - 0.6) < 1e-9,
            "{chosen}"
        );
        let lines = typed(&drawing);
        assert!(5 <= lines.len() && lines[0].starts_with("The lamp stands behind the"), "{lines:?}");
        let bar = drawing.shapes.iter().find_map(|shape| match shape {
            Shape::Line { x1, x2, class: "scene-wanted", .. } => Some(x2 - x1),
            _ => None,
        });
        assert!(bar.is_some_and(|bar| math::abs(bar - 15.0 * 1.3 * 5.456_55) < 1e-2), "{bar:?}");
        assert_eq!(drawing.unit_mm, None);
    }
    assert_eq!(
        field_scene(&input, true).description,
        "Through the 8 D you see 26.0 mm of the print at once, 20 characters: all of the 15 characters wanted; 12 D would \
         show 15.6 mm (12 characters). Drawn to scale: print of 1.5 mm x-height (1.0 M), lines of 65 characters, of which 35 \
         are drawn."
    );
    let wide = field_scene(&input, false);
    assert!(wide.description.ends_with("lines of 65 characters."), "all of it: {}", wide.description);
    assert!(typed(&wide).iter().all(|line| line.chars().count() <= 65), "no longer than a line");
    assert_eq!(wide.rows[0], ("8 D (chosen)".into(), "26.0 mm (20 characters) at once".into()));
    assert_eq!(wide.rows[3], ("x-height".into(), "1.5 mm".into()));
}

/// Law: the characters told are those of the engine.
#[test]
fn characters_are_those_of_the_engine() {
    for (m_units, width) in [(0.5, 10.0), (1.0, 26.0), (4.0, 180.0)] {
        let print = PrintSize::from_m_units(m_units);
        let scene =
            Scene::Page { x_height: print.x_height(), line_width: None, wanted: None, true_size: false };
        let drawing = field_scene(&input(scene, near("aid", width)), false);
        let count = characters_in(mm(width), print);
        let decimals = usize::from(count < 9.95);
        assert!(
            drawing.rows[0].1.contains(&format!("({count:.decimals$} characters)")),
            "{:?}",
            drawing.rows
        );
    }
}

#[test]
fn what_shows_more_than_type_has_room_for_is_drawn_over_bars() {
    let sheet = near("2 D", 200.0);
    for narrow in [true, false] {
        let drawing = field_scene(&input(page(None, false), sheet.clone()), narrow);
        check_sound(&drawing);
        assert!(typed(&drawing).is_empty(), "too small to be read");
        assert!(drawing.shapes.iter().any(|shape| shape.class() == "scene-words"), "bars in its place");
        let most = if narrow { 300.0 } else { 330.0 };
        let [(_, r)] = radii(&drawing)[..] else { panic!("one circle") };
        // 200 mm across fill the room there is: the height of the wide picture, either side of the narrow one.
        assert!(math::abs(2.0 * r - most) < 1e-6, "{r}");
        assert!(
            drawing.description.ends_with("lines of 65 characters, words as bars."),
            "{}",
            drawing.description
        );
    }
}

/// By hand: 1.4544 mm over 7.936 units.
#[test]
fn a_page_prints_at_true_size_where_a_sheet_is_wide_enough() {
    let drawing = field_scene(&input(page(None, true), near("8 D", 26.0)), false);
    assert!(
        drawing.unit_mm.is_some_and(|unit| math::abs(unit - 1.4544 / 7.936) < 1e-4),
        "{:?}",
        drawing.unit_mm
    );
    assert!(drawing.svg().contains(" width=\"117.2"), "{}", &drawing.svg()[..200]);
    assert!(drawing.description.ends_with("It prints at true size."), "{}", drawing.description);
    assert_eq!(drawing.rows.last(), Some(&("Size in print".into(), "true".into())));
    let x_height = PrintSize::from_m_units(4.0).x_height();
    let large = Scene::Page { x_height, line_width: None, wanted: None, true_size: true };
    let drawing = field_scene(&input(large, near("8 D", 26.0)), false);
    assert_eq!(drawing.unit_mm, None, "four times as wide");
    assert!(
        drawing.description.ends_with("At true size it would not fit on a sheet."),
        "{}",
        drawing.description
    );
    // Type keeps its size, and what does not fit in is told.
    let drawing = field_scene(&input(page(None, true), near("2 D", 200.0)), false);
    assert!(
        radii(&drawing).is_empty() && drawing.svg().contains(">2 D sees 20 cm (154 characters), not drawn<")
    );
}

#[test]
fn a_window_has_straight_sides() {
    let window = Seen { window: true, ..near("screen", 48.0) };
    let drawing = field_scene(&input(page(None, false), window), false);
    check_sound(&drawing);
    assert!(radii(&drawing).is_empty(), "no circle");
    let width = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Rect { width, class: "scene-seen", .. } => Some(*width),
        _ => None,
    });
    assert!(width.is_some_and(|width| math::abs(width - 48.0 * 5.456_55) < 1e-2), "{width:?}");
    assert!(
        drawing.description.ends_with(" Of a window only the width is to scale."),
        "{}",
        drawing.description
    );
}

#[test]
fn without_an_aid_nothing_is_limited() {
    let face = Scene::Face { distance: Length::from_m(1.5) };
    let drawing = field_scene(&input(face, Seen::bare()), true);
    check_sound(&drawing);
    assert!(radii(&drawing).is_empty(), "no circle");
    assert_eq!(drawing.title, "What is seen at once without an aid");
    assert_eq!(
        drawing.description,
        "Without an aid nothing limits what is seen at once. Drawn to scale: a face 14.5 cm wide and 24 cm high, 1.50 m away."
    );
    assert_eq!(drawing.rows[0], ("without an aid (chosen)".into(), "all of it at once".into()));
    assert!(drawing.svg().contains(">without an aid: no limit<"));
    let unlimited =
        field_scene(&input(page(None, false), Seen { label: "+4 D".into(), ..Seen::bare() }), true);
    assert!(
        unlimited.description.starts_with("Through the +4 D nothing limits what you see at once. Drawn ")
    );
}

/// By hand: 2·1.5 m·tan 2.5° = 130.98 mm of 145 mm; 330 units are 240 mm.
#[test]
fn a_face_at_table_distance() {
    let chosen = Seen { label: "4x".into(), real_field: Some(Angle::from_degrees(5.0)), ..Seen::bare() };
    let drawing = field_scene(&input(Scene::Face { distance: Length::from_m(1.5) }, chosen), false);
    let [(_, r)] = radii(&drawing)[..] else { panic!("one circle") };
    assert!(math::abs(2.0 * r - 130.983 * 330.0 / 240.0) < 1e-2, "{r}");
    let face = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Ellipse { rx, ry, class: "scene-board", .. } => Some((*rx, *ry)),
        _ => None,
    });
    let (rx, ry) = face.expect("an outline");
    assert!(math::abs(ry - 165.0) < 1e-9 && math::abs(rx - 165.0 * 145.0 / 240.0) < 1e-9, "{rx} {ry}");
    assert_eq!(
        drawing.description,
        "Through the 4x you see a circle 13 cm across at once: nearly all of a face 14.5 cm wide. Drawn to scale: a face 14.5 \
         cm wide and 24 cm high, 1.50 m away."
    );
}

/// By hand: 2·20 m·tan 5° = 3.4995 m fill the height of the picture, 330 units; a number of 0.2 m is 18.86 of them.
#[test]
fn a_bus_across_the_street() {
    let scene = Scene::Bus { distance: Length::from_m(20.0), number_height: mm(200.0) };
    let chosen = Seen { label: "6x".into(), real_field: Some(Angle::from_degrees(10.0)), ..Seen::bare() };
    let drawing = field_scene(&input(scene, chosen), false);
    let bus = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Rect { width, class: "scene-board", .. } => Some(*width),
        _ => None,
    });
    assert!(bus.is_some_and(|width| math::abs(width - 2.5 * 330.0 / 3.499_546) < 1e-3), "{bus:?}");
    let digits = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Path { d, class: "scene-letters" } => Some(d.as_str()),
        _ => None,
    });
    // The stem of the four is as high as the number.
    assert!(digits.is_some_and(|d| d.contains("v18.860h")), "{digits:?}");
    assert_eq!(
        drawing.description,
        "Through the 6x you see a circle 3.50 m across at once: all of the front of a bus, 2.50 m wide. Drawn to scale: its \
         number 20 cm high, 20.00 m away."
    );
}

/// By hand: five details of 4 mm are 20 mm; what is seen, 40 mm, fills 300 units.
#[test]
fn a_detail_is_a_fifth_of_its_thing() {
    let (size, distance) = (mm(4.0), Length::from_m(1.0));
    let scene = Scene::Detail { what: "the switch".into(), size, distance };
    let drawing = field_scene(&input(scene, near("3x", 40.0)), true);
    let ring = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Path { d, class: "scene-letters" } => Some(d.as_str()),
        _ => None,
    });
    assert!(ring.is_some_and(|d| d.contains("h150.000v60.000h-30.000")), "{ring:?}");
    assert_eq!(
        drawing.description,
        "Through the 3x you see a circle 40.0 mm across at once: all of the switch, 20.0 mm wide. Drawn to scale: a square \
         ring five details high in its place, a detail 4.0 mm wide, 1.00 m away."
    );
}

#[test]
fn every_scene_is_sound_whatever_comes() {
    let mut scenes = Vec::new();
    for value in [0.0, 0.3, 1.5, 20.0, 400.0, 1e7, f64::NAN, f64::INFINITY, -1.0] {
        let distance = mm(100.0 * value);
        scenes.extend([
            Scene::Face { distance },
            Scene::Bus { distance, number_height: mm(value) },
            Scene::Detail { what: "the small print on a medicine bottle".into(), size: mm(value), distance },
        ]);
        for line_width in [None, Some(mm(value)), Some(mm(160.0))] {
            for (wanted, true_size) in [(None, false), (Some(value), true), (Some(12.0), false)] {
                scenes.push(Scene::Page { x_height: mm(value), line_width, wanted, true_size });
            }
        }
    }
    for scene in scenes {
        for width in [0.0, 3.0, 26.0, 200.0, 5000.0, f64::NAN, f64::INFINITY] {
            for window in [true, false] {
                let chosen =
                    Seen { window, ..near("the long name of a magnifier that nobody will read", width) };
                let less = Some(Seen { real_field: Some(Angle::from_degrees(width)), ..Seen::bare() });
                let input = FieldSceneInput {
                    scene: scene.clone(),
                    chosen,
                    less,
                    more: Some(near("3x", width / 2.0)),
                };
                for narrow in [true, false] {
                    let drawing = field_scene(&input, narrow);
                    check_sound(&drawing);
                    let size: usize = drawing.shapes.iter().map(|shape| shape.svg().len()).sum();
                    assert!(size < 200_000, "{size} bytes for {input:?}");
                    if let Some(unit) = drawing.unit_mm {
                        assert!(unit * drawing.view_box.width <= 190.0, "fits on a sheet: {unit}");
                    }
                }
            }
        }
    }
}
