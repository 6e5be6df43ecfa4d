//! What the parts of the picture of rays look like.

use super::super::scale::{TEXT, bar_words, fitted, round_at_most, spread, text_width};
use super::super::shape::number;
use super::super::{Anchor, Shape};
use super::parts::{OpeningAt, Part, Solid};
use super::path::{Course, Image, Ray};
use super::{Frame, MARGIN, RaysInput, Shown};
use arcminute_core::math;
use arcminute_core::unit::Length;

/// A label: words, place across the picture, and height of the part, in millimetres.
pub(super) type Label = (String, f64, f64);

/// Half the height of an arrow that stands beyond a break, in units of the picture.
const BEYOND: f64 = 18.0;
/// How far the rays begin behind that arrow.
pub(super) const BREAK: f64 = 22.0;

pub(super) fn axis(shapes: &mut Vec<Shape>, frame: Frame) {
    let (y, end) = (frame.axis, frame.width - MARGIN / 2.0);
    shapes.push(Shape::Line { x1: MARGIN / 2.0, y1: y, x2: end, y2: y, class: "rays-axis" });
}

/// Path data of an arrow from the axis.
fn arrow(x: f64, axis: f64, tip: f64) -> String {
    let back = tip + math::abs(axis - tip).min(6.0) * if tip < axis { 1.0 } else { -1.0 };
    let (left, right) = (number(x - 4.0), number(x + 4.0));
    let (x, axis, tip, back) = (number(x), number(axis), number(tip), number(back));
    format!("M{x} {axis}V{tip}M{left} {back}L{x} {tip}L{right} {back}")
}

/// The thing, where it is or beyond a break, and its label.
pub(super) fn object(
    shapes: &mut Vec<Shape>,
    frame: Frame,
    input: &RaysInput<'_>,
    course: &Course,
    (object, half): (f64, f64),
) -> Label {
    let to_scale = course.object_to_scale(input.afocal.is_some());
    let x = frame.x(if to_scale { -object } else { -frame.before });
    if matches!(input.shown, Shown::Screen { .. }) {
        let (y, height) = (frame.axis - half, 2.0 * half);
        shapes.push(Shape::Rect { x: x - 5.0, y, width: 5.0, height, class: "rays-screen" });
    } else {
        let tip = if to_scale { frame.y(course.arrow) } else { frame.axis - BEYOND };
        shapes.push(Shape::Path { d: arrow(x, frame.axis, tip), class: "rays-object" });
    }
    if !to_scale {
        for slash in [x + 11.0, x + 16.0] {
            let (x1, x2) = (slash - 3.0, slash + 3.0);
            let (y1, y2) = (frame.axis + 8.0, frame.axis - 8.0);
            shapes.push(Shape::Line { x1, y1, x2, y2, class: "rays-break" });
        }
    }
    let low = if matches!(input.shown, Shown::Screen { .. }) { -half / frame.up_per_mm } else { 0.0 };
    (fitted(input.name(), frame.width / 3.0, TEXT), x, low)
}

/// The image, and the rays drawn backwards to it.
pub(super) fn image(shapes: &mut Vec<Shape>, frame: Frame, image: &Image) {
    let x = frame.x(image.place);
    let back = image.leave.iter().map(|leave| (leave, 0.0));
    for (leave, height) in back.chain(image.leave_edge.iter().map(|leave| (leave, image.height))) {
        let (x1, y1) = (frame.x(leave.0), frame.y(leave.1));
        shapes.push(Shape::Line { x1, y1, x2: x, y2: frame.y(height), class: "rays-back" });
    }
    shapes.push(Shape::Path { d: arrow(x, frame.axis, frame.y(image.height)), class: "rays-image" });
}

/// The ray from where it enters the picture, so far before the train, to the eye.
pub(super) fn ray_path(ray: &Ray, frame: Frame, reach: f64) -> String {
    let mut d = String::new();
    let known = |point: &&(f64, f64)| point.0.is_finite() && point.1.is_finite();
    for (place, height) in [ray.start(reach)].iter().chain(&ray.points).filter(known) {
        let command = if d.is_empty() { "M" } else { "L" };
        d.push_str(&format!("{command}{} {}", number(frame.x(*place)), number(frame.y(*height))));
    }
    d
}

/// A line with arrowheads that point outward for a converging lens and inward for a diverging one.
pub(super) fn lens(shapes: &mut Vec<Shape>, frame: Frame, lens: &Part, half: f64) {
    let (x, top, bottom) = (frame.x(lens.place), frame.y(half), frame.y(-half));
    let (barb, class) =
        if lens.power.dioptres() < 0.0 { (-6.0, "rays-lens rays-diverging") } else { (6.0, "rays-lens") };
    let mut d = format!("M{0} {1}V{2}", number(x), number(top), number(bottom));
    for (tip, back) in [(top, top + barb), (bottom, bottom - barb)] {
        let (left, right) = (number(x - 5.0), number(x + 5.0));
        d.push_str(&format!("M{left} {0}L{1} {2}L{right} {0}", number(back), number(x), number(tip)));
    }
    shapes.push(Shape::Path { d, class });
}

/// How far the edge of a surface lies from its vertex, toward the inside of the body where it is convex.
fn sag(radius: Option<f64>, half: f64) -> f64 {
    radius.map_or(0.0, |radius| {
        let inside = radius * radius - half * half;
        let edge = if 0.0 < inside { math::sqrt(inside) } else { 0.0 };
        if radius < 0.0 { radius + edge } else { radius - edge }
    })
}

/// A body between two surfaces, curved as they are.
pub(super) fn solid(shapes: &mut Vec<Shape>, frame: Frame, (lens, solid): (&Part, Solid), half: f64) {
    let (front, back) = (solid.radius_of(solid.front), solid.radius_of(solid.back));
    // No higher than the radii, nor so high that the surfaces would cross.
    let mut half = [front, back].into_iter().flatten().map(math::abs).fold(half, f64::min);
    let mut edges = (lens.place, lens.back());
    for _ in 0..40 {
        edges = (lens.place + sag(front, half), lens.back() - sag(back, half));
        if edges.0 <= edges.1 {
            break;
        }
        half *= 0.95;
    }
    let (top, bottom) = (number(frame.y(half)), number(frame.y(-half)));
    let (left, right) = (number(frame.x(edges.0)), number(frame.x(edges.1)));
    let arc = |radius: Option<f64>, to: &str| match radius {
        Some(radius) => {
            let (rx, ry) = (math::abs(radius) * frame.per_mm, math::abs(radius) * frame.up_per_mm);
            let sweep = u8::from(0.0 < radius);
            format!("A{} {} 0 0 {sweep} {to}", number(rx), number(ry))
        }
        None => format!("L{to}"),
    };
    let behind = arc(back, &format!("{right} {bottom}"));
    let before = arc(front, &format!("{left} {top}"));
    let d = format!("M{left} {top}L{right} {top}{behind}L{left} {bottom}{before}Z");
    shapes.push(Shape::Path { d, class: "rays-solid" });
}

/// Two blades with the opening between them.
pub(super) fn opening(shapes: &mut Vec<Shape>, frame: Frame, opening: OpeningAt, class: &'static str) {
    let x = frame.x(opening.place);
    for side in [1.0, -1.0] {
        let edge = frame.y(side * opening.radius);
        shapes.push(Shape::Line { x1: x, y1: edge, x2: x, y2: edge - side * 10.0, class });
    }
}

/// Names in a row on the line `base`, with a leader from `from` to the part; `side` is 1 above the axis. Where they do not
/// all fit, each is cut to its share of the room.
pub(super) fn labels(
    shapes: &mut Vec<Shape>,
    frame: Frame,
    parts: &[Label],
    (base, from): (f64, f64),
    side: f64,
) {
    let room = |name: &str| text_width(name, TEXT) + 8.0;
    let needed: f64 = parts.iter().map(|part| room(&part.0)).sum();
    let share = frame.width / parts.len() as f64 - 8.0;
    let cut = |name: &str| if needed <= frame.width { name.to_owned() } else { fitted(name, share, TEXT) };
    let names: Vec<String> = parts.iter().map(|part| cut(&part.0)).collect();
    let wanted: Vec<_> = parts.iter().zip(&names).map(|(part, name)| (part.1, room(name))).collect();
    for (((_, place, height), x), content) in parts.iter().zip(spread(&wanted, (0.0, frame.width))).zip(names)
    {
        let y2 = frame.y(*height) - side * 11.0;
        shapes.push(Shape::Line { x1: x, y1: from, x2: *place, y2, class: "plot-leader" });
        let (y, anchor) = (base, Anchor::Middle);
        shapes.push(Shape::Text { x, y, anchor, content, class: "plot-text" });
    }
}

/// Scale bar, factor of the heights and the lines below; the height of the picture.
pub(super) fn caption(
    shapes: &mut Vec<Shape>,
    frame: Frame,
    top: f64,
    lines: &[String],
    heights: &str,
) -> f64 {
    let length = round_at_most(frame.width / 4.0 / frame.per_mm);
    let (x1, x2, y) = (MARGIN, MARGIN + length * frame.per_mm, top + 12.0);
    shapes.push(Shape::Line { x1, y1: y, x2, y2: y, class: "plot-scale" });
    for x in [x1, x2] {
        shapes.push(Shape::Line { x1: x, y1: y - 5.0, x2: x, y2: y + 5.0, class: "plot-end" });
    }
    let mut say = |x: f64, y: f64, content: String| {
        shapes.push(Shape::Text { x, y, anchor: Anchor::Start, content, class: "plot-text plot-quiet" });
    };
    say(x2 + 8.0, y + 5.5, bar_words(Length::from_mm(length)));
    for (index, line) in [heights].into_iter().chain(lines.iter().map(String::as_str)).enumerate() {
        say(MARGIN, y + 28.0 + 21.0 * index as f64, fitted(line, frame.width - 2.0 * MARGIN, TEXT));
    }
    y + 28.0 + 21.0 * lines.len() as f64 + 6.0
}
