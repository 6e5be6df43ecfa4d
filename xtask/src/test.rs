//! `cargo xtask test`: sets up, runs the steps one after the other, stops at the first that fails, and says how long each took.

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use crate::steps::{self, Bench, Kind, Step};
use crate::{Outcome, setup};

struct Done {
    name: &'static str,
    tests: usize,
    time: Duration,
}

/// `cargo xtask test [STEP...] [-- FILTER...]`.
pub(crate) fn command(arguments: &[String]) -> Outcome {
    let (wanted, filters) = match arguments.iter().position(|word| word == "--") {
        Some(at) => (&arguments[..at], &arguments[at + 1..]),
        None => (arguments, &[][..]),
    };
    let chosen = steps::chosen(wanted)?;
    let mut done = Vec::new();
    for (i, step) in chosen.iter().enumerate() {
        println!("\n[{}/{}] {}: {}", i + 1, chosen.len(), step.name, step.about);
        let started = Instant::now();
        let tests = one(step, filters).map_err(|error| {
            format!(
                "The step `{}` failed.\n{error}\nThen run it alone: cargo xtask test {}",
                step.name, step.name
            )
        })?;
        done.push(Done { name: step.name, tests, time: started.elapsed() });
    }
    print!("{}", summary(&done));
    Ok(())
}

fn one(step: &Step, filters: &[String]) -> Outcome<usize> {
    let tools = setup::ensure(step.needs)?;
    let tests = (step.run)(&Bench { tools, filters })?;
    judged(step.kind, tests)
}

fn judged(kind: Kind, tests: usize) -> Outcome<usize> {
    if kind == Kind::Tests && tests == 0 {
        return Err("No test ran. Check the words after `--`, if there are any, and that the package still has tests.".into());
    }
    Ok(tests)
}

fn summary(done: &[Done]) -> String {
    let mut text = String::from("\n");
    for Done { name, tests, time } in done {
        let tests = if *tests > 0 { format!("{tests} tests") } else { String::new() };
        let _ = writeln!(text, "  {name:<12}{:>8.1} s   {tests}", time.as_secs_f64());
    }
    let time: Duration = done.iter().map(|step| step.time).sum();
    let tests: usize = done.iter().map(|step| step.tests).sum();
    let _ = writeln!(text, "Steps passed: {} in {:.0} s.", done.len(), time.as_secs_f64());
    if tests > 0 {
        let _ = writeln!(text, "tests: {tests} passed, 0 failed");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_test_step_without_a_test_fails() {
        assert!(judged(Kind::Tests, 0).expect_err("this must fail").starts_with("No test ran."));
        assert_eq!(judged(Kind::Tests, 1), Ok(1));
        assert_eq!(judged(Kind::Check, 0), Ok(0));
    }

    #[test]
    fn the_summary_ends_with_the_count() {
        let step = |name, tests| Done { name, tests, time: Duration::from_millis(1500) };
        let text = summary(&[step("format", 0), step("core", 12)]);
        assert!(text.contains("  core             1.5 s   12 tests\n"), "{text}");
        assert!(text.ends_with("Steps passed: 2 in 3 s.\ntests: 12 passed, 0 failed\n"), "{text}");
    }
}
