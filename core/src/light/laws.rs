//! Laws of light over random inputs.

#![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]

use super::filter::{
    Category, Driving, SAMPLES, Spectrum, Stack, Tint, behind, coated, coloured_stack, uncoated,
};
use super::*;
use crate::error::Error;
use crate::explain::Explain;
use crate::math::{PI, abs, log10, pow, sqrt};
use crate::unit::{Age, Angle, Illuminance, Length, Luminance, LuminousIntensity, SquareDegrees};
use alloc::vec::Vec;
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;

const CASES: u32 = crate::cases::cases(20_000);

fn ok<T>(result: Result<T, Error>) -> Result<T, TestCaseError> {
    result.map_err(|error| TestCaseError::fail(alloc::format!("{error}")))
}

fn shows_its_working(result: &dyn Explain) -> Result<(), TestCaseError> {
    for step in result.steps() {
        step.check().map_err(TestCaseError::fail)?;
    }
    Ok(())
}

fn same(one: f64, other: f64) -> bool {
    abs(one - other) <= 1e-12 * abs(other)
}

/// Over several powers of ten, each as likely.
fn spread(least: f64, greatest: f64) -> impl Strategy<Value = f64> {
    (log10(least)..=log10(greatest)).prop_map(|power| pow(10.0, power))
}

fn transmittance() -> impl Strategy<Value = f64> {
    prop_oneof![0.03..=1.0_f64, (3_u8..=100).prop_map(|percent| f64::from(percent) / 100.0)]
}

fn spectrum() -> impl Strategy<Value = Spectrum> {
    let rough = prop::collection::vec(0.01..=1.0_f64, SAMPLES);
    let sharp = (380.0..700.0_f64, any::<bool>()).prop_map(|(cut, long)| {
        let side = move |wavelength: Length| if (cut <= wavelength.m() * 1e9) == long { 0.95 } else { 0.01 };
        wavelengths_of(side)
    });
    prop_oneof![rough, sharp].prop_map(|samples| {
        let samples = <[f64; SAMPLES]>::try_from(samples).expect("as many as asked");
        Spectrum::from_samples(samples).expect("shares of light")
    })
}

fn wavelengths_of(curve: impl Fn(Length) -> f64) -> Vec<f64> {
    filter::wavelengths().map(curve).collect()
}

/// Luminance, area in square degrees, years.
fn field() -> impl Strategy<Value = (f64, f64, f64)> {
    (spread(1e-3, 1e5), spread(0.05, 2e4), 20.0..=83.0_f64)
}

fn at(luminance: f64, area: f64, years: f64, eyes: Eyes) -> Result<Pupil, TestCaseError> {
    ok(pupil(
        Luminance::from_candela_per_m2(luminance),
        SquareDegrees::from_square_degrees(area),
        Age::from_years(years),
        eyes,
    ))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: CASES, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_lamp_twice_as_far_gives_a_quarter((candela, metres, degrees) in (0.1..1e4_f64, 0.05..10.0_f64, 0.0..=89.0_f64)) {
        let lit = |candela, metres, degrees| {
            let (distance, angle) = (Length::from_m(metres), Angle::from_degrees(degrees));
            ok(from_lamp(LuminousIntensity::from_candela(candela), distance, angle, Length::from_cm(1.0)))
        };
        let one = lit(candela, metres, degrees)?;
        prop_assert!(same(lit(candela, 2.0 * metres, degrees)?.illuminance.lux() * 4.0, one.illuminance.lux()));
        prop_assert!(same(lit(2.0 * candela, metres, degrees)?.illuminance.lux(), 2.0 * one.illuminance.lux()));
        let slanted = lit(candela, metres, degrees + 0.5)?;
        prop_assert!(slanted.illuminance < one.illuminance, "slanted light is less");
        prop_assert!(one.illuminance <= lit(candela, metres, 0.0)?.illuminance);
        prop_assert_eq!(one.rule_holds, 0.05 < metres);
        shows_its_working(&one)?;
    }

    #[test]
    fn a_page_sends_back_no_more_than_falls_on_it(lux in 0.0..2e5_f64, share in 0.0..=1.0_f64) {
        let page = ok(page_light(Illuminance::from_lux(lux), share))?;
        // All of the light that leaves a matt page is π times its luminance.
        prop_assert!(page.luminance.candela_per_m2() * PI <= lux * (1.0 + 1e-12));
        prop_assert!(abs(page.luminance.candela_per_m2() * PI - share * lux) <= 1e-12 * lux);
        shows_its_working(&page)?;
    }

    /// The widest and the narrowest pupil any input can give are 7.75 and 2 mm at the reference age.
    #[test]
    fn pupil_narrows_with_light_area_and_eyes((luminance, area, years) in field(), more in 1.01..10.0_f64) {
        let found = at(luminance, area, years, Eyes::Two)?;
        let brighter = at((luminance * more).min(1e6), area, years, Eyes::Two)?;
        prop_assert!(brighter.diameter < found.diameter, "brighter is narrower");
        prop_assert!(found.on_retina < brighter.on_retina, "and yet more light gets in");
        let larger = at(luminance, (area * more).min(26_000.0), years, Eyes::Two)?;
        prop_assert!(larger.diameter < found.diameter, "a larger field is narrower");
        let one = at(luminance, area, years, Eyes::One)?;
        prop_assert!(found.diameter < one.diameter, "one eye is wider");
        let tenth = at(luminance / 10.0, area, years, Eyes::Two)?;
        prop_assert!(abs(one.diameter.mm() - tenth.diameter.mm()) < 1e-12, "one eye counts a tenth");
        prop_assert!((2.0..=7.75).contains(&found.at_reference_age.mm()), "{}", found.at_reference_age.mm());
        prop_assert!((1.9..=8.2).contains(&found.diameter.mm()), "{}", found.diameter.mm());
        shows_its_working(&found)?;
        shows_its_working(&one)?;
    }

    /// Narrower with age while `D_SD` is above 0.02132/0.009562 = 2.23 mm, and the other way below.
    #[test]
    fn pupil_narrows_with_age_unless_it_is_very_bright((luminance, area, years) in field(), later in 0.1..10.0_f64) {
        let later = (years + later).min(83.0);
        let (young, old) = (at(luminance, area, years, Eyes::Two)?, at(luminance, area, later, Eyes::Two)?);
        prop_assert_eq!(young.at_reference_age, old.at_reference_age);
        let turn = 0.02132 / 0.009562;
        let width = young.at_reference_age.mm();
        if years < later && 1e-6 < abs(width - turn) {
            prop_assert_eq!(old.diameter < young.diameter, turn < width, "{} mm at the reference age", width);
        }
        let reference = at(luminance, area, 28.58, Eyes::Two)?;
        prop_assert!(abs(reference.diameter.mm() - width) < 1e-12, "at the reference age itself");
    }

    /// The same formula with one fraction, worked out from the parts by algebra.
    #[test]
    fn pupil_by_one_fraction((luminance, area, years) in field()) {
        let found = at(luminance, area, years, Eyes::Two)?;
        let (f, k) = (pow(luminance * area, 0.41), pow(846.0, -0.41));
        let aged = years - 28.58;
        let above = 15.5 * (1.0 - 0.009562 * aged) + 2.0 * 0.02132 * aged
            + f * k * (2.0 * (1.0 - 0.009562 * aged) + 0.02132 * aged);
        prop_assert!(same(found.diameter.mm(), above / (2.0 + k * f)), "{} mm", found.diameter.mm());
    }

    #[test]
    fn categories_are_total_and_in_order(one in transmittance(), other in transmittance()) {
        let (first, second) = (ok(Tint::of(one))?, ok(Tint::of(other))?);
        // Darker than any category comes last.
        let rank = |tint: &Tint| tint.category.map_or(5, Category::number);
        if one <= other {
            prop_assert!(rank(&second) <= rank(&first), "{other} is darker than {one}");
            prop_assert!(second.driving <= first.driving, "{other} is worse for driving than {one}");
        }
        prop_assert_eq!(first.category.is_none(), one <= 0.03);
        prop_assert_eq!(first.driving == Driving::NotLimitedByDarkness, 0.75 <= one);
        if let Some(category) = first.category {
            prop_assert!(category.above() < one, "the edge is the darker one's");
        }
        shows_its_working(&first)?;
    }

    #[test]
    fn grey_filters_commute_and_only_darken(filters in prop::collection::vec(0.2..=1.0_f64, 1..=6)) {
        let stack = ok(Stack::of(&filters))?;
        let back: Vec<f64> = filters.iter().rev().copied().collect();
        let backwards = ok(Stack::of(&back))?;
        prop_assert!(same(backwards.together.transmittance, stack.together.transmittance));
        for &filter in &filters {
            prop_assert!(stack.together.transmittance <= filter, "never above any of them");
        }
        let mut density = 0.0;
        for &filter in &filters {
            density += ok(Tint::of(filter))?.density;
        }
        prop_assert!(abs(stack.together.density - density) < 1e-12, "densities add up");
        let spectra: Result<Vec<Spectrum>, Error> =
            filters.iter().map(|&filter| Spectrum::from_curve(|_| filter)).collect();
        let coloured = ok(coloured_stack(&ok(spectra)?))?;
        prop_assert!(same(coloured.together.transmittance, stack.together.transmittance), "grey is its product");
        prop_assert!(same(coloured.product, stack.together.transmittance));
        let seen = ok(behind(Luminance::from_candela_per_m2(100.0), stack.together.transmittance))?;
        prop_assert!(same(seen.at_eye.candela_per_m2(), 100.0 * stack.together.transmittance));
        shows_its_working(&stack)?;
        shows_its_working(&seen)?;
    }

    #[test]
    fn coloured_filters_commute_and_only_darken(one in spectrum(), other in spectrum(), grey in 0.1..=1.0_f64) {
        let there = ok(coloured_stack(&[one, other]))?;
        let back = ok(coloured_stack(&[other, one]))?;
        prop_assert_eq!(there.spectrum, back.spectrum);
        let together = there.together.transmittance;
        let (first, second) = (one.luminous_transmittance(), other.luminous_transmittance());
        prop_assert!(together <= first.min(second) * (1.0 + 1e-12), "never above any of them");
        // What is missing behind both is at most what each takes.
        prop_assert!(first + second - 1.0 <= together + 1e-12);
        prop_assert!(same(there.product, first * second));
        let dimmed = ok(coloured_stack(&[one, ok(Spectrum::from_curve(|_| grey))?]))?;
        prop_assert!(same(dimmed.together.transmittance, first * grey), "a grey one dims by its share");
        prop_assert!(first * first <= ok(coloured_stack(&[one, one]))?.together.transmittance * (1.0 + 1e-12),
            "two alike let through at least their product");
    }

    #[test]
    fn surfaces_multiply(index in 1.0..2.0_f64, few in 0..20_u8, more in 0..20_u8) {
        let all = ok(uncoated(index, few + more))?;
        let (one, other) = (ok(uncoated(index, few))?, ok(uncoated(index, more))?);
        prop_assert!(same(all.transmittance, one.transmittance * other.transmittance));
        let root = (1.0 - sqrt(all.reflection)) / (1.0 + sqrt(all.reflection));
        prop_assert!(abs(root * index - 1.0) < 1e-7, "the index comes back from the reflection");
        let known = ok(coated(all.reflection, few))?;
        prop_assert_eq!(known.transmittance, one.transmittance);
        shows_its_working(&all)?;
        shows_its_working(&known)?;
    }

    #[test]
    fn the_next_step_is_above_and_near(lux in 0.0..6000.0_f64) {
        match next_step(Illuminance::from_lux(lux)) {
            Some(next) => {
                prop_assert!(lux < next.lux());
                prop_assert!(!SCALE_LUX.iter().any(|step| lux * (1.0 + 1e-9) < *step && *step < next.lux()));
            }
            None => prop_assert!(5000.0 <= lux * (1.0 + 1e-9)),
        }
    }
}
