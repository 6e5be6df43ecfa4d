//! What is seen at once through an aid, drawn over the task to scale.
//!
//! A task is a line of letters, a page of print, a face, the front of a bus or any thing with a detail; a goal without a
//! distance gets a door six metres away. One step of power less and more stand beside it, each with a bar of its width
//! below.

mod letters;
mod page;
#[cfg(test)]
mod tests;
mod things;
mod words;

use super::scale::{TEXT, bar_words, fitted, round_at_most};
use super::{Anchor, Drawing, Shape, ViewBox};
use arcminute_core::scene::usual_face_widths;
use arcminute_core::unit::{Angle, Length};
use page::Sheet;

/// What one power shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// Short name of the aid, such as `4x`; empty without one.
    pub label: String,
    /// Real field for far things, full angle; `None` where nothing limits it, and of an aid for near things.
    pub real_field: Option<Angle>,
    /// Width at the task, where the engine gave one; else it follows from the field and the distance.
    pub width: Option<Length>,
    /// Whether it is the width of a window, such as a screen or a bar, and not of a round opening.
    pub window: bool,
}

impl Seen {
    /// The bare eye, which nothing limits.
    ///
    /// ```
    /// use arcminute_core::unit::Length;
    /// use arcminute_web::plot::{FieldSceneInput, Scene, Seen, field_scene};
    /// let scene = Scene::Face { distance: Length::from_m(2.0) };
    /// let drawing = field_scene(&FieldSceneInput { scene, chosen: Seen::bare(), less: None, more: None }, true);
    /// assert!(drawing.description.starts_with("Without an aid nothing limits what is seen at once."));
    /// ```
    #[must_use]
    pub fn bare() -> Self {
        Self { label: String::new(), real_field: None, width: None, window: false }
    }
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
    /// A page of print, looked at from near.
    Page {
        /// Height of its lower-case letters.
        x_height: Length,
        /// Length of its lines; `None` for 65 characters.
        line_width: Option<Length>,
        /// Characters that should be seen at once, a count.
        wanted: Option<f64>,
        /// Whether it is drawn to be printed at true size, as far as a sheet is wide enough.
        true_size: bool,
    },
    /// A face.
    Face {
        /// Eye to face.
        distance: Length,
    },
    /// The front of a bus, 2.5 m wide, with its number.
    Bus {
        /// Eye to bus.
        distance: Length,
        /// Height of the number.
        number_height: Length,
    },
    /// A thing five details high.
    Detail {
        /// What it is, with its article: `the switch`.
        what: String,
        /// Its smallest detail.
        size: Length,
        /// Eye to thing.
        distance: Length,
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
/// Height of a face from chin to crown, in metres; assumed.
const FACE_HEIGHT: f64 = 0.24;
/// Width and height of the front of a bus, in metres; assumed.
const BUS: (f64, f64) = (2.5, 3.0);
/// Letters, print or a detail without a size are drawn as this large, in metres.
const ANY_LETTER: f64 = 0.01;
const MARGIN: f64 = 10.0;
/// A field this many times the scene is no longer drawn, or nothing would be left of the scene.
const TIMES_AT_MOST: f64 = 5.0;
/// Width of a sheet that a printer can fill, in millimetres: A4 within its margins.
const SHEET_WIDTH_MM: f64 = 190.0;

fn face_width() -> f64 {
    let (least, greatest) = usual_face_widths();
    (least.m() + greatest.m()) / 2.0
}

impl Scene {
    /// Eye to what is drawn, in metres; `None` for print, which lies where the aid puts it.
    fn distance(&self) -> Option<f64> {
        match self {
            Self::Task { distance, .. }
            | Self::Face { distance }
            | Self::Bus { distance, .. }
            | Self::Detail { distance, .. } => Some(distance.m()),
            Self::Door => Some(DOOR_AWAY),
            Self::Page { .. } => None,
        }
    }

    /// Width that should be seen at once, or that of the thing.
    fn wanted(&self) -> Option<f64> {
        match self {
            Self::Task { wanted_width, .. } => wanted_width.and_then(|width| above_zero(width.m())),
            Self::Page { x_height, wanted, .. } => {
                wanted.and_then(|count| above_zero(count * page::character(*x_height)))
            }
            Self::Face { .. } => Some(face_width()),
            Self::Bus { .. } => Some(BUS.0),
            Self::Detail { size, .. } => Some(5.0 * letter(*size)),
            Self::Door => Some(DOOR.0),
        }
    }

    /// Width and height of what is drawn, in metres.
    fn size(&self, seen: Option<f64>) -> (f64, f64) {
        match self {
            Self::Door => DOOR,
            Self::Face { .. } => (face_width(), FACE_HEIGHT),
            Self::Bus { .. } => BUS,
            Self::Detail { size, .. } => (5.0 * letter(*size), 5.0 * letter(*size)),
            Self::Task { letter_height, .. } => {
                let letter = letter(*letter_height);
                let width =
                    self.wanted().or(seen.map(|seen| 2.0 * seen)).unwrap_or(10.0 * letter).max(2.0 * letter);
                (width, (3.0 * letter).max(width / 12.0))
            }
            // Laid out by `Sheet`.
            Self::Page { x_height, line_width, .. } => {
                (page::line(*x_height, *line_width), page::character(*x_height))
            }
        }
    }
}

impl FieldSceneInput {
    /// Width that is seen, in metres; `None` where it has no end.
    fn width(&self, seen: &Seen) -> Option<f64> {
        let from_angle = || {
            let field = seen.real_field?;
            Some(self.scene.distance()? * 2.0 * (field / 2.0).tangent())
        };
        let width = seen.width.map(Length::m).or_else(from_angle)?;
        above_zero(width).filter(|width| *width < 1e4)
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

/// Height of a letter or a detail, in metres.
fn letter(height: Length) -> f64 {
    above_zero(height.m()).unwrap_or(ANY_LETTER)
}

/// Where everything goes: units for a metre, what is drawn in metres, the middle of it, and how high all is in units.
struct Plan<'a> {
    scale: f64,
    size: (f64, f64),
    middle: (f64, f64),
    down: f64,
    /// What is seen, the class of its mark, and its width if it is drawn.
    seen: Vec<(&'a Seen, &'static str, Option<f64>)>,
    sheet: Option<Sheet>,
}

impl<'a> Plan<'a> {
    fn of(input: &'a FieldSceneInput, (width, most_height): (f64, f64)) -> Self {
        let size = input.scene.size(input.width(&input.chosen));
        let largest = TIMES_AT_MOST * size.0.max(size.1);
        let mut seen: Vec<_> = input
            .all()
            .into_iter()
            .map(|(seen, class)| (seen, class, input.width(seen).filter(|width| *width <= largest)))
            .collect();
        let room = width - 2.0 * MARGIN;
        let sheet = Sheet::of(input, &seen, (room, most_height));
        let (scale, size) = match &sheet {
            Some(sheet) => {
                for (seen, _, drawn) in &mut seen {
                    let most = if seen.window { room } else { room.min(most_height) };
                    *drawn = drawn.filter(|width| width * sheet.scale <= most + 1e-6);
                }
                (sheet.scale, sheet.size)
            }
            None => {
                let widest = seen.iter().filter_map(|seen| seen.2).fold(0.0, f64::max);
                let (across, down) = (size.0.max(widest), size.1.max(widest));
                ((room / across).min(most_height / down), size)
            }
        };
        let round = seen.iter().filter(|seen| !seen.0.window).filter_map(|seen| seen.2);
        let down = scale * round.fold(size.1, f64::max);
        let middle = (width / 2.0, MARGIN + down / 2.0);
        Self { scale, size, middle, down, seen, sheet }
    }

    /// Left and upper side of what is drawn.
    fn corner(&self) -> (f64, f64) {
        (self.middle.0 - self.size.0 * self.scale / 2.0, self.middle.1 - self.size.1 * self.scale / 2.0)
    }
}

/// The scene with its words and rows: 320 wide if `narrow`, else 640.
#[must_use]
pub fn field_scene(input: &FieldSceneInput, narrow: bool) -> Drawing {
    let (width, most_height) = if narrow { (320.0, 300.0) } else { (640.0, 330.0) };
    let plan = Plan::of(input, (width, most_height));
    let mut shapes = Vec::new();
    match (&input.scene, &plan.sheet) {
        (Scene::Door, _) => things::door(&mut shapes, &plan, width),
        (Scene::Face { .. }, _) => things::face(&mut shapes, &plan),
        (Scene::Bus { number_height, .. }, _) => {
            things::bus(&mut shapes, &plan, letter(*number_height), width)
        }
        (Scene::Detail { .. }, _) => things::detail(&mut shapes, &plan),
        (Scene::Task { letter_height, .. }, _) => {
            things::board(&mut shapes, &plan);
            let row = (plan.corner().0, plan.middle.1);
            shapes.push(letters::row(row, plan.size.0 * plan.scale, letter(*letter_height) * plan.scale));
        }
        (Scene::Page { .. }, sheet) => {
            things::paper(&mut shapes, &plan);
            if let Some(sheet) = sheet {
                sheet.draw(&mut shapes, plan.corner());
            }
        }
    }
    let (cx, cy) = plan.middle;
    for (seen, class, drawn) in &plan.seen {
        let Some(across) = drawn.map(|across| across * plan.scale) else { continue };
        if seen.window {
            let (y, height) = (cy - plan.down / 2.0, plan.down);
            shapes.push(Shape::Rect { x: cx - across / 2.0, y, width: across, height, class });
        } else {
            shapes.push(Shape::Circle { cx, cy, r: across / 2.0, class });
        }
    }
    let mut y = cy + plan.down / 2.0 + MARGIN;
    for (seen, class, drawn) in &plan.seen {
        let words = words::bar(input, seen, drawn.is_some());
        let strong = if *class == "scene-seen" { "plot-text plot-strong" } else { "plot-text" };
        let length = drawn.map_or(0.0, |seen| seen * plan.scale);
        y = bar(&mut shapes, (cx, y, width), length, words, (class, strong));
    }
    if let Some(wanted) = input.scene.wanted() {
        let fits = wanted * plan.scale <= width - 2.0 * MARGIN + 1e-6;
        let length = if fits { wanted * plan.scale } else { 0.0 };
        let words = words::wanted_bar(&input.scene, wanted, fits);
        y = bar(&mut shapes, (cx, y, width), length, words, ("scene-wanted", "plot-text"));
    }
    let height = scale_bar(&mut shapes, y + 6.0, width, plan.scale);
    let unit_mm = match input.scene {
        Scene::Page { true_size: true, .. } => Some(1000.0 / plan.scale),
        _ => None,
    };
    let unit_mm = unit_mm.filter(|unit| width * unit <= SHEET_WIDTH_MM);
    Drawing {
        view_box: ViewBox { x: 0.0, y: 0.0, width, height },
        unit_mm,
        title: words::title(input),
        description: words::summary(input, plan.sheet.as_ref(), unit_mm.is_some()),
        rows: words::rows(input, plan.sheet.as_ref(), unit_mm.is_some()),
        shapes,
    }
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
