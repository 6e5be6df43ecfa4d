//! Each demonstration case: nothing typed is in trouble, and the numbers are those of a second road and of this list.
//!
//! The printed numbers were computed by a program in another language from the same closed forms.

use crate::independent::{Looking, Setting, chance_of_goal, detail};
use crate::reading::{case, meet, names, result, rounds_to, value};
use arcminute_core::math::{log10, pow};
use arcminute_web::model::answer::Answer;
use arcminute_web::model::demo;
use arcminute_web::model::report::report;

/// What a case is, in numbers, and what it must give, as printed.
struct Case {
    name: &'static str,
    eye: &'static str,
    /// Acuity of the eye and goal, as detail in minutes of arc.
    detail_now: f64,
    detail_goal: f64,
    telescope: &'static str,
    objective: f64,
    looking: Looking,
    setting: Setting,
    verdict: &'static str,
    printed: Printed,
}

/// Printed results.
struct Printed {
    power: &'static str,
    whole: &'static str,
    in_use: &'static str,
    acuity_with: &'static str,
    chance: &'static str,
    exit_pupil: &'static str,
    width: Option<&'static str>,
    height: &'static str,
    head_drop: &'static str,
    tilt: &'static str,
    web: &'static str,
    smallest_box_height: &'static str,
}

const FAR: f64 = f64::INFINITY;
const LIMIT: f64 = 0.20;

fn all() -> [Case; 4] {
    [adult_20_160(), adult_20_300(), pupil_reads_the_board(), frame_too_shallow()]
}

fn adult_20_160() -> Case {
    Case {
        name: "adult-20-160",
        eye: "right",
        detail_now: 160.0 / 20.0,
        detail_goal: 40.0 / 20.0,
        telescope: "telescope-k40-13",
        objective: 13.0,
        looking: Looking {
            power: 4.0,
            length: 62.0,
            real_field_degrees: 12.2,
            mean_sphere: -1.25,
            in_eyepiece: false,
            vertex: 13.0,
            distance: FAR,
        },
        setting: Setting {
            box_width: 48.0,
            box_height: 44.0,
            bridge: 20.0,
            pd: 31.5,
            pupil_height: 23.0,
            pupil: 4.0,
            barrel: 14.0,
            play: 0.5,
            vertex: 13.0,
            cornea_to_rotation: 14.0,
            pantoscopic: 0.0,
        },
        verdict: "accepted",
        printed: Printed {
            power: "4.0000",
            whole: "4",
            in_use: "4.0620",
            acuity_with: "0.2944",
            chance: "0.5261",
            exit_pupil: "3.2500",
            width: None,
            height: "32.4132",
            head_drop: "19.2205",
            tilt: "19.2205",
            web: "3.6736",
            smallest_box_height: "43.3264",
        },
    }
}

fn adult_20_300() -> Case {
    Case {
        name: "adult-20-300",
        eye: "left",
        detail_now: 300.0 / 20.0,
        detail_goal: 50.0 / 20.0,
        telescope: "telescope-k60-14",
        objective: 14.0,
        looking: Looking {
            power: 6.0,
            length: 74.0,
            real_field_degrees: 8.6,
            mean_sphere: 2.25,
            in_eyepiece: true,
            vertex: 12.0,
            distance: FAR,
        },
        setting: Setting {
            box_width: 50.0,
            box_height: 46.0,
            bridge: 19.0,
            pd: 32.5,
            pupil_height: 24.0,
            pupil: 3.5,
            barrel: 14.0,
            play: 0.5,
            vertex: 12.0,
            cornea_to_rotation: 14.0,
            pantoscopic: 4.0,
        },
        verdict: "accepted",
        printed: Printed {
            power: "6.0000",
            whole: "6",
            in_use: "6.0000",
            acuity_with: "0.3979",
            chance: "0.5000",
            exit_pupil: "2.3333",
            width: None,
            height: "33.4058",
            head_drop: "19.8882",
            tilt: "23.8882",
            web: "4.4384",
            smallest_box_height: "44.5616",
        },
    }
}

fn pupil_reads_the_board() -> Case {
    Case {
        name: "pupil-reads-the-board",
        eye: "right",
        detail_now: 48.0 / 6.0,
        detail_goal: detail(40.0, 6000.0) / 2.0,
        telescope: "telescope-k40-10",
        objective: 10.0,
        looking: Looking {
            power: 4.0,
            length: 58.0,
            real_field_degrees: 11.8,
            mean_sphere: -3.5,
            in_eyepiece: false,
            vertex: 12.0,
            distance: 6000.0,
        },
        setting: Setting {
            box_width: 46.0,
            box_height: 38.0,
            bridge: 17.0,
            pd: 27.5,
            pupil_height: 20.0,
            pupil: 5.0,
            barrel: 10.0,
            play: 0.5,
            vertex: 12.0,
            cornea_to_rotation: 13.5,
            pantoscopic: 2.0,
        },
        verdict: "accepted",
        printed: Printed {
            power: "3.4907",
            whole: "4",
            in_use: "4.2464",
            acuity_with: "0.2751",
            chance: "0.7979",
            exit_pupil: "2.5000",
            width: Some("1.2154"),
            height: "27.7875",
            head_drop: "16.9823",
            tilt: "18.9823",
            web: "4.4249",
            smallest_box_height: "36.5751",
        },
    }
}

pub(crate) fn shallow_setting() -> Setting {
    Setting {
        box_width: 48.0,
        box_height: 38.0,
        bridge: 20.0,
        pd: 31.5,
        pupil_height: 21.0,
        pupil: 4.0,
        barrel: 14.0,
        play: 0.5,
        vertex: 13.0,
        cornea_to_rotation: 14.0,
        pantoscopic: 0.0,
    }
}

fn frame_too_shallow() -> Case {
    Case {
        name: "frame-too-shallow",
        eye: "right",
        // Two letters missed on the 20/200 line of a log chart.
        detail_now: pow(10.0, 1.04),
        detail_goal: detail(25.0, 3000.0) / 1.5,
        telescope: "telescope-k50-12",
        objective: 12.0,
        looking: Looking {
            power: 5.0,
            length: 66.0,
            real_field_degrees: 9.8,
            mean_sphere: -2.5,
            in_eyepiece: false,
            vertex: 13.0,
            distance: 3000.0,
        },
        setting: shallow_setting(),
        verdict: "refused",
        printed: Printed {
            power: "2.8706",
            whole: "3",
            in_use: "5.3838",
            acuity_with: "0.3089",
            chance: "0.9963",
            exit_pupil: "2.4000",
            width: Some("0.4908"),
            height: "30.4132",
            head_drop: "19.2205",
            tilt: "19.2205",
            web: "-0.3264",
            smallest_box_height: "41.3264",
        },
    }
}

#[test]
fn every_case_of_the_folder_is_in_the_menu_and_in_this_list() {
    let mut listed: Vec<&str> = all().iter().map(|case| case.name).collect();
    let mut menu: Vec<&str> = demo::CASES.iter().map(|case| case.id).collect();
    listed.sort_unstable();
    menu.sort_unstable();
    assert_eq!(names(), listed);
    assert_eq!(names(), menu);
}

#[test]
fn nothing_typed_in_a_case_is_in_trouble() {
    for name in names() {
        let answer = Answer::of(&case(&name));
        for (field, state) in answer.fields.iter() {
            assert!(!state.is_trouble(), "{name}: {field:?} is {state:?}");
        }
        assert!(answer.undecided.is_empty(), "{name}: {:?}", answer.undecided);
    }
}

#[test]
fn power_and_prediction_by_the_other_road() {
    for case in all() {
        let Case { name, looking, printed, .. } = &case;
        let report = report(&crate::reading::case(name));
        assert_eq!(report["eye"], case.eye, "{name}");
        let needed = result(&report, "power-needed");
        let power = case.detail_now / case.detail_goal;
        meet(value(needed, "power", "x"), power, name);
        rounds_to(value(needed, "power", "x"), printed.power);
        rounds_to(value(needed, "whole_power", "x"), printed.whole);

        let telescope = result(&report, case.telescope);
        assert_eq!(report["chosen_telescope"], case.telescope["telescope-".len()..], "{name}");
        let in_use = looking.magnification_in_use();
        meet(value(telescope, "magnification_in_use", "x").abs(), in_use, name);
        rounds_to(value(telescope, "magnification_in_use", "x").abs(), printed.in_use);
        meet(value(telescope, "acuity_with", "logMAR"), log10(case.detail_now / in_use), name);
        rounds_to(value(telescope, "acuity_with", "logMAR"), printed.acuity_with);
        let chance = chance_of_goal(case.detail_now, in_use, case.detail_goal, LIMIT);
        meet(value(telescope, "chance", ""), chance, name);
        rounds_to(value(telescope, "chance", ""), printed.chance);
        meet(value(telescope, "exit_pupil", "mm"), case.objective / looking.power, name);
        rounds_to(value(telescope, "exit_pupil", "mm"), printed.exit_pupil);
        meet(value(telescope, "real_field", "°"), looking.real_field_degrees, name);
        match printed.width {
            Some(width) => {
                let (got, other_road) = (value(telescope, "width_at_task", "m"), looking.width_at_target());
                meet(got, other_road, name);
                rounds_to(got, width);
            }
            None => {
                assert!(telescope["values"].get("width_at_task").is_none(), "{name}: an acuity has no place")
            }
        }
    }
}

#[test]
fn whole_powers_by_the_other_road() {
    for case in all() {
        let report = report(&crate::reading::case(case.name));
        for power in 2..=10 {
            let row = result(&report, &format!("whole-power-{power}"));
            let magnification = f64::from(power);
            let chance = chance_of_goal(case.detail_now, magnification, case.detail_goal, LIMIT);
            meet(value(row, "chance", ""), chance, case.name);
            let with = log10(case.detail_now / magnification);
            meet(value(row, "acuity_with", "logMAR"), with, case.name);
            meet(value(row, "band_worst", "logMAR"), with + LIMIT, case.name);
            meet(value(row, "band_best", "logMAR"), with - LIMIT, case.name);
        }
    }
}

#[test]
fn the_fit_by_the_other_road() {
    for case in all() {
        let Case { name, setting, printed, .. } = &case;
        let report = report(&crate::reading::case(name));
        let fit = result(&report, "fit");
        let place = setting.place();
        for (key, unit, other_road, printed) in [
            ("eyepiece_x", "mm", setting.pd, None),
            ("eyepiece_y", "mm", place.height, Some(printed.height)),
            ("head_drop", "°", place.head_drop, Some(printed.head_drop)),
            ("tilt_to_carrier", "°", place.tilt, Some(printed.tilt)),
            ("least_web", "mm", place.least_web, Some(printed.web)),
        ] {
            let got = value(fit, key, unit);
            assert!(
                (got - other_road).abs() < 2e-5,
                "{name} {key}: got {got}, the other road gives {other_road}"
            );
            if let Some(printed) = printed {
                rounds_to(got, printed);
            }
        }
        rounds_to(value(fit, "smallest_box_height", "mm"), printed.smallest_box_height);
        assert_eq!(fit["verdict"], case.verdict, "{name}: {:#}", fit["checks"]);
    }
}
