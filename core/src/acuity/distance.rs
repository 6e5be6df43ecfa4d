//! Charts read at another distance than they are made for.
//!
//! Measured scores at a nearer distance come out 3 to 8 letters worse than the geometry says, and log charts some 6
//! letters better than projected ones: the test distance belongs beside every acuity.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{Length, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A chart label read at another distance than the chart is made for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadAt {
    /// Label as printed.
    pub label: LogMar,
    /// Distance for which the label holds.
    pub design_distance: Length,
    /// Distance at which it was read.
    pub test_distance: Length,
    /// The acuity.
    pub log_mar: LogMar,
}

/// Acuity of a chart label read at another distance.
///
/// `logMAR = logMAR_label + log10(D_design / D_test)`; nearer is worse. Geometry; see the module on what people do.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) for a distance outside [`bounds::CHART_DISTANCE`] or an acuity outside [`bounds::LOG_MAR`].
///
/// # Example
/// ```
/// use arcminute_core::acuity::read_at;
/// use arcminute_core::unit::{Length, LogMar};
/// let read = read_at(LogMar::from_log(0.9), Length::from_m(4.0), Length::from_m(1.0))?;
/// assert!((read.log_mar.log() - 1.502).abs() < 1e-3);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn read_at(label: LogMar, design_distance: Length, test_distance: Length) -> Result<ReadAt, Error> {
    bounds::CHART_DISTANCE.check(design_distance.m())?;
    bounds::CHART_DISTANCE.check(test_distance.m())?;
    let log_mar = label + LogMar::from_log(math::log10(design_distance / test_distance));
    bounds::LOG_MAR.check(log_mar.log())?;
    Ok(ReadAt { label, design_distance, test_distance, log_mar })
}

#[cfg(feature = "alloc")]
impl Explain for ReadAt {
    fn steps(&self) -> Vec<Step> {
        let result = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
        let inputs = [
            Named::new("logMAR_label", self.label.log(), Unit::LogMar),
            Named::new("D_design", self.design_distance.m(), Unit::Metre),
            Named::new("D_test", self.test_distance.m(), Unit::Metre),
        ];
        vec![Step::formula(&formula::LOG_DISTANCE, result, inputs)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_distance_of_nothing_is_refused() {
        for metres in [0.0, -1.0, f64::NAN] {
            let (no_distance, one_metre) = (Length::from_m(metres), Length::from_m(1.0));
            assert!(read_at(LogMar::ZERO, no_distance, one_metre).is_err(), "designed for {metres} m");
            assert!(read_at(LogMar::ZERO, one_metre, no_distance).is_err(), "read at {metres} m");
        }
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for (label, design, test) in [(0.9, 4.0, 1.0), (0.0, 6.0, 6.0), (0.7, 0.4, 2.0)] {
            let read = read_at(LogMar::from_log(label), Length::from_m(design), Length::from_m(test))?;
            let [step] = &*read.steps() else { panic!("one formula: {read:?}") };
            assert!(matches!(step, Step::Formula { formula, .. } if formula.id == formula::LOG_DISTANCE.id));
            assert_eq!(step.check(), Ok(()), "{read:?}");
        }
        Ok(())
    }
}
