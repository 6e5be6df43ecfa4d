//! What a device does for one person and one goal.

mod focus;
mod refraction_through;
mod telescope;
mod working;

pub use refraction_through::{BLUR_LIMITS, BlurVerdict, RefractionThrough, refraction_through};
pub use telescope::{CorrectionPlace, FieldBasis, FocusReach, TelescopeOutcome, Viewer, evaluate_telescope};
