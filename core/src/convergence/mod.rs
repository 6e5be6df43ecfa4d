//! How far two eyes have to turn in for near work, and what lenses and prisms make of it.
//!
//! ```text
//!   eye ──── s ────  lens ──── u ──── print on the midline
//!    p from the midline, p_c: optical centre from the midline, base-in positive
//! ```
//!
//! * All is said of one eye, in prism dioptres (100 times the tangent) at its centre of rotation; two eyes that are alike
//!   ask for twice as much.
//! * s runs from the lens to the centre of rotation of the eye, commonly 27 mm, 25 to 30.
//! * The exact value is the ray-transfer engine's; every rule of thumb stands beside it. Rules disagree, and one of them
//!   is remembered only: the records say which.
//!
//! Then read [`crate::fit`]: where a telescope sits before the eye.

mod near_pair;
mod prism_choice;
mod through;

pub use near_pair::{Convergence, EyeAndLens, Inset, inset};
pub use prism_choice::{ASK_CENTRATION_AND_PRISM, PrismChoice, prism_for_target};
pub use through::{CapOnMidline, ThroughPair, cap_on_midline, through_pair};
