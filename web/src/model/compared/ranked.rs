//! The aids of a list for one wish: what nothing beats first, then what is beaten and by what, then what does not serve.

use super::{Cannot, Cell};
use crate::model::draft::FirstChoice;
use arcminute_core::predict::Reach;
use arcminute_core::rank::{Criteria, Criterion, Merits, Standing, folded, in_order};

/// Where the aids of a list stand for one wish. Aids are named by their places in the list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ranked {
    /// Those that have a chance and that nothing beats, the best first.
    pub front: Vec<usize>,
    /// Those that have a chance and that one on the front beats: by which, and on what.
    pub beaten: Vec<(usize, usize, Criteria)>,
    /// Those that would have a chance, but do not give something that the wish asks for; the best first.
    pub but_for: Vec<usize>,
    /// Those without a chance, the best first.
    pub short: Vec<usize>,
    /// Those that are not for it, or that optics has no answer for.
    pub none: Vec<usize>,
}

impl Ranked {
    /// Whether there is no aid at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl FirstChoice {
    /// What is weighed first.
    #[must_use]
    pub fn criterion(self) -> Criterion {
        match self {
            Self::LowPower => Criterion::LowPower,
            Self::SeenAtOnce => Criterion::SeenAtOnce,
            Self::HandRoom => Criterion::HandRoom,
            Self::HandsFree => Criterion::HandsFree,
            Self::Light => Criterion::Light,
            Self::BothEyes => Criterion::BothEyes,
            Self::Depth => Criterion::Depth,
            Self::Chance => Criterion::Chance,
        }
    }
}

/// Puts the aids in order, by what each does for the wish and by what matters most to the person.
#[must_use]
pub fn ranked(cells: &[&Result<Cell, Cannot>], priorities: &[Criterion]) -> Ranked {
    let mut ranked = Ranked::default();
    let (mut likely, mut lacking, mut unlikely) = (Vec::new(), Vec::new(), Vec::new());
    for (place, cell) in cells.iter().enumerate() {
        match cell {
            Err(_) => ranked.none.push(place),
            Ok(cell) if cell.prediction.reach < Reach::BetterEnd => unlikely.push((place, cell.merits)),
            Ok(cell) if !cell.serves() => lacking.push((place, cell.merits)),
            Ok(cell) => likely.push((place, cell.merits)),
        }
    }
    let merits: Vec<Merits> = likely.iter().map(|(_, merits)| *merits).collect();
    let standings = folded(&merits, Criteria::ALL);
    for at in ordered(&merits, priorities) {
        match standings[at] {
            Standing::Front => ranked.front.push(likely[at].0),
            Standing::Beaten { by, on } => ranked.beaten.push((likely[at].0, likely[by].0, on)),
        }
    }
    ranked.but_for = in_that_order(&lacking, priorities);
    ranked.short = in_that_order(&unlikely, priorities);
    ranked
}

fn in_that_order(aids: &[(usize, Merits)], priorities: &[Criterion]) -> Vec<usize> {
    let merits: Vec<Merits> = aids.iter().map(|(_, merits)| *merits).collect();
    ordered(&merits, priorities).into_iter().map(|at| aids[at].0).collect()
}

fn ordered(merits: &[Merits], priorities: &[Criterion]) -> Vec<usize> {
    let mut places = vec![0; merits.len()];
    // There are as many places as merits.
    let _ = in_order(merits, priorities, &mut places);
    places
}
