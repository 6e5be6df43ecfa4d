//! Every aid of the list against every wish of one eye.
//!
//! Worked out when it is looked at, from the eye, the wishes and the list alone: typing elsewhere costs nothing.

mod asked;
mod cell;
mod looked;
mod ranked;
mod table;
mod trial;
mod wish;

#[cfg(test)]
mod tests;

pub use asked::{Asked, Named};
pub use cell::{Cannot, Cell, Lack};
pub use looked::{LookedAt, Seen};
pub use ranked::{Ranked, ranked};
pub use table::Table;
pub use trial::{is_of, trial};
pub use wish::Wish;

use super::answer::Behind;
use super::list::ListedAid;

/// What one aid does for every wish, in the order of the wishes.
#[must_use]
pub fn cells(aid: &ListedAid, behind: &Behind, wishes: &[Wish]) -> Vec<Result<Cell, Cannot>> {
    cell::cells(aid, behind, wishes)
}
