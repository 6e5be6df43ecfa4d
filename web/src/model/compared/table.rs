//! Every aid against every wish, and what follows from it: the order for one wish, the smallest set for all.

use super::{Asked, Cannot, Cell, Ranked, cells, ranked};
use crate::model::list::ListedAid;
use arcminute_core::kit::{KitAid, MOST_WISHES, Plan, Wishes, smallest_kit};
use arcminute_core::list::NoRoom;
use arcminute_core::rank::Criterion;
use arcminute_core::unit::Magnification;

/// What every aid of a list does for every wish.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What was asked.
    pub asked: Asked,
    /// A row for each aid, with a cell for each wish; no rows while something of the eye is missing.
    pub rows: Vec<Vec<Result<Cell, Cannot>>>,
}

impl Table {
    /// Works it out.
    #[must_use]
    pub fn of(asked: Asked, list: &[ListedAid]) -> Self {
        let wishes: Vec<_> = asked.wishes.iter().map(|named| named.wish.clone()).collect();
        let rows = match &asked.behind {
            Some(behind) if !wishes.is_empty() => {
                list.iter().map(|aid| cells(aid, behind, &wishes)).collect()
            }
            _ => Vec::new(),
        };
        Self { asked, rows }
    }

    /// Place of the wish of a goal; nothing while something of it or of the eye is missing.
    #[must_use]
    pub fn wish_of(&self, goal: usize) -> Option<usize> {
        self.asked.of_goal(goal).next().filter(|_| self.asked.behind.is_some())
    }

    /// What an aid does for a wish.
    #[must_use]
    pub fn cell(&self, aid: usize, wish: usize) -> Option<&Result<Cell, Cannot>> {
        self.rows.get(aid)?.get(wish)
    }

    /// The aids in order for one wish.
    #[must_use]
    pub fn ranked(&self, wish: usize, priorities: &[Criterion]) -> Ranked {
        let column: Vec<_> = self.rows.iter().filter_map(|row| row.get(wish)).collect();
        ranked(&column, priorities)
    }

    /// The smallest set of aids that serves all wishes that can be served, each from this chance on.
    ///
    /// # Errors
    /// More aids that differ than the search has room for. Wishes beyond the first 32 are not looked at.
    pub fn kit(&self, list: &[ListedAid], from_chance: f64) -> Result<Plan, NoRoom> {
        let wishes = self.asked.wishes.len().min(MOST_WISHES);
        let aid = |(row, aid): (&Vec<Result<Cell, Cannot>>, &ListedAid)| {
            let mut kit = KitAid { kind: aid.family as u16, ..KitAid::default() };
            for (place, cell) in row.iter().enumerate().take(wishes) {
                let Ok(cell) = cell else { continue };
                if cell.covers(from_chance) {
                    kit.covers |= 1 << place;
                    if aid.traits().hands_free == 2 {
                        kit.hands_free |= 1 << place;
                    }
                    // The hardest wish that it serves says what it costs.
                    let power = cell.merits.power.unwrap_or_default().size();
                    kit.power = Magnification::from_times(kit.power.times().max(power));
                }
            }
            kit
        };
        let aids: Vec<KitAid> = self.rows.iter().zip(list).map(aid).collect();
        let wanted = u32::MAX.checked_shr(32 - wishes as u32).unwrap_or(0);
        smallest_kit(&aids, Wishes { wanted, weights: &[] })
    }
}
