//! Faces, signs, boards, seeing beside the fovea, fixation and steadiness: laws over random inputs.
//!
//! The second road of each law is written out in plain numbers (metres, minutes of arc, degrees) and shares only the
//! inputs with the crate.

#[path = "../law/mod.rs"]
mod law;

mod eccentric;
mod fixation;
mod scene;
mod steadiness;
mod targets;
