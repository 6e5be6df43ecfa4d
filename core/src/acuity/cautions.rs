//! What stands beside a figure so that it is not taken for more than it is: cautions as data, and the measurements
//! they rest on. The words are the page's.

use super::ReadAt;
use crate::source::{self, Source};

/// A caution; [`Caution::key`] is stable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Caution {
    /// The chart was read nearer than it is made for: measured scores come out worse than the geometry says.
    NearerThanDesign,
    /// Log charts and projected charts do not give the same acuity.
    ChartKind,
    /// Brighter charts are read better.
    ChartLuminance,
    /// Two routine readings within one line (5 points of the visual acuity score) are not called different.
    RoutineReadings,
    /// A group mean, not this person's acuity.
    GroupMean,
    /// The criterion as worded in the rule: entitlement is decided by the authority, on all the evidence.
    CriterionAsWorded,
    /// A field counts only if it was measured with the stimulus and the grid that the rule names.
    FieldStimulus,
    /// Groups as summarised: certification is decided by the one who is entitled to certify.
    GuidanceOnly,
    /// A combination that the summaries do not word is not thereby refused.
    NotWordedIsNotRefused,
    /// One cut-off for an ability is arbitrary, say the authors of the cut-offs.
    CutOffArbitrary,
    /// The arithmetic is from memory.
    FromMemory,
}

impl Caution {
    /// All of them.
    pub const ALL: [Self; 11] = [
        Self::NearerThanDesign,
        Self::ChartKind,
        Self::ChartLuminance,
        Self::RoutineReadings,
        Self::GroupMean,
        Self::CriterionAsWorded,
        Self::FieldStimulus,
        Self::GuidanceOnly,
        Self::NotWordedIsNotRefused,
        Self::CutOffArbitrary,
        Self::FromMemory,
    ];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::acuity::cautions::Caution;
    /// assert_eq!(Caution::NearerThanDesign.key(), "nearer-than-design");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::NearerThanDesign => "nearer-than-design",
            Self::ChartKind => "chart-kind",
            Self::ChartLuminance => "chart-luminance",
            Self::RoutineReadings => "routine-readings",
            Self::GroupMean => "group-mean",
            Self::CriterionAsWorded => "criterion-as-worded",
            Self::FieldStimulus => "field-stimulus",
            Self::GuidanceOnly => "guidance-only",
            Self::NotWordedIsNotRefused => "not-worded-is-not-refused",
            Self::CutOffArbitrary => "cut-off-arbitrary",
            Self::FromMemory => "from-memory",
        }
    }

    /// The work that gives reason for it.
    ///
    /// ```
    /// use arcminute_core::acuity::cautions::Caution;
    /// assert_eq!(Caution::ChartKind.source().id, "kaiser-2009");
    /// ```
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::NearerThanDesign => &source::DONG_2002,
            Self::ChartKind => &source::KAISER_2009,
            Self::ChartLuminance => &source::SHEEDY_1984,
            Self::RoutineReadings => &source::DICOM_ACUITY,
            Self::GroupMean => &source::LANGE_2009,
            Self::CriterionAsWorded | Self::FieldStimulus => &source::STATUTORY_BLINDNESS,
            Self::GuidanceOnly | Self::NotWordedIsNotRefused => &source::UK_CERTIFICATION,
            Self::CutOffArbitrary => &source::WEST_2002,
            Self::FromMemory => &source::AMA_MEMORY,
        }
    }
}

/// By how many letters a circumstance changed the acuity that was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredEffect {
    /// Stable key.
    pub id: &'static str,
    /// The caution it stands behind.
    pub caution: Caution,
    /// What was compared, the worse one first.
    pub compared: &'static str,
    /// Letters of a log chart by which the first was worse, on average, after correction for distance.
    pub letters_worse: f64,
    /// How many eyes or people, if it was read.
    pub measured: Option<u16>,
    /// Where it was published.
    pub source: &'static Source,
}

macro_rules! effects {
    ($($id:literal, $caution:ident, $compared:literal, $letters:expr, $measured:expr, $source:ident;)+) => {
        /// The measurements, nearer charts first.
        pub static EFFECTS: &[MeasuredEffect] = &[$(MeasuredEffect {
            id: $id,
            caution: Caution::$caution,
            compared: $compared,
            letters_worse: $letters,
            measured: $measured,
            source: &source::$source,
        }),+];
    };
}

effects! {
    "nearer-2-to-0.5", NearerThanDesign, "0.5 m against 2 m", 7.5, None, DONG_2002;
    "nearer-10-to-5-ft", NearerThanDesign, "5 ft against 10 ft", 3.1, None, DONG_2002;
    "nearer-3.2-to-1", NearerThanDesign, "1 m against 3.2 m", 7.3, None, DONG_2002;
    "nearer-2-to-1", NearerThanDesign, "1 m against 2 m", 8.2, None, DONG_2002;
    // Letters read, 31 more at 1 m where geometry gives 30: so 1 letter better, limits 20 to 43.
    "nearer-4-to-1", NearerThanDesign, "1 m against 4 m, 95 % limits 10 worse to 13 better", -1.0, Some(65), CLINIC_4_M_1_M;
    "projected-chart", ChartKind, "projected traditional chart against log chart at 4 m", 6.5, Some(163), KAISER_2009;
    "projected-chart-low", ChartKind, "the same, below 20/200", 10.0, None, KAISER_2009;
    "half-the-light", ChartLuminance, "half the chart luminance, between 40 and 600 cd/m2", 1.0, None, SHEEDY_1984;
}

/// What has to stand beside an acuity that was converted from another test distance.
///
/// Nearer than the chart is made for, it is [`Caution::NearerThanDesign`]; at its distance or beyond, nothing was
/// measured.
///
/// ```
/// use arcminute_core::acuity::{cautions::{self, Caution}, read_at};
/// use arcminute_core::unit::{Length, LogMar};
/// let read = read_at(LogMar::from_log(0.9), Length::from_m(4.0), Length::from_m(1.0))?;
/// assert_eq!(cautions::of_distance(&read), Some(Caution::NearerThanDesign));
/// # Ok::<(), arcminute_core::Error>(())
/// ```
#[must_use]
pub fn of_distance(read: &ReadAt) -> Option<Caution> {
    (read.test_distance < read.design_distance).then_some(Caution::NearerThanDesign)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acuity::read_at;
    use crate::unit::{Length, LogMar};
    use alloc::collections::BTreeSet;

    #[test]
    fn keys_are_unique_and_every_caution_has_a_source() {
        let keys: BTreeSet<_> = Caution::ALL.iter().map(|caution| caution.key()).collect();
        assert_eq!(keys.len(), Caution::ALL.len(), "a key stands twice");
        let ids: BTreeSet<_> = EFFECTS.iter().map(|effect| effect.id).collect();
        assert_eq!(ids.len(), EFFECTS.len(), "an id stands twice");
        for caution in Caution::ALL {
            assert!(!caution.key().is_empty() && !caution.source().citation.is_empty(), "{caution:?}");
        }
        assert_eq!(Caution::FromMemory.source().standing, source::Standing::FromMemory);
    }

    #[test]
    fn only_a_nearer_chart_is_cautioned() {
        let at = |test| {
            let read = read_at(LogMar::ZERO, Length::from_m(3.0), Length::from_m(test)).expect("possible");
            of_distance(&read)
        };
        assert_eq!(at(2.99), Some(Caution::NearerThanDesign));
        assert_eq!(at(3.0), None);
        assert_eq!(at(4.0), None);
    }
}
