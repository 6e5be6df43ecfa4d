//! How far repeated measurements of the same acuity differ.
//!
//! A 95 % limit: in 95 of 100 pairs of measurements with nothing changed the two differ by less. Only figures read in
//! the work cited stand here, or in another that quotes it, and then its source says so; limits depend on the chart, the
//! stopping rule and the time between as much as on people. What is not of one acuity in focus stands in
//! [`repeatability`](super::repeatability), as does the one study that prints unequal limits, which is no single number.

use crate::source::{self, Source};
use crate::unit::LogMar;

/// One published limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RetestLimit {
    /// Stable key.
    pub id: &'static str,
    /// Who was measured and how.
    pub population: &'static str,
    /// Where it was published.
    pub source: &'static Source,
    log: f64,
}

impl RetestLimit {
    /// The 95 % limit of the difference of two measurements.
    ///
    /// ```
    /// use arcminute_core::acuity::retest;
    /// assert_eq!(retest::LEGALLY_BLIND.limit().log(), 0.20);
    /// ```
    #[must_use]
    pub fn limit(&self) -> LogMar {
        LogMar::from_log(self.log)
    }
}

macro_rules! limits {
    ($($(#[$meta:meta])* $name:ident: $id:literal, $log:literal, $population:literal, $source:ident;)+) => {
        $($(#[$meta])* pub static $name: RetestLimit =
            RetestLimit { id: $id, population: $population, source: &source::$source, log: $log };)+
        /// The whole table, narrowest first.
        pub static ALL: &[&RetestLimit] = &[$(&$name),+];
    };
}

limits! {
    /// From the scatter within one test, 0.04: 2.77 times that.
    WITHIN_TEST: "within-test", 0.11, "macular disease and normal sight, within one test", VANDEN_BOSCH_1997;
    /// In focus; 0.25 when 1 D out of it.
    NORMAL_IN_FOCUS: "normal-in-focus", 0.11, "normal sight, in focus", ROSSER_2004;
    /// Children.
    CHILDREN: "children", 0.136, "children, normal sight", VIRGILI_2004;
    /// The narrowest to be hoped for.
    TRAINED_NORMAL: "trained-normal", 0.14, "normal sight, trained observers, letter score", ARDITI_1993;
    /// Eight letters.
    EYE_CLINIC: "eye-clinic", 0.15, "large eye clinic, 6/60 or better", SIDEROV_1999;
    /// Nine letters.
    DRUSEN: "drusen", 0.18, "drusen", PATEL_2008;
    /// The usual choice for low vision; groups within the study ran from 0.13 to 0.36.
    LEGALLY_BLIND: "legally-blind", 0.20, "legally blind people", KISER_2005;
    /// Two lines.
    HOSPITAL_WEEKS: "hospital-weeks", 0.20, "hospital and early disease, more than four weeks apart", REEVES_1993;
    /// Twelve letters; drusen 9, late disease 17.
    MACULAR_DEGENERATION: "macular-degeneration", 0.24, "age-related macular degeneration", PATEL_2008;
    /// Fifteen letters.
    MACULAR_DEGENERATION_MONTH: "macular-degeneration-month", 0.30, "age-related macular degeneration, a month apart", ASLAM_2014;
    /// Seventeen letters.
    LATE_MACULAR_DEGENERATION: "late-macular-degeneration", 0.34, "late macular degeneration", PATEL_2008;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bounds;
    use alloc::collections::BTreeSet;

    #[test]
    fn limits_are_possible_and_published() {
        for row in ALL {
            assert!(bounds::RETEST_LIMIT.check(row.limit().log()).is_ok(), "{}", row.id);
            assert_eq!(row.source.standing, source::Standing::Published, "{}", row.id);
        }
        assert!(ALL.is_sorted_by_key(|row| row.limit()), "narrowest first");
        let ids: BTreeSet<_> = ALL.iter().map(|row| row.id).collect();
        assert_eq!(ids.len(), ALL.len(), "an id stands twice");
    }
}
