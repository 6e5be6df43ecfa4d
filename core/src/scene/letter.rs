//! Letters of a sign or a board: height, distance and acuity, each from the other two.
//!
//! Each is computed exactly, by the tangent of a detail, and beside it by the short rule for small angles,
//! `D/h = 10800/(5π)/(MAR·reserve)`, of which the trade knows 687.5. The rule gives the longer distance; it is 1 % long
//! at 20 degrees of detail, so no acuity that reads letters makes a difference.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::task::{Demand, Goal, Target, demand};
use crate::unit::{Angle, Length, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Distance over letter height at which a letter's detail is one minute of arc, small angles; a pure ratio.
fn heights_of_one_minute() -> f64 {
    10_800.0 / math::PI / 5.0
}

/// The angle a detail must have.
fn detail_needed(acuity: LogMar, reserve: f64) -> Result<Angle, Error> {
    bounds::LOG_MAR.check(acuity.log())?;
    bounds::RESERVE.check(reserve)?;
    Ok(acuity.mar() * reserve)
}

/// From how far letters are read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadingDistance {
    /// Critical height of the letters.
    pub height: Length,
    /// Acuity of the person.
    pub acuity: LogMar,
    /// Size over the least size seen; a pure ratio.
    pub reserve: f64,
    /// Detail that gives the reserve.
    pub detail: Angle,
    /// Eye to letter.
    pub distance: Length,
    /// The same by the rule for small angles.
    pub by_rule: Length,
}

/// The distance from which a person of this acuity reads letters of this height, with a reserve.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::TASK_HEIGHT`], [`bounds::LOG_MAR`] and
/// [`bounds::RESERVE`].
///
/// ```
/// use arcminute_core::scene::reading_distance;
/// use arcminute_core::unit::{Length, LogMar};
/// // A route number 200 mm high, logMAR 1.0: 13.75 m only just (computed).
/// let read = reading_distance(Length::from_mm(200.0), LogMar::from_log(1.0), 1.0)?;
/// assert!((read.distance.m() - 13.75).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn reading_distance(height: Length, acuity: LogMar, reserve: f64) -> Result<ReadingDistance, Error> {
    bounds::TASK_HEIGHT.check(height.mm())?;
    let detail = detail_needed(acuity, reserve)?;
    let distance = height / 5.0 / (2.0 * (detail / 2.0).tangent());
    let by_rule = height * heights_of_one_minute() / detail.arcmin();
    Ok(ReadingDistance { height, acuity, reserve, detail, distance, by_rule })
}

#[cfg(feature = "alloc")]
fn detail_steps(acuity: LogMar, reserve: f64, detail: Angle) -> [Step; 2] {
    let mar = Named::new("MAR", acuity.mar().arcmin(), Unit::Arcmin);
    let detail = Named::new("detail", detail.arcmin(), Unit::Arcmin);
    [
        Step::formula(&formula::MAR_FROM_LOG, mar, [Named::new("logMAR", acuity.log(), Unit::LogMar)]),
        Step::formula(
            &formula::DETAIL_WITH_RESERVE,
            detail,
            [mar, Named::new("reserve", reserve, Unit::Times)],
        ),
    ]
}

#[cfg(feature = "alloc")]
impl Explain for ReadingDistance {
    fn steps(&self) -> Vec<Step> {
        let mut steps: Vec<Step> = detail_steps(self.acuity, self.reserve, self.detail).into();
        let detail = Named::new("detail", self.detail.arcmin(), Unit::Arcmin);
        let h = Named::new("h", self.height.mm(), Unit::Millimetre);
        let exact = Named::new("D", self.distance.m(), Unit::Metre);
        let rule = Named::new("D_rule", self.by_rule.m(), Unit::Metre);
        steps.push(Step::formula(&formula::READING_DISTANCE, exact, [h, detail]));
        steps.push(Step::formula(&formula::READING_DISTANCE_RULE, rule, [h, detail]));
        steps
    }
}

/// How high letters have to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LetterHeight {
    /// Eye to letter.
    pub distance: Length,
    /// Acuity of the person.
    pub acuity: LogMar,
    /// Size over the least size seen; a pure ratio.
    pub reserve: f64,
    /// Detail that gives the reserve.
    pub detail: Angle,
    /// Critical height of the letters.
    pub height: Length,
    /// The same by the rule for small angles.
    pub by_rule: Length,
}

/// The height that letters must have for a person of this acuity to read them from a distance, with a reserve.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::TASK_DISTANCE`], [`bounds::LOG_MAR`] and
/// [`bounds::RESERVE`].
///
/// ```
/// use arcminute_core::scene::letter_height;
/// use arcminute_core::unit::{Length, LogMar};
/// // A board 6 m away, logMAR 0.7, reserve 2: letters 87.5 mm high (computed).
/// let letters = letter_height(Length::from_m(6.0), LogMar::from_log(0.7), 2.0)?;
/// assert!((letters.height.mm() - 87.5).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn letter_height(distance: Length, acuity: LogMar, reserve: f64) -> Result<LetterHeight, Error> {
    bounds::TASK_DISTANCE.check(distance.m())?;
    let detail = detail_needed(acuity, reserve)?;
    let height = distance * (5.0 * 2.0 * (detail / 2.0).tangent());
    let by_rule = distance * detail.arcmin() / heights_of_one_minute();
    Ok(LetterHeight { distance, acuity, reserve, detail, height, by_rule })
}

#[cfg(feature = "alloc")]
impl Explain for LetterHeight {
    fn steps(&self) -> Vec<Step> {
        let mut steps: Vec<Step> = detail_steps(self.acuity, self.reserve, self.detail).into();
        let detail = Named::new("detail", self.detail.arcmin(), Unit::Arcmin);
        let d = Named::new("D", self.distance.m(), Unit::Metre);
        let exact = Named::new("h", self.height.mm(), Unit::Millimetre);
        let rule = Named::new("h_rule", self.by_rule.mm(), Unit::Millimetre);
        steps.push(Step::formula(&formula::LETTER_HEIGHT, exact, [d, detail]));
        steps.push(Step::formula(&formula::LETTER_HEIGHT_RULE, rule, [d, detail]));
        steps
    }
}

/// What acuity letters ask for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AcuityForLetter {
    /// Critical height of the letters.
    pub height: Length,
    /// Eye to letter.
    pub distance: Length,
    /// Size over the least size seen; a pure ratio.
    pub reserve: f64,
    /// What the letters ask for, exactly.
    pub demand: Demand,
    /// The least detail by the rule for small angles.
    pub mar_by_rule: Angle,
}

/// The acuity that letters of a height ask for at a distance, with a reserve.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::TASK_HEIGHT`], [`bounds::TASK_DISTANCE`] and
/// [`bounds::RESERVE`].
///
/// ```
/// use arcminute_core::scene::acuity_for_letter;
/// use arcminute_core::unit::Length;
/// // Letters 25 mm high, 6 m away: logMAR 0.457 at threshold (computed).
/// let letters = acuity_for_letter(Length::from_mm(25.0), Length::from_m(6.0), 1.0)?;
/// assert!((letters.demand.to_reach.log() - 0.457).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn acuity_for_letter(height: Length, distance: Length, reserve: f64) -> Result<AcuityForLetter, Error> {
    bounds::TASK_HEIGHT.check(height.mm())?;
    bounds::TASK_DISTANCE.check(distance.m())?;
    bounds::RESERVE.check(reserve)?;
    let demand = demand(Goal::Target(Target { height, distance, reserve }));
    let mar_by_rule = Angle::from_arcmin(height / distance * heights_of_one_minute() / reserve);
    Ok(AcuityForLetter { height, distance, reserve, demand, mar_by_rule })
}

#[cfg(feature = "alloc")]
impl Explain for AcuityForLetter {
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.demand.steps();
        steps.push(Step::formula(
            &formula::LETTER_ACUITY_RULE,
            Named::new("MAR_rule", self.mar_by_rule.arcmin(), Unit::Arcmin),
            [
                Named::new("h", self.height.mm(), Unit::Millimetre),
                Named::new("D", self.distance.m(), Unit::Metre),
                Named::new("reserve", self.reserve, Unit::Times),
            ],
        ));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for log in [-0.3, 0.0, 0.7, 1.3, 3.0] {
            for reserve in [0.5, 1.0, 2.0, 10.0] {
                let acuity = LogMar::from_log(log);
                for size in [0.5, 40.0, 2000.0] {
                    let mut steps = reading_distance(Length::from_mm(size), acuity, reserve)?.steps();
                    assert_eq!(steps.len(), 4, "two for the detail, two for the distance");
                    let distance = Length::from_m(size / 2.0);
                    steps.extend(letter_height(distance, acuity, reserve)?.steps());
                    steps.extend(acuity_for_letter(Length::from_mm(size), distance, reserve)?.steps());
                    assert_eq!(steps.len(), 12, "four each");
                    for step in steps {
                        assert_eq!(step.check(), Ok(()), "{log} {reserve} {size}");
                    }
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let (mm, m, log) = (Length::from_mm, Length::from_m, LogMar::from_log);
        for (error, said, hint) in [
            (
                reading_distance(mm(0.0), log(1.0), 1.0).expect_err("no letter"),
                "letter height `0 mm` is not possible",
                "use 0.1 to 20000 mm",
            ),
            (
                reading_distance(mm(40.0), log(3.5), 1.0).expect_err("no acuity"),
                "logMAR `3.5` is not possible",
                "use -0.5 to 3",
            ),
            (
                letter_height(m(0.0), log(1.0), 1.0).expect_err("no distance"),
                "distance `0 m` is not possible",
                "use 0.1 to 1000 m",
            ),
            (
                letter_height(m(6.0), log(1.0), 0.0).expect_err("no reserve"),
                "acuity reserve `0 times` is not possible",
                "use 0.5 to 10 times",
            ),
        ] {
            assert_eq!(error.to_string(), said);
            assert_eq!(error.hint().to_string(), hint);
        }
        assert!(acuity_for_letter(mm(f64::NAN), m(6.0), 1.0).is_err(), "height");
        assert!(acuity_for_letter(mm(40.0), m(f64::INFINITY), 1.0).is_err(), "distance");
        assert!(acuity_for_letter(mm(40.0), m(6.0), 10.1).is_err(), "reserve");
        assert!(letter_height(m(6.0), log(f64::NAN), 1.0).is_err(), "acuity");
    }
}
