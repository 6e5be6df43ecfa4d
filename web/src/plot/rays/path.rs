//! What the picture of rays is drawn from: places of the parts and courses of the rays, in millimetres from the front.

use super::parts::{OpeningAt, Parts};
use super::{RaysInput, Shown};
use arcminute_core::math;
use arcminute_core::optics::{Element, Field, Sight, Train, field_of_view_at, view};
use arcminute_core::unit::{Length, Vergence};

/// Points of a ray from part to part, and how it enters.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Ray {
    pub(super) points: Vec<(f64, f64)>,
    pub(super) slope: f64,
}

impl Ray {
    /// Where it is so far before the front of the train.
    pub(super) fn start(&self, reach: f64) -> (f64, f64) {
        let (place, height) = self.points.first().copied().unwrap_or_default();
        (place - reach, height - self.slope * reach)
    }
}

/// What the light does behind the last lens of the aid.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Leaving {
    /// It is parallel.
    Parallel,
    /// It seems to come from an image in front of that lens.
    From(Image),
    /// It runs together, so far behind that lens.
    Towards(f64),
}

/// Where light seems to come from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Image {
    /// Place from the front of the train; negative in front of it.
    pub(super) place: f64,
    /// So far in front of the lens.
    pub(super) before: f64,
    /// Height of its arrow.
    pub(super) height: f64,
    /// Its height over that of the thing; `None` for a far thing.
    pub(super) larger: Option<f64>,
    /// Where the drawn rays leave the lens.
    pub(super) leave: Vec<(f64, f64)>,
    /// Where the ray from the edge leaves it.
    pub(super) leave_edge: Option<(f64, f64)>,
}

/// The parts and the rays.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Course {
    pub(super) length: f64,
    pub(super) parts: Parts,
    pub(super) exit_pupil: Option<OpeningAt>,
    /// Object in front of the first part; `None` when far.
    pub(super) object: Option<f64>,
    /// Height of the arrow that stands for it.
    pub(super) arrow: f64,
    pub(super) apparent: Option<Field>,
    /// Width of the thing that is seen at once to the half-light edge.
    pub(super) width: Option<Length>,
    /// What reaches the eye from a point on the axis; of a telescope, what enters the edges of its objective.
    pub(super) on_axis: Vec<Ray>,
    /// What enters the eye from a point beside the axis: one edge, middle, other edge.
    pub(super) off_axis: Vec<Ray>,
    /// Whether that point is the half-light edge of the field, or nearer to the middle than it.
    pub(super) at_edge: bool,
    /// `None` without a lens, and for a telescope.
    pub(super) leaving: Option<Leaving>,
    /// Vergence demand at the eye.
    pub(super) demand: Vergence,
}

/// A point of the thing as the front of the train meets it: height and slope of one of its rays, and what both gain from
/// ray to ray. Metres and ratios.
#[derive(Clone, Copy)]
struct Point {
    height: f64,
    slope: f64,
    per_ray: (f64, f64),
}

/// Height and slope behind a part, as functions of the ray.
#[derive(Clone, Copy)]
struct Behind {
    height: f64,
    slope: f64,
    per_ray: (f64, f64),
}

impl Point {
    fn on_axis(object: Option<f64>) -> Self {
        // Rays of a near point differ in slope, and so in height after its distance; those of a far one in height only.
        let per_ray = object.map_or((1.0, 0.0), |mm| (mm / 1000.0, 1.0));
        Self { height: 0.0, slope: 0.0, per_ray }
    }

    fn behind(self, elements: &[Element]) -> Option<Behind> {
        let m = Train::of(elements).ok()?.matrix();
        let through = |(y, u): (f64, f64)| (m.a * y + m.b.m() * u, m.c.dioptres() * y + m.d * u);
        let (height, slope) = through((self.height, self.slope));
        Some(Behind { height, slope, per_ray: through(self.per_ray) })
    }

    fn ray(self, train: &Train, ray: f64) -> Ray {
        let (height, slope) = (self.height + ray * self.per_ray.0, self.slope + ray * self.per_ray.1);
        let points = train.trace(Length::from_m(height), slope);
        Ray { points: points.into_iter().map(|(place, y)| (place.mm(), y.mm())).collect(), slope }
    }

    /// The rays of this point that pass every opening and the pupil, first to last; `None` when none does.
    fn that_pass(self, train: &Train, pupil: f64) -> Option<(f64, f64)> {
        let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
        let mut narrow = |at: Behind, radius: f64| {
            // At the very edge of an opening in an image rounding must not lose the last ray.
            let radius = radius * (1.0 + 1e-11);
            if 1e-9 < math::abs(at.per_ray.0) {
                let ends = [-radius, radius].map(|edge| (edge - at.height) / at.per_ray.0);
                low = low.max(ends[0].min(ends[1]));
                high = high.min(ends[0].max(ends[1]));
            }
        };
        for (index, element) in train.elements().iter().enumerate() {
            if let Element::Lens { clear_diameter: Some(diameter), .. } | Element::Stop(diameter) = element {
                narrow(self.behind(train.elements().get(..index)?)?, diameter.m() / 2.0);
            }
        }
        narrow(self.behind(train.elements())?, pupil);
        (low.is_finite() && high.is_finite() && low <= high).then_some((low, high))
    }
}

/// Steepest middle ray that is drawn of a near thing: wider fields would leave the bundle too thin to see.
const STEEPEST: f64 = 0.3;
/// Of less vergence than this the light counts as parallel, in dioptres.
const PARALLEL: f64 = 0.01;

impl Course {
    pub(super) fn of(input: &RaysInput<'_>) -> Self {
        let train = input.train;
        let parts = Parts::of(input);
        let on_glass = matches!(train.elements().first(), Some(Element::Glass { .. }));
        let object = match input.sight {
            Sight::At(distance) if distance.is_finite() => Some(distance.mm()),
            Sight::At(_) | Sight::Far => None,
        };
        let object = object.filter(|mm| 0.0 < *mm || (*mm == 0.0 && on_glass));
        let seen = view(train, object.map_or(Sight::Far, |mm| Sight::At(Length::from_mm(mm))));
        let demand = seen.focus_demand;
        let known = if demand.is_finite() { demand } else { Vergence::ZERO };
        let apparent = field_of_view_at(train, input.pupil, known);
        let middle = Point::on_axis(object);
        let pupil = input.pupil.m() / 2.0;
        let edge = apparent.map(|field| (field.half / 2.0).tangent());
        let at_edge = input.afocal.is_some() || edge.is_none_or(|edge| edge <= STEEPEST);
        let beside = edge
            .map(|edge| if at_edge { edge } else { STEEPEST })
            .and_then(|apparent| beside(train, apparent, middle, input.afocal.is_some()))
            // A screen is one with any aid before it only by the eye that looks at both: its own edge is told in words.
            .filter(|_| !matches!(input.shown, Shown::Screen { .. }));
        let off_axis = beside.and_then(|point| {
            let (low, high) = point.that_pass(train, pupil)?;
            Some([low, (low + high) / 2.0, high].map(|ray| point.ray(train, ray)).into())
        });
        let height_of = |point: Point| object.map(|mm| 1000.0 * point.height - mm * point.slope);
        // Where nothing limits what is seen, an arrow as high as the pupil is wide stands for the thing.
        let arrow = beside.and_then(height_of).unwrap_or(input.pupil.mm());
        Self {
            length: Some(train.length().mm()).filter(|mm| mm.is_finite()).unwrap_or_default(),
            exit_pupil: input.afocal.and_then(|_| exit_pupil(train, &parts)),
            object,
            arrow,
            apparent,
            width: seen
                .equivalent_viewing_distance
                .zip(apparent)
                .map(|(evd, field)| field.width_at(evd) / input.shown.larger()),
            on_axis: on_axis(input, middle, object),
            off_axis: off_axis.unwrap_or_default(),
            at_edge,
            leaving: leaving(input, &parts, (middle, beside), arrow),
            demand,
            parts,
        }
    }

    /// Whether the thing stands where it is, or beyond a break in the axis.
    pub(super) fn object_to_scale(&self, telescope: bool) -> bool {
        let lengths = if telescope { 4.0 } else { 60.0 };
        self.object.is_some_and(|object| self.length <= 0.0 || object <= lengths * self.length)
    }

    /// The image, where it is near enough to be drawn.
    pub(super) fn image(&self) -> Option<&Image> {
        match &self.leaving {
            Some(Leaving::From(image)) if -image.place <= self.reach() => Some(image),
            _ => None,
        }
    }

    /// An image farther in front than this would leave too little room for the rest.
    fn reach(&self) -> f64 {
        3.0 * (self.length + self.object.unwrap_or(0.0))
    }
}

/// The rays of the middle of the thing: those that enter the eye, and of a telescope those through the edges of its
/// objective.
fn on_axis(input: &RaysInput<'_>, middle: Point, object: Option<f64>) -> Vec<Ray> {
    let train = input.train;
    let ends = match input.afocal {
        Some(afocal) => {
            let rim = train.elements().iter().find_map(|element| match element {
                Element::Lens { clear_diameter, .. } => *clear_diameter,
                Element::Gap(_) | Element::Glass { .. } | Element::Stop(_) => None,
            });
            let radius = rim.unwrap_or(afocal.objective_diameter).m() / 2.0;
            let end = object.map_or(radius, |mm| 1000.0 * radius / mm);
            Some((-end, end)).filter(|_| end.is_finite())
        }
        None => middle.that_pass(train, input.pupil.m() / 2.0),
    };
    ends.map_or_else(Vec::new, |(low, high)| [high, low].map(|ray| middle.ray(train, ray)).into())
}

/// The point whose middle ray meets the middle of the pupil with this slope.
fn beside(train: &Train, apparent: f64, middle: Point, telescope: bool) -> Option<Point> {
    if !apparent.is_finite() || !(1e-6..2.0).contains(&math::abs(apparent)) {
        return None;
    }
    let m = train.matrix();
    // The inverse of a matrix of determinant one.
    let (height, slope) = (-m.b.m() * apparent, m.a * apparent);
    let on_thing = height - middle.per_ray.0 * slope * middle.per_ray.1;
    // A near thing stands upright.
    let near = middle.per_ray.1 != 0.0;
    let side = if (near || !telescope) && on_thing < 0.0 { -1.0 } else { 1.0 };
    Some(Point { height: side * height, slope: side * slope, per_ray: middle.per_ray })
}

/// What the light does behind the last lens of the aid.
fn leaving(
    input: &RaysInput<'_>,
    parts: &Parts,
    (middle, beside): (Point, Option<Point>),
    arrow: f64,
) -> Option<Leaving> {
    let (lens, _) = parts.last().filter(|_| input.afocal.is_none())?;
    let elements = input.train.elements().get(..=lens.last)?;
    let axis = middle.behind(elements)?;
    let vergence = axis.per_ray.1 / axis.per_ray.0;
    if math::abs(vergence) < PARALLEL {
        return Some(Leaving::Parallel);
    }
    let (before, back) = (1000.0 / vergence, lens.back());
    if before < 0.0 {
        return Some(Leaving::Towards(-before)).filter(|_| before.is_finite());
    }
    let near = middle.per_ray.1 != 0.0;
    // Of a near thing without an edge, a point as high as its arrow.
    let tip = match beside {
        Some(point) => point,
        None if near => Point { height: arrow / 1000.0, slope: 0.0, per_ray: middle.per_ray },
        None => middle,
    };
    let tip = tip.behind(elements)?;
    let height = 1000.0 * tip.height - before * tip.slope;
    let pupil = input.pupil.m() / 2.0;
    let leaves = |at: &Behind, ray: f64| (back, 1000.0 * (at.height + ray * at.per_ray.0));
    let (low, high) = middle.that_pass(input.train, pupil)?;
    let edge = beside.and_then(|point| {
        let (low, high) = point.that_pass(input.train, pupil)?;
        Some(leaves(&tip, (low + high) / 2.0))
    });
    let image = Image {
        place: back - before,
        before,
        height,
        larger: near.then_some(height / arrow),
        leave: [high, low].map(|ray| leaves(&axis, ray)).into(),
        leave_edge: edge,
    };
    let known = before.is_finite() && height.is_finite();
    known.then_some(Leaving::From(image))
}

/// The first rimmed lens as the lenses of the telescope behind it image it.
fn exit_pupil(train: &Train, parts: &Parts) -> Option<OpeningAt> {
    let (eyepiece, _) = parts.last()?;
    let (rim, diameter) = train.elements().iter().enumerate().find_map(|(index, element)| match element {
        Element::Lens { clear_diameter: Some(diameter), .. } => Some((index, *diameter)),
        _ => None,
    })?;
    let behind = Train::of(train.elements().get(rim + 1..=eyepiece.last)?).ok()?.matrix();
    // The plane where height no longer depends on the slope at the rim; the determinant is one.
    let place = eyepiece.place - (behind.b / behind.d).mm();
    let radius = (diameter / 2.0).mm() / math::abs(behind.d);
    (place.is_finite() && radius.is_finite()).then_some(OpeningAt { place, radius })
}
