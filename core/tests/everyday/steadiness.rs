//! Movement behind a telescope.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::math;
use arcminute_core::steadiness::{Image, break_even, hand_motion, head_motion, steady_head};
use arcminute_core::unit::{AngularSpeed, Magnification};
use proptest::prelude::*;

fn times(times: f64) -> Magnification {
    Magnification::from_times(times)
}

fn speed(degrees: f64) -> AngularSpeed {
    AngularSpeed::from_degrees_per_second(degrees)
}

fn image() -> impl Strategy<Value = Image> {
    prop_oneof![Just(Image::Upright), Just(Image::Inverted)]
}

#[test]
fn slip_loss_and_net_are_the_law() {
    let inputs = (0.2..19.0, image(), 0.0..3.0, 0.0..60.0);
    holds(inputs, |(m, image, gain, head): (f64, Image, f64, f64)| {
        let motion = head_motion(times(m), image, gain, speed(head)).expect("possible");
        let signed = if image == Image::Upright { m } else { -m };
        let slip = (signed - gain).abs() * head;
        agree("slip", motion.slip.degrees_per_second(), slip)?;
        let loss = if slip <= 2.0 { 1.0 } else { math::exp(0.6 * math::ln(slip / 2.0)) };
        agree("loss", motion.loss, loss)?;
        agree("net", motion.net.times() * motion.loss, m)?;
        prop_assert!(motion.net.times() <= m * (1.0 + 1e-12), "movement gives nothing: {motion:?}");
        shows_its_working(&motion)
    });
}

#[test]
fn a_faster_head_never_costs_less() {
    let inputs = (0.2..19.0, image(), 0.0..3.0, 0.0..100.0, 1.0..3.0);
    holds(inputs, |(m, image, gain, head, faster): (f64, Image, f64, f64, f64)| {
        let motion = |head| head_motion(times(m), image, gain, speed(head)).expect("possible");
        let (slow, fast) = (motion(head), motion(head * faster));
        prop_assert!(slow.loss <= fast.loss && fast.net <= slow.net, "{slow:?} {fast:?}");
        if slow.slip.degrees_per_second() >= 2.0 {
            agree("power of 0.6", fast.loss / slow.loss, math::pow(faster, 0.6))?;
        }
        Ok(())
    });
}

#[test]
fn the_loss_sets_in_without_a_jump_at_two_degrees_a_second() {
    let inputs = (1.5..19.0, image(), 0.0..1.4, 1e-9..0.1);
    holds(inputs, |(m, image, gain, over): (f64, Image, f64, f64)| {
        let steady = steady_head(times(m), image, gain).expect("it slips");
        let motion = |head| head_motion(times(m), image, gain, head).expect("possible");
        let at = motion(steady.head);
        agree("slip", at.slip.degrees_per_second(), 2.0)?;
        vanishes("loss", at.loss - 1.0, 1.0)?;
        let above = motion(steady.head * (1.0 + over)).loss - 1.0;
        prop_assert!(-1e-12 <= above && above <= 0.6 * over + 1e-9, "a jump of {above} at {over}");
        let below = motion(steady.head * (1.0 - over));
        prop_assert!((below.loss - 1.0).abs() < 1e-15, "{below:?}");
        shows_its_working(&steady)
    });
}

#[test]
fn at_the_break_even_slip_nothing_is_left_of_the_gain() {
    let inputs = (1.0..19.0, image(), 0.0..0.9);
    holds(inputs, |(m, image, gain): (f64, Image, f64)| {
        let even = break_even(times(m)).expect("it enlarges");
        let steady = steady_head(times(m), image, gain).expect("it slips");
        let head = steady.head * (even.slip / steady.slip);
        prop_assume!(head.degrees_per_second() < 2000.0);
        let motion = head_motion(times(m), image, gain, head).expect("possible");
        agree("net", motion.net.times(), 1.0)?;
        let more = break_even(times(m * 1.01)).expect("it enlarges");
        prop_assert!(even.slip < more.slip, "a stronger one stands more slip");
        shows_its_working(&even)
    });
}

#[test]
fn a_held_telescope_moves_as_a_worn_one_with_a_gain_of_one() {
    let inputs = (0.2..19.0, image(), 0.0..100.0);
    holds(inputs, |(m, image, hand): (f64, Image, f64)| {
        let held = hand_motion(times(m), image, speed(hand)).expect("possible");
        let worn = head_motion(times(m), image, 1.0, speed(hand)).expect("possible");
        agree("speed", held.image.degrees_per_second(), worn.slip.degrees_per_second())?;
        if m >= 1.0 {
            let of = |image| hand_motion(times(m), image, speed(hand)).expect("possible").image;
            let (upright, inverted) = (of(Image::Upright), of(Image::Inverted));
            vanishes("twice the hand", (inverted - upright).degrees_per_second() - 2.0 * hand, m * hand)?;
        }
        shows_its_working(&held)
    });
}
