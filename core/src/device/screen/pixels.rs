//! How fine a screen and a camera have to be.

use crate::bounds;
use crate::device::CHARACTER_WIDTH_PER_M;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
#[cfg(doc)]
use crate::source;
use crate::unit::{Angle, Length, PrintSize};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Samples across a character, and as many down, that sampled text needs when its letters are small (0.1 degrees).
///
/// Source: [`source::LEGGE_1985`], normal sight.
pub const SAMPLES_FOR_SMALL_LETTERS: f64 = 4.0;
/// Samples across a character, and as many down, below which sampled text is too coarse when its letters are large
/// (24 degrees): more than this many are needed.
///
/// Source: [`source::LEGGE_1985`], normal sight.
pub const SAMPLES_FOR_LARGE_LETTERS: f64 = 20.0;

/// Size of one pixel of a screen: its width over the pixels across.
///
/// The real size differs from device to device: lay a card of known width on the screen and count.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for what no screen has.
///
/// ```
/// use arcminute_core::{device::pixel_pitch, unit::Length};
/// // A card of 85.6 mm that covers 428 pixels: 0.2 mm each (computed).
/// assert!((pixel_pitch(Length::from_mm(85.6), 428.0)?.mm() - 0.2).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn pixel_pitch(width: Length, pixels_across: f64) -> Result<Length, Error> {
    bounds::SCREEN_SIDE.check(width.mm())?;
    bounds::PIXELS_ACROSS.check(pixels_across)?;
    Ok(width / pixels_across)
}

/// The coarsest pixels that a reader does not see singly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PixelLimit {
    /// Least detail that the reader sees.
    pub mar: Angle,
    /// Screen to eye.
    pub screen_to_eye: Length,
    /// Pixel that subtends it.
    pub pitch: Length,
    /// Such pixels in one inch; a count.
    pub per_inch: f64,
}

/// The pixel that subtends a reader's least detail from `screen_to_eye`: finer ones show nothing more.
///
/// Source: geometry.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible distance or acuity.
///
/// ```
/// use arcminute_core::{device::pixel_limit, unit::{Angle, Length}};
/// // 1 arcmin at 25 cm: 349 pixels to the inch; a reader of 5 arcmin needs 70 (computed).
/// let per_inch = |mar| pixel_limit(Angle::from_arcmin(mar), Length::from_cm(25.0)).map(|limit| limit.per_inch);
/// assert!((per_inch(1.0)? - 349.0).abs() < 0.5 && (per_inch(5.0)? - 70.0).abs() < 0.5);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn pixel_limit(mar: Angle, screen_to_eye: Length) -> Result<PixelLimit, Error> {
    bounds::LOG_MAR.check(crate::math::log10(mar.arcmin()))?;
    bounds::SCREEN_TO_EYE.check(screen_to_eye.mm())?;
    let pitch = screen_to_eye * mar.tangent();
    Ok(PixelLimit { mar, screen_to_eye, pitch, per_inch: Length::from_inches(1.0) / pitch })
}

/// How finely a camera samples print, and how far its image can usefully be enlarged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CameraSampling {
    /// Size of print.
    pub print: PrintSize,
    /// Size of one pixel of the camera on the print.
    pub pixel_on_print: Length,
    /// Least detail that the reader sees.
    pub mar: Angle,
    /// Screen to eye.
    pub screen_to_eye: Length,
    /// Samples across a character, spaces included; a count.
    pub samples_per_character: f64,
    /// Enlargement at which a sample is as large as the reader's least detail: beyond it, samples grow and no new detail
    /// is seen. A pure ratio.
    pub largest_useful: f64,
}

/// What a camera that samples the print in pixels of this size can show a reader.
///
/// Samples to a character: 1.30 mm for each M of print, over the pixel. What is needed runs from
/// [`SAMPLES_FOR_SMALL_LETTERS`] to beyond [`SAMPLES_FOR_LARGE_LETTERS`]. The largest useful enlargement is chosen here
/// as the one that makes a sample as large as the least detail seen; the reader may stop earlier.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible pixel, print, distance or acuity.
///
/// ```
/// use arcminute_core::device::camera_sampling;
/// use arcminute_core::unit::{Angle, Length, PrintSize};
/// // 1 M print in pixels of 0.1 mm: 13 to a character; for 5 arcmin at 40 cm 5.8x are useful (computed).
/// let (print, pixel) = (PrintSize::from_m_units(1.0), Length::from_mm(0.1));
/// let sampling = camera_sampling(print, pixel, Angle::from_arcmin(5.0), Length::from_cm(40.0))?;
/// assert!((sampling.samples_per_character - 13.0).abs() < 1e-9);
/// assert!((sampling.largest_useful - 5.8).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn camera_sampling(
    print: PrintSize,
    pixel_on_print: Length,
    mar: Angle,
    screen_to_eye: Length,
) -> Result<CameraSampling, Error> {
    bounds::PIXEL_ON_PRINT.check(pixel_on_print.mm())?;
    bounds::PRINT_M.check(print.m_units())?;
    let limit = pixel_limit(mar, screen_to_eye)?;
    Ok(CameraSampling {
        print,
        pixel_on_print,
        mar,
        screen_to_eye,
        samples_per_character: Length::from_mm(CHARACTER_WIDTH_PER_M * print.m_units()) / pixel_on_print,
        largest_useful: limit.pitch / pixel_on_print,
    })
}

#[cfg(feature = "alloc")]
impl Explain for PixelLimit {
    fn steps(&self) -> Vec<Step> {
        let d = Named::new("d", self.screen_to_eye.mm(), Unit::Millimetre);
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let pitch = Named::new("p", self.pitch.mm(), Unit::Millimetre);
        let per_inch = Named::new("ppi", self.per_inch, Unit::Plain);
        alloc::vec![
            Step::formula(&formula::PIXEL_LIMIT, pitch, [d, mar]),
            Step::formula(&formula::PIXELS_PER_INCH, per_inch, [pitch]),
        ]
    }
}

#[cfg(feature = "alloc")]
impl Explain for CameraSampling {
    fn steps(&self) -> Vec<Step> {
        let p = Named::new("p_c", self.pixel_on_print.mm(), Unit::Millimetre);
        let print = Named::new("P", self.print.m_units(), Unit::PrintM);
        let d = Named::new("d", self.screen_to_eye.mm(), Unit::Millimetre);
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let samples = Named::new("n", self.samples_per_character, Unit::Plain);
        let most = Named::new("ER_most", self.largest_useful, Unit::Times);
        alloc::vec![
            Step::formula(&formula::SAMPLES_PER_CHARACTER, samples, [print, p]),
            Step::formula(&formula::LARGEST_USEFUL_ENLARGEMENT, most, [d, mar, p]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn message<T: core::fmt::Debug>(result: Result<T, Error>) -> alloc::string::String {
        let error = result.expect_err("refused");
        format!("{error}; {}", error.hint())
    }
    fn sampling(print: f64, pixel: f64, mar: f64, distance: f64) -> Result<CameraSampling, Error> {
        camera_sampling(PrintSize::from_m_units(print), mm(pixel), Angle::from_arcmin(mar), mm(distance))
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for mar in [1.0, 5.0, 40.0] {
            for distance in [100.0, 400.0] {
                let (limit, camera) = (
                    pixel_limit(Angle::from_arcmin(mar), mm(distance))?,
                    sampling(1.6, 0.08, mar, distance)?,
                );
                assert_eq!((limit.steps().len(), camera.steps().len()), (2, 2));
                for step in limit.steps().into_iter().chain(camera.steps()) {
                    assert_eq!(step.check(), Ok(()), "{mar} arcmin, {distance} mm");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn at_the_largest_useful_enlargement_a_sample_is_the_least_detail() -> Result<(), Error> {
        let camera = sampling(1.0, 0.1, 5.0, 400.0)?;
        let seen = Angle::from_tangent(camera.pixel_on_print * camera.largest_useful / camera.screen_to_eye);
        assert!((seen.arcmin() - 5.0).abs() < 1e-9, "{seen:?}");
        Ok(())
    }

    #[test]
    fn what_is_no_pixel_is_refused() {
        assert_eq!(
            message(pixel_pitch(mm(100.0), 0.0)),
            "pixels across `0` is not possible; use 1 to 100000"
        );
        assert_eq!(
            message(pixel_pitch(mm(0.0), 100.0)),
            "screen side `0 mm` is not possible; use 2 to 5000 mm"
        );
        assert!(message(pixel_limit(Angle::ZERO, mm(400.0))).starts_with("logMAR `-inf` is not possible"));
        assert!(message(pixel_limit(Angle::from_arcmin(5.0), mm(0.0))).starts_with("screen to eye `0 mm`"));
        assert_eq!(
            message(sampling(1.0, 0.0, 5.0, 400.0)),
            "camera pixel on the print `0 mm` is not possible; use 0.0005 to 20 mm"
        );
        assert_eq!(
            message(sampling(0.0, 0.1, 5.0, 400.0)),
            "print size `0 M` is not possible; use 0.1 to 60 M"
        );
        assert!(sampling(1.0, 0.1, f64::NAN, 400.0).is_err(), "no number");
    }
}
