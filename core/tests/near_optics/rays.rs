//! Thick lenses, and rays traced by Snell's law.

use super::{close, d, m, prism};
use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::math;
use arcminute_core::optics::{
    FlatPrism, RayLost, RayMatrix, RealDome, RealRay, Shape, Sight, Surface, ThickLens, dome_at, trace_real,
    view,
};
use arcminute_core::unit::{Angle, Length};
use proptest::prelude::*;

fn thick() -> impl Strategy<Value = (f64, f64, f64, f64)> {
    (-10.0..40.0, -10.0..40.0, 0.0..0.03, 1.3..1.9)
}

#[test]
fn thick_lens_against_its_closed_form() {
    // Left out: light that comes to a point near a surface, and lenses that are nearly without power.
    let inputs = thick().prop_filter("no vertex power, or no power", |(front, back, t, n)| {
        let power = front + back - t / n * front * back;
        0.05 < (1.0 - t / n * front).abs() && 0.05 < (1.0 - t / n * back).abs() && 0.1 < power.abs()
    });
    holds(inputs, |(front, back, t, n)| {
        let lens = ThickLens { front: d(front), back: d(back), thickness: m(t), index: n };
        let powers = lens.powers().expect("possible");
        let power = front + back - t / n * front * back;
        close("equivalent", powers.equivalent.dioptres(), power, 1e-12 * 100.0)?;
        close("back vertex", powers.back_vertex.dioptres(), power / (1.0 - t / n * front), 1e-9)?;
        close("front vertex", powers.front_vertex.dioptres(), power / (1.0 - t / n * back), 1e-9)?;
        agree("label", powers.label_over_equivalent, 1.0 / (1.0 - t / n * front))?;
        prop_assert_eq!(powers.print_to_front.is_some(), 0.0 < power / (1.0 - t / n * back));
        if let Some(print) = powers.print_to_front {
            let seen = view(&lens.train(), Sight::At(print));
            vanishes("light from there leaves parallel", seen.focus_demand.dioptres(), power.abs())?;
            let evd = seen.equivalent_viewing_distance.unwrap_or_default();
            close("and looks as large as at the focal length", evd.m(), 1.0 / power.abs(), 1e-9)?;
        }
        let turned = ThickLens { front: d(back), back: d(front), ..lens }.powers().expect("possible");
        close("turned round", turned.back_vertex.dioptres(), powers.front_vertex.dioptres(), 1e-9)?;
        shows_its_working(&powers)
    });
}

/// Two surfaces of this power, as spheres.
fn spheres(front: f64, back: f64, t: f64, n: f64) -> [Surface; 2] {
    let shape = |radius| Shape::Sphere { radius: m(radius) };
    [
        Surface { at: Length::ZERO, shape: shape((n - 1.0) / front), index_behind: n },
        Surface { at: m(t), shape: shape((1.0 - n) / back), index_behind: 1.0 },
    ]
}

#[test]
fn a_traced_ray_near_the_axis_is_paraxial() {
    let inputs = (1.0..40.0, 1.0..40.0, 0.001..0.03, 1.3..1.9, 0.05..2.0);
    holds(inputs, |(front, back, t, n, far): (f64, f64, f64, f64, f64)| {
        let height = 1e-7;
        let start = RealRay {
            along: m(-far),
            height: Length::ZERO,
            direction: Angle::from_radians(math::atan(height / far)),
        };
        let out = trace_real(start, 1.0, &spheres(front, back, t, n)).expect("near the axis");
        let lens = ThickLens { front: d(front), back: d(back), thickness: m(t), index: n };
        let matrix = RayMatrix::gap(m(far)).then(lens.train().matrix());
        let (wanted_height, wanted_slope) = (matrix.b.m() * height / far, matrix.d * height / far);
        let scale = height * (1.0 + 1.0 / far + front + back);
        let apart = (out.height_at(m(t)).m() - wanted_height).abs();
        prop_assert!(apart < 1e-8 * scale, "height {out:?}, wanted {wanted_height}");
        let apart = (out.direction.tangent() - wanted_slope).abs();
        prop_assert!(apart < 1e-8 * scale, "slope {out:?}, wanted {wanted_slope}");
        Ok(())
    });
}

#[test]
fn aberration_grows_with_the_square_of_the_height() {
    // Parallel light on a plano-convex lens; its end from the flat side, against the paraxial one.
    holds((4.0..25.0, 0.003..0.01, 1.4..1.8), |(power, t, n): (f64, f64, f64)| {
        let flat = Surface { at: m(t), shape: Shape::Plane { tilt: Angle::ZERO }, index_behind: 1.0 };
        let [front, _] = spheres(power, 1.0, t, n);
        let short = |height: f64| {
            let start = RealRay { along: m(-0.1), height: m(height), direction: Angle::ZERO };
            let out = trace_real(start, 1.0, &[front, flat]).expect("within the lens");
            let crosses = out.along.m() - out.height.m() / out.direction.tangent();
            1.0 / power - t / n - (crosses - t)
        };
        let radius = (n - 1.0) / power;
        let (one, two) = (short(0.01 * radius), short(0.02 * radius));
        prop_assert!(0.0 < one, "the edge of a lens is stronger");
        close("four times at twice the height", two / one, 4.0, 0.01)
    });
}

#[test]
fn a_traced_path_runs_both_ways() {
    let inputs = (2.0..30.0, 2.0..30.0, 0.004..0.02, 1.4..1.8, -0.004..0.004, -0.1..0.1);
    holds(inputs, |(front, back, t, n, height, slope): (f64, f64, f64, f64, f64, f64)| {
        let [first, second] = spheres(front, back, t, n);
        let start = RealRay { along: m(-0.05), height: m(height), direction: Angle::from_tangent(slope) };
        let Ok(out) = trace_real(start, 1.0, &[first, second]) else { return Ok(()) };
        // Looked at from behind: places and radii change their sign, and so does the direction.
        let mirrored = |surface: Surface, index_behind| Surface {
            at: -surface.at,
            shape: match surface.shape {
                Shape::Sphere { radius } => Shape::Sphere { radius: -radius },
                Shape::Plane { tilt } => Shape::Plane { tilt: -tilt },
            },
            index_behind,
        };
        let back = RealRay { along: m(-0.2), height: out.height_at(m(0.2)), direction: -out.direction };
        let again =
            trace_real(back, 1.0, &[mirrored(second, n), mirrored(first, 1.0)]).expect("the same path");
        vanishes("direction", (again.direction + start.direction).radians(), 1.0)?;
        vanishes("height", (again.height_at(m(0.05)) - start.height).m(), 0.1)
    });
}

#[test]
fn a_dome_is_paraxial_in_its_middle() {
    let inputs = (0.01..0.06, 0.5..1.5, 1.4..1.7, 0.2..0.6);
    holds(inputs, |(radius, share, n, eye): (f64, f64, f64, f64)| {
        let dome = RealDome { radius: m(radius), thickness: m(radius * share), index: n };
        let middle = dome_at(dome, m(eye), m(1e-5 * radius)).expect("the middle is seen");
        close("enlargement", middle.enlargement, middle.paraxial, 1e-8)?;
        // Surface and glass, by vergence: image below the top, and its size over that of the print.
        let (t, below) = (radius * share, n - (n - 1.0) * share);
        let size = n / below;
        agree("paraxial", middle.paraxial, size * eye / (eye - t + t / below))?;
        Ok(())
    });
}

#[test]
fn a_hemisphere_against_the_triangles_of_its_centre() {
    let inputs = (0.01..0.06, 1.4..1.7, 4.0..20.0, 0.01..0.6);
    holds(inputs, |(radius, n, eye, share): (f64, f64, f64, f64)| {
        let dome = RealDome { radius: m(radius), thickness: m(radius), index: n };
        let seen = dome_at(dome, m(eye * radius), m(share * radius)).expect("within the dome");
        // The ray passes the centre, which lies on the page, at a distance that the glass makes n times smaller.
        let (angle, passes) = (seen.seen.radians(), eye * radius * seen.seen.sine());
        let inside = angle - math::asin(passes / radius) + math::asin(passes / radius / n);
        close("height", passes / n / math::cos(inside), share * radius, 1e-8)?;
        agree("enlargement", seen.enlargement, seen.seen.tangent() * eye / share)?;
        close("the middle", seen.paraxial, n, 1e-9)?;
        // By the terms of third order the edge is pressed together from an eye distance of 2n/(n − 1) radii on.
        let border = 2.0 * n / (n - 1.0);
        if 0.5 < (eye - border).abs() {
            let near = dome_at(dome, m(eye * radius), m(0.005 * radius)).expect("near the middle");
            prop_assert_eq!(near.enlargement < near.paraxial, border < eye, "border {}", border);
        }
        Ok(())
    });
}

fn rated() -> impl Strategy<Value = (f64, f64)> {
    (0.5..55.0, 1.45..1.75)
}

#[test]
fn a_prism_turns_least_when_the_path_is_symmetrical() {
    holds((rated(), -30.0..30.0), |((power, index), aside): ((f64, f64), f64)| {
        let flat = FlatPrism::rated(prism(power), index).expect("not too strong");
        let at_incidence = flat.incidence_of_least_deviation();
        let least = flat.at_incidence(at_incidence).expect("it comes out");
        vanishes("symmetrical", (least.leaving - least.incidence).radians(), 1.0)?;
        vanishes("inside too", (least.inside - least.second_incidence).radians(), 1.0)?;
        if let Ok(other) = flat.at_incidence(at_incidence + Angle::from_degrees(aside)) {
            let apart = (other.deviation - least.deviation).radians();
            prop_assert!(-1e-12 < apart, "less than the least: {other:?}");
            // The path runs both ways.
            let back = flat.at_incidence(other.leaving).expect("the same path");
            vanishes("deviation", (back.deviation - other.deviation).radians(), 1e-2)?;
            vanishes("leaving", (back.leaving - other.incidence).radians(), 1e-2)?;
            shows_its_working(&other)?;
        }
        Ok(())
    });
}

#[test]
fn a_prism_is_as_rated_at_right_angles_and_shuts_below_one_incidence() {
    holds((rated(), -89.0..89.0), |((power, index), incidence): ((f64, f64), f64)| {
        let flat = FlatPrism::rated(prism(power), index).expect("not too strong");
        let straight = flat.at_incidence(Angle::ZERO).expect("it comes out");
        close("as rated", straight.power.prism_dioptres(), power, 1e-9)?;
        // Snell at the second face alone.
        let apex = flat.apex.radians();
        close("closed form", math::asin(index * math::sin(apex)) - apex, math::atan(power / 100.0), 1e-9)?;
        let (limit, asked) = (flat.least_incidence(), Angle::from_degrees(incidence));
        if 1e-6 < (limit - asked).abs().degrees() {
            let reflected = flat.at_incidence(asked).err() == Some(RayLost::TotalReflection);
            prop_assert_eq!(reflected, asked < limit, "limit {:?}", limit);
        }
        Ok(())
    });
}
