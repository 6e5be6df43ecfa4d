//! Times the core natively, and writes the cases and the core's answers for the programs that it is compared with.
//!
//! `arcminute-bench time AIDS WISHES all|closed` prints the least median of a round in nanoseconds, the number that all
//! answers add up to, and the least median of the processor's time. `arcminute-bench cases` prints cases and answers as JSON, `arcminute-bench sheet` the same cases
//! as a spreadsheet with formulas.

mod export;
mod sheet;

use arcminute_bench::{Cases, cases::Kinds};
use cpu_time::ThreadTime;
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
            let (time, processor) = timed(|| black_box(&cases).answered());
            println!("{time} {:e} {processor}", cases.answered());
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

/// Least median of a call and of the processor's time for it, in nanoseconds; the first one, not counted, warms up.
///
/// The processor's time leaves out what others were given meanwhile, which long rounds cannot escape on a busy machine.
fn timed(call: impl Fn() -> f64) -> (u128, u128) {
    median(&call);
    let (mut least, started) = ((u128::MAX, u128::MAX), Instant::now());
    for taken in 0..MEDIANS {
        if FEWEST <= taken && ENOUGH < started.elapsed() {
            break;
        }
        let (time, processor) = median(&call);
        least = (least.0.min(time), least.1.min(processor));
    }
    least
}

fn median(call: &impl Fn() -> f64) -> (u128, u128) {
    let (mut rounds, mut processor, started) = (Vec::new(), Vec::new(), Instant::now());
    while rounds.len() < ROUNDS || started.elapsed() < FOR {
        let (round, worked) = (Instant::now(), ThreadTime::now());
        black_box(call());
        processor.push(worked.elapsed().as_nanos());
        rounds.push(round.elapsed().as_nanos());
    }
    (middle(rounds), middle(processor))
}

fn middle(mut times: Vec<u128>) -> u128 {
    times.sort_unstable();
    times.get(times.len() / 2).copied().unwrap_or_default()
}
