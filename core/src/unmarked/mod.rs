//! The power of a device that carries no mark, from what can be measured at a desk, and what a misreading makes of it.
//!
//! ```text
//!   telescope set for far:  objective D_o ─► exit pupil E            |M| = D_o / E
//!   magnifier over squares: n squares beside the lens fall on m in it   n/m, distances ─► F
//!   lens against trial lenses held to one face:                      F_v = −F_trial, that face's vertex power
//!   stand: height u, emergent vergence L' at the lens:               F = 1/u + L',  ER = 1 / (1 − u·F)
//!   image of a lamp: larger or smaller by m at distance x:           F = (1 + 1/m) / x
//! ```
//!
//! Each record holds the value and what it would be with every length misread by half a millimetre the one way and the
//! other. Never point a lens or a telescope at the sun: not to measure it either. It burns eyes and paper.
//!
//! Then read [`crate::tolerance`] and [`crate::delivery`]: whether a finished lens is the one that was ordered.

mod lens;
mod stand;
mod telescope;

pub use lens::{LampImage, Neutralised, SquaresCompared, by_lamp_image, by_neutralising, by_squares};
pub use stand::{StandMeasured, by_stand_height};
pub use telescope::{ExitPupilPower, by_exit_pupil, exit_pupil_reading};

use crate::bounds;
use crate::error::{Error, Why};
use crate::unit::Length;

/// Misreading that every record shows the effect of, either way.
///
/// ```
/// assert_eq!(arcminute_core::unmarked::misreading().mm(), 0.5);
/// ```
#[must_use]
pub fn misreading() -> Length {
    Length::from_mm(0.5)
}

/// A length that was measured at the desk: above zero and possible.
fn measured(length: Length) -> Result<f64, Error> {
    bounds::MEASURED_LENGTH.check(length.mm())?;
    Ok(length.m())
}

/// Least and greatest of what a sum gives for both ends of each misread length; `None` where one end has no answer.
fn spread<const LENGTHS: usize>(
    lengths: [f64; LENGTHS],
    sum: impl Fn([f64; LENGTHS]) -> f64,
) -> Option<(f64, f64)> {
    let off = misreading().m();
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for ends in 0..1_u32.checked_shl(u32::try_from(LENGTHS).ok()?)? {
        let mut bit = ends;
        let misread = lengths.map(|length| {
            let sign = if bit & 1 == 0 { -1.0 } else { 1.0 };
            bit >>= 1;
            length + sign * off
        });
        let value = sum(misread);
        if !(value.is_finite() && misread.iter().all(|length| 0.0 < *length)) {
            return None;
        }
        (least, most) = (least.min(value), most.max(value));
    }
    Some((least, most))
}

fn no_solution(quantity: &'static str, found: core::fmt::Arguments<'_>, because: &'static str) -> Error {
    Error::about(quantity, found, Why::NoSolution { because })
}
