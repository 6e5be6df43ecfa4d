//! What people of an age reach with charts of sentences, and how fast adults read.
//!
//! Means of groups, to be set beside a person's own figures; no limit of what is normal.

use crate::source::{self, Source};
use crate::unit::{LogMar, ReadingSpeed};

/// What was measured, with its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Norm {
    /// Greatest reading speed.
    GreatestSpeed(ReadingSpeed),
    /// Accessibility index; a pure ratio.
    AccessibilityIndex(f64),
    /// Critical print size.
    CriticalPrintSize(LogMar),
    /// Reading acuity.
    ReadingAcuity(LogMar),
    /// Speed of reading texts silently.
    SilentSpeed(ReadingSpeed),
    /// Speed of reading texts aloud.
    OralSpeed(ReadingSpeed),
}

/// One mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NormRow {
    /// Stable key.
    pub id: &'static str,
    /// Youngest and oldest of the group, years; nothing for adults of any age.
    pub ages: Option<(u8, u8)>,
    /// Where it was published.
    pub source: &'static Source,
    kind: Kind,
    mean: f64,
    spread: Option<f64>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Greatest,
    Index,
    Critical,
    Acuity,
    Silent,
    Oral,
}

impl NormRow {
    fn norm(&self, value: f64) -> Norm {
        let speed = ReadingSpeed::from_words_per_minute;
        match self.kind {
            Kind::Greatest => Norm::GreatestSpeed(speed(value)),
            Kind::Index => Norm::AccessibilityIndex(value),
            Kind::Critical => Norm::CriticalPrintSize(LogMar::from_log(value)),
            Kind::Acuity => Norm::ReadingAcuity(LogMar::from_log(value)),
            Kind::Silent => Norm::SilentSpeed(speed(value)),
            Kind::Oral => Norm::OralSpeed(speed(value)),
        }
    }
    /// The mean.
    ///
    /// ```
    /// use arcminute_core::reading::norms::{INDEX_YOUNG, Norm};
    /// assert_eq!(INDEX_YOUNG.mean(), Norm::AccessibilityIndex(1.0));
    /// ```
    #[must_use]
    pub fn mean(&self) -> Norm {
        self.norm(self.mean)
    }
    /// Standard deviation of the group, if it was published.
    ///
    /// ```
    /// use arcminute_core::reading::norms::{INDEX_OLD, INDEX_YOUNG, Norm};
    /// assert_eq!(INDEX_YOUNG.spread(), Some(Norm::AccessibilityIndex(0.14)));
    /// assert_eq!(INDEX_OLD.spread(), None);
    /// ```
    #[must_use]
    pub fn spread(&self) -> Option<Norm> {
        self.spread.map(|spread| self.norm(spread))
    }
}

macro_rules! norms {
    ($($(#[$meta:meta])* $name:ident: $id:literal, $kind:ident, $ages:expr, $mean:literal, $spread:expr, $source:ident;)+) => {
        $($(#[$meta])* pub static $name: NormRow = NormRow {
            id: $id,
            ages: $ages,
            source: &source::$source,
            kind: Kind::$kind,
            mean: $mean,
            spread: $spread,
        };)+
        /// The whole table.
        pub static ALL: &[&NormRow] = &[$(&$name),+];
    };
}

norms! {
    /// Children.
    SPEED_CHILDREN: "speed-8", Greatest, Some((8, 8)), 140.0, None, CALABRESE_NORMS;
    /// At sixteen; between 8 and 16 it rises.
    SPEED_SIXTEEN: "speed-16", Greatest, Some((16, 16)), 200.0, None, CALABRESE_NORMS;
    /// The young.
    SPEED_YOUNG: "speed-16-40", Greatest, Some((16, 40)), 200.0, Some(25.0), CALABRESE_NORMS;
    /// The old.
    SPEED_OLD: "speed-81", Greatest, Some((81, 81)), 175.0, None, CALABRESE_NORMS;
    /// The young.
    INDEX_YOUNG: "index-16-40", Index, Some((16, 40)), 1.0, Some(0.14), CALABRESE_NORMS;
    /// The old.
    INDEX_OLD: "index-81", Index, Some((81, 81)), 0.88, None, CALABRESE_NORMS;
    /// The young.
    CRITICAL_YOUNG: "critical-8-23", Critical, Some((8, 23)), 0.08, None, CALABRESE_NORMS;
    /// Towards old age.
    CRITICAL_SIXTY_EIGHT: "critical-68", Critical, Some((68, 68)), 0.21, None, CALABRESE_NORMS;
    /// The old.
    CRITICAL_OLD: "critical-81", Critical, Some((81, 81)), 0.34, None, CALABRESE_NORMS;
    /// At sixteen.
    ACUITY_SIXTEEN: "acuity-16", Acuity, Some((16, 16)), -0.18, None, CALABRESE_NORMS;
    /// The old.
    ACUITY_OLD: "acuity-81", Acuity, Some((81, 81)), -0.05, None, CALABRESE_NORMS;
    /// English non-fiction.
    SILENT: "silent", Silent, None, 238.0, None, BRYSBAERT_2019;
    /// English, aloud.
    ORAL: "oral", Oral, None, 183.0, None, BRYSBAERT_2019;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Standing;
    use alloc::collections::BTreeSet;
    use alloc::vec::Vec;

    #[test]
    fn rows_are_whole() {
        let ids: BTreeSet<_> = ALL.iter().map(|row| row.id).collect();
        assert_eq!(ids.len(), ALL.len(), "an id stands twice");
        for row in ALL {
            assert_eq!(row.source.standing, Standing::Published, "{}", row.id);
            assert!(
                row.ages.is_none_or(|(youngest, oldest)| 8 <= youngest && youngest <= oldest && oldest <= 81)
            );
        }
    }

    #[test]
    fn each_has_its_unit() {
        let speed = ReadingSpeed::from_words_per_minute;
        let log = LogMar::from_log;
        let means: Vec<Norm> = [&SPEED_CHILDREN, &INDEX_OLD, &CRITICAL_OLD, &ACUITY_SIXTEEN, &SILENT, &ORAL]
            .iter()
            .map(|row| row.mean())
            .collect();
        assert_eq!(
            means,
            [
                Norm::GreatestSpeed(speed(140.0)),
                Norm::AccessibilityIndex(0.88),
                Norm::CriticalPrintSize(log(0.34)),
                Norm::ReadingAcuity(log(-0.18)),
                Norm::SilentSpeed(speed(238.0)),
                Norm::OralSpeed(speed(183.0)),
            ]
        );
        assert_eq!(SPEED_YOUNG.spread(), Some(Norm::GreatestSpeed(speed(25.0))));
    }
}
