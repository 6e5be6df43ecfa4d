//! Telescopes with caps, focused near, reversed; minus lenses: published and computed values through the common outcome.

use crate::support::{rounds_to, telescope};
use arcminute_core::Error;
use arcminute_core::device::{
    Detail, Eye, RefractionBy, Setting, aim, diameter_to_fill, field_gain, hold_minus, look,
};
use arcminute_core::optics::Telescope;
use arcminute_core::unit::{Angle, Length, LogMar, Magnification, PrintSize, Vergence};

fn d(power: f64) -> Vergence {
    Vergence::from_dioptres(power)
}
fn mm(length: f64) -> Length {
    Length::from_mm(length)
}
fn eye() -> Eye {
    Eye { spectacle_to_eye: mm(12.0), ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)) }
}
fn capped(objective: f64, eyepiece: f64, cap: f64) -> Result<arcminute_core::device::TelescopeInUse, Error> {
    let setting = Setting::Cap { cap: d(cap) };
    aim(&telescope(objective, eyepiece, 25.0)?, &eye(), mm(12.0), RefractionBy::Glasses, setting)
}

/// Source: Schwartz, Geometrical and Visual Optics, chapter 12: 5 M read at 40 cm, 1 M wanted: 12.5 D.
#[test]
fn a_cap_gives_distance_to_work_in() -> Result<(), Error> {
    let used = capped(20.0, -50.0, 5.0)?;
    let evd = used.equivalent_viewing_distance.expect("near");
    rounds_to(1.0 / evd.m(), "12.5");
    rounds_to(evd.cm(), "8.0");
    rounds_to(used.thing_to_aid.expect("near").cm(), "20");
    // Eye to print, 12 mm behind the eyepiece: 0.242 m against 0.092 m for a single lens of that power.
    rounds_to(used.arrangement.shown_to_eye().expect("near").m(), "0.242");
    rounds_to(1.0 / 12.5 + 0.012, "0.092");
    let print = Detail { height: PrintSize::from_m_units(1.0).x_height(), distance: None, reserve: 1.0 };
    let seen = look(&used.arrangement, &eye(), print)?;
    // MAR 10 and 80 mm: 0.8 M is just read, computed.
    rounds_to(PrintSize::of_x_height(seen.least_height).m_units(), "0.80");
    Ok(())
}

/// Source: exact, computed: 4x with a +2.50 cap is 10 D at 40 cm.
#[test]
fn keplerian_with_a_cap() -> Result<(), Error> {
    let used = capped(20.0, 80.0, 2.5)?;
    rounds_to(used.equivalent_viewing_distance.expect("near").mm(), "100.0");
    rounds_to(used.thing_to_aid.expect("near").mm(), "400");
    Ok(())
}

/// Source: exact, computed: the telescope that gives 10 D at a wanted working distance, cap 1/wd and M = E·wd.
#[test]
fn power_for_a_working_distance() -> Result<(), Error> {
    for (distance, printed) in [(0.25, "2.5"), (0.40, "4"), (0.65, "6.5")] {
        let power: f64 = printed.parse().expect("a number");
        let lenses = Telescope::from_lenses(d(20.0), d(20.0 * power), mm(20.0))?;
        let cap = Setting::Cap { cap: d(1.0 / distance) };
        let used = aim(&lenses, &eye(), mm(12.0), RefractionBy::Glasses, cap)?;
        rounds_to(1.0 / used.equivalent_viewing_distance.expect("near").m(), "10.0");
        rounds_to(10.0 * used.thing_to_aid.expect("near").m(), printed);
    }
    Ok(())
}

/// Source: exact, by rays: linear field of a Galilean with a cap, `(D_o + s·M·p)/(F_cap·M(d + M·v))`.
#[test]
fn field_of_a_reading_telescope() -> Result<(), Error> {
    let setting = Setting::Cap { cap: d(5.0) };
    let galilean = telescope(20.0, -50.0, 25.0)?;
    let eye = Eye { pupil: mm(3.0), ..eye() };
    let used = aim(&galilean, &eye, mm(15.0), RefractionBy::Glasses, setting)?;
    let print = Detail { height: mm(1.4544), distance: None, reserve: 1.0 };
    let widths = look(&used.arrangement, &eye, print)?.widths.expect("the objective limits it");
    for (share, width) in [(-1.0, widths.full), (0.0, widths.half), (1.0, widths.last)] {
        let closed_form = (25.0 + share * 2.5 * 3.0) / (5.0 * 2.5 * (30.0 + 2.5 * 15.0)) * 1000.0;
        assert!((width.mm() - closed_form).abs() < 1e-9, "share {share}: {} and {closed_form}", width.mm());
    }
    Ok(())
}

/// Source: computed from the definitions: field gain 1/M against acuity lost.
#[test]
fn reversed_telescopes() -> Result<(), Error> {
    for (m, extent, loss) in [(0.5, "19.8", "0.30"), (0.4, "24.7", "0.40"), (0.25, "38.6", "0.60")] {
        let gain = field_gain(Magnification::from_times(m), Angle::from_degrees(10.0))?;
        rounds_to(gain.seen_extent.degrees(), extent);
        rounds_to(gain.acuity_loss.log(), loss);
    }
    let reversed = telescope(-40.0, 20.0, 12.0)?.afocal();
    rounds_to(reversed.magnification.times(), "0.5");
    rounds_to(reversed.length.mm(), "25");
    Ok(())
}

/// Source: exact paraxial, computed; the design methods of Kozlowski et al. 1984 and Woo et al. 2001 give the same lens.
#[test]
fn minus_lenses_at_arms_length() -> Result<(), Error> {
    let bare = Eye { spectacle_to_eye: mm(0.0), ..eye() };
    for (power, distance, times, demand) in
        [(-5.0, 0.30, "0.400", "2.00"), (-10.0, 0.30, "0.25", "2.50"), (-5.0, 0.40, "0.333", "1.67")]
    {
        let held = hold_minus(d(power), mm(80.0), &bare, Length::from_m(distance))?;
        rounds_to(held.magnification.times(), times);
        rounds_to(held.focus_demand.dioptres(), demand);
    }
    // DIFFERENCE: printed as 52 mm; 2·300·tan 5° is 52.49.
    rounds_to(diameter_to_fill(Angle::from_degrees(10.0), Length::from_m(0.3)).mm(), "52");
    Ok(())
}
