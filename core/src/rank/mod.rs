//! Which aids are worth comparing for one wish: those that no other beats at everything.
//!
//! No weights are asked for, and no score is made. An aid *beats* another when it is at least as good on every criterion
//! and better on one; what is beaten folds away, and the rest is the front, where each aid costs something to leave.
//!
//! ```text
//!   light ▲   A        A, B, C: the front; going from one to the next gains something and costs something
//!         |       B
//!         |   d       C     d is beaten by B (light, field); e by B and C
//!         |      e
//!         └──────────────► seen at once
//! ```
//!
//! * [`Merits`] holds what a person would weigh, one aid and one wish; what is not known stays unknown.
//! * [`dominates`], [`fold`] say what beats what, and on which [`Criteria`].
//! * [`compare`], [`in_order`] put a list in order: the wish reached first, then what matters to the person.
//!
//! Differences too small to matter do not count ([`LeastDifferences`]). To keep that fair over three aids in a row, values are
//! first rounded to a grid of that step: two just beside an edge of it still count as different, and two in one step of
//! it as alike.
//!
//! Then read [`crate::kit`]: the fewest aids that serve all wishes.

mod criteria;
mod front;
mod grid;
mod merits;
mod order;

pub use criteria::{Criteria, Criterion};
#[cfg(feature = "alloc")]
pub use front::folded;
pub use front::{Beaten, Standing, dominates, fold, known_somewhere};
pub use grid::LeastDifferences;
pub use merits::{Chance, Extent, FreeHands, Handling, Merits, SeenAtOnce};
pub use order::{compare, in_order};
