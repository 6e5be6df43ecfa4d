//! The result in one sentence, for the ear and for the top of a place.

use super::answer::{Answer, FitAnswer};
use super::format;
use arcminute_core::fit::Fit;
use arcminute_core::predict::PowerNeeded;

/// What can be said of the case so far, in one or two short sentences.
#[must_use]
pub fn sentence(answer: &Answer) -> String {
    let mut parts = vec![power(answer)];
    if let Some((row, outcome)) = answer.chosen_outcome() {
        let chance = format::chance(outcome.prediction.chance);
        parts.push(format!("{} chosen: chance of the goal {chance}.", row.device.marking()));
    }
    if let FitAnswer::Done(done) = &answer.fit {
        parts.push(verdict(done.verdict).into());
    }
    match answer.troubles() {
        0 => {}
        1 => parts.push("1 entry cannot be used.".into()),
        several => parts.push(format!("{several} entries cannot be used.")),
    }
    parts.retain(|part| !part.is_empty());
    parts.join(" ")
}

/// The power needed, or why it cannot be said.
#[must_use]
pub fn power(answer: &Answer) -> String {
    match (&answer.needed, answer.viewing().acuity.is_some()) {
        (Some(needed), _) => needed_words(needed),
        (None, true) => "The power needed cannot be said yet.".into(),
        (None, false) => String::new(),
    }
}

/// The power needed and the whole power that gives it.
#[must_use]
pub fn needed_words(needed: &PowerNeeded) -> String {
    let power = needed.power.times();
    if power <= 1.0 + 1e-9 {
        return "The goal is reached without a telescope.".into();
    }
    let exact = format::trimmed(power, 1);
    let whole = format::trimmed(needed.whole.times(), 0);
    if exact == whole {
        format!("{whole}x is needed.")
    } else {
        format!("{exact}x is needed; the next whole power is {whole}x.")
    }
}

/// The verdict of a fit.
#[must_use]
pub fn verdict(fit: Fit) -> &'static str {
    match fit {
        Fit::Accepted => "The fit is possible.",
        Fit::AcceptedWithWarnings => "The fit is possible; look again at what is marked.",
        Fit::Refused => "The fit is refused.",
    }
}
