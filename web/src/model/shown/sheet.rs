//! The order and fitting sheet, as it goes on paper.

use crate::model::answer::{Answer, EyeAnswer, FieldState, FitAnswer};
use crate::model::draft::{CarrierChoice, CorrectionChoice, Draft, EyeChoice};
use crate::model::field::FieldId;
use crate::model::{case_file, format, shown, words};
use arcminute_core::acuity::Reading;
use arcminute_core::fit::{Fit, Severity};
use arcminute_core::unit::Length;
use sha2::{Digest, Sha256};

/// A group of lines on the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetSection {
    /// Its heading.
    pub title: &'static str,
    /// What and value.
    pub rows: Vec<(String, String)>,
}

/// The sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Which eye, in words.
    pub eye: &'static str,
    /// Case label; says so when there is none.
    pub label: String,
    /// Short digest of everything typed and chosen.
    pub digest: String,
    /// Groups of lines of the first page.
    pub first: Vec<SheetSection>,
    /// Groups of lines beside the drawing, on the second.
    pub second: Vec<SheetSection>,
    /// What is not filled in.
    pub blanks: Vec<String>,
    /// Why it must not be ordered as it stands, if so.
    pub refused: Option<String>,
    /// What to look at again before ordering.
    pub warnings: Vec<String>,
}

/// Stands where nothing was entered.
const BLANK: &str = "not filled in";

/// The sheet of a case.
#[must_use]
pub fn sheet(draft: &Draft, answer: &Answer) -> Sheet {
    let first = vec![
        SheetSection { title: "Telescope", rows: telescope(draft, answer) },
        SheetSection { title: "Where it sits", rows: place(answer) },
        SheetSection { title: "Lenses", rows: lenses(draft, answer) },
        SheetSection { title: "Measured and predicted", rows: measured(answer) },
    ];
    let second = vec![SheetSection { title: "Face and frame", rows: frame(draft, answer) }];
    let blanks = first
        .iter()
        .chain(&second)
        .flat_map(|section| &section.rows)
        .filter(|(_, value)| value == BLANK)
        .map(|(what, _)| what.clone())
        .collect();
    let checks = shown::checks(&answer.fit);
    let warnings = checks
        .iter()
        .filter(|check| check.severity == Severity::Warning)
        .map(|check| {
            let ways = check.ways.join("; or ");
            // The heading of the list says common practice once for all that rest on it.
            let named = Some(check.basis).filter(|basis| *basis != words::PRACTICE_BASIS);
            let found = Some(check.sentence.as_str()).filter(|sentence| !sentence.is_empty());
            let said: Vec<&str> = found.into_iter().chain(named).collect();
            let sentence = if said.is_empty() { String::new() } else { format!(" ({})", said.join("; ")) };
            format!("{}{sentence}: {ways}", check.title)
        })
        .collect();
    Sheet {
        eye: answer.eye.label(),
        label: if draft.label.trim().is_empty() { BLANK.into() } else { draft.label.trim().into() },
        digest: digest(draft),
        first,
        second,
        blanks,
        refused: refused(answer),
        warnings,
    }
}

/// Eight hexadecimal digits that change when anything typed or chosen changes.
fn digest(draft: &Draft) -> String {
    let bytes = Sha256::digest(case_file::write("", draft).as_bytes());
    bytes.iter().take(4).map(|byte| format!("{byte:02x}")).collect()
}

fn refused(answer: &Answer) -> Option<String> {
    match &answer.fit {
        FitAnswer::Waiting(_) => {
            Some("the fit is not decided: boxes on Fit are not filled in or cannot be used".into())
        }
        FitAnswer::Impossible(error) => Some(error.to_string()),
        FitAnswer::Done(done) if done.verdict == Fit::Refused => {
            let checks = shown::checks(&answer.fit);
            let reasons: Vec<String> = checks
                .iter()
                .filter(|check| check.severity == Severity::Refuse)
                .map(|check| format!("{} {}", check.title, check.sentence))
                .collect();
            Some(reasons.join("; "))
        }
        FitAnswer::Done(_) => None,
    }
}

fn line(what: impl Into<String>, value: impl Into<String>) -> (String, String) {
    (what.into(), value.into())
}

fn optional(value: Option<Length>) -> String {
    value.map_or(BLANK.into(), format::mm)
}

fn telescope(draft: &Draft, answer: &Answer) -> Vec<(String, String)> {
    let mut rows = vec![line("Eye that looks through it", answer.eye.label())];
    match answer.chosen_row() {
        None => rows.push(line("Telescope", BLANK)),
        Some(row) => {
            let device = &row.device;
            rows.push(line(
                "Telescope",
                format!("{}, {} (invented demonstration list, {})", device.marking(), device.name, device.id),
            ));
            rows.push(line(
                "Power and objective",
                format!(
                    "{}, {} mm",
                    format::times(device.power_times),
                    format::trimmed(device.objective_mm, 1)
                ),
            ));
            if let Ok(outcome) = &row.outcome {
                rows.push(line("Real field, full angle", format::degrees(outcome.real_field)));
                rows.push(line("Exit pupil", format::mm(outcome.afocal.exit_pupil)));
            }
            let nearest = device
                .near_focus_m
                .map_or("fixed for far".into(), |near| format::distance(Length::from_m(near)));
            rows.push(line("Nearest focus", nearest));
            rows.push(line(
                "Barrel at the lens, weight",
                format!(
                    "{} mm, {} g",
                    format::trimmed(device.barrel_mm, 1),
                    format::trimmed(device.weight_g, 0)
                ),
            ));
        }
    }
    let correction = match draft.bench.correction {
        CorrectionChoice::ByFocusing => "none; focused out with the tube".to_owned(),
        CorrectionChoice::InEyepiece => eyepiece_power(answer),
    };
    rows.push(line("Correction in the eyepiece", correction));
    rows
}

fn eyepiece_power(answer: &Answer) -> String {
    let Some((_, outcome)) = answer.chosen_outcome() else {
        return BLANK.into();
    };
    let refraction = &outcome.refraction;
    let (one, other) = (refraction.first.ametropia, refraction.second.ametropia);
    let as_typed = match answer.field(FieldId::of_eye(FieldId::Refraction, answer.eye)) {
        FieldState::Understood { echo, .. } => echo,
        _ => return "none".into(),
    };
    format!(
        "{as_typed} at the spectacle plane; meridians {} and {} at the eyepiece",
        format::dioptres(one),
        format::dioptres(other)
    )
}

fn place(answer: &Answer) -> Vec<(String, String)> {
    let FitAnswer::Done(done) = &answer.fit else { return vec![line("Place of the eyepiece", BLANK)] };
    let mut rows = vec![line("Rule for the height", words::placement(done.request.rule))];
    rows.extend(shown::marks(&answer.fit).into_iter().map(|mark| {
        let note = if mark.note.is_empty() { String::new() } else { format!(" ({})", mark.note) };
        line(mark.what, format!("{}{note}", mark.value))
    }));
    rows
}

fn frame(draft: &Draft, answer: &Answer) -> Vec<(String, String)> {
    let typed = |field: FieldId| match answer.field(field) {
        FieldState::Understood { echo, .. } => echo,
        FieldState::Empty { assumed: Some(assumed) } => format!("{assumed} (assumed)"),
        _ => BLANK.into(),
    };
    let pair = |right: Option<Length>, left: Option<Length>| match (right, left) {
        (None, None) => BLANK.into(),
        _ => format!("RIGHT {}, LEFT {}", optional(right), optional(left)),
    };
    let diameter = match typed(FieldId::EffectiveDiameter) {
        blank if blank == BLANK => "corners rounded by 8 mm (assumed)".into(),
        diameter => diameter,
    };
    let mut rows = vec![
        line("Box width A", typed(FieldId::BoxWidth)),
        line("Box height B", typed(FieldId::BoxHeight)),
        line("Bridge DBL", typed(FieldId::Bridge)),
        line("Effective diameter ED", diameter),
        line("Pantoscopic angle", typed(FieldId::Pantoscopic)),
        line("Vertex distance", typed(FieldId::Vertex)),
        line("Cornea to centre of rotation", typed(FieldId::RotationDepth)),
        line("PD, far, each from the middle of the bridge", pair(answer.right.pd, answer.left.pd)),
    ];
    let height = answer.viewing().pupil_height;
    rows.push(line(format!("Pupil height, {}", draft.bench.eye.label()), optional(height)));
    rows
}

fn lenses(draft: &Draft, answer: &Answer) -> Vec<(String, String)> {
    // What cannot be used is not replaced by something else: it is a blank, and the sheet is void until it is mended.
    let prescription = |eye: EyeChoice| {
        let state = |field| answer.field(FieldId::of_eye(field, eye));
        match (state(FieldId::CarrierRx), state(FieldId::Refraction)) {
            (FieldState::Understood { echo, .. }, _) => echo,
            (carrier, _) if carrier.is_trouble() => BLANK.into(),
            // The refraction's add belongs in a lens that has a place for it.
            (_, FieldState::Understood { echo, .. }) if draft.fit.carrier == CarrierChoice::SingleVision => {
                echo.split(" add ").next().unwrap_or_default().to_owned()
            }
            (_, FieldState::Understood { echo, .. }) => echo,
            (_, refraction) if refraction.is_trouble() => BLANK.into(),
            _ => "plano (no refraction entered)".into(),
        }
    };
    let segment = match (draft.fit.carrier, &answer.fit) {
        (CarrierChoice::Bifocal | CarrierChoice::Trifocal, FitAnswer::Done(done)) => {
            format!(
                ", segment top {} above the lowest point of the lens",
                optional(done.request.segment_height)
            )
        }
        _ => String::new(),
    };
    let mut extras = Vec::new();
    if draft.order.large_nose_pads {
        extras.push("large nose pads");
    }
    if draft.order.head_strap {
        extras.push("head strap");
    }
    let notes = draft.order.notes.trim();
    vec![
        line("Carrier lens", format!("{}{segment}", draft.fit.carrier.label())),
        line("Carrier prescription, RIGHT", prescription(EyeChoice::Right)),
        line("Carrier prescription, LEFT", prescription(EyeChoice::Left)),
        line(format!("Other eye ({})", answer.eye.other().label()), draft.order.fellow.label()),
        line("Filter", draft.order.filter.label()),
        line("Extras", if extras.is_empty() { "none".into() } else { extras.join(", ") }),
        line("Notes", if notes.is_empty() { "none" } else { notes }),
    ]
}

fn measured(answer: &Answer) -> Vec<(String, String)> {
    let acuity = |choice: EyeChoice, eye: &EyeAnswer| match &eye.acuity {
        Some(Reading::Measured(acuity)) => {
            format!("{} (logMAR {})", acuity.notation, format::decimals(acuity.log_mar.log(), 2))
        }
        Some(Reading::Category(category)) => category.to_string(),
        None if answer.field(FieldId::of_eye(FieldId::Acuity, choice)).is_trouble() => BLANK.into(),
        None => "not entered".into(),
    };
    let mut rows = vec![
        line("Best corrected acuity, RIGHT", acuity(EyeChoice::Right, &answer.right)),
        line("Best corrected acuity, LEFT", acuity(EyeChoice::Left, &answer.left)),
    ];
    if let Some((goal, demand)) = answer.goal_answer().and_then(|goal| Some((goal, goal.demand?))) {
        rows.push(line("Goal", format!("{}: {}", goal.name, answer.acuity(demand.to_reach))));
    }
    if let Some(prediction) = shown::prediction_words(answer) {
        rows.push(line("Prediction", prediction));
    }
    if let Some((_, outcome)) = answer.chosen_outcome() {
        rows.push(line("Chance of the goal at a test", format::chance(outcome.prediction.chance)));
    }
    rows.push(line("Acuity reached at the trial", "______________  (to be measured with the telescope)"));
    rows
}
