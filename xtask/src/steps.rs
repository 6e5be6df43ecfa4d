//! The steps of `cargo xtask test`, in order.

use std::process::Command;

use crate::setup::{Need, Tools};
use crate::{Outcome, bare, build, fuzz, notice, paths, run};

/// What a step works with.
pub(crate) struct Bench<'a> {
    /// Where the tools are that the step's needs were met with.
    pub(crate) tools: Tools,
    /// Words after `--`, for the test programs: which tests to run.
    pub(crate) filters: &'a [String],
}

/// One step. It gives back how many tests it ran; a check that is not a set of tests counts as none.
pub(crate) struct Step {
    pub(crate) name: &'static str,
    pub(crate) about: &'static str,
    pub(crate) needs: &'static [Need],
    pub(crate) kind: Kind,
    pub(crate) run: fn(&Bench) -> Outcome<usize>,
}

/// Whether a step that ran no test has failed.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Check,
    Tests,
}

/// Fast ones first, so that a slip shows early; the page last, since it takes a whole build and a browser.
pub(crate) const STEPS: &[Step] = &[
    Step {
        name: "format",
        about: "every file is as rustfmt leaves it",
        needs: &[Need::Components],
        kind: Kind::Check,
        run: |_| check(&["fmt", "--all", "--", "--check"], "run `cargo fmt --all`"),
    },
    Step {
        name: "lints",
        about: "no warning in any package, nor in the page",
        needs: &[Need::Components, Need::WasmTarget, Need::BareTarget, Need::Cpp],
        kind: Kind::Check,
        run: |_| lints(),
    },
    Step {
        name: "bare",
        about: "the core needs no system and no allocator, and no input makes it panic",
        needs: &[Need::BareTarget],
        kind: Kind::Check,
        run: |_| bare::check().map(|()| 0),
    },
    Step {
        name: "docs",
        about: "the documentation builds without a warning",
        needs: &[],
        kind: Kind::Check,
        run: |_| docs(),
    },
    Step {
        name: "xtask",
        about: "the build's own gates hold, both ways",
        needs: &[],
        kind: Kind::Tests,
        run: |bench| tests(bench, &["--package", "xtask"]),
    },
    Step {
        name: "core",
        about: "the core: examples, laws and worked values",
        needs: &[],
        kind: Kind::Tests,
        run: |bench| tests(bench, &["--profile", "laws", "--package", "arcminute-core"]),
    },
    Step {
        name: "model",
        about: "the page's drafts, files and pictures, without a browser",
        needs: &[],
        kind: Kind::Tests,
        run: |bench| {
            tests(bench, &["--profile", "laws", "--package", "arcminute-web", "--no-default-features"])
        },
    },
    Step {
        name: "tidy",
        about: "the rules of the architecture, the demonstration cases, and the test tools themselves",
        needs: &[],
        kind: Kind::Tests,
        run: |bench| outside(bench, &["--lib", "--bins", "--test", "tidy", "--test", "scenarios"]),
    },
    Step {
        name: "reference",
        about: "results against published and independent ones",
        needs: &[Need::Python, Need::Fhir],
        kind: Kind::Tests,
        run: |bench| outside(bench, &["--test", "reference"]),
    },
    Step {
        name: "fuzz",
        about: "everything that reads text, with bytes of any kind for a moment; and a planted fault is found",
        needs: &[Need::Cpp],
        kind: Kind::Tests,
        run: |bench| fuzz::step(bench.filters),
    },
    Step {
        name: "page",
        about: "the page builds, within its budgets and through the gates",
        needs: &[Need::WasmTarget],
        kind: Kind::Check,
        run: |_| build::all().map(|_| 0),
    },
    Step {
        name: "notice",
        about: "NOTICE names everything that the page is built from",
        needs: &[Need::WasmTarget],
        kind: Kind::Check,
        run: |_| notice::check().map(|()| 0),
    },
    Step {
        name: "browser",
        about: "the built page in a real browser",
        needs: &[Need::Python, Need::Axe, Need::Chromium, Need::PdfTools],
        kind: Kind::Tests,
        run: |bench| browser(bench, &["--skip", TIMED]),
    },
    Step {
        name: "speed",
        about: "the page's answers timed, with nothing else running",
        needs: &[Need::Python, Need::Axe, Need::Chromium, Need::PdfTools],
        kind: Kind::Tests,
        run: |bench| browser(bench, &[TIMED, "--test-threads=1"]),
    },
];

/// The tests that time the page; beside others they would time those too.
const TIMED: &str = "scenarios::speed";

/// The names, in order.
pub(crate) fn names() -> Vec<&'static str> {
    STEPS.iter().map(|step| step.name).collect()
}

/// The steps that were asked for, in their own order; all if none was.
pub(crate) fn chosen(wanted: &[String]) -> Outcome<Vec<&'static Step>> {
    let known = |name: &String| STEPS.iter().any(|step| step.name == name);
    if let Some(unknown) = wanted.iter().find(|name| !known(name)) {
        return Err(format!("there is no step `{unknown}`; the steps are {}", names().join(", ")));
    }
    let is_wanted = |step: &&Step| wanted.is_empty() || wanted.iter().any(|name| name == step.name);
    Ok(STEPS.iter().filter(is_wanted).collect())
}

fn check(arguments: &[&str], advice: &str) -> Outcome<usize> {
    run::shown(&mut run::cargo(arguments), advice).map(|()| 0)
}

/// One call for each set of features, since cargo would otherwise join them and compile the page natively.
fn lints() -> Outcome<usize> {
    const CALLS: &[&[&str]] = &[
        &["--package", "arcminute-core", "--package", "xtask", "--all-targets"],
        &["--package", "arcminute-web", "--no-default-features", "--all-targets"],
        &["--package", "arcminute-tests", "--all-targets"],
        &["--package", "arcminute-fuzz"],
        &["--package", "arcminute-bench", "--all-targets"],
        &["--package", "arcminute-web", "--target", "wasm32-unknown-unknown"],
        &["--package", "arcminute-core", "--no-default-features", "--target", "thumbv7em-none-eabi"],
        &["--package", "arcminute-bare", "--target", "thumbv7em-none-eabi"],
    ];
    for call in CALLS {
        let mut clippy = run::cargo(&["clippy", "--quiet"]);
        run::shown(clippy.args(*call).args(["--", "-D", "warnings"]), "mend what the lints name above")?;
    }
    Ok(0)
}

fn docs() -> Outcome<usize> {
    let mut doc = run::cargo(&["doc", "--quiet", "--no-deps", "--no-default-features"]);
    doc.args(["--package", "arcminute-core", "--package", "arcminute-web"])
        .env("RUSTDOCFLAGS", "-D warnings");
    run::shown(&mut doc, "mend the documentation comments named above").map(|()| 0)
}

fn tests(bench: &Bench, arguments: &[&str]) -> Outcome<usize> {
    count(run::cargo(&["test"]).args(arguments), bench)
}

/// Tests of the built page, with words for the test program.
fn browser(bench: &Bench, words: &[&str]) -> Outcome<usize> {
    if !paths::one_file().is_file() {
        return Err(
            "there is no built page; run the step `page` first: `cargo xtask test page browser`".into()
        );
    }
    let mut arguments = vec!["--test", "browser", "--"];
    arguments.extend(words);
    outside(bench, &arguments)
}

/// Tests of the package `tests`, told where the tools and the built page are.
fn outside(bench: &Bench, arguments: &[&str]) -> Outcome<usize> {
    let mut cargo = run::cargo(&["test", "--profile", "laws", "--package", "arcminute-tests"]);
    cargo.args(arguments).env("ARCMINUTE_DIST", paths::dist());
    let Tools { python, axe, fhir, chromium, chromedriver } = &bench.tools;
    let places = [
        ("ARCMINUTE_PYTHON", python),
        ("ARCMINUTE_AXE", axe),
        ("ARCMINUTE_FHIR", fhir),
        ("ARCMINUTE_CHROMIUM", chromium),
        ("ARCMINUTE_CHROMEDRIVER", chromedriver),
    ];
    for (variable, place) in places {
        if let Some(place) = place {
            cargo.env(variable, place);
        }
    }
    count(&mut cargo, bench)
}

/// Runs a test command and counts the tests that passed.
fn count(command: &mut Command, bench: &Bench) -> Outcome<usize> {
    if !bench.filters.is_empty() {
        if !command.get_args().any(|argument| argument == "--") {
            command.arg("--");
        }
        command.args(bench.filters);
    }
    let mut count = 0;
    run::watched(command, "mend the code or the test named above", |line| count += passed(line))?;
    Ok(count)
}

/// How many tests a line of the test program's output says have passed.
fn passed(line: &str) -> usize {
    let summary = line.trim().strip_prefix("test result: ok. ");
    summary.and_then(|rest| rest.split_once(" passed")?.0.parse().ok()).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn passed_tests_are_counted_from_the_summary() {
        let line =
            "test result: ok. 12 passed; 0 failed; 1 ignored; 0 measured; 3 filtered out; finished in 0.01s";
        assert_eq!(passed(line), 12);
        for other in ["running 12 tests", "test result: FAILED. 3 passed; 1 failed", "test a ... ok", ""] {
            assert_eq!(passed(other), 0, "{other}");
        }
    }

    #[test]
    fn steps_are_chosen_by_name_in_their_own_order() {
        let names = |wanted: &[&str]| {
            let wanted: Vec<String> = wanted.iter().map(ToString::to_string).collect();
            chosen(&wanted).map(|steps| steps.iter().map(|step| step.name).collect::<Vec<_>>())
        };
        assert_eq!(names(&["browser", "page"]), Ok(vec!["page", "browser"]));
        assert_eq!(names(&[]), Ok(super::names()));
        assert!(
            names(&["browzer"])
                .expect_err("this must fail")
                .starts_with("there is no step `browzer`; the steps are format, ")
        );
    }
}
