//! The order of a list: the wish reached first, then what matters to the person, then the rest.

use super::{Criterion, Merits};
use crate::list::NoRoom;
use crate::predict::Reach;
use core::cmp::Ordering;

/// Two candidates, each with its place in the list: `Less` when the first comes first.
///
/// First those whose retest band reaches the goal with its middle at least, then those whose better end does, then by `priorities` in the order given, then by every criterion
/// in the order of [`Criterion::ALL`], then by place. On each the better comes first, and what is not known last. Of two
/// places that differ, one always comes first.
///
/// ```
/// use arcminute_core::rank::{Criterion, FreeHands, Merits, compare};
/// use std::cmp::Ordering;
/// let clear = Merits { light: Some(0.9), hands_free: Some(FreeHands::None), ..Merits::default() };
/// let handy = Merits { light: Some(0.8), hands_free: Some(FreeHands::Both), ..Merits::default() };
/// assert_eq!(compare((0, &clear), (1, &handy), &[]), Ordering::Less);
/// assert_eq!(compare((0, &clear), (1, &handy), &[Criterion::HandsFree]), Ordering::Greater);
/// ```
#[must_use]
pub fn compare(a: (usize, &Merits), b: (usize, &Merits), priorities: &[Criterion]) -> Ordering {
    let class = |merits: &Merits| merits.chance.map(|chance| chance.reach.min(Reach::Middle));
    // Nothing is less than something, so the one that is known comes first.
    let by_class = class(b.1).cmp(&class(a.1));
    let on = |criterion: &Criterion| match (a.1.level(*criterion), b.1.level(*criterion)) {
        (Some(one), Some(other)) => other.in_list(one),
        (one, other) => other.is_some().cmp(&one.is_some()),
    };
    let all = priorities.iter().chain(&Criterion::ALL);
    let by_merit = || all.map(on).find(|order| order.is_ne()).unwrap_or(Ordering::Equal);
    by_class.then_with(by_merit).then(a.0.cmp(&b.0))
}

/// Places of the candidates in the order of [`compare`], written to `places`.
///
/// # Errors
/// There are fewer places than candidates; nothing is written.
///
/// ```
/// use arcminute_core::rank::{Merits, in_order};
/// let candidates = [0.60, 0.92, 0.85].map(|light| Merits { light: Some(light), ..Merits::default() });
/// let mut places = [0; 3];
/// in_order(&candidates, &[], &mut places)?;
/// assert_eq!(places, [1, 2, 0]);
/// # Ok::<(), arcminute_core::list::NoRoom>(())
/// ```
pub fn in_order(candidates: &[Merits], priorities: &[Criterion], places: &mut [usize]) -> Result<(), NoRoom> {
    let places = places.get_mut(..candidates.len()).ok_or(NoRoom)?;
    for (place, merits) in (0..candidates.len()).zip(candidates) {
        // As many come before it as are ahead of it: no two candidates share that number.
        let ahead = |other: (usize, &Merits)| compare(other, (place, merits), priorities).is_lt();
        let before = (0..candidates.len()).zip(candidates).filter(|other| ahead(*other));
        let before = before.fold(0_usize, |count, _| count.saturating_add(1));
        if let Some(slot) = places.get_mut(before) {
            *slot = place;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rank::Chance;

    fn merits(reach: Option<Reach>, share: f64, light: Option<f64>) -> Merits {
        Merits { chance: reach.map(|reach| Chance { share, reach }), light, ..Merits::default() }
    }

    #[test]
    fn the_wish_reached_comes_first_whatever_matters_else() -> Result<(), NoRoom> {
        let candidates = [
            merits(None, 0.0, Some(1.0)),
            merits(Some(Reach::No), 0.0, Some(0.9)),
            merits(Some(Reach::Middle), 0.6, Some(0.5)),
            merits(Some(Reach::Middle), 0.7, Some(0.4)),
            merits(Some(Reach::WholeBand), 0.98, None),
            merits(Some(Reach::Middle), 0.6, None),
            merits(Some(Reach::Middle), 0.6, Some(0.5)),
            merits(Some(Reach::BetterEnd), 0.2, Some(0.1)),
        ];
        let mut places = [99; 9];
        in_order(&candidates, &[], &mut places)?;
        assert_eq!(places, [4, 3, 2, 6, 5, 7, 1, 0, 99]);
        in_order(&candidates, &[Criterion::Light, Criterion::Chance], &mut places)?;
        assert_eq!(places, [2, 6, 3, 4, 5, 7, 1, 0, 99], "the middle is enough");
        assert_eq!(in_order(&candidates, &[], &mut places[..7]), Err(NoRoom));
        Ok(())
    }
}
