//! Prisms for the field: published and computed values.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::device::{
    APEX_TO_APEX_TRIAL, FieldPrism, FieldPrismKind, PRISM_LOSS_LIMITS, PrismLimit, SOLID_OVER_FRESNEL,
    field_on_lens, prism_loss_in_dim_light, published_lens_to_pivot,
};
use arcminute_core::unit::{Angle, Length, Prism};

fn segments(rated: f64) -> FieldPrism {
    FieldPrism {
        kind: FieldPrismKind::Peripheral,
        rated: Prism::from_prism_dioptres(rated),
        index: 1.49,
        lens_to_pivot: published_lens_to_pivot(),
    }
}
fn degrees(value: f64) -> Angle {
    Angle::from_degrees(value)
}

/// Source: Apfelbaum et al. 2013, TVST 2(4):2, and later papers of the same group: about 22 degrees for 40 prism dioptres,
/// 30 for 57; 0.80 m at 2 m computed.
#[test]
fn what_segments_add_to_a_field() -> Result<(), Error> {
    for (rated, published, exact) in [(40.0, "22", "21.80"), (57.0, "30", "29.68")] {
        let used = segments(rated).shift_field(false, Length::from_m(2.0), degrees(0.0))?;
        rounds_to(used.gained.degrees(), published);
        rounds_to(used.gained.degrees(), exact);
        // The band at the apex is as wide.
        rounds_to(used.blind_band.degrees(), exact);
    }
    let used = segments(40.0).shift_field(false, Length::from_m(2.0), degrees(0.0))?;
    rounds_to(used.displacement.m(), "0.80");
    rounds_to(used.blind_band_on_lens.mm(), "8.0");
    Ok(())
}

/// Source: Apfelbaum et al. 2013, figure 15: 3.5 mm for 10 degrees, 5.4 mm for 15.
#[test]
fn degrees_of_field_on_a_lens() {
    for (angle, printed) in [(10.0, "3.5"), (15.0, "5.4")] {
        rounds_to(field_on_lens(degrees(angle), published_lens_to_pivot()).mm(), printed);
    }
}

/// Source: Snell's law, computed: 40 prism dioptres at normal incidence, index 1.49; that a rating does not hold for all
/// light: Jung & Peli 2014, Opt Eng 53:061707.
#[test]
fn the_rating_beside_the_exact_turn() -> Result<(), Error> {
    for (incidence, power) in
        [(-10.0, "58.9"), (-5.0, "46.2"), (0.0, "40.0"), (5.0, "36.2"), (10.0, "33.9"), (20.0, "31.5")]
    {
        let used = segments(40.0).shift_field(false, Length::from_m(2.0), degrees(incidence))?;
        rounds_to(used.turned.expect("it comes out").power.prism_dioptres(), power);
        rounds_to(used.shift.degrees(), "21.8");
    }
    rounds_to(
        segments(40.0).shift_field(true, Length::from_m(2.0), degrees(0.0))?.flat.apex.degrees(),
        "33.5",
    );
    for (incidence, seen) in [(-12.9, true), (-13.1, false)] {
        let used = segments(40.0).shift_field(false, Length::from_m(2.0), degrees(incidence))?;
        assert_eq!(used.turned.is_some(), seen, "total reflection beyond -13.0 degrees: {used:?}");
    }
    Ok(())
}

/// Source: Woods et al. 2010, PMC2867070 (abstract).
#[test]
fn a_trial_for_tunnel_vision() {
    rounds_to(APEX_TO_APEX_TRIAL.expansion().degrees(), "18");
    let trial = APEX_TO_APEX_TRIAL;
    assert_eq!((trial.people, trial.kept, trial.long_term, trial.source.id), (12, 9, 3, "woods-2010"));
}

/// Source: Cheng & Woo 2001, Ophthalmic Physiol Opt (abstract); Véronneau-Troutman 1978, PMC1311638 (abstract); British
/// and Irish Orthoptic Journal 2011 (abstract).
#[test]
fn what_prisms_cost_of_acuity() {
    let table = PRISM_LOSS_LIMITS.map(|row| (row.limit, row.from().prism_dioptres(), row.source.id));
    let expected = [
        (PrismLimit::FresnelCosts, 5.0, "cheng-woo-2001"),
        (PrismLimit::SolidCosts, 10.0, "cheng-woo-2001"),
        (PrismLimit::FresnelWorseFar, 12.0, "veronneau-troutman-1978"),
        (PrismLimit::FresnelWorseNear, 15.0, "veronneau-troutman-1978"),
    ];
    assert_eq!(table, expected);
    let shares = SOLID_OVER_FRESNEL.map(|row| {
        let (from, to) = row.powers();
        (from.prism_dioptres(), to.prism_dioptres(), row.share, row.source.id)
    });
    let expected = [(5.0, 20.0, (0.8, 0.9), "cheng-woo-2001"), (30.0, 30.0, (0.7, 0.7), "cheng-woo-2001")];
    assert_eq!(shares, expected);
    let (loss, light) = prism_loss_in_dim_light();
    rounds_to(loss.log(), "0.2");
    rounds_to(light.candela_per_m2(), "1");
}
