//! A choice of one among a few, and a tick.

use leptos::prelude::*;

/// One of a few, as radio buttons under a legend.
#[component]
pub fn Choice<T: Copy + PartialEq + Send + Sync + 'static>(
    /// Key, unique on the page.
    key: &'static str,
    /// What is chosen.
    legend: &'static str,
    /// The choices and what they are called.
    options: Vec<(T, String)>,
    /// The choice made.
    #[prop(into)]
    chosen: Signal<T>,
    /// Called with a new choice.
    #[prop(into)]
    on_choose: Callback<T>,
) -> impl IntoView {
    let radios = options
        .into_iter()
        .enumerate()
        .map(|(index, (value, label))| {
            let id = format!("{key}-{}", index + 1);
            view! {
                <div class="radio">
                    <input
                        type="radio"
                        id=id.clone()
                        name=key
                        prop:checked=move || chosen.get() == value
                        on:change=move |_| on_choose.run(value)
                    />
                    <label for=id>{label}</label>
                </div>
            }
        })
        .collect_view();
    view! { <fieldset class="choice" id=key><legend>{legend}</legend><div class="radios">{radios}</div></fieldset> }
        .into_any()
}

/// A yes or no.
#[component]
pub fn Tick(
    /// Key, unique on the page.
    key: &'static str,
    /// What it means when it is ticked.
    label: &'static str,
    /// Whether it is.
    #[prop(into)]
    on: Signal<bool>,
    /// Called with the new state.
    #[prop(into)]
    on_tick: Callback<bool>,
) -> impl IntoView {
    view! {
        <div class="tick">
            <input
                type="checkbox"
                id=key
                prop:checked=on
                on:change:target=move |event| on_tick.run(event.target().checked())
            />
            <label for=key>{label}</label>
        </div>
    }
    .into_any()
}
