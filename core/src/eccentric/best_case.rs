//! The best acuity to be hoped for at an eccentricity: a range over laws, for a healthy retina.

#[cfg(feature = "alloc")]
use super::law::Form;
use super::{Caution, Law, laws};
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What one law gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtLaw {
    /// The law.
    pub law: Law,
    /// Least detail.
    pub mar: Angle,
    /// The same as acuity.
    pub log_mar: LogMar,
}

/// Acuity of a healthy retina at an eccentricity; a best case, see [`Caution`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BestCase {
    /// Fovea to the place looked with: at best the edge of a scotoma round the fovea.
    pub eccentricity: Angle,
    /// What each law gives, in the order of [`laws`]; `None` where the law is not used at this eccentricity.
    pub by_law: [Option<AtLaw>; 3],
    /// Acuity by the law that promises most.
    pub best: LogMar,
    /// Acuity by the law that promises least.
    pub worst: LogMar,
}

impl BestCase {
    /// What has to be said beside it.
    ///
    /// ```
    /// use arcminute_core::{eccentric::{Caution, best_case}, unit::Angle};
    /// // A scotoma is not to be inferred from acuity, whatever the range.
    /// let range = best_case(Angle::from_degrees(5.0))?;
    /// assert!(range.cautions().contains(&Caution::NoScotomaFromAcuity));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn cautions(&self) -> [Caution; 5] {
        Caution::ALL
    }
}

/// The acuity for single letters that a healthy retina reaches at an eccentricity, as a range over published laws.
///
/// With a scotoma round the fovea the eccentricity is the way to its nearest edge. A person may see worse than this,
/// and with macular disease does; someone who sees better does not look with that place.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) for an eccentricity outside [`bounds::ECCENTRICITY`].
///
/// ```
/// use arcminute_core::eccentric::best_case;
/// use arcminute_core::unit::Angle;
/// // At 10 degrees 0.65 to 0.83 logMAR (computed from the laws).
/// let range = best_case(Angle::from_degrees(10.0))?;
/// assert!((range.best.log() - 0.646).abs() < 5e-4 && (range.worst.log() - 0.827).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn best_case(eccentricity: Angle) -> Result<BestCase, Error> {
    bounds::ECCENTRICITY.check(eccentricity.degrees())?;
    let by_law = laws().map(|law| {
        let mar = law.mar_at(eccentricity);
        (law.used_from <= eccentricity).then(|| AtLaw { law, mar, log_mar: LogMar::of_angle(mar) })
    });
    let mut range: Option<(LogMar, LogMar)> = None;
    for at in by_law.iter().flatten() {
        let (best, worst) = range.unwrap_or((at.log_mar, at.log_mar));
        range = Some((best.min(at.log_mar), worst.max(at.log_mar)));
    }
    // Two laws are used from the fovea on, so there is a range.
    let (best, worst) = range.unwrap_or_default();
    Ok(BestCase { eccentricity, by_law, best, worst })
}

#[cfg(feature = "alloc")]
impl Explain for BestCase {
    fn steps(&self) -> Vec<Step> {
        let e = Named::new("E", self.eccentricity.degrees(), Unit::Degree);
        let mut steps = Vec::new();
        for AtLaw { law, mar, log_mar } in self.by_law.iter().flatten() {
            let mar = Named::new("MAR", mar.arcmin(), Unit::Arcmin);
            steps.push(Step::Rule { because: law.id, source: law.source });
            steps.push(match law.form {
                Form::LetterHeight { centre, growth } => {
                    let centre = Named::new("h_0", centre.arcmin(), Unit::Arcmin);
                    let growth = Named::new("growth", growth, Unit::Plain);
                    Step::formula(&formula::ECCENTRIC_LETTER, mar, [centre, growth, e])
                }
                Form::Doubling { mar_0, e2 } => {
                    let mar_0 = Named::new("MAR_0", mar_0.arcmin(), Unit::Arcmin);
                    let e2 = Named::new("E_2", e2.degrees(), Unit::Degree);
                    Step::formula(&formula::ECCENTRIC_DOUBLING, mar, [mar_0, e, e2])
                }
            });
            let log = Named::new("logMAR", log_mar.log(), Unit::LogMar);
            steps.push(Step::formula(&formula::LOG_FROM_MAR, log, [mar]));
        }
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn at(degrees: f64) -> BestCase {
        best_case(Angle::from_degrees(degrees)).expect("possible")
    }

    #[test]
    fn a_law_joins_where_it_is_used() {
        assert_eq!(at(0.0).by_law.map(|law| law.is_some()), [true, false, true]);
        assert_eq!(at(4.999).by_law.map(|law| law.is_some()), [true, false, true]);
        assert_eq!(at(5.0).by_law.map(|law| law.is_some()), [true, true, true]);
    }

    #[test]
    fn the_range_holds_every_law() {
        for degrees in 0..=60 {
            let range = at(f64::from(degrees));
            let logs: Vec<_> = range.by_law.iter().flatten().map(|law| law.log_mar).collect();
            assert!(logs.contains(&range.best) && logs.contains(&range.worst), "{degrees}: one of the laws");
            assert!(logs.iter().all(|log| range.best <= *log && *log <= range.worst), "{degrees}: inside");
            for step in range.steps() {
                assert_eq!(step.check(), Ok(()), "{degrees}");
            }
            assert_eq!(range.steps().len(), 3 * logs.len(), "{degrees}: three steps a law");
            assert_eq!(range.cautions(), Caution::ALL);
        }
    }

    #[test]
    fn what_is_no_eccentricity_is_refused() {
        for degrees in [-0.001, 60.001, f64::NAN, f64::INFINITY] {
            assert!(best_case(Angle::from_degrees(degrees)).is_err(), "{degrees}");
        }
        let error = best_case(Angle::from_degrees(-3.0)).expect_err("not negative");
        assert_eq!(error.to_string(), "eccentricity `-3 degrees` is not possible");
        assert_eq!(error.hint().to_string(), "use 0 to 60 degrees");
    }
}
