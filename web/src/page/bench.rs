//! Bench: which aid.

use super::compared::ComparedAids;
use super::kit::SmallestSet;
use super::list::AidList;
use super::looked::Looked;
use super::{Heading, Next, Waits, choose};
use crate::model::draft::{CorrectionChoice, EyeChoice};
use crate::model::words::PROMPTS;
use crate::model::{shown, summary};
use crate::ui::{Part, Pick, Place, is, items, live, use_case};
use leptos::prelude::*;

/// The aids of the list for the goal and the eye, the one looked at in full, and the smallest set for all goals.
#[component]
pub fn BenchPlace() -> impl IntoView {
    let case = use_case();
    let needed = case.of_answer(summary::power).signal();
    let ways = case.of_answer(shown::any_power);
    let prompts = items(PROMPTS.iter().map(|prompt| (*prompt).to_owned()).collect());
    view! {
        <Heading place=Place::Bench purpose="Every aid of the list against the goal. The lowest power that does it costs the least field."/>
        <p class="answer" id="bench-needed">{needed}</p>
        <div hidden=is(move || ways.get().is_empty())>
            <p class="help">"Of any power, whatever the list holds:"</p>
            <ul id="any-power" class="help">{live(move || items(ways.get()))}</ul>
        </div>
        <div class="row">
            <ServedGoal/>
            {choose!(case, "bench-eye", "Looks through the aid", EyeChoice, bench.eye)}
        </div>
        <Waits/>
        <ComparedAids/>
        <Looked/>
        <SmallestSet/>
        <AidList/>
        <details class="limits">
            <summary id="bench-more">"More choices, and things to think about with a telescope"</summary>
            {choose!(case, "bench-correction", "The refraction behind a telescope is", CorrectionChoice, bench.correction)}
            <ul>{prompts}</ul>
        </details>
        <Next to=Place::Fit label="On to the fit"/>
    }
    .into_any()
}

/// Which of several goals the aids are measured against.
#[component]
fn ServedGoal() -> impl IntoView {
    let case = use_case();
    let names =
        case.of_answer(|answer| answer.goals.iter().map(|goal| goal.name.clone()).collect::<Vec<_>>());
    let served = case.of_answer(|answer| answer.goal).signal();
    let choose = Callback::new(move |place| case.draft.update(|draft| draft.bench.goal = place));
    let alone = Part::new(move || names.get().len() < 2);
    let pick = live(move || {
        view! { <Pick key="bench-goal" label="Goal" options=names.get() chosen=served on_choose=choose/> }
            .into_any()
    });
    view! { <div hidden=is(move || alone.get())>{pick}</div> }.into_any()
}
