//! What of the front of a frame can be moved by hand: pupil, eyepiece and segment. Moving one writes its boxes.

use super::answer::{Answer, FitAnswer};
use super::draft::{Draft, EyeChoice, PlacementChoice};
use super::field::{FieldId, Kind};
use super::format;
use arcminute_core::fit::{Eye, Mounting, Point};
use arcminute_core::math;
use arcminute_core::unit::Length;

/// Something that can be moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grip {
    /// The pupil of an eye: its PD and its height.
    Pupil(EyeChoice),
    /// The eyepiece before an eye; it is then where it was put, and no rule is asked.
    Eyepiece(EyeChoice),
    /// The top of the segment, on the side of an eye.
    Segment(EyeChoice),
}

/// Where something is that can be moved, and what it is called.
#[derive(Clone, Debug, PartialEq)]
pub struct GripPlace {
    /// What it is.
    pub grip: Grip,
    /// Its place, as in [`arcminute_core::fit`].
    pub at: Point,
    /// What it is called: `RIGHT eye: eyepiece`.
    pub name: String,
    /// Its place in words.
    pub said: String,
}

/// The grip of a segment from the middle of the lens toward the temple, clear of the pupil.
const BESIDE_MIDDLE_MM: f64 = 14.0;

/// A step of an arrow key, and of the same with Shift, millimetres.
pub const STEPS_MM: [f64; 2] = [0.5, 0.1];

impl Grip {
    /// The eye it is before.
    #[must_use]
    pub fn eye(self) -> EyeChoice {
        match self {
            Self::Pupil(eye) | Self::Eyepiece(eye) | Self::Segment(eye) => eye,
        }
    }
}

/// What can be moved in a fit, as it stands.
#[must_use]
pub fn grips(answer: &Answer) -> Vec<GripPlace> {
    let FitAnswer::Done(done) = &answer.fit else { return Vec::new() };
    done.mountings().flat_map(of_eye).collect()
}

fn of_eye(mounting: &Mounting) -> Vec<GripPlace> {
    let asked = &mounting.request;
    let eye = if asked.eye == Eye::Right { EyeChoice::Right } else { EyeChoice::Left };
    let place = |grip, what: &str, at: Point| GripPlace {
        grip,
        at,
        name: format!("{}: {what}", eye.label()),
        said: format!("{} out, {} up", format::mm(at.x), format::mm(at.y)),
    };
    let pupil = Point { x: asked.monocular_pd, y: asked.pupil_height };
    let mut grips = vec![
        place(Grip::Pupil(eye), "pupil", pupil),
        place(Grip::Eyepiece(eye), "eyepiece", mounting.eyepiece),
    ];
    if let Some(top) = asked.segment_height {
        let at = Point { x: asked.frame.box_centre().x + Length::from_mm(BESIDE_MIDDLE_MM), y: top };
        let said = format!("{} up", format::mm(top));
        grips.push(GripPlace { said, ..place(Grip::Segment(eye), "top of the segment", at) });
    }
    grips
}

/// Puts what is moved to a place, in whole steps, and not beyond what its boxes take.
pub fn move_to(draft: &mut Draft, grip: Grip, at: Point, step_mm: f64) {
    match grip {
        Grip::Pupil(eye) => {
            put(draft, FieldId::of_eye(FieldId::Pd, eye), at.x, step_mm);
            put(draft, FieldId::of_eye(FieldId::PupilHeight, eye), at.y, step_mm);
        }
        Grip::Eyepiece(_) => {
            draft.fit.placement = PlacementChoice::ByHand;
            // Two eyepieces stay before their eyes.
            if !draft.fit.both_eyes {
                put(draft, FieldId::EyepieceAcross, at.x, step_mm);
            }
            put(draft, FieldId::EyepieceUp, at.y, step_mm);
        }
        Grip::Segment(_) => put(draft, FieldId::SegmentHeight, at.y, step_mm),
    }
}

fn put(draft: &mut Draft, field: FieldId, value: Length, step_mm: f64) {
    let Kind::Length(bound) = field.info().kind else { return };
    let (low, high) = bound.possible;
    let value = math::round_to(value.mm(), step_mm).max(low).min(high);
    field.set_text(draft, format::trimmed(value, 1));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::demo;

    fn fitted() -> Draft {
        let draft = demo::CASES[0].case();
        assert!(matches!(Answer::of(&draft).fit, FitAnswer::Done(_)), "it has a fit");
        draft
    }
    fn at(draft: &Draft, grip: Grip) -> Point {
        let found = grips(&Answer::of(draft)).into_iter().find(|place| place.grip == grip);
        found.expect("it can be moved").at
    }

    /// Law: what is moved to a place on the half millimetres stands there afterwards.
    #[test]
    fn what_is_moved_stands_where_it_was_put() {
        for (grip, x, y) in
            [(Grip::Pupil(EyeChoice::Right), 30.0, 21.5), (Grip::Eyepiece(EyeChoice::Right), 33.5, 30.0)]
        {
            let mut draft = fitted();
            draft.bench.eye = EyeChoice::Right;
            move_to(&mut draft, grip, Point::from_mm(x + 0.1, y - 0.2), STEPS_MM[0]);
            assert_eq!(at(&draft, grip), Point::from_mm(x, y), "{grip:?}");
        }
    }

    #[test]
    fn an_eyepiece_put_by_hand_follows_no_rule_and_a_pupil_leaves_the_rule() {
        let mut draft = fitted();
        let eye = draft.bench.eye;
        move_to(&mut draft, Grip::Pupil(eye), Point::from_mm(30.0, 22.0), 0.5);
        assert_eq!(draft.fit.placement, fitted().fit.placement);
        move_to(&mut draft, Grip::Eyepiece(eye), Point::from_mm(30.0, 22.0), 0.5);
        assert_eq!(draft.fit.placement, PlacementChoice::ByHand);
    }

    #[test]
    fn nothing_is_moved_beyond_what_its_box_takes() {
        let mut draft = fitted();
        move_to(&mut draft, Grip::Pupil(EyeChoice::Right), Point::from_mm(-40.0, 400.0), 0.5);
        assert_eq!(
            (draft.person.right.pd_mm.as_str(), draft.person.right.pupil_height_mm.as_str()),
            ("15", "60")
        );
    }

    #[test]
    fn two_eyepieces_stay_before_their_eyes() {
        let mut draft = fitted();
        draft.fit.both_eyes = true;
        move_to(&mut draft, Grip::Eyepiece(EyeChoice::Left), Point::from_mm(20.0, 30.0), 0.5);
        assert_eq!((draft.fit.eyepiece_x_mm.as_str(), draft.fit.eyepiece_y_mm.as_str()), ("", "30"));
    }
}
