//! What a dome does away from its middle.
//!
//! Paraxial optics gives one enlargement for the whole page. Traced by Snell's law, a hemisphere shows the edge smaller
//! than the middle; one that is higher than its radius shows it larger at first.

use super::real_ray::{RealRay, Shape, Surface, trace_real};
use super::{Element, Sight, Train, view};
use crate::bounds;
use crate::error::{Error, Why};
use crate::math;
use crate::unit::{Angle, Length, Vergence};

/// A dome with its flat face on the print.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RealDome {
    /// Radius of the curved surface, above zero.
    pub radius: Length,
    /// Print to the top, on the axis.
    pub thickness: Length,
    /// Refractive index, at least 1; a pure ratio.
    pub index: f64,
}

/// What an eye over the middle of a dome sees of one point of the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DomePoint {
    /// The dome.
    pub dome: RealDome,
    /// Page to the eye's entrance pupil.
    pub page_to_eye: Length,
    /// The point's distance from the middle of the dome, on the page.
    pub height: Length,
    /// Direction in which the eye sees it, from the axis.
    pub seen: Angle,
    /// Direction in which the bare eye would see it.
    pub bare: Angle,
    /// Tangent of the one over that of the other: how much larger the stretch from the middle to the point looks; a pure
    /// ratio.
    pub enlargement: f64,
    /// The same by paraxial optics, at any height; a pure ratio.
    pub paraxial: f64,
}

/// Enlargement of the page up to a point at `height` from the middle, the eye `page_to_eye` over the middle.
///
/// * Domain: one meridian, exact; the rim below the equator is taken not to be in the way.
/// * Source: Snell's law ([`trace_real`]); the paraxial value from the ray-transfer engine.
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible dome or distance; [`Why::NoSolution`] when the eye sees no such point of the page.
///
/// ```
/// use arcminute_core::{optics::{RealDome, dome_at}, unit::Length};
/// let mm = Length::from_mm;
/// let hemisphere = RealDome { radius: mm(30.0), thickness: mm(30.0), index: 1.49 };
/// // Half way to the edge 1.447 in place of 1.490 (computed).
/// let seen = dome_at(hemisphere, mm(400.0), mm(15.0))?;
/// assert!((seen.enlargement - 1.447).abs() < 5e-4);
/// assert!((seen.paraxial - 1.490).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn dome_at(dome: RealDome, page_to_eye: Length, height: Length) -> Result<DomePoint, Error> {
    bounds::DOME_RADIUS.check(dome.radius.mm())?;
    bounds::LENS_THICKNESS.check(dome.thickness.mm())?;
    bounds::INDEX.check(dome.index)?;
    let eye_to_top = page_to_eye - dome.thickness;
    let unseen = || {
        let why = Why::NoSolution { because: "the eye sees no such point of the page" };
        Error::about("point of the page", format_args!("{} mm", height.mm()), why)
    };
    if eye_to_top <= Length::ZERO {
        return Err(unseen());
    }
    // Backwards, from the eye to the page: the same path.
    let page_at = |direction: Angle| {
        let top = Surface {
            at: eye_to_top,
            shape: Shape::Sphere { radius: dome.radius },
            index_behind: dome.index,
        };
        let from_eye = RealRay { along: Length::ZERO, height: Length::ZERO, direction };
        trace_real(from_eye, 1.0, &[top]).ok().map(|inside| inside.height_at(page_to_eye))
    };
    let (mut nearer, mut beyond) =
        (Angle::ZERO, Angle::from_radians(math::asin(dome.radius / (eye_to_top + dome.radius))));
    for _ in 0..HALVINGS {
        let middle = (nearer + beyond) / 2.0;
        if page_at(middle).is_some_and(|met| met < height) {
            nearer = middle;
        } else {
            beyond = middle;
        }
    }
    // What is no number is not reached, nor is the middle itself, which has no enlargement of its own.
    let reached = page_at(nearer).is_some_and(|met| (met - height).abs() < height * SAME);
    if !reached {
        return Err(unseen());
    }
    let seen = nearer;
    let bare = Angle::from_tangent(height / page_to_eye);
    Ok(DomePoint {
        dome,
        page_to_eye,
        height,
        seen,
        bare,
        enlargement: seen.tangent() / bare.tangent(),
        paraxial: dome.paraxial(eye_to_top),
    })
}

/// Halvings of the angle; each gives one binary digit of it.
const HALVINGS: u32 = 60;
/// Relative difference to the point asked for that is rounding.
const SAME: f64 = 1e-9;

impl RealDome {
    /// The dome as a train, page to air: glass on the print, and the power of the top.
    ///
    /// ```
    /// use arcminute_core::{optics::RealDome, unit::Length};
    /// let hemisphere = RealDome { radius: Length::from_mm(30.0), thickness: Length::from_mm(30.0), index: 1.49 };
    /// // The power of its top is 0.49/0.030 m = 16.33 D, and the print looks 1.49 times larger (computed).
    /// let matrix = hemisphere.train().matrix();
    /// assert!((matrix.c.dioptres() + 16.33).abs() < 0.005);
    /// assert!((1.0 / matrix.d - 1.49).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn train(&self) -> Train {
        let power = Vergence::from_dioptres((self.index - 1.0) / self.radius.m());
        let glass = Element::Glass { thickness: self.thickness, index: self.index };
        Train::new([glass, Element::Lens { power, clear_diameter: None }])
    }

    fn paraxial(&self, eye_to_top: Length) -> f64 {
        view(&self.train().to_eye(eye_to_top), Sight::At(Length::ZERO)).enlargement
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn mm(millimetres: f64) -> Length {
        Length::from_mm(millimetres)
    }
    fn hemisphere() -> RealDome {
        RealDome { radius: mm(30.0), thickness: mm(30.0), index: 1.49 }
    }

    #[test]
    fn angles_and_enlargement_belong_together() {
        let seen = dome_at(hemisphere(), mm(400.0), mm(20.0)).expect("within the dome");
        assert!((seen.bare.tangent() - 0.05).abs() < 1e-15, "{seen:?}");
        assert!((seen.seen.tangent() / seen.bare.tangent() - seen.enlargement).abs() < 1e-15, "{seen:?}");
    }

    #[test]
    fn what_the_eye_cannot_see_is_told() {
        let told = "point of the page `29.9 mm` has no solution: the eye sees no such point of the page";
        let tall = RealDome { thickness: mm(45.0), ..hemisphere() };
        let error = dome_at(tall, mm(400.0), mm(29.9)).expect_err("the top turns away before");
        assert_eq!(error.to_string(), told);
        assert_eq!(error.hint().to_string(), "change one of the values it depends on");
        let (nan, infinite) = (f64::NAN, f64::INFINITY);
        for (eye, height) in [
            (30.0, 5.0),
            (20.0, 5.0),
            (-40.0, 5.0),
            (nan, 5.0),
            (infinite, 5.0),
            (400.0, 0.0),
            (400.0, -5.0),
            (400.0, nan),
            (400.0, infinite),
        ] {
            let seen = dome_at(hemisphere(), mm(eye), mm(height));
            assert!(seen.is_err(), "eye {eye} mm over the page, point at {height} mm: {seen:?}");
        }
        assert!(dome_at(hemisphere(), mm(30.1), mm(0.1)).is_ok(), "just over the top");
        let flat = RealDome { radius: mm(0.0), ..hemisphere() };
        let error = dome_at(flat, mm(400.0), mm(5.0)).expect_err("no radius");
        assert_eq!(error.to_string(), "dome radius `0 mm` is not possible");
        assert_eq!(error.hint().to_string(), "use 2 to 200 mm");
        let thin = RealDome { thickness: mm(f64::NAN), ..hemisphere() };
        assert!(dome_at(thin, mm(400.0), mm(5.0)).is_err(), "no thickness");
        let air = RealDome { index: 0.5, ..hemisphere() };
        assert!(dome_at(air, mm(400.0), mm(5.0)).is_err(), "no such index");
    }
}
