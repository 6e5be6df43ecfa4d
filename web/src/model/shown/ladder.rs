//! What whole powers would do, as rows.

use crate::model::answer::{Answer, acuity_words};
use crate::model::{format, words};
use arcminute_core::predict::Reach;

/// A whole power, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PowerShown {
    /// `4x`.
    pub power: String,
    /// Middle of the prediction.
    pub acuity: String,
    /// Better and worse end of the band.
    pub band: String,
    /// Chance of the goal.
    pub chance: String,
    /// How much of the band reaches it.
    pub reach: Reach,
    /// The same in a word.
    pub reach_short: &'static str,
    /// Usual real field.
    pub field: String,
    /// Whether it is the lowest whole power that does it.
    pub lowest: bool,
}

/// The whole powers.
#[must_use]
pub fn powers(answer: &Answer) -> Vec<PowerShown> {
    answer
        .powers
        .iter()
        .map(|row| {
            let prediction = &row.prediction;
            PowerShown {
                power: format::times(row.power),
                acuity: acuity_words(prediction.with_aid, answer.scale),
                band: format!(
                    "{} to {}",
                    arcminute_core::acuity::written(prediction.best, answer.scale),
                    arcminute_core::acuity::written(prediction.worst, answer.scale)
                ),
                chance: format::chance(prediction.chance),
                reach: prediction.reach,
                reach_short: words::reach_short(prediction.reach),
                field: format::degrees(row.usual_field),
                lowest: row.lowest,
            }
        })
        .collect()
}
