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
    let mut bar = |x: f64, y: f64, width: f64, height: f64| {
        // Writing into a String cannot fail.
        let _ = write!(
            d,
            "M{} {}h{}v{}h-{}Z",
            number(x),
            number(y),
            number(width),
            number(height),
            number(width)
        );
    };
    let mut word = 0.0;
    while word < words {
        let x = start + word * WORD * height;
        if height < SMALL {
            bar(x, top, ((letters - 1.0) * PITCH + 1.0) * height, height);
        } else {
            let mut letter = 0.0;
            for shape in LETTERS.iter().cycle().skip(if word % 2.0 < 0.5 { 0 } else { 2 }) {
                if letters <= letter {
                    break;
                }
                let fifth = height / 5.0;
                for (left, upper, wide, high) in *shape {
                    let x = x + letter * PITCH * height + left * fifth;
                    bar(x, top + upper * fifth, wide * fifth, high * fifth);
                }
                letter += 1.0;
            }
        }
        word += 1.0;
    }
    let class = if height < SMALL { "scene-words" } else { "scene-letters" };
    Shape::Path { d, class }
}
