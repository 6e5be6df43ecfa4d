//! The boxes of a goal, and which of them a goal of each kind has.

use super::info::of;
use super::{FieldId, FieldInfo, Kind};
use crate::model::draft::GoalKind;
use arcminute_core::bounds;

/// Makes a box of the goal at a place of the list.
type Make = fn(usize) -> FieldId;

/// Every box of a goal.
pub(super) const ALL: [Make; 12] = [
    FieldId::GoalName,
    FieldId::GoalAcuity,
    FieldId::GoalHeight,
    FieldId::GoalDetail,
    FieldId::GoalPrint,
    FieldId::GoalDistance,
    FieldId::GoalFarthest,
    FieldId::GoalContrast,
    FieldId::GoalReserve,
    FieldId::GoalWidth,
    FieldId::GoalCharacters,
    FieldId::GoalLight,
];

/// The boxes of a kind of goal, below its name.
#[derive(Clone, Copy, Debug)]
pub struct Boxes {
    /// Shown at once.
    pub first: &'static [Make],
    /// Folded away: what is seldom filled.
    pub more: &'static [Make],
}

/// The boxes that a goal of a kind has.
#[must_use]
pub fn boxes(kind: GoalKind) -> Boxes {
    const FAR_MORE: &[Make] = &[
        FieldId::GoalFarthest,
        FieldId::GoalWidth,
        FieldId::GoalContrast,
        FieldId::GoalReserve,
        FieldId::GoalLight,
    ];
    let (first, more): (&[Make], &[Make]) = match kind {
        GoalKind::Acuity => {
            (&[FieldId::GoalAcuity], &[FieldId::GoalContrast, FieldId::GoalReserve, FieldId::GoalLight])
        }
        GoalKind::Letters => (&[FieldId::GoalHeight, FieldId::GoalDistance], FAR_MORE),
        GoalKind::Detail => (&[FieldId::GoalDetail, FieldId::GoalDistance], FAR_MORE),
        GoalKind::Face => (&[FieldId::GoalDistance], FAR_MORE),
        GoalKind::Print => (
            &[FieldId::GoalPrint, FieldId::GoalDistance],
            &[
                FieldId::GoalFarthest,
                FieldId::GoalCharacters,
                FieldId::GoalContrast,
                FieldId::GoalReserve,
                FieldId::GoalLight,
            ],
        ),
    };
    Boxes { first, more }
}

impl FieldId {
    /// The goal that it is a box of, by its place in the list.
    #[must_use]
    pub fn goal(self) -> Option<usize> {
        match self {
            Self::GoalName(index)
            | Self::GoalAcuity(index)
            | Self::GoalHeight(index)
            | Self::GoalDetail(index)
            | Self::GoalPrint(index)
            | Self::GoalDistance(index)
            | Self::GoalFarthest(index)
            | Self::GoalContrast(index)
            | Self::GoalReserve(index)
            | Self::GoalWidth(index)
            | Self::GoalCharacters(index)
            | Self::GoalLight(index) => Some(index),
            _ => None,
        }
    }

    /// Whether a goal of this kind, or its trial, has it; any other box is always there.
    #[must_use]
    pub fn is_of(self, kind: GoalKind) -> bool {
        let Some(index) = self.goal() else {
            return match self {
                Self::TrialAcuity => kind != GoalKind::Print,
                Self::TrialPrint => kind == GoalKind::Print,
                _ => true,
            };
        };
        let Boxes { first, more } = boxes(kind);
        matches!(self, Self::GoalName(_)) || first.iter().chain(more).any(|make| make(index) == self)
    }
}

/// What there is to say of a box of the goal at this place.
pub(super) fn info(field: FieldId, index: usize) -> FieldInfo {
    let goal = |key: &str, label: &str, kind: Kind, assumed: Option<f64>, help: &'static str| {
        of(&format!("goal-{}-{key}", index + 1), label, kind, assumed, help)
    };
    let (length, number) = (Kind::Length, Kind::Number);
    match field {
        FieldId::GoalAcuity(_) => goal(
            "acuity",
            "Acuity to reach",
            Kind::Acuity,
            None,
            "20/40 is usual, 20/50 often accepted (common practice, no source)",
        ),
        FieldId::GoalHeight(_) => goal(
            "height",
            "Height of the letters",
            length(&bounds::TASK_HEIGHT),
            None,
            "Of the letters themselves, or of a thing five details high",
        ),
        FieldId::GoalDetail(_) => goal(
            "detail",
            "Size of the detail",
            length(&bounds::TASK_DETAIL),
            None,
            "The smallest part that matters: a stroke, a gap, a hand of a clock",
        ),
        FieldId::GoalPrint(_) => goal(
            "print",
            "Print to read",
            Kind::Print,
            None,
            "1.6 M, N8, 12 pt Times, 16 px Arial, 1.45 mm, 20/50 at 40 cm",
        ),
        FieldId::GoalDistance(_) => goal(
            "distance",
            "Distance from the eye",
            length(&bounds::TASK_DISTANCE),
            None,
            "The only one, or the nearest. Of print: empty if it may be held where it suits",
        ),
        FieldId::GoalFarthest(_) => goal(
            "farthest",
            "Farthest distance",
            length(&bounds::TASK_DISTANCE),
            None,
            "Empty: the distance above is the only one",
        ),
        FieldId::GoalContrast(_) => goal(
            "contrast",
            "Contrast",
            number(&bounds::TASK_CONTRAST),
            None,
            "Weber contrast: newsprint 60 to 70, laser print 90 (from memory). Empty: not judged",
        ),
        FieldId::GoalReserve(_) => goal(
            "reserve",
            "Reserve",
            number(&bounds::RESERVE),
            Some(2.0),
            "Size over the least size seen. 1 just makes it out; 2 reads with ease",
        ),
        FieldId::GoalWidth(_) => goal(
            "width",
            "Width to see at once",
            length(&bounds::TASK_WIDTH),
            None,
            "Optional: a word, a line, the whole board",
        ),
        FieldId::GoalCharacters(_) => goal(
            "characters",
            "To see at once",
            number(&bounds::TASK_CHARACTERS),
            None,
            "Optional: 4 do where text drifts by (Legge et al. 1985), 10 where one moves along it (Beckmann & Legge 1996)",
        ),
        FieldId::GoalLight(_) => goal(
            "light",
            "Light where it is done",
            number(&bounds::ILLUMINANCE),
            None,
            "Optional, from a light meter: an office has 500 (from memory)",
        ),
        _ => goal("name", "What is it?", Kind::Words, None, "Board writing, bus number…"),
    }
}
