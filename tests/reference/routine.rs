//! Check values of the working routine, and the prediction against sums done another way.

use crate::support::rounds_to;
use arcminute_core::math;
use arcminute_core::optics::apparent_field;
use arcminute_core::predict::{Reach, power_needed, predict};
use arcminute_core::task::{Goal, Target, demand};
use arcminute_core::unit::{Angle, Length, LogMar, Magnification};

fn log(value: f64) -> LogMar {
    LogMar::from_log(value)
}
/// Acuity 20 over this.
fn feet(denominator: f64) -> LogMar {
    LogMar::of_angle(Angle::from_arcmin(denominator / 20.0))
}
fn times(value: f64) -> Magnification {
    Magnification::from_times(value)
}

/// Source: common practice, no source.
#[test]
fn powers_for_the_usual_goals() {
    for (goal, now, exact, whole) in [
        (40.0, 160.0, "4.000", 4.0),
        (40.0, 200.0, "5.000", 5.0),
        (40.0, 240.0, "6.000", 6.0),
        (50.0, 200.0, "4.000", 4.0),
        (50.0, 240.0, "4.800", 5.0),
        (50.0, 300.0, "6.000", 6.0),
        (40.0, 300.0, "7.500", 8.0),
    ] {
        let needed = power_needed(feet(now), feet(goal));
        rounds_to(needed.power.times(), exact);
        rounds_to(needed.whole.times(), &format!("{whole}.000000"));
        let prediction = predict(feet(now), needed.whole, feet(goal), log(0.2));
        assert!(Reach::Middle <= prediction.reach, "20/{now} with {whole}x reaches 20/{goal}");
        let less = predict(feet(now), needed.whole - times(1.0), feet(goal), log(0.01));
        assert_eq!(less.reach, Reach::No, "20/{now} with one power less falls short of 20/{goal}");
    }
}

/// Source: common practice, no source.
#[test]
fn a_goal_that_is_reached_needs_no_power() {
    rounds_to(power_needed(feet(40.0), feet(50.0)).whole.times(), "1.000000");
    rounds_to(power_needed(feet(40.0), feet(40.0)).whole.times(), "1.000000");
}

/// Source: common practice, no source; the tangent values are exact, computed.
#[test]
fn apparent_fields_of_the_usual_telescopes() {
    for (power, real, simple, tangent) in
        [(4.0, 12.5, "50.0", "47.31"), (5.0, 10.5, "52.5", "49.35"), (6.0, 9.6, "57.6", "53.48")]
    {
        let real = Angle::from_degrees(real);
        rounds_to((real * power).degrees(), simple);
        rounds_to(apparent_field(times(power), real).degrees(), tangent);
    }
}

/// Source: common practice, no source; the angle by definition.
#[test]
fn letters_on_a_board() {
    let board = |reserve| {
        Goal::Target(Target { height: Length::from_mm(40.0), distance: Length::from_m(6.0), reserve })
    };
    rounds_to(demand(board(1.0)).detail.arcmin(), "4.6");
    rounds_to(demand(board(1.0)).to_reach.log(), "0.66");
    rounds_to(demand(board(2.0)).detail.arcmin(), "4.6");
    rounds_to(demand(board(2.0)).to_reach.mar().arcmin(), "2.29");
    // 20/200 needs 10 / 4.58 at the limit, twice that with reserve.
    rounds_to(power_needed(feet(200.0), demand(board(1.0)).to_reach).power.times(), "2.18");
    rounds_to(power_needed(feet(200.0), demand(board(2.0)).to_reach).power.times(), "4.36");
}

/// Share of the normal distribution below `z`: Simpson's rule on the density from 0 to `z`.
fn share_below(z: f64) -> f64 {
    let strips = 2000;
    let width = z / f64::from(strips);
    let density = |x: f64| math::pow(core::f64::consts::E, -x * x / 2.0) / math::sqrt(2.0 * math::PI);
    let inner: f64 = (1..strips)
        .map(|strip| if strip % 2 == 1 { 4.0 } else { 2.0 } * density(width * f64::from(strip)))
        .sum();
    0.5 + (density(0.0) + inner + density(z)) * width / 3.0
}

/// Source: common practice, no source (normal model, assumed); the share by numerical integration.
#[test]
fn chance_against_numerical_integration() {
    for now in [0.5, 0.8, 1.0, 1.3] {
        for goal in [0.2, 0.3, 0.4, 0.66] {
            for limit in [0.07, 0.14, 0.2, 0.3] {
                for power in [1.0, 2.2, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0] {
                    let got = predict(log(now), times(power), log(goal), log(limit)).chance;
                    let z = (goal - now + math::log10(power)) / limit * 1.959_963_984_540_054;
                    // Beyond 8 deviations nothing is left to a double.
                    let wanted = share_below(z.clamp(-8.0, 8.0));
                    assert!((got - wanted).abs() < 1e-10, "{now} to {goal} at {power}x: {got}, {wanted}");
                }
            }
        }
    }
}

/// Source: common practice, no source (normal model, assumed).
#[test]
fn band_and_chance_of_an_even_case() {
    let even = predict(feet(200.0), times(5.0), feet(40.0), log(0.2));
    rounds_to(even.with_aid.log(), "0.301");
    rounds_to(even.best.log(), "0.101");
    rounds_to(even.worst.log(), "0.501");
    rounds_to(even.chance, "0.500000000");
    assert_eq!(even.reach, Reach::Middle, "the middle sits on the goal");
    let inverted = predict(feet(200.0), times(-5.0), feet(40.0), log(0.2));
    assert_eq!(inverted, even, "an inverted image has the same acuity");
}

/// Source: common practice, no source (normal model, assumed).
#[test]
fn chance_and_reach_grow_with_power() {
    for limit in [0.07, 0.2, 0.3] {
        let mut before = predict(log(1.0), times(1.0), log(0.3), log(limit));
        for tenths in 11..=120 {
            let next = predict(log(1.0), times(f64::from(tenths) / 10.0), log(0.3), log(limit));
            assert!(before.chance <= next.chance && before.reach <= next.reach, "at {tenths} tenths");
            assert!((0.0..=1.0).contains(&next.chance), "a chance lies between 0 and 1");
            before = next;
        }
        assert_eq!(before.reach, Reach::WholeBand, "12x is ample");
    }
}

/// Source: common practice, no source: the ends of the band on the goal, and just short of it.
#[test]
fn reach_at_the_ends_of_the_band() {
    for (goal, reach, chance) in [
        (0.6, Reach::WholeBand, "0.975"),
        (0.5999, Reach::Middle, "0.975"),
        (0.4, Reach::Middle, "0.500"),
        (0.3999, Reach::BetterEnd, "0.500"),
        (0.2, Reach::BetterEnd, "0.025"),
        (0.1999, Reach::No, "0.025"),
    ] {
        let prediction = predict(log(0.4), times(1.0), log(goal), log(0.2));
        assert_eq!(prediction.reach, reach, "goal {goal}");
        rounds_to(prediction.chance, chance);
    }
}
