//! The ladder: one upright log scale of the finest detail seen. Higher is finer; a step is 0.1 log, one line of a chart.
//!
//! The person stands on a rung, each goal is a rung to reach, each aid an arrow of its true length, `log10 M`.

mod strip;
#[cfg(test)]
mod tests;
mod words;

pub use strip::ladder_strip;

use super::scale::{Linear, TEXT, fitted, hatch, spread, text_width};
use super::shape::number;
use super::{Anchor, Drawing, Shape, ViewBox};
use arcminute_core::math;
use arcminute_core::predict::Reach;
use arcminute_core::unit::{LogMar, Magnification};

/// What the ladder shows.
#[derive(Clone)]
pub struct LadderInput<'a> {
    /// Where the person stands.
    pub person: LogMar,
    /// That acuity as it was written down.
    pub person_label: String,
    /// 95 % limit of repeats.
    pub retest_limit: LogMar,
    /// Goals: name and acuity to reach. What aids reach is said of the first.
    pub goals: Vec<(String, LogMar)>,
    /// Aids. Five are drawn, a chosen one always; all are in the rows.
    pub arrows: Vec<LadderArrow>,
    /// Writes an acuity in the wanted notation.
    pub label: &'a dyn Fn(LogMar) -> String,
}

/// An aid on the ladder.
#[derive(Clone, Debug, PartialEq)]
pub struct LadderArrow {
    /// Short name, such as `4x`.
    pub label: String,
    /// Magnification in use; its sign does not count.
    pub magnification: Magnification,
    /// How far its band reaches the first goal.
    pub reaches: Reach,
    /// Whether it is the one chosen.
    pub chosen: bool,
}

impl LadderArrow {
    /// How far up it takes, in log units; zero for what is no magnification.
    fn climb(&self) -> f64 {
        let climb = math::log10(self.magnification.size());
        if climb.is_finite() { climb.clamp(-2.0, 2.0) } else { 0.0 }
    }

    fn class(&self) -> &'static str {
        match (self.reaches, self.chosen) {
            (Reach::No, false) => "ladder-arrow ladder-reach-no",
            (Reach::BetterEnd, false) => "ladder-arrow ladder-reach-better-end",
            (Reach::Middle, false) => "ladder-arrow ladder-reach-middle",
            (Reach::WholeBand, false) => "ladder-arrow ladder-reach-whole",
            (Reach::No, true) => "ladder-arrow ladder-chosen ladder-reach-no",
            (Reach::BetterEnd, true) => "ladder-arrow ladder-chosen ladder-reach-better-end",
            (Reach::Middle, true) => "ladder-arrow ladder-chosen ladder-reach-middle",
            (Reach::WholeBand, true) => "ladder-arrow ladder-chosen ladder-reach-whole",
        }
    }
}

impl LadderInput<'_> {
    fn now(&self) -> f64 {
        sane(self.person)
    }

    fn limit(&self) -> f64 {
        math::abs(sane(self.retest_limit))
    }

    /// An acuity in the wanted notation.
    fn written(&self, acuity: f64) -> String {
        (self.label)(LogMar::from_log(acuity))
    }

    /// The arrows that are drawn, at most `most`: the first ones, and the chosen one.
    fn drawn(&self, most: usize) -> Vec<&LadderArrow> {
        let chosen = self.arrows.iter().position(|arrow| arrow.chosen);
        let mut kept: Vec<usize> = (0..self.arrows.len().min(most)).collect();
        if let (Some(chosen), Some(last)) = (chosen, kept.last_mut()) {
            *last = (*last).max(chosen);
        }
        kept.into_iter().map(|index| &self.arrows[index]).collect()
    }

    /// Finest and coarsest value among these and the person with the band.
    fn range(&self, goals: &[(String, LogMar)], arrows: &[&LadderArrow]) -> (f64, f64) {
        let tips = arrows.iter().map(|arrow| self.now() - arrow.climb());
        let banded = tips.chain([self.now()]).flat_map(|at| [at - self.limit(), at + self.limit()]);
        goals
            .iter()
            .map(|goal| sane(goal.1))
            .chain(banded)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(finest, coarsest), at| {
                (finest.min(at), coarsest.max(at))
            })
    }
}

/// The value, kept to what can be drawn.
fn sane(acuity: LogMar) -> f64 {
    if acuity.is_finite() { acuity.log().clamp(-2.0, 4.0) } else { 0.0 }
}

const WIDTH: f64 = 360.0;
const RUNG_WORDS: f64 = 72.0;
const RAILS: (f64, f64) = (78.0, 106.0);
const LANES: (f64, f64) = (112.0, 214.0);
const NAMES: f64 = 224.0;
const LANES_AT_MOST: usize = 5;

/// The ladder with its words and rows. Its view box is 360 wide; the height follows from the range.
#[must_use]
pub fn ladder(input: &LadderInput<'_>) -> Drawing {
    let arrows = input.drawn(LANES_AT_MOST);
    let (finest, coarsest) = input.range(&input.goals, &arrows);
    // In tenths; the last digits of a sum must not add a rung.
    let top = math::floor((finest - 0.1) * 10.0 + 1e-6);
    let bottom = math::ceil((coarsest + 0.1) * 10.0 - 1e-6);
    let (spacing, every) = if 30.0 < bottom - top { (12.0, 2.0) } else { (20.0, 1.0) };
    let scale = Linear::new((top / 10.0, bottom / 10.0), (0.0, (bottom - top) * spacing));
    let mut shapes = Vec::new();
    rungs(&mut shapes, input, scale, (top, bottom), every);
    person(&mut shapes, input, scale);
    let mut highest = draw_arrows(&mut shapes, input, &arrows, scale);
    highest = highest.min(scale.at(input.now()) - 36.0);
    highest = highest.min(names(&mut shapes, input, scale, scale.at(bottom / 10.0)));
    let first_line = highest.min(0.0) - 14.0;
    let last_line = scale.at(bottom / 10.0) + 28.0;
    shapes.push(text(0.0, first_line, Anchor::Start, "↑ finer detail".into(), "plot-text plot-quiet"));
    shapes.push(text(0.0, last_line, Anchor::Start, "↓ coarser detail".into(), "plot-text plot-quiet"));
    let y = first_line - TEXT;
    Drawing {
        view_box: ViewBox { x: 0.0, y, width: WIDTH, height: last_line + 6.0 - y },
        unit_mm: None,
        title: "Ladder of the finest detail seen".into(),
        description: words::summary(input),
        rows: words::rows(input),
        shapes,
    }
}

fn text(x: f64, y: f64, anchor: Anchor, content: String, class: &'static str) -> Shape {
    Shape::Text { x, y, anchor, content, class }
}

fn rungs(
    shapes: &mut Vec<Shape>,
    input: &LadderInput<'_>,
    scale: Linear,
    (top, bottom): (f64, f64),
    every: f64,
) {
    for x in [RAILS.0, RAILS.1] {
        let (y1, y2) = (scale.at(top / 10.0), scale.at(bottom / 10.0));
        shapes.push(Shape::Line { x1: x, y1, x2: x, y2, class: "ladder-rail" });
    }
    let mut tenths = top;
    while tenths <= bottom {
        let (value, y) = (tenths / 10.0, scale.at(tenths / 10.0));
        shapes.push(Shape::Line { x1: RAILS.0, y1: y, x2: RAILS.1, y2: y, class: "ladder-rung" });
        shapes.push(Shape::Line { x1: RAILS.1, y1: y, x2: LANES.1, y2: y, class: "ladder-guide" });
        if math::abs(math::round_to(tenths, every) - tenths) < 0.5 {
            let label = fitted(&input.written(value), RUNG_WORDS, TEXT);
            shapes.push(text(RUNG_WORDS, y + 5.5, Anchor::End, label, "plot-text ladder-rung-name"));
        }
        tenths += 1.0;
    }
}

/// The person on the rung, and the band in which repeats fall.
fn person(shapes: &mut Vec<Shape>, input: &LadderInput<'_>, scale: Linear) {
    let y = scale.at(input.now());
    band(shapes, (RAILS.0 + RAILS.1) / 2.0, 24.0, (input.now(), input.limit()), scale, "ladder-retest");
    shapes.push(Shape::Line { x1: RAILS.0 - 4.0, y1: y, x2: LANES.1, y2: y, class: "ladder-now" });
    let x = (RAILS.0 + RAILS.1) / 2.0;
    let at = |dx: f64, up: f64| format!("{} {}", number(x + dx), number(y - up));
    let body =
        [(0.0, 25.0, 0.0, 11.0), (-8.0, 19.0, 8.0, 19.0), (0.0, 11.0, -6.0, 0.0), (0.0, 11.0, 6.0, 0.0)];
    let d = body.map(|(x1, y1, x2, y2)| format!("M{}L{}", at(x1, y1), at(x2, y2))).concat();
    shapes.push(Shape::Path { d, class: "ladder-person" });
    shapes.push(Shape::Circle { cx: x, cy: y - 30.0, r: 5.0, class: "ladder-person-head" });
}

/// A hatched box from the better to the worse end of a band.
fn band(
    shapes: &mut Vec<Shape>,
    x: f64,
    width: f64,
    (middle, limit): (f64, f64),
    scale: Linear,
    class: &'static str,
) {
    let (left, y) = (x - width / 2.0, scale.at(middle - limit));
    let height = scale.at(middle + limit) - y;
    shapes.push(Shape::Rect { x: left, y, width, height, class });
    shapes.push(Shape::Path { d: hatch(left, y, width, height, 6.0), class: "ladder-hatch" });
}

/// Draws the arrows; the upper edge of the highest label.
fn draw_arrows(
    shapes: &mut Vec<Shape>,
    input: &LadderInput<'_>,
    arrows: &[&LadderArrow],
    scale: Linear,
) -> f64 {
    let lane = ((LANES.1 - LANES.0) / arrows.len().max(1) as f64).min(34.0);
    let foot = scale.at(input.now());
    let mut labels: Vec<(f64, f64, f64)> = Vec::new();
    for (index, arrow) in arrows.iter().enumerate() {
        let x = LANES.0 + (index as f64 + 0.5) * lane;
        let value = input.now() - arrow.climb();
        let tip = scale.at(value);
        band(shapes, x, 14.0, (value, input.limit()), scale, "ladder-tip-band");
        let length = foot - tip;
        shapes.push(Shape::Line { x1: x, y1: foot, x2: x, y2: tip, class: arrow.class() });
        if 0.5 < math::abs(length) {
            let back = length.clamp(-9.0, 9.0);
            let d = format!(
                "M{} {}L{} {}L{} {}Z",
                number(x),
                number(tip),
                number(x - 6.0),
                number(tip + back),
                number(x + 6.0),
                number(tip + back)
            );
            shapes.push(Shape::Path {
                d,
                class: if arrow.chosen { "ladder-head ladder-chosen" } else { "ladder-head" },
            });
        }
        let content = fitted(&arrow.label, 2.2 * 34.0, TEXT);
        let half = text_width(&content, TEXT) / 2.0;
        let x = x.min(NAMES - 4.0 - half);
        let mut y = scale.at(value - input.limit()) - 5.0;
        while labels
            .iter()
            .any(|other| math::abs(other.0 - x) < other.2 + half && math::abs(other.1 - y) < TEXT)
        {
            y -= 2.0;
        }
        labels.push((x, y, half));
        let class = if arrow.chosen { "plot-text plot-strong" } else { "plot-text" };
        shapes.push(text(x, y, Anchor::Middle, content, class));
    }
    labels.iter().fold(f64::INFINITY, |least, label| least.min(label.1 - TEXT))
}

/// Flags of the goals and the names at the right; the upper edge of the highest name.
fn names(shapes: &mut Vec<Shape>, input: &LadderInput<'_>, scale: Linear, lowest: f64) -> f64 {
    let now = (format!("now {}", input.person_label), sane(input.person), "plot-text plot-strong");
    let goals = input.goals.iter().map(|(name, at)| (name.clone(), sane(*at), "plot-text"));
    let all: Vec<_> = goals.chain([now]).collect();
    let wanted: Vec<_> = all.iter().map(|name| (scale.at(name.1), 19.0)).collect();
    let placed = spread(&wanted, (f64::MIN, lowest));
    let mut highest = f64::INFINITY;
    for (index, ((name, at, class), middle)) in all.iter().zip(placed).enumerate() {
        let y = scale.at(*at);
        if index < input.goals.len() {
            shapes.push(Shape::Line { x1: RAILS.0, y1: y, x2: LANES.1, y2: y, class: "ladder-goal" });
            let (foot, flag) = (number(LANES.1 - 4.0), number(LANES.1 + 7.0));
            let d = format!(
                "M{foot} {}V{}L{flag} {}L{foot} {}",
                number(y),
                number(y - 16.0),
                number(y - 12.0),
                number(y - 8.0)
            );
            shapes.push(Shape::Path { d, class: "ladder-flag" });
        }
        shapes.push(Shape::Line { x1: LANES.1, y1: y, x2: NAMES - 3.0, y2: middle, class: "ladder-leader" });
        let content = fitted(name, WIDTH - NAMES, TEXT);
        shapes.push(text(NAMES, middle + 5.5, Anchor::Start, content, class));
        highest = highest.min(middle - TEXT);
    }
    highest
}
