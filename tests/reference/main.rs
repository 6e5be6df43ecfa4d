//! reference tests.
