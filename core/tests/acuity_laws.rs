//! Laws of acuity on random input: notations, classes, criteria, scores, sizes.

#[path = "law/cases.rs"]
mod cases;

use arcminute_core::acuity::certification::{self, certification};
use arcminute_core::acuity::functional::{
    Eyes, MeridianPoints, field_points, functional_acuity, functional_vision,
};
use arcminute_core::acuity::repeatability::{change_limit, repeatability};
use arcminute_core::acuity::statutory::{Criterion, StatutoryRecord, statutory_criterion};
use arcminute_core::acuity::{
    Acuity, BareNumber, Chart, Classified, Edition, Notation, Parsed, Reading, Scale, TwoDistanceRule,
    grating_cut_off, impairment, ladder_label, mean_acuity, optotype, parse, score_chart,
    score_two_distances, written,
};
use arcminute_core::explain::Explain;
use arcminute_core::unit::{Angle, Length, LogMar};
use proptest::prelude::*;

/// A number with few digits, as one types it.
fn typed(thousandths: i32) -> f64 {
    f64::from(thousandths) / 1000.0
}

/// Any notation with numbers as typed; some are not possible as a whole.
fn notation() -> impl Strategy<Value = Notation> {
    let fraction = || (100..100_000_i32, 100..2_000_000_i32, -9..=9_i8);
    prop_oneof![
        fraction().prop_map(|(n, d, letters)| Notation::Feet {
            numerator: typed(n),
            denominator: typed(d),
            letters
        }),
        fraction().prop_map(|(n, d, letters)| Notation::Metres {
            numerator: typed(n),
            denominator: typed(d),
            letters
        }),
        (1..3100_i32).prop_map(|v| Notation::Decimal(typed(v))),
        (-500..3000_i32, -9..=9_i8)
            .prop_map(|(v, letters)| Notation::LogMar { value: LogMar::from_log(typed(v)), letters }),
        (0..110_000_i32).prop_map(|v| Notation::LetterScore(typed(v))),
    ]
}

/// Two records of one notation, letters left out, the first no worse than the second.
fn pair() -> impl Strategy<Value = (Acuity, Acuity)> {
    (0..5_u8, -0.3..2.9_f64, -0.3..2.9_f64).prop_map(|(kind, a, b)| {
        let of = |log: f64| {
            let mar = LogMar::from_log(log).mar().arcmin();
            let notation = match kind {
                0 => Notation::Feet { numerator: 20.0, denominator: 20.0 * mar, letters: 0 },
                1 => Notation::Metres { numerator: 6.0, denominator: 6.0 * mar, letters: 0 },
                2 => Notation::Decimal(1.0 / mar),
                3 => Notation::LogMar { value: LogMar::from_log(log), letters: 0 },
                _ => Notation::LetterScore((85.0 - 50.0 * log).clamp(0.0, 100.0)),
            };
            Acuity::of(notation).expect("possible")
        };
        (of(a.min(b)), of(a.max(b)))
    })
}

fn number(acuity: Acuity, edition: Edition) -> u8 {
    match impairment(&Reading::Measured(acuity), edition) {
        Ok(Classified::Class(class)) => class.number,
        other => panic!("{acuity} gave {other:?}"),
    }
}

/// 2 met, 1 open, 0 not met.
fn rank(criterion: Criterion) -> u8 {
    match criterion {
        Criterion::Meets => 2,
        Criterion::CannotTell { .. } => 1,
        Criterion::DoesNotMeet => 0,
    }
}

fn log() -> impl Strategy<Value = f64> {
    -0.4..2.9_f64
}

fn read(log: f64) -> Reading {
    Reading::Measured(Acuity::of_log_mar(LogMar::from_log(log)).expect("possible"))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(cases::cases(10_000)))]

    #[test]
    fn every_notation_reads_back_as_it_was_written(notation in notation()) {
        let Ok(acuity) = Acuity::of(notation) else { return Ok(()) };
        let text = acuity.to_string();
        let again = parse(&text, BareNumber::Ask);
        prop_assert_eq!(&again, &Parsed::Understood(Reading::Measured(acuity)), "{}", text);
        let Parsed::Understood(Reading::Measured(again)) = again else { unreachable!() };
        prop_assert_eq!(again.to_string(), text);
    }

    #[test]
    fn showing_an_acuity_never_changes_it(notation in notation()) {
        let Ok(acuity) = Acuity::of(notation) else { return Ok(()) };
        let (text, bits) = (acuity.to_string(), acuity.log_mar.log().to_bits());
        for scale in [Scale::Feet, Scale::Metres, Scale::Decimal, Scale::LogMar] {
            prop_assert!(!written(acuity.log_mar, scale).to_string().is_empty());
        }
        if let Some(rung) = ladder_label(acuity.log_mar) {
            let off = (rung.log_mar() - acuity.log_mar).abs().log();
            prop_assert!(off <= 0.02 + 1e-9, "{} is {} from its label", text, off);
        }
        prop_assert_eq!(acuity.to_string(), text);
        prop_assert_eq!(acuity.log_mar.log().to_bits(), bits);
    }

    #[test]
    fn a_worse_acuity_has_no_better_class((better, worse) in pair()) {
        for edition in [Edition::Icd11, Edition::Icd10] {
            let (low, high) = (number(better, edition), number(worse, edition));
            prop_assert!(low <= high, "{} is {}, {} is {}", better, low, worse, high);
        }
        // The tenth edition has one class less above, and the same edges but for 20/70.
        let (new, old) = (number(worse, Edition::Icd11), number(worse, Edition::Icd10));
        prop_assert!(old == new.saturating_sub(1) || (new == 2 && old == 0), "{}: {} and {}", worse, new, old);
    }

    /// The columns of the table are near equivalents: at most 0.107 log apart.
    #[test]
    fn another_notation_of_much_worse_acuity_has_no_better_class((a, _) in pair(), (b, _) in pair()) {
        let (better, worse) = if a.log_mar < b.log_mar { (a, b) } else { (b, a) };
        if (worse.log_mar - better.log_mar).log() > 0.107 {
            for edition in [Edition::Icd11, Edition::Icd10] {
                prop_assert!(number(better, edition) <= number(worse, edition), "{} and {}", better, worse);
            }
        }
    }

    #[test]
    fn a_worse_acuity_or_field_meets_no_less((better, worse) in pair(), a in 0.2..179.0_f64, b in 0.2..179.0_f64) {
        let of = |acuity, degrees| {
            let record = StatutoryRecord {
                acuity: Some(Reading::Measured(acuity)),
                widest_field: Some(Angle::from_degrees(degrees)),
                ..StatutoryRecord::default()
            };
            statutory_criterion(record).expect("possible")
        };
        let (one, other) = (of(better, a.max(b)), of(worse, a.min(b)));
        prop_assert!(rank(one.acuity) <= rank(other.acuity), "{} and {}", better, worse);
        prop_assert!(rank(one.field) <= rank(other.field), "{} and {}", a, b);
        prop_assert!(rank(one.either) <= rank(other.either));
        prop_assert!(rank(one.either) >= rank(one.acuity).max(rank(one.field)) || rank(one.either) == 1);
    }

    #[test]
    fn a_record_fits_severe_groups_or_others_never_both((acuity, _) in pair(), field in 0..5_usize) {
        use certification::{Field, Group};
        let fields =
            [Field::Full, Field::ModerateOrMedia, Field::Marked, Field::BitemporalHemianopia, Field::GrossDefect];
        let found = certification(Reading::Measured(acuity), fields.get(field).copied()).expect("possible");
        let severe = |group| matches!(group, Group::SevereOne | Group::SevereTwo | Group::SevereThree);
        let severe_ones = found.groups.iter().filter(|one| severe(one.group)).count();
        prop_assert!(
            severe_ones == 0 || severe_ones == found.groups.len(),
            "{}: {:?}",
            acuity,
            found.groups
        );
        for one in &found.groups {
            let at_edge = (acuity.log_mar.log() - 1.0).abs() <= 0.0051;
            let six_sixty = one.disputed.is_some_and(|why| why.key == "at-6-60");
            prop_assert!(!six_sixty || at_edge, "{} is disputed", acuity);
        }
    }

    #[test]
    fn functional_scores_have_bounds(both in log(), right in log(), left in log(), worse in 0.0..0.5_f64, degrees in 0.0..110.0_f64) {
        let of = |both: f64, right: f64, left: f64| {
            functional_acuity(Eyes { both: read(both), right: read(right), left: read(left) }).expect("possible")
        };
        let acuity = of(both, right, left);
        let points = [acuity.scores.both.points, acuity.scores.right.points, acuity.scores.left.points];
        let least = points.into_iter().fold(f64::INFINITY, f64::min);
        let most = points.into_iter().fold(0.0, f64::max);
        prop_assert!((0.0..=125.0).contains(&least) && most <= 125.0, "{:?}", points);
        prop_assert!(least - 1e-9 <= acuity.score && acuity.score <= most + 1e-9, "between its parts");
        prop_assert!((0.0..=100.0).contains(&acuity.impairment));
        prop_assert!((acuity.impairment + acuity.score - 100.0).abs() < 1e-9 || acuity.score > 100.0);
        // Right and left weigh the same; both together thrice.
        prop_assert!((of(both, left, right).score - acuity.score).abs() < 1e-9);
        prop_assert!(of((both + worse).min(3.0), right, left).score <= acuity.score, "worse is never more");
        let meridian = MeridianPoints::within(Angle::from_degrees(degrees)).expect("possible");
        let field = field_points([meridian; 10]).expect("possible");
        prop_assert!((0.0..=100.0).contains(&field.points));
        let vision = functional_vision(acuity, Eyes { both: field, right: field, left: field });
        prop_assert!((vision.field_score - field.points).abs() < 1e-9, "three equal fields");
        prop_assert!(vision.score <= acuity.score + 1e-9 && (0.0..=100.0).contains(&vision.impairment));
        prop_assert!((vision.score * 100.0 - acuity.score * field.points).abs() < 1e-6);
        for step in vision.steps() {
            prop_assert_eq!(step.check(), Ok(()));
        }
    }

    #[test]
    fn a_wider_field_has_no_fewer_points(a in 0.0..110.0_f64, b in 0.0..110.0_f64) {
        let within = |degrees| MeridianPoints::within(Angle::from_degrees(degrees)).expect("possible");
        let (narrow, wide) = (within(a.min(b)), within(a.max(b)));
        prop_assert!(narrow.inside <= wide.inside && narrow.outside <= wide.outside, "{} and {}", a, b);
        prop_assert!(narrow.outside == 0 || narrow.inside == 5, "from the middle outward");
    }

    #[test]
    fn an_optotype_subtends_five_details(log in log(), metres in 0.06..19.0_f64) {
        let letter = optotype(LogMar::from_log(log), Length::from_m(metres)).expect("possible");
        let back = Angle::from_tangent(letter.height / letter.distance) / 5.0;
        prop_assert!((back / letter.mar - 1.0).abs() < 1e-9, "{:?}", letter);
        let twice = optotype(LogMar::from_log(log), Length::from_m(metres) * 2.0);
        if let Ok(twice) = twice {
            prop_assert!((twice.height / letter.height - 2.0).abs() < 1e-9, "twice as far, twice as large");
        }
        // Small angles: 1.4544 mm for each metre and minute, within 0.01 % to ten minutes.
        if log <= 1.0 {
            let small = 1000.0 * metres * (letter.mar * 5.0).radians();
            prop_assert!((letter.height.mm() / small - 1.0).abs() < 1e-4, "{:?}", letter);
        }
        let grating = grating_cut_off(LogMar::from_log(log)).expect("possible");
        let bar_minutes = 30.0 / grating.frequency.cycles_per_degree();
        prop_assert!((bar_minutes / letter.mar.arcmin() - 1.0).abs() < 1e-12, "a bar is a stroke");
    }

    #[test]
    fn a_mean_lies_between_and_moves_along(logs in prop::collection::vec(-0.3..2.5_f64, 1..9), shift in -0.1..0.4_f64) {
        let of = |shift: f64| -> Vec<LogMar> { logs.iter().map(|log| LogMar::from_log(log + shift)).collect() };
        let mean = mean_acuity(&of(0.0)).expect("possible");
        let least = logs.iter().copied().fold(f64::INFINITY, f64::min);
        let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        prop_assert!((least - 1e-12..=most + 1e-12).contains(&mean.log_mar.log()), "{:?}", mean);
        let moved = mean_acuity(&of(shift)).expect("possible");
        prop_assert!(((moved.log_mar - mean.log_mar).log() - shift).abs() < 1e-9, "{:?}", moved);
        // The same as the geometric mean of the decimals.
        let product: f64 = logs.iter().map(|log| LogMar::from_log(*log).decimal()).product();
        let geometric = arcminute_core::math::log10(product) / mean.count;
        prop_assert!((geometric + mean.log_mar.log()).abs() < 1e-9, "{:?}", mean);
    }

    /// Two ways of saying it: letters right in all, and the last line with a letter right with what was missed to there.
    #[test]
    fn counting_letters_right_or_missed_is_the_same(right in prop::collection::vec(0..=5_u8, 1..14)) {
        let four_metres = Length::from_m(4.0);
        let chart = Chart::five_letters(LogMar::from_log(1.0), four_metres);
        let total: u16 = right.iter().map(|count| u16::from(*count)).sum();
        let Some(last) = right.iter().rposition(|count| 0 < *count) else { return Ok(()) };
        let missed: u32 = right.iter().take(last + 1).map(|count| 5 - u32::from(*count)).sum();
        let line = 1.0 - 0.1 * last as f64;
        let score = score_chart(chart, total, four_metres).expect("possible");
        prop_assert!((score.read.log_mar.log() - (line + 0.02 * f64::from(missed))).abs() < 1e-9, "{:?}", right);
    }

    #[test]
    fn one_letter_more_is_never_a_worse_score(far in 0..69_u16, near in 0..=30_u16) {
        let score = |far, near| score_two_distances(far, Some(near), TwoDistanceRule::default()).expect("possible");
        let (less, more) = (score(far, near), score(far + 1, near));
        prop_assert!(less.score < more.score && more.log_mar < less.log_mar, "{} and {}", far, near);
        if near < 30 {
            prop_assert!(score(far, near).score <= score(far, near + 1).score);
        }
    }

    #[test]
    fn limits_grow_with_what_they_come_from(log in 0.001..1.0_f64, factor in 0.1..5.0_f64) {
        let (one, other) = (LogMar::from_log(log), LogMar::from_log(log * factor));
        let ratio = change_limit(other).change / change_limit(one).change;
        prop_assert!((ratio / factor - 1.0).abs() < 1e-9);
        let ratio = repeatability(other).coefficient / repeatability(one).coefficient;
        prop_assert!((ratio / factor - 1.0).abs() < 1e-9);
        // Both roads from one scatter: 1.96 times it is the limit of one measurement.
        let single = one * 1.959_963_984_540_054;
        let apart = change_limit(single).change - repeatability(one).coefficient;
        prop_assert!(apart.log().abs() < 1e-12);
    }
}
