//! Everything that follows from a draft, derived anew at each change and never stored.

mod behind;
mod bench;
mod fit;
mod goals;
mod order;
mod person;
mod reader;
mod trial;
mod undecided;

pub use behind::Behind;
pub use bench::{BenchRow, PowerRow};
pub use fit::{FitAnswer, FitDone, NearDone, OtherEye, Worn};
pub use goals::{Asked, EyeToGoal, GoalAnswer, GoalEnd, ReserveFrom, reserve_of};
pub use order::{CarrierAnswer, OrderAnswer};
pub use person::EyeAnswer;
pub use reader::{Choice, FieldState, Fields};
pub use trial::TrialAnswer;
pub use undecided::Undecided;

use super::devices::{self, Stock};
use super::draft::{Draft, EyeChoice};
use super::field::FieldId;
use arcminute_core::accommodation::AmplitudeAtAge;
use arcminute_core::acuity::Scale;
use arcminute_core::device::TelescopeOutcome;
use arcminute_core::predict::PowerNeeded;
use arcminute_core::unit::{Length, LogMar};
use reader::Reader;

/// Cornea to the eye's entrance pupil; schematic eye, from memory (3.05 mm).
pub const CORNEA_TO_PUPIL_MM: f64 = 3.05;

/// The answer to a case.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What became of each box.
    pub fields: Fields,
    /// The right eye.
    pub right: EyeAnswer,
    /// The left eye.
    pub left: EyeAnswer,
    /// The eye looked at on Bench and in Fit.
    pub eye: EyeChoice,
    /// Notation that results are shown in: that of the eye's own acuity.
    pub scale: Scale,
    /// 95 % limit of repeats.
    pub retest_limit: Option<LogMar>,
    /// Accommodation that is usual at the age, if one was given; no sum uses it.
    pub at_age: Option<AmplitudeAtAge>,
    /// The wishes.
    pub goals: Vec<GoalAnswer>,
    /// Place of the wish that is served.
    pub goal: usize,
    /// The power it needs, when acuity and goal are known.
    pub needed: Option<PowerNeeded>,
    /// What whole powers would do.
    pub powers: Vec<PowerRow>,
    /// What each telescope of the list would do.
    pub bench: Vec<BenchRow>,
    /// The telescope of lowest power whose prediction reaches the goal, in focus.
    pub lowest: Option<usize>,
    /// The telescope chosen.
    pub chosen: Option<usize>,
    /// The eye that looks through an aid; nothing while something of it is missing.
    pub behind: Option<Behind>,
    /// The boxes that aids wait for; empty when they can be judged.
    pub aids_wait_for: Vec<FieldId>,
    /// The name of the spectacles for near that Fit is about; nothing where it is about a telescope.
    pub worn_spectacles: Option<String>,
    /// Whether Fit places something before each eye.
    pub fits_both_eyes: bool,
    /// The fit.
    pub fit: FitAnswer,
    /// What is ordered and what was delivered.
    pub order: OrderAnswer,
    /// What was reached at a trial.
    pub trial: TrialAnswer,
    /// Key of the aid that was tried; empty where that was not said.
    pub tried: String,
    /// What missing entries leave undecided.
    pub undecided: Vec<Undecided>,
}

impl Answer {
    /// The answer to a draft, with what is worn of the demonstration list.
    #[must_use]
    pub fn of(draft: &Draft) -> Self {
        Self::among(draft, devices::demo_stock())
    }

    /// The answer to a draft, with these things that are worn to choose from.
    #[must_use]
    pub fn among(draft: &Draft, stock: &Stock) -> Self {
        let mut reader = Reader::new(draft);
        let right = person::eye(&mut reader, EyeChoice::Right);
        let left = person::eye(&mut reader, EyeChoice::Left);
        let retest_limit = reader.number(FieldId::RetestLimit).map(LogMar::from_log);
        let vertex = reader.length(FieldId::Vertex);
        let at_age = person::age(&mut reader);
        let goals = goals::goals(&mut reader, &right, &left);
        let goal = draft.bench.goal.min(goals.len().saturating_sub(1));
        let eye = draft.bench.eye;
        let viewing = if eye == EyeChoice::Right { &right } else { &left };
        let scale = viewing.scale();
        let demand = goals.get(goal).and_then(GoalAnswer::far_demand);
        let viewer = bench::viewer(viewing, retest_limit, vertex, draft.bench.correction);
        let needed = bench::needed(viewing, demand);
        let powers = bench::powers(viewer.as_ref(), demand, needed);
        let bench = bench::rows(viewer.as_ref(), demand, &stock.telescopes);
        let lowest = bench::lowest(&bench);
        let chosen = bench.iter().position(|row| row.device.id == draft.bench.telescope);
        let correction = draft.bench.correction;
        let needs = behind::Needs { choice: eye, eye: viewing, retest_limit, vertex, correction };
        let (behind, aids_wait_for) = (needs.behind(), needs.missing(goals.get(goal)));
        let worn = Worn::of(draft, stock);
        let fit = fit::fit(&mut reader, fit::Known { draft, right: &right, left: &left, vertex, worn });
        let (worn_spectacles, fits_both_eyes) = match worn {
            Some(Worn::Spectacles(one)) => (Some(one.name.clone()), one.is_for_both(draft)),
            _ => (None, draft.fit.both_eyes),
        };
        let order = order::order(&mut reader, vertex);
        let trial = trial::trial(&mut reader);
        person::words(&mut reader);
        let mut answer = Self {
            fields: reader.into_states(),
            right,
            left,
            eye,
            scale,
            retest_limit,
            at_age,
            goals,
            goal,
            needed,
            powers,
            bench,
            lowest,
            chosen,
            behind,
            aids_wait_for,
            worn_spectacles,
            fits_both_eyes,
            fit,
            order,
            trial,
            tried: draft.trial.aid.clone(),
            undecided: Vec::new(),
        };
        answer.undecided = undecided::list(&answer);
        answer
    }

    /// What became of a box.
    #[must_use]
    pub fn field(&self, field: FieldId) -> FieldState {
        self.fields.get(field)
    }

    /// One of the two eyes.
    #[must_use]
    pub fn eye_answer(&self, eye: EyeChoice) -> &EyeAnswer {
        match eye {
            EyeChoice::Right => &self.right,
            EyeChoice::Left => &self.left,
        }
    }

    /// The eye looked at.
    #[must_use]
    pub fn viewing(&self) -> &EyeAnswer {
        self.eye_answer(self.eye)
    }

    /// The chosen telescope's row.
    #[must_use]
    pub fn chosen_row(&self) -> Option<&BenchRow> {
        self.chosen.and_then(|chosen| self.bench.get(chosen))
    }

    /// The chosen telescope's row with what it does; nothing when it cannot serve.
    #[must_use]
    pub fn chosen_outcome(&self) -> Option<(&BenchRow, &TelescopeOutcome)> {
        let row = self.chosen_row()?;
        Some((row, row.outcome.as_ref().ok()?))
    }

    /// The wish that is served.
    #[must_use]
    pub fn goal_answer(&self) -> Option<&GoalAnswer> {
        self.goals.get(self.goal)
    }

    /// An acuity in the notation of the case, with its logMAR: `20/40 (0.30 logMAR)`.
    #[must_use]
    pub fn acuity(&self, value: LogMar) -> String {
        acuity_words(value, self.scale)
    }

    /// How many boxes cannot be used as they stand; one that the kind of its goal does not have is not looked at, nor one
    /// of the trial that the goal served does not have.
    #[must_use]
    pub fn troubles(&self) -> usize {
        let kind = |field: FieldId| self.goals.get(field.goal().unwrap_or(self.goal)).map(|goal| goal.kind);
        let counts = |(field, state): &(FieldId, &FieldState)| {
            state.is_trouble() && kind(*field).is_none_or(|kind| field.is_of(kind))
        };
        self.fields.iter().filter(counts).count()
    }
}

/// An acuity in a notation, with its logMAR beside it.
#[must_use]
pub fn acuity_words(value: LogMar, scale: Scale) -> String {
    let log = super::format::log_mar(value);
    match scale {
        Scale::LogMar => log,
        Scale::Decimal => format!("{} decimal ({log})", arcminute_core::acuity::written(value, scale)),
        Scale::Feet | Scale::Metres => format!("{} ({log})", arcminute_core::acuity::written(value, scale)),
    }
}

/// Spectacle plane or eyepiece to the eye's entrance pupil.
pub(crate) fn to_entrance_pupil(vertex: Length) -> Length {
    vertex + Length::from_mm(CORNEA_TO_PUPIL_MM)
}
