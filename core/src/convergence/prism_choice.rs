//! Base-in prism for near: what a wanted convergence asks for, and what the rules of thumb leave.
//!
//! Two rules are in print, and one is twice the other: power + 2 in each eye, or power + 2 in both together. The exact
//! sum says what each does; neither is said here to be right. No source found says whether a ready-made pair is marked
//! with its prism at the pupil or at a geometric centre that is set in already, so ask for both.

use super::near_pair::EyeAndLens;
#[cfg(feature = "alloc")]
use super::near_pair::{convergence_step, dioptre, mm, prism};
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Step, formula};
#[cfg(feature = "alloc")]
use crate::source;
use crate::unit::{Length, Prism};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Key of the question to put to whoever makes a near pair.
pub const ASK_CENTRATION_AND_PRISM: &str = "ask-for-both-centration-and-prism";

/// Base-in prism for one eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrismChoice {
    /// Eye and lens, without prism.
    pub eye: EyeAndLens,
    /// Print to the lens.
    pub print_to_lens: Length,
    /// What the eye is to turn in.
    pub target: Prism,
    /// Prism that makes it so; base-in positive.
    pub base_in: Prism,
    /// The rule "power + 2 in each eye".
    pub each_eye_rule: Prism,
    /// What the eye still turns in with that.
    pub each_eye_rule_leaves: Prism,
    /// The rule "power + 2 in both eyes together": half of it for one eye.
    pub in_total_rule: Prism,
    /// What the eye still turns in with that.
    pub in_total_rule_leaves: Prism,
}

/// The prism with which an eye turns in by `target`; with print in the focus `100·p_c·F − target`.
///
/// * The lens is taken without the prism that `eye` may have. A negative prism is base-out.
/// * Source: the ray-transfer engine, solved for the prism; rules from [`crate::source::PRISM_EACH_EYE`] and
///   [`crate::source::PRISM_IN_TOTAL`].
///
/// # Errors
/// As [`EyeAndLens::converge`], also for an impossible target.
///
/// ```
/// use arcminute_core::convergence::{EyeAndLens, prism_for_target};
/// use arcminute_core::unit::{Length, Prism, Vergence};
/// let mm = Length::from_mm;
/// let eye = EyeAndLens {
///     eye_from_midline: mm(32.0),
///     centre_from_midline: mm(32.0),
///     power: Vergence::from_dioptres(8.0),
///     base_in: Prism::ZERO,
///     stop_distance: mm(27.0),
/// };
/// // +8 D, print in the focus: 18.11 base-in to turn in as bare eyes do for 40 cm (computed).
/// let choice = prism_for_target(eye, mm(125.0), Prism::from_prism_dioptres(7.49))?;
/// assert!((choice.base_in.prism_dioptres() - 18.11).abs() < 1e-9);
/// assert!((choice.each_eye_rule_leaves.prism_dioptres() - 15.60).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn prism_for_target(eye: EyeAndLens, print_to_lens: Length, target: Prism) -> Result<PrismChoice, Error> {
    bounds::CONVERGENCE.check(target.prism_dioptres())?;
    let eye = EyeAndLens { base_in: Prism::ZERO, ..eye };
    let from_print = eye.checked(print_to_lens)?;
    let without = eye.converge(print_to_lens)?.per_eye;
    // Of a prism in the plane of the lens the part u/B counts at the eye.
    let counts = print_to_lens / from_print.b;
    let each_eye_rule = Prism::from_prism_dioptres(eye.power.dioptres() + 2.0);
    let in_total_rule = each_eye_rule / 2.0;
    let leaves = |base_in: Prism| without - base_in * counts;
    Ok(PrismChoice {
        eye,
        print_to_lens,
        target,
        base_in: (without - target) / counts,
        each_eye_rule,
        each_eye_rule_leaves: leaves(each_eye_rule),
        in_total_rule,
        in_total_rule_leaves: leaves(in_total_rule),
    })
}

#[cfg(feature = "alloc")]
impl Explain for PrismChoice {
    fn steps(&self) -> Vec<Step> {
        let power = dioptre("F", self.eye.power);
        let inputs = [
            mm("p", self.eye.eye_from_midline),
            mm("p_c", self.eye.centre_from_midline),
            mm("s", self.eye.stop_distance),
            mm("u", self.print_to_lens),
            power,
            prism("target", self.target),
        ];
        let left = |base_in, leaves| convergence_step(&self.eye, self.print_to_lens, base_in, leaves);
        alloc::vec![
            Step::formula(&formula::PRISM_FOR_TARGET, prism("delta", self.base_in), inputs),
            Step::Rule {
                because: "the-rules-in-print-disagree-by-a-factor-of-two",
                source: &source::PRISM_IN_TOTAL
            },
            Step::formula(&formula::PRISM_EACH_EYE, prism("delta", self.each_eye_rule), [power]),
            left(self.each_eye_rule, self.each_eye_rule_leaves),
            Step::formula(&formula::PRISM_IN_TOTAL, prism("delta", self.in_total_rule), [power]),
            left(self.in_total_rule, self.in_total_rule_leaves),
            Step::Rule { because: ASK_CENTRATION_AND_PRISM, source: &source::COMMON_PRACTICE },
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::Vergence;
    use alloc::string::ToString;

    fn eye(power: f64) -> EyeAndLens {
        EyeAndLens {
            eye_from_midline: Length::from_mm(30.0),
            centre_from_midline: Length::from_mm(28.0),
            power: Vergence::from_dioptres(power),
            base_in: Prism::from_prism_dioptres(5.0),
            stop_distance: Length::from_mm(25.0),
        }
    }
    fn target(prism: f64) -> Prism {
        Prism::from_prism_dioptres(prism)
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for power in [0.0, 4.0, 10.0] {
            for print in [70.0, 100.0, 300.0] {
                for wanted in [0.0, 7.5, 60.0] {
                    let Ok(choice) = prism_for_target(eye(power), Length::from_mm(print), target(wanted))
                    else {
                        continue;
                    };
                    for step in choice.steps() {
                        assert_eq!(step.check(), Ok(()), "{choice:?}");
                    }
                    let asked = choice.steps().iter().any(
                        |step| matches!(step, Step::Rule { because, .. } if *because == ASK_CENTRATION_AND_PRISM),
                    );
                    assert!(asked, "centration and prism are asked for");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn a_prism_already_worked_is_left_out() -> Result<(), Error> {
        let choice = prism_for_target(eye(10.0), Length::from_mm(100.0), target(8.0))?;
        assert_eq!(choice.eye.base_in, Prism::ZERO);
        assert!((choice.base_in.prism_dioptres() - 20.0).abs() < 1e-9, "28 less 8: {choice:?}");
        assert!((choice.each_eye_rule.prism_dioptres() - 12.0).abs() < 1e-12, "{choice:?}");
        assert!((choice.in_total_rule.prism_dioptres() - 6.0).abs() < 1e-12, "{choice:?}");
        Ok(())
    }

    #[test]
    fn an_impossible_target_is_refused() {
        let told = |wanted| {
            let error = prism_for_target(eye(10.0), Length::from_mm(100.0), target(wanted));
            error.expect_err("not possible").to_string()
        };
        assert_eq!(told(-51.0), "convergence `-51 prism dioptres` is not possible");
        assert_eq!(told(f64::NAN), "convergence `NaN prism dioptres` is not possible");
        let behind = EyeAndLens { stop_distance: Length::from_mm(27.0), ..eye(40.0) };
        let far = prism_for_target(behind, Length::from_mm(9000.0), target(0.0)).expect_err("crossed");
        assert_eq!(far.quantity, "print to lens");
    }
}
