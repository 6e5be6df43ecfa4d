//! What "x" on a magnifier may mean.
//!
//! The same lens of 20 D is labelled 5x, 6x or 8x, each with an assumption that it does not state. None is wrong, none
//! is portable: what is kept of a magnifier is its power, and of a stand magnifier its enlargement and the place of its
//! image as well ([`StandData`](super::StandData)). Sources: [`source::BROWN_SIEMSEN_2008`] for what the first two
//! presume; the forms are common practice.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
#[cfg(doc)]
use crate::source;
use crate::unit::{Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Conformity of these forms to a standard: none is claimed, for the clauses that define magnification, its tolerances and
/// its marking were not read.
pub const LABEL_CONFORMITY: &str = "no clause of ISO 15253 is claimed for any of these forms";

/// A way of labelling a magnifier.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MagnifierLabel {
    /// Nominal or effective: `F/4`.
    Nominal,
    /// Trade or conventional: `F/4 + 1`.
    Conventional,
    /// Against 40 cm: `F/2.5`.
    At40Centimetres,
}

impl MagnifierLabel {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Nominal, Self::Conventional, Self::At40Centimetres];

    /// What the label presumes without saying so.
    ///
    /// ```
    /// use arcminute_core::device::MagnifierLabel;
    /// // `F/4` and `F/4 + 1` differ by an image at 25 cm and the 4 D that it takes to see it.
    /// assert!(MagnifierLabel::Conventional.assumes().contains("image at 25 cm and 4 D"));
    /// ```
    #[must_use]
    pub fn assumes(self) -> &'static str {
        match self {
            Self::Nominal => "print in the focus of the lens, against the bare print at 25 cm",
            Self::Conventional => {
                "lens at the eye, image at 25 cm and 4 D of accommodation or addition for it, against 25 cm"
            }
            Self::At40Centimetres => "print in the focus of the lens, against the bare print at 40 cm",
        }
    }

    /// The label that a lens of this power gets.
    ///
    /// ```
    /// use arcminute_core::{device::MagnifierLabel, unit::Vergence};
    /// // One lens, three labels (computed).
    /// let labels = MagnifierLabel::ALL.map(|label| label.of(Vergence::from_dioptres(20.0)).times());
    /// assert_eq!(labels, [5.0, 6.0, 8.0]);
    /// ```
    #[must_use]
    pub fn of(self, power: Vergence) -> Magnification {
        Magnification::from_times(match self {
            Self::Nominal => power.dioptres() / 4.0,
            Self::Conventional => power.dioptres() / 4.0 + 1.0,
            Self::At40Centimetres => power.dioptres() / 2.5,
        })
    }

    /// Power of a lens with this label; the inverse of [`MagnifierLabel::of`].
    ///
    /// # Errors
    /// [`crate::Why::OutOfRange`] for a power that no magnifier has.
    ///
    /// ```
    /// use arcminute_core::{device::MagnifierLabel, unit::Magnification};
    /// // "5x" may be 20, 16 or 12.5 D (computed).
    /// let five = Magnification::from_times(5.0);
    /// assert_eq!(MagnifierLabel::Conventional.power(five)?.dioptres(), 16.0);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn power(self, label: Magnification) -> Result<Vergence, Error> {
        let dioptres = match self {
            Self::Nominal => 4.0 * label.times(),
            Self::Conventional => 4.0 * (label.times() - 1.0),
            Self::At40Centimetres => 2.5 * label.times(),
        };
        bounds::MAGNIFIER_POWER.check(dioptres).map(Vergence::from_dioptres)
    }
}

/// The labels of one magnifier, and what it is worth as used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MagnifierLabels {
    /// Power of the lens.
    pub power: Vergence,
    /// Equivalent viewing power as used.
    pub equivalent_viewing_power: Vergence,
    /// `F/4`.
    pub nominal: Magnification,
    /// `F/4 + 1`.
    pub conventional: Magnification,
    /// `F/2.5`.
    pub at_40_cm: Magnification,
    /// A quarter of the equivalent viewing power: against 25 cm, as used.
    pub actual: Magnification,
}

/// The labels of a lens of this power, beside what it is worth as used.
///
/// ```
/// use arcminute_core::{device::magnifier_labels, unit::Vergence};
/// let d = Vergence::from_dioptres;
/// // A stand magnifier of 20 D used at 12 D is 3x, whatever its label (computed).
/// let labels = magnifier_labels(d(20.0), d(12.0));
/// assert_eq!((labels.nominal.times(), labels.actual.times()), (5.0, 3.0));
/// ```
#[must_use]
pub fn magnifier_labels(power: Vergence, equivalent_viewing_power: Vergence) -> MagnifierLabels {
    MagnifierLabels {
        power,
        equivalent_viewing_power,
        nominal: MagnifierLabel::Nominal.of(power),
        conventional: MagnifierLabel::Conventional.of(power),
        at_40_cm: MagnifierLabel::At40Centimetres.of(power),
        actual: MagnifierLabel::Nominal.of(equivalent_viewing_power),
    }
}

#[cfg(feature = "alloc")]
impl Explain for MagnifierLabels {
    fn steps(&self) -> Vec<Step> {
        let f = Named::new("F", self.power.dioptres(), Unit::Dioptre);
        let evp = Named::new("EVP", self.equivalent_viewing_power.dioptres(), Unit::Dioptre);
        let times = |symbol, label: Magnification| Named::new(symbol, label.times(), Unit::Times);
        alloc::vec![
            Step::formula(&formula::LABEL_NOMINAL, times("M_nominal", self.nominal), [f]),
            Step::formula(&formula::LABEL_CONVENTIONAL, times("M_conventional", self.conventional), [f]),
            Step::formula(&formula::LABEL_AT_40_CM, times("M_40", self.at_40_cm), [f]),
            Step::formula(&formula::LABEL_ACTUAL, times("M_actual", self.actual), [evp]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() {
        for (power, used) in [(4.0, 3.0), (20.0, 12.0), (56.0, 60.0)] {
            let labels = magnifier_labels(Vergence::from_dioptres(power), Vergence::from_dioptres(used));
            assert_eq!(labels.steps().len(), 4);
            for step in labels.steps() {
                assert_eq!(step.check(), Ok(()), "{power} D used at {used} D");
            }
        }
    }

    #[test]
    fn a_label_leads_back_to_the_power() -> Result<(), Error> {
        for label in MagnifierLabel::ALL {
            for dioptres in [2.0, 12.5, 76.0] {
                let power = label.power(label.of(Vergence::from_dioptres(dioptres)))?;
                assert!((power.dioptres() - dioptres).abs() < 1e-12, "{label:?} of {dioptres} D: {power:?}");
            }
        }
        Ok(())
    }

    #[test]
    fn a_label_of_no_magnifier_is_refused() {
        // "1x" by F/4 + 1 is a lens without power.
        let error = MagnifierLabel::Conventional.power(Magnification::from_times(1.0)).expect_err("no power");
        assert_eq!(error.to_string(), "magnifier power `0 D` is not possible");
        assert_eq!(error.hint().to_string(), "use 0.5 to 120 D");
        assert!(MagnifierLabel::Nominal.power(Magnification::from_times(f64::NAN)).is_err(), "no number");
    }

    #[test]
    fn each_says_what_it_presumes() {
        for (label, words) in [
            (MagnifierLabel::Nominal, ["in the focus", "at 25 cm"]),
            (MagnifierLabel::Conventional, ["lens at the eye", "4 D of accommodation"]),
            (MagnifierLabel::At40Centimetres, ["in the focus", "at 40 cm"]),
        ] {
            for word in words {
                assert!(label.assumes().contains(word), "{label:?}: {}", label.assumes());
            }
        }
        assert!(LABEL_CONFORMITY.starts_with("no clause"), "nothing is claimed");
    }
}
