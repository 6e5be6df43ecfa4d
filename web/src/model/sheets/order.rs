//! The order and fitting sheet.
//!
//! Each kind of fit has its own list of sections: [`body`] chooses. What is the same for all, lenses, frame, signatures,
//! stands in functions of its own; another kind of fit puts them together in its own way.

use super::rows::{
    BLANK, OPEN, heading, lens, lens_of_sum, optional, row, side, typed, typed_or_blank, typed_words, write,
};
use super::{BOTH_EYES, Block, Inputs, cautions, marks, rows};
use crate::model::answer::{Answer, FieldState, FitAnswer, Worn};
use crate::model::draft::{CarrierChoice, CorrectionChoice, EyeChoice, FellowChoice};
use crate::model::field::FieldId;
use crate::model::words::{self, Where};
use crate::model::{format, shown};
use arcminute_core::delivery::{Lens, Limits};
use arcminute_core::fit::{Fit, Severity, near_centres};
use arcminute_core::optics::Design;
use arcminute_core::tolerance;
use arcminute_core::unit::{Angle, Length, Vergence};

/// Title and content, by what is fitted. A new kind of fit gets a function like these two and a line here.
pub(super) fn body(inputs: &Inputs<'_>) -> (String, Vec<Block>) {
    let eyes = inputs.eyes();
    match inputs.worn() {
        Some(Worn::Spectacles(_)) => {
            (format!("Order and fitting sheet: spectacles for near, {eyes}"), spectacles(inputs))
        }
        Some(Worn::Telescope(_)) | None => {
            (format!("Order and fitting sheet: spectacle-mounted telescope, {eyes}"), telescope(inputs))
        }
    }
}

/// The sections of a telescope in a carrier lens.
fn telescope(inputs: &Inputs<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("Telescope")];
    blocks.extend(device(inputs));
    blocks.push(heading("Where it sits"));
    blocks.extend(place(inputs));
    blocks.extend(common(inputs));
    blocks.extend([heading("Front of the frame, true size, as the examiner sees it"), Block::Drawing]);
    blocks.extend(signatures(inputs));
    blocks.extend(cautions(&[Where::Telescope, Where::Fit, Where::Prediction]));
    blocks
}

/// The sections of spectacles for near.
fn spectacles(inputs: &Inputs<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("Spectacles for near")];
    blocks.push(row("Made for", inputs.eyes()));
    match inputs.fitted() {
        None => blocks.push(row("Spectacles", BLANK)),
        Some(aid) => {
            blocks.push(row("Spectacles", format!("{} ({})", aid.title(), listed(inputs, &aid.id))));
            blocks.push(row("How they are worn", aid.how()));
        }
    }
    if let Some(Worn::Spectacles(worn)) = inputs.worn() {
        blocks.push(row("Power for near", format::dioptres(worn.power)));
    }
    let base_in = inputs.answer.order.base_in.map(|prism| format::decimals(prism.prism_dioptres(), 1));
    blocks.push(row(
        "Base-in prism worked on each lens",
        base_in.map_or(BLANK.into(), |text| format!("{text} prism dioptres")),
    ));
    blocks.push(heading("Where the lenses are centred"));
    if inputs.answer.fit.verdict().is_none() {
        blocks.push(row("Place of the optical centres", BLANK));
    }
    blocks.extend(marks(inputs.answer));
    blocks.extend(common(inputs));
    blocks.extend([heading("Front of the frame, true size, as the examiner sees it"), Block::Drawing]);
    blocks.extend(signatures(inputs));
    let places = inputs.fitted().map(|aid| aid.cautions()).unwrap_or_default();
    blocks.extend(cautions(&[&places[..], &[Where::Fit, Where::Prediction]].concat()));
    blocks
}

/// What is the same for all that is worn in a frame.
fn common(inputs: &Inputs<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("Lenses")];
    blocks.extend(lenses(inputs));
    blocks.push(heading("Measured and predicted"));
    blocks.extend(measured(inputs));
    blocks.push(heading("Face and frame"));
    blocks.extend(frame(inputs));
    blocks
}

/// Why it must not be ordered as it stands; nothing when it may.
pub(super) fn refused(answer: &Answer) -> Option<String> {
    match &answer.fit {
        FitAnswer::Waiting(_) => {
            Some("the fit is not decided: boxes on Fit are not filled in or cannot be used".into())
        }
        FitAnswer::Impossible(error) => Some(error.to_string()),
        fit if fit.verdict() == Some(Fit::Refused) => {
            let refused = shown::checks(fit).into_iter().filter(|check| check.severity == Severity::Refuse);
            let reasons: Vec<String> =
                refused.map(|check| format!("{} {}", check.title, check.sentence)).collect();
            Some(reasons.join("; "))
        }
        _ => None,
    }
}

/// What to look at again before ordering.
pub(super) fn warnings(answer: &Answer) -> Vec<String> {
    let warned = shown::checks(&answer.fit).into_iter().filter(|check| check.severity == Severity::Warning);
    warned
        .map(|check| {
            let ways = check.ways.join("; or ");
            // The heading of the list says common practice once for all that rest on it.
            let named = Some(check.basis).filter(|basis| *basis != words::PRACTICE_BASIS);
            let found = Some(check.sentence.as_str()).filter(|sentence| !sentence.is_empty());
            let said: Vec<&str> = found.into_iter().chain(named).collect();
            let sentence = if said.is_empty() { String::new() } else { format!(" ({})", said.join("; ")) };
            format!("{}{sentence}: {ways}", check.title)
        })
        .collect()
}

/// Which list an aid is from.
fn listed(inputs: &Inputs<'_>, id: &str) -> String {
    let list = inputs.list_name;
    let list =
        if list.is_empty() { "invented demonstration list".to_owned() } else { rows::clipped(list, 60) };
    format!("{list}, {}", rows::clipped(id, 60))
}

fn device(inputs: &Inputs<'_>) -> Vec<Block> {
    let (draft, answer) = (inputs.draft, inputs.answer);
    let mut blocks = vec![row("Eye that looks through it", inputs.eyes())];
    match inputs.worn() {
        Some(Worn::Telescope(device)) => {
            let name = format!("{}, {} ({})", device.marking(), device.name, listed(inputs, &device.id));
            let kind = if device.design == Design::Keplerian { "Keplerian" } else { "Galilean" };
            let objective = format::trimmed(device.objective_mm, 1);
            blocks.push(row("Telescope", name));
            blocks.push(row(
                "Class, magnification, objective",
                format!("{kind}, {}, {objective} mm", format::times(device.power_times)),
            ));
            if let Some((_, outcome)) = answer.chosen_outcome().filter(|(row, _)| row.device.id == device.id)
            {
                blocks.push(row("Real field, full angle", format::degrees(outcome.real_field)));
                blocks.push(row("Exit pupil", format::mm(outcome.afocal.exit_pupil)));
            } else if let Ok(telescope) = device.telescope() {
                blocks.push(row("Exit pupil", format::mm(telescope.afocal().exit_pupil)));
            }
            let nearest = |near: f64| format!("from {} to far", format::distance(Length::from_m(near)));
            blocks.push(row("Focus range", device.near_focus_m.map_or("fixed for far".into(), nearest)));
            let (barrel, weight) =
                (format::trimmed(device.barrel_mm, 1), format::trimmed(device.weight_g, 0));
            blocks.push(row("Barrel at the lens, weight", format!("{barrel} mm, {weight} g")));
        }
        _ => blocks.push(row("Telescope", BLANK)),
    }
    let correction = match draft.bench.correction {
        CorrectionChoice::ByFocusing => "none; focused out with the tube".to_owned(),
        CorrectionChoice::InEyepiece => eyepiece_power(answer),
    };
    blocks.push(row("Correction in the eyepiece", correction));
    let cap = match (answer.order.cap, answer.field(FieldId::Cap).is_trouble()) {
        (_, true) => BLANK.into(),
        (Some(cap), _) => format!("{} over the objective", format::dioptres(cap)),
        (None, _) => "none".into(),
    };
    blocks.push(row("Cap for near", cap));
    blocks
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

fn place(inputs: &Inputs<'_>) -> Vec<Block> {
    let FitAnswer::Done(done) = &inputs.answer.fit else { return vec![row("Place of the eyepiece", BLANK)] };
    let mut blocks = vec![row("Rule for the height", words::placement(done.request.rule))];
    blocks.extend(marks(inputs.answer));
    if done.mounting.toe_in == Angle::ZERO {
        blocks.push(row("Turned in", "no: set for far"));
    }
    blocks
}

/// A lens as ordered: what was typed, and what it is in the plane in which it is worn.
fn prescription(inputs: &Inputs<'_>, eye: EyeChoice) -> String {
    let carrier = inputs.answer.order.carrier(eye);
    let (Some(typed), Some(ordered)) = (&carrier.typed, &carrier.ordered) else { return BLANK.into() };
    let written = if carrier.is_assumed { "plano (no refraction entered)".to_owned() } else { lens(typed) };
    if carrier.towards_eye == Length::ZERO || typed == ordered {
        return written;
    }
    let where_to = if carrier.towards_eye < Length::ZERO { "farther from" } else { "nearer to" };
    let moved = lens_of_sum(ordered);
    format!(
        "{moved} as worn, {} {where_to} the eye; {written} at the refraction",
        format::mm(carrier.towards_eye.abs())
    )
}

/// The lens that is ordered for an eye: of spectacles for near what the fit gives, else the carrier.
pub(super) fn ordered(inputs: &Inputs<'_>, eye: EyeChoice) -> Option<Lens> {
    match &inputs.answer.fit {
        FitAnswer::Near(done) => {
            let lens = done.fit.lens(eye.eye())?;
            Some(Lens { refraction: lens.moved.worn, add: None })
        }
        _ => inputs.answer.order.carrier(eye).ordered,
    }
}

/// What a lens may be off, by the summary of the standard.
pub(super) fn allowed(lens: &Lens) -> String {
    let limits = Limits::of_summary(&lens.refraction, lens.add);
    let d = |value: f64| format::trimmed(value, 2);
    let mut said = format!("sphere {} D", d(limits.sphere.dioptres()));
    if lens.refraction.axis.is_some() {
        let (cylinder, axis) = (d(limits.cylinder.dioptres()), d(limits.axis.degrees()));
        said.push_str(&format!(", cylinder {cylinder} D, axis {axis}°"));
    }
    if lens.add.is_some() {
        said.push_str(&format!(", add {} D", d(limits.add.dioptres())));
    }
    said
}

fn lenses(inputs: &Inputs<'_>) -> Vec<Block> {
    let (draft, answer) = (inputs.draft, inputs.answer);
    let near = matches!(inputs.worn(), Some(Worn::Spectacles(_)));
    let mut blocks = Vec::new();
    if near {
        for eye in BOTH_EYES {
            let Some(lens) = ordered(inputs, eye) else { continue };
            blocks.push(row(
                format!("Lens for near, {}", side(eye)),
                format!("{} as worn", lens_of_sum(&lens)),
            ));
        }
        // Not used for these, but what cannot be read is not passed over in silence.
        for eye in BOTH_EYES {
            if answer.field(FieldId::of_eye(FieldId::CarrierRx, eye)).is_trouble() {
                blocks.push(row(format!("Carrier prescription, {}", side(eye)), BLANK));
            }
        }
    } else {
        blocks.push(row("Carrier lens", draft.fit.carrier.label()));
        for eye in BOTH_EYES {
            blocks.push(row(format!("Carrier prescription, {}", side(eye)), prescription(inputs, eye)));
        }
    }
    if !near && matches!(draft.fit.carrier, CarrierChoice::Bifocal | CarrierChoice::Trifocal) {
        blocks
            .push(row("Segment top above the lowest point", typed_or_blank(answer, FieldId::SegmentHeight)));
        let or_open = |field| typed(answer, field).unwrap_or_else(|| OPEN.into());
        let (width, inset) = (or_open(FieldId::SegmentWidth), or_open(FieldId::SegmentInset));
        if width == OPEN && inset == OPEN {
            blocks.push(row("Segment width, inset from the pupil", OPEN));
        } else {
            blocks.push(row("Segment width", width));
            blocks.push(row("Segment inset from the pupil", inset));
        }
    }
    blocks.extend(typed_words("Lens material, tint, coating", &draft.order.lens, OPEN));
    if !draft.fit.both_eyes || draft.order.fellow != FellowChoice::AsWorn {
        blocks.push(row(format!("Other eye ({})", answer.eye.other().label()), draft.order.fellow.label()));
    }
    blocks.push(row("Filter", draft.order.filter.label()));
    let wanted = [(draft.order.large_nose_pads, "large nose pads"), (draft.order.head_strap, "head strap")];
    let extras: Vec<&str> = wanted.into_iter().filter(|(is, _)| *is).map(|(_, what)| what).collect();
    blocks.push(row("Extras", if extras.is_empty() { "none".into() } else { extras.join(", ") }));
    let lenses = BOTH_EYES.into_iter().filter_map(|eye| Some((eye, ordered(inputs, eye)?)));
    let limits: Vec<String> =
        lenses.map(|(eye, lens)| format!("{}: {}", side(eye), allowed(&lens))).collect();
    if !limits.is_empty() {
        let (limits, standing) = (limits.join("; "), tolerance::STANDING);
        blocks.push(row("May be off by, either way", format!("{limits} ({standing} of ANSI Z80.1)")));
    }
    blocks.extend(typed_words("Notes", &draft.order.notes, "none"));
    blocks
}

fn measured(inputs: &Inputs<'_>) -> Vec<Block> {
    let answer = inputs.answer;
    let mut blocks: Vec<Block> = BOTH_EYES
        .into_iter()
        .map(|eye| {
            let what = format!("Best corrected acuity, {}", side(eye));
            row(what, rows::acuity(answer, eye, "not entered"))
        })
        .collect();
    if let Some((goal, demand)) = answer.goal_answer().and_then(|goal| Some((goal, goal.demand?))) {
        blocks.push(row(
            "Goal",
            format!("{}: {}", rows::clipped(&goal.name, 120), answer.acuity(demand.to_reach)),
        ));
    }
    // The same record that Bench shows of it, so that paper and screen cannot differ.
    if let Some(looked) = inputs.look_served(inputs.fitted()) {
        blocks.push(row("Prediction", predicted(answer, &looked)));
        if let Some(seen) = looked.seen() {
            blocks.push(row("Chance of the goal at a test", format::chance(seen.outcome.prediction.chance)));
        }
    }
    blocks
}

/// What would just be read, without the name of the aid and of the goal, which stand beside it.
pub(super) fn predicted(answer: &Answer, looked: &crate::model::compared::LookedAt) -> String {
    let facts = shown::looked_facts(answer, looked);
    match facts.into_iter().find(|fact| fact.key == "looked-reads") {
        Some(fact) => format!("would just read {}; {} (95 %)", fact.value, fact.note),
        None => shown::looked_words(looked),
    }
}

fn frame(inputs: &Inputs<'_>) -> Vec<Block> {
    let (draft, answer) = (inputs.draft, inputs.answer);
    let pair = |right: Option<Length>, left: Option<Length>| match (right, left) {
        (None, None) => BLANK.into(),
        _ => format!("RIGHT {}, LEFT {}", optional(right), optional(left)),
    };
    let diameter = typed(answer, FieldId::EffectiveDiameter);
    let worn = typed(answer, FieldId::WornVertex);
    let worn_vertex = match worn {
        _ if answer.field(FieldId::WornVertex).is_trouble() => BLANK.into(),
        Some(worn) => worn,
        None => typed_or_blank(answer, FieldId::Vertex),
    };
    let mut blocks = vec![
        row("Box width A", typed_or_blank(answer, FieldId::BoxWidth)),
        row("Box height B", typed_or_blank(answer, FieldId::BoxHeight)),
        row("Bridge DBL", typed_or_blank(answer, FieldId::Bridge)),
        row("Effective diameter ED", diameter.unwrap_or_else(|| "corners rounded by 8 mm (assumed)".into())),
        row("Pantoscopic angle", typed_or_blank(answer, FieldId::Pantoscopic)),
        row("Face form angle", typed_or_blank(answer, FieldId::FaceForm)),
        row("Vertex distance, worn", worn_vertex),
        row("Cornea to centre of rotation", typed_or_blank(answer, FieldId::RotationDepth)),
        row("PD, far, from the middle of the bridge", pair(answer.right.pd, answer.left.pd)),
    ];
    blocks.extend(near_pd(inputs));
    let eyes = if draft.fit.both_eyes { &BOTH_EYES[..] } else { &[answer.eye][..] };
    for eye in eyes {
        let height = answer.eye_answer(*eye).pupil_height;
        blocks.push(row(format!("Pupil height, {}", eye.label()), optional(height)));
    }
    blocks.extend(typed_words("Frame: shape, colour, sides", &draft.order.frame, OPEN));
    blocks
}

/// The PDs for near, where the distance is known.
fn near_pd(inputs: &Inputs<'_>) -> Option<Block> {
    let answer = inputs.answer;
    let distance = answer.order.from_lens?;
    let FitAnswer::Done(done) = &answer.fit else { return None };
    let stop = done.mounting.stop_distance;
    let (right, left) = (answer.right.pd?, answer.left.pd?);
    let centres = near_centres(right + left, distance, stop, Vergence::ZERO).ok()?;
    // Both lines of sight turn in by the same rule, each from its own side.
    let near = |pd: Length| format::mm(pd * (centres.near_pd / centres.pd));
    let from = format::distance(distance);
    Some(row("PD, near", format!("RIGHT {}, LEFT {} for {from} from the lens", near(right), near(left))))
}

fn signatures(inputs: &Inputs<'_>) -> Vec<Block> {
    vec![
        heading("To be signed"),
        write(format!("Made for the {}, confirmed against the record by", inputs.eyes())),
        write("Ordered by, licence number, date"),
        write("Checked by a second person"),
    ]
}
