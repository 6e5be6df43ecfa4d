//! Contrasts met in daily life, and what has been found of light letters on dark, as data.

use crate::source::{self, Source};

/// What a published contrast is a measure of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Published in log units, as contrast charts are; taken as Weber contrast.
    Weber,
    /// Called "contrast" without a formula.
    NotSaid,
}

/// Contrast of a kind of thing. A guide to what may be met, not a measurement of the thing in hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Typical {
    /// The thing.
    pub thing: &'static str,
    /// Least contrast, 0 to 1; nothing where none is given.
    pub least: Option<f64>,
    /// Greatest contrast, 0 to 1; nothing where none is given.
    pub greatest: Option<f64>,
    /// What was measured.
    pub measure: Measure,
    /// Where it was published, and how well that is known.
    pub source: &'static Source,
}

macro_rules! typical {
    ($($thing:literal, $least:expr, $greatest:expr, $measure:ident, $source:ident;)+) => {
        /// Contrasts of things, boards first.
        ///
        /// The order of newsprint, laser print and a lit screen was read ([`source::CROSSLAND_2012`]); their figures
        /// are from memory.
        pub static TYPICAL: &[Typical] = &[$(Typical {
            thing: $thing, least: $least, greatest: $greatest, measure: Measure::$measure, source: &source::$source,
        }),+];
    };
}

typical! {
    "marker on a whiteboard", Some(1.00), Some(1.00), Weber, ADAMS_2021;
    "projected board", Some(0.25), Some(0.71), Weber, ADAMS_2021;
    "chalk on a chalkboard, median", Some(0.40), Some(0.40), NotSaid, NEGILONI_2019;
    "parts of a building, required", Some(0.30), None, NotSaid, MANANDHAR_2022;
    "parts of a building, easily visible with severe loss", Some(0.65), None, NotSaid, MANANDHAR_2022;
    "newsprint", Some(0.60), Some(0.70), NotSaid, PRINT_CONTRASTS;
    "paperback", Some(0.75), Some(0.80), NotSaid, PRINT_CONTRASTS;
    "laser print", Some(0.90), Some(0.90), NotSaid, PRINT_CONTRASTS;
    "banknotes", Some(0.50), Some(0.60), NotSaid, PRINT_CONTRASTS;
    "features of a face", None, Some(0.50), NotSaid, PRINT_CONTRASTS;
}

/// What a study found of light letters on a dark ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LightOnDark {
    /// Who read.
    pub population: &'static str,
    /// How many of how many read faster so; nothing where it made no difference.
    pub faster: Option<(u16, u16)>,
    /// How many of those who read faster had cloudy media.
    pub cloudy_media: Option<u16>,
    /// Where it was published.
    pub source: &'static Source,
}

/// Findings on light letters on a dark ground: a reason to try both, not a rule.
pub static POLARITY: &[LightOnDark] = &[
    LightOnDark { population: "normal sight", faster: None, cloudy_media: None, source: &source::LEGGE_1987 },
    LightOnDark {
        population: "low vision",
        faster: Some((5, 19)),
        cloudy_media: Some(4),
        source: &source::RUBIN_LEGGE_1989,
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::contrast::Weber;
    use crate::source::Standing;
    use crate::unit::LogContrast;

    #[test]
    fn every_row_is_a_contrast() {
        for row in TYPICAL {
            let both = [row.least, row.greatest];
            assert!(both.iter().any(Option::is_some), "{}: no figure at all", row.thing);
            for contrast in both.into_iter().flatten() {
                assert!(Weber::from_ratio(contrast).is_ok(), "{}", row.thing);
            }
            if let (Some(least), Some(greatest)) = (row.least, row.greatest) {
                assert!(least <= greatest, "{}", row.thing);
            }
        }
        let remembered = TYPICAL.iter().filter(|row| row.source.standing == Standing::FromMemory).count();
        assert_eq!(remembered, 5, "print, banknotes and faces are from memory, and say so");
    }

    /// The projected boards were read as 0.15 to 0.60 log.
    #[test]
    fn projected_boards_are_as_read_in_log_units() {
        let row = TYPICAL.iter().find(|row| row.thing == "projected board").expect("it is there");
        for (log, share) in [(0.15, row.greatest), (0.60, row.least)] {
            let read = LogContrast::from_log(log).threshold();
            assert!(share.is_some_and(|share| (share - read).abs() < 0.005), "{log} log is {read}");
        }
    }

    #[test]
    fn findings_count_no_more_than_took_part() {
        for finding in POLARITY {
            if let Some((faster, all)) = finding.faster {
                assert!(faster <= all, "{}", finding.population);
                assert!(finding.cloudy_media.is_none_or(|some| some <= faster), "{}", finding.population);
            }
        }
        assert_eq!(POLARITY.len(), 2);
    }
}
