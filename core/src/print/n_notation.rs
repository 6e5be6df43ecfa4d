//! N notation: two meanings of it, both offered and named.
//!
//! N8 is print of eight points, in a typeface like Times, and it is also said to be 1 M. True eight-point Times is
//! 0.87 M, about half a line less. A note of Latham & Tabrett 2012 puts 1 M "around N8 to N10".

use super::point::PointSystem;
use super::size::{TypeSize, checked};
use super::typeface;
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::source::{self, Source};
use crate::unit::PrintSize;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What N is taken to mean.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NRule {
    /// `M = N/8`, as most charts are taken.
    #[default]
    Convention,
    /// So many desktop points of a typeface like Times, x-height [`typeface::TIMES`] of the body.
    TimesType,
}

impl NRule {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Convention, Self::TimesType];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::print::NRule;
    /// assert_eq!(NRule::TimesType.key(), "times-type");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Convention => "convention",
            Self::TimesType => "times-type",
        }
    }
    /// Where the meaning, or its x-height, comes from.
    ///
    /// ```
    /// use arcminute_core::print::NRule;
    /// assert_eq!(NRule::ALL.map(|rule| rule.source().id), ["n-convention", "css-aspect"]);
    /// ```
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::Convention => &source::N_CONVENTION,
            Self::TimesType => &source::CSS_ASPECT,
        }
    }
}

/// Size of print in N notation, by one of its meanings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NSize {
    /// The number behind the N.
    pub n: f64,
    /// Its meaning.
    pub rule: NRule,
    /// The type, if it is taken as type.
    pub of_type: Option<TypeSize>,
    /// The size.
    pub size: PrintSize,
}

/// Size of print in N notation.
///
/// Source: the convention is [`source::N_CONVENTION`]; the other meaning is geometry.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::PRINT_POINTS`] or [`bounds::PRINT_M`].
///
/// # Example
/// ```
/// use arcminute_core::print::{NRule, size_of_n};
/// assert_eq!(size_of_n(8.0, NRule::Convention)?.size.m_units(), 1.0);
/// assert!((size_of_n(8.0, NRule::TimesType)?.size.m_units() - 0.873).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn size_of_n(n: f64, rule: NRule) -> Result<NSize, Error> {
    bounds::PRINT_POINTS.check(n)?;
    let of_type = match rule {
        NRule::Convention => None,
        NRule::TimesType => Some(TypeSize::of(n, PointSystem::Desktop.point(), typeface::TIMES.ratio)?),
    };
    let size = match of_type {
        Some(of_type) => of_type.size,
        None => checked(PrintSize::from_m_units(n / 8.0))?,
    };
    Ok(NSize { n, rule, of_type, size })
}

/// The N of print of this size; the inverse of [`size_of_n`].
///
/// # Errors
/// As [`size_of_n`].
///
/// # Example
/// ```
/// use arcminute_core::{print::{NRule, n_for}, unit::PrintSize};
/// assert_eq!(n_for(PrintSize::from_m_units(2.0), NRule::Convention)?.n, 16.0);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn n_for(size: PrintSize, rule: NRule) -> Result<NSize, Error> {
    checked(size)?;
    let n = match rule {
        NRule::Convention => size.m_units() * 8.0,
        NRule::TimesType => PointSystem::Desktop.points(size.x_height() / typeface::TIMES.ratio),
    };
    size_of_n(n, rule)
}

#[cfg(feature = "alloc")]
impl Explain for NSize {
    fn steps(&self) -> Vec<Step> {
        if let Some(of_type) = &self.of_type {
            let mut steps = of_type.steps();
            steps.insert(0, Step::Rule { because: "n-is-points", source: self.rule.source() });
            return steps;
        }
        let size = Named::new("P", self.size.m_units(), Unit::PrintM);
        alloc::vec![Step::formula(&formula::N_PRINT, size, [Named::new("N", self.n, Unit::Plain)])]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees_both_ways() -> Result<(), Error> {
        for rule in NRule::ALL {
            for n in [4.0, 5.0, 8.0, 36.0, 80.0] {
                let size = size_of_n(n, rule)?;
                assert_eq!(size.of_type.is_some(), rule == NRule::TimesType, "{rule:?}");
                let back = n_for(size.size, rule)?;
                assert!((back.n - n).abs() < 1e-12 * n, "{rule:?}: N{n} came back as N{}", back.n);
                let steps = size.steps();
                assert_eq!(steps.len(), if rule == NRule::TimesType { 3 } else { 1 });
                for step in steps {
                    assert_eq!(step.check(), Ok(()), "N{n}, {rule:?}");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_is_no_n_is_refused() {
        for rule in NRule::ALL {
            let error = size_of_n(0.9, rule).expect_err("below N1");
            assert_eq!(error.to_string(), "print size `0.9 points` is not possible");
            assert!(size_of_n(1.0, rule).is_ok() && size_of_n(400.0, rule).is_ok(), "{rule:?}");
            assert!(size_of_n(f64::NAN, rule).is_err(), "{rule:?}");
            assert!(n_for(PrintSize::ZERO, rule).is_err(), "no print");
            assert!(n_for(PrintSize::from_m_units(60.0), rule).is_err(), "beyond N400");
        }
    }

    #[test]
    fn each_meaning_has_its_source() {
        assert_eq!(NRule::default(), NRule::Convention);
        assert_eq!(NRule::ALL.map(NRule::key), ["convention", "times-type"]);
        assert_eq!(NRule::ALL.map(|rule| rule.source().id), ["n-convention", "css-aspect"]);
    }
}
