//! The twenty check cases of the telescope reference.

use crate::support::{rounds_to, telescope};
use arcminute_core::Error;
use arcminute_core::optics::{
    Element, Sight, Train, apparent_field, correction_on_objective, depth_of_field, disc_overlap,
    field_of_view, lenses_from_length, light_through, minus_lens, prism_displacement, reading_cap,
    ring_scotoma, through_afocal, view,
};
use arcminute_core::predict::{power_needed, predict};
use arcminute_core::unit::{Angle, Length, LogMar, Magnification, Prism, Vergence};

fn dioptres(value: f64) -> Vergence {
    Vergence::from_dioptres(value)
}
fn mm(value: f64) -> Length {
    Length::from_mm(value)
}
fn times(value: f64) -> Magnification {
    Magnification::from_times(value)
}
/// Acuity 20 over this.
fn feet(denominator: f64) -> LogMar {
    LogMar::of_angle(Angle::from_arcmin(denominator / 20.0))
}

/// Source: lecture notes on ophthalmic optics, and exact paraxial.
#[test]
fn telescope_case_01_same_lenses_galilean_and_keplerian() -> Result<(), Error> {
    for (eyepiece, magnification, length) in [(-40.0, "2.0", "25.0"), (40.0, "-2.0", "75.0")] {
        let afocal = telescope(20.0, eyepiece, 20.0)?.afocal();
        rounds_to(afocal.magnification.times(), magnification);
        rounds_to(afocal.length.mm(), length);
    }
    Ok(())
}

/// Source: Smith, Modern Optical Engineering, chapter 13.
#[test]
fn telescope_case_02_lenses_for_a_ten_inch_telescope() -> Result<(), Error> {
    for (magnification, objective, eyepiece) in [(-4.0, "8.00", "2.00"), (4.0, "13.33", "-3.33")] {
        let lenses = lenses_from_length(Length::from_inches(10.0), times(magnification))?;
        rounds_to(lenses.objective.focal_length().inches(), objective);
        rounds_to(lenses.eyepiece.focal_length().inches(), eyepiece);
    }
    Ok(())
}

/// Source: Smith, Modern Optical Engineering, example 13.1.
#[test]
fn telescope_case_03_ten_inch_keplerian_pupil_and_field() -> Result<(), Error> {
    let lenses = lenses_from_length(Length::from_inches(10.0), times(-4.0))?;
    let mut keplerian = telescope(lenses.objective.dioptres(), lenses.eyepiece.dioptres(), 25.4)?;
    keplerian.eyepiece_diameter = Some(Length::from_inches(1.0));
    let afocal = keplerian.afocal();
    rounds_to(afocal.exit_pupil.inches(), "0.25");
    rounds_to(afocal.exit_pupil_behind_eyepiece.inches(), "2.5");
    let train = keplerian.afocal_train().to_eye(afocal.exit_pupil_behind_eyepiece);
    let real =
        field_of_view(&train, Length::from_inches(0.3)).expect("the rims limit the field").real(&train);
    rounds_to((real.half / 2.0).tangent(), "0.0500");
    rounds_to((real.last / 2.0).tangent(), "0.0625");
    Ok(())
}

/// Source: exact paraxial, computed (reference table).
#[test]
fn telescope_case_04_four_times_keplerian() -> Result<(), Error> {
    let afocal = telescope(20.0, 80.0, 12.0)?.afocal();
    rounds_to(afocal.magnification.times(), "-4.000");
    rounds_to(afocal.length.mm(), "62.500");
    rounds_to(afocal.exit_pupil.mm(), "3.000");
    rounds_to(afocal.exit_pupil_behind_eyepiece.mm(), "15.625");
    Ok(())
}

/// Source: ISO 14132-1:2002, example of the tangent rule, as quoted in a public technical note.
#[test]
fn telescope_case_05_apparent_field_by_both_rules() {
    let real = Angle::from_degrees(8.8);
    rounds_to(apparent_field(times(8.0), real).degrees(), "63.2");
    rounds_to((real * 8.0).degrees(), "70.4");
}

/// Source: Schwartz, Geometrical and Visual Optics, chapter 12.
#[test]
fn telescope_case_06_myope_refocuses_a_galilean() -> Result<(), Error> {
    let galilean = telescope(10.0, -50.0, 30.0)?;
    rounds_to(galilean.afocal().magnification.times(), "5.00");
    rounds_to(galilean.afocal().length.mm(), "80.0");
    let focused = galilean.focused(Sight::Far, dioptres(-10.0))?;
    rounds_to(focused.magnification.times(), "4.00");
    rounds_to(focused.length.mm(), "75.0");
    Ok(())
}

/// Source: Schwartz, Geometrical and Visual Optics, chapter 12.
#[test]
fn telescope_case_07_myope_refocuses_a_keplerian() -> Result<(), Error> {
    let keplerian = telescope(10.0, 50.0, 30.0)?;
    rounds_to(keplerian.afocal().magnification.size(), "5.00");
    rounds_to(keplerian.afocal().length.mm(), "120.0");
    let focused = keplerian.focused(Sight::Far, dioptres(-10.0))?;
    rounds_to(focused.magnification.size(), "6.00");
    rounds_to(focused.length.mm(), "116.7");
    Ok(())
}

/// Source: exact paraxial, computed (reference table).
#[test]
fn telescope_case_08_hyperope_refocuses_both() -> Result<(), Error> {
    for (eyepiece, magnification, length) in [(-50.0, "6.00", "83.33"), (50.0, "-4.00", "125.00")] {
        let focused = telescope(10.0, eyepiece, 30.0)?.focused(Sight::Far, dioptres(10.0))?;
        rounds_to(focused.magnification.times(), magnification);
        rounds_to(focused.length.mm(), length);
    }
    Ok(())
}

/// Source: Schwartz, Geometrical and Visual Optics, chapter 12: 5 M at 40 cm, wants 1 M.
#[test]
fn telescope_case_09_reading_cap_against_a_single_lens() -> Result<(), Error> {
    let galilean = telescope(20.0, -50.0, 25.0)?;
    let cap = reading_cap(&galilean, dioptres(5.0))?;
    rounds_to(cap.equivalent_viewing_power.dioptres(), "12.5");
    rounds_to(cap.equivalent_viewing_distance.cm(), "8.0");
    rounds_to(cap.working_distance.cm(), "20.0");
    rounds_to(dioptres(12.5).focal_length().cm(), "8.0");
    Ok(())
}

/// Source: exact paraxial, computed (reference table).
#[test]
fn telescope_case_10_near_thing_through_a_galilean() -> Result<(), Error> {
    let near = through_afocal(&telescope(20.0, -40.0, 20.0)?, Length::from_m(0.4), mm(15.0));
    rounds_to(near.at_eyepiece.dioptres(), "-8.889");
    rounds_to(near.at_eye.dioptres(), "-7.843");
    rounds_to(near.at_exit_pupil.dioptres(), "-10.0");
    Ok(())
}

/// Source: exact paraxial, computed (reference table).
#[test]
fn telescope_case_11_chart_at_three_metres_through_a_keplerian() -> Result<(), Error> {
    let near = through_afocal(&telescope(20.0, 80.0, 12.0)?, Length::from_m(3.0), mm(15.625));
    rounds_to(near.at_eyepiece.dioptres(), "-5.818");
    rounds_to(near.at_exit_pupil.dioptres(), "-5.333");
    rounds_to(near.at_eye.dioptres(), "-5.333");
    Ok(())
}

/// Source: exact paraxial, computed (reference table).
#[test]
fn telescope_case_12_keplerian_focused_at_one_metre() -> Result<(), Error> {
    let sight = Sight::At(Length::from_m(1.0));
    let focused = telescope(20.0, 80.0, 12.0)?.focused(sight, Vergence::ZERO)?;
    rounds_to(focused.travel.mm(), "2.632");
    rounds_to(focused.magnification.size(), "4.211");
    let seen = view(&focused.train.to_eye(mm(12.0)), sight);
    rounds_to(seen.enlargement.abs(), "4.535");
    let distance = seen.equivalent_viewing_distance.expect("a near thing has one");
    rounds_to(Vergence::of_focal_length(distance).dioptres(), "4.211");
    Ok(())
}

/// Source: exact paraxial, computed (reference table).
#[test]
fn telescope_case_13_galilean_field() -> Result<(), Error> {
    let train = telescope(20.0, -50.0, 25.0)?.afocal_train().to_eye(mm(15.0));
    let apparent = field_of_view(&train, mm(3.0)).expect("the objective limits the field");
    let real = apparent.real(&train);
    for (got, printed) in [
        (apparent.full, "14.77"),
        (apparent.half, "20.98"),
        (apparent.last, "27.07"),
        (real.full, "5.94"),
        (real.half, "8.47"),
        (real.last, "11.00"),
    ] {
        rounds_to(got.degrees(), printed);
    }
    Ok(())
}

/// Source: Doherty et al. 2011, Arch Ophthalmol 129:611 (computed 36 degrees); tangent form exact, computed.
#[test]
fn telescope_case_14_ring_of_a_three_times_bioptic() {
    let real = Angle::from_degrees(12.0);
    let simple = real * 3.0;
    rounds_to(simple.degrees(), "36");
    rounds_to(((simple - real) / 2.0).degrees(), "12");
    let ring = ring_scotoma(times(3.0), real);
    rounds_to(ring.outer.degrees(), "35.0");
    rounds_to(ring.width.degrees(), "11.5");
}

/// Source: circle geometry, computed (reference table).
#[test]
fn telescope_case_15_exit_pupil_beside_the_pupil() {
    rounds_to(disc_overlap(mm(3.0), mm(4.0), mm(1.0)), "0.8349");
    rounds_to(disc_overlap(mm(3.0), mm(4.0), mm(2.0)), "0.4192");
}

/// Source: rule of Smith, Modern Optical Engineering, p. 281.
#[test]
fn telescope_case_16_light_through_a_small_exit_pupil() -> Result<(), Error> {
    let exit_pupil = telescope(20.0, 80.0, 12.0)?.afocal().exit_pupil;
    rounds_to(light_through(exit_pupil, mm(4.0), 0.86).share, "0.484");
    rounds_to(light_through(exit_pupil, mm(3.0), 0.86).share, "0.860");
    Ok(())
}

/// Source: exact paraxial, computed (reference table).
#[test]
fn telescope_case_17_correction_on_the_objective() -> Result<(), Error> {
    let correction = correction_on_objective(&telescope(20.0, 80.0, 12.0)?, dioptres(-8.0))?;
    rounds_to(correction.cap.dioptres(), "-0.4444");
    rounds_to(correction.short_rule.dioptres(), "-0.500");
    rounds_to(correction.magnification.size(), "4.50");
    Ok(())
}

/// Source: exact, computed; that the two are alike was published in Optom Vis Sci 71(2), February 1994.
#[test]
fn telescope_case_18_depth_of_field_of_telemicroscope_and_lens() -> Result<(), Error> {
    let lens = |power| Element::Lens { power: dioptres(power), clear_diameter: None };
    let telemicroscope = Train::new([lens(5.0)]).then(&telescope(20.0, -50.0, 25.0)?.afocal_train())?;
    for (train, nearest, farthest, range) in
        [(telemicroscope, "196.83", "203.23", "6.40"), (Train::new([lens(12.5)]), "76.92", "83.33", "6.41")]
    {
        let depth = depth_of_field(&train, dioptres(0.5)).expect("a reading aid has a focus");
        rounds_to(depth.nearest.mm(), nearest);
        rounds_to(depth.farthest.expect("and an end of it").mm(), farthest);
        rounds_to(depth.range().expect("and an end of it").mm(), range);
    }
    Ok(())
}

/// Source: definition of logMAR and of angular magnification.
#[test]
fn telescope_case_19_acuity_through_a_telescope() {
    let limit = LogMar::from_log(0.2);
    for (now, power, reached) in [(200.0, 4.0, 50.0), (200.0, 5.0, 40.0), (300.0, 6.0, 50.0)] {
        let with_aid = predict(feet(now), times(power), feet(40.0), limit).with_aid;
        rounds_to(with_aid.mar().arcmin() * 20.0, &format!("{reached}.000"));
        rounds_to(power_needed(feet(now), feet(reached)).power.times(), &format!("{power}.000"));
    }
    rounds_to(predict(LogMar::from_log(1.0), times(4.0), feet(40.0), limit).with_aid.log(), "0.398");
}

/// Source: exact, computed; about 22 degrees for 40 prism dioptres in Apfelbaum et al. 2013.
#[test]
fn telescope_case_20_prisms_and_a_hand_held_minus_lens() {
    let prism = Prism::from_prism_dioptres;
    rounds_to(prism(40.0).deviation().degrees(), "21.80");
    rounds_to(prism(57.0).deviation().degrees(), "29.68");
    rounds_to(prism_displacement(prism(40.0), Length::from_m(2.0)).m(), "0.80");
    let lens = minus_lens(dioptres(-5.0), Length::from_m(0.3));
    rounds_to(lens.magnification.times(), "0.400");
    rounds_to(lens.focus_demand.dioptres(), "2.00");
}
