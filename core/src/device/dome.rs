//! A dome: a thick plano-convex magnifier that lies on the print.
//!
//! ```text
//!   image .... page |<-- t, glass -->) top --z--> glasses --s--> eye's entrance pupil
//!     |<------------- v ------------>|
//! ```
//!
//! * A hemisphere enlarges by its index exactly and leaves the image in the page, so it acts as larger print does: no
//!   other focus, both hands free. A taller dome enlarges more, and its image sinks below the page.
//! * Away from the middle the enlargement changes; see [`dome_at`] for rays as they really run.
//! * An advertised 2x to 5x for a dome goes beyond this geometry and will be a label of another kind.
//! * How much brighter a dome makes the print has not been found published, and is not modelled.

use super::{Arrangement, Eye};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{DomePoint, Element, RealDome, Sight, Train, dome_at};
#[cfg(feature = "alloc")]
use crate::source;
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A dome with its flat face on the print.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dome {
    /// Radius, print to top, and index.
    pub solid: RealDome,
    /// Clear diameter of the curved surface.
    pub clear_diameter: Length,
    /// Share of the light it lets through; a pure ratio.
    pub transmittance: f64,
}

/// A block of glass or plastic with one curved face, on the print: what its image is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlockImage {
    /// The block.
    pub solid: RealDome,
    /// Power of the curved surface.
    pub surface_power: Vergence,
    /// Height of the image over height of the print; a pure ratio.
    pub enlargement: f64,
    /// Image to the top, downward.
    pub image_to_top: Length,
    /// Image below the page; above it when negative.
    pub image_below_page: Length,
}

/// The image that a dome, or a bar across its length, shows of the print on which it lies.
///
/// `ER = n/(n − (n − 1)·t/r)`, `v = t/(n − (n − 1)·t/r)`: a hemisphere (t = r) enlarges by n in the page itself, and at
/// the aplanatic height `t = r·(1 + 1/n)` it is n². Source: one surface, paraxial.
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible block; [`Why::NoSolution`] for one that is no part of a sphere, or shows no
/// image on the side of the page.
///
/// ```
/// use arcminute_core::{device::block_image, optics::RealDome, unit::Length};
/// let mm = Length::from_mm;
/// // Acrylic, radius 30 mm, 1.35 radii high: 1.798x, image 8.38 mm below the page (computed).
/// let image = block_image(RealDome { radius: mm(30.0), thickness: mm(40.5), index: 1.49 })?;
/// assert!((image.enlargement - 1.798).abs() < 5e-4);
/// assert!((image.image_below_page.mm() - 8.38).abs() < 5e-3);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn block_image(solid: RealDome) -> Result<BlockImage, Error> {
    let RealDome { radius, thickness, index } = solid;
    bounds::DOME_RADIUS.check(radius.mm())?;
    bounds::LENS_THICKNESS.check(thickness.mm())?;
    bounds::INDEX.check(index)?;
    let refused = |because| {
        Error::about("dome height", format_args!("{} mm", thickness.mm()), Why::NoSolution { because })
    };
    if radius * 2.0 <= thickness {
        return Err(refused("a sphere of this radius is not so high"));
    }
    let surface_power = Vergence::from_dioptres((index - 1.0) / radius.m());
    let path = Train::new(parts(solid, None)).matrix();
    // Of the path from the page: enlargement 1/D, image B/D before the top.
    if path.d < LEAST {
        return Err(refused("the image would be infinitely far"));
    }
    let image_to_top = path.b / path.d;
    Ok(BlockImage {
        solid,
        surface_power,
        enlargement: 1.0 / path.d,
        image_to_top,
        image_below_page: image_to_top - thickness,
    })
}

/// Reciprocal of an enlargement that counts as infinite.
const LEAST: f64 = 1e-6;

/// An image so near to the page counts as in it, in millimetres: what is left is rounding.
#[cfg(feature = "alloc")]
const IN_THE_PAGE: f64 = 1e-3;

/// Glass on the print, and the power of the top.
pub(super) fn parts(solid: RealDome, clear_diameter: Option<Length>) -> [Element; 2] {
    let power = Vergence::from_dioptres((solid.index - 1.0) / solid.radius.m());
    [
        Element::Glass { thickness: solid.thickness, index: solid.index },
        Element::Lens { power, clear_diameter },
    ]
}

/// Height over radius that a dome of this index needs for an enlargement; a pure ratio.
///
/// The inverse of the enlargement: `t/r = n·(1 − 1/ER)/(n − 1)`. One radius enlarges by n; `1 + 1/n` radii, the aplanatic
/// height, by n².
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible index or enlargement; [`Why::NoSolution`] for an enlargement that no dome of
/// this index has.
///
/// ```
/// // An acrylic dome of 1.8x is 1.351 radii high, no hemisphere (computed).
/// let ratio = arcminute_core::device::dome_height_for(1.8, 1.49)?;
/// assert!((ratio - 1.351).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn dome_height_for(enlargement: f64, index: f64) -> Result<f64, Error> {
    bounds::ENLARGEMENT.check(enlargement)?;
    bounds::INDEX.check(index)?;
    let ratio = index * (1.0 - 1.0 / enlargement) / (index - 1.0);
    if 0.0 < ratio && ratio < 2.0 {
        return Ok(ratio);
    }
    let why = Why::NoSolution { because: "no dome of this index has it" };
    Err(Error::about("enlargement", format_args!("{enlargement} times"), why))
}

/// A dome in use.
#[derive(Clone, Debug, PartialEq)]
pub struct DomeInUse {
    /// The dome.
    pub dome: Dome,
    /// Its image.
    pub image: BlockImage,
    /// Top to the spectacle plane.
    pub top_to_spectacle: Length,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Page to the eye's entrance pupil.
    pub page_to_eye: Length,
    /// Power that stands in the spectacle plane.
    pub worn: Vergence,
    /// Distance at which the bare print would look as large, to the eye's entrance pupil.
    pub equivalent_viewing_distance: Length,
    /// Page to eye over that distance: how much larger than bare print in the same place. Less than the enlargement where
    /// the image sinks. A pure ratio.
    pub gain: f64,
    /// Demand at the eye's entrance pupil.
    pub focus_demand: Vergence,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// A dome on the page, the eye's entrance pupil `page_to_eye` above the page.
///
/// The field is that of paraxial optics; a hemisphere shows more of the page, compressed, towards its edge.
///
/// # Errors
/// Those of [`block_image`]; [`Why::NoSolution`] when the dome would reach into the glasses.
///
/// ```
/// use arcminute_core::device::{Dome, Eye, lay_dome};
/// use arcminute_core::{optics::RealDome, unit::{Length, LogMar}};
/// let mm = Length::from_mm;
/// let dome = Dome {
///     solid: RealDome { radius: mm(30.0), thickness: mm(30.0), index: 1.49 },
///     clear_diameter: mm(60.0),
///     transmittance: 1.0,
/// };
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// // A hemisphere, eye 40 cm from the page: 268.5 mm, and the focus of the page itself (computed).
/// let used = lay_dome(dome, &eye, Length::from_cm(40.0))?;
/// assert!((used.equivalent_viewing_distance.mm() - 268.5).abs() < 0.05);
/// assert!((used.focus_demand.dioptres() - 2.5).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn lay_dome(dome: Dome, eye: &Eye, page_to_eye: Length) -> Result<DomeInUse, Error> {
    let image = block_image(dome.solid)?;
    let top_to_spectacle = above_top(dome.solid, eye, page_to_eye)?;
    let worn = eye.worn_power();
    let [glass, top] = parts(dome.solid, Some(dome.clear_diameter));
    let train = Train::new([
        glass,
        top,
        Element::Gap(top_to_spectacle),
        Element::Lens { power: worn, clear_diameter: None },
    ])
    .to_eye(eye.spectacle_to_eye);
    let arrangement = Arrangement {
        hand_room: Some(Length::ZERO),
        window: Some(dome.clear_diameter),
        transmittance: dome.transmittance,
        ..Arrangement::of(train, Sight::At(Length::ZERO))
    };
    let seen = arrangement.view();
    let equivalent_viewing_distance = seen.equivalent_viewing_distance.unwrap_or(page_to_eye);
    Ok(DomeInUse {
        dome,
        image,
        top_to_spectacle,
        spectacle_to_eye: eye.spectacle_to_eye,
        page_to_eye,
        worn,
        equivalent_viewing_distance,
        gain: page_to_eye / equivalent_viewing_distance,
        focus_demand: seen.focus_demand,
        arrangement,
    })
}

/// What is left of the distance to the eye above the top and before the glasses.
pub(super) fn above_top(solid: RealDome, eye: &Eye, page_to_eye: Length) -> Result<Length, Error> {
    let left = page_to_eye - eye.spectacle_to_eye - solid.thickness;
    if Length::ZERO <= left && left.is_finite() {
        return Ok(left);
    }
    let why = Why::NoSolution { because: "the magnifier would reach into the glasses" };
    Err(Error::about("page to eye", format_args!("{} mm", page_to_eye.mm()), why))
}

impl DomeInUse {
    /// What the eye sees of a point of the page at `height` from the middle, by rays as they really run; glasses are left
    /// out.
    ///
    /// # Errors
    /// [`Why::NoSolution`] when the eye sees no such point of the page.
    ///
    /// ```
    /// use arcminute_core::device::{Dome, Eye, lay_dome};
    /// use arcminute_core::{optics::RealDome, unit::{Length, LogMar}};
    /// let mm = Length::from_mm;
    /// let solid = RealDome { radius: mm(30.0), thickness: mm(30.0), index: 1.49 };
    /// let dome = Dome { solid, clear_diameter: mm(60.0), transmittance: 1.0 };
    /// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// // A hemisphere, 15 mm from its middle: 1.447 in place of 1.490 (computed).
    /// let point = lay_dome(dome, &eye, mm(400.0))?.at(mm(15.0))?;
    /// assert!((point.enlargement - 1.447).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn at(&self, height: Length) -> Result<DomePoint, Error> {
        dome_at(self.dome.solid, self.page_to_eye, height)
    }
}

#[cfg(feature = "alloc")]
impl Explain for BlockImage {
    fn steps(&self) -> Vec<Step> {
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let n = Named::new("n", self.solid.index, Unit::Plain);
        let (r, t) = (mm("r", self.solid.radius), mm("t", self.solid.thickness));
        let power = Named::new("F_s", self.surface_power.dioptres(), Unit::Dioptre);
        let er = Named::new("ER", self.enlargement, Unit::Times);
        let v = mm("v", self.image_to_top);
        let below = mm("b", self.image_below_page);
        alloc::vec![
            Step::formula(&formula::DOME_SURFACE, power, [n, r]),
            Step::formula(&formula::DOME_ENLARGEMENT, er, [n, t, r]),
            Step::formula(&formula::DOME_IMAGE, v, [n, t, r]),
            if crate::math::abs(below.value) < IN_THE_PAGE {
                Step::Rule { because: "the-image-lies-in-the-page", source: &source::PARAXIAL }
            } else {
                Step::formula(&formula::DOME_IMAGE_BELOW_PAGE, below, [n, t, r])
            },
        ]
    }
}

#[cfg(feature = "alloc")]
impl Explain for DomeInUse {
    fn steps(&self) -> Vec<Step> {
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let (z, v) = (mm("z", self.top_to_spectacle), mm("v", self.image.image_to_top));
        let s = mm("s", self.spectacle_to_eye);
        let f_w = Named::new("F_w", self.worn.dioptres(), Unit::Dioptre);
        let er = Named::new("ER", self.image.enlargement, Unit::Times);
        let evd = mm("EVD", self.equivalent_viewing_distance);
        let a = Named::new("A", self.focus_demand.dioptres(), Unit::Dioptre);
        let gain = Named::new("M", self.gain, Unit::Times);
        let mut steps = self.image.steps();
        steps.push(Step::formula(&formula::STAND_EVD_BEHIND_GLASSES, evd, [z, v, s, f_w, er]));
        steps.push(Step::formula(&formula::STAND_DEMAND_BEHIND_GLASSES, a, [z, v, s, f_w]));
        steps.push(Step::formula(&formula::GAIN_IN_PLACE, gain, [mm("d", self.page_to_eye), evd]));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::Worn;
    use crate::unit::LogMar;
    use alloc::format;

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn dome(thickness: f64, index: f64) -> Dome {
        Dome {
            solid: RealDome { radius: mm(30.0), thickness: mm(thickness), index },
            clear_diameter: mm(58.0),
            transmittance: 0.92,
        }
    }
    fn eye(worn: Worn) -> Eye {
        Eye {
            sphere: Vergence::from_dioptres(-3.0),
            worn,
            ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
        }
    }
    fn message<T: core::fmt::Debug>(result: Result<T, Error>) -> alloc::string::String {
        let error = result.expect_err("refused");
        format!("{error}; {}", error.hint())
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for worn in [Worn::Nothing, Worn::Distance, Worn::Near { add: Vergence::from_dioptres(2.0) }] {
            for thickness in [5.0, 29.0, 30.0, 40.5, 55.0] {
                for distance in [80.0, 400.0] {
                    let used = lay_dome(dome(thickness, 1.49), &eye(worn), mm(distance))?;
                    assert_eq!(used.steps().len(), 7);
                    for step in used.steps() {
                        assert_eq!(step.check(), Ok(()), "{worn:?} {thickness} mm {distance} mm");
                    }
                }
            }
        }
        Ok(())
    }

    #[test]
    fn only_a_hemisphere_leaves_the_image_in_the_page() -> Result<(), Error> {
        // 0.01 mm of height move the image by about 0.007 mm, 0.001 mm by less than a micrometre.
        for (thickness, in_page) in
            [(29.99, false), (29.999, true), (30.0, true), (30.001, true), (30.01, false), (40.5, false)]
        {
            let image = block_image(dome(thickness, 1.49).solid)?;
            assert_eq!(0.0 < image.image_below_page.mm(), 30.0 < thickness, "{thickness} mm: {image:?}");
            let said = image.steps().iter().any(|step| matches!(step, Step::Rule { .. }));
            assert_eq!(said, in_page, "{thickness} mm: {image:?}");
        }
        Ok(())
    }

    #[test]
    fn it_lies_on_the_print() -> Result<(), Error> {
        let used = lay_dome(dome(30.0, 1.49), &eye(Worn::Distance), mm(400.0))?;
        assert!((used.top_to_spectacle.mm() - 355.0).abs() < 1e-9, "400 less 30 and 15");
        assert_eq!(used.arrangement.hand_room, Some(Length::ZERO), "no pen goes under it");
        assert_eq!(used.arrangement.window, Some(mm(58.0)), "no more than it covers");
        assert!((used.arrangement.transmittance - 0.92).abs() < 1e-15, "that of the dome");
        assert!((used.image.surface_power.dioptres() - 0.49 / 0.03).abs() < 1e-9, "(n - 1)/r");
        let point = used.at(mm(15.0))?;
        assert!((point.enlargement - 1.447).abs() < 5e-4, "half way to the edge: {point:?}");
        Ok(())
    }

    #[test]
    fn what_is_no_dome_is_refused() {
        let hint = "change one of the values it depends on";
        assert_eq!(
            message(block_image(dome(60.0, 1.49).solid)),
            format!("dome height `60 mm` has no solution: a sphere of this radius is not so high; {hint}")
        );
        assert!(block_image(dome(59.9, 1.49).solid).is_ok(), "just within the sphere");
        // n/(n - 1) is 1.909 at 2.1, so the image of 1.95 radii runs away.
        assert_eq!(
            message(block_image(dome(58.5, 2.1).solid)),
            format!("dome height `58.5 mm` has no solution: the image would be infinitely far; {hint}")
        );
        assert_eq!(
            message(block_image(RealDome { radius: mm(0.0), ..dome(30.0, 1.49).solid })),
            "dome radius `0 mm` is not possible; use 2 to 200 mm"
        );
        for solid in [dome(f64::NAN, 1.49).solid, dome(30.0, 0.9).solid] {
            assert!(block_image(solid).is_err(), "{solid:?}");
        }
        let inside = "page to eye `44.9 mm` has no solution: the magnifier would reach into the glasses";
        assert_eq!(
            message(lay_dome(dome(30.0, 1.49), &eye(Worn::Distance), mm(44.9))),
            format!("{inside}; {hint}")
        );
        assert!(lay_dome(dome(30.0, 1.49), &eye(Worn::Distance), mm(45.0)).is_ok(), "it just touches");
        assert!(lay_dome(dome(30.0, 1.49), &eye(Worn::Distance), mm(f64::NAN)).is_err(), "no number");
    }

    #[test]
    fn heights_for_an_enlargement() -> Result<(), Error> {
        assert!((dome_height_for(1.49, 1.49)? - 1.0).abs() < 1e-12, "a hemisphere");
        let refused = "has no solution: no dome of this index has it; change one of the values it depends on";
        assert_eq!(message(dome_height_for(1.0, 1.49)), format!("enlargement `1 times` {refused}"));
        // Two radii would be 2.92 times.
        assert_eq!(message(dome_height_for(2.93, 1.49)), format!("enlargement `2.93 times` {refused}"));
        assert!(dome_height_for(2.91, 1.49).is_ok(), "just below two radii");
        // At an index of 1.5 two radii are 3 times, and that is the whole sphere, which has no flat face.
        assert_eq!(message(dome_height_for(3.0, 1.5)), format!("enlargement `3 times` {refused}"));
        assert_eq!(message(dome_height_for(1.5, 1.0)), format!("enlargement `1.5 times` {refused}"));
        assert!(dome_height_for(f64::NAN, 1.49).is_err() && dome_height_for(1.5, 0.0).is_err());
        Ok(())
    }
}
