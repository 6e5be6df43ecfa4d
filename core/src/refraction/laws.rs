//! Laws of refractions, on random input.

use super::*;
use crate::unit::Length;
use alloc::string::{String, ToString};
use proptest::prelude::*;

fn refraction() -> impl Strategy<Value = Refraction> {
    (-80..80i32, -40..40i32, 1..=180u16).prop_map(|(sphere, cylinder, axis)| Refraction {
        sphere: Vergence::from_dioptres(f64::from(sphere) / 4.0),
        cylinder: Vergence::from_dioptres(f64::from(cylinder) / 4.0),
        axis: Some(axis),
    })
}

fn pieces() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "+", "-", "2.00", "1.50", "0.125", "150", "1050", "25", "0", "plano", "pl", " ", "/", "x", "@", "ax",
        "090", "181", "add", "DS", "sph", "é", "°", ".",
    ]);
    prop::collection::vec(piece, 0..12).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases::cases(10_000)))]

    #[test]
    fn no_text_makes_it_panic(text in any::<String>()) {
        let _ = parse(&text);
    }

    #[test]
    fn what_is_understood_reads_back_the_same(text in pieces()) {
        let choices = match parse(&text) {
            Parsed::Understood(only) => vec![only],
            Parsed::Ask { choices } => choices.to_vec(),
            Parsed::Empty | Parsed::Refused(_) => vec![],
        };
        for choice in choices {
            prop_assert_eq!(parse(&choice.to_string()), Parsed::Understood(choice), "{} as {}", text, choice);
        }
    }

    #[test]
    fn transposing_keeps_the_lens(lens in refraction()) {
        let other = lens.transposed();
        prop_assert_eq!(other.transposed(), lens);
        let (a, b) = (lens.power_vector(), other.power_vector());
        for (a, b) in [(a.mean_sphere, b.mean_sphere), (a.j0, b.j0), (a.j45, b.j45)] {
            prop_assert!((a - b).abs() < Vergence::from_dioptres(1e-12), "{lens} and {other}");
        }
        for degrees in [0.0, 17.0, 45.0, 90.0, 133.0] {
            let meridian = Angle::from_degrees(degrees);
            let apart = (lens.power_along(meridian) - other.power_along(meridian)).abs();
            prop_assert!(apart < Vergence::from_dioptres(1e-12), "{lens} along {degrees}");
        }
        prop_assert_eq!(lens.strongest_meridian().abs(), other.strongest_meridian().abs());
    }

    #[test]
    fn moving_back_gives_the_lens_back(lens in refraction(), mm in -15.0..15.0f64) {
        let moved = lens.moved(Length::from_mm(mm)).expect("no focus so near");
        let back = moved.to.moved(Length::from_mm(-mm)).expect("no focus so near").to;
        let apart = (back.sphere - lens.sphere).abs().max((back.cylinder - lens.cylinder).abs());
        prop_assert!(apart < Vergence::from_dioptres(1e-9), "{lens} came back as {back}");
    }

    #[test]
    fn working_agrees(lens in refraction(), mm in -15.0..15.0f64, degrees in -45.0..45.0f64) {
        let mut steps = lens.power_vector().steps();
        steps.extend(lens.moved(Length::from_mm(mm)).expect("no focus so near").steps());
        steps.extend(tilted(lens.sphere, Angle::from_degrees(degrees), TiltAbout::Vertical).expect("in range").steps());
        for step in steps {
            prop_assert_eq!(step.check(), Ok(()));
        }
    }
}

/// The prism as a vector: towards the examiner's right, and up.
fn vector(seen: &Decentred) -> (f64, f64) {
    (seen.eye.nose_side() * seen.base_in.prism_dioptres(), seen.base_up.prism_dioptres())
}

fn eye() -> impl Strategy<Value = Eye> {
    prop::sample::select(vec![Eye::Right, Eye::Left])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases::cases(10_000)))]

    /// Law: along and across the axis by themselves, each prism is its own power times its own shift: written without the
    /// matrix.
    #[test]
    fn prism_is_that_of_two_crossed_cylinders(
        lens in refraction(), eye in eye(), inward in -40.0..40.0f64, upward in -40.0..40.0f64
    ) {
        let seen = lens.decentred(eye, Length::from_mm(inward), Length::from_mm(upward)).expect("in range");
        let (x, y) = (eye.nose_side() * inward / 10.0, upward / 10.0);
        let axis = f64::from(lens.axis.unwrap_or(180)).to_radians();
        let (sine, cosine) = (math::sin(axis), math::cos(axis));
        let (s, c) = (lens.sphere.dioptres(), lens.cylinder.dioptres());
        let (along, square) = (s * (x * cosine + y * sine), (s + c) * (y * cosine - x * sine));
        let (right, up) = (along * cosine - square * sine, along * sine + square * cosine);
        let got = vector(&seen);
        prop_assert!((got.0 - right).abs() < 1e-9 && (got.1 - up).abs() < 1e-9, "{seen:?}: {right} and {up}");
        prop_assert!((seen.prism.prism_dioptres() - math::hypot(right, up)).abs() < 1e-9, "{seen:?}");
        for step in seen.steps() {
            prop_assert_eq!(step.check(), Ok(()));
        }
        // A shift the other way has the same prism the other way.
        let back = lens.decentred(eye, Length::from_mm(-inward), Length::from_mm(-upward)).expect("in range");
        prop_assert_eq!(vector(&back), (-got.0, -got.1));
        // The same lens written the other way.
        let other = lens.transposed();
        let other = other.decentred(eye, seen.inward, seen.upward).expect("in range");
        let apart = math::hypot(vector(&other).0 - got.0, vector(&other).1 - got.1);
        prop_assert!(apart < 1e-9, "{seen:?} and {other:?}");
    }

    /// Law: a sphere gives `c · F`, towards the centre when it is plus, whatever its axis is said to be.
    #[test]
    fn a_sphere_gives_prism_along_the_shift(
        quarters in -80..80i32, axis in prop::option::of(1..=180u16), eye in eye(),
        inward in -40.0..40.0f64, upward in -40.0..40.0f64
    ) {
        let power = f64::from(quarters) / 4.0;
        let lens = Refraction { axis, ..Refraction::of_sphere(Vergence::from_dioptres(power)) };
        let seen = lens.decentred(eye, Length::from_mm(inward), Length::from_mm(upward)).expect("in range");
        prop_assert!((seen.base_in.prism_dioptres() - power * inward / 10.0).abs() < 1e-9, "{seen:?}");
        prop_assert!((seen.base_up.prism_dioptres() - power * upward / 10.0).abs() < 1e-9, "{seen:?}");
        prop_assert_eq!(seen.base_in_by_sphere, seen.base_in);
    }

    /// Law: lens and shift turned by the same angle turn the prism by that angle; the mirrored lens before the other eye
    /// has the same prism.
    #[test]
    fn turning_and_mirroring(
        lens in refraction(), turn in 0..180u16, shift in 0.0..28.0f64, way in 0.0..360.0f64
    ) {
        let at = |lens: Refraction, eye: Eye, degrees: f64| {
            let way = Angle::from_degrees(degrees);
            let (across, upward) = (shift * way.cosine(), shift * way.sine());
            let inward = Length::from_mm(eye.nose_side() * across);
            lens.decentred(eye, inward, Length::from_mm(upward)).expect("in range")
        };
        let axis = lens.axis.expect("it has one");
        let turned = Refraction { axis: Some((axis + turn - 1) % 180 + 1), ..lens };
        for eye in [Eye::Right, Eye::Left] {
            let (x, y) = vector(&at(lens, eye, way));
            let got = vector(&at(turned, eye, way + f64::from(turn)));
            let angle = Angle::from_degrees(f64::from(turn));
            let wanted = (x * angle.cosine() - y * angle.sine(), x * angle.sine() + y * angle.cosine());
            let apart = math::hypot(got.0 - wanted.0, got.1 - wanted.1);
            prop_assert!(apart < 1e-9, "{lens} turned by {turn}: {got:?}, wanted {wanted:?}");
        }
        let mirrored = Refraction { axis: Some(if axis == 180 { 180 } else { 180 - axis }), ..lens };
        let (right, left) = (at(lens, Eye::Right, way), at(mirrored, Eye::Left, 180.0 - way));
        prop_assert!((right.base_in - left.base_in).abs().prism_dioptres() < 1e-9, "{right:?} and {left:?}");
        prop_assert!((right.base_up - left.base_up).abs().prism_dioptres() < 1e-9, "{right:?} and {left:?}");
    }
}

/// Computed by hand from `S + C · sin²(θ − α)`: +2.00 −1.50 x090 has +2.00 along 90, +0.50 along 180 and +1.25 between.
#[test]
fn a_lens_by_hand() {
    let d = Vergence::from_dioptres;
    let lens = Refraction::of(d(2.0), d(-1.5), Some(90)).expect("in range");
    for (degrees, along) in [(90.0, 2.0), (180.0, 0.5), (45.0, 1.25), (135.0, 1.25), (60.0, 1.625)] {
        let apart = lens.power_along(Angle::from_degrees(degrees)) - d(along);
        assert!(apart.abs() < d(1e-12), "{apart:?} off along {degrees}");
    }
    assert_eq!(lens.transposed(), Refraction::of(d(0.5), d(1.5), Some(180)).expect("in range"));
    assert_eq!(lens.transposed().transposed(), lens, "turned over twice");
    let sphere = Refraction { axis: Some(30), ..Refraction::of_sphere(d(2.0)) };
    assert_eq!(sphere.transposed(), sphere, "without a cylinder nothing changes");
    for (sphere, cylinder, strongest) in [
        (2.0, -1.5, 2.0),
        (2.0, 1.0, 3.0),
        (-1.0, -2.0, -3.0),
        (1.0, -2.0, 1.0),
        (-1.0, 3.0, 2.0),
        (-2.0, 3.0, -2.0),
    ] {
        let lens = Refraction::of(d(sphere), d(cylinder), Some(10)).expect("in range");
        assert_eq!(lens.strongest_meridian(), d(strongest), "{lens}");
    }
    assert_eq!(lens.power_vector().steps().len(), 3, "mean sphere and two crossed cylinders");
    assert_eq!(Refraction::of_sphere(d(2.0)).power_vector().steps().len(), 1, "a sphere has no axis");
}
