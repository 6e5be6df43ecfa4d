//! Telescopes far, near and with caps, forwards and reversed; minus lenses.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::device::{Detail, Eye, RefractionBy, Setting, Worn, aim, field_gain, hold_minus, look};
use arcminute_core::math;
use arcminute_core::optics::Telescope;
use arcminute_core::unit::{Angle, Length, LogMar, Magnification, Vergence};
use proptest::prelude::*;

/// Objective in dioptres, signed magnification, objective diameter, eyepiece to eye.
fn telescopes() -> impl Strategy<Value = (f64, f64, f64, f64)> {
    (8.0..40.0, prop_oneof![-10.0..-1.6_f64, 1.6..6.0_f64], 0.008..0.03, 0.016..0.03)
}

fn telescope(objective: f64, magnification: f64, diameter: f64) -> Telescope {
    Telescope::from_lenses(
        Vergence::from_dioptres(objective),
        Vergence::from_dioptres(-magnification * objective),
        Length::from_m(diameter),
    )
    .expect("such lenses make a telescope")
}

fn eye(sphere: f64) -> Eye {
    Eye {
        sphere: Vergence::from_dioptres(sphere),
        worn: Worn::Distance,
        spectacle_to_eye: Length::from_mm(15.0),
        ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
}

/// `EVP = |M|·F_cap`, wherever the eye is; nothing to focus.
#[test]
fn cap() {
    holds((telescopes(), 1.0..12.0), |((objective, m, diameter, to_eye), cap)| {
        let setting = Setting::Cap { cap: Vergence::from_dioptres(cap) };
        let telescope = telescope(objective, m, diameter);
        let used = aim(&telescope, &eye(0.0), Length::from_m(to_eye), RefractionBy::Glasses, setting)
            .expect("a cap has a focus");
        let evd = used.equivalent_viewing_distance.expect("print has one").m();
        agree("equivalent power", 1.0 / evd, m.abs() * cap)?;
        agree("working distance", used.thing_to_aid.expect("near").m(), 1.0 / cap)?;
        vanishes("demand", used.focus_demand.dioptres(), m.abs() * cap)?;
        shows_its_working(&used)
    });
}

/// The tube meets the refraction: what leaves is what the bare eye needs, and the power follows `M' = M + K/F_o`.
#[test]
fn cap_with_the_refraction_met_by_the_tube() {
    let inputs = (telescopes(), 1.0..12.0, -10.0..10.0_f64);
    holds(inputs, |((objective, m, diameter, to_eye), cap, sphere)| {
        let k = sphere / (1.0 - (0.015 - to_eye) * sphere);
        prop_assume!(k.abs() < 0.6 * (m * objective).abs());
        let setting = Setting::Cap { cap: Vergence::from_dioptres(cap) };
        let eye = Eye { worn: Worn::Nothing, ..eye(sphere) };
        let used = aim(
            &telescope(objective, m, diameter),
            &eye,
            Length::from_m(to_eye),
            RefractionBy::Tube,
            setting,
        );
        let Ok(used) = used else { return Ok(()) };
        let in_use = m + k / objective;
        let evd = used.equivalent_viewing_distance.expect("print has one").m();
        agree("equivalent power", 1.0 / evd, in_use.abs() * cap / (1.0 - to_eye * k))?;
        let relaxed = eye.relaxed_demand().dioptres();
        vanishes("demand", used.focus_demand.dioptres() - relaxed, relaxed.abs().max(m.abs() * cap))?;
        shows_its_working(&used)
    });
}

/// Focused by the tube: `EVP = |M_near|·|U|`, the same as a cap of power |U| on an objective weaker by as much.
#[test]
fn focused_near_by_the_tube() {
    holds((telescopes(), 0.4..5.0), |((objective, m, diameter, to_eye), distance)| {
        let setting = Setting::Tube { thing_to_eye: Length::from_m(distance) };
        let used = aim(
            &telescope(objective, m, diameter),
            &eye(0.0),
            Length::from_m(to_eye),
            RefractionBy::Glasses,
            setting,
        );
        let Ok(used) = used else { return Ok(()) };
        let x = used.thing_to_aid.expect("near").m();
        let near = m * x / (x - 1.0 / objective);
        agree("magnification", used.focused.magnification.times(), near)?;
        let evd = used.equivalent_viewing_distance.expect("near").m();
        agree("equivalent power", 1.0 / evd, near.abs() / x)?;
        agree("where it stands", x + used.focused.length.m() + to_eye, distance)?;
        shows_its_working(&used)
    });
}

/// Far, a telescope makes the detail |M| times larger and the depth, reserve and characters follow.
#[test]
fn far() {
    holds((telescopes(), 2.0..50.0, 0.01..0.3), |((objective, m, diameter, to_eye), distance, height)| {
        let used = aim(
            &telescope(objective, m, diameter),
            &eye(0.0),
            Length::from_m(to_eye),
            RefractionBy::Glasses,
            Setting::Far,
        )
        .expect("afocal");
        prop_assert_eq!(used.equivalent_viewing_distance, None);
        let detail =
            Detail { height: Length::from_m(height), distance: Some(Length::from_m(distance)), reserve: 1.0 };
        let seen = look(&used.arrangement, &eye(0.0), detail).expect("in focus");
        agree("angular", seen.angular.times(), m)?;
        let bare = 2.0 * math::atan(height / 5.0 / distance / 2.0) * 10_800.0 / math::PI;
        agree("detail", seen.detail_seen.arcmin(), bare * m.abs())?;
        agree("reserve", seen.reserve_reached, bare * m.abs() / 10.0)?;
        shows_its_working(&seen)
    });
}

/// Fixed for far with a nearer thing: vergences and images lens by lens, through glasses that the eye wears behind it.
///
/// `U_out = −M²/(x + d·M)` at the eyepiece; every image behind an afocal telescope is `1/M` as large, wherever it is. Left
/// out: an image within a twentieth of the way of falling on the eyepiece, the glasses or the eye, where a vergence has no
/// end.
#[test]
fn fixed_for_far_before_a_near_thing() {
    let inputs = (telescopes(), any::<bool>(), 0.3..20.0, -8.0..8.0_f64);
    holds(inputs, |((objective, m, diameter, to_eye), is_reversed, distance, sphere)| {
        let forwards = telescope(objective, m, diameter);
        let (telescope, m): (Telescope, f64) = if is_reversed {
            let lenses = Telescope::from_lenses(forwards.eyepiece, forwards.objective, Length::from_mm(12.0));
            (lenses.expect("the same tube"), 1.0 / m)
        } else {
            (forwards, m)
        };
        let tube: f64 = (1.0 - 1.0 / m) / telescope.objective.dioptres();
        let (x, v): (f64, f64) = (distance - tube - to_eye, 0.015);
        prop_assume!(0.01 < x);
        prop_assume!(0.05 < (1.0 + tube * m / x).abs());
        let leaving = -m * m / (x + tube * m);
        prop_assume!(0.05 < (1.0 - (to_eye - v) * leaving).abs());
        let at_glasses = leaving / (1.0 - (to_eye - v) * leaving);
        let behind_glasses = at_glasses + sphere;
        prop_assume!(0.05 < (1.0 - v * behind_glasses).abs());
        let setting = Setting::FixedFar { thing_to_eye: Length::from_m(distance) };
        let eye = eye(sphere);
        let used = aim(&telescope, &eye, Length::from_m(to_eye), RefractionBy::Glasses, setting)
            .expect("longer away than the telescope is long");
        agree("room before the objective", used.thing_to_aid.expect("near").m(), x)?;
        let scale = at_glasses.abs() + sphere.abs();
        let demand = -behind_glasses / (1.0 - v * behind_glasses);
        vanishes("demand", used.focus_demand.dioptres() - demand, scale / (1.0 - v * behind_glasses).abs())?;
        // Telescope and glasses make the image `1/m · L/L'` as large; it lies 1/L' before the glasses.
        let evd = (m * (1.0 - v * behind_glasses) / at_glasses).abs();
        agree("equivalent distance", used.equivalent_viewing_distance.expect("near").m(), evd)?;
        let through = used.through_far.expect("no refraction is met by the tube");
        agree("at the eyepiece", through.at_eyepiece.dioptres(), leaving)?;
        let detail =
            Detail { height: Length::from_mm(20.0), distance: Some(Length::from_m(distance)), reserve: 1.0 };
        let seen = look(&used.arrangement, &eye, detail).expect("it can be viewed");
        agree("angular", seen.angular.size(), distance / evd)?;
        shows_its_working(&used)?;
        shows_its_working(&seen)
    });
}

/// The farther the thing, the more a telescope fixed for far is as for far.
#[test]
fn fixed_for_far_before_a_very_far_thing() {
    holds(telescopes(), |(objective, m, diameter, to_eye)| {
        let telescope = telescope(objective, m, diameter);
        let fixed = Setting::FixedFar { thing_to_eye: Length::from_m(1e9) };
        let [near, far] = [fixed, Setting::Far].map(|setting| {
            aim(&telescope, &eye(0.0), Length::from_m(to_eye), RefractionBy::Glasses, setting)
                .expect("afocal")
        });
        prop_assert_eq!(&near.focused, &far.focused);
        prop_assert!(near.focus_demand.dioptres() < 1e-6, "parallel: {:?}", near.focus_demand);
        let times = 1e9 / near.equivalent_viewing_distance.expect("it has one").m();
        prop_assert!((times - m.abs()).abs() < 1e-6, "{} and {}", times, m);
        Ok(())
    });
}

/// Looked through from its other end a telescope has the reciprocal magnification and the same length.
#[test]
fn reversed() {
    holds((telescopes(), 2.0..20.0), |((objective, m, diameter, to_eye), own_field)| {
        let forwards = telescope(objective, m, diameter);
        let backwards = Telescope::from_lenses(forwards.eyepiece, forwards.objective, Length::from_mm(12.0))
            .expect("the same tube");
        let afocal = backwards.afocal();
        agree("magnification", afocal.magnification.times(), 1.0 / m)?;
        agree("length", afocal.length.m(), forwards.afocal().length.m())?;
        let used = aim(&backwards, &eye(0.0), Length::from_m(to_eye), RefractionBy::Glasses, Setting::Far)
            .expect("afocal");
        vanishes("demand", used.focus_demand.dioptres(), 1.0)?;
        let gain = field_gain(afocal.magnification, Angle::from_degrees(own_field)).expect("smaller");
        let tangent = math::tan(own_field * math::PI / 360.0) * m.abs();
        agree("extent", gain.seen_extent.radians(), 2.0 * math::atan(tangent))?;
        agree("loss", gain.acuity_loss.log(), math::log10(m.abs()))?;
        shows_its_working(&gain)
    });
}

/// `M = 1/(1 − D·F)`, demand `−F/(1 − D·F)`; glasses that fit the eye change the demand, not the gain at the glasses.
#[test]
fn minus_lens() {
    holds((-20.0..-0.5, 0.0..0.6, 0.0..0.02), |(power, z, v)| {
        let bare = Eye { spectacle_to_eye: Length::from_m(v), ..eye(0.0) };
        let held =
            hold_minus(Vergence::from_dioptres(power), Length::from_mm(80.0), &bare, Length::from_m(z))
                .expect("a minus lens");
        let distance = z + v;
        agree("magnification", held.magnification.times(), 1.0 / (1.0 - distance * power))?;
        agree("demand", held.focus_demand.dioptres(), -power / (1.0 - distance * power))?;
        shows_its_working(&held)
    });
}

/// Stronger or farther away, a minus lens makes things smaller.
#[test]
fn minus_lens_is_monotone() {
    holds((-20.0..-0.5, 0.01..0.6, 1.01..2.0, -6.0..6.0), |(power, z, factor, sphere)| {
        let times = |power: f64, z: f64| {
            hold_minus(Vergence::from_dioptres(power), Length::from_mm(80.0), &eye(sphere), Length::from_m(z))
                .expect("a minus lens")
                .magnification
        };
        let now = times(power, z);
        prop_assert!(times(power * factor, z) < now, "stronger");
        prop_assert!(times(power, z * factor) < now, "farther away");
        prop_assert!(now < Magnification::from_times(1.0), "smaller than without");
        Ok(())
    });
}
