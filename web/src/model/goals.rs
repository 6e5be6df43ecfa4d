//! Changing the list of wishes: adding, taking away, putting back, moving, doubling.
//!
//! The list is never empty and never longer than a file may hold, and the wish that is open stays the one that Bench and
//! the ladder work for.

use super::case_file::MOST_GOALS;
use super::draft::{Draft, GoalDraft};

/// Whether one more has room.
#[must_use]
pub fn has_room(draft: &Draft) -> bool {
    draft.goals.len() < MOST_GOALS
}

/// Adds goals at the end, as many as have room, and opens the first of them; how many were added. The one goal that a
/// new case comes with gives way while nothing was changed in it.
pub fn add(draft: &mut Draft, goals: Vec<GoalDraft>) -> usize {
    if draft.goals == Draft::default().goals && !goals.is_empty() {
        draft.goals.clear();
    }
    let first = draft.goals.len();
    let room = MOST_GOALS.saturating_sub(first);
    draft.goals.extend(goals.into_iter().take(room));
    let added = draft.goals.len() - first;
    if 0 < added {
        draft.bench.goal = first;
    }
    added
}

/// Takes a goal away and gives it back with its place; the last one stays.
pub fn take_away(draft: &mut Draft, index: usize) -> Option<(usize, GoalDraft)> {
    if draft.goals.len() < 2 || draft.goals.len() <= index {
        return None;
    }
    let goal = draft.goals.remove(index);
    if index < draft.bench.goal || draft.goals.len() <= draft.bench.goal {
        draft.bench.goal = draft.bench.goal.saturating_sub(1);
    }
    Some((index, goal))
}

/// Puts a goal that was taken away back to its place, or to the end of a list that has grown shorter, and opens it;
/// whether there was room.
pub fn put_back(draft: &mut Draft, index: usize, goal: GoalDraft) -> bool {
    let room = has_room(draft);
    if room {
        let index = index.min(draft.goals.len());
        draft.goals.insert(index, goal);
        draft.bench.goal = index;
    }
    room
}

/// Adds another of the same kind with the same texts right after it, and opens that.
pub fn double(draft: &mut Draft, index: usize) -> bool {
    match draft.goals.get(index).cloned() {
        Some(goal) => put_back(draft, index + 1, goal),
        None => false,
    }
}

/// Changes place with the goal before it, or the one after it; the open goal stays open.
pub fn shift(draft: &mut Draft, index: usize, up: bool) -> bool {
    let other = if up { index.checked_sub(1) } else { index.checked_add(1) };
    match other.filter(|other| *other.max(&index) < draft.goals.len()) {
        None => false,
        Some(other) => {
            draft.goals.swap(index, other);
            let open = &mut draft.bench.goal;
            if *open == index {
                *open = other;
            } else if *open == other {
                *open = index;
            }
            true
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(name: &str) -> GoalDraft {
        GoalDraft { name: name.into(), ..GoalDraft::default() }
    }
    fn case(names: &str, open: usize) -> Draft {
        let mut draft =
            Draft { goals: names.chars().map(|name| named(&name.to_string())).collect(), ..Draft::default() };
        draft.bench.goal = open;
        draft
    }
    fn told(draft: &Draft) -> (String, usize) {
        (draft.goals.iter().map(|goal| goal.name.as_str()).collect(), draft.bench.goal)
    }

    #[test]
    fn what_is_added_comes_last_and_is_opened() {
        let mut draft = case("ab", 0);
        assert_eq!(add(&mut draft, vec![named("c"), named("d")]), 2);
        assert_eq!(told(&draft), ("abcd".into(), 2));
        assert_eq!(add(&mut draft, vec![named("x"); 40]), 26, "as many as have room");
        assert_eq!((draft.goals.len(), draft.bench.goal, has_room(&draft)), (30, 4, false));
        assert_eq!(add(&mut draft, vec![named("y")]), 0);
        assert_eq!(draft.bench.goal, 4, "nothing to open");
    }

    #[test]
    fn the_goal_of_a_new_case_gives_way_while_it_is_untouched() {
        let mut draft = Draft::default();
        assert_eq!(add(&mut draft, Vec::new()), 0);
        assert_eq!(draft, Draft::default(), "not for nothing");
        add(&mut draft, vec![named("a")]);
        assert_eq!(told(&draft), ("a".into(), 0));
        let mut touched = Draft::default();
        touched.goals[0].acuity = "20/50".into();
        add(&mut touched, vec![named("a")]);
        assert_eq!((touched.goals.len(), touched.bench.goal), (2, 1));
    }

    #[test]
    fn what_is_taken_away_can_be_put_back() {
        for (open, index, left) in
            [(0, 2, ("ab", 0)), (2, 2, ("ab", 1)), (2, 0, ("bc", 1)), (1, 1, ("ac", 1)), (1, 2, ("ab", 1))]
        {
            let mut draft = case("abc", open);
            let (place, goal) = take_away(&mut draft, index).expect("it is there");
            assert_eq!(told(&draft), (left.0.into(), left.1), "{index} with {open} open");
            assert!(put_back(&mut draft, place, goal));
            assert_eq!(told(&draft), ("abc".into(), index), "and it is opened");
        }
        let mut draft = case("ab", 0);
        assert_eq!(take_away(&mut draft, 2), None, "not there");
        let (_, goal) = take_away(&mut draft, 1).expect("it is there");
        assert_eq!(take_away(&mut draft, 0), None, "the last one stays");
        assert!(put_back(&mut draft, 9, goal), "the list has grown shorter");
        assert_eq!(told(&draft), ("ab".into(), 1));
        let mut full = case(&"x".repeat(30), 3);
        assert!(!put_back(&mut full, 0, named("y")), "no room");
        assert_eq!((full.goals.len(), full.bench.goal), (30, 3));
    }

    #[test]
    fn goals_are_moved_and_doubled() {
        for (open, index, up, after) in [
            (0, 0, false, Some(("bac", 1))),
            (1, 0, false, Some(("bac", 0))),
            (2, 1, true, Some(("bac", 2))),
            (0, 0, true, None),
            (0, 2, false, None),
            (0, 7, true, None),
        ] {
            let mut draft = case("abc", open);
            assert_eq!(shift(&mut draft, index, up), after.is_some());
            let (names, open) = after.unwrap_or(("abc", open));
            assert_eq!(told(&draft), (names.into(), open), "{index} {up}");
        }
        let mut draft = case("ab", 1);
        assert!(double(&mut draft, 0));
        assert_eq!(told(&draft), ("aab".into(), 1));
        assert!(!double(&mut draft, 3), "not there");
    }
}
