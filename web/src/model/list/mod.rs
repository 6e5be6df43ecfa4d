//! A clinic's own list of aids: a plain table, or JSON, that the page loads, checks row by row, and evaluates.
//!
//! ```text
//!   bytes ─► split ─► rows of cells ─► cell ─► ListedAid ─► used ─► core::device::Aid
//!                └─► json ─► entries ──┘           └─► traits, device, cautions
//! ```
//!
//! * What a list may say is one table, [`mod@column`]; what each family of aids needs of it is another, [`family`].
//! * A row that is in order is kept. Everything else becomes a [`Trouble`]: where, what was read, why not, what to type.
//! * Nothing is converted: a heading or a cell in another unit is refused, and so is a number that can mean two.
//! * The demonstration list is such a file, and invented.

mod aid;
mod cell;
pub mod column;
pub mod family;
mod heading;
mod how;
mod json;
mod near;
mod purpose;
mod reading;
pub(super) mod split;
mod table;
mod trouble;
mod used;

#[cfg(test)]
mod tests;

pub use aid::{ListedAid, Traits};
pub use cell::Value;
pub use column::Column;
pub use family::{Family, Walking};
pub use how::family_steps;
pub use json::{VERSION, write_json};
pub use purpose::{For, Wears};
pub use reading::{Reading, read};
pub use table::{template_csv, write_csv};
pub use trouble::{Place, Trouble, Wrong};

use std::sync::OnceLock;

/// Longest file read, bytes.
pub const MOST_BYTES: usize = 2_000_000;
/// Most rows read, empty ones counted.
pub const MOST_ROWS: usize = 10_000;
/// Fewer columns than this are read as headings.
pub const MOST_COLUMNS: usize = 200;
/// Most aids read.
pub const MOST_AIDS: usize = 500;
/// Most troubles listed; more are counted.
pub const MOST_TROUBLES: usize = 200;

const DEMO: &str = include_str!("../../../../demo-scenarios/aids.csv");

/// What the demonstration list is.
pub const DEMO_ABOUT: &str = "An invented list, some aids of each family; no real device is in it.";

/// The invented demonstration list; a test finds no trouble in it.
#[must_use]
pub fn demo() -> &'static Reading {
    static LIST: OnceLock<Reading> = OnceLock::new();
    LIST.get_or_init(|| Reading { about: DEMO_ABOUT.into(), ..read(DEMO.as_bytes()) })
}

/// An aid of the demonstration list by its key.
#[must_use]
pub fn demo_aid(id: &str) -> Option<&'static ListedAid> {
    demo().list.iter().find(|aid| aid.id == id)
}
