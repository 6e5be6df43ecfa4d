//! Two things that are weighed against each other: one across, one upward, better always to the right and up.
//!
//! Each aid is a mark. A stepped line joins the aids that no other beats on both; what lies under it is beaten.

#[cfg(test)]
mod tests;

use super::scale::{Linear, TEXT, fitted, put_in_order, round_at_most, text_width};
use super::shape::number;
use super::{Anchor, Drawing, Shape, ViewBox};
use arcminute_core::math;

/// One of the two things.
#[derive(Clone)]
pub struct Axis<'a> {
    /// What it is: `Chance of the goal`.
    pub name: String,
    /// Whether less of it is better.
    pub less_is_better: bool,
    /// Whether equal steps are equal ratios; all values are then above zero.
    pub ratio: bool,
    /// A value as it is written beside a tick and in the rows.
    pub words: &'a dyn Fn(f64) -> String,
}

/// One aid.
#[derive(Clone, Debug, PartialEq)]
pub struct TradeoffPoint {
    /// Key of the aid, which a click gives back.
    pub key: String,
    /// Its name.
    pub name: String,
    /// Its value on the axis across.
    pub across: f64,
    /// Its value on the axis upward.
    pub up: f64,
    /// Whether it is the one chosen.
    pub chosen: bool,
}

/// What is drawn.
#[derive(Clone)]
pub struct TradeoffInput<'a> {
    /// To the right.
    pub across: Axis<'a>,
    /// Upward.
    pub up: Axis<'a>,
    /// The aids. One whose values are no numbers, or not above zero on an axis of ratios, is left out.
    pub points: Vec<TradeoffPoint>,
}

const WIDTH: f64 = 360.0;
/// Sides of the field in which marks stand.
const FIELD: (f64, f64, f64, f64) = (64.0, 30.0, 346.0, 290.0);
/// Room between the outermost marks and the sides.
const MARGIN: f64 = 16.0;
const NAMES_AT_MOST: usize = 6;

impl Axis<'_> {
    /// The value as it is measured off: higher is better.
    fn measure(&self, value: f64) -> Option<f64> {
        let measure = if self.ratio { math::log10(value) } else { value };
        measure.is_finite().then_some(if self.less_is_better { -measure } else { measure })
    }

    /// The scale over these measures.
    fn scale(&self, measures: &[f64], places: (f64, f64)) -> Linear {
        let least = measures.iter().copied().fold(f64::INFINITY, f64::min);
        let most = measures.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        Linear::new((least, most), places)
    }

    /// Round values from the least to the most, some three or four of them, with their measures.
    fn ticks(&self, measures: &[f64]) -> Vec<(f64, f64)> {
        let values = measures.iter().map(|measure| {
            let size = if self.less_is_better { -measure } else { *measure };
            if self.ratio { math::pow(10.0, size) } else { size }
        });
        let (least, most) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), value| {
            (least.min(value), most.max(value))
        });
        let mut ticks = Vec::new();
        if !(least.is_finite() && most.is_finite()) {
            return ticks;
        }
        let mut put = |value: f64| {
            let inside = least - 1e-9 * math::abs(least) <= value && value <= most + 1e-9 * math::abs(most);
            if let Some(measure) = self.measure(value).filter(|_| inside) {
                ticks.push((value, measure));
            }
        };
        if self.ratio && least * 4.0 < most {
            let mut decade = math::pow(10.0, math::floor(math::log10(least)));
            let heads: &[f64] = if least * 100.0 < most { &[1.0] } else { &[1.0, 2.0, 5.0] };
            while decade <= most {
                heads.iter().for_each(|head| put(head * decade));
                decade *= 10.0;
            }
        } else {
            let step = round_at_most((most - least) / 2.0);
            let first = math::ceil(least / step - 1e-9);
            for count in 0..6 {
                put((first + f64::from(count)) * step);
            }
        }
        let alone = self.measure(least).map(|measure| (least, measure));
        if ticks.is_empty() { alone.into_iter().collect() } else { ticks }
    }
}

/// A mark in the picture.
struct Mark<'a> {
    point: &'a TradeoffPoint,
    across: f64,
    up: f64,
    x: f64,
    y: f64,
    front: bool,
}

/// The picture with its words and rows; nothing where no aid has both values.
#[must_use]
pub fn tradeoff(input: &TradeoffInput<'_>) -> Option<Drawing> {
    let measured: Vec<(&TradeoffPoint, f64, f64)> = input
        .points
        .iter()
        .filter_map(|point| Some((point, input.across.measure(point.across)?, input.up.measure(point.up)?)))
        .collect();
    if measured.is_empty() {
        return None;
    }
    let across: Vec<f64> = measured.iter().map(|point| point.1).collect();
    let up: Vec<f64> = measured.iter().map(|point| point.2).collect();
    let (left, top, right, bottom) = FIELD;
    let to_x = input.across.scale(&across, (left + MARGIN, right - MARGIN));
    let to_y = input.up.scale(&up, (bottom - MARGIN, top + MARGIN));
    let beaten = |a: f64, u: f64| {
        measured.iter().any(|other| a <= other.1 && u <= other.2 && (a < other.1 || u < other.2))
    };
    let mut marks: Vec<Mark<'_>> = measured
        .iter()
        .map(|(point, across, up)| Mark {
            point,
            across: *across,
            up: *up,
            x: to_x.at(*across),
            y: to_y.at(*up),
            front: !beaten(*across, *up),
        })
        .collect();
    put_in_order(&mut marks, |one, other| {
        one.across.total_cmp(&other.across).then(other.up.total_cmp(&one.up)).is_lt()
    });

    let mut shapes = Vec::new();
    shapes.push(Shape::Rect {
        x: left,
        y: top,
        width: right - left,
        height: bottom - top,
        class: "tradeoff-field",
    });
    axes(&mut shapes, input, (&across, to_x), (&up, to_y));
    if let Some(d) = front_line(&marks) {
        shapes.push(Shape::Path { d, class: "tradeoff-front" });
    }
    for mark in &marks {
        shapes.push(drawn(mark));
    }
    names(&mut shapes, &marks);
    Some(Drawing {
        view_box: ViewBox { x: 0.0, y: 0.0, width: WIDTH, height: 340.0 },
        unit_mm: None,
        title: format!("{} against {}", input.up.name, lower(&input.across.name)),
        description: description(input, &marks),
        rows: rows(input, &marks),
        shapes,
    })
}

fn lower(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

fn text(x: f64, y: f64, anchor: Anchor, content: String, class: &'static str) -> Shape {
    Shape::Text { x, y, anchor, content, class }
}

fn axes(
    shapes: &mut Vec<Shape>,
    input: &TradeoffInput<'_>,
    (across, to_x): (&[f64], Linear),
    (up, to_y): (&[f64], Linear),
) {
    let (left, top, right, bottom) = FIELD;
    let mut last = f64::NEG_INFINITY;
    let mut ticks: Vec<(f64, f64)> = input.across.ticks(across);
    put_in_order(&mut ticks, |one, other| one.1 < other.1);
    for (value, measure) in ticks {
        let x = to_x.at(measure);
        shapes.push(Shape::Line { x1: x, y1: bottom, x2: x, y2: bottom + 5.0, class: "tradeoff-tick" });
        let words = (input.across.words)(value);
        let half = text_width(&words, TEXT) / 2.0;
        let middle = x.min(WIDTH - half).max(half);
        if last + 6.0 <= middle - half {
            shapes.push(text(middle, bottom + 22.0, Anchor::Middle, words, "plot-text"));
            last = middle + half;
        }
    }
    let mut lowest = f64::INFINITY;
    let mut ticks = input.up.ticks(up);
    put_in_order(&mut ticks, |one, other| one.1 < other.1);
    for (value, measure) in ticks {
        let y = to_y.at(measure);
        shapes.push(Shape::Line { x1: left - 5.0, y1: y, x2: left, y2: y, class: "tradeoff-tick" });
        if y + TEXT <= lowest {
            let words = fitted(&(input.up.words)(value), left - 8.0, TEXT);
            shapes.push(text(left - 8.0, y + 5.5, Anchor::End, words, "plot-text"));
            lowest = y;
        }
    }
    let up_name = fitted(&format!("↑ {}", input.up.name), WIDTH, TEXT);
    shapes.push(text(0.0, top - 12.0, Anchor::Start, up_name, "plot-text plot-strong"));
    let across_name = fitted(&format!("{} →", input.across.name), WIDTH, TEXT);
    shapes.push(text(right, bottom + 44.0, Anchor::End, across_name, "plot-text plot-strong"));
}

/// Steps down from the best upward to the best across.
fn front_line(marks: &[Mark<'_>]) -> Option<String> {
    let (left, _, _, bottom) = FIELD;
    let mut front = marks.iter().filter(|mark| mark.front);
    let first = front.next()?;
    let mut d = format!("M{} {}H{}", number(left), number(first.y), number(first.x));
    for mark in front {
        d += &format!("V{}H{}", number(mark.y), number(mark.x));
    }
    d += &format!("V{}", number(bottom));
    Some(d)
}

/// A disc on the front, a small ring under it; the chosen one larger. The key makes it one that can be picked.
fn drawn(mark: &Mark<'_>) -> Shape {
    let (r, class) = match (mark.point.chosen, mark.front) {
        (true, true) => (9.0, "tradeoff-mark tradeoff-best tradeoff-chosen"),
        (true, false) => (9.0, "tradeoff-mark tradeoff-chosen"),
        (false, true) => (6.5, "tradeoff-mark tradeoff-best"),
        (false, false) => (5.0, "tradeoff-mark"),
    };
    Shape::Pick { cx: mark.x, cy: mark.y, r, class, key: mark.point.key.clone() }
}

/// Names of the chosen aid and of those on the front, where there is room for them.
fn names(shapes: &mut Vec<Shape>, marks: &[Mark<'_>]) {
    let (left, top, right, bottom) = FIELD;
    let mut taken: Vec<(f64, f64, f64)> = Vec::new();
    let chosen = marks.iter().filter(|mark| mark.point.chosen);
    let front = marks.iter().filter(|mark| mark.front && !mark.point.chosen);
    for mark in chosen.chain(front) {
        if NAMES_AT_MOST <= taken.len() {
            break;
        }
        let words = fitted(&mark.point.name, 150.0, TEXT);
        let width = text_width(&words, TEXT);
        let places = [
            (mark.x + 11.0, mark.y + 5.5),
            (mark.x - 11.0 - width, mark.y + 5.5),
            (mark.x - width / 2.0, mark.y - 12.0),
            (mark.x - width / 2.0, mark.y + 24.0),
        ];
        let free = |&(x, y): &(f64, f64)| {
            let (over, under) = (y - 0.8 * TEXT, y + 0.3 * TEXT);
            left <= x
                && x + width <= right
                && top <= over
                && under <= bottom
                && taken
                    .iter()
                    .all(|&(from, to, base)| to <= x || x + width <= from || TEXT <= math::abs(base - y))
                && marks.iter().all(|other| {
                    other.x + 7.0 <= x
                        || x + width <= other.x - 7.0
                        || other.y + 7.0 <= over
                        || under <= other.y - 7.0
                })
        };
        if let Some((x, y)) = places.into_iter().find(free) {
            taken.push((x, x + width, y));
            let class = if mark.point.chosen { "plot-text plot-strong" } else { "plot-text" };
            shapes.push(text(x, y, Anchor::Start, words, class));
        }
    }
}

fn description(input: &TradeoffInput<'_>, marks: &[Mark<'_>]) -> String {
    let front: Vec<&str> =
        marks.iter().filter(|mark| mark.front).map(|mark| mark.point.name.as_str()).collect();
    let shown = if marks.len() == 1 { "One aid".into() } else { format!("{} aids", marks.len()) };
    let mut words = format!(
        "{shown} by {} and {}; better is to the right and up. No other is better on both than {}.",
        lower(&input.across.name),
        lower(&input.up.name),
        listed(&front)
    );
    if let Some(mark) = marks.iter().find(|mark| mark.point.chosen) {
        let stands = if mark.front { "is one of them" } else { "is beaten on both by another" };
        words += &format!(" The chosen one, {}, {stands}.", mark.point.name);
    }
    words
}

/// `a`, `a and b`, `a, b and c`.
fn listed(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).into(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

fn rows(input: &TradeoffInput<'_>, marks: &[Mark<'_>]) -> Vec<(String, String)> {
    let row = |mark: &Mark<'_>| {
        let place = if mark.front { "not beaten" } else { "beaten on both" };
        let (across, up) = ((input.across.words)(mark.point.across), (input.up.words)(mark.point.up));
        let value =
            format!("{} {across}, {} {up}: {place}", lower(&input.across.name), lower(&input.up.name));
        let name = &mark.point.name;
        (if mark.point.chosen { format!("{name} (chosen)") } else { name.clone() }, value)
    };
    marks.iter().rev().map(row).collect()
}
