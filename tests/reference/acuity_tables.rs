//! Ladder, sizes of optotypes, means, and limits of repeats, against the works that print them.

use crate::support::rounds_to;
use arcminute_core::acuity::cautions::{Caution, EFFECTS};
use arcminute_core::acuity::repeatability::{self, Amount, Measure, change_limit, repeatability as cor};
use arcminute_core::acuity::{
    Chart, LADDER, grating_cut_off, letter_score, mean_acuity, optotype, read_at, retest, score_chart,
    visual_acuity_score,
};
use arcminute_core::unit::{Angle, Length, LogMar};
use arcminute_core::{Error, math};

/// Source: the works named in each row: limits of acuity in logMAR.
#[test]
fn limits_of_acuity() {
    for (row, printed) in [
        (&retest::WITHIN_TEST, "0.11"),
        (&retest::NORMAL_IN_FOCUS, "0.11"),
        (&retest::CHILDREN, "0.136"),
        (&retest::TRAINED_NORMAL, "0.14"),
        (&retest::EYE_CLINIC, "0.15"),
        (&retest::DRUSEN, "0.18"),
        (&retest::LEGALLY_BLIND, "0.20"),
        (&retest::HOSPITAL_WEEKS, "0.20"),
        (&retest::MACULAR_DEGENERATION, "0.24"),
        (&retest::MACULAR_DEGENERATION_MONTH, "0.30"),
        (&retest::LATE_MACULAR_DEGENERATION, "0.34"),
    ] {
        rounds_to(row.limit().log(), printed);
    }
    assert_eq!(retest::ALL.len(), 11, "every row is above");
    // Printed in letters of 0.02 as well: 8, 9, 12, 17.
    for (row, letters) in [
        (&retest::DRUSEN, "9"),
        (&retest::MACULAR_DEGENERATION, "12"),
        (&retest::LATE_MACULAR_DEGENERATION, "17"),
        (&retest::EYE_CLINIC, "8"),
    ] {
        rounds_to(row.limit().log() / 0.02, letters);
    }
    // DIFFERENCE: 14.9 letters are printed beside 0.30, which is 15.0.
    rounds_to(14.9 * 0.02, "0.30");
}

/// Source: the works named in each row: limits in the unit of each measure.
#[test]
fn limits_of_other_measures() {
    let rows: [(&str, &str, &str); 33] = [
        ("acuity-one-score", "-0.10", "0.10"),
        ("acuity-mean-of-two", "-0.053", "0.053"),
        ("acuity-blurred", "-0.25", "0.25"),
        ("acuity-low-vision", "-0.128", "0.117"),
        ("acuity-legally-blind-least", "-0.13", "0.13"),
        ("acuity-legally-blind-most", "-0.36", "0.36"),
        ("acuity-by-letter", "-0.14", "0.14"),
        ("acuity-by-half-line", "-0.17", "0.17"),
        ("acuity-by-whole-line", "-0.50", "0.50"),
        ("acuity-by-line-one-miss", "-0.53", "0.53"),
        ("reading-acuity-normal", "-0.05", "0.05"),
        ("reading-acuity-low-vision", "-0.10", "0.10"),
        ("reading-acuity-children", "-0.142", "0.142"),
        ("reading-acuity-amd", "-0.30", "0.30"),
        ("reading-acuity-amd-month", "-0.72", "0.72"),
        ("print-size-normal", "-0.10", "0.10"),
        ("print-size-children", "-0.193", "0.193"),
        ("print-size-low-vision", "-0.20", "0.20"),
        ("print-size-amd-month", "-0.67", "0.67"),
        ("speed-normal", "-8.5", "8.5"),
        ("speed-amd-month", "-110", "110"),
        ("log-speed-children", "-0.077", "0.077"),
        ("log-speed-low-vision", "-0.10", "0.10"),
        ("contrast-small-chart", "-0.121", "0.121"),
        ("contrast-triplets", "-0.182", "0.182"),
        ("contrast-screen", "-0.238", "0.238"),
        ("contrast-drusen", "-0.30", "0.30"),
        ("contrast-weeks", "-0.30", "0.30"),
        ("contrast-amd", "-0.35", "0.35"),
        ("contrast-legally-blind", "-0.35", "0.35"),
        ("contrast-legally-blind-least", "-0.19", "0.19"),
        ("contrast-legally-blind-most", "-0.48", "0.48"),
        ("contrast-late", "-0.40", "0.40"),
    ];
    assert_eq!(repeatability::ALL.len(), rows.len(), "every row is above");
    let number = |amount| match amount {
        Amount::LogMar(log) => log.log(),
        Amount::Speed(speed) => speed.words_per_minute(),
        Amount::LogSpeed(log) => log,
        Amount::Contrast(log) => log.log(),
    };
    for (row, (id, low, high)) in repeatability::ALL.iter().zip(rows) {
        assert_eq!(row.id, id);
        let (got_low, got_high) = row.limits();
        rounds_to(number(got_low), low);
        rounds_to(number(got_high), high);
        let kind = match got_high {
            Amount::LogMar(_) => {
                row.measure <= Measure::CriticalPrintSize
                    && !id.starts_with("speed")
                    && !id.starts_with("contrast")
            }
            Amount::Speed(_) => id.starts_with("speed"),
            Amount::LogSpeed(_) => id.starts_with("log-speed"),
            Amount::Contrast(_) => id.starts_with("contrast"),
        };
        assert!(kind, "{id} has the unit of its measure");
    }
    // Virgili et al. 2004 print 19 % beside 0.077 log; Patel et al. 2009 7 letters of 0.05 beside 0.35.
    rounds_to(100.0 * (math::pow(10.0, 0.077) - 1.0), "19");
    rounds_to(number(repeatability::CONTRAST_AMD.farther()) / 0.05, "7");
}

/// Source: Arditi & Cagenello 1993, IOVS 34:120: 0.10 to place, 0.14 to tell a change; 2.77 times the scatter within
/// people (computed: 0.04 gives 0.111).
#[test]
fn limits_from_one_another() {
    rounds_to(change_limit(LogMar::from_log(0.10)).change.log(), "0.14");
    let result = cor(LogMar::from_log(0.04));
    rounds_to(result.coefficient.log(), "0.111");
    rounds_to(result.coefficient / result.within, "2.77");
    rounds_to(result.coefficient / result.of_differences, "1.96");
}

/// Source: Dong et al. 2002 and 2004, Arch Ophthalmol; an IOVS abstract of 65 eyes; Kaiser 2009, Trans Am Ophthalmol
/// Soc; Sheedy 1984 as quoted.
#[test]
fn what_distance_and_chart_do() {
    let letters = |id: &str| EFFECTS.iter().find(|effect| effect.id == id).expect(id).letters_worse;
    for (id, printed) in [
        ("nearer-2-to-0.5", "7.5"),
        ("nearer-10-to-5-ft", "3.1"),
        ("nearer-3.2-to-1", "7.3"),
        ("nearer-2-to-1", "8.2"),
        ("projected-chart", "6.5"),
        ("projected-chart-low", "10"),
    ] {
        rounds_to(letters(id), printed);
    }
    // 31 letters more at 1 m, of which geometry gives 30.
    rounds_to(30.0 - letters("nearer-4-to-1"), "31");
    // 0.02 logMAR for each doubling of light is one letter.
    rounds_to(0.02 * letters("half-the-light"), "0.02");
    // 20/69 and 20/94 are 6.7 letters apart (computed), printed 6.5 as the mean of the differences.
    let of = |denominator: f64| LogMar::of_angle(Angle::from_arcmin(denominator / 20.0));
    rounds_to((of(94.0) - of(69.0)).log() / 0.02, "6.7");
    assert_eq!(EFFECTS.len(), 8, "every row is above");
    assert_eq!(Caution::ChartKind.source().id, "kaiser-2009");
    let people: Vec<_> = EFFECTS.iter().filter_map(|effect| effect.measured).collect();
    assert_eq!(people, [65, 163]);
}

/// Source: ISO 8596, steps of 0.1 log on preferred numbers; DICOM PS3.17, RR.2.2; geometry: every column (computed).
#[test]
fn every_column_of_the_ladder() -> Result<(), Error> {
    #[rustfmt::skip]
    let rows = [
        (-3, "0.501", "1.995", "2.0", "20/10", "6/3", "4/2", "1/0.5", "59.9", "115", "100"),
        (-2, "0.631", "1.585", "1.6", "20/12.5", "6/3.8", "4/2.5", "1/0.63", "47.5", "110", "95"),
        (-1, "0.794", "1.259", "1.25", "20/16", "6/4.8", "4/3.2", "1/0.8", "37.8", "105", "90"),
        (0, "1.000", "1.000", "1.0", "20/20", "6/6", "4/4", "1/1", "30.0", "100", "85"),
        (1, "1.259", "0.794", "0.8", "20/25", "6/7.5", "4/5", "1/1.25", "23.8", "95", "80"),
        (2, "1.585", "0.631", "0.63", "20/32", "6/9.5", "4/6.3", "1/1.6", "18.9", "90", "75"),
        (3, "1.995", "0.501", "0.5", "20/40", "6/12", "4/8", "1/2", "15.0", "85", "70"),
        (4, "2.512", "0.398", "0.4", "20/50", "6/15", "4/10", "1/2.5", "11.9", "80", "65"),
        (5, "3.162", "0.316", "0.32", "20/63", "6/19", "4/12.5", "1/3.2", "9.49", "75", "60"),
        (6, "3.981", "0.251", "0.25", "20/80", "6/24", "4/16", "1/4", "7.54", "70", "55"),
        (7, "5.012", "0.200", "0.2", "20/100", "6/30", "4/20", "1/5", "5.99", "65", "50"),
        (8, "6.310", "0.158", "0.16", "20/125", "6/38", "4/25", "1/6.3", "4.75", "60", "45"),
        (9, "7.943", "0.126", "0.125", "20/160", "6/48", "4/32", "1/8", "3.78", "55", "40"),
        (10, "10.00", "0.100", "0.1", "20/200", "6/60", "4/40", "1/10", "3.00", "50", "35"),
        (11, "12.59", "0.0794", "0.08", "20/250", "6/75", "4/50", "1/12.5", "2.38", "45", "30"),
        (12, "15.85", "0.0631", "0.063", "20/320", "6/95", "4/63", "1/16", "1.89", "40", "25"),
        (13, "19.95", "0.0501", "0.05", "20/400", "6/120", "4/80", "1/20", "1.50", "35", "20"),
        (14, "25.1", "0.0398", "0.04", "20/500", "6/150", "", "1/25", "", "30", "15"),
        (15, "31.6", "0.0316", "0.032", "20/630", "6/190", "", "1/32", "", "25", "10"),
        (16, "39.8", "0.0251", "0.025", "20/800", "6/240", "", "1/40", "", "20", "5"),
        (17, "50.1", "0.0200", "0.02", "20/1000", "6/300", "", "1/50", "", "15", "0"),
        (20, "100", "0.0100", "0.01", "20/2000", "6/600", "", "1/100", "0.30", "0", ""),
    ];
    assert_eq!(LADDER.len(), rows.len(), "every line is above");
    for (rung, (tenths, mar, exact, decimal, feet, metres, four, one, cpd, vas, score)) in
        LADDER.iter().zip(rows)
    {
        let log_mar = rung.log_mar();
        assert_eq!(rung.tenths, tenths);
        rounds_to(log_mar.mar().arcmin(), mar);
        rounds_to(log_mar.decimal(), exact);
        assert_eq!((rung.decimal, rung.feet, rung.metres), (decimal, feet, metres), "line {tenths}");
        assert_eq!((rung.four_metres.unwrap_or_default(), rung.one_metre), (four, one), "line {tenths}");
        rounds_to(visual_acuity_score(log_mar), vas);
        if !cpd.is_empty() {
            rounds_to(grating_cut_off(log_mar)?.frequency.cycles_per_degree(), cpd);
        }
        if !score.is_empty() {
            rounds_to(letter_score(log_mar), score);
        }
    }
    // Step of the ladder: Holladay 2004, J Cataract Refract Surg 30:287.
    rounds_to(LogMar::from_log(0.1).mar().arcmin(), "1.2589");
    Ok(())
}

/// Source: table of a university course in physiological optics (Rome): heights and strokes at 4 m; ISO 8596 as
/// quoted: gap of the ring of grade 1 at 5 m; the rest computed.
#[test]
fn sizes_of_letters_and_rings() -> Result<(), Error> {
    let of = |log, metres| optotype(LogMar::from_log(log), Length::from_m(metres));
    for (log, height, stroke) in [(0.0, "5.82", "1.16"), (1.0, "58.2", "11.64")] {
        let letter = of(log, 4.0)?;
        rounds_to(letter.height.mm(), height);
        rounds_to(letter.stroke.mm(), stroke);
    }
    rounds_to(of(0.0, 4.0)?.height.mm(), "5.8178");
    rounds_to(of(1.0, 4.0)?.height.mm(), "58.182");
    rounds_to(of(0.0, 5.0)?.stroke.mm(), "1.45");
    for (metres, gap) in [(4.0, "1.1636"), (5.0, "1.4544"), (6.0, "1.7453")] {
        let ring = of(0.0, metres)?;
        rounds_to(ring.stroke.mm(), gap);
        rounds_to(ring.stroke / ring.height, "0.2");
        rounds_to(ring.inner / ring.height, "0.6");
    }
    Ok(())
}

/// Source: Holladay 2004, J Cataract Refract Surg 30:287: 20/20 and 20/200 average to logMAR 0.5, 20/63.
#[test]
fn mean_of_two_eyes() -> Result<(), Error> {
    let of = |feet: f64| LogMar::of_angle(Angle::from_arcmin(feet / 20.0));
    let mean = mean_acuity(&[of(20.0), of(200.0)])?;
    rounds_to(mean.log_mar.log(), "0.5");
    rounds_to(20.0 * mean.log_mar.mar().arcmin(), "63");
    Ok(())
}

/// Source: geometry (computed): changes of distance that the other checks leave out.
#[test]
fn changes_of_distance() -> Result<(), Error> {
    for (design, test, printed) in [(0.4, 0.2, "0.301"), (4.0, 2.0, "0.301"), (0.4, 0.25, "0.204")] {
        let read = read_at(LogMar::ZERO, Length::from_m(design), Length::from_m(test))?;
        rounds_to(read.log_mar.log(), printed);
    }
    Ok(())
}

/// Source: definition of letter scoring (computed): the last line with a letter right, and 0.02 for each letter missed.
#[test]
fn letters_missed_and_letters_right() -> Result<(), Error> {
    let four_metres = Length::from_m(4.0);
    let chart = Chart::five_letters(LogMar::from_log(1.0), four_metres);
    // Lines 1.0 to 0.6 all right, 4 of 5 at 0.5, 2 of 5 at 0.4, none beyond: 31 letters; 0.4 and four missed.
    rounds_to(score_chart(chart, 31, four_metres)?.read.log_mar.log(), "0.48");
    rounds_to(0.4 + 0.02 * 4.0, "0.48");
    Ok(())
}
