//! The order and fitting sheet with the demonstration list.

use crate::model::answer::Answer;
use crate::model::draft::Draft;
use crate::model::sheets::{self, Inputs, Sheet, SheetKind};

/// The order and fitting sheet of a case, with aids of the demonstration list.
#[must_use]
pub fn sheet(draft: &Draft, answer: &Answer) -> Sheet {
    sheets::sheet(SheetKind::Order, &Inputs::demo(draft, answer))
}
