//! The answer in the words and numbers that the screen and the paper show.

mod aids;
mod bench;
mod fit;
mod ladder;
mod sheet;

pub use aids::{AidCard, aid_card, aid_places};
pub use bench::{Row, chosen_facts, chosen_notes, near, prediction_words, row, step_words};
pub use fit::{CheckShown, checks, marks};
pub use ladder::{PowerShown, powers};
pub use sheet::{Sheet, SheetSection, sheet};

/// A value with what it is and a word on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// Stable key: the element's id on the page.
    pub key: String,
    /// What it is.
    pub what: String,
    /// The value with its unit.
    pub value: String,
    /// How it is known or what it means; may be empty.
    pub note: String,
}

impl Shown {
    pub(super) fn new(
        key: impl Into<String>,
        what: impl Into<String>,
        value: impl Into<String>,
        note: impl Into<String>,
    ) -> Self {
        Self { key: key.into(), what: what.into(), value: value.into(), note: note.into() }
    }
}
