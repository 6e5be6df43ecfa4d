//! How far print lies above what is just read or just seen.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{LogContrast, LogMar, PrintSize};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Print over the smallest print read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AcuityReserve {
    /// The print.
    pub print: PrintSize,
    /// Smallest print read at the same distance, or through the same aid.
    pub threshold: PrintSize,
    /// Their ratio; 1 is just read.
    pub reserve: f64,
    /// The same as a difference of logarithms.
    pub log: LogMar,
}

/// How many times larger print is than the smallest print read, both at the same distance.
///
/// Definition: Whittaker & Lovie-Kitchin 1993, [`source::WHITTAKER_1993`](crate::source::WHITTAKER_1993).
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::PRINT_M`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::acuity_reserve, unit::PrintSize};
/// // Twice the threshold is a reserve of 0.301 log (definition).
/// let m = PrintSize::from_m_units;
/// assert!((acuity_reserve(m(1.6), m(0.8))?.log.log() - 0.301).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn acuity_reserve(print: PrintSize, threshold: PrintSize) -> Result<AcuityReserve, Error> {
    bounds::PRINT_M.check(print.m_units())?;
    bounds::PRINT_M.check(threshold.m_units())?;
    let reserve = print / threshold;
    Ok(AcuityReserve { print, threshold, reserve, log: LogMar::from_log(math::log10(reserve)) })
}

#[cfg(feature = "alloc")]
impl Explain for AcuityReserve {
    fn steps(&self) -> Vec<Step> {
        let reserve = Named::new("AR", self.reserve, Unit::Times);
        let print = Named::new("P", self.print.m_units(), Unit::PrintM);
        let threshold = Named::new("P_t", self.threshold.m_units(), Unit::PrintM);
        let log = Named::new("log_AR", self.log.log(), Unit::LogMar);
        alloc::vec![
            Step::formula(&formula::ACUITY_RESERVE, reserve, [print, threshold]),
            Step::formula(&formula::LOG_RESERVE, log, [reserve]),
        ]
    }
}

/// The print that leaves a reserve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrintWithReserve {
    /// Smallest print read.
    pub threshold: PrintSize,
    /// Reserve to be kept; a pure ratio.
    pub reserve: f64,
    /// The print.
    pub print: PrintSize,
}

/// The print that leaves this reserve at the distance of the threshold; the inverse of [`acuity_reserve`].
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::RESERVE`] or [`bounds::PRINT_M`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::print_with_reserve, unit::PrintSize};
/// assert_eq!(print_with_reserve(PrintSize::from_m_units(0.8), 2.0)?.print.m_units(), 1.6);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn print_with_reserve(threshold: PrintSize, reserve: f64) -> Result<PrintWithReserve, Error> {
    bounds::PRINT_M.check(threshold.m_units())?;
    bounds::RESERVE.check(reserve)?;
    let print = threshold * reserve;
    bounds::PRINT_M.check(print.m_units())?;
    Ok(PrintWithReserve { threshold, reserve, print })
}

#[cfg(feature = "alloc")]
impl Explain for PrintWithReserve {
    fn steps(&self) -> Vec<Step> {
        let print = Named::new("P", self.print.m_units(), Unit::PrintM);
        let threshold = Named::new("P_t", self.threshold.m_units(), Unit::PrintM);
        let reserve = Named::new("R", self.reserve, Unit::Times);
        alloc::vec![Step::formula(&formula::PRINT_WITH_RESERVE, print, [threshold, reserve])]
    }
}

/// What a contrast reserve does to reading.
///
/// Limits of a conference review, guidelines and not criteria:
/// [`source::LETTER_THRESHOLDS`](crate::source::LETTER_THRESHOLDS).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ContrastLimit {
    /// Below 4: it slows reading markedly and costs accuracy.
    MarkedlySlow,
    /// 4 to below 10: it slows reading.
    Slow,
    /// 10 and more: contrast does not limit.
    Enough,
}

/// Contrast over the least contrast seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ContrastReserve {
    /// Weber contrast of the print on its brighter side, 0 to 1.
    pub contrast: f64,
    /// Contrast sensitivity for letters.
    pub sensitivity: LogContrast,
    /// Their ratio; below 1 the print is not seen.
    pub reserve: f64,
    /// What it does to reading.
    pub limit: ContrastLimit,
}

/// How many times the contrast of print lies above the least contrast seen, `CR = C·10^logCS`.
///
/// * `contrast`: Weber contrast on the brighter side, 0 to 1; a pure ratio.
///
/// Definition: [`source::WHITTAKER_1993`](crate::source::WHITTAKER_1993).
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::CONTRAST`] or [`bounds::LETTER_CONTRAST`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::{ContrastLimit, contrast_reserve}, unit::LogContrast};
/// // Full contrast at a log contrast sensitivity of 1.05 is a reserve of 11.2 (computed).
/// let full = contrast_reserve(1.0, LogContrast::from_log(1.05))?;
/// assert!((full.reserve - 11.2).abs() < 0.05);
/// assert_eq!(full.limit, ContrastLimit::Enough);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn contrast_reserve(contrast: f64, sensitivity: LogContrast) -> Result<ContrastReserve, Error> {
    bounds::CONTRAST.check(contrast)?;
    bounds::LETTER_CONTRAST.check(sensitivity.log())?;
    if contrast <= 0.0 {
        let why = Why::NoSolution { because: "print without contrast is seen by nobody" };
        return Err(Error::about("contrast", format_args!("{contrast}"), why));
    }
    let reserve = contrast * math::pow(10.0, sensitivity.log());
    let limit = if reserve < 4.0 {
        ContrastLimit::MarkedlySlow
    } else if reserve < 10.0 {
        ContrastLimit::Slow
    } else {
        ContrastLimit::Enough
    };
    Ok(ContrastReserve { contrast, sensitivity, reserve, limit })
}

#[cfg(feature = "alloc")]
impl Explain for ContrastReserve {
    fn steps(&self) -> Vec<Step> {
        let reserve = Named::new("CR", self.reserve, Unit::Times);
        let contrast = Named::new("C", self.contrast, Unit::Plain);
        let sensitivity = Named::new("log_CS", self.sensitivity.log(), Unit::Log);
        alloc::vec![Step::formula(&formula::CONTRAST_RESERVE, reserve, [contrast, sensitivity])]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        let m = PrintSize::from_m_units;
        for (print, threshold) in [(1.0, 0.4), (1.0, 1.0), (0.5, 2.0)] {
            let mut steps = acuity_reserve(m(print), m(threshold))?.steps();
            for reserve in [0.5, 2.0, 10.0] {
                steps.extend(print_with_reserve(m(threshold), reserve)?.steps());
            }
            for log in [0.0, 1.05, 2.0] {
                steps.extend(contrast_reserve(print.min(0.9), LogContrast::from_log(log))?.steps());
            }
            assert_eq!(steps.len(), 8);
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{print} over {threshold}");
            }
        }
        Ok(())
    }

    #[test]
    fn both_sides_of_each_limit_of_contrast() {
        let limit =
            |contrast| contrast_reserve(contrast, LogContrast::from_log(2.0)).expect("in range").limit;
        assert_eq!(limit(0.0399), ContrastLimit::MarkedlySlow);
        assert_eq!(limit(0.04), ContrastLimit::Slow);
        assert_eq!(limit(0.0999), ContrastLimit::Slow);
        assert_eq!(limit(0.1), ContrastLimit::Enough);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let m = PrintSize::from_m_units;
        let error = acuity_reserve(m(1.0), m(0.0)).expect_err("no threshold");
        assert_eq!(error.to_string(), "print size `0 M` is not possible");
        assert!(acuity_reserve(m(f64::NAN), m(1.0)).is_err(), "no print");
        let error = print_with_reserve(m(1.0), 0.4).expect_err("below half");
        assert_eq!(error.to_string(), "acuity reserve `0.4 times` is not possible");
        assert!(print_with_reserve(m(0.0), 2.0).is_err(), "no threshold");
        assert!(print_with_reserve(m(7.0), 9.0).is_err(), "63 M");
        let log = LogContrast::from_log;
        let error = contrast_reserve(0.0, log(1.0)).expect_err("no contrast");
        assert_eq!(
            error.to_string(),
            "contrast `0` has no solution: print without contrast is seen by nobody"
        );
        let error = contrast_reserve(1.1, log(1.0)).expect_err("beyond full");
        assert_eq!(error.to_string(), "contrast `1.1` is not possible");
        let error = contrast_reserve(1.0, log(3.0)).expect_err("no such eye");
        assert_eq!(error.to_string(), "log contrast sensitivity `3` is not possible");
        assert_eq!(error.hint().to_string(), "use -0.5 to 2.6");
        assert!(contrast_reserve(1.0, log(f64::NAN)).is_err(), "no sensitivity");
    }
}
