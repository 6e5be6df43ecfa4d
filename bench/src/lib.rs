//! The work that is timed: what many aids do for many wishes of one eye.
//!
//! It is a library, so that the native program and the engine of a browser run the same. There it is called by name:
//! [`prepare`] makes the cases, [`run`] answers them all.

pub mod cases;

use arcminute_core::device::{Aid, Detail, Outcome, every_outcome};
use cases::Kinds;
use std::cell::RefCell;

/// Aids and wishes.
#[derive(Debug, Default)]
pub struct Cases {
    /// Aids.
    pub aids: Vec<Aid>,
    /// Wishes.
    pub wishes: Vec<Detail>,
}

impl Cases {
    /// So many of each.
    #[must_use]
    pub fn of(aids: usize, wishes: usize, kinds: Kinds) -> Self {
        let aids = cases::aids(aids, kinds).expect("the ranges of the cases are possible ones");
        Self { aids, wishes: cases::wishes(wishes) }
    }

    /// Every outcome once, as one number in which each has a part; not a number if one is refused.
    #[must_use]
    pub fn answered(&self) -> f64 {
        let mut sum = 0.0;
        every_outcome(&self.aids, &self.wishes, &cases::eye(), |_, _, outcome| {
            sum += outcome.map_or(f64::NAN, |outcome| part(&outcome));
        });
        sum
    }
}

/// A number in which every result of an outcome has a part, so that none can be left out.
fn part(outcome: &Outcome) -> f64 {
    let evd = outcome.equivalent_viewing_distance.map_or(0.0, |distance| distance.m());
    let widths = outcome.widths.map_or(0.0, |widths| widths.full.m() + widths.half.m() + widths.last.m());
    let field = outcome.field.map_or(0.0, |field| field.half.radians());
    let depth = outcome
        .depth
        .map_or(0.0, |depth| depth.nearest.m() + depth.farthest.map_or(0.0, |farthest| farthest.m()));
    evd + outcome.angular.times()
        + outcome.focus.demand.dioptres()
        + outcome.focus.defocus.dioptres()
        + outcome.blurred.mar.radians()
        + outcome.blurred.loss.log()
        + outcome.detail_seen.radians()
        + outcome.reserve_reached
        + outcome.least_height.m()
        + outcome.prediction.chance
        + widths
        + field
        + depth
        + outcome.characters.unwrap_or(0.0)
        + outcome.light
}

thread_local! {
    static CASES: RefCell<Cases> = RefCell::default();
}

/// Makes the cases for [`run`]: so many aids and wishes; of all kinds unless `closed` is above zero.
#[unsafe(no_mangle)]
pub extern "C" fn prepare(aids: u32, wishes: u32, closed: u32) {
    let kinds = if closed == 0 { Kinds::All } else { Kinds::Closed };
    let made = Cases::of(aids as usize, wishes as usize, kinds);
    CASES.with(|cases| *cases.borrow_mut() = made);
}

/// Every outcome of the cases that were prepared, as one number.
#[unsafe(no_mangle)]
pub extern "C" fn run() -> f64 {
    CASES.with(|cases| cases.borrow().answered())
}
