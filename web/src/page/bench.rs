//! Bench: which telescope.

use super::chosen::Chosen;
use super::{Heading, Next, choice, options};
use crate::model::draft::{CorrectionChoice, EyeChoice};
use crate::model::shown::{self, Row};
use crate::model::words::PROMPTS;
use crate::model::{devices, summary};
use crate::ui::{Choice, Missing, Place, use_case};
use leptos::prelude::*;

/// The telescopes of the list for the goal and the eye, and the chosen one in full.
#[component]
pub fn BenchPlace() -> impl IntoView {
    let case = use_case();
    let (eye, set_eye) = choice(case, |d| d.bench.eye, |d, value| d.bench.eye = value);
    let (correction, set_correction) = choice(case, |d| d.bench.correction, |d, value| d.bench.correction = value);
    let needed = case.of_answer(summary::power);
    let count = case.of_answer(|answer| answer.bench.len());
    let waits = case.of_answer(|answer| {
        let all = answer.undecided.iter();
        all.filter(|item| !item.waits_for.is_empty()).take(2).cloned().collect::<Vec<_>>()
    });
    let rows = move || (0..count.get()).map(|index| view! { <OneTelescope index=index/> }).collect_view();
    let prompts = PROMPTS.iter().map(|prompt| view! { <li>{*prompt}</li> }).collect_view();
    view! {
        <Heading place=Place::Bench purpose="Every telescope of the list against the goal. The lowest power that does it costs the least field."/>
        <p class="answer" id="bench-needed">{needed}</p>
        <div class="row">
            <Choice key="bench-eye" legend="Looks through the telescope" options=options!(EyeChoice) chosen=eye on_choose=set_eye/>
            <Choice key="bench-correction" legend="The refraction is" options=options!(CorrectionChoice) chosen=correction on_choose=set_correction/>
        </div>
        <Show when=move || count.get() == 0>
            <p>"Nothing can be compared yet."</p>
            {move || waits.get().into_iter().map(|item| view! { <p>"Undecided: " {item.what}</p> <Missing fields=item.waits_for/> }).collect_view()}
        </Show>
        <Show when=move || 0 < count.get()>
            <h2>"Telescopes"</h2>
            <p class="help">{devices::demo().about.clone()}</p>
            <div class="compare">
                <table id="telescopes" role="table">
                    <thead role="rowgroup">
                        <tr role="row">
                            <th scope="col" role="columnheader">"Telescope"</th>
                            <th scope="col" role="columnheader">"Acuity predicted"</th>
                            <th scope="col" role="columnheader">"Chance of the goal"</th>
                            <th scope="col" role="columnheader">"Field"</th>
                            <th scope="col" role="columnheader">"Light"</th>
                            <th scope="col" role="columnheader">"Focus"</th>
                            <th scope="col" role="columnheader">"Choose"</th>
                        </tr>
                    </thead>
                    <tbody role="rowgroup">{rows}</tbody>
                </table>
            </div>
        </Show>
        <Chosen/>
        <details class="limits"><summary>"Who does well with a telescope? Things to think about"</summary><ul>{prompts}</ul></details>
        <Next to=Place::Fit label="On to the fit"/>
    }
    .into_any()
}

#[component]
fn OneTelescope(
    /// Its place in the list.
    index: usize,
) -> impl IntoView {
    let case = use_case();
    let row = case.of_answer(move |answer| shown::row(answer, index));
    let chosen = case.of_answer(move |answer| answer.chosen == Some(index));
    move || row.get().map(|row| cells(row, chosen))
}

fn cells(row: Row, chosen: Memo<bool>) -> AnyView {
    let case = use_case();
    let id = row.id;
    let choose = move |_| case.draft.update(|draft| draft.bench.telescope = id.to_owned());
    let lowest = row.lowest.then(|| view! { <span class="tag">"lowest power that does it"</span> });
    let label = format!("Choose {} {}", row.marking, row.name);
    let numbers = match row.trouble {
        Some(trouble) => view! { <td role="cell" class="trouble" colspan="5" data-what="Cannot serve">{trouble}</td> }.into_any(),
        None => view! {
            <td role="cell" data-what="Acuity predicted">{row.acuity} <span class="band">" band " {row.band}</span></td>
            <td role="cell" data-what="Chance of the goal"><strong>{row.chance}</strong> " " {row.reach}</td>
            <td role="cell" data-what="Field">{row.field}</td>
            <td role="cell" data-what="Light">{row.light}</td>
            <td role="cell" data-what="Focus">{row.focus}</td>
        }
        .into_any(),
    };
    view! {
        <tr role="row" id=format!("telescope-{id}") class:serves=row.serves class:lowest=row.lowest class:chosen=chosen>
            <th scope="row" role="rowheader"><strong>{row.marking}</strong> " " {row.name} {lowest}</th>
            {numbers}
            <td role="cell" data-what="Choose">
                <button type="button" id=format!("choose-{id}") aria-label=label aria-pressed=move || chosen.get().to_string() on:click=choose>
                    {move || if chosen.get() { "Chosen" } else { "Choose" }}
                </button>
            </td>
        </tr>
    }
    .into_any()
}
