//! A row of stand-in letters: upright and level bars one fifth of the height thick, as on a chart, but no alphabet.

use super::super::Shape;
use super::super::shape::number;
use arcminute_core::math;
use std::fmt::Write as _;

/// Bars of each letter in fifths of its height: left, upper, width, height.
const LETTERS: [&[(f64, f64, f64, f64)]; 5] = [
    &[(0.0, 0.0, 1.0, 5.0), (4.0, 0.0, 1.0, 5.0), (1.0, 2.0, 3.0, 1.0)],
    &[(0.0, 0.0, 5.0, 1.0), (2.0, 1.0, 1.0, 4.0)],
    &[(0.0, 0.0, 1.0, 5.0), (4.0, 0.0, 1.0, 5.0), (1.0, 4.0, 3.0, 1.0)],
    &[(0.0, 0.0, 1.0, 5.0), (1.0, 4.0, 4.0, 1.0)],
    &[(0.0, 0.0, 5.0, 1.0), (0.0, 4.0, 5.0, 1.0), (0.0, 1.0, 1.0, 3.0), (4.0, 1.0, 1.0, 3.0)],
];
const IN_A_WORD: f64 = 5.0;
/// A letter and the space behind it, in heights.
const PITCH: f64 = 1.4;
/// A word and the space behind it, in heights.
const WORD: f64 = IN_A_WORD * PITCH + 0.6;
/// Below this height, in units of the picture, a word is one block.
const SMALL: f64 = 4.0;
const WORDS_AT_MOST: f64 = 120.0;

/// Bars of a four and a two, in fifths of their height.
const FORTY_TWO: &[(f64, f64, f64, f64)] = &[
    (0.0, 0.0, 0.7, 3.2),
    (0.0, 2.5, 3.0, 0.7),
    (2.0, 0.0, 0.7, 5.0),
    (4.0, 0.0, 3.0, 0.7),
    (6.3, 0.0, 0.7, 2.5),
    (4.0, 2.15, 3.0, 0.7),
    (4.0, 2.15, 0.7, 2.85),
    (4.0, 4.3, 3.0, 0.7),
];
/// Width of them, in fifths of their height.
const FORTY_TWO_WIDE: f64 = 7.0;

/// A number of this height about this middle.
pub(super) fn forty_two((cx, cy): (f64, f64), height: f64) -> Shape {
    let fifth = height / 5.0;
    let (left, top) = (cx - FORTY_TWO_WIDE * fifth / 2.0, cy - height / 2.0);
    let mut d = String::new();
    for (x, y, wide, high) in FORTY_TWO {
        bar(&mut d, (left + x * fifth, top + y * fifth), (wide * fifth, high * fifth));
    }
    Shape::Path { d, class: "scene-letters" }
}

/// Adds a filled bar: left and upper side, width and height.
pub(super) fn bar(path: &mut String, (x, y): (f64, f64), (width, height): (f64, f64)) {
    let (wide, high) = (number(width), number(height));
    // Writing into a String cannot fail.
    let _ = write!(path, "M{} {}h{wide}v{high}h-{wide}Z", number(x), number(y));
}

/// As many letters of this height as fit into a line of this width from `left` on with half a letter free at each end,
/// centred in it at the height `middle`.
pub(super) fn row((left, middle): (f64, f64), width: f64, height: f64) -> Shape {
    let room = width / height - 1.0;
    let words = math::floor((room + 1.0) / WORD).min(WORDS_AT_MOST);
    // A line too short for a word holds what letters it can, at least one.
    let letters = if words < 1.0 { math::floor((room + 0.4) / PITCH).max(1.0) } else { IN_A_WORD };
    let words = words.max(1.0);
    let long = (words - 1.0) * WORD + (letters - 1.0) * PITCH + 1.0;
    let (start, top) = (left + (width - long * height) / 2.0, middle - height / 2.0);
    let mut d = String::new();
    let mut word = 0.0;
    while word < words {
        let x = start + word * WORD * height;
        if height < SMALL {
            bar(&mut d, (x, top), (((letters - 1.0) * PITCH + 1.0) * height, height));
        } else {
            let mut letter = 0.0;
            for shape in LETTERS.iter().cycle().skip(if word % 2.0 < 0.5 { 0 } else { 2 }) {
                if letters <= letter {
                    break;
                }
                let fifth = height / 5.0;
                for (left, upper, wide, high) in *shape {
                    let x = x + letter * PITCH * height + left * fifth;
                    bar(&mut d, (x, top + upper * fifth), (wide * fifth, high * fifth));
                }
                letter += 1.0;
            }
        }
        word += 1.0;
    }
    let class = if height < SMALL { "scene-words" } else { "scene-letters" };
    Shape::Path { d, class }
}
