//! With which group of the certificate of vision impairment of the United Kingdom a record is consistent.
//!
//! The groups as public summaries of the certificate's notes word them
//! ([`source::UK_CERTIFICATION`](crate::source::UK_CERTIFICATION)), for the corrected acuity with both eyes open. They
//! are guidance: who certifies decides, and [`CAUTIONS`] go beside every result. Where summaries differ, the result says
//! so and decides nothing. A clause on 1/18 in some leaflets is left out, its wording not being known.

use super::Reading;
use super::ask::Ask;
use super::cautions::Caution;
use super::edge::{Edge, SIX_SIXTY, THREE_SIXTY, by_line_and_letters, checked, place};
use crate::error::Error;
use crate::list::List;

/// What goes beside every result.
pub static CAUTIONS: &[Caution] = &[Caution::GuidanceOnly, Caution::NotWordedIsNotRefused];

/// How far the field is contracted, and what else the groups name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Field {
    /// Full.
    Full,
    /// Moderately contracted, or cloudy media, or no lens in the eye.
    ModerateOrMedia,
    /// Markedly contracted, above all below.
    Marked,
    /// The temporal half missing in both eyes.
    BitemporalHemianopia,
    /// Another gross defect, such as the same half missing in both eyes.
    GrossDefect,
}

/// A group.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Severely sight impaired, group 1: worse than 3/60.
    SevereOne,
    /// Severely sight impaired, group 2: 3/60 or better, worse than 6/60, field contracted.
    SevereTwo,
    /// Severely sight impaired, group 3: 6/60 or better, field markedly contracted or bitemporal hemianopia.
    SevereThree,
    /// Sight impaired, group 1: 3/60 to 6/60, full field.
    SightOne,
    /// Sight impaired, group 2: up to 6/24, moderate contraction, cloudy media or aphakia.
    SightTwo,
    /// Sight impaired, group 3: 6/18 or better, gross defect of the field.
    SightThree,
}

impl Group {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::SevereOne,
        Self::SevereTwo,
        Self::SevereThree,
        Self::SightOne,
        Self::SightTwo,
        Self::SightThree,
    ];

    /// Its stable key: `ssi` for severely sight impaired, `si` for sight impaired, and the number of the group.
    ///
    /// ```
    /// use arcminute_core::acuity::certification::Group;
    /// assert_eq!(Group::ALL.map(Group::key), ["ssi-1", "ssi-2", "ssi-3", "si-1", "si-2", "si-3"]);
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::SevereOne => "ssi-1",
            Self::SevereTwo => "ssi-2",
            Self::SevereThree => "ssi-3",
            Self::SightOne => "si-1",
            Self::SightTwo => "si-2",
            Self::SightThree => "si-3",
        }
    }
}

/// Where summaries word the same group differently.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dispute {
    /// Stable key.
    pub key: &'static str,
    /// The wordings found.
    pub wordings: [&'static str; 2],
}

/// At exactly 6/60.
pub static AT_SIX_SIXTY: Dispute = Dispute {
    key: "at-6-60",
    wordings: ["3/60 or better, worse than 6/60, for severely sight impaired", "3/60 to 6/60 for either"],
};
/// Below 6/60, in group 2 of sight impaired.
pub static UP_TO_SIX_TWENTY_FOUR: Dispute =
    Dispute { key: "up-to-6-24", wordings: ["up to 6/24", "6/60 to 6/24"] };

/// A group that a record is consistent with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ConsistentWith {
    /// The group.
    pub group: Group,
    /// The difference between the summaries that it hangs on, if it does.
    pub disputed: Option<&'static Dispute>,
}

/// The groups that a record is consistent with.
#[derive(Clone, Debug, PartialEq)]
pub struct Certification {
    /// Corrected acuity, both eyes open.
    pub acuity: Reading,
    /// The field, if it was recorded.
    pub field: Option<Field>,
    /// Groups, severe first. None means only that the summaries do not word this combination.
    pub groups: List<ConsistentWith, 6>,
    /// What has to be asked before more can be said.
    pub ask: Option<Ask>,
}

/// Edges at 6/24 and 6/18; decimal and logarithm of 6/18 as the World Health Organization prints them.
const SIX_TWENTY_FOUR: Edge = Edge { metres: 4.0, feet: 4.0, decimal: 0.25, log: 0.6 };
const SIX_EIGHTEEN: Edge = Edge { metres: 3.0, feet: 3.0, decimal: 0.3, log: 0.5 };

/// Where an acuity stands among the edges, worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Band {
    WorseThanThreeSixty,
    ToSixSixty,
    AtSixSixty,
    ToSixTwentyFour,
    BetweenTwentyFourAndEighteen,
    SixEighteenOrBetter,
}

/// The groups that a corrected acuity with both eyes open and a field are consistent with.
///
/// Worse than 3/60 is consistent with the first severe group whatever the field: the summaries name the full field, and
/// a smaller one is no less. Records are held against the edges as in [`impairment`](super::impairment): 3/60 itself is
/// not worse than 3/60.
///
/// Source: [`source::UK_CERTIFICATION`](crate::source::UK_CERTIFICATION).
///
/// # Errors
/// As [`Acuity::of`](super::Acuity::of), for an acuity that was not made by it and is not possible.
///
/// # Example
/// ```
/// use arcminute_core::acuity::certification::{Field, Group, certification};
/// use arcminute_core::acuity::{Acuity, Notation, Reading};
/// let read = Acuity::of(Notation::Metres { numerator: 6.0, denominator: 60.0, letters: 0 })?;
/// let found = certification(Reading::Measured(read), Some(Field::Marked))?;
/// let groups: Vec<_> = found.groups.iter().map(|one| (one.group, one.disputed.map(|why| why.key))).collect();
/// assert_eq!(groups, [(Group::SevereTwo, Some("at-6-60")), (Group::SevereThree, None)]);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn certification(acuity: Reading, field: Option<Field>) -> Result<Certification, Error> {
    let band = match checked(&acuity)? {
        Reading::Measured(acuity) => by_line_and_letters(&acuity, |notation, log_mar| {
            if THREE_SIXTY.is_worse(notation, log_mar) {
                Band::WorseThanThreeSixty
            } else if SIX_SIXTY.is_worse(notation, log_mar) {
                Band::ToSixSixty
            } else if !SIX_SIXTY.is_better(notation, log_mar) {
                Band::AtSixSixty
            } else if !SIX_TWENTY_FOUR.is_better(notation, log_mar) {
                Band::ToSixTwentyFour
            } else if SIX_EIGHTEEN.is_worse(notation, log_mar) {
                Band::BetweenTwentyFourAndEighteen
            } else {
                Band::SixEighteenOrBetter
            }
        }),
        // Fingers at 1 m are 1/60, and everything else is worse.
        Reading::Category(category) => place(category).map(|_| Band::WorseThanThreeSixty),
    };
    let (mut groups, mut ask) = (List::new(), None);
    match (band, field) {
        (Err(question), _) => ask = Some(question),
        (Ok(band), None) if band != Band::WorseThanThreeSixty => ask = Some(Ask::FieldExtent),
        (Ok(band), field) => {
            for group in Group::ALL {
                if let Some(disputed) = consistent(group, band, field) {
                    // Six groups at most, and room for six.
                    let _ = groups.try_push(ConsistentWith { group, disputed });
                }
            }
        }
    }
    Ok(Certification { acuity, field, groups, ask })
}

/// How a group fits.
type Fits = Option<Option<&'static Dispute>>;
/// It does, and the summaries agree.
const AGREED: Fits = Some(None);

/// Whether a group fits, and what it hangs on.
fn consistent(group: Group, band: Band, field: Option<Field>) -> Fits {
    match (group, band, field) {
        (Group::SevereOne, Band::WorseThanThreeSixty, _)
        | (Group::SevereTwo, Band::ToSixSixty, Some(Field::Marked))
        | (Group::SightOne, Band::ToSixSixty, Some(Field::Full))
        | (Group::SightTwo, Band::AtSixSixty | Band::ToSixTwentyFour, Some(Field::ModerateOrMedia))
        | (Group::SightThree, Band::SixEighteenOrBetter, Some(Field::GrossDefect)) => AGREED,
        (Group::SevereThree, band, Some(Field::Marked | Field::BitemporalHemianopia))
            if Band::AtSixSixty <= band =>
        {
            AGREED
        }
        (Group::SevereTwo, Band::AtSixSixty, Some(Field::Marked))
        | (Group::SightOne, Band::AtSixSixty, Some(Field::Full)) => Some(Some(&AT_SIX_SIXTY)),
        (Group::SightTwo, Band::ToSixSixty, Some(Field::ModerateOrMedia)) => {
            Some(Some(&UP_TO_SIX_TWENTY_FOUR))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acuity::{Acuity, BareNumber, Notation, Parsed, parse};
    use crate::unit::LogMar;
    use alloc::collections::BTreeSet;
    use alloc::string::{String, ToString};

    /// Keys of the groups, a star behind what is disputed.
    #[track_caller]
    fn groups(text: &str, field: Option<Field>) -> Result<String, Ask> {
        let Parsed::Understood(reading) = parse(text, BareNumber::Ask) else {
            panic!("{text} is understood")
        };
        let found = certification(reading, field).expect(text);
        assert_eq!((found.acuity, found.field), (reading, field), "the record is kept");
        let mut keys = String::new();
        for one in &found.groups {
            let star = match one.disputed {
                Some(why) if why.key == "at-6-60" => "*",
                Some(_) => "**",
                None => "",
            };
            keys += &alloc::format!("{}{star} ", one.group.key());
        }
        match found.ask {
            Some(ask) => {
                assert!(keys.is_empty(), "{text}: asked and told");
                Err(ask)
            }
            None => Ok(keys.trim_end().to_string()),
        }
    }

    #[test]
    fn every_band_with_every_field() {
        let fields = [
            Field::Full,
            Field::ModerateOrMedia,
            Field::Marked,
            Field::BitemporalHemianopia,
            Field::GrossDefect,
        ];
        for (texts, wanted) in [
            (["3/61", "logMAR 1.306"], ["ssi-1", "ssi-1", "ssi-1", "ssi-1", "ssi-1"]),
            (["3/60", "6/61"], ["si-1", "si-2**", "ssi-2", "", ""]),
            (["6/60", "logMAR 1.005"], ["si-1*", "si-2", "ssi-2* ssi-3", "ssi-3", ""]),
            (["6/59", "6/24"], ["", "si-2", "ssi-3", "ssi-3", ""]),
            (["6/23.5", "logMAR 0.594"], ["", "", "ssi-3", "ssi-3", ""]),
            (["6/18", "6/19"], ["", "", "ssi-3", "ssi-3", "si-3"]),
            (["20/20", "decimal 0.3"], ["", "", "ssi-3", "ssi-3", "si-3"]),
        ] {
            for text in texts {
                for (field, wanted) in fields.into_iter().zip(wanted) {
                    assert_eq!(groups(text, Some(field)), Ok(wanted.into()), "{text}, {field:?}");
                }
            }
        }
    }

    #[test]
    fn what_is_not_known_is_asked() {
        for text in ["CF 1 m", "HM", "LP", "NLP", "2/60"] {
            assert_eq!(groups(text, None), Ok("ssi-1".into()), "{text}");
        }
        assert_eq!(groups("6/60", None), Err(Ask::FieldExtent));
        assert_eq!(groups("CF", Some(Field::Full)), Err(Ask::FingersAtOneMetre));
        assert_eq!(groups("CF 2 m", None), Err(Ask::LettersNearer));
        assert_eq!(groups("6/60-1", Some(Field::Full)), Err(Ask::WhetherLettersCount));
        let wrong = Acuity { log_mar: LogMar::ZERO, notation: Notation::Decimal(0.0) };
        let error = certification(Reading::Measured(wrong), None).expect_err("no acuity");
        assert_eq!(error.to_string(), "decimal acuity `0` is not possible");
    }

    #[test]
    fn keys_are_unique() {
        let keys: BTreeSet<_> = Group::ALL.iter().map(|group| group.key()).collect();
        assert_eq!(keys.len(), 6, "a key stands twice");
        assert_ne!(AT_SIX_SIXTY.key, UP_TO_SIX_TWENTY_FOUR.key);
        assert_eq!(UP_TO_SIX_TWENTY_FOUR.key, "up-to-6-24");
    }
}
