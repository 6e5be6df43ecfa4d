//! The case that every place shares: one draft, one answer derived from it.

use super::Part;
use crate::model::answer::Answer;
use crate::model::draft::Draft;
use leptos::prelude::*;

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
    /// The place shown.
    pub place: RwSignal<Place>,
}

impl Case {
    /// A new case at the first place.
    #[must_use]
    pub fn new() -> Self {
        let draft = RwSignal::new(Draft::default());
        let answer = Memo::new(move |_| Answer::of(&draft.read()));
        Self { draft, answer, place: RwSignal::new(Place::Person) }
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
