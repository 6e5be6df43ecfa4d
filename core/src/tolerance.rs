//! tolerance.
