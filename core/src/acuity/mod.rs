//! Acuity: what was recorded, in its own notation, and the logarithm that sums are done with.
//!
//! * [`parse`] reads trade notation (`20/200-2`, `6/60`, `logMAR 1.0`, `35 letters`, `CF 1 m`) and says what it read;
//!   a bare `0.1` is asked about, never guessed.
//! * [`Acuity`] keeps the notation beside the logarithm, so that a record shows what was written.
//! * [`Category`] (counts fingers, hand motion, light perception) has no size unless a published mean is asked for.
//! * [`written`] puts a logarithm into another notation, with the labels of the log ladder; values are never changed
//!   to fit a label.
//! * [`score_chart`] and [`score_two_distances`] count letters, [`read_at`] changes the distance; [`retest`] says how
//!   far repeats differ.
//!
//! Higher logMAR is worse; 0 is 20/20, 1 is 20/200.

mod category;
mod distance;
mod ladder;
mod letters;
mod notation;
mod parse;
mod print;
pub mod retest;

#[cfg(test)]
mod laws;

pub use category::Category;
pub use distance::{ReadAt, read_at};
pub use ladder::{LADDER, Rung, ladder_label};
pub use letters::{
    Chart, ChartScore, TwoDistanceRule, TwoDistanceScore, letter_score, score_chart, score_two_distances,
    visual_acuity_score,
};
pub use notation::{Acuity, Notation};
pub use parse::{BareNumber, Parsed, Reading, parse};
pub use print::{Scale, written};
