//! The whole routine without a mouse: Tab, Shift+Tab, Space, Enter, the arrows, and typing.

use super::cases::{Case, case};
use super::places::arrived;
use crate::driver::Options;
use crate::page::Page;
use crate::{act, see};

/// More stops than any place has.
const MOST_STOPS: usize = 150;

/// Tabs on until this has the focus, `textbox "Vertex distance mm"`.
#[track_caller]
fn tab_to(page: &Page, wanted: &str) {
    let mut passed = Vec::new();
    for _ in 0..MOST_STOPS {
        let here = see::focused(page);
        if here == wanted {
            return;
        }
        passed.push(here);
        act::press(page, &["Tab"]);
    }
    panic!("{wanted} is not reached by Tab; passed {passed:?}");
}

/// Goes to a box by Tab and types into it; what stood there is selected on arrival, as browsers do.
#[track_caller]
fn type_at(page: &Page, label: &str, text: &str) {
    tab_to(page, &format!("textbox {label:?}"));
    act::press(page, &["Control+a"]);
    act::type_keys(page, text);
}

/// Goes to the group by Tab, which stops at the button that is on, and by arrow to the one wanted.
#[track_caller]
fn choose_at(page: &Page, now: &str, arrows: &[&str], wanted: &str) {
    tab_to(page, &format!("radio {now:?}"));
    act::press(page, arrows);
    assert_eq!(see::focused(page), format!("radio {wanted:?}"), "the arrows take the next choice");
    assert!(see::is_on(page, wanted), "{wanted} is on");
}

#[track_caller]
fn press_at(page: &Page, button: &str, key: &str, to: &str) {
    tab_to(page, &format!("button {button:?}"));
    act::press(page, &[key]);
    arrived(page, to);
}

#[test]
fn the_whole_routine_by_keyboard_alone() {
    let case = case("adult-20-160");
    let page = super::open(&Options::desktop());
    act::press(&page, &["Tab"]);
    assert_eq!(see::focused(&page), "link \"Skip to the work\"", "the first stop leads past the header");
    act::press(&page, &["Enter"]);
    person(&page, case);
    goals_and_bench(&page, case);
    fit(&page, case);
    press_at(&page, "On to the sheets", "Enter", "Sheets");
    tab_to(&page, "checkbox \"Large nose pads\"");
    act::press(&page, &["Space"]);
    assert!(see::is_on(&page, "Large nose pads"), "Space ticks");
    act::press(&page, &["Tab", "Shift+Tab"]);
    assert_eq!(see::focused(&page), "checkbox \"Large nose pads\"", "Shift+Tab goes back");
    tab_to(&page, "button \"Print the sheet\"");
    see::reads(&page, "voice", "4x is needed. 4x13 chosen: chance of the goal 56 %. The fit is possible.");
    assert_eq!(see::count(&page, ".void"), 0, "the sheet stands");
    assert_eq!(see::focused(&page), "button \"Print the sheet\"", "ready to print");
    see::no_errors(&page);
}

#[track_caller]
fn person(page: &Page, case: &Case) {
    type_at(page, "Case label", &case.text("/label"));
    for (eye, words) in [("right", "RIGHT eye"), ("left", "LEFT eye")] {
        for (label, part) in [
            ("best corrected distance acuity", "acuity"),
            ("refraction", "refraction"),
            ("pupil diameter mm", "pupil_mm"),
            ("PD mm", "pd_mm"),
        ] {
            type_at(page, &format!("{words}: {label}"), &case.text(&format!("/person/{eye}/{part}")));
        }
    }
    type_at(page, "Retest limit logMAR", "0.20");
    type_at(page, "Vertex distance mm", "13");
    press_at(page, "On to the goals", "Enter", "Goals");
}

#[track_caller]
fn goals_and_bench(page: &Page, case: &Case) {
    type_at(page, "What is it?", &case.text("/goals/0/name"));
    // There and back: a goal of the other kind has other boxes.
    choose_at(page, "An acuity to reach", &["ArrowDown"], "Letters or signs of a known height");
    act::press(page, &["ArrowUp"]);
    type_at(page, "Acuity to reach", &case.text("/goals/0/acuity"));
    see::reads(page, "needed", "4x is needed.");
    press_at(page, "On to the aids", "Space", "Bench");
    choose_at(page, "RIGHT eye", &["ArrowDown", "ArrowUp"], "RIGHT eye");
    tab_to(page, "button \"Look at 4x13 Keplerian, focusing, bright\"");
    act::press(page, &["Space"]);
    see::holds(page, "looked-name", "4x13");
    press_at(page, "On to the fit", "Enter", "Fit");
}

#[track_caller]
fn fit(page: &Page, case: &Case) {
    let fit = |name: &str| case.text(&format!("/fit/{name}"));
    type_at(page, "RIGHT eye: pupil height mm", &case.text("/person/right/pupil_height_mm"));
    type_at(page, "PD, both eyes mm", &fit("pd_both_mm"));
    type_at(page, "Cornea to centre of rotation mm", &fit("cornea_to_rotation_mm"));
    type_at(page, "Box width A mm", &fit("box_width_mm"));
    type_at(page, "Box height B mm", &fit("box_height_mm"));
    type_at(page, "Bridge DBL mm", &fit("bridge_mm"));
    type_at(page, "Pantoscopic angle °", &fit("pantoscopic_deg"));
    choose_at(page, "Single vision or plano", &["ArrowDown"], "Bifocal");
    type_at(page, "Segment height mm", &fit("segment_height_mm"));
    type_at(page, "Eyepiece to segment, at least mm", &fit("segment_gap_mm"));
    type_at(page, "Play round the barrel mm", &fit("play_mm"));
    type_at(page, "Least web of lens mm", &fit("least_web_mm"));
    see::holds(page, "fit-verdict", "The fit is possible");
}
