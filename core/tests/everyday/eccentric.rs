//! Seeing beside the fovea.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::eccentric::{best_case, critical_print, crowding, laws};
use arcminute_core::unit::Angle;
use proptest::prelude::*;

fn degrees(degrees: f64) -> Angle {
    Angle::from_degrees(degrees)
}

/// Two eccentricities, the smaller first.
fn two() -> impl Strategy<Value = (f64, f64)> {
    (0.0..60.0, 0.0..60.0).prop_map(|(a, b): (f64, f64)| (a.min(b), a.max(b)))
}

#[test]
fn every_law_rises_on_a_straight_line() {
    holds((two(), 0.0..1.0), |((near, far), part)| {
        for law in laws() {
            let at = |e: f64| law.mar_at(degrees(e)).arcmin();
            prop_assert!(at(near) < at(far) || far <= near, "{}: {near} {far}", law.id);
            let between = at(near + part * (far - near));
            vanishes(law.id, between - at(near) - part * (at(far) - at(near)), at(60.0))?;
        }
        Ok(())
    });
}

#[test]
fn the_laws_are_their_published_forms() {
    holds(0.0..60.0, |e: f64| {
        let [song, anstis, halved] = laws();
        agree("Song", song.mar_at(degrees(e)).arcmin(), 12.0 * 0.029 * (e + 2.72))?;
        vanishes("Anstis", anstis.mar_at(degrees(e)).arcmin() - 12.0 * (0.046 * e - 0.031), 1.0 + e)?;
        agree("Ludvigh", halved.mar_at(degrees(e)).arcmin(), 1.0 + e / 1.75)
    });
}

#[test]
fn farther_out_a_best_case_is_never_better() {
    holds(two(), |(near, far)| {
        let (near, far) = (best_case(degrees(near)), best_case(degrees(far)));
        let (near, far) = (near.expect("possible"), far.expect("possible"));
        prop_assert!(near.worst <= far.worst, "worst end: {near:?} {far:?}");
        // The best end may fall where a law joins, at 5 degrees, and nowhere else.
        let same_laws = near.by_law.iter().flatten().count() == far.by_law.iter().flatten().count();
        prop_assert!(!same_laws || near.best <= far.best, "best end: {near:?} {far:?}");
        prop_assert!(near.best <= near.worst, "{near:?}");
        shows_its_working(&near)
    });
}

#[test]
fn letters_and_print_grow_with_eccentricity() {
    holds(two(), |(near, far)| {
        let spacing = |e: f64| crowding(degrees(e)).expect("possible");
        let print = |e: f64| critical_print(degrees(e)).expect("possible");
        prop_assert!(spacing(near).spacing <= spacing(far).spacing, "spacing");
        prop_assert!(print(near).size <= print(far).size, "print");
        let at = spacing(far);
        prop_assert!(at.least < at.spacing && at.spacing < at.most, "{at:?}");
        agree("spacing", at.spacing.degrees(), 0.3 * far + 0.045)?;
        agree("print", print(far).size.degrees(), 0.16 + 2.06 * far / 20.0)?;
        shows_its_working(&at)?;
        shows_its_working(&print(near))
    });
}
