//! Every aid of the list against every wish of one eye.
//!
//! Worked out when it is looked at, from the eye, the wishes and the list alone: typing elsewhere costs nothing.

mod cell;
mod wish;

#[cfg(test)]
mod tests;

pub use cell::{Behind, Cannot, Cell, Lack, outcome};
pub use wish::Wish;

use super::list::ListedAid;

/// What one aid does for every wish, in the order of the wishes.
#[must_use]
pub fn cells(aid: &ListedAid, behind: &Behind, wishes: &[Wish]) -> Vec<Result<Cell, Cannot>> {
    cell::cells(aid, behind, wishes)
}
