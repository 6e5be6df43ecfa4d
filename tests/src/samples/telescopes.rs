//! Samples: telescopes, and minifiers.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::device::{
    CorrectionPlace, Eye, RefractionBy, Setting, Viewer, aim, evaluate_telescope, field_gain, hold_minus,
};
use arcminute_core::explain::{Named, Step, Unit, formula};
use arcminute_core::math;
use arcminute_core::optics::{
    Telescope, correction_on_objective, disc_overlap, lenses_from_length, minus_lens, reading_cap,
    through_afocal,
};
use arcminute_core::task::{Goal, Target, demand};
use arcminute_core::unit::{Angle, Length, LogMar, Magnification, Vergence};
use arcminute_core::unmarked::by_exit_pupil;

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let (d, mm, log) = (Vergence::from_dioptres, Length::from_mm, LogMar::from_log);
    let mut galilean = Telescope::from_lenses(d(20.0), d(-50.0), mm(25.0))?;
    let mut keplerian = Telescope::from_lenses(d(20.0), d(80.0), mm(12.0))?;
    (keplerian.near_focus, galilean.near_focus) = (Some(mm(300.0)), Some(mm(300.0)));
    keplerian.marked_field = Some(Angle::from_degrees(10.0));
    keplerian.transmittance = 0.8;
    let viewer = Viewer {
        acuity: log(1.0),
        retest_limit: log(0.2),
        pupil: mm(4.0),
        sphere: d(-3.0),
        cylinder: d(-1.5),
        spectacle_to_eye: mm(15.0),
        eyepiece_to_eye: mm(15.0),
        correction: CorrectionPlace::ByFocusing,
    };
    let board = Target { height: mm(40.0), distance: Length::from_m(3.0), reserve: 1.0 };
    for telescope in [keplerian, galilean] {
        for goal in [Goal::Target(board), Goal::Acuity(log(0.4))] {
            to.add(&evaluate_telescope(&telescope, &viewer, &demand(goal))?);
        }
    }
    stop(to, keplerian, &viewer)?;
    overlap(to);
    to.add(&through_afocal(&keplerian, mm(400.0), mm(15.0)));
    to.add(&reading_cap(&galilean, d(5.0))?);
    let mut eye = Eye::corrected(log(1.0), log(0.2));
    eye.sphere = d(-3.0);
    for setting in [Setting::Cap { cap: d(5.0) }, Setting::Tube { thing_to_eye: mm(500.0) }] {
        to.add(&aim(&galilean, &eye, mm(20.0), RefractionBy::Tube, setting)?);
    }
    to.add(&lenses_from_length(mm(60.0), Magnification::from_times(-4.0))?);
    to.add(&correction_on_objective(&keplerian, d(-8.0))?);
    to.add(&minus_lens(d(-5.0), Length::from_cm(30.0)));
    to.add(&by_exit_pupil(mm(12.0), mm(3.0))?);
    to.add(&hold_minus(d(-5.0), mm(80.0), &eye, Length::from_cm(30.0))?);
    to.add(&field_gain(Magnification::from_times(0.5), Angle::from_degrees(10.0))?);
    Ok(())
}

/// The engine takes a field stop as one more opening and does not show its closed form; the two agree.
fn stop(to: &mut Samples, keplerian: Telescope, viewer: &Viewer) -> Result<(), Error> {
    let stop = Length::from_mm(8.0);
    let telescope = Telescope { marked_field: None, field_stop: Some(stop), ..keplerian };
    let straight = Viewer { sphere: Vergence::ZERO, cylinder: Vergence::ZERO, ..*viewer };
    let far = evaluate_telescope(&telescope, &straight, &demand(Goal::Acuity(LogMar::from_log(0.4))))?;
    let inputs = [
        Named::new("D_s", stop.mm(), Unit::Millimetre),
        Named::new("f_o", telescope.objective.focal_length().mm(), Unit::Millimetre),
    ];
    let result = Named::new("r", far.real_field.degrees(), Unit::Degree);
    to.push(Step::formula(&formula::REAL_FIELD_STOP, result, inputs));
    Ok(())
}

/// The share of two discs is given bare; the area in common is found here by its two segments.
fn overlap(to: &mut Samples) {
    let (exit, pupil, apart) = (3.0, 4.0, 1.0);
    let segment = |one: f64, other: f64| {
        let along = (apart * apart + one * one - other * other) / (2.0 * apart);
        one * one * math::acos(along / one) - along * math::sqrt(one * one - along * along)
    };
    let area = segment(exit / 2.0, pupil / 2.0) + segment(pupil / 2.0, exit / 2.0);
    let mm = Length::from_mm;
    let share = disc_overlap(mm(exit), mm(pupil), mm(apart));
    let inputs = [
        Named::new("A", area, Unit::Plain),
        Named::new("E", exit, Unit::Millimetre),
        Named::new("p", pupil, Unit::Millimetre),
    ];
    to.push(Step::formula(&formula::PUPIL_OVERLAP, Named::new("share", share, Unit::Plain), inputs));
}
