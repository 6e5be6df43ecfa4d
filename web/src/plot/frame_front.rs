//! The front of a frame with its telescopes, at true size, as the person who measures sees it.
//!
//! Drawing units are millimetres: across from the middle of the bridge, down from the lowest boxed tangent, so that a
//! place `X` out and `Y` up before the RIGHT eye is drawn at `(−X, −Y)` and before the LEFT eye at `(X, −Y)`.

use super::frame_words;
use super::shape::{Anchor, Drawing, Shape, ViewBox, number};
use arcminute_core::fit::{Alignment, Eye, Frame, Mounting, Point};
use arcminute_core::math;

/// Room beside the lenses for the height measure.
const SIDE: f64 = 26.0;
/// Room above the lenses for the measure from the bridge.
const ABOVE: f64 = 14.0;
/// Room below the lenses for names and scale bar.
const BELOW: f64 = 22.0;
/// Distance of a measure line from the boxes.
const MEASURE: f64 = 5.0;
/// Length of the scale bar.
const BAR: f64 = 10.0;

/// Across in the drawing for one millimetre outward: the RIGHT eye is on the viewer's left.
pub(super) fn outward(eye: Eye) -> f64 {
    match eye {
        Eye::Right => -1.0,
        Eye::Left => 1.0,
    }
}

/// Draws the front of `frame` with the telescopes of one or both eyes, to scale, with the same content in words.
///
/// The frame is drawn whole; pupils, openings, segment lines and measures only for the eyes in `mountings`. Places are
/// exact, the numbers beside the measure lines are the half millimetres to mark.
///
/// ```
/// use arcminute_core::{fit::{mount, Eye, Frame, MountingRequest}, unit::Length};
/// use arcminute_web::plot::frame_front;
/// let mm = Length::from_mm;
/// let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("a usual frame");
/// let right = mount(&MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0))).expect("possible");
/// let drawing = frame_front(&frame, &[right]);
/// assert_eq!(drawing.unit_mm, Some(1.0));
/// assert!(drawing.description.contains("RIGHT eye is on the viewer's left"));
/// ```
#[must_use]
pub fn frame_front(frame: &Frame, mountings: &[Mounting]) -> Drawing {
    let mut shapes = front(frame);
    for mounting in mountings {
        shapes.extend(lens_marks(mounting));
        shapes.extend(opening(mounting));
        shapes.extend(measures(frame, mounting.request.eye, mounting.to_mark, mounting.eyepiece));
    }
    shapes.extend(captions(frame));
    Drawing {
        view_box: view(frame),
        unit_mm: Some(1.0),
        title: frame_words::title(mountings),
        description: frame_words::description(frame, mountings),
        rows: frame_words::rows(frame, mountings),
        shapes,
    }
}

/// Lays round each eyepiece how far beside its eye it may sit: half of the light is left at the inner ring, none at the
/// outer one.
pub fn lay_halo(drawing: &mut Drawing, mountings: &[Mounting], alignment: &Alignment) {
    for mounting in mountings {
        let (cx, cy) = (outward(mounting.request.eye) * mounting.eyepiece.x.mm(), -mounting.eyepiece.y.mm());
        let ring = |r: f64, class| Shape::Circle { cx, cy, r, class };
        drawing.shapes.push(ring(alignment.half_at.aside.mm(), "halo-half"));
        drawing.shapes.push(ring(alignment.none_at.mm(), "halo-none"));
    }
    drawing.description.push(' ');
    drawing.description.push_str(&frame_words::halo(alignment));
    drawing.rows.extend(frame_words::halo_rows(alignment));
}

/// The whole front with its measures and captions.
pub(super) fn view(frame: &Frame) -> ViewBox {
    let (height, half_front) = (frame.box_height.mm(), outer(frame));
    ViewBox {
        x: -half_front - SIDE,
        y: -height - ABOVE,
        width: 2.0 * (half_front + SIDE),
        height: height + ABOVE + BELOW,
    }
}

/// Temporal side of the boxes, from the middle of the bridge.
fn outer(frame: &Frame) -> f64 {
    frame.bridge.mm() / 2.0 + frame.box_width.mm()
}

/// Outlines, bridge and the lines of the boxing system.
pub(super) fn front(frame: &Frame) -> Vec<Shape> {
    let (inner, outer, height) = (frame.bridge.mm() / 2.0, outer(frame), frame.box_height.mm());
    let middle = frame.box_centre().x.mm();
    let line = |x1, y1, x2, y2, class| Shape::Line { x1, y1, x2, y2, class };
    let (low, high) = (-0.60 * height, -0.72 * height);
    let bridge = format!(
        "M {} {} Q 0.000 {} {} {}",
        number(-inner),
        number(low),
        number(2.0 * high - low),
        number(inner),
        number(low)
    );
    vec![
        Shape::Path { d: outline(frame, -outer), class: "lens" },
        Shape::Path { d: outline(frame, inner), class: "lens" },
        Shape::Path { d: bridge, class: "bridge" },
        line(-outer, 0.0, outer, 0.0, "datum"),
        line(0.0, 0.0, 0.0, -height - MEASURE, "bridge-centre"),
        line(-outer, -height / 2.0, outer, -height / 2.0, "box-centre"),
        line(-middle, 0.0, -middle, -height, "box-centre"),
        line(middle, 0.0, middle, -height, "box-centre"),
    ]
}

/// Path of a rounded rectangle whose box begins at `left`.
fn outline(frame: &Frame, left: f64) -> String {
    let (width, height, radius) = (frame.box_width.mm(), frame.box_height.mm(), frame.corner_radius.mm());
    let (right, top) = (left + width, -height);
    let corner = |x: f64, y: f64| format!("A {r} {r} 0 0 1 {} {}", number(x), number(y), r = number(radius));
    [
        format!("M {} {}", number(left + radius), number(top)),
        format!("H {}", number(right - radius)),
        corner(right, top + radius),
        format!("V {}", number(-radius)),
        corner(right - radius, 0.0),
        format!("H {}", number(left + radius)),
        corner(left, -radius),
        format!("V {}", number(top + radius)),
        corner(left + radius, top),
        "Z".into(),
    ]
    .join(" ")
}

/// Pupil and segment lines of one eye.
fn lens_marks(mounting: &Mounting) -> Vec<Shape> {
    let asked = &mounting.request;
    let side = outward(asked.eye);
    let mut shapes = Vec::new();
    let lines = [
        (Some(mounting.segment_max), "segment-max", "at most"),
        (asked.segment_height, "segment", "segment"),
    ];
    for (height, class, word) in lines {
        let Some(height) = height.map(|height| height.mm()) else { continue };
        let Some(half) = half_chord(&asked.frame, height) else { continue };
        let middle = asked.frame.box_centre().x.mm();
        let (from, to) = (side * (middle - half), side * (middle + half));
        shapes.push(Shape::Line { x1: from, y1: -height, x2: to, y2: -height, class });
        // The limit is written above its line and the segment below its own: the two are often one line.
        let base = if class == "segment" { -height + 3.5 } else { -height - 1.0 };
        let content = format!("{word} {height:.1} mm");
        let x = side * (middle + half - 2.0);
        let anchor = if side < 0.0 { Anchor::Start } else { Anchor::End };
        shapes.push(Shape::Text { x, y: base, anchor, content, class: "note" });
    }
    shapes.push(Shape::Circle {
        cx: side * asked.monocular_pd.mm(),
        cy: -asked.pupil_height.mm(),
        r: asked.pupil_radius.mm(),
        class: "pupil",
    });
    shapes
}

/// Half the width of the lens at a height; `None` off the lens.
fn half_chord(frame: &Frame, height: f64) -> Option<f64> {
    let (a, b, r) = (frame.box_width.mm() / 2.0, frame.box_height.mm() / 2.0, frame.corner_radius.mm());
    let off_centre = math::abs(height - b);
    if off_centre > b {
        return None;
    }
    let into_corner = (off_centre - (b - r)).max(0.0);
    Some(a - r + math::sqrt((r * r - into_corner * into_corner).max(0.0)))
}

/// Opening, eyepiece, centre cross and the thinnest place.
fn opening(mounting: &Mounting) -> Vec<Shape> {
    let asked = &mounting.request;
    let side = outward(asked.eye);
    let place = |point: Point| (side * point.x.mm(), -point.y.mm());
    let (cx, cy) = place(mounting.eyepiece);
    let oval = |rx: f64, ry: f64, class| Shape::Ellipse { cx, cy, rx, ry, class };
    let ((x1, y1), (x2, y2)) = (place(mounting.web.at_opening), place(mounting.web.at_edge));
    let thin = mounting.web.least.mm() < asked.least_web.mm() - 1e-6;
    let class = if thin { "web-short" } else { "web" };
    let content = format!("{:.1} mm{}", mounting.web.least.mm(), if thin { ": too thin" } else { "" });
    vec![
        oval(mounting.hole_half_width.mm(), mounting.hole_half_height.mm(), "hole"),
        oval(mounting.oval_half_width.mm(), mounting.oval_half_height.mm(), "eyepiece"),
        Shape::Line { x1: cx - 2.0, y1: cy, x2: cx + 2.0, y2: cy, class: "cross" },
        Shape::Line { x1: cx, y1: cy - 2.0, x2: cx, y2: cy + 2.0, class: "cross" },
        Shape::Line { x1, y1, x2, y2, class },
        Shape::Text {
            x: f64::midpoint(x1, x2) + 1.5,
            y: f64::midpoint(y1, y2) + 1.0,
            anchor: Anchor::Start,
            content,
            class: "web-text",
        },
    ]
}

/// Measure lines: X from the middle of the bridge, Y above the lowest tangent, as they are marked.
pub(super) fn measures(frame: &Frame, eye: Eye, to_mark: Point, exact: Point) -> Vec<Shape> {
    let side = outward(eye);
    let (x, y) = (side * exact.x.mm(), -exact.y.mm());
    let above = -frame.box_height.mm() - MEASURE;
    let beside = side * (outer(frame) + MEASURE);
    let line = |x1, y1, x2, y2, class| Shape::Line { x1, y1, x2, y2, class };
    let text = |x, y, anchor, content| Shape::Text { x, y, anchor, content, class: "measure-text" };
    let outer_anchor = if side < 0.0 { Anchor::End } else { Anchor::Start };
    vec![
        line(x, y, x, above, "extension"),
        line(0.0, above, x, above, "measure"),
        text(x / 2.0, above - 1.5, Anchor::Middle, format!("X {:.1} mm", to_mark.x.mm())),
        line(x, y, beside, y, "extension"),
        line(beside, 0.0, beside, y, "measure"),
        text(beside + side * 1.5, y / 2.0, outer_anchor, format!("Y {:.1} mm", to_mark.y.mm())),
    ]
}

/// Names of the eyes, the view, and the scale bar.
pub(super) fn captions(frame: &Frame) -> Vec<Shape> {
    let middle = frame.box_centre().x.mm();
    let text = |x: f64, y: f64, content: &str, class| Shape::Text {
        x,
        y,
        anchor: Anchor::Middle,
        content: content.into(),
        class,
    };
    vec![
        text(-middle, 6.0, "RIGHT eye", "eye"),
        text(middle, 6.0, "LEFT eye", "eye"),
        text(0.0, 11.0, frame_words::VIEW, "caption"),
        Shape::Rect { x: -BAR / 2.0, y: 13.5, width: BAR, height: 1.0, class: "scale-bar" },
        text(0.0, 18.5, "10 mm when printed at 100 % (check with a rule)", "caption"),
    ]
}

#[cfg(test)]
mod tests;
