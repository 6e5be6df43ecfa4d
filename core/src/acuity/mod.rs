//! acuity.
