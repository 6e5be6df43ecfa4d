//! Everyday things to look at: how large they are, from where they are looked at, and what they ask for.
//!
//! [`ALL`] is the table; a size, distance or contrast says by its standing whether it was measured, is laid down by a
//! rule, follows from such figures, or is remembered. [`everyday_demand`] turns a row into the acuity it asks for.
//!
//! What a height is of is part of the row ([`Part`]): the x-height in lower case, the height in capitals and numbers, all
//! five details high. Print sizes are in M units of that height; points become heights by the x-height of two common
//! typefaces, from memory 0.448 and 0.519 of the body.
//!
//! Then read [`crate::scene`]: faces, signs and boards.

mod demand;
mod extent;
mod row;
mod rows;

pub use demand::{EverydayDemand, everyday_demand};
pub use extent::Extent;
pub use row::{Contrast, Everyday, Part, SeenFrom};
pub use rows::ALL;
