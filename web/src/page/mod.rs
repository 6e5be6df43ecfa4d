//! One file per place: assembles controls and the answer.
#![allow(
    unreachable_pub,
    reason = "the component macro makes public parts that the module re-exports under their own names"
)]

mod bench;
mod compared;
mod fit;
mod goals;
mod handed;
mod keep;
mod keep_device;
mod keep_file;
mod keep_lock;
mod kit;
mod ladder;
mod list;
mod looked;
mod person;
mod sheets;
mod shelf;
mod tradeoff;
mod trial;

pub use bench::BenchPlace;
pub use fit::FitPlace;
pub use goals::GoalsPlace;
pub use keep::{KeepNotes, KeepTools};
pub use keep_device::KeptBadge;
pub use keep_lock::{Locked, NearBar};
pub use ladder::{LadderAside, LadderPlace};
pub use person::PersonPlace;
pub use sheets::SheetsPlace;

use crate::model::draft::Draft;
use crate::ui::{Case, Missing, Place, live};
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

/// A choice of the draft as radio buttons: `choose!(case, "paper", "Paper", Paper, order.paper)`.
macro_rules! choose {
    ($case:expr, $key:expr, $legend:literal, $choice:ident, $($place:ident).+) => {{
        let case = $case;
        let place = |choice: $choice| $choice::ALL.iter().position(|one| *one == choice).unwrap_or_default();
        let chosen = leptos::prelude::Signal::derive(move || place(case.draft.read().$($place).+));
        let on_choose = leptos::prelude::Callback::new(move |place: usize| {
            if let Some(choice) = $choice::ALL.get(place) {
                case.draft.update(|draft| draft.$($place).+ = *choice);
            }
        });
        let options = $choice::ALL.iter().map(|choice| choice.label()).collect::<Vec<_>>();
        leptos::prelude::view! {
            <crate::ui::Choice key=$key legend=$legend options=options chosen=chosen on_choose=on_choose/>
        }
    }};
}
use choose;

/// A yes or no of the draft: what it is now, and how it is set.
fn yes_or_no(
    case: Case,
    read: fn(&Draft) -> bool,
    write: fn(&mut Draft, bool),
) -> (Signal<bool>, Callback<bool>) {
    let on = Signal::derive(move || read(&case.draft.read()));
    (on, Callback::new(move |value| case.draft.update(|draft| write(draft, value))))
}

/// What has to be known before anything can be compared; nothing once it is.
#[component]
fn Waits() -> impl IntoView {
    let case = crate::ui::use_case();
    let waits = case.of_answer(|answer| {
        let first = answer.undecided.iter().filter(|item| !item.waits_for.is_empty()).take(2);
        if !answer.aids_wait_for.is_empty() { first.cloned().collect() } else { Vec::new() }
    });
    live(move || {
        let items = waits.get();
        if items.is_empty() {
            return ().into_any();
        }
        let items = items.into_iter().map(|item| {
            view! { <p>"Undecided: " {item.what}</p> <Missing fields=item.waits_for/> }.into_any()
        });
        view! { <p>"Nothing can be compared yet."</p> {items.collect_view()} }.into_any()
    })
}

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
