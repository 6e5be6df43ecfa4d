//! The chosen telescope in full: prediction, facts, pictures, the price of a step, working.

use crate::model::answer::Answer;
use crate::model::format;
use crate::model::shown;
use crate::model::words::Where;
use crate::platform;
use crate::plot::Drawing;
use crate::plot::field_scene::{FieldSceneInput, Scene, Seen, field_scene};
use crate::plot::rays::{RaysInput, rays};
use crate::ui::{Cautions, Part, Picture, Working, facts, items, live, use_case, when, words};
use arcminute_core::explain::Explain;
use arcminute_core::optics::Sight;
use arcminute_core::task::Goal;
use leptos::prelude::*;

/// The chosen telescope; nothing while none is chosen.
#[component]
pub(super) fn Chosen() -> impl IntoView {
    let case = use_case();
    let there = case.of_answer(|answer| answer.chosen_row().is_some_and(|row| row.outcome.is_ok()));
    when(move || there.get(), || view! { <InFull/> }.into_any())
}

#[component]
fn InFull() -> impl IntoView {
    let case = use_case();
    let name = case
        .of_answer(|answer| {
            answer
                .chosen_row()
                .map(|row| format!("{} {}", row.device.marking(), row.device.name))
                .unwrap_or_default()
        })
        .signal();
    let prediction = case.of_answer(|answer| shown::prediction_words(answer).unwrap_or_default()).signal();
    let chosen_facts = case.of_answer(shown::chosen_facts);
    let notes = Part::new(move || {
        let correction = case.draft.read().bench.correction;
        shown::chosen_notes(&case.answer.read(), correction)
    });
    let less = case.of_answer(|answer| shown::step_words(answer, answer.steps.less, false));
    let more = case.of_answer(|answer| shown::step_words(answer, answer.steps.more, true));
    let steps = case.of_answer(|answer| {
        let outcome = answer.chosen_row().and_then(|row| row.outcome.as_ref().ok());
        outcome.map(Explain::steps).unwrap_or_default()
    });
    let narrow = platform::narrow();
    let scene = Part::new(move || scene(&case.answer.read(), narrow.get()));
    let ray_picture = Part::new(move || ray_picture(&case.answer.read(), narrow.get()));
    let facts_shown = live(move || facts(chosen_facts.get()));
    let notes = live(move || items(notes.get()));
    view! {
        <section aria-labelledby="chosen-name">
            <h2 id="chosen-name">{name}</h2>
            <p class="answer" id="chosen-prediction">{prediction}</p>
            <dl class="facts">{facts_shown}</dl>
            <ul id="chosen-notes">{notes}</ul>
            <h3>"What a step in power costs"</h3>
            <p id="step-less">{words(move || less.get().unwrap_or_else(|| "There is no lower power of this design in the list.".into()))}</p>
            <p id="step-more">{words(move || more.get().unwrap_or_else(|| "There is no higher power of this design in the list.".into()))}</p>
            <h3>"What is seen at once, to scale"</h3>
            <Picture key="field-picture" drawing=scene/>
            <h3>"The light through it, to scale"</h3>
            <Picture key="rays-picture" drawing=ray_picture fold_words=true/>
            <Cautions places=&[Where::Telescope, Where::Prediction]/>
            <Working key="chosen-working" of="the chosen telescope" steps=steps/>
        </section>
    }
    .into_any()
}

fn scene(answer: &Answer, narrow: bool) -> Option<Drawing> {
    let seen = |index: Option<usize>| {
        let row = answer.bench.get(index?)?;
        let outcome = row.outcome.as_ref().ok()?;
        let label = format::times(row.device.power_times);
        Some(Seen { label, real_field: outcome.real_field, width: outcome.width_at_task })
    };
    let goal = answer.goal_answer()?;
    let scene = match goal.demand?.goal {
        Goal::Target(target) => Scene::Task {
            what: format!("“{}”", goal.name),
            letter_height: target.height,
            distance: target.distance,
            wanted_width: goal.width,
        },
        Goal::Acuity(_) => Scene::Door,
    };
    let input = FieldSceneInput {
        scene,
        chosen: seen(answer.chosen)?,
        less: seen(answer.steps.less),
        more: seen(answer.steps.more),
    };
    Some(field_scene(&input, narrow))
}

fn ray_picture(answer: &Answer, narrow: bool) -> Option<Drawing> {
    let (_, outcome) = answer.chosen_outcome()?;
    let sight = match outcome.distance {
        None => Sight::Far,
        Some(distance) => Sight::At(distance - outcome.train.length()),
    };
    let input =
        RaysInput { train: &outcome.train, afocal: &outcome.afocal, pupil: outcome.light.pupil, sight };
    Some(rays(&input, narrow))
}
