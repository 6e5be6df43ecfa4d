//! A choice of one among a few, and a tick.

use super::is;
use leptos::prelude::*;

/// One of a few, as radio buttons under a legend.
#[component]
pub fn Choice(
    /// Key, unique on the page.
    #[prop(into)]
    key: String,
    /// What is chosen.
    legend: &'static str,
    /// What the choices are called.
    options: Vec<&'static str>,
    /// Place of the choice made.
    chosen: Signal<usize>,
    /// Called with the place of a new choice.
    on_choose: Callback<usize>,
) -> impl IntoView {
    let radios = options
        .into_iter()
        .enumerate()
        .map(|(index, label)| {
            let id = format!("{key}-{}", index + 1);
            view! {
                <div class="radio">
                    <input
                        type="radio"
                        id=id.clone()
                        name=key.clone()
                        prop:checked=is(move || chosen.get() == index)
                        on:change=move |_| on_choose.run(index)
                    />
                    <label for=id>{label}</label>
                </div>
            }
            .into_any()
        })
        .collect_view();
    view! { <fieldset class="choice" id=key><legend>{legend}</legend><div class="radios">{radios}</div></fieldset> }
        .into_any()
}

/// A yes or no.
#[component]
pub fn Tick(
    /// Key, unique on the page.
    #[prop(into)]
    key: String,
    /// What it means when it is ticked.
    label: &'static str,
    /// Whether it is.
    on: Signal<bool>,
    /// Called with the new state.
    on_tick: Callback<bool>,
) -> impl IntoView {
    view! {
        <div class="tick">
            <input
                type="checkbox"
                id=key.clone()
                prop:checked=on
                on:change:target=move |event| on_tick.run(event.target().checked())
            />
            <label for=key>{label}</label>
        </div>
    }
    .into_any()
}
