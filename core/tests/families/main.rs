//! Every family of aids: the ray-transfer engine against textbook closed forms, over random inputs.
//!
//! The closed forms are written out here in plain numbers (metres, dioptres): a second road that shares only the inputs
//! with the crate.

#[path = "../law/mod.rs"]
mod law;

mod aim;
mod dome;
mod field_prism;
mod hand;
mod high_plus;
mod screen;
mod stand;
