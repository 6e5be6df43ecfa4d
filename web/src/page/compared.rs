//! Every aid of the list for the goal: what nothing beats, what is beaten and by what, what does not serve, and why.

use super::tradeoff::Tradeoff;
use crate::model::compared::Ranked;
use crate::model::draft::FirstChoice;
use crate::model::shown::{self, AidLine};
use crate::ui::{Compare, Part, Pick, is, items, live, use_case, when, words};
use arcminute_core::rank::Criteria;
use leptos::prelude::*;

const COLUMNS: &[&str] = &["Aid", "Chance", "Just reads", "Seen at once", "Use", "Look"];
/// How many of those worth comparing are shown at once.
const SHOWN: usize = 6;

/// The aids of the list for the goal that is served.
#[component]
pub(super) fn ComparedAids() -> impl IntoView {
    let case = use_case();
    let ranked = Part::new(move || {
        let (table, first) = (case.table.read(), case.draft.read().bench.first);
        table.wish_of(case.answer.read().goal).map(|wish| table.ranked(wish, &[first.criterion()]))
    });
    when(
        move || ranked.get().is_some_and(|ranked| !ranked.is_empty()),
        move || view! { <ForWish ranked=Part::new(move || ranked.get().unwrap_or_default())/> }.into_any(),
    )
}

/// Which rows a fold shows.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Group {
    Front,
    More,
    Beaten,
    ButFor,
    Short,
    None,
}

impl Group {
    fn rows(self, ranked: &Ranked) -> Vec<(usize, Option<(usize, Criteria)>)> {
        let plain = |places: &[usize]| places.iter().map(|place| (*place, None)).collect();
        match self {
            Self::Front => plain(ranked.front.get(..SHOWN).unwrap_or(&ranked.front)),
            Self::More => plain(ranked.front.get(SHOWN..).unwrap_or_default()),
            Self::ButFor => plain(&ranked.but_for),
            Self::Beaten => ranked.beaten.iter().map(|(place, by, on)| (*place, Some((*by, *on)))).collect(),
            Self::Short => plain(&ranked.short),
            Self::None => plain(&ranked.none),
        }
    }

    fn key(self) -> &'static str {
        match self {
            Self::Front => "aids-front",
            Self::More => "aids-more",
            Self::ButFor => "aids-but-for",
            Self::Beaten => "aids-beaten",
            Self::Short => "aids-short",
            Self::None => "aids-none",
        }
    }

    fn words(self, count: usize, open: bool) -> String {
        let what = match self {
            Self::Front | Self::More => "worth comparing",
            Self::Beaten => "beaten by one of these, and on what",
            Self::ButFor => "that would serve but for something",
            Self::Short => "without a chance of it",
            Self::None => "that are not for it",
        };
        if open { format!("Hide the {count} {what}") } else { format!("Show {count} more {what}") }
    }
}

#[component]
fn ForWish(
    /// The aids in order.
    ranked: Part<Ranked>,
) -> impl IntoView {
    let case = use_case();
    let name = case.of_answer(|answer| {
        let named = answer.goal_answer().map(|goal| goal.name.clone());
        format!("Aids for {}", named.unwrap_or_default())
    });
    let found = Part::new(move || {
        let (table, list, answer) = (case.table.read(), case.list.read(), case.answer.read());
        let wish = table.wish_of(answer.goal).unwrap_or_default();
        let name = |place: &usize| list.1.list.get(*place).map(|aid| aid.title()).unwrap_or_default();
        shown::found_words(&table, wish, &ranked.get(), name)
    });
    let groups = [Group::More, Group::Beaten, Group::ButFor, Group::Short, Group::None]
        .map(|group| folded(group, ranked));
    let options = FirstChoice::ALL.iter().map(|first| first.label().to_owned()).collect();
    let place =
        |choice: FirstChoice| FirstChoice::ALL.iter().position(|one| *one == choice).unwrap_or_default();
    let first = case.of_draft(move |draft| place(draft.bench.first)).signal();
    let choose = Callback::new(move |place: usize| {
        if let Some(first) = FirstChoice::ALL.get(place) {
            case.draft.update(|draft| draft.bench.first = *first);
        }
    });
    view! {
        <section id="aids" aria-labelledby="aids-name">
            <h2 id="aids-name">{name.signal()}</h2>
            <p class="answer" id="aids-found">{found.signal()}</p>
            <div hidden=is(move || ranked.get().front.is_empty())>
                <Pick key="aids-first" label="Of those that reach it, first the ones with" options=options chosen=first on_choose=choose/>
                {rows(Group::Front, ranked)}
            </div>
            {groups.into_iter().collect_view()}
            <div hidden=is(move || ranked.get().front.len() + ranked.get().beaten.len() < 2)><Tradeoff ranked=ranked/></div>
        </section>
    }
    .into_any()
}

fn rows(group: Group, ranked: Part<Ranked>) -> AnyView {
    let case = use_case();
    let lines = Part::new(move || {
        let (table, list, answer) = (case.table.read(), case.list.read(), case.answer.read());
        let rows = group.rows(&ranked.get()).into_iter();
        let Some(wish) = table.wish_of(answer.goal) else { return Vec::new() };
        rows.filter_map(|(aid, beaten)| {
            shown::aid_line(&table, &list.1.list, (aid, wish), beaten, answer.scale)
        })
        .collect::<Vec<_>>()
    });
    let body = live(move || lines.get().into_iter().map(row).collect_view());
    view! { <Compare key=group.key() columns=COLUMNS rows=body/> }.into_any()
}

fn folded(group: Group, ranked: Part<Ranked>) -> AnyView {
    let folded = RwSignal::new(true);
    let count = Part::new(move || group.rows(&ranked.get()).len());
    // Where nothing gives all that is asked, what comes nearest is shown at once.
    let open = is(move || folded.get() == (group == Group::ButFor && ranked.get().front.is_empty()));
    view! {
        <div hidden=is(move || count.get() == 0)>
            <button
                type="button"
                class="fold"
                id=format!("{}-fold", group.key())
                aria-expanded=words(move || open.get().to_string())
                on:click=move |_| folded.update(|folded| *folded = !*folded)
            >
                {words(move || group.words(count.get(), open.get()))}
            </button>
            {when(move || open.get(), move || rows(group, ranked))}
        </div>
    }
    .into_any()
}

fn row(line: AidLine) -> AnyView {
    let case = use_case();
    let id = line.id.clone();
    let here = case.of_draft(move |draft| draft.bench.looked_at() == id);
    let id = line.id.clone();
    let look = move |_| case.look_at(&id);
    let notes: Vec<String> = [line.lacks, line.beaten].into_iter().filter(|note| !note.is_empty()).collect();
    let cells = if line.trouble.is_empty() {
        let notes = (!notes.is_empty()).then(|| view! { <ul class="band">{items(notes)}</ul> }.into_any());
        view! {
            <td role="cell" data-what="Chance"><strong>{line.chance}</strong> " " <span class="band">{line.reach}</span></td>
            <td role="cell" data-what="Just reads"><strong>{line.reads}</strong></td>
            <td role="cell" data-what="Seen at once">{line.seen}</td>
            <td role="cell" data-what="Use">{line.used} {notes}</td>
        }
        .into_any()
    } else {
        view! { <td role="cell" class="trouble" colspan="4" data-what="Cannot serve">{line.trouble}</td> }
            .into_any()
    };
    let label = format!("Look at {}", line.name);
    view! {
        <tr role="row" id=format!("aid-{}", line.id) class:chosen=here.signal()>
            <th scope="row" role="rowheader">{line.name}</th>
            {cells}
            <td role="cell">
                <button
                    type="button"
                    id=format!("look-{}", line.id)
                    aria-label=label
                    aria-pressed=words(move || here.get().to_string())
                    on:click=look
                >
                    "Look"
                </button>
            </td>
        </tr>
    }
    .into_any()
}
