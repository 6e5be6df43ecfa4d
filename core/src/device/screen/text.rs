//! How far to zoom text on a screen.
//!
//! What size the text has at 100 % is found in [`print`](crate::print): [`size_of_pixels`](crate::print::size_of_pixels).
//! Zooming makes lines short; moving the screen nearer does not.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
#[cfg(doc)]
use crate::source;
use crate::unit::{Angle, Length, PrintSize};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// The angle of the reference pixel: 1/96 inch at 28 inches. Source: [`source::CSS_VALUES`].
///
/// ```
/// // 0.0213 degrees, as printed in the specification.
/// assert!((arcminute_core::device::css_reference_pixel().degrees() - 0.0213).abs() < 5e-5);
/// ```
#[must_use]
pub fn css_reference_pixel() -> Angle {
    Angle::subtended(crate::print::css_pixel(), Length::from_inches(28.0))
}

/// The zoom that a size of print asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ZoomNeeded {
    /// Size of the text on this screen at 100 %.
    pub at_full_size: PrintSize,
    /// Size wanted on the screen.
    pub wanted: PrintSize,
    /// Zoom, 1 for 100 %; a pure ratio.
    pub zoom: f64,
}

/// The zoom at which text that has this size at 100 % has the size wanted.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for a size of print or a zoom that is not possible.
///
/// ```
/// use arcminute_core::device::zoom_needed;
/// use arcminute_core::print::{css_pixel, size_of_pixels, typeface};
/// use arcminute_core::unit::PrintSize;
/// let text = size_of_pixels(16.0, css_pixel(), typeface::TIMES.ratio)?;
/// // 10 arcmin with a reserve of 2 from 50 cm need 10 M: 7.6 times (computed).
/// let needed = zoom_needed(text.size, PrintSize::from_m_units(10.0))?;
/// assert!((needed.zoom - 7.6).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn zoom_needed(at_full_size: PrintSize, wanted: PrintSize) -> Result<ZoomNeeded, Error> {
    bounds::PRINT_M.check(at_full_size.m_units())?;
    bounds::PRINT_M.check(wanted.m_units())?;
    let zoom = bounds::ENLARGEMENT.check(wanted / at_full_size)?;
    Ok(ZoomNeeded { at_full_size, wanted, zoom })
}

#[cfg(feature = "alloc")]
impl Explain for ZoomNeeded {
    fn steps(&self) -> Vec<Step> {
        let print = |symbol, size: PrintSize| Named::new(symbol, size.m_units(), Unit::PrintM);
        alloc::vec![Step::formula(
            &formula::ZOOM_NEEDED,
            Named::new("zoom", self.zoom, Unit::Times),
            [print("P_wanted", self.wanted), print("P", self.at_full_size)],
        )]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;

    fn zoom(at_full_size: f64, wanted: f64) -> Result<ZoomNeeded, Error> {
        zoom_needed(PrintSize::from_m_units(at_full_size), PrintSize::from_m_units(wanted))
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for wanted in [0.5, 1.3, 10.0] {
            let needed = zoom(1.3, wanted)?;
            assert_eq!(needed.steps().len(), 1);
            assert_eq!(needed.steps().first().map(Step::check), Some(Ok(())), "{wanted} M");
            assert!((needed.zoom * 1.3 - wanted).abs() < 1e-12, "{needed:?}");
        }
        Ok(())
    }

    #[test]
    fn what_is_no_text_is_refused() {
        for (at_full_size, wanted, refused) in [
            (0.0, 10.0, "print size `0 M` is not possible; use 0.1 to 60 M"),
            (1.3, 0.0, "print size `0 M` is not possible; use 0.1 to 60 M"),
            (0.1, 30.0, "enlargement `300 times` is not possible; use 0.05 to 200 times"),
        ] {
            let error = zoom(at_full_size, wanted).expect_err(refused);
            assert_eq!(format!("{error}; {}", error.hint()), refused);
        }
    }
}
