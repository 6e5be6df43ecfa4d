//! What beats what, and the front that nothing beats.

use super::{Criteria, Merits};
use crate::list::NoRoom;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;
use core::cmp::Ordering;

/// On what one aid is better than another that it beats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Beaten {
    /// The criteria; never none. On the others that were compared the two are alike.
    pub on: Criteria,
}

/// Whether `a` beats `b`: at least as good on each of `criteria`, and better on one.
///
/// A criterion that is not known of either, or was measured in different ways, stands in the way: nothing is beaten on a
/// guess. So no merits beat themselves, and what beats a second that beats a third beats the third.
///
/// ```
/// use arcminute_core::rank::{Beaten, Criteria, Criterion, Merits, dominates};
/// let (light, room) = (Criterion::Light, Criterion::HandRoom);
/// let clear = Merits { light: Some(0.92), ..Merits::default() };
/// let dark = Merits { light: Some(0.60), ..Merits::default() };
/// let on = Criteria::of(&[light]);
/// assert_eq!(dominates(&clear, &dark, on), Some(Beaten { on }));
/// assert_eq!(dominates(&clear, &dark, on.with(room)), None, "the room is not known");
/// ```
#[must_use]
pub fn dominates(a: &Merits, b: &Merits, criteria: Criteria) -> Option<Beaten> {
    let mut on = Criteria::NONE;
    for criterion in criteria.iter() {
        match a.level(criterion)?.against(b.level(criterion)?)? {
            Ordering::Less => return None,
            Ordering::Equal => {}
            Ordering::Greater => on = on.with(criterion),
        }
    }
    (!on.is_empty()).then_some(Beaten { on })
}

/// Criteria that are known of one candidate at least; the others tell nobody apart.
///
/// ```
/// use arcminute_core::rank::{Criteria, Criterion, Merits, known_somewhere};
/// let clear = Merits { light: Some(0.92), ..Merits::default() };
/// assert_eq!(known_somewhere(&[Merits::default(), clear]), Criteria::of(&[Criterion::Light]));
/// ```
#[must_use]
pub fn known_somewhere(candidates: &[Merits]) -> Criteria {
    let known = |criterion| candidates.iter().any(|merits| merits.level(criterion).is_some());
    Criteria::ALL.iter().filter(|criterion| known(*criterion)).fold(Criteria::NONE, Criteria::with)
}

/// Where a candidate stands among the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Nothing beats it.
    Front,
    /// Something beats it.
    Beaten {
        /// Place in the list of the first one that beats it and is not beaten itself.
        by: usize,
        /// On what that one is better.
        on: Criteria,
    },
}

/// Where each candidate stands, written to `standings` in the same order; gives the criteria that were compared.
///
/// These are the `criteria` asked for but the ones that are known of no candidate. Whatever is beaten is beaten by
/// something that is not. It takes as long as comparing each candidate with every other.
///
/// # Errors
/// There are fewer standings than candidates; nothing is written.
///
/// ```
/// use arcminute_core::rank::{Criteria, Criterion, Merits, Standing, fold};
/// let candidates = [0.60, 0.92, 0.85].map(|light| Merits { light: Some(light), ..Merits::default() });
/// let mut standings = [Standing::Front; 3];
/// let on = fold(&candidates, Criteria::ALL, &mut standings)?;
/// assert_eq!(on, Criteria::of(&[Criterion::Light]));
/// assert_eq!(standings, [Standing::Beaten { by: 1, on }, Standing::Front, Standing::Beaten { by: 1, on }]);
/// # Ok::<(), arcminute_core::list::NoRoom>(())
/// ```
pub fn fold(
    candidates: &[Merits],
    criteria: Criteria,
    standings: &mut [Standing],
) -> Result<Criteria, NoRoom> {
    let standings = standings.get_mut(..candidates.len()).ok_or(NoRoom)?;
    let criteria = criteria.and(known_somewhere(candidates));
    for (standing, merits) in standings.iter_mut().zip(candidates) {
        *standing = Standing::Front;
        for (by, other) in candidates.iter().enumerate() {
            if let Some(Beaten { on }) = dominates(other, merits, criteria) {
                *standing = Standing::Beaten { by, on };
                break;
            }
        }
    }
    // What beats a candidate may be beaten itself, but then by one that beats the candidate too: name that one.
    for place in 0..standings.len() {
        let (Some(Standing::Beaten { by, on }), Some(merits)) =
            (standings.get(place).copied(), candidates.get(place))
        else {
            continue;
        };
        let unbeaten = |by: usize| standings.get(by) == Some(&Standing::Front);
        let first = candidates.iter().enumerate().filter(|(by, _)| unbeaten(*by)).find_map(|(by, other)| {
            dominates(other, merits, criteria).map(|Beaten { on }| Standing::Beaten { by, on })
        });
        if let Some(standing) = standings.get_mut(place) {
            *standing = first.unwrap_or(Standing::Beaten { by, on });
        }
    }
    Ok(criteria)
}

/// Where each candidate stands, in order; as [`fold`], for those who have an allocator.
///
/// ```
/// use arcminute_core::rank::{Criteria, Merits, Standing, folded};
/// let alike = [Merits::default(); 2];
/// assert_eq!(folded(&alike, Criteria::ALL), [Standing::Front; 2]);
/// ```
#[cfg(feature = "alloc")]
#[must_use]
pub fn folded(candidates: &[Merits], criteria: Criteria) -> Vec<Standing> {
    let mut standings = alloc::vec![Standing::Front; candidates.len()];
    // There is one standing for each.
    let _ = fold(candidates, criteria, &mut standings);
    standings
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rank::{Criterion, FreeHands};

    fn lit(light: f64, hands: FreeHands) -> Merits {
        Merits { light: Some(light), hands_free: Some(hands), ..Merits::default() }
    }

    #[test]
    fn what_is_folded_names_one_that_is_not() -> Result<(), NoRoom> {
        // The first is beaten by the second, which the third beats.
        let candidates = [
            lit(0.5, FreeHands::None),
            lit(0.6, FreeHands::None),
            lit(0.6, FreeHands::One),
            lit(0.9, FreeHands::None),
            lit(0.55, FreeHands::Both),
        ];
        let both = Criteria::of(&[Criterion::Light, Criterion::HandsFree]);
        let mut standings = [Standing::Front; 6];
        assert_eq!(fold(&candidates, Criteria::ALL, &mut standings)?, both);
        let beaten = |on: &[Criterion]| Standing::Beaten { by: 2, on: Criteria::of(on) };
        assert_eq!(
            standings[..2],
            [beaten(&[Criterion::Light, Criterion::HandsFree]), beaten(&[Criterion::HandsFree]),]
        );
        assert_eq!(standings[2..], [Standing::Front; 4], "and the sixth is left alone");
        Ok(())
    }

    #[test]
    fn too_few_places_are_refused_and_none_is_written() {
        let candidates = [lit(0.9, FreeHands::One), lit(0.1, FreeHands::One)];
        let mut standings = [Standing::Beaten { by: 7, on: Criteria::NONE }];
        assert_eq!(fold(&candidates, Criteria::ALL, &mut standings), Err(NoRoom));
        assert_eq!(standings, [Standing::Beaten { by: 7, on: Criteria::NONE }]);
    }

    #[test]
    fn what_one_lacks_keeps_it_on_the_front() {
        let unknown = Merits { light: None, ..lit(0.0, FreeHands::None) };
        let candidates = [unknown, lit(0.9, FreeHands::Both), lit(0.8, FreeHands::Both)];
        let light = Criteria::of(&[Criterion::Light]);
        let standings = folded(&candidates, Criteria::ALL);
        assert_eq!(standings, [Standing::Front, Standing::Front, Standing::Beaten { by: 1, on: light }]);
    }
}
