//! Light: what falls on a page, what comes from it, the pupil that it makes, and filters before the eye.
//!
//! More light is not always better. What reaches the retina depends on the lamp, the page, the pupil and every filter
//! between.
//!
//! ```text
//!   lamp I ──d, theta──► page E, reflectance rho ──L = rho·E/π──► filter T ──► pupil p ──► retina
//! ```
//!
//! * [`from_lamp`] and [`page_light`] go from a lamp to the luminance of the page, [`pupil`] from there to the pupil and
//!   the light on the retina.
//! * [`LEVELS`] holds what people were found to read best by; they differ so much that a level is something to try, and
//!   glare is something to look for anew at each.
//! * [`filter`] holds tints: their categories, stacks, and losses at surfaces.
//!
//! Illuminance is in lux, luminance in candela per square metre; every share of light is a plain ratio, 0 to 1.
//!
//! Then read [`crate::eccentric`]: seeing beside the middle.

mod lamp;
mod level;
mod pupil;

pub mod filter;

#[cfg(test)]
mod laws;

pub use lamp::{FromLamp, PageLight, from_lamp, head_shades, page_light};
pub use level::{
    LEVELS, Level, LightChange, NEEDS_LESS, SCALE_LUX, STUDIES, next_step, preference_limits_width,
    trial_range,
};
pub use pupil::{Eyes, Pupil, field_area, pupil};
