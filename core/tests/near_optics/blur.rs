//! What blur costs, and how far a thing may be moved.

use super::{close, d, m};
use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::math;
use arcminute_core::optics::{
    Element, Sight, Train, blur_strength, blur_tolerance, blurred, depth_of_field_about, normal_eye_mar, view,
};
use arcminute_core::unit::{Angle, LogMar, Vergence};
use proptest::prelude::*;

#[test]
fn blur_tolerance_is_the_inverse_of_blur() {
    holds((0.5..100.0, 0.01..1.5, -6.0..6.0), |(mar, loss, cylinder): (f64, f64, f64)| {
        let own = Angle::from_arcmin(mar);
        let tolerance = blur_tolerance(own, LogMar::from_log(loss));
        agree("loss", blurred(own, tolerance.defocus, Vergence::ZERO).loss.log(), loss)?;
        agree("loss, other sign", blurred(own, -tolerance.defocus, Vergence::ZERO).loss.log(), loss)?;
        agree("rule", tolerance.trade_rule.dioptres(), mar / 10.0)?;
        let back = blurred(own, d(loss), d(cylinder));
        let again = blur_tolerance(own, back.loss).defocus;
        close("strength", again.dioptres(), back.strength.dioptres(), 1e-6)?;
        shows_its_working(&tolerance)?;
        shows_its_working(&back)
    });
}

#[test]
fn blur_against_its_closed_form() {
    holds((0.5..100.0, -8.0..8.0, -6.0..6.0), |(mar, sphere, cylinder): (f64, f64, f64)| {
        let seen = blurred(Angle::from_arcmin(mar), d(sphere), d(cylinder));
        let b = math::sqrt(sphere * sphere + cylinder * cylinder / 4.0);
        agree("strength", seen.strength.dioptres(), b)?;
        agree("the same", blur_strength(d(-sphere), d(cylinder)).dioptres(), b)?;
        let normal = 1.25 * (1.0 + 1.08 * b * b);
        agree("normal eye", normal_eye_mar(seen.strength).mar.arcmin(), normal)?;
        // The difference of two squares loses digits where there is little blur.
        let added = normal * normal - 1.25 * 1.25;
        vanishes("added", math::pow(seen.blur_term.arcmin(), 2.0) - added, normal * normal)?;
        agree(
            "combined",
            seen.mar.arcmin(),
            math::sqrt(mar * mar + math::pow(seen.blur_term.arcmin(), 2.0)),
        )?;
        prop_assert_eq!(seen.beyond_domain, 3.5 < b);
        Ok(())
    });
}

#[test]
fn more_blur_costs_more_and_low_acuity_loses_less() {
    let inputs = (0.5..100.0, 0.01..6.0, 1.001..3.0);
    holds(inputs, |(mar, b, factor): (f64, f64, f64)| {
        let loss = |mar: f64, b: f64| blurred(Angle::from_arcmin(mar), d(b), Vergence::ZERO).loss;
        prop_assert!(loss(mar, b) < loss(mar, b * factor), "more blur, more loss");
        prop_assert!(loss(mar * factor, b) < loss(mar, b), "an eye that sees less loses less");
        prop_assert!(LogMar::ZERO < loss(mar, b), "blur is never a gain");
        let bears =
            |mar: f64, loss: f64| blur_tolerance(Angle::from_arcmin(mar), LogMar::from_log(loss)).defocus;
        prop_assert!(bears(mar, 0.1) < bears(mar * factor, 0.1), "and bears more");
        prop_assert!(bears(mar, 0.1) < bears(mar, 0.1 * factor), "more for a greater loss");
        Ok(())
    });
}

/// A plus lens before the eye, a demand and a tolerance, all of it in front of the lens and none at infinity.
fn reading() -> impl Strategy<Value = (f64, f64, f64, f64)> {
    (2.0..30.0, 0.0..0.03, 0.0..6.0, 0.05..0.9).prop_map(
        |(power, vertex, demand, share): (f64, f64, f64, f64)| {
            let viewing = power + demand - vertex * power * demand;
            // No further than where a thing at infinity, or the lens itself, would be in focus.
            let most = (viewing / (1.0 - vertex * power).abs()).min(1.0 / vertex - demand);
            (power, vertex, demand, share * most)
        },
    )
}

#[test]
fn depth_of_field_against_its_closed_form() {
    holds(reading(), |(power, vertex, demand, e)| {
        let lens = Train::new([Element::Lens { power: d(power), clear_diameter: None }]).to_eye(m(vertex));
        let depth = depth_of_field_about(&lens, d(demand), d(e)).expect("in front of the lens");
        let viewing = |demand: f64| power + demand - vertex * power * demand;
        let print = |demand: f64| (1.0 - vertex * demand) / viewing(demand);
        agree("power", depth.equivalent_viewing_power.dioptres(), viewing(demand))?;
        agree("nearest", depth.nearest.m(), print(demand + e))?;
        let farthest = depth.farthest.expect("not at infinity");
        agree("farthest", farthest.m(), print(demand - e))?;
        agree("rule", depth.rule.m(), 2.0 * e / math::pow(viewing(demand), 2.0))?;
        let slant = (1.0 - vertex * power) * e;
        let whole = 2.0 * e / (math::pow(viewing(demand), 2.0) - slant * slant);
        close("whole", depth.range().unwrap_or_default().m(), whole, 1e-7)?;
        prop_assert!(depth.rule <= depth.range().unwrap_or_default() * (1.0 + 1e-9), "the rule is short");
        for (end, asks) in [(depth.nearest, demand + e), (farthest, demand - e)] {
            let seen = view(&lens, Sight::At(end)).focus_demand.dioptres();
            vanishes("at the end of the stretch", seen - asks, (demand + e) * viewing(demand) / 1e-2)?;
        }
        shows_its_working(&depth)
    });
}

#[test]
fn depth_of_field_grows_with_the_tolerance_and_comes_nearer_with_the_demand() {
    holds((reading(), 0.1..0.99), |((power, vertex, demand, e), share)| {
        let lens = Train::new([Element::Lens { power: d(power), clear_diameter: None }]).to_eye(m(vertex));
        let about = |demand: f64, e: f64| depth_of_field_about(&lens, d(demand), d(e)).expect("in focus");
        let (narrow, wide) = (about(demand, e * share), about(demand, e));
        prop_assert!(wide.nearest < narrow.nearest, "nearer with more tolerance");
        prop_assert!(narrow.farthest < wide.farthest, "and farther");
        prop_assert_eq!(about(demand, -e), wide);
        let nearer = about(demand + e * (1.0 - share), e * share);
        prop_assert!(nearer.nearest < narrow.nearest && nearer.farthest < narrow.farthest, "more demand");
        agree("the same near end", nearer.nearest.m(), wide.nearest.m())
    });
}
