//! Goals: what is wished for.

use super::shelf::Shelf;
use super::{Heading, Next};
use crate::model::answer::Answer;
use crate::model::draft::{GoalDraft, GoalKind, Hands, HowWell, Posture, Priority};
use crate::model::field::{FieldId, boxes};
use crate::model::{goals, shown, summary};
use crate::platform::focus_soon;
use crate::ui::{Case, Choice, Entry, Pick, Place, Tick, Working, is, items, live, use_case, when, words};
use arcminute_core::acuity::Reading;
use arcminute_core::explain::{Explain, Step};
use leptos::prelude::*;

/// The wishes: found on the shelf or typed, one line each, the open one with its boxes.
#[component]
pub fn GoalsPlace() -> impl IntoView {
    let case = use_case();
    let count = case.of_draft(|draft| draft.goals.len());
    let folded = RwSignal::new(false);
    let gone: RwSignal<Option<(usize, GoalDraft)>> = RwSignal::new(None);
    let list = live(move || {
        (0..count.get())
            .map(|index| view! { <OneGoal index=index folded=folded gone=gone/> }.into_any())
            .collect_view()
    });
    let put_back = move |_| {
        if let Some((index, goal)) = gone.get_untracked() {
            folded.set(false);
            case.draft.update(|draft| {
                goals::put_back(draft, index, goal);
            });
            gone.set(None);
            focus_soon(opener(index));
        }
    };
    let taken = words(move || {
        let name = gone.read().as_ref().map(|(index, goal)| called(*index, &goal.name)).unwrap_or_default();
        format!("{name} was taken away.")
    });
    let steps = case.of_answer(working);
    view! {
        <Heading place=Place::Goals purpose="What the person wants to see. The ladder and Bench work for the wish that is open."/>
        <p class="answer" id="short">{case.of_answer(summary::short).signal()}</p>
        <p id="needed">{case.of_answer(summary::power).signal()}</p>
        <Working key="goals-working" of="the power needed" steps=steps/>
        <Shelf folded=folded/>
        <h2>"The wishes"</h2>
        <ol class="goals">{list}</ol>
        {when(move || gone.read().is_some(), move || view! {
            <p>{taken} " " <button type="button" id="put-back" on:click=put_back>"Put it back"</button></p>
        }.into_any())}
        <Next to=Place::Bench label="On to the aids"/>
    }
    .into_any()
}

/// Key of the button that opens a goal.
fn opener(index: usize) -> String {
    format!("goal-{}-open", index + 1)
}

/// A goal's own name, or its place in the list.
fn called(index: usize, name: &str) -> String {
    let name = name.trim();
    if name.is_empty() { format!("Goal {}", index + 1) } else { format!("“{name}”") }
}

fn working(answer: &Answer) -> Vec<Step> {
    let mut steps = Vec::new();
    if let Some(Reading::Measured(acuity)) = &answer.viewing().acuity {
        steps.extend(acuity.steps());
    }
    if let Some(goal) = answer.goal_answer() {
        steps.extend(goal.print.iter().flat_map(Explain::steps));
        steps.extend(goal.face.iter().flat_map(Explain::steps));
        steps.extend(goal.ends.iter().flat_map(Explain::steps));
        steps.extend(goal.of_eye(answer.eye).steps());
    }
    steps
}

/// One wish: its line, which opens it, and its boxes while it is open.
#[component]
fn OneGoal(
    /// Its place in the list.
    index: usize,
    /// Whether the open one is folded.
    folded: RwSignal<bool>,
    /// The one that was taken away last.
    gone: RwSignal<Option<(usize, GoalDraft)>>,
) -> impl IntoView {
    let case = use_case();
    let served = case.of_answer(move |answer| answer.goal == index).signal();
    let open = is(move || served.get() && !folded.get());
    let line = case.of_answer(move |answer| shown::goal_line(answer, index));
    let press = move |_| {
        if served.get_untracked() {
            folded.update(|folded| *folded = !*folded);
        } else {
            folded.set(false);
            case.draft.update(|draft| draft.bench.goal = index);
        }
    };
    let inside = live(move || {
        line.get().map(|line| {
            view! {
                <span class="goal-name">{line.name}</span>
                " "
                <span class="goal-asks">{line.asks}</span>
                " "
                <span class="goal-priority">{line.priority}</span>
            }
            .into_any()
        })
    });
    let body = format!("goal-{}-body", index + 1);
    view! {
        <li class="goal" class:served=served>
            <h3>
                <button
                    type="button"
                    class="goal-open"
                    id=opener(index)
                    aria-expanded=words(move || open.get().to_string())
                    aria-controls=body.clone()
                    on:click=press
                >
                    {inside}
                </button>
            </h3>
            <div id=body>{when(move || open.get(), move || view! { <Opened index=index gone=gone/> }.into_any())}</div>
        </li>
    }
    .into_any()
}

/// The boxes of the open wish, what it asks for, and what can be done with it.
#[component]
fn Opened(
    /// Its place in the list.
    index: usize,
    /// The one that was taken away last.
    gone: RwSignal<Option<(usize, GoalDraft)>>,
) -> impl IntoView {
    let case = use_case();
    let kind = case.of_draft(move |draft| draft.goals.get(index).map(|goal| goal.kind).unwrap_or_default());
    let first = entries(index, move || boxes(kind.get()).first);
    let more = entries(index, move || boxes(kind.get()).more);
    let reserved = move || matches!(kind.get(), GoalKind::Letters | GoalKind::Detail | GoalKind::Print);
    let asks = case.of_answer(move |answer| shown::goal_asks(answer, index)).signal();
    let notes =
        crate::ui::Part::new(move || shown::goal_notes(&case.answer.read(), &case.draft.read(), index));
    // A link from elsewhere may lead to a box in there.
    let trouble = untrack(move || {
        let answer = case.answer.read();
        boxes(kind.get()).more.iter().any(|make| answer.field(make(index)).is_trouble())
    });
    let key = move |part: &str| format!("goal-{}-{part}", index + 1);
    view! {
        <Entry field=FieldId::GoalName(index)/>
        {one_of!(case, index, GoalKind, kind, |options, chosen, on_choose| view! {
            <Choice key=key("kind") legend="What kind of goal" options=options chosen=chosen on_choose=on_choose/>
        })}
        <div class="row">{first}</div>
        <div hidden=is(move || !reserved())>
            {one_of!(case, index, HowWell, how_well, |options, chosen, on_choose| view! {
                <Choice key=key("how-well") legend="How well" options=options chosen=chosen on_choose=on_choose/>
            })}
        </div>
        <p class="answer" id=key("asks")>{asks}</p>
        <ul class="goal-notes" id=key("notes")>{live(move || items(notes.get()))}</ul>
        <details open=trouble>
            <summary>"More about this wish"</summary>
            <div class="row">{more}</div>
            <div class="row">
                {one_of!(case, index, Priority, priority, |options, chosen, on_choose| pick(key("priority"), "How much it matters", options, chosen, on_choose))}
                {one_of!(case, index, Hands, hands, |options, chosen, on_choose| pick(key("hands"), "Hands", options, chosen, on_choose))}
                {one_of!(case, index, Posture, posture, |options, chosen, on_choose| pick(key("posture"), "Posture", options, chosen, on_choose))}
            </div>
            {tick(case, index, key("both-eyes"), "With both eyes", |goal| &mut goal.both_eyes)}
            {tick(case, index, key("time"), "It does not wait: a bus, a ball", |goal| &mut goal.time_critical)}
        </details>
        <Actions index=index gone=gone/>
    }
    .into_any()
}

/// Boxes that change with the kind of the goal.
fn entries(
    index: usize,
    which: impl Fn() -> &'static [fn(usize) -> FieldId] + Send + Sync + 'static,
) -> AnyView {
    live(move || which().iter().map(|make| view! { <Entry field=make(index)/> }.into_any()).collect_view())
}

/// A choice of one goal: `one_of!(case, index, Hands, hands, |options, chosen, on_choose| …)`.
macro_rules! one_of {
    ($case:expr, $index:expr, $choice:ident, $field:ident, |$options:ident, $chosen:ident, $on_choose:ident| $view:expr) => {{
        let (case, index) = ($case, $index);
        let $options: Vec<&'static str> = $choice::ALL.iter().map(|choice| choice.label()).collect();
        let $chosen = Signal::derive(move || {
            let now = case.draft.read().goals.get(index).map(|goal| goal.$field).unwrap_or_default();
            $choice::ALL.iter().position(|one| *one == now).unwrap_or_default()
        });
        let $on_choose = Callback::new(move |place: usize| {
            case.draft.update(|draft| {
                if let (Some(goal), Some(choice)) = (draft.goals.get_mut(index), $choice::ALL.get(place)) {
                    goal.$field = *choice;
                }
            });
        });
        $view
    }};
}
use one_of;

fn pick(
    key: String,
    label: &'static str,
    options: Vec<&'static str>,
    chosen: Signal<usize>,
    on_choose: Callback<usize>,
) -> AnyView {
    let options = options.into_iter().map(str::to_owned).collect();
    view! { <Pick key=key label=label options=options chosen=chosen on_choose=on_choose/> }.into_any()
}

fn tick(
    case: Case,
    index: usize,
    key: String,
    label: &'static str,
    place: fn(&mut GoalDraft) -> &mut bool,
) -> AnyView {
    let on =
        is(move || case.draft.read().goals.get(index).cloned().is_some_and(|mut goal| *place(&mut goal)));
    let on_tick = Callback::new(move |on| {
        case.draft.update(|draft| {
            if let Some(goal) = draft.goals.get_mut(index) {
                *place(goal) = on;
            }
        });
    });
    view! { <Tick key=key label=label on=on on_tick=on_tick/> }.into_any()
}

/// Moving, doubling, taking away.
#[component]
fn Actions(
    /// Its place in the list.
    index: usize,
    /// The one that was taken away last.
    gone: RwSignal<Option<(usize, GoalDraft)>>,
) -> impl IntoView {
    let case = use_case();
    let count = case.of_draft(|draft| draft.goals.len());
    let room = case.of_draft(goals::has_room);
    let shift = move |up: bool| {
        let mut moved = false;
        case.draft.update(|draft| moved = goals::shift(draft, index, up));
        if moved {
            let (place, way) = if up { (index, "up") } else { (index + 2, "down") };
            focus_soon(format!("goal-{place}-{way}"));
        }
    };
    let double = move |_| {
        case.draft.update(|draft| {
            goals::double(draft, index);
        });
        focus_soon(FieldId::GoalName(index + 1).info().key);
    };
    let take_away = move |_| {
        let mut taken = None;
        case.draft.update(|draft| taken = goals::take_away(draft, index));
        gone.set(taken);
        focus_soon("put-back".into());
    };
    view! {
        <div class="goal-actions">
            <button type="button" id=format!("goal-{}-up", index + 1) aria-disabled=words(move || (index == 0).to_string()) on:click=move |_| shift(true)>"Move up"</button>
            <button type="button" id=format!("goal-{}-down", index + 1) aria-disabled=words(move || (index + 1 == count.get()).to_string()) on:click=move |_| shift(false)>"Move down"</button>
            <button type="button" on:click=double disabled=is(move || !room.get())>"Double it"</button>
            <button type="button" on:click=take_away hidden=is(move || count.get() == 1)>"Take this goal away"</button>
        </div>
    }
    .into_any()
}
