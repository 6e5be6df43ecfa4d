//! The delivery check: what came, against what was ordered, each with what it may be off by.

use super::rows::{BLANK, heading, lens, lens_of_sum, point, row, row_of, side, text, write};
use super::{BOTH_EYES, Block, Inputs, SheetKind, cautions, digest};
use crate::model::answer::FitAnswer;
use crate::model::draft::EyeChoice;
use crate::model::field::FieldId;
use crate::model::words::Where;
use crate::model::{format, shown};
use arcminute_core::delivery::{Delivery, Deviation, Limits, verify};
use arcminute_core::tolerance;
use arcminute_core::unit::{Angle, Vergence};

/// The numbers of a telescope's fit that can be measured on the finished spectacles, by their keys.
const OF_TELESCOPE: [&str; 6] = ["fit-x", "fit-y", "fit-tilt", "fit-toe-in", "fit-opening", "fit-web"];
/// Those of spectacles for near.
const OF_SPECTACLES: [&str; 2] = ["fit-centre", "fit-near-pd"];

pub(super) fn body(inputs: &Inputs<'_>) -> (String, Vec<Block>) {
    let mut blocks = vec![row("Order with the inputs", digest::of(SheetKind::Order, inputs))];
    let aid = inputs.fitted();
    blocks.push(row("Aid", aid.map_or(BLANK.into(), |aid| format!("{}, {}", aid.title(), inputs.eyes()))));
    // Spectacles for near may have a lens before one eye only.
    let has_lens = |eye: EyeChoice| match &inputs.answer.fit {
        FitAnswer::Near(done) => done.fit.lens(eye.eye()).is_some(),
        _ => true,
    };
    for eye in BOTH_EYES.into_iter().filter(|eye| has_lens(*eye)) {
        blocks.extend(lens_of(inputs, eye));
    }
    blocks.push(text(format!(
        "Limits: {} of ANSI Z80.1. The standard itself was not read, and a later one exists; a clinic may keep to its own.",
        tolerance::STANDING
    )));
    blocks.push(heading("Measure on the finished spectacles"));
    let made = to_measure(inputs);
    if made.is_empty() {
        blocks.push(row("Numbers of the fit", BLANK));
    } else {
        blocks.push(Block::Columns(["What", "Ordered", "As made"].map(Into::into).into()));
        blocks.extend(made);
    }
    blocks.push(text(
        "For these no limit was found in a source: agree on them with the workshop before you order.",
    ));
    blocks.push(heading("If something is outside"));
    for words in [
        "Measure again, on another day or by a second person.",
        "Send it back with this sheet. Do not hand it over.",
        "If it is handed over all the same, write down who decided it and why.",
        "Test acuity through it on the person in any case.",
    ] {
        blocks.push(Block::Step(words.into()));
    }
    blocks.extend([heading("To be signed"), write("Measured by, date"), write("Checked by a second person")]);
    let places = aid.map(|aid| aid.cautions()).unwrap_or_default();
    blocks.extend(cautions(&[&places[..], &[Where::Fit]].concat()));
    (format!("Delivery check, {}", inputs.eyes()), blocks)
}

/// The numbers to be measured, each with room for what is found; nothing while the fit is open.
fn to_measure(inputs: &Inputs<'_>) -> Vec<Block> {
    let answer = inputs.answer;
    let mut blocks = Vec::new();
    let mut measure = |what: String, ordered: String| blocks.push(row_of([what, ordered, String::new()]));
    let keys = if let FitAnswer::Near(_) = &answer.fit { &OF_SPECTACLES[..] } else { &OF_TELESCOPE[..] };
    for mark in shown::marks(&answer.fit) {
        let ends = ["-other", "-right", "-left"];
        let key = ends.iter().find_map(|end| mark.key.strip_suffix(end)).unwrap_or(&mark.key);
        if keys.contains(&key) {
            measure(mark.what, mark.value);
        }
    }
    if let FitAnswer::Done(done) = &answer.fit
        && let Some(height) = done.request.segment_height
    {
        measure("Segment height".into(), format::mm(height));
    }
    for eye in BOTH_EYES {
        if let Some(pd) = answer.eye_answer(eye).pd {
            measure(format!("PD, {}", side(eye)), format::mm(pd));
        }
    }
    blocks
}

/// One lens, item by item.
fn lens_of(inputs: &Inputs<'_>, eye: EyeChoice) -> Vec<Block> {
    let carrier = inputs.answer.order.carrier(eye);
    let mut blocks = vec![heading(format!("Lens, {} eye", side(eye)))];
    let Some(ordered) = &super::order::ordered(inputs, eye) else {
        blocks.push(row("Ordered", BLANK));
        return blocks;
    };
    let field = FieldId::of_eye(FieldId::Delivered, eye);
    let written = if carrier.typed.as_ref() == Some(ordered) { lens(ordered) } else { lens_of_sum(ordered) };
    let Some(measured) = &carrier.delivered else {
        blocks.push(row("Ordered", written));
        let trouble = inputs.answer.field(field).is_trouble();
        blocks.push(row("Measured", if trouble { BLANK } else { "" }));
        blocks.push(row("May be off by, either way", super::order::allowed(ordered)));
        return blocks;
    };
    blocks.push(row("Ordered", written));
    match verify(*ordered, *measured, Limits::of_summary(&ordered.refraction, ordered.add)) {
        Ok(delivery) => {
            let came = if delivery.measured == *measured {
                lens(measured)
            } else {
                format!("{}, which is {}", lens(measured), lens_of_sum(&delivery.measured))
            };
            blocks.push(row("Measured", came));
            blocks.extend(items(&delivery));
        }
        Err(error) => {
            blocks.push(row("Measured", lens(measured)));
            blocks.push(point(format!("{error}; {}", error.hint())));
        }
    }
    blocks
}

fn items(delivery: &Delivery) -> Vec<Block> {
    let mut blocks =
        vec![Block::Columns(["Item", "Off by", "May be off by", "Verdict"].map(Into::into).into())];
    let verdict = |within: bool| if within { "within" } else { "OUTSIDE" };
    let mut power = |what: &str, found: &Deviation<Vergence>| {
        let limit = format!("{} D", format::trimmed(found.limit.dioptres(), 2));
        blocks.push(row_of([
            what.to_owned(),
            format::dioptres(found.off),
            limit,
            verdict(found.within).into(),
        ]));
    };
    power("Sphere", &delivery.sphere);
    if delivery.ordered.refraction.cylinder != Vergence::ZERO
        || delivery.measured.refraction.cylinder != Vergence::ZERO
    {
        power("Sphere and cylinder", &delivery.other_meridian);
        power("Cylinder", &delivery.cylinder);
    }
    if let Some(add) = &delivery.add {
        power("Add", add);
    }
    if let Some(axis) = &delivery.axis {
        let degrees = |angle: Angle| format!("{}°", format::trimmed(angle.degrees(), 0));
        blocks.push(row_of([
            "Axis".into(),
            degrees(axis.off),
            degrees(axis.limit),
            verdict(axis.within).into(),
        ]));
    }
    blocks.push(row("This lens", verdict(delivery.all_within)));
    blocks
}
