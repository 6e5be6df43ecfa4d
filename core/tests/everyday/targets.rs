//! The table of everyday things.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::Why;
use arcminute_core::everyday::{ALL, EverydayDemand, Part, everyday_demand};
use arcminute_core::math;
use arcminute_core::unit::Length;
use proptest::prelude::*;

#[test]
fn print_over_distance_is_the_detail() {
    let inputs = (0..ALL.len(), 0.2..100.0, 0.5..10.0);
    holds(inputs, |(row, metres, reserve): (usize, f64, f64)| {
        let row = &ALL[row];
        let asked = match everyday_demand(row, Some(Length::from_m(metres)), reserve) {
            Ok(asked) => asked,
            Err(error) => {
                prop_assert_eq!(row.part, Part::Width, "{}: {}", row.id, error);
                prop_assert!(matches!(error.why, Why::NoSolution { .. }), "{}", error);
                return Ok(());
            }
        };
        vanishes("reserve", asked.to_reach().log() - math::log10(asked.detail().arcmin() / reserve), 1.0)?;
        if let EverydayDemand::Letter { print, .. } = asked {
            // 1 M is 5 minutes at 1 m: a hair more than five times 1 minute, by the tangent.
            let rule = print.m_units() / metres;
            let short = 1.0 - asked.detail().arcmin() / rule;
            let angle = rule * core::f64::consts::PI / 10_800.0;
            prop_assert!(short.abs() <= 1e-6 + angle * angle / 12.0, "{}: {short}", row.id);
        }
        shows_its_working(&asked)
    });
}

#[test]
fn nearer_things_ask_for_less_and_angles_for_the_same() {
    let inputs = (0..ALL.len(), 0.5..100.0, 1.01..4.0);
    holds(inputs, |(row, metres, nearer): (usize, f64, f64)| {
        let row = &ALL[row];
        let at = |metres| everyday_demand(row, Some(Length::from_m(metres)), 1.0).map(|asked| asked.detail());
        let (Ok(far), Ok(near)) = (at(metres), at(metres / nearer)) else {
            prop_assert_eq!(row.part, Part::Width, "{}", row.id);
            return Ok(());
        };
        if row.board().is_some() || row.angle().is_some() {
            agree(row.id, near.arcmin(), far.arcmin())
        } else {
            agree(row.id, (near / 2.0).tangent() / (far / 2.0).tangent(), nearer)
        }
    });
}
