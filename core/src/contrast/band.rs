//! Published bands of contrast sensitivity, as data. There is no common standard, and they disagree.

use crate::source::{self, Source};
use crate::unit::LogContrast;

/// Rounding of sums of steps, in log units.
const SAME: f64 = 1e-9;

/// Which proposal a band belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scheme {
    /// Impairment and disability.
    Impairment,
    /// Bands made for a chart in steps of 0.04; values between its steps lie in none.
    SingleSteps,
    /// What reading needs; guidelines, not criteria.
    Reading,
}

/// One band of one proposal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Stable key.
    pub id: &'static str,
    /// The proposal.
    pub scheme: Scheme,
    /// What the proposal calls it.
    pub name: &'static str,
    /// Where it was published, and how well that is known.
    pub source: &'static Source,
    least: f64,
    greatest: f64,
    greatest_belongs: bool,
}

impl Band {
    /// Least log contrast sensitivity in the band; nothing when it is open below.
    ///
    /// ```
    /// use arcminute_core::contrast::BANDS;
    /// let least = |id| BANDS.iter().find(|band| band.id == id).and_then(|band| band.least());
    /// assert_eq!(least("single-severe").map(|least| least.log()), Some(0.52));
    /// assert_eq!(least("impaired"), None);
    /// ```
    #[must_use]
    pub fn least(&self) -> Option<LogContrast> {
        self.least.is_finite().then(|| LogContrast::from_log(self.least))
    }
    /// Greatest log contrast sensitivity of the band, or its upper edge if that does not belong to it.
    ///
    /// ```
    /// use arcminute_core::contrast::BANDS;
    /// // "Disabling" is below 1.05 (Leat et al. 1999), and 1.05 does not belong to it.
    /// let disabling = BANDS.iter().find(|band| band.id == "disabling").expect("in the table");
    /// assert_eq!(disabling.greatest().log(), 1.05);
    /// assert!(!disabling.holds(disabling.greatest()));
    /// ```
    #[must_use]
    pub fn greatest(&self) -> LogContrast {
        LogContrast::from_log(self.greatest)
    }
    /// Whether a log contrast sensitivity lies in the band.
    ///
    /// ```
    /// use arcminute_core::{contrast::BANDS, unit::LogContrast};
    /// let poor = BANDS.iter().find(|band| band.id == "reading-poor").expect("it is there");
    /// assert!(poor.holds(LogContrast::from_log(1.00)), "a threshold of 10 %");
    /// assert!(!poor.holds(LogContrast::from_log(1.05)), "a threshold of 8.9 %");
    /// ```
    #[must_use]
    pub fn holds(&self, sensitivity: LogContrast) -> bool {
        let log = sensitivity.log();
        let below =
            if self.greatest_belongs { log <= self.greatest + SAME } else { log < self.greatest - SAME };
        self.least - SAME <= log && below
    }
}

/// Open below.
const NO_LEAST: f64 = f64::NEG_INFINITY;

macro_rules! bands {
    ($($id:literal, $scheme:ident, $name:literal, $least:expr, $greatest:literal $belongs:ident, $source:ident;)+) => {
        /// Every band of every proposal.
        pub static BANDS: &[Band] = &[$(Band {
            id: $id, scheme: Scheme::$scheme, name: $name, source: &source::$source,
            least: $least, greatest: $greatest, greatest_belongs: bands!(@ $belongs),
        }),+];
    };
    (@ included) => { true };
    (@ left_out) => { false };
}

bands! {
    "impaired", Impairment, "impaired", NO_LEAST, 1.5 left_out, LEAT_1999;
    "disabling", Impairment, "disabling", NO_LEAST, 1.05 left_out, LEAT_1999;
    "single-profound", SingleSteps, "profound loss", NO_LEAST, 0.48 included, SINGLE_STEP_BANDS;
    "single-severe", SingleSteps, "severe loss", 0.52, 1.00 included, SINGLE_STEP_BANDS;
    "single-moderate", SingleSteps, "moderate loss", 1.04, 1.48 included, SINGLE_STEP_BANDS;
    "single-normal-above-60", SingleSteps, "normal above 60 years", 1.52, 1.76 included, SINGLE_STEP_BANDS;
    "single-normal-to-60", SingleSteps, "normal to 60 years", 1.72, 1.92 included, SINGLE_STEP_BANDS;
    // Thresholds above 9 % and above 25 %.
    "reading-poor", Reading, "poor for reading", NO_LEAST, 1.045_757_490_560_675 left_out, LETTER_THRESHOLDS;
    "reading-very-poor", Reading, "very poor for reading", NO_LEAST, 0.602_059_991_327_962_4 left_out, LETTER_THRESHOLDS;
}

/// Every band that a log contrast sensitivity lies in, of all proposals: they overlap, and they disagree.
///
/// Sources: [`source::LEAT_1999`], [`source::SINGLE_STEP_BANDS`], [`source::LETTER_THRESHOLDS`].
///
/// ```
/// use arcminute_core::{contrast::bands_for, unit::LogContrast};
/// let names: Vec<_> = bands_for(LogContrast::from_log(1.04)).map(|band| band.name).collect();
/// assert_eq!(names, ["impaired", "disabling", "moderate loss", "poor for reading"]);
/// ```
pub fn bands_for(sensitivity: LogContrast) -> impl Iterator<Item = &'static Band> {
    BANDS.iter().filter(move |band| band.holds(sensitivity))
}

/// What people with normal sight reach; means of groups, not limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Norm {
    /// Who was measured and how.
    pub population: &'static str,
    /// Where it was published.
    pub source: &'static Source,
    least: f64,
    greatest: f64,
}

impl Norm {
    /// Least mean of the groups.
    ///
    /// ```
    /// use arcminute_core::contrast::NORMS;
    /// // Mäntyjärvi & Laitinen 2001: with both eyes no age group has a mean below 1.73.
    /// let both = NORMS.iter().find(|norm| norm.population.contains("both eyes")).expect("in the table");
    /// assert_eq!(both.least().log(), 1.73);
    /// ```
    #[must_use]
    pub fn least(&self) -> LogContrast {
        LogContrast::from_log(self.least)
    }
    /// Greatest mean of the groups; the same as the least for one group.
    ///
    /// ```
    /// use arcminute_core::contrast::NORMS;
    /// // Mäntyjärvi & Laitinen 2001: one eye at 20 to 39 years, and both eyes of the best age group.
    /// let [young, _, both] = NORMS else { panic!() };
    /// assert_eq!((young.greatest().log(), both.greatest().log()), (1.84, 1.99));
    /// ```
    #[must_use]
    pub fn greatest(&self) -> LogContrast {
        LogContrast::from_log(self.greatest)
    }
}

/// Means of people with normal sight.
pub static NORMS: &[Norm] = &[
    Norm {
        population: "normal sight, one eye, 20 to 39 years",
        source: &source::MANTYJARVI_2001,
        least: 1.84,
        greatest: 1.84,
    },
    Norm {
        population: "normal sight, one eye, 60 years and above",
        source: &source::MANTYJARVI_2001,
        least: 1.68,
        greatest: 1.68,
    },
    Norm {
        population: "normal sight, both eyes, by age group",
        source: &source::MANTYJARVI_2001,
        least: 1.73,
        greatest: 1.99,
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math;
    use alloc::collections::BTreeSet;
    use alloc::vec::Vec;

    fn ids(log: f64) -> Vec<&'static str> {
        bands_for(LogContrast::from_log(log)).map(|band| band.id).collect()
    }

    #[test]
    fn edges_lie_where_they_were_published() {
        for (log, expected) in [
            (0.48, &["impaired", "disabling", "single-profound", "reading-poor", "reading-very-poor"][..]),
            (0.50, &["impaired", "disabling", "reading-poor", "reading-very-poor"]),
            (0.52, &["impaired", "disabling", "single-severe", "reading-poor", "reading-very-poor"]),
            (0.61, &["impaired", "disabling", "single-severe", "reading-poor"]),
            (1.00, &["impaired", "disabling", "single-severe", "reading-poor"]),
            (1.04, &["impaired", "disabling", "single-moderate", "reading-poor"]),
            (1.046, &["impaired", "disabling", "single-moderate"]),
            (1.05, &["impaired", "single-moderate"]),
            (0.05 * 24.0 - 0.15, &["impaired", "single-moderate"]),
            (1.48, &["impaired", "single-moderate"]),
            (1.499, &["impaired"]),
            (1.50, &[]),
            (0.05 * 33.0 - 0.15, &[]),
            (1.52, &["single-normal-above-60"]),
            (1.72, &["single-normal-above-60", "single-normal-to-60"]),
            (1.76, &["single-normal-above-60", "single-normal-to-60"]),
            (0.04 * 44.0, &["single-normal-above-60", "single-normal-to-60"]),
            (1.80, &["single-normal-to-60"]),
            (1.92, &["single-normal-to-60"]),
            (1.96, &[]),
            (f64::NAN, &[]),
        ] {
            assert_eq!(ids(log), expected, "{log}");
        }
    }

    #[test]
    fn the_table_is_in_order() {
        let unique: BTreeSet<_> = BANDS.iter().map(|band| band.id).collect();
        assert_eq!(unique.len(), BANDS.len(), "an id stands twice");
        for band in BANDS {
            assert!(band.least().is_none_or(|least| least < band.greatest()), "{}", band.id);
        }
        let severe = BANDS.iter().find(|band| band.id == "single-severe").map(Band::least);
        assert_eq!(severe, Some(Some(LogContrast::from_log(0.52))));
        for (id, threshold) in [("reading-poor", 0.09), ("reading-very-poor", 0.25)] {
            let band = BANDS.iter().find(|band| band.id == id).expect("it is there");
            assert!(math::abs(band.greatest().threshold() - threshold) < 1e-15, "{id}");
        }
        for norm in NORMS {
            assert!(norm.least() <= norm.greatest(), "{}", norm.population);
        }
        let both = NORMS.last().map(|norm| (norm.least().log(), norm.greatest().log()));
        assert_eq!(both, Some((1.73, 1.99)));
    }
}
