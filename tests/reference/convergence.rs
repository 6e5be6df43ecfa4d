//! Convergence for near: computed values, with the rules of thumb beside them.

use crate::support::{rounds_to, telescope};
use arcminute_core::Error;
use arcminute_core::convergence::{
    Convergence, EyeAndLens, Inset, cap_on_midline, inset, prism_for_target, through_pair,
};
use arcminute_core::unit::{Length, Prism, Vergence};

fn mm(length: f64) -> Length {
    Length::from_mm(length)
}
fn prism(dioptres: f64) -> Prism {
    Prism::from_prism_dioptres(dioptres)
}
/// One eye of PD 64 behind a lens of so many dioptres centred at the PD, stop distance 27 mm.
fn eye(power: f64, base_in: f64) -> EyeAndLens {
    EyeAndLens {
        eye_from_midline: mm(32.0),
        centre_from_midline: mm(32.0),
        power: Vergence::from_dioptres(power),
        base_in: prism(base_in),
        stop_distance: mm(27.0),
    }
}
fn at_focus(power: f64, base_in: f64) -> Result<Convergence, Error> {
    eye(power, base_in).converge(mm(1000.0 / power))
}
fn set_in(print: f64, power: f64) -> Result<Inset, Error> {
    inset(mm(32.0), mm(print), mm(27.0), Vergence::from_dioptres(power))
}

/// Source: exact paraxial, computed: PD 64, stop distance 27 mm, print in the focus, one eye.
#[test]
fn the_whole_table_for_pd_64() -> Result<(), Error> {
    for (power, bare, centred, c, induced, each, total) in [
        (4.0, "11.55", "12.80", "3.12", "1.25", "6.80", "9.80"),
        (6.0, "16.52", "19.20", "4.46", "2.68", "11.20", "15.20"),
        (8.0, "21.05", "25.60", "5.68", "4.55", "15.60", "20.60"),
        (10.0, "25.20", "32.00", "6.80", "6.80", "20.00", "26.00"),
        (12.0, "29.00", "38.40", "7.83", "9.40", "24.40", "31.40"),
    ] {
        let turned = at_focus(power, 0.0)?;
        rounds_to(turned.bare.prism_dioptres(), bare);
        rounds_to(turned.per_eye.prism_dioptres(), centred);
        let lens = set_in(1000.0 / power, power)?;
        rounds_to(lens.inset.mm(), c);
        rounds_to(lens.induced_base_out.prism_dioptres(), induced);
        rounds_to((turned.per_eye - turned.bare).prism_dioptres(), induced);
        let choice = prism_for_target(eye(power, 0.0), mm(1000.0 / power), prism(0.0))?;
        rounds_to(choice.each_eye_rule_leaves.prism_dioptres(), each);
        rounds_to(choice.in_total_rule_leaves.prism_dioptres(), total);
    }
    rounds_to(eye(0.0, 0.0).converge(mm(400.0))?.bare.prism_dioptres(), "7.49");
    Ok(())
}

/// Source: exact paraxial, computed.
#[test]
fn near_case_09_ten_dioptres_centred_for_far() -> Result<(), Error> {
    let turned = at_focus(10.0, 0.0)?;
    rounds_to(turned.per_eye.prism_dioptres(), "32.00");
    rounds_to(turned.bare.prism_dioptres(), "25.20");
    assert_eq!(turned.image_to_lens, None, "the light leaves parallel");
    rounds_to(set_in(100.0, 10.0)?.inset.mm(), "6.80");
    rounds_to(set_in(100.0, 10.0)?.induced_base_out.prism_dioptres(), "6.80");
    Ok(())
}

/// Source: exact paraxial, computed.
#[test]
fn near_case_10_ten_dioptres_with_twelve_base_in() -> Result<(), Error> {
    let relieved = at_focus(10.0, 12.0)?;
    rounds_to(relieved.per_eye.prism_dioptres(), "20.00");
    rounds_to(relieved.relief.prism_dioptres(), "5.20");
    // As bare eyes turn in for print about 13 cm from the plane of the lens.
    rounds_to(eye(0.0, 0.0).converge(mm(133.0))?.bare.prism_dioptres(), "20.00");
    Ok(())
}

/// Source: exact paraxial, computed: print inside the focus.
#[test]
fn near_case_11_print_inside_the_focus() -> Result<(), Error> {
    let eye = EyeAndLens { eye_from_midline: mm(30.0), centre_from_midline: mm(30.0), ..eye(6.0, 0.0) };
    let turned = eye.converge(mm(140.0))?;
    let image = turned.image_to_lens.expect("before the focus");
    rounds_to(image.mm(), "875.00");
    rounds_to(image / turned.print_to_lens, "6.25");
    rounds_to(turned.per_eye.prism_dioptres(), "20.79");
    Ok(())
}

/// Source: exact paraxial, computed; the rules from a rehabilitation agency's guide and an optometry lecture (each eye)
/// and a practitioners' association note of 2020 (in total).
#[test]
fn what_the_two_prism_rules_do() -> Result<(), Error> {
    for (power, each, total, induced) in [(8.0, "10", "5.0", "4.55"), (10.0, "12", "6.0", "6.80")] {
        let choice = prism_for_target(eye(power, 0.0), mm(1000.0 / power), prism(7.49))?;
        rounds_to(choice.each_eye_rule.prism_dioptres(), each);
        rounds_to(choice.in_total_rule.prism_dioptres(), total);
        rounds_to(set_in(1000.0 / power, power)?.induced_base_out.prism_dioptres(), induced);
        rounds_to(choice.base_in.prism_dioptres(), &format!("{:.2}", 3.2 * power - 7.49));
        for left in [choice.each_eye_rule_leaves, choice.in_total_rule_leaves] {
            assert!(choice.target < left, "neither brings back what 40 cm asks for: {choice:?}");
        }
    }
    let weak = prism_for_target(eye(4.0, 0.0), mm(250.0), prism(7.49))?;
    assert!(weak.each_eye_rule_leaves < weak.target, "+4 is the last that one of them does");
    Ok(())
}

/// Source: exact geometry, computed: metre angles leave the stop distance out.
#[test]
fn shortcut_metre_angles_for_bare_eyes() -> Result<(), Error> {
    for (print, rule, exact) in [(100.0, "64.0", "50.4"), (400.0, "16.0", "15.0")] {
        let turned = eye(0.0, 0.0).converge(mm(print))?;
        rounds_to(turned.metre_angle_rule.prism_dioptres(), rule);
        rounds_to(2.0 * turned.bare.prism_dioptres(), exact);
        rounds_to(turned.both.prism_dioptres(), exact);
    }
    let near = eye(0.0, 0.0).converge(mm(100.0))?;
    rounds_to(100.0 * (near.metre_angle_rule / near.both - 1.0), "27");
    // For lenses centred at the PD with print in the focus it is right.
    rounds_to(at_focus(10.0, 0.0)?.both.prism_dioptres(), "64.0");
    Ok(())
}

/// Source: rule named after Lebensohn and Fonda, from memory; exact geometry, computed.
#[test]
fn the_remembered_inset_is_about_a_third_larger() -> Result<(), Error> {
    let lens = set_in(100.0, 10.0)?;
    rounds_to(lens.remembered_rule.mm(), "8.83");
    rounds_to(lens.inset.mm(), "6.80");
    rounds_to(lens.remembered_rule / lens.inset, "1.30");
    let stop = inset(mm(32.0), mm(100.0), Length::from_inches(1.5), Vergence::ZERO)?;
    rounds_to(stop.inset.mm(), "8.83");
    Ok(())
}

/// Source: geometry, computed: half of PD 60 at the plane of the lens, 25.5 mm before the rotation centre.
#[test]
fn half_pd_at_the_lens() -> Result<(), Error> {
    for (print, half) in [(400.0, "28.2"), (250.0, "27.2"), (100.0, "23.9")] {
        rounds_to(inset(mm(30.0), mm(print), mm(25.5), Vergence::ZERO)?.crossing.mm(), half);
    }
    Ok(())
}

/// Source: exact paraxial, computed: PD 60 at 40 cm through a pair with parallel axes, 15 mm before the eyes.
#[test]
fn correction_7_near_through_a_pair_of_telescopes() -> Result<(), Error> {
    let pair = |eyepiece| through_pair(&telescope(20.0, eyepiece, 20.0)?, mm(30.0), mm(400.0), mm(15.0));
    let galilean = pair(-40.0)?;
    rounds_to(galilean.both.prism_dioptres(), "23.5");
    rounds_to(galilean.per_eye.prism_dioptres(), "11.76");
    rounds_to(galilean.bare_both.prism_dioptres(), "13.6");
    rounds_to(galilean.factor, "1.73");
    let keplerian = pair(80.0)?;
    rounds_to(keplerian.both.prism_dioptres(), "61.5");
    rounds_to(keplerian.factor, "4.9");
    Ok(())
}

/// Source: exact paraxial, computed: the magnification of a pair is not the factor of its convergence, from 25 cm to 2 m.
#[test]
fn correction_7_convergence_is_not_multiplied_by_the_power() -> Result<(), Error> {
    let factor = |eyepiece, print| {
        through_pair(&telescope(20.0, eyepiece, 20.0)?, mm(30.0), mm(print), mm(15.0)).map(|pair| pair.factor)
    };
    for (print, galilean) in [(250.0, "1.61"), (400.0, "1.73"), (1000.0, "1.87"), (2000.0, "1.93")] {
        rounds_to(factor(-40.0, print)?, galilean);
        let keplerian = factor(80.0, print)?;
        assert!(4.0 < keplerian, "4x takes more than four times as much: {keplerian} at {print} mm");
    }
    Ok(())
}

/// Source: rule of decentration, computed: PD 64, +2.50.
#[test]
fn cap_centred_on_the_midline() -> Result<(), Error> {
    let cap = Vergence::from_dioptres(2.5);
    rounds_to(cap_on_midline(cap, mm(32.0))?.base_in.prism_dioptres(), "8.00");
    // Before the eye itself such a lens leaves nothing to turn in, with print in its focus.
    let on_midline = EyeAndLens { centre_from_midline: Length::ZERO, ..eye(2.5, 0.0) };
    rounds_to(on_midline.converge(mm(400.0))?.per_eye.prism_dioptres(), "0.00");
    Ok(())
}
