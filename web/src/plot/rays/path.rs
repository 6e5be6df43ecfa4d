//! What the picture of rays is drawn from: places of the parts and courses of the rays, in millimetres from the front.

use super::RaysInput;
use arcminute_core::math;
use arcminute_core::optics::{Element, Field, Sight, Train, field_of_view};
use arcminute_core::unit::{Length, Vergence};

/// A lens of the train; lenses that touch are one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct LensAt {
    pub(super) place: f64,
    pub(super) power: Vergence,
    /// Half of the opening, where it has a rim.
    pub(super) radius: Option<f64>,
}

/// A round opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct OpeningAt {
    pub(super) place: f64,
    pub(super) radius: f64,
}

/// Points of a ray from part to part, and how it enters.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Ray {
    pub(super) points: Vec<(f64, f64)>,
    pub(super) slope: f64,
}

/// The parts and the rays.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Course {
    pub(super) length: f64,
    pub(super) lenses: Vec<LensAt>,
    pub(super) stops: Vec<OpeningAt>,
    pub(super) exit_pupil: Option<OpeningAt>,
    /// Object in front of the first part; `None` when far.
    pub(super) object: Option<f64>,
    pub(super) apparent: Option<Field>,
    /// Through the edges of the objective, from a point on the axis.
    pub(super) on_axis: Vec<Ray>,
    /// What enters the eye from the half-light edge of the field: one edge, middle, other edge.
    pub(super) off_axis: Vec<Ray>,
}

/// A point of the object as the front of the train sees it: where one of its rays enters, with which slope, and how the
/// slope grows from ray to ray (the reciprocal of its distance).
#[derive(Clone, Copy)]
struct Point {
    height: f64,
    slope: f64,
    spread: f64,
}

impl Point {
    fn slope_at(self, height: f64) -> f64 {
        self.slope + (height - self.height) * self.spread
    }

    fn ray(self, train: &Train, height: f64) -> Ray {
        let slope = self.slope_at(height);
        let points = train.trace(Length::from_m(height), slope);
        Ray { points: points.into_iter().map(|(place, y)| (place.mm(), y.mm())).collect(), slope }
    }
}

impl Course {
    pub(super) fn of(input: &RaysInput<'_>) -> Self {
        let train = input.train;
        let object = match input.sight {
            Sight::At(distance) if distance.is_finite() && Length::ZERO < distance => Some(distance.mm()),
            Sight::At(_) | Sight::Far => None,
        };
        let spread = object.map_or(0.0, |mm| 1000.0 / mm);
        let (lenses, stops) = parts(train);
        let front = train.elements().iter().find_map(|element| match element {
            Element::Lens { clear_diameter, .. } => *clear_diameter,
            Element::Gap(_) | Element::Glass { .. } | Element::Stop(_) => None,
        });
        let radius = front.unwrap_or(input.afocal.objective_diameter).m() / 2.0;
        let axis = Point { height: 0.0, slope: 0.0, spread };
        let apparent = field_of_view(train, input.pupil);
        let off_axis = apparent.map_or_else(Vec::new, |field| {
            off_axis(train, (field.half / 2.0).tangent(), spread, radius, input.pupil.m() / 2.0)
        });
        Self {
            length: train.length().mm(),
            exit_pupil: exit_pupil(train),
            on_axis: [radius, -radius].map(|height| axis.ray(train, height)).into(),
            lenses,
            stops,
            object,
            apparent,
            off_axis,
        }
    }
}

fn parts(train: &Train) -> (Vec<LensAt>, Vec<OpeningAt>) {
    let (mut lenses, mut stops) = (Vec::<LensAt>::new(), Vec::new());
    let mut place = 0.0;
    for element in train.elements() {
        match *element {
            Element::Gap(gap) if gap.is_finite() => place += gap.mm(),
            Element::Glass { thickness, .. } if thickness.is_finite() => place += thickness.mm(),
            Element::Gap(_) | Element::Glass { .. } => {}
            Element::Stop(diameter) => stops.push(OpeningAt { place, radius: diameter.mm() / 2.0 }),
            Element::Lens { power, clear_diameter } => {
                let radius = clear_diameter.map(|diameter| diameter.mm() / 2.0);
                match lenses.last_mut().filter(|last| place - last.place < 1e-6) {
                    Some(last) => {
                        last.power = last.power + power;
                        last.radius = last.radius.or(radius);
                    }
                    None => lenses.push(LensAt { place, power, radius }),
                }
            }
        }
    }
    (lenses, stops)
}

/// The first rimmed lens as the lenses behind it image it.
fn exit_pupil(train: &Train) -> Option<OpeningAt> {
    let is_lens = |element: &Element| matches!(element, Element::Lens { .. });
    let last = train.elements().iter().rposition(is_lens)?;
    let (rim, diameter) = train.elements().iter().enumerate().find_map(|(index, element)| match element {
        Element::Lens { clear_diameter: Some(diameter), .. } => Some((index, *diameter)),
        _ => None,
    })?;
    let behind = Train::of(train.elements().get(rim + 1..=last)?).ok()?.matrix();
    let up_to_last = Train::of(train.elements().get(..=last)?).ok()?.length();
    // The plane where height no longer depends on the slope at the rim; the determinant is one.
    let place = (up_to_last - behind.b / behind.d).mm();
    let radius = (diameter / 2.0).mm() / math::abs(behind.d);
    (place.is_finite() && radius.is_finite()).then_some(OpeningAt { place, radius })
}

/// Rays from the direction that reaches the middle of the eye's pupil with `apparent` slope, as far as they pass the
/// objective and the pupil.
fn off_axis(train: &Train, apparent: f64, spread: f64, objective: f64, pupil: f64) -> Vec<Ray> {
    let m = train.matrix();
    if !apparent.is_finite() || !(1e-6..2.0).contains(&math::abs(apparent)) {
        return Vec::new();
    }
    // The inverse of a matrix of determinant one.
    let point = Point { height: -m.b.m() * apparent, slope: m.a * apparent, spread };
    // Height at the eye is `per_height·height + at_zero`.
    let per_height = m.a + m.b.m() * spread;
    let at_zero = m.b.m() * point.slope_at(0.0);
    let (mut low, mut high) = (-objective, objective);
    if 1e-9 < math::abs(per_height) {
        let ends = [-pupil, pupil].map(|at_eye| (at_eye - at_zero) / per_height);
        low = low.max(ends[0].min(ends[1]));
        high = high.min(ends[0].max(ends[1]));
    }
    // At the very edge rounding must not lose the last ray; an empty bundle is none.
    if high < low || !(low.is_finite() && high.is_finite()) {
        return Vec::new();
    }
    [low, (low + high) / 2.0, high].map(|height| point.ray(train, height)).into()
}
