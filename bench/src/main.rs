//! Times the core natively, and writes the cases and the core's answers for the programs that it is compared with.
//!
//! `arcminute-bench time AIDS WISHES all|closed` prints the least median of a round in nanoseconds, and the number that
//! all answers add up to. `arcminute-bench cases` prints cases and answers as JSON, `arcminute-bench sheet` the same cases
//! as a spreadsheet with formulas.

mod export;
mod sheet;

use arcminute_bench::{Cases, cases::Kinds};
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// Repeats, of which the one with the least median counts: whatever else the machine does can only slow it down.
const REPEATS: usize = 5;
/// Time for one repeat, and fewest rounds in it.
const FOR: Duration = Duration::from_millis(400);
const ROUNDS: usize = 5;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["time", aids, wishes, kinds @ ("all" | "closed")] => {
            let (Ok(aids), Ok(wishes)) = (aids.parse(), wishes.parse()) else { return usage() };
            let cases = Cases::of(aids, wishes, if kinds == "all" { Kinds::All } else { Kinds::Closed });
            println!("{} {:e}", timed(|| black_box(&cases).answered()), cases.answered());
        }
        ["cases"] => println!("{}", export::cases()),
        ["sheet"] => print!("{}", sheet::sheet()),
        _ => return usage(),
    }
    ExitCode::SUCCESS
}

fn usage() -> ExitCode {
    eprintln!("arcminute-bench time AIDS WISHES all|closed; or cases, or sheet");
    ExitCode::FAILURE
}

/// Least median of a call, in nanoseconds; the first repeat, not counted, warms up.
fn timed(call: impl Fn() -> f64) -> u128 {
    (0..=REPEATS).map(|_| median(&call)).skip(1).min().unwrap_or_default()
}

fn median(call: &impl Fn() -> f64) -> u128 {
    let (mut rounds, started) = (Vec::new(), Instant::now());
    while rounds.len() < ROUNDS || started.elapsed() < FOR {
        let round = Instant::now();
        black_box(call());
        rounds.push(round.elapsed().as_nanos());
    }
    rounds.sort_unstable();
    rounds[rounds.len() / 2]
}
