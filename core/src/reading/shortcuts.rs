//! Rules of thumb for near power and print, each against the sum it stands for.

use super::needed::{PowerFromAcuity, power_from_acuity};
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::print::{NRule, NSize, n_for, size_of_n};
use crate::unit::{LogMar, PrintSize, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// How much a rule gives above (positive) or below what it stands for; a pure ratio.
fn off(rule: f64, exact: f64) -> f64 {
    rule / exact - 1.0
}

/// The addition by Kestenbaum's rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kestenbaum {
    /// Decimal acuity at distance; a pure ratio.
    pub decimal: f64,
    /// The addition by the rule.
    pub rule: Vergence,
    /// What goal and reserve ask for.
    pub exact: PowerFromAcuity,
    /// Rule over need, less 1; a pure ratio.
    pub deviation: f64,
}

/// The addition as the reciprocal of distance acuity, and what a goal and reserve ask for.
///
/// The rule is exact for 1 M at the threshold; it leaves no reserve. Rule:
/// [`source::AAO_BCSC`](crate::source::AAO_BCSC); Lebensohn's reciprocal of vision is taken for the same rule (from
/// memory).
///
/// # Errors
/// As [`power_from_acuity`].
///
/// # Example
/// ```
/// use arcminute_core::{reading::shortcuts::kestenbaum, unit::{LogMar, PrintSize}};
/// // 20/200 gives +10; with a reserve of 2 it is half of what is needed.
/// let add = kestenbaum(LogMar::from_log(1.0), PrintSize::from_m_units(1.0), 2.0)?;
/// assert!((add.rule.dioptres() - 10.0).abs() < 1e-12);
/// assert!((add.deviation + 0.5).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn kestenbaum(acuity: LogMar, goal: PrintSize, reserve: f64) -> Result<Kestenbaum, Error> {
    let exact = power_from_acuity(acuity, goal, reserve)?;
    let decimal = acuity.decimal();
    let rule = Vergence::from_dioptres(1.0 / decimal);
    Ok(Kestenbaum { decimal, rule, exact, deviation: off(rule.dioptres(), exact.evp.dioptres()) })
}

#[cfg(feature = "alloc")]
impl Explain for Kestenbaum {
    fn steps(&self) -> Vec<Step> {
        let decimal = Named::new("V", self.decimal, Unit::Plain);
        let rule = Named::new("rule", self.rule.dioptres(), Unit::Dioptre);
        let exact = Named::new("exact", self.exact.evp.dioptres(), Unit::Dioptre);
        let mut steps = self.exact.steps();
        steps.push(Step::formula(&formula::KESTENBAUM, rule, [decimal]));
        steps.push(deviation_step(self.deviation, rule, exact));
        steps
    }
}

#[cfg(feature = "alloc")]
fn deviation_step(deviation: f64, rule: Named, exact: Named) -> Step {
    let deviation = Named::new("deviation", deviation, Unit::Plain);
    Step::formula(&formula::DEVIATION, deviation, [rule, exact])
}

/// The print at 25 cm by a third of the denominator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DivideByThree {
    /// Denominator of the acuity over 6.
    pub denominator: f64,
    /// N by the rule.
    pub rule: f64,
    /// The print just read at 25 cm, `M = 0.25·denominator/6`.
    pub print: PrintSize,
    /// Its N, by the meaning of N that was chosen.
    pub exact: NSize,
    /// Rule over print, less 1; a pure ratio.
    pub deviation: f64,
}

/// The N read at 25 cm as a third of the denominator of the acuity in metres: 6/24 reads N8.
///
/// Exact with N8 as 1 M. Rule: [`source::DIVIDE_BY_THREE`](crate::source::DIVIDE_BY_THREE).
///
/// * `denominator`: of the acuity over 6, metres.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::FRACTION_PART`], or where the print is outside
/// [`bounds::PRINT_M`] or [`bounds::PRINT_POINTS`].
///
/// # Example
/// ```
/// use arcminute_core::{print::NRule, reading::shortcuts::divide_by_three};
/// let rule = divide_by_three(24.0, NRule::Convention)?;
/// assert!((rule.rule - 8.0).abs() < 1e-12 && rule.deviation.abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn divide_by_three(denominator: f64, n: NRule) -> Result<DivideByThree, Error> {
    bounds::FRACTION_PART.check(denominator)?;
    let print = PrintSize::from_m_units(0.25 * denominator / 6.0);
    let (rule, exact) = (denominator / 3.0, n_for(print, n)?);
    Ok(DivideByThree { denominator, rule, print, exact, deviation: off(rule, exact.n) })
}

#[cfg(feature = "alloc")]
impl Explain for DivideByThree {
    fn steps(&self) -> Vec<Step> {
        let denominator = Named::new("denominator", self.denominator, Unit::Plain);
        let rule = Named::new("rule", self.rule, Unit::Plain);
        let exact = Named::new("exact", self.exact.n, Unit::Plain);
        let mut steps = alloc::vec![
            Step::formula(&formula::DIVIDE_BY_THREE, rule, [denominator]),
            Step::formula(
                &formula::PRINT_AT_25_CM,
                Named::new("P", self.print.m_units(), Unit::PrintM),
                [denominator],
            ),
        ];
        steps.extend(self.exact.steps());
        steps.push(deviation_step(self.deviation, rule, exact));
        steps
    }
}

/// Chart steps as a ratio of sizes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StepsOfChart {
    /// Steps of 0.1 log.
    pub steps: f64,
    /// Their ratio by 1.25 a step.
    pub rule: f64,
    /// Their ratio, `10^(0.1·n)`.
    pub exact: f64,
    /// Rule over ratio, less 1; a pure ratio.
    pub deviation: f64,
}

/// The ratio of sizes over chart steps of 0.1 log, and by 1.25 a step (common practice, no source).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::CHART_STEPS`].
///
/// # Example
/// ```
/// use arcminute_core::reading::shortcuts::steps_of_chart;
/// // Eight steps: 6.310 and 5.960, 5.5 % short (computed).
/// let eight = steps_of_chart(8.0)?;
/// assert!((eight.exact - 6.310).abs() < 5e-4 && (eight.rule - 5.960).abs() < 5e-4);
/// assert!((eight.deviation + 0.055).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn steps_of_chart(steps: f64) -> Result<StepsOfChart, Error> {
    bounds::CHART_STEPS.check(steps)?;
    let (rule, exact) = (math::pow(1.25, steps), math::pow(10.0, 0.1 * steps));
    Ok(StepsOfChart { steps, rule, exact, deviation: off(rule, exact) })
}

#[cfg(feature = "alloc")]
impl Explain for StepsOfChart {
    fn steps(&self) -> Vec<Step> {
        let steps = Named::new("n", self.steps, Unit::Plain);
        let rule = Named::new("rule", self.rule, Unit::Times);
        let exact = Named::new("exact", self.exact, Unit::Times);
        alloc::vec![
            Step::formula(&formula::STEPS_OF_125, rule, [steps]),
            Step::formula(&formula::STEPS_OF_CHART, exact, [steps]),
            deviation_step(self.deviation, rule, exact),
        ]
    }
}

/// N notation by the convention and as type.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NAsM {
    /// By the convention, `M = N/8`.
    pub rule: NSize,
    /// As type of so many points like Times.
    pub exact: NSize,
    /// How much smaller the type is than the rule says; a pure ratio.
    pub short: f64,
}

/// How much smaller N print set in a typeface like Times is than the convention says.
///
/// # Errors
/// As [`size_of_n`].
///
/// # Example
/// ```
/// use arcminute_core::reading::shortcuts::n_as_m;
/// // N8 is 13 % smaller than 1 M (computed).
/// assert!((n_as_m(8.0)?.short - 0.13).abs() < 5e-3);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn n_as_m(n: f64) -> Result<NAsM, Error> {
    let (rule, exact) = (size_of_n(n, NRule::Convention)?, size_of_n(n, NRule::TimesType)?);
    Ok(NAsM { rule, exact, short: 1.0 - exact.size / rule.size })
}

#[cfg(feature = "alloc")]
impl Explain for NAsM {
    fn steps(&self) -> Vec<Step> {
        let rule = Named::new("rule", self.rule.size.m_units(), Unit::PrintM);
        let exact = Named::new("exact", self.exact.size.m_units(), Unit::PrintM);
        let mut steps = self.rule.steps();
        steps.extend(self.exact.steps());
        let short = Named::new("short", self.short, Unit::Plain);
        steps.push(Step::formula(&formula::SHORT_OF_RULE, short, [exact, rule]));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        let m = PrintSize::from_m_units;
        for value in [4.0, 8.0, 12.0, 24.0, 60.0] {
            let mut steps = kestenbaum(LogMar::from_log(value / 40.0), m(value / 10.0), 2.0)?.steps();
            for rule in NRule::ALL {
                steps.extend(divide_by_three(value, rule)?.steps());
            }
            steps.extend(Explain::steps(&steps_of_chart(value / 6.0)?));
            steps.extend(n_as_m(value)?.steps());
            assert_eq!(steps.len(), 5 + 4 + 6 + 3 + 5);
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{value}");
            }
        }
        Ok(())
    }

    #[test]
    fn what_each_rule_is_off_by() -> Result<(), Error> {
        let m = PrintSize::from_m_units;
        for (goal, reserve, deviation) in [(1.0, 1.0, 0.0), (1.0, 2.0, -0.5), (2.0, 1.0, 1.0)] {
            let rule = kestenbaum(LogMar::from_log(0.7), m(goal), reserve)?;
            assert!((rule.deviation - deviation).abs() < 1e-12, "{goal} M, reserve {reserve}: {rule:?}");
        }
        let as_type = divide_by_three(24.0, NRule::TimesType)?;
        assert!((as_type.deviation + 0.127).abs() < 5e-4, "{as_type:?}");
        assert!((as_type.print.m_units() - 1.0).abs() < 1e-12, "{as_type:?}");
        assert!(steps_of_chart(0.0)?.deviation.abs() < 1e-15, "no step, no difference");
        Ok(())
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let error = steps_of_chart(41.0).expect_err("no chart is so long");
        assert_eq!(error.to_string(), "chart steps `41` is not possible");
        assert_eq!(error.hint().to_string(), "use -40 to 40");
        let error = divide_by_three(0.0, NRule::Convention).expect_err("no denominator");
        assert_eq!(error.to_string(), "part of the fraction `0` is not possible");
        assert!(divide_by_three(1.0, NRule::Convention).is_err(), "0.04 M");
        assert!(kestenbaum(LogMar::ZERO, PrintSize::ZERO, 1.0).is_err(), "no goal");
        assert!(n_as_m(0.0).is_err(), "no N");
    }
}
