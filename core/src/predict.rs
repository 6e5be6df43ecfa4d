//! The power a goal needs, what an aid should reach, and how likely.
//!
//! An aid that makes a thing M times as large should let a person read letters M times as small. A second measurement
//! never gives quite the same as the first, so what is predicted is the middle of a band, and a chance.
//!
//! ```text
//!   logMAR   1.0 ── now                            lower is better
//!             |   − log10|M|
//!            0.4 ── with the aid     ┬ worst: + retest limit
//!             ·                      │
//!            0.3 ── goal             ┴ best:  − retest limit
//! ```
//!
//! Then read [`crate::steadiness`]: what motion takes from it.

#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{LogMar, Magnification};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Standard deviations that hold 95 % of a normal distribution.
const Z_95: f64 = 1.959_963_984_540_054;
/// Two acuities closer than this are one: rounding of `log10`, not measurement.
const SAME: f64 = 1e-9;

/// The magnification between an acuity and a goal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerNeeded {
    /// Acuity now.
    pub now: LogMar,
    /// Acuity to reach.
    pub goal: LogMar,
    /// Ratio of the two angles; 1 or less when the goal is reached already.
    pub power: Magnification,
    /// Smallest whole power that reaches it.
    pub whole: Magnification,
}

/// The magnification needed to get from one acuity to another, exact and as the next whole power.
///
/// ```
/// use arcminute_core::{predict::power_needed, unit::LogMar};
/// // 20/240 to 20/50 needs 4.8x, so 5x (common practice check value).
/// let needed = power_needed(LogMar::from_log(f64::log10(12.0)), LogMar::from_log(f64::log10(2.5)));
/// assert!((needed.power.times() - 4.8).abs() < 1e-12);
/// assert_eq!(needed.whole.times(), 5.0);
/// ```
#[must_use]
pub fn power_needed(now: LogMar, goal: LogMar) -> PowerNeeded {
    let power = now.mar() / goal.mar();
    let whole = math::ceil(power - SAME * power).max(1.0);
    PowerNeeded {
        now,
        goal,
        power: Magnification::from_times(power),
        whole: Magnification::from_times(whole),
    }
}

#[cfg(feature = "alloc")]
impl Explain for PowerNeeded {
    fn steps(&self) -> Vec<Step> {
        let now = Named::new("MAR_now", self.now.mar().arcmin(), Unit::Arcmin);
        let goal = Named::new("MAR_goal", self.goal.mar().arcmin(), Unit::Arcmin);
        let m = Named::new("M", self.power.times(), Unit::Times);
        alloc::vec![Step::formula(&formula::POWER_NEEDED, m, [now, goal])]
    }
}

/// How much of the retest band lies at the goal or better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reach {
    /// None of it.
    No,
    /// Its better end only.
    BetterEnd,
    /// Its middle, not its worse end.
    Middle,
    /// All of it.
    WholeBand,
}

/// What an aid should let a person read, as a band and a chance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// Acuity now.
    pub now: LogMar,
    /// Magnification in use, without sign.
    pub magnification: Magnification,
    /// 95 % limit of repeats of the measurement.
    pub retest_limit: LogMar,
    /// Acuity to reach.
    pub goal: LogMar,
    /// Middle of the prediction.
    pub with_aid: LogMar,
    /// Better end of the band.
    pub best: LogMar,
    /// Worse end of the band.
    pub worst: LogMar,
    /// Spread of repeats, one standard deviation.
    pub spread: LogMar,
    /// Chance that a measurement with the aid is at the goal or better; between 0 and 1.
    pub chance: f64,
    /// How much of the band reaches the goal.
    pub reach: Reach,
}

/// What a person of acuity `now` should read through an aid, against a goal.
///
/// Repeats with the aid scatter about `logMAR − log10|M|` as repeats without it do: 95 % of them within the retest limit.
/// No loss for light, shake, contrast or blur is taken off: none is published; what is known of them is said beside.
///
/// * `retest_limit`: 95 % limit of the difference of two measurements, above zero.
/// * Source: definition of magnification; normal model, assumed; limit as chosen from published ones.
///
/// ```
/// use arcminute_core::predict::{Reach, predict};
/// use arcminute_core::unit::{LogMar, Magnification};
/// // 20/200 through 4x is 0.398, with 0.2 to either side; 0.3 is reached in one of six measurements (computed).
/// let log = LogMar::from_log;
/// let seen = predict(log(1.0), Magnification::from_times(-4.0), log(0.3), log(0.2));
/// assert!((seen.with_aid.log() - 0.398).abs() < 5e-4 && (seen.chance - 0.169).abs() < 5e-4);
/// assert_eq!(seen.reach, Reach::BetterEnd);
/// ```
#[must_use]
pub fn predict(now: LogMar, magnification: Magnification, goal: LogMar, retest_limit: LogMar) -> Prediction {
    let magnification = Magnification::from_times(magnification.size());
    let with_aid = now - LogMar::from_log(math::log10(magnification.times()));
    let (best, worst) = (with_aid - retest_limit, with_aid + retest_limit);
    let spread = retest_limit / Z_95;
    let reached = |acuity: LogMar| acuity.log() <= goal.log() + SAME;
    let reach = match (reached(worst), reached(with_aid), reached(best)) {
        (true, _, _) => Reach::WholeBand,
        (_, true, _) => Reach::Middle,
        (_, _, true) => Reach::BetterEnd,
        _ => Reach::No,
    };
    let chance = math::normal_below((goal - with_aid) / spread);
    Prediction { now, magnification, retest_limit, goal, with_aid, best, worst, spread, chance, reach }
}

#[cfg(feature = "alloc")]
impl Explain for Prediction {
    fn steps(&self) -> Vec<Step> {
        let log = |symbol, acuity: LogMar| Named::new(symbol, acuity.log(), Unit::LogMar);
        let with_aid = log("logMAR_with", self.with_aid);
        let spread = log("s", self.spread);
        alloc::vec![
            Step::formula(
                &formula::ACUITY_THROUGH,
                with_aid,
                [log("logMAR_now", self.now), Named::new("M", self.magnification.times(), Unit::Times)],
            ),
            Step::formula(&formula::RETEST_SPREAD, spread, [log("limit", self.retest_limit)]),
            Step::formula(
                &formula::CHANCE_OF_GOAL,
                Named::new("P", self.chance, Unit::Plain),
                [log("logMAR_goal", self.goal), with_aid, spread],
            ),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the rounding of `log10` adds is no power, whatever the power is.
    #[test]
    fn acuities_that_differ_by_rounding_need_the_same_whole_power() {
        for whole in [2.0, 10.0, 100.0, 1000.0] {
            for (apart, wanted) in [(-4e-10, whole), (4e-10, whole), (1e-8, whole + 1.0)] {
                let now = LogMar::from_log(math::log10(whole) + apart);
                let needed = power_needed(now, LogMar::ZERO).whole.times();
                assert!((needed - wanted).abs() < 1e-12, "{whole} times and {apart} log: {needed}");
            }
        }
    }
}
