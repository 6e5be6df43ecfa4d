//! Stand magnifiers: engine against `L' = F − 1/u`, `EVD = (z + v)/ER` and what follows.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::device::{
    Detail, Eye, MagnifierLabel, StandData, StandMagnifier, StandOptics, VariableStand, Worn, focus_stand,
    height_for_image, look, magnifier_labels, misread_height, place_stand, stand_for_add, stand_optics,
};
use arcminute_core::unit::{Length, LogMar, Vergence};
use proptest::prelude::*;

fn d(value: f64) -> Vergence {
    Vergence::from_dioptres(value)
}
fn metres(value: f64) -> Length {
    Length::from_m(value)
}

/// Power in dioptres and height in metres of a fixed stand.
fn stands() -> impl Strategy<Value = (f64, f64)> {
    (6.0..60.0, 0.15..0.98).prop_map(|(power, share)| (power, share / power))
}

fn nominal(power: f64, height: f64) -> StandOptics {
    let data = StandData::Nominal { power: d(power), print_to_lens: metres(height) };
    stand_optics(data).expect("the page is inside the focus")
}

fn eye(sphere: f64, worn: Worn, to_eye: f64) -> Eye {
    Eye {
        sphere: d(sphere),
        worn,
        spectacle_to_eye: metres(to_eye),
        ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
}

fn magnifier(optics: StandOptics, clear_diameter: f64) -> StandMagnifier {
    StandMagnifier { optics, clear_diameter: metres(clear_diameter), transmittance: 0.9 }
}

/// `L' = F − 1/u`, `v = −1/L'`, and the three forms of the enlargement.
#[test]
fn image_and_enlargement_of_a_fixed_stand() {
    holds(stands(), |(power, u)| {
        let stand = nominal(power, u);
        let leaving = power - 1.0 / u;
        let v = -1.0 / leaving;
        let image = stand.image.expect("inside the focus");
        agree("emergent vergence", stand.emergent_vergence.dioptres(), leaving)?;
        agree("image", image.to_lens.m(), v)?;
        agree("v/u", image.enlargement, v / u)?;
        agree("1/(1 − uF)", image.enlargement, 1.0 / (1.0 - u * power))?;
        agree("1 + vF", image.enlargement, 1.0 + v * power)?;
        agree("(L' − F)/L'", image.enlargement, (leaving - power) / leaving)?;
        shows_its_working(&stand)
    });
}

/// What is measured on a nominal stand gives that stand back, by each way of measuring.
#[test]
fn measured_and_nominal_are_inverse() {
    holds(stands(), |(power, u)| {
        let stand = nominal(power, u);
        let image = stand.image.expect("inside the focus");
        for data in [
            StandData::ImagePlace { enlargement: image.enlargement, image_to_lens: image.to_lens },
            StandData::EmergentVergence {
                enlargement: image.enlargement,
                emergent_vergence: stand.emergent_vergence,
            },
            StandData::PowerAndEnlargement { power: d(power), enlargement: image.enlargement },
        ] {
            let measured = stand_optics(data).expect("it was measured");
            agree("power", measured.power.dioptres(), power)?;
            agree("height", measured.print_to_lens.m(), u)?;
            agree("vergence", measured.emergent_vergence.dioptres(), stand.emergent_vergence.dioptres())?;
            let again = measured.image.expect("inside the focus");
            agree("enlargement", again.enlargement, image.enlargement)?;
            agree("image", again.to_lens.m(), image.to_lens.m())?;
            shows_its_working(&measured)?;
        }
        Ok(())
    });
}

/// `EVD = (z + v)/ER`, `A = 1/(z + v)`, `EVP = ER·A = F + A − zFA`.
#[test]
fn worth_at_an_eye_distance() {
    holds((stands(), 0.0..0.6), |((power, u), z)| {
        let seen = nominal(power, u).seen_from(metres(z)).expect("an eye behind the lens");
        let v = u / (1.0 - u * power);
        let (enlargement, demand) = (v / u, 1.0 / (z + v));
        let evp = seen.equivalent_viewing_power.dioptres();
        agree("EVD", seen.equivalent_viewing_distance.m(), (z + v) / enlargement)?;
        agree("demand", seen.focus_demand.dioptres(), demand)?;
        agree("ER times A", evp, enlargement * demand)?;
        agree("F + A − zFA", evp, power + demand - z * power * demand)?;
        agree("actual", seen.actual, 0.25 * evp)?;
        agree("share", seen.share_of_nominal, 0.25 * evp / (power / 4.0))?;
        shows_its_working(&seen)
    });
}

/// At one focal length the power is that of the lens wherever the image is; nearer more, farther off less.
#[test]
fn power_falls_with_eye_distance_through_that_of_the_lens() {
    holds((stands(), 0.0..0.5, 0.001..0.2), |((power, u), z, step)| {
        let stand = nominal(power, u);
        let at = |z: f64| stand.seen_from(metres(z)).expect("an eye behind the lens");
        agree("at one focal length", at(1.0 / power).equivalent_viewing_power.dioptres(), power)?;
        let (near, far) = (at(z), at(z + step));
        prop_assert!(far.equivalent_viewing_power < near.equivalent_viewing_power, "{near:?} {far:?}");
        prop_assert!(far.focus_demand < near.focus_demand, "{near:?} {far:?}");
        let nearer_than_focus = z < 1.0 / power;
        prop_assert_eq!(d(power) < near.equivalent_viewing_power, nearer_than_focus, "{:?}", near);
        Ok(())
    });
}

/// Behind glasses: the image is a thing `z + v` before them.
#[test]
fn before_an_eye_and_its_glasses() {
    let inputs = (stands(), 0.0..0.45, 0.0..0.03, -10.0..10.0, 0.0..6.0, any::<bool>());
    holds(inputs, |((power, u), z, s, sphere, add, bare)| {
        let worn = if bare { Worn::Nothing } else { Worn::Near { add: d(add) } };
        let used = place_stand(magnifier(nominal(power, u), 0.04), &eye(sphere, worn, s), metres(z))
            .expect("an eye behind the lens");
        let glasses = if bare { 0.0 } else { sphere + add };
        let v = u / (1.0 - u * power);
        // Vergence of the image at the glasses, through them, and on to the eye.
        let arriving = -1.0 / (z + v) + glasses;
        prop_assume!(0.02 < (1.0 - s * arriving).abs());
        let size_through_glasses = (z + v) * (1.0 - s * arriving);
        agree("EVD", used.equivalent_viewing_distance.m(), size_through_glasses.abs() * u / v)?;
        vanishes("demand", used.focus_demand.dioptres() + arriving / (1.0 - s * arriving), 1.0 / (z + v))?;
        prop_assume!(1e-3 < used.focus_demand.dioptres().abs());
        shows_its_working(&used)
    });
}

/// An addition has one distance at which it is right: there nothing is left to focus, and `EVP = ER·A`.
#[test]
fn an_addition_at_its_distance() {
    let inputs = (stands(), 0.02..1.0, 0.0..0.03).prop_map(|((power, u), share, s)| (power, u, share, s));
    holds(inputs, |(power, u, share, s)| {
        let stand = nominal(power, u);
        let v = u / (1.0 - u * power);
        let add = share / v;
        prop_assume!(add < 40.0 && 1.0 / add - v < 2.0);
        let together = stand.with_add(d(add)).expect("not too strong");
        vanishes("distance", together.lens_to_add.m() - (1.0 / add - v), 1.0 / add)?;
        agree("EVP", together.equivalent_viewing_power.dioptres(), v / u * add)?;
        shows_its_working(&together)?;
        let worn = eye(0.0, Worn::Near { add: d(add) }, s);
        let used = place_stand(magnifier(stand, 0.04), &worn, together.lens_to_add.max(Length::ZERO))
            .expect("an eye behind the lens");
        vanishes("demand", used.focus_demand.dioptres(), add)?;
        agree("EVP in use", used.equivalent_viewing_power.dioptres(), v / u * add)?;
        let wanted = d(v / u * add);
        if wanted < d(120.0) {
            let design = stand_for_add(d(add), wanted, metres(v)).expect("such a stand exists");
            agree("power", design.power.dioptres(), power)?;
            agree("height", design.print_to_lens.m(), u)?;
            agree("enlargement", design.enlargement, v / u)?;
            shows_its_working(&design)?;
        }
        Ok(())
    });
}

/// Too strong an addition cannot be used at any distance, and is refused.
#[test]
fn too_strong_an_addition_is_refused() {
    holds((stands(), 1.001..3.0), |((power, u), times)| {
        let v = u / (1.0 - u * power);
        let stand = nominal(power, u);
        prop_assert!(stand.with_add(d(times / v)).is_err(), "the image is {v} m below the lens");
        prop_assert!(stand_for_add(d(times / v), d(119.0), metres(v)).is_err(), "the same by design");
        Ok(())
    });
}

/// A taller stand: image farther, larger, and the more so the nearer the page is to the focus.
#[test]
fn a_taller_stand_moves_the_image_away() {
    holds((stands(), 0.001..0.3), |((power, u), share)| {
        let most = (1.0 / power - u).min(u - 1e-4);
        let misread = misread_height(d(power), metres(u), metres(share * most)).expect("inside the focus");
        let image = |stand: StandOptics| stand.image.expect("inside the focus");
        let [below, at, above] = [misread.shorter, misread.as_read, misread.taller].map(image);
        prop_assert!(below.to_lens < at.to_lens && at.to_lens < above.to_lens, "{misread:?}");
        prop_assert!(at.to_lens - below.to_lens < above.to_lens - at.to_lens, "{misread:?}");
        prop_assert!(below.enlargement < at.enlargement && at.enlargement < above.enlargement, "{misread:?}");
        prop_assert!(at.enlargement - below.enlargement < above.enlargement - at.enlargement, "{misread:?}");
        Ok(())
    });
}

/// `u = v/(1 + vF)`; a stand set to it shows the image there.
#[test]
fn the_height_for_an_image() {
    holds((2.0..60.0, 0.02..50.0), |(power, v)| {
        let height = height_for_image(d(power), Some(metres(v))).expect("always one");
        agree("height", height.m(), v / (1.0 + v * power))?;
        prop_assert!(height < height_for_image(d(power), None).expect("always one"), "below the focus");
        agree("image", nominal(power, height.m()).image.expect("inside the focus").to_lens.m(), v)
    });
}

/// A stand that can be set takes over the refraction that is not worn: `A = −K` at the eye, and nothing is left.
#[test]
fn a_variable_stand_takes_over_the_refraction() {
    let inputs = (10.0..60.0, -15.0..8.0, 0.0..0.02, 0.0..0.1, 0.0..6.0);
    holds(inputs, |(power, sphere, s, z, accommodation)| {
        let ametropia = sphere / (1.0 - s * sphere);
        let demand = accommodation - ametropia;
        let z_to_eye = z + s;
        // F + A − zFA = 1/EVD; u = (1 − zA)/EVP.
        let evp = power + demand - z_to_eye * power * demand;
        let height = (1.0 - z_to_eye * demand) / evp;
        prop_assume!(1e-3 < evp && 1e-4 < height && height < 10.0);
        let stand = VariableStand {
            power: d(power),
            lowest: Length::ZERO,
            highest: metres(11.0),
            clear_diameter: metres(0.04),
            transmittance: 1.0,
        };
        let used = focus_stand(stand, &eye(sphere, Worn::Nothing, s), metres(z), d(accommodation))
            .expect("it can be set to any height");
        vanishes(
            "height",
            used.stand.optics.print_to_lens.m() - height,
            (1.0 + z_to_eye * demand.abs()) / evp,
        )?;
        vanishes("demand", used.focus_demand.dioptres() - demand, 1.0 + demand.abs() + evp)?;
        Ok(())
    });
}

/// `w = d·EVD/z` with the equivalent viewing distance of the stand.
#[test]
fn field_of_a_stand() {
    holds((stands(), 0.03..0.4, 0.02..0.08), |((power, u), z, diameter)| {
        let person = eye(0.0, Worn::Distance, 0.0);
        let used = place_stand(magnifier(nominal(power, u), diameter), &person, metres(z))
            .expect("an eye behind the lens");
        let print = Detail { height: Length::from_mm(1.45), distance: None, reserve: 1.0 };
        let seen = look(&used.arrangement, &person, print).expect("an image to view");
        let v = u / (1.0 - u * power);
        // The pupil of 4 mm fits the lens as the eye sees it, or half of the light is half of less.
        prop_assume!(0.004 * v / (v + z) < diameter);
        agree("width", seen.widths.expect("a rim").half.m(), diameter * (z + v) * u / v / z)
    });
}

/// `F/4`, `F/4 + 1`, `F/2.5`, and `EVP/4` as used; each leads back to the power.
#[test]
fn labels() {
    holds((1.0..100.0, 1.0..100.0), |(power, used)| {
        let labels = magnifier_labels(d(power), d(used));
        agree("nominal", labels.nominal.times(), power * 0.25)?;
        agree("conventional", labels.conventional.times(), 1.0 + power * 0.25)?;
        agree("at 40 cm", labels.at_40_cm.times(), power * 0.4)?;
        agree("actual", labels.actual.times(), used * 0.25)?;
        for label in MagnifierLabel::ALL {
            agree("back", label.power(label.of(d(power))).expect("a magnifier").dioptres(), power)?;
        }
        shows_its_working(&labels)
    });
}
