//! The fewest aids that serve all wishes, exactly, and what fewer would give up.
//!
//! Each aid serves some of the wishes; a set of aids serves what any of them does. Wanted is the smallest set that serves
//! everything that can be served at all: a minimum set cover. One aid less to buy, carry and learn is worth more than any
//! finer merit, so those only decide between sets of one size, in this order:
//!
//! 1. more wishes served, by their weight (all sets that serve everything are alike in that),
//! 2. more of them with hands free,
//! 3. less power in total, counted in hundredths,
//! 4. fewer kinds of aid to learn,
//! 5. earlier in the list.
//!
//! ```text
//!            wish 1  2  3  4
//!   cap           x  x  .  .     cap + lamp leave wish 4
//!   lamp          .  .  x  .     cap + stand serve all: two aids, and stand alone would lose 1 and 2
//!   stand         .  .  x  x
//! ```
//!
//! The search tries every set that could be best and gives up none unproved; where that takes too long it stops at
//! [`MOST_NODES`] and says so ([`Exactness`]).
//!
//! Then read [`crate::trial`]: what was measured with the aid.

mod pool;
mod search;

use crate::list::{List, NoRoom};
use crate::math;
use crate::unit::Magnification;
use pool::{Aid, Aids, Weights, without_replaceable};
use search::{Found, Search};

/// Wishes there is room for: one for each bit of a mask.
pub const MOST_WISHES: usize = 32;
/// Aids there is room for once those that another replaces are left out.
pub const MOST_AIDS: usize = 512;
/// Steps of the whole search, after which it stops unproved; each size of set may take half of what is left of them.
/// Chosen here: a clinic's list takes a few thousand, and this many take less than a second.
pub const MOST_NODES: u32 = 200_000;

/// What one aid does; the lowest bit of a mask is the first wish.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct KitAid {
    /// Wishes that it serves.
    pub covers: u32,
    /// Those that it serves with hands free; others than the ones it serves do not count.
    pub hands_free: u32,
    /// What it costs in power; without sign. What is no number counts as the most.
    pub power: Magnification,
    /// Kind of aid, to learn once; any number.
    pub kind: u16,
}

/// What is wanted of a set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Wishes<'a> {
    /// The wishes.
    pub wanted: u32,
    /// What each counts when not all can be served, first wish first; a missing weight and one of zero count as one.
    pub weights: &'a [u16],
}

/// Whether a set is proved to be the best of its size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exactness {
    /// No set of this size, or of a smaller one that serves as much, is better.
    Proved,
    /// The search stopped at [`MOST_NODES`]: there may be a better one, and for the whole plan a smaller one.
    LimitReached,
}

/// One aid of a set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chosen {
    /// Its place in the list of aids.
    pub place: usize,
    /// Wishes that the set would not serve without it.
    pub lost: u32,
    /// Those of them that nothing else in the whole list serves.
    pub only: u32,
}

/// A set of aids.
#[derive(Clone, Debug, PartialEq)]
pub struct Kit {
    /// The aids, in the order of the list.
    pub chosen: List<Chosen, MOST_WISHES>,
    /// Wishes that it serves.
    pub covered: u32,
    /// Weight of those.
    pub weight: u32,
    /// Those that it serves with hands free.
    pub hands_free: u32,
    /// Power of all of its aids together, in hundredths.
    pub power: Magnification,
    /// Kinds of aid in it, a count.
    pub kinds: usize,
    /// Whether it is proved to be the best of its size.
    pub exactness: Exactness,
    /// Steps that the search took, a count.
    pub nodes: u32,
}

/// The smallest set, and the best ones that are smaller still.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The smallest set that serves all that can be served.
    pub best: Kit,
    /// Wishes that no aid of the list serves.
    pub uncoverable: u32,
    /// The best set of each smaller size, from none up; what it lacks of the best one is what is given up.
    pub smaller: List<Kit, MOST_WISHES>,
    /// Whether all of it is proved.
    pub exactness: Exactness,
}

/// The smallest set of aids that serves every wish that any of them serves, and the best sets that are smaller.
///
/// The answer does not depend on the order of the wishes, and on that of the aids only between sets that are alike in
/// everything else.
///
/// # Errors
/// More than [`MOST_AIDS`] aids of which none replaces another. One replaces another when it serves the same and more,
/// hands free as well, at less power, or at the same power if it is of the same kind and earlier in the list.
///
/// ```
/// use arcminute_core::kit::{Exactness, KitAid, Wishes, smallest_kit};
/// let serving = |covers| KitAid { covers, ..KitAid::default() };
/// // The sketch above: a cap, a lamp and a stand magnifier for four wishes; nothing serves a fifth.
/// let aids = [serving(0b0_0011), serving(0b0_0100), serving(0b0_1100)];
/// let plan = smallest_kit(&aids, Wishes { wanted: 0b1_1111, weights: &[] })?;
/// let chosen: Vec<_> = plan.best.chosen.iter().map(|one| one.place).collect();
/// assert_eq!((chosen, plan.uncoverable, plan.exactness), (vec![0, 2], 0b1_0000, Exactness::Proved));
/// assert_eq!(plan.best.chosen[1].lost, 0b0_1100);
/// assert_eq!(plan.best.chosen[1].only, 0b0_1000, "the lamp would still serve the third");
/// assert_eq!(plan.smaller[1].covered, 0b0_0011, "the best single aid");
/// # Ok::<(), arcminute_core::list::NoRoom>(())
/// ```
pub fn smallest_kit(aids: &[KitAid], wishes: Wishes<'_>) -> Result<Plan, NoRoom> {
    let coverable = aids.iter().fold(0, |all, aid| all | aid.covers) & wishes.wanted;
    let weights = Weights::new(wishes.weights);
    let useful = useful(aids, coverable, &weights)?;
    let mut search = Search::new(useful.as_slice(), &weights);
    let mut smaller = List::new();
    let (mut exactness, mut nodes_left) = (Exactness::Proved, MOST_NODES);
    loop {
        let found = search.best_of(smaller.len(), nodes_left / 2);
        nodes_left = nodes_left.saturating_sub(found.nodes);
        let kit = kit(aids, coverable, &found);
        if kit.exactness != Exactness::Proved {
            exactness = kit.exactness;
        }
        if kit.covered == coverable {
            return Ok(Plan { best: kit, uncoverable: wishes.wanted & !coverable, smaller, exactness });
        }
        // One aid for each wish serves them all, so there are never more sizes than there is room for.
        smaller.try_push(kit).map_err(|_| NoRoom)?;
    }
}

/// The aids that could be part of a best set, as the search takes them.
fn useful(aids: &[KitAid], coverable: u32, weights: &Weights) -> Result<Aids, NoRoom> {
    let aid = |(place, aid): (usize, &KitAid)| Aid {
        covers: aid.covers & coverable,
        weight: weights.of(aid.covers & coverable),
        hands_free: aid.hands_free & aid.covers & coverable,
        hundredths: hundredths(aid.power),
        kind: aid.kind,
        kind_place: 0,
        place,
    };
    without_replaceable(|| (0..aids.len()).zip(aids).map(aid).filter(|aid| aid.covers != 0))
}

/// Far beyond every power; a sum of so many is still a whole number to the last bit.
const MOST_HUNDREDTHS: f64 = 1e9;

/// A whole number, so that sums do not depend on their order.
fn hundredths(power: Magnification) -> f64 {
    // A half goes up even if rounding took its last digits off, as with the merits.
    let hundredths = math::floor(power.size() * 100.0 + 0.5 + 1e-9);
    if hundredths <= MOST_HUNDREDTHS { hundredths } else { MOST_HUNDREDTHS }
}

/// A set as it is handed out.
fn kit(aids: &[KitAid], coverable: u32, found: &Found) -> Kit {
    let mut chosen = List::new();
    for place in &found.places {
        let others = found.places.iter().filter(|other| *other != place);
        let rest = others.filter_map(|other| aids.get(*other)).fold(0, |all, aid| all | aid.covers);
        let elsewhere = (0..aids.len()).zip(aids).filter(|(other, _)| other != place);
        let elsewhere = elsewhere.fold(0, |all, (_, aid)| all | aid.covers);
        let own = aids.get(*place).map_or(0, |aid| aid.covers) & coverable;
        // There is as much room in the one as in the other.
        let _ = chosen.try_push(Chosen { place: *place, lost: own & !rest, only: own & !elsewhere });
    }
    Kit {
        chosen,
        covered: found.covered,
        weight: found.score.weight,
        hands_free: found.hands_free,
        power: Magnification::from_times(found.score.hundredths / 100.0),
        kinds: found.score.kinds,
        exactness: found.exactness,
        nodes: found.nodes,
    }
}

#[cfg(test)]
mod tests;
