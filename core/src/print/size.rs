//! Points and pixels to M units, and points back.

use super::point::PointSystem;
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Length, PrintSize};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Size of type set in points or in nominal pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypeSize {
    /// How many points or pixels the body has.
    pub count: f64,
    /// One of them.
    pub one: Length,
    /// Height of the letters over the body; a pure ratio.
    pub ratio: f64,
    /// Height of the letters: x-height of lower case or height of capitals.
    pub height: Length,
    /// The size.
    pub size: PrintSize,
}

impl TypeSize {
    pub(super) fn of(count: f64, one: Length, ratio: f64) -> Result<Self, Error> {
        bounds::X_HEIGHT_RATIO.check(ratio)?;
        let height = one * (count * ratio);
        let size = checked(PrintSize::of_x_height(height))?;
        Ok(Self { count, one, ratio, height, size })
    }
}

/// The size itself if it is possible.
pub(super) fn checked(size: PrintSize) -> Result<PrintSize, Error> {
    bounds::PRINT_M.check(size.m_units())?;
    Ok(size)
}

/// Size of type of so many points, `h = points · point · ratio`.
///
/// * `ratio`: x-height (or height of capitals) over the body; [`typeface`](super::typeface) lists some.
///
/// Geometry; a point size without a typeface is good to about 15 % only.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::PRINT_POINTS`], [`bounds::X_HEIGHT_RATIO`] or, for the
/// size, [`bounds::PRINT_M`].
///
/// # Example
/// ```
/// use arcminute_core::print::{PointSystem, size_of_type, typeface};
/// // 8-point Times is 0.873 M, not 1 M (computed).
/// let eight = size_of_type(8.0, PointSystem::Desktop, typeface::TIMES.ratio)?;
/// assert!((eight.size.m_units() - 0.873).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn size_of_type(points: f64, system: PointSystem, ratio: f64) -> Result<TypeSize, Error> {
    bounds::PRINT_POINTS.check(points)?;
    TypeSize::of(points, system.point(), ratio)
}

/// How many points give this size; the inverse of [`size_of_type`].
///
/// # Errors
/// As [`size_of_type`].
///
/// # Example
/// ```
/// use arcminute_core::{print::{PointSystem, points_for, typeface}, unit::PrintSize};
/// // 1 M takes 9.16 points of Times (computed).
/// let one_m = points_for(PrintSize::from_m_units(1.0), PointSystem::Desktop, typeface::TIMES.ratio)?;
/// assert!((one_m.count - 9.16).abs() < 5e-3);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn points_for(size: PrintSize, system: PointSystem, ratio: f64) -> Result<TypeSize, Error> {
    let height = checked(size)?.x_height();
    bounds::X_HEIGHT_RATIO.check(ratio)?;
    let count = bounds::PRINT_POINTS.check(system.points(height / ratio))?;
    Ok(TypeSize { count, one: system.point(), ratio, height, size })
}

#[cfg(feature = "alloc")]
impl Explain for TypeSize {
    fn steps(&self) -> Vec<Step> {
        let height = Named::new("h", self.height.mm(), Unit::Millimetre);
        alloc::vec![
            Step::formula(
                &formula::TYPE_HEIGHT,
                height,
                [
                    Named::new("n", self.count, Unit::Plain),
                    Named::new("p", self.one.mm(), Unit::Millimetre),
                    Named::new("k", self.ratio, Unit::Plain),
                ],
            ),
            size_step(self.size, height),
        ]
    }
}

#[cfg(feature = "alloc")]
pub(super) fn size_step(size: PrintSize, height: Named) -> Step {
    let size = Named::new("P", size.m_units(), Unit::PrintM);
    Step::formula(&formula::PRINT_OF_LETTER, size, [height])
}

/// Size of text on a screen, of so many pixels of style sheets.
///
/// * `pixel`: side of one as it is shown, zoom included: at best as measured with a card of known width, else
///   [`css_pixel`](super::css_pixel) times the zoom.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::TEXT_SIZE`], [`bounds::SCREEN_PIXEL`],
/// [`bounds::X_HEIGHT_RATIO`] or [`bounds::PRINT_M`].
///
/// # Example
/// ```
/// use arcminute_core::print::{css_pixel, size_of_pixels};
/// // 16 pixels of Times at 200 %: 2.620 M (computed).
/// let text = size_of_pixels(16.0, css_pixel() * 2.0, 0.45)?;
/// assert!((text.size.m_units() - 2.620).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn size_of_pixels(pixels: f64, pixel: Length, ratio: f64) -> Result<TypeSize, Error> {
    bounds::TEXT_SIZE.check(pixels)?;
    bounds::SCREEN_PIXEL.check(pixel.mm())?;
    TypeSize::of(pixels, pixel, ratio)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::print::css_pixel;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for system in PointSystem::ALL {
            for ratio in [0.423, 0.5, 0.727] {
                for points in [4.0, 8.0, 12.0, 80.0] {
                    let size = size_of_type(points, system, ratio)?;
                    let mut steps = size.steps();
                    steps.extend(points_for(size.size, system, ratio)?.steps());
                    steps.extend(size_of_pixels(points, css_pixel() * 1.5, ratio)?.steps());
                    assert_eq!(steps.len(), 6);
                    for step in steps {
                        assert_eq!(step.check(), Ok(()), "{points} points, {system:?}, {ratio}");
                    }
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_is_no_size_is_refused() {
        let m = PrintSize::from_m_units;
        let message = |result: Result<TypeSize, Error>| {
            let error = result.expect_err("refused");
            (error.to_string(), error.hint().to_string())
        };
        let desktop = PointSystem::Desktop;
        let (said, hint) = message(size_of_type(0.5, desktop, 0.5));
        assert_eq!(said, "print size `0.5 points` is not possible");
        assert_eq!(hint, "use 1 to 400 points");
        let (said, hint) = message(size_of_type(12.0, desktop, 1.2));
        assert_eq!(said, "x-height over text size `1.2` is not possible");
        assert_eq!(hint, "use 0.2 to 1");
        let (said, _) = message(size_of_type(f64::NAN, desktop, 0.5));
        assert_eq!(said, "print size `NaN points` is not possible");
        let (said, hint) = message(size_of_type(1.0, desktop, 0.2));
        assert!(said.starts_with("print size `0.048"), "{said}");
        assert_eq!(hint, "use 0.1 to 60 M");
        let (said, _) = message(points_for(m(0.0), desktop, 0.5));
        assert_eq!(said, "print size `0 M` is not possible");
        let (said, _) = message(points_for(m(60.0), desktop, 0.5));
        assert!(said.ends_with("points` is not possible"), "{said}");
        assert!(points_for(m(1.0), desktop, 0.0).is_err(), "no ratio");
    }

    #[test]
    fn screens_have_their_limits() {
        let error = size_of_pixels(0.5, css_pixel(), 0.5).expect_err("half a pixel");
        assert_eq!(error.to_string(), "text size `0.5 px` is not possible");
        assert_eq!(error.hint().to_string(), "use 1 to 2000 px");
        let error = size_of_pixels(16.0, Length::ZERO, 0.5).expect_err("no screen");
        assert_eq!(error.to_string(), "side of a pixel `0 mm` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.005 to 100 mm");
        assert!(size_of_pixels(16.0, css_pixel(), 0.1).is_err(), "no such typeface");
        assert!(size_of_pixels(1000.0, css_pixel(), 0.5).is_err(), "91 M");
    }
}
