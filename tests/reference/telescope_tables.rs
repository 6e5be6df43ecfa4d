//! Tables of the telescope reference, and the statements it corrects.
//!
//! Source of every value here, unless a test says otherwise: exact paraxial, computed (reference table).

use crate::support::{rounds_to, telescope};
use arcminute_core::Error;
use arcminute_core::math;
use arcminute_core::optics::{
    Design, Element, Field, Focused, Label, RayMatrix, Sight, Telescope, Train, ametropia_at_eyepiece,
    apparent_field, correction_on_objective, depth_of_field, disc_overlap, field_of_view, lenses_from_length,
    light_through, minus_lens, reading_cap, through_afocal, view,
};
use arcminute_core::unit::{Angle, Length, Magnification, Prism, Vergence};

fn dioptres(value: f64) -> Vergence {
    Vergence::from_dioptres(value)
}
fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// Source: reference, section 1; the first length also in lecture notes.
#[test]
fn afocal_check_values() -> Result<(), Error> {
    for (objective, eyepiece, diameter, [m, d, e, l]) in [
        (20.0, -40.0, 20.0, ["2", "25.0", "10", "-12.5"]),
        (20.0, 40.0, 20.0, ["-2", "75.0", "10", "37.5"]),
        (20.0, -50.0, 25.0, ["2.5", "30.0", "10", "-12.0"]),
        (20.0, 80.0, 12.0, ["-4", "62.5", "3", "15.625"]),
        (25.0, 150.0, 16.0, ["-6", "46.67", "2.667", "7.78"]),
    ] {
        let afocal = telescope(objective, eyepiece, diameter)?.afocal();
        rounds_to(afocal.magnification.times(), m);
        rounds_to(afocal.length.mm(), d);
        rounds_to(afocal.exit_pupil.mm(), e);
        rounds_to(afocal.exit_pupil_behind_eyepiece.mm(), l);
    }
    Ok(())
}

/// Source: reference, section 1: an "8x20, 6.5 degrees".
#[test]
fn label_check_values() -> Result<(), Error> {
    let real = Angle::from_degrees(6.5);
    let label = Label {
        design: Design::Keplerian,
        power: Magnification::from_times(8.0),
        objective_diameter: mm(20.0),
        real_field: Some(real),
        near_focus: None,
        length: None,
        transmittance: 1.0,
    };
    let marked = Telescope::from_label(&label)?;
    let afocal = marked.afocal();
    rounds_to(afocal.exit_pupil.mm(), "2.5");
    rounds_to(2000.0 * (real / 2.0).tangent(), "113.6");
    let train = marked.afocal_train().to_eye(afocal.exit_pupil_behind_eyepiece);
    let field = field_of_view(&train, mm(4.0)).expect("a field stop limits it").real(&train);
    rounds_to(field.half.degrees(), "6.50");
    Ok(())
}

/// Source: reference, section 8: the formulas of a telescope hold when it is turned round.
#[test]
fn reversed_galilean_is_still_one() -> Result<(), Error> {
    let reversed = telescope(-40.0, 20.0, 12.0)?;
    rounds_to(reversed.afocal().magnification.times(), "0.5");
    rounds_to(reversed.afocal().length.mm(), "25.0");
    assert_eq!(reversed.design(), Design::Galilean, "unlike lenses make a Galilean");
    assert!(reversed.focused(Sight::At(Length::from_m(1.0)), Vergence::ZERO).is_ok(), "it can be focused");
    let label = Label {
        design: Design::Galilean,
        power: Magnification::from_times(0.5),
        objective_diameter: mm(12.0),
        real_field: None,
        near_focus: None,
        length: None,
        transmittance: 1.0,
    };
    rounds_to(Telescope::from_label(&label)?.afocal().magnification.times(), "0.50000");
    Ok(())
}

/// Source: reference, section 2.1.
#[test]
fn correction_3_short_field_rule_overstates() {
    for (power, real, over) in [(3.0, 12.0, "2.9"), (5.0, 8.6, "4.3"), (8.0, 8.8, "11.3")] {
        let real = Angle::from_degrees(real);
        let exact = apparent_field(Magnification::from_times(power), real);
        rounds_to((real * power / exact - 1.0) * 100.0, over);
    }
}

/// Source: reference, section 2.2: 50 mm objective, 11 mm stop, 4x.
#[test]
fn keplerian_field_stop() -> Result<(), Error> {
    let mut keplerian = telescope(20.0, 80.0, 12.0)?;
    keplerian.field_stop = Some(mm(11.0));
    let train = keplerian.afocal_train().to_eye(keplerian.afocal().exit_pupil_behind_eyepiece);
    let apparent = field_of_view(&train, mm(4.0)).expect("the stop limits it");
    rounds_to(apparent.half.degrees(), "47.5");
    rounds_to(apparent.real(&train).half.degrees(), "12.55");
    Ok(())
}

/// Source: reference, section 2.3. Objective and eyepiece follow from M and d.
/// DIFFERENCE: the first full field is printed as 12.4; it is 12.452.
#[test]
fn galilean_fields() -> Result<(), Error> {
    for ([m, d, diameter, v, pupil], apparent, real) in [
        ([2.0, 25.0, 20.0, 15.0, 4.0], ["12.452", "20.6", "28.6"], ["6.2", "10.4", "14.5"]),
        ([2.2, 27.27, 30.0, 12.0, 4.0], ["22.3", "31.2", "39.7"], ["10.3", "14.5", "18.7"]),
        ([2.5, 30.0, 25.0, 15.0, 3.0], ["14.8", "21.0", "27.1"], ["5.9", "8.5", "11.0"]),
        ([3.0, 33.3, 20.0, 15.0, 3.0], ["8.0", "14.6", "21.0"], ["2.7", "4.9", "7.1"]),
    ] {
        let seen = galilean_field([m, d, diameter, v, pupil])?;
        for (got, printed) in [seen.0.full, seen.0.half, seen.0.last].into_iter().zip(apparent) {
            rounds_to(got.degrees(), printed);
        }
        for (got, printed) in [seen.1.full, seen.1.half, seen.1.last].into_iter().zip(real) {
            rounds_to(got.degrees(), printed);
        }
    }
    Ok(())
}

/// Source: reference, section 2.3: 2.2x, d 27.27, objective 24 mm.
#[test]
fn galilean_field_shrinks_with_vertex_distance() -> Result<(), Error> {
    for (v, real) in [(8.0, "13.9"), (12.0, "11.6"), (15.0, "10.3"), (18.0, "9.3"), (23.0, "8.0")] {
        rounds_to(galilean_field([2.2, 27.27, 24.0, v, 4.0])?.1.half.degrees(), real);
    }
    Ok(())
}

/// Apparent and real field from M, d, objective, eyepiece to eye, and pupil; millimetres.
fn galilean_field([m, d, diameter, v, pupil]: [f64; 5]) -> Result<(Field, Field), Error> {
    let lenses = lenses_from_length(mm(d), Magnification::from_times(m))?;
    let train = telescope(lenses.objective.dioptres(), lenses.eyepiece.dioptres(), diameter)?
        .afocal_train()
        .to_eye(mm(v));
    let apparent = field_of_view(&train, mm(pupil)).expect("the objective limits it");
    Ok((apparent, apparent.real(&train)))
}

/// Source: reference, section 2.3 and correction 6: 84 mm, where the objective taken as apex gives 59.
#[test]
fn correction_6_near_field_of_a_galilean_needs_the_objective_added() -> Result<(), Error> {
    let train = telescope(20.0, -50.0, 25.0)?.afocal_train().to_eye(mm(15.0));
    let field = field_of_view(&train, mm(3.0)).expect("the objective limits it");
    let distance = Length::from_m(0.4);
    let evd = view(&train, Sight::At(distance)).equivalent_viewing_distance.expect("a near thing has one");
    rounds_to(field.width_at(evd).mm(), "84");
    rounds_to((distance * (2.0 * (field.real(&train).half / 2.0).tangent())).mm(), "59");
    Ok(())
}

/// Source: reference, section 3.1; the eye 15 mm behind the eyepiece.
#[test]
fn near_things_through_an_afocal_telescope() -> Result<(), Error> {
    for (eyepiece, x, [rule, at_eyepiece, at_eye]) in [
        (-40.0, 0.4, ["-10.00", "-8.89", "-7.84"]),
        (-50.0, 1.0, ["-6.25", "-5.81", "-5.35"]),
        (-50.0, 3.0, ["-2.083", "-2.033", "-1.972"]),
        (40.0, 0.4, ["-10.00", "-16.00", "-12.90"]),
        (80.0, 1.0, ["-16.0", "-21.33", "-16.16"]),
        (80.0, 3.0, ["-5.333", "-5.818", "-5.351"]),
        (80.0, 6.0, ["-2.667", "-2.783", "-2.671"]),
        (160.0, 6.0, ["-10.67", "-11.53", "-9.83"]),
    ] {
        let near = through_afocal(&telescope(20.0, eyepiece, 20.0)?, Length::from_m(x), mm(15.0));
        rounds_to(near.at_exit_pupil.dioptres(), rule);
        rounds_to(near.at_eyepiece.dioptres(), at_eyepiece);
        rounds_to(near.at_eye.dioptres(), at_eye);
    }
    Ok(())
}

/// Source: reference, section 3.1: the image inside an 8x Keplerian at 0.4 m cannot be viewed.
#[test]
fn an_image_behind_the_eyepiece_arrives_converging() -> Result<(), Error> {
    let near = through_afocal(&telescope(20.0, 160.0, 20.0)?, Length::from_m(0.4), mm(12.0));
    rounds_to(near.at_eyepiece.dioptres(), "1280");
    Ok(())
}

/// Source: reference, section 3.2; the eye 12 mm behind the eyepiece.
#[test]
fn correction_8_focusing_near_by_the_tube() -> Result<(), Error> {
    for (x, [travel, keplerian, against_eye, power], galilean, galilean_power) in [
        (1.0, ["2.63", "4.21", "4.54", "4.21"], "2.63", "2.63"),
        (0.5, ["5.56", "4.44", "5.16", "8.89"], "2.78", "5.56"),
        (0.4, ["7.14", "4.57", "5.50", "11.43"], "2.86", "7.14"),
        (0.25, ["12.50", "5.00", "6.74", "20.0"], "3.125", "12.5"),
    ] {
        let sight = Sight::At(Length::from_m(x));
        let evp = |focused: &Focused| {
            let seen = view(&focused.train.clone().to_eye(mm(12.0)), sight);
            (
                1.0 / seen.equivalent_viewing_distance.expect("a near thing has one").m(),
                seen.enlargement.abs(),
            )
        };
        let focused = telescope(20.0, 80.0, 12.0)?.focused(sight, Vergence::ZERO)?;
        rounds_to(focused.travel.mm(), travel);
        rounds_to(focused.magnification.size(), keplerian);
        rounds_to(evp(&focused).1, against_eye);
        rounds_to(evp(&focused).0, power);
        let focused = telescope(20.0, -50.0, 25.0)?.focused(sight, Vergence::ZERO)?;
        rounds_to(focused.travel.mm(), travel);
        rounds_to(focused.magnification.times(), galilean);
        rounds_to(evp(&focused).0, galilean_power);
    }
    for (x, travel) in [(1.0, "1.67"), (0.5, "3.48"), (0.4, "4.44"), (0.25, "7.62")] {
        let focused = telescope(25.0, 150.0, 16.0)?.focused(Sight::At(Length::from_m(x)), Vergence::ZERO)?;
        rounds_to(focused.travel.mm(), travel);
    }
    Ok(())
}

/// Source: reference, section 3.2: from a myope of 12 D looking far to a hyperope of 12 D at 0.5 m.
#[test]
fn combined_travel() -> Result<(), Error> {
    for (objective, eyepiece, travel) in [(25.0, 150.0, "4.6"), (20.0, 80.0, "9.4"), (20.0, -44.0, "18.9")] {
        let telescope = telescope(objective, eyepiece, 16.0)?;
        let shortest = telescope.focused(Sight::Far, dioptres(-12.0))?.length;
        let longest = telescope.focused(Sight::At(Length::from_m(0.5)), dioptres(12.0))?.length;
        rounds_to((longest - shortest).mm(), travel);
    }
    Ok(())
}

/// Source: reference, section 3.2: a 4x at a 3 m chart, the eye 12 mm behind.
#[test]
fn correction_8_nominal_power_grows_a_little_at_the_chart() -> Result<(), Error> {
    let sight = Sight::At(Length::from_m(3.0));
    let focused = telescope(20.0, 80.0, 12.0)?.focused(sight, Vergence::ZERO)?;
    rounds_to(focused.magnification.size(), "4.07");
    let against_eye = view(&focused.train.to_eye(mm(12.0)), sight).enlargement.abs();
    rounds_to(against_eye, "4.17");
    rounds_to(math::log10(against_eye / 4.0), "0.018");
    Ok(())
}

/// Source: reference, section 3.3 and correction 4: depth is a matter of equivalent power, not of the kind of aid.
#[test]
fn correction_4_depth_of_field_check_values() -> Result<(), Error> {
    let cap = Train::new([Element::Lens { power: dioptres(4.0), clear_diameter: None }]);
    let depth = depth_of_field(&cap.then(&telescope(20.0, 80.0, 12.0)?.afocal_train())?, dioptres(0.5))
        .expect("in focus");
    rounds_to(depth.range().expect("a near aid has an end of focus").mm(), "3.907");
    rounds_to(2.0 * 0.5 / (16.0 * 16.0) * 1000.0, "3.906");
    for (eyepiece, rule, exact) in
        [(-40.0, "8", "7.95"), (80.0, "32", "32.25"), (120.0, "72", "72.35"), (160.0, "128", "128.45")]
    {
        let far = telescope(20.0, eyepiece, 16.0)?;
        let depth = depth_of_field(&far.afocal_train(), dioptres(0.5)).expect("in focus");
        rounds_to(depth.nearest.m(), exact);
        assert_eq!(depth.farthest, None, "in focus without end");
        let m = far.afocal().magnification.times();
        rounds_to(m * m / 0.5, rule);
    }
    Ok(())
}

/// Source: reference, section 4: spectacle powers at 12 mm carried to other planes.
#[test]
fn correction_in_other_planes() {
    for (spectacle, plane, printed) in [
        (-10.0, 8.0, "-9.62"),
        (-10.0, 20.0, "-10.87"),
        (-10.0, 0.0, "-8.93"),
        (-12.0, 8.0, "-11.45"),
        (-12.0, 20.0, "-13.27"),
        (-12.0, 0.0, "-10.49"),
        (12.0, 8.0, "12.61"),
        (12.0, 20.0, "10.95"),
        (12.0, 0.0, "14.02"),
    ] {
        let moved = ametropia_at_eyepiece(dioptres(spectacle), mm(12.0), mm(plane));
        rounds_to(moved.ametropia.dioptres(), printed);
    }
}

/// Source: reference, section 4: travel for −12 and +12 D.
#[test]
fn travel_for_twelve_dioptres() -> Result<(), Error> {
    for (objective, eyepiece, myope, hyperope) in [
        (10.0, -50.0, "-6.32", "3.87"),
        (10.0, 50.0, "-3.87", "6.32"),
        (20.0, 80.0, "-1.63", "2.21"),
        (25.0, 150.0, "-0.49", "0.58"),
        (20.0, 160.0, "-0.44", "0.51"),
        (20.0, -44.0, "-8.52", "4.87"),
    ] {
        let telescope = telescope(objective, eyepiece, 16.0)?;
        rounds_to(telescope.focused(Sight::Far, dioptres(-12.0))?.travel.mm(), myope);
        rounds_to(telescope.focused(Sight::Far, dioptres(12.0))?.travel.mm(), hyperope);
    }
    Ok(())
}

/// Source: reference, section 4: ten dioptres cost a weak objective most.
#[test]
fn refocusing_costs_weak_objectives_most() -> Result<(), Error> {
    for (objective, eyepiece, change, percent) in [(20.0, -44.0, "0.5", "23"), (25.0, 150.0, "0.4", "6.7")] {
        let telescope = telescope(objective, eyepiece, 16.0)?;
        let before = telescope.afocal().magnification.size();
        let after = telescope.focused(Sight::Far, dioptres(-10.0))?.magnification.size();
        rounds_to((after - before).abs(), change);
        rounds_to((after - before).abs() / before * 100.0, percent);
    }
    Ok(())
}

/// Source: reference, section 4 and correction 2: K −8 D; the exact lens, and what K/M² says.
#[test]
fn correction_2_short_rule_for_a_correction_on_the_objective() -> Result<(), Error> {
    for (objective, eyepiece, exact, rule) in [
        (20.0, 80.0, "-0.444", "-0.500"),
        (20.0, -44.0, "-1.835", "-1.653"),
        (20.0, 160.0, "-0.118", "-0.125"),
    ] {
        let correction = correction_on_objective(&telescope(objective, eyepiece, 16.0)?, dioptres(-8.0))?;
        rounds_to(correction.cap.dioptres(), exact);
        rounds_to(correction.short_rule.dioptres(), rule);
    }
    Ok(())
}

/// Source: reference, correction 1: M²/x overstates a Galilean, and is near the truth for a Keplerian in place.
#[test]
fn correction_1_square_rule_belongs_to_the_exit_pupil() -> Result<(), Error> {
    let galilean = through_afocal(&telescope(20.0, -40.0, 20.0)?, Length::from_m(0.4), mm(15.0));
    rounds_to(galilean.at_exit_pupil / galilean.at_eye, "1.275");
    let keplerian = through_afocal(&telescope(20.0, 80.0, 12.0)?, Length::from_m(1.0), mm(15.0));
    rounds_to(keplerian.at_exit_pupil / keplerian.at_eye, "0.99");
    rounds_to(keplerian.at_eyepiece / keplerian.at_eye, "1.32");
    Ok(())
}

/// Source: reference, section 1 and correction 5: objective over exit pupil once refocused for −10 D, and the truth.
#[test]
fn correction_5_objective_over_exit_pupil_misleads_after_refocusing() -> Result<(), Error> {
    for (eyepiece, reads, truth) in [(-50.0, "4.75", "4.00"), (50.0, "4.83", "6.00")] {
        let focused = telescope(10.0, eyepiece, 30.0)?.focused(Sight::Far, dioptres(-10.0))?;
        // The eyepiece's image of the objective: size ratio 1/D of what lies behind the objective.
        let behind = RayMatrix::gap(focused.length).then(RayMatrix::lens(focused.eyepiece));
        rounds_to(behind.d.abs(), reads);
        rounds_to(focused.magnification.size(), truth);
    }
    Ok(())
}

/// Source: reference, section 6: share of the light left by a 3 mm exit pupil, by pupil and decentration.
#[test]
fn pupil_overlap_check_values() {
    for (pupil, apart, share) in [
        (4.0, 0.5, "1.000"),
        (4.0, 1.0, "0.835"),
        (4.0, 1.5, "0.624"),
        (4.0, 2.0, "0.419"),
        (4.0, 2.5, "0.235"),
        (4.0, 3.0, "0.085"),
        (4.0, 3.5, "0.000"),
        (5.0, 1.0, "1.000"),
        (3.0, 1.0, "0.584"),
    ] {
        rounds_to(disc_overlap(mm(3.0), mm(pupil), mm(apart)), share);
    }
}

/// Source: reference, section 8.
#[test]
fn prisms_and_minifiers_check_values() {
    for (prism, degrees) in [
        (5.0, "2.9"),
        (10.0, "5.7"),
        (15.0, "8.5"),
        (20.0, "11.3"),
        (30.0, "16.7"),
        (40.0, "21.8"),
        (57.0, "29.7"),
    ] {
        rounds_to(Prism::from_prism_dioptres(prism).deviation().degrees(), degrees);
    }
    for (power, held, magnification, demand) in
        [(-5.0, 0.3, "0.40", "2.00"), (-10.0, 0.3, "0.25", "2.50"), (-5.0, 0.4, "0.333", "1.67")]
    {
        let lens = minus_lens(dioptres(power), Length::from_m(held));
        rounds_to(lens.magnification.times(), magnification);
        rounds_to(lens.focus_demand.dioptres(), demand);
    }
    // Extent seen in a residual field of 10 degrees.
    for (power, degrees) in [(0.5, "19.8"), (0.4, "24.7"), (0.25, "38.6")] {
        let seen = apparent_field(Magnification::from_times(1.0 / power), Angle::from_degrees(10.0));
        rounds_to(seen.degrees(), degrees);
    }
}

/// Source: rule of Smith, Modern Optical Engineering, p. 281: a telescope never brightens an extended thing.
#[test]
fn an_exit_pupil_wider_than_the_pupil_adds_nothing() {
    rounds_to(light_through(mm(3.0), mm(3.0), 0.86).share, "0.86");
    rounds_to(light_through(mm(10.0), mm(3.0), 0.86).share, "0.86");
}

/// Source: reference, section 3.3, after Schwartz, chapter 12: cap to print, and eye to print.
#[test]
fn reading_caps() -> Result<(), Error> {
    let galilean = telescope(20.0, -50.0, 25.0)?;
    rounds_to(reading_cap(&galilean, dioptres(3.0))?.working_distance.cm(), "33.33");
    let cap = reading_cap(&galilean, dioptres(5.0))?;
    rounds_to((cap.working_distance + galilean.afocal().length + mm(12.0)).m(), "0.242");
    rounds_to((dioptres(12.5).focal_length() + mm(12.0)).m(), "0.092");
    rounds_to(cap.working_distance / cap.equivalent_viewing_distance, "2.5");
    Ok(())
}
