//! `cargo xtask mutants`: changes the core in one place at a time and runs its tests; a change that no test notices shows
//! what is not tested.
//!
//! Each change goes first to the unit tests alone, which are quickly built and catch most; those that they miss go to all
//! tests of the core, the examples of its documentation among them. What the changes are and which are left out stands in `.cargo/mutants.toml`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::Value;

use crate::setup::programs;
use crate::{Outcome, paths, run};

/// Least share of the changes that can be compiled which has to be caught, per cent.
const LEAST: usize = 90;
/// Random inputs that a law is tried on; a law that a change breaks mostly fails at once.
const CASES: &str = "200";
/// A part of the time goes to the tests that are slower to build.
const QUICK_SHARE: f64 = 0.7;

/// What is asked for on the command line, as words for the tool.
#[derive(Debug, Default, PartialEq, Eq)]
struct Asked {
    words: Vec<String>,
    seconds: Option<u64>,
}

/// What became of one change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Fate {
    Caught,
    /// The tests did not end, which is as good as a failure.
    TimedOut,
    Missed,
    /// It does not compile.
    Unviable,
}

type Fates = BTreeMap<String, Fate>;

/// `cargo xtask mutants [--shard K/N] [--file GLOB...] [--jobs N] [--seconds N]`.
pub(crate) fn command(arguments: &[String]) -> Outcome {
    let asked = asked(arguments)?;
    let tool = programs::program(&programs::MUTANTS)?;
    let started = Instant::now();
    let until =
        |share: f64| asked.seconds.map(|seconds| started + Duration::from_secs(seconds).mul_f64(share));
    let mut fates = pass(&tool, "quick", &asked.words, Some("--lib"), until(QUICK_SHARE))?;
    let missed: Vec<String> =
        fates.iter().filter(|(_, fate)| **fate == Fate::Missed).map(|(name, _)| name.clone()).collect();
    if !missed.is_empty() {
        println!(
            "\nThe unit tests miss {} of {} changes; these go to all tests.\n",
            missed.len(),
            fates.len()
        );
        let mut words = vec!["--no-shuffle".to_owned()];
        words.extend(missed.iter().flat_map(|name| ["--re".to_owned(), format!("^{}$", escaped(name))]));
        // Some kinds of change are not chosen by name, so the files are named too.
        let files: BTreeSet<&str> = missed.iter().filter_map(|name| name.split(':').next()).collect();
        words.extend(files.into_iter().flat_map(|file| ["--file".to_owned(), file.to_owned()]));
        words.extend(asked.words.iter().skip_while(|word| *word != "--jobs").take(2).cloned());
        let again = pass(&tool, "all", &words, None, until(1.0))?;
        for name in &missed {
            match again.get(name) {
                Some(fate) => fates.insert(name.clone(), *fate),
                // Time ran out before it was this one's turn: nothing is known of it.
                None => fates.remove(name),
            };
        }
    }
    let (text, share) = summary(&fates);
    println!("\n{text}{:.1} s for each.", started.elapsed().as_secs_f64() / fates.len().max(1) as f64);
    if share < LEAST {
        return Err(format!(
            "{share} % of the changes are caught, and {LEAST} % must be: test what is listed above"
        ));
    }
    Ok(())
}

fn asked(arguments: &[String]) -> Outcome<Asked> {
    let mut asked = Asked::default();
    let mut words = arguments.iter();
    while let Some(word) = words.next() {
        let value = words.next().ok_or_else(|| format!("`{word}` needs a value after it"))?;
        match word.as_str() {
            "--seconds" => {
                let seconds = value.parse().map_err(|_| format!("`{value}` is no number of seconds"))?;
                asked.seconds = Some(seconds);
                // What a short run gets to should be a fair sample.
                asked.words.push("--shuffle".into());
            }
            "--shard" => {
                asked.words.extend([word.clone(), value.clone(), "--sharding".into(), "round-robin".into()])
            }
            "--file" | "--jobs" => asked.words.extend([word.clone(), value.clone()]),
            _ => {
                return Err(format!(
                    "`{word}` is not known; there are --shard, --file, --jobs and --seconds"
                ));
            }
        }
    }
    Ok(asked)
}

/// Tries the changes on some tests of the core, until all are tried or the time is over; on all of them and the examples
/// of the documentation where `tests` names none.
fn pass(
    tool: &Path,
    name: &str,
    words: &[String],
    tests: Option<&str>,
    until: Option<Instant>,
) -> Outcome<Fates> {
    let output = paths::target().join("mutants").join(name);
    std::fs::create_dir_all(&output).map_err(|error| format!("cannot make {}: {error}", output.display()))?;
    let mut command = Command::new(tool);
    command.current_dir(paths::root()).args(["mutants", "--package", "arcminute-core", "--output"]);
    command.arg(&output).args(words).args(["--colors", "never"]);
    // For building too, or every test is built for each change.
    command.args(tests.map(|tests| format!("--cargo-arg={tests}")));
    // The tool copies the tree; what the copy builds must not mix with what is built here.
    command.env_remove("CARGO_TARGET_DIR").env("ARCMINUTE_CASES", CASES).stdin(Stdio::null());
    let mut child = command.spawn().map_err(|error| format!("cannot start {}: {error}", tool.display()))?;
    let stopped = waited(&mut child, until)?;
    let results = output.join("mutants.out/outcomes.json");
    let text = std::fs::read_to_string(&results)
        .map_err(|error| format!("cannot read {}: {error}", results.display()))?;
    let fates = fates(&text)?;
    if fates.is_empty() && !stopped {
        return Err("no change was tried: see the words above".into());
    }
    Ok(fates)
}

/// Whether the program was stopped before it ended by itself.
fn waited(child: &mut Child, until: Option<Instant>) -> Outcome<bool> {
    let lost = |error: std::io::Error| format!("lost the run: {error}");
    loop {
        if child.try_wait().map_err(lost)?.is_some() {
            return Ok(false);
        }
        if until.is_some_and(|until| until < Instant::now()) {
            // Asked kindly it clears its copy away; where there is no such way, it is ended.
            if !run::succeeds("kill", &["-INT", &child.id().to_string()]) {
                child.kill().map_err(lost)?;
            }
            child.wait().map_err(lost)?;
            return Ok(true);
        }
        std::thread::sleep(Duration::from_millis(200));
    }
}

/// What the tool's own record says.
fn fates(text: &str) -> Outcome<Fates> {
    let record: Value =
        serde_json::from_str(text).map_err(|error| format!("cannot read the outcomes: {error}"))?;
    let mut fates = Fates::new();
    for outcome in record["outcomes"].as_array().into_iter().flatten() {
        let fate = match outcome["summary"].as_str() {
            Some("CaughtMutant") => Fate::Caught,
            Some("MissedMutant") => Fate::Missed,
            Some("Timeout") => Fate::TimedOut,
            Some("Unviable") => Fate::Unviable,
            Some("Failure") => return Err("the tests fail without any change; mend that first".into()),
            _ => continue,
        };
        if let Some(name) = outcome["scenario"]["Mutant"]["name"].as_str() {
            fates.insert(name.to_owned(), fate);
        }
    }
    Ok(fates)
}

/// The survivors and the counts; and the share caught of what could be compiled, in whole per cent.
fn summary(fates: &Fates) -> (String, usize) {
    let of = |wanted: Fate| fates.iter().filter(move |(_, fate)| **fate == wanted).map(|(name, _)| name);
    let count = |wanted: Fate| of(wanted).count();
    let mut text = String::new();
    for (what, fate) in [("No test ends", Fate::TimedOut), ("No test notices", Fate::Missed)] {
        for name in of(fate) {
            text += &format!("{what}: {name}\n");
        }
    }
    let (caught, missed) = (count(Fate::Caught) + count(Fate::TimedOut), count(Fate::Missed));
    let share = (100 * caught).checked_div(caught + missed).unwrap_or(100);
    text += &format!(
        "Changes: {}; caught {caught} ({} of them by tests that did not end), missed {missed}, not compiled {}.\n\
         {share} % of those that compile are caught; ",
        fates.len(),
        count(Fate::TimedOut),
        count(Fate::Unviable),
    );
    (text, share)
}

/// A text as a pattern that matches itself alone. Signs that mean nothing by themselves stay bare: `\<` would be a word's edge.
fn escaped(text: &str) -> String {
    let mut pattern = String::new();
    for character in text.chars() {
        if r"\.+*?()|[]{}^$#&-~".contains(character) {
            pattern.push('\\');
        }
        pattern.push(character);
    }
    pattern
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(words: &[&str]) -> Vec<String> {
        words.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn what_is_asked_is_read() {
        let all = asked(&words(&["--shard", "0/4", "--file", "core/src/fit/*.rs", "--seconds", "60"]));
        let wanted =
            ["--shard", "0/4", "--sharding", "round-robin", "--file", "core/src/fit/*.rs", "--shuffle"];
        assert_eq!(all, Ok(Asked { words: words(&wanted), seconds: Some(60) }));
        assert_eq!(asked(&words(&["--shard"])), Err("`--shard` needs a value after it".into()));
        assert!(asked(&words(&["--fast", "1"])).is_err(), "an unknown word");
    }

    #[test]
    fn outcomes_are_counted_and_survivors_named() {
        let outcome = |name: &str, summary: &str| serde_json::json!({ "scenario": { "Mutant": { "name": name } }, "summary": summary });
        let mut outcomes = vec![serde_json::json!({ "scenario": "Baseline", "summary": "Success" })];
        outcomes.extend((0..7).map(|line| outcome(&format!("a.rs:{line}:1: x"), "CaughtMutant")));
        outcomes.push(outcome("a.rs:8:1: replace + with -", "MissedMutant"));
        outcomes.push(outcome("a.rs:9:1: y", "Timeout"));
        outcomes.push(outcome("a.rs:10:1: z", "Unviable"));
        let record = |outcomes: &[Value]| serde_json::json!({ "outcomes": outcomes }).to_string();
        let (text, share) = summary(&fates(&record(&outcomes)).expect("a record"));
        assert_eq!(share, 88, "8 of 9");
        assert!(text.contains("No test notices: a.rs:8:1: replace + with -\n"), "{text}");
        assert!(
            text.contains("caught 8 (1 of them by tests that did not end), missed 1, not compiled 1"),
            "{text}"
        );
        outcomes[0] = serde_json::json!({ "scenario": "Baseline", "summary": "Failure" });
        assert!(fates(&record(&outcomes)).is_err(), "tests that fail anyway prove nothing");
    }

    #[test]
    fn a_name_matches_itself_alone() {
        assert_eq!(escaped("a.rs:1: replace * with +"), r"a\.rs:1: replace \* with \+");
        assert_eq!(escaped("f -> Result<(), Error>"), r"f \-> Result<\(\), Error>");
    }
}
