//! The one place for the page's words about numbers: formula titles, checks, ways out, cautions.

mod cautions;
mod checks;
mod formulas;
mod reach;

pub use cautions::{CAUTIONS, Caution, INTENDED_USE, PRACTICE, PROMPTS, Where};
pub use checks::{
    PRACTICE_BASIS, check_basis, check_name, check_sentence, check_title, placement, severity, way_out,
};
pub use formulas::{rule_sentence, standing, title, title_on_sheet};
pub use reach::{chance_sentence, reach_short, reach_words, steps};
