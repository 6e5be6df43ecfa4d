//! The aid that is looked at, in full: prediction, facts, pictures, the price of a step, what would do instead, working.

use super::trial::TRIAL_NAME;
use crate::model::answer::GoalAnswer;
use crate::model::compared::{Cell, LookedAt, Seen as Does, Table};
use crate::model::draft::GoalKind;
use crate::model::format;
use crate::model::list::ListedAid;
use crate::model::shown;
use crate::model::words::Where;
use crate::platform;
use crate::plot::Drawing;
use crate::plot::field_scene::{FieldSceneInput, Scene, Seen, field_scene};
use crate::plot::rays::{RaysInput, rays};
use crate::ui::{
    Case, Cautions, LOOKED_NAME, Part, Picture, Place, Working, facts, is, items, live, use_case, when, words,
};
use arcminute_core::device::{Aid, Arrangement};
use arcminute_core::explain::Explain;
use arcminute_core::optics::Afocal;
use leptos::prelude::*;

/// The aid that is looked at; nothing while there is none.
#[component]
pub(super) fn Looked() -> impl IntoView {
    let case = use_case();
    when(move || case.looked.read().is_some(), || view! { <InFull/> }.into_any())
}

/// Something of the aid that is looked at.
fn of<T: Clone + Default + PartialEq + Send + Sync + 'static>(
    case: Case,
    take: impl Fn(&LookedAt) -> T + Send + Sync + 'static,
) -> Part<T> {
    Part::new(move || case.looked.read().as_ref().map(|looked| take(looked)).unwrap_or_default())
}

/// Whether the aid is a telescope that Fit places.
fn is_mounted(looked: &LookedAt) -> bool {
    looked.aid.device().is_some()
}

#[component]
fn InFull() -> impl IntoView {
    let case = use_case();
    let name = of(case, |looked| looked.aid.title()).signal();
    let serves = of(case, |looked| looked.seen().is_some());
    let facts_shown = Part::new(move || {
        let (answer, looked) = (case.answer.read(), case.looked.read());
        let Some(looked) = looked.as_ref() else { return Vec::new() };
        let mut facts = shown::looked_facts(&answer, looked);
        if is_mounted(looked) {
            facts.extend(shown::telescope_facts(&answer));
        }
        facts
    });
    let notes = Part::new(move || {
        let (answer, looked, draft) = (case.answer.read(), case.looked.read(), case.draft.read());
        let Some(looked) = looked.as_ref() else { return Vec::new() };
        let mut notes = shown::looked_notes(looked);
        if is_mounted(looked) {
            notes.extend(shown::telescope_notes(&answer, draft.bench.correction));
        }
        notes
    });
    let cautions = of(case, |looked| {
        let mut places = looked.aid.cautions();
        places.push(Where::Prediction);
        places
    });
    let mounted = of(case, is_mounted);
    let narrow = platform::narrow();
    let scene = Part::new(move || scene(case, narrow.get()));
    let ray_picture = Part::new(move || {
        let looked = case.looked.read();
        looked.as_ref().and_then(|looked| ray_picture(looked, narrow.get()))
    });
    let steps = Part::new(move || {
        let looked = case.looked.read();
        let mut steps = looked.as_ref().map(|looked| looked.steps()).unwrap_or_default();
        let turned = looked.as_ref().and_then(|looked| looked.turned_in(&case.answer.read()));
        steps.extend(turned.iter().flat_map(Explain::steps));
        if looked.as_ref().is_some_and(|looked| is_mounted(looked))
            && let Some((_, outcome)) = case.answer.read().chosen_outcome()
        {
            steps.extend(outcome.steps());
        }
        steps
    });
    let (facts_shown, notes) = (live(move || facts(facts_shown.get())), live(move || items(notes.get())));
    let to_fit = move |heading: String| {
        case.place.set(Place::Fit);
        platform::focus_soon(heading);
    };
    view! {
        <section id="looked" aria-labelledby=LOOKED_NAME>
            <h2 id=LOOKED_NAME tabindex="-1">{name}</h2>
            <p class="help">{of(case, |looked| looked.aid.how()).signal()}</p>
            <p class="answer" id="looked-answer">{of(case, shown::looked_words).signal()}</p>
            <div hidden=is(move || !serves.get())>
                <dl class="facts">{facts_shown}</dl>
                <ul id="looked-notes">{notes}</ul>
                <p id="looked-instead">{of(case, shown::instead_words).signal()}</p>
                <h3>"What a step in power costs"</h3>
                <p id="step-less">{words(move || step(case, false))}</p>
                <p id="step-more">{words(move || step(case, true))}</p>
                <h3>"What is seen at once, to scale"</h3>
                <Picture key="field-picture" drawing=scene/>
                <h3>"The light through it, to scale"</h3>
                <Picture key="rays-picture" drawing=ray_picture fold_words=true/>
            </div>
            {live(move || view! { <Cautions places=cautions.get()/> }.into_any())}
            <Working key="looked-working" of=name steps=steps/>
            <p class="next">
                <button type="button" class="main" id="looked-trial" on:click=move |_| to_fit(TRIAL_NAME.into())>"Enter what was reached with it"</button>
                " "
                <button type="button" id="looked-fit" hidden=is(move || !mounted.get()) on:click=move |_| to_fit(Place::Fit.heading_id())>"Place it in the glasses"</button>
            </p>
        </section>
    }
    .into_any()
}

/// Place of the wish that is served, and of the aid that is looked at.
fn places(looked: &LookedAt, table: &Table, list: &[ListedAid]) -> Option<(usize, usize)> {
    let wish = table.asked.of_goal(looked.named.goal).next()?;
    Some((wish, list.iter().position(|aid| aid.id == looked.aid.id)?))
}

fn cell(table: &Table, aid: usize, wish: usize) -> Option<&Cell> {
    table.cell(aid, wish)?.as_ref().ok()
}

/// What the next aid of its family would do, or that there is none.
fn step(case: Case, more: bool) -> String {
    let (table, list, looked) = (case.table.read(), case.list.read(), case.looked.read());
    let list = &list.1.list;
    let said = looked.as_ref().and_then(|looked| {
        let (wish, at) = places(looked, &table, list)?;
        let next = shown::neighbours(&table, list, wish, at)[usize::from(more)]?;
        let (there, here) = (cell(&table, next, wish)?, cell(&table, at, wish)?);
        Some(shown::step_words(&list.get(next)?.title(), more, there, here))
    });
    said.unwrap_or_else(|| {
        let word = if more { "stronger" } else { "weaker" };
        format!("No {word} aid of this kind in the list would serve.")
    })
}

/// What one aid shows at once.
fn shows(listed: &ListedAid, cell: &Cell) -> Seen {
    let label =
        listed.device().map_or_else(|| listed.name.clone(), |device| format::times(device.power_times));
    Seen { label, real_field: None, width: cell.width, window: listed.traits().shines }
}

fn scene(case: Case, narrow: bool) -> Option<Drawing> {
    let (table, list, looked, answer) =
        (case.table.read(), case.list.read(), case.looked.read(), case.answer.read());
    let (looked, list) = (looked.as_ref()?, &list.1.list);
    let does = looked.seen()?;
    let (wish, at) = places(looked, &table, list)?;
    let seen = |place: usize| Some(shows(list.get(place)?, cell(&table, place, wish)?));
    let [less, more] = shown::neighbours(&table, list, wish, at);
    let draft = case.draft.read();
    let is_bus = draft.goals.get(answer.goal).is_some_and(|goal| goal.shelf.starts_with("bus-number"));
    let input = FieldSceneInput {
        scene: over(answer.goal_answer()?, does, is_bus),
        chosen: seen(at)?,
        less: less.and_then(seen),
        more: more.and_then(seen),
    };
    Some(field_scene(&input, narrow))
}

/// What is drawn under it.
fn over(goal: &GoalAnswer, does: &Does, is_bus: bool) -> Scene {
    let (height, wanted_width) = (does.detail.height, goal.width);
    let what = format!("“{}”", goal.name);
    match (does.detail.distance, goal.kind) {
        (None, _) => {
            Scene::Page { x_height: height, line_width: None, wanted: goal.characters, true_size: false }
        }
        (Some(_), GoalKind::Acuity) => Scene::Door,
        (Some(distance), GoalKind::Face) => Scene::Face { distance },
        (Some(distance), GoalKind::Detail) => Scene::Detail { what, size: height / 5.0, distance },
        (Some(distance), GoalKind::Letters) if is_bus => Scene::Bus { distance, number_height: height },
        (Some(distance), _) => Scene::Task { what, letter_height: height, distance, wanted_width },
    }
}

fn ray_picture(looked: &LookedAt, narrow: bool) -> Option<Drawing> {
    let does = looked.seen()?;
    let afocal = afocal(&does.used);
    let arrangement: &Arrangement = &does.outcome.arrangement;
    let thing = if does.detail.distance.is_some() { "thing" } else { "print" };
    let input = RaysInput { afocal: afocal.as_ref(), thing, ..RaysInput::of(arrangement, looked.eye.pupil) };
    Some(rays(&input, narrow))
}

/// The telescope set for far, where the aid is one.
fn afocal(used: &Aid) -> Option<Afocal> {
    match used {
        Aid::Telescope { telescope, .. } => Some(telescope.afocal()),
        _ => None,
    }
}
