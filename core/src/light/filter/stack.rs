//! Grey filters one behind the other, and the light that is left.

use super::Tint;
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::list::List;
use crate::unit::Luminance;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Most filters in a stack.
pub const MOST_FILTERS: usize = 6;

/// Grey filters one behind the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// Luminous transmittance of each.
    pub filters: List<f64, MOST_FILTERS>,
    /// What the first, the first two, and so on let through.
    pub behind_each: List<f64, MOST_FILTERS>,
    /// All of them together.
    pub together: Tint,
}

impl Stack {
    /// Grey filters together let through the product of what each lets through, and their densities add up.
    ///
    /// * Domain: grey (neutral) filters only; for coloured ones the product can be wrong either way, up to twofold and
    ///   more ([`super::coloured_stack`]). Light sent back and forth between them is left out.
    /// * Source: definition.
    ///
    /// ```
    /// use arcminute_core::light::filter::{Category, Stack};
    /// // 0.40 and 0.50: 0.20, category 2, computed by hand.
    /// let stack = Stack::of(&[0.40, 0.50])?;
    /// assert!((stack.together.transmittance - 0.20).abs() < 1e-12);
    /// assert_eq!(stack.together.category, Some(Category::Two));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for what is no transmittance, [`Why::NoSolution`] for no filter at all, for more than
    /// [`MOST_FILTERS`], and for filters that together let nothing through.
    pub fn of(transmittances: &[f64]) -> Result<Self, Error> {
        let refused = |because| {
            let count = transmittances.len();
            Err(Error::about("filters", format_args!("{count}"), Why::NoSolution { because }))
        };
        let (mut filters, mut behind_each) = (List::new(), List::new());
        let mut left = 1.0;
        for &transmittance in transmittances {
            left *= bounds::TRANSMITTANCE.check(transmittance)?;
            if filters.try_push(transmittance).is_err() || behind_each.try_push(left).is_err() {
                return refused("no more than 6 are reckoned with");
            }
        }
        if filters.is_empty() {
            return refused("there is none to look through");
        }
        match Tint::of(left) {
            Ok(together) => Ok(Self { filters, behind_each, together }),
            Err(_) => refused("together they let nothing through"),
        }
    }
}

#[cfg(feature = "alloc")]
impl Explain for Stack {
    fn steps(&self) -> Vec<Step> {
        let plain = |symbol, value| Named::new(symbol, value, Unit::Plain);
        let before = self.behind_each.iter();
        let mut steps: Vec<Step> = before
            .zip(self.filters.iter().skip(1))
            .zip(self.behind_each.iter().skip(1))
            .map(|((&before, &filter), &behind)| {
                Step::formula(
                    &formula::FILTER_STACK,
                    plain("T", behind),
                    [plain("T_1", before), plain("T_2", filter)],
                )
            })
            .collect();
        steps.extend(self.together.steps());
        steps
    }
}

/// What a thing looks like behind a filter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BehindFilter {
    /// Luminance of the thing.
    pub luminance: Luminance,
    /// Luminous transmittance of the filter.
    pub transmittance: f64,
    /// Luminance that the eye sees.
    pub at_eye: Luminance,
}

/// Luminance of a thing seen through a filter: `L·τ`.
///
/// Contrast does not change behind an even filter; the pupil widens, and gives a part of the light back.
///
/// Source: definition.
///
/// ```
/// use arcminute_core::{light::filter::behind, unit::Luminance};
/// let seen = behind(Luminance::from_candela_per_m2(1000.0), 0.15)?;
/// assert!((seen.at_eye.candela_per_m2() - 150.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible luminance or transmittance.
pub fn behind(luminance: Luminance, transmittance: f64) -> Result<BehindFilter, Error> {
    bounds::LUMINANCE.check(luminance.candela_per_m2())?;
    bounds::TRANSMITTANCE.check(transmittance)?;
    Ok(BehindFilter { luminance, transmittance, at_eye: luminance * transmittance })
}

#[cfg(feature = "alloc")]
impl Explain for BehindFilter {
    fn steps(&self) -> Vec<Step> {
        let luminance = |symbol, value: Luminance| {
            Named::new(symbol, value.candela_per_m2(), Unit::CandelaPerSquareMetre)
        };
        alloc::vec![Step::formula(
            &formula::LUMINANCE_BEHIND_FILTER,
            luminance("L_eye", self.at_eye),
            [luminance("L", self.luminance), Named::new("T", self.transmittance, Unit::Plain)],
        )]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn every_filter_shows_in_the_working() -> Result<(), Error> {
        let stack = Stack::of(&[0.9, 0.8, 0.5, 0.5, 0.75, 0.6])?;
        assert_eq!(stack.filters.as_slice(), [0.9, 0.8, 0.5, 0.5, 0.75, 0.6]);
        assert_eq!(stack.behind_each.len(), MOST_FILTERS);
        assert!((stack.together.transmittance - 0.081).abs() < 1e-12);
        assert_eq!(stack.behind_each.last(), Some(&stack.together.transmittance));
        assert_eq!(stack.steps().len(), 5 + 2);
        assert_eq!(Stack::of(&[0.4])?.steps().len(), 2, "one filter needs no product");
        let seen = behind(Luminance::from_candela_per_m2(300.0), 0.081)?;
        for step in stack.steps().into_iter().chain(seen.steps()) {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    #[test]
    fn stacks_that_cannot_be_looked_through_are_refused() {
        for (filters, message) in [
            (&[][..], "filters `0` has no solution: there is none to look through"),
            (&[0.9; 7], "filters `7` has no solution: no more than 6 are reckoned with"),
            (&[0.001, 0.001], "filters `2` has no solution: together they let nothing through"),
            (&[0.5, 1.5], "transmittance `1.5` is not possible"),
            (&[0.0], "transmittance `0` is not possible"),
        ] {
            assert_eq!(Stack::of(filters).expect_err(message).to_string(), message);
        }
        assert!(Stack::of(&[f64::NAN]).is_err());
        assert!(behind(Luminance::from_candela_per_m2(-1.0), 0.5).is_err());
        assert!(behind(Luminance::from_candela_per_m2(100.0), 2.0).is_err());
    }
}
