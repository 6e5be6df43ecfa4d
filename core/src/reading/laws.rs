//! Laws of reading, on random input.

#![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]

use super::shortcuts::kestenbaum;
use super::*;
use crate::list::List;
use crate::unit::{Angle, Duration, Length, LogContrast, LogMar, PrintSize, ReadingSpeed};
use proptest::prelude::*;

const CASES: u32 = crate::cases::cases(10_000);

fn apart(a: f64, b: f64) -> f64 {
    (a / b - 1.0).abs()
}
fn m(size: f64) -> PrintSize {
    PrintSize::from_m_units(size)
}
fn wpm(speed: f64) -> ReadingSpeed {
    ReadingSpeed::from_words_per_minute(speed)
}
/// A linear curve; the critical size is 1.1 to 5 times the threshold.
fn linear() -> impl Strategy<Value = LinearCurve> {
    (10.0..300.0f64, 0.5..40.0f64, 1.1..5.0f64).prop_map(|(greatest, threshold, times)| LinearCurve {
        greatest: wpm(greatest),
        threshold: Angle::from_arcmin(threshold),
        critical: Angle::from_arcmin(threshold * times),
    })
}
fn logarithmic() -> impl Strategy<Value = LogCurve> {
    (10.0..300.0f64, -0.3..1.3f64, 2.0..15.0f64).prop_map(|(greatest, threshold, rise)| LogCurve {
        greatest: wpm(greatest),
        threshold: LogMar::from_log(threshold),
        rise,
    })
}
/// Any series: sizes in any order and repeated, times and errors of all kinds.
fn sentences() -> impl Strategy<Value = alloc::vec::Vec<Sentence>> {
    let trial = prop_oneof![
        4 => (0.5..120.0f64, 0..12u8).prop_map(|(seconds, errors)| Trial::Read {
            time: Duration::from_seconds(seconds),
            errors,
        }),
        1 => Just(Trial::NotRead),
    ];
    let one = ((-3..20i8), trial)
        .prop_map(|(tenths, trial)| Sentence { size: LogMar::from_log(f64::from(tenths) / 10.0), trial });
    prop::collection::vec(one, 0..30)
}
/// A series whose speeds are given, a tenth of a log apart.
fn of_speeds(largest: f64, speeds: &[f64]) -> Series {
    let mut sizes = List::new();
    for (step, speed) in speeds.iter().enumerate() {
        let size = LogMar::from_log(largest - step as f64 / 10.0);
        sizes.try_push(SizeRead { size, speed: wpm(*speed), sentences: 1 }).expect("few sizes");
    }
    Series { sizes }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(CASES))]

    #[test]
    fn size_and_speed_are_inverse(linear in linear(), log in logarithmic(), share in 0.01..0.95f64) {
        let size = linear.size_for(share).expect("in range").size;
        let back = linear.speed_at(size).expect("in range").speed / linear.greatest;
        prop_assert!(apart(back, share) < 1e-9, "linear: {} came back as {}", share, back);
        let size = log.size_for(share).expect("in range").size;
        let back = log.speed_at(size).expect("in range").speed / log.greatest;
        prop_assert!(apart(back, share) < 1e-9, "logarithmic: {} came back as {}", share, back);
    }

    #[test]
    fn larger_print_is_never_slower(
        linear in linear(), log in logarithmic(), size in 0.5..190.0f64, more in 1.0..5.0f64,
    ) {
        let at = |size| linear.speed_at(Angle::from_arcmin(size)).expect("in range").speed;
        prop_assert!(at(size) <= at(size * more), "linear: {} against {} times it", size, more);
        let at = |size: f64| log.speed_at(LogMar::from_log(crate::math::log10(size))).expect("in range").speed;
        prop_assert!(at(size) <= at(size * more), "logarithmic: {} against {} times it", size, more);
    }

    #[test]
    fn at_its_critical_size_the_linear_curve_has_90_percent(linear in linear()) {
        let share = linear.speed_at(linear.critical).expect("in range").speed / linear.greatest;
        prop_assert!((share - 0.899_741_156).abs() < 1e-9, "{}", share);
        prop_assert_eq!(linear.speed_at(linear.threshold).expect("in range").speed, ReadingSpeed::ZERO);
    }

    #[test]
    fn the_rule_of_the_reciprocal_is_the_need_without_reserve(log in -0.3..2.0f64, goal in 0.2..20.0f64, reserve in 0.5..10.0f64) {
        let acuity = LogMar::from_log(log);
        let plain = kestenbaum(acuity, m(1.0), 1.0).expect("in range");
        prop_assert!(apart(plain.rule.dioptres(), plain.exact.evp.dioptres()) < 1e-12, "{:?}", plain);
        let other = kestenbaum(acuity, m(goal), reserve).expect("in range");
        prop_assert!((other.deviation - (goal / reserve - 1.0)).abs() < 1e-9 * goal.max(1.0), "{:?}", other);
    }

    #[test]
    fn power_from_print_and_from_acuity_agree(
        threshold in 0.3..20.0f64, cm in 10.0..100.0f64, goal in 0.2..20.0f64, reserve in 0.5..10.0f64,
    ) {
        let distance = Length::from_cm(cm);
        let from_print = needed_viewing(m(threshold), distance, m(goal), reserve).expect("in range");
        let acuity = crate::print::print_angle(m(threshold), distance).expect("in range").log_mar;
        if let Ok(from_acuity) = power_from_acuity(acuity, m(goal), reserve) {
            prop_assert!(apart(from_print.evp.dioptres(), from_acuity.evp.dioptres()) < 1e-9);
            prop_assert!(apart(from_print.evd.mm(), from_acuity.evd.mm()) < 1e-9);
        }
        // Through the distance found, the goal is the reserve above the threshold.
        let seen = goal / from_print.evd.m();
        prop_assert!(apart(seen / (threshold / distance.m()), reserve) < 1e-9, "{:?}", from_print);
        // The near-acuity inverse: with +2.50 at 40 cm it is the threshold times 2.5 over the goal.
        let forty = needed_viewing(m(threshold), Length::from_cm(40.0), m(goal), 1.0).expect("in range");
        prop_assert!(apart(forty.evp.dioptres(), threshold * 2.5 / goal) < 1e-9, "{:?}", forty);
    }

    #[test]
    fn reserves_are_inverse_and_multiply(threshold in 0.5..5.0f64, first in 0.5..3.0f64, second in 0.5..3.0f64) {
        let print = print_with_reserve(m(threshold), first).expect("in range").print;
        let back = acuity_reserve(print, m(threshold)).expect("in range");
        prop_assert!(apart(back.reserve, first) < 1e-12, "{:?}", back);
        prop_assert!((back.log.log() - crate::math::log10(first)).abs() < 1e-12, "{:?}", back);
        let both = print_with_reserve(print, second).expect("in range").print;
        prop_assert!(apart(both / m(threshold), first * second) < 1e-12);
    }

    #[test]
    fn contrast_reserve_is_one_at_the_threshold(log in 0.0..2.5f64, more in 0.0..0.9f64) {
        let sensitivity = LogContrast::from_log(log);
        let threshold = sensitivity.threshold();
        let at = contrast_reserve(threshold, sensitivity).expect("in range");
        prop_assert!(apart(at.reserve, 1.0) < 1e-12, "{:?}", at);
        let better = contrast_reserve(threshold, LogContrast::from_log(log.min(2.5) + more.min(2.6 - log)));
        let better = better.expect("in range");
        prop_assert!(at.reserve <= better.reserve + 1e-12 && at.limit <= better.limit);
    }

    #[test]
    fn any_series_has_an_answer(sentences in sentences()) {
        let Ok(series) = series(&sentences) else {
            return Err(TestCaseError::fail("23 sizes fit"));
        };
        let falls = series.sizes.windows(2).all(|pair| pair[1].size < pair[0].size);
        prop_assert!(falls, "in order, each once: {:?}", series);
        let count: usize = series.sizes.iter().map(|at| usize::from(at.sentences)).sum();
        prop_assert_eq!(count, sentences.len(), "none is lost");
        if let Some(threshold) = series.threshold() {
            let below = series.sizes.iter().filter(|at| at.size < threshold);
            prop_assert!(below.clone().all(|at| at.speed == ReadingSpeed::ZERO), "{:?}", series);
        }
        if let Ok(found) = plateau(&series) {
            let (Critical::At(smallest) | Critical::AtMost(smallest)) = found.critical;
            let inside = |at: &&SizeRead| smallest <= at.size && at.size <= found.largest;
            let run: alloc::vec::Vec<_> = series.sizes.iter().filter(inside).collect();
            prop_assert_eq!(run.len(), usize::from(found.sizes));
            let mean = run.iter().map(|at| at.speed.words_per_minute()).sum::<f64>() / run.len() as f64;
            prop_assert!(apart(found.greatest.words_per_minute(), mean) < 1e-9, "{:?}", found);
            for at in series.sizes.iter().filter(|at| !inside(at)) {
                prop_assert!(at.speed < found.limit, "{:?} is as fast as {:?}", at, found);
            }
            let fastest = series.fastest().expect("it was read").speed;
            prop_assert!(found.greatest <= fastest + wpm(1e-6), "{:?}", found);
        }
        if let Some(fastest) = series.fastest() {
            let greatest = fastest.speed.max(wpm(0.1)).min(wpm(2000.0));
            let crossing = |share| critical_by_share(&series, greatest, share).expect("in range");
            if let (Ok(eighty), Ok(ninety)) = (crossing(0.8), crossing(0.9)) {
                prop_assert!(eighty.critical <= ninety.critical, "{:?} and {:?}", eighty, ninety);
                prop_assert!(eighty.smaller.size <= eighty.critical && eighty.critical <= eighty.larger.size);
            }
        }
    }

    #[test]
    fn the_order_of_sentences_does_not_matter(sentences in sentences(), turn in 0..30usize) {
        let mut turned = sentences.clone();
        if !turned.is_empty() {
            let by = turn % turned.len();
            turned.rotate_left(by);
        }
        let (one, other) = (series(&sentences).expect("fits"), series(&turned).expect("fits"));
        prop_assert_eq!(one.sizes.len(), other.sizes.len());
        for (one, other) in one.sizes.iter().zip(&other.sizes) {
            prop_assert_eq!((one.size, one.sentences), (other.size, other.sentences));
            prop_assert!((one.speed - other.speed).abs() <= wpm(1e-9 * one.speed.words_per_minute()));
        }
    }

    #[test]
    fn critical_size_by_share_lies_on_a_known_curve(curve in logarithmic(), share in 0.3..0.95f64) {
        // Sizes a tenth apart from well on the plateau to below the threshold; between them the curve bends by little.
        let largest = (curve.threshold.log() + 1.6).min(2.9);
        let speeds: alloc::vec::Vec<f64> = (0..20u8)
            .map(|step| {
                let size = LogMar::from_log(largest - f64::from(step) / 10.0);
                curve.speed_at(size.max(LogMar::from_log(-0.5))).expect("in range").speed.words_per_minute()
            })
            .collect();
        let series = of_speeds(largest, &speeds);
        let found = critical_by_share(&series, curve.greatest, share).expect("in range");
        let wanted = curve.size_for(share).expect("in range").size;
        if let Ok(found) = found {
            prop_assert!((found.critical - wanted).abs().log() < 0.1, "{:?} for {:?}", found.critical, wanted);
        } else {
            prop_assert!(largest < wanted.log() + 0.1, "{:?}", found);
        }
        // A plateau that is found ends where the curve still has four fifths of its mean.
        if let Ok(found) = plateau(&series) {
            let (Critical::At(smallest) | Critical::AtMost(smallest)) = found.critical;
            let there = curve.speed_at(smallest).expect("in range").speed;
            prop_assert!(found.greatest * 0.8 <= there + wpm(1e-6), "{:?}", found);
            prop_assert!(found.greatest <= curve.greatest + wpm(1e-6), "{:?}", found);
        }
    }

    #[test]
    fn positions_cover_the_line_and_one_fewer_do_not(
        line in 1.0..200.0f64, seen in 1.0..200.0f64, overlap_share in 0.0..0.8f64,
    ) {
        let overlap = seen * overlap_share;
        let found = positions(line, seen, overlap).expect("in range").positions;
        let covered = |count: f64| seen + (count - 1.0) * (seen - overlap);
        prop_assert!(line <= covered(found) + 1e-9, "{} positions of {} for {}", found, seen, line);
        prop_assert!(found == 1.0 || covered(found - 1.0) < line, "{} are too many", found);
    }

    #[test]
    fn characters_are_as_many_as_fit(mm in 0.0..500.0f64, size in 0.2..20.0f64) {
        let seen = characters(Length::from_mm(mm), m(size)).expect("in range");
        prop_assert!((seen.characters * 1.3 * size - mm).abs() < 1e-9 * mm.max(1.0));
        let larger = characters(Length::from_mm(mm), m(size * 2.0)).expect("in range");
        prop_assert!((larger.characters * 2.0 - seen.characters).abs() < 1e-9 * seen.characters.max(1.0));
        prop_assert!(larger.good_for <= seen.good_for);
    }

    #[test]
    fn a_curve_put_in_comes_out(greatest in 20.0..250.0f64, threshold in -0.2..1.2f64, rise in 3.0..12.0f64) {
        let put_in = LogCurve { greatest: wpm(greatest), threshold: LogMar::from_log(threshold), rise };
        let largest = threshold + 1.25;
        let speeds: alloc::vec::Vec<f64> = (0..16u8)
            .map(|step| {
                let size = LogMar::from_log((largest - f64::from(step) / 10.0).max(-0.5));
                put_in.speed_at(size).expect("in range").speed.words_per_minute()
            })
            .collect();
        let fit = fit_curve(&of_speeds(largest, &speeds)).expect("a curve was put in");
        let (found, wanted) = (fit.curve.size_for(0.8), put_in.size_for(0.8));
        let apart = (found.expect("in range").size - wanted.expect("in range").size).log();
        prop_assert!(apart.abs() < 2e-3, "{:?} gave {:?}", put_in, fit);
    }
}
