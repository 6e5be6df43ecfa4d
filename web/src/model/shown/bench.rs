//! Telescopes compared, and the chosen one in full.

use super::Shown;
use crate::model::answer::{Answer, BenchRow};
use crate::model::draft::CorrectionChoice;
use crate::model::{format, words};
use arcminute_core::acuity::{Scale, written};
use arcminute_core::device::{BlurVerdict, FieldBasis, FocusReach, TelescopeOutcome};
use arcminute_core::predict::{Prediction, Reach};
use arcminute_core::unit::Length;

/// One telescope of the comparison.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Key in the list.
    pub id: &'static str,
    /// `4x12`.
    pub marking: String,
    /// What the list calls it.
    pub name: String,
    /// Acuity predicted.
    pub acuity: String,
    /// Its band.
    pub band: String,
    /// Chance of the goal.
    pub chance: String,
    /// How much of the band reaches.
    pub reach: &'static str,
    /// Real field.
    pub field: String,
    /// Width at the goal, if it has a distance.
    pub width: String,
    /// Light against the bare eye.
    pub light: String,
    /// Whether it can be focused for the goal.
    pub focus: String,
    /// Whether it is the lowest power that does it.
    pub lowest: bool,
    /// Why there is nothing to show, if so.
    pub trouble: Option<String>,
}

/// A telescope as a row.
#[must_use]
pub fn row(answer: &Answer, index: usize) -> Option<Row> {
    let row = answer.bench.get(index)?;
    let blank = Row {
        id: &row.device.id,
        marking: row.device.marking(),
        name: row.device.name.clone(),
        acuity: String::new(),
        band: String::new(),
        chance: String::new(),
        reach: "",
        field: String::new(),
        width: String::new(),
        light: String::new(),
        focus: String::new(),
        lowest: answer.lowest == Some(index),
        trouble: None,
    };
    Some(match &row.outcome {
        Err(error) => Row { trouble: Some(format!("{error}; {}", error.hint())), ..blank },
        Ok(outcome) => {
            let prediction = &outcome.prediction;
            Row {
                acuity: written(prediction.with_aid, answer.scale).to_string(),
                band: band(prediction, answer.scale),
                chance: format::chance(prediction.chance),
                reach: words::reach_short(prediction.reach),
                field: format::degrees(outcome.real_field),
                width: outcome
                    .width_at_task
                    .map(|width| format!("{} at the goal", format::width(width)))
                    .unwrap_or_default(),
                light: format::percent(outcome.light.share),
                focus: focus(row, outcome),
                ..blank
            }
        }
    })
}

fn band(prediction: &Prediction, scale: Scale) -> String {
    format!("{} to {}", written(prediction.best, scale), written(prediction.worst, scale))
}

fn focus(row: &BenchRow, outcome: &TelescopeOutcome) -> String {
    let nearest = row.device.near_focus_m.map(|nearest| format::distance(Length::from_m(nearest)));
    match (outcome.reach, nearest) {
        (FocusReach::InFocus, Some(nearest)) => nearest,
        (FocusReach::InFocus, None) => "fixed for far".into(),
        (FocusReach::TooNear { demand }, Some(nearest)) => {
            format!("only to {nearest}; {} left to the eye", format::dioptres(demand))
        }
        (FocusReach::TooNear { demand } | FocusReach::FixedForFar { demand }, _) => {
            format!("fixed for far; {} left to the eye", format::dioptres(demand))
        }
    }
}

/// Whether a telescope is worth showing at once: the lowest powers that do it, one that falls just short, the chosen one.
/// When none does it, the strongest ones.
#[must_use]
pub fn near(answer: &Answer, index: usize) -> bool {
    /// How many are shown from the lowest that does it.
    const SHOWN: usize = 4;
    let first = match answer.lowest {
        Some(lowest) => lowest.saturating_sub(1),
        None => answer.bench.len().saturating_sub(SHOWN),
    };
    answer.chosen == Some(index) || (first <= index && index <= first + SHOWN)
}

/// The prediction of the chosen telescope in one sentence.
#[must_use]
pub fn prediction_words(answer: &Answer) -> Option<String> {
    let (row, outcome) = answer.chosen_outcome()?;
    let prediction = &outcome.prediction;
    Some(format!(
        "With the {} the {} should read {}; repeats of the test would scatter from {} (95 %).",
        row.device.marking(),
        answer.eye.label(),
        answer.acuity(prediction.with_aid),
        band(prediction, answer.scale),
    ))
}

/// The chosen telescope's facts.
#[must_use]
pub fn chosen_facts(answer: &Answer) -> Vec<Shown> {
    let Some((row, outcome)) = answer.chosen_outcome() else { return Vec::new() };
    let prediction = &outcome.prediction;
    let lenses = if row.device.length_mm.is_none() { "lens powers assumed behind the label" } else { "" };
    let mut facts = vec![
        Shown::new(
            "chosen-acuity",
            "Acuity predicted",
            answer.acuity(prediction.with_aid),
            format!("band {}", band(prediction, answer.scale)),
        ),
        Shown::new(
            "chosen-chance",
            "Chance of the goal",
            format::chance(prediction.chance),
            words::reach_words(prediction.reach),
        ),
        Shown::new(
            "chosen-in-use",
            "Power in use",
            format::times(outcome.in_use.size()),
            in_use_note(outcome),
        ),
        Shown::new("chosen-field", "Real field", format::degrees(outcome.real_field), field_note(outcome)),
    ];
    if let Some(width) = outcome.width_at_task {
        facts.push(Shown::new(
            "chosen-width",
            "Seen at once at the goal",
            format::width(width),
            width_note(answer, width),
        ));
    }
    facts.extend([
        Shown::new(
            "chosen-exit-pupil",
            "Exit pupil",
            format::mm(outcome.afocal.exit_pupil),
            exit_pupil_note(outcome),
        ),
        Shown::new(
            "chosen-light",
            "Light against the bare eye",
            format::percent(outcome.light.share),
            format!(
                "pupil {}, glass lets through {}",
                format::mm(outcome.light.pupil),
                format::percent(outcome.light.transmittance)
            ),
        ),
        Shown::new("chosen-focus", "Nearest focus", nearest(row), "as listed"),
        Shown::new("chosen-travel", "Tube change for this goal and eye", travel(outcome), lenses),
        Shown::new(
            "chosen-ring",
            "Hidden ring, this eye",
            format!("{} wide", format::degrees(outcome.ring.width)),
            format!(
                "between {} and {} while looking through; the housing may add to it",
                format::degrees(outcome.ring.inner),
                format::degrees(outcome.ring.outer)
            ),
        ),
        Shown::new(
            "chosen-weight",
            "Weight",
            format!("{} g", format::trimmed(row.device.weight_g, 0)),
            "as listed",
        ),
    ]);
    facts
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

fn width_note(answer: &Answer, width: Length) -> String {
    match answer.goal_answer().and_then(|goal| goal.width) {
        Some(wanted) if wanted <= width => format!("all of the {} wanted", format::width(wanted)),
        Some(wanted) => {
            format!("{} of the {} wanted", format::percent(width / wanted), format::width(wanted))
        }
        None => String::new(),
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

/// What to look at with the chosen telescope: each a sentence that says what to do.
#[must_use]
pub fn chosen_notes(answer: &Answer, correction: CorrectionChoice) -> Vec<String> {
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

/// What one step more or less in power would do.
#[must_use]
pub fn step_words(answer: &Answer, index: Option<usize>, more: bool) -> Option<String> {
    let (_, here) = answer.chosen_outcome()?;
    let row = answer.bench.get(index?)?;
    let there = row.outcome.as_ref().ok()?;
    let direction = if more { "One step more" } else { "One step less" };
    let field = there.real_field / here.real_field;
    Some(format!(
        "{direction}, {}: {} (chance {}), field {} instead of {} ({} of it), light {} instead of {}.",
        row.device.marking(),
        answer.acuity(there.prediction.with_aid),
        format::chance(there.prediction.chance),
        format::degrees(there.real_field),
        format::degrees(here.real_field),
        format::percent(field),
        format::percent(there.light.share),
        format::percent(here.light.share),
    ))
}
