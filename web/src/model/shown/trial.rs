//! A trial in words: what was predicted, how what was reached compares, and what to check, each with what it would cost.

use super::looked::just_read;
use crate::model::answer::Answer;
use crate::model::compared::LookedAt;
use crate::model::format;
use arcminute_core::optics::Blurred;
use arcminute_core::trial::{Cause, Explanation, Grounds, TrialClass, TrialVerdict};
use arcminute_core::unit::LogMar;

/// What was predicted of the aid that is looked at: `4x13 Keplerian for “Signs”: should just read 20/40 (0.28 logMAR);
/// letters 16.8 mm high at 6 m; band 20/25 to 20/63 (95 %).`
#[must_use]
pub fn trial_predicted(answer: &Answer, looked: &LookedAt) -> String {
    let (name, wish) = (looked.aid.title(), &looked.named.name);
    match &looked.does {
        Ok(seen) => {
            let (value, note) = just_read(answer, &seen.outcome);
            format!("{name} for “{wish}”: should just read {value}; {note} (95 %).")
        }
        Err(cannot) => format!("{name} for “{wish}”: {}.", super::cannot_words(cannot)),
    }
}

fn log(value: LogMar) -> String {
    match format::decimals(value.log().abs(), 2) {
        none if none == "0.00" => "less than 0.01 log".into(),
        some => format!("{some} log"),
    }
}

/// What was typed was reached with another aid than the one that is looked at.
#[must_use]
pub fn trial_of_another(tried: &str, looked: &str) -> String {
    format!(
        "What was reached below was reached with {tried}. Type what is reached with {looked}, or look at the other on Bench."
    )
}

/// How what was reached compares, in one sentence.
#[must_use]
pub fn trial_words(verdict: &TrialVerdict) -> String {
    let (off, limit) = (log(verdict.difference), log(verdict.prediction.retest_limit));
    match verdict.class {
        TrialClass::WithinBand => {
            format!("As predicted: {off} from it, and tests scatter by {limit}. Nothing has to be explained.")
        }
        TrialClass::Better => {
            format!(
                "Better than predicted by {off}, and tests scatter by {limit}. Look whether a weaker aid would do."
            )
        }
        TrialClass::Worse => {
            let lines = format::trimmed(verdict.difference.log() * 10.0, 1);
            format!(
                "Worse than predicted by {off} ({lines} lines), {} more than tests scatter. Check these in turn.",
                log(verdict.beyond)
            )
        }
    }
}

/// What to check, the largest effect first: what to do, and what it would cost this eye.
#[must_use]
pub fn trial_checks(verdict: &TrialVerdict) -> Vec<String> {
    let said = |one: &Explanation| [check(one), cost(one)].join(" ").trim_end().to_owned();
    verdict.explanations.iter().map(said).collect()
}

/// What it alone would cost, and whether that is enough; nothing where no law tells.
fn cost(one: &Explanation) -> String {
    match (one.effect, one.is_enough) {
        (Some(effect), Some(true)) => {
            format!("It would cost {}: alone enough to explain the miss.", log(effect))
        }
        (Some(effect), _) => format!("It would cost {}: not enough alone.", log(effect)),
        (None, _) => String::new(),
    }
}

fn blurred_by(blurred: &Blurred) -> String {
    format!("{} D", format::trimmed(blurred.strength.dioptres(), 2))
}

/// What to do about a cause.
fn check(one: &Explanation) -> String {
    match (one.cause, &one.grounds) {
        (Cause::FocusLeft, Grounds::Blur(blurred)) => {
            format!("Mend the focus: {} is left out of it.", blurred_by(blurred))
        }
        (Cause::FocusMissed, Grounds::Blur(blurred)) => {
            format!("Focus again, slowly and from both sides: it may be missed by {}.", blurred_by(blurred))
        }
        (Cause::CylinderLeft, Grounds::Blur(blurred)) => {
            format!("Correct the cylinder: it blurs like {}.", blurred_by(blurred))
        }
        (Cause::Alignment, Grounds::OffCentre(off)) => format!(
            "Bring the exit pupil on the pupil: {} beside it leaves {} of the light.",
            format::mm(off.apart),
            format::percent(off.share)
        ),
        (Cause::Light, Grounds::LightShare(share)) => {
            format!("Add light: the aid leaves {} of it.", format::percent(*share))
        }
        (Cause::Contrast, Grounds::Contrast(contrast)) => format!(
            "Compare with full contrast: what was read has {} the least contrast seen.",
            format::times(contrast.reserve)
        ),
        (Cause::Steadiness, Grounds::SteadyUpTo(steady)) => format!(
            "Rest the head: the picture holds still while the head turns under {}° a second.",
            format::trimmed(steady.head.degrees_per_second(), 1)
        ),
        (Cause::EccentricView, Grounds::Eccentric(best)) => format!(
            "Find the place looked with: {} beside the centre reads {} at best.",
            format::degrees(best.eccentricity),
            format::log_mar(best.best)
        ),
        (cause, _) => not_known(cause).into(),
    }
}

/// What to do about a cause of which nothing is known here.
fn not_known(cause: Cause) -> &'static str {
    match cause {
        Cause::FocusLeft | Cause::FocusMissed => "Focus again, slowly and from both sides.",
        Cause::CylinderLeft => "See whether a cylinder is left that nothing corrects.",
        Cause::Alignment => "See that the eye looks through the middle of the aid.",
        Cause::Light => "See that there was as much light as at the measurement without the aid.",
        Cause::Contrast => {
            "Compare with full contrast: the contrast of the thing, or of this eye, is not entered."
        }
        Cause::Steadiness => "Rest hand, elbow and head.",
        Cause::EccentricView => "Where the centre is lost, find the place looked with and hold it.",
    }
}

#[cfg(test)]
mod tests;
