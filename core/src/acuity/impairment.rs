//! Classes of visual impairment of the World Health Organization, by the edition of its classification.
//!
//! The classes are of presenting acuity, with what is worn every day, of the better eye. A number means nothing without
//! its edition: 3 is blindness in one and severe in the other. A class names an acuity; it says nothing about what a
//! person can do, may do or is owed. The printed columns are near equivalents, and a record is held against the column
//! of its own notation; logarithms may miss an edge by 0.005.

use super::Reading;
use super::ask::Ask;
use super::edge::{Edge, NoLetters, SIX_SIXTY, THREE_SIXTY, by_line_and_letters, checked, place};
use crate::bounds;
use crate::error::Error;
use crate::unit::Angle;

/// Edition of the International Classification of Diseases.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Edition {
    /// The eleventh, 9D90 ([`source::WHO_ICD_11`](crate::source::WHO_ICD_11)).
    Icd11,
    /// The tenth, in its numbering of 2008 ([`source::WHO_ICD_10`](crate::source::WHO_ICD_10)).
    Icd10,
}

/// Name of a class.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ClassName {
    /// No impairment; the eleventh edition only.
    None,
    /// Mild or no impairment, in one; the tenth edition only.
    MildOrNone,
    /// Mild; the eleventh edition only.
    Mild,
    /// Moderate.
    Moderate,
    /// Severe.
    Severe,
    /// Blindness, in three numbers.
    Blindness,
    /// Undetermined; the tenth edition only.
    Undetermined,
}

/// A class: its name, and its number in an edition.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ImpairmentClass {
    /// Name.
    pub name: ClassName,
    /// Number, in this edition only.
    pub number: u8,
    /// Edition.
    pub edition: Edition,
}

/// A class, or what has to be asked first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Classified {
    /// The class.
    Class(ImpairmentClass),
    /// The record does not tell.
    CannotTell {
        /// What would.
        ask: Ask,
    },
}

/// Edges of the eleventh edition, best first: an acuity worse than so many of them has that number.
const ICD_11: [Edge; 5] = [
    Edge { metres: 2.0, feet: 2.0, decimal: 0.5, log: 0.3 },
    Edge { metres: 3.0, feet: 3.0, decimal: 0.3, log: 0.5 },
    SIX_SIXTY,
    THREE_SIXTY,
    ONE_SIXTY,
];
/// Edges of the tenth, which prints 20/70 beside 6/18 and no logarithms; those of the eleventh stand in.
const ICD_10: [Edge; 4] =
    [Edge { metres: 3.0, feet: 3.5, decimal: 0.3, log: 0.5 }, SIX_SIXTY, THREE_SIXTY, ONE_SIXTY];
/// 1/60, printed beside 5/300, 0.02 and 1.80.
const ONE_SIXTY: Edge = Edge { metres: 60.0, feet: 60.0, decimal: 0.02, log: 1.8 };

impl Edition {
    fn edges(self) -> &'static [Edge] {
        match self {
            Self::Icd11 => &ICD_11,
            Self::Icd10 => &ICD_10,
        }
    }

    /// The class of this number.
    fn class(self, number: u8) -> ImpairmentClass {
        let name = match (self, number) {
            (Self::Icd11, 0) => ClassName::None,
            (Self::Icd11, 1) => ClassName::Mild,
            (Self::Icd11, 2) | (Self::Icd10, 1) => ClassName::Moderate,
            (Self::Icd11, 3) | (Self::Icd10, 2) => ClassName::Severe,
            (Self::Icd10, 0) => ClassName::MildOrNone,
            (Self::Icd10, 9) => ClassName::Undetermined,
            _ => ClassName::Blindness,
        };
        ImpairmentClass { name, number, edition: self }
    }
}

/// The class of the presenting distance acuity of the better eye.
///
/// Fingers counted at 1 m are 1/60, as the table prints it; at another distance the table says nothing, and what to
/// ask is returned. A moving hand (at 1 m or less, or no distance recorded) and light perception are in the row below,
/// no light perception in the last. Letters beside the line of a fraction have a value on log charts only: where they
/// would change the class, that is asked. The decimal column is honoured for decimals: 0.3 is mild in the eleventh
/// edition, logMAR 0.52 moderate.
///
/// Sources: [`source::WHO_ICD_11`](crate::source::WHO_ICD_11), [`source::WHO_ICD_10`](crate::source::WHO_ICD_10).
///
/// # Errors
/// As [`Acuity::of`](super::Acuity::of), for an acuity that was not made by it and is not possible.
///
/// # Example
/// ```
/// use arcminute_core::acuity::{Acuity, ClassName, Classified, Edition, Notation, Reading, impairment};
/// // The table prints 6/12 as the edge of no impairment; its logarithm is 0.301, and 0.30 is printed beside it.
/// let read = Reading::Measured(Acuity::of(Notation::Metres { numerator: 6.0, denominator: 12.0, letters: 0 })?);
/// let Classified::Class(class) = impairment(&read, Edition::Icd11)? else { panic!() };
/// assert_eq!((class.name, class.number), (ClassName::None, 0));
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn impairment(better_eye: &Reading, edition: Edition) -> Result<Classified, Error> {
    let edges = edition.edges();
    let number = match checked(better_eye)? {
        Reading::Measured(acuity) => by_line_and_letters(&acuity, |notation, log_mar| {
            edges
                .iter()
                .filter(|edge| edge.is_worse(notation, log_mar))
                .fold(0_u8, |n, _| n.saturating_add(1))
        }),
        Reading::Category(category) => place(category).map(|place| match (edition, place) {
            (Edition::Icd10, NoLetters::OneSixtieth) => 3,
            (Edition::Icd11, NoLetters::OneSixtieth) | (Edition::Icd10, NoLetters::Below) => 4,
            (Edition::Icd11, NoLetters::Below) | (Edition::Icd10, NoLetters::NoLight) => 5,
            (Edition::Icd11, NoLetters::NoLight) => 6,
        }),
    };
    Ok(match number {
        Ok(number) => Classified::Class(edition.class(number)),
        Err(ask) => Classified::CannotTell { ask },
    })
}

/// The class for an acuity that could not be found out: 9 in the tenth edition; the table of the eleventh has none.
///
/// Source: [`source::WHO_ICD_10`](crate::source::WHO_ICD_10).
///
/// ```
/// use arcminute_core::acuity::{Edition, undetermined};
/// assert_eq!(undetermined(Edition::Icd10).map(|class| class.number), Some(9));
/// assert_eq!(undetermined(Edition::Icd11), None);
/// ```
#[must_use]
pub fn undetermined(edition: Edition) -> Option<ImpairmentClass> {
    match edition {
        Edition::Icd10 => Some(edition.class(9)),
        Edition::Icd11 => None,
    }
}

/// The class that the tenth edition gives to a field so narrow, whatever the acuity; `None` for a wider one.
///
/// * `radius`: of the field of the better eye round central fixation, not a diameter. No greater than 5 degrees is 4, no
///   greater than 10 is 3; with a worse class by acuity that one stands. No such rule was found in the eleventh edition.
///
/// Source: [`source::WHO_ICD_10`](crate::source::WHO_ICD_10).
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::FIELD_RADIUS`].
///
/// # Example
/// ```
/// use arcminute_core::acuity::impairment_by_field;
/// use arcminute_core::unit::Angle;
/// let number = |degrees| impairment_by_field(Angle::from_degrees(degrees)).map(|class| class.map(|class| class.number));
/// assert_eq!(number(5.0)?, Some(4));
/// assert_eq!(number(10.0)?, Some(3));
/// assert_eq!(number(10.1)?, None);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn impairment_by_field(radius: Angle) -> Result<Option<ImpairmentClass>, Error> {
    let degrees = bounds::FIELD_RADIUS.check(radius.degrees())?;
    // Degrees are stored as minutes of arc: the last digits must not decide.
    let within = |limit: f64| degrees <= limit + 1e-9;
    Ok(if within(5.0) {
        Some(Edition::Icd10.class(4))
    } else if within(10.0) {
        Some(Edition::Icd10.class(3))
    } else {
        None
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acuity::{Acuity, BareNumber, Category, Notation, Parsed, parse};
    use crate::unit::LogMar;
    use alloc::string::ToString;

    #[track_caller]
    fn of(text: &str, edition: Edition) -> Result<(ClassName, u8), Ask> {
        let Parsed::Understood(reading) = parse(text, BareNumber::Ask) else {
            panic!("{text} is understood")
        };
        match impairment(&reading, edition).expect(text) {
            Classified::Class(class) => {
                assert_eq!(class.edition, edition, "{text} keeps its edition");
                Ok((class.name, class.number))
            }
            Classified::CannotTell { ask } => Err(ask),
        }
    }

    #[test]
    fn both_sides_of_every_edge_in_every_column() {
        for (name, number, best, worst) in [
            (ClassName::None, 0, "20/20", ["6/12", "20/40", "logMAR 0.30", "decimal 0.5"]),
            (ClassName::Mild, 1, "logMAR 0.306", ["6/18", "20/60", "logMAR 0.50", "decimal 0.3"]),
            (ClassName::Moderate, 2, "logMAR 0.506", ["6/60", "20/200", "logMAR 1.00", "decimal 0.1"]),
            (ClassName::Severe, 3, "logMAR 1.006", ["3/60", "20/400", "logMAR 1.30", "decimal 0.05"]),
            (ClassName::Blindness, 4, "logMAR 1.306", ["1/60", "5/300", "logMAR 1.80", "decimal 0.02"]),
            (ClassName::Blindness, 5, "logMAR 1.806", ["HM", "LP", "logMAR 3", "HM 0.3 m"]),
        ] {
            assert_eq!(of(best, Edition::Icd11), Ok((name, number)), "{best}");
            for text in worst {
                assert_eq!(of(text, Edition::Icd11), Ok((name, number)), "{text}");
            }
        }
        for (text, number) in [
            ("6/12.2", 1),
            ("20/41", 1),
            ("logMAR 0.305", 0),
            ("logMAR 0.306", 1),
            ("decimal 0.499", 1),
            ("6/19.3", 2),
            ("20/64", 2),
            ("20/70", 2),
            ("decimal 0.299", 2),
            ("6/61", 3),
            ("20/203", 3),
            ("decimal 0.099", 3),
            ("3/61", 4),
            ("decimal 0.049", 4),
            ("1/64", 5),
            ("decimal 0.019", 5),
        ] {
            assert_eq!(of(text, Edition::Icd11).map(|(_, number)| number), Ok(number), "{text}");
        }
    }

    #[test]
    fn the_tenth_edition_counts_otherwise() {
        for (text, name, number) in [
            ("6/12.2", ClassName::MildOrNone, 0),
            ("6/18", ClassName::MildOrNone, 0),
            ("20/70", ClassName::MildOrNone, 0),
            ("20/71", ClassName::Moderate, 1),
            ("6/21", ClassName::Moderate, 1),
            ("6/60", ClassName::Moderate, 1),
            ("6/61", ClassName::Severe, 2),
            ("3/60", ClassName::Severe, 2),
            ("3/61", ClassName::Blindness, 3),
            ("CF 1 m", ClassName::Blindness, 3),
            ("1/60", ClassName::Blindness, 3),
            ("1/64", ClassName::Blindness, 4),
            ("LP", ClassName::Blindness, 4),
            ("NLP", ClassName::Blindness, 5),
        ] {
            assert_eq!(of(text, Edition::Icd10), Ok((name, number)), "{text}");
        }
        let class = undetermined(Edition::Icd10).map(|class| (class.name, class.number, class.edition));
        assert_eq!(class, Some((ClassName::Undetermined, 9, Edition::Icd10)));
    }

    #[test]
    fn what_the_table_does_not_say_is_asked() {
        assert_eq!(of("CF 1 m", Edition::Icd11), Ok((ClassName::Blindness, 4)));
        assert_eq!(of("NLP", Edition::Icd11), Ok((ClassName::Blindness, 6)));
        assert_eq!(of("CF", Edition::Icd11), Err(Ask::FingersAtOneMetre));
        assert_eq!(of("CF 3 ft", Edition::Icd11), Err(Ask::FingersAtOneMetre));
        assert_eq!(of("CF 2 m", Edition::Icd10), Err(Ask::LettersNearer));
        assert_eq!(of("HM 2 m", Edition::Icd11), Err(Ask::FingersAtOneMetre));
        // Letters beside the line would change the class on a log chart.
        assert_eq!(of("6/12-1", Edition::Icd11), Err(Ask::WhetherLettersCount));
        assert_eq!(of("20/200-1", Edition::Icd11), Err(Ask::WhetherLettersCount));
        assert_eq!(of("6/12+2", Edition::Icd11), Ok((ClassName::None, 0)), "no edge between");
        assert_eq!(of("6/15-1", Edition::Icd11), Ok((ClassName::Mild, 1)), "no edge between");
        assert_eq!(of("logMAR 0.30 -1", Edition::Icd11), Ok((ClassName::Mild, 1)), "a log chart");
        assert_eq!(of("70 letters", Edition::Icd11), Ok((ClassName::None, 0)));
        assert_eq!(of("69 letters", Edition::Icd11), Ok((ClassName::Mild, 1)));
    }

    #[test]
    fn what_is_no_acuity_has_no_class() {
        let wrong = Acuity { log_mar: LogMar::ZERO, notation: Notation::Decimal(f64::NAN) };
        let error = impairment(&Reading::Measured(wrong), Edition::Icd11).expect_err("not-a-number");
        assert_eq!(error.to_string(), "decimal acuity `NaN` is not possible");
        // The logarithm is worked out anew, so a wrong one beside the notation does no harm.
        let slipped = Acuity { log_mar: LogMar::from_log(f64::NAN), notation: Notation::Decimal(0.5) };
        let class = impairment(&Reading::Measured(slipped), Edition::Icd11).expect("0.5 is possible");
        assert_eq!(class, Classified::Class(Edition::Icd11.class(0)));
        let dark = Reading::Category(Category::NoLightPerception);
        assert!(impairment(&dark, Edition::Icd10).is_ok(), "a category is never refused");
    }

    #[test]
    fn a_narrow_field_has_a_class_by_its_radius() {
        let class = |degrees| impairment_by_field(Angle::from_degrees(degrees));
        let number = |degrees| class(degrees).expect("possible").map(|class| (class.number, class.edition));
        for (degrees, wanted) in
            [(0.0, Some(4)), (5.0, Some(4)), (5.001, Some(3)), (10.0, Some(3)), (10.001, None), (60.0, None)]
        {
            assert_eq!(number(degrees), wanted.map(|number| (number, Edition::Icd10)), "{degrees}");
        }
        let error = class(-1.0).expect_err("below nothing");
        assert_eq!(error.to_string(), "radius of the field `-1 degrees` is not possible");
        assert_eq!(error.hint().to_string(), "use 0 to 110 degrees");
        assert!(class(f64::NAN).is_err(), "not-a-number is refused");
    }
}
