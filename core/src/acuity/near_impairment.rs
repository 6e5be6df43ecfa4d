//! Whether near vision is impaired, by the wording of the World Health Organization.

use super::ask::Ask;
use crate::bounds;
use crate::error::Error;
use crate::unit::{Length, PrintSize};

/// The smallest print read, as labelled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NearPrint {
    /// N notation, the number of points: 6 is N6.
    Points(f64),
    /// M units.
    M(PrintSize),
}

/// Whether near vision is impaired by the wording of the World Health Organization.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NearImpairment {
    /// Worse than N6 or 0.8 M.
    Impaired,
    /// N6 or 0.8 M, or better.
    NotImpaired,
    /// Not read at 40 cm.
    CannotTell {
        /// What would tell.
        ask: Ask,
    },
}

/// Whether the smallest print read at 40 cm, with the near correction in use, is larger than N6 or 0.8 M.
///
/// * `distance`: eye to print. The rule is worded for 40 cm, which here is 39.5 to 40.5; at another distance it is asked.
///
/// Source: [`source::WHO_NEAR`](crate::source::WHO_NEAR), which prints `M.08` for M0.8.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) for a size outside [`bounds::PRINT_POINTS`] or [`bounds::PRINT_M`], or a
/// distance outside [`bounds::CHART_DISTANCE`].
///
/// # Example
/// ```
/// use arcminute_core::acuity::{NearImpairment, NearPrint, near_impairment};
/// use arcminute_core::unit::Length;
/// let forty = Length::from_cm(40.0);
/// assert_eq!(near_impairment(NearPrint::Points(6.0), forty)?, NearImpairment::NotImpaired);
/// assert_eq!(near_impairment(NearPrint::Points(8.0), forty)?, NearImpairment::Impaired);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn near_impairment(print: NearPrint, distance: Length) -> Result<NearImpairment, Error> {
    let worse = match print {
        NearPrint::Points(points) => 6.0 + 1e-9 < bounds::PRINT_POINTS.check(points)?,
        NearPrint::M(size) => 0.8 + 1e-9 < bounds::PRINT_M.check(size.m_units())?,
    };
    bounds::CHART_DISTANCE.check(distance.m())?;
    Ok(if (distance - Length::from_cm(40.0)).abs().cm() > 0.5 + 1e-9 {
        NearImpairment::CannotTell { ask: Ask::PrintAtFortyCentimetres }
    } else if worse {
        NearImpairment::Impaired
    } else {
        NearImpairment::NotImpaired
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn near_print_is_held_against_its_own_label() {
        let m = |size| NearPrint::M(PrintSize::from_m_units(size));
        let at = |print, cm| near_impairment(print, Length::from_cm(cm));
        let asked = Ok(NearImpairment::CannotTell { ask: Ask::PrintAtFortyCentimetres });
        for (print, cm, wanted) in [
            (NearPrint::Points(6.0), 40.0, Ok(NearImpairment::NotImpaired)),
            (NearPrint::Points(6.1), 40.0, Ok(NearImpairment::Impaired)),
            (NearPrint::Points(5.0), 40.0, Ok(NearImpairment::NotImpaired)),
            (m(0.8), 40.0, Ok(NearImpairment::NotImpaired)),
            (m(0.81), 40.0, Ok(NearImpairment::Impaired)),
            (m(1.0), 39.5, Ok(NearImpairment::Impaired)),
            (m(1.0), 40.5, Ok(NearImpairment::Impaired)),
            (m(1.0), 39.4, asked.clone()),
            (m(1.0), 40.6, asked.clone()),
        ] {
            assert_eq!(at(print, cm), wanted, "{print:?} at {cm} cm");
        }
        let error = at(NearPrint::Points(0.0), 40.0).expect_err("no print");
        assert_eq!(error.to_string(), "print size `0 points` is not possible");
        let error = at(m(f64::NAN), 40.0).expect_err("no print");
        assert_eq!(error.to_string(), "print size `NaN M` is not possible");
        assert!(at(m(1.0), 0.0).is_err(), "no distance");
    }
}
