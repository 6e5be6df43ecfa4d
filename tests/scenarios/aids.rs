//! Aids on Bench by a second road: closed forms by hand, from what stands in the case and in the list.
//!
//! Nothing here calls the core but for its floating-point functions. Lengths in metres, powers in dioptres.

use crate::independent::{chance_of_goal, detail};
use crate::reading::{case, meet, result, rounds_to, value};
use arcminute_core::math::{log10, sqrt};
use arcminute_web::model::answer::Answer;
use arcminute_web::model::compared::{Asked, LookedAt};
use arcminute_web::model::draft::Draft;
use arcminute_web::model::field::FieldId;
use arcminute_web::model::list;
use arcminute_web::model::report::report;
use arcminute_web::model::shown;
use serde_json::Value;

/// The right eye of `adult-20-160`: 20/160, -1.00 -0.50, add 2.50, lens 13 mm before the cornea, no accommodation.
const MAR: f64 = 8.0;
const SPHERE: f64 = -1.25;
const NEAR_GLASSES: f64 = SPHERE + 2.5;
const TO_EYE: f64 = 0.013 + 0.003_05;
const LIMIT: f64 = 0.20;
/// 1 M of print: tan 5 arcmin at 1 m.
const PRINT: f64 = 1.454_442_068_9e-3;
const WANTED: f64 = 1.0;

/// Where an aid puts the image of the print and how large, as it meets the glasses.
struct Image {
    to_glasses: f64,
    larger: f64,
    glasses: f64,
}

impl Image {
    /// The chief ray: through the middle of the pupil, `y = −s·θ`, bent by the glasses.
    fn as_from(&self) -> f64 {
        (TO_EYE + self.to_glasses * (1.0 - TO_EYE * self.glasses)) / self.larger
    }
    /// Vergence carried from the image to the pupil, against that which the relaxed eye takes.
    fn focusing(&self) -> f64 {
        let carried = |vergence: f64| vergence / (1.0 - TO_EYE * vergence);
        carried(SPHERE) - carried(self.glasses - 1.0 / self.to_glasses)
    }
}

/// Least detail with so much out of focus: squares add with what the blur takes from a normal eye of 1.25 arcmin.
fn blurred(out_of_focus: f64) -> f64 {
    let normal = 1.25 * (1.0 + 1.08 * out_of_focus * out_of_focus);
    sqrt(MAR * MAR + normal * normal - 1.25 * 1.25)
}

#[track_caller]
fn agrees(report: &Value, key: &str, as_from: f64, focusing: f64) {
    let aid = result(report, key);
    meet(value(aid, "equivalent_viewing_distance", "mm") / 1000.0, as_from, key);
    assert!((value(aid, "focus_needed", "D") - focusing).abs() < 1e-9, "{key} asks for {focusing}");
    // What is asked for above zero stays out of focus: this eye has no accommodation. So does what converges.
    let mar = blurred(focusing);
    // The acuity was measured through the glasses for far, which make everything smaller.
    let seen = detail(PRINT, as_from) * (1.0 - TO_EYE * SPHERE);
    meet(value(aid, "reserve_reached", "x"), seen / mar, key);
    meet(value(aid, "least_height", "mm"), 1000.0 * PRINT * mar / seen, key);
    meet(value(aid, "chance", ""), chance_of_goal(mar, 1.0, seen / WANTED, LIMIT), key);
}

/// The adult with the print served: goal 1 is an acuity, goal 2 is print.
fn reading() -> Draft {
    let mut draft = case("adult-20-160");
    draft.bench.goal = 1;
    draft
}

fn adult() -> Value {
    report(&reading())
}

#[test]
fn print_moved_nearer_and_made_larger() {
    let nearer = Image { to_glasses: 0.2 - TO_EYE, larger: 1.0, glasses: NEAR_GLASSES };
    agrees(&adult(), "aid-nearer", nearer.as_from(), nearer.focusing());
    let larger = Image { to_glasses: 0.4 - TO_EYE, larger: 2.0, glasses: NEAR_GLASSES };
    agrees(&adult(), "aid-larger", larger.as_from(), larger.focusing());
}

#[test]
fn spectacles_of_ten_dioptres_more() {
    // The relaxed eye wants the vergence of its own refraction: the print is a tenth of a metre before the lens.
    let worn = Image { to_glasses: 0.1, larger: 1.0, glasses: SPHERE + 10.0 };
    agrees(&adult(), "aid-high-plus", worn.as_from(), 0.0);
    meet(value(result(&adult(), "aid-high-plus"), "hand_room", "mm"), 100.0, "room for the hand");
}

#[test]
fn a_hand_magnifier_with_the_print_in_its_focus() {
    // Parallel light: an angle h/f, which the glasses for far make 1/(1 − s·K) times as large; sharp.
    for (key, power) in [("aid-hand-12", 12.0), ("aid-hand-28", 28.0), ("aid-fresnel-sheet", 3.0)] {
        agrees(&adult(), key, (1.0 - TO_EYE * SPHERE) / power, 0.0);
        meet(value(result(&adult(), key), "hand_room", "mm"), 1000.0 / power, key);
    }
}

#[test]
fn a_stand_magnifier_whose_image_the_add_is_right_for() {
    let stand = Image { to_glasses: 0.25 + 0.15, larger: 6.0, glasses: NEAR_GLASSES };
    assert!(stand.focusing().abs() < 1e-12, "0.4 m and 2.5 D");
    agrees(&adult(), "aid-stand", stand.as_from(), 0.0);
    rounds_to(value(result(&adult(), "aid-stand"), "equivalent_viewing_distance", "mm"), "68.00");
}

#[test]
fn a_dome_is_one_surface_on_glass() {
    let (radius, height, index) = (0.030, 0.035, 1.49);
    let larger = index / (index - (index - 1.0) * height / radius);
    let below_top = larger * height / index;
    let dome = Image { to_glasses: 0.4 - TO_EYE - height + below_top, larger, glasses: NEAR_GLASSES };
    agrees(&adult(), "aid-dome", dome.as_from(), dome.focusing());
}

#[test]
fn screens_show_larger_and_stand_further_off() {
    for (key, width, larger, distance) in [
        ("aid-desk-screen", 0.48, 10.0, 0.40),
        ("aid-hand-screen", 0.11, 6.0, 0.30),
        ("aid-tablet", 0.20, 3.0, 0.33),
    ] {
        let screen = Image { to_glasses: distance - TO_EYE, larger, glasses: NEAR_GLASSES };
        agrees(&adult(), key, screen.as_from(), screen.focusing());
        meet(value(result(&adult(), key), "width", "m"), width / larger, key);
        let characters = width / larger / (1.30e-3 * PRINT / 1.454_442_068_9e-3);
        meet(value(result(&adult(), key), "characters", ""), characters, key);
    }
}

#[test]
fn far_aids_against_an_acuity() {
    // The goal is 20/40: 2 arcmin. A display of 40 degrees for 10 of the scene, seen through the glasses for far.
    let display = 40.0 / 10.0 / (1.0 - TO_EYE * SPHERE);
    let report = report(&case("adult-20-160"));
    let aid = result(&report, "aid-head-mounted");
    meet(value(aid, "magnification", "x"), display, "head-mounted");
    // Through the same glasses the acuity was measured: against it the display is worth four times.
    meet(value(aid, "reserve_reached", "x"), 4.0 * 2.0 / MAR, "head-mounted");
    meet(value(aid, "chance", ""), chance_of_goal(MAR, 4.0, 2.0, LIMIT), "head-mounted");
}

/// Letters of an acuity stand at 6 m, where a telescope that is fixed for far leaves something to the eye. An afocal
/// telescope of M makes the image 1/M as large and puts it `x/M² + d/M` before the eyepiece; behind it the glasses.
#[test]
fn telescopes_fixed_for_far_before_letters_at_six_metres() {
    let report = report(&case("adult-20-160"));
    // 2.5x from its other end, 30 mm long, 5 mm before the glasses; and 2.2x of 26 mm in them.
    for (key, power, tube, to_glasses) in
        [("aid-reversed-telescope", 0.4, 0.030, 0.005), ("aid-g22-20", 2.2, 0.026, 0.0)]
    {
        let before = 6.0 - TO_EYE - to_glasses - tube;
        let behind_eyepiece = before / (power * power) + tube / power;
        let image = Image { to_glasses: behind_eyepiece + to_glasses, larger: 1.0 / power, glasses: SPHERE };
        let aid = result(&report, key);
        meet(value(aid, "equivalent_viewing_distance", "mm") / 1000.0, image.as_from(), key);
        meet(value(aid, "magnification", "x"), 6.0 / image.as_from(), key);
        meet(value(aid, "focus_needed", "D"), image.focusing(), key);
        meet(value(aid, "acuity_with", "logMAR"), log10(blurred(image.focusing())), key);
    }
}

#[test]
fn the_goal_that_is_served_says_which_aids_are_judged_and_what_they_wait_for() {
    let waits = |draft: &Draft| {
        let results = report(draft)["results"].as_array().cloned().expect("results");
        let aids =
            results.iter().filter(|one| one["key"].as_str().is_some_and(|key| key.starts_with("aid-")));
        (aids.count(), Answer::of(draft).aids_wait_for)
    };
    let all = list::demo().list.iter();
    let near = all.filter(|aid| aid.serves() == list::For::Print).count();
    let far = list::demo().list.len() - near;
    let mut draft = case("adult-20-160");
    assert_eq!(waits(&draft), (far, vec![]), "an acuity: far aids");
    draft.goals[0].acuity.clear();
    assert_eq!(waits(&draft), (0, vec![FieldId::GoalAcuity(0)]), "without it");
    draft.bench.goal = 1;
    assert_eq!(waits(&draft), (near, vec![]), "print: near aids");
    for print in ["", "8"] {
        draft.goals[1].print = print.into();
        assert_eq!(waits(&draft), (0, vec![FieldId::GoalPrint(1)]), "nothing, and a number alone: {print}");
    }
    draft.person.right.accommodation_d = "?".into();
    let both = vec![FieldId::Accommodation(true), FieldId::GoalPrint(1)];
    assert_eq!(waits(&draft), (0, both), "an eye that is not known");
}

/// Source: convention, 8 to the M.
#[test]
fn print_is_read_in_any_notation() {
    let height = |print: &str| {
        let mut draft = reading();
        draft.goals[1].print = print.into();
        value(result(&report(&draft), "goal-2-print"), "x_height", "mm")
    };
    meet(height("N8"), 1000.0 * PRINT, "N8");
    meet(height("1 M"), 1000.0 * PRINT, "1 M");
    meet(height("1,45 mm"), 1.45, "measured");
    meet(height("20/50 at 40 cm"), 1000.0 * PRINT, "reduced");
}

#[test]
fn an_aid_that_cannot_serve_says_why() {
    // An eye that lacks 30 D: nothing before a thick lens of 20 D in place of its glasses is sharp.
    let mut draft = reading();
    draft.person.right.refraction = "+30.00".into();
    let answer = Answer::of(&draft);
    let aid = list::demo_aid("high-plus-thick").expect("it is in the list");
    let looked = LookedAt::of(&Asked::of(&answer), answer.goal, aid).expect("eye and print are known");
    let words = shown::looked_words(&looked);
    assert!(words.contains(": power of the lens `"), "{words}");
    assert!(words.contains("nothing in front of the lens is in focus"), "{words}");
    assert!(shown::looked_facts(&answer, &looked).is_empty(), "no numbers beside it");
    assert!(shown::instead_words(&looked).is_empty() && looked.steps().is_empty(), "nor anything else");
}
