//! Rules by which signs are lettered, as the detail they leave at the eye.

use super::letter::{AcuityForLetter, acuity_for_letter};
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::source::{self, Source};
use crate::unit::Length;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Height of lower-case letters over that of the capitals beside them on street-name signs: 4.5 to 6 inches; a pure
/// ratio ([`source::STREET_NAME_SIGNS`]).
pub const LOWER_CASE_OF_CAPITALS: f64 = 0.75;

/// A rule of letter height for a distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SignRule {
    /// Stable key.
    pub id: &'static str,
    /// Whose rule.
    pub about: &'static str,
    /// Where it stands.
    pub source: &'static Source,
    feet_per_inch: f64,
}

impl SignRule {
    /// The distance for which the rule gives letters one inch high.
    ///
    /// ```
    /// use arcminute_core::scene::SIGN_RULES;
    /// let rule = SIGN_RULES.iter().find(|rule| rule.id == "road-40").expect("in the table");
    /// assert!((rule.distance_of_one_inch().feet() - 40.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn distance_of_one_inch(&self) -> Length {
        Length::from_feet(self.feet_per_inch)
    }
}

macro_rules! rules {
    ($($id:literal, $about:literal, $feet:literal, $source:ident;)+) => {
        /// The rules, smallest letters first.
        pub static SIGN_RULES: &[SignRule] =
            &[$(SignRule { id: $id, about: $about, source: &source::$source, feet_per_inch: $feet }),+];
    };
}

rules! {
    "road-40", "road signs, United States, manual of 2003", 40.0, ROAD_SIGNS_2003;
    "road-33", "road signs, United States, from research, named in the manual of 2003", 33.0, ROAD_SIGNS_2003;
    "road-30", "road signs, United States, manual of 2009", 30.0, ROAD_SIGNS_2009;
    "sign-makers", "signs in general, makers' rule of thumb", 10.0, COMMON_PRACTICE;
}

/// What a rule gives for a distance, and what the letters then ask for; a property of the sign, no verdict on a person.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SignLetter {
    /// The rule.
    pub rule: SignRule,
    /// Eye to sign.
    pub distance: Length,
    /// Height of the letters.
    pub height: Length,
    /// Acuity that they ask for without reserve.
    pub asked: AcuityForLetter,
}

/// The letters that a rule gives a sign to be read from a distance, and the acuity that reads them only just.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::TASK_DISTANCE`], and where the letters would be
/// outside [`bounds::TASK_HEIGHT`].
///
/// ```
/// use arcminute_core::scene::{SIGN_RULES, sign_letter};
/// use arcminute_core::unit::Length;
/// // One inch for 30 feet: logMAR 0.281, 20/38 (computed).
/// let rule = SIGN_RULES.iter().find(|rule| rule.id == "road-30").expect("in the table");
/// let letters = sign_letter(rule, Length::from_feet(300.0))?;
/// assert!((letters.height.inches() - 10.0).abs() < 1e-12);
/// assert!((letters.asked.demand.to_reach.log() - 0.281).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn sign_letter(rule: &SignRule, distance: Length) -> Result<SignLetter, Error> {
    bounds::TASK_DISTANCE.check(distance.m())?;
    let height = Length::from_inches(distance / rule.distance_of_one_inch());
    let asked = acuity_for_letter(height, distance, 1.0)?;
    Ok(SignLetter { rule: *rule, distance, height, asked })
}

#[cfg(feature = "alloc")]
impl Explain for SignLetter {
    fn steps(&self) -> Vec<Step> {
        let mut steps = alloc::vec![
            Step::Rule { because: self.rule.id, source: self.rule.source },
            Step::formula(
                &formula::SIGN_LETTER,
                Named::new("h", self.height.mm(), Unit::Millimetre),
                [
                    Named::new("D", self.distance.m(), Unit::Metre),
                    Named::new("D_inch", self.rule.distance_of_one_inch().m(), Unit::Metre),
                ],
            ),
        ];
        steps.extend(self.asked.steps());
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for rule in SIGN_RULES {
            for feet in [1.0, 60.0, 1000.0] {
                let steps = sign_letter(rule, Length::from_feet(feet))?.steps();
                assert_eq!(steps.len(), 6, "rule, height, four of the acuity");
                for step in steps {
                    assert_eq!(step.check(), Ok(()), "{} {feet}", rule.id);
                }
            }
        }
        Ok(())
    }

    #[test]
    fn the_rules_ask_for_less_and_less() {
        assert_eq!(SIGN_RULES.len(), 4);
        assert!(
            SIGN_RULES.is_sorted_by(|a, b| b.distance_of_one_inch() < a.distance_of_one_inch()),
            "smallest letters first, none twice"
        );
    }

    #[test]
    fn what_is_no_distance_is_refused() {
        let error = sign_letter(&SIGN_RULES[0], Length::from_m(2000.0)).expect_err("too far");
        assert_eq!(error.to_string(), "distance `2000 m` is not possible");
    }
}
