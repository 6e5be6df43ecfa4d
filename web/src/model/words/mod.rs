//! The one place for the page's words about numbers: formula titles, checks, ways out, cautions.

mod cautions;
mod checks;
mod formulas;
mod instructions;
mod reach;

pub use cautions::{CAUTIONS, Caution, INTENDED_USE, PRACTICE, PROMPTS, Where};
pub use checks::{
    PRACTICE_BASIS, check_basis, check_name, check_sentence, check_title, placement, severity, way_out,
};
pub use formulas::{rule_sentence, standing, title, title_on_sheet};
pub use instructions::{
    Care, IF_IT_FAILS, IF_SIGHT_CHANGES, IF_TRIAL_FALLS_SHORT, Instructions, careful, instructions, steps_for,
};
pub use reach::{chance_sentence, reach_short, reach_words, steps};
