//! Blur, what it costs, and how far a thing may be moved: published and computed values.

use crate::support::rounds_to;
use arcminute_core::math;
use arcminute_core::optics::{
    DEPTH_OF_FOCUS, Element, LARGER_LETTERS, Train, blur_disc, blur_strength, blur_tolerance, blurred,
    depth_of_field, depth_of_field_about, normal_eye_mar,
};
use arcminute_core::unit::{Angle, Length, LogMar, Vergence};

fn d(power: f64) -> Vergence {
    Vergence::from_dioptres(power)
}
fn arcmin(angle: f64) -> Angle {
    Angle::from_arcmin(angle)
}
fn lens(power: f64) -> Train {
    Train::new([Element::Lens { power: d(power), clear_diameter: None }])
}
fn normal(strength: f64) -> f64 {
    normal_eye_mar(d(strength)).mar.arcmin()
}

/// Source: geometry, as in Strasburger, Bach & Heinrich 2018; the fit and the model, computed.
#[test]
fn near_case_19_disc_normal_eye_and_low_vision() {
    let disc = blur_disc(Length::from_mm(4.0), d(2.5)).disc;
    rounds_to(disc.arcmin(), "34.38");
    rounds_to(disc.arcmin() / 5.0, "6.9");
    rounds_to(blur_disc(Length::from_mm(1.0), d(-1.0)).disc.arcmin(), "3.4377");
    rounds_to(normal(2.5), "9.69");
    let seen = blurred(arcmin(10.0), d(2.0), Vergence::ZERO);
    rounds_to(seen.mar.arcmin(), "11.94");
    rounds_to(seen.loss.log(), "0.077");
}

/// Source: the combined model, computed: log lost at 20/80 and at 20/200.
#[test]
fn loss_at_two_acuities() {
    for (b, four, ten) in [
        (0.5, "0.013", "0.002"),
        (1.0, "0.061", "0.011"),
        (1.5, "0.156", "0.034"),
        (2.0, "0.282", "0.077"),
        (3.0, "0.542", "0.222"),
    ] {
        rounds_to(blurred(arcmin(4.0), d(b), Vergence::ZERO).loss.log(), four);
        rounds_to(blurred(arcmin(10.0), d(-b), Vergence::ZERO).loss.log(), ten);
    }
}

/// Refraction left uncorrected and the acuity read with it, as 20 over this.
const TABLE: [(f64, f64); 9] = [
    (0.50, 30.0),
    (0.75, 40.0),
    (1.00, 50.0),
    (1.25, 70.0),
    (1.50, 100.0),
    (2.00, 150.0),
    (2.50, 200.0),
    (3.00, 250.0),
    (3.50, 300.0),
];

/// Source: table of about 6000 refractions, reproduced in Br J Ophthalmol; root mean square of the fit computed.
#[test]
fn the_fit_keeps_to_its_table() {
    let squares = TABLE.map(|(b, denominator)| {
        assert!(!normal_eye_mar(d(b)).beyond_domain, "the table runs to 3.50 D");
        math::pow(math::log10(normal(b) / (denominator / 20.0)), 2.0)
    });
    rounds_to(math::sqrt(squares.iter().sum::<f64>() / 9.0), "0.041");
}

/// Source: Peters 1961, myopes, not used in the fit; predictions computed.
#[test]
fn myopes_that_the_fit_has_not_seen() {
    for (b, predicted, denominator) in [(1.25, "3.36", 70.0), (1.50, "4.29", 100.0), (2.50, "9.69", 200.0)] {
        rounds_to(normal(b), predicted);
        let apart = math::log10(normal(b) / (denominator / 20.0));
        assert!(apart.abs() < 0.07, "{b} D: {apart} log apart");
    }
    rounds_to(normal(0.75), "2.01");
    rounds_to(math::log10(50.0 / 20.0 / normal(0.75)), "0.09");
}

/// Source: Korean study of 2013, acuity of astigmats in best sphere; predictions computed.
#[test]
fn astigmats_in_best_sphere() {
    for (cylinder, predicted, decimal) in
        [(1.0, "1.59", 0.7), (1.5, "2.01", 0.5), (2.0, "2.60", 0.4), (2.5, "3.36", 0.3)]
    {
        let mar = normal_eye_mar(blur_strength(Vergence::ZERO, d(cylinder))).mar;
        rounds_to(mar.arcmin(), predicted);
        let apart = math::log10(mar.arcmin() * decimal);
        assert!(apart.abs() < 0.05, "{cylinder} D: {apart} log apart");
    }
    rounds_to(normal_eye_mar(blur_strength(Vergence::ZERO, d(4.0))).mar.arcmin(), "6.65");
}

/// Source: definition of the power vector; computed.
#[test]
fn strength_of_a_cylinder() {
    // Uncorrected, a cylinder C leaves C/2 of mean sphere beside it: C/√2 in all; in best sphere, C/2.
    rounds_to(blur_strength(d(-1.0), d(-2.0)).dioptres() / 2.0, "0.7071");
    rounds_to(blur_strength(Vergence::ZERO, d(-2.0)).dioptres(), "1.0000");
    for axis in [0.0, 30.0, 77.0_f64] {
        let half = |turned: Angle| (-1.5 * turned.cosine(), -1.5 * turned.sine());
        let (j0, j45) = half(Angle::from_degrees(2.0 * axis));
        let vector = math::sqrt(0.8 * 0.8 + j0 * j0 + j45 * j45);
        assert!((blur_strength(d(0.8), d(3.0)).dioptres() - vector).abs() < 1e-12, "axis {axis}");
    }
    rounds_to(blurred(arcmin(10.0), Vergence::ZERO, d(2.0)).loss.log(), "0.011");
}

/// Source: trade rule MAR/10 (20/200: a step of 2.00 D in all, 1.00 either way); the model, computed.
#[test]
fn what_a_reader_of_20_200_bears() {
    let tolerance = blur_tolerance(arcmin(10.0), LogMar::from_log(0.1));
    rounds_to(tolerance.trade_rule.dioptres(), "1.00");
    rounds_to(tolerance.defocus.dioptres(), "2.19");
    assert!((1.9..2.9).contains(&tolerance.defocus.dioptres()), "the order of the rule: {tolerance:?}");
    rounds_to(blur_tolerance(arcmin(4.0), LogMar::from_log(0.061)).defocus.dioptres(), "1.0");
    assert!(
        blur_tolerance(arcmin(40.0), LogMar::from_log(0.1)).beyond_domain,
        "20/800 bears more than 3.5 D"
    );
}

/// Source: an open lecture note of 2009 (15, 17 and 32 mm); exact, computed.
#[test]
fn near_case_18_depth_of_field_of_a_5_dioptre_lens() {
    let depth = depth_of_field(&lens(5.0), d(0.4)).expect("in focus");
    let farthest = depth.farthest.expect("and an end of it");
    rounds_to(depth.nearest.mm(), "185.19");
    rounds_to(farthest.mm(), "217.39");
    rounds_to(depth.range().unwrap_or_default().mm(), "32.21");
    rounds_to(200.0 - depth.nearest.mm(), "14.8");
    rounds_to(farthest.mm() - 200.0, "17.4");
    rounds_to(depth.rule.mm(), "32.0");
    // The same power made of a lens of 2 D and 3 D of accommodation.
    let shared = depth_of_field_about(&lens(2.0), d(3.0), d(0.4)).expect("in focus");
    rounds_to(shared.equivalent_viewing_power.dioptres(), "5.00");
    rounds_to(shared.range().unwrap_or_default().mm(), "32.21");
}

/// Source: exact, computed: half a dioptre either way, and how far the rule 2e/F² is off.
#[test]
fn shortcut_the_rule_for_depth_of_field() {
    for (power, range) in [(20.0, "2.5"), (10.0, "10.0")] {
        let depth = depth_of_field(&lens(power), d(0.5)).expect("in focus");
        rounds_to(depth.range().unwrap_or_default().mm(), range);
    }
    for power in [4.0, 8.0, 20.0] {
        let short = |e: f64| {
            let depth = depth_of_field(&lens(power), d(e)).expect("in focus");
            depth.range().unwrap_or_default() / depth.rule - 1.0
        };
        assert!(short(power / 8.0 * 0.999) < 0.02, "below an eighth of {power} D it is good to 2 %");
        assert!(0.02 < short(power / 7.0), "not beyond");
    }
}

/// Source: Atchison, Charman & Woods 1997, Optom Vis Sci 74:511.
#[test]
fn published_depth_of_focus() {
    for (row, pupil, whole) in
        DEPTH_OF_FOCUS.iter().zip([("2", "0.86"), ("4", "0.59"), ("6", "0.55")]).map(|(r, (p, w))| (r, p, w))
    {
        rounds_to(row.pupil().mm(), pupil);
        rounds_to(row.whole().dioptres(), whole);
    }
    rounds_to(LARGER_LETTERS, "1.6");
}
