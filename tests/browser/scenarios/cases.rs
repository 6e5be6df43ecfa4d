//! The demonstration cases: what stands in their files, and typing it into a blank page as a person would.

use super::independent::{self, Device, Eye, Mounting, Notation, Rule};
use super::places::{fill, go};
use crate::page::Page;
use crate::{act, find};
use serde_json::{Value, json};

/// A case of the menu; its file is read from the source tree, not from the page.
pub(super) struct Case {
    /// Name of the file, and the end of the button's key.
    pub(super) id: &'static str,
    text: &'static str,
}

macro_rules! cases {
    ($($id:literal),+) => {
        &[$(Case { id: $id, text: include_str!(concat!("../../../demo-scenarios/", $id, ".json")) }),+]
    };
}

/// All of them, in the menu's order.
pub(super) const CASES: &[Case] =
    cases!["adult-20-160", "adult-20-300", "pupil-reads-the-board", "frame-too-shallow"];

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
    ("target", "Something of a known size"),
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
    fn file(&self) -> Value {
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
        self.type_goal(page);
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
    fn type_person(&self, page: &Page) {
        go(page, "Person");
        self.fill(page, "Case label", "/label");
        for (eye, words) in [("right", "RIGHT eye"), ("left", "LEFT eye")] {
            for (label, part) in [
                ("best corrected distance acuity", "acuity"),
                ("refraction", "refraction"),
                ("pupil diameter mm", "pupil_mm"),
                ("usable accommodation D", "accommodation_d"),
                ("PD mm", "pd_mm"),
            ] {
                self.fill(page, &format!("{words}: {label}"), &format!("/person/{eye}/{part}"));
            }
        }
        self.fill(page, "Retest limit logMAR", "/person/retest_limit_log_mar");
        self.fill(page, "Vertex distance mm", "/person/vertex_mm");
        self.fill(page, "Notes", "/person/notes");
    }

    #[track_caller]
    fn type_goal(&self, page: &Page) {
        go(page, "Goals");
        self.fill(page, "What is it?", "/goals/0/name");
        if self.text("/goals/0/kind") == "acuity" {
            act::choose(page, words_of("acuity"));
            self.fill(page, "Acuity to reach", "/goals/0/acuity");
            self.fill(page, "Print to read near", "/goals/0/print");
            self.fill(page, "Reserve times", "/goals/0/reserve_times");
            return;
        }
        // A new case comes with 20/40 there; a person who wants something else takes it away.
        fill(page, "Acuity to reach", "");
        act::choose(page, words_of("target"));
        self.fill(page, "Height of the letters mm", "/goals/0/letter_height_mm");
        self.fill(page, "Distance from the eye m", "/goals/0/distance_m");
        self.fill(page, "Reserve times", "/goals/0/reserve_times");
        self.fill(page, "Width to see at once m", "/goals/0/width_m");
        self.fill(page, "Print to read near", "/goals/0/print");
    }

    #[track_caller]
    fn choose_on_bench(&self, page: &Page) {
        go(page, "Bench");
        act::choose(page, words_of(&self.eye()));
        act::choose(page, words_of(&self.text("/bench/correction")));
        let device = self.device();
        let shown = "return document.getElementById(arguments[0])?.checkVisibility() ?? false";
        find::id(page, &format!("choose-{}", device.id));
        if page.script(shown, &[json!(format!("choose-{}", device.id))]) != json!(true) {
            find::id(page, "all-telescopes").click();
        }
        act::click(page, "button", &format!("Choose {} {}", device.marking(), device.name));
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
