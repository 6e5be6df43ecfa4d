//! Ladder: where the person stands, how far the goal is, how far each power climbs.

use super::{Heading, Next, Waits};
use crate::model::answer::Answer;
use crate::model::shown;
use crate::model::summary;
use crate::model::words::Where;
use crate::plot::Drawing;
use crate::plot::ladder::{LadderArrow, LadderInput, ladder};
use crate::ui::{Cautions, Compare, Picture, Place, Working, is, live, use_case, when, words};
use arcminute_core::acuity::{Reading, written};
use arcminute_core::explain::Explain;
use arcminute_core::unit::Magnification;
use leptos::prelude::*;

/// The picture of the case.
pub(super) fn picture(answer: &Answer) -> Option<Drawing> {
    let now = answer.viewing().log_mar()?;
    // The open one first: what the arrows reach is said of it.
    let (mut goals, mut others) = (Vec::new(), Vec::new());
    for (index, goal) in answer.goals.iter().enumerate() {
        if let Some(demand) = goal.demand {
            let list = if index == answer.goal { &mut goals } else { &mut others };
            list.push((goal.name.clone(), demand.to_reach));
        }
    }
    goals.append(&mut others);
    let mut arrows = whole_powers_near_the_goal(answer);
    if let Some((row, outcome)) = answer.chosen_outcome() {
        let label = crate::model::format::times(row.device.power_times);
        arrows.retain(|arrow| arrow.label != label);
        let magnification = outcome.in_use;
        // The others are in order.
        let place = arrows.iter().position(|other| magnification.size() < other.magnification.size());
        let reaches = outcome.prediction.reach;
        arrows.insert(
            place.unwrap_or(arrows.len()),
            LadderArrow { label, magnification, reaches, chosen: true },
        );
    }
    let scale = answer.scale;
    Some(ladder(&LadderInput {
        person: now,
        person_label: recorded(answer).unwrap_or_else(|| written(now, answer.scale).to_string()),
        retest_limit: answer.retest_limit?,
        goals,
        arrows,
        label: &move |value| written(value, scale).to_string(),
    }))
}

/// The acuity as it was recorded, letters and all.
fn recorded(answer: &Answer) -> Option<String> {
    match answer.viewing().acuity.as_ref()? {
        Reading::Measured(acuity) => Some(acuity.notation.to_string()),
        Reading::Category(_) => None,
    }
}

/// The lowest whole power that reaches the goal and its neighbours; all when there is none.
fn whole_powers_near_the_goal(answer: &Answer) -> Vec<LadderArrow> {
    let lowest = answer.powers.iter().position(|row| row.lowest);
    let near = |index: usize| lowest.is_none_or(|lowest| index.abs_diff(lowest) <= 1);
    let rows = answer.powers.iter().enumerate().filter(|(index, _)| near(*index));
    rows.map(|(_, row)| LadderArrow {
        label: crate::model::format::times(row.power),
        magnification: Magnification::from_times(row.power),
        reaches: row.prediction.reach,
        chosen: false,
    })
    .collect()
}

/// The ladder as a place of its own, with the whole powers in numbers.
#[component]
pub fn LadderPlace() -> impl IntoView {
    let case = use_case();
    let drawing = case.of_answer(picture);
    let needed = case.of_answer(summary::power).signal();
    let rows = case.of_answer(shown::powers);
    let steps = case.of_answer(|answer| {
        let row = answer.powers.iter().find(|row| row.lowest);
        row.map(Explain::steps).unwrap_or_default()
    });
    let body = move || {
        live(move || {
            rows.get()
            .into_iter()
            .map(|row| {
                view! {
                    <tr class:lowest=row.lowest role="row">
                        <th scope="row" role="rowheader">{row.power} {row.lowest.then_some(" lowest whole power")}</th>
                        <td role="cell" data-what="Acuity predicted">{row.acuity}</td>
                        <td role="cell" data-what="Band (95 %)">{row.band}</td>
                        <td role="cell" data-what="Chance of the goal">{row.chance}</td>
                        <td role="cell" data-what="Goal">{row.reach_short}</td>
                        <td role="cell" data-what="Usual field">{row.field}</td>
                    </tr>
                }
                .into_any()
            })
            .collect_view()
        })
    };
    view! {
        <Heading place=Place::Ladder purpose="Up is finer. The person stands on a rung; each power climbs its own length."/>
        <p class="answer" id="ladder-needed">{needed}</p>
        <Waits/>
        <Picture key="ladder-picture" drawing=drawing/>
        {when(move || !rows.get().is_empty(), move || view! {
            <h2>"Whole powers"</h2>
            <Compare
                key="powers"
                columns=&["Power", "Acuity predicted", "Band (95 %)", "Chance of the goal", "Goal", "Usual field"]
                rows=body()
            />
            <p class="help">
                "Usual field: 50° of apparent field shared by the power, for spectacle-mounted Keplerians; common practice, no source. The band and chance hold for repeats of the test that scatter by the retest limit (assumed normal)."
            </p>
            <Working key="ladder-working" of="the lowest whole power" steps=steps/>
        }.into_any())}
        <Cautions places=vec![Where::Prediction]/>
        <Next to=Place::Bench label="On to the aids"/>
    }
    .into_any()
}

/// The ladder beside Goals and Bench: a column on a wide screen, a strip on a phone.
#[component]
pub fn LadderAside() -> impl IntoView {
    let case = use_case();
    let drawing = case.of_answer(picture);
    let needed = case.of_answer(summary::power).signal();
    let open = RwSignal::new(false);
    view! {
        <aside class="beside" class:open=open aria-label="Ladder" hidden=is(move || drawing.get().is_none())>
            <button
                type="button"
                class="strip"
                aria-expanded=words(move || open.get().to_string())
                on:click=move |_| open.update(|open| *open = !*open)
            >
                "Ladder: " {needed}
            </button>
            <div class="beside-body"><Picture key="ladder-beside" drawing=drawing/></div>
        </aside>
    }
    .into_any()
}
