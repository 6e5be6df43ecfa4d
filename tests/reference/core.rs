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
mod field_prisms;
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

/// Cases that are numbered in the works and tables these values come from: how their tests' names begin, and up to which.
const NUMBERED: [(&str, u8); 5] = [
    ("acuity_case_t", 15),
    ("near_case_", 20),
    ("telescope_case_", 20),
    ("fitting_case_", 13),
    // Statements often made of telescopes that are put right.
    ("correction_", 8),
];

/// Rules of thumb for near work, and how far each is off.
const SHORTCUTS: [&str; 10] = [
    "sum_of_addition_and_accommodation",
    "addition_under_a_strong_distance_lens",
    "vertex_power_as_magnifying_power",
    "metre_angles",
    "the_label_on_a_stand",
    "enlargement_is_not_the_gain",
    "steps_of_a_chart",
    "eight_points_are_not_one_m",
    "the_rule_for_depth_of_field",
    "product_of_coloured_filters",
];

/// Names of these that no test has.
fn untested(tests: &str) -> Vec<String> {
    let numbered = NUMBERED.iter().flat_map(|(family, last)| {
        (1..=*last).map(move |number| match *family {
            "correction_" => format!("{family}{number}_"),
            _ => format!("{family}{number:02}_"),
        })
    });
    let names: Vec<&str> = tests.lines().filter_map(|line| line.trim().strip_prefix("fn ")).collect();
    numbered
        .chain(SHORTCUTS.iter().map(|shortcut| format!("shortcut_{shortcut}")))
        .filter(|case| !names.iter().any(|name| name.contains(case.as_str())))
        .collect()
}

/// A case whose test is lost or renamed would not be missed.
///
/// Law: every numbered case and every rule of thumb has a test that is named after it.
#[test]
fn every_case_has_a_test_of_its_name() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/reference");
    let mut tests = String::new();
    for entry in std::fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("an entry can be read").path();
        if path.extension().is_some_and(|ending| ending == "rs") {
            tests += &std::fs::read_to_string(path).expect("a file can be read");
        }
    }
    assert_eq!(untested(&tests), Vec::<String>::new());
    assert_eq!(
        untested("").len(),
        15 + 20 + 20 + 13 + 8 + SHORTCUTS.len(),
        "all are missed where nothing is"
    );
}
