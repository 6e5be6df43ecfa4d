//! How long a case may lie open untouched, and what comes then.

/// The waits offered, minutes.
pub const MINUTES: [usize; 8] = [1, 2, 5, 10, 15, 20, 30, 60];
/// The wait at first, minutes; longer ones go past the tenfold that WCAG 2.2, criterion 2.2.1, asks for.
pub const DEFAULT_MINUTES: usize = 5;

/// How near the lock is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Not near.
    Calm,
    /// Near: it comes in so many seconds, at least one.
    Near(usize),
    /// It is time.
    Over,
}

/// How near the lock is after so many milliseconds without a touch. It is announced a minute before, and half a minute
/// before where the whole wait is one minute.
#[must_use]
pub fn phase(idle_ms: f64, minutes: usize) -> Phase {
    let warn_s = if minutes <= 1 { 30 } else { 60 };
    // A clock that was set back has waited no time.
    let idle_s = (idle_ms.max(0.0) / 1_000.0) as usize;
    match (60 * minutes).saturating_sub(idle_s) {
        0 => Phase::Over,
        left if left <= warn_s => Phase::Near(left),
        _ => Phase::Calm,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lock_is_near_a_minute_before_it_comes() {
        for (idle_ms, minutes, expected) in [
            (0.0, 5, Phase::Calm),
            (239_999.0, 5, Phase::Calm),
            (240_000.0, 5, Phase::Near(60)),
            (299_999.0, 5, Phase::Near(1)),
            (300_000.0, 5, Phase::Over),
            (1e15, 60, Phase::Over),
            (0.0, 1, Phase::Calm),
            (30_000.0, 1, Phase::Near(30)),
            (60_000.0, 1, Phase::Over),
            (-1e15, 1, Phase::Calm),
        ] {
            assert_eq!(phase(idle_ms, minutes), expected, "{idle_ms} ms of {minutes} minutes");
        }
    }

    /// WCAG 2.2, criterion 2.2.1: adjustable to ten times the wait at first, or a warning of at least 20 s.
    #[test]
    fn the_wait_can_be_made_ten_times_as_long_and_each_is_announced() {
        assert!(MINUTES.contains(&DEFAULT_MINUTES), "the first wait is offered");
        assert!(MINUTES.iter().any(|minutes| 10 * DEFAULT_MINUTES <= *minutes), "and ten times as long");
        for minutes in MINUTES {
            let near =
                (0..60 * minutes).filter(|s| matches!(phase(*s as f64 * 1_000.0, minutes), Phase::Near(_)));
            assert!(20 <= near.count(), "{minutes} minutes are announced for 20 s at least");
        }
    }
}
