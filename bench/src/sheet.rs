//! Placeholder.
pub(crate) fn sheet() -> String { String::new() }
