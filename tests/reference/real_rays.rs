//! Rays traced by Snell's law: where paraxial optics ends.

use crate::support::{rounds_to, telescope};
use arcminute_core::Error;
use arcminute_core::optics::{
    DomePoint, FlatPrism, RayLost, RealDome, RealRay, Shape, Surface, dome_at, trace_real,
};
use arcminute_core::unit::{Angle, Length, Prism};

fn mm(length: f64) -> Length {
    Length::from_mm(length)
}
fn sphere(at: f64, radius: f64, index_behind: f64) -> Surface {
    Surface { at: mm(at), shape: Shape::Sphere { radius: mm(radius) }, index_behind }
}
fn plane(at: f64, index_behind: f64) -> Surface {
    Surface { at: mm(at), shape: Shape::Plane { tilt: Angle::ZERO }, index_behind }
}
fn ray(along: f64, height: f64, direction: Angle) -> RealRay {
    RealRay { along: mm(along), height: mm(height), direction }
}

/// A dome of radius 30 mm and index 1.49, the eye 40 cm over the page: how large the stretch from the middle looks.
fn dome(thickness: f64, height: f64) -> Result<DomePoint, Error> {
    let dome = RealDome { radius: mm(30.0), thickness: mm(thickness), index: 1.49 };
    dome_at(dome, mm(400.0), mm(height))
}

/// Source: traced by Snell's law, computed; the tangents from the middle to the point, with and without the dome.
#[test]
fn a_hemisphere_presses_the_edge_together() -> Result<(), Error> {
    for (height, enlargement) in [(0.001, "1.490"), (10.0, "1.476"), (15.0, "1.447"), (20.0, "1.366")] {
        let seen = dome(30.0, height)?;
        rounds_to(seen.enlargement, enlargement);
        rounds_to(seen.paraxial, "1.490");
    }
    Ok(())
}

/// Source: traced by Snell's law, computed.
#[test]
fn a_taller_dome_pulls_it_apart() -> Result<(), Error> {
    for (height, enlargement) in [(0.001, "1.762"), (15.0, "1.824")] {
        let seen = dome(1.35 * 30.0, height)?;
        rounds_to(seen.enlargement, enlargement);
        rounds_to(seen.paraxial, "1.762");
    }
    Ok(())
}

/// Index of the glass of both telescopes below; thicknesses 5 and 1 mm, curved sides outward, the eye 15 mm behind. The
/// reference prints no geometry; with this one all of its figures come out.
const CROWN: f64 = 1.517;

/// A plano-convex objective of 50 mm and a plano-concave eyepiece of 20 mm focal length, set for parallel light.
fn galilean() -> [Surface; 4] {
    let (objective, eyepiece) = (50.0 * (CROWN - 1.0), 20.0 * (CROWN - 1.0));
    // Paraxial back focus of the objective behind its flat side, less the focal length of the eyepiece.
    let gap = 50.0 - 5.0 / CROWN - 20.0;
    [
        sphere(0.0, objective, CROWN),
        plane(5.0, 1.0),
        sphere(5.0 + gap, -eyepiece, CROWN),
        plane(6.0 + gap, 1.0),
    ]
}

/// The same, met from the other end.
fn backwards(surfaces: &[Surface; 4]) -> [Surface; 4] {
    let [first, second, third, fourth] = *surfaces;
    let turned = |surface: Surface, index_behind| Surface {
        at: fourth.at - surface.at,
        shape: match surface.shape {
            Shape::Plane { tilt } => Shape::Plane { tilt },
            Shape::Sphere { radius } => Shape::Sphere { radius: -radius },
        },
        index_behind,
    };
    [turned(fourth, CROWN), turned(third, 1.0), turned(second, CROWN), turned(first, 1.0)]
}

/// Source: traced by Snell's law, computed: magnification as a ratio of tangents against the paraxial 2.5.
#[test]
fn a_thick_galilean_off_the_axis() {
    let telescope = backwards(&galilean());
    let outside = |apparent: Angle| {
        trace_real(ray(-15.0, 0.0, apparent), 1.0, &telescope).expect("within the lenses").direction
    };
    for (degrees, percent) in [(1.0, "0.2"), (2.0, "0.9"), (3.0, "2.5")] {
        let real = Angle::from_degrees(degrees);
        let (mut least, mut most) = (Angle::ZERO, real * 3.0);
        for _ in 0..60 {
            let middle = (least + most) / 2.0;
            if outside(middle) < real {
                least = middle;
            } else {
                most = middle;
            }
        }
        rounds_to(100.0 * (least.tangent() / real.tangent() / 2.5 - 1.0), percent);
    }
}

/// Source: traced by Snell's law, computed: what is left of vergence where a ray 8 mm off the axis leaves the eyepiece.
#[test]
fn a_thick_galilean_has_spherical_aberration() {
    let surfaces = galilean();
    let [.., last] = surfaces;
    let out = trace_real(ray(-20.0, 8.0, Angle::ZERO), 1.0, &surfaces).expect("within the lenses");
    let vergence = -out.direction.tangent() / out.height_at(last.at).m();
    rounds_to(vergence, "-2.3");
}

/// Source: traced by Snell's law, computed: a thin +20 D objective and one plano-convex lens of 80 D, flat side first.
#[test]
fn a_single_lens_is_no_keplerian_eyepiece() -> Result<(), Error> {
    let thin = telescope(20.0, 80.0, 12.0)?.afocal();
    // The focus of the objective in the first focus of the eyepiece; its thickness does not count.
    let flat = 50.0 + 12.5 - 5.0 / CROWN;
    let eyepiece = [plane(flat, CROWN), sphere(flat + 5.0, -12.5 * (CROWN - 1.0), 1.0)];
    let chief = |degrees: f64| trace_real(ray(0.0, 0.0, Angle::from_degrees(degrees)), 1.0, &eyepiece);
    let ratio = |degrees: f64| {
        chief(degrees).map(|out| -out.direction.tangent() / Angle::from_degrees(degrees).tangent())
    };
    let lost = |_| Error::new("ray", "lost", arcminute_core::Why::NotUsableInSum);
    rounds_to(ratio(0.001).map_err(lost)?, &format!("{:.2}", -thin.magnification.times()));
    for (degrees, printed) in [(1.0, "4.10"), (2.0, "4.46"), (3.0, "5.32")] {
        rounds_to(ratio(degrees).map_err(lost)?, printed);
    }
    assert_eq!(chief(5.0), Err(RayLost::TotalReflection), "at 5 degrees the ray is lost");
    for (degrees, pupil) in [(0.001, "15.6"), (2.0, "13.6")] {
        let out = chief(degrees).map_err(lost)?;
        let crosses = out.along.mm() - out.height.mm() / out.direction.tangent();
        rounds_to(crosses - (flat + 5.0), pupil);
    }
    Ok(())
}

/// Source: traced by Snell's law, computed: index 1.49, rated 40 prism dioptres for light at right angles; that strong
/// prisms vary so is the message of Jung & Peli 2014, Opt Eng 53:061707.
#[test]
fn a_rated_prism_over_its_incidence() -> Result<(), Error> {
    let prism = FlatPrism::rated(Prism::from_prism_dioptres(40.0), 1.49)?;
    rounds_to(prism.apex.degrees(), "33.5");
    for (degrees, power) in
        [(-10.0, "58.9"), (-5.0, "46.2"), (0.0, "40.0"), (5.0, "36.2"), (10.0, "33.9"), (20.0, "31.5")]
    {
        let turned = prism.at_incidence(Angle::from_degrees(degrees)).expect("it comes out");
        rounds_to(turned.power.prism_dioptres(), power);
    }
    rounds_to(prism.least_incidence().degrees(), "-13.0");
    let beyond = prism.at_incidence(Angle::from_degrees(-13.1));
    assert_eq!(beyond.err(), Some(RayLost::TotalReflection), "beyond -13.0 degrees it is reflected inside");
    Ok(())
}
