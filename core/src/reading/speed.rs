//! Reading speed against print size: two published forms, and each the other way round.
//!
//! [`LinearCurve`] has sizes as angles, [`LogCurve`] as logarithms; a curve of the one form is none of the other. Both
//! level off at large print. In about a fifth of people speed falls again at very large print
//! ([`source::NYGAARD_2008`](crate::source::NYGAARD_2008)), which neither form shows.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{Angle, LogMar, ReadingSpeed};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// How fast the linear form levels off: at the critical size `1 − e^−2.3` of the greatest speed is left, 0.8997.
const RISE: f64 = 2.3;

/// Speed against size as an angle, `R = R_max·(1 − e^(−2.3·(P − P_0)/(P_c − P_0)))`, and nothing below `P_0`.
///
/// Sizes are angles of detail, a fifth of the x-height. Source: [`source::SPEED_CURVE`](crate::source::SPEED_CURVE).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinearCurve {
    /// Speed at large print.
    pub greatest: ReadingSpeed,
    /// Size at which reading begins, `P_0`.
    pub threshold: Angle,
    /// Critical print size, at which 90 % of the greatest speed are reached, `P_c`.
    pub critical: Angle,
}

/// A speed read off a [`LinearCurve`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinearSpeed {
    /// The curve.
    pub curve: LinearCurve,
    /// Size of the print.
    pub size: Angle,
    /// Its speed.
    pub speed: ReadingSpeed,
}

/// A size read off a [`LinearCurve`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinearSize {
    /// The curve.
    pub curve: LinearCurve,
    /// Share of the greatest speed; a pure ratio.
    pub share: f64,
    /// Size of the print.
    pub size: Angle,
}

impl LinearCurve {
    fn check(&self) -> Result<(), Error> {
        bounds::READING_SPEED.check(self.greatest.words_per_minute())?;
        bounds::DETAIL.check(self.threshold.arcmin())?;
        bounds::DETAIL.check(self.critical.arcmin())?;
        if self.threshold < self.critical {
            return Ok(());
        }
        let why = Why::NoSolution { because: "it has to be larger than the size at which reading begins" };
        Err(Error::about("critical print size", format_args!("{} arcmin", self.critical.arcmin()), why))
    }

    /// The speed at a size.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] outside [`bounds::READING_SPEED`] or [`bounds::DETAIL`]; [`Why::NoSolution`] for a critical
    /// size that is not above the threshold.
    ///
    /// # Example
    /// ```
    /// use arcminute_core::{reading::LinearCurve, unit::{Angle, ReadingSpeed}};
    /// // Greatest speed 150, threshold 5, critical size 15: at 10 it is 102.5 words a minute (computed).
    /// let arcmin = Angle::from_arcmin;
    /// let curve = LinearCurve {
    ///     greatest: ReadingSpeed::from_words_per_minute(150.0),
    ///     threshold: arcmin(5.0),
    ///     critical: arcmin(15.0),
    /// };
    /// assert!((curve.speed_at(arcmin(10.0))?.speed.words_per_minute() - 102.5).abs() < 0.05);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn speed_at(&self, size: Angle) -> Result<LinearSpeed, Error> {
        self.check()?;
        bounds::DETAIL.check(size.arcmin())?;
        let above = (size - self.threshold).max(Angle::ZERO) / (self.critical - self.threshold);
        let speed = self.greatest * (1.0 - math::exp(-RISE * above));
        Ok(LinearSpeed { curve: *self, size, speed })
    }

    /// The size at which a share of the greatest speed is reached; the inverse of [`Self::speed_at`].
    ///
    /// # Errors
    /// As [`Self::speed_at`], and [`Why::OutOfRange`] for a share outside [`bounds::SPEED_SHARE`].
    ///
    /// # Example
    /// ```
    /// use arcminute_core::{reading::LinearCurve, unit::{Angle, ReadingSpeed}};
    /// // 80 % are reached at seven tenths of the way to the critical size (computed).
    /// let arcmin = Angle::from_arcmin;
    /// let curve = LinearCurve {
    ///     greatest: ReadingSpeed::from_words_per_minute(150.0),
    ///     threshold: arcmin(5.0),
    ///     critical: arcmin(15.0),
    /// };
    /// assert!((curve.size_for(0.8)?.size.arcmin() - 11.998).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn size_for(&self, share: f64) -> Result<LinearSize, Error> {
        self.check()?;
        bounds::SPEED_SHARE.check(share)?;
        let size = self.threshold - (self.critical - self.threshold) * (math::ln(1.0 - share) / RISE);
        Ok(LinearSize { curve: *self, share, size })
    }
}

#[cfg(feature = "alloc")]
fn arcmin(symbol: &'static str, angle: Angle) -> Named {
    Named::new(symbol, angle.arcmin(), Unit::Arcmin)
}
#[cfg(feature = "alloc")]
fn words(symbol: &'static str, speed: ReadingSpeed) -> Named {
    Named::new(symbol, speed.words_per_minute(), Unit::WordsPerMinute)
}
#[cfg(feature = "alloc")]
fn log(symbol: &'static str, size: LogMar) -> Named {
    Named::new(symbol, size.log(), Unit::LogMar)
}

#[cfg(feature = "alloc")]
impl Explain for LinearSpeed {
    fn steps(&self) -> Vec<Step> {
        let LinearCurve { greatest, threshold, critical } = self.curve;
        let inputs = [
            words("R_max", greatest),
            arcmin("P", self.size),
            arcmin("P_0", threshold),
            arcmin("P_c", critical),
        ];
        alloc::vec![Step::formula(&formula::SPEED_LINEAR, words("R", self.speed), inputs)]
    }
}

#[cfg(feature = "alloc")]
impl Explain for LinearSize {
    fn steps(&self) -> Vec<Step> {
        let LinearCurve { threshold, critical, .. } = self.curve;
        let share = Named::new("s", self.share, Unit::Plain);
        let inputs = [arcmin("P_0", threshold), arcmin("P_c", critical), share];
        alloc::vec![Step::formula(&formula::SIZE_LINEAR, arcmin("P", self.size), inputs)]
    }
}

/// Speed against size as a logarithm, `R = R_max·(1 − e^(−k·(x − x_0)))`, and nothing below `x_0`.
///
/// Sizes are logMAR of print. The idea is that of mixed-effects fits, this way of writing it from memory:
/// [`source::CHEUNG_2008`](crate::source::CHEUNG_2008).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LogCurve {
    /// Speed at large print.
    pub greatest: ReadingSpeed,
    /// Size at which reading begins, `x_0`.
    pub threshold: LogMar,
    /// How fast it levels off for each log unit of size, `k`; a pure number.
    pub rise: f64,
}

/// A speed read off a [`LogCurve`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LogSpeed {
    /// The curve.
    pub curve: LogCurve,
    /// Size of the print.
    pub size: LogMar,
    /// Its speed.
    pub speed: ReadingSpeed,
}

/// A size read off a [`LogCurve`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LogSize {
    /// The curve.
    pub curve: LogCurve,
    /// Share of the greatest speed; a pure ratio.
    pub share: f64,
    /// Size of the print: the critical print size by this share.
    pub size: LogMar,
}

impl LogCurve {
    fn check(&self) -> Result<(), Error> {
        bounds::READING_SPEED.check(self.greatest.words_per_minute())?;
        bounds::LOG_MAR.check(self.threshold.log())?;
        bounds::SPEED_RISE.check(self.rise).map(|_| ())
    }

    /// The share of the greatest speed at a size; nothing is checked.
    pub(super) fn share_at(&self, size: LogMar) -> f64 {
        1.0 - math::exp(-self.rise * (size - self.threshold).max(LogMar::ZERO).log())
    }

    /// The speed at a size.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] outside [`bounds::READING_SPEED`], [`bounds::LOG_MAR`] or [`bounds::SPEED_RISE`].
    ///
    /// # Example
    /// ```
    /// use arcminute_core::{reading::LogCurve, unit::{LogMar, ReadingSpeed}};
    /// let curve = LogCurve {
    ///     greatest: ReadingSpeed::from_words_per_minute(120.0),
    ///     threshold: LogMar::from_log(0.6),
    ///     rise: 5.0,
    /// };
    /// // At logMAR 1.0 it is 103.8 words a minute (computed).
    /// assert!((curve.speed_at(LogMar::from_log(1.0))?.speed.words_per_minute() - 103.8).abs() < 0.05);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn speed_at(&self, size: LogMar) -> Result<LogSpeed, Error> {
        self.check()?;
        bounds::LOG_MAR.check(size.log())?;
        Ok(LogSpeed { curve: *self, size, speed: self.greatest * self.share_at(size) })
    }

    /// The size at which a share of the greatest speed is reached, `x_0 − ln(1 − s)/k`; the critical print size by this
    /// share. 0.8 and 0.9 are both in use; say which.
    ///
    /// # Errors
    /// As [`Self::speed_at`], and [`Why::OutOfRange`] for a share outside [`bounds::SPEED_SHARE`].
    ///
    /// # Example
    /// ```
    /// use arcminute_core::{reading::LogCurve, unit::{LogMar, ReadingSpeed}};
    /// let curve = LogCurve {
    ///     greatest: ReadingSpeed::from_words_per_minute(120.0),
    ///     threshold: LogMar::from_log(0.6),
    ///     rise: 5.0,
    /// };
    /// // 0.922 by 80 % and 1.061 by 90 % (computed).
    /// assert!((curve.size_for(0.8)?.size.log() - 0.922).abs() < 5e-4);
    /// assert!((curve.size_for(0.9)?.size.log() - 1.061).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn size_for(&self, share: f64) -> Result<LogSize, Error> {
        self.check()?;
        bounds::SPEED_SHARE.check(share)?;
        let size = self.threshold - LogMar::from_log(math::ln(1.0 - share) / self.rise);
        Ok(LogSize { curve: *self, share, size })
    }
}

#[cfg(feature = "alloc")]
impl Explain for LogSpeed {
    fn steps(&self) -> Vec<Step> {
        let LogCurve { greatest, threshold, rise } = self.curve;
        let k = Named::new("k", rise, Unit::Plain);
        let inputs = [words("R_max", greatest), log("x", self.size), log("x_0", threshold), k];
        alloc::vec![Step::formula(&formula::SPEED_LOG, words("R", self.speed), inputs)]
    }
}

#[cfg(feature = "alloc")]
impl Explain for LogSize {
    fn steps(&self) -> Vec<Step> {
        let LogCurve { threshold, rise, .. } = self.curve;
        let share = Named::new("s", self.share, Unit::Plain);
        let inputs = [log("x_0", threshold), share, Named::new("k", rise, Unit::Plain)];
        alloc::vec![Step::formula(&formula::SIZE_LOG, log("x", self.size), inputs)]
    }
}

/// Where reading begins and levels off in the mean of readers with this letter acuity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualCritical {
    /// Letter acuity; reading begins at it in the mean.
    pub acuity: LogMar,
    /// Critical print size by 90 %.
    pub critical: LogMar,
}

/// The critical print size that is usual for a letter acuity, 0.47 log above it.
///
/// The mean of 50 readers with low vision, slope 1: [`source::SPEED_CURVE`](crate::source::SPEED_CURVE). A person's own
/// may lie anywhere about it; measured, it takes the place of this.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::LOG_MAR`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::usual_critical, unit::LogMar};
/// assert!((usual_critical(LogMar::from_log(1.0))?.critical.log() - 1.47).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn usual_critical(acuity: LogMar) -> Result<UsualCritical, Error> {
    bounds::LOG_MAR.check(acuity.log())?;
    Ok(UsualCritical { acuity, critical: acuity + LogMar::from_log(0.47) })
}

#[cfg(feature = "alloc")]
impl Explain for UsualCritical {
    fn steps(&self) -> Vec<Step> {
        let critical = log("logMAR_c", self.critical);
        alloc::vec![Step::formula(&formula::USUAL_CRITICAL, critical, [log("logMAR", self.acuity)])]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn wpm(speed: f64) -> ReadingSpeed {
        ReadingSpeed::from_words_per_minute(speed)
    }
    fn linear(threshold: f64, critical: f64) -> LinearCurve {
        LinearCurve {
            greatest: wpm(150.0),
            threshold: Angle::from_arcmin(threshold),
            critical: Angle::from_arcmin(critical),
        }
    }
    fn logarithmic(threshold: f64, rise: f64) -> LogCurve {
        LogCurve { greatest: wpm(120.0), threshold: LogMar::from_log(threshold), rise }
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        let mut steps = usual_critical(LogMar::from_log(0.8))?.steps();
        for at in [2.0, 5.0, 10.0, 30.0] {
            steps.extend(linear(5.0, 15.0).speed_at(Angle::from_arcmin(at))?.steps());
            steps.extend(logarithmic(0.6, 5.0).speed_at(LogMar::from_log(at / 20.0))?.steps());
        }
        for share in [0.0, 0.5, 0.8, 0.9, 0.99] {
            steps.extend(linear(5.0, 15.0).size_for(share)?.steps());
            steps.extend(logarithmic(0.6, 5.0).size_for(share)?.steps());
        }
        assert_eq!(steps.len(), 19);
        for step in steps {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    #[test]
    fn below_the_threshold_nothing_is_read() -> Result<(), Error> {
        for size in [1.0, 4.999, 5.0] {
            let speed = linear(5.0, 15.0).speed_at(Angle::from_arcmin(size))?.speed;
            assert_eq!(speed, ReadingSpeed::ZERO, "{size} arcmin");
        }
        for size in [0.0, 0.6] {
            let speed = logarithmic(0.6, 5.0).speed_at(LogMar::from_log(size))?.speed;
            assert_eq!(speed, ReadingSpeed::ZERO, "logMAR {size}");
        }
        Ok(())
    }

    #[test]
    fn what_is_no_curve_is_refused() {
        let size = Angle::from_arcmin(10.0);
        let error = linear(15.0, 15.0).speed_at(size).expect_err("no slope");
        assert_eq!(
            error.to_string(),
            "critical print size `15 arcmin` has no solution: it has to be larger than the size at which reading begins"
        );
        assert!(linear(15.0, 5.0).size_for(0.5).is_err(), "upside down");
        assert!(linear(0.0, 5.0).speed_at(size).is_err(), "no threshold");
        assert!(linear(5.0, f64::NAN).speed_at(size).is_err(), "no critical size");
        let error = linear(5.0, 15.0).speed_at(Angle::ZERO).expect_err("no print");
        assert_eq!(error.to_string(), "detail `0 arcmin` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.1 to 2000 arcmin");
        let still = LinearCurve { greatest: ReadingSpeed::ZERO, ..linear(5.0, 15.0) };
        assert_eq!(
            still.speed_at(size).expect_err("nothing is read").to_string(),
            "reading speed `0 words per minute` is not possible"
        );
        for share in [1.0, -0.1, f64::NAN] {
            let error = linear(5.0, 15.0).size_for(share).expect_err("not reached");
            assert_eq!(
                error.to_string(),
                alloc::format!("share of the greatest speed `{share}` is not possible")
            );
            assert!(logarithmic(0.6, 5.0).size_for(share).is_err(), "{share}");
        }
        let error = logarithmic(0.6, 0.0).size_for(0.5).expect_err("no slope");
        assert_eq!(error.to_string(), "rise of the speed `0` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.1 to 1000");
        assert!(logarithmic(9.0, 5.0).size_for(0.5).is_err(), "no such size");
        assert!(logarithmic(0.6, 5.0).speed_at(LogMar::from_log(f64::NAN)).is_err(), "no size");
        let still = LogCurve { greatest: wpm(f64::NAN), ..logarithmic(0.6, 5.0) };
        assert!(still.speed_at(LogMar::ZERO).is_err(), "no speed");
        assert!(usual_critical(LogMar::from_log(f64::INFINITY)).is_err(), "no acuity");
    }
}
