//! The case that every place shares: one draft, one answer derived from it.

use super::{Keep, Part};
use crate::model::answer::Answer;
use crate::model::compared::{Asked, LookedAt, Table};
use crate::model::devices;
use crate::model::draft::Draft;
use crate::model::list::{self, Reading};
use crate::platform;
use leptos::prelude::*;
use std::sync::Arc;

/// Key of the heading of the aid that is looked at.
pub const LOOKED_NAME: &str = "looked-name";

/// The places of the page, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// What was measured.
    Person,
    /// What is wished for.
    Goals,
    /// Where the person stands and how far it is.
    Ladder,
    /// Which telescope.
    Bench,
    /// Where it sits.
    Fit,
    /// What leaves on paper.
    Sheets,
}

impl Place {
    /// All places.
    pub const ALL: [Self; 6] =
        [Self::Person, Self::Goals, Self::Ladder, Self::Bench, Self::Fit, Self::Sheets];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Person => "Person",
            Self::Goals => "Goals",
            Self::Ladder => "Ladder",
            Self::Bench => "Bench",
            Self::Fit => "Fit",
            Self::Sheets => "Sheets",
        }
    }

    /// Key of its heading on the page.
    #[must_use]
    pub fn heading_id(self) -> String {
        format!("place-{}", self.name().to_ascii_lowercase())
    }
}

/// The case and where on the page one is.
#[derive(Clone, Copy)]
pub struct Case {
    /// What was typed and chosen.
    pub draft: RwSignal<Draft>,
    /// What follows from it.
    pub answer: Memo<Answer>,
    /// The list of aids in use: the name of its file, empty for the demonstration list, and what it gave.
    pub list: RwSignal<Arc<(String, Reading)>>,
    /// Every aid of the list against every wish; worked out when it is looked at.
    pub table: Memo<Arc<Table>>,
    /// The aid that is looked at, for the wish that is served; nothing while there is none, or it cannot be judged yet.
    pub looked: Memo<Option<Arc<LookedAt>>>,
    /// The place shown.
    pub place: RwSignal<Place>,
    /// What goes with the case: its history, its lock, where it is kept.
    pub keep: Keep,
}

impl Case {
    /// A new case at the first place.
    #[must_use]
    pub fn new() -> Self {
        let draft = RwSignal::new(Draft::default());
        let list = RwSignal::new(Arc::new(first_list()));
        let stock = Part::new(move || devices::stock(&list.read().1.list));
        let answer = Memo::new(move |_| Answer::among(&draft.read(), &stock.get()));
        // A memo of its own: what was typed elsewhere asks the aids nothing new.
        let asked = Part::new(move || Asked::of(&answer.read()));
        let table = Memo::new(move |_| Arc::new(Table::of(asked.get(), &list.read().1.list)));
        let served = Part::new(move || answer.read().goal);
        let id = Part::new(move || draft.read().bench.looked_at().to_owned());
        let looked = Memo::new(move |_| {
            let (id, list) = (id.get(), list.read());
            let aid = list.1.list.iter().find(|aid| aid.id == id)?;
            LookedAt::of(&asked.get(), served.get(), aid).map(Arc::new)
        });
        Self { draft, answer, list, table, looked, place: RwSignal::new(Place::Person), keep: Keep::new() }
    }

    /// Looks at an aid; a telescope that is set in a carrier lens is then the one that Fit places.
    pub fn look_at(self, id: &str) {
        self.choose_aid(id);
        platform::focus_soon(LOOKED_NAME.into());
    }

    /// The same, and the focus stays where it is.
    pub fn choose_aid(self, id: &str) {
        let list = self.list.read_untracked();
        let is_mounted = list.1.list.iter().any(|aid| aid.id == id && aid.device().is_some());
        self.draft.update(|draft| {
            if is_mounted {
                draft.bench.aid.clear();
                draft.bench.telescope = id.to_owned();
            } else {
                draft.bench.aid = id.to_owned();
            }
        });
    }

    /// Something of the answer; what reads it is told only when it changes.
    pub fn of_answer<T: Clone + PartialEq + Send + Sync + 'static>(
        self,
        take: impl Fn(&Answer) -> T + Send + Sync + 'static,
    ) -> Part<T> {
        Part::new(move || take(&self.answer.read()))
    }

    /// Something of the draft; what reads it is told only when it changes.
    pub fn of_draft<T: Clone + PartialEq + Send + Sync + 'static>(
        self,
        take: impl Fn(&Draft) -> T + Send + Sync + 'static,
    ) -> Part<T> {
        Part::new(move || take(&self.draft.read()))
    }
}

impl Default for Case {
    fn default() -> Self {
        Self::new()
    }
}

/// The case of this page.
#[must_use]
pub fn use_case() -> Case {
    expect_context::<Case>()
}

/// The list that this computer keeps, if it can still be used, or else the demonstration list.
fn first_list() -> (String, Reading) {
    let kept = platform::kept_list().map(|text| list::read(text.as_bytes()));
    match kept.filter(|reading| !reading.list.is_empty()) {
        Some(reading) => ("the list kept on this computer".into(), reading),
        None => (String::new(), list::demo().clone()),
    }
}
