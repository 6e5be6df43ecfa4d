//! The optics and measurement of low-vision aids.
//!
//! Every device is a train of lenses, gaps and stops ([`optics`]); one ray-transfer rule says what a person sees through
//! it. Textbook closed forms stand beside it as the second, independent road, in the tests and in the working. Every
//! result is a record with public fields that can list the steps that led to it ([`explain`]).
//!
//! # Conventions
//! * Light travels left to right; a distance in that direction is positive; diverging light has negative vergence.
//! * Magnification is signed: an inverting telescope stays negative in every formula, prism or not.
//! * Distances to "the eye" are to its entrance pupil, about 3 mm behind the cornea.
//! * Values go in and out through named units ([`mod@unit`]); nothing here allocates a meaning to a bare number.
//!
//! No `std`, no text beyond trade notation, no platform: what a native test proves is what the page shows.
#![no_std]
// No public input makes it panic; tests/bare proves at link time what these lints ask for in the source.
#![cfg_attr(
    not(test),
    deny(
        clippy::arithmetic_side_effects,
        clippy::cast_possible_truncation,
        clippy::cast_possible_wrap,
        clippy::cast_sign_loss,
        clippy::expect_used,
        clippy::get_unwrap,
        clippy::indexing_slicing,
        clippy::panic,
        clippy::string_slice,
        clippy::todo,
        clippy::unimplemented,
        clippy::unreachable,
        clippy::unwrap_used
    )
)]
#[cfg(any(test, feature = "alloc"))]
extern crate alloc;

pub mod accommodation;
pub mod acuity;
pub mod bounds;
pub mod contrast;
pub mod convergence;
pub mod delivery;
pub mod device;
pub mod eccentric;
pub mod error;
pub mod everyday;
pub mod explain;
pub mod fit;
pub mod light;
pub mod list;
pub mod math;
pub mod optics;
pub mod predict;
pub mod print;
pub mod reading;
pub mod refraction;
pub mod scan;
pub mod scene;
pub mod source;
pub mod steadiness;
pub mod task;
pub mod tolerance;
pub mod unit;
pub mod unmarked;

#[cfg(test)]
#[path = "../tests/law/cases.rs"]
mod cases;

pub use error::{Error, Why};
