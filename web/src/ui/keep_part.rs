//! Small pieces of the parts that save, open, keep and lock. They are functions of few types, so that each is there once.

use super::{Tick, words};
use leptos::prelude::*;

/// A part with its heading.
#[must_use]
pub fn part(key: &'static str, head: &'static str, inside: Vec<AnyView>) -> AnyView {
    view! {
        <div class="keep-one" role="group" aria-labelledby=key>
            <h2 id=key>{head}</h2>
            {inside}
        </div>
    }
    .into_any()
}

/// A sentence of help.
#[must_use]
pub fn help(sentence: &'static str) -> AnyView {
    view! { <p class="help">{sentence}</p> }.into_any()
}

/// A sentence that warns.
#[must_use]
pub fn warning(sentence: &'static str) -> AnyView {
    view! { <p class="unusual">{sentence}</p> }.into_any()
}

/// What became of the last press, said politely.
#[must_use]
pub fn told(key: &'static str, text: RwSignal<String>) -> AnyView {
    view! { <p id=key role="status">{text}</p> }.into_any()
}

/// A button.
#[must_use]
pub fn press(key: &'static str, name: &'static str, then: Callback<()>) -> AnyView {
    view! { <button type="button" id=key on:click=move |_| then.run(())>{name}</button> }.into_any()
}

/// A button that opens a part and closes it.
#[must_use]
pub fn fold(key: &'static str, name: &'static str, open: RwSignal<bool>) -> AnyView {
    let turn = move |_| open.update(|open| *open = !*open);
    let expanded = words(move || open.get().to_string());
    view! { <button type="button" id=key aria-expanded=expanded on:click=turn>{name}</button> }.into_any()
}

/// What a passphrase is for: the key of its box, and its words.
#[derive(Clone, Copy)]
pub struct Secret {
    /// Key, unique on the page.
    pub key: &'static str,
    /// Label of the box.
    pub label: &'static str,
    /// Label of the tick that shows it.
    pub show: &'static str,
}

impl Secret {
    /// A box to open with; Enter presses the button.
    #[must_use]
    pub fn typed(self, text: RwSignal<String>, enter: Callback<()>) -> AnyView {
        self.boxes(vec![(text, "")], enter)
    }

    /// Two boxes to choose one.
    #[must_use]
    pub fn chosen(self, text: RwSignal<String>, again: RwSignal<String>, enter: Callback<()>) -> AnyView {
        self.boxes(vec![(text, ""), (again, ", once more")], enter)
    }

    fn boxes(self, texts: Vec<(RwSignal<String>, &'static str)>, enter: Callback<()>) -> AnyView {
        let shown = RwSignal::new(false);
        let kind = words(move || if shown.get() { "text" } else { "password" }.into());
        let mut boxes = Vec::new();
        for (text, second) in texts {
            let key = if second.is_empty() { self.key.to_owned() } else { [self.key, "-again"].concat() };
            boxes.push(
                view! {
                    <div class="entry">
                        <label for=key.clone()>{[self.label, second].concat()}</label>
                        <input
                            id=key
                            type=kind
                            autocomplete="off"
                            autocapitalize="off"
                            spellcheck="false"
                            translate="no"
                            prop:value=text
                            on:input:target=move |event| text.set(event.target().value())
                            on:keydown=move |event| if event.key() == "Enter" { enter.run(()) }
                        />
                    </div>
                }
                .into_any(),
            );
        }
        let on_tick = Callback::new(move |on| shown.set(on));
        boxes.push(view! { <Tick key=[self.key, "-show"].concat() label=self.show on=shown.into() on_tick=on_tick/> }.into_any());
        boxes.into_any()
    }
}
