//! Other aids: near ones for the print to read, far ones for the goal, each a card.

use crate::model::aids;
use crate::model::field::FieldId;
use crate::model::shown::{self, AidCard};
use crate::model::words::Where;
use crate::ui::{Cautions, Missing, Part, Working, facts, is, items, live, use_case};
use leptos::prelude::*;

/// Aids other than telescopes, below them.
#[component]
pub(super) fn OtherAids() -> impl IntoView {
    let case = use_case();
    let near = case.of_answer(|answer| shown::aid_places(answer, true));
    let far = case.of_answer(|answer| shown::aid_places(answer, false));
    let near_waits = case.of_answer(|answer| answer.aids.near_waits.clone());
    let far_waits = case.of_answer(|answer| answer.aids.far_waits.clone());
    view! {
        <section id="other-aids" aria-labelledby="other-aids-head">
            <h2 id="other-aids-head">"Other aids"</h2>
            <p class="help">{aids::ABOUT}</p>
            {group("near-aids", "For print near", "Near aids wait for:", near, near_waits)}
            {group("far-aids", "For far, and for a small field", "Far aids wait for:", far, far_waits)}
            <Cautions places=&[Where::PlusLens, Where::Standing, Where::Close]/>
        </section>
    }
    .into_any()
}

fn group(
    key: &'static str,
    heading: &'static str,
    waiting: &'static str,
    places: Part<Vec<usize>>,
    waits: Part<Vec<FieldId>>,
) -> AnyView {
    let cards = live(move || places.get().into_iter().map(card).collect_view());
    let missing = live(move || view! { <Missing fields=waits.get()/> }.into_any());
    view! {
        <h3>{heading}</h3>
        <div class="waits" id=format!("{key}-wait") hidden=is(move || waits.get().is_empty())><p>{waiting}</p>{missing}</div>
        <div class="aids" id=key>{cards}</div>
    }
    .into_any()
}

fn card(place: usize) -> AnyView {
    let case = use_case();
    let shown = case.of_answer(move |answer| shown::aid_card(answer, place));
    let (key, name) = untrack(move || shown.get()).map(|card| (card.id, card.name)).unwrap_or_default();
    let steps =
        case.of_answer(move |answer| answer.aids.rows.get(place).map(|row| row.steps()).unwrap_or_default());
    let serves = is(move || shown.get().is_some_and(|card| card.trouble.is_none()));
    view! {
        <article class="aid" id=key.clone()>
            {live(move || shown.get().map(body))}
            <div hidden=is(move || !serves.get())>
                <Working key=format!("{key}-working") of=name steps=steps/>
            </div>
        </article>
    }
    .into_any()
}

fn body(card: AidCard) -> AnyView {
    let cautions = (!card.cautions.is_empty())
        .then(|| view! { <p class="help">"Cautions below: " {card.cautions}</p> }.into_any());
    let trouble = card.trouble.map(|trouble| view! { <p class="trouble">{trouble}</p> }.into_any());
    view! {
        <h4>{card.name}</h4>
        <p class="help">{card.used}</p>
        {trouble}
        <dl class="facts">{facts(card.facts)}</dl>
        <ul>{items(card.notes)}</ul>
        {cautions}
    }
    .into_any()
}
