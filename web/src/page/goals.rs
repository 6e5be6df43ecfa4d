//! Goals: what is wished for.

use super::{Heading, Next};
use crate::model::answer::Answer;
use crate::model::case_file::MOST_GOALS;
use crate::model::draft::{GoalDraft, GoalKind};
use crate::model::field::FieldId;
use crate::model::{format, summary};
use crate::ui::{Choice, Entry, Place, Working, is, live, use_case, when};
use arcminute_core::explain::{Explain, Step};
use leptos::prelude::*;

/// The wishes: each an acuity to reach, or something of known size at a known distance.
#[component]
pub fn GoalsPlace() -> impl IntoView {
    let case = use_case();
    let count = case.of_draft(move |draft| draft.goals.len());
    let goals = live(move || {
        (0..count.get()).map(|index| view! { <OneGoal index=index/> }.into_any()).collect_view()
    });
    let add = move |_| {
        case.draft.update(|draft| {
            draft.goals.push(GoalDraft { kind: GoalKind::Target, ..GoalDraft::default() });
            draft.bench.goal = draft.goals.len() - 1;
        });
        crate::platform::focus_soon(FieldId::GoalName(untrack(move || count.get()) - 1).info().key);
    };
    let needed = case.of_answer(summary::power).signal();
    let steps = case.of_answer(working);
    view! {
        <Heading place=Place::Goals purpose="What the person wants to see. The goal marked as served is the one the ladder and Bench work for."/>
        <p class="answer" id="needed">{needed}</p>
        <Working key="goals-working" of="the power needed" steps=steps/>
        {goals}
        <p><button type="button" id="add-goal" on:click=add disabled=is(move || MOST_GOALS <= count.get())>"Add a goal"</button></p>
        <Next to=Place::Bench label="On to the telescopes"/>
    }
    .into_any()
}

fn working(answer: &Answer) -> Vec<Step> {
    let mut steps = Vec::new();
    if let Some(arcminute_core::acuity::Reading::Measured(acuity)) = &answer.viewing().acuity {
        steps.extend(acuity.steps());
    }
    steps.extend(
        answer.goal_answer().and_then(|goal| goal.demand).map(|demand| demand.steps()).unwrap_or_default(),
    );
    steps.extend(answer.needed.map(|needed| needed.steps()).unwrap_or_default());
    steps.extend(
        answer.goal_answer().and_then(|goal| goal.print).map(|print| print.steps()).unwrap_or_default(),
    );
    steps
}

#[component]
fn OneGoal(
    /// Its place in the list.
    index: usize,
) -> impl IntoView {
    let case = use_case();
    let served = case.of_draft(move |draft| draft.bench.goal == index).signal();
    let kind = case.of_draft(move |draft| draft.goals.get(index).map(|goal| goal.kind).unwrap_or_default());
    let only = case.of_draft(move |draft| draft.goals.len() == 1);
    let key = format!("goal-{}", index + 1);
    let take_away = move |_| {
        case.draft.update(|draft| {
            draft.goals.remove(index);
            if index <= draft.bench.goal {
                draft.bench.goal = draft.bench.goal.saturating_sub(1);
            }
        });
    };
    let boxes = live(move || {
        match kind.get() {
        GoalKind::Acuity => view! {
            <Entry field=FieldId::GoalAcuity(index)/>
            <div class="row">
                <Entry field=FieldId::GoalPrint(index)/>
                <Entry field=FieldId::GoalReserve(index)/>
            </div>
            <p class="help">"The reserve is that of the print; the acuity has none."</p>
        }
        .into_any(),
        GoalKind::Target => view! {
            <div class="row">
                <Entry field=FieldId::GoalHeight(index)/>
                <Entry field=FieldId::GoalDistance(index)/>
                <Entry field=FieldId::GoalReserve(index)/>
                <Entry field=FieldId::GoalWidth(index)/>
                <Entry field=FieldId::GoalPrint(index)/>
            </div>
            <p class="help">
                "Reserve: 2 for reading with ease (Cheong et al. 2002); about 1 for spotting (from memory). It is yours to set."
            </p>
        }
        .into_any(),
    }
    });
    let place = |kind: GoalKind| GoalKind::ALL.iter().position(|one| *one == kind).unwrap_or_default();
    let chosen = Signal::derive(move || place(kind.get()));
    let choose = Callback::new(move |place: usize| {
        case.draft.update(|draft| {
            if let (Some(goal), Some(kind)) = (draft.goals.get_mut(index), GoalKind::ALL.get(place)) {
                goal.kind = *kind;
            }
        });
    });
    let kinds = GoalKind::ALL.iter().map(|kind| kind.label()).collect::<Vec<_>>();
    let asks = case.of_answer(move |answer| asks(answer, index)).signal();
    view! {
        <section class="goal" class:served=served aria-labelledby=format!("{key}-head")>
            <h2 id=format!("{key}-head")>"Goal " {index + 1}</h2>
            <div class="radio">
                <input
                    type="radio"
                    id=format!("{key}-served")
                    name="goal-served"
                    prop:checked=served
                    on:change=move |_| case.draft.update(|draft| draft.bench.goal = index)
                />
                <label for=format!("{key}-served")>"Served by the ladder and Bench"</label>
            </div>
            <Entry field=FieldId::GoalName(index)/>
            <Choice key=format!("{key}-kind") legend="What kind of goal" options=kinds chosen=chosen on_choose=choose/>
            {boxes}
            <p class="answer" id=format!("{key}-asks")>{asks}</p>
            {when(
                move || !only.get(),
                move || view! { <button type="button" on:click=take_away>"Take this goal away"</button> }.into_any(),
            )}
        </section>
    }
    .into_any()
}

/// What the goal asks for and how far the person is from it.
fn asks(answer: &Answer, index: usize) -> String {
    let Some(demand) = answer.goals.get(index).and_then(|goal| goal.demand) else { return String::new() };
    let asks = format!(
        "Asks for {}: detail of {}.",
        answer.acuity(demand.to_reach),
        format::arcmin(demand.to_reach.mar())
    );
    match answer.viewing().log_mar() {
        None => asks,
        Some(now) => {
            let short = (now - demand.to_reach).log() * 10.0;
            let eye = answer.eye.label();
            if short <= 1e-9 {
                format!("{asks} The {eye} reaches it without an aid.")
            } else {
                format!("{asks} The {eye} is {} steps of 0.1 log short.", format::trimmed(short, 1))
            }
        }
    }
}
