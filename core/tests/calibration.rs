//! A predicted chance comes true as often as it says, where repeats scatter as the model has it.
//!
//! A true acuity is drawn, and two measurements of it: one without the aid, from which the prediction is made, and one
//! with it. Each scatters normally by itself; the retest limit is that of 95 % of their differences, so each has a
//! standard deviation of the limit over 1.96 and over the root of two. The numbers are made here, by nothing of the core.

#[path = "law/cases.rs"]
mod cases;

use arcminute_core::predict::predict;
use arcminute_core::trial::{Circumstances, TrialClass, judge};
use arcminute_core::unit::{LogMar, Magnification};

/// Trials for each chance.
const DRAWS: u32 = cases::cases(100_000);
/// Same numbers in each run; change it to try others.
const SEED: u64 = 0x0a2c_317e_5c0f_fee5;

/// Uniform numbers by `SplitMix64`, normal ones from pairs of them by Box and Muller.
struct Random(u64);

impl Random {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }
    /// Above 0, at most 1.
    fn uniform(&mut self) -> f64 {
        ((self.bits() >> 11) as f64 + 1.0) / (1_u64 << 53) as f64
    }
    fn normal(&mut self) -> f64 {
        let (radius, turn) = (self.uniform(), self.uniform());
        libm::sqrt(-2.0 * libm::log(radius)) * libm::cos(2.0 * std::f64::consts::PI * turn)
    }
}

/// One person, measured twice: the first measurement, and how much worse the second is.
fn measured_twice(random: &mut Random, limit: f64) -> (f64, f64) {
    let truth = 0.6 + random.uniform();
    let spread = limit / 1.96 / 2.0_f64.sqrt();
    let first = truth + spread * random.normal();
    (first, truth + spread * random.normal() - first)
}

/// Room for chance at so many draws: 2 points at the full number.
fn room() -> f64 {
    0.02 * f64::from(100_000_u32).sqrt() / f64::from(DRAWS).sqrt()
}

#[test]
fn what_is_given_a_chance_comes_true_as_often() {
    let log = LogMar::from_log;
    // Quantiles of the normal law, from a table: 0.5244, 0.8416, 1.2816, 1.6449.
    for (percent, quantile) in [(20.0, -0.8416), (50.0, 0.0), (80.0, 0.8416), (95.0, 1.6449)] {
        for (limit, power) in [(0.10, 2.0), (0.20, 4.0), (0.34, 8.0)] {
            let mut random = Random(SEED);
            let (mut came_true, mut told) = (0_u32, 0.0);
            for _ in 0..DRAWS {
                let (first, worse) = measured_twice(&mut random, limit);
                // The goal that a person of this first measurement has that chance to reach.
                let goal = first - libm::log10(power) + quantile * limit / 1.96;
                let prediction = predict(log(first), Magnification::from_times(power), log(goal), log(limit));
                told += prediction.chance / f64::from(DRAWS);
                let with_aid = first + worse - libm::log10(power);
                came_true += u32::from(with_aid <= goal);
            }
            let share = f64::from(came_true) / f64::from(DRAWS);
            assert!((told - percent / 100.0).abs() < 1e-3, "{percent} % is told as {told}");
            assert!((share - told).abs() < room(), "{percent} %, limit {limit}, {power}x: {share} came true");
        }
    }
}

/// And 95 of 100 trials lie within the band, as many of the rest on one side as on the other.
#[test]
fn nineteen_of_twenty_trials_need_no_explanation() {
    let log = LogMar::from_log;
    let (limit, power) = (0.2, 4.0);
    let mut random = Random(SEED);
    let mut counts = [0_u32; 3];
    for _ in 0..DRAWS {
        let (first, worse) = measured_twice(&mut random, limit);
        let prediction = predict(log(first), Magnification::from_times(power), log(0.3), log(limit));
        let with_aid = log(first + worse - libm::log10(power));
        let verdict = judge(&prediction, with_aid, &Circumstances::default()).expect("possible");
        counts[match verdict.class {
            TrialClass::Better => 0,
            TrialClass::WithinBand => 1,
            TrialClass::Worse => 2,
        }] += 1;
    }
    for (count, wanted) in counts.into_iter().zip([0.025, 0.95, 0.025]) {
        let share = f64::from(count) / f64::from(DRAWS);
        assert!((share - wanted).abs() < room() / 2.0, "{share} in place of {wanted}");
    }
}
