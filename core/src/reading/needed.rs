//! The magnification that a print size asks for.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, Length, LogMar, PrintSize, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// The equivalent viewing distance for a goal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeededViewing {
    /// Smallest print read.
    pub threshold: PrintSize,
    /// Distance at which it was read.
    pub read_at: Length,
    /// Print to be read.
    pub goal: PrintSize,
    /// Reserve to be kept; a pure ratio.
    pub reserve: f64,
    /// Equivalent viewing distance that gives it; this or shorter.
    pub evd: Length,
    /// Its reciprocal, equivalent viewing power.
    pub evp: Vergence,
}

/// The equivalent viewing distance for a goal, `EVD = d·G/(M_t·R)`.
///
/// * `threshold` and `read_at`: the smallest print read and the distance it was read from, acceptably in focus: to the
///   eye without an addition; through one, the print-to-spectacle distance is under 2 % out for additions to +10 D.
/// * Where the critical print size was measured, it stands for the threshold and the reserve is 1.
///
/// Source: Bailey 2004, [`source::BAILEY_2004`](crate::source::BAILEY_2004).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::PRINT_M`], [`bounds::CHART_DISTANCE`] or
/// [`bounds::RESERVE`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::needed_viewing, unit::{Length, PrintSize}};
/// // 4 M at 32 cm, goal 0.8 M: 64 mm or 15.6 D. Bailey 2004 writes 6.3 cm, in steps of 0.1 log.
/// let m = PrintSize::from_m_units;
/// let needed = needed_viewing(m(4.0), Length::from_cm(32.0), m(0.8), 1.0)?;
/// assert!((needed.evd.mm() - 64.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn needed_viewing(
    threshold: PrintSize,
    read_at: Length,
    goal: PrintSize,
    reserve: f64,
) -> Result<NeededViewing, Error> {
    bounds::PRINT_M.check(threshold.m_units())?;
    bounds::CHART_DISTANCE.check(read_at.m())?;
    bounds::PRINT_M.check(goal.m_units())?;
    bounds::RESERVE.check(reserve)?;
    let evd = read_at * (goal / threshold / reserve);
    Ok(NeededViewing { threshold, read_at, goal, reserve, evd, evp: Vergence::of_focal_length(evd) })
}

#[cfg(feature = "alloc")]
impl Explain for NeededViewing {
    fn steps(&self) -> Vec<Step> {
        let evd = Named::new("EVD", self.evd.mm(), Unit::Millimetre);
        let evp = Named::new("EVP", self.evp.dioptres(), Unit::Dioptre);
        let inputs = [
            Named::new("d", self.read_at.mm(), Unit::Millimetre),
            Named::new("G", self.goal.m_units(), Unit::PrintM),
            Named::new("P_t", self.threshold.m_units(), Unit::PrintM),
            Named::new("R", self.reserve, Unit::Times),
        ];
        alloc::vec![
            Step::formula(&formula::NEEDED_EVD, evd, inputs),
            Step::formula(&formula::EVP_OF_EVD, evp, [evd]),
        ]
    }
}

/// The equivalent viewing power for a goal, from an acuity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerFromAcuity {
    /// The acuity.
    pub acuity: LogMar,
    /// The same as an angle.
    pub mar: Angle,
    /// Print to be read.
    pub goal: PrintSize,
    /// Reserve to be kept; a pure ratio.
    pub reserve: f64,
    /// Equivalent viewing power.
    pub evp: Vergence,
    /// Its reciprocal, equivalent viewing distance.
    pub evd: Length,
}

/// The equivalent viewing power for a goal, from an acuity: `EVP = MAR·R/G`.
///
/// A first estimate: letter acuity at distance does not carry to words with a scotoma or crowding, at low contrast or in
/// other light, and then more power is needed, as a rule. [`needed_viewing`] starts from print that was read.
/// The power prescribed followed near word acuity (r = 0.67) better than distance acuity (r = 0.58) in 187 people
/// ([`source::WOLFFSOHN_2004`](crate::source::WOLFFSOHN_2004)).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::LOG_MAR`], [`bounds::PRINT_M`] or [`bounds::RESERVE`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::power_from_acuity, unit::{LogMar, PrintSize}};
/// // 20/200 and 1.6 M with a reserve of 2: 12.5 D (computed).
/// let power = power_from_acuity(LogMar::from_log(1.0), PrintSize::from_m_units(1.6), 2.0)?;
/// assert!((power.evp.dioptres() - 12.5).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn power_from_acuity(acuity: LogMar, goal: PrintSize, reserve: f64) -> Result<PowerFromAcuity, Error> {
    bounds::LOG_MAR.check(acuity.log())?;
    bounds::PRINT_M.check(goal.m_units())?;
    bounds::RESERVE.check(reserve)?;
    let mar = acuity.mar();
    let evp = Vergence::from_dioptres(mar.arcmin() * reserve / goal.m_units());
    Ok(PowerFromAcuity { acuity, mar, goal, reserve, evp, evd: evp.focal_length() })
}

#[cfg(feature = "alloc")]
impl Explain for PowerFromAcuity {
    fn steps(&self) -> Vec<Step> {
        let acuity = Named::new("logMAR", self.acuity.log(), Unit::LogMar);
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let evp = Named::new("EVP", self.evp.dioptres(), Unit::Dioptre);
        let evd = Named::new("EVD", self.evd.mm(), Unit::Millimetre);
        let goal = Named::new("G", self.goal.m_units(), Unit::PrintM);
        let reserve = Named::new("R", self.reserve, Unit::Times);
        alloc::vec![
            Step::formula(&formula::MAR_FROM_LOG, mar, [acuity]),
            Step::formula(&formula::EVP_FROM_ACUITY, evp, [mar, reserve, goal]),
            Step::formula(&formula::EVD_OF_EVP, evd, [evp]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn m(size: f64) -> PrintSize {
        PrintSize::from_m_units(size)
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for goal in [0.4, 1.0, 8.0] {
            for reserve in [1.0, 2.0, 3.0] {
                for threshold in [0.5, 4.0, 20.0] {
                    let mut steps =
                        needed_viewing(m(threshold), Length::from_cm(25.0), m(goal), reserve)?.steps();
                    steps.extend(
                        power_from_acuity(LogMar::from_log(threshold / 10.0), m(goal), reserve)?.steps(),
                    );
                    assert_eq!(steps.len(), 5);
                    for step in steps {
                        assert_eq!(step.check(), Ok(()), "{threshold} M to {goal} M, reserve {reserve}");
                    }
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let forty = Length::from_cm(40.0);
        let said = |result: Result<NeededViewing, Error>| result.expect_err("refused").to_string();
        assert_eq!(said(needed_viewing(m(0.0), forty, m(1.0), 1.0)), "print size `0 M` is not possible");
        assert_eq!(said(needed_viewing(m(4.0), forty, m(99.0), 1.0)), "print size `99 M` is not possible");
        assert_eq!(
            said(needed_viewing(m(4.0), Length::ZERO, m(1.0), 1.0)),
            "test distance `0 m` is not possible"
        );
        assert_eq!(
            said(needed_viewing(m(4.0), forty, m(1.0), f64::NAN)),
            "acuity reserve `NaN times` is not possible"
        );
        assert!(power_from_acuity(LogMar::from_log(3.5), m(1.0), 1.0).is_err(), "no such acuity");
        assert!(power_from_acuity(LogMar::ZERO, m(0.0), 1.0).is_err(), "no goal");
        assert!(power_from_acuity(LogMar::ZERO, m(1.0), 0.0).is_err(), "no reserve");
    }
}
