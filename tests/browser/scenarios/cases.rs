//! The demonstration cases: what stands in their files, and typing it into a blank page as a person would.

use super::independent::{self, Device, Eye, Mounting, Notation, Rule};
use super::places::{fill, go, into_view};
use crate::page::Page;
use crate::wait::{SOON, within};
use crate::{act, find, see};
use serde_json::{Value, json};

/// A case of the menu; its file is read from the source tree, not from the page.
pub(super) struct Case {
    /// Name of the file, and the end of the button's key.
    pub(super) id: &'static str,
    text: &'static str,
}

macro_rules! cases {
    ($folder:literal, $($id:literal),+) => {
        &[$(Case { id: $id, text: include_str!(concat!($folder, $id, ".json")) }),+]
    };
}

/// All of them, in the menu's order.
pub(super) const CASES: &[Case] = cases![
    "../../../demo-scenarios/",
    "adult-20-160",
    "adult-20-300",
    "pupil-reads-the-board",
    "frame-too-shallow"
];

/// Six more people, invented for the tests.
pub(super) const PEOPLE: &[Case] = cases![
    "../../second_road/cases/",
    "central-loss",
    "child-reads-near",
    "high-myope",
    "music-teacher",
    "small-field",
    "without-its-lens"
];

/// A case of the menu by its key.
#[track_caller]
pub(super) fn case(id: &str) -> &'static Case {
    CASES.iter().find(|case| case.id == id).expect("a case of this key")
}

/// What the page calls each choice of the file.
const CHOICES: &[(&str, &str)] = &[
    ("right", "RIGHT eye"),
    ("left", "LEFT eye"),
    ("by_focusing", "Focused out with the tube"),
    ("in_eyepiece", "Lens in the eyepiece"),
    ("acuity", "An acuity to reach"),
    ("letters", "Letters or signs of a known height"),
    ("detail", "The smallest detail of a thing"),
    ("print", "Print to read"),
    ("face", "A face to recognise"),
    ("spot", "Spot it"),
    ("read", "Read it"),
    ("read_long", "Read for long"),
    ("one_free", "One hand free"),
    ("both_free", "Both hands free"),
    ("standing", "Standing"),
    ("walking", "Walking"),
    ("must", "Must"),
    ("should", "Should"),
    ("nice", "Nice to have"),
    ("pupil_top", "Eyepiece bottom level with pupil top"),
    ("single_vision", "Single vision or plano"),
    ("bifocal", "Bifocal"),
    ("as_worn", "As usually worn"),
    ("turned_over", "Telescope is to serve this eye too, turned over"),
    ("covered", "Covered"),
    ("no_filter", "No filter"),
    ("spares_eyepiece", "Filter on the carrier, eyepiece left clear"),
    ("a4", "A4"),
    ("letter", "US Letter"),
];

/// Words of a choice on the page.
#[track_caller]
pub(super) fn words_of(choice: &str) -> &'static str {
    CHOICES.iter().find(|(key, _)| *key == choice).unwrap_or_else(|| panic!("no words for {choice:?}")).1
}

impl Case {
    pub(super) fn file(&self) -> Value {
        serde_json::from_str(self.text).expect("a case file")
    }

    /// What the menu says.
    pub(super) fn about(&self) -> &'static str {
        let (_, after) = self.text.split_once("\"about\": \"").expect("a line that says what it is");
        after.split_once('"').expect("a closed text").0
    }

    /// A text or a choice of the case by its path, `/person/right/acuity`; empty when it is not there.
    pub(super) fn text(&self, path: &str) -> String {
        self.file()["case"].pointer(path).and_then(Value::as_str).unwrap_or_default().to_owned()
    }

    /// The number in a box, or what the page assumes when it is empty.
    #[track_caller]
    pub(super) fn number(&self, path: &str, when_empty: f64) -> f64 {
        let text = self.text(path);
        if text.is_empty() { when_empty } else { text.parse().expect("a plain number in the file") }
    }

    fn is_on(&self, path: &str) -> bool {
        self.file()["case"].pointer(path) == Some(&json!(true))
    }

    /// `right` or `left`: the eye that looks through.
    pub(super) fn eye(&self) -> String {
        self.text("/bench/eye")
    }

    fn other_eye(&self) -> &'static str {
        if self.eye() == "right" { "left" } else { "right" }
    }

    fn of_eye(&self, eye: &str, part: &str) -> String {
        self.text(&format!("/person/{eye}/{part}"))
    }

    /// logMAR of the eye that looks through, and its notation.
    pub(super) fn acuity(&self) -> (f64, Notation) {
        independent::log_mar(&self.of_eye(&self.eye(), "acuity")).expect("a measured acuity")
    }

    /// logMAR to reach.
    pub(super) fn goal(&self) -> f64 {
        match self.distance_m() {
            None => independent::log_mar(&self.text("/goals/0/acuity")).expect("a goal").0,
            Some(distance) => independent::log_mar_of_letters(
                self.number("/goals/0/letter_height_mm", f64::NAN),
                distance,
                self.number("/goals/0/reserve_times", 1.0),
            ),
        }
    }

    pub(super) fn distance_m(&self) -> Option<f64> {
        let distance = self.number("/goals/0/distance_m", f64::NAN);
        distance.is_finite().then_some(distance)
    }

    pub(super) fn retest_limit(&self) -> f64 {
        self.number("/person/retest_limit_log_mar", 0.20)
    }

    pub(super) fn behind(&self) -> Eye {
        Eye {
            mean_sphere: independent::mean_sphere(&self.of_eye(&self.eye(), "refraction")),
            in_eyepiece: self.text("/bench/correction") == "in_eyepiece",
            vertex_mm: self.number("/person/vertex_mm", 13.0),
            pupil_mm: self.number(&format!("/person/{}/pupil_mm", self.eye()), 4.0),
        }
    }

    pub(super) fn device(&self) -> Device {
        let id = self.text("/bench/telescope");
        independent::devices().into_iter().find(|device| device.id == id).expect("a telescope of the list")
    }

    pub(super) fn mounting(&self) -> Mounting {
        let fit = |name: &str, when_empty| self.number(&format!("/fit/{name}"), when_empty);
        let eye = |name: &str| self.number(&format!("/person/{}/{name}", self.eye()), f64::NAN);
        assert_eq!(self.text("/fit/placement"), "pupil_top", "the rule of all demonstration cases");
        let segment = fit("segment_height_mm", f64::NAN);
        Mounting {
            a: fit("box_width_mm", f64::NAN),
            b: fit("box_height_mm", f64::NAN),
            dbl: fit("bridge_mm", f64::NAN),
            corner: 8.0,
            pd: eye("pd_mm"),
            pupil_height: eye("pupil_height_mm"),
            pupil: self.behind().pupil_mm,
            barrel: self.device().barrel_mm,
            play: fit("play_mm", 0.5),
            vertex: self.behind().vertex_mm,
            rotation: fit("cornea_to_rotation_mm", 14.0),
            pantoscopic: fit("pantoscopic_deg", 0.0),
            least_web: fit("least_web_mm", 3.0),
            gap: fit("segment_gap_mm", 10.0),
            segment: segment.is_finite().then_some(segment),
            rule: Rule::PupilTop,
        }
    }

    /// Types the whole case into a blank page, place by place.
    #[track_caller]
    pub(super) fn type_in(&self, page: &Page) {
        self.type_person(page);
        self.type_goals(page);
        self.choose_on_bench(page);
        self.type_fit(page);
        self.type_order(page);
    }

    #[track_caller]
    fn fill(&self, page: &Page, label: &str, path: &str) {
        let text = self.text(path);
        if !text.is_empty() {
            fill(page, label, &text);
        }
    }

    #[track_caller]
    pub(super) fn type_person(&self, page: &Page) {
        go(page, "Person");
        self.fill(page, "Case label", "/label");
        for (eye, words) in [("right", "RIGHT eye"), ("left", "LEFT eye")] {
            for (label, part) in [
                ("best corrected distance acuity", "acuity"),
                ("refraction", "refraction"),
                ("pupil diameter mm", "pupil_mm"),
                ("usable accommodation D", "accommodation_d"),
                ("log contrast sensitivity", "contrast_log_cs"),
                ("PD mm", "pd_mm"),
            ] {
                self.fill(page, &format!("{words}: {label}"), &format!("/person/{eye}/{part}"));
            }
        }
        self.fill(page, "Age years", "/person/age_years");
        self.fill(page, "Retest limit logMAR", "/person/retest_limit_log_mar");
        self.fill(page, "Vertex distance mm", "/person/vertex_mm");
        self.fill(page, "Notes", "/person/notes");
    }

    #[track_caller]
    pub(super) fn type_goals(&self, page: &Page) {
        go(page, "Goals");
        let count = self.file()["case"]["goals"].as_array().map_or(0, Vec::len);
        for goal in 0..count {
            if 0 < goal {
                act::click(page, "button", "Add a goal");
            }
            self.type_goal(page, goal);
        }
        if 1 < count {
            into_view(&find::id(page, "goal-1-open")).click();
        }
    }

    /// Types one goal into the boxes of the open one.
    #[track_caller]
    fn type_goal(&self, page: &Page, goal: usize) {
        let path = |part: &str| format!("/goals/{goal}/{part}");
        let kind = self.text(&path("kind"));
        self.fill(page, "What is it?", &path("name"));
        if goal == 0 && kind != "acuity" {
            // A new case comes with 20/40 there; a person who wants something else takes it away.
            fill(page, "Acuity to reach", "");
        }
        act::choose(page, words_of(&kind));
        for (label, part) in [
            ("Acuity to reach", "acuity"),
            ("Height of the letters mm", "letter_height_mm"),
            ("Size of the detail mm", "detail_mm"),
            ("Print to read", "print"),
            ("Distance from the eye m", "distance_m"),
        ] {
            self.fill(page, label, &path(part));
        }
        let how_well = self.text(&path("how_well"));
        if !how_well.is_empty() {
            act::choose(page, words_of(&how_well));
        }
        into_view(&find::all(page, ".goal summary")[0]).click();
        for (label, part) in [
            ("Farthest distance m", "farthest_m"),
            ("Contrast %", "contrast_percent"),
            ("Reserve times", "reserve_times"),
            ("Width to see at once m", "width_m"),
            ("To see at once characters", "characters"),
            ("Light where it is done lx", "light_lux"),
        ] {
            self.fill(page, label, &path(part));
        }
        for (label, part) in [("How much it matters", "priority"), ("Hands", "hands"), ("Posture", "posture")]
        {
            let choice = self.text(&path(part));
            if !choice.is_empty() {
                act::select(page, label, words_of(&choice));
            }
        }
        act::tick(page, "With both eyes", self.is_on(&path("both_eyes")));
        act::tick(page, "It does not wait: a bus, a ball", self.is_on(&path("time_critical")));
    }

    #[track_caller]
    fn choose_on_bench(&self, page: &Page) {
        go(page, "Bench");
        act::choose(page, words_of(&self.eye()));
        into_view(&find::id(page, "bench-more")).click();
        act::choose(page, words_of(&self.text("/bench/correction")));
        let device = self.device();
        look_at(page, &device.id);
    }

    #[track_caller]
    fn type_fit(&self, page: &Page) {
        // Fit shows the boxes of the eye chosen on Bench; the other eye's come by choosing it for a moment.
        for eye in [self.other_eye().to_owned(), self.eye()] {
            go(page, "Bench");
            act::choose(page, words_of(&eye));
            go(page, "Fit");
            let label = format!("{}: pupil height mm", words_of(&eye));
            self.fill(page, &label, &format!("/person/{eye}/pupil_height_mm"));
        }
        for (label, part) in [
            ("PD, both eyes mm", "pd_both_mm"),
            ("Cornea to centre of rotation mm", "cornea_to_rotation_mm"),
            ("Box width A mm", "box_width_mm"),
            ("Box height B mm", "box_height_mm"),
            ("Bridge DBL mm", "bridge_mm"),
            ("Effective diameter ED mm", "effective_diameter_mm"),
            ("Pantoscopic angle °", "pantoscopic_deg"),
        ] {
            self.fill(page, label, &format!("/fit/{part}"));
        }
        act::choose(page, words_of(&self.text("/fit/placement")));
        // The boxes of a segment are there for a carrier that has one.
        act::choose(page, words_of("bifocal"));
        self.fill(page, "Eyepiece to segment, at least mm", "/fit/segment_gap_mm");
        self.fill(page, "Segment height mm", "/fit/segment_height_mm");
        act::choose(page, words_of(&self.text("/fit/carrier")));
        self.fill(page, "Barrel diameter at the lens mm", "/fit/barrel_mm");
        self.fill(page, "Play round the barrel mm", "/fit/play_mm");
        self.fill(page, "Least web of lens mm", "/fit/least_web_mm");
        self.fill(page, "Tilt ordered by hand °", "/fit/ordered_tilt_deg");
    }

    #[track_caller]
    fn type_order(&self, page: &Page) {
        go(page, "Sheets");
        act::choose(page, words_of(&self.text("/order/fellow")));
        act::choose(page, words_of(&self.text("/order/filter")));
        act::tick(page, "Large nose pads", self.is_on("/order/large_nose_pads"));
        act::tick(page, "Head strap", self.is_on("/order/head_strap"));
        self.fill(page, "Notes for the workshop", "/order/notes");
        act::choose(page, words_of(&self.text("/order/paper")));
    }
}

/// Unfolds every group of aids on Bench.
#[track_caller]
pub(super) fn unfold_aids(page: &Page) {
    for group in ["more", "beaten", "but-for", "short", "none"] {
        unfold_group(page, group);
    }
}

#[track_caller]
fn unfold_group(page: &Page, group: &str) {
    let fold = find::id(page, &format!("aids-{group}-fold"));
    let is_shown = page.script("return arguments[0].checkVisibility()", &[fold.id.to_json()]) == json!(true);
    if is_shown && fold.attribute("aria-expanded").as_deref() == Some("false") {
        into_view(&fold).click();
    }
}

/// Looks at an aid of Bench by its key, unfolding the group that it is in.
#[track_caller]
pub(super) fn look_at(page: &Page, id: &str) {
    let key = format!("look-{id}");
    let is_there = || {
        let body = "return document.getElementById(arguments[0])?.checkVisibility() ?? false";
        page.script(body, &[json!(key)]) == json!(true)
    };
    for group in ["more", "beaten", "but-for", "short", "none"] {
        if is_there() {
            break;
        }
        unfold_group(page, group);
    }
    into_view(&find::id(page, &key)).click();
    within(SOON, "the focus on the aid", || {
        let focused = see::focused(page);
        if focused.starts_with("heading ") { Ok(()) } else { Err(focused) }
    });
}
