//! browser tests.
