//! Samples: goals, everyday scenes, eccentric viewing and steadiness.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::eccentric::{Gaze, best_case, critical_print, crowding, fixation_class, fixation_of};
use arcminute_core::everyday::{ALL, everyday_demand};
use arcminute_core::predict::{power_needed, predict};
use arcminute_core::scene::{
    NARAYANASAMY_DESK, SIGN_RULES, USUAL_CYCLES, acuity_for_letter, board_acuity, face_detail, face_range,
    letter_height, reading_distance, sign_letter,
};
use arcminute_core::steadiness::{Image, break_even, hand_motion, head_motion, steady_head};
use arcminute_core::task::{Goal, Target, demand};
use arcminute_core::unit::{Angle, AngularSpeed, Length, LogMar, Magnification};
use arcminute_web::model::answer::PowerRow;

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    goals(to);
    scenes(to)?;
    eccentric(to)?;
    steadiness(to)
}

fn goals(to: &mut Samples) {
    let log = LogMar::from_log;
    let board = Target { height: Length::from_mm(40.0), distance: Length::from_m(6.0), reserve: 2.0 };
    to.add(&demand(Goal::Target(board)));
    to.add(&power_needed(log(1.0), log(0.4)));
    let prediction = predict(log(1.0), Magnification::from_times(4.0), log(0.4), log(0.2));
    to.add(&prediction);
    let usual_field = Angle::from_degrees(50.0 / 4.0);
    to.add(&PowerRow { power: 4.0, prediction, lowest: true, usual_field });
}

fn scenes(to: &mut Samples) -> Result<(), Error> {
    let (log, mm, m) = (LogMar::from_log, Length::from_mm, Length::from_m);
    to.add(&reading_distance(mm(200.0), log(1.0), 2.0)?);
    to.add(&letter_height(m(6.0), log(0.7), 2.0)?);
    to.add(&acuity_for_letter(mm(40.0), m(6.0), 2.0)?);
    let sign = SIGN_RULES.iter().find(|rule| rule.id == "road-30").expect("in the table");
    to.add(&sign_letter(sign, Length::from_feet(300.0))?);
    to.add(&board_acuity(NARAYANASAMY_DESK.demand(), 2.5)?);
    to.add(&face_range(log(1.0), mm(140.0), &USUAL_CYCLES)?);
    to.add(&face_detail(mm(140.0), USUAL_CYCLES.best)?);
    for row in ALL.iter().filter(|row| row.id == "phone-message") {
        to.add(&everyday_demand(row, None, 1.0)?);
    }
    Ok(())
}

fn eccentric(to: &mut Samples) -> Result<(), Error> {
    let degrees = Angle::from_degrees;
    to.add(&best_case(degrees(10.0))?);
    to.add(&crowding(degrees(5.0))?);
    to.add(&critical_print(degrees(10.0))?);
    let gaze = |x, y| Gaze { x: degrees(x), y: degrees(y) };
    let points = [gaze(-0.8, -0.5), gaze(0.9, -0.2), gaze(0.4, 0.7), gaze(-0.3, 0.4), gaze(-0.2, -0.4)];
    to.add(&fixation_of(&points, 0.632)?);
    to.add(&fixation_class(&points)?);
    Ok(())
}

fn steadiness(to: &mut Samples) -> Result<(), Error> {
    let four = Magnification::from_times(4.0);
    let speed = AngularSpeed::from_degrees_per_second;
    to.add(&head_motion(four, Image::Upright, 1.5, speed(5.0))?);
    to.add(&break_even(four)?);
    to.add(&steady_head(four, Image::Upright, 1.0)?);
    to.add(&hand_motion(four, Image::Upright, speed(3.0))?);
    Ok(())
}
