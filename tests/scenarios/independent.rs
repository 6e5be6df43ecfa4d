//! The same answers by other roads: closed forms, numerical integration, bisection, measuring on sampled outlines.
//!
//! Nothing here calls the core but for its floating-point functions.

use arcminute_core::math::{PI, atan, cos, hypot, log10, pow, sin, sqrt, tan};

/// Cornea to the eye's entrance pupil, millimetres.
const CORNEA_TO_PUPIL: f64 = 3.05;

/// A Keplerian by its label, an eye behind it, and what it looks at. Lengths in millimetres, powers in dioptres.
#[derive(Clone, Copy)]
pub(crate) struct Looking {
    pub(crate) power: f64,
    pub(crate) length: f64,
    pub(crate) real_field_degrees: f64,
    /// Mean sphere at the spectacle plane.
    pub(crate) mean_sphere: f64,
    /// Whether it stands in the eyepiece; otherwise the tube is refocused.
    pub(crate) in_eyepiece: bool,
    pub(crate) vertex: f64,
    /// Eye to target; infinite for far.
    pub(crate) distance: f64,
}

impl Looking {
    fn eye_behind(&self) -> f64 {
        (self.vertex + CORNEA_TO_PUPIL) / 1000.0
    }
    /// Objective and eyepiece from length and power: `f_o = L·m/(m + 1)`, `f_e = L/(m + 1)`.
    fn lenses(&self) -> (f64, f64) {
        let focal = self.length / 1000.0 / (self.power + 1.0);
        (1.0 / (focal * self.power), 1.0 / focal)
    }
    /// Ametropia that the tube takes up.
    fn taken_by_tube(&self) -> f64 {
        if self.in_eyepiece { 0.0 } else { self.mean_sphere }
    }
    /// Objective to target. The eye stays where it is and the tube grows: `s + 1/(F_o − 1/s) + 1/(F_e − K) + v` is the
    /// distance, which is a square in `s`.
    fn before_objective(&self) -> f64 {
        let (objective, eyepiece) = self.lenses();
        let focal = 1.0 / objective;
        let rest = self.distance / 1000.0 - self.eye_behind() - 1.0 / (eyepiece - self.taken_by_tube());
        (rest + sqrt(rest * rest - 4.0 * rest * focal)) / 2.0
    }

    /// Angle seen through it over the angle seen through the person's own lens in the same plane.
    ///
    /// Far: `(F_e − K) / F_o`. At a distance, by the sizes of the images: the collimated angle is
    /// `h (F_e − K) / (s F_o − 1)`; the lens K carries it on; the bare lens K sees `h / (d (1 − vK) + v)`.
    pub(crate) fn magnification_in_use(&self) -> f64 {
        let (objective, eyepiece) = self.lenses();
        let (k, v) = (self.mean_sphere, self.eye_behind());
        let taken_by_tube = self.taken_by_tube();
        if self.distance.is_infinite() {
            return (eyepiece - taken_by_tube) / objective;
        }
        let own = (self.distance / 1000.0 - v) * (1.0 - v * k) + v;
        (eyepiece - taken_by_tube) / (self.before_objective() * objective - 1.0) * own / (1.0 - v * k)
    }

    /// Width seen at the target, metres: the field stop thrown through the objective onto it.
    pub(crate) fn width_at_target(&self) -> f64 {
        let (objective, _) = self.lenses();
        let stop = 2.0 / objective * tan(self.real_field_degrees / 2.0 * PI / 180.0);
        stop * (self.before_objective() * objective - 1.0)
    }
}

/// Detail of a letter, one fifth of its height, in minutes of arc; both lengths in one unit.
pub(crate) fn detail(height: f64, distance: f64) -> f64 {
    2.0 * atan(height / 10.0 / distance) * 180.0 * 60.0 / PI
}

/// Chance that a normal variable lies below `z`, by Simpson's rule over 4,000 strips.
pub(crate) fn chance_below(z: f64) -> f64 {
    let density = |x: f64| pow(core::f64::consts::E, -x * x / 2.0) / sqrt(2.0 * PI);
    let (from, strips) = (-9.0, 4000);
    let width = (z - from) / f64::from(strips);
    let sum: f64 = (0..=strips)
        .map(|i| {
            let weight = match i {
                _ if i == 0 || i == strips => 1.0,
                _ if i % 2 == 1 => 4.0,
                _ => 2.0,
            };
            weight * density(from + f64::from(i) * width)
        })
        .sum();
    sum * width / 3.0
}

/// Chance of a goal: acuity and goal as details in minutes of arc, a magnification, a 95 % limit in log units.
pub(crate) fn chance_of_goal(detail_now: f64, magnification: f64, detail_goal: f64, limit: f64) -> f64 {
    let spare = log10(detail_goal * magnification / detail_now);
    chance_below(spare / (limit / 1.959_963_984_540_054))
}

/// A telescope to be set in a lens, millimetres and degrees; the corner of the lens is rounded by 8 mm.
#[derive(Clone, Copy)]
pub(crate) struct Setting {
    pub(crate) box_width: f64,
    pub(crate) box_height: f64,
    pub(crate) bridge: f64,
    pub(crate) pd: f64,
    pub(crate) pupil_height: f64,
    pub(crate) pupil: f64,
    pub(crate) barrel: f64,
    pub(crate) play: f64,
    pub(crate) vertex: f64,
    pub(crate) cornea_to_rotation: f64,
    pub(crate) pantoscopic: f64,
}

/// Where it sits by the rule *eyepiece bottom level with the pupil's top*.
pub(crate) struct Place {
    pub(crate) height: f64,
    pub(crate) head_drop: f64,
    pub(crate) tilt: f64,
    pub(crate) least_web: f64,
}

const CORNER: f64 = 8.0;

impl Setting {
    fn stop_distance(&self) -> f64 {
        self.vertex + self.cornea_to_rotation
    }
    fn tilt_at(&self, rise: f64) -> f64 {
        atan(rise / self.stop_distance()) + self.pantoscopic * PI / 180.0
    }
    fn half_height(&self, rise: f64) -> f64 {
        self.barrel / 2.0 / cos(self.tilt_at(rise))
    }

    /// By bisection: where the eyepiece's bottom is the pupil's top.
    pub(crate) fn place(&self) -> Place {
        let too_low = |rise: f64| rise < self.pupil / 2.0 + self.half_height(rise);
        let (mut low, mut high) = (0.0, 2.5 * self.barrel);
        for _ in 0..80 {
            let middle = (low + high) / 2.0;
            if too_low(middle) { low = middle } else { high = middle }
        }
        let degrees = 180.0 / PI;
        Place {
            height: self.pupil_height + high,
            head_drop: atan(high / self.stop_distance()) * degrees,
            tilt: self.tilt_at(high) * degrees,
            least_web: self.measured_web(high),
        }
    }

    /// By measuring: the nearest that any of 7,200 points of the opening comes to the edge.
    fn measured_web(&self, rise: f64) -> f64 {
        let (wide, tall) = (self.barrel / 2.0 + self.play, self.half_height(rise) + self.play);
        let x = self.pd - (self.box_width + self.bridge) / 2.0;
        let y = self.pupil_height + rise - self.box_height / 2.0;
        (0..7200)
            .map(|i| {
                let turn = f64::from(i) * PI / 3600.0;
                self.inside(x + wide * cos(turn), y + tall * sin(turn))
            })
            .fold(f64::INFINITY, f64::min)
    }

    /// How far a place lies inside the lens; negative outside. From the box centre.
    fn inside(&self, x: f64, y: f64) -> f64 {
        let beyond_x = x.abs() - (self.box_width / 2.0 - CORNER);
        let beyond_y = y.abs() - (self.box_height / 2.0 - CORNER);
        let outside = hypot(beyond_x.max(0.0), beyond_y.max(0.0));
        CORNER - outside - beyond_x.max(beyond_y).min(0.0)
    }

    /// The value at which the web is just this wide, between one that leaves less and one that leaves as much.
    pub(crate) fn turning_point(
        self,
        web: f64,
        too_little: f64,
        enough: f64,
        with: fn(Self, f64) -> Self,
    ) -> f64 {
        let (mut bad, mut good) = (too_little, enough);
        for _ in 0..40 {
            let middle = (bad + good) / 2.0;
            if web <= with(self, middle).place().least_web { good = middle } else { bad = middle }
        }
        good
    }
}

/// Source: tables of the normal distribution; the integral has to be right before it judges.
#[test]
fn the_integral_is_right() {
    for (z, table) in [(0.0, 0.5), (1.0, 0.841_344_746), (-1.96, 0.024_997_895), (2.5, 0.993_790_335)] {
        assert!((chance_below(z) - table).abs() < 1e-9, "{z}: {}", chance_below(z));
    }
}
