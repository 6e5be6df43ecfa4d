//! Bench: which telescope.

use super::aids::OtherAids;
use super::chosen::Chosen;
use super::{Heading, Next, Waits, choose};
use crate::model::draft::{CorrectionChoice, EyeChoice};
use crate::model::shown::{self, Row};
use crate::model::words::PROMPTS;
use crate::model::{devices, summary};
use crate::ui::{Compare, Part, Place, is, items, live, use_case, when, words};
use leptos::prelude::*;

/// The telescopes of the list for the goal and the eye, and the chosen one in full.
#[component]
pub fn BenchPlace() -> impl IntoView {
    let case = use_case();
    let needed = case.of_answer(summary::power).signal();
    let count = case.of_answer(|answer| answer.bench.len());
    let all = RwSignal::new(false);
    let away =
        case.of_answer(|answer| (0..answer.bench.len()).filter(|index| !shown::near(answer, *index)).count());
    let rows = move || {
        live(move || {
            (0..count.get())
                .map(|index| view! { <OneTelescope index=index all=all/> }.into_any())
                .collect_view()
        })
    };
    let prompts = items(PROMPTS.iter().map(|prompt| (*prompt).to_owned()).collect());
    view! {
        <Heading place=Place::Bench purpose="Every telescope of the list against the goal, and below them the other aids. The lowest power that does it costs the least field."/>
        <p class="answer" id="bench-needed">{needed}</p>
        <div class="row">
            {choose!(case, "bench-eye", "Looks through the telescope", EyeChoice, bench.eye)}
            {choose!(case, "bench-correction", "The refraction is", CorrectionChoice, bench.correction)}
        </div>
        <Waits/>
        {when(move || 0 < count.get(), move || view! {
            <h2>"Telescopes"</h2>
            <p class="help">{devices::demo().about.clone()}</p>
            <Compare
                key="telescopes"
                columns=&["Telescope", "Acuity, band (95 %)", "Chance of the goal", "Field", "Light", "Nearest focus", "Choose"]
                rows=rows()
            />
            <p hidden=is(move || away.get() == 0)>
                <button
                    type="button"
                    id="all-telescopes"
                    aria-expanded=words(move || all.get().to_string())
                    on:click=move |_| all.update(|all| *all = !*all)
                >
                    {words(move || fold_words(all.get(), away.get()))}
                </button>
            </p>
        }.into_any())}
        <Chosen/>
        <OtherAids/>
        <details class="limits"><summary>"Who does well with a telescope? Things to think about"</summary><ul>{prompts}</ul></details>
        <Next to=Place::Fit label="On to the fit"/>
    }
    .into_any()
}

#[component]
fn OneTelescope(
    /// Its place in the list.
    index: usize,
    /// Whether the telescopes far from the goal are shown too.
    all: RwSignal<bool>,
) -> impl IntoView {
    let case = use_case();
    let near = case.of_answer(move |answer| shown::near(answer, index));
    let folded = is(move || !all.get() && !near.get());
    let row = case.of_answer(move |answer| shown::row(answer, index));
    let chosen = case.of_answer(move |answer| answer.chosen == Some(index));
    live(move || row.get().map(|row| cells(row, chosen, folded)))
}

/// What the folding button says.
fn fold_words(all: bool, away: usize) -> String {
    if all {
        "Show only the telescopes near the goal".into()
    } else {
        format!("Show {away} more: too weak for the goal, or stronger than it needs")
    }
}

fn cells(row: Row, chosen: Part<bool>, folded: Signal<bool>) -> AnyView {
    let case = use_case();
    let id = row.id;
    let choose = move |_| case.draft.update(|draft| draft.bench.telescope = id.to_owned());
    let lowest =
        row.lowest.then(|| view! { <span class="tag">"lowest power that does it"</span> }.into_any());
    let word = move || if chosen.get() { "Chosen" } else { "Choose" };
    let of = format!("{} {}", row.marking, row.name);
    let label = words(move || format!("{} {of}", word()));
    let numbers = match row.trouble {
        Some(trouble) => view! { <td role="cell" class="trouble" colspan="5" data-what="Cannot serve">{trouble}</td> }.into_any(),
        None => view! {
            <td role="cell" data-what="Acuity predicted"><strong>{row.acuity}</strong> <span class="band">{row.band}</span></td>
            <td role="cell" data-what="Chance of the goal"><strong>{row.chance}</strong> <span class="band">{row.reach}</span></td>
            <td role="cell" data-what="Field">{row.field} <span class="band">{row.width}</span></td>
            <td role="cell" data-what="Light">{row.light}</td>
            <td role="cell" data-what="Nearest focus">{row.focus}</td>
        }
        .into_any(),
    };
    view! {
        <tr role="row" id=format!("telescope-{id}") hidden=folded class:lowest=row.lowest class:chosen=chosen.signal()>
            <th scope="row" role="rowheader">{row.marking} <span class="band">{row.name}</span> {lowest}</th>
            {numbers}
            <td role="cell" data-what="Choose">
                <button type="button" id=format!("choose-{id}") aria-label=label aria-pressed=words(move || chosen.get().to_string()) on:click=choose>
                    {words(move || word().into())}
                </button>
            </td>
        </tr>
    }
    .into_any()
}
