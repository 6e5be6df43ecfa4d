//! The numbers of a case worked out a second time, from the textbook's closed forms alone.
//!
//! Nothing of the program is used here: not its engine (ray matrices), not its error function, not its formatting. What
//! the page shows is held against these at the digits that it shows.

#![allow(
    clippy::disallowed_methods,
    reason = "an independent road must not go through the core's own functions"
)]

use super::table;
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// Cornea to entrance pupil of the eye, schematic eye.
const CORNEA_TO_PUPIL_M: f64 = 0.003_05;

/// Labels of the chart lines, 0.1 log apart, in feet and in metres.
const LINES: &[(f64, &str, &str)] = &[
    (-0.3, "20/10", "6/3"),
    (-0.2, "20/12.5", "6/3.8"),
    (-0.1, "20/16", "6/4.8"),
    (0.0, "20/20", "6/6"),
    (0.1, "20/25", "6/7.5"),
    (0.2, "20/32", "6/9.5"),
    (0.3, "20/40", "6/12"),
    (0.4, "20/50", "6/15"),
    (0.5, "20/63", "6/19"),
    (0.6, "20/80", "6/24"),
    (0.7, "20/100", "6/30"),
    (0.8, "20/125", "6/38"),
    (0.9, "20/160", "6/48"),
    (1.0, "20/200", "6/60"),
    (1.1, "20/250", "6/75"),
    (1.2, "20/320", "6/95"),
    (1.3, "20/400", "6/120"),
];

/// The two notations of the demonstration cases.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Notation {
    Feet,
    Metres,
}

/// The number that has this logarithm: a MAR from a logMAR, a power from a difference of two.
pub(super) fn from_log(log: f64) -> f64 {
    10_f64.powf(log)
}

/// logMAR of `20/200-2`, `6/48`; nothing for a category.
pub(super) fn log_mar(text: &str) -> Option<(f64, Notation)> {
    let (above, below) = text.split_once('/')?;
    let (below, missed) = below.split_once('-').unwrap_or((below, "0"));
    let (above, below, missed): (f64, f64, f64) =
        (above.parse().ok()?, below.parse().ok()?, missed.parse().ok()?);
    let notation = if above > 6.5 { Notation::Feet } else { Notation::Metres };
    Some(((below / above).log10() + 0.02 * missed, notation))
}

/// logMAR of one fifth of a letter so high at a distance, with a reserve.
pub(super) fn log_mar_of_letters(height_mm: f64, distance_m: f64, reserve: f64) -> f64 {
    let detail = 2.0 * (height_mm / 5000.0 / (2.0 * distance_m)).atan();
    (detail * 180.0 * 60.0 / PI / reserve).log10()
}

/// The acuity as a chart would name it: the line within a letter, or the fraction in two or three digits.
pub(super) fn written(log_mar: f64, notation: Notation) -> String {
    let (above, index) = if notation == Notation::Feet { (20.0, 0) } else { (6.0, 1) };
    let line = |log: f64| {
        let line = LINES.iter().find(|line| (line.0 - log).abs() <= 0.02 + 1e-9)?;
        Some([line.1, line.2][index].to_owned())
    };
    let below = above * 10_f64.powf(log_mar);
    let decade = 10_f64.powf(below.log10().floor());
    let step = if below < 2.5 * decade { 0.05 } else { 0.1 } * decade;
    let rounded = (below / step).round() * step;
    line(log_mar).or_else(|| line((rounded / above).log10())).unwrap_or_else(|| {
        let text = format!("{rounded:.3}");
        format!("{above}/{}", text.trim_end_matches('0').trim_end_matches('.'))
    })
}

/// Area under the normal curve up to `z`, by Simpson's rule.
fn normal_below(z: f64) -> f64 {
    const STRIPS: i32 = 4000;
    let density = |x: f64| (-x * x / 2.0).exp() / (2.0 * PI).sqrt();
    let (from, to) = (-12.0, z.clamp(-12.0, 12.0));
    let width = (to - from) / f64::from(STRIPS);
    let inner: f64 = (1..STRIPS)
        .map(|strip| density(from + width * f64::from(strip)) * if strip % 2 == 1 { 4.0 } else { 2.0 })
        .sum();
    width / 3.0 * (density(from) + inner + density(to))
}

/// What repeats of a test with an aid of this power would read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Predicted {
    pub(super) with_aid: f64,
    pub(super) limit: f64,
    pub(super) goal: f64,
}

impl Predicted {
    pub(super) fn new(now: f64, power: f64, goal: f64, limit: f64) -> Predicted {
        Predicted { with_aid: now - power.log10(), limit, goal }
    }

    /// The chance of the goal in per cent.
    pub(super) fn chance(&self) -> f64 {
        100.0 * normal_below((self.goal - self.with_aid) / (self.limit / 1.96))
    }

    /// `20/25 to 20/63`.
    pub(super) fn band(&self, notation: Notation) -> String {
        let end = |log: f64| written(log, notation);
        format!("{} to {}", end(self.with_aid - self.limit), end(self.with_aid + self.limit))
    }

    /// How much of the band reaches the goal, in the page's one word.
    pub(super) fn reach(&self) -> &'static str {
        let reached = |log: f64| log <= self.goal + 1e-9;
        match (
            reached(self.with_aid + self.limit),
            reached(self.with_aid),
            reached(self.with_aid - self.limit),
        ) {
            (true, _, _) => "reaches",
            (_, true, _) => "probably",
            (_, _, true) => "perhaps",
            _ => "no",
        }
    }
}

/// A telescope by its label, from the list in the source tree.
#[derive(Clone, Debug)]
pub(super) struct Device {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) keplerian: bool,
    pub(super) power: f64,
    pub(super) objective_mm: f64,
    field_deg: Option<f64>,
    length_mm: Option<f64>,
    pub(super) barrel_mm: f64,
    pub(super) weight_g: f64,
    transmittance: f64,
}

/// The whole list.
pub(super) fn devices() -> Vec<Device> {
    let rows = table::rows(include_str!("../../../demo-scenarios/aids.csv"));
    let mounted = rows.iter().filter(|row| row["family"] == "spectacle-mounted telescope");
    mounted.map(Device::read).collect()
}

impl Device {
    fn read(row: &BTreeMap<String, String>) -> Device {
        let word = |name: &str| row[name].clone();
        let given = |name: &str| row[name].parse().ok();
        let number = |name: &str| given(name).expect("a number of the list");
        Device {
            id: word("id"),
            name: word("name"),
            keplerian: word("design") == "keplerian",
            power: number("magnification (x)"),
            objective_mm: number("objective (mm)"),
            field_deg: given("real field (degrees)"),
            length_mm: given("tube length (mm)"),
            barrel_mm: number("barrel (mm)"),
            weight_g: number("weight (g)"),
            transmittance: number("light through (%)") / 100.0,
        }
    }

    pub(super) fn marking(&self) -> String {
        format!("{}x{}", self.power, self.objective_mm)
    }

    /// Signed power; a Keplerian inverts before its prisms.
    fn signed(&self) -> f64 {
        if self.keplerian { -self.power } else { self.power }
    }

    /// Powers of objective and eyepiece from length and magnification (Smith, p. 289).
    fn lenses(&self) -> (f64, f64) {
        let m = self.signed();
        let assumed = if self.keplerian { 12.5 * (self.power + 1.0) } else { 20.0 * (self.power - 1.0) };
        let d = self.length_mm.unwrap_or(assumed) / 1000.0;
        ((m - 1.0) / (m * d), (1.0 - m) / d)
    }
}

/// The eye behind a telescope.
#[derive(Clone, Copy, Debug)]
pub(super) struct Eye {
    /// Mean sphere in the spectacle plane, which is the eyepiece's plane too.
    pub(super) mean_sphere: f64,
    pub(super) in_eyepiece: bool,
    pub(super) vertex_mm: f64,
    pub(super) pupil_mm: f64,
}

/// What a telescope does, by closed forms.
#[derive(Clone, Copy, Debug)]
pub(super) struct Through {
    pub(super) in_use: f64,
    pub(super) exit_pupil_mm: f64,
    /// Behind the eyepiece; negative inside the tube.
    pub(super) exit_pupil_behind_mm: f64,
    pub(super) field_deg: f64,
    pub(super) width_m: Option<f64>,
    pub(super) light_percent: f64,
    /// Change of the tube's length.
    pub(super) travel_mm: f64,
    /// Width and outer diameter of the hidden ring.
    pub(super) ring_deg: (f64, f64),
}

/// Mean sphere of `-1.00 -0.50 x 180`, or of a sphere alone; nothing typed is none.
pub(super) fn mean_sphere(refraction: &str) -> f64 {
    let mut numbers = refraction.split_whitespace().map_while(|word| word.parse::<f64>().ok());
    let sphere = numbers.next().unwrap_or(0.0);
    sphere + numbers.next().unwrap_or(0.0) / 2.0
}

/// Acuity with a cylinder that stays when the mean sphere is met: squares of the blur added (Blendowske 2015).
pub(super) fn blurred(now: f64, meridians: [f64; 2], to_eye_m: f64) -> f64 {
    let [one, other] = meridians.map(|power| power / (1.0 - to_eye_m * power));
    let rise = 1.08 * ((one - other) / 2.0).powi(2);
    (from_log(now).powi(2) + 1.25_f64.powi(2) * rise * (2.0 + rise)).sqrt().log10()
}

impl Device {
    /// Seen from `distance_m` off the eye, or far.
    pub(super) fn through(&self, eye: Eye, distance_m: Option<f64>) -> Through {
        let (fo, fe) = self.lenses();
        let (m, v) = (self.signed(), eye.vertex_mm / 1000.0 + CORNEA_TO_PUPIL_M);
        let d = 1.0 / fo + 1.0 / fe;
        let k = eye.mean_sphere;
        // The eyepiece lends K to the eye when the tube is focused for it; a lens in the eyepiece leaves it alone.
        let parallel = if eye.in_eyepiece { fe } else { fe - k };
        // The eye is behind the eyepiece, which does not move: a longer tube brings the objective nearer.
        let mut focused = d;
        let mut x = f64::INFINITY;
        for _ in 0..50 {
            x = distance_m.map_or(f64::INFINITY, |distance| distance - focused - v);
            focused = 1.0 / (fo - 1.0 / x) + 1.0 / parallel;
        }
        let near = -parallel / (fo - 1.0 / x);
        let in_use = match distance_m {
            // Spectacle magnification 1/(1 − vK) is the same with and without the telescope.
            None => near,
            Some(distance) => {
                let own = (distance - v) * (1.0 - v * k) + v;
                near / (x * (1.0 - v * k)) * own
            }
        };
        let exit_pupil_mm = self.objective_mm / self.power;
        // Galilean, half light: the eye's pupil is the stop, the objective's rim the window.
        let tan_real = match self.field_deg {
            Some(field) => (field.to_radians() / 2.0).tan(),
            None => self.objective_mm / 2000.0 / (d + m * v) / m,
        };
        let apparent = 2.0 * (self.power * tan_real).atan().to_degrees();
        let field_deg = 2.0 * tan_real.atan().to_degrees();
        Through {
            in_use: in_use.abs(),
            exit_pupil_mm,
            exit_pupil_behind_mm: -d / m * 1000.0,
            field_deg,
            width_m: distance_m.map(|_| self.width(x, focused, v, tan_real)),
            light_percent: 100.0 * self.transmittance * (exit_pupil_mm / eye.pupil_mm).powi(2).min(1.0),
            travel_mm: (focused - d) * 1000.0,
            ring_deg: ((apparent - field_deg) / 2.0, apparent),
        }
    }

    /// Width seen at `x` from the objective.
    fn width(&self, x: f64, focused: f64, v: f64, tan_real: f64) -> f64 {
        let (fo, fe) = self.lenses();
        if self.field_deg.is_some() {
            // A field stop at the intermediate image, which is 1/(Fo + U) behind the objective.
            let stop = 2.0 / fo * tan_real;
            return stop * (fo - 1.0 / x) * x;
        }
        // The eye's pupil imaged through eyepiece and objective: the entrance pupil, behind the objective.
        let through_eyepiece = 1.0 / (fe - 1.0 / v);
        let entrance = -1.0 / (fo + 1.0 / (through_eyepiece - focused));
        self.objective_mm / 1000.0 * (x + entrance) / entrance
    }
}

/// Where the eyepiece may sit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rule {
    PupilTop,
    Highest,
    Centred,
}

/// A frame and what goes into it; millimetres and degrees.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mounting {
    pub(super) a: f64,
    pub(super) b: f64,
    pub(super) dbl: f64,
    pub(super) corner: f64,
    pub(super) pd: f64,
    pub(super) pupil_height: f64,
    pub(super) pupil: f64,
    pub(super) barrel: f64,
    pub(super) play: f64,
    pub(super) vertex: f64,
    pub(super) rotation: f64,
    pub(super) pantoscopic: f64,
    pub(super) least_web: f64,
    pub(super) gap: f64,
    pub(super) segment: Option<f64>,
    pub(super) rule: Rule,
}

/// Where it sits.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seat {
    pub(super) y: f64,
    pub(super) y_marked: f64,
    pub(super) x_marked: f64,
    pub(super) head_drop: f64,
    pub(super) tilt: f64,
    pub(super) hole_width: f64,
    pub(super) hole_height: f64,
    pub(super) web: f64,
    pub(super) smallest_b: f64,
    pub(super) segment_max: f64,
    pub(super) possible: bool,
}

impl Mounting {
    /// The height by the rule, found by halving: what the rule wants less what is there changes sign once.
    pub(super) fn seat(&self) -> Seat {
        let tilt = |y: f64| {
            let drop = ((y - self.pupil_height) / (self.vertex + self.rotation)).atan().to_degrees();
            (drop, drop + self.pantoscopic)
        };
        let half = |y: f64| self.barrel / 2.0 / tilt(y).1.to_radians().cos();
        let excess = |y: f64| match self.rule {
            Rule::PupilTop => y - (self.pupil_height + self.pupil / 2.0 + half(y)),
            Rule::Highest => y - (self.b - self.least_web - half(y) - self.play),
            Rule::Centred => y - self.pupil_height,
        };
        let (mut low, mut high) = (self.pupil_height - 30.0, self.pupil_height + 30.0);
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            if excess(middle) < 0.0 { low = middle } else { high = middle }
        }
        let y = f64::midpoint(low, high);
        let (head_drop, tilt) = tilt(y);
        let half = half(y);
        let (hole_width, hole_height) = (self.barrel + 2.0 * self.play, 2.0 * (half + self.play));
        let web = self.sampled_web(y, hole_width / 2.0, hole_height / 2.0);
        let segment_max = y - half - self.gap;
        let halves = |value: f64| (value * 2.0).round() / 2.0;
        Seat {
            y,
            y_marked: if self.rule == Rule::Highest { (y * 2.0).floor() / 2.0 } else { halves(y) },
            x_marked: halves(self.pd),
            head_drop,
            tilt,
            hole_width,
            hole_height,
            web,
            smallest_b: y + half + self.play + self.least_web,
            segment_max,
            possible: web >= self.least_web - 1e-3
                && self.segment.is_none_or(|segment| segment <= segment_max + 1e-6),
        }
    }

    /// The least distance to the lens edge over many points of the opening.
    fn sampled_web(&self, y: f64, half_width: f64, half_height: f64) -> f64 {
        const POINTS: i32 = 20_000;
        let (centre_x, centre_y) = (f64::midpoint(self.a, self.dbl), self.b / 2.0);
        let corner = self.corner.min(self.a / 2.0).min(self.b / 2.0);
        (0..POINTS)
            .map(|point| {
                let turn = 2.0 * PI * f64::from(point) / f64::from(POINTS);
                let across = (self.pd + half_width * turn.cos() - centre_x).abs() - (self.a / 2.0 - corner);
                let up = (y + half_height * turn.sin() - centre_y).abs() - (self.b / 2.0 - corner);
                let outside = across.max(0.0).hypot(up.max(0.0));
                corner - outside - across.max(up).min(0.0)
            })
            .fold(f64::INFINITY, f64::min)
    }

    /// The least box height that makes it possible, found by halving.
    pub(super) fn box_height_that_does(&self) -> f64 {
        let does = |b: f64| Mounting { b, ..*self }.seat().possible;
        halved(self.b, 75.0, does)
    }

    /// The greatest barrel that makes it possible.
    pub(super) fn barrel_that_does(&self) -> f64 {
        let does = |barrel: f64| Mounting { barrel, ..*self }.seat().possible;
        halved(self.barrel, 4.0, does)
    }
}

/// Where `does` begins to hold on the way from where it does not to where it does.
fn halved(not: f64, yes: f64, does: impl Fn(f64) -> bool) -> f64 {
    assert!(!does(not) && does(yes), "from {not} to {yes} something must change");
    let (mut not, mut yes) = (not, yes);
    for _ in 0..40 {
        let middle = f64::midpoint(not, yes);
        if does(middle) { yes = middle } else { not = middle }
    }
    yes
}

/// The worked example of the fitting reference and the first check values of the telescope reference, so that these
/// closed forms are themselves held against something printed.
#[test]
fn the_second_road_gives_the_printed_check_values() {
    let close =
        |got: f64, printed: f64, by: f64| assert!((got - printed).abs() <= by, "{got}, not {printed}");
    let example = Mounting {
        a: 48.0,
        b: 44.0,
        dbl: 20.0,
        corner: 8.0,
        pd: 31.5,
        pupil_height: 23.0,
        pupil: 4.0,
        barrel: 14.0,
        play: 0.5,
        vertex: 13.0,
        rotation: 14.0,
        pantoscopic: 0.0,
        least_web: 3.0,
        gap: 10.0,
        segment: None,
        rule: Rule::PupilTop,
    };
    let level = example.seat();
    for (got, printed) in
        [(level.y, 32.413), (level.tilt, 19.220), (level.web, 3.674), (level.smallest_b, 43.326)]
    {
        close(got, printed, 1e-3);
    }
    let tilted = Mounting { pantoscopic: 8.0, ..example }.seat();
    for (got, printed) in
        [(tilted.y, 32.944), (tilted.tilt, 28.219), (tilted.web, 2.612), (tilted.head_drop, 20.219)]
    {
        close(got, printed, 1e-3);
    }
    let highest = Mounting { pantoscopic: 8.0, rule: Rule::Highest, ..example }.seat();
    close(highest.y, 32.603, 1e-3);
    close(highest.tilt, 27.58, 0.01);
    let low = Mounting { b: 38.0, pupil_height: 21.0, ..example };
    close(low.seat().web, -0.326, 1e-3);
    close(low.box_height_that_does(), 41.33, 0.01);
    close(Mounting { barrel: 10.0, ..low }.seat().web, 4.153, 1e-3);
    close(normal_below(1.96), 0.975_002, 1e-6);
    close(normal_below(-0.5), 0.308_538, 1e-6);
    close(log_mar_of_letters(40.0, 6.0, 1.0), 0.66, 0.005);
    assert_eq!(log_mar("20/200-2").map(|read| (read.0 * 100.0).round()), Some(104.0), "two letters missed");
    let texts = [0.9031, 0.8751, 0.4771].map(|log| written(log, Notation::Feet));
    assert_eq!(texts, ["20/160", "20/150", "20/60"], "on and off the chart's lines");
    // Fo +20, Fe +80, Do 12: 62.5 mm long, exit pupil 3 mm wide and 15.625 mm behind; at 1 m from the objective 4.211x.
    let keplerian = Device {
        id: String::new(),
        name: String::new(),
        keplerian: true,
        power: 4.0,
        objective_mm: 12.0,
        field_deg: Some(12.0),
        length_mm: Some(62.5),
        barrel_mm: 14.0,
        weight_g: 30.0,
        transmittance: 0.86,
    };
    let eye = Eye { mean_sphere: 0.0, in_eyepiece: false, vertex_mm: 12.0 - 3.05, pupil_mm: 4.0 };
    let far = keplerian.through(eye, None);
    close(far.exit_pupil_behind_mm, 15.625, 1e-9);
    close(far.light_percent, 48.4, 0.05);
    // The tube grows by 2.632 mm for an object 1 m before the objective.
    let near = keplerian.through(eye, Some(1.0 + 0.0625 + 0.002_632 + 0.012));
    close(near.travel_mm, 2.632, 1e-3);
    close(near.in_use, 4.535, 1e-3);
    // Schwartz: a myope of 10 D behind +10/+50.
    let long = Device { power: 5.0, length_mm: Some(120.0), ..keplerian };
    let myope = long.through(Eye { mean_sphere: -10.0, ..eye }, None);
    close(myope.in_use, 6.0, 1e-9);
    close(myope.travel_mm, 116.667 - 120.0, 1e-3);
}
