//! Waiting: on a condition, up to a deadline, and never for a time alone.

use std::thread;
use std::time::{Duration, Instant};

/// Long enough for anything the page does on a busy two-core machine.
pub(crate) const SOON: Duration = Duration::from_secs(10);

const POLL: Duration = Duration::from_millis(20);

/// Looks until `look` succeeds and returns what it found.
///
/// `look` says in its error what is there instead; the panic at the deadline quotes the last one.
#[track_caller]
pub(crate) fn within<T>(limit: Duration, wanted: &str, mut look: impl FnMut() -> Result<T, String>) -> T {
    let start = Instant::now();
    loop {
        match look() {
            Ok(found) => return found,
            Err(seen) if start.elapsed() >= limit => {
                panic!("not within {limit:?}: {wanted}; instead: {seen}")
            }
            Err(_) => thread::sleep(POLL),
        }
    }
}

/// Waits until `count` has kept one value for `calm`: the nearest thing to proof that nothing more comes.
pub(crate) fn until_quiet(calm: Duration, limit: Duration, count: impl Fn() -> usize) {
    let start = Instant::now();
    let mut last = (count(), Instant::now());
    while last.1.elapsed() < calm {
        assert!(start.elapsed() < limit, "still not quiet after {limit:?}: {} events", last.0);
        thread::sleep(POLL);
        let now = count();
        if now != last.0 {
            last = (now, Instant::now());
        }
    }
}
