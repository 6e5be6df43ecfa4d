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
mod print;
mod reading;
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

/// A file that neither list names would never be run.
///
/// Law: every file beside this one is a module of `core.rs` or of `main.rs`.
#[test]
fn every_file_of_reference_values_is_run() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/reference");
    let lists = concat!(include_str!("core.rs"), include_str!("main.rs"));
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).expect("the folder can be read") {
        let name = entry.expect("an entry can be read").file_name().to_string_lossy().into_owned();
        let listed = |module: &&str| !matches!(*module, "core" | "main");
        let Some(module) = name.strip_suffix(".rs").filter(listed) else { continue };
        assert!(lists.lines().any(|line| line == format!("mod {module};")), "{name} is in no list");
        seen += 1;
    }
    assert!(10 < seen, "only {seen} files were found");
}
