//! `cargo xtask coverage`: which lines of the core its tests run.
//!
//! Every native test of the core counts: those beside the code, those in `core/tests/`, and the reference values. Lines of the
//! tests themselves do not count, since they are run whatever they prove.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

use crate::setup::{self, Need, programs};
use crate::{Outcome, paths, run};

/// Least share of the lines of the core that tests have to run, per cent.
const LEAST: f64 = 97.0;
/// Random inputs that a law is tried on: counting makes the core slow, and more inputs reach no more lines.
const CASES: &str = "2000";
const SOURCE: &str = "core/src";

/// Lines of one file that can be run, and whether a test runs them.
type Lines = BTreeMap<usize, bool>;

/// `cargo xtask coverage`.
pub(crate) fn command(arguments: &[String]) -> Outcome {
    crate::none(arguments)?;
    setup::ensure(&[Need::LlvmTools])?;
    let tool = programs::program(&programs::COVERAGE)?;
    let report = paths::target().join("coverage.lcov");
    let mut command = Command::new(tool);
    command
        .current_dir(paths::root())
        .args(["llvm-cov", "--package", "arcminute-core", "--lib", "--tests", "--profile", "laws", "--lcov"])
        .arg("--output-path")
        .arg(&report)
        .env("CARGO_TARGET_DIR", paths::target())
        .env("ARCMINUTE_CASES", CASES);
    run::shown(&mut command, "mend the test named above")?;
    let text = std::fs::read_to_string(&report)
        .map_err(|error| format!("cannot read {}: {error}", report.display()))?;
    let files = counted(&text, &paths::root())?;
    let (table, share) = summary(&files);
    print!("{table}");
    if share < LEAST {
        return Err(format!(
            "{share:.2} % of the lines of the core are run, and {LEAST} % must be: test the lines named above"
        ));
    }
    Ok(())
}

/// The lines of the core's files, tests left out.
fn counted(report: &str, root: &Path) -> Outcome<BTreeMap<String, Lines>> {
    let mut files: BTreeMap<String, Lines> = BTreeMap::new();
    let mut current = None;
    for line in report.lines() {
        if let Some(path) = line.strip_prefix("SF:") {
            let inside =
                Path::new(path).strip_prefix(root).ok().map(|path| path.to_string_lossy().replace('\\', "/"));
            current = inside.filter(|path| path.starts_with(SOURCE));
        } else if let (Some(path), Some((line, count))) =
            (&current, line.strip_prefix("DA:").and_then(|rest| rest.split_once(',')))
        {
            let (Ok(line), is_run) = (line.parse(), count != "0") else { continue };
            *files.entry(path.clone()).or_default().entry(line).or_default() |= is_run;
        }
    }
    let mut texts = BTreeMap::new();
    for path in files.keys() {
        texts.insert(path.clone(), paths::read(path)?);
    }
    let tests: BTreeSet<String> = texts.iter().flat_map(|(path, text)| test_files(path, text)).collect();
    files.retain(|path, _| !tests.contains(path));
    for (path, lines) in &mut files {
        let last = texts.get(path).map_or(usize::MAX, |text| last_line_of_code(text));
        lines.retain(|line, _| *line <= last);
    }
    Ok(files)
}

/// Files that this one declares as modules of tests.
fn test_files(path: &str, text: &str) -> Vec<String> {
    let stem = path.trim_end_matches(".rs");
    let folder = match stem.rsplit_once('/') {
        Some((folder, "mod" | "lib")) => folder,
        _ => stem,
    };
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
    let declared = lines.windows(2).filter(|pair| pair[0] == "#[cfg(test)]");
    let names = declared.filter_map(|pair| pair[1].strip_prefix("mod ")?.strip_suffix(';'));
    names.flat_map(|name| [format!("{folder}/{name}.rs"), format!("{folder}/{name}/mod.rs")]).collect()
}

/// The last line before the tests at the end of a file.
fn last_line_of_code(text: &str) -> usize {
    let lines: Vec<&str> = text.lines().collect();
    let tests = lines.windows(2).position(|pair| pair[0] == "#[cfg(test)]" && pair[1].ends_with('{'));
    tests.unwrap_or(lines.len())
}

/// A line for each file, and the share of all.
fn summary(files: &BTreeMap<String, Lines>) -> (String, f64) {
    let share = |run: usize, all: usize| if all == 0 { 100.0 } else { 100.0 * run as f64 / all as f64 };
    let (mut text, mut run_in_all, mut all) = (String::new(), 0, 0);
    for (path, lines) in files {
        let is_run = lines.values().filter(|is_run| **is_run).count();
        let missed: Vec<String> =
            lines.iter().filter(|(_, is_run)| !**is_run).map(|(line, _)| line.to_string()).collect();
        text += &format!("{:>7.2} %  {path}", share(is_run, lines.len()));
        if !missed.is_empty() {
            text += &format!("  not run: {}", missed.join(" "));
        }
        text.push('\n');
        run_in_all += is_run;
        all += lines.len();
    }
    let total = share(run_in_all, all);
    text += &format!("{total:>7.2} %  of {all} lines in {SOURCE}\n");
    (text, total)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_of_tests_are_left_out() {
        let text = "fn f() {}\n\n#[cfg(test)]\nmod laws;\nfn g() {}\n\n#[cfg(test)]\nmod tests {\n}\n";
        assert_eq!(last_line_of_code(text), 6);
        assert_eq!(last_line_of_code("fn f() {}\n"), 1);
        let files = |path: &str| test_files(path, text)[0].clone();
        assert_eq!(files("core/src/fit/mod.rs"), "core/src/fit/laws.rs");
        assert_eq!(files("core/src/fit/check.rs"), "core/src/fit/check/laws.rs");
    }

    #[test]
    fn lines_are_counted_by_file() {
        let lines =
            |runs: &[bool]| runs.iter().enumerate().map(|(at, is_run)| (at + 1, *is_run)).collect::<Lines>();
        let files = BTreeMap::from([
            ("core/src/a.rs".to_owned(), lines(&[true, false])),
            ("core/src/b.rs".to_owned(), lines(&[true, true])),
        ]);
        let (text, share) = summary(&files);
        assert_eq!(
            text,
            "  50.00 %  core/src/a.rs  not run: 2\n 100.00 %  core/src/b.rs\n  75.00 %  of 4 lines in core/src\n"
        );
        assert!((share - 75.0).abs() < 1e-9, "{share}");
    }
}
