//! A ray as it really runs, by Snell's law, in one meridian; for what paraxial optics leaves out.
//!
//! ```text
//!   height ↑        surface 1   surface 2
//!          |    ray ────►(         )────►
//!          +──────────────────────────────► along the axis, the way the light goes
//! ```
//!
//! A surface stands where it cuts the axis. Its radius is positive when its centre lies behind it, as the light goes; a
//! direction and the tilt of a plane are positive when they, or the normal of the plane, turn upward. A ray that misses
//! a surface or cannot leave the glass is said to be lost: it never becomes a number.

use crate::math;
use crate::unit::{Angle, Length};

/// Form of a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Flat; its normal is tilted upward by this angle.
    Plane {
        /// Between the normal and the axis.
        tilt: Angle,
    },
    /// Part of a sphere, up to its equator.
    Sphere {
        /// Positive with the centre behind the surface; not zero.
        radius: Length,
    },
}

/// A surface between two media.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// Where it cuts the axis.
    pub at: Length,
    /// Its form.
    pub shape: Shape,
    /// Refractive index behind it, above zero; a pure ratio.
    pub index_behind: f64,
}

/// A ray in one meridian.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RealRay {
    /// Where it is, along the axis.
    pub along: Length,
    /// Where it is, above the axis.
    pub height: Length,
    /// Its direction above the axis, between −90 and 90 degrees.
    pub direction: Angle,
}

/// Why a ray does not come out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RayLost {
    /// It does not meet a surface in front of it.
    Missed,
    /// It is reflected inside.
    TotalReflection,
    /// An index that is not above zero, or a value that is no number.
    NotPossible,
}

impl RealRay {
    /// Its height where it is so far along the axis, in the medium in which it is.
    ///
    /// ```
    /// use arcminute_core::{optics::RealRay, unit::{Angle, Length}};
    /// let ray = RealRay { along: Length::ZERO, height: Length::ZERO, direction: Angle::from_degrees(45.0) };
    /// assert!((ray.height_at(Length::from_mm(2.0)).mm() - 2.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn height_at(self, along: Length) -> Length {
        self.height + (along - self.along) * self.direction.tangent()
    }
}

/// The ray behind the last of the surfaces, at the place where it leaves it.
///
/// * `index_before`: of the medium in which the ray starts, above zero. Surfaces are met in the order given, each in
///   front of the ray.
/// * Source: Snell's law, in vectors.
///
/// # Errors
/// [`RayLost`], with the reason.
///
/// ```
/// use arcminute_core::optics::{RealRay, Shape, Surface, trace_real};
/// use arcminute_core::unit::{Angle, Length};
/// // From air into glass of 1.5 at 30 degrees: sin 30°/1.5 = 1/3, so 19.47 degrees.
/// let ray = RealRay { along: Length::ZERO, height: Length::ZERO, direction: Angle::from_degrees(30.0) };
/// let face = Surface {
///     at: Length::from_mm(1.0),
///     shape: Shape::Plane { tilt: Angle::ZERO },
///     index_behind: 1.5,
/// };
/// let inside = trace_real(ray, 1.0, &[face]).expect("it meets the face");
/// assert!((inside.direction.degrees() - 19.47).abs() < 0.005);
/// ```
pub fn trace_real(ray: RealRay, index_before: f64, surfaces: &[Surface]) -> Result<RealRay, RayLost> {
    if !(ray.along.is_finite() && ray.height.is_finite() && ray.direction.is_finite()) {
        return Err(RayLost::NotPossible);
    }
    let mut index = positive(index_before)?;
    let mut point = Vector { along: ray.along.m(), up: ray.height.m() };
    let mut direction = Vector { along: ray.direction.cosine(), up: ray.direction.sine() };
    for surface in surfaces {
        let behind = positive(surface.index_behind)?;
        let (met, normal) = surface.meet(point, direction)?;
        direction = direction.refracted(normal, index / behind)?;
        (point, index) = (met, behind);
    }
    Ok(RealRay {
        along: Length::from_m(point.along),
        height: Length::from_m(point.up),
        direction: Angle::from_radians(math::atan2(direction.up, direction.along)),
    })
}

fn positive(index: f64) -> Result<f64, RayLost> {
    if 0.0 < index && index.is_finite() { Ok(index) } else { Err(RayLost::NotPossible) }
}

/// A place or a direction in the meridian; metres, or of unit length.
#[derive(Clone, Copy)]
struct Vector {
    along: f64,
    up: f64,
}

impl Vector {
    fn dot(self, other: Self) -> f64 {
        self.along * other.along + self.up * other.up
    }
    /// This one and `times` the other.
    fn plus(self, times: f64, other: Self) -> Self {
        Self { along: self.along + times * other.along, up: self.up + times * other.up }
    }
    /// This direction behind a surface whose `normal` leans the same way; `ratio` is index before over index behind.
    fn refracted(self, normal: Self, ratio: f64) -> Result<Self, RayLost> {
        let cosine = self.dot(normal);
        let left = 1.0 - ratio * ratio * (1.0 - cosine * cosine);
        if left < 0.0 {
            return Err(RayLost::TotalReflection);
        }
        let turned = Self { along: ratio * self.along, up: ratio * self.up };
        Ok(turned.plus(math::sqrt(left) - ratio * cosine, normal))
    }
}

impl Surface {
    fn is_possible(&self) -> bool {
        self.at.is_finite()
            && match self.shape {
                Shape::Plane { tilt } => tilt.is_finite(),
                Shape::Sphere { radius } => radius.is_finite() && radius != Length::ZERO,
            }
    }

    /// Where a ray from `point` meets the surface, and the normal there, which leans the way the light goes.
    fn meet(&self, point: Vector, direction: Vector) -> Result<(Vector, Vector), RayLost> {
        if !self.is_possible() {
            return Err(RayLost::NotPossible);
        }
        let (way, normal) = match self.shape {
            Shape::Plane { tilt } => {
                let normal = Vector { along: tilt.cosine(), up: tilt.sine() };
                let to_axis = Vector { along: self.at.m(), up: 0.0 }.plus(-1.0, point);
                (to_axis.dot(normal) / direction.dot(normal), normal)
            }
            Shape::Sphere { radius } => {
                let centre = Vector { along: (self.at + radius).m(), up: 0.0 };
                let from_centre = point.plus(-1.0, centre);
                let middle = -from_centre.dot(direction);
                let square = middle * middle - from_centre.dot(from_centre) + radius.m() * radius.m();
                // Of a ray past the sphere it is below zero, and the way is no number. Where the centre lies behind the
                // surface, its half of the sphere is met first.
                let half_chord = math::sqrt(square);
                let way = if Length::ZERO < radius { middle - half_chord } else { middle + half_chord };
                let out = point.plus(way, direction).plus(-1.0, centre);
                (way, Vector { along: -out.along / radius.m(), up: -out.up / radius.m() })
            }
        };
        // Beyond the equator the normal leans back. The way is in metres: a picometre behind the ray is still at it.
        if way.is_finite() && -1e-12 <= way && 0.0 <= normal.along && 0.0 < direction.dot(normal) {
            Ok((point.plus(way, direction), normal))
        } else {
            Err(RayLost::Missed)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(millimetres: f64) -> Length {
        Length::from_mm(millimetres)
    }
    fn ray(height: f64, degrees: f64) -> RealRay {
        RealRay { along: Length::ZERO, height: mm(height), direction: Angle::from_degrees(degrees) }
    }
    fn sphere(at: f64, radius: f64, index_behind: f64) -> Surface {
        Surface { at: mm(at), shape: Shape::Sphere { radius: mm(radius) }, index_behind }
    }
    fn plane(at: f64, degrees: f64, index_behind: f64) -> Surface {
        Surface { at: mm(at), shape: Shape::Plane { tilt: Angle::from_degrees(degrees) }, index_behind }
    }
    fn lost(ray: RealRay, surface: Surface) -> Option<RayLost> {
        trace_real(ray, 1.0, &[surface]).err()
    }

    #[test]
    fn a_ray_through_the_centre_of_a_sphere_runs_on() {
        for (at, radius, degrees, along) in [(20.0, 30.0, 0.0, 20.0), (-30.0, 30.0, 0.0, -30.0)] {
            let from = RealRay { along: mm(-40.0), ..ray(0.0, degrees) };
            let met = trace_real(from, 1.0, &[sphere(at, radius, 1.5)]).expect("along the axis");
            assert!((met.along.mm() - along).abs() < 1e-12 && met.direction == Angle::ZERO, "{met:?}");
        }
        // From the centre outward: 30 mm along a line of 30 degrees.
        let met = trace_real(ray(0.0, 30.0), 1.5, &[sphere(30.0, -30.0, 1.0)]).expect("along a radius");
        assert!((met.along.mm() - 30.0 * math::cos(math::PI / 6.0)).abs() < 1e-12, "{met:?}");
        assert!((met.height.mm() - 15.0).abs() < 1e-12, "{met:?}");
        assert!((met.direction.degrees() - 30.0).abs() < 1e-12, "{met:?}");
    }

    #[test]
    fn the_sphere_is_met_on_the_side_of_its_vertex() {
        // Radius 5 at 10 mm: at a height of 3 mm it stands 1 mm behind its vertex, or before it when it is hollow.
        for (radius, along) in [(5.0, 11.0), (-5.0, 9.0)] {
            let met =
                trace_real(ray(3.0, 0.0), 1.0, &[sphere(10.0, radius, 1.5)]).expect("within the sphere");
            assert!((met.along.mm() - along).abs() < 1e-12, "{met:?}");
            // Snell by hand: incidence asin(0.6), refracted asin(0.4).
            let turn = (math::asin(0.6) - math::asin(0.4)) * if 0.0 < radius { -1.0 } else { 1.0 };
            assert!((met.direction.radians() - turn).abs() < 1e-12, "{met:?}");
        }
        assert_eq!(lost(ray(5.001, 0.0), sphere(10.0, 5.0, 1.5)), Some(RayLost::Missed), "past the sphere");
        assert_eq!(lost(ray(4.999, 0.0), sphere(10.0, 5.0, 1.5)), None, "just within");
        // Steeply down from above, it meets the back half only.
        let over = RealRay { along: mm(16.0), height: mm(20.0), direction: Angle::from_degrees(-85.0) };
        assert_eq!(lost(over, sphere(10.0, 5.0, 1.5)), Some(RayLost::Missed), "beyond the equator");
    }

    #[test]
    fn a_surface_behind_the_ray_is_missed() {
        assert_eq!(lost(ray(0.0, 0.0), plane(-0.001, 0.0, 1.5)), Some(RayLost::Missed));
        assert_eq!(lost(ray(0.0, 0.0), plane(0.0, 0.0, 1.5)), None, "at the ray it is met");
        assert_eq!(lost(ray(0.0, 0.0), sphere(-5.0, 30.0, 1.5)), Some(RayLost::Missed), "centre in front");
        assert_eq!(lost(ray(0.0, 30.0), plane(1.0, -60.01, 1.5)), Some(RayLost::Missed), "away from it");
        assert_eq!(lost(ray(0.0, 30.0), plane(1.0, -59.99, 1.5)), None, "towards it");
    }

    #[test]
    fn a_tilted_plane_turns_the_ray_towards_its_normal() {
        let met = trace_real(ray(0.0, 0.0), 1.0, &[plane(10.0, 30.0, 1.5)]).expect("it meets the plane");
        // Incidence 30 degrees, refracted asin(1/3) = 19.47: the direction is what is between them, upward.
        assert!((met.direction.degrees() - (30.0 - 19.471_220_634_490_69)).abs() < 1e-9, "{met:?}");
        assert!((met.along.mm() - 10.0).abs() < 1e-12 && met.height == Length::ZERO, "{met:?}");
        let higher = trace_real(ray(1.0, 0.0), 1.0, &[plane(10.0, 45.0, 1.5)]).expect("it meets the plane");
        assert!((higher.along.mm() - 9.0).abs() < 1e-12, "leaning back as it goes up: {higher:?}");
    }

    #[test]
    fn beyond_the_critical_angle_it_is_reflected() {
        // asin(1/1.5) is 41.81 degrees.
        for (degrees, told) in [(41.8, None), (41.82, Some(RayLost::TotalReflection))] {
            let out = trace_real(ray(0.0, degrees), 1.5, &[plane(1.0, 0.0, 1.0)]);
            assert_eq!(out.err(), told, "{degrees} degrees");
        }
        // At it, light runs along the face: the sine of 0.8 times 1.25 is 1.
        let (steep, normal) = (Vector { along: 0.6, up: 0.8 }, Vector { along: 1.0, up: 0.0 });
        let along_the_face = steep.refracted(normal, 1.25).map(|leaving| (leaving.along, leaving.up));
        assert_eq!(along_the_face, Ok((0.0, 1.0)));
    }

    #[test]
    fn a_ray_that_only_touches_a_sphere_misses_it() {
        // In metres all of it is halves, so that it touches to the last bit.
        for radius in [500.0, -500.0] {
            assert_eq!(lost(ray(500.0, 0.0), sphere(1000.0, radius, 1.5)), Some(RayLost::Missed), "{radius}");
        }
    }

    #[test]
    fn what_is_no_number_is_told() {
        let nan = f64::NAN;
        for surface in [
            plane(nan, 0.0, 1.5),
            plane(1.0, nan, 1.5),
            plane(1.0, 0.0, nan),
            plane(1.0, 0.0, 0.0),
            plane(1.0, 0.0, -1.5),
            sphere(1.0, 0.0, 1.5),
            sphere(1.0, nan, 1.5),
            sphere(nan, 5.0, 1.5),
            sphere(1.0, f64::INFINITY, 1.5),
        ] {
            assert_eq!(lost(ray(0.0, 0.0), surface), Some(RayLost::NotPossible), "{surface:?}");
        }
        for bad in [ray(nan, 0.0), ray(0.0, nan), RealRay { along: mm(nan), ..ray(0.0, 0.0) }] {
            assert_eq!(trace_real(bad, 1.0, &[]), Err(RayLost::NotPossible), "{bad:?}");
        }
        assert_eq!(trace_real(ray(0.0, 0.0), 0.0, &[]), Err(RayLost::NotPossible), "index before");
        assert_eq!(trace_real(ray(1.0, 2.0), 1.0, &[]).map(|same| same.height), Ok(mm(1.0)), "no surface");
    }
}
