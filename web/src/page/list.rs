//! The list of aids: which one is in use, how another is loaded, and what of a file was not taken.

use crate::model::list::{self, MOST_BYTES, Reading};
use crate::platform::{self, Chosen};
use crate::ui::{Tick, is, items, live, use_case, when, words};
use leptos::html::Input;
use leptos::prelude::*;
use std::sync::Arc;

/// What the last file gave: its words, and each thing that was not taken.
type Told = (String, Vec<String>);

/// The list in use, and all that can be done with it.
#[component]
pub(super) fn AidList() -> impl IntoView {
    let case = use_case();
    let open = RwSignal::new(false);
    let told: RwSignal<Told> = RwSignal::new(Told::default());
    let kept = RwSignal::new(platform::kept_list().is_some());
    let in_use = words(move || in_use(&case.list.read()));
    let file: NodeRef<Input> = NodeRef::new();
    let load = move |_| {
        if let Some(input) = file.get_untracked() {
            platform::read_chosen(&input, MOST_BYTES as f64, move |chosen| {
                let (list, words) = taken(chosen);
                if let Some((name, reading)) = list {
                    case.list.set(Arc::new((name, reading)));
                    kept.set(kept.get_untracked() && keep(&case.list.read_untracked().1));
                }
                told.set(words);
            });
        }
    };
    let back = move |_| {
        case.list.set(Arc::new((String::new(), list::demo().clone())));
        platform::forget_list();
        kept.set(false);
        told.set(("The demonstration list is in use.".into(), Vec::new()));
    };
    let on_keep = Callback::new(move |on: bool| {
        if on {
            kept.set(keep(&case.list.read_untracked().1));
        } else {
            platform::forget_list();
            kept.set(false);
        }
    });
    let save = move |json: bool| {
        let list = &case.list.read_untracked().1;
        if json {
            platform::hand_over("aids.json", "application/json", &list::write_json(&list.about, &list.list));
        } else {
            platform::hand_over("aids.csv", "text/csv", &list::write_csv(&list.list));
        }
    };
    let troubles = live(move || items(told.read().1.clone()));
    view! {
        <section id="aid-list" aria-labelledby="aid-list-head">
            <h2 id="aid-list-head">"The list of aids"</h2>
            <p id="aid-list-in-use">{in_use}</p>
            <button
                type="button"
                class="fold"
                id="aid-list-change"
                aria-expanded=words(move || open.get().to_string())
                on:click=move |_| open.update(|open| *open = !*open)
            >
                {words(move || if open.get() { "Hide" } else { "Load or save a list" }.into())}
            </button>
            {when(move || open.get(), move || view! {
                <div class="entry">
                    <label for="aid-list-file">"Load your own list"</label>
                    <p class="help" id="aid-list-file-help">"A table saved as CSV, or JSON. It is read here and goes nowhere; each row is checked."</p>
                    <input
                        type="file"
                        id="aid-list-file"
                        accept=".csv,.tsv,.txt,.json"
                        aria-describedby="aid-list-file-help"
                        node_ref=file
                        on:change=load
                    />
                </div>
                <div class="row">
                    <button type="button" id="aid-list-template" on:click=move |_| platform::hand_over("aids-template.csv", "text/csv", &list::template_csv())>"Save a template to fill in"</button>
                    <button type="button" id="aid-list-csv" on:click=move |_| save(false)>"Save this list as a table"</button>
                    <button type="button" id="aid-list-json" on:click=move |_| save(true)>"Save this list as JSON"</button>
                    <button type="button" id="aid-list-demo" on:click=back>"Back to the demonstration list"</button>
                </div>
                <Tick key="aid-list-keep" label="Keep this list on this computer (only the list, nothing of a person)" on=kept.into() on_tick=on_keep/>
            }.into_any())}
            <p id="aid-list-told" role="status">{words(move || told.read().0.clone())}</p>
            <ul id="aid-list-troubles" hidden=is(move || told.read().1.is_empty())>{troubles}</ul>
        </section>
    }
    .into_any()
}

fn keep(reading: &Reading) -> bool {
    platform::keep_list(&list::write_csv(&reading.list))
}

fn in_use((name, reading): &(String, Reading)) -> String {
    let count = reading.list.len();
    if name.is_empty() {
        format!("{} {count} aids.", list::DEMO_ABOUT)
    } else {
        format!("In use: {name}, {count} aids.")
    }
}

/// The list of a file, if any row of it can be used, and what to say of it.
fn taken(chosen: Chosen) -> (Option<(String, Reading)>, Told) {
    let (name, bytes) = match chosen {
        Chosen::TooLarge { name } => {
            let most = MOST_BYTES / 1_000_000;
            let words =
                format!("{name} is larger than {most} MB, so it is no list of aids; the list in use stays.");
            return (None, (words, Vec::new()));
        }
        Chosen::Unreadable { name } => {
            let words = format!(
                "{name} could not be read; the list in use stays. Choose it again, or another copy of it."
            );
            return (None, (words, Vec::new()));
        }
        Chosen::Read { name, bytes } => (name, bytes),
    };
    let reading = list::read(&bytes);
    let mut troubles: Vec<String> = reading.troubles.iter().map(ToString::to_string).collect();
    troubles.extend(reading.and_more());
    let count = reading.list.len();
    if count == 0 {
        return (None, (format!("No aid of {name} could be used; the list in use stays."), troubles));
    }
    let words = match reading.left_out() {
        0 => format!("{name}: {count} aids taken."),
        1 => format!("{name}: {count} aids taken, 1 row left out."),
        left => format!("{name}: {count} aids taken, {left} rows left out."),
    };
    (Some((name, reading)), (words, troubles))
}
