//! Filters and surfaces of lenses, against published and computed values.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::light::filter::{
    COATINGS, Category, Driving, Spectrum, Stack, Tint, behind, coated, coloured_stack, uncoated,
};
use arcminute_core::unit::{Length, Luminance};

/// Source: EN ISO 12312-1:2013 (as given by the College of Optometrists): the darker category has the edge.
#[test]
fn edges_of_the_categories() -> Result<(), Error> {
    for (percent, number) in [
        (100.0, Some(0)),
        (80.1, Some(0)),
        (80.0, Some(1)),
        (43.1, Some(1)),
        (43.0, Some(2)),
        (18.1, Some(2)),
        (18.0, Some(3)),
        (8.1, Some(3)),
        (8.0, Some(4)),
        (3.1, Some(4)),
        (3.0, None),
        (1.0, None),
    ] {
        assert_eq!(Category::of(percent / 100.0)?.map(Category::number), number, "{percent} %");
    }
    Ok(())
}

/// Source: EN ISO 12312-1:2013 (as given by the College of Optometrists), stacks computed; case 20 among them.
#[test]
fn near_case_20_stacks_of_grey_filters() -> Result<(), Error> {
    for (filters, printed, number, driving) in [
        ([0.85, 0.92], "0.782", 1, Driving::NotLimitedByDarkness),
        ([0.75, 0.80], "0.60", 1, Driving::NotAtTwilightOrNight),
        ([0.40, 0.50], "0.20", 2, Driving::NotAtTwilightOrNight),
        ([0.15, 0.60], "0.09", 3, Driving::NotAtTwilightOrNight),
        ([0.15, 0.40], "0.06", 4, Driving::NotForDriving),
    ] {
        let stack = Stack::of(&filters)?.together;
        rounds_to(stack.transmittance, printed);
        assert_eq!(stack.category.map(Category::number), Some(number), "{filters:?}");
        assert_eq!(stack.driving, driving, "{filters:?}");
    }
    assert_eq!(Tint::of(0.80)?.category, Some(Category::One), "a single 80 %");
    assert_eq!(Tint::of(0.75)?.driving, Driving::NotLimitedByDarkness, "75 % itself is not below");
    rounds_to(Tint::of(0.5)?.density, "0.301");
    rounds_to(behind(Luminance::from_candela_per_m2(1000.0), 0.782)?.at_eye.candela_per_m2(), "782.0");
    Ok(())
}

/// Source: reflection at a surface, computed: index, percent at a surface, and what surfaces leave.
#[test]
fn uncoated_surfaces() -> Result<(), Error> {
    for (index, percent) in [(1.50, "4.00"), (1.523, "4.30"), (1.586, "5.13"), (1.67, "6.30")] {
        rounds_to(100.0 * uncoated(index, 1)?.reflection, percent);
    }
    for (surfaces, left) in [(2, "0.922"), (4, "0.849"), (8, "0.721"), (10, "0.665"), (12, "0.613")] {
        rounds_to(uncoated(1.5, surfaces)?.transmittance, left);
    }
    Ok(())
}

/// Source: typical coatings from memory, 1.5 % and 0.5 % at a surface; what they leave computed.
#[test]
fn coated_surfaces() -> Result<(), Error> {
    let printed = [["0.941", "0.886", "0.860", "0.834"], ["0.980", "0.961", "0.951", "0.942"]];
    assert_eq!(COATINGS.len(), printed.len());
    for (coating, row) in COATINGS.iter().zip(printed) {
        for (surfaces, left) in [4, 8, 10, 12].into_iter().zip(row) {
            rounds_to(coated(coating.reflection, surfaces)?.transmittance, left);
        }
    }
    Ok(())
}

/// Law: two alike that cut the spectrum sharply in half let through half, not a quarter; two that share nothing let
/// nothing through; grey ones are their product.
#[test]
fn shortcut_product_of_coloured_filters() -> Result<(), Error> {
    let nm = |wavelength: Length| wavelength.m() * 1e9;
    // All above the cut, and so much of the sample at it that half of the light is left.
    let half = {
        let from = |cut: f64, share: f64| {
            Spectrum::from_curve(|wavelength| {
                if (nm(wavelength) - cut).abs() < 1.0 {
                    share
                } else {
                    f64::from(u8::from(cut < nm(wavelength)))
                }
            })
        };
        let (none, all) =
            (from(560.0, 0.0)?.luminous_transmittance(), from(560.0, 1.0)?.luminous_transmittance());
        assert!(none < 0.5 && 0.5 < all, "half lies at 560 nm: {none} to {all}");
        from(560.0, (0.5 - none) / (all - none))?
    };
    rounds_to(half.luminous_transmittance(), "0.5000");
    let two = coloured_stack(&[half, half])?;
    assert!((0.475..0.5).contains(&two.together.transmittance), "{}", two.together.transmittance);
    rounds_to(two.product, "0.2500");
    // The other way: one that lets through what the other stops, but for a thousandth; without it there is no stack.
    let rest = |leak: f64| Spectrum::from_curve(|wavelength| if nm(wavelength) < 555.0 { 1.0 } else { leak });
    let reds = |leak: f64| Spectrum::from_curve(|wavelength| if 565.0 < nm(wavelength) { 1.0 } else { leak });
    let little = coloured_stack(&[rest(0.001)?, reds(0.001)?])?;
    rounds_to(little.together.transmittance, "0.001");
    assert!(0.2 < little.product, "the product says {}", little.product);
    let none = coloured_stack(&[rest(0.0)?, reds(0.0)?]).expect_err("nothing gets through");
    assert_eq!(none.to_string(), "filters `2` has no solution: together they let nothing through");
    let grey = Spectrum::from_curve(|_| 0.5)?;
    let greys = coloured_stack(&[grey, grey])?;
    rounds_to(greys.together.transmittance, "0.2500");
    rounds_to(greys.product, "0.2500");
    Ok(())
}
