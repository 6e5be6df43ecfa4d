//! reference tests.

mod acuity;
mod fitting;
mod outside;
mod refraction;
mod routine;
mod support;
mod telescope_tables;
mod telescopes;
