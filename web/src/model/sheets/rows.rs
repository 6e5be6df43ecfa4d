//! Lines that several sheets have.

use super::Block;
use crate::model::answer::{Answer, EyeAnswer, FieldState};
use crate::model::draft::EyeChoice;
use crate::model::field::FieldId;
use crate::model::format;
use arcminute_core::acuity::Reading;
use arcminute_core::delivery::Lens;
use arcminute_core::refraction::Prescription;
use arcminute_core::unit::{Length, Vergence};

/// Stands where nothing was entered that has to be there.
pub(super) const BLANK: &str = "not filled in";
/// Stands where nothing was entered and may be written by hand.
pub(super) const OPEN: &str = "………………";

/// What it is, and its value.
pub(super) fn row(what: impl Into<String>, value: impl Into<String>) -> Block {
    Block::Row(vec![what.into(), value.into()])
}

/// What it is, and its values.
pub(super) fn row_of(cells: impl IntoIterator<Item = impl Into<String>>) -> Block {
    Block::Row(cells.into_iter().map(Into::into).collect())
}

/// What is to be written by hand.
pub(super) fn write(what: impl Into<String>) -> Block {
    row(what, "")
}

pub(super) fn heading(words: impl Into<String>) -> Block {
    Block::Heading(words.into())
}

pub(super) fn text(words: impl Into<String>) -> Block {
    Block::Text(words.into())
}

pub(super) fn step(words: &&str) -> Block {
    Block::Step((*words).into())
}

pub(super) fn point(words: impl Into<String>) -> Block {
    Block::Point("", words.into())
}

/// A text cut at a word, with a mark where something is left out.
pub(super) fn clipped(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let cut: String = text.chars().take(most).collect();
    let end = cut.rfind(' ').filter(|end| cut.len() < end * 2).unwrap_or(cut.len());
    format!("{}…", cut.split_at(end).0)
}

/// Most characters of words in one line of a table: longer ones run over several, so that each finds room on a leaf.
const MOST_AT_ONCE: usize = 360;

/// Words that were typed, in as many lines as they need; `empty` stands for none.
pub(super) fn typed_words(what: &str, words: &str, empty: &str) -> Vec<Block> {
    let words = words.trim();
    if words.is_empty() {
        return vec![row(what, empty)];
    }
    let mut blocks = Vec::new();
    let mut piece = String::new();
    for word in words.split(' ') {
        if !piece.is_empty() && MOST_AT_ONCE < piece.chars().count() + word.chars().count() {
            blocks.push(std::mem::take(&mut piece));
        }
        // A word without an end is cut like a text.
        let mut letters = word.chars().peekable();
        while letters.peek().is_some() {
            if !piece.is_empty() {
                piece.push(' ');
            }
            piece.extend(letters.by_ref().take(MOST_AT_ONCE));
            if letters.peek().is_some() {
                blocks.push(std::mem::take(&mut piece));
            }
        }
    }
    if !piece.is_empty() {
        blocks.push(piece);
    }
    let name = |index: usize| if index == 0 { what.to_owned() } else { format!("{what}, more") };
    blocks.into_iter().enumerate().map(|(index, piece)| row(name(index), piece)).collect()
}

/// What stands in a box, as it was understood.
pub(super) fn typed(answer: &Answer, field: FieldId) -> Option<String> {
    match answer.field(field) {
        FieldState::Understood { echo, .. } => Some(echo),
        FieldState::Empty { assumed: Some(assumed) } => Some(format!("{assumed} (assumed)")),
        _ => None,
    }
}

/// The same, or a blank.
pub(super) fn typed_or_blank(answer: &Answer, field: FieldId) -> String {
    typed(answer, field).unwrap_or_else(|| BLANK.into())
}

pub(super) fn optional(value: Option<Length>) -> String {
    value.map_or(BLANK.into(), format::mm)
}

/// A lens as it is written.
pub(super) fn lens(lens: &Lens) -> String {
    Prescription { refraction: lens.refraction, add: lens.add }.to_string()
}

/// A lens that a sum gave, to two decimals.
pub(super) fn lens_of_sum(lens: &Lens) -> String {
    let refraction = lens.refraction.rounded(Vergence::from_dioptres(0.01));
    Prescription { refraction, add: lens.add }.to_string()
}

/// Acuity of an eye in its notation.
pub(super) fn acuity(answer: &Answer, choice: EyeChoice, none: &str) -> String {
    let eye: &EyeAnswer = answer.eye_answer(choice);
    match &eye.acuity {
        Some(Reading::Measured(acuity)) => {
            format!("{} (logMAR {})", acuity.notation, format::decimals(acuity.log_mar.log(), 2))
        }
        Some(Reading::Category(category)) => category.to_string(),
        None if answer.field(FieldId::of_eye(FieldId::Acuity, choice)).is_trouble() => BLANK.into(),
        None => none.into(),
    }
}

/// RIGHT and LEFT, without the word that follows in a label.
pub(super) fn side(eye: EyeChoice) -> &'static str {
    match eye {
        EyeChoice::Right => "RIGHT",
        EyeChoice::Left => "LEFT",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_text_is_cut_at_a_word_and_says_so() {
        assert_eq!(clipped("Signs across the street", 60), "Signs across the street");
        assert_eq!(clipped("Signs across the street", 14), "Signs across…");
        assert_eq!(clipped(&"9".repeat(30), 10), format!("{}…", "9".repeat(10)), "a word without an end");
        assert_eq!(clipped("äöü äöü", 5), "äöü…", "letters of two bytes");
    }

    #[test]
    fn long_words_take_several_lines_and_lose_nothing() {
        assert_eq!(typed_words("Notes", "  ", "none"), [row("Notes", "none")]);
        assert_eq!(typed_words("Notes", " short ", "none"), [row("Notes", "short")]);
        let long = format!("{} {}", "word ".repeat(100).trim(), "x".repeat(800));
        let lines = typed_words("Notes", &long, "none");
        let mut all = String::new();
        for (place, line) in lines.iter().enumerate() {
            let Block::Row(cells) = line else { panic!("not a line: {line:?}") };
            assert_eq!(cells[0], if place == 0 { "Notes" } else { "Notes, more" });
            assert!(cells[1].chars().count() <= MOST_AT_ONCE + 10, "{} letters", cells[1].chars().count());
            all.push_str(&cells[1]);
        }
        assert_eq!(all.replace(' ', ""), long.replace(' ', ""));
        assert!(3 < lines.len(), "several lines: {lines:?}");
    }
}
