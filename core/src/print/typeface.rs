//! How tall letters are against the body of the type, by typeface.
//!
//! Sources agree only roughly, and each row says how it is known. The best is to measure the x-height on the page, or to
//! read it from the file of the typeface. Names are of typefaces as the sources give them, and stand for their like.

use crate::math;
use crate::source::{self, Source};

/// A kind of typeface.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Typeface {
    /// Times and its like: book faces with serifs and small lower case.
    Times,
    /// Helvetica, Arial and their like: plain faces without serifs.
    Helvetica,
    /// Georgia and its like: serifs and larger lower case, for screens.
    Georgia,
    /// Courier and its like: typewriter faces.
    Courier,
    /// Verdana and its like: no serifs and large lower case, for screens.
    Verdana,
}

/// Which letters are measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Letters {
    /// Lower case: the x-height.
    #[default]
    LowerCase,
    /// Capitals: their height, 1.4 to 1.5 times the x-height of the same type.
    Capitals,
}

/// Half of the body: a rule of thumb for a typeface that is not known (common practice, no source).
pub const HALF_OF_BODY: f64 = 0.5;

/// What one source says of one typeface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proportion {
    /// Stable key.
    pub id: &'static str,
    /// The kind of typeface.
    pub typeface: Typeface,
    /// What was measured.
    pub letters: Letters,
    /// Its height over the body; a pure ratio.
    pub ratio: f64,
    /// The typeface that was measured, as the source names it.
    pub named: &'static str,
    /// Where it comes from, and how well it is known.
    pub source: &'static Source,
}

macro_rules! proportions {
    ($($(#[$meta:meta])* $name:ident: $id:literal, $typeface:ident $letters:ident $ratio:literal, $named:literal, $source:ident;)+) => {
        $($(#[$meta])* pub static $name: Proportion = Proportion {
            id: $id,
            typeface: Typeface::$typeface,
            letters: Letters::$letters,
            ratio: $ratio,
            named: $named,
            source: &source::$source,
        };)+
        /// The whole table, by typeface; the row to be used comes first.
        pub static ALL: &[&Proportion] = &[$(&$name),+];
    };
}

proportions! {
    /// Times, as style sheets give it.
    TIMES: "times", Times LowerCase 0.45, "Times New Roman", CSS_ASPECT;
    /// Times, in another copy of the same.
    TIMES_OTHER_COPY: "times-other-copy", Times LowerCase 0.46, "Times New Roman", CSS_ASPECT;
    /// Times, from the file.
    TIMES_FILE: "times-file", Times LowerCase 0.448, "Times New Roman", FONT_FILES;
    /// Capitals of Times.
    TIMES_CAPITALS: "times-capitals", Times Capitals 0.662, "Times New Roman", FONT_FILES;
    /// Arial, from the file.
    HELVETICA: "helvetica", Helvetica LowerCase 0.519, "Arial", FONT_FILES;
    /// Helvetica, from the file.
    HELVETICA_FILE: "helvetica-file", Helvetica LowerCase 0.523, "Helvetica", FONT_FILES;
    /// Capitals of Arial.
    HELVETICA_CAPITALS: "helvetica-capitals", Helvetica Capitals 0.716, "Arial", FONT_FILES;
    /// Georgia, from the file.
    GEORGIA: "georgia", Georgia LowerCase 0.481, "Georgia", FONT_FILES;
    /// Courier, from the file.
    COURIER: "courier", Courier LowerCase 0.423, "Courier New", FONT_FILES;
    /// Verdana, from the file.
    VERDANA_FILE: "verdana-file", Verdana LowerCase 0.545, "Verdana", FONT_FILES;
    /// Verdana, as an old text on style sheets has it.
    VERDANA_OLD_TEXT: "verdana-old-text", Verdana LowerCase 0.58, "Verdana", CSS_ASPECT;
    /// Capitals of Verdana.
    VERDANA_CAPITALS: "verdana-capitals", Verdana Capitals 0.727, "Verdana", FONT_FILES;
}

impl Typeface {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Times, Self::Helvetica, Self::Georgia, Self::Courier, Self::Verdana];

    /// Its stable key, which is also how it is written beside a point size.
    ///
    /// ```
    /// use arcminute_core::print::Typeface;
    /// assert_eq!(Typeface::Times.key(), "Times");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Times => "Times",
            Self::Helvetica => "Helvetica",
            Self::Georgia => "Georgia",
            Self::Courier => "Courier",
            Self::Verdana => "Verdana",
        }
    }

    /// How it may be written, longest first.
    pub(super) fn words(self) -> &'static [&'static str] {
        match self {
            Self::Times => &["times new roman", "times roman", "times"],
            Self::Helvetica => &["helvetica", "arial"],
            Self::Georgia => &["georgia"],
            Self::Courier => &["courier new", "courier"],
            Self::Verdana => &["verdana"],
        }
    }

    /// What is said of its letters, the row to be used first; nothing is known of some capitals.
    ///
    /// ```
    /// use arcminute_core::print::{Letters, Typeface};
    /// // One source has 0.545 and another 0.58; of capitals of Georgia none says anything.
    /// let ratios: Vec<f64> = Typeface::Verdana.rows(Letters::LowerCase).map(|row| row.ratio).collect();
    /// assert_eq!(ratios, [0.545, 0.58]);
    /// assert_eq!(Typeface::Georgia.rows(Letters::Capitals).count(), 0);
    /// ```
    pub fn rows(self, letters: Letters) -> impl Iterator<Item = &'static Proportion> {
        ALL.iter().copied().filter(move |row| row.typeface == self && row.letters == letters)
    }

    /// The row to be used, if there is one and none of the others is more than a letter of a log chart (0.02 log, 4.7 %)
    /// away from it.
    ///
    /// ```
    /// use arcminute_core::print::{Letters, Typeface};
    /// assert_eq!(Typeface::Times.agreed(Letters::LowerCase).map(|row| row.ratio), Some(0.45));
    /// // 0.58 in one source and 0.545 in another: it has to be asked.
    /// assert_eq!(Typeface::Verdana.agreed(Letters::LowerCase), None);
    /// ```
    #[must_use]
    pub fn agreed(self, letters: Letters) -> Option<&'static Proportion> {
        let first = self.rows(letters).next()?;
        let agree = |row: &Proportion| math::abs(math::log10(row.ratio / first.ratio)) <= 0.02;
        self.rows(letters).all(agree).then_some(first)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Standing;
    use alloc::collections::BTreeSet;
    use alloc::vec::Vec;

    #[test]
    fn rows_are_whole_and_in_order() {
        let ids: BTreeSet<_> = ALL.iter().map(|row| row.id).collect();
        assert_eq!(ids.len(), ALL.len(), "an id stands twice");
        assert!(ALL.is_sorted_by_key(|row| row.typeface), "by typeface");
        for row in ALL {
            let (least, greatest) = if row.letters == Letters::Capitals { (0.6, 0.8) } else { (0.4, 0.6) };
            assert!(least < row.ratio && row.ratio < greatest, "{}: {}", row.id, row.ratio);
            assert!(!row.named.is_empty(), "{}", row.id);
        }
    }

    #[test]
    fn how_each_is_known() {
        let published: Vec<_> =
            ALL.iter().filter(|row| row.source.standing == Standing::Published).map(|row| row.id).collect();
        assert_eq!(published, ["times", "times-other-copy", "verdana-old-text"]);
        assert!(
            ALL.iter()
                .filter(|row| !published.contains(&row.id))
                .all(|row| row.source.standing == Standing::FromMemory),
            "the others are from memory"
        );
    }

    #[test]
    fn which_rows_are_used() {
        let ratios = |letters| Typeface::ALL.map(|face| face.agreed(letters).map(|row| row.ratio));
        assert_eq!(ratios(Letters::LowerCase), [Some(0.45), Some(0.519), Some(0.481), Some(0.423), None]);
        assert_eq!(ratios(Letters::Capitals), [Some(0.662), Some(0.716), None, None, Some(0.727)]);
        assert_eq!(Typeface::Verdana.rows(Letters::LowerCase).count(), 2, "both are offered");
        assert_eq!(Typeface::Georgia.rows(Letters::Capitals).count(), 0, "nothing is known");
    }

    #[test]
    fn capitals_are_taller() {
        for face in Typeface::ALL {
            if let (Some(capitals), Some(lower)) =
                (face.rows(Letters::Capitals).next(), face.rows(Letters::LowerCase).next())
            {
                let taller = capitals.ratio / lower.ratio;
                assert!((1.3..1.5).contains(&taller), "{face:?}: {taller}");
            }
        }
        assert!((HALF_OF_BODY - 0.5).abs() < f64::EPSILON);
    }

    #[test]
    fn each_is_written_as_its_key() {
        for face in Typeface::ALL {
            let written = face.words().iter().any(|word| word.eq_ignore_ascii_case(face.key()));
            assert!(written, "{face:?} reads back");
        }
    }
}
