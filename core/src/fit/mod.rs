//! fit.
