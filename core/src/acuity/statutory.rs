//! Whether a record meets the criterion of statutory blindness of the United States, as it is worded.
//!
//! Nothing here says who is entitled to what: that is decided by the authority on all the evidence, and
//! [`CAUTIONS`] go beside every result. The wording ([`source::STATUTORY_BLINDNESS`](crate::source::STATUTORY_BLINDNESS)):
//! central acuity of 20/200 or less in the better eye with a correcting lens, 20/200 itself included; or a field of
//! which the widest diameter is no greater than 20 degrees. On charts with lines between 20/100 and 20/200 it is met if
//! no letter of the 20/100 line is read, and not met if at least one is.

use super::ask::Ask;
use super::cautions::Caution;
use super::edge::checked;
use super::{Acuity, Category, Notation, Reading, ladder_label};
use crate::bounds;
use crate::error::Error;
use crate::math;
use crate::unit::Angle;

/// What goes beside every result.
pub static CAUTIONS: &[Caution] = &[Caution::CriterionAsWorded, Caution::FieldStimulus];

/// Kind of chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChartKind {
    /// The line after 20/200 is 20/100.
    Traditional,
    /// There are lines between 20/100 and 20/200, as on log charts.
    WithLinesBetween,
}

/// What was measured of the better eye, with its correcting lens.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StatutoryRecord {
    /// Distance acuity.
    pub acuity: Option<Reading>,
    /// Letters read on the 20/100 line.
    pub letters_on_twenty_one_hundred: Option<u8>,
    /// Kind of chart.
    pub chart: Option<ChartKind>,
    /// Widest diameter of the field; a diameter, not a radius.
    pub widest_field: Option<Angle>,
}

/// Whether a criterion is met as worded; never a verdict on benefits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Criterion {
    /// Met as worded.
    Meets,
    /// Not met as worded.
    DoesNotMeet,
    /// The record does not tell.
    CannotTell {
        /// What would.
        ask: Ask,
    },
}

/// The two criteria and what they come to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StatutoryCriterion {
    /// The record.
    pub record: StatutoryRecord,
    /// The criterion of acuity.
    pub acuity: Criterion,
    /// The criterion of the field.
    pub field: Criterion,
    /// Either of them: met if one is, not met if neither is.
    pub either: Criterion,
}

/// Whether the record of the better eye meets the criterion as worded.
///
/// * A fraction or decimal of 20/200 or worse meets it, of 20/100 or better does not; in between the letters on the
///   20/100 line decide. `20/125+1` is a letter of that line; `20/100-5` may be none of it.
/// * A logarithm between 0.70 and 1.00 may be a total of letters on any lines, so it cannot tell without that count; the
///   published wording leaves it open from 0.70 to 0.90, and the last line before 1.00 is asked about too.
/// * Fingers (to 6 m, where a finger is as a 6/60 letter: rule of thumb, from memory), a moving hand, light and no
///   light are recorded where no letter is read, so they meet it.
/// * A record that contradicts itself is asked about.
///
/// Source: [`source::STATUTORY_BLINDNESS`](crate::source::STATUTORY_BLINDNESS).
///
/// # Errors
/// As [`Acuity::of`], and [`Why::OutOfRange`](crate::Why::OutOfRange) for a field outside [`bounds::FIELD_DIAMETER`] or a
/// number of letters outside [`bounds::LETTERS_ON_LINE`].
///
/// # Example
/// ```
/// use arcminute_core::acuity::statutory::{Criterion, StatutoryRecord, statutory_criterion};
/// use arcminute_core::acuity::{Acuity, Notation, Reading};
/// // Published check: 20/160 with no letter of the 20/100 line meets it.
/// let best = Acuity::of(Notation::Feet { numerator: 20.0, denominator: 160.0, letters: 0 })?;
/// let record = StatutoryRecord {
///     acuity: Some(Reading::Measured(best)),
///     letters_on_twenty_one_hundred: Some(0),
///     ..StatutoryRecord::default()
/// };
/// assert_eq!(statutory_criterion(record)?.acuity, Criterion::Meets);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn statutory_criterion(record: StatutoryRecord) -> Result<StatutoryCriterion, Error> {
    let letters = match record.letters_on_twenty_one_hundred {
        Some(count) => Some(0.0 < bounds::LETTERS_ON_LINE.check(f64::from(count))?),
        None => None,
    };
    let acuity = match record.acuity.as_ref().map(checked).transpose()? {
        None => Criterion::CannotTell { ask: Ask::Acuity },
        Some(Reading::Category(category)) => by_category(category, letters),
        Some(Reading::Measured(acuity)) => by_acuity(&acuity, letters, record.chart),
    };
    let field = match record.widest_field {
        None => Criterion::CannotTell { ask: Ask::FieldDiameter },
        // Degrees are stored as minutes of arc: the last digits must not decide.
        Some(widest) if bounds::FIELD_DIAMETER.check(widest.degrees())? <= 20.0 + 1e-9 => Criterion::Meets,
        Some(_) => Criterion::DoesNotMeet,
    };
    let either = match (acuity, field) {
        (Criterion::Meets, _) | (_, Criterion::Meets) => Criterion::Meets,
        (Criterion::CannotTell { ask }, _) | (_, Criterion::CannotTell { ask }) => {
            Criterion::CannotTell { ask }
        }
        (Criterion::DoesNotMeet, Criterion::DoesNotMeet) => Criterion::DoesNotMeet,
    };
    Ok(StatutoryCriterion { record, acuity, field, either })
}

fn by_category(category: Category, letters: Option<bool>) -> Criterion {
    let as_six_sixty = 6.0 + 1e-9;
    match category {
        _ if letters == Some(true) => Criterion::CannotTell { ask: Ask::RecordsDisagree },
        Category::CountsFingers { distance: Some(distance) } if distance.m() <= as_six_sixty => {
            Criterion::Meets
        }
        Category::CountsFingers { distance: Some(_) } => Criterion::CannotTell { ask: Ask::LettersNearer },
        _ => Criterion::Meets,
    }
}

/// Where a line stands: 20/200 or worse, 20/100 or better, or between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Line {
    TwoHundredOrWorse,
    Between,
    OneHundredOrBetter,
}

fn by_acuity(acuity: &Acuity, letters: Option<bool>, chart: Option<ChartKind>) -> Criterion {
    let of_letters = |seen| if seen { Criterion::DoesNotMeet } else { Criterion::Meets };
    let disagree = Criterion::CannotTell { ask: Ask::RecordsDisagree };
    match (line(acuity), letters) {
        (Line::OneHundredOrBetter, Some(false)) => disagree,
        (Line::OneHundredOrBetter, _) => Criterion::DoesNotMeet,
        (Line::Between, Some(seen)) if seen || !gained_on_one_hundred(acuity) => of_letters(seen),
        (Line::Between, Some(_)) => disagree,
        (Line::Between, None) if gained_on_one_hundred(acuity) => Criterion::DoesNotMeet,
        (Line::Between, None) => Criterion::CannotTell { ask: Ask::LettersOnTwentyOneHundred },
        (Line::TwoHundredOrWorse, None | Some(false)) => Criterion::Meets,
        (Line::TwoHundredOrWorse, Some(true)) => match chart {
            Some(ChartKind::WithLinesBetween) => Criterion::DoesNotMeet,
            Some(ChartKind::Traditional) => disagree,
            None => Criterion::CannotTell { ask: Ask::ChartKind },
        },
    }
}

/// The line read, letters beside it left out; five or more missed of the 20/100 line may be all of it.
fn line(acuity: &Acuity) -> Line {
    let log = acuity.line().log();
    let tolerance = match acuity.notation {
        Notation::LogMar { .. } | Notation::LetterScore(_) => 0.005 + 1e-9,
        _ => 1e-9,
    };
    let one_hundred = match acuity.notation {
        Notation::LogMar { .. } | Notation::LetterScore(_) => 0.7,
        _ => math::log10(5.0),
    };
    if 1.0 - tolerance <= log {
        Line::TwoHundredOrWorse
    } else if log <= one_hundred + tolerance {
        let is_that_line = one_hundred - 0.05 < log;
        if is_that_line && acuity.notation.letters() <= -5 { Line::Between } else { Line::OneHundredOrBetter }
    } else {
        Line::Between
    }
}

/// Whether letters beside the line are of the 20/100 line: gained at 20/125, as `20/125+1`.
fn gained_on_one_hundred(acuity: &Acuity) -> bool {
    let is_125 = ladder_label(acuity.line()).is_some_and(|rung| rung.tenths == 8);
    is_125 && 0 < acuity.notation.letters()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acuity::{BareNumber, Parsed, parse};
    use alloc::string::ToString;

    #[track_caller]
    fn acuity(text: &str, letters: Option<u8>, chart: Option<ChartKind>) -> Criterion {
        let Parsed::Understood(reading) = parse(text, BareNumber::Ask) else {
            panic!("{text} is understood")
        };
        let record = StatutoryRecord {
            acuity: Some(reading),
            letters_on_twenty_one_hundred: letters,
            chart,
            widest_field: None,
        };
        statutory_criterion(record).expect(text).acuity
    }

    const ASK_LETTERS: Criterion = Criterion::CannotTell { ask: Ask::LettersOnTwentyOneHundred };
    const DISAGREE: Criterion = Criterion::CannotTell { ask: Ask::RecordsDisagree };

    #[test]
    fn the_line_alone() {
        for (text, wanted) in [
            ("20/200", Criterion::Meets),
            ("20/201", Criterion::Meets),
            ("10/100", Criterion::Meets),
            ("6/60", Criterion::Meets),
            ("decimal 0.1", Criterion::Meets),
            ("logMAR 1.0", Criterion::Meets),
            ("logMAR 0.996", Criterion::Meets),
            ("35 letters", Criterion::Meets),
            ("20/200+2", Criterion::Meets),
            ("20/199", ASK_LETTERS),
            ("decimal 0.101", ASK_LETTERS),
            ("logMAR 0.994", ASK_LETTERS),
            ("36 letters", ASK_LETTERS),
            ("20/160", ASK_LETTERS),
            ("20/160+1", ASK_LETTERS),
            ("logMAR 0.90", ASK_LETTERS),
            ("logMAR 0.72", ASK_LETTERS),
            ("49 letters", ASK_LETTERS),
            ("20/125", ASK_LETTERS),
            ("20/125-1", ASK_LETTERS),
            ("20/101", ASK_LETTERS),
            ("logMAR 0.706", ASK_LETTERS),
            ("20/125+1", Criterion::DoesNotMeet),
            ("6/38+1", Criterion::DoesNotMeet),
            ("logMAR 0.80 +1", Criterion::DoesNotMeet),
            ("20/100", Criterion::DoesNotMeet),
            ("decimal 0.2", Criterion::DoesNotMeet),
            ("logMAR 0.70", Criterion::DoesNotMeet),
            ("logMAR 0.705", Criterion::DoesNotMeet),
            ("50 letters", Criterion::DoesNotMeet),
            ("20/100-4", Criterion::DoesNotMeet),
            ("20/100-5", ASK_LETTERS),
            ("20/80-5", Criterion::DoesNotMeet),
            ("20/20", Criterion::DoesNotMeet),
        ] {
            assert_eq!(acuity(text, None, None), wanted, "{text}");
        }
    }

    #[test]
    fn letters_of_the_20_100_line_decide_between() {
        for text in ["20/160", "20/125", "20/150", "logMAR 0.82", "decimal 0.16"] {
            assert_eq!(acuity(text, Some(0), None), Criterion::Meets, "{text}");
            assert_eq!(acuity(text, Some(1), None), Criterion::DoesNotMeet, "{text}");
        }
        let newer = Some(ChartKind::WithLinesBetween);
        assert_eq!(acuity("20/200", Some(1), newer), Criterion::DoesNotMeet);
        assert_eq!(acuity("20/200", Some(0), newer), Criterion::Meets);
        assert_eq!(acuity("20/200", Some(1), None), Criterion::CannotTell { ask: Ask::ChartKind });
        assert_eq!(acuity("20/200", Some(1), Some(ChartKind::Traditional)), DISAGREE);
        assert_eq!(acuity("20/125+1", Some(1), newer), Criterion::DoesNotMeet);
        assert_eq!(acuity("20/125+1", Some(0), newer), DISAGREE);
        assert_eq!(acuity("20/80", Some(0), newer), DISAGREE);
        assert_eq!(acuity("20/80", Some(5), newer), Criterion::DoesNotMeet);
    }

    #[test]
    fn no_letters_at_all() {
        for text in ["CF", "CF 1 m", "CF 6 m", "HM", "LP", "NLP"] {
            assert_eq!(acuity(text, None, None), Criterion::Meets, "{text}");
            assert_eq!(acuity(text, Some(0), None), Criterion::Meets, "{text}");
            assert_eq!(acuity(text, Some(1), None), DISAGREE, "{text}");
        }
        assert_eq!(acuity("CF 6.1 m", None, None), Criterion::CannotTell { ask: Ask::LettersNearer });
    }

    #[test]
    fn either_criterion_is_enough() {
        let of = |text: Option<&str>, degrees: Option<f64>| {
            let acuity = text.map(|text| match parse(text, BareNumber::Ask) {
                Parsed::Understood(reading) => reading,
                other => panic!("{other:?}"),
            });
            let record = StatutoryRecord {
                acuity,
                widest_field: degrees.map(Angle::from_degrees),
                ..StatutoryRecord::default()
            };
            statutory_criterion(record)
        };
        let either = |text, degrees| of(text, degrees).expect("possible").either;
        let field = Criterion::CannotTell { ask: Ask::FieldDiameter };
        assert_eq!(either(Some("20/20"), Some(20.0)), Criterion::Meets);
        assert_eq!(either(Some("20/20"), Some(20.1)), Criterion::DoesNotMeet);
        assert_eq!(either(Some("20/200"), Some(120.0)), Criterion::Meets);
        assert_eq!(either(Some("20/200"), None), Criterion::Meets);
        assert_eq!(either(None, Some(15.0)), Criterion::Meets);
        assert_eq!(either(Some("20/20"), None), field);
        assert_eq!(either(None, Some(60.0)), Criterion::CannotTell { ask: Ask::Acuity });
        assert_eq!(either(None, None), Criterion::CannotTell { ask: Ask::Acuity });
        assert_eq!(either(Some("20/160"), Some(60.0)), ASK_LETTERS);
        let result = of(Some("20/20"), None).expect("possible");
        assert_eq!((result.acuity, result.field), (Criterion::DoesNotMeet, field));
        assert_eq!(result.record.widest_field, None);
        let error = of(None, Some(f64::NAN)).expect_err("not-a-number");
        assert_eq!(error.to_string(), "field diameter `NaN degrees` is not possible");
        assert!(of(None, Some(0.0)).is_err(), "a field of nothing is not a field");
        let many = StatutoryRecord { letters_on_twenty_one_hundred: Some(11), ..StatutoryRecord::default() };
        let error = statutory_criterion(many).expect_err("too many for a line");
        assert_eq!(error.to_string(), "letters read on one line `11 letters` is not possible");
        assert_eq!(error.hint().to_string(), "use 0 to 10 letters");
    }
}
