//! One file per place: assembles controls and the answer.
#![allow(unreachable_pub, reason = "the component macro makes public parts that the module re-exports under their own names")]

mod bench;
mod chosen;
mod fit;
mod goals;
mod ladder;
mod person;
mod sheets;

pub use bench::BenchPlace;
pub use fit::FitPlace;
pub use goals::GoalsPlace;
pub use ladder::{LadderAside, LadderPlace};
pub use person::PersonPlace;
pub use sheets::SheetsPlace;

use crate::model::draft::Draft;
use crate::ui::{Case, Place};
use leptos::prelude::*;

/// The heading of a place; takes the focus when one comes to the place.
#[component]
fn Heading(
    /// The place.
    place: Place,
    /// What is done here, in one line.
    purpose: &'static str,
) -> impl IntoView {
    view! {
        <header class="place-head">
            <h1 id=place.heading_id() tabindex="-1">{place.name()}</h1>
            <p class="purpose">{purpose}</p>
        </header>
    }
    .into_any()
}

/// A choice of the draft for [`crate::ui::Choice`]: what it is now, and how it is set.
fn choice<T: Copy + PartialEq + Send + Sync + 'static>(
    case: Case,
    read: fn(&Draft) -> T,
    write: fn(&mut Draft, T),
) -> (Signal<T>, Callback<T>) {
    let chosen = Signal::derive(move || read(&case.draft.read()));
    let choose = Callback::new(move |value| case.draft.update(|draft| write(draft, value)));
    (chosen, choose)
}

/// Every choice of an enum with its label.
macro_rules! options {
    ($choice:ident) => {
        $choice::ALL.iter().map(|choice| (*choice, choice.label().to_owned())).collect::<Vec<_>>()
    };
}
use options;

/// The button to the next place.
#[component]
fn Next(
    /// Where it leads.
    to: Place,
    /// What will be done there.
    label: &'static str,
) -> impl IntoView {
    let case = crate::ui::use_case();
    let go = move |_| {
        case.place.set(to);
        crate::platform::focus_soon(to.heading_id());
    };
    view! { <p class="next"><button type="button" class="main" on:click=go>{label}</button></p> }.into_any()
}
