//! Acuity: notations, ladder, letter scores, distance and categories, against the acuity reference and its sources.

use crate::support::rounds_to;
use arcminute_core::acuity::{
    Acuity, BareNumber, Category, Chart, LADDER, Parsed, Reading, Scale, TwoDistanceRule, ladder_label,
    letter_score, parse, read_at, retest, score_chart, score_two_distances, visual_acuity_score, written,
};
use arcminute_core::unit::{Length, LogMar};
use arcminute_core::{Error, Why};

#[track_caller]
fn measured(text: &str, bare: BareNumber) -> Acuity {
    match parse(text, bare) {
        Parsed::Understood(Reading::Measured(acuity)) => acuity,
        other => panic!("{text} gave {other:?}"),
    }
}

/// Source: DICOM PS3.17, RR.2.2, formulas; acuity reference, sections 1.1 and 10, case T1 (computed).
#[test]
fn acuity_case_t01_six_over_eighteen() {
    let log_mar = measured("6/18", BareNumber::Ask).log_mar;
    rounds_to(log_mar.mar().arcmin(), "3.000");
    rounds_to(log_mar.decimal(), "0.3333");
    rounds_to(log_mar.log(), "0.4771");
    rounds_to(visual_acuity_score(log_mar), "76.14");
    assert_eq!(written(log_mar, Scale::Feet).to_string(), "20/60");
    assert_eq!(written(log_mar, Scale::Metres).to_string(), "6/18");
}

/// Source: acuity reference, section 1.1, worked checks (computed from the definition).
#[test]
fn fractions_off_the_ladder() {
    for (text, decimal, log) in [
        ("20/70", "0.2857", "0.5441"),
        ("20/160", "0.125", "0.9031"),
        ("20/150", "0.1333", "0.8751"),
        ("1/60", "0.0167", "1.7782"),
    ] {
        let log_mar = measured(text, BareNumber::Ask).log_mar;
        rounds_to(log_mar.decimal(), decimal);
        rounds_to(log_mar.log(), log);
    }
}

/// Source: DICOM PS3.17, Table RR-1, rows read: feet, logMAR, visual acuity score.
#[test]
fn dicom_table_rr_1() {
    for (feet, log, score) in [
        ("20/10", "-0.30", "115"),
        ("20/12.5", "-0.20", "110"),
        ("20/16", "-0.10", "105"),
        ("20/20", "0.00", "100"),
    ] {
        let acuity = measured(feet, BareNumber::Ask);
        rounds_to(acuity.log_mar.log(), log);
        rounds_to(visual_acuity_score(acuity.log_mar), score);
        assert_eq!(ladder_label(acuity.log_mar).map(|rung| rung.feet), Some(feet));
    }
}

/// Source: acuity reference, section 1.2, the ladder: line, decimal, feet, metres, letter score, score of DICOM RR.2.2.
#[test]
fn ladder_rows() {
    for (log, decimal, feet, metres, letters, score) in [
        (0.5, "0.32", "20/63", "6/19", "60", "75"),
        (0.9, "0.125", "20/160", "6/48", "40", "55"),
        (1.0, "0.1", "20/200", "6/60", "35", "50"),
        (1.3, "0.05", "20/400", "6/120", "20", "35"),
        (1.7, "0.02", "20/1000", "6/300", "0", "15"),
    ] {
        let log_mar = LogMar::from_log(log);
        assert_eq!(written(log_mar, Scale::Decimal).to_string(), decimal);
        assert_eq!(written(log_mar, Scale::Feet).to_string(), feet);
        assert_eq!(written(log_mar, Scale::Metres).to_string(), metres);
        rounds_to(letter_score(log_mar), letters);
        rounds_to(visual_acuity_score(log_mar), score);
    }
    assert_eq!(LADDER.len(), 22, "-0.3 to 1.7, and 2.0");
}

/// Source: Holladay 2004, J Cataract Refract Surg 30:287: 20/20 and 20/200 average to 20/63.
#[test]
fn mean_of_normal_and_legally_blind() {
    let sum = measured("20/20", BareNumber::Ask).log_mar + measured("20/200", BareNumber::Ask).log_mar;
    assert_eq!(written(sum / 2.0, Scale::Feet).to_string(), "20/63");
}

/// Source: Beck et al. 2003, Am J Ophthalmol 135:194; acuity reference, case T2.
#[test]
fn acuity_case_t02_enough_letters_far_away() -> Result<(), Error> {
    let score = score_two_distances(55, None, TwoDistanceRule::default())?;
    assert_eq!(score.score, 85);
    rounds_to(score.log_mar.log(), "0.00");
    rounds_to(visual_acuity_score(score.log_mar), "100");
    Ok(())
}

/// Source: acuity reference, section 1.3 and case T3 (computed); the switch at 20 letters is from memory there.
#[test]
fn acuity_case_t03_letters_from_two_distances() -> Result<(), Error> {
    for (far, near, score, log, vas) in [
        (12, Some(27), 39, "0.92", "54"),
        (19, Some(30), 49, "0.72", "64"),
        (20, None, 50, "0.70", "65"),
        (0, Some(30), 30, "1.10", "45"),
    ] {
        let counted = score_two_distances(far, near, TwoDistanceRule::default())?;
        assert_eq!(counted.score, score, "{far} and {near:?}");
        rounds_to(counted.log_mar.log(), log);
        rounds_to(visual_acuity_score(counted.log_mar), vas);
    }
    // A clinic that switches at 40 letters.
    let other = TwoDistanceRule { enough: 40, ..TwoDistanceRule::default() };
    assert!(score_two_distances(39, None, other).is_err(), "the switch is a setting");
    Ok(())
}

/// Source: geometry; acuity reference, section 1.4 and case T4.
#[test]
fn acuity_case_t04_chart_read_at_another_distance() -> Result<(), Error> {
    for (label, design, test, printed) in [
        (0.9, 4.0, 1.0, "1.502"),
        (0.0, 4.0, 1.0, "0.602"),
        (0.0, 4.0, 2.0, "0.301"),
        (0.0, 6.0, 3.0, "0.301"),
        (0.0, 0.4, 0.25, "0.204"),
        (0.0, 0.4, 0.1, "0.602"),
        (0.0, 3.0, 4.0, "-0.125"),
    ] {
        let read = read_at(LogMar::from_log(label), Length::from_m(design), Length::from_m(test))?;
        rounds_to(read.log_mar.log(), printed);
    }
    Ok(())
}

/// Source: chart-design comparison in Br J Ophthalmol, value of a letter: acuity reference, section 1.3.
#[test]
fn value_of_a_letter() -> Result<(), Error> {
    let four_metres = Length::from_m(4.0);
    for (letters_per_line, step, value) in
        [(5, 0.1, "0.02"), (3, 0.1, "0.033"), (2, 0.1, "0.05"), (3, 0.15, "0.05")]
    {
        let chart = Chart {
            letters_per_line,
            line_step: LogMar::from_log(step),
            ..Chart::five_letters(LogMar::from_log(1.0), four_metres)
        };
        let label = |letters| score_chart(chart, letters, four_metres).map(|score| score.read.label);
        rounds_to((label(10)? - label(11)?).log(), value);
    }
    Ok(())
}

/// Source: Schulze-Bonsel et al. 2006, IOVS 47:1236: means 0.014 at 30 cm and 0.005; acuity reference, case T15.
#[test]
fn acuity_case_t15_categories() -> Result<(), Error> {
    for (text, printed) in [("CF 30 cm", "1.854"), ("HM", "2.301")] {
        let Parsed::Understood(reading @ Reading::Category(category)) = parse(text, BareNumber::Ask) else {
            panic!("{text} is a category")
        };
        let (mean, source) = category.published_mean()?;
        rounds_to(mean.log(), printed);
        assert_eq!(source.id, "schulze-bonsel-2006", "flagged with its study");
        assert!(reading.measured().is_err(), "{text} has no size unless its mean is asked for");
    }
    for category in [Category::LightPerception, Category::NoLightPerception] {
        let error = category.published_mean().expect_err("no number exists");
        assert_eq!(error.why, Why::NotUsableInSum, "{category}");
    }
    Ok(())
}

/// Source: the works named in each row, figures read in them: acuity reference, section 4.
#[test]
fn retest_limits() {
    for (row, printed) in [
        (&retest::TRAINED_NORMAL, "0.14"),
        (&retest::LEGALLY_BLIND, "0.20"),
        (&retest::MACULAR_DEGENERATION, "0.24"),
        (&retest::MACULAR_DEGENERATION_MONTH, "0.30"),
    ] {
        rounds_to(row.limit().log(), printed);
    }
}

/// Source: fitting reference, sections 8.1 and 10, case 13, acuities.
#[test]
fn fitting_case_13_acuities() {
    for (text, bare, printed) in [
        ("20/200-2", BareNumber::Ask, "1.04"),
        ("20/200+1", BareNumber::Ask, "0.98"),
        ("3/60", BareNumber::Ask, "1.301"),
        ("5/200", BareNumber::Ask, "1.602"),
        ("10/350", BareNumber::Ask, "1.544"),
        ("0.1", BareNumber::Decimal, "1.00"),
        ("logMAR 1.0", BareNumber::Ask, "1.00"),
        ("1.0 logMAR", BareNumber::Ask, "1.00"),
        ("35 letters", BareNumber::Ask, "1.00"),
    ] {
        rounds_to(measured(text, bare).log_mar.log(), printed);
    }
    assert!(matches!(parse("0.1", BareNumber::Ask), Parsed::Ask { choices } if choices.len() == 2), "asked");
    for (text, category) in [
        ("CF 1m", Category::CountsFingers { distance: Some(Length::from_m(1.0)) }),
        ("FC", Category::CountsFingers { distance: None }),
        ("CF@3'", Category::CountsFingers { distance: Some(Length::from_feet(3.0)) }),
        ("HMM", Category::HandMotion { distance: None }),
        ("pl", Category::LightPerception),
        ("NPL", Category::NoLightPerception),
    ] {
        let wanted = Parsed::Understood(Reading::Category(category));
        assert_eq!(parse(text, BareNumber::Ask), wanted, "{text}");
    }
}
