//! How far repeats of other measurements differ, and of acuity under other conditions than [`retest`](super::retest)
//! lists; and what one limit says about another.
//!
//! All are 95 % limits. Kind and unit of each row are types, for the units differ. A figure read in another work than
//! the one it comes from says so in its source.

#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::source::{self, Source};
use crate::unit::{LogContrast, LogMar, ReadingSpeed};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Standard deviations that hold 95 % of a normal distribution.
const Z_95: f64 = 1.959_963_984_540_054;

/// What was measured twice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Measure {
    /// Distance acuity, logMAR.
    DistanceAcuity,
    /// Reading acuity, logMAR.
    ReadingAcuity,
    /// Critical print size, logMAR.
    CriticalPrintSize,
    /// Reading speed, words per minute.
    ReadingSpeed,
    /// Logarithm of reading speed.
    LogReadingSpeed,
    /// Logarithm of contrast sensitivity for letters.
    LetterContrast,
}

/// A difference, in the unit of its measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// Of acuities or print sizes.
    LogMar(LogMar),
    /// Of reading speeds.
    Speed(ReadingSpeed),
    /// Of logarithms (base ten) of reading speed: a pure number, of which ten to the power is a ratio.
    LogSpeed(f64),
    /// Of contrast sensitivities.
    Contrast(LogContrast),
}

/// What the limit is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// One measurement, to place it.
    OneMeasurement,
    /// The difference of two, to tell a change.
    Difference,
}

/// One published limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeats {
    /// Stable key.
    pub id: &'static str,
    /// What was measured.
    pub measure: Measure,
    /// What the limit is of.
    pub of: Of,
    /// Who was measured and how.
    pub population: &'static str,
    /// Where it was published.
    pub source: &'static Source,
    low: f64,
    high: f64,
}

impl Repeats {
    fn amount(&self, value: f64) -> Amount {
        match self.measure {
            Measure::DistanceAcuity | Measure::ReadingAcuity | Measure::CriticalPrintSize => {
                Amount::LogMar(LogMar::from_log(value))
            }
            Measure::ReadingSpeed => Amount::Speed(ReadingSpeed::from_words_per_minute(value)),
            Measure::LogReadingSpeed => Amount::LogSpeed(value),
            Measure::LetterContrast => Amount::Contrast(LogContrast::from_log(value)),
        }
    }

    /// The lower and the upper 95 % limit; equal but for their sign unless the work prints both.
    ///
    /// ```
    /// use arcminute_core::acuity::repeatability::{Amount, READING_ACUITY_LOW_VISION};
    /// use arcminute_core::unit::LogMar;
    /// // Subramanian & Pardhan 2009: within 0.10 logMAR.
    /// let limit = LogMar::from_log(0.10);
    /// assert_eq!(READING_ACUITY_LOW_VISION.limits(), (Amount::LogMar(-limit), Amount::LogMar(limit)));
    /// ```
    #[must_use]
    pub fn limits(&self) -> (Amount, Amount) {
        (self.amount(self.low), self.amount(self.high))
    }

    /// The farther of the two limits, without its sign: the one to go by when a single one is wanted.
    ///
    /// ```
    /// use arcminute_core::acuity::repeatability::{ACUITY_LOW_VISION, Amount};
    /// use arcminute_core::unit::LogMar;
    /// // Hardgrave et al. 2012: +0.117 and -0.128 logMAR.
    /// assert_eq!(ACUITY_LOW_VISION.farther(), Amount::LogMar(LogMar::from_log(0.128)));
    /// ```
    #[must_use]
    pub fn farther(&self) -> Amount {
        self.amount(self.high.max(-self.low))
    }
}

macro_rules! repeats {
    ($($(#[$meta:meta])* $name:ident: $id:literal, $measure:ident, $of:ident, $low:literal..$high:literal, $population:literal, $source:ident;)+) => {
        $($(#[$meta])* pub static $name: Repeats = Repeats {
            id: $id,
            measure: Measure::$measure,
            of: Of::$of,
            population: $population,
            source: &source::$source,
            low: $low,
            high: $high,
        };)+
        /// The whole table, by measure.
        pub static ALL: &[&Repeats] = &[$(&$name),+];
    };
}

repeats! {
    /// To place one score, "probably best case".
    ACUITY_ONE_SCORE: "acuity-one-score", DistanceAcuity, OneMeasurement, -0.10..0.10, "normal sight, trained observers, letter score, one measurement", ARDITI_1993;
    /// The mean of two charts.
    ACUITY_MEAN_OF_TWO: "acuity-mean-of-two", DistanceAcuity, Difference, -0.053..0.053, "normal sight, mean of two charts", STARK_2013;
    /// One dioptre out of focus.
    ACUITY_BLURRED: "acuity-blurred", DistanceAcuity, Difference, -0.25..0.25, "normal sight, 1 D out of focus", ROSSER_2004;
    /// The one work that prints two limits.
    ACUITY_LOW_VISION: "acuity-low-vision", DistanceAcuity, Difference, -0.128..0.117, "low vision, 18 people", HARDGRAVE_2012;
    /// The steadiest group of [`retest::LEGALLY_BLIND`](super::retest::LEGALLY_BLIND).
    ACUITY_LEGALLY_BLIND_LEAST: "acuity-legally-blind-least", DistanceAcuity, Difference, -0.13..0.13, "legally blind people, steadiest group", KISER_2005;
    /// The least steady group of it.
    ACUITY_LEGALLY_BLIND_MOST: "acuity-legally-blind-most", DistanceAcuity, Difference, -0.36..0.36, "legally blind people, least steady group", KISER_2005;
    /// Every letter counts.
    ACUITY_BY_LETTER: "acuity-by-letter", DistanceAcuity, Difference, -0.14..0.14, "scored letter by letter", MIMOUNI_2019;
    /// A line counts when half of it is read.
    ACUITY_BY_HALF_LINE: "acuity-by-half-line", DistanceAcuity, Difference, -0.17..0.17, "scored by line, half of it read", MIMOUNI_2019;
    /// A line counts when all of it is read.
    ACUITY_BY_WHOLE_LINE: "acuity-by-whole-line", DistanceAcuity, Difference, -0.50..0.50, "scored by line, all of it read", MIMOUNI_2019;
    /// A line counts with one letter missed.
    ACUITY_BY_LINE_ONE_MISS: "acuity-by-line-one-miss", DistanceAcuity, Difference, -0.53..0.53, "scored by line, one letter missed", MIMOUNI_2019;
    /// Normal sight.
    READING_ACUITY_NORMAL: "reading-acuity-normal", ReadingAcuity, Difference, -0.05..0.05, "normal sight", SUBRAMANIAN_2006;
    /// The usual choice within one session.
    READING_ACUITY_LOW_VISION: "reading-acuity-low-vision", ReadingAcuity, Difference, -0.10..0.10, "low vision", SUBRAMANIAN_2009;
    /// Children.
    READING_ACUITY_CHILDREN: "reading-acuity-children", ReadingAcuity, Difference, -0.142..0.142, "children, normal sight", VIRGILI_2004;
    /// The usual choice between visits.
    READING_ACUITY_AMD: "reading-acuity-amd", ReadingAcuity, Difference, -0.30..0.30, "stable age-related macular degeneration, about six weeks apart", PATEL_2011;
    /// Scored otherwise, and much worse.
    READING_ACUITY_AMD_MONTH: "reading-acuity-amd-month", ReadingAcuity, Difference, -0.72..0.72, "age-related macular degeneration, a month apart", ASLAM_2014;
    /// Normal sight.
    PRINT_SIZE_NORMAL: "print-size-normal", CriticalPrintSize, Difference, -0.10..0.10, "normal sight", SUBRAMANIAN_2006;
    /// Children.
    PRINT_SIZE_CHILDREN: "print-size-children", CriticalPrintSize, Difference, -0.193..0.193, "children, normal sight", VIRGILI_2004;
    /// The usual choice.
    PRINT_SIZE_LOW_VISION: "print-size-low-vision", CriticalPrintSize, Difference, -0.20..0.20, "low vision", SUBRAMANIAN_2009;
    /// Macular degeneration.
    PRINT_SIZE_AMD_MONTH: "print-size-amd-month", CriticalPrintSize, Difference, -0.67..0.67, "age-related macular degeneration, a month apart", ASLAM_2014;
    /// Normal sight.
    SPEED_NORMAL: "speed-normal", ReadingSpeed, Difference, -8.5..8.5, "normal sight", SUBRAMANIAN_2006;
    /// Macular degeneration.
    SPEED_AMD_MONTH: "speed-amd-month", ReadingSpeed, Difference, -110.0..110.0, "age-related macular degeneration, a month apart", ASLAM_2014;
    /// A ratio of 1.19.
    LOG_SPEED_CHILDREN: "log-speed-children", LogReadingSpeed, Difference, -0.077..0.077, "children, normal sight", VIRGILI_2004;
    /// A ratio of 1.26.
    LOG_SPEED_LOW_VISION: "log-speed-low-vision", LogReadingSpeed, Difference, -0.10..0.10, "low vision", SUBRAMANIAN_2009;
    /// Small letter chart.
    CONTRAST_SMALL_CHART: "contrast-small-chart", LetterContrast, Difference, -0.121..0.121, "hospital, all kinds, small-format letter chart", THAYAPARAN_2007;
    /// Triplets of letters.
    CONTRAST_TRIPLETS: "contrast-triplets", LetterContrast, Difference, -0.182..0.182, "hospital, all kinds, chart of letter triplets", THAYAPARAN_2007;
    /// On a screen.
    CONTRAST_SCREEN: "contrast-screen", LetterContrast, Difference, -0.238..0.238, "hospital, all kinds, letters on a screen", THAYAPARAN_2007;
    /// Six letters.
    CONTRAST_DRUSEN: "contrast-drusen", LetterContrast, Difference, -0.30..0.30, "drusen", PATEL_2009;
    /// Two triplets.
    CONTRAST_WEEKS: "contrast-weeks", LetterContrast, Difference, -0.30..0.30, "hospital and early disease, more than four weeks apart", REEVES_1993;
    /// Seven letters.
    CONTRAST_AMD: "contrast-amd", LetterContrast, Difference, -0.35..0.35, "age-related macular degeneration", PATEL_2009;
    /// Groups within the study ran from 0.19 to 0.48.
    CONTRAST_LEGALLY_BLIND: "contrast-legally-blind", LetterContrast, Difference, -0.35..0.35, "legally blind people", KISER_2005;
    /// The steadiest group of it.
    CONTRAST_LEGALLY_BLIND_LEAST: "contrast-legally-blind-least", LetterContrast, Difference, -0.19..0.19, "legally blind people, steadiest group", KISER_2005;
    /// The least steady group of it.
    CONTRAST_LEGALLY_BLIND_MOST: "contrast-legally-blind-most", LetterContrast, Difference, -0.48..0.48, "legally blind people, least steady group", KISER_2005;
    /// Eight letters.
    CONTRAST_LATE: "contrast-late", LetterContrast, Difference, -0.40..0.40, "late macular degeneration", PATEL_2009;
}

/// The limit of a difference, from that of one measurement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChangeLimit {
    /// 95 % limit of one measurement about its true value.
    pub single: LogMar,
    /// 95 % limit of the difference of two.
    pub change: LogMar,
}

/// The limit beyond which two measurements differ, `√2 · single`: each has its own error.
///
/// Source: both figures are published, [`crate::source::ARDITI_1993`].
///
/// ```
/// use arcminute_core::acuity::repeatability::change_limit;
/// use arcminute_core::unit::LogMar;
/// // Arditi & Cagenello 1993: 0.10 to place, 0.14 to tell a change.
/// assert!((change_limit(LogMar::from_log(0.10)).change.log() - 0.14).abs() < 0.005);
/// ```
#[must_use]
pub fn change_limit(single: LogMar) -> ChangeLimit {
    ChangeLimit { single, change: single * math::sqrt(2.0) }
}

/// The coefficient of repeatability, from the scatter within people.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeatability {
    /// Standard deviation of repeats about a person's own mean.
    pub within: LogMar,
    /// Standard deviation of the difference of two.
    pub of_differences: LogMar,
    /// 95 % limit of the difference of two.
    pub coefficient: LogMar,
}

/// The coefficient of repeatability, `1.96·√2·within`, or 2.77 times the scatter within people.
///
/// Source: normal scatter, assumed ([`crate::source::NORMAL_MODEL`]).
///
/// ```
/// use arcminute_core::acuity::repeatability::repeatability;
/// use arcminute_core::unit::LogMar;
/// // Computed: 0.04 gives 0.111.
/// assert!((repeatability(LogMar::from_log(0.04)).coefficient.log() - 0.111).abs() < 5e-4);
/// ```
#[must_use]
pub fn repeatability(within: LogMar) -> Repeatability {
    let of_differences = within * math::sqrt(2.0);
    Repeatability { within, of_differences, coefficient: of_differences * Z_95 }
}

#[cfg(feature = "alloc")]
impl Explain for ChangeLimit {
    fn steps(&self) -> Vec<Step> {
        let change = Named::new("change", self.change.log(), Unit::LogMar);
        let single = Named::new("single", self.single.log(), Unit::LogMar);
        alloc::vec![Step::formula(&formula::CHANGE_LIMIT, change, [single])]
    }
}

#[cfg(feature = "alloc")]
impl Explain for Repeatability {
    fn steps(&self) -> Vec<Step> {
        let within = Named::new("s_w", self.within.log(), Unit::LogMar);
        let of_differences = Named::new("SD", self.of_differences.log(), Unit::LogMar);
        let coefficient = Named::new("CoR", self.coefficient.log(), Unit::LogMar);
        alloc::vec![
            Step::formula(&formula::SPREAD_OF_DIFFERENCES, of_differences, [within]),
            Step::formula(&formula::COEFFICIENT_OF_REPEATABILITY, coefficient, [of_differences]),
        ]
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use alloc::collections::BTreeSet;

    #[test]
    fn rows_are_published_and_their_limits_go_both_ways() {
        let ids: BTreeSet<_> = ALL.iter().map(|row| row.id).collect();
        assert_eq!(ids.len(), ALL.len(), "an id stands twice");
        for row in ALL {
            assert_eq!(row.source.standing, source::Standing::Published, "{}", row.id);
            assert!(row.low < 0.0 && 0.0 < row.high && !row.population.is_empty(), "{}", row.id);
            let lines_of_two = ["acuity-low-vision"];
            assert_eq!(row.high == -row.low, !lines_of_two.contains(&row.id), "{}", row.id);
        }
        assert!(ALL.is_sorted_by_key(|row| row.measure), "by measure");
    }

    #[test]
    fn the_farther_limit_is_the_one_to_go_by() {
        assert_eq!(ACUITY_LOW_VISION.farther(), Amount::LogMar(LogMar::from_log(0.128)));
        assert_eq!(ACUITY_BLURRED.farther(), Amount::LogMar(LogMar::from_log(0.25)));
        let upper = Repeats { low: -0.1, high: 0.2, ..ACUITY_LOW_VISION };
        assert_eq!(upper.farther(), Amount::LogMar(LogMar::from_log(0.2)));
    }

    #[test]
    fn working_agrees() {
        for hundredths in 1..=100 {
            let value = LogMar::from_log(f64::from(hundredths) / 100.0);
            let mut steps = change_limit(value).steps();
            steps.extend(repeatability(value).steps());
            assert_eq!(steps.len(), 3);
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{value:?}");
            }
        }
    }
}
