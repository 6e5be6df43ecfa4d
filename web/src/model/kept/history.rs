//! Steps back and forth over the whole case.
//!
//! Typing in one box is one step, until another box is typed in or typing pauses; everything else is a step by itself. What
//! was taken back can be had again until something new is done. The oldest of too many steps is forgotten.

use crate::model::draft::Draft;
use std::collections::VecDeque;

/// Most steps that can be taken back.
pub const MOST_STEPS: usize = 100;
/// Pause in typing, milliseconds, after which a new step begins.
pub const PAUSE_MS: f64 = 2_000.0;

/// The case as it is, as it was before, and what was taken back.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    now: Draft,
    before: VecDeque<Draft>,
    after: Vec<Draft>,
    /// The box typed in last, and when.
    typing: Option<(String, f64)>,
}

impl History {
    /// A history that begins with this case: nothing can be taken back.
    #[must_use]
    pub fn from(now: Draft) -> Self {
        Self { now, ..Self::default() }
    }

    /// Notes the case as it is now, with the key of the box that is typed in, if one is, and the time in milliseconds.
    /// Whether anything is new.
    pub fn note(&mut self, now: &Draft, typing: Option<String>, at_ms: f64) -> bool {
        if *now == self.now {
            return false;
        }
        let goes_on = match (&self.typing, &typing) {
            (Some((last, when)), Some(this)) => last == this && at_ms - when < PAUSE_MS,
            _ => false,
        };
        let was = std::mem::replace(&mut self.now, now.clone());
        self.after.clear();
        self.typing = typing.map(|this| (this, at_ms));
        if !goes_on {
            if self.before.len() == MOST_STEPS {
                self.before.pop_front();
            }
            self.before.push_back(was);
        } else if self.before.back() == Some(now) {
            // Typed, and rubbed out again: no step is left.
            self.before.pop_back();
            self.typing = None;
        }
        true
    }

    /// Takes the last step back; the case as it was before.
    pub fn undo(&mut self) -> Option<Draft> {
        let was = self.before.pop_back()?;
        self.after.push(std::mem::replace(&mut self.now, was));
        self.typing = None;
        Some(self.now.clone())
    }

    /// Does again what was taken back last; the case as it was then.
    pub fn redo(&mut self) -> Option<Draft> {
        let next = self.after.pop()?;
        self.before.push_back(std::mem::replace(&mut self.now, next));
        self.typing = None;
        Some(self.now.clone())
    }

    /// How many steps can be taken back.
    #[must_use]
    pub fn back(&self) -> usize {
        self.before.len()
    }

    /// How many steps can be done again.
    #[must_use]
    pub fn forth(&self) -> usize {
        self.after.len()
    }

    /// On which place the case now differs from another.
    #[must_use]
    pub fn place_of_change(&self, other: &Draft) -> &'static str {
        let now = &self.now;
        if now.person != other.person || now.label != other.label {
            "Person"
        } else if now.goals != other.goals {
            "Goals"
        } else if now.bench != other.bench {
            "Bench"
        } else if now.order != other.order {
            "Sheets"
        } else {
            "Fit"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn labelled(label: &str) -> Draft {
        Draft { label: label.into(), ..Draft::default() }
    }

    fn typed(history: &mut History, label: &str, at_ms: f64) {
        assert!(history.note(&labelled(label), Some("label".into()), at_ms), "{label} is new");
    }

    #[test]
    fn typing_in_one_box_is_one_step_until_another_box_or_a_pause() {
        let mut history = History::default();
        typed(&mut history, "D", 0.0);
        typed(&mut history, "DE", 1_999.0);
        typed(&mut history, "DEM", 3_000.0);
        assert_eq!(history.back(), 1, "one box, no pause");
        typed(&mut history, "DEMO", 5_000.0);
        assert_eq!(history.back(), 2, "a pause of two seconds");
        let mut other = labelled("DEMO");
        other.person.notes = "x".into();
        history.note(&other, Some("notes".into()), 5_001.0);
        assert_eq!(history.back(), 3, "another box");
        other.order.notes = "yes".into();
        history.note(&other, None, 5_002.0);
        other.order.notes = "no".into();
        history.note(&other, None, 5_003.0);
        assert_eq!(history.back(), 5, "each choice is a step");
        for label in ["yes", ""] {
            assert_eq!(history.undo().map(|draft| draft.order.notes), Some(label.into()));
        }
        assert_eq!(history.undo(), Some(labelled("DEMO")));
        assert_eq!(history.undo(), Some(labelled("DEM")));
        typed(&mut history, "DEMS", 5_004.0);
        assert_eq!(
            (history.back(), history.forth()),
            (2, 0),
            "what is typed after a step back is a step of its own"
        );
        assert_eq!(history.undo(), Some(labelled("DEM")));
        assert_eq!(history.undo(), Some(Draft::default()));
        assert_eq!(history.undo(), None);
        assert_eq!(history.redo(), Some(labelled("DEM")));
    }

    #[test]
    fn what_is_typed_and_rubbed_out_leaves_no_step() {
        let mut history = History::default();
        assert!(!history.note(&Draft::default(), None, 0.0), "nothing is new");
        typed(&mut history, "D", 0.0);
        typed(&mut history, "", 10.0);
        assert_eq!((history.back(), history.forth()), (0, 0));
        typed(&mut history, "E", 20.0);
        assert_eq!(history.undo(), Some(Draft::default()));
    }

    #[test]
    fn the_place_of_a_step_is_named() {
        let history = History::default();
        let change = |change: fn(&mut Draft)| {
            let mut draft = Draft::default();
            change(&mut draft);
            history.place_of_change(&draft)
        };
        assert_eq!(change(|draft| draft.label = "x".into()), "Person");
        assert_eq!(change(|draft| draft.person.notes = "x".into()), "Person");
        assert_eq!(change(|draft| draft.goals.clear()), "Goals");
        assert_eq!(change(|draft| draft.bench.aid = "x".into()), "Bench");
        assert_eq!(change(|draft| draft.fit.barrel_mm = "x".into()), "Fit");
        assert_eq!(change(|draft| draft.order.notes = "x".into()), "Sheets");
        assert_eq!(change(|draft| draft.trial.notes = "x".into()), "Fit");
    }

    /// Numbers that look random and are the same each time (the multiplier is Knuth's for 64 bits, from memory).
    struct Dice(u64);

    impl Dice {
        fn below(&mut self, most: u64) -> u64 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 33) % most
        }
    }

    /// Every case there ever was, on a tape without end, with a finger on the one that shows: the same by a plainer road.
    struct Tape {
        steps: Vec<Draft>,
        finger: usize,
    }

    #[test]
    fn random_edits_and_steps_agree_with_a_tape_of_all_cases() {
        let mut dice = Dice(1);
        let mut history = History::default();
        let mut tape = Tape { steps: vec![Draft::default()], finger: 0 };
        let (mut most_back, mut steps_taken) = (0, 0);
        for turn in 0..20_000_u64 {
            // Long runs of one kind, so that the bound is met as well.
            match (turn / 150 % 3, dice.below(4)) {
                (0, 0) | (1, 1..) => {
                    let was = tape.finger.checked_sub(1).filter(|_| 0 < history.back());
                    let expected = was.map(|finger| tape.steps[finger].clone());
                    assert_eq!(history.undo(), expected, "turn {turn}");
                    tape.finger = was.unwrap_or(tape.finger);
                    steps_taken += usize::from(was.is_some());
                }
                (0, 1) | (2, 0..2) => {
                    let next = tape.finger + 1;
                    assert_eq!(history.redo(), tape.steps.get(next).cloned(), "turn {turn}");
                    tape.finger = next.min(tape.steps.len() - 1);
                }
                _ => {
                    let mut draft = tape.steps[tape.finger].clone();
                    draft.label = format!("{turn}");
                    draft.bench.aid = format!("{}", dice.below(5));
                    history.note(&draft, None, 0.0);
                    tape.steps.truncate(tape.finger + 1);
                    tape.steps.push(draft);
                    tape.finger += 1;
                }
            }
            most_back = most_back.max(history.back());
            assert_eq!(history.forth(), tape.steps.len() - 1 - tape.finger, "turn {turn}");
            // A step back and forth again changes nothing.
            let whole = history.clone();
            if history.undo().is_some() {
                assert_eq!(history.redo().as_ref(), tape.steps.get(tape.finger), "turn {turn}");
                assert_eq!((&history.before, &history.after), (&whole.before, &whole.after), "turn {turn}");
            }
        }
        assert_eq!(most_back, MOST_STEPS, "the bound is met and never passed");
        assert!(1_000 < steps_taken, "steps back were taken: {steps_taken}");
    }
}
