//! The scene in words.

use super::super::scale::{length_words, number};
use super::page::{self, Sheet};
use super::{FACE_HEIGHT, FieldSceneInput, Scene, Seen};
use arcminute_core::unit::{Length, PrintSize};

pub(super) fn metres(value: f64) -> String {
    length_words(Length::from_m(value))
}

/// A share in everyday words, to go before `the 2.40 m wanted`.
pub(super) fn share(ratio: f64) -> &'static str {
    const SHARES: [(f64, &str); 11] = [
        (0.999_999, "all of"),
        (0.9, "nearly all of"),
        (0.7, "about three quarters of"),
        (0.58, "about two thirds of"),
        (0.42, "about half of"),
        (0.29, "about a third of"),
        (0.22, "about a quarter of"),
        (0.15, "about a fifth of"),
        (0.08, "about a tenth of"),
        (0.04, "about a twentieth of"),
        (0.0, "less than a twentieth of"),
    ];
    SHARES.iter().find(|(least, _)| *least <= ratio).map_or("an unknown part of", |share| share.1)
}

/// How many characters of the print, a count.
fn characters(scene: &Scene, width: f64) -> Option<f64> {
    match scene {
        Scene::Page { x_height, .. } => Some(width / page::character(*x_height)),
        _ => None,
    }
}

fn counted(count: f64) -> String {
    let decimals = usize::from(count < 9.95);
    let count = number(count, decimals);
    let word = if count == "1.0" { "character" } else { "characters" };
    format!("{count} {word}")
}

/// A width, with its characters where there is print.
fn width_words(scene: &Scene, width: f64) -> String {
    match characters(scene, width) {
        Some(count) => format!("{} ({})", metres(width), counted(count)),
        None => metres(width),
    }
}

fn shows(input: &FieldSceneInput, seen: &Seen) -> String {
    input.width(seen).map_or("all of it".into(), |width| width_words(&input.scene, width))
}

fn name(seen: &Seen) -> &str {
    if seen.label.is_empty() { "without an aid" } else { &seen.label }
}

/// How a sentence about it begins.
fn through(seen: &Seen) -> String {
    if seen.label.is_empty() { "Without an aid".into() } else { format!("Through the {}", seen.label) }
}

/// What is drawn, as far as its own width tells it: what it is and how wide.
fn thing(scene: &Scene) -> Option<String> {
    let wide = metres(scene.wanted()?);
    match scene {
        Scene::Face { .. } => Some(format!("a face {} wide", face_words())),
        Scene::Bus { .. } => Some(format!("the front of a bus, {wide} wide")),
        Scene::Detail { what, .. } => Some(format!("{what}, {wide} wide")),
        Scene::Task { .. } | Scene::Page { .. } | Scene::Door => None,
    }
}

fn face_words() -> String {
    format!("{} cm", number(100.0 * super::face_width(), 1))
}

/// The name of the picture.
pub(super) fn title(input: &FieldSceneInput) -> String {
    if input.chosen.label.is_empty() {
        "What is seen at once without an aid".into()
    } else {
        format!("What the {} shows at once", input.chosen.label)
    }
}

/// Over the bar of what is seen.
pub(super) fn bar(input: &FieldSceneInput, seen: &Seen, drawn: bool) -> String {
    let left_out = if drawn { "" } else { ", not drawn" };
    match (input.width(seen), seen.label.is_empty()) {
        (Some(width), _) => format!("{} sees {}{left_out}", name(seen), width_words(&input.scene, width)),
        (None, true) => "without an aid: no limit".into(),
        (None, false) => format!("{} sees all of it", seen.label),
    }
}

/// Over the bar of what should be seen, or of the thing.
pub(super) fn wanted_bar(scene: &Scene, wanted: f64, fits: bool) -> String {
    let left_out = if fits { "" } else { ", not drawn" };
    match scene {
        Scene::Door => format!("the door, {} wide", metres(wanted)),
        Scene::Task { .. } | Scene::Page { .. } => format!("wanted {}{left_out}", width_words(scene, wanted)),
        Scene::Face { .. } | Scene::Bus { .. } | Scene::Detail { .. } => thing(scene).unwrap_or_default(),
    }
}

/// What the aid chosen shows of it.
fn chosen(input: &FieldSceneInput) -> String {
    let (scene, seen) = (&input.scene, &input.chosen);
    let through = through(seen);
    let Some(width) = input.width(seen) else {
        let you = if seen.label.is_empty() { "is seen" } else { "you see" };
        return format!("{through} nothing limits what {you} at once");
    };
    let of = scene.wanted().map_or(String::new(), |wanted| {
        let wanted_words = characters(scene, wanted).map_or(metres(wanted), counted);
        format!(": {} the {wanted_words} wanted", share(width / wanted))
    });
    let form = if seen.window { "window" } else { "circle" };
    match scene {
        Scene::Task { what, .. } => format!("{through} you see {} of {what} at once{of}", metres(width)),
        Scene::Page { .. } => {
            let count = characters(scene, width).map_or(String::new(), counted);
            format!("{through} you see {} of the print at once, {count}{of}", metres(width))
        }
        Scene::Door => {
            let doors = number(width / super::DOOR.0, 1);
            format!(
                "{through} you see a {form} {} across at {}: {doors} times the width of a door",
                metres(width),
                metres(super::DOOR_AWAY)
            )
        }
        Scene::Face { .. } | Scene::Bus { .. } | Scene::Detail { .. } => {
            let share = scene.wanted().map_or("all of", |wanted| share(width / wanted));
            let thing = thing(scene).unwrap_or_default();
            format!("{through} you see a {form} {} across at once: {share} {thing}", metres(width))
        }
    }
}

/// What is drawn and how large it is.
fn drawn(scene: &Scene, sheet: Option<&Sheet>, at_true_size: bool) -> String {
    let away = scene.distance().map(metres).unwrap_or_default();
    match scene {
        Scene::Task { letter_height, .. } => {
            format!("Drawn to scale: letters {} high, {away} away.", length_words(*letter_height))
        }
        Scene::Door => {
            "The goal names no distance, so a door 0.9 m wide and 2 m high is drawn to scale, 6 m away."
                .into()
        }
        Scene::Face { .. } => {
            format!(
                "Drawn to scale: a face {} wide and {} high, {away} away.",
                face_words(),
                metres(FACE_HEIGHT)
            )
        }
        Scene::Bus { number_height, .. } => {
            format!("Drawn to scale: its number {} high, {away} away.", length_words(*number_height))
        }
        Scene::Detail { size, .. } => format!(
            "Drawn to scale: a square ring five details high in its place, a detail {} wide, {away} away.",
            length_words(*size)
        ),
        Scene::Page { x_height, true_size, .. } => {
            let mut words = format!(
                "Drawn to scale: print of {} x-height ({} M)",
                length_words(*x_height),
                number(PrintSize::of_x_height(*x_height).m_units(), 1)
            );
            if let Some(sheet) = sheet {
                words += &format!(", lines of {} characters", number(sheet.in_line, 0));
                if sheet.is_cut() {
                    words += &format!(", of which {} are drawn", number(sheet.drawn, 0));
                }
                if !sheet.typed {
                    words += ", words as bars";
                }
            }
            words += ".";
            if at_true_size {
                words += " It prints at true size.";
            } else if *true_size {
                words += " At true size it would not fit on a sheet.";
            }
            words
        }
    }
}

/// What the aid shows, then what a step less or more would.
pub(super) fn summary(input: &FieldSceneInput, sheet: Option<&Sheet>, at_true_size: bool) -> String {
    let mut words = chosen(input);
    let steps = [&input.more, &input.less].into_iter().flatten();
    let steps: Vec<_> =
        steps.map(|seen| format!("{} would show {}", name(seen), shows(input, seen))).collect();
    if !steps.is_empty() {
        words += &format!("; {}", steps.join(", "));
    }
    words += &format!(". {}", drawn(&input.scene, sheet, at_true_size));
    if input.all().iter().any(|(seen, _)| seen.window && input.width(seen).is_some()) {
        words += " Of a window only the width is to scale.";
    }
    words
}

/// Every number in it.
pub(super) fn rows(
    input: &FieldSceneInput,
    sheet: Option<&Sheet>,
    at_true_size: bool,
) -> Vec<(String, String)> {
    let mut rows: Vec<(String, String)> = Vec::new();
    let scene = &input.scene;
    for (seen, class) in input.all() {
        let name =
            if class == "scene-seen" { format!("{} (chosen)", name(seen)) } else { name(seen).to_owned() };
        let field = seen
            .real_field
            .map_or(String::new(), |field| format!("; real field {}°", number(field.degrees(), 1)));
        rows.push((name, format!("{} at once{field}", shows(input, seen))));
    }
    let mut row = |name: &str, value: String| rows.push((name.into(), value));
    if let Some(wanted) = scene.wanted() {
        match scene {
            Scene::Door => row("Door", metres(wanted)),
            Scene::Face { .. } => row("Face", format!("{} wide, {} high", face_words(), metres(FACE_HEIGHT))),
            Scene::Bus { .. } => row("Front of the bus", format!("{} wide", metres(wanted))),
            Scene::Detail { .. } => row("Thing", format!("{} high", metres(wanted))),
            Scene::Task { .. } | Scene::Page { .. } => row("Wanted at once", width_words(scene, wanted)),
        }
    }
    match scene {
        Scene::Task { letter_height, .. } => row("Letters", format!("{} high", length_words(*letter_height))),
        Scene::Bus { number_height, .. } => row("Number", format!("{} high", length_words(*number_height))),
        Scene::Detail { size, .. } => row("Smallest detail", length_words(*size)),
        Scene::Page { x_height, true_size, .. } => {
            row("x-height", length_words(*x_height));
            if let Some(sheet) = sheet {
                row("Line", format!("{} characters", number(sheet.in_line, 0)));
            }
            if *true_size {
                row(
                    "Size in print",
                    if at_true_size { "true" } else { "wider than a sheet at true size" }.into(),
                );
            }
        }
        Scene::Door | Scene::Face { .. } => {}
    }
    if let Some(distance) = scene.distance() {
        row("Distance", metres(distance));
    }
    rows
}
