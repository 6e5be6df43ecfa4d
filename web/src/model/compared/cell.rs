//! What one aid does for one wish, so far as aids are compared by it.

use super::wish::Wish;
use crate::model::answer::Behind;
use crate::model::list::{For, ListedAid, Traits, Walking, Wears};
use arcminute_core::Error;
use arcminute_core::device::{Aid, Detail, Eye, Focus, Outcome, RefractionBy, Worn, every_outcome};
use arcminute_core::optics::DepthOfField;
use arcminute_core::predict::Prediction;
use arcminute_core::rank::{FreeHands, Handling, Merits};
use arcminute_core::unit::{Length, LogMar, Magnification, Vergence};

/// A power that is just enough has a chance of one half, and loses none of it by rounding.
const ROUNDING: f64 = 1e-9;

/// Something that the wish asks for and the aid does not give.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lack {
    /// It is too near for this eye, or too far: it stays out of focus by more than the eye forgives.
    Focus,
    /// Print would have to be where it is not.
    Distance,
    /// Less is seen at once than is wanted.
    Seen,
    /// It takes more hands than there are.
    Hands,
    /// It is not for walking.
    Walking,
    /// It is for one eye.
    BothEyes,
}

impl Lack {
    /// Every one.
    pub const ALL: [Self; 6] =
        [Self::Focus, Self::Distance, Self::Seen, Self::Hands, Self::Walking, Self::BothEyes];
}

/// Why an aid is none for a wish.
#[derive(Clone, Debug, PartialEq)]
pub enum Cannot {
    /// It is for print near, and the wish is not.
    OnlyPrint,
    /// It is for far, and print can be held where it suits.
    OnlyFar,
    /// Optics have no answer.
    NoAnswer(Error),
}

/// What one aid does for one wish, at the end of the wish's range where it does worst.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// Acuity against what is asked, with its chance.
    pub prediction: Prediction,
    /// What is looked at.
    pub detail: Detail,
    /// Size over the least size seen.
    pub reserve_reached: f64,
    /// Distance at which the bare thing would look as large; nothing for far.
    pub equivalent_viewing_distance: Option<Length>,
    /// Angle over that of the bare eye from the same place.
    pub angular: Magnification,
    /// Width seen at once, to half light; nothing where there is no limit.
    pub width: Option<Length>,
    /// The same in characters of this size.
    pub characters: Option<f64>,
    /// Page or screen to the eye; nothing for far.
    pub shown_to_eye: Option<Length>,
    /// Room between the thing and the aid.
    pub hand_room: Option<Length>,
    /// What the eye does about the light.
    pub focus: Focus,
    /// Defocus that this eye forgives.
    pub tolerance: Vergence,
    /// What blur costs.
    pub loss: LogMar,
    /// Where the thing may be.
    pub depth: Option<DepthOfField>,
    /// Light against the bare eye.
    pub light: f64,
    /// What the wish asks for and the aid does not give.
    pub lacks: Vec<Lack>,
    /// What it is weighed by.
    pub merits: Merits,
}

impl Cell {
    /// Whether it gives what the wish cannot do without. Seeing less at once than is wanted is a price, not a bar: the head
    /// scans, and the share of the width is weighed.
    #[must_use]
    pub fn serves(&self) -> bool {
        self.lacks.iter().all(|lack| *lack == Lack::Seen)
    }

    /// Whether the wish is served: the chance is at least this one, and the aid [serves](Self::serves).
    #[must_use]
    pub fn covers(&self, from_chance: f64) -> bool {
        self.serves() && from_chance <= self.prediction.chance + ROUNDING
    }
}

impl Behind {
    /// The eye with what is worn with this aid.
    #[must_use]
    pub fn with(&self, aid: &ListedAid) -> Eye {
        let worn = match (aid.traits().glasses, self.add) {
            (Wears::Nothing, _) => Worn::Nothing,
            _ if aid.is_focused_for_the_eye() && !self.in_eyepiece => Worn::Nothing,
            (Wears::Add, Some(add)) if Vergence::ZERO < add => Worn::Near { add },
            (Wears::Add | Wears::Distance, _) => Worn::Distance,
        };
        Eye { worn, ..self.eye }
    }

    /// The aid as it is used before this eye, with what the eye wears; `distance` is that of a far thing.
    ///
    /// # Errors
    /// Those of the family.
    pub fn used(&self, aid: &ListedAid, distance: Option<Length>) -> Result<(Aid, Eye), Error> {
        let eye = self.with(aid);
        let mut used = aid.used(eye.spectacle_to_eye, distance)?;
        if let Aid::Telescope { refraction, .. } = &mut used
            && self.in_eyepiece
        {
            *refraction = RefractionBy::Glasses;
        }
        Ok((used, eye))
    }
}

/// Whether an aid is one for a wish at all.
pub(super) fn is_for(aid: &ListedAid, wish: &Wish) -> Result<(), Cannot> {
    match (aid.serves(), wish.print, wish.at) {
        (For::Print, false, _) => Err(Cannot::OnlyPrint),
        (For::Far | For::Field, true, None) => Err(Cannot::OnlyFar),
        _ => Ok(()),
    }
}

/// What one aid does for every wish.
pub(super) fn cells(aid: &ListedAid, behind: &Behind, wishes: &[Wish]) -> Vec<Result<Cell, Cannot>> {
    let (eye, traits) = (behind.with(aid), aid.traits());
    let mut cells: Vec<Result<Cell, Cannot>> = Vec::with_capacity(wishes.len());
    // An aid for print is used in one way, whatever is read.
    let used = |distance| behind.used(aid, distance).map(|(used, _)| used);
    let once = (aid.serves() == For::Print).then(|| used(None));
    for wish in wishes {
        if let Err(cannot) = is_for(aid, wish) {
            cells.push(Err(cannot));
            continue;
        }
        let mut worst: Option<Result<Cell, Cannot>> = None;
        for detail in &wish.ends {
            let used: Result<Aid, Error> = match &once {
                Some(used) => used.clone(),
                None => used(detail.distance),
            };
            let mut take = |outcome: Result<Outcome, Error>| {
                let cell = outcome.map(|outcome| cell(&outcome, wish, &traits)).map_err(Cannot::NoAnswer);
                if worst.as_ref().is_none_or(|worst| is_worse(&cell, worst)) {
                    worst = Some(cell);
                }
            };
            match used {
                Ok(used) => every_outcome(&[used], &[*detail], &eye, |_, _, outcome| take(outcome)),
                Err(error) => take(Err(error)),
            }
        }
        cells.push(worst.unwrap_or(Err(Cannot::OnlyFar)));
    }
    cells
}

/// No answer is worse than any; else the lower chance, or the more that is lacking.
fn is_worse(one: &Result<Cell, Cannot>, other: &Result<Cell, Cannot>) -> bool {
    match (one, other) {
        (_, Err(_)) => false,
        (Err(_), Ok(_)) => true,
        (Ok(one), Ok(other)) => {
            (other.lacks.len(), one.prediction.chance) < (one.lacks.len(), other.prediction.chance)
        }
    }
}

/// What the list says of handling. What movement costs is not known of an aid: it depends on the head and the hand.
fn handling(traits: &Traits) -> Handling {
    Handling {
        hands_free: Some(match traits.hands_free {
            0 => FreeHands::None,
            1 => FreeHands::One,
            _ => FreeHands::Both,
        }),
        both_eyes: Some(traits.both_eyes),
        motion_loss: None,
        walking: Some(traits.walking != Walking::No),
    }
}

fn cell(outcome: &Outcome, wish: &Wish, traits: &Traits) -> Cell {
    let width = outcome.widths.map(|widths| widths.half);
    let shown_to_eye = outcome.arrangement.shown_to_eye();
    let mut cell = Cell {
        prediction: outcome.prediction,
        detail: outcome.detail,
        reserve_reached: outcome.reserve_reached,
        equivalent_viewing_distance: outcome.equivalent_viewing_distance,
        angular: outcome.angular,
        width,
        characters: outcome.characters,
        shown_to_eye,
        hand_room: outcome.arrangement.hand_room,
        focus: outcome.focus,
        tolerance: outcome.tolerance,
        loss: outcome.blurred.loss,
        depth: outcome.depth,
        light: outcome.light,
        lacks: Vec::new(),
        merits: Merits::of(outcome, handling(traits), wish.width),
    };
    let too_few = |seen: Option<f64>, wanted: Option<f64>| matches!((seen, wanted), (Some(seen), Some(wanted)) if seen < wanted);
    let elsewhere = wish.at.is_some_and(|(from, to)| {
        !traits.shines && shown_to_eye.is_some_and(|there| there < from * 0.99 || to * 1.01 < there)
    });
    let lacking = [
        (Lack::Focus, outcome.tolerance < outcome.focus.defocus.abs()),
        (Lack::Distance, elsewhere),
        (
            Lack::Seen,
            too_few(outcome.characters, wish.characters)
                || too_few(width.map(Length::m), wish.width.map(Length::m)),
        ),
        (Lack::Hands, traits.hands_free < wish.hands),
        (Lack::Walking, wish.walking && traits.walking == Walking::No),
        (Lack::BothEyes, wish.both_eyes && !traits.both_eyes),
    ];
    cell.lacks.extend(lacking.into_iter().filter(|(_, is)| *is).map(|(lack, _)| lack));
    cell
}
