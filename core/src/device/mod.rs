//! What a device does for one person and one goal.
//!
//! A family of aids says how it is arranged: which lenses stand where, how far the thing is, what a screen shows larger.
//! [`look`] then derives everything that can be seen from the one ray-transfer rule, the same for all families, and the
//! family's own record shows the closed form beside it.
//!
//! ```text
//!   thing |<-- hand room -->( aid )<-- to the glasses -->( worn )<-- to the eye -->| eye's entrance pupil
//!                         light travels this way  ------------------------------->
//! ```
//!
//! Distances are positive; a demand is positive when the light arrives diverging.
//!
//! # The families
//! * Without a device: moving nearer, larger copies ([`look_from`]).
//! * In the hand, on the page, on the face: [`hold`], [`place_stand`], [`lay_dome`], [`lay_bar`], [`wear`].
//! * Screens and cameras: [`watch_screen`], [`watch_far`], [`wear_display`].
//! * Telescopes: [`aim`], and [`evaluate_telescope`] for one in a carrier lens. The other way round: [`hold_minus`].
//! * Prisms for a lost half of the field: [`FieldPrism`].
//!
//! Then read [`crate::predict`]: how likely a goal is reached.

mod aid;
mod aim;
mod arrangement;
mod bar;
mod dome;
mod eye;
mod field_prism;
mod focus;
mod hand;
mod high_plus;
mod label;
mod minifier;
mod nearer;
mod refraction_through;
mod screen;
#[cfg(feature = "alloc")]
mod seen;
mod sheet;
mod stand;
mod telescope;
#[cfg(feature = "alloc")]
mod working;

pub use aid::{Aid, every_outcome};
pub use aim::{RefractionBy, Setting, TelescopeInUse, aim};
pub use arrangement::{
    Arrangement, CHARACTER_WIDTH_PER_M, Detail, FOCUS_LOSS, Outcome, Widths, characters_in, look,
};
pub use bar::{Bar, BarInUse, lay_bar};
pub use dome::{BlockImage, Dome, DomeInUse, block_image, dome_height_for, lay_dome};
pub use eye::{Eye, Focus, Worn};
pub use field_prism::{
    APEX_TO_APEX_TRIAL, ExpansionTrial, FieldPrism, FieldPrismCaution, FieldPrismInUse, FieldPrismKind,
    NO_LOSS_TABLE, PRISM_FINDINGS, PRISM_LOSS_LIMITS, PrismFinding, PrismLimit, PrismLossLimit,
    SOLID_OVER_FRESNEL, SolidOverFresnel, field_on_lens, prism_loss_in_dim_light, published_lens_to_pivot,
};
pub use hand::{HandMagnifier, HandMagnifierInUse, PrintPlace, hold};
pub use high_plus::{HighPlusInUse, HighPlusSpectacles, LensForm, spectacle_magnification, wear};
pub use label::{LABEL_CONFORMITY, MagnifierLabel, MagnifierLabels, magnifier_labels};
pub use minifier::{FieldGain, MinusLensInUse, diameter_to_fill, field_gain, hold_minus};
pub use nearer::{NearerAndLarger, look_from};
pub use refraction_through::{BLUR_LIMITS, BlurVerdict, RefractionThrough, refraction_through};
pub use screen::{
    CameraSampling, DisplayPixels, DistanceCamera, DistanceCameraInUse, HeadMountedDisplay, HeadMountedInUse,
    LATENCIES_PUBLISHED, LATENCY_LIMIT, LatencyPublished, LatencySlip, PixelLimit, SAMPLES_FOR_LARGE_LETTERS,
    SAMPLES_FOR_SMALL_LETTERS, Screen, ScreenAid, ScreenInUse, ScreenOfDiagonal, ZoomNeeded, camera_sampling,
    css_reference_pixel, enlargement_for, latency_slip, pixel_limit, pixel_pitch, screen_of_diagonal,
    watch_far, watch_screen, wear_display, zoom_needed,
};
pub use sheet::{FresnelSheet, length_from_area_enlargement};
pub use stand::{
    BENCH_SHARE_AT_30_CM, HeightMisread, StandAtEye, StandData, StandDesign, StandImage, StandInUse,
    StandMagnifier, StandOptics, StandWithAdd, USUAL_EYE_DISTANCES_CM, VariableStand, focus_stand,
    height_for_image, misread_height, place_stand, stand_for_add, stand_optics,
};
pub use telescope::{CorrectionPlace, FieldBasis, FocusReach, TelescopeOutcome, Viewer, evaluate_telescope};
