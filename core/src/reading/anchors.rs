//! How much reserve is enough: what studies and teaching texts say, as data.
//!
//! Published values disagree, so the reserve is a number that is set, and these are anchors for it. The table of four
//! levels is commonly reproduced from one paper that could not be read here; each of its figures says how it is known.

use crate::source::{self, Source};
use crate::unit::{Angle, ReadingSpeed};

/// What the reserve is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Use {
    /// A word or a price.
    Spot,
    /// Reading at ease.
    Fluent,
    /// Reading for long.
    Long,
    /// Critical print size over threshold, as measured.
    Measured,
    /// What people chose as comfortable.
    Chosen,
}

/// One anchor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Anchor {
    /// Stable key.
    pub id: &'static str,
    /// What it is for.
    pub of: Use,
    /// Print over threshold; a pure ratio.
    pub reserve: f64,
    /// What is said, in short.
    pub says: &'static str,
    /// Where it comes from.
    pub source: &'static Source,
}

macro_rules! anchors {
    ($($(#[$meta:meta])* $name:ident: $id:literal, $of:ident, $reserve:literal, $says:literal, $source:ident;)+) => {
        $($(#[$meta])* pub static $name: Anchor = Anchor {
            id: $id,
            of: Use::$of,
            reserve: $reserve,
            says: $says,
            source: &source::$source,
        };)+
        /// The whole table, by use.
        pub static ALL: &[&Anchor] = &[$(&$name),+];
    };
}

anchors! {
    /// At the threshold itself.
    SPOT: "reserve-spot", Spot, 1.0, "spot reading is possible at the threshold", DISPENSING_NOTES;
    /// As taught.
    SPOT_TAUGHT: "reserve-spot-taught", Spot, 1.3, "spot reading, as taught", TEACHING_NOTES;
    /// The usual choice.
    FLUENT: "reserve-fluent", Fluent, 2.0, "a fixed reserve of 0.3 log; no slower than with a reserve found for each person (19 people with macular degeneration)", CHEONG_2002;
    /// Enough for most.
    FLUENT_MOST: "reserve-fluent-most", Fluent, 2.0, "enough for about three quarters of 100 people; a third of those with aided acuity better than 1.2 M need more", LATHAM_TABRETT_2012;
    /// Where speed levels off.
    FLUENT_NORMAL: "reserve-fluent-normal", Fluent, 2.0, "speed nearly independent of size from twice the threshold", BAILEY_CLEAR_1992;
    /// As taught.
    LONG: "reserve-long", Long, 3.0, "reading for long", DISPENSING_NOTES;
    /// 0.41 log.
    MACULAR: "reserve-macular", Measured, 2.570_395_782_768_864, "macular degeneration: critical print size larger than the word threshold by 0.41 log in the mean of 243", CACHO_2010;
    /// 0.47 log.
    OVER_LETTERS: "reserve-over-letters", Measured, 2.951_209_226_666_386, "critical print size larger than letter acuity by 0.47 log (50 readers with low vision)", SPEED_CURVE;
    /// Comfortable.
    CHOSEN: "reserve-chosen", Chosen, 1.74, "mean of the sizes that 47 people chose as comfortable; within 0.35 log of their critical print size", LATHAM_MACNAUGHTON_2022;
}

/// A level of reading, as named in the literature.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// A few words at a time.
    Spot,
    /// Sentences.
    Fluent,
    /// As most people read.
    HighFluent,
    /// As fast as can be.
    Optimal,
}

/// A figure and how it is known; pure numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// Least.
    pub least: f64,
    /// Greatest; nothing where it is "and more".
    pub greatest: Option<f64>,
    /// Where it comes from.
    pub source: &'static Source,
}

/// What a level is commonly said to need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelRow {
    /// The level.
    pub level: Level,
    /// Print over threshold.
    pub acuity_reserve: Figure,
    /// Contrast over threshold.
    pub contrast_reserve: Figure,
    /// Characters seen at once.
    pub characters: Figure,
    /// Where the speed comes from.
    pub speed_source: &'static Source,
    words_per_minute: f64,
}

impl LevelRow {
    /// The speed from which the level counts.
    ///
    /// ```
    /// use arcminute_core::reading::anchors::LEVELS;
    /// assert_eq!(LEVELS.map(|row| row.speed().words_per_minute()), [40.0, 80.0, 160.0, 180.0]);
    /// ```
    #[must_use]
    pub fn speed(&self) -> ReadingSpeed {
        ReadingSpeed::from_words_per_minute(self.words_per_minute)
    }
}

const fn exactly(value: f64, source: &'static Source) -> Figure {
    Figure { least: value, greatest: Some(value), source }
}
const fn range(least: f64, greatest: f64, source: &'static Source) -> Figure {
    Figure { least, greatest: Some(greatest), source }
}
const fn at_least(least: f64, source: &'static Source) -> Figure {
    Figure { least, greatest: None, source }
}

/// The four levels; figures from memory are so marked, and are not to be printed as those of the paper.
pub static LEVELS: [LevelRow; 4] = [
    LevelRow {
        level: Level::Spot,
        words_per_minute: 40.0,
        speed_source: &source::SPOT_READING,
        acuity_reserve: exactly(1.0, &source::SPOT_READING),
        contrast_reserve: exactly(3.0, &source::RESERVE_TABLE),
        characters: exactly(1.0, &source::RESERVE_TABLE),
    },
    LevelRow {
        level: Level::Fluent,
        words_per_minute: 80.0,
        speed_source: &source::LATHAM_TABRETT_2012,
        acuity_reserve: range(1.5, 2.0, &source::RESERVE_TABLE),
        contrast_reserve: exactly(4.0, &source::LETTER_THRESHOLDS),
        characters: exactly(2.0, &source::RESERVE_TABLE),
    },
    LevelRow {
        level: Level::HighFluent,
        words_per_minute: 160.0,
        speed_source: &source::CROSSLAND_2012,
        acuity_reserve: range(2.0, 3.0, &source::RESERVE_TABLE),
        contrast_reserve: exactly(10.0, &source::LETTER_THRESHOLDS),
        characters: range(4.0, 6.0, &source::RESERVE_TABLE),
    },
    LevelRow {
        level: Level::Optimal,
        words_per_minute: 180.0,
        speed_source: &source::RESERVE_TABLE,
        acuity_reserve: range(6.0, 18.0, &source::RESERVE_TABLE),
        contrast_reserve: at_least(30.0, &source::RESERVE_TABLE),
        characters: range(16.0, 20.0, &source::RESERVE_TABLE),
    },
];

/// Speed of readers with normal sight at a multiple of their threshold size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpeedAtReserve {
    /// Print over threshold; a pure ratio.
    pub reserve: f64,
    words_per_minute: f64,
}

impl SpeedAtReserve {
    /// Mean speed of 25 readers.
    ///
    /// ```
    /// use arcminute_core::reading::anchors::SPEEDS_BY_RESERVE;
    /// // Measured: four times the threshold size is read hardly faster than three times it.
    /// let [_, _, three, four] = SPEEDS_BY_RESERVE.map(|row| row.speed().words_per_minute());
    /// assert_eq!((three, four), (128.5, 131.1));
    /// ```
    #[must_use]
    pub fn speed(&self) -> ReadingSpeed {
        ReadingSpeed::from_words_per_minute(self.words_per_minute)
    }
}

/// Measured at 1 to 4 times the threshold: [`source::SPEED_BY_RESERVE`].
///
/// ```
/// use arcminute_core::reading::anchors::SPEEDS_BY_RESERVE;
/// let [just, twice, ..] = SPEEDS_BY_RESERVE;
/// assert_eq!((just.speed().words_per_minute(), twice.reserve), (63.4, 2.0));
/// ```
pub static SPEEDS_BY_RESERVE: [SpeedAtReserve; 4] = [
    SpeedAtReserve { reserve: 1.0, words_per_minute: 63.4 },
    SpeedAtReserve { reserve: 2.0, words_per_minute: 117.6 },
    SpeedAtReserve { reserve: 3.0, words_per_minute: 128.5 },
    SpeedAtReserve { reserve: 4.0, words_per_minute: 131.1 },
];

/// Diameter of a central scotoma below which fluent reading was found possible, 22 degrees:
/// [`source::WHITTAKER_1993`].
///
/// ```
/// assert_eq!(arcminute_core::reading::anchors::scotoma_limit().degrees(), 22.0);
/// ```
#[must_use]
pub fn scotoma_limit() -> Angle {
    Angle::from_degrees(22.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bounds;
    use crate::math;
    use crate::source::Standing;
    use alloc::collections::BTreeSet;
    use alloc::vec::Vec;

    #[test]
    fn anchors_are_whole_and_published() {
        let ids: BTreeSet<_> = ALL.iter().map(|anchor| anchor.id).collect();
        assert_eq!(ids.len(), ALL.len(), "an id stands twice");
        assert!(ALL.is_sorted_by_key(|anchor| anchor.of), "by use");
        for anchor in ALL {
            assert_eq!(anchor.source.standing, Standing::Published, "{}", anchor.id);
            assert!(bounds::RESERVE.check(anchor.reserve).is_ok(), "{}", anchor.id);
            assert!(!anchor.says.is_empty(), "{}", anchor.id);
        }
        for (anchor, log) in [(&MACULAR, 0.41), (&OVER_LETTERS, 0.47)] {
            assert!((math::log10(anchor.reserve) - log).abs() < 1e-12, "{}", anchor.id);
        }
    }

    #[test]
    fn which_figures_of_the_levels_are_from_memory() {
        let known = |source: &Source| source.standing == Standing::Published;
        let table: Vec<_> = LEVELS
            .iter()
            .map(|row| {
                (
                    known(row.speed_source),
                    known(row.acuity_reserve.source),
                    known(row.contrast_reserve.source),
                    known(row.characters.source),
                )
            })
            .collect();
        assert_eq!(
            table,
            [
                (true, true, false, false),
                (true, false, true, false),
                (true, false, true, false),
                (false, false, false, false)
            ]
        );
        assert!(LEVELS.is_sorted_by_key(|row| row.level), "in order");
        for row in LEVELS {
            for figure in [row.acuity_reserve, row.contrast_reserve, row.characters] {
                assert!(figure.greatest.is_none_or(|most| figure.least <= most), "{row:?}");
            }
        }
    }

    #[test]
    fn the_figures_of_the_levels() {
        let figure = |figure: Figure| (figure.least, figure.greatest);
        let of = |row: &LevelRow| {
            [figure(row.acuity_reserve), figure(row.contrast_reserve), figure(row.characters)]
        };
        let one = |value: f64| (value, Some(value));
        assert_eq!(of(&LEVELS[0]), [one(1.0), one(3.0), one(1.0)]);
        assert_eq!(of(&LEVELS[1]), [(1.5, Some(2.0)), one(4.0), one(2.0)]);
        assert_eq!(of(&LEVELS[2]), [(2.0, Some(3.0)), one(10.0), (4.0, Some(6.0))]);
        assert_eq!(of(&LEVELS[3]), [(6.0, Some(18.0)), (30.0, None), (16.0, Some(20.0))]);
    }
}
