//! What aids other than telescopes would do for the eye, the print and the goal.

use super::person::{EyeAnswer, GoalAnswer};
use super::to_entrance_pupil;
use crate::model::aids::{For, LIST, Listed};
use crate::model::draft::EyeChoice;
use crate::model::field::FieldId;
use arcminute_core::Error;
use arcminute_core::device::{Detail, Eye, Outcome, look};
use arcminute_core::explain::{Explain, Step};
use arcminute_core::task::Goal;
use arcminute_core::unit::{Length, LogMar};

/// Distance at which the letters of an acuity goal are taken to be: an acuity is the same at each. Assumed.
const LETTERS_AT_M: f64 = 6.0;

/// What aids would do.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AidsAnswer {
    /// One row for each aid that can be judged, in the order of the list.
    pub rows: Vec<AidRow>,
    /// The boxes that near aids wait for; empty when they are judged.
    pub near_waits: Vec<FieldId>,
    /// The boxes that far aids wait for; empty when they are judged.
    pub far_waits: Vec<FieldId>,
}

/// What one aid would do.
#[derive(Clone, Debug)]
pub struct AidRow {
    /// Its place in the list.
    pub place: usize,
    /// The eye, with what it wears.
    pub eye: Eye,
    /// What is looked at.
    pub detail: Detail,
    /// What it does, or why it cannot serve.
    pub does: Result<Outcome, Error>,
}

/// What an aid does follows from the rest.
impl PartialEq for AidRow {
    fn eq(&self, other: &Self) -> bool {
        (self.place, self.eye, self.detail) == (other.place, other.eye, other.detail)
    }
}

impl AidRow {
    /// The aid of the list.
    #[must_use]
    pub fn listed(&self) -> &'static Listed {
        &LIST[self.place]
    }

    /// The working: first the family's own formulas, then those that hold for all; empty when it cannot serve.
    #[must_use]
    pub fn steps(&self) -> Vec<Step> {
        let Ok(outcome) = &self.does else { return Vec::new() };
        let used = self.listed().kind.used(&self.eye, self.detail.distance, true);
        let mut steps = used.map(|(_, steps)| steps).unwrap_or_default();
        steps.extend(outcome.steps());
        steps
    }
}

/// What is still needed of the eye and the goal, box by box.
struct Needs<'a> {
    choice: EyeChoice,
    eye: &'a EyeAnswer,
    retest_limit: Option<LogMar>,
    vertex: Option<Length>,
}

impl Needs<'_> {
    fn missing(&self) -> Vec<FieldId> {
        let of = |make| FieldId::of_eye(make, self.choice);
        [
            (of(FieldId::Acuity), self.eye.log_mar().is_some()),
            (of(FieldId::Refraction), self.eye.refraction.is_some()),
            (of(FieldId::Pupil), self.eye.pupil.is_some()),
            (of(FieldId::Accommodation), self.eye.accommodation.is_some()),
            (FieldId::RetestLimit, self.retest_limit.is_some()),
            (FieldId::Vertex, self.vertex.is_some()),
        ]
        .into_iter()
        .filter(|(_, there)| !there)
        .map(|(field, _)| field)
        .collect()
    }

    /// The eye with the correction for far; `None` while something is missing.
    fn viewer(&self) -> Option<Eye> {
        let (sphere, cylinder) = self.eye.refraction?;
        Some(Eye {
            pupil: self.eye.pupil?,
            sphere,
            cylinder,
            spectacle_to_eye: to_entrance_pupil(self.vertex?),
            accommodation: self.eye.accommodation?,
            ..Eye::corrected(self.eye.log_mar()?, self.retest_limit?)
        })
    }
}

pub(super) fn aids(
    (choice, eye): (EyeChoice, &EyeAnswer),
    retest_limit: Option<LogMar>,
    vertex: Option<Length>,
    (place, goal): (usize, Option<&GoalAnswer>),
) -> AidsAnswer {
    let needs = Needs { choice, eye, retest_limit, vertex };
    let missing = needs.missing();
    let (mut near_waits, mut far_waits) = (missing.clone(), missing);
    let print = goal.and_then(print);
    let far = goal.and_then(far);
    if print.is_none() {
        let fields = [
            (FieldId::GoalPrint(place), goal.is_some_and(|goal| goal.print.is_some())),
            (FieldId::GoalReserve(place), goal.is_some_and(|goal| goal.reserve.is_some())),
        ];
        near_waits.extend(fields.into_iter().filter(|(_, there)| !there).map(|(field, _)| field));
    }
    if far.is_none() {
        far_waits.extend(goal.into_iter().flat_map(|goal| goal.missing.iter().copied()));
    }
    let judge = |(place, listed): (usize, &'static Listed)| {
        let detail = if listed.serves == For::Print { print? } else { far? };
        let viewer = Eye { worn: listed.worn(eye.add), ..needs.viewer()? };
        let used = listed.kind.used(&viewer, detail.distance, false);
        let does = used.and_then(|(arrangement, _)| look(&arrangement, &viewer, detail));
        Some(AidRow { place, eye: viewer, detail, does })
    };
    AidsAnswer { rows: LIST.iter().enumerate().filter_map(judge).collect(), near_waits, far_waits }
}

/// The print to read.
fn print(goal: &GoalAnswer) -> Option<Detail> {
    Some(Detail { height: goal.print?.height, distance: None, reserve: goal.reserve? })
}

/// The thing in the distance; for an acuity the letters of that line.
fn far(goal: &GoalAnswer) -> Option<Detail> {
    let demand = goal.demand?;
    Some(match demand.goal {
        Goal::Target(target) => {
            Detail { height: target.height, distance: Some(target.distance), reserve: target.reserve }
        }
        Goal::Acuity(_) => {
            let distance = Length::from_m(LETTERS_AT_M);
            let height = distance * (10.0 * (demand.detail / 2.0).tangent());
            Detail { height, distance: Some(distance), reserve: 1.0 }
        }
    })
}
