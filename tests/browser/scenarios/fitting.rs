//! How what is worn sits in its frame: moved by hand and by key, before one eye and before both, telescopes and spectacles.

use super::cases::case;
use super::places::{fill, go, load};
use crate::driver::Options;
use crate::page::Page;
use crate::wait::{SOON, within};
use crate::{act, find, see};
use serde_json::json;

/// A demonstration case, at its fit: RIGHT PD 31.5, LEFT 32, both pupils 23 mm up, A 48, B 44, DBL 20.
fn at_fit(options: &Options) -> Page {
    let page = super::open(options);
    load(&page, case("adult-20-160"));
    go(&page, "Fit");
    see::reads(&page, "fit-verdict", "The fit is possible.");
    page
}

#[track_caller]
fn value_is(page: &Page, label: &str, wanted: &str) {
    within(SOON, &format!("{label:?} to be {wanted:?}"), || {
        let seen = see::value(page, label);
        if seen == wanted { Ok(()) } else { Err(seen) }
    });
}

/// Middle of a grip in the window, and how many pixels a millimetre takes there.
fn middle(page: &Page, name: &str) -> (f64, f64, f64) {
    let body = "const it = arguments[0]; it.scrollIntoView({ block: 'center' }); \
                const box = it.getBoundingClientRect(); \
                return [box.left + box.width / 2, box.top + box.height / 2, box.width / 2 / it.r.baseVal.value]";
    let found = page.script(body, &[find::role(page, "slider", name).id.to_json()]);
    let number = |place: usize| found[place].as_f64().expect("a number");
    (number(0), number(1), number(2))
}

/// Takes hold of a grip with the mouse and puts it so many millimetres to the right and up, as the viewer sees it.
fn drag(page: &Page, name: &str, right: f64, up: f64) {
    let (x, y, scale) = middle(page, name);
    let mouse = |kind: &str, x: f64, y: f64, held: u8| {
        let event =
            json!({ "type": kind, "x": x, "y": y, "button": "left", "buttons": held, "clickCount": 1 });
        page.try_cdp("Input.dispatchMouseEvent", event).expect("the mouse");
    };
    mouse("mouseMoved", x, y, 0);
    mouse("mousePressed", x, y, 1);
    for part in [0.3, 0.7, 1.0] {
        mouse("mouseMoved", x + part * right * scale, y - part * up * scale, 1);
    }
    mouse("mouseReleased", x + right * scale, y - up * scale, 0);
}

#[test]
fn an_eyepiece_is_moved_by_arrow_keys_and_its_boxes_follow() {
    let page = at_fit(&Options::desktop());
    let grip = "RIGHT eye: eyepiece";
    page.script("arguments[0].focus()", &[find::role(&page, "slider", grip).id.to_json()]);
    // From 31.5 out and 32.4 up: two steps up and one to the right, which before the RIGHT eye is toward the nose.
    act::press(&page, &["ArrowUp"]);
    assert!(see::is_on(&page, "Where I put it"), "no rule is asked any more");
    act::press(&page, &["ArrowUp", "ArrowRight"]);
    value_is(&page, "Eyepiece centre sideways mm", "31");
    value_is(&page, "Eyepiece centre height mm", "33.5");
    act::press(&page, &["Shift+ArrowDown"]);
    value_is(&page, "Eyepiece centre height mm", "33.4");
    see::holds(&page, "fit-y", "33.5 mm");
    // 44 less 33.4 less half the oval and the play: a little less than the 3 mm that are wanted.
    see::reads(&page, "fit-verdict", "The fit is refused.");
    act::choose(&page, "Eyepiece bottom level with pupil top");
    see::reads(&page, "fit-verdict", "The fit is possible.");
    see::no_errors(&page);
}

#[test]
fn a_pupil_is_dragged_and_its_boxes_follow() {
    for options in [Options::desktop(), Options::phone()] {
        let page = at_fit(&options);
        drag(&page, "RIGHT eye: pupil", -2.0, -1.0);
        // To the viewer's left is outward before the RIGHT eye.
        value_is(&page, "RIGHT eye: PD mm", "33.5");
        value_is(&page, "RIGHT eye: pupil height mm", "22");
        assert!(see::is_on(&page, "Eyepiece bottom level with pupil top"), "the rule stays");
        see::holds(&page, "fit-x", "33.5 mm");
        drag(&page, "RIGHT eye: top of the segment", 0.0, -1.0);
        value_is(&page, "Segment height mm", "13");
        see::no_errors(&page);
    }
}

/// By hand: PD 31.5 and 32, so the two eyepieces are 63.5 apart; for 40 cm and 27 mm from lens to rotation each is at
/// PD·400/427.
#[test]
fn two_telescopes_sit_before_their_own_pupils_and_turn_in_together() {
    let page = at_fit(&Options::desktop());
    act::tick(&page, "A telescope before each eye", true);
    see::holds(&page, "fit-x", "31.5 mm");
    see::holds(&page, "fit-x-other", "32.0 mm");
    see::holds(&page, "fit-is-of", "before each eye");
    fill(&page, "Lens to what is looked at mm", "400");
    let near = |pd: f64| format!("{:.1} mm", ((pd * 400.0 / 427.0) * 2.0).round() / 2.0);
    see::holds(&page, "fit-x", &near(31.5));
    see::holds(&page, "fit-x-other", &near(32.0));
    let toe = |pd: f64| format!("{:.1}°", arcminute_core::math::atan(pd / 427.0).to_degrees());
    see::holds(&page, "fit-toe-in", &toe(31.5));
    see::holds(&page, "fit-toe-in-other", &toe(32.0));
    // One wide PD that the halves do not add up to is asked about.
    fill(&page, "PD, both eyes mm", "66");
    see::holds(&page, "fit-checks", "measure the PD again, each eye and both");
    see::no_errors(&page);
}

#[test]
fn a_tilt_ordered_by_hand_asks_what_it_is_measured_from() {
    let page = at_fit(&Options::desktop());
    fill(&page, "Tilt ordered by hand °", "19");
    see::holds(&page, "fit-checks", "what the tilt is measured from");
    act::choose(&page, "From the straight-ahead line of sight, head upright");
    within(SOON, "the question to be answered", || {
        let told = see::text(&page, "fit-checks");
        if told.contains("say what the tilt") { Err(told) } else { Ok(()) }
    });
    see::holds(&page, "fit-miss", "19.0°");
    fill(&page, "Pantoscopic angle °", "8");
    // Straight ahead stays straight ahead: only an order from the lens would now miss the eye by more.
    act::choose(&page, "From the carrier lens, at right angles to it");
    see::holds(&page, "fit-checks", "Tilt ordered against tilt computed");
    see::no_errors(&page);
}

/// By hand: +6 D, in focus at 1000/6 mm, 13 and 14 mm from lens to rotation: each eye's optical centre at PD·W/(W + 27).
#[test]
fn strong_spectacles_are_centred_for_near_before_both_eyes() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    go(&page, "Bench");
    act::select(&page, "Goal", "Prices and labels");
    super::cases::unfold_aids(&page);
    find::id(&page, "look-high-plus-6").click();
    go(&page, "Fit");
    see::holds(&page, "fit-is-of", "High-plus spectacles, +6 D, for both eyes");
    let print = 1000.0 / 6.0;
    let near = |pd: f64| pd * print / (print + 27.0);
    see::holds(&page, "fit-print", "16.7 cm");
    see::holds(&page, "fit-centre-right", &format!("{:.1} mm out, 23.0 mm up", near(31.5)));
    see::holds(&page, "fit-centre-left", &format!("{:.1} mm out, 23.0 mm up", near(32.0)));
    // Bare eyes turn in by 100·PD/(W + s) prism dioptres; lenses centred on the lines of sight add nothing to that.
    let bare = |pd: f64| format!("{:.1} prism dioptres", 100.0 * pd / (print + 27.0));
    see::holds(&page, "fit-convergence-right", &bare(31.5));
    see::holds(&page, "fit-convergence-left", &bare(32.0));
    fill(&page, "Base-in prism, each lens prism dioptres", "8");
    // The lens is -1.00 and +6.00; its cylinder of -0.50 x 180 has no power across: 5 D there. A ray from the midline to
    // the centre of rotation, in metres: B = u + s - u·s·F, D = 1 - u·F.
    let (p, centre, u, s, power) = (0.0315, near(31.5) / 1000.0, print / 1000.0, 0.027, 5.0);
    let turn = power * centre - 0.08;
    let slope = (p - s * turn) / (u + s - u * s * power);
    let spared = 100.0 * ((1.0 - u * power) * slope + turn);
    see::holds(&page, "fit-convergence-right", &format!("{spared:.1} prism dioptres"));
    act::choose(&page, "Covered");
    see::holds(&page, "fit-is-of", "for the RIGHT eye");
    assert_eq!(see::count(&page, "#fit-centre-left"), 0, "one lens only");
    see::no_errors(&page);
}
