//! The rays through an aid, drawn from the train that the engine used.
//!
//! Lengths along the axis are to scale; heights are drawn larger by a factor that the picture says. A thing too far to be
//! shown in its place stands beyond a break in the axis. Prisms are not drawn: their path counts at its length in air.
//! Where the light seems to come from is found by drawing the rays backwards, as fine dashes.

mod parts;
mod path;
mod symbols;
#[cfg(test)]
mod tests;
mod words;

use super::scale::round_at_most;
use super::{Drawing, Shape, ViewBox};
use arcminute_core::device::Arrangement;
use arcminute_core::math;
use arcminute_core::optics::{Afocal, Element, Sight, Train};
use arcminute_core::unit::Length;
use parts::{OpeningAt, Part};
use path::{Course, Image};

/// What is shown to the front of the train.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shown {
    /// The thing itself.
    Thing,
    /// A copy of it on paper.
    Copy {
        /// Its size over that of the thing; a pure ratio.
        larger: f64,
    },
    /// A screen with a picture of it.
    Screen {
        /// Size on the screen over that of the thing; a pure ratio.
        larger: f64,
        /// Width of the thing that the screen shows at once.
        width: Length,
    },
}

impl Shown {
    /// Size of what is shown over that of the thing.
    fn larger(self) -> f64 {
        match self {
            Self::Thing => 1.0,
            Self::Copy { larger } | Self::Screen { larger, .. } => larger,
        }
    }
}

/// What the rays are drawn from.
#[derive(Clone, Copy, Debug)]
pub struct RaysInput<'a> {
    /// The train as used, up to the eye's entrance pupil.
    pub train: &'a Train,
    /// Where the object is, from the front of the train.
    pub sight: Sight,
    /// Diameter of the eye's pupil.
    pub pupil: Length,
    /// What is shown there.
    pub shown: Shown,
    /// What is looked at, without an article, such as `print`.
    pub thing: &'a str,
    /// The telescope set for far, where the aid is one.
    pub afocal: Option<&'a Afocal>,
    /// Names of the lenses, first met first; thin lenses that touch, and the surfaces of a solid one, are one. A name that
    /// is missing or empty is ours.
    pub names: &'a [&'a str],
}

impl<'a> RaysInput<'a> {
    /// A thing itself through a train, before a pupil of this diameter: no telescope, our own names.
    #[must_use]
    pub fn through(train: &'a Train, sight: Sight, pupil: Length) -> Self {
        let thing = if sight == Sight::Far { "thing" } else { "print" };
        Self { train, sight, pupil, shown: Shown::Thing, thing, afocal: None, names: &[] }
    }

    /// An aid in use before a pupil of this diameter: print near, a thing far off, our own names.
    ///
    /// A window that no glass on the page leaves is that of a screen. Say which telescope it is in `afocal`, if it is one.
    ///
    /// ```
    /// use arcminute_core::device::{Aid, Eye};
    /// use arcminute_core::unit::{Length, LogMar};
    /// use arcminute_web::plot::{RaysInput, rays};
    /// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// let nearer = Aid::NearerAndLarger { larger: 1.0, thing_to_eye: Length::from_mm(100.0) };
    /// let arrangement = nearer.arrange(&eye, None)?;
    /// let drawing = rays(&RaysInput::of(&arrangement, eye.pupil), true);
    /// assert!(drawing.description.starts_with("Rays from the print, 100.0 mm before the eye"));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn of(arrangement: &'a Arrangement, pupil: Length) -> Self {
        let larger = arrangement.shown_larger;
        let on_glass = matches!(arrangement.train.elements().first(), Some(Element::Glass { .. }));
        let shown = match arrangement.window {
            Some(width) if !on_glass => Shown::Screen { larger, width },
            _ if math::abs(larger - 1.0) < 1e-9 => Shown::Thing,
            _ => Shown::Copy { larger },
        };
        Self { shown, ..Self::through(&arrangement.train, arrangement.sight, pupil) }
    }

    /// What stands at the place of the thing.
    fn name(&self) -> &'a str {
        match self.shown {
            Shown::Screen { .. } => "screen",
            Shown::Copy { .. } => "copy",
            Shown::Thing => self.thing,
        }
    }
}

const MARGIN: f64 = 8.0;
/// Room for the labels above and below.
const LABELS: f64 = 40.0;
/// Least half height of a lens without a rim, in units of the picture.
const RIMLESS: f64 = 14.0;

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

/// Half the height of a lens: its rim, or a little more than the rays need.
fn half_height(lens: &Part, course: &Course) -> f64 {
    let near = |point: &&(f64, f64)| math::abs(point.0 - lens.back()) < 1e-6;
    let rays = course.on_axis.iter().chain(&course.off_axis);
    let reached = rays.flat_map(|ray| ray.points.iter().filter(near)).map(|point| math::abs(point.1));
    lens.known_half_height().unwrap_or_else(|| 1.2 * reached.fold(0.5, f64::max))
}

/// From where to where the axis is drawn, in millimetres before and behind the front of the train.
fn extent(input: &RaysInput<'_>, course: &Course, exit: Option<OpeningAt>) -> (f64, f64) {
    let eye = course.length;
    let object = course.object.filter(|_| course.object_to_scale(input.afocal.is_some()));
    let image = course.image().map(|image| -image.place);
    let in_front = object.into_iter().chain(image).fold(0.0, f64::max);
    // Room for a label where something stands at the very end.
    let before = if in_front <= 0.0 { 0.0 } else { in_front + 0.05 * (in_front + eye) };
    let before = before.max(0.3 * eye.max(1.0)).max(if object.is_some() { 0.05 * eye } else { 0.0 });
    let end = exit.map_or(eye, |pupil| pupil.place.max(eye));
    (before, end + 0.06 * (before + eye.max(1.0)) / 1.3)
}

/// The rays with their words and rows: 320 wide if `narrow`, else 640.
#[must_use]
pub fn rays(input: &RaysInput<'_>, narrow: bool) -> Drawing {
    let (width, most) = if narrow { (320.0, 70.0) } else { (640.0, 90.0) };
    let course = Course::of(input);
    let seen_exit = course
        .exit_pupil
        .filter(|pupil| -0.3 * course.length < pupil.place && pupil.place < 1.5 * course.length);
    let (before, end) = extent(input, &course, seen_exit);
    let per_mm = (width - 2.0 * MARGIN) / (before + end);
    let reach = reach(input, &course, (before, per_mm));
    let highest = highest(&course, input, reach, seen_exit);
    let factor = round_at_most(most / (highest * per_mm)).min(10.0);
    let half = highest * per_mm * factor;
    let frame = Frame { width, before, per_mm, axis: LABELS + half, up_per_mm: per_mm * factor };
    let mut shapes = Vec::new();
    let mut below = Vec::new();
    symbols::axis(&mut shapes, frame);
    bodies(&mut shapes, frame, &course, highest);
    if let Some(object) = course.object {
        below.push(symbols::object(&mut shapes, frame, input, &course, (object, half)));
    }
    for (rays, classes) in [
        (&course.on_axis, ["rays-axial"; 3]),
        (&course.off_axis, ["rays-oblique", "rays-chief", "rays-oblique"]),
    ] {
        for (ray, class) in rays.iter().zip(classes) {
            shapes.push(Shape::Path { d: symbols::ray_path(ray, frame, reach), class });
        }
    }
    if let Some(image) = course.image().filter(|_| draws_image(input)) {
        symbols::image(&mut shapes, frame, image);
        below.push(("image".into(), frame.x(image.place), image.height.min(0.0)));
    }
    let mut above = Vec::new();
    for (lens, name) in course.parts.lenses.iter().zip(&course.parts.names) {
        let mut half = half_height(lens, &course).min(highest);
        if lens.solid.is_none() {
            if lens.known_half_height().is_none() {
                // What has no rim is drawn large enough to be seen.
                half = half.max(RIMLESS / frame.up_per_mm).min(highest);
            }
            symbols::lens(&mut shapes, frame, lens, half);
        }
        above.push((name.clone(), frame.x((lens.place + lens.back()) / 2.0), half));
    }
    for stop in &course.parts.stops {
        symbols::opening(&mut shapes, frame, *stop, "rays-stop");
        below.push(("field stop".into(), frame.x(stop.place), -stop.radius));
    }
    if let Some(pupil) = seen_exit {
        let inside = course.parts.last().is_some_and(|(last, _)| pupil.place < last.place);
        let (x, class) = (frame.x(pupil.place), if inside { "rays-exit rays-virtual" } else { "rays-exit" });
        let (y1, y2) = (frame.y(pupil.radius), frame.y(-pupil.radius));
        shapes.push(Shape::Line { x1: x, y1, x2: x, y2, class });
        below.push(("exit pupil".into(), x, -pupil.radius));
    }
    let eye = OpeningAt { place: course.length, radius: input.pupil.mm() / 2.0 };
    symbols::opening(&mut shapes, frame, eye, "rays-eye");
    above.push(("eye".into(), frame.x(eye.place), eye.radius));
    symbols::labels(&mut shapes, frame, &above, (16.0, 20.0), 1.0);
    let lower = frame.axis + half + LABELS;
    symbols::labels(&mut shapes, frame, &below, (lower - 4.0, lower - 19.0), -1.0);
    let lines = words::captions(input, &course);
    let height = symbols::caption(&mut shapes, frame, lower + 6.0, &lines, &words::heights(factor));
    Drawing {
        view_box: ViewBox { x: 0.0, y: 0.0, width, height },
        unit_mm: None,
        title: "Rays through the aid".into(),
        description: words::summary(input, &course, factor),
        rows: words::rows(input, &course, factor),
        shapes,
    }
}

/// A screen and what it looks like through glasses would be one in the picture.
fn draws_image(input: &RaysInput<'_>) -> bool {
    !matches!(input.shown, Shown::Screen { .. })
}

/// How far before the front of the train the rays begin, in millimetres: at the thing, behind the break, or at the left.
fn reach(input: &RaysInput<'_>, course: &Course, (before, per_mm): (f64, f64)) -> f64 {
    match course.object {
        Some(object) if course.object_to_scale(input.afocal.is_some()) => object,
        Some(_) => before - symbols::BREAK / per_mm,
        None => before,
    }
}

/// The greatest height that anything reaches, in millimetres.
fn highest(course: &Course, input: &RaysInput<'_>, reach: f64, exit: Option<OpeningAt>) -> f64 {
    let rays = course.on_axis.iter().chain(&course.off_axis);
    let rays = rays.flat_map(|ray| ray.points.iter().map(|point| point.1).chain([ray.start(reach).1]));
    let lenses = course.parts.lenses.iter().map(|lens| half_height(lens, course));
    let openings = course.parts.stops.iter().chain(&exit).map(|opening| opening.radius);
    let in_place = draws_image(input) && course.object_to_scale(input.afocal.is_some());
    let arrow = in_place.then_some(course.arrow);
    let image = course.image().filter(|_| draws_image(input)).map(|image: &Image| image.height);
    let all = rays.chain(lenses).chain(openings).chain(arrow).chain(image).chain([input.pupil.mm() / 2.0]);
    all.map(math::abs).filter(|height| height.is_finite()).fold(0.5, f64::max)
}

/// Lenses and blocks with a thickness, behind everything else.
fn bodies(shapes: &mut Vec<Shape>, frame: Frame, course: &Course, highest: f64) {
    for lens in &course.parts.lenses {
        if let Some(solid) = lens.solid {
            symbols::solid(shapes, frame, (lens, solid), half_height(lens, course).min(highest));
        }
    }
}
