//! How much lens remains round an opening.

use super::frame::{Frame, Point};
use crate::math;
use crate::unit::{Angle, Length};

/// The thinnest place between an oval opening and the lens edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Web {
    /// Lens left there; negative when the opening leaves the lens.
    pub least: Length,
    /// Direction in which the web is thinnest: 0° outward (temporal), 90° up, 180° nasal, 270° down.
    pub direction: Angle,
    /// The place on the opening.
    pub at_opening: Point,
    /// The nearest place on the edge.
    pub at_edge: Point,
}

/// Tangent pairs tried before refinement; the four sides of the box are among them.
const DIRECTIONS: usize = 180;
/// Degrees from one to the next.
const APART: f64 = 360.0 / DIRECTIONS as f64;
/// Golden-section rounds: 4° shrink to below 1e-8°, where the gap stands still to 1e-9 mm.
const ROUNDS: usize = 42;

/// The least web round an upright oval opening.
///
/// Lens outline and opening are both convex. Lay two parallel tangents, one on each, at right angles to a direction:
/// their distance is `(A/2 − r)|cos θ| + (B/2 − r)|sin θ| + r − x cos θ − y sin θ − √((w cos θ)² + (h sin θ)²)`, with the
/// oval's centre at `(x, y)` from the box centre. The least of these over all directions is the least distance from any
/// point of the oval to the edge, also when the oval leaves the lens.
///
/// * `half_width`, `half_height` of the opening, above zero.
/// * Domain: the rounded-rectangle outline.
/// * Source: geometry; a test samples oval and outline and measures every distance.
///
/// ```
/// use arcminute_core::{fit::{least_web, Frame, Point}, unit::Length};
/// let mm = Length::from_mm;
/// let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("a usual frame");
/// let web = least_web(&frame, Point::from_mm(31.5, 32.944), mm(7.5), mm(8.444));
/// assert!((web.least.mm() - 2.612).abs() < 1e-3);
/// assert!((web.direction.degrees() - 90.0).abs() < 1e-6, "thinnest straight above");
/// ```
#[must_use]
pub fn least_web(frame: &Frame, centre: Point, half_width: Length, half_height: Length) -> Web {
    let (a, b, r) = frame.halves();
    let middle = frame.box_centre();
    let (x, y) = (centre.x.mm() - middle.x.mm(), centre.y.mm() - middle.y.mm());
    let (w, h) = (half_width.mm(), half_height.mm());
    let gap = |degrees: f64| {
        let (cos, sin) = cos_sin(degrees);
        let outline = (a - r) * math::abs(cos) + (b - r) * math::abs(sin) + r;
        outline - x * cos - y * sin - math::hypot(w * cos, h * sin)
    };
    let (least, direction) = least_of(&gap);
    let (cos, sin) = cos_sin(direction);
    let reach = math::hypot(w * cos, h * sin);
    let (open_x, open_y) = (centre.x.mm() + w * w * cos / reach, centre.y.mm() + h * h * sin / reach);
    Web {
        least: Length::from_mm(least),
        direction: Angle::from_degrees(direction),
        at_opening: Point::from_mm(open_x, open_y),
        at_edge: Point::from_mm(open_x + least * cos, open_y + least * sin),
    }
}

fn cos_sin(degrees: f64) -> (f64, f64) {
    let radians = degrees * (math::PI / 180.0);
    (math::cos(radians), math::sin(radians))
}

/// Least value of a function of direction and the direction it has it in, the first of several alike; degrees from 0 to
/// 360.
fn least_of(gap: &dyn Fn(f64) -> f64) -> (f64, f64) {
    let mut sampled = [(0.0, 0.0); DIRECTIONS];
    let mut direction = 0.0;
    for sample in &mut sampled {
        *sample = (direction, gap(direction));
        direction += APART;
    }
    let least = sampled.iter().fold(f64::INFINITY, |least, (_, value)| least.min(*value));
    let mut best = (f64::INFINITY, 0.0);
    let before = sampled.iter().cycle().skip(DIRECTIONS - 1);
    let after = sampled.iter().cycle().skip(1);
    for ((&(here, value), &(_, before)), &(_, after)) in sampled.iter().zip(before).zip(after) {
        // A degree from a smooth minimum the gap is about a hundredth of a millimetre above it.
        if value > before || value > after || value > least + 0.05 {
            continue;
        }
        for (candidate, direction) in [(value, here), refined(gap, here)] {
            if candidate < best.0 {
                best = (candidate, direction);
            }
        }
    }
    best
}

/// Golden-section search for the least value within one step of `degrees`.
fn refined(gap: &dyn Fn(f64) -> f64, degrees: f64) -> (f64, f64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_8;
    let (mut low, mut high) = (degrees - APART, degrees + APART);
    for _ in 0..ROUNDS {
        let step = GOLDEN * (high - low);
        let (left, right) = (high - step, low + step);
        if gap(left) < gap(right) {
            high = right;
        } else {
            low = left;
        }
    }
    let direction = (low + high) / 2.0;
    (gap(direction), if direction < 0.0 { direction + 360.0 } else { direction })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn web(x: f64, y: f64, w: f64, h: f64) -> Web {
        let mm = Length::from_mm;
        let frame = Frame::new(mm(48.0), mm(42.0), mm(20.0), mm(8.0)).expect("possible");
        least_web(&frame, Point::from_mm(x, y), mm(w), mm(h))
    }

    /// Law: wherever the least gap lies between the directions that are tried, it is found.
    #[test]
    fn the_least_gap_is_found_between_two_directions() {
        for middle in [0.7, 10.3, 11.7, 180.9, 350.2, 359.5] {
            let gap = |direction: f64| 1.0 - cos_sin(direction - middle).0;
            let (least, found) = least_of(&gap);
            assert!((found - middle).abs() < 1e-4 && least < 1e-12, "{middle}: {least} at {found}");
        }
    }

    /// Law: other dips, thirty degrees and more away, do not draw the search aside.
    #[test]
    fn the_least_gap_is_found_among_other_dips() {
        for middle in [45.3, 100.7, 180.9, 233.1, 350.2] {
            let gap = |direction: f64| {
                let away = direction - middle;
                1.5 - cos_sin(12.0 * away).0 - 0.5 * cos_sin(away).0
            };
            let (least, found) = least_of(&gap);
            assert!((found - middle).abs() < 1e-4 && least < 1e-12, "{middle}: {least} at {found}");
        }
    }

    /// Each search between two directions costs as much as half of all that are tried.
    #[test]
    fn only_dips_that_may_be_the_least_are_searched() {
        use core::cell::Cell;
        // Dips of the first gap at 90 and 270 degrees, alike but for `apart`; both are directions that are tried.
        for (apart, searched) in [(0.0, 2), (0.02, 2), (0.2, 1)] {
            let asked = Cell::new(0);
            let gap = |direction: f64| {
                asked.set(asked.get() + 1);
                let (cos, sin) = cos_sin(direction);
                cos * cos + apart / 2.0 * (1.0 - sin)
            };
            let (least, found) = least_of(&gap);
            assert!(least < 1e-12 && (found - 90.0).abs() < 1e-6, "{least} at {found}");
            assert_eq!(asked.get(), DIRECTIONS + searched * (2 * ROUNDS + 1), "{apart} apart");
        }
    }

    #[test]
    fn a_round_opening_amid_a_round_lens_has_the_same_web_all_round() {
        assert_eq!(least_of(&|_| 3.0), (3.0, 0.0), "the first direction of all");
        let mm = Length::from_mm;
        let round = Frame::new(mm(48.0), mm(48.0), mm(20.0), mm(24.0)).expect("a round lens");
        let least = least_web(&round, round.box_centre(), mm(7.5), mm(7.5)).least.mm();
        assert!((least - 16.5).abs() < 1e-12, "24 less 7.5 mm, and not {least}");
    }

    #[test]
    fn a_round_opening_is_as_far_from_the_edge_as_its_centre_less_its_radius() {
        for (x, y) in [(34.0, 21.0), (20.0, 12.0), (52.0, 36.0), (15.0, 38.0), (56.0, 40.0), (30.0, 41.0)] {
            let mm = Length::from_mm;
            let frame = Frame::new(mm(48.0), mm(42.0), mm(20.0), mm(8.0)).expect("possible");
            let wanted = -frame.signed_distance(Point::from_mm(x, y)).mm() - 5.0;
            let got = web(x, y, 5.0, 5.0).least.mm();
            assert!((got - wanted).abs() < 1e-9, "centre ({x}, {y}): got {got}, wanted {wanted}");
        }
    }

    #[test]
    fn the_thinnest_place_lies_between_its_two_points() {
        for (x, y) in [(31.5, 30.0), (45.0, 30.0), (20.0, 20.0), (31.5, 36.0)] {
            let web = web(x, y, 7.5, 8.5);
            let (dx, dy) = (web.at_edge.x - web.at_opening.x, web.at_edge.y - web.at_opening.y);
            let apart = math::hypot(dx.mm(), dy.mm());
            assert!((apart - web.least.abs().mm()).abs() < 1e-9, "({x}, {y}): {web:?}");
            let mm = Length::from_mm;
            let frame = Frame::new(mm(48.0), mm(42.0), mm(20.0), mm(8.0)).expect("possible");
            assert!(frame.signed_distance(web.at_edge).mm().abs() < 1e-6, "({x}, {y}): {web:?}");
        }
    }
}
