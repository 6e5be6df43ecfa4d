//! What is seen at once through an aid, drawn over the task to scale.
//!
//! A task is a line of letters of its own size; a goal without a distance gets a door six metres away. One step of power
//! less and more stand beside it, each with a bar of its width below.

mod letters;
#[cfg(test)]
mod tests;
mod words;

use super::scale::{TEXT, bar_words, fitted, round_at_most};
use super::{Anchor, Drawing, Shape, ViewBox};
use arcminute_core::unit::{Angle, Length};

/// What one power shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// Short name of the aid, such as `4x`.
    pub label: String,
    /// Real field for far things, full angle.
    pub real_field: Angle,
    /// Width at the task, where the engine gave one; else it follows from the field and the distance.
    pub width: Option<Length>,
}

/// What it is drawn over.
#[derive(Clone, Debug, PartialEq)]
pub enum Scene {
    /// Letters at a distance.
    Task {
        /// What they are on, with its article: `the board`.
        what: String,
        /// Height of the letters.
        letter_height: Length,
        /// Eye to letters.
        distance: Length,
        /// Width that should be seen at once.
        wanted_width: Option<Length>,
    },
    /// A door 0.9 m by 2 m, 6 m away, for a goal that names no distance.
    Door,
}

/// What the scene shows.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldSceneInput {
    /// What it is drawn over.
    pub scene: Scene,
    /// Through the aid chosen.
    pub chosen: Seen,
    /// Through one step of power less.
    pub less: Option<Seen>,
    /// Through one step of power more.
    pub more: Option<Seen>,
}

const DOOR: (f64, f64) = (0.9, 2.0);
const DOOR_AWAY: f64 = 6.0;
const MARGIN: f64 = 10.0;
/// A field this many times the scene is no longer drawn, or nothing would be left of the scene.
const TIMES_AT_MOST: f64 = 5.0;

impl Scene {
    fn distance(&self) -> f64 {
        match self {
            Self::Task { distance, .. } => distance.m(),
            Self::Door => DOOR_AWAY,
        }
    }

    /// Width that should be seen at once, or that of the door.
    fn wanted(&self) -> Option<f64> {
        match self {
            Self::Task { wanted_width, .. } => wanted_width.and_then(|width| above_zero(width.m())),
            Self::Door => Some(DOOR.0),
        }
    }

    /// Width and height of what is drawn, in metres.
    fn size(&self, seen: Option<f64>) -> (f64, f64) {
        match self {
            Self::Door => DOOR,
            Self::Task { letter_height, .. } => {
                let letter = above_zero(letter_height.m()).unwrap_or(0.01);
                let width =
                    self.wanted().or(seen.map(|seen| 2.0 * seen)).unwrap_or(10.0 * letter).max(2.0 * letter);
                (width, (3.0 * letter).max(width / 12.0))
            }
        }
    }
}

impl FieldSceneInput {
    /// Width that is seen, in metres; `None` where it has no end.
    fn width(&self, seen: &Seen) -> Option<f64> {
        let from_angle = || self.scene.distance() * 2.0 * (seen.real_field / 2.0).tangent();
        above_zero(seen.width.map_or_else(from_angle, Length::m)).filter(|width| *width < 1e4)
    }

    /// What is seen by less, chosen and more power, with the class of its mark.
    fn all(&self) -> Vec<(&Seen, &'static str)> {
        let less = self.less.iter().map(|seen| (seen, "scene-seen-less"));
        let more = self.more.iter().map(|seen| (seen, "scene-seen-more"));
        less.chain([(&self.chosen, "scene-seen")]).chain(more).collect()
    }
}

fn above_zero(value: f64) -> Option<f64> {
    (value.is_finite() && 1e-4 < value).then_some(value)
}

/// The scene with its words and rows: 320 wide if `narrow`, else 640.
#[must_use]
pub fn field_scene(input: &FieldSceneInput, narrow: bool) -> Drawing {
    let (width, most_height) = if narrow { (320.0, 300.0) } else { (640.0, 330.0) };
    let (scene_width, scene_height) = input.scene.size(input.width(&input.chosen));
    let largest = TIMES_AT_MOST * scene_width.max(scene_height);
    let circles: Vec<_> = input
        .all()
        .into_iter()
        .map(|(seen, class)| (seen, class, input.width(seen).filter(|width| *width <= largest)))
        .collect();
    let widest = circles.iter().filter_map(|circle| circle.2).fold(0.0, f64::max);
    let (across, down) = (scene_width.max(widest), scene_height.max(widest));
    let scale = ((width - 2.0 * MARGIN) / across).min(most_height / down);
    let (cx, cy) = (width / 2.0, MARGIN + down * scale / 2.0);
    let mut shapes = Vec::new();
    let corner = (cx - scene_width * scale / 2.0, cy - scene_height * scale / 2.0);
    match &input.scene {
        Scene::Door => door(&mut shapes, corner, scale, width),
        Scene::Task { letter_height, .. } => {
            let (board_width, board_height) = (scene_width * scale, scene_height * scale);
            shapes.push(Shape::Rect {
                x: corner.0,
                y: corner.1,
                width: board_width,
                height: board_height,
                class: "scene-board",
            });
            let letter = above_zero(letter_height.m()).unwrap_or(0.01) * scale;
            shapes.push(letters::row((corner.0, cy), board_width, letter));
        }
    }
    for (_, class, seen) in &circles {
        if let Some(seen) = seen {
            shapes.push(Shape::Circle { cx, cy, r: seen * scale / 2.0, class });
        }
    }
    let mut y = cy + down * scale / 2.0 + MARGIN;
    for (seen, class, drawn) in &circles {
        let words = match (drawn, input.width(seen)) {
            (Some(seen_width), _) => format!("{} sees {}", seen.label, words::metres(*seen_width)),
            (None, Some(seen_width)) => {
                format!("{} sees {}, not drawn", seen.label, words::metres(seen_width))
            }
            (None, None) => format!("{} sees all of it", seen.label),
        };
        let strong = if *class == "scene-seen" { "plot-text plot-strong" } else { "plot-text" };
        y = bar(&mut shapes, (cx, y, width), drawn.map_or(0.0, |seen| seen * scale), words, (class, strong));
    }
    if let Some(wanted) = input.scene.wanted() {
        let words = match input.scene {
            Scene::Door => format!("the door, {} wide", words::metres(wanted)),
            Scene::Task { .. } => format!("wanted {}", words::metres(wanted)),
        };
        y = bar(&mut shapes, (cx, y, width), wanted * scale, words, ("scene-wanted", "plot-text"));
    }
    let height = scale_bar(&mut shapes, y + 6.0, width, scale);
    Drawing {
        view_box: ViewBox { x: 0.0, y: 0.0, width, height },
        unit_mm: None,
        title: format!("What the {} shows at once", input.chosen.label),
        description: words::summary(input),
        rows: words::rows(input),
        shapes,
    }
}

/// A door with a handle and the floor it stands on.
fn door(shapes: &mut Vec<Shape>, (x, y): (f64, f64), scale: f64, width: f64) {
    let floor = y + DOOR.1 * scale;
    shapes.push(Shape::Line { x1: 0.0, y1: floor, x2: width, y2: floor, class: "scene-floor" });
    shapes.push(Shape::Rect { x, y, width: DOOR.0 * scale, height: DOOR.1 * scale, class: "scene-board" });
    let handle =
        Shape::Circle { cx: x + 0.8 * scale, cy: floor - scale, r: 0.035 * scale, class: "scene-handle" };
    shapes.push(handle);
}

/// Words over a bar of a width, both centred; the place below. A bar without width is left out.
fn bar(
    shapes: &mut Vec<Shape>,
    (cx, y, room): (f64, f64, f64),
    length: f64,
    words: String,
    (class, words_class): (&'static str, &'static str),
) -> f64 {
    let content = fitted(&words, room - 2.0 * MARGIN, TEXT);
    shapes.push(Shape::Text { x: cx, y: y + 14.0, anchor: Anchor::Middle, content, class: words_class });
    if 0.0 < length {
        let (left, right, line) = (cx - length / 2.0, cx + length / 2.0, y + 24.0);
        shapes.push(Shape::Line { x1: left, y1: line, x2: right, y2: line, class });
        for x in [left, right] {
            shapes.push(Shape::Line { x1: x, y1: line - 4.0, x2: x, y2: line + 4.0, class: "plot-end" });
        }
    }
    y + 32.0
}

/// A bar of a round length with that length beside it; the height of the picture.
fn scale_bar(shapes: &mut Vec<Shape>, y: f64, width: f64, scale: f64) -> f64 {
    let length = round_at_most(width / 3.0 / scale);
    let (x1, x2, line) = (MARGIN, MARGIN + length * scale, y + 10.0);
    shapes.push(Shape::Line { x1, y1: line, x2, y2: line, class: "plot-scale" });
    for x in [x1, x2] {
        shapes.push(Shape::Line { x1: x, y1: line - 5.0, x2: x, y2: line + 5.0, class: "plot-end" });
    }
    let content = format!("scale: {}", bar_words(Length::from_m(length)));
    shapes.push(Shape::Text {
        x: x2 + 8.0,
        y: line + 5.5,
        anchor: Anchor::Start,
        content,
        class: "plot-text plot-quiet",
    });
    line + MARGIN + 4.0
}
