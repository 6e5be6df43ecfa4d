//! A choice of one of several, folded into one line.

use super::words;
use leptos::prelude::*;

/// A box to pick one of several from.
#[component]
pub fn Pick(
    /// Key, unique on the page.
    #[prop(into)]
    key: String,
    /// What is chosen.
    label: &'static str,
    /// What the choices are called.
    options: Vec<String>,
    /// Place of the choice made.
    chosen: Signal<usize>,
    /// Called with the place of a new choice.
    on_choose: Callback<usize>,
) -> impl IntoView {
    let options = options
        .into_iter()
        .enumerate()
        .map(|(place, label)| view! { <option value=place.to_string()>{label}</option> }.into_any())
        .collect_view();
    view! {
        <div class="entry">
            <label for=key.clone()>{label}</label>
            <select
                id=key
                prop:value=words(move || chosen.get().to_string())
                on:change:target=move |event| {
                    if let Ok(place) = event.target().value().parse() {
                        on_choose.run(place);
                    }
                }
            >
                {options}
            </select>
        </div>
    }
    .into_any()
}
