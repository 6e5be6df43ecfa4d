//! What has to be asked before a class or a criterion can be told: data, the words are the page's.

/// What is missing, or disagrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ask {
    /// Distance acuity of the better eye.
    Acuity,
    /// Whether fingers are counted at 1 m, the one distance for which the classes name fingers.
    FingersAtOneMetre,
    /// An acuity with letters or rings, nearer if need be.
    LettersNearer,
    /// Whether letters beside the line have a value, that is whether it was a log chart with five letters a line.
    WhetherLettersCount,
    /// Letters read on the 20/100 line.
    LettersOnTwentyOneHundred,
    /// Whether the chart has lines between 20/100 and 20/200.
    ChartKind,
    /// Two records that cannot both be right.
    RecordsDisagree,
    /// Widest diameter of the field of the better eye.
    FieldDiameter,
    /// How far the field is contracted.
    FieldExtent,
    /// Print read at 40 cm.
    PrintAtFortyCentimetres,
}

impl Ask {
    /// All of them.
    pub const ALL: [Self; 10] = [
        Self::Acuity,
        Self::FingersAtOneMetre,
        Self::LettersNearer,
        Self::WhetherLettersCount,
        Self::LettersOnTwentyOneHundred,
        Self::ChartKind,
        Self::RecordsDisagree,
        Self::FieldDiameter,
        Self::FieldExtent,
        Self::PrintAtFortyCentimetres,
    ];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::acuity::Ask;
    /// assert_eq!(Ask::FingersAtOneMetre.key(), "fingers-at-one-metre");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Acuity => "acuity",
            Self::FingersAtOneMetre => "fingers-at-one-metre",
            Self::LettersNearer => "letters-nearer",
            Self::WhetherLettersCount => "whether-letters-count",
            Self::LettersOnTwentyOneHundred => "letters-on-20-100",
            Self::ChartKind => "chart-kind",
            Self::RecordsDisagree => "records-disagree",
            Self::FieldDiameter => "field-diameter",
            Self::FieldExtent => "field-extent",
            Self::PrintAtFortyCentimetres => "print-at-40-cm",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::collections::BTreeSet;

    #[test]
    fn keys_are_unique_and_plain() {
        let keys: BTreeSet<_> = Ask::ALL.iter().map(|ask| ask.key()).collect();
        assert_eq!(keys.len(), Ask::ALL.len(), "a key stands twice");
        for key in keys {
            let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
            assert!(!key.is_empty() && key.chars().all(plain), "{key}");
        }
    }
}
