//! Edges of classes, which tables print in several notations that are near equivalents, not equal.
//!
//! 6/12 is logMAR 0.301 and stands beside 0.30; 3/60 is 1.301 beside 1.30; decimal 0.3 is 0.523 beside 0.50. A record
//! is held against the column of its own notation. A logarithm may miss its edge by 0.005 (a quarter of a letter). A
//! fraction is worse than an edge only if it is so in its own column and in the logarithmic one: 6/19 is the line that
//! log charts print at 0.50, beside which the table prints 6/18.

use super::{Acuity, Category, Notation, Reading};
use crate::acuity::ask::Ask;
use crate::math;
use crate::unit::{Length, LogMar};

/// How far a logarithm may miss an edge and still be equal to it.
const TOLERANCE: f64 = 0.005;
/// Rounding of the last digits of a sum.
const SAME: f64 = 1e-9;
/// How far a distance written down as 1 m may be from it: half of the last centimetre.
const HALF_A_CENTIMETRE: f64 = 0.005 + SAME;

/// One edge, in the notations of its table.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    /// Denominator over numerator of the fraction in metres.
    pub(super) metres: f64,
    /// The same in feet.
    pub(super) feet: f64,
    /// Decimal acuity.
    pub(super) decimal: f64,
    /// Logarithm.
    pub(super) log: f64,
}

/// The edge at 6/60, which all the tables have.
pub(super) const SIX_SIXTY: Edge = Edge { metres: 10.0, feet: 10.0, decimal: 0.1, log: 1.0 };
/// The edge at 3/60.
pub(super) const THREE_SIXTY: Edge = Edge { metres: 20.0, feet: 20.0, decimal: 0.05, log: 1.3 };

impl Edge {
    /// Whether an acuity recorded in this notation, of this logarithm, is worse than the edge.
    pub(super) fn is_worse(&self, notation: Notation, log_mar: LogMar) -> bool {
        let logarithmic = self.log + TOLERANCE;
        let edge = match notation {
            Notation::Feet { .. } => math::log10(self.feet).max(logarithmic),
            Notation::Metres { .. } => math::log10(self.metres).max(logarithmic),
            Notation::Decimal(_) => -math::log10(self.decimal),
            Notation::LogMar { .. } | Notation::LetterScore(_) => logarithmic,
        };
        log_mar.log() > edge + SAME
    }

    /// Whether it is better than the edge; what is neither worse nor better is equal to it.
    pub(super) fn is_better(&self, notation: Notation, log_mar: LogMar) -> bool {
        let logarithmic = self.log - TOLERANCE;
        let edge = match notation {
            Notation::Feet { .. } => math::log10(self.feet).min(logarithmic),
            Notation::Metres { .. } => math::log10(self.metres).min(logarithmic),
            Notation::Decimal(_) => -math::log10(self.decimal),
            Notation::LogMar { .. } | Notation::LetterScore(_) => logarithmic,
        };
        log_mar.log() < edge - SAME
    }
}

/// Where a record without letters stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoLetters {
    /// Fingers counted at 1 m: the tables print them beside 1/60.
    OneSixtieth,
    /// Worse than that, and light is seen.
    Below,
    /// No light is seen.
    NoLight,
}

/// Where a category stands, as far as the tables say.
///
/// A hand that moves, at 1 m or less or at no recorded distance, is worse than fingers at 1 m, for it is recorded where
/// fingers are not counted (common practice, no source).
pub(super) fn place(category: Category) -> Result<NoLetters, Ask> {
    let one_metre = Length::from_m(1.0);
    match category {
        Category::CountsFingers { distance: Some(distance) }
            if (distance - one_metre).abs().m() <= HALF_A_CENTIMETRE =>
        {
            Ok(NoLetters::OneSixtieth)
        }
        Category::CountsFingers { distance: Some(distance) } if one_metre < distance => {
            Err(Ask::LettersNearer)
        }
        Category::CountsFingers { .. } => Err(Ask::FingersAtOneMetre),
        Category::HandMotion { distance: Some(distance) }
            if distance.m() <= one_metre.m() + HALF_A_CENTIMETRE =>
        {
            Ok(NoLetters::Below)
        }
        Category::HandMotion { distance: Some(_) } => Err(Ask::FingersAtOneMetre),
        Category::HandMotion { distance: None } | Category::LightPerception => Ok(NoLetters::Below),
        Category::NoLightPerception => Ok(NoLetters::NoLight),
    }
}

/// The same result for the line and for the letters beside it counted, or the question whether they count.
///
/// Letters beside a line are worth 0.02 log on a log chart and have no value on another. A logarithm or letter score
/// is of a log chart.
pub(super) fn by_line_and_letters<T: PartialEq>(
    acuity: &Acuity,
    of: impl Fn(Notation, LogMar) -> T,
) -> Result<T, Ask> {
    let counted = of(acuity.notation, acuity.log_mar);
    match acuity.notation {
        Notation::Feet { .. } | Notation::Metres { .. } if counted != of(acuity.notation, acuity.line()) => {
            Err(Ask::WhetherLettersCount)
        }
        _ => Ok(counted),
    }
}

/// The reading with its acuity worked out anew from what was recorded, so that the two agree.
pub(super) fn checked(reading: &Reading) -> Result<Reading, crate::Error> {
    Ok(match reading {
        Reading::Measured(acuity) => Reading::Measured(Acuity::of(acuity.notation)?),
        Reading::Category(category) => Reading::Category(*category),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_edge_is_as_wide_as_it_says() {
        let edge = Edge { metres: 3.0, feet: 3.5, decimal: 0.3, log: 0.5 };
        let at = |notation, log| {
            let log = LogMar::from_log(log);
            (edge.is_better(notation, log), edge.is_worse(notation, log))
        };
        let log_mar = Notation::LogMar { value: LogMar::ZERO, letters: 0 };
        for (log, wanted) in [
            (0.4949, (true, false)),
            (0.495, (false, false)),
            (0.505, (false, false)),
            (0.5051, (false, true)),
        ] {
            assert_eq!(at(log_mar, log), wanted, "logMAR {log}");
            assert_eq!(at(Notation::LetterScore(0.0), log), wanted, "letters of {log}");
        }
        let decimal = Notation::Decimal(0.0);
        for (log, wanted) in
            [(0.5228, (true, false)), (0.522_878_745, (false, false)), (0.5229, (false, true))]
        {
            assert_eq!(at(decimal, log), wanted, "decimal of {log}");
        }
        let metres = Notation::Metres { numerator: 6.0, denominator: 18.0, letters: 0 };
        for (log, wanted) in [
            (0.4771, (true, false)),
            (0.477_121_255, (false, false)),
            (0.505, (false, false)),
            (0.5051, (false, true)),
        ] {
            assert_eq!(at(metres, log), wanted, "metres of {log}");
        }
        let feet = Notation::Feet { numerator: 20.0, denominator: 70.0, letters: 0 };
        for (log, wanted) in [
            (0.4949, (true, false)),
            (0.495, (false, false)),
            (0.544_068_04, (false, false)),
            (0.5441, (false, true)),
        ] {
            assert_eq!(at(feet, log), wanted, "feet of {log}");
        }
    }

    #[test]
    fn fingers_are_placed_at_one_metre_only() {
        let fingers = |distance| place(Category::CountsFingers { distance });
        let metres = |m| Some(Length::from_m(m));
        assert_eq!(fingers(metres(1.0)), Ok(NoLetters::OneSixtieth));
        assert_eq!(fingers(metres(0.995)), Ok(NoLetters::OneSixtieth));
        assert_eq!(fingers(metres(1.005)), Ok(NoLetters::OneSixtieth));
        assert_eq!(fingers(metres(0.994)), Err(Ask::FingersAtOneMetre));
        assert_eq!(fingers(metres(1.006)), Err(Ask::LettersNearer));
        assert_eq!(fingers(metres(0.3)), Err(Ask::FingersAtOneMetre));
        assert_eq!(fingers(metres(3.0)), Err(Ask::LettersNearer));
        assert_eq!(fingers(metres(f64::NAN)), Err(Ask::FingersAtOneMetre));
        assert_eq!(fingers(None), Err(Ask::FingersAtOneMetre));
    }

    #[test]
    fn a_hand_is_below_fingers_unless_it_was_farther_away() {
        let hand = |distance| place(Category::HandMotion { distance });
        let metres = |m| Some(Length::from_m(m));
        assert_eq!(hand(None), Ok(NoLetters::Below));
        assert_eq!(hand(metres(0.3)), Ok(NoLetters::Below));
        assert_eq!(hand(metres(1.005)), Ok(NoLetters::Below));
        assert_eq!(hand(metres(1.006)), Err(Ask::FingersAtOneMetre));
        assert_eq!(hand(metres(f64::NAN)), Err(Ask::FingersAtOneMetre));
        assert_eq!(place(Category::LightPerception), Ok(NoLetters::Below));
        assert_eq!(place(Category::NoLightPerception), Ok(NoLetters::NoLight));
    }
}
