//! Movement behind a telescope, against the works it comes from.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::steadiness::{
    Caution, FACTS, Image, MOTION_LOSSES, REFLEX_GAINS, break_even, hand_motion, head_motion,
    slip_without_loss, steady_head,
};
use arcminute_core::unit::{AngularSpeed, Magnification};

fn times(times: f64) -> Magnification {
    Magnification::from_times(times)
}

fn speed(degrees: f64) -> AngularSpeed {
    AngularSpeed::from_degrees_per_second(degrees)
}

/// Source: Demer & Amjadi 1993, IOVS (abstract): at 40 degrees a second acuity was down 2, 4 and 8 times with 1.9x, 4x and
/// 6x; net gain computed.
#[test]
fn losses_that_were_measured() {
    for (row, (power, loss, net)) in
        MOTION_LOSSES.iter().zip([("1.9", "2", "0.95"), ("4", "4", "1.0"), ("6", "8", "0.75")])
    {
        rounds_to(row.magnification().times(), power);
        rounds_to(row.loss, loss);
        rounds_to(row.net().times(), net);
        rounds_to(row.head().degrees_per_second(), "40");
        assert_eq!(row.source.id, "demer-amjadi-1993");
    }
}

/// Source: Demer & Amjadi 1993: above 2 degrees a second acuity falls by the 0.6th power of the slip (computed from it).
#[test]
fn the_slip_that_takes_all_the_gain() -> Result<(), Error> {
    rounds_to(slip_without_loss().degrees_per_second(), "2.0");
    for (power, slip) in [(2.0, "6.3"), (4.0, "20.2"), (6.0, "39.6"), (8.0, "64.0")] {
        rounds_to(break_even(times(power))?.slip.degrees_per_second(), slip);
    }
    Ok(())
}

/// Source: Demer & Amjadi 1993 (computed from the law): 4x, gain 1.5, head at 5 degrees a second.
#[test]
fn what_a_moving_head_leaves() -> Result<(), Error> {
    let motion = head_motion(times(4.0), Image::Upright, 1.5, speed(5.0))?;
    rounds_to(motion.slip.degrees_per_second(), "12.5");
    rounds_to(motion.loss, "3.00");
    rounds_to(motion.net.times(), "1.33");
    for caution in
        [Caution::NormalEyes, Caution::VerticalMotion, Caution::HighContrast, Caution::UntestedInLowVision]
    {
        assert!(motion.cautions().contains(&caution), "{caution:?}");
    }
    Ok(())
}

/// Source: Demer & Amjadi 1993 (computed from the 2 degrees a second): speed of the head by power, gain 1.
#[test]
fn how_still_a_head_has_to_be() -> Result<(), Error> {
    for (power, head) in
        [(2.0, "2.0"), (3.0, "1.0"), (4.0, "0.67"), (5.0, "0.50"), (6.0, "0.40"), (8.0, "0.29")]
    {
        rounds_to(steady_head(times(power), Image::Upright, 1.0)?.head.degrees_per_second(), head);
    }
    Ok(())
}

/// Image motion through a held telescope: computed from geometry, M - 1 upright and M + 1 inverted; brow-steadied M - g.
#[test]
fn a_held_telescope() -> Result<(), Error> {
    for (power, upright, inverted) in [(2.0, "1", "3"), (4.0, "3", "5"), (8.0, "7", "9")] {
        let image = |image| hand_motion(times(power), image, speed(1.0));
        rounds_to(image(Image::Upright)?.image.degrees_per_second(), upright);
        rounds_to(image(Image::Inverted)?.image.degrees_per_second(), inverted);
        assert_eq!(image(Image::Upright)?.cautions(), [Caution::HandSpeedUnknown]);
    }
    // 4x steadied on the brow, gain 1.5: the image slips at 2.5 times the speed of the head, not at 3.
    let steadied = head_motion(times(4.0), Image::Upright, 1.5, speed(1.0))?;
    rounds_to(steadied.slip.degrees_per_second(), "2.5");
    Ok(())
}

/// Source: "Vestibulo-ocular reflex during magnified vision" (abstract): 1.37 ± 0.53 at first, 1.54 ± 0.25 after 15 minutes.
#[test]
fn the_reflex_through_a_telescope() {
    for (row, (id, gain, deviation)) in
        REFLEX_GAINS.iter().zip([("at-first", "1.37", "0.53"), ("after-15-minutes", "1.54", "0.25")])
    {
        assert_eq!((row.id, row.source.id), (id, "reflex-magnified"));
        rounds_to(row.gain, gain);
        rounds_to(row.deviation, deviation);
        rounds_to(row.magnification().times(), "2.2");
    }
}

/// Source: Demer et al. 1988, Porter et al. 1989, Demer et al. 1989 and 1991, Demer & Amjadi 1993: findings without a law.
#[test]
fn findings() {
    let printed = [
        ("law", "demer-amjadi-1993"),
        ("sitting-still", "porter-1989"),
        ("walking", "demer-1988"),
        ("sideways", "demer-1988"),
        ("practice", "demer-1988"),
        ("prognosis", "demer"),
    ];
    let found: Vec<_> = FACTS.iter().map(|fact| (fact.id, fact.source.id)).collect();
    assert_eq!(found, printed);
}
