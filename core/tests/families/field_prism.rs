//! Prisms for the field: shift, blind band and gain against plain trigonometry, and the exact turn.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::device::{FieldPrism, FieldPrismInUse, FieldPrismKind, field_on_lens};
use arcminute_core::math;
use arcminute_core::unit::{Angle, Length, Prism};
use proptest::prelude::*;

fn kinds() -> impl Strategy<Value = FieldPrismKind> {
    prop::sample::select(FieldPrismKind::ALL.to_vec())
}

fn used(kind: FieldPrismKind, rated: f64, gaze: bool, metres: f64, incidence: f64) -> FieldPrismInUse {
    let aid = FieldPrism {
        kind,
        rated: Prism::from_prism_dioptres(rated),
        index: 1.49,
        lens_to_pivot: Length::from_mm(20.0),
    };
    aid.shift_field(gaze, Length::from_m(metres), Angle::from_degrees(incidence)).expect("possible")
}

#[test]
fn shift_band_and_gain() {
    let inputs = (kinds(), 0.5..60.0, any::<bool>(), 0.1..100.0, -45.0..45.0_f64);
    holds(inputs, |(kind, rated, gaze, metres, incidence): (_, f64, _, _, _)| {
        let seen = used(kind, rated, gaze, metres, incidence);
        let shift = math::atan(rated / 100.0).to_degrees();
        agree("shift", seen.shift.degrees(), shift)?;
        agree("aside", seen.displacement.m(), metres * rated / 100.0)?;
        agree("band", seen.blind_band.degrees(), shift)?;
        agree("on the lens", seen.blind_band_on_lens.mm(), 20.0 * rated / 100.0)?;
        let gains = match kind {
            FieldPrismKind::FullYoked => false,
            FieldPrismKind::Sector => gaze,
            FieldPrismKind::Peripheral => true,
        };
        agree("gained", seen.gained.degrees(), if gains { shift } else { 0.0 })?;
        prop_assert!(seen.gained <= seen.blind_band, "no more is gained than is lost at the apex: {seen:?}");
        shows_its_working(&seen)
    });
}

/// A stronger prism moves farther and blinds more; a farther thing is moved by more and by the same angle.
#[test]
fn stronger_and_farther() {
    holds(
        (0.5..50.0, 0.1..9.0, 0.2..20.0, 1.01..4.0),
        |(rated, more, metres, times): (f64, f64, f64, f64)| {
            let kind = FieldPrismKind::Peripheral;
            let one = used(kind, rated, false, metres, 0.0);
            let stronger = used(kind, rated + more, false, metres, 0.0);
            prop_assert!(one.shift < stronger.shift && one.blind_band_on_lens < stronger.blind_band_on_lens);
            prop_assert!(one.displacement < stronger.displacement && one.gained < stronger.gained);
            let farther = used(kind, rated, false, metres * times, 0.0);
            agree("aside", farther.displacement / one.displacement, times)?;
            prop_assert_eq!(farther.shift, one.shift);
            Ok(())
        },
    );
}

/// Light that meets the prism as it was rated is turned as it was rated; from the side of the apex more.
#[test]
fn exact_turn_and_rating() {
    holds((0.5..60.0, 0.1..10.0), |(rated, degrees): (f64, f64)| {
        let at = |incidence| used(FieldPrismKind::Sector, rated, true, 1.0, incidence);
        let turned = at(0.0).turned.expect("it was rated so");
        vanishes("deviation", (turned.deviation - at(0.0).shift).degrees(), 1.0)?;
        agree("power", turned.power.prism_dioptres(), rated)?;
        // Reflected inside, the strongest of turns, counts as more.
        if let Some(steep) = at(-degrees).turned {
            prop_assert!(turned.deviation < steep.deviation, "{rated} at -{degrees}: {steep:?}");
        }
        Ok(())
    });
}

/// The place on a lens grows faster than the angle, and is its small-angle form near the line of sight.
#[test]
fn places_on_a_lens() {
    holds((0.01..40.0, 8.0..60.0, 1.01..2.0), |(degrees, pivot, times): (f64, f64, f64)| {
        let at = |degrees| field_on_lens(Angle::from_degrees(degrees), Length::from_mm(pivot));
        agree("place", at(degrees).mm(), pivot * math::tan(degrees.to_radians()))?;
        prop_assert!(times < at(degrees * times) / at(degrees), "{degrees} times {times}");
        let small = at(1e-6).mm();
        prop_assert!((small / (pivot * 1e-6_f64.to_radians()) - 1.0).abs() < 1e-9, "near the line of sight");
        Ok(())
    });
}
