//! What aids are measured against: the eye that looks through them, and the wishes of the case.

use super::Wish;
use crate::model::answer::{Answer, Behind, GoalAnswer};

/// One wish with what it is called.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// Place of the goal in the case.
    pub goal: usize,
    /// What it is called.
    pub name: String,
    /// What it asks of an aid.
    pub wish: Wish,
}

/// The eye and the wishes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Asked {
    /// The eye; nothing while something of it is missing.
    pub behind: Option<Behind>,
    /// The wishes that can be measured against.
    pub wishes: Vec<Named>,
}

impl Asked {
    /// What a case asks.
    #[must_use]
    pub fn of(answer: &Answer) -> Self {
        let wishes = answer.goals.iter().enumerate().filter_map(named).collect();
        Self { behind: answer.behind, wishes }
    }

    /// Places of the wishes of one goal.
    pub fn of_goal(&self, goal: usize) -> impl Iterator<Item = usize> {
        self.wishes.iter().enumerate().filter(move |(_, wish)| wish.goal == goal).map(|(place, _)| place)
    }
}

/// A goal as a wish; nothing while something of it is missing.
fn named((place, goal): (usize, &GoalAnswer)) -> Option<Named> {
    Some(Named { goal: place, name: goal.name.clone(), wish: goal.wish()? })
}
