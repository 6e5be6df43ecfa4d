//! Domes and bars: engine against `ER = n/(n − (n − 1)t/r)`, `v = t/(n − (n − 1)t/r)` and what follows.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::device::{
    Bar, Detail, Dome, Eye, Worn, block_image, dome_height_for, lay_bar, lay_dome, look,
};
use arcminute_core::optics::RealDome;
use arcminute_core::unit::{Length, LogMar, PrintSize, Vergence};
use proptest::prelude::*;

fn metres(value: f64) -> Length {
    Length::from_m(value)
}

fn solid(radius: f64, ratio: f64, index: f64) -> RealDome {
    RealDome { radius: metres(radius), thickness: metres(radius * ratio), index }
}

/// Radius in metres, height over radius, index.
fn blocks() -> impl Strategy<Value = (f64, f64, f64)> {
    (0.005..0.08, 0.05..1.95, 1.3..1.9)
}

fn eye(sphere: f64, worn: Worn, to_eye: f64) -> Eye {
    Eye {
        sphere: Vergence::from_dioptres(sphere),
        worn,
        spectacle_to_eye: metres(to_eye),
        ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
}

fn dome(solid: RealDome) -> Dome {
    Dome { solid, clear_diameter: solid.radius * 1.9, transmittance: 0.92 }
}

/// One surface of radius r, the object t below it in glass: enlargement and image.
#[test]
fn image_of_a_dome() {
    holds(blocks(), |(r, ratio, n)| {
        let image = block_image(solid(r, ratio, n)).expect("part of a sphere");
        let t = ratio * r;
        let rest = n - (n - 1.0) * ratio;
        agree("enlargement", image.enlargement, n / rest)?;
        agree("image", image.image_to_top.m(), t / rest)?;
        agree("surface", image.surface_power.dioptres(), (n - 1.0) / r)?;
        // n'/l' = n/l + F, then the image against the object by l'n/(ln').
        let leaving = -n / t + (n - 1.0) / r;
        agree("by vergence", image.image_to_top.m(), -1.0 / leaving)?;
        agree("by l'n/l", image.enlargement, n * (1.0 / leaving) / -t)?;
        vanishes("below the page", image.image_below_page.m() - (t / rest - t), t / rest)?;
        shows_its_working(&image)
    });
}

/// A hemisphere enlarges by its index in the page itself; the aplanatic dome by its square.
#[test]
fn hemisphere_and_aplanatic_dome() {
    holds((0.005..0.08, 1.3..1.9), |(r, n)| {
        let hemisphere = block_image(solid(r, 1.0, n)).expect("half a sphere");
        agree("hemisphere", hemisphere.enlargement, n)?;
        vanishes("in the page", hemisphere.image_below_page.m(), r)?;
        let aplanatic = block_image(solid(r, 1.0 + 1.0 / n, n)).expect("part of a sphere");
        agree("aplanatic", aplanatic.enlargement, n * n)?;
        // Its image lies where a sphere has its second aplanatic point: r(n + 1) below the top.
        agree("aplanatic image", aplanatic.image_to_top.m(), r * (1.0 + n))?;
        shows_its_working(&hemisphere)
    });
}

/// Higher is larger, and the image sinks; the height that gives an enlargement is found again.
#[test]
fn a_higher_dome_enlarges_more() {
    holds((blocks(), 1.001..1.02), |((r, ratio, n), more)| {
        let (low, high) = (block_image(solid(r, ratio, n)), block_image(solid(r, ratio * more, n)));
        let (low, high) = (low.expect("part of a sphere"), high.expect("part of a sphere"));
        prop_assert!(low.enlargement < high.enlargement, "{low:?} {high:?}");
        prop_assert!(low.image_to_top < high.image_to_top, "{low:?} {high:?}");
        prop_assert_eq!(1.0 < ratio, 1e-12 < low.image_below_page.m(), "{:?}", low);
        agree("height", dome_height_for(low.enlargement, n).expect("it has it"), ratio)
    });
}

/// In use: the image is a thing before the glasses, `ER` times as large.
#[test]
fn a_dome_before_an_eye_and_its_glasses() {
    let inputs = (blocks(), 0.01..0.5, 0.0..0.03, -10.0..10.0, 0.0..4.0, any::<bool>());
    holds(inputs, |((r, ratio, n), z, s, sphere, add, bare)| {
        let worn = if bare { Worn::Nothing } else { Worn::Near { add: Vergence::from_dioptres(add) } };
        let (t, glasses) = (ratio * r, if bare { 0.0 } else { sphere + add });
        let used = lay_dome(dome(solid(r, ratio, n)), &eye(sphere, worn, s), metres(t + z + s))
            .expect("before the glasses");
        let rest = n - (n - 1.0) * ratio;
        let (enlargement, image) = (n / rest, z + t / rest);
        let arriving: f64 = -1.0 / image + glasses;
        prop_assume!(0.02 < (1.0 - s * arriving).abs());
        let evd = image * (1.0 - s * arriving).abs() / enlargement;
        agree("EVD", used.equivalent_viewing_distance.m(), evd)?;
        agree("gain", used.gain, (t + z + s) / evd)?;
        vanishes("demand", used.focus_demand.dioptres() + arriving / (1.0 - s * arriving), 1.0 / image)?;
        prop_assume!(1e-3 < used.focus_demand.dioptres().abs());
        shows_its_working(&used)
    });
}

/// A hemisphere is larger print in the same place: n times, and the focus of the bare page.
#[test]
fn a_hemisphere_acts_as_larger_print() {
    holds((0.005..0.08, 1.3..1.9, 0.02..0.5), |(r, n, z)| {
        let bare = eye(0.0, Worn::Nothing, 0.0);
        let used = lay_dome(dome(solid(r, 1.0, n)), &bare, metres(r + z)).expect("below the eye");
        agree("gain", used.gain, n)?;
        agree("demand", used.focus_demand.dioptres(), 1.0 / (r + z))
    });
}

/// Where the image sinks below the page the gain is less than the enlargement, and comes up to it far away.
#[test]
fn the_gain_of_a_tall_dome_comes_up_to_its_enlargement() {
    holds((0.005..0.08, 1.05..1.9, 1.3..1.9, 0.05..0.5), |(r, ratio, n, z)| {
        let bare = eye(0.0, Worn::Nothing, 0.0);
        let from =
            |z: f64| lay_dome(dome(solid(r, ratio, n)), &bare, metres(ratio * r + z)).expect("below the eye");
        let (near, far) = (from(z), from(2.0 * z));
        prop_assert!(near.gain < far.gain && far.gain < near.image.enlargement, "{near:?} {far:?}");
        vanishes("from afar", from(1e9).gain - near.image.enlargement, near.image.enlargement)
    });
}

/// A bar: a dome across its length, a slab along it, and characters as without it.
#[test]
fn a_bar_across_and_along() {
    let inputs = (blocks(), 0.01..0.5, 0.0..0.03, -10.0..10.0, (0.05..0.3, 0.5..4.0));
    holds(inputs, |((r, ratio, n), z, s, sphere, (length, print))| {
        let bar = Bar {
            section: solid(r, ratio, n),
            length: metres(length),
            clear_width: metres(1.9 * r),
            transmittance: 0.9,
        };
        let t = ratio * r;
        let person = eye(sphere, Worn::Distance, s);
        let used = lay_bar(bar, &person, metres(t + z + s)).expect("before the glasses");
        let rest = n - (n - 1.0) * ratio;
        let seen = |image: f64| (image * (1.0 - s * sphere) + s).abs();
        prop_assume!(1e-3 < seen(z + t / rest) && 1e-3 < seen(z + t / n));
        vanishes("heights", used.distance_for_heights.m() - seen(z + t / rest) * rest / n, 1.0)?;
        vanishes("widths", used.distance_for_widths.m() - seen(z + t / n), 1.0)?;
        let demand = |image: f64| (1.0 - image * sphere) / (image * (1.0 - s * sphere) + s);
        let (heights, widths) = (demand(z + t / rest), demand(z + t / n));
        vanishes("demand of heights", used.demand_of_heights.dioptres() - heights, 1e3)?;
        vanishes("demand of widths", used.demand_of_widths.dioptres() - widths, 1e3)?;
        let size = PrintSize::from_m_units(print);
        let detail = Detail { height: size.x_height(), distance: None, reserve: 1.0 };
        let outcome = look(&used.arrangement, &person, detail).expect("an image to view");
        agree("characters", outcome.characters.expect("a window"), length * 1000.0 / (1.30 * print))
    });
}
