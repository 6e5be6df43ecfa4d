//! The wishes, understood: what each asks for as an angle, and how far each eye is from it.
//!
//! Everything comes down to a thing five details high that is looked at from one distance, or from two where it has a
//! range. A face counts by the cycles across it that carry who it is.

use super::person::EyeAnswer;
use super::reader::Reader;
use crate::model::compared::Wish;
use crate::model::draft::{EyeChoice, GoalDraft, GoalKind, Hands, HowWell, Posture, Priority};
use crate::model::field::FieldId;
use arcminute_core::acuity::Reading;
use arcminute_core::device::Detail;
use arcminute_core::explain::{Explain, Step};
use arcminute_core::math;
use arcminute_core::predict::{PowerNeeded, power_needed};
use arcminute_core::print::SizedPrint;
use arcminute_core::reading::anchors::{self, Anchor};
use arcminute_core::reading::{ContrastReserve, PowerFromAcuity, contrast_reserve, power_from_acuity};
use arcminute_core::scene::{FaceDetail, USUAL_CYCLES, board_acuity, face_detail, usual_face_widths};
use arcminute_core::task::{Demand, Goal, Target, demand};
use arcminute_core::unit::{Length, LogMar};

/// From where print is taken to be read when any distance will do, so that it has an angle. Assumed.
const PRINT_AT_CM: f64 = 40.0;
/// Distance at which the letters of an acuity goal are taken to be: an acuity is the same at each. Assumed.
const LETTERS_AT_M: f64 = 6.0;

/// A wish, understood.
#[derive(Clone, Debug, PartialEq)]
pub struct GoalAnswer {
    /// What it is called.
    pub name: String,
    /// What kind it is.
    pub kind: GoalKind,
    /// What it asks for from its nearest and from its farthest distance: one where there is no range, none while
    /// something is missing.
    pub ends: Vec<GoalEnd>,
    /// What it asks for where it asks for most.
    pub demand: Option<Demand>,
    /// The print, for print to read.
    pub print: Option<SizedPrint>,
    /// The detail of a face, for a face.
    pub face: Option<FaceDetail>,
    /// Size over the least size seen that is wanted.
    pub reserve: Option<f64>,
    /// Where the reserve comes from.
    pub reserve_from: ReserveFrom,
    /// Contrast of the thing, 0 to 1.
    pub contrast: Option<f64>,
    /// Width to be seen at once, of what is not print.
    pub width: Option<Length>,
    /// Characters to be seen at once, of print.
    pub characters: Option<f64>,
    /// What was chosen of hands, posture and the like.
    pub asked: Asked,
    /// How far the right eye is from it.
    pub right: EyeToGoal,
    /// How far the left eye is from it.
    pub left: EyeToGoal,
    /// What is still needed.
    pub missing: Vec<FieldId>,
}

/// A wish from one distance.
#[derive(Clone, Debug, PartialEq)]
pub struct GoalEnd {
    /// Eye to the thing, where it was given.
    pub distance: Option<Length>,
    /// Size over the least size seen that is wanted.
    pub reserve: f64,
    /// What it asks for there.
    pub demand: Demand,
    /// Of a face: what it asks for at the fewest and at the most cycles of the band.
    pub band: Option<[Demand; 2]>,
    /// Whether it is where the wish asks for most.
    pub hardest: bool,
}

/// Where a reserve comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReserveFrom {
    /// It was typed.
    Typed,
    /// What the choice of how well stands for.
    HowWell(&'static Anchor),
    /// None is taken: an acuity is wanted as it is, and the cycles of a face have their own band.
    None,
}

/// What was chosen for a wish.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Asked {
    /// Hands that have to be free.
    pub hands: Hands,
    /// How the person is placed.
    pub posture: Posture,
    /// Both eyes should be used.
    pub both_eyes: bool,
    /// It does not wait.
    pub time_critical: bool,
    /// How much it matters.
    pub priority: Priority,
}

/// How far one eye is from a wish.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct EyeToGoal {
    /// How many times as large it would have to look, where it asks for most.
    pub larger: Option<PowerNeeded>,
    /// Of print: the distance from which this eye would read it, or what an aid has to do in its place.
    pub near: Option<PowerFromAcuity>,
    /// Its contrast over the least this eye sees.
    pub contrast: Option<ContrastReserve>,
}

impl EyeToGoal {
    /// Steps of 0.1 log that this eye is short; below zero when it sees more than is asked.
    #[must_use]
    pub fn steps_short(&self) -> Option<f64> {
        self.larger.map(|needed| (needed.now - needed.goal).log() * 10.0)
    }

    /// Whether this eye reaches it without an aid; not said while something is missing.
    #[must_use]
    pub fn is_reached(&self) -> Option<bool> {
        self.steps_short().map(|short| short <= 1e-9)
    }
}

impl Explain for EyeToGoal {
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.larger.map(|needed| needed.steps()).unwrap_or_default();
        steps.extend(self.near.iter().flat_map(Explain::steps));
        steps.extend(self.contrast.iter().flat_map(Explain::steps));
        steps
    }
}

impl Explain for GoalEnd {
    fn steps(&self) -> Vec<Step> {
        let mut steps = Vec::new();
        let reserved = 1e-9 < math::abs(self.reserve - 1.0);
        if let (Goal::Acuity(acuity), true) = (self.demand.goal, reserved) {
            steps.extend(board_acuity(acuity, self.reserve).map(|board| board.steps()).unwrap_or_default());
        }
        steps.extend(self.demand.steps());
        steps.extend(self.band.iter().flatten().flat_map(Explain::steps));
        steps
    }
}

impl GoalAnswer {
    /// One eye's side of it.
    #[must_use]
    pub fn of_eye(&self, eye: EyeChoice) -> &EyeToGoal {
        match eye {
            EyeChoice::Right => &self.right,
            EyeChoice::Left => &self.left,
        }
    }

    /// What it asks of something that is looked at where it is; nothing for print.
    #[must_use]
    pub fn far_demand(&self) -> Option<Demand> {
        self.demand.filter(|_| self.kind != GoalKind::Print)
    }

    /// What aids have to show: the thing from its nearest and from its farthest distance. The letters of an acuity are
    /// taken to be at 6 m.
    #[must_use]
    pub fn wants(&self) -> Vec<Detail> {
        let detail = |end: &GoalEnd| match (end.demand.goal, self.print) {
            (Goal::Target(target), Some(_)) => {
                Detail { height: target.height, distance: end.distance, reserve: target.reserve }
            }
            (Goal::Target(target), None) => {
                Detail { height: target.height, distance: Some(target.distance), reserve: target.reserve }
            }
            (Goal::Acuity(_), _) => {
                let distance = Length::from_m(LETTERS_AT_M);
                let height = distance * (10.0 * (end.demand.detail / 2.0).tangent());
                Detail { height, distance: Some(distance), reserve: end.reserve }
            }
        };
        self.ends.iter().map(detail).collect()
    }

    /// The wish as aids are measured against it; nothing while something of it is missing.
    #[must_use]
    pub fn wish(&self) -> Option<Wish> {
        let (first, last) = (self.ends.first()?, self.ends.last()?);
        let print = self.kind == GoalKind::Print;
        Some(Wish {
            print,
            ends: self.wants(),
            at: first.distance.zip(last.distance).filter(|_| print),
            width: self.width,
            characters: self.characters,
            hands: match self.asked.hands {
                Hands::Any => 0,
                Hands::OneFree => 1,
                Hands::BothFree => 2,
            },
            walking: self.asked.posture == Posture::Walking,
            both_eyes: self.asked.both_eyes,
        })
    }
}

/// The reserve that a choice of how well stands for, with the work it comes from.
#[must_use]
pub fn reserve_of(how_well: HowWell) -> &'static Anchor {
    match how_well {
        HowWell::Spot => &anchors::SPOT,
        HowWell::Read => &anchors::FLUENT,
        HowWell::ReadLong => &anchors::LONG,
    }
}

pub(super) fn goals(reader: &mut Reader<'_>, right: &EyeAnswer, left: &EyeAnswer) -> Vec<GoalAnswer> {
    let draft = reader.draft();
    let goals = draft.goals.iter().enumerate();
    goals.map(|(index, typed)| goal(reader, index, typed, right, left)).collect()
}

/// What stands in the boxes of one goal.
struct Read {
    acuity: Option<LogMar>,
    height: Option<Length>,
    detail: Option<Length>,
    print: Option<SizedPrint>,
    nearest: Option<Length>,
    farthest: Option<Length>,
    reserve: Option<f64>,
}

fn goal(
    reader: &mut Reader<'_>,
    index: usize,
    typed: &GoalDraft,
    right: &EyeAnswer,
    left: &EyeAnswer,
) -> GoalAnswer {
    let kind = typed.kind;
    reader.words(FieldId::GoalName(index));
    let reserve_from = match kind {
        _ if !typed.reserve_times.trim().is_empty() => ReserveFrom::Typed,
        GoalKind::Acuity | GoalKind::Face => ReserveFrom::None,
        GoalKind::Letters | GoalKind::Detail | GoalKind::Print => {
            ReserveFrom::HowWell(reserve_of(typed.how_well))
        }
    };
    let assumed = if let ReserveFrom::HowWell(anchor) = reserve_from { anchor.reserve } else { 1.0 };
    let mut read = Read {
        acuity: acuity(reader, FieldId::GoalAcuity(index)),
        height: reader.length(FieldId::GoalHeight(index)),
        detail: reader.length(FieldId::GoalDetail(index)),
        print: reader.print(FieldId::GoalPrint(index)),
        nearest: reader.length(FieldId::GoalDistance(index)),
        farthest: reader.length(FieldId::GoalFarthest(index)),
        reserve: reader.number_or(FieldId::GoalReserve(index), Some(assumed)),
    };
    if let (Some(nearest), Some(farthest)) = (read.nearest, read.farthest)
        && farthest < nearest
    {
        reader.refuse_nearer(FieldId::GoalFarthest(index), farthest, nearest);
        read.farthest = None;
    }
    let contrast = reader.number(FieldId::GoalContrast(index)).map(|percent| percent / 100.0);
    let width = reader.length(FieldId::GoalWidth(index));
    let characters = reader.number(FieldId::GoalCharacters(index));
    reader.number(FieldId::GoalLight(index));
    let missing = missing(reader, index, kind, &read);
    let face = (kind == GoalKind::Face)
        .then(|| face_detail(usual_face_widths().0, USUAL_CYCLES.best).ok())
        .flatten();
    let ends = if missing.is_empty() { ends(kind, &read, face) } else { Vec::new() };
    let demand = ends.iter().find(|end| end.hardest).map(|end| end.demand);
    let print = read.print.filter(|_| kind == GoalKind::Print);
    let to = |eye: &EyeAnswer| EyeToGoal {
        larger: eye.log_mar().zip(demand).map(|(now, demand)| power_needed(now, demand.to_reach)),
        near: eye
            .log_mar()
            .zip(print)
            .zip(read.reserve.filter(|_| missing.is_empty()))
            .and_then(|((now, print), reserve)| power_from_acuity(now, print.size, reserve).ok()),
        contrast: contrast
            .zip(eye.contrast)
            .and_then(|(contrast, least)| contrast_reserve(contrast, least).ok()),
    };
    let name = typed.name.trim();
    GoalAnswer {
        name: if name.is_empty() { format!("Goal {}", index + 1) } else { name.to_owned() },
        kind,
        demand,
        face: face.filter(|_| !ends.is_empty()),
        ends,
        print,
        reserve: read.reserve,
        reserve_from,
        contrast,
        width: width.filter(|_| !matches!(kind, GoalKind::Acuity | GoalKind::Print)),
        characters: characters.filter(|_| kind == GoalKind::Print),
        asked: Asked {
            hands: typed.hands,
            posture: typed.posture,
            both_eyes: typed.both_eyes,
            time_critical: typed.time_critical,
            priority: typed.priority,
        },
        right: to(right),
        left: to(left),
        missing,
    }
}

pub(super) fn acuity(reader: &mut Reader<'_>, field: FieldId) -> Option<LogMar> {
    match reader.acuity(field)? {
        Reading::Measured(acuity) => Some(acuity.log_mar),
        Reading::Category(category) => {
            reader.refuse_category(field, &category.to_string());
            None
        }
    }
}

/// The boxes that the kind needs and that say nothing usable; of those that may be empty, the ones in trouble.
fn missing(reader: &Reader<'_>, index: usize, kind: GoalKind, read: &Read) -> Vec<FieldId> {
    let trouble = |field: FieldId| reader.state(field).is_trouble();
    let far = !matches!(kind, GoalKind::Acuity | GoalKind::Print);
    let (distance, farthest) = (FieldId::GoalDistance(index), FieldId::GoalFarthest(index));
    [
        (FieldId::GoalAcuity(index), kind == GoalKind::Acuity && read.acuity.is_none()),
        (FieldId::GoalHeight(index), kind == GoalKind::Letters && read.height.is_none()),
        (FieldId::GoalDetail(index), kind == GoalKind::Detail && read.detail.is_none()),
        (FieldId::GoalPrint(index), kind == GoalKind::Print && read.print.is_none()),
        // The farthest alone leaves the nearest open.
        (
            distance,
            (far || kind == GoalKind::Print && (trouble(distance) || read.farthest.is_some()))
                && read.nearest.is_none(),
        ),
        (farthest, kind != GoalKind::Acuity && trouble(farthest)),
        (FieldId::GoalReserve(index), read.reserve.is_none()),
    ]
    .into_iter()
    .filter(|(_, missing)| *missing)
    .map(|(field, _)| field)
    .collect()
}

/// What the wish asks for from each of its distances.
fn ends(kind: GoalKind, read: &Read, face: Option<FaceDetail>) -> Vec<GoalEnd> {
    let reserve = read.reserve.unwrap_or(1.0);
    if let (GoalKind::Acuity, Some(acuity)) = (kind, read.acuity) {
        let to_reach = LogMar::of_angle(acuity.mar() / reserve);
        let demand = Demand { to_reach, ..demand(Goal::Acuity(acuity)) };
        return vec![GoalEnd { distance: None, reserve, demand, band: None, hardest: true }];
    }
    let height = match kind {
        GoalKind::Acuity => None,
        GoalKind::Letters => read.height,
        GoalKind::Detail => read.detail.map(|detail| detail * 5.0),
        GoalKind::Print => read.print.map(|print| print.height),
        GoalKind::Face => face.map(|face| face.detail * 5.0),
    };
    let Some(height) = height else { return Vec::new() };
    let seen = |height: Length, distance: Length| demand(Goal::Target(Target { height, distance, reserve }));
    let end = |distance: Option<Length>| {
        let from = distance.unwrap_or(Length::from_cm(PRINT_AT_CM));
        let at = |cycles: f64| {
            face_detail(usual_face_widths().0, cycles).map(|face| seen(face.detail * 5.0, from))
        };
        let band = match (kind, at(USUAL_CYCLES.fewest), at(USUAL_CYCLES.most)) {
            (GoalKind::Face, Ok(fewest), Ok(most)) => Some([fewest, most]),
            _ => None,
        };
        GoalEnd { distance, reserve, demand: seen(height, from), band, hardest: false }
    };
    let mut ends = vec![end(read.nearest)];
    ends.extend(
        read.farthest.filter(|farthest| read.nearest < Some(*farthest)).map(|farthest| end(Some(farthest))),
    );
    // The farther, the smaller it looks.
    if let Some(last) = ends.last_mut() {
        last.hardest = true;
    }
    ends
}
