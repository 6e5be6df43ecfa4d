//! tidy tests.
