//! Letters, boards, signs and faces.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::math;
use arcminute_core::scene::{
    CycleBand, SIGN_RULES, USUAL_CYCLES, acuity_for_letter, board_acuity, face_range, letter_height,
    reading_distance, sign_letter,
};
use arcminute_core::unit::{Angle, Length, LogMar};
use proptest::prelude::*;

fn log(log: f64) -> LogMar {
    LogMar::from_log(log)
}

#[test]
fn distance_height_and_acuity_lead_back_to_each_other() {
    holds((0.5..100.0, -0.3..1.5, 0.5..4.0), |(metres, acuity, reserve): (f64, f64, f64)| {
        let letters = letter_height(Length::from_m(metres), log(acuity), reserve).expect("possible");
        let read = reading_distance(letters.height, log(acuity), reserve).expect("possible");
        agree("distance", read.distance.m(), metres)?;
        let asked = acuity_for_letter(letters.height, read.distance, reserve).expect("possible");
        vanishes("acuity", asked.demand.to_reach.log() - acuity, 1.0)?;
        let by_rule = reading_distance(letters.by_rule, log(acuity), reserve).expect("possible");
        agree("distance by rule", by_rule.by_rule.m(), metres)?;
        let asked = acuity_for_letter(letters.by_rule, Length::from_m(metres), reserve).expect("possible");
        agree("acuity by rule", asked.mar_by_rule.arcmin(), math::pow(10.0, acuity))?;
        shows_its_working(&letters)?;
        shows_its_working(&read)?;
        shows_its_working(&asked)
    });
}

#[test]
fn larger_letters_are_read_farther_and_worse_eyes_and_reserves_bring_nearer() {
    let inputs = (1.0..1000.0, -0.3..2.9, 0.5..9.0, 1.0001..1.1);
    holds(inputs, |(mm, acuity, reserve, more): (f64, f64, f64, f64)| {
        let read = |mm, acuity, reserve| {
            reading_distance(Length::from_mm(mm), log(acuity), reserve).expect("possible").distance
        };
        let here = read(mm, acuity, reserve);
        agree("as the height", read(mm * more, acuity, reserve) / here, more)?;
        prop_assert!(read(mm, acuity + math::log10(more), reserve) < here, "acuity");
        prop_assert!(read(mm, acuity, reserve * more) < here, "reserve");
        agree(
            "acuity and reserve are one",
            read(mm, acuity + math::log10(more), reserve).m(),
            read(mm, acuity, reserve * more).m(),
        )
    });
}

/// With a the detail in radians and x = a/2, exact over rule is x/tan x: between 1 − x²/2 and 1 − x²/3 up to a right angle.
#[test]
fn the_short_rule_is_long_by_a_bounded_share() {
    holds((1.0..1000.0, -0.3..3.0, 0.5..9.9), |(mm, acuity, reserve): (f64, f64, f64)| {
        let read = reading_distance(Length::from_mm(mm), log(acuity), reserve).expect("possible");
        let half = read.detail.radians() / 2.0;
        let short = 1.0 - read.distance / read.by_rule;
        let (least, most) = (half * half / 3.0, half * half / 2.0);
        prop_assert!(least - 1e-12 <= short && short <= most + 1e-12, "{short} not in {least} to {most}");
        let metres = Length::from_m(mm / 10.0 + 0.1);
        let letters = letter_height(metres, log(acuity), reserve).expect("possible");
        agree("height", letters.by_rule / letters.height, read.distance / read.by_rule)
    });
}

#[test]
fn a_reserve_is_taken_from_the_acuity() {
    let inputs = (0.2..1000.0, 0.2..100.0, 0.5..2.0);
    holds(inputs, |(mm, metres, reserve): (f64, f64, f64)| {
        let (height, distance) = (Length::from_mm(mm), Length::from_m(metres));
        let bare = acuity_for_letter(height, distance, 1.0).expect("possible").demand.to_reach;
        let with = acuity_for_letter(height, distance, reserve).expect("possible").demand.to_reach;
        prop_assume!(-0.5 < bare.log() && bare.log() < 3.0);
        let board = board_acuity(bare, reserve).expect("possible");
        vanishes("board", board.to_reach.log() - with.log(), 1.0)?;
        prop_assume!(-0.5 < board.to_reach.log() && board.to_reach.log() < 3.0);
        let back = board_acuity(board.to_reach, 1.0 / reserve).expect("possible");
        vanishes("there and back", back.to_reach.log() - bare.log(), 1.0)?;
        prop_assert!((1.0 < reserve) == (board.to_reach < board.demand), "{board:?}");
        shows_its_working(&board)
    });
}

#[test]
fn a_rule_asks_for_the_same_acuity_from_everywhere() {
    holds((0usize..4, 0.2..200.0, 0.2..200.0), |(rule, one, other): (usize, f64, f64)| {
        let sign = |metres| sign_letter(&SIGN_RULES[rule], Length::from_m(metres)).expect("possible");
        let (one, other) = (sign(one), sign(other));
        vanishes("acuity", (one.asked.demand.to_reach - other.asked.demand.to_reach).log(), 1.0)?;
        agree("height", one.height / other.height, one.distance / other.distance)?;
        shows_its_working(&one)
    });
}

#[test]
fn a_face_fills_its_cycles_where_it_is_resolved() {
    let inputs = (-0.3..2.3, 60.0..290.0, 1.0..20.0, 1.0..2.0, 0.001..0.2);
    holds(inputs, |(acuity, mm, fewest, times, more): (f64, f64, f64, f64, f64)| {
        let band = CycleBand { fewest, most: fewest * times, ..USUAL_CYCLES };
        let mar = math::pow(10.0, acuity);
        prop_assume!(mar * 2.0 * band.most < 10_799.0);
        let width = Length::from_mm(mm);
        let range = face_range(log(acuity), width, &band).expect("possible");
        for (at, cycles) in [(range.nearer, band.most), (range.farther, band.fewest)] {
            agree("angle", at.angle.degrees(), cycles * mar / 30.0)?;
            agree("filled", Angle::subtended(width, at.distance).arcmin(), 2.0 * cycles * mar)?;
        }
        prop_assert!(range.nearer.distance <= range.farther.distance, "{range:?}");
        let ratio = range.farther.distance / range.nearer.distance;
        prop_assert!(times * (1.0 - 1e-9) <= ratio, "tangents grow faster than angles: {ratio} {times}");
        let wider = face_range(log(acuity), width * (1.0 + more / 10.0), &band).expect("possible");
        agree("as the width", wider.nearer.distance / range.nearer.distance, 1.0 + more / 10.0)?;
        if let Ok(worse) = face_range(log(acuity + more), width, &band) {
            prop_assert!(worse.farther.distance < range.farther.distance, "acuity brings nearer");
        }
        shows_its_working(&range)
    });
}

#[test]
fn far_faces_follow_the_small_angle() {
    holds((-0.3..1.0, 60.0..300.0), |(acuity, mm): (f64, f64)| {
        let range = face_range(log(acuity), Length::from_mm(mm), &USUAL_CYCLES).expect("possible");
        for at in [range.nearer, range.farther] {
            let small =
                mm / 1000.0 * 10_800.0 / core::f64::consts::PI / (2.0 * at.cycles * math::pow(10.0, acuity));
            let short = 1.0 - at.distance.m() / small;
            let half = at.angle.radians() / 2.0;
            let bound = half * half / 2.0;
            prop_assert!(0.0 <= short + 1e-12 && short <= bound + 1e-12, "{short} beyond {bound}");
        }
        Ok(())
    });
}
