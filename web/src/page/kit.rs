//! Kit: the smallest set of aids for all goals.

use crate::model::shown;
use crate::ui::{Part, Pick, is, items, live, use_case, words};
use leptos::prelude::*;

/// Chances from which a goal counts as served, per cent.
const FROM: [f64; 3] = [50.0, 80.0, 95.0];

/// The smallest set, what each aid of it is there for, what nothing serves, and what smaller sets give up.
#[component]
pub(super) fn SmallestSet() -> impl IntoView {
    let case = use_case();
    let from = RwSignal::new(0_usize);
    let kit = Part::new(move || {
        let (table, list) = (case.table.read(), case.list.read());
        let share = FROM.get(from.get()).copied().unwrap_or(50.0) / 100.0;
        let plan = table.kit(&list.1.list, share).ok();
        plan.map(|plan| shown::kit_shown(&table, &list.1.list, &plan)).unwrap_or_default()
    });
    let aids = live(move || kit.get().aids.into_iter().map(one).collect_view());
    let rest = live(move || {
        let kit = kit.get();
        items(kit.uncovered.into_iter().chain(kit.given_up).collect())
    });
    let options = FROM.iter().map(|percent| format!("a chance of {percent} %")).collect();
    view! {
        <section id="kit" aria-labelledby="kit-head" hidden=is(move || kit.get().answer.is_empty())>
            <h2 id="kit-head">"Kit"</h2>
            <p class="help">"The fewest aids that serve all goals; among those the ones that leave hands free, of lower power, of fewer kinds."</p>
            <Pick key="kit-from" label="A goal counts as served from" options=options chosen=from.into() on_choose=Callback::new(move |place| from.set(place))/>
            <p class="answer" id="kit-answer">{words(move || kit.get().answer)}</p>
            <ul id="kit-aids">{aids}</ul>
            <ul id="kit-rest">{rest}</ul>
            <p class="help">{words(move || kit.get().proof)}</p>
        </section>
    }
    .into_any()
}

fn one((id, name, only): (String, String, String)) -> AnyView {
    let case = use_case();
    let key = id.clone();
    let label = format!("Look at {name}");
    view! {
        <li id=format!("kit-{key}")>
            <button type="button" class="link" aria-label=label on:click=move |_| case.look_at(&id)>{name}</button>
            " " <span class="band">{only}</span>
        </li>
    }
    .into_any()
}
