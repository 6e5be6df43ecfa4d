//! Everything that can be missing says which command gets it.

use crate::temp::TempDir;
use std::process::Command;

/// Runs one test of this program in a poorer environment and returns what it wrote.
fn run_without(test: &str, variable: &str, value: Option<&str>) -> String {
    // Its picture of the failure belongs to no failed test.
    let screens = TempDir::new();
    let mut program = Command::new(std::env::current_exe().expect("this program's own path"));
    program.args(["--exact", test]).env("RUST_BACKTRACE", "0").env_remove(variable);
    program.env("ARCMINUTE_SCREENS", screens.path());
    if let Some(value) = value {
        program.env(variable, value);
    }
    let output = program.output().expect("this program runs");
    let told = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(!output.status.success() && told.contains("1 failed"), "{test} without {variable}: {told}");
    told
}

#[test]
fn a_missing_thing_names_the_command_that_gets_it() {
    let page = "check_harness::people::counts_and_reads_by_selector";
    let rules = "check_harness::access::content_with_a_good_page_under_its_policy";
    let sheet = "check_harness::printing::measures_a_bar_drawn_by_hand";
    let built = "deliverables::the_single_file_opens_from_disk_without_errors";
    for (test, variable, value, missing) in [
        (built, "ARCMINUTE_DIST", None, "ARCMINUTE_DIST is not set"),
        (built, "ARCMINUTE_DIST", Some("nowhere"), "the built page is missing at nowhere"),
        (rules, "ARCMINUTE_AXE", None, "ARCMINUTE_AXE is not set"),
        (page, "ARCMINUTE_CHROMIUM", Some("nowhere"), "ARCMINUTE_CHROMIUM is missing at nowhere"),
        (page, "ARCMINUTE_CHROMEDRIVER", Some("nowhere"), "ARCMINUTE_CHROMEDRIVER is missing at nowhere"),
        (sheet, "PATH", Some("nowhere"), "pdftoppm (poppler-utils) is missing"),
    ] {
        let told = run_without(test, variable, value);
        assert!(told.contains(&format!("{missing}: run cargo xtask test")), "{told}");
    }
}
