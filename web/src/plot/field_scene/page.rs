//! A page of print: lines of type where they can be read in the picture, else words as bars of their true size.

use super::super::scale::{TEXT, text_width};
use super::super::{Anchor, Shape};
use super::letters::bar;
use super::{FieldSceneInput, Scene, Seen, TIMES_AT_MOST, above_zero};
use arcminute_core::device::CHARACTER_WIDTH_PER_M;
use arcminute_core::math;
use arcminute_core::unit::{Length, PrintSize};

/// x-height of the page's typeface over its size, from the font file (496 of 1000 units).
const X_HEIGHT: f64 = 0.496;
/// Line to line over the x-height: type set solid and a fifth more.
const PITCH: f64 = 1.2 / X_HEIGHT;
/// Characters of a line of a book, spaces included; assumed.
const USUAL_LINE: f64 = 65.0;
/// Room that a character of the filler is reckoned to take in the picture, in units, so that lines fit for certain.
const ROOM: f64 = 0.53 * TEXT;
/// What the filler takes over what words are reckoned to take; measured.
const TAKEN: f64 = 0.9;
/// Fewest lines drawn of type, and of bars.
const LINES: (f64, f64) = (5.0, 9.0);
/// Most words drawn as bars.
const WORDS_AT_MOST: f64 = 1500.0;

const FILLER: &str = "The lamp stands behind the shoulder and shines on the page, so that no shadow falls where the eye \
    is reading. Hold the page still and let the lens travel along the line. At the end of a line go back along the same \
    line, and only then down to the next. A firm board under the page leaves a hand free, and a dark strip under the \
    line keeps the place. Rest before the letters begin to swim, and read again a little later. What is read every day \
    grows easier: a headline first, then a short notice, then a page of a letter from a friend.";

/// Print without a size counts as 1 M.
fn size(x_height: Length) -> PrintSize {
    match above_zero(x_height.m()) {
        Some(_) => PrintSize::of_x_height(x_height),
        None => PrintSize::from_m_units(1.0),
    }
}

/// Width of a character with its share of the spaces, in metres.
pub(super) fn character(x_height: Length) -> f64 {
    CHARACTER_WIDTH_PER_M * size(x_height).m_units() / 1000.0
}

/// Length of a line, in metres.
pub(super) fn line(x_height: Length, line_width: Option<Length>) -> f64 {
    let usual = USUAL_LINE * character(x_height);
    // Neither shorter than a character nor longer than any print has it.
    let most = 40.0 * usual;
    line_width.and_then(|line| above_zero(line.m())).unwrap_or(usual).clamp(character(x_height), most)
}

/// The part of a page that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Sheet {
    /// Units of the picture for a metre.
    pub(super) scale: f64,
    /// Width and height of the part, in metres.
    pub(super) size: (f64, f64),
    /// Characters in a line, a count.
    pub(super) in_line: f64,
    /// Characters of a line that are drawn.
    pub(super) drawn: f64,
    /// Whether it can be read.
    pub(super) typed: bool,
    lines: f64,
    x_height: f64,
    character: f64,
}

impl Sheet {
    /// `None` for a scene that is no page.
    pub(super) fn of(
        input: &FieldSceneInput,
        seen: &[(&Seen, &'static str, Option<f64>)],
        (room, most_height): (f64, f64),
    ) -> Option<Self> {
        let Scene::Page { x_height, line_width, true_size, .. } = &input.scene else { return None };
        let (character, line) = (character(*x_height), line(*x_height, *line_width));
        let x_height = size(*x_height).x_height().m();
        let wanted = input.scene.wanted().filter(|wanted| *wanted <= TIMES_AT_MOST * line).unwrap_or(0.0);
        let widest = seen.iter().filter_map(|seen| seen.2).fold(0.0, f64::max);
        let round = seen.iter().filter(|seen| !seen.0.window).filter_map(|seen| seen.2).fold(0.0, f64::max);
        let pitch = PITCH * x_height;
        // The scale at which the letters are those of the words in every picture.
        let type_scale = X_HEIGHT * TEXT / x_height;
        let fits = widest.max(wanted) * type_scale <= room && round * type_scale <= most_height;
        let typed = *true_size || fits;
        let (scale, width, least, most_lines) = if typed {
            let width = line.min(math::floor(room / ROOM) * character);
            (type_scale, width, LINES.0, math::floor(most_height / type_scale / pitch))
        } else {
            let scale = (room / line.max(widest).max(wanted)).min(most_height / round.max(LINES.1 * pitch));
            let words = math::floor(WORDS_AT_MOST * 6.0 * character / line).max(1.0);
            (scale, line, LINES.1, math::floor(most_height / scale / pitch).min(words))
        };
        let round = if round * scale <= most_height { round } else { 0.0 };
        let lines = math::ceil(round / pitch).max(least).min(most_lines.max(1.0));
        Some(Self {
            scale,
            size: (width, lines * pitch),
            in_line: line / character,
            drawn: width / character,
            typed,
            lines,
            x_height,
            character,
        })
    }

    /// Whether a line goes on beyond the picture.
    pub(super) fn is_cut(&self) -> bool {
        self.drawn + 0.5 < self.in_line
    }

    /// The lines, from the corner of the part on.
    pub(super) fn draw(&self, shapes: &mut Vec<Shape>, (left, top): (f64, f64)) {
        let room = self.size.0 * self.scale;
        let (pitch, x_height) = (PITCH * self.x_height * self.scale, self.x_height * self.scale);
        let character = self.character * self.scale;
        let mut words = FILLER.split_whitespace().cycle().peekable();
        let mut bars = String::new();
        let mut line = 0.0;
        while line < self.lines {
            // Letters with a stroke below the line have a third of the x-height free there.
            let base = top + (line + 1.0) * pitch - 0.6 * x_height;
            let mut text = String::new();
            while let Some(word) = words.peek() {
                let longer = if text.is_empty() { (*word).to_owned() } else { format!("{text} {word}") };
                let fits = longer.chars().count() as f64 <= self.drawn + 1e-9;
                if !(fits && (!self.typed || TAKEN * text_width(&longer, TEXT) <= room)) {
                    break;
                }
                if !self.typed {
                    let start = longer.chars().count() - word.chars().count();
                    let (x, wide) =
                        (left + start as f64 * character, word.chars().count() as f64 * character);
                    bar(&mut bars, (x, base - x_height), (wide - 0.1 * character, x_height));
                }
                text = longer;
                words.next();
            }
            if text.is_empty() {
                // Not even a word has room: what there is room for of it.
                let word = words.next().unwrap_or_default();
                text = word.chars().take(math::floor(self.drawn).max(1.0) as usize).collect();
                bar(&mut bars, (left, base - x_height), (room, x_height));
            }
            if self.typed {
                let anchor = Anchor::Start;
                shapes.push(Shape::Text { x: left, y: base, anchor, content: text, class: "scene-type" });
            }
            line += 1.0;
        }
        if !self.typed {
            shapes.push(Shape::Path { d: bars, class: "scene-words" });
        }
    }
}
