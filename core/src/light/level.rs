//! Levels of light that people were found to read by, and the steps of the lighting standard, as data.
//!
//! What people prefer and what helps them differ widely, and repeats by the same person differ as well. So a level here
//! is a place to begin a trial, and glare has to be looked for anew at each.

use crate::source::{self, Source};
use crate::unit::{Illuminance, LogMar};

/// Light on the page or in the room, with the people and the work it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// Stable key.
    pub id: &'static str,
    /// What the level is of.
    pub what: &'static str,
    /// The people or the place.
    pub population: &'static str,
    /// Where it was published, and how well that is known.
    pub source: &'static Source,
    least: f64,
    greatest: f64,
}

impl Level {
    /// Least illuminance.
    ///
    /// ```
    /// use arcminute_core::light::LEVELS;
    /// // What 11 of 18 people with maculopathy preferred begins at 5920 lx (Eldred 1992).
    /// let preferred = LEVELS.iter().find(|level| level.id == "preferred-maculopathy");
    /// assert_eq!(preferred.map(|level| level.least().lux()), Some(5920.0));
    /// ```
    #[must_use]
    pub fn least(&self) -> Illuminance {
        Illuminance::from_lux(self.least)
    }
    /// Greatest illuminance; the same as the least for one figure.
    ///
    /// ```
    /// use arcminute_core::light::LEVELS;
    /// // What 11 of 18 people with maculopathy preferred ends at 7534 lx (Eldred 1992).
    /// let preferred = LEVELS.iter().find(|level| level.id == "preferred-maculopathy");
    /// assert_eq!(preferred.map(|level| level.greatest().lux()), Some(7534.0));
    /// ```
    #[must_use]
    pub fn greatest(&self) -> Illuminance {
        Illuminance::from_lux(self.greatest)
    }
}

macro_rules! levels {
    ($($id:literal, $what:literal, $population:literal, $least:literal to $greatest:literal, $source:ident;)+) => {
        /// Every level.
        ///
        /// ```
        /// use arcminute_core::light::LEVELS;
        /// let best = LEVELS.iter().find(|level| level.id == "best-reading").expect("it is there");
        /// assert_eq!(best.least().lux(), 3500.0);
        /// ```
        pub static LEVELS: &[Level] = &[$(Level {
            id: $id, what: $what, population: $population, source: &source::$source,
            least: $least, greatest: $greatest,
        }),+];
    };
}

levels! {
    "living-room", "found at home", "living rooms", 50.0 to 50.0, BOWERS_2001;
    "best-reading", "best reading, median", "20 readers with age-related macular degeneration", 3500.0 to 3500.0, BOWERS_2001;
    "preferred-reading", "preferred, median", "20 readers with age-related macular degeneration", 2450.0 to 2450.0, BOWERS_2001;
    "needed-by-most", "needed by the majority, at least", "20 readers with age-related macular degeneration", 2000.0 to 2000.0, BOWERS_2001;
    "preferred-maculopathy", "preferred by 11 of 18", "people with age-related maculopathy", 5920.0 to 7534.0, ELDRED_1992;
    "office", "asked for at work", "offices", 500.0 to 500.0, EN_12464_OFFICE;
    "classroom", "asked for", "classrooms", 300.0 to 300.0, EN_12464;
    "board", "asked for, on the board", "classrooms", 500.0 to 500.0, EN_12464;
    "faces", "least by which features of a face are recognised", "people with normal sight", 20.0 to 20.0, EN_12464;
}

/// What more light changed in a study.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LightChange {
    /// Who was measured.
    pub population: &'static str,
    /// How many took part; nothing where it was not read.
    pub people: Option<u16>,
    /// What was found.
    pub found: &'static str,
    /// Where it was published.
    pub source: &'static Source,
    from: f64,
    to: f64,
    acuity: Option<f64>,
}

impl LightChange {
    /// From this illuminance.
    ///
    /// ```
    /// use arcminute_core::light::STUDIES;
    /// // The light that was found in living rooms (Bowers 2001).
    /// assert_eq!(STUDIES[0].from().lux(), 50.0);
    /// ```
    #[must_use]
    pub fn from(&self) -> Illuminance {
        Illuminance::from_lux(self.from)
    }
    /// To this illuminance.
    ///
    /// ```
    /// use arcminute_core::light::STUDIES;
    /// // A hundred times the light of a living room (Bowers 2001).
    /// assert_eq!(STUDIES[0].to() / STUDIES[0].from(), 100.0);
    /// ```
    #[must_use]
    pub fn to(&self) -> Illuminance {
        Illuminance::from_lux(self.to)
    }
    /// Gain of near acuity, positive for better; nothing where none was given.
    ///
    /// ```
    /// use arcminute_core::light::STUDIES;
    /// // 0.13 for ten times the light (Haymes 2006, from memory); none was given for the colour of the lamp.
    /// let gains = [1, 2].map(|study: usize| STUDIES[study].acuity_gain().map(|gain| gain.log()));
    /// assert_eq!(gains, [Some(0.13), None]);
    /// ```
    #[must_use]
    pub fn acuity_gain(&self) -> Option<LogMar> {
        self.acuity.map(LogMar::from_log)
    }
}

/// Studies of more light and of its colour.
pub static STUDIES: &[LightChange] = &[
    LightChange {
        population: "age-related macular degeneration",
        people: Some(20),
        found: "acuity and critical print size 2 times better, greatest reading speed 1.4 times",
        source: &source::BOWERS_2001,
        from: 50.0,
        to: 5000.0,
        // Twice as good.
        acuity: Some(core::f64::consts::LOG10_2),
    },
    LightChange {
        population: "age-related macular degeneration (from memory)",
        people: None,
        found: "near acuity 0.13 logMAR better, contrast sensitivity 1.5 dB",
        source: &source::HAYMES_2006,
        from: 300.0,
        to: 3000.0,
        acuity: Some(0.13),
    },
    LightChange {
        population: "age-related macular degeneration (from memory)",
        people: None,
        found: "the colour of the lamp made no difference that matters",
        source: &source::EPERJESI_2007,
        from: 2000.0,
        to: 2000.0,
        acuity: None,
    },
];

/// People who may want less light; no levels are known ([`source::COMMON_PRACTICE`]).
pub static NEEDS_LESS: &[&str] = &["albinism", "achromatopsia", "glare from cataract"];

/// How far apart two choices of the same person with low vision are: the width of the limits of agreement, 2657 lx.
///
/// Source: [`source::LIGHT_REPEATS`].
///
/// ```
/// use arcminute_core::light::preference_limits_width;
/// assert_eq!(preference_limits_width().lux(), 2657.0);
/// ```
#[must_use]
pub fn preference_limits_width() -> Illuminance {
    Illuminance::from_lux(2657.0)
}

/// The levels to try for reading, least and greatest; chosen here, because what was found differs so much
/// ([`source::LIGHT_TRIAL`]).
///
/// ```
/// use arcminute_core::light::trial_range;
/// let (least, greatest) = trial_range();
/// assert_eq!((least.lux(), greatest.lux()), (500.0, 5000.0));
/// ```
#[must_use]
pub fn trial_range() -> (Illuminance, Illuminance) {
    (Illuminance::from_lux(500.0), Illuminance::from_lux(5000.0))
}

/// The scale of the lighting standard, lux ([`source::EN_12464`]).
pub static SCALE_LUX: &[f64] = &[
    20.0, 30.0, 50.0, 75.0, 100.0, 150.0, 200.0, 300.0, 500.0, 750.0, 1000.0, 1500.0, 2000.0, 3000.0, 5000.0,
];

/// The next level up on the scale of the lighting standard, which asks for one step more where sight is poor; nothing
/// at the top, 5000 lx, and for what is not a number.
///
/// Source: [`source::EN_12464`].
///
/// ```
/// use arcminute_core::{light::next_step, unit::Illuminance};
/// assert_eq!(next_step(Illuminance::from_lux(500.0)), Some(Illuminance::from_lux(750.0)));
/// ```
#[must_use]
pub fn next_step(level: Illuminance) -> Option<Illuminance> {
    let above = SCALE_LUX.iter().find(|&&step| level.lux() * (1.0 + 1e-9) < step);
    above.map(|&step| Illuminance::from_lux(step))
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use crate::bounds;
    use crate::source::Standing;
    use alloc::collections::BTreeSet;

    #[test]
    fn levels_are_possible_and_keyed() {
        let ids: BTreeSet<_> = LEVELS.iter().map(|level| level.id).collect();
        assert_eq!(ids.len(), LEVELS.len(), "an id stands twice");
        for level in LEVELS {
            assert!(level.least() <= level.greatest(), "{}", level.id);
            assert!(bounds::ILLUMINANCE.check(level.greatest().lux()).is_ok(), "{}", level.id);
        }
        let wide = LEVELS.iter().find(|level| level.id == "preferred-maculopathy").expect("it is there");
        assert_eq!((wide.least().lux(), wide.greatest().lux()), (5920.0, 7534.0));
        assert_eq!(source::LIGHT_TRIAL.standing, Standing::Assumed, "the range to try is our choice");
    }

    #[test]
    fn studies_are_kept_as_read() {
        let [bowers, haymes, colour] = STUDIES else { panic!("three studies") };
        assert_eq!((bowers.from().lux(), bowers.to().lux()), (50.0, 5000.0));
        assert!(bowers.acuity_gain().is_some_and(|gain| (gain.mar().arcmin() - 2.0).abs() < 1e-12));
        assert_eq!((haymes.from().lux(), haymes.to().lux()), (300.0, 3000.0));
        assert_eq!(haymes.acuity_gain(), Some(LogMar::from_log(0.13)));
        assert_eq!(colour.acuity_gain(), None);
        assert_eq!(preference_limits_width().lux(), 2657.0);
        assert_eq!(colour.from(), colour.to());
        assert_eq!(NEEDS_LESS.len(), 3);
    }

    #[test]
    fn the_scale_rises_step_by_step() {
        assert!(SCALE_LUX.is_sorted_by(|a, b| a < b), "rising");
        let lux = Illuminance::from_lux;
        for pair in SCALE_LUX.windows(2) {
            let &[one, next] = pair else { panic!("two at a time") };
            assert_eq!(next_step(lux(one)), Some(lux(next)));
            assert_eq!(next_step(lux(one + 1.0)), Some(lux(next)), "between the steps");
            assert!(next / one <= 5.0 / 3.0 + 1e-12, "a step is no more than 1.67 times");
        }
        assert_eq!(next_step(lux(0.0)), Some(lux(20.0)));
        assert_eq!(next_step(lux(19.9)), Some(lux(20.0)));
        assert_eq!(next_step(lux(5000.0)), None);
        assert_eq!(next_step(lux(f64::NAN)), None);
    }
}
