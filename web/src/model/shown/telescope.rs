//! What is known of a telescope that is set in a carrier lens, beyond what holds for every aid.

use super::Shown;
use crate::model::answer::{Answer, BenchRow};
use crate::model::draft::CorrectionChoice;
use crate::model::format;
use arcminute_core::acuity::written;
use arcminute_core::device::{BlurVerdict, FieldBasis, FocusReach, TelescopeOutcome};
use arcminute_core::predict::Reach;
use arcminute_core::unit::Length;

/// The prediction of the chosen telescope in one sentence.
#[must_use]
pub fn prediction_words(answer: &Answer) -> Option<String> {
    let (row, outcome) = answer.chosen_outcome()?;
    let prediction = &outcome.prediction;
    Some(format!(
        "With the {} the {} should read {}; repeats of the test would scatter from {} to {} (95 %).",
        row.device.marking(),
        answer.eye.label(),
        answer.acuity(prediction.with_aid),
        written(prediction.best, answer.scale),
        written(prediction.worst, answer.scale),
    ))
}

/// The facts of the telescope that is chosen.
#[must_use]
pub fn telescope_facts(answer: &Answer) -> Vec<Shown> {
    let Some((row, outcome)) = answer.chosen_outcome() else { return Vec::new() };
    let lenses = if row.device.length_mm.is_none() { "lens powers assumed behind the label" } else { "" };
    vec![
        Shown::new(
            "looked-in-use",
            "Power in use",
            format::times(outcome.in_use.size()),
            in_use_note(outcome),
        ),
        Shown::new("looked-field", "Real field", format::degrees(outcome.real_field), field_note(outcome)),
        Shown::new(
            "looked-exit-pupil",
            "Exit pupil",
            format::mm(outcome.afocal.exit_pupil),
            exit_pupil_note(outcome),
        ),
        Shown::new("looked-focus", "Nearest focus", nearest(row), "as listed"),
        Shown::new("looked-travel", "Tube change for this goal and eye", travel(outcome), lenses),
        Shown::new(
            "looked-ring",
            "Hidden ring, this eye",
            format!("{} wide", format::degrees(outcome.ring.width)),
            format!(
                "between {} and {} while looking through; the housing may add to it",
                format::degrees(outcome.ring.inner),
                format::degrees(outcome.ring.outer)
            ),
        ),
    ]
}

fn in_use_note(outcome: &TelescopeOutcome) -> String {
    let marked = format::times(outcome.afocal.magnification.size());
    match outcome.distance {
        Some(_) => format!("{marked} when set for far; against the person's own glasses at the same place"),
        None => format!("{marked} when set for far; against the person's own glasses"),
    }
}

fn field_note(outcome: &TelescopeOutcome) -> &'static str {
    match outcome.field_basis {
        FieldBasis::Marked => "full angle, as listed",
        FieldBasis::Computed => "full angle to half light, computed for this eye distance and pupil",
        FieldBasis::Assumed => "full angle to half light, from assumed lenses",
    }
}

fn exit_pupil_note(outcome: &TelescopeOutcome) -> String {
    let behind = outcome.afocal.exit_pupil_behind_eyepiece;
    if behind < Length::ZERO {
        format!("inside the tube, {} before the eyepiece", format::mm(-behind))
    } else {
        format!("{} behind the eyepiece", format::mm(behind))
    }
}

fn nearest(row: &BenchRow) -> String {
    row.device
        .near_focus_m
        .map_or("fixed for far".into(), |nearest| format::distance(Length::from_m(nearest)))
}

fn travel(outcome: &TelescopeOutcome) -> String {
    let travel = outcome.focused.travel;
    let way = if travel < Length::ZERO { "shorter" } else { "longer" };
    format!("{} {way}", format::mm(travel.abs()))
}

/// What to look at with the telescope that is chosen: each a sentence that says what to do.
#[must_use]
pub fn telescope_notes(answer: &Answer, correction: CorrectionChoice) -> Vec<String> {
    let Some((row, outcome)) = answer.chosen_outcome() else { return Vec::new() };
    let mut notes = Vec::new();
    match outcome.reach {
        FocusReach::InFocus => {}
        FocusReach::TooNear { demand } => notes.push(format!(
            "It does not focus as near as the goal: {} would be left to the eye. Choose one that focuses nearer, or move back.",
            format::dioptres(demand)
        )),
        FocusReach::FixedForFar { demand } => notes.push(format!(
            "It is fixed for far: at the goal's distance {} would be left to the eye, which blurs it for an eye that cannot focus. Choose a focusing one.",
            format::dioptres(demand)
        )),
    }
    if row.device.length_mm.is_none() {
        notes.push(
            "Only its label is known: its lenses are assumed, and with them the place of the exit pupil, the tube change, \
             the power in use and the ray picture."
                .into(),
        );
    }
    let refraction = &outcome.refraction;
    if refraction.cylinder_left.dioptres() > 1e-9 {
        notes.push(blur_note(outcome, correction));
    }
    if refraction.sphere_beyond_practice || refraction.cylinder_beyond_practice {
        notes.push("The refraction is beyond 12 D of sphere or 3 D of cylinder, where a lens in the eyepiece is considered (common practice, no source).".into());
    } else if outcome.prediction.reach >= Reach::Middle {
        notes.push("If the goal is met at the trial without a lens in the eyepiece, none is needed (common practice, no source).".into());
    }
    if outcome.light.share < 0.5 {
        notes.push(format!(
            "Less than half the light reaches the retina ({}). Try it in the light it will be used in, or choose a larger objective.",
            format::percent(outcome.light.share)
        ));
    }
    let wanted = answer.goal_answer().and_then(|goal| goal.width).zip(outcome.width_at_task);
    if let Some((wanted, width)) = wanted.filter(|(wanted, width)| width < wanted) {
        notes.push(format!(
            "{} is seen at once, {} is wanted: the head has to scan. A lower power shows more.",
            format::width(width),
            format::width(wanted)
        ));
    }
    if outcome.afocal.exit_pupil_behind_eyepiece < Length::ZERO && row.device.real_field_deg.is_none() {
        notes.push(
            "Its field grows as it comes nearer to the eye: set it as close as the lashes allow.".into(),
        );
    }
    notes
}

fn blur_note(outcome: &TelescopeOutcome, correction: CorrectionChoice) -> String {
    let refraction = &outcome.refraction;
    let cylinder = format!("{} D", format::decimals(refraction.cylinder_left.dioptres(), 2));
    if correction == CorrectionChoice::InEyepiece {
        return format!(
            "The cylinder ({cylinder} at the eyepiece) stands in the eyepiece and leaves no blur."
        );
    }
    let against = match refraction.verdict {
        BlurVerdict::Small => "less than half of it: it may stay",
        BlurVerdict::Nears => "between half of it and all of it: try it with and without",
        BlurVerdict::Exceeds => "as large or larger: put it in the eyepiece",
    };
    format!(
        "Focusing mends the mean sphere; a cylinder of {cylinder} stays. Its blur is {}, this eye's least detail {}: {against}.",
        format::arcmin(refraction.blur),
        format::arcmin(refraction.mar),
    )
}
