//! How a prediction is said.

use crate::model::format;
use arcminute_core::predict::{Prediction, Reach};

/// Two or three words for a table.
#[must_use]
pub fn reach_short(reach: Reach) -> &'static str {
    match reach {
        Reach::WholeBand => "reaches",
        Reach::Middle => "probably",
        Reach::BetterEnd => "perhaps",
        Reach::No => "no",
    }
}

/// What it means.
#[must_use]
pub fn reach_words(reach: Reach) -> &'static str {
    match reach {
        Reach::WholeBand => "the whole retest band reaches the goal",
        Reach::Middle => "the middle of the retest band reaches the goal, its worse end does not",
        Reach::BetterEnd => "only the better end of the retest band reaches the goal",
        Reach::No => "no part of the retest band reaches the goal",
    }
}

/// One sentence with the chance and what it stands for.
#[must_use]
pub fn chance_sentence(prediction: &Prediction) -> String {
    format!(
        "Chance that a test with the aid reads the goal: {}; {}.",
        format::chance(prediction.chance),
        reach_words(prediction.reach)
    )
}

/// Steps of a log chart: `6 steps`, `1 step`, `3.5 steps`.
#[must_use]
pub fn steps(count: f64) -> String {
    let count = format::trimmed(count, 1);
    if count == "1" { "1 step".into() } else { format!("{count} steps") }
}
