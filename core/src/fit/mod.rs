//! Where a telescope sits in a carrier lens, and whether it may sit there; where the lenses of near spectacles sit.
//!
//! Everything is in the plane of the lens, for one eye: **X** millimetres from the middle of the bridge outward (toward
//! the temple, for both eyes), **Y** millimetres above the lowest boxed tangent. Angles above the straight-ahead line
//! are positive; the pantoscopic angle is positive when the bottom of the front is nearer the face.
//!
//! ```text
//!            ┌──────────────── A ───────────────┐
//!   Y = B  ──┼──────────────────────────────────┤      e     rise of the eyepiece over the pupil
//!            │        ( hole )                  │      beta  axis above the straight-ahead line = head drop
//!            │          ( )  Y_e ─┐             │      tau   axis against the normal of the carrier lens
//!            │           o   H_p ─┴─ e          │      s     lens to centre of rotation of the eye
//!   Y = 0  ──┴──────────────────────────────────┘
//!       X = DBL/2        X_e                 X = DBL/2 + A
//! ```
//!
//! Strong spectacles for near stand in the same plane: [`fit_near_spectacles`] gives their numbers, [`check_near`] judges
//! them. [`alignment()`] says how exactly a telescope has to be aimed, [`turned_over()`] whether it serves the other eye.
//!
//! [`mount`] gives the numbers, [`check()`] judges them, [`ways_out`] says what would make a refused fit possible. The
//! lens edge is a model, a rounded rectangle; the traced shape decides.
//!
//! Then read [`crate::rank`]: which of several aids are worth comparing.

mod alignment;
mod blank;
mod check;
mod edge;
mod face_form;
mod frame;
#[cfg(test)]
mod laws;
mod mounting;
mod near;
mod near_spectacles;
mod request;
mod turned_over;
mod ways_out;
#[cfg(feature = "alloc")]
mod working;

pub use alignment::{Alignment, Shift, alignment};
pub use blank::{Blank, blank};
pub use check::{
    Carrier, Check, CheckId, Context, FellowLens, Fit, Grams, Limit, MOST_CHECKS, MOST_NEAR_CHECKS,
    MOST_WAYS_OUT, NearCheck, Severity, WayOut, check, check_near,
};
pub use edge::{Web, least_web};
pub use face_form::{FaceForm, face_form};
pub use frame::{Frame, Point, corner_radius_from_effective_diameter};
pub use mounting::{Mounting, mount};
pub use near::{NearCentres, near_centres};
pub use near_spectacles::{
    Centration, NearLens, NearLensFit, NearMoved, NearPair, NearSpectacles, NearSpectaclesRequest, PrismRule,
    PrismRuleKind, fit_near_spectacles,
};
pub use request::{MountingRequest, Placement, TiltReference};
pub use turned_over::{TurnedOver, turned_over};
pub use ways_out::{WaysOut, ways_out};

pub use crate::refraction::Eye;
