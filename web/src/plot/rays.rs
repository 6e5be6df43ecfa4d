//! The rays through a telescope, drawn from the train that the engine used.
//!
//! Lengths along the axis are to scale; heights are drawn larger by a factor that the picture says. A near object stands
//! beyond a break in the axis. Prisms are not drawn: their path counts at its length in air.

mod path;
#[cfg(test)]
mod tests;
mod words;

use super::scale::{TEXT, bar_words, fitted, length_words, round_at_most, spread, text_width};
use super::shape::number;
use super::{Anchor, Drawing, Shape, ViewBox};
use arcminute_core::math;
use arcminute_core::optics::{Afocal, Sight, Train};
use arcminute_core::unit::Length;
use path::{Course, LensAt, OpeningAt, Ray};

/// What the rays are drawn from.
#[derive(Clone, Copy, Debug)]
pub struct RaysInput<'a> {
    /// The train as used, up to the eye's entrance pupil.
    pub train: &'a Train,
    /// The telescope set for far.
    pub afocal: &'a Afocal,
    /// Diameter of the eye's pupil.
    pub pupil: Length,
    /// Where the object is, from the front of the train.
    pub sight: Sight,
}

const MARGIN: f64 = 8.0;
/// Room for the labels above and below.
const LABELS: f64 = 40.0;

/// Places in the picture of millimetres along the axis and across it.
#[derive(Clone, Copy)]
struct Frame {
    width: f64,
    before: f64,
    per_mm: f64,
    axis: f64,
    up_per_mm: f64,
}

impl Frame {
    fn x(&self, place: f64) -> f64 {
        MARGIN + (place + self.before) * self.per_mm
    }

    fn y(&self, height: f64) -> f64 {
        self.axis - height * self.up_per_mm
    }
}

fn lens_name(index: usize, count: usize) -> &'static str {
    match (index, index + 1 == count) {
        (0, false) => "objective",
        (0, true) => "lens",
        (_, true) => "eyepiece",
        (_, false) => "middle lens",
    }
}

/// Half the height of a lens: its rim, or a little more than the rays need.
fn half_height(lens: &LensAt, course: &Course) -> f64 {
    let near = |point: &&(f64, f64)| math::abs(point.0 - lens.place) < 1e-6;
    let rays = course.on_axis.iter().chain(&course.off_axis);
    let reached = rays.flat_map(|ray| ray.points.iter().filter(near)).map(|point| math::abs(point.1));
    lens.radius.unwrap_or_else(|| 1.2 * reached.fold(0.5, f64::max))
}

/// The rays with their words and rows: 320 wide if `narrow`, else 640.
#[must_use]
pub fn rays(input: &RaysInput<'_>, narrow: bool) -> Drawing {
    let (width, most) = if narrow { (320.0, 70.0) } else { (640.0, 90.0) };
    let course = Course::of(input);
    let length = if course.length.is_finite() { course.length.max(1.0) } else { 1.0 };
    let lead = 0.3 * length;
    let seen_exit = course.exit_pupil.filter(|pupil| -lead < pupil.place && pupil.place < 1.5 * length);
    let end = seen_exit.map_or(length, |pupil| pupil.place.max(length)) + 0.06 * length;
    let per_mm = (width - 2.0 * MARGIN) / (lead + end);
    let highest = highest(&course, input.pupil.mm() / 2.0, seen_exit);
    let factor = round_at_most(most / (highest * per_mm)).min(10.0);
    let half = highest * per_mm * factor;
    let frame = Frame { width, before: lead, per_mm, axis: LABELS + half, up_per_mm: per_mm * factor };
    let mut shapes = Vec::new();
    axis(&mut shapes, frame, &course);
    for (rays, classes) in [
        (&course.on_axis, ["rays-axial"; 3]),
        (&course.off_axis, ["rays-oblique", "rays-chief", "rays-oblique"]),
    ] {
        for (ray, class) in rays.iter().zip(classes) {
            shapes.push(Shape::Path { d: ray_path(ray, frame, &course), class });
        }
    }
    let mut above = Vec::new();
    for (index, lens) in course.lenses.iter().enumerate() {
        let half = half_height(lens, &course).min(highest);
        lens_symbol(&mut shapes, frame, lens, half);
        above.push((lens_name(index, course.lenses.len()), lens.place, half));
    }
    let mut below = Vec::new();
    for stop in &course.stops {
        opening(&mut shapes, frame, *stop, "rays-stop");
        below.push(("field stop", stop.place, stop.radius));
    }
    if let Some(pupil) = seen_exit {
        let inside = course.lenses.last().is_some_and(|last| pupil.place < last.place);
        let (x, class) = (frame.x(pupil.place), if inside { "rays-exit rays-virtual" } else { "rays-exit" });
        shapes.push(Shape::Line {
            x1: x,
            y1: frame.y(pupil.radius),
            x2: x,
            y2: frame.y(-pupil.radius),
            class,
        });
        below.push(("exit pupil", pupil.place, pupil.radius));
    }
    let eye = OpeningAt { place: length, radius: input.pupil.mm() / 2.0 };
    opening(&mut shapes, frame, eye, "rays-eye");
    above.push(("eye", length, eye.radius));
    labels(&mut shapes, frame, &above, (16.0, 20.0), 1.0);
    let lower = frame.axis + half + LABELS;
    labels(&mut shapes, frame, &below, (lower - 4.0, lower - 19.0), -1.0);
    let height =
        caption(&mut shapes, frame, lower + 6.0, &captions(input, &course, lead), &words::heights(factor));
    Drawing {
        view_box: ViewBox { x: 0.0, y: 0.0, width, height },
        unit_mm: None,
        title: "Rays through the telescope".into(),
        description: words::summary(input, &course, factor),
        rows: words::rows(input, &course, factor),
        shapes,
    }
}

/// The greatest height that anything reaches, in millimetres.
fn highest(course: &Course, pupil: f64, exit: Option<OpeningAt>) -> f64 {
    let rays = course.on_axis.iter().chain(&course.off_axis).flat_map(|ray| &ray.points).map(|point| point.1);
    let lenses = course.lenses.iter().map(|lens| half_height(lens, course));
    let openings = course.stops.iter().chain(&exit).map(|opening| opening.radius);
    let all = rays.chain(lenses).chain(openings).chain([pupil]);
    all.map(math::abs).filter(|height| height.is_finite()).fold(0.5, f64::max)
}

/// The axis, and the object or the break before it.
fn axis(shapes: &mut Vec<Shape>, frame: Frame, course: &Course) {
    let (y, end) = (frame.axis, frame.width - MARGIN / 2.0);
    shapes.push(Shape::Line { x1: MARGIN / 2.0, y1: y, x2: end, y2: y, class: "rays-axis" });
    let Some(object) = course.object else { return };
    let x = frame.x(-object.min(frame.before));
    let d = format!(
        "M{0} {1}V{2}M{3} {4}L{0} {2}L{5} {4}",
        number(x),
        number(y),
        number(y - 18.0),
        number(x - 4.0),
        number(y - 12.0),
        number(x + 4.0)
    );
    shapes.push(Shape::Path { d, class: "rays-object" });
    if frame.before < object {
        for slash in [x + 11.0, x + 16.0] {
            shapes.push(Shape::Line {
                x1: slash - 3.0,
                y1: y + 8.0,
                x2: slash + 3.0,
                y2: y - 8.0,
                class: "rays-break",
            });
        }
    }
}

/// The ray from where it enters the picture to the eye.
fn ray_path(ray: &Ray, frame: Frame, course: &Course) -> String {
    let reach = match course.object {
        Some(object) if object <= frame.before => object,
        Some(_) => frame.before - 22.0 / frame.per_mm,
        None => frame.before,
    };
    let first = ray.points.first().map(|(place, y)| (place - reach, y - ray.slope * reach));
    let mut d = String::new();
    let known = |point: &&(f64, f64)| point.0.is_finite() && point.1.is_finite();
    for (place, height) in first.iter().chain(&ray.points).filter(known) {
        let command = if d.is_empty() { "M" } else { "L" };
        d.push_str(&format!("{command}{} {}", number(frame.x(*place)), number(frame.y(*height))));
    }
    d
}

/// A line with arrowheads that point outward for a converging lens and inward for a diverging one.
fn lens_symbol(shapes: &mut Vec<Shape>, frame: Frame, lens: &LensAt, half: f64) {
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

/// Two blades with the opening between them.
fn opening(shapes: &mut Vec<Shape>, frame: Frame, opening: OpeningAt, class: &'static str) {
    let x = frame.x(opening.place);
    for side in [1.0, -1.0] {
        let edge = frame.y(side * opening.radius);
        shapes.push(Shape::Line { x1: x, y1: edge, x2: x, y2: edge - side * 10.0, class });
    }
}

/// Names in a row on the line `base`, with a leader from `from` to the part; `side` is 1 above the axis.
fn labels(
    shapes: &mut Vec<Shape>,
    frame: Frame,
    parts: &[(&str, f64, f64)],
    (base, from): (f64, f64),
    side: f64,
) {
    let wanted: Vec<_> = parts.iter().map(|part| (frame.x(part.1), text_width(part.0, TEXT) + 8.0)).collect();
    for ((name, place, half), x) in parts.iter().zip(spread(&wanted, (0.0, frame.width))) {
        let (x2, y2) = (frame.x(*place), frame.y(side * half) - side * 11.0);
        shapes.push(Shape::Line { x1: x, y1: from, x2, y2, class: "plot-leader" });
        shapes.push(Shape::Text {
            x,
            y: base,
            anchor: Anchor::Middle,
            content: (*name).into(),
            class: "plot-text",
        });
    }
}

/// What has to be said about the drawing beside its scale.
fn captions(input: &RaysInput<'_>, course: &Course, lead: f64) -> Vec<String> {
    let mut lines = vec![match course.object {
        None => "from a far object".into(),
        Some(mm) => {
            let scale = if lead < mm { ", not to scale" } else { "" };
            format!("object {} away{scale}", length_words(Length::from_mm(mm)))
        }
    }];
    if !course.off_axis.is_empty() {
        lines.push("dashed: from the edge of the field".into());
    }
    if words::has_prisms(input) {
        lines.push("prism path drawn unfolded".into());
    }
    lines
}

/// Scale bar, factor of the heights and the lines below; the height of the picture.
fn caption(shapes: &mut Vec<Shape>, frame: Frame, top: f64, lines: &[String], heights: &str) -> f64 {
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
