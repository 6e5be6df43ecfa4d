//! The page.
//!
//! `model` and `plot` are pure Rust and need neither a framework nor a browser: they are what native tests test.
//! `ui` holds controls that know no page, `page` one file per place, `platform` is the only door to the browser.

pub mod model;
pub mod plot;

#[cfg(feature = "page")]
pub mod app;
#[cfg(feature = "page")]
pub mod page;
#[cfg(feature = "page")]
pub mod platform;
#[cfg(feature = "page")]
pub mod ui;
