//! Scenarios.
