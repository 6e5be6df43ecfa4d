//! How much an eye can focus at an age, how much of it can be used, and what addition is left to give.
//!
//! An eye in focus for far focuses nearer by adding power, less with each year. What it cannot add a lens has to.
//!
//! ```text
//!   print |<------- x -------->| eye      demand A = 1000 / x, in dioptres for millimetres
//!                                         A = accommodation used + addition
//! ```
//!
//! Age is a poor measure of one person: a measured amplitude is better. Powers are at the spectacle plane.
//!
//! Then read [`crate::refraction`]: the lenses that are worn already.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::source::{self, Source};
use crate::unit::{Age, Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Age at which the formulas stop: past it their lines cross, and what is measured is depth of focus.
const STOP_YEARS: f64 = 60.0;

/// Amplitude of accommodation to be expected at an age.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AmplitudeAtAge {
    /// The age.
    pub age: Age,
    /// Least: few have less.
    pub least: Vergence,
    /// Mean.
    pub mean: Vergence,
    /// Most: few have more.
    pub most: Vergence,
    /// Whether the age lies past 60 years, where the formulas stop and nothing is expected.
    pub past_formulas: bool,
}

/// Least, mean and most amplitude of accommodation at an age, never below zero; none past 60 years.
///
/// `15 − 0.25·age`, `18.5 − 0.3·age`, `25 − 0.4·age`. That they are cut at zero and stop at 60 is ours: past 65 to 70 the
/// lines cross, and the least would be more than the most.
///
/// Source: [`crate::source::HOFSTETTER`]; measurements beside it in [`MEASURED`].
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible age.
///
/// ```
/// use arcminute_core::{accommodation::amplitude_at_age, unit::Age};
/// let child = amplitude_at_age(Age::from_years(10.0))?;
/// assert_eq!((child.least.dioptres(), child.mean.dioptres()), (12.5, 15.5));
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn amplitude_at_age(age: Age) -> Result<AmplitudeAtAge, Error> {
    let years = bounds::AGE.check(age.years())?;
    let past_formulas = STOP_YEARS < years;
    let line = |at_birth: f64, a_year: f64| {
        let amplitude = if past_formulas { 0.0 } else { at_birth - a_year * years };
        Vergence::from_dioptres(amplitude.max(0.0))
    };
    Ok(AmplitudeAtAge {
        age,
        least: line(15.0, 0.25),
        mean: line(18.5, 0.3),
        most: line(25.0, 0.4),
        past_formulas,
    })
}

#[cfg(feature = "alloc")]
impl Explain for AmplitudeAtAge {
    fn steps(&self) -> Vec<Step> {
        if self.past_formulas {
            let because = "the-formulas-stop-at-60-years";
            return alloc::vec![Step::Rule { because, source: &source::HOFSTETTER }];
        }
        let age = Named::new("age", self.age.years(), Unit::Year);
        let amplitude = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        alloc::vec![
            Step::formula(&formula::AMPLITUDE_LEAST, amplitude("Amp_least", self.least), [age]),
            Step::formula(&formula::AMPLITUDE_MEAN, amplitude("Amp_mean", self.mean), [age]),
            Step::formula(&formula::AMPLITUDE_MOST, amplitude("Amp_most", self.most), [age]),
        ]
    }
}

/// Share of the amplitude that is taken as usable unless another is chosen: half, a careful default; see [`EVIDENCE`].
pub const USABLE_SHARE: f64 = 0.5;

/// What of an amplitude can be used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usable {
    /// The amplitude.
    pub amplitude: Vergence,
    /// Share of it that is used, 0 to 1; a pure ratio.
    pub share: f64,
    /// What can be used.
    pub usable: Vergence,
    /// Nearest distance that it reaches without an addition; `None` without any.
    pub nearest: Option<Length>,
}

/// The part of an amplitude that can be used for long.
///
/// * `share`: [`USABLE_SHARE`] unless the person shows otherwise; the evidence for it is divided ([`EVIDENCE`]).
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible amplitude or share.
///
/// ```
/// use arcminute_core::{accommodation::{USABLE_SHARE, usable}, unit::Vergence};
/// // A child of ten has at least 12.5 D: half of it reaches 16 cm (computed).
/// let child = usable(Vergence::from_dioptres(12.5), USABLE_SHARE)?;
/// assert!((child.nearest.unwrap_or_default().cm() - 16.0).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn usable(amplitude: Vergence, share: f64) -> Result<Usable, Error> {
    bounds::AMPLITUDE.check(amplitude.dioptres())?;
    bounds::USABLE_SHARE.check(share)?;
    let usable = amplitude * share;
    let nearest = (Vergence::ZERO < usable).then(|| usable.focal_length());
    Ok(Usable { amplitude, share, usable, nearest })
}

#[cfg(feature = "alloc")]
impl Explain for Usable {
    fn steps(&self) -> Vec<Step> {
        let amplitude = Named::new("Amp", self.amplitude.dioptres(), Unit::Dioptre);
        let share = Named::new("share", self.share, Unit::Plain);
        let usable = Named::new("A_u", self.usable.dioptres(), Unit::Dioptre);
        let mut steps = alloc::vec![Step::formula(&formula::USABLE_AMPLITUDE, usable, [amplitude, share])];
        if let Some(nearest) = self.nearest {
            let nearest = Named::new("x_near", nearest.mm(), Unit::Millimetre);
            steps.push(Step::formula(&formula::NEAREST_UNAIDED, nearest, [usable]));
        }
        steps
    }
}

/// An addition for a demand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AddNeeded {
    /// What the print asks for.
    pub demand: Vergence,
    /// What the eye can use for it.
    pub usable: Vergence,
    /// What is left to give; zero when the eye does it alone.
    pub add: Vergence,
}

/// The addition that a demand leaves over: demand less usable accommodation, never below zero.
///
/// * Both in the same plane. Source: definition.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible demand or accommodation.
///
/// ```
/// use arcminute_core::{accommodation::add_needed, unit::Vergence};
/// let d = Vergence::from_dioptres;
/// assert_eq!(add_needed(d(10.0), d(6.25))?.add.dioptres(), 3.75);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn add_needed(demand: Vergence, usable: Vergence) -> Result<AddNeeded, Error> {
    bounds::FOCUS_DEMAND.check(demand.dioptres())?;
    bounds::AMPLITUDE.check(usable.dioptres())?;
    Ok(AddNeeded { demand, usable, add: (demand - usable).max(Vergence::ZERO) })
}

#[cfg(feature = "alloc")]
impl Explain for AddNeeded {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let inputs = [dioptre("A", self.demand), dioptre("A_u", self.usable)];
        alloc::vec![Step::formula(&formula::ADD_NEEDED, dioptre("Add", self.add), inputs)]
    }
}

/// What a work says about the share that is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShareEvidence {
    /// Stable key.
    pub id: &'static str,
    /// Who was measured, and what.
    pub who: &'static str,
    /// The share, 0 to 1; a pure ratio.
    pub share: f64,
    /// Where it was published.
    pub source: &'static Source,
}

/// Evidence for half in reserve and against it.
pub static EVIDENCE: [ShareEvidence; 2] = [
    ShareEvidence {
        id: "presbyopes-use-half",
        who: "presbyopes with their own additions, mean of a wide scatter",
        share: 0.507,
        source: &source::MILLODOT_1989,
    },
    ShareEvidence {
        id: "young-adults-sustain-more",
        who: "young adults, sustained for 30 minutes",
        share: 0.806,
        source: &source::WOLFFSOHN_2011,
    },
];

/// A measured mean amplitude.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredAmplitude {
    /// Stable key.
    pub id: &'static str,
    /// Ages measured.
    pub ages: &'static str,
    /// Where it was published.
    pub source: &'static Source,
    age_years: f64,
    mean_dioptres: f64,
}

impl MeasuredAmplitude {
    /// Mean age, or the middle of the ages where no mean is given.
    ///
    /// ```
    /// use arcminute_core::accommodation::MEASURED;
    /// // A published mean of schoolchildren, and the middle of 20 to 29 years, for which no mean was given.
    /// let [children, twenties, _] = MEASURED;
    /// assert_eq!((children.age().years(), twenties.age().years()), (9.24, 25.0));
    /// ```
    #[must_use]
    pub fn age(&self) -> Age {
        Age::from_years(self.age_years)
    }
    /// Mean amplitude.
    ///
    /// ```
    /// use arcminute_core::accommodation::{MEASURED, amplitude_at_age};
    /// // 1.3 D less than expected in 5444 schoolchildren.
    /// let [children, ..] = MEASURED;
    /// let expected = amplitude_at_age(children.age())?.mean;
    /// assert!(((expected - children.mean()).dioptres() - 1.3).abs() < 0.05);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn mean(&self) -> Vergence {
        Vergence::from_dioptres(self.mean_dioptres)
    }
}

/// Means measured, youngest first, to hold against the formulas.
pub static MEASURED: [MeasuredAmplitude; 3] = [
    MeasuredAmplitude {
        id: "schoolchildren",
        ages: "6 to 12 years, mean 9.24",
        source: &source::AMPLITUDE_CHILDREN_2018,
        age_years: 9.24,
        mean_dioptres: 14.44,
    },
    MeasuredAmplitude {
        id: "twenties",
        ages: "20 to 29 years",
        source: &source::PARK_2019,
        age_years: 25.0,
        mean_dioptres: 11.13,
    },
    MeasuredAmplitude {
        id: "forties",
        ages: "40 to 49 years",
        source: &source::PARK_2019,
        age_years: 45.0,
        mean_dioptres: 5.53,
    },
];

/// What to know about a measured amplitude: a key, and where it was published.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasurementCaution {
    /// Stable key; the words for it are the page's.
    pub id: &'static str,
    /// Where it was published.
    pub source: &'static Source,
}

/// Cautions about measured amplitudes.
pub static CAUTIONS: [MeasurementCaution; 3] = [
    MeasurementCaution {
        id: "subjective-exceeds-objective-by-0.2-to-1.1-D",
        source: &source::PUSH_UP_AMPLITUDE,
    },
    MeasurementCaution {
        id: "push-up-reads-23-percent-above-other-subjective-methods",
        source: &source::PUSH_UP_AMPLITUDE,
    },
    MeasurementCaution { id: "after-about-52-years-it-is-depth-of-focus", source: &source::MILLODOT_1989 },
];

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn d(dioptres: f64) -> Vergence {
        Vergence::from_dioptres(dioptres)
    }
    fn at(years: f64) -> AmplitudeAtAge {
        amplitude_at_age(Age::from_years(years)).expect("a possible age")
    }

    #[test]
    fn the_formulas_are_cut_at_zero_and_stop() {
        let sixty = at(60.0);
        assert_eq!((sixty.least, sixty.past_formulas), (Vergence::ZERO, false));
        assert!((sixty.mean.dioptres() - 0.5).abs() < 1e-12, "{sixty:?}");
        assert!((sixty.most.dioptres() - 1.0).abs() < 1e-12, "{sixty:?}");
        let past = at(60.5);
        assert!(past.past_formulas, "{past:?}");
        assert_eq!((past.least, past.mean, past.most), (Vergence::ZERO, Vergence::ZERO, Vergence::ZERO));
        assert_eq!(past.steps().len(), 1, "one rule, no formula");
        assert_eq!(at(59.9).steps().len(), 3);
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for years in [1.0, 10.0, 44.5, 59.0, 60.0, 62.0, 100.0] {
            for step in at(years).steps() {
                assert_eq!(step.check(), Ok(()), "{years} years");
            }
        }
        for (amplitude, share) in [(0.0, 0.5), (12.5, 0.5), (7.0, 0.806), (7.0, 0.0)] {
            for step in usable(d(amplitude), share)?.steps() {
                assert_eq!(step.check(), Ok(()), "{share} of {amplitude} D");
            }
            for demand in [0.0, 2.5, 20.0] {
                for step in add_needed(d(demand), d(amplitude))?.steps() {
                    assert_eq!(step.check(), Ok(()), "{demand} D with {amplitude} D");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn nothing_usable_reaches_nothing() -> Result<(), Error> {
        assert_eq!(usable(Vergence::ZERO, 0.5)?.nearest, None);
        assert_eq!(usable(d(8.0), 0.0)?.nearest, None);
        assert_eq!(usable(d(8.0), 0.5)?.usable, d(4.0));
        assert_eq!(add_needed(d(4.0), d(6.0))?.add, Vergence::ZERO, "the eye does it alone");
        Ok(())
    }

    #[test]
    fn impossible_values_are_refused() {
        let age = amplitude_at_age(Age::from_years(-1.0)).expect_err("not born");
        assert_eq!(age.to_string(), "age `-1 years` is not possible");
        assert_eq!(age.hint().to_string(), "use 0 to 120 years");
        assert!(amplitude_at_age(Age::from_years(f64::NAN)).is_err(), "no age");
        let much = usable(d(31.0), 0.5).expect_err("no eye does it");
        assert_eq!(much.to_string(), "accommodation `31 D` is not possible");
        assert_eq!(much.hint().to_string(), "use 0 to 30 D");
        let share = usable(d(10.0), 1.1).expect_err("more than all");
        assert_eq!(share.to_string(), "share of accommodation used `1.1` is not possible");
        assert_eq!(share.hint().to_string(), "use 0 to 1");
        let demand = add_needed(d(101.0), d(1.0)).expect_err("within a centimetre");
        assert_eq!(demand.to_string(), "focusing demand `101 D` is not possible");
        assert_eq!(demand.hint().to_string(), "use -60 to 100 D");
        assert!(add_needed(d(5.0), d(-1.0)).is_err(), "no accommodation below zero");
    }

    #[test]
    fn the_tables_are_whole() {
        assert!(MEASURED.iter().all(|row| row.source.standing == source::Standing::Published));
        assert!(MEASURED.is_sorted_by(|one, next| one.age() < next.age()), "youngest first");
        assert_eq!(MEASURED.map(|row| row.mean()), [14.44, 11.13, 5.53].map(Vergence::from_dioptres));
        assert_eq!(MEASURED.map(|row| row.age()), [9.24, 25.0, 45.0].map(Age::from_years));
        let [presbyopes, young] = EVIDENCE;
        assert!((presbyopes.share - 0.507).abs() < 1e-12 && (young.share - 0.806).abs() < 1e-12);
    }
}
