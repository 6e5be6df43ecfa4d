//! Hand magnifiers, high-plus spectacles, moving nearer: published and computed values.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::device::{
    Detail, Eye, HandMagnifier, HighPlusSpectacles, LensForm, PrintPlace, Worn, hold, look, look_from,
    spectacle_magnification, wear,
};
use arcminute_core::optics::ThickLens;
use arcminute_core::unit::{Length, LogMar, PrintSize, Vergence};

fn d(power: f64) -> Vergence {
    Vergence::from_dioptres(power)
}
fn mm(length: f64) -> Length {
    Length::from_mm(length)
}
fn eye() -> Eye {
    Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
}
fn eye_at(vertex: f64) -> Eye {
    Eye { spectacle_to_eye: mm(vertex), ..eye() }
}
fn magnifier(power: f64, diameter: f64) -> HandMagnifier {
    HandMagnifier { power: d(power), clear_diameter: mm(diameter), transmittance: 1.0 }
}
fn thin(add: f64) -> HighPlusSpectacles {
    HighPlusSpectacles {
        form: LensForm::Addition { add: d(add) },
        clear_diameter: mm(40.0),
        transmittance: 1.0,
    }
}
fn thick(front: f64, back: f64, thickness: f64) -> HighPlusSpectacles {
    let form =
        LensForm::Thick(ThickLens { front: d(front), back: d(back), thickness: mm(thickness), index: 1.498 });
    HighPlusSpectacles { form, ..thin(0.0) }
}

/// Source: Schwartz, Geometrical and Visual Optics, worked examples (11.25 and 10.00 D); the third row and the print
/// distances are exact paraxial, computed.
#[test]
fn near_case_05_hand_magnifier_with_an_addition() -> Result<(), Error> {
    for (z, power, print) in [(50.0, "11.25", "77.78"), (100.0, "10.00", "75.00"), (200.0, "7.50", "66.67")] {
        let eye = Eye { worn: Worn::Near { add: d(2.5) }, ..eye() };
        let held = hold(magnifier(10.0, 50.0), &eye, mm(z), PrintPlace::AtCombinedFocus)?;
        rounds_to(held.combined_power.dioptres(), power);
        rounds_to(held.print_to_lens.mm(), print);
        rounds_to(1.0 / held.equivalent_viewing_distance.m(), power);
    }
    Ok(())
}

/// Source: exact paraxial, computed: a 20 D magnifier with a +2.50 addition, over its distance from the glasses.
#[test]
fn beyond_one_focal_length_the_addition_takes_power_away() -> Result<(), Error> {
    let eye = Eye { worn: Worn::Near { add: d(2.5) }, ..eye() };
    for (z, power) in [(0.0, "22.5"), (50.0, "20.0"), (100.0, "17.5"), (200.0, "12.5"), (300.0, "7.5")] {
        let held = hold(magnifier(20.0, 50.0), &eye, mm(z), PrintPlace::AtCombinedFocus)?;
        rounds_to(held.combined_power.dioptres(), power);
    }
    Ok(())
}

/// Source: exact paraxial, computed (thin lens at 14 mm).
#[test]
fn near_case_06_addition_and_accommodation() -> Result<(), Error> {
    for (add, accommodation, evp, print, evd) in [
        (8.0, 4.0, "11.552", "81.72", None),
        (10.0, 2.0, "11.720", "82.94", Some("85.32")),
        (12.0, 0.0, "12.000", "83.33", None),
    ] {
        let worn = wear(thin(add), &eye_at(14.0), d(accommodation))?;
        rounds_to(worn.equivalent_viewing_power.dioptres(), evp);
        rounds_to(worn.print_to_lens.mm(), print);
        if let Some(evd) = evd {
            rounds_to(worn.equivalent_viewing_distance.mm(), evd);
        }
    }
    rounds_to(wear(thin(20.0), &eye_at(14.0), d(3.0))?.equivalent_viewing_power.dioptres(), "22.160");
    Ok(())
}

/// Source: exact paraxial, computed: the sum of addition and accommodation is 1.5 to 3.9 % above the equivalent power.
#[test]
fn shortcut_sum_of_addition_and_accommodation_is_high() -> Result<(), Error> {
    for (add, accommodation, high, print_long) in
        [(10.0, 2.0, "2.4", "0.5"), (8.0, 4.0, "3.9", "2.0"), (20.0, 3.0, "3.8", "0.6")]
    {
        let worn = wear(thin(add), &eye_at(14.0), d(accommodation))?;
        let sum = add + accommodation;
        rounds_to((sum / worn.equivalent_viewing_power.dioptres() - 1.0) * 100.0, high);
        rounds_to((1000.0 / sum / worn.print_to_lens.mm() - 1.0) * 100.0, print_long);
    }
    Ok(())
}

/// Source: exact paraxial, computed: an addition of +10 D under a strong distance lens, against the bare eye.
#[test]
fn near_case_07_shortcut_addition_under_a_strong_distance_lens() {
    for (distance, power, percent) in [(-10.0, "8.772", "-12"), (10.0, "11.628", "16")] {
        let times = spectacle_magnification(d(distance), mm(14.0));
        rounds_to(10.0 * times, power);
        rounds_to((times - 1.0) * 100.0, percent);
    }
}

/// Source: exact paraxial, computed.
#[test]
fn near_case_08_thick_lens() -> Result<(), Error> {
    let worn = wear(thick(14.0, 7.0, 10.0), &eye_at(14.0), d(0.0))?;
    rounds_to(worn.power.dioptres(), "20.346");
    rounds_to(worn.back_vertex_power.dioptres(), "22.443");
    rounds_to(worn.front_vertex_power.dioptres(), "21.343");
    // DIFFERENCE: 1/21.343 D is 46.85 mm; a second printed figure, 46.9, agrees to its digits.
    rounds_to(worn.print_to_lens.mm(), "46.85");
    rounds_to(worn.equivalent_viewing_power.dioptres(), "20.346");
    Ok(())
}

/// Source: exact paraxial, computed: a label with the vertex power overstates what magnifies by 3, 10 and 27 %.
#[test]
fn shortcut_vertex_power_as_magnifying_power() -> Result<(), Error> {
    for (front, back, thickness, percent) in
        [(8.0, 4.5, 6.0, "3.3"), (14.0, 7.0, 10.0, "10.3"), (20.0, 12.0, 16.0, "27")]
    {
        let worn = wear(thick(front, back, thickness), &eye_at(14.0), d(0.0))?;
        rounds_to((worn.back_vertex_power / worn.power - 1.0) * 100.0, percent);
    }
    // Flat towards the eye: front vertex power and equivalent power are one.
    let plano_convex = wear(thick(20.0, 0.0, 12.0), &eye_at(14.0), d(0.0))?;
    rounds_to(plano_convex.front_vertex_power / plano_convex.power, "1.000000");
    Ok(())
}

/// Source: exact paraxial, computed: at one focal length from the eye an uncorrected ametropia changes nothing.
#[test]
fn ametropia_behind_a_lens_one_focal_length_away() -> Result<(), Error> {
    for sphere in [-5.0, 4.0] {
        let eye = Eye { sphere: d(sphere), worn: Worn::Nothing, spectacle_to_eye: mm(0.0), ..eye() };
        let train_focus = eye.relaxed_demand();
        // Print where the bare, relaxed eye sees it sharply: u from EVD = u + z − uzF and A = −K.
        let (z, power) = (0.05, 20.0);
        let print = (1.0 - z * train_focus.dioptres()) / (power + train_focus.dioptres() * (1.0 - z * power));
        let held = hold(magnifier(power, 50.0), &eye, mm(z * 1000.0), PrintPlace::At(Length::from_m(print)))?;
        rounds_to(held.focus_demand.dioptres(), if sphere < 0.0 { "5.000" } else { "-4.000" });
        rounds_to(1.0 / held.equivalent_viewing_distance.m(), "20.0");
    }
    Ok(())
}

/// Source: exact, by brute-force vignetting.
#[test]
fn near_case_13_field_of_a_hand_magnifier() -> Result<(), Error> {
    let print = |m_units: f64| Detail {
        height: PrintSize::from_m_units(m_units).x_height(),
        distance: None,
        reserve: 1.0,
    };
    let bare = Eye { spectacle_to_eye: mm(0.0), ..eye() };
    let field = |power: f64, diameter: f64, z: f64, place: PrintPlace| {
        let held = hold(magnifier(power, diameter), &bare, mm(z), place)?;
        Ok::<_, Error>(look(&held.arrangement, &bare, print(1.0))?.widths.expect("a rim limits it"))
    };
    let far = field(10.0, 50.0, 250.0, PrintPlace::AtLensFocus)?;
    rounds_to(far.half.mm(), "20.0");
    rounds_to(far.full.mm(), "18.4");
    rounds_to(far.last.mm(), "21.6");
    rounds_to(field(10.0, 50.0, 50.0, PrintPlace::AtLensFocus)?.half.mm(), "100");
    rounds_to(field(8.0, 50.0, 300.0, PrintPlace::At(mm(90.0)))?.half.mm(), "29.0");
    // The same equivalent distance, 83.3 mm, behind a 60 mm lens at 10 and 25 cm: 50 and 20 mm, 15 characters of 1 M.
    rounds_to(field(12.0, 60.0, 100.0, PrintPlace::AtLensFocus)?.half.mm(), "50");
    let held = hold(magnifier(12.0, 60.0), &bare, mm(250.0), PrintPlace::AtLensFocus)?;
    let seen = look(&held.arrangement, &bare, print(1.0))?;
    rounds_to(seen.widths.expect("a rim limits it").half.mm(), "20");
    rounds_to(seen.characters.expect("so many"), "15");
    Ok(())
}

/// Source: exact paraxial, computed: a 40 mm lens of 12 D, pupil 20 mm behind it.
#[test]
fn field_of_high_plus_spectacles() -> Result<(), Error> {
    let worn = wear(thin(12.0), &eye_at(20.0), d(0.0))?;
    let print = Detail { height: mm(1.4544), distance: None, reserve: 1.0 };
    rounds_to(look(&worn.arrangement, &eye_at(20.0), print)?.widths.expect("a rim").half.mm(), "167");
    Ok(())
}

/// Source: definition of relative size and distance (Ryan & Margrain 2006); products exact, computed.
#[test]
fn larger_and_nearer_multiply() -> Result<(), Error> {
    let add = Eye { worn: Worn::Near { add: d(8.0) }, spectacle_to_eye: mm(0.0), ..eye() };
    let copy = look_from(&add, mm(125.0), 1.8)?;
    rounds_to(copy.equivalent_viewing_distance.mm(), "69.44");
    rounds_to(400.0 / copy.equivalent_viewing_distance.mm(), "5.76");
    let near = look_from(&eye_at(0.0), mm(100.0), 1.0)?;
    rounds_to(400.0 / near.equivalent_viewing_distance.mm(), "4.00");
    Ok(())
}
