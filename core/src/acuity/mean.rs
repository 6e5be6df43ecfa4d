//! The mean of several acuities: of their logarithms, never of decimals or denominators.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::LogMar;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A mean acuity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeanAcuity {
    /// How many acuities; a pure number.
    pub count: f64,
    /// The sum of their logarithms.
    pub sum: LogMar,
    /// The mean.
    pub log_mar: LogMar,
}

/// The mean of these acuities, the mean of their logarithms (that is the geometric mean of the decimals).
///
/// Source: [`source::HOLLADAY_1997`](crate::source::HOLLADAY_1997).
///
/// # Errors
/// [`Why::Missing`] for none, [`Why::OutOfRange`] for one outside [`bounds::LOG_MAR`].
///
/// # Example
/// ```
/// use arcminute_core::acuity::mean_acuity;
/// use arcminute_core::unit::LogMar;
/// // Holladay 2004: 20/20 and 20/200 average to logMAR 0.5, 20/63.
/// assert_eq!(mean_acuity(&[LogMar::from_log(0.0), LogMar::from_log(1.0)])?.log_mar.log(), 0.5);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn mean_acuity(acuities: &[LogMar]) -> Result<MeanAcuity, Error> {
    let (mut count, mut sum) = (0.0, LogMar::ZERO);
    for acuity in acuities {
        bounds::LOG_MAR.check(acuity.log())?;
        count += 1.0;
        sum = sum + *acuity;
    }
    if acuities.is_empty() {
        let why = Why::Missing { part: "at least one acuity", example: "20/200" };
        return Err(Error::new("mean acuity", "", why));
    }
    Ok(MeanAcuity { count, sum, log_mar: sum / count })
}

#[cfg(feature = "alloc")]
impl Explain for MeanAcuity {
    fn steps(&self) -> Vec<Step> {
        let mean = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
        let sum = Named::new("sum", self.sum.log(), Unit::LogMar);
        let count = Named::new("n", self.count, Unit::Plain);
        alloc::vec![Step::formula(&formula::MEAN_ACUITY, mean, [sum, count])]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for logs in [&[1.3][..], &[0.0, 1.0], &[-0.3, 0.1, 2.0, 0.477_121]] {
            let acuities: Vec<LogMar> = logs.iter().map(|log| LogMar::from_log(*log)).collect();
            let steps = mean_acuity(&acuities)?.steps();
            assert_eq!(steps.len(), 1);
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{logs:?}");
            }
        }
        Ok(())
    }

    #[test]
    fn nothing_has_no_mean() {
        let error = mean_acuity(&[]).expect_err("no acuity");
        assert_eq!(error.to_string(), "mean acuity `` needs at least one acuity");
        assert_eq!(error.hint().to_string(), "type for example `20/200`");
        assert!(mean_acuity(&[LogMar::ZERO, LogMar::from_log(f64::NAN)]).is_err(), "not-a-number is refused");
        let result = mean_acuity(&[LogMar::from_log(0.2), LogMar::from_log(0.6)]).expect("possible");
        assert_eq!((result.count, result.sum.log()), (2.0, 0.8));
    }
}
