//! The optics and measurement of low-vision aids.
//!
//! Every device is a train of lenses, gaps and stops ([`optics`]); one ray-transfer rule says what a person sees through
//! it. Textbook closed forms stand beside it as the second, independent road, in the tests and in the working. Every
//! result is a record with public fields that can list the steps that led to it ([`explain`]).
//!
//! # How to read this
//! Each module opens with what it is about and ends with the one to read next.
//!
//! 1. Seeing small things: [`acuity`].
//! 2. How large print is: [`print`](mod@print).
//! 3. How much reserve: [`reading`]; what else sight needs: [`contrast`], [`light`], [`eccentric`]; what there is to be
//!    seen: [`everyday`], [`scene`], and as one record a [`task`].
//! 4. Optics: one rule for every train of lenses, [`optics`]; the eye behind it: [`accommodation`], [`refraction`].
//! 5. Families of aids: [`device`].
//! 6. What is seen: [`device::look`], its chance in [`predict`], what motion takes from it in [`steadiness`], what two
//!    eyes make of it in [`convergence`], and where a telescope sits in [`fit`].
//! 7. Choosing: what beats what for one wish, [`rank`]; the fewest aids for all of them, [`kit`]; what was measured against
//!    what was predicted, [`trial`].
//! 8. Finding the power of an unmarked aid: [`unmarked`].
//! 9. Checking a delivered lens: [`delivery`], by the limits of [`tolerance`].
//!
//! What all of it stands on: [`explain`] and [`source`] for where numbers come from, [`bounds`] and [`error`] for what is
//! refused, [`mod@unit`] for quantities, and [`list`], [`scan`] and [`math`] beneath.
//!
//! ```text
//!   what is written          what it means                what is worked out
//!   20/200, 1.6 M   ──────►  MAR, print, reserve  ──┐
//!   +2.00 -1.50 x90 ──────►  refraction, eye  ──────┼──►  aid in use ──►  what is seen, its chance, its working
//!   20 D, 50 mm     ──────►  lenses, gaps, stops ───┘
//! ```
//!
//! # An example
//! An eye of 20/200, print of 1 M to be read at twice the size that is only just read, and a hand magnifier:
//!
//! ```
//! use arcminute_core::device::{Detail, Eye, HandMagnifier, PrintPlace, hold, look};
//! use arcminute_core::explain::Explain;
//! use arcminute_core::reading::power_from_acuity;
//! use arcminute_core::unit::{Length, LogMar, PrintSize};
//!
//! // Least detail 10 minutes of arc; repeats of the measurement stay within 0.2 log.
//! let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
//! // 1 M from 1 m is 1 minute: 10 times nearer for the acuity, 2 times for the reserve.
//! let goal = PrintSize::from_m_units(1.0);
//! let needed = power_from_acuity(eye.acuity, goal, 2.0)?;
//! assert!((needed.evp.dioptres() - 20.0).abs() < 1e-9);
//!
//! // A lens of that power, 10 cm before the glasses, with the print in its focus, 5 cm away.
//! let magnifier =
//!     HandMagnifier { power: needed.evp, clear_diameter: Length::from_mm(40.0), transmittance: 0.92 };
//! let held = hold(magnifier, &eye, Length::from_cm(10.0), PrintPlace::AtCombinedFocus)?;
//! assert!((held.print_to_lens.mm() - 50.0).abs() < 1e-9);
//!
//! // What is seen: detail twice as large as the least, and 40 mm of lens over 115 mm to the eye's entrance pupil let
//! // 17.4 mm of print be seen at once, 13 characters.
//! let print = Detail { height: goal.x_height(), distance: None, reserve: 2.0 };
//! let seen = look(&held.arrangement, &eye, print)?;
//! assert!((seen.reserve_reached - 2.0).abs() < 1e-3);
//! assert!((seen.characters.unwrap_or_default() - 13.4).abs() < 0.05);
//!
//! // Every step shows its formula with its numbers, and the two agree.
//! for step in held.steps().iter().chain(&seen.steps()) {
//!     assert_eq!(step.check(), Ok(()));
//! }
//! # Ok::<(), arcminute_core::Error>(())
//! ```
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
pub mod kit;
pub mod light;
pub mod list;
pub mod math;
pub mod optics;
pub mod predict;
pub mod print;
pub mod rank;
pub mod reading;
pub mod refraction;
pub mod scan;
pub mod scene;
pub mod source;
pub mod steadiness;
pub mod task;
pub mod tolerance;
pub mod trial;
pub mod unit;
pub mod unmarked;

#[cfg(test)]
#[path = "../tests/law/cases.rs"]
mod cases;

pub use error::{Error, Why};
