//! The numbers to mark and order, and the checks.

mod near;
mod telescope;

use super::Shown;
use crate::model::answer::{Answer, FitAnswer};
use crate::model::words;
use arcminute_core::explain::{Explain, Step};
use arcminute_core::fit::{Check, Eye, Severity};

/// A check in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckShown {
    /// What is looked at.
    pub title: String,
    /// How severe.
    pub severity: Severity,
    /// The same in words.
    pub severity_words: &'static str,
    /// Found against allowed.
    pub sentence: String,
    /// How its limit is known.
    pub basis: &'static str,
    /// What would mend it.
    pub ways: Vec<String>,
}

fn eye_words(eye: Eye) -> &'static str {
    if eye == Eye::Right { "RIGHT eye" } else { "LEFT eye" }
}

/// What the fit is about, in a sentence.
#[must_use]
pub fn fit_is_of(answer: &Answer) -> String {
    let eye = answer.eye.label();
    match (&answer.worn_spectacles, answer.fits_both_eyes) {
        (Some(name), true) => format!("{name}, for both eyes (looked at on Bench)."),
        (Some(name), false) => format!("{name}, for the {eye} (looked at on Bench)."),
        (None, true) => "A telescope before each eye (chosen on Bench).".into(),
        (None, false) => format!("The telescope is for the {eye} (chosen on Bench)."),
    }
}

/// The numbers to mark on the lens and to order.
#[must_use]
pub fn marks(fit: &FitAnswer) -> Vec<Shown> {
    match fit {
        FitAnswer::Done(done) => telescope::marks(done),
        FitAnswer::Near(done) => near::marks(done),
        FitAnswer::Waiting(_) | FitAnswer::Impossible(_) => Vec::new(),
    }
}

/// The working of a fit, and of what is said beside it.
#[must_use]
pub fn fit_steps(fit: &FitAnswer) -> Vec<Step> {
    match fit {
        FitAnswer::Done(done) => telescope::steps(done),
        FitAnswer::Near(done) => done.fit.steps(),
        FitAnswer::Waiting(_) | FitAnswer::Impossible(_) => Vec::new(),
    }
}

/// The checks, worst first; each with the eye it is of, where there are two.
#[must_use]
pub fn checks(fit: &FitAnswer) -> Vec<CheckShown> {
    let all: Vec<(Option<Eye>, &Check)> = match fit {
        FitAnswer::Done(done) => {
            let name = |eye| done.other.as_ref().map(|_| eye);
            let this = done.checks.iter().map(|check| (name(done.request.eye), check));
            let other = done.other.iter().flat_map(|other| {
                let eye = other.mounting.request.eye;
                other.checks.iter().map(move |check| (Some(eye), check))
            });
            this.chain(other).collect()
        }
        FitAnswer::Near(done) => done.checks.iter().map(|one| (one.eye, &one.check)).collect(),
        FitAnswer::Waiting(_) | FitAnswer::Impossible(_) => Vec::new(),
    };
    let worst_first = [Severity::Refuse, Severity::Warning, Severity::Pass];
    worst_first
        .iter()
        .flat_map(|severity| all.iter().filter(move |(_, check)| check.severity == *severity))
        .map(|(eye, check)| check_shown(*eye, check))
        .collect()
}

fn check_shown(eye: Option<Eye>, check: &Check) -> CheckShown {
    let name = words::check_name(check);
    let ways = if check.severity == Severity::Pass { &[][..] } else { &check.ways_out[..] };
    CheckShown {
        title: eye.map_or(name.clone(), |eye| format!("{}, {name}", eye_words(eye))),
        severity: check.severity,
        severity_words: words::severity(check.severity),
        sentence: words::check_sentence(check),
        basis: words::check_basis(check.id),
        ways: ways.iter().map(words::way_out).collect(),
    }
}
