//! `cargo xtask fuzz`: bytes of any kind for everything that reads text, led by coverage counters.
//!
//! The package `fuzz` is built with counters in every crate, by flags that the stable compiler takes, so neither a nightly
//! toolchain nor a helper of its own is needed. What a run finds goes to `target/fuzz/`; what is kept lies in `fuzz/corpus/`.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Mutex;

use crate::setup::{self, Need};
use crate::{Outcome, paths, run};

/// Counters at each edge, comparisons shown to the fuzzer, and how deep the stack went.
const FLAGS: &[&str] = &[
    "--cfg=fuzzing",
    "-Cpasses=sancov-module",
    "-Cllvm-args=-sanitizer-coverage-level=4",
    "-Cllvm-args=-sanitizer-coverage-inline-8bit-counters",
    "-Cllvm-args=-sanitizer-coverage-pc-table",
    "-Cllvm-args=-sanitizer-coverage-trace-compares",
    "-Cllvm-args=-sanitizer-coverage-stack-depth",
];
/// The target with a planted fault; it has no corpus of its own and grows from this one.
const PLANTED: (&str, &str) = ("planted", "acuity");
/// Seconds that a target gets in the test run, and without `--seconds`.
const SHORT: u64 = 10;
const USUAL: u64 = 60;
/// Seconds within which the planted fault has to be found.
const PATIENCE: u64 = 120;
/// Longest input. An entry has at most 200 characters, a file as many as it likes.
const LONGEST: &str = "400";
const LONGEST_FILE: &str = "4096";
/// Most inputs kept for a target; the longest ones, since they reach furthest.
const MOST: usize = 64;

/// What a run came to.
#[derive(Debug, PartialEq, Eq)]
struct Run {
    /// Inputs tried.
    tried: u64,
    /// Places in the program that were reached.
    places: u64,
    /// The input that breaks it, if one was found, and what was said.
    broken: Option<(PathBuf, String)>,
}

/// What is asked for on the command line.
#[derive(Debug, Default, PartialEq, Eq)]
struct Asked {
    targets: Vec<String>,
    seconds: Option<u64>,
    file: Option<PathBuf>,
    keep: bool,
}

/// `cargo xtask fuzz [TARGET...] [--seconds N | --file FILE | --keep]`.
pub(crate) fn command(arguments: &[String]) -> Outcome {
    let asked = asked(arguments)?;
    let targets = chosen(&asked.targets)?;
    setup::ensure(&[Need::Cpp])?;
    let fuzzer = build()?;
    if let Some(file) = &asked.file {
        let [target] = targets.as_slice() else {
            return Err(
                "name the one target that is to read the file: `cargo xtask fuzz TARGET --file FILE`".into(),
            );
        };
        return repeated(&fuzzer, target, file);
    }
    for target in &targets {
        if asked.keep {
            keep(&fuzzer, target)?;
            continue;
        }
        let found = folder("corpus", target)?;
        let run = one(&fuzzer, target, asked.seconds.unwrap_or(USUAL), &found, target)?;
        judged(target, &run)?;
    }
    Ok(())
}

/// The step of `cargo xtask test`: each target for a moment from the corpus, several side by side, and the planted fault.
pub(crate) fn step(filters: &[String]) -> Outcome<usize> {
    let fuzzer = build()?;
    let wanted =
        |name: &String| filters.is_empty() || filters.iter().any(|filter| name.contains(filter.as_str()));
    let targets: Vec<String> = chosen(&[])?.into_iter().filter(wanted).collect();
    let (queue, outcomes) = (Mutex::new(targets.iter()), Mutex::new(Vec::new()));
    let next = || queue.lock().ok().and_then(|mut queue| queue.next());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                while let Some(target) = next() {
                    let outcome = emptied("short", target)
                        .and_then(|found| one(&fuzzer, target, SHORT, &found, target))
                        .and_then(|run| judged(target, &run));
                    if let Ok(mut outcomes) = outcomes.lock() {
                        outcomes.push(outcome);
                    }
                }
            });
        }
    });
    let outcomes =
        outcomes.into_inner().map_err(|_| "a fuzzing run was lost; run the step again".to_owned())?;
    outcomes.into_iter().collect::<Outcome>()?;
    planted(&fuzzer)?;
    Ok(targets.len() + 1)
}

/// A fault that is there is found, and found again from the input that was kept.
fn planted(fuzzer: &Path) -> Outcome {
    let (target, corpus) = PLANTED;
    let found = emptied("short", target)?;
    let run = one(fuzzer, target, PATIENCE, &found, corpus)?;
    let Some((input, _)) = &run.broken else {
        return Err(format!(
            "the fault planted in the target `{target}` was not found in {PATIENCE} s and {} inputs; \
             see whether the counters are still built in",
            run.tried
        ));
    };
    if repeated(fuzzer, target, input).is_ok() {
        return Err(format!("{} does not break the target `{target}` a second time", input.display()));
    }
    println!("  {target:<12} found after {} inputs, and again from the input kept", run.tried);
    Ok(())
}

fn asked(arguments: &[String]) -> Outcome<Asked> {
    let mut asked = Asked::default();
    let mut words = arguments.iter();
    while let Some(word) = words.next() {
        let mut value = || words.next().ok_or_else(|| format!("`{word}` needs a value after it"));
        match word.as_str() {
            "--seconds" => {
                let seconds = value()?;
                let number = seconds.parse().map_err(|_| format!("`{seconds}` is no number of seconds"))?;
                asked.seconds = Some(number);
            }
            "--file" => asked.file = Some(PathBuf::from(value()?)),
            "--keep" => asked.keep = true,
            target => asked.targets.push(target.to_owned()),
        }
    }
    Ok(asked)
}

/// The targets that were asked for; without a wish all that have a corpus.
fn chosen(wanted: &[String]) -> Outcome<Vec<String>> {
    let corpus = paths::root().join("fuzz/corpus");
    let entries = std::fs::read_dir(&corpus).map_err(|error| format!("cannot read fuzz/corpus: {error}"))?;
    let mut names: Vec<String> = entries
        .filter_map(Result::ok)
        .filter(|entry| entry.path().is_dir())
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort_unstable();
    let known = |name: &&String| names.contains(*name) || *name == PLANTED.0;
    if let Some(unknown) = wanted.iter().find(|name| !known(name)) {
        return Err(format!("there is no target `{unknown}`; the targets are {}", names.join(", ")));
    }
    Ok(if wanted.is_empty() { names } else { wanted.to_vec() })
}

/// Builds the fuzzer apart from everything else, since each set of flags needs artefacts of its own.
fn build() -> Outcome<PathBuf> {
    let version =
        run::capture(Command::new("rustc").arg("-vV"), "check the Rust toolchain with `rustup show`")?;
    let host = version.lines().find_map(|line| line.strip_prefix("host: "));
    let host = host.ok_or("`rustc -vV` does not name this machine's target; check it with `rustup show`")?;
    // With the target named, programs that run while building are built without the counters.
    let mut cargo = run::cargo(&["build", "--quiet", "--package", "arcminute-fuzz", "--profile", "fuzz"]);
    cargo
        .args(["--target", host])
        .env("CARGO_TARGET_DIR", home())
        .env("CARGO_ENCODED_RUSTFLAGS", FLAGS.join("\u{1f}"));
    run::shown(&mut cargo, "mend what the compiler says above")?;
    Ok(home().join(host).join("fuzz").join(format!("arcminute-fuzz{}", std::env::consts::EXE_SUFFIX)))
}

/// Where everything of fuzzing goes.
fn home() -> PathBuf {
    paths::target().join("fuzz")
}

/// A folder for a target, made if need be.
fn folder(what: &str, target: &str) -> Outcome<PathBuf> {
    let folder = home().join(what).join(target);
    std::fs::create_dir_all(&folder).map_err(|error| format!("cannot make {}: {error}", folder.display()))?;
    Ok(folder)
}

/// The same, with nothing in it: a short run starts from the corpus alone, so that it does the same each time.
fn emptied(what: &str, target: &str) -> Outcome<PathBuf> {
    let empty = folder(what, target)?;
    std::fs::remove_dir_all(&empty).map_err(|error| format!("cannot empty {}: {error}", empty.display()))?;
    folder(what, target)
}

fn program(fuzzer: &Path, target: &str) -> Command {
    let mut command = Command::new(fuzzer);
    let is_long = ["aids", "case", "case_file"].contains(&target);
    let longest = if is_long { LONGEST_FILE } else { LONGEST };
    command.env("ARCMINUTE_FUZZ", target).arg(format!("-max_len={longest}")).arg("-timeout=20");
    command
}

/// Runs a target from a kept corpus; what it finds goes to `found`, what it says to a log.
fn one(fuzzer: &Path, target: &str, seconds: u64, found: &Path, corpus: &str) -> Outcome<Run> {
    let (artifacts, log) = (folder("artifacts", target)?, home().join(format!("{target}.log")));
    let mut command = program(fuzzer, target);
    let words = paths::root().join(format!("fuzz/words/{target}.dict"));
    if words.is_file() {
        command.arg(format!("-dict={}", words.display()));
    }
    command
        .args([format!("-max_total_time={seconds}"), "-seed=1".into(), "-print_final_stats=1".into()])
        .arg(format!("-artifact_prefix={}/", artifacts.display()))
        .args([found, &paths::root().join("fuzz/corpus").join(corpus)]);
    let output = command.stdin(Stdio::null()).output();
    let output = output.map_err(|error| format!("cannot start the fuzzer: {error}"))?;
    paths::write(&log, &output.stderr)?;
    let mut run = understood(&String::from_utf8_lossy(&output.stderr));
    if !output.status.success() && run.broken.is_none() {
        return Err(format!("the target `{target}` ended by itself; see {}", log.display()));
    }
    if output.status.success() {
        run.broken = None;
    }
    Ok(run)
}

/// What the fuzzer's own words say.
fn understood(log: &str) -> Run {
    let last = |mark: &str| {
        let after = log.rsplit_once(mark)?.1;
        after.split_whitespace().next()?.parse::<u64>().ok()
    };
    let input = log.lines().find_map(|line| line.split_once("Test unit written to ").map(|(_, path)| path));
    let said = || {
        let mut lines = log.lines().skip_while(|line| !line.contains("panicked at"));
        let place =
            lines.next().and_then(|line| line.split_once("panicked at ")).map_or("", |(_, place)| place);
        let words: Vec<&str> = lines
            .take_while(|line| !line.starts_with("note: ") && !line.starts_with("stack "))
            .take(6)
            .collect();
        format!("{place} {}", words.join("\n"))
    };
    Run {
        tried: last("stat::number_of_executed_units:").unwrap_or_default(),
        places: last(" cov: ").unwrap_or_default(),
        broken: input.map(|path| (PathBuf::from(path.trim()), said())),
    }
}

fn judged(target: &str, run: &Run) -> Outcome {
    if let Some((input, said)) = &run.broken {
        return Err(format!(
            "The target `{target}` is broken by {}:\n  {said}\nTo see it again: cargo xtask fuzz {target} --file {}\n\
             Mend it, leave a test with its name, and put the input into fuzz/corpus/{target}/.",
            input.display(),
            input.display()
        ));
    }
    if run.places == 0 || run.tried == 0 {
        return Err(format!(
            "the target `{target}` tried {} inputs and reached {} places: the counters see nothing",
            run.tried, run.places
        ));
    }
    println!("  {target:<12} {:>9} inputs, {:>5} places reached", run.tried, run.places);
    Ok(())
}

/// Runs one input, with everything that the program says.
fn repeated(fuzzer: &Path, target: &str, file: &Path) -> Outcome {
    let mut command = program(fuzzer, target);
    let output = command.arg(file).env("RUST_BACKTRACE", "1").output();
    let output = output.map_err(|error| format!("cannot start the fuzzer: {error}"))?;
    if output.status.success() {
        println!("The target `{target}` holds for {}.", file.display());
        return Ok(());
    }
    Err(format!(
        "{}\nThe target `{target}` is broken by {}.",
        String::from_utf8_lossy(&output.stderr),
        file.display()
    ))
}

/// Puts into the kept corpus the few inputs that together reach everything that any input of the target reaches.
fn keep(fuzzer: &Path, target: &str) -> Outcome {
    let (found, chosen) = (folder("corpus", target)?, emptied("kept", target)?);
    let kept = paths::root().join("fuzz/corpus").join(target);
    let mut merge = program(fuzzer, target);
    // Each place once: how often it was passed makes corpora large and tells a parser's tests little.
    merge.args(["-set_cover_merge=1", "-use_counters=0"]).args([&chosen, &kept, &found]);
    merge.stdout(Stdio::null()).stderr(Stdio::null());
    run::quietly(&mut merge, "an input may break the target; run it without `--keep` first")?;
    let mut inputs = Vec::new();
    for entry in std::fs::read_dir(&chosen).map_err(|error| error.to_string())?.filter_map(Result::ok) {
        let input = std::fs::read(entry.path()).map_err(|error| error.to_string())?;
        inputs.push((entry.file_name().to_string_lossy().chars().take(12).collect::<String>(), input));
    }
    inputs.sort_unstable_by_key(|(_, input)| std::cmp::Reverse(input.len()));
    inputs.truncate(MOST);
    if inputs.is_empty() {
        return Err(format!("nothing is left of the corpus of `{target}`; see whether it still runs"));
    }
    std::fs::remove_dir_all(&kept).map_err(|error| format!("cannot empty {}: {error}", kept.display()))?;
    for (name, input) in &inputs {
        paths::write(&kept.join(format!("{name}.txt")), input)?;
    }
    let bytes: usize = inputs.iter().map(|(_, input)| input.len()).sum();
    println!("  {target:<12} {:>4} inputs, {bytes} bytes", inputs.len());
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(words: &[&str]) -> Vec<String> {
        words.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn what_is_asked_is_read() {
        let all = asked(&words(&["acuity", "--seconds", "5", "pd"]));
        let wanted = Asked { targets: words(&["acuity", "pd"]), seconds: Some(5), ..Asked::default() };
        assert_eq!(all, Ok(wanted));
        assert_eq!(asked(&words(&["--seconds"])), Err("`--seconds` needs a value after it".into()));
        assert_eq!(asked(&words(&["--seconds", "x"])), Err("`x` is no number of seconds".into()));
    }

    #[test]
    fn an_unknown_target_is_answered_with_the_list() {
        let error = chosen(&words(&["acuty"])).expect_err("this must fail");
        assert!(error.starts_with("there is no target `acuty`; the targets are acuity, "), "{error}");
    }

    #[test]
    fn a_clean_run_is_understood() {
        let log = "#2\tINITED cov: 13 ft: 14 corp: 1/1b\n#9\tNEW    cov: 811 ft: 2529\nDone 120 runs\nstat::number_of_executed_units: 120\n";
        assert_eq!(understood(log), Run { tried: 120, places: 811, broken: None });
    }

    #[test]
    fn a_broken_run_names_the_input_and_what_was_said() {
        let log = "#9\tNEW    cov: 8 ft: 2\nthread '<unnamed>' (7) panicked at fuzz/src/acuity.rs:5:9:\nout of range\nnote: run with\nartifact_prefix='x/'; Test unit written to x/crash-1\n";
        let run = understood(log);
        assert_eq!(run.broken, Some(("x/crash-1".into(), "fuzz/src/acuity.rs:5:9: out of range".into())));
        let error = judged("acuity", &run).expect_err("it is broken");
        assert!(error.contains("cargo xtask fuzz acuity --file x/crash-1"), "{error}");
    }

    #[test]
    fn a_run_without_counters_has_failed() {
        assert!(
            judged("acuity", &Run { tried: 9, places: 0, broken: None }).is_err(),
            "no place was reached"
        );
        assert_eq!(judged("acuity", &Run { tried: 9, places: 1, broken: None }), Ok(()));
    }
}
