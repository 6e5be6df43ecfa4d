//! The shell: header, places, and the voice that says results aloud.

use crate::model::draft::Draft;
use crate::model::{demo, summary};
use crate::page::{
    BenchPlace, FitPlace, GoalsPlace, KeepNotes, KeepTools, KeptBadge, LadderAside, LadderPlace, Locked,
    NearBar, PersonPlace, SheetsPlace,
};
use crate::platform;
use crate::ui::{Case, Part, Place, live, when, words};
use leptos::prelude::*;
use std::time::Duration;

/// Pause in typing after which the result is said.
const QUIET: Duration = Duration::from_millis(500);

/// The whole page, or nothing but the lock.
#[component]
pub fn App() -> impl IntoView {
    let case = Case::new();
    provide_context(case);
    case.watch();
    let locked = case.keep.locked;
    view! {
        {when(move || locked.get(), || view! { <Locked/> }.into_any())}
        {when(move || !locked.get(), || view! { <Shell/> }.into_any())}
    }
    .into_any()
}

/// Header, places, the place shown, and the voice.
#[component]
fn Shell() -> impl IntoView {
    let case = crate::ui::use_case();
    let beside = move || matches!(case.place.get(), Place::Goals | Place::Bench);
    let shown = live(move || match case.place.get() {
        Place::Person => view! { <PersonPlace/> }.into_any(),
        Place::Goals => view! { <GoalsPlace/> }.into_any(),
        Place::Ladder => view! { <LadderPlace/> }.into_any(),
        Place::Bench => view! { <BenchPlace/> }.into_any(),
        Place::Fit => view! { <FitPlace/> }.into_any(),
        Place::Sheets => view! { <SheetsPlace/> }.into_any(),
    });
    view! {
        <a class="skip" href="#work">"Skip to the work"</a>
        <NearBar/>
        <Header/>
        <div class="frame">
            <Places/>
            {when(beside, || view! { <LadderAside/> }.into_any())}
            <main id="work" tabindex="-1">{shown}</main>
        </div>
        <Voice/>
    }
    .into_any()
}

/// Name, case label, new case, demonstration cases.
#[component]
fn Header() -> impl IntoView {
    let case = crate::ui::use_case();
    let asking = RwSignal::new(false);
    let open = RwSignal::new(false);
    let wipe = move || {
        case.begin(Draft::default());
        asking.set(false);
        open.set(false);
    };
    let load = move |draft: Draft| {
        asking.set(false);
        open.set(false);
        case.begin_or_ask(draft);
    };
    let wipe_or_ask = move |_| {
        if case.draft.read() == Draft::default() { wipe() } else { asking.set(true) }
    };
    view! {
        <header class="top">
            <p class="mark">"Arcminute"</p>
            <p class="promise">"Nothing you type leaves this page unless you save or print it."</p>
            <div class="case-tools">
                <button type="button" id="new-case" on:click=wipe_or_ask>"New case"</button>
                <button
                    type="button"
                    id="demo-menu"
                    aria-expanded=words(move || open.get().to_string())
                    aria-controls="demo-list"
                    on:click=move |_| open.update(|open| *open = !*open)
                >
                    "Demonstration cases"
                </button>
                <KeepTools/>
            </div>
            <KeptBadge/>
            <KeepNotes/>
            {when(move || asking.get(), move || view! {
                <div class="ask" role="group" aria-label="New case">
                    <p>"Everything typed in this case will be wiped from the page. Files, and what is kept on this device, stay."</p>
                    <button type="button" id="wipe" on:click=move |_| wipe()>"Wipe it"</button>
                    <button type="button" on:click=move |_| asking.set(false)>"Keep it"</button>
                </div>
            }.into_any())}
            {when(move || open.get(), move || view! { <Demos load=Callback::new(load)/> }.into_any())}
        </header>
    }
    .into_any()
}

/// The demonstration cases.
#[component]
fn Demos(
    /// Takes the case into the page.
    load: Callback<Draft>,
) -> impl IntoView {
    let items = demo::CASES
        .iter()
        .map(|demo| {
            let about = demo.file().about;
            view! {
                <li>
                    <button type="button" id=format!("demo-{}", demo.id) on:click=move |_| load.run(demo.case())>
                        {about}
                    </button>
                </li>
            }
            .into_any()
        })
        .collect_view();
    view! { <ul id="demo-list" class="demos">{items}</ul> }.into_any()
}

/// The places, as a rail or a bar.
#[component]
fn Places() -> impl IntoView {
    let case = crate::ui::use_case();
    let places = Place::ALL
        .into_iter()
        .map(|place| {
            let go = move |_| {
                case.place.set(place);
                platform::focus_soon(place.heading_id());
            };
            let current = move || (case.place.get() == place).then_some("page");
            let id = format!("go-{}", place.name().to_ascii_lowercase());
            view! { <li><button type="button" id=id aria-current=current on:click=go>{place.name()}</button></li> }.into_any()
        })
        .collect_view();
    view! { <nav class="places" aria-label="Places"><ul>{places}</ul></nav> }.into_any()
}

/// Says the result in one sentence once typing has paused.
#[component]
fn Voice() -> impl IntoView {
    let case = crate::ui::use_case();
    let sentence = Part::new(move || {
        let (answer, looked) = (case.answer.read(), case.looked.read());
        summary::sentence(&answer, looked.as_deref())
    });
    let said = case.keep.said;
    let pending: StoredValue<Option<TimeoutHandle>> = StoredValue::new(None);
    let hush = move || {
        if let Some(pending) = pending.try_update_value(Option::take).flatten() {
            pending.clear();
        }
    };
    Effect::new(move |_| {
        let next = sentence.get();
        hush();
        pending.set_value(set_timeout_with_handle(move || said.set(next), QUIET).ok());
    });
    // What was about to be said of a case that is gone stays unsaid.
    on_cleanup(hush);
    view! { <p id="voice" class="for-ears" role="status" aria-live="polite">{said}</p> }.into_any()
}
