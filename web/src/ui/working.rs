//! The working behind a result: formula, numbers, result, source.

use super::{live, when, words};
use crate::model::working::{Line, Piece, line};
use arcminute_core::explain::Step;
use leptos::prelude::*;

/// The working, folded away until it is asked for; nothing is recomputed.
#[component]
pub fn Working(
    /// Key, unique on the page.
    #[prop(into)]
    key: String,
    /// What it is the working of.
    #[prop(into)]
    of: Signal<String>,
    /// The steps.
    #[prop(into)]
    steps: Signal<Vec<Step>>,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let lines =
        live(move || open.get().then(|| steps.read().iter().map(|step| shown(line(step))).collect_view()));
    view! {
        <div class="working" id=key>
            <button
                type="button"
                class="fold"
                aria-expanded=words(move || open.get().to_string())
                on:click=move |_| open.update(|open| *open = !*open)
            >
                {words(move || format!("{} the working: {}", if open.get() { "Hide" } else { "Show" }, of.get()))}
            </button>
            {when(
                move || open.get(),
                || view! { <p class="help">"Numbers are shown rounded; the working is carried at full precision."</p> }.into_any(),
            )}
            <ol>{lines}</ol>
        </div>
    }
    .into_any()
}

fn shown(line: Line) -> AnyView {
    let formula = line
        .formula
        .into_iter()
        .map(|piece| match piece {
            Piece::Plain(text) => view! { <span>{text}</span> }.into_any(),
            Piece::Symbol(base, index) => {
                let index =
                    (!index.is_empty()).then(|| view! { <sub>{index.replace('_', " ")}</sub> }.into_any());
                view! { <i>{base}</i> {index} }.into_any()
            }
        })
        .collect_view();
    view! {
        <li>
            <p class="step-title">{line.title}</p>
            <p class="formula">{formula}</p>
            <p class="numbers">{line.numbers} " = " <strong>{line.result}</strong></p>
            <p class="source">{line.source}</p>
        </li>
    }
    .into_any()
}
