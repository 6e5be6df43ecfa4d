//! Examples, edges and messages of steadiness.

use super::*;
use alloc::collections::BTreeSet;
use alloc::string::ToString;

fn times(times: f64) -> Magnification {
    Magnification::from_times(times)
}

fn speed_of(degrees: f64) -> AngularSpeed {
    AngularSpeed::from_degrees_per_second(degrees)
}

#[test]
fn working_agrees() -> Result<(), Error> {
    for m in [0.5, 1.0, 2.2, 4.0, 20.0] {
        for image in [Image::Upright, Image::Inverted] {
            let mut steps = Vec::new();
            for gain in [0.0, 0.9, 1.54, 10.0] {
                for head in [0.0, 0.3, 5.0, 40.0] {
                    steps.extend(head_motion(times(m), image, gain, speed_of(head))?.steps());
                    steps.extend(hand_motion(times(m), image, speed_of(head))?.steps());
                }
                steps.extend(steady_head(times(m), image, gain)?.steps());
            }
            if m >= 1.0 {
                steps.extend(break_even(times(m))?.steps());
            }
            assert!(68 <= steps.len(), "each result has its steps: {}", steps.len());
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{m} {image:?}");
            }
        }
    }
    Ok(())
}

#[test]
fn the_image_decides_the_sign_not_the_lenses() -> Result<(), Error> {
    for m in [4.0, -4.0] {
        let upright = head_motion(times(m), Image::Upright, 1.0, speed_of(2.0))?;
        assert!((upright.slip.degrees_per_second() - 6.0).abs() < 1e-12, "(4 - 1) * 2");
        assert!((upright.magnification.times() - 4.0).abs() < 1e-12, "as seen");
        let inverted = head_motion(times(m), Image::Inverted, 1.0, speed_of(2.0))?;
        assert!((inverted.slip.degrees_per_second() - 10.0).abs() < 1e-12, "(4 + 1) * 2");
        assert!(inverted.net.times() > 0.0, "net is without sign");
        let held = |image| hand_motion(times(m), image, speed_of(2.0)).map(|held| held.image);
        assert!((held(Image::Upright)?.degrees_per_second() - 6.0).abs() < 1e-12, "upright, held");
        assert!((held(Image::Inverted)?.degrees_per_second() - 10.0).abs() < 1e-12, "inverted, held");
    }
    Ok(())
}

#[test]
fn up_to_two_degrees_a_second_nothing_is_lost() -> Result<(), Error> {
    let loss = |slip: f64| head_motion(times(2.0), Image::Upright, 1.0, speed_of(slip)).map(|m| m.loss);
    for slip in [0.0, 1.0, 1.999, 2.0] {
        assert!((loss(slip)? - 1.0).abs() < 1e-15, "{slip}");
    }
    assert!(loss(2.001)? > 1.0, "just above");
    assert!((loss(64.0)? - 8.0).abs() < 1e-12, "32^0.6 is 8");
    Ok(())
}

#[test]
fn what_has_no_answer_is_refused() {
    let even = break_even(times(0.99)).expect_err("a minifier");
    assert_eq!(
        even.to_string(),
        "power `0.99 x` has no solution: it makes things smaller, held still or not"
    );
    assert!(break_even(times(1.0)).is_ok(), "no power at all breaks even at 2 degrees a second");
    let keeps_up = steady_head(times(2.0), Image::Upright, 2.0).expect_err("no slip");
    assert_eq!(
        keeps_up.to_string(),
        "gain of the eye movement `2` has no solution: the eye keeps up with the image at any speed"
    );
    let head = head_motion(times(2.0), Image::Upright, 1.0, speed_of(-1.0)).expect_err("a speed has no sign");
    assert_eq!(head.to_string(), "speed of the head `-1 degrees/s` is not possible");
    assert_eq!(head.hint().to_string(), "use 0 to 2000 degrees/s");
    let gain = head_motion(times(2.0), Image::Upright, f64::NAN, speed_of(1.0)).expect_err("no gain");
    assert_eq!(gain.to_string(), "gain of the eye movement `NaN` is not possible");
    let power = head_motion(times(0.0), Image::Inverted, 1.0, speed_of(1.0)).expect_err("no power");
    assert_eq!(power.to_string(), "power `0 x` is not possible");
    assert!(steady_head(times(2.0), Image::Upright, -0.1).is_err(), "gain");
    assert!(steady_head(times(f64::NAN), Image::Upright, 1.0).is_err(), "power");
    assert!(hand_motion(times(2.0), Image::Upright, speed_of(f64::INFINITY)).is_err(), "speed");
    assert!(hand_motion(times(30.0), Image::Upright, speed_of(1.0)).is_err(), "power, held");
    assert!(break_even(times(f64::INFINITY)).is_err(), "power, even");
}

#[test]
fn what_stands_beside_each_result() -> Result<(), Error> {
    let table = Caution::ALL.map(|caution| (caution.key(), caution.source().id));
    let expected = [
        ("motion-normal-eyes", "demer-amjadi-1993"),
        ("motion-vertical", "demer-amjadi-1993"),
        ("motion-high-contrast", "demer-amjadi-1993"),
        ("motion-untested-in-low-vision", "demer-amjadi-1993"),
        ("hand-speed-unknown", "common-practice"),
    ];
    assert_eq!(table, expected);
    let head = head_motion(times(2.0), Image::Upright, 1.0, speed_of(1.0))?;
    assert_eq!(head.cautions()[..], Caution::ALL[..4]);
    let hand = hand_motion(times(2.0), Image::Upright, speed_of(1.0))?;
    assert_eq!(hand.cautions()[..], Caution::ALL[4..]);
    let ids: BTreeSet<_> = FACTS.iter().map(|fact| fact.id).collect();
    assert_eq!(ids.len(), FACTS.len(), "a key stands twice");
    Ok(())
}
