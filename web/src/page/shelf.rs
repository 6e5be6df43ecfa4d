//! Adding wishes: from the shelf of everyday things, six at once, or an empty one.

use crate::model::draft::{GoalDraft, GoalKind};
use crate::model::field::FieldId;
use crate::model::goals;
use crate::model::shelf::{self, ShelfItem};
use crate::platform::focus_soon;
use crate::ui::{Case, is, live, use_case, words};
use leptos::prelude::*;

/// How many of the things found are shown.
const SHOWN: usize = 6;

/// The search first: Enter adds the first thing that is found.
#[component]
pub(super) fn Shelf(
    /// Whether the open wish is folded; what is added is opened.
    folded: RwSignal<bool>,
) -> impl IntoView {
    let case = use_case();
    let text = RwSignal::new(String::new());
    let said = RwSignal::new(String::new());
    let room = case.of_draft(goals::has_room);
    let add = Callback::new(move |goals: Vec<GoalDraft>| {
        said.set(added(case, goals));
        folded.set(false);
        text.set(String::new());
    });
    let add_first = move || {
        if let Some(first) = shelf::search(&text.get_untracked()).into_iter().next() {
            add.run(vec![first.goal]);
        }
    };
    let add_own = move |_| {
        add.run(vec![GoalDraft { kind: GoalKind::Letters, ..GoalDraft::default() }]);
        focus_soon(FieldId::GoalName(case.draft.read_untracked().bench.goal).info().key);
    };
    let hits = live(move || {
        let text = text.get();
        let found = if text.trim().is_empty() { Vec::new() } else { shelf::search(&text) };
        found.into_iter().take(SHOWN).map(|item| hit(item, add)).collect_view()
    });
    let found = words(move || found_words(&text.read()));
    view! {
        <section class="shelf" aria-labelledby="shelf-head">
            <h2 id="shelf-head">"Add a wish"</h2>
            <div class="entry">
                <label for="shelf-search">"Search everyday things"</label>
                <input
                    id="shelf-search"
                    type="search"
                    autocomplete="off"
                    autocapitalize="off"
                    spellcheck="false"
                    aria-describedby="shelf-help"
                    prop:value=text
                    on:input:target=move |event| text.set(event.target().value())
                    on:keydown=move |event| {
                        if event.key() == "Enter" && !text.read_untracked().trim().is_empty() {
                            add_first();
                        }
                    }
                />
                <p class="help" id="shelf-help">"Such as newspaper, label, bus, board, face, screen. Enter adds the first."</p>
            </div>
            <p class="help" id="shelf-found" aria-live="polite">{found}</p>
            <ul class="shelf-hits">{hits}</ul>
            <div class="goal-actions">
                <button type="button" id="add-goal" on:click=add_own disabled=is(move || !room.get())>"Add a goal"</button>
                <button type="button" id="add-six" on:click=move |_| add.run(shelf::usual_six()) disabled=is(move || !room.get())>
                    "Add six common wishes"
                </button>
            </div>
            <p class="help">"The six are a start to edit: board, bus, face, label, newspaper, screen. Ask what this person wants."</p>
            <p id="goals-said" aria-live="polite">{said}</p>
        </section>
    }
    .into_any()
}

/// Adds goals and says what was added.
fn added(case: Case, goals: Vec<GoalDraft>) -> String {
    let wanted = goals.len();
    let mut added = 0;
    case.draft.update(|draft| added = goals::add(draft, goals));
    let draft = case.draft.read_untracked();
    let first = draft.goals.get(draft.bench.goal).map(|goal| goal.name.clone()).unwrap_or_default();
    match (added, wanted) {
        (0, _) => "There is no room for more wishes.".into(),
        (1, 1) if first.is_empty() => "A goal was added.".into(),
        (1, 1) => format!("“{first}” was added."),
        (added, wanted) if added == wanted => format!("{added} wishes were added."),
        (added, wanted) => format!("{added} of {wanted} wishes were added: there is no room for more."),
    }
}

fn found_words(text: &str) -> String {
    if text.trim().is_empty() {
        return String::new();
    }
    match shelf::search(text).len() {
        0 => "Nothing is found. Add a goal and type its size.".into(),
        1 => "1 is found.".into(),
        all if all <= SHOWN => format!("{all} are found."),
        all => format!("{all} are found; the first {SHOWN} are shown."),
    }
}

/// A thing that was found: what is known of it, and the button that takes it.
fn hit(item: ShelfItem, add: Callback<Vec<GoalDraft>>) -> AnyView {
    let told = [item.size, item.distance, item.contrast, item.asks];
    let told = told.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("; ");
    let goal = item.goal;
    view! {
        <li>
            <button type="button" id=format!("shelf-{}", item.key) on:click=move |_| add.run(vec![goal.clone()])>"Add: " {item.name}</button>
            " "
            {told}
            <span class="source">" " {item.source}</span>
        </li>
    }
    .into_any()
}
