//! Near spectacles against hand-worked values and laws.

use super::{
    Centration, NearLens, NearLensFit, NearSpectacles, NearSpectaclesRequest, PrismRuleKind,
    fit_near_spectacles,
};
use crate::convergence::prism_for_target;
use crate::error::Error;
use crate::explain::Explain;
use crate::fit::{Eye, Frame};
use crate::refraction::Refraction;
use crate::unit::{Angle, Length, Prism, Vergence};
use alloc::string::ToString;
use alloc::vec::Vec;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}
fn d(value: f64) -> Vergence {
    Vergence::from_dioptres(value)
}
fn frame() -> Frame {
    Frame::new(mm(48.0), mm(36.0), mm(20.0), mm(8.0)).expect("a usual frame")
}
fn lens(add: f64) -> NearLens {
    NearLens::of_add(mm(32.0), mm(18.0), d(add))
}
/// A pair of +8 D, PD 64, print in its focus.
fn usual() -> NearSpectaclesRequest {
    NearSpectaclesRequest::usual(frame(), Some(lens(8.0)), Some(lens(8.0)), mm(125.0))
}
fn right(near: &NearSpectacles) -> &NearLensFit {
    near.lens(Eye::Right).expect("asked for")
}

/// Every combination of the values that change a lens.
fn grid() -> Vec<NearSpectaclesRequest> {
    let mut requests = Vec::new();
    for (sphere, cylinder, axis) in
        [(8.0, 0.0, None), (12.5, -2.5, Some(30)), (4.0, 1.25, Some(180)), (16.0, 0.0, None)]
    {
        for centration in [Centration::NearCrossing, Centration::DistancePd, Centration::Given(mm(20.0))] {
            for (print, vertex, lean, wrap) in
                [(60.0, 10.0, 0.0, 0.0), (100.0, 13.0, 8.0, 5.0), (200.0, 17.0, 12.0, -3.0)]
            {
                let asked = NearLens {
                    power: Refraction::of(d(sphere), d(cylinder), axis).expect("possible"),
                    base_in: Prism::from_prism_dioptres(sphere / 2.0),
                    centration,
                    centre_height: (lean > 10.0).then(|| mm(15.0)),
                    ..lens(sphere)
                };
                requests.push(NearSpectaclesRequest {
                    vertex: mm(vertex),
                    pantoscopic: Angle::from_degrees(lean),
                    face_form: Angle::from_degrees(wrap),
                    print_to_lens: mm(print),
                    left: Some(NearLens { monocular_pd: mm(29.5), ..asked }),
                    right: Some(asked),
                    ..usual()
                });
            }
        }
    }
    requests
}

#[test]
fn working_agrees() -> Result<(), Error> {
    for request in grid() {
        let near = fit_near_spectacles(&request)?;
        let steps = near.steps();
        for step in &steps {
            assert_eq!(step.check(), Ok(()), "{request:?}");
        }
        let of_lenses: usize =
            [&near.right, &near.left].into_iter().flatten().map(|lens| lens.steps().len()).sum();
        assert_eq!(steps.len(), of_lenses + 4, "and four of both together");
    }
    Ok(())
}

/// Worked by hand for PD 64, +8 D, print at 125 mm, s 27: bare 3200/152, at 40 cm 3200/427. Print in the focus leaves the
/// lens in parallel, so that an eye turns in by `0.1·p_c·F − δ`; the rules take 8, 10 and 5 off.
#[test]
fn prism_by_every_rule_beside_the_exact_demand() -> Result<(), Error> {
    let crossing = 32.0 * 125.0 / 152.0;
    for (centration, centre) in [
        (Centration::NearCrossing, crossing),
        (Centration::DistancePd, 32.0),
        (Centration::Given(mm(20.0)), 20.0),
    ] {
        let asked = NearLens { centration, base_in: Prism::from_prism_dioptres(6.0), ..lens(8.0) };
        let near = fit_near_spectacles(&NearSpectaclesRequest { right: Some(asked), ..usual() })?;
        let lens = right(&near);
        let close = |what: &str, got: Prism, wanted: f64| {
            assert!(
                (got.prism_dioptres() - wanted).abs() < 1e-9,
                "{what}, {centration:?}: {got:?}, wanted {wanted}"
            );
        };
        close("bare", lens.convergence.bare, 3200.0 / 152.0);
        close("aim", lens.target.bare, 3200.0 / 427.0);
        let undone = 0.8 * centre;
        close("with 6", lens.convergence.per_eye, undone - 6.0);
        close("relief", lens.convergence.relief, 3200.0 / 152.0 - undone + 6.0);
        close("exact", lens.exact_prism.base_in, undone - 3200.0 / 427.0);
        for (rule, (kind, base_in)) in lens.rules.iter().zip([
            (PrismRuleKind::EachEyeAdd, 8.0),
            (PrismRuleKind::EachEyeAddAndTwo, 10.0),
            (PrismRuleKind::AddAndTwoInTotal, 5.0),
        ]) {
            assert_eq!(rule.kind, kind);
            close("rule", rule.base_in, base_in);
            close("rule leaves", rule.leaves.per_eye, undone - base_in);
        }
        assert_eq!(lens.optical_centre.y, mm(18.0));
        assert!((lens.optical_centre.x.mm() - centre).abs() < 1e-9, "{lens:?}");
        // Centred for far: 8 · 0.5684 cm.
        close("induced", lens.inset.induced_base_out, 8.0 * (32.0 - crossing) / 10.0);
    }
    Ok(())
}

/// Law: with the optical centre at the near crossing the lens turns nothing, so an eye turns in as a bare one does.
#[test]
fn centred_at_the_crossing_there_is_no_prism() -> Result<(), Error> {
    for request in grid() {
        for lens in [&fit_near_spectacles(&request)?.right, &fit_near_spectacles(&request)?.left]
            .into_iter()
            .flatten()
        {
            // Base-in of the lens and of its place together, against what the slope of the ray changes by.
            let before = 100.0 * (lens.convergence.crossing / request.print_to_lens);
            let turned = before - lens.convergence.per_eye.prism_dioptres();
            let of_place = lens.prism_by_place.base_in.prism_dioptres();
            let worked = lens.asked.base_in.prism_dioptres();
            assert!(
                (turned - of_place - worked).abs() < 1e-9,
                "{turned} is {of_place} and {worked}: {lens:?}"
            );
            let plain = NearLens { base_in: Prism::ZERO, centration: Centration::NearCrossing, ..lens.asked };
            let plain = NearSpectaclesRequest { right: Some(plain), left: None, ..request };
            let near = fit_near_spectacles(&plain)?;
            assert!(right(&near).convergence.relief.abs().prism_dioptres() < 1e-9, "{near:?}");
            assert!(right(&near).prism_by_place.base_in.abs().prism_dioptres() < 1e-9, "{near:?}");
        }
    }
    Ok(())
}

/// Law: where lens and addition are one, the rules of the addition are those of the power.
#[test]
fn the_rules_are_those_of_the_power_where_it_is_the_addition() -> Result<(), Error> {
    let near = fit_near_spectacles(&usual())?;
    let lens = right(&near);
    let by_power = prism_for_target(lens.convergence.eye, lens.convergence.print_to_lens, lens.target.bare)?;
    let [_, each, total] = lens.rules;
    assert!((each.base_in - by_power.each_eye_rule).abs().prism_dioptres() < 1e-12, "{by_power:?}");
    assert!((total.base_in - by_power.in_total_rule).abs().prism_dioptres() < 1e-12, "{by_power:?}");
    assert!(
        (each.leaves.per_eye - by_power.each_eye_rule_leaves).abs().prism_dioptres() < 1e-9,
        "{by_power:?}"
    );
    Ok(())
}

/// By hand: +12 D of addition in an eye that needs nothing for far stays +12 D from 13 to 10 mm, as print in its focus
/// leaves it in parallel; moved as a lens for far it would be +12.448. An eye of −10 D with an addition of +12 D: −10 D at 13
/// mm are −9.709 D at 10 mm, so +2.291 D.
#[test]
fn only_the_light_that_leaves_is_moved() -> Result<(), Error> {
    let focus = mm(1000.0 / 12.0);
    for (sphere, worn, as_for_far) in [(12.0, 12.0, 12.448), (2.0, 2.291, 2.012)] {
        let asked = NearLens { power: Refraction::of_sphere(d(sphere)), ..lens(12.0) };
        let request =
            NearSpectaclesRequest { right: Some(asked), vertex: mm(10.0), print_to_lens: focus, ..usual() };
        let near = fit_near_spectacles(&request)?;
        let moved = &right(&near).moved;
        assert!((moved.worn.sphere.dioptres() - worn).abs() < 5e-4, "{moved:?}");
        assert!((moved.as_for_far.to.sphere.dioptres() - as_for_far).abs() < 5e-4, "{moved:?}");
    }
    Ok(())
}

/// By hand: +8 D at 10 degrees is +8.08 +0.25 (fitting reference, section 1.4), so 0.332 D in the meridian that changes
/// most; with its centre 27·sin 10° = 4.689 mm lower the axis goes through the rotation centre and nothing is tilted.
#[test]
fn a_lower_centre_undoes_the_pantoscopic_angle() -> Result<(), Error> {
    let leaning = NearSpectaclesRequest { pantoscopic: Angle::from_degrees(10.0), ..usual() };
    let near = fit_near_spectacles(&leaning)?;
    let lens = right(&near);
    assert!((lens.tilt.degrees() - 10.0).abs() < 1e-9, "{lens:?}");
    assert!((lens.pantoscopic_effect.sphere.dioptres() - 8.08).abs() < 0.005, "{lens:?}");
    assert!((lens.pantoscopic_effect.cylinder.dioptres() - 0.25).abs() < 0.005, "{lens:?}");
    assert!((lens.tilt_change[0].dioptres() - 0.332).abs() < 5e-4, "{lens:?}");
    assert!((18.0 - lens.centre_for_tilt.mm() - 4.689).abs() < 5e-4, "{lens:?}");
    let lowered = NearLens { centre_height: Some(lens.centre_for_tilt), ..lens.asked };
    let near = fit_near_spectacles(&NearSpectaclesRequest { right: Some(lowered), ..leaning })?;
    assert!(right(&near).tilt_change[0].dioptres() < 1e-12, "{near:?}");
    assert_eq!(right(&near).optical_centre.y, lens.centre_for_tilt);
    Ok(())
}

/// By hand, PD 64: both bare eyes 42.1, near PD 64·125/152; 7 degrees of face form take 0.239 mm off 32 (32·(1 − cos 7°)).
#[test]
fn the_two_lenses_together() -> Result<(), Error> {
    let request = NearSpectaclesRequest { face_form: Angle::from_degrees(7.0), ..usual() };
    let near = fit_near_spectacles(&request)?;
    let both = near.both.expect("two lenses");
    assert!((both.near_pd.mm() - 52.632).abs() < 5e-4, "{both:?}");
    assert_eq!(both.near_pd, both.centres_apart, "centred at the crossings");
    assert!((both.bare.prism_dioptres() - 42.105).abs() < 5e-4, "{both:?}");
    assert!((both.turned_in.prism_dioptres() - 42.105).abs() < 5e-4, "{both:?}");
    assert!((right(&near).face_form.difference.mm() - 0.239).abs() < 5e-4, "{near:?}");
    assert!((right(&near).in_focus_at.cm() - 12.5).abs() < 1e-9, "{near:?}");
    assert!((right(&near).in_focus_at.inches() - 4.921).abs() < 5e-4, "{near:?}");
    let one = fit_near_spectacles(&NearSpectaclesRequest { left: None, ..request })?;
    assert_eq!((one.both, one.lens(Eye::Left)), (None, None));
    Ok(())
}

/// By hand: A 48, B 36, corners 8, bridge 20: box centre 34 and 18. Optical centre at the PD, 2 mm in: 2·(√(18² + 10²) + 8)
/// and 2 mm; by the rule ED 2·(√(16² + 10²) + 8), 4 and 2 mm. To the nearest edge 18 mm.
#[test]
fn the_blank_and_the_room() -> Result<(), Error> {
    let asked = NearLens { centration: Centration::DistancePd, ..lens(8.0) };
    let near = fit_near_spectacles(&NearSpectaclesRequest { right: Some(asked), ..usual() })?;
    let lens = right(&near);
    assert!((lens.blank.diameter.mm() - 59.183).abs() < 5e-4, "{:?}", lens.blank);
    assert!((lens.blank.diameter_by_rule.mm() - 59.736).abs() < 5e-4, "{:?}", lens.blank);
    assert!((lens.room.mm() - 18.0).abs() < 1e-9, "{lens:?}");
    Ok(())
}

#[test]
fn what_is_not_possible_is_told() {
    let told = |request: NearSpectaclesRequest| {
        let error = fit_near_spectacles(&request).expect_err("not possible");
        (error.to_string(), error.hint().to_string())
    };
    let with = |lens: NearLens| NearSpectaclesRequest { right: Some(lens), ..usual() };
    let none = NearSpectaclesRequest { right: None, left: None, ..usual() };
    for (request, message, hint) in [
        (none, "near spectacles `no lens` needs a lens before one eye at least", "type for example `+8.00`"),
        (with(lens(0.0)), "addition of the spectacles `0 D` is not possible", "use 0.25 to 40 D"),
        (
            with(NearLens { centration: Centration::Given(mm(70.0)), ..lens(8.0) }),
            "optical centre from the midline `70 mm` is not possible",
            "use -20 to 60 mm",
        ),
        (
            with(NearLens { centre_height: Some(mm(80.0)), ..lens(8.0) }),
            "optical centre height `80 mm` is not possible",
            "use -10 to 70 mm",
        ),
        (
            NearSpectaclesRequest { largest_blank: Some(mm(20.0)), ..usual() },
            "blank diameter `20 mm` is not possible",
            "use 30 to 120 mm",
        ),
        (
            NearSpectaclesRequest { blank_allowance: mm(-1.0), ..usual() },
            "blank allowance `-1 mm` is not possible",
            "use 0 to 10 mm",
        ),
        (
            NearSpectaclesRequest { face_form: Angle::from_degrees(40.0), ..usual() },
            "face form angle `40 degrees` is not possible",
            "use -15 to 35 degrees",
        ),
    ] {
        assert_eq!(told(request), (message.into(), hint.into()));
    }
}
