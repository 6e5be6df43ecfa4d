//! refraction.
