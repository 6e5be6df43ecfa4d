//! Reference values of the core alone: a test of the core's own package, so that it is soon built and a changed core is
//! tried on them. What needs more than the core stands in `main.rs`.

mod accommodation;
mod acuity;
mod acuity_classes;
mod acuity_tables;
mod aimed_telescopes;
mod blur;
mod contrast;
mod convergence;
mod dome;
mod eccentric;
mod filters;
mod fitting;
mod light;
mod plus_lenses;
mod real_rays;
mod refraction;
mod routine;
mod scene;
mod screen;
mod stand;
mod steadiness;
mod support;
mod targets;
mod telescope_tables;
mod telescopes;
mod thick;
