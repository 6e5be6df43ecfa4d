//! The scene in words.

use super::super::scale::{length_words, number};
use super::{FieldSceneInput, Scene, Seen};
use arcminute_core::unit::Length;

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

fn shows(input: &FieldSceneInput, seen: &Seen) -> String {
    input.width(seen).map_or("all of it".into(), metres)
}

/// What the aid shows, then what a step less or more would.
pub(super) fn summary(input: &FieldSceneInput) -> String {
    let chosen = &input.chosen;
    let mut words = match (&input.scene, input.width(chosen)) {
        (Scene::Task { what, .. }, Some(width)) => {
            let of = input.scene.wanted().map_or(String::new(), |wanted| {
                format!(": {} the {} wanted", share(width / wanted), metres(wanted))
            });
            format!("Through the {} you see {} of {what} at once{of}", chosen.label, metres(width))
        }
        (Scene::Door, Some(width)) => {
            let doors = number(width / super::DOOR.0, 1);
            format!(
                "Through the {} you see a circle {} across at {}: {doors} times the width of a door",
                chosen.label,
                metres(width),
                metres(super::DOOR_AWAY)
            )
        }
        (_, None) => format!("Through the {} nothing limits what you see at once", chosen.label),
    };
    let steps = [&input.more, &input.less].into_iter().flatten();
    let steps: Vec<_> =
        steps.map(|seen| format!("{} would show {}", seen.label, shows(input, seen))).collect();
    if !steps.is_empty() {
        words += &format!("; {}", steps.join(", "));
    }
    words
        + &match &input.scene {
            Scene::Task { letter_height, distance, .. } => format!(
                ". Drawn to scale: letters {} high, {} away.",
                length_words(*letter_height),
                length_words(*distance)
            ),
            Scene::Door => {
                ". The goal names no distance, so a door 0.9 m wide and 2 m high is drawn to scale, 6 m away."
                    .into()
            }
        }
}

/// Every number in it.
pub(super) fn rows(input: &FieldSceneInput) -> Vec<(String, String)> {
    let mut rows = Vec::new();
    for (seen, class) in input.all() {
        let name =
            if class == "scene-seen" { format!("{} (chosen)", seen.label) } else { seen.label.clone() };
        let field = number(seen.real_field.degrees(), 1);
        rows.push((name, format!("{} at once; real field {field}°", shows(input, seen))));
    }
    if let Some(wanted) = input.scene.wanted() {
        let name = if input.scene == Scene::Door { "Door" } else { "Wanted at once" };
        rows.push((name.into(), metres(wanted)));
    }
    if let Scene::Task { letter_height, .. } = &input.scene {
        rows.push(("Letters".into(), format!("{} high", length_words(*letter_height))));
    }
    rows.push(("Distance".into(), metres(input.scene.distance())));
    rows
}
