//! The rays in words.

use super::super::scale::{length_words, number};
use super::RaysInput;
use super::path::{Course, OpeningAt};
use arcminute_core::unit::{Length, Vergence};

fn mm(value: f64) -> String {
    format!("{} mm", number(value, 1))
}

fn dioptres(power: Vergence) -> String {
    let sign = if 0.0 < power.dioptres() { "+" } else { "" };
    format!("{sign}{} D", number(power.dioptres(), 1))
}

/// Where a thing stands seen from the last lens.
fn beside(place: f64, eyepiece: f64, name: &str) -> String {
    let behind = place - eyepiece;
    let side = if behind < 0.0 { "before" } else { "behind" };
    format!("{} {side} {name}", mm(arcminute_core::math::abs(behind)))
}

/// Whether the picture leaves prisms out.
pub(super) fn has_prisms(input: &RaysInput<'_>) -> bool {
    input.afocal.magnification.times() < 0.0
}

fn name_of_last(course: &Course) -> &'static str {
    if course.lenses.len() < 2 { "the lens" } else { "the eyepiece" }
}

/// Tells what the numbers are and how it is drawn.
pub(super) fn summary(input: &RaysInput<'_>, course: &Course, factor: f64) -> String {
    let design = if has_prisms(input) { "Keplerian" } else { "Galilean" };
    let sight =
        course.object.map_or("far off".into(), |mm| format!("{} away", length_words(Length::from_mm(mm))));
    let mut words = format!(
        "Rays from a thing {sight} through the {}x {design} telescope, lengths to scale",
        number(input.afocal.magnification.size(), 1)
    );
    let mut parts = Vec::new();
    let last = course.lenses.last().map_or(0.0, |lens| lens.place);
    for (index, lens) in course.lenses.iter().enumerate() {
        let name = super::lens_name(index, course.lenses.len());
        let wide = lens.radius.map_or(String::new(), |radius| format!(", {} wide", mm(2.0 * radius)));
        let place = if index == 0 { String::new() } else { format!(", {} behind the first", mm(lens.place)) };
        parts.push(format!("{name} {}{wide}{place}", dioptres(lens.power)));
    }
    let eyepiece = name_of_last(course);
    if let Some(pupil) = course.exit_pupil {
        parts.push(format!(
            "exit pupil {} wide, {}",
            mm(2.0 * pupil.radius),
            beside(pupil.place, last, eyepiece)
        ));
    }
    parts.push(format!(
        "the eye's pupil, {} wide, {}",
        mm(input.pupil.mm()),
        beside(course.length, last, eyepiece)
    ));
    words += &format!(": {}. {}.", parts.join("; "), heights(factor));
    if !course.off_axis.is_empty() {
        words += " The dashed rays come from the edge of the field, where half of the light is left.";
    }
    if has_prisms(input) {
        words += " The prisms that set the image upright are not drawn: their path is shown unfolded, at its length in air.";
    }
    words
}

/// How heights are drawn.
pub(super) fn heights(factor: f64) -> String {
    if arcminute_core::math::abs(factor - 1.0) < 1e-9 {
        "Heights drawn true".into()
    } else {
        format!("Heights drawn {factor}x")
    }
}

/// Every number in it.
pub(super) fn rows(input: &RaysInput<'_>, course: &Course, factor: f64) -> Vec<(String, String)> {
    let last = course.lenses.last().map_or(0.0, |lens| lens.place);
    let wide = |opening: &OpeningAt| mm(2.0 * opening.radius);
    let mut rows: Vec<(String, String)> = Vec::new();
    let mut row = |name: &str, value: String| rows.push((name.into(), value));
    row("Magnification", format!("{}x", number(input.afocal.magnification.times(), 1)));
    for (index, lens) in course.lenses.iter().enumerate() {
        let radius = lens.radius.map_or(String::new(), |radius| format!(", {} wide", mm(2.0 * radius)));
        row(super::lens_name(index, course.lenses.len()), format!("{}{radius}", dioptres(lens.power)));
    }
    row("first to last lens", mm(last));
    for stop in &course.stops {
        row("field stop", format!("{} wide, {}", wide(stop), beside(stop.place, last, name_of_last(course))));
    }
    if let Some(pupil) = &course.exit_pupil {
        row(
            "exit pupil",
            format!("{} wide, {}", wide(pupil), beside(pupil.place, last, name_of_last(course))),
        );
    }
    let place = beside(course.length, last, name_of_last(course));
    row("eye's pupil", format!("{} wide, {place}", mm(input.pupil.mm())));
    if let Some(field) = course.apparent {
        row("apparent field, half light", format!("{}°", number(field.half.degrees(), 1)));
    }
    row("object", course.object.map_or("far".into(), |mm| length_words(Length::from_mm(mm))));
    row("heights", heights(factor));
    rows
}
