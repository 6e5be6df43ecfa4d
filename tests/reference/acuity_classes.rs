//! Classes, criteria and scores of acuity, against the works that word or print them.

use crate::support::rounds_to;
use arcminute_core::acuity::certification::{AT_SIX_SIXTY, Field, Group, certification};
use arcminute_core::acuity::functional::{Eyes, MeridianPoints, field_points, functional_acuity};
use arcminute_core::acuity::statutory::{self, Criterion, StatutoryRecord, statutory_criterion};
use arcminute_core::acuity::{
    Ask, BareNumber, Category, ClassName, Classified, Edition, NearImpairment, NearPrint, Parsed, Reading,
    ability, functional, group_means, impairment, impairment_by_field, near_impairment, parse,
};
use arcminute_core::unit::{Angle, Length, LogMar, PrintSize};
use arcminute_core::{Error, Why};

#[track_caller]
fn reading(text: &str) -> Reading {
    match parse(text, BareNumber::LogMar) {
        Parsed::Understood(reading) => reading,
        other => panic!("{text} gave {other:?}"),
    }
}

#[track_caller]
fn class(text: &str, edition: Edition) -> (ClassName, u8) {
    match impairment(&reading(text), edition) {
        Ok(Classified::Class(class)) => (class.name, class.number),
        other => panic!("{text} gave {other:?}"),
    }
}

/// Source: World Health Organization 2019, ICD-11 9D90, as tabulated in Lancet Glob Health 2021;9:e489, table 1.
/// The edges of each row, and (computed) what lies just beyond; 6/19 is the line at 0.50 of log charts.
#[test]
fn acuity_case_t05_classes_of_the_eleventh_edition() {
    use ClassName::{Blindness, Mild, Moderate, None, Severe};
    for (text, name, number) in [
        ("6/12", None, 0),
        ("20/40", None, 0),
        ("0.30", None, 0),
        ("decimal 0.5", None, 0),
        ("6/18", Mild, 1),
        ("6/19", Mild, 1),
        ("20/60", Mild, 1),
        ("0.50", Mild, 1),
        ("decimal 0.3", Mild, 1),
        ("0.52", Moderate, 2),
        ("6/60", Moderate, 2),
        ("20/200", Moderate, 2),
        ("1.00", Moderate, 2),
        ("decimal 0.1", Moderate, 2),
        ("3/60", Severe, 3),
        ("20/400", Severe, 3),
        ("1.30", Severe, 3),
        ("decimal 0.05", Severe, 3),
        ("1.32", Blindness, 4),
        ("1/60", Blindness, 4),
        ("5/300", Blindness, 4),
        ("1.80", Blindness, 4),
        ("decimal 0.02", Blindness, 4),
        ("CF 1 m", Blindness, 4),
        ("1/64", Blindness, 5),
        ("LP", Blindness, 5),
        ("NLP", Blindness, 6),
    ] {
        assert_eq!(class(text, Edition::Icd11), (name, number), "{text}");
    }
    for text in ["CF", "CF 30 cm"] {
        let asked = Classified::CannotTell { ask: Ask::FingersAtOneMetre };
        assert_eq!(impairment(&reading(text), Edition::Icd11), Ok(asked), "{text}");
    }
}

/// Source: World Health Organization, ICD-10, version of 2008: mild or none 0, moderate 1, severe 2, blindness 3 to 5.
#[test]
fn classes_of_the_tenth_edition() {
    use ClassName::{Blindness, MildOrNone, Moderate, Severe};
    for (text, name, number) in [
        ("6/12", MildOrNone, 0),
        ("6/18", MildOrNone, 0),
        ("20/70", MildOrNone, 0),
        ("6/60", Moderate, 1),
        ("20/200", Moderate, 1),
        ("3/60", Severe, 2),
        ("20/400", Severe, 2),
        ("1/60", Blindness, 3),
        ("5/300", Blindness, 3),
        ("LP", Blindness, 4),
        ("NLP", Blindness, 5),
    ] {
        assert_eq!(class(text, Edition::Icd10), (name, number), "{text}");
    }
    // 20/70 is the edge of one edition and worse than that of the other.
    assert_eq!(class("20/70", Edition::Icd11), (Moderate, 2));
}

/// Source: World Health Organization, ICD-10, version of 2008: field round central fixation.
#[test]
fn classes_by_field() -> Result<(), Error> {
    for (degrees, number) in [(4.0, Some(4)), (5.0, Some(4)), (5.1, Some(3)), (10.0, Some(3)), (10.1, None)] {
        let class = impairment_by_field(Angle::from_degrees(degrees))?;
        assert_eq!(class.map(|class| class.number), number, "{degrees}");
    }
    Ok(())
}

/// Source: World Health Organization, fact sheet on blindness and vision impairment. DIFFERENCE: it prints `M.08`, a
/// misprint of M0.8, which at 40 cm is logMAR 0.301, the edge of distance acuity (computed).
#[test]
fn near_impairment_at_forty_centimetres() -> Result<(), Error> {
    let forty = Length::from_cm(40.0);
    let m = |size| NearPrint::M(PrintSize::from_m_units(size));
    for (print, wanted) in [
        (NearPrint::Points(6.0), NearImpairment::NotImpaired),
        (NearPrint::Points(8.0), NearImpairment::Impaired),
        (m(0.8), NearImpairment::NotImpaired),
        (m(1.0), NearImpairment::Impaired),
    ] {
        assert_eq!(near_impairment(print, forty)?, wanted, "{print:?}");
    }
    let asked = NearImpairment::CannotTell { ask: Ask::PrintAtFortyCentimetres };
    assert_eq!(near_impairment(m(0.8), Length::from_cm(25.0))?, asked);
    rounds_to(LogMar::of_angle(Angle::from_arcmin(0.8 / 0.4)).log(), "0.301");
    Ok(())
}

/// Source: Social Security Administration, POMS DI 26001.005: 20/160 and no letter of the 20/100 line; 20/125+1 with
/// one letter of it; a field of 20 degrees and one of more.
#[test]
fn acuity_case_t06_statutory_criterion() -> Result<(), Error> {
    let of = |text: Option<&str>, letters, degrees: Option<f64>| {
        statutory_criterion(StatutoryRecord {
            acuity: text.map(reading),
            letters_on_twenty_one_hundred: letters,
            widest_field: degrees.map(Angle::from_degrees),
            chart: None,
        })
    };
    assert_eq!(of(Some("20/160"), Some(0), None)?.either, Criterion::Meets);
    assert_eq!(of(Some("20/125+1"), Some(1), None)?.acuity, Criterion::DoesNotMeet);
    assert_eq!(of(Some("20/125+1"), Some(1), Some(120.0))?.either, Criterion::DoesNotMeet);
    assert_eq!(of(None, None, Some(20.0))?.field, Criterion::Meets);
    assert_eq!(of(None, None, Some(20.1))?.field, Criterion::DoesNotMeet);
    assert_eq!(of(Some("20/200"), None, None)?.either, Criterion::Meets, "20/200 itself counts");
    let asked = Criterion::CannotTell { ask: Ask::LettersOnTwentyOneHundred };
    for total in ["0.72", "0.80", "0.90"] {
        assert_eq!(of(Some(total), None, None)?.acuity, asked, "a total of {total} cannot tell");
    }
    for caution in functional::CAUTIONS.iter().chain(statutory::CAUTIONS) {
        assert!(!caution.key().is_empty(), "cautions go beside it");
    }
    Ok(())
}

/// Source: certificate of vision impairment of the United Kingdom, notes as summarised in public; they differ at 6/60.
#[test]
fn groups_of_the_certificate() -> Result<(), Error> {
    for (text, field, group) in [
        ("2/60", Field::Full, Group::SevereOne),
        ("3/60", Field::Marked, Group::SevereTwo),
        ("6/36", Field::Marked, Group::SevereThree),
        ("6/12", Field::BitemporalHemianopia, Group::SevereThree),
        ("3/60", Field::Full, Group::SightOne),
        ("6/24", Field::ModerateOrMedia, Group::SightTwo),
        ("6/18", Field::GrossDefect, Group::SightThree),
    ] {
        let found = certification(reading(text), Some(field))?;
        let groups: Vec<_> = found.groups.iter().map(|one| (one.group, one.disputed)).collect();
        assert_eq!(groups, [(group, None)], "{text}, {field:?}");
    }
    let edge = certification(reading("6/60"), Some(Field::Marked))?;
    let first = edge.groups.first().expect("a group");
    assert_eq!((first.group, first.disputed), (Group::SevereTwo, Some(&AT_SIX_SIXTY)));
    Ok(())
}

/// Source: American Medical Association, Guides, chapter 12: weights of the eyes; the scores computed from them.
/// 20/200 is 50 points, "an estimated 50 % loss of ability".
#[test]
fn acuity_case_t07_functional_acuity_score() -> Result<(), Error> {
    for (both, right, left, points, score, lost) in [
        ("0.7", "1.0", "1.2", ["65", "50", "40"], "57.0", "43.0"),
        ("0.5", "0.7", "1.3", ["75", "65", "35"], "65.0", "35.0"),
        ("20/200", "20/200", "20/200", ["50", "50", "50"], "50.0", "50.0"),
        ("2.0", "2.1", "3.0", ["0", "0", "0"], "0.0", "100.0"),
    ] {
        let found =
            functional_acuity(Eyes { both: reading(both), right: reading(right), left: reading(left) })?;
        let got = [found.scores.both.points, found.scores.right.points, found.scores.left.points];
        for (got, printed) in got.into_iter().zip(points) {
            rounds_to(got, printed);
        }
        rounds_to(found.score, score);
        rounds_to(found.impairment, lost);
    }
    rounds_to(functional::MOST_ADJUSTMENT, "15");
    Ok(())
}

/// Source: American Medical Association, Guides, chapter 12, from memory (computed): a field of 10 degrees radius.
#[test]
fn field_of_ten_degrees() -> Result<(), Error> {
    for (degrees, printed) in [(10.0, "50"), (60.0, "100"), (0.0, "0")] {
        let meridian = MeridianPoints::within(Angle::from_degrees(degrees))?;
        rounds_to(field_points([meridian; 10])?.points, printed);
    }
    Ok(())
}

/// Source: West et al. 2002, Arch Ophthalmol: most people limited in mobility and in reading.
#[test]
fn abilities_in_a_survey() {
    for (row, acuity, contrast) in [(&ability::MOBILITY, "1.0", "0.9"), (&ability::READING, "0.2", "1.4")] {
        rounds_to(row.acuity().log(), acuity);
        rounds_to(row.contrast().log(), contrast);
        assert_eq!(row.people, 2520);
    }
}

/// Source: Schulze-Bonsel et al. 2006, IOVS 47:1236; Lange et al. 2009, Graefes 247:137.
#[test]
fn acuity_case_t15_both_studies_side_by_side() -> Result<(), Error> {
    let fingers = Category::CountsFingers { distance: Some(Length::from_cm(30.0)) };
    for (category, means) in [
        (fingers, [("schulze-bonsel-2006", "1.854", 6), ("lange-2009", "1.98", 15)]),
        (
            Category::HandMotion { distance: None },
            [("schulze-bonsel-2006", "2.301", 12), ("lange-2009", "2.28", 15)],
        ),
    ] {
        for (mean, (source, printed, people)) in group_means::group_means(&category)?.iter().zip(means) {
            assert_eq!((mean.source.id, mean.people), (source, people), "flagged with its study");
            rounds_to(mean.log_mar().log(), printed);
        }
    }
    for (mean, spread, limit) in
        [(&group_means::FINGERS_LANGE, "0.24", "0.21"), (&group_means::HAND_LANGE, "0.15", "0.31")]
    {
        rounds_to(mean.spread().expect("printed").log(), spread);
        rounds_to(mean.retest_limit().expect("printed").log(), limit);
    }
    // The decimals printed beside the logarithms.
    rounds_to(group_means::FINGERS_LANGE.log_mar().decimal(), "0.010");
    rounds_to(group_means::HAND_LANGE.log_mar().decimal(), "0.0052");
    rounds_to(group_means::FINGERS_SCHULZE_BONSEL.log_mar().decimal(), "0.014");
    rounds_to(group_means::HAND_SCHULZE_BONSEL.log_mar().decimal(), "0.005");
    for category in [Category::LightPerception, Category::NoLightPerception] {
        let error = group_means::group_means(&category).expect_err("no number exists");
        assert_eq!(error.why, Why::NotUsableInSum, "{category}");
    }
    Ok(())
}
