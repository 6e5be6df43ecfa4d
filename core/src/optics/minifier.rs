//! A minus lens held at arm's length: more field, less detail.

use super::{Element, Sight, Train, view};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Length, Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What a hand-held minus lens does to a far scene.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MinusLens {
    /// Power of the lens, below zero.
    pub power: Vergence,
    /// Lens to the eye's entrance pupil.
    pub lens_to_eye: Length,
    /// Angular magnification, below one.
    pub magnification: Magnification,
    /// Focusing needed at the eye.
    pub focus_demand: Vergence,
}

/// A lens of `power` (negative) held `lens_to_eye` away, looking at a far scene.
///
/// Source: paraxial; `M = 1/(1 − D·F)` and demand `−F/(1 − D·F)` are the closed forms.
///
/// ```
/// use arcminute_core::{optics::minus_lens, unit::{Length, Vergence}};
/// // −5 D at 30 cm: 0.40x, +2.00 D to focus (computed).
/// let lens = minus_lens(Vergence::from_dioptres(-5.0), Length::from_cm(30.0));
/// assert!((lens.magnification.times() - 0.4).abs() < 1e-12);
/// assert!((lens.focus_demand.dioptres() - 2.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn minus_lens(power: Vergence, lens_to_eye: Length) -> MinusLens {
    let lens = Train::new([Element::Lens { power, clear_diameter: None }]);
    let seen = view(&lens.to_eye(lens_to_eye), Sight::Far);
    MinusLens {
        power,
        lens_to_eye,
        magnification: Magnification::from_times(seen.enlargement),
        focus_demand: seen.focus_demand,
    }
}

#[cfg(feature = "alloc")]
impl Explain for MinusLens {
    fn steps(&self) -> Vec<Step> {
        let inputs = [
            Named::new("F", self.power.dioptres(), Unit::Dioptre),
            Named::new("D", self.lens_to_eye.m(), Unit::Metre),
        ];
        let times = Named::new("M", self.magnification.times(), Unit::Times);
        let demand = Named::new("A", self.focus_demand.dioptres(), Unit::Dioptre);
        alloc::vec![
            Step::formula(&formula::MINUS_LENS_ALONE, times, inputs),
            Step::formula(&formula::MINUS_LENS_ALONE_DEMAND, demand, inputs),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn working_agrees() {
        for (power, metres) in [(-1.0, 0.0), (-5.0, 0.3), (-20.0, 1.0)] {
            let lens = minus_lens(Vergence::from_dioptres(power), Length::from_m(metres));
            assert_eq!(lens.steps().len(), 2);
            for step in lens.steps() {
                assert_eq!(step.check(), Ok(()), "{lens:?}");
            }
        }
    }
}
