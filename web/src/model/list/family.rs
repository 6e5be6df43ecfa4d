//! The families of aids: what each is for, what it needs to be told, and what is assumed when a row does not say it.

mod table;

pub use table::ALL;

use super::column::Column;
use super::purpose::{For, Wears};
use crate::model::words::Where;
use arcminute_core::bounds::Bound;

/// A kind of aid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// The same print, nearer.
    Nearer,
    /// A copy that is larger.
    Larger,
    /// Spectacles with an addition, one thin lens.
    HighPlus,
    /// Spectacles of one thick lens of which both surfaces are known.
    ThickHighPlus,
    /// A lens in the hand.
    Hand,
    /// A lens that keeps its distance from the page.
    Stand,
    /// Half a ball, or more, on the page.
    Dome,
    /// Half a rod on a line of print.
    Bar,
    /// A thin sheet of grooves.
    Sheet,
    /// A screen on a desk, with a camera over the print.
    DeskScreen,
    /// A screen in the hand, with its camera under it.
    HandScreen,
    /// A screen that shows text itself.
    Tablet,
    /// A camera for far things, and its screen.
    DistanceCamera,
    /// A display before the eyes, with a camera.
    HeadMounted,
    /// A telescope in the hand.
    HandTelescope,
    /// A telescope set in a carrier lens.
    MountedTelescope,
    /// A telescope with a cap for near.
    CappedTelescope,
    /// A telescope looked through from its other end.
    ReversedTelescope,
    /// A minus lens before the eye.
    MinusLens,
}

/// How far an aid may be used while walking.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Walking {
    /// Not at all.
    No,
    /// For a look, standing still: it is out of the line of sight until then.
    Spotting,
    /// It changes nothing of the way ahead.
    Yes,
}

/// Whether a row must say a measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Need {
    /// It must.
    Must,
    /// It may; left out, the aid has none.
    May,
    /// It may; left out, this is assumed.
    Assumed(f64),
    /// Two of these make a pair; see [`PAIRS`].
    Pair,
}

/// What measures of a stand magnifier may be given together.
pub const PAIRS: [[Column; 2]; 3] = [
    [Column::Enlargement, Column::ImageBelowLens],
    [Column::Power, Column::Enlargement],
    [Column::Power, Column::StandHeight],
];

/// A measure of a family.
#[derive(Clone, Copy, Debug)]
pub struct Measure {
    /// Where it stands.
    pub column: Column,
    /// What it may be, in the column's unit.
    pub bound: &'static Bound,
    /// Whether it must be said.
    pub need: Need,
}

/// What is to be known of a family.
#[derive(Clone, Copy, Debug)]
pub struct About {
    /// The family.
    pub family: Family,
    /// What a row calls it.
    pub name: &'static str,
    /// Other words that are understood.
    pub also: &'static [&'static str],
    /// What it is for.
    pub serves: For,
    /// What is worn with it, where a row does not say it.
    pub glasses: Wears,
    /// Whether a row may say what is worn.
    pub glasses_may_change: bool,
    /// How many hands it leaves free, where a row does not say it.
    pub hands_free: u8,
    /// Whether it is worn, where a row does not say it.
    pub worn: bool,
    /// Whether both eyes can be used, where a row does not say it.
    pub both_eyes: bool,
    /// How far it may be used while walking, where a row does not say it.
    pub walking: Walking,
    /// The most that a row may say of that.
    pub walking_at_most: Walking,
    /// Whether what it shows shines by itself, where a row does not say it.
    pub shines: bool,
    /// The risks that come with it.
    pub cautions: &'static [Where],
    /// Its measures, in the order of the columns.
    pub measures: &'static [Measure],
}

impl Family {
    /// What is to be known of it.
    #[must_use]
    pub fn about(self) -> &'static About {
        &ALL[self as usize]
    }

    /// Its measure in this column; `None` where it has none.
    #[must_use]
    pub fn measure(self, column: Column) -> Option<&'static Measure> {
        self.about().measures.iter().find(|measure| measure.column == column)
    }

    /// Whether it is a telescope, and so has a design.
    #[must_use]
    pub fn is_telescope(self) -> bool {
        self.measure(Column::Magnification).is_some()
    }

    /// Whether a row of this family may say something in this column.
    #[must_use]
    pub fn has(self, column: Column) -> bool {
        match column {
            Column::Id | Column::Name | Column::Family | Column::Note => true,
            Column::HandsFree | Column::Worn | Column::BothEyes | Column::Walking | Column::Shines => true,
            Column::Glasses => self.about().glasses_may_change,
            Column::Design => self.is_telescope(),
            _ => self.measure(column).is_some(),
        }
    }

    /// Whether a row of this family must say something in this column.
    #[must_use]
    pub fn must(self, column: Column) -> bool {
        match column {
            Column::Id | Column::Name | Column::Family => true,
            Column::Design => self.is_telescope(),
            _ => self.measure(column).is_some_and(|measure| measure.need == Need::Must),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::list::near::same_word;
    use std::collections::BTreeSet;

    #[test]
    fn the_table_is_in_the_order_of_the_families() {
        for (place, about) in ALL.iter().enumerate() {
            assert_eq!(about.family as usize, place, "{}", about.name);
        }
        assert_eq!(Family::MinusLens as usize + 1, ALL.len(), "the last family is in it");
    }

    #[test]
    fn no_two_families_share_a_word() {
        let words: Vec<_> =
            ALL.iter().flat_map(|about| about.also.iter().copied().chain([about.name])).collect();
        for (place, word) in words.iter().enumerate() {
            assert!(words.iter().take(place).all(|other| !same_word(word, other)), "{word} stands twice");
        }
    }

    #[test]
    fn measures_stand_in_the_order_of_the_columns_and_what_is_assumed_is_usual() {
        for about in ALL {
            let columns: Vec<_> = about.measures.iter().map(|measure| measure.column).collect();
            let ordered: BTreeSet<_> = columns.iter().copied().collect();
            assert_eq!(columns, ordered.into_iter().collect::<Vec<_>>(), "{}", about.name);
            for measure in about.measures {
                let unit = match measure.bound.unit {
                    "times" => "x",
                    unit => unit,
                };
                assert_eq!(unit, measure.column.unit(), "{}: {}", about.name, measure.column.heading());
                if let Need::Assumed(value) = measure.need {
                    assert_eq!(measure.bound.check(value), Ok(value), "{}", about.name);
                }
            }
            assert!(about.walking <= about.walking_at_most, "{}", about.name);
        }
    }

    #[test]
    fn only_a_stand_magnifier_has_pairs_and_all_of_them() {
        for about in ALL {
            let paired = |measure: &&Measure| measure.need == Need::Pair;
            let columns: BTreeSet<_> =
                about.measures.iter().filter(paired).map(|measure| measure.column).collect();
            let wanted: BTreeSet<_> = if about.family == Family::Stand {
                PAIRS.into_iter().flatten().collect()
            } else {
                BTreeSet::new()
            };
            assert_eq!(columns, wanted, "{}", about.name);
        }
    }

    #[test]
    fn nothing_before_the_eye_is_for_walking() {
        for about in ALL {
            let no_device = matches!(about.family, Family::Nearer | Family::Larger);
            assert_eq!(about.walking_at_most == Walking::Yes, no_device, "{}", about.name);
            assert!(no_device || about.walking == Walking::No, "{}", about.name);
        }
    }
}
