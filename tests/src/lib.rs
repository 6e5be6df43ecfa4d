//! Outside checks: what they share.

pub mod fhir;
pub mod samples;
pub mod schema;
pub mod sheet;

use std::path::{Path, PathBuf};

/// The top of the source tree.
#[must_use]
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}
