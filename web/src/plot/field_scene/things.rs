//! The things of a scene: a board, a door, a face, the front of a bus, a thing with a detail.

use super::super::Shape;
use super::super::shape::number;
use super::{Plan, letters};

/// Free beside a line of print, in units.
const EDGE: f64 = 5.0;

/// The ground of letters.
pub(super) fn board(shapes: &mut Vec<Shape>, plan: &Plan<'_>) {
    let (x, y) = plan.corner();
    let (width, height) = (plan.size.0 * plan.scale, plan.size.1 * plan.scale);
    shapes.push(Shape::Rect { x, y, width, height, class: "scene-board" });
}

/// The ground of print, with a little free beside the lines.
pub(super) fn paper(shapes: &mut Vec<Shape>, plan: &Plan<'_>) {
    let (x, y) = plan.corner();
    let (width, height) = (plan.size.0 * plan.scale + 2.0 * EDGE, plan.size.1 * plan.scale);
    shapes.push(Shape::Rect { x: x - EDGE, y, width, height, class: "scene-board" });
}

/// The floor or the road that a thing stands on, across the picture.
fn floor(shapes: &mut Vec<Shape>, y: f64, width: f64) {
    shapes.push(Shape::Line { x1: 0.0, y1: y, x2: width, y2: y, class: "scene-floor" });
}

/// A door with a handle and the floor it stands on.
pub(super) fn door(shapes: &mut Vec<Shape>, plan: &Plan<'_>, width: f64) {
    let ((x, y), scale) = (plan.corner(), plan.scale);
    let bottom = y + plan.size.1 * scale;
    floor(shapes, bottom, width);
    board(shapes, plan);
    let (cx, cy, r) = (x + 0.8 * scale, bottom - scale, 0.035 * scale);
    shapes.push(Shape::Circle { cx, cy, r, class: "scene-handle" });
}

/// An outline with eyes, nose and mouth, at usual places.
pub(super) fn face(shapes: &mut Vec<Shape>, plan: &Plan<'_>) {
    let (cx, cy) = plan.middle;
    let (w, h) = (plan.size.0 * plan.scale, plan.size.1 * plan.scale);
    shapes.push(Shape::Ellipse { cx, cy, rx: w / 2.0, ry: h / 2.0, class: "scene-board" });
    for side in [-1.0, 1.0] {
        let eye = cx + side * 0.22 * w;
        shapes.push(Shape::Ellipse { cx: eye, cy, rx: 0.1 * w, ry: 0.025 * h, class: "scene-line" });
        shapes.push(Shape::Circle { cx: eye, cy, r: 0.025 * h, class: "scene-handle" });
        let brow = format!(
            "M{} {}q{} {} {} 0",
            number(eye - 0.12 * w),
            number(cy - 0.07 * h),
            number(0.12 * w),
            number(-0.03 * h),
            number(0.24 * w)
        );
        shapes.push(Shape::Path { d: brow, class: "scene-line" });
    }
    let nose = format!(
        "M{} {}l{} {}h{}",
        number(cx),
        number(cy + 0.02 * h),
        number(-0.07 * w),
        number(0.14 * h),
        number(0.1 * w)
    );
    let mouth = format!(
        "M{} {}q{} {} {} 0",
        number(cx - 0.16 * w),
        number(cy + 0.27 * h),
        number(0.16 * w),
        number(0.06 * h),
        number(0.32 * w)
    );
    for d in [nose, mouth] {
        shapes.push(Shape::Path { d, class: "scene-line" });
    }
}

/// The front of a bus with its number over the windscreen, wheels and the road.
pub(super) fn bus(shapes: &mut Vec<Shape>, plan: &Plan<'_>, number_height: f64, width: f64) {
    let ((x, y), scale) = (plan.corner(), plan.scale);
    let (w, h) = (plan.size.0 * scale, plan.size.1 * scale);
    floor(shapes, y + h, width);
    for left in [0.1, 0.74] {
        let (x, y) = (x + left * w, y + 0.88 * h);
        shapes.push(Shape::Rect { x, y, width: 0.16 * w, height: 0.12 * h, class: "scene-handle" });
    }
    shapes.push(Shape::Rect { x, y, width: w, height: 0.93 * h, class: "scene-board" });
    let (glass, high) = (0.84 * w, 0.36 * h);
    let (gx, gy) = (x + 0.08 * w, y + 0.24 * h);
    shapes.push(Shape::Rect { x: gx, y: gy, width: glass, height: high, class: "scene-line" });
    for left in [0.1, 0.78] {
        let (x, y) = (x + left * w, y + 0.72 * h);
        shapes.push(Shape::Rect { x, y, width: 0.12 * w, height: 0.06 * h, class: "scene-line" });
    }
    // Over the windscreen, or as far down as it needs.
    let high = (number_height * scale).min(0.9 * h);
    let middle = y + (0.12 * h).max(high / 2.0 + 0.02 * h);
    shapes.push(letters::forty_two((x + w / 2.0, middle), high));
}

/// A square ring with a gap, as thick as a detail and five details high.
pub(super) fn detail(shapes: &mut Vec<Shape>, plan: &Plan<'_>) {
    let (x, y) = plan.corner();
    let side = plan.size.0 * plan.scale;
    let fifth = side / 5.0;
    let d = format!(
        "M{} {}h{side}v{two}h-{fifth}v-{fifth}h-{three}v{three}h{three}v-{fifth}h{fifth}v{two}h-{side}Z",
        number(x),
        number(y),
        side = number(side),
        fifth = number(fifth),
        two = number(2.0 * fifth),
        three = number(3.0 * fifth)
    );
    shapes.push(Shape::Path { d, class: "scene-letters" });
}
