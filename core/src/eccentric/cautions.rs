//! What has to stand beside a best case, as data; the words are the page's.

use crate::source::{self, Source};

/// A caution about a figure for the periphery; [`Caution::key`] is stable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Caution {
    /// The laws were measured on healthy retinas.
    HealthyRetina,
    /// It is the best case: with macular disease letters have to be larger than in normal periphery at the same place.
    BestCase,
    /// Never to be turned round: the size of a scotoma does not follow from acuity.
    NoScotomaFromAcuity,
    /// Published laws differ widely, and an eccentricity of doubling says nothing without its foveal threshold.
    LawsDiffer,
    /// A letter without neighbours; print is crowded and needs more.
    Unflanked,
}

impl Caution {
    /// All of them; each stands beside every best case.
    pub const ALL: [Self; 5] =
        [Self::HealthyRetina, Self::BestCase, Self::NoScotomaFromAcuity, Self::LawsDiffer, Self::Unflanked];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::eccentric::Caution;
    /// assert_eq!(Caution::Unflanked.key(), "unflanked");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::HealthyRetina => "healthy-retina",
            Self::BestCase => "best-case",
            Self::NoScotomaFromAcuity => "no-scotoma-from-acuity",
            Self::LawsDiffer => "laws-differ",
            Self::Unflanked => "unflanked",
        }
    }

    /// The work that gives reason for it.
    ///
    /// ```
    /// use arcminute_core::eccentric::Caution;
    /// assert_eq!(Caution::BestCase.source().id, "chung-2014");
    /// ```
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::HealthyRetina | Self::BestCase | Self::NoScotomaFromAcuity => &source::CHUNG_2014,
            Self::LawsDiffer => &source::PERIPHERY_REVIEW,
            Self::Unflanked => &source::PELLI_2017,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_has_its_key_and_its_work() {
        let table = Caution::ALL.map(|caution| (caution.key(), caution.source().id));
        let expected = [
            ("healthy-retina", "chung-2014"),
            ("best-case", "chung-2014"),
            ("no-scotoma-from-acuity", "chung-2014"),
            ("laws-differ", "periphery-review"),
            ("unflanked", "pelli-2017"),
        ];
        assert_eq!(table, expected);
    }
}
