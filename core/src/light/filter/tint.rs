//! Categories of tints, and what the standard says of driving with them.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::source::{self, Source};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Rounding of products: 0.86 · 0.50 is meant to be 0.43.
const SAME: f64 = 1e-9;
/// Least luminous transmittance that may be worn for driving at twilight or night.
const NIGHT: f64 = 0.75;

/// Category of a tint by its luminous transmittance, lightest first; the darker one has the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Category {
    /// Above 80 %.
    Zero,
    /// Above 43 %, to 80 %.
    One,
    /// Above 18 %, to 43 %.
    Two,
    /// Above 8 %, to 18 %.
    Three,
    /// Above 3 %, to 8 %.
    Four,
}

impl Category {
    /// All of them, lightest first.
    pub const ALL: [Self; 5] = [Self::Zero, Self::One, Self::Two, Self::Three, Self::Four];

    /// The number on the label, 0 for the lightest to 4.
    ///
    /// ```
    /// use arcminute_core::light::filter::Category;
    /// // 15 % lies between 8 and 18 %.
    /// assert_eq!(Category::of(0.15)?.map(Category::number), Some(3));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn number(self) -> u8 {
        match self {
            Self::Zero => 0,
            Self::One => 1,
            Self::Two => 2,
            Self::Three => 3,
            Self::Four => 4,
        }
    }
    /// The transmittance above which a tint is in it or lighter; itself it belongs to the next darker category.
    ///
    /// ```
    /// use arcminute_core::light::filter::Category;
    /// // ISO 12312-1: above 80, 43, 18, 8 and 3 %.
    /// assert_eq!(Category::ALL.map(Category::above), [0.80, 0.43, 0.18, 0.08, 0.03]);
    /// ```
    #[must_use]
    pub fn above(self) -> f64 {
        match self {
            Self::Zero => 0.80,
            Self::One => 0.43,
            Self::Two => 0.18,
            Self::Three => 0.08,
            Self::Four => 0.03,
        }
    }
    /// The category of a luminous transmittance; nothing at 3 % and below.
    ///
    /// Source: [`source::ISO_12312`].
    ///
    /// ```
    /// use arcminute_core::light::filter::Category;
    /// assert_eq!(Category::of(0.80)?, Some(Category::One));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`crate::Why::OutOfRange`] for what is no transmittance.
    pub fn of(transmittance: f64) -> Result<Option<Self>, Error> {
        bounds::TRANSMITTANCE.check(transmittance)?;
        Ok(Self::ALL.into_iter().find(|category| category.above() * (1.0 + SAME) < transmittance))
    }
}

/// What the standard says of driving, by the darkness of the tint alone. No permission: see [`CAUTIONS`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Driving {
    /// 75 % and above: darkness alone does not stand against driving at any time of day.
    NotLimitedByDarkness,
    /// Below 75 %, categories 1 to 3: not for twilight or night.
    NotAtTwilightOrNight,
    /// Category 4, or darker than any: not for driving.
    NotForDriving,
}

/// A tint, or several grey ones together, by luminous transmittance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tint {
    /// Luminous transmittance.
    pub transmittance: f64,
    /// Optical density; a logarithm to base ten.
    pub density: f64,
    /// Category; nothing for darker than any.
    pub category: Option<Category>,
    /// What the standard says of driving.
    pub driving: Driving,
}

impl Tint {
    /// A tint of this luminous transmittance.
    ///
    /// Source: [`source::ISO_12312`] for category and driving, definition for density.
    ///
    /// ```
    /// use arcminute_core::light::filter::{Category, Driving, Tint};
    /// // Between 75 and 80 %: category 1, and yet not too dark for the night.
    /// let light = Tint::of(0.782)?;
    /// assert_eq!((light.category, light.driving), (Some(Category::One), Driving::NotLimitedByDarkness));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`crate::Why::OutOfRange`] for what is no transmittance.
    pub fn of(transmittance: f64) -> Result<Self, Error> {
        let category = Category::of(transmittance)?;
        let driving = match category {
            None | Some(Category::Four) => Driving::NotForDriving,
            Some(_) if transmittance < NIGHT * (1.0 - SAME) => Driving::NotAtTwilightOrNight,
            Some(_) => Driving::NotLimitedByDarkness,
        };
        Ok(Self { transmittance, density: -math::log10(transmittance), category, driving })
    }
}

#[cfg(feature = "alloc")]
impl Explain for Tint {
    fn steps(&self) -> Vec<Step> {
        let because = match self.driving {
            Driving::NotLimitedByDarkness => "three-quarters-of-the-light-or-more",
            Driving::NotAtTwilightOrNight => "less-than-three-quarters-of-the-light",
            Driving::NotForDriving => "category-4-or-darker",
        };
        alloc::vec![
            Step::formula(
                &formula::DENSITY,
                Named::new("D", self.density, Unit::Log),
                [Named::new("T", self.transmittance, Unit::Plain)],
            ),
            Step::Rule { because, source: &source::ISO_12312 },
        ]
    }
}

/// Something to know before a tint is worn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// Stable key.
    pub id: &'static str,
    /// What to know.
    pub text: &'static str,
    /// Where it stands.
    pub source: &'static Source,
}

/// What a transmittance does not tell.
pub static CAUTIONS: &[Caution] = &[
    Caution {
        id: "local-law",
        text: "local law decides what may be worn for driving, and may be stricter than the standard",
        source: &source::ISO_12312,
    },
    Caution {
        id: "spectrum",
        text: "for driving, transmittance from 475 to 650 nm has to be at least 0.2 of the luminous transmittance",
        source: &source::ISO_12312,
    },
    Caution {
        id: "signal-lights",
        text: "for driving, the quotient for signal lights has to be at least 0.8 for red and 0.6 for green and blue; the source names yellow with both limits",
        source: &source::ISO_12312,
    },
    Caution {
        id: "prescription-lenses",
        text: "for prescription lenses the clauses on driving stand in ISO 8980-3",
        source: &source::RABBETTS_TINTS,
    },
    Caution {
        id: "no-gain-in-reading",
        text: "no support was found for better reading with tints; use them by trial, for comfort in glare",
        source: &source::COCHRANE_2018,
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::collections::BTreeSet;
    use alloc::string::ToString;

    #[test]
    fn edges_belong_to_the_darker_category() -> Result<(), Error> {
        use Category::{Four, One, Three, Two, Zero};
        for (transmittance, category) in [
            (1.0, Some(Zero)),
            (0.800_001, Some(Zero)),
            (0.80, Some(One)),
            (0.430_001, Some(One)),
            (0.43, Some(Two)),
            (0.86 * 0.50, Some(Two)),
            (0.180_001, Some(Two)),
            (0.18, Some(Three)),
            (0.080_001, Some(Three)),
            (0.08, Some(Four)),
            (0.030_001, Some(Four)),
            (0.03, None),
            (0.01, None),
        ] {
            assert_eq!(Category::of(transmittance)?, category, "{transmittance}");
            // As percent are typed.
            let percent = transmittance * 100.0;
            assert_eq!(Category::of(percent / 100.0)?, category, "{percent} %");
        }
        for (index, category) in Category::ALL.into_iter().enumerate() {
            assert_eq!(usize::from(category.number()), index);
        }
        Ok(())
    }

    #[test]
    fn driving_is_limited_by_darkness() -> Result<(), Error> {
        for (transmittance, driving) in [
            (0.92, Driving::NotLimitedByDarkness),
            (0.782, Driving::NotLimitedByDarkness),
            (0.75, Driving::NotLimitedByDarkness),
            (0.749_999, Driving::NotAtTwilightOrNight),
            (0.60, Driving::NotAtTwilightOrNight),
            (0.080_001, Driving::NotAtTwilightOrNight),
            (0.08, Driving::NotForDriving),
            (0.03, Driving::NotForDriving),
            (0.001, Driving::NotForDriving),
        ] {
            let tint = Tint::of(transmittance)?;
            assert_eq!(tint.driving, driving, "{transmittance}");
            assert_eq!(tint.category, Category::of(transmittance)?);
            assert_eq!(tint.steps().len(), 2);
            for step in tint.steps() {
                assert_eq!(step.check(), Ok(()), "{transmittance}");
            }
        }
        assert!((Tint::of(0.01)?.density - 2.0).abs() < 1e-15);
        Ok(())
    }

    #[test]
    fn what_is_no_transmittance_is_refused() {
        let more = Tint::of(1.2).expect_err("more than falls on it");
        assert_eq!(more.to_string(), "transmittance `1.2` is not possible");
        assert_eq!(more.hint().to_string(), "use 0.00001 to 1");
        assert!(Tint::of(0.0).is_err() && Category::of(f64::NAN).is_err());
    }

    #[test]
    fn cautions_are_keyed_once() {
        let ids: BTreeSet<_> = CAUTIONS.iter().map(|caution| caution.id).collect();
        assert_eq!(ids.len(), CAUTIONS.len());
        assert!(ids.contains("local-law"), "who drives has to ask the law");
    }
}
