//! Print as an angle at the eye: near acuity, and the print for an angle.
//!
//! `MAR = M/D` in minutes of arc, with the print in M units and the distance in metres, the same rule by which the M unit
//! is made. As an acuity it holds only if the eye is focused for the distance.

use super::size::checked;
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, Length, LogMar, PrintSize};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Print seen from a distance, as an angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrintAngle {
    /// The print.
    pub print: PrintSize,
    /// Eye to print, or the equivalent viewing distance through an aid.
    pub distance: Length,
    /// A fifth of its height as an angle: the detail to be told apart.
    pub mar: Angle,
    /// Its logarithm.
    pub log_mar: LogMar,
}

/// The angle of print at the eye, `MAR = M/D`; the near acuity, if it is the smallest print read.
///
/// * `distance`: eye to print, or through an aid the equivalent viewing distance.
///
/// Source: definition of the M unit, [`source::M_UNIT`](crate::source::M_UNIT).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::PRINT_M`] or [`bounds::VIEWING_DISTANCE`].
///
/// # Example
/// ```
/// use arcminute_core::{print::print_angle, unit::{Length, PrintSize}};
/// // 1 M at 40 cm is 20/50, logMAR 0.398 (published table).
/// let read = print_angle(PrintSize::from_m_units(1.0), Length::from_cm(40.0))?;
/// assert!((read.log_mar.log() - 0.398).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn print_angle(print: PrintSize, distance: Length) -> Result<PrintAngle, Error> {
    checked(print)?;
    bounds::VIEWING_DISTANCE.check(distance.m())?;
    let mar = Angle::from_arcmin(print.m_units() / distance.m());
    Ok(PrintAngle { print, distance, mar, log_mar: LogMar::of_angle(mar) })
}

#[cfg(feature = "alloc")]
impl Explain for PrintAngle {
    fn steps(&self) -> Vec<Step> {
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let print = Named::new("P", self.print.m_units(), Unit::PrintM);
        let distance = Named::new("D", self.distance.m(), Unit::Metre);
        let log_mar = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
        alloc::vec![
            Step::formula(&formula::PRINT_MAR, mar, [print, distance]),
            Step::formula(&formula::LOG_FROM_MAR, log_mar, [mar]),
        ]
    }
}

/// The print that an acuity just reads at a distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrintForAngle {
    /// The acuity.
    pub log_mar: LogMar,
    /// Eye to print, or the equivalent viewing distance through an aid.
    pub distance: Length,
    /// The acuity as an angle.
    pub mar: Angle,
    /// The print.
    pub print: PrintSize,
}

/// The print of this angle at a distance, `M = D·MAR`; the inverse of [`print_angle`].
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::LOG_MAR`], [`bounds::VIEWING_DISTANCE`] or, for the
/// print, [`bounds::PRINT_M`].
///
/// # Example
/// ```
/// use arcminute_core::{print::print_for, unit::{Length, LogMar}};
/// let print = print_for(LogMar::from_log(1.0), Length::from_cm(40.0))?.print;
/// assert!((print.m_units() - 4.0).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn print_for(log_mar: LogMar, distance: Length) -> Result<PrintForAngle, Error> {
    bounds::LOG_MAR.check(log_mar.log())?;
    bounds::VIEWING_DISTANCE.check(distance.m())?;
    let mar = log_mar.mar();
    let print = checked(PrintSize::from_m_units(distance.m() * mar.arcmin()))?;
    Ok(PrintForAngle { log_mar, distance, mar, print })
}

#[cfg(feature = "alloc")]
impl Explain for PrintForAngle {
    fn steps(&self) -> Vec<Step> {
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let log_mar = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
        let print = Named::new("P", self.print.m_units(), Unit::PrintM);
        let distance = Named::new("D", self.distance.m(), Unit::Metre);
        alloc::vec![
            Step::formula(&formula::MAR_FROM_LOG, mar, [log_mar]),
            Step::formula(&formula::PRINT_FOR_MAR, print, [distance, mar]),
        ]
    }
}

/// Print labelled with a fraction that holds at a distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReducedSnellen {
    /// Numerator of the fraction.
    pub numerator: f64,
    /// Denominator of the fraction.
    pub denominator: f64,
    /// Distance for which it is labelled.
    pub distance: Length,
    /// The print.
    pub print: PrintSize,
}

/// The print that a fraction stands for on a near card made for this distance, `M = D·denominator/numerator`.
///
/// At 40 cm and with a numerator of 20 this is the denominator over 50
/// ([`source::REDUCED_SNELLEN`](crate::source::REDUCED_SNELLEN)).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::FRACTION_PART`], [`bounds::CHART_DISTANCE`] or
/// [`bounds::PRINT_M`].
///
/// # Example
/// ```
/// use arcminute_core::{print::reduced_snellen, unit::Length};
/// let line = reduced_snellen(20.0, 50.0, Length::from_cm(40.0))?;
/// assert!((line.print.m_units() - 1.0).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn reduced_snellen(numerator: f64, denominator: f64, distance: Length) -> Result<ReducedSnellen, Error> {
    bounds::FRACTION_PART.check(numerator)?;
    bounds::FRACTION_PART.check(denominator)?;
    bounds::CHART_DISTANCE.check(distance.m())?;
    let print = checked(PrintSize::from_m_units(distance.m() * denominator / numerator))?;
    Ok(ReducedSnellen { numerator, denominator, distance, print })
}

#[cfg(feature = "alloc")]
impl Explain for ReducedSnellen {
    fn steps(&self) -> Vec<Step> {
        let print = Named::new("P", self.print.m_units(), Unit::PrintM);
        let inputs = [
            Named::new("D", self.distance.m(), Unit::Metre),
            Named::new("denominator", self.denominator, Unit::Plain),
            Named::new("numerator", self.numerator, Unit::Plain),
        ];
        alloc::vec![Step::formula(&formula::REDUCED_SNELLEN_PRINT, print, inputs)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for m in [0.4, 1.0, 4.0, 40.0] {
            for cm in [10.0, 25.0, 40.0, 100.0] {
                let (print, distance) = (PrintSize::from_m_units(m), Length::from_cm(cm));
                let seen = print_angle(print, distance)?;
                let back = print_for(seen.log_mar, distance)?;
                assert!((back.print / print - 1.0).abs() < 1e-12, "{m} M came back as {back:?}");
                let mut steps = seen.steps();
                steps.extend(back.steps());
                steps.extend(reduced_snellen(20.0, 20.0 * m / distance.m(), distance)?.steps());
                assert_eq!(steps.len(), 5);
                for step in steps {
                    assert_eq!(step.check(), Ok(()), "{m} M at {cm} cm");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let (one, forty) = (PrintSize::from_m_units(1.0), Length::from_cm(40.0));
        let error = print_angle(one, Length::ZERO).expect_err("no distance");
        assert_eq!(error.to_string(), "viewing distance `0 m` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.001 to 20 m");
        assert!(print_angle(PrintSize::from_m_units(f64::NAN), forty).is_err(), "no print");
        assert!(print_for(LogMar::from_log(3.1), forty).is_err(), "no such acuity");
        assert!(print_for(LogMar::ZERO, Length::from_m(-1.0)).is_err(), "no distance");
        let error = print_for(LogMar::ZERO, Length::from_cm(5.0)).expect_err("0.05 M");
        assert_eq!(error.to_string(), "print size `0.05 M` is not possible");
        let error = reduced_snellen(0.0, 50.0, forty).expect_err("no numerator");
        assert_eq!(error.to_string(), "part of the fraction `0` is not possible");
        assert!(reduced_snellen(20.0, 0.0, forty).is_err(), "no denominator");
        assert!(reduced_snellen(20.0, 50.0, Length::from_cm(4.0)).is_err(), "nearer than any chart");
        assert!(reduced_snellen(0.1, 20.0, forty).is_err(), "80 M");
    }
}
