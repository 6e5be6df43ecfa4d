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

/// Medians, of which the least counts: whatever else the machine does can only slow it down.
const MEDIANS: usize = 40;
/// Fewest medians, and when no more are begun.
const FEWEST: usize = 4;
const ENOUGH: Duration = Duration::from_secs(4);
/// Time for one median, and fewest rounds in it.
const FOR: Duration = Duration::from_millis(50);
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

/// Least median of a call, in nanoseconds; the first one, not counted, warms up.
fn timed(call: impl Fn() -> f64) -> u128 {
    median(&call);
    let (mut least, started) = (u128::MAX, Instant::now());
    for taken in 0..MEDIANS {
        if FEWEST <= taken && ENOUGH < started.elapsed() {
            break;
        }
        least = least.min(median(&call));
    }
    least
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
