//! How many characters have to be seen at once: what studies found, as data.
//!
//! They differ by what was moved and by whom: text that drifts by itself needs few, finding the way over a page many.

use crate::source::{self, Source};

/// What was found in one condition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldNeeded {
    /// Stable key.
    pub id: &'static str,
    /// Characters seen at once.
    pub characters: f64,
    /// How the figure is to be taken.
    pub meaning: Meaning,
    /// How the text was shown, and to whom.
    pub condition: &'static str,
    /// Where it was published.
    pub source: &'static Source,
}

/// How a number of characters is to be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// So many are enough, for the share of the greatest speed that the condition names.
    Enough,
    /// More than so many are needed.
    MoreThan,
    /// With so many, speed still rises.
    StillRising,
    /// With so many, the best speed was reached.
    Best,
    /// So few hurt badly, more hardly help.
    OnlySoFewHurt,
}

macro_rules! fields {
    ($($(#[$meta:meta])* $name:ident: $id:literal, $characters:literal, $meaning:ident, $condition:literal, $source:ident;)+) => {
        $($(#[$meta])* pub static $name: FieldNeeded = FieldNeeded {
            id: $id,
            characters: $characters,
            meaning: Meaning::$meaning,
            condition: $condition,
            source: &source::$source,
        };)+
        /// The whole table.
        pub static ALL: &[&FieldNeeded] = &[$(&$name),+];
    };
}

fields! {
    /// Any size of print.
    DRIFTING: "drifting", 4.0, Enough, "drifting text, no navigation, any size", LEGGE_1985;
    /// 85 % of the greatest speed.
    DRIFTING_LOW_VISION: "drifting-low-vision", 5.2, Enough, "drifting text, low vision, 85 % of the greatest speed", BECKMANN_LEGGE_1996;
    /// 85 % of the greatest speed; readers with normal sight need over three times more to find their way.
    VIDEO_MANUAL: "video-manual", 10.0, Enough, "video magnifier moved by hand, low vision, 85 % of the greatest speed", BECKMANN_LEGGE_1996;
    /// All groups.
    STAND: "stand", 13.0, StillRising, "stand magnifier, all groups", FINE_1996;
    /// Height of the field matters too.
    VIDEO_MACULAR: "video-macular", 12.0, MoreThan, "video magnifier, macular degeneration; the height of the field matters too", DEN_BRINKER_1996;
    /// 70 degrees.
    VIDEO_BEST: "video-best", 24.0, Best, "video magnifier, best rate (70 degrees)", LOWE_DRASDO_1990;
    /// Speed falls because eye movements do not grow with magnification.
    HAND_NORMAL: "hand-normal", 2.0, OnlySoFewHurt, "hand magnifier, normal sight", DICKINSON_FOTINAKIS_2000;
    /// Static pages.
    PAGE_NORMAL: "page-normal", 13.0, Enough, "static pages on a screen, normal sight, 80 % of the greatest speed", ATILGAN_2020;
    /// Static pages.
    PAGE_LOW_VISION: "page-low-vision", 8.0, Enough, "static pages on a screen, low vision, 80 % of the greatest speed", ATILGAN_2020;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Standing;
    use alloc::collections::BTreeSet;

    #[test]
    fn rows_are_whole_and_published() {
        let ids: BTreeSet<_> = ALL.iter().map(|row| row.id).collect();
        assert_eq!(ids.len(), ALL.len(), "an id stands twice");
        for row in ALL {
            assert_eq!(row.source.standing, Standing::Published, "{}", row.id);
            assert!((2.0..=24.0).contains(&row.characters) && !row.condition.is_empty(), "{}", row.id);
        }
    }
}
