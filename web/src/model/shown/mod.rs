//! The answer in the words and numbers that the screen and the paper show.

mod any_power;
mod compared;
mod fit;
mod goals;
mod ladder;
mod looked;
mod sheet;
mod telescope;
mod trial;

pub use any_power::any_power;
pub use compared::{
    AidLine, KitShown, aid_line, cannot_words, criterion_words, found_words, kit_shown, lack_words,
};
pub use fit::{CheckShown, checks, fit_is_of, fit_steps, marks};
pub use goals::{GoalLine, age_words, goal_asks, goal_line, goal_notes};
pub use ladder::{PowerShown, powers};
pub use looked::{instead_words, looked_facts, looked_notes, looked_words, neighbours, step_words};
pub use sheet::sheet;
pub use telescope::{prediction_words, telescope_facts, telescope_notes};
pub use trial::{trial_checks, trial_of_another, trial_predicted, trial_words};

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
