//! Reference values that need more than the core: the page's entries, and programs of others. Those of the core alone
//! stand in `core.rs`, a test of the core's own package.

mod entries;
mod outside;
mod outside_aids;
mod outside_colour;
mod outside_fhir;
mod outside_sealed;
