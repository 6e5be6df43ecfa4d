//! One ray-transfer rule for every device, and the telescopes built on it.
//!
//! Lenses change two things for an eye: how large a thing looks, and how its light arrives. Both follow from one rule,
//! applied part by part, whatever the aid is called.
//!
//! ```text
//!   object            objective      (image, stop)     eyepiece        eye's entrance pupil
//!     |<------ x ------>( )<-- f_o -->|<--- f_e --->( )<----- v ----->|
//!                        light travels this way  ------------------->
//! ```
//!
//! * A train is lenses, gaps and stops in the order light meets them; a ray is its height and slope.
//! * A thin lens of power F turns the slope by −F·height; a gap adds gap·slope to the height.
//! * From the object plane to the eye the product is `[A B; C D]`: the equivalent viewing distance is |B|, the vergence
//!   demand at the eye D/B (positive: the light arrives diverging and has to be met by focusing).
//! * Magnification keeps its sign: a Keplerian's is negative even behind erecting prisms, whose path is counted as the
//!   air-equivalent length.
//!
//! Then read [`crate::accommodation`] and [`crate::refraction`] for the eye behind, and [`crate::device`] for the aids.

mod blur;
mod depth;
mod exit_pupil;
mod field;
mod minifier;
mod prism;
mod ray;
mod real_dome;
mod real_ray;
mod ring;
mod telescope;
mod thick;
mod train;
mod view;

pub use blur::{
    BlurDisc, BlurTolerance, Blurred, NormalEyeBlur, blur_disc, blur_strength, blur_tolerance, blurred,
    defocus_for_loss, normal_eye_mar,
};
pub use depth::{
    DEPTH_OF_FOCUS, DepthOfField, DepthOfFocus, LARGER_LETTERS, depth_of_field, depth_of_field_about,
};
pub use exit_pupil::{LightThrough, disc_overlap, light_through};
pub(crate) use field::field_and_share;
pub use field::{Field, field_of_view, field_of_view_at, share_of_pupil};
pub use minifier::{MinusLens, minus_lens};
pub use prism::{FlatPrism, PrismAtIncidence, prism_displacement};
pub use ray::RayMatrix;
pub use real_dome::{DomePoint, RealDome, dome_at};
pub use real_ray::{RayLost, RealRay, Shape, Surface, trace_real};
pub use ring::{Ring, apparent_field, ring_scotoma};
pub use telescope::{
    Afocal, AtEyepiece, Cap, CorrectionOnObjective, Design, Focused, Label, Lenses, Telescope, ThroughAfocal,
    ametropia_at_eyepiece, correction_on_objective, lenses_from_length, reading_cap, through_afocal,
};
pub use thick::{ThickLens, ThickLensPowers};
pub use train::{Element, Train};
pub use view::{Sight, View, distance_for_demand, view};
