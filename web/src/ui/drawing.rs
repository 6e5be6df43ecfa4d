//! A picture from `plot`, with the same content in words and numbers.

use super::{Grips, is, live, words};
use crate::platform;
use crate::plot::Drawing;
use leptos::prelude::*;

/// A picture. Its numbers stand in a table that can be opened; the whole content in words is part of it.
#[component]
pub fn Picture(
    /// Key, unique on the page.
    key: &'static str,
    /// The picture; nothing is shown while there is none.
    #[prop(into)]
    drawing: Signal<Option<Drawing>>,
    /// Whether its content in words is folded away with its numbers; a short account stays in sight.
    #[prop(optional)]
    fold_words: bool,
    /// Whether it is printed at true size.
    #[prop(optional)]
    true_size: bool,
    /// Called with the key of a mark that is clicked. A pointer's short cut: the keyboard finds the same choice beside it.
    #[prop(optional)]
    on_pick: Option<Callback<String>>,
    /// Whether pupil, eyepiece and segment can be moved in it.
    #[prop(optional)]
    with_grips: bool,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let svg = words(move || drawing.read().as_ref().map(Drawing::svg).unwrap_or_default());
    let description =
        words(move || drawing.read().as_ref().map(|drawing| drawing.description.clone()).unwrap_or_default());
    let rows = live(move || {
        let drawing = drawing.read();
        let rows = drawing.as_ref().filter(|_| open.get())?.rows.clone();
        let rows = rows
            .into_iter()
            .map(|(what, value)| view! { <tr><th scope="row">{what}</th><td>{value}</td></tr> }.into_any())
            .collect_view();
        Some(view! { <table><tbody>{rows}</tbody></table> }.into_any())
    });
    view! {
        <figure class="picture" class:true-size=true_size class:empty=is(move || drawing.read().is_none()) id=key>
            <div class="stage">
                <div class="drawn" inner_html=svg on:click=move |event| {
                    if let (Some(on_pick), Some(key)) = (on_pick, platform::picked(&event)) {
                        on_pick.run(key);
                    }
                }></div>
                {with_grips.then(|| view! { <Grips drawing=drawing/> }.into_any())}
            </div>
            <figcaption>
                <p class="words" hidden=is(move || fold_words && !open.get())>{description}</p>
                <button
                    type="button"
                    class="fold"
                    aria-expanded=words(move || open.get().to_string())
                    on:click=move |_| open.update(|open| *open = !*open)
                >
                    {words(move || format!("{} the picture in numbers", if open.get() { "Hide" } else { "Show" }))}
                </button>
                {rows}
            </figcaption>
        </figure>
    }
    .into_any()
}
