//! Hand magnifiers.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::device::{Detail, Eye, HandMagnifier, PrintPlace, Worn, hold, look};
use arcminute_core::unit::{Length, LogMar, Vergence};
use proptest::prelude::*;

fn magnifier(power: f64, diameter: f64) -> HandMagnifier {
    HandMagnifier {
        power: Vergence::from_dioptres(power),
        clear_diameter: Length::from_m(diameter),
        transmittance: 0.9,
    }
}

fn eye(add: f64, to_eye: f64, pupil: f64) -> Eye {
    Eye {
        worn: if add > 0.0 { Worn::Near { add: Vergence::from_dioptres(add) } } else { Worn::Distance },
        spectacle_to_eye: Length::from_m(to_eye),
        pupil: Length::from_m(pupil),
        ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
}

/// `F = F_m + F_a − zF_mF_a` is the equivalent power while the print lies in the combined focus, wherever the eye is.
#[test]
fn with_an_addition_in_the_combined_focus() {
    holds((4.0..50.0, 0.25..6.0, 0.0..0.16, 0.0..0.03), |(power, add, z, to_eye)| {
        let held = hold(
            magnifier(power, 0.05),
            &eye(add, to_eye, 0.004),
            Length::from_m(z),
            PrintPlace::AtCombinedFocus,
        )
        .expect("z is below one focal length of the addition");
        let together = power + add - z * power * add;
        agree("combined power", held.combined_power.dioptres(), together)?;
        agree("print to lens", held.print_to_lens.m(), (1.0 - z * add) / together)?;
        agree("equivalent power", 1.0 / held.equivalent_viewing_distance.m(), together)?;
        vanishes("demand", held.focus_demand.dioptres(), together)?;
        shows_its_working(&held)
    });
}

/// Print in the magnifier's own focus: its power whatever the eye distance, and no demand before the glasses.
#[test]
fn in_the_focus_of_the_lens_the_distance_of_the_eye_is_free() {
    holds((4.0..50.0, 0.0..0.5, 0.0..0.03), |(power, z, to_eye)| {
        let held = hold(
            magnifier(power, 0.05),
            &eye(0.0, to_eye, 0.004),
            Length::from_m(z),
            PrintPlace::AtLensFocus,
        )
        .expect("always possible");
        agree("equivalent power", 1.0 / held.equivalent_viewing_distance.m(), power)?;
        vanishes("demand", held.focus_demand.dioptres(), power)
    });
}

/// `EVD = u + z − uzF` and `A = (1 − uF)/EVD`, z to the eye, without glasses in between.
#[test]
fn print_inside_the_focus() {
    let inputs = (4.0..40.0, 0.05..0.999, 0.001..0.5, 0.0..0.03)
        .prop_map(|(power, share, z, to_eye)| (power, share / power, z, to_eye));
    holds(inputs, |(power, u, z, to_eye)| {
        let print = PrintPlace::At(Length::from_m(u));
        let held = hold(magnifier(power, 0.05), &eye(0.0, to_eye, 0.004), Length::from_m(z), print)
            .expect("the print is before the lens");
        let to_eye = z + to_eye;
        let evd = u + to_eye - u * to_eye * power;
        agree("equivalent viewing distance", held.equivalent_viewing_distance.m(), evd)?;
        vanishes("demand", held.focus_demand.dioptres() - (1.0 - u * power) / evd, 1.0 / evd)
    });
}

/// `w = (d ∓ kq)·EVD/z`, k = v/(v + z), fully lit, at the half-light edge and to the last glimpse.
#[test]
fn field_by_vignetting() {
    let inputs = (4.0..40.0, 0.05..1.0, 0.03..0.4, 0.02..0.08, 0.001..0.008)
        .prop_map(|(power, share, z, d, q)| (power, share / power, z, d, q));
    holds(inputs, |(power, u, z, d, q)| {
        let held = hold(
            magnifier(power, d),
            &eye(0.0, 0.0, q),
            Length::from_m(z),
            PrintPlace::At(Length::from_m(u)),
        )
        .expect("the print is before the lens");
        let detail = Detail { height: Length::from_mm(1.45), distance: None, reserve: 2.0 };
        let seen = look(&held.arrangement, &eye(0.0, 0.0, q), detail).expect("inside the focus");
        let widths = seen.widths.expect("the rim limits it");
        // Image distance v = u/(1 − uF), so k = v/(v + z) = u/(u + z − uzF).
        let evd = u + z - u * z * power;
        let k = u / evd;
        prop_assume!(k * q < d);
        vanishes("full", widths.full.m() - (d - k * q) * evd / z, d * evd / z)?;
        agree("half", widths.half.m(), d * evd / z)?;
        agree("last", widths.last.m(), (d + k * q) * evd / z)?;
        shows_its_working(&seen)
    });
}

/// Further from the eye the power stays and the field shrinks.
#[test]
fn field_falls_with_eye_distance() {
    holds((4.0..40.0, 0.03..0.3, 1.05..2.0), |(power, z, factor)| {
        let width = |z: f64| {
            let held = hold(
                magnifier(power, 0.05),
                &eye(0.0, 0.0, 0.004),
                Length::from_m(z),
                PrintPlace::AtLensFocus,
            )
            .expect("always possible");
            let detail = Detail { height: Length::from_mm(1.45), distance: None, reserve: 1.0 };
            look(&held.arrangement, &eye(0.0, 0.0, 0.004), detail)
                .expect("in focus")
                .widths
                .expect("a rim")
                .half
        };
        agree("width times distance", width(z * factor).m() * factor, width(z).m())
    });
}
