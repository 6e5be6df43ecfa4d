//! The area of fixation.

use crate::law::{Verdict, agree, holds, shows_its_working};
use arcminute_core::eccentric::{
    FixationArea, Gaze, class_of, fixation_class, fixation_ellipse, fixation_of,
};
use arcminute_core::math;
use arcminute_core::unit::Angle;
use proptest::prelude::*;

type Points = Vec<(f64, f64)>;

/// Points of gaze, degrees from the target.
fn points() -> impl Strategy<Value = Points> {
    prop::collection::vec((-5.0..5.0, -5.0..5.0), 3..24)
}

fn gaze(points: &Points) -> Vec<Gaze> {
    points.iter().map(|(x, y)| Gaze { x: Angle::from_degrees(*x), y: Angle::from_degrees(*y) }).collect()
}

fn area(points: &Points, share: f64) -> FixationArea {
    fixation_of(&gaze(points), share).expect("random points scatter in both directions")
}

/// Areas agree, measured against the area without correlation: near a line the difference of large squares is left.
fn same_area(what: &str, got: f64, expected: f64, whole: &FixationArea, scale: f64) -> Verdict {
    let ellipse = whole.ellipse;
    let uncorrelated = ellipse.k * 3.15 * ellipse.sigma_x.degrees().max(ellipse.sigma_y.degrees());
    let size = uncorrelated * ellipse.sigma_x.degrees().max(ellipse.sigma_y.degrees()) * scale;
    prop_assert!((got - expected).abs() <= 1e-6 * size, "{what}: {got} against {expected}");
    Ok(())
}

#[test]
fn the_area_does_not_change_when_points_are_moved_or_turned() {
    holds(
        (points(), -10.0..10.0, -10.0..10.0, 0.0..360.0, 0.05..0.99),
        |(points, x, y, turn, share): (Points, f64, f64, f64, f64)| {
            let whole = area(&points, share);
            let got = whole.ellipse.area.square_degrees();
            let moved: Points = points.iter().map(|(a, b)| (a + x, b + y)).collect();
            let after = area(&moved, share);
            same_area("moved", after.ellipse.area.square_degrees(), got, &whole, 1.0)?;
            prop_assert!((after.centre.x.degrees() - whole.centre.x.degrees() - x).abs() < 1e-9, "middle");
            prop_assert!((after.centre.y.degrees() - whole.centre.y.degrees() - y).abs() < 1e-9, "middle");
            let (sine, cosine) = (Angle::from_degrees(turn).sine(), Angle::from_degrees(turn).cosine());
            let turned: Points =
                points.iter().map(|(a, b)| (a * cosine - b * sine, a * sine + b * cosine)).collect();
            let after = area(&turned, share);
            same_area("turned", after.ellipse.area.square_degrees(), got, &whole, 1.0)?;
            let mirrored: Points = points.iter().map(|(a, b)| (-a, *b)).collect();
            let after = area(&mirrored, share);
            same_area("mirrored", after.ellipse.area.square_degrees(), got, &whole, 1.0)?;
            prop_assert!(
                (after.ellipse.correlation + whole.ellipse.correlation).abs() < 1e-9,
                "correlation turns"
            );
            shows_its_working(&whole)
        },
    );
}

#[test]
fn the_area_grows_as_the_square() {
    holds((points(), 0.1..10.0, 0.05..0.99), |(points, scale, share): (Points, f64, f64)| {
        let whole = area(&points, share);
        let larger: Points = points.iter().map(|(x, y)| (x * scale, y * scale)).collect();
        let after = area(&larger, share);
        let expected = whole.ellipse.area.square_degrees() * scale * scale;
        same_area("scaled", after.ellipse.area.square_degrees(), expected, &whole, scale * scale)?;
        agree("spread", after.ellipse.sigma_x.degrees(), whole.ellipse.sigma_x.degrees() * scale)
    });
}

#[test]
fn the_area_is_that_of_the_determinant() {
    holds((points(), 0.05..0.99), |(points, share): (Points, f64)| {
        let whole = area(&points, share);
        // Second road: the determinant of the covariances is the mean square of the triangles that pairs of points make
        // with the middle.
        let count = points.len() as f64;
        let middle = points.iter().fold((0.0, 0.0), |sum, at| (sum.0 + at.0 / count, sum.1 + at.1 / count));
        let off: Points = points.iter().map(|at| (at.0 - middle.0, at.1 - middle.1)).collect();
        let mut determinant = 0.0;
        for one in &off {
            for other in &off {
                let twice = one.0 * other.1 - one.1 * other.0;
                determinant += twice * twice / 2.0 / (count - 1.0) / (count - 1.0);
            }
        }
        let expected = -2.0 * math::ln(1.0 - share) * core::f64::consts::PI * determinant.sqrt();
        same_area("determinant", whole.ellipse.area.square_degrees(), expected, &whole, 1.0)
    });
}

#[test]
fn a_larger_share_needs_a_larger_area_and_the_share_comes_back() {
    let inputs = (0.01..5.0, 0.01..5.0, -0.99..0.99, 0.01..0.99, 0.01..0.99);
    holds(inputs, |(x, y, rho, one, other): (f64, f64, f64, f64, f64)| {
        let degrees = Angle::from_degrees;
        let ellipse = fixation_ellipse(degrees(x), degrees(y), rho, one).expect("possible");
        agree("share", 1.0 - math::exp(-ellipse.k / 2.0), one)?;
        let second = ellipse.holding(other).expect("possible");
        prop_assert_eq!(one < other, ellipse.area < second.area, "{:?} {:?}", ellipse, second);
        agree("shares", second.area / ellipse.area, math::ln(1.0 - other) / math::ln(1.0 - one))?;
        let upright = fixation_ellipse(degrees(x), degrees(y), 0.0, one).expect("possible");
        prop_assert!(ellipse.area <= upright.area, "a correlation takes area away");
        let swapped = fixation_ellipse(degrees(y), degrees(x), -rho, one).expect("possible");
        agree("swapped", swapped.area.square_degrees(), ellipse.area.square_degrees())?;
        shows_its_working(&ellipse)
    });
}

#[test]
fn points_drawn_together_are_never_less_stable() {
    holds((points(), 0.01..1.0), |(points, scale): (Points, f64)| {
        let before = fixation_class(&gaze(&points)).expect("enough points");
        let together: Points = points.iter().map(|(x, y)| (x * scale, y * scale)).collect();
        let after = fixation_class(&gaze(&together)).expect("enough points");
        prop_assert!(after.class <= before.class, "{before:?} {after:?}");
        prop_assert!(before.within_2_degrees <= before.within_4_degrees, "{before:?}");
        let again = class_of(before.within_2_degrees, before.within_4_degrees).expect("shares");
        prop_assert_eq!(again, before);
        shows_its_working(&before)
    });
}
