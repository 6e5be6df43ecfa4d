//! How large an optotype is that stands for an acuity, and the grating that would.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::unit::{Angle, Length, LogMar, SpatialFrequency};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A letter five strokes high, or a ring five strokes wide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Optotype {
    /// The acuity that it stands for.
    pub log_mar: LogMar,
    /// Chart to eye.
    pub distance: Length,
    /// Its stroke, seen from there.
    pub mar: Angle,
    /// Height of the letter, or outer diameter of the ring.
    pub height: Length,
    /// Width of the stroke, or of the ring's gap.
    pub stroke: Length,
    /// Inner diameter of the ring.
    pub inner: Length,
}

/// The letter or ring that stands for an acuity at a distance.
///
/// `height = distance · tan(5·MAR)`, stroke and gap a fifth of it, the inside of the ring three fifths.
///
/// * `distance`: chart to eye.
/// * Source: geometry; proportions of the ring [`source::LANDOLT_RING`](crate::source::LANDOLT_RING).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::LOG_MAR`] or [`bounds::CHART_DISTANCE`].
///
/// # Example
/// ```
/// use arcminute_core::acuity::optotype;
/// use arcminute_core::unit::{Length, LogMar};
/// // Table of a university course in physiological optics: 5.82 mm at 4 m.
/// assert!((optotype(LogMar::from_log(0.0), Length::from_m(4.0))?.height.mm() - 5.82).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn optotype(log_mar: LogMar, distance: Length) -> Result<Optotype, Error> {
    bounds::LOG_MAR.check(log_mar.log())?;
    bounds::CHART_DISTANCE.check(distance.m())?;
    let mar = log_mar.mar();
    let height = distance * math::tan((mar * 5.0).radians());
    Ok(Optotype { log_mar, distance, mar, height, stroke: height / 5.0, inner: height * 3.0 / 5.0 })
}

/// The grating with bars as wide as the least detail seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GratingCutOff {
    /// The acuity.
    pub log_mar: LogMar,
    /// Its least detail.
    pub mar: Angle,
    /// Periods of two bars in a degree.
    pub frequency: SpatialFrequency,
}

/// The grating that an acuity is nominally equal to, `30 / MAR` cycles per degree.
///
/// A period is two strokes. Letters and gratings do not give the same acuity in eye disease: it is an equivalence of
/// geometry, not a prediction. Source: geometry.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::LOG_MAR`].
///
/// # Example
/// ```
/// use arcminute_core::acuity::grating_cut_off;
/// use arcminute_core::unit::LogMar;
/// // Computed: logMAR 0 is 30 cycles per degree.
/// assert_eq!(grating_cut_off(LogMar::ZERO)?.frequency.cycles_per_degree(), 30.0);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn grating_cut_off(log_mar: LogMar) -> Result<GratingCutOff, Error> {
    bounds::LOG_MAR.check(log_mar.log())?;
    let mar = log_mar.mar();
    let frequency = SpatialFrequency::from_cycles_per_degree(30.0 / mar.arcmin());
    Ok(GratingCutOff { log_mar, mar, frequency })
}

#[cfg(feature = "alloc")]
impl Explain for Optotype {
    fn steps(&self) -> Vec<Step> {
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let height = Named::new("h", self.height.mm(), Unit::Millimetre);
        let log_mar = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
        let distance = Named::new("D", self.distance.m(), Unit::Metre);
        alloc::vec![
            Step::formula(&formula::MAR_FROM_LOG, mar, [log_mar]),
            Step::formula(&formula::OPTOTYPE_HEIGHT, height, [distance, mar]),
            Step::formula(
                &formula::OPTOTYPE_STROKE,
                Named::new("stroke", self.stroke.mm(), Unit::Millimetre),
                [height],
            ),
            Step::formula(
                &formula::RING_INSIDE,
                Named::new("inside", self.inner.mm(), Unit::Millimetre),
                [height],
            ),
        ]
    }
}

#[cfg(feature = "alloc")]
impl Explain for GratingCutOff {
    fn steps(&self) -> Vec<Step> {
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let log_mar = Named::new("logMAR", self.log_mar.log(), Unit::LogMar);
        let frequency = Named::new("f", self.frequency.cycles_per_degree(), Unit::CyclePerDegree);
        alloc::vec![
            Step::formula(&formula::MAR_FROM_LOG, mar, [log_mar]),
            Step::formula(&formula::GRATING_CUT_OFF, frequency, [mar]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for tenths in -5..=30 {
            let log_mar = LogMar::from_log(f64::from(tenths) / 10.0);
            for metres in [0.05, 0.4, 1.0, 4.0, 6.0, 20.0] {
                let mut steps = optotype(log_mar, Length::from_m(metres))?.steps();
                steps.extend(grating_cut_off(log_mar)?.steps());
                assert_eq!(steps.len(), 6);
                for step in steps {
                    assert_eq!(step.check(), Ok(()), "{log_mar:?} at {metres} m");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_cannot_be_shown_is_refused() {
        let one = Length::from_m(1.0);
        let error = optotype(LogMar::from_log(3.1), one).expect_err("too large");
        assert_eq!(error.to_string(), "logMAR `3.1` is not possible");
        let error = optotype(LogMar::ZERO, Length::ZERO).expect_err("no distance");
        assert_eq!(error.to_string(), "test distance `0 m` is not possible");
        assert!(optotype(LogMar::from_log(f64::NAN), one).is_err(), "not-a-number is refused");
        assert!(grating_cut_off(LogMar::from_log(f64::INFINITY)).is_err(), "infinity is refused");
    }

    #[test]
    fn a_fifth_and_three_fifths() -> Result<(), Error> {
        let ring = optotype(LogMar::from_log(0.3), Length::from_m(5.0))?;
        assert!(math::abs(ring.stroke / ring.height - 0.2) < 1e-15, "the gap is a fifth");
        assert!(math::abs(ring.inner / ring.height - 0.6) < 1e-15, "the inside is three fifths");
        assert!(math::abs((ring.inner + ring.stroke * 2.0 - ring.height).mm()) < 1e-12, "they add up");
        Ok(())
    }
}
