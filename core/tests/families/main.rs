//! Every family of aids: the ray-transfer engine against textbook closed forms, over random inputs.
//!
//! The closed forms are written out here in plain numbers (metres, dioptres): a second road that shares only the inputs
//! with the crate.

#[path = "../law/mod.rs"]
mod law;

mod aim;
mod hand;
mod high_plus;
mod dome;
mod field_prism;
mod screen;
mod stand;
