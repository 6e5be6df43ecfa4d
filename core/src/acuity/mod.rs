//! Acuity: what was recorded, in its own notation, and the logarithm that sums are done with.
//!
//! A person sees small things as well as the smallest detail that is still told apart, and that detail is an angle: the
//! minimum angle of resolution, MAR. A letter is five such details high.
//!
//! ```text
//!   █████ ─┬─
//!   █      │
//!   ████   h = 5·d |<--------- D --------->| eye     MAR = 2·atan(d / 2D), in minutes of arc
//!   █      │                                         logMAR = log10(MAR)
//!   █████ ─┴─
//! ```
//!
//! * [`parse`] reads trade notation (`20/200-2`, `6/60`, `logMAR 1.0`, `35 letters`, `CF 1 m`) and says what it read;
//!   a bare `0.1` is asked about, never guessed.
//! * [`Acuity`] keeps the notation beside the logarithm, so that a record shows what was written.
//! * [`Category`] (counts fingers, hand motion, light perception) has no size unless a published mean is asked for.
//! * [`written`] puts a logarithm into another notation, with the labels of the log ladder; values are never changed
//!   to fit a label.
//! * [`score_chart`] and [`score_two_distances`] count letters, [`read_at`] changes the distance, [`mean_acuity`] takes
//!   the mean; [`retest`] and [`repeatability`] say how far repeats differ.
//! * [`optotype`] says how large a letter or ring is, [`grating_cut_off`] what grating it is equal to.
//! * [`impairment`], [`statutory`] and [`certification`] hold a record against published wordings, and say what to ask
//!   where it does not tell; [`functional`] gives scores. None of them is a verdict: [`cautions`] go beside them.
//! * [`group_means`] lists what studies measured where no letter is read, for those who ask.
//!
//! Higher logMAR is worse; 0 is 20/20, 1 is 20/200.
//!
//! Then read [`crate::print`]: how large the letters of a page are.

pub mod ability;
mod ask;
mod category;
pub mod cautions;
pub mod certification;
mod distance;
mod edge;
pub mod functional;
pub mod group_means;
mod impairment;
mod ladder;
mod letters;
mod mean;
mod near_impairment;
mod notation;
mod optotype;
mod parse;
mod print;
pub mod repeatability;
pub mod retest;
pub mod statutory;

#[cfg(test)]
mod laws;

pub use ask::Ask;
pub use category::Category;
pub use distance::{ReadAt, read_at};
pub use impairment::{
    ClassName, Classified, Edition, ImpairmentClass, impairment, impairment_by_field, undetermined,
};
pub use ladder::{LADDER, Rung, ladder_label};
pub use letters::{
    Chart, ChartScore, TwoDistanceRule, TwoDistanceScore, letter_score, score_chart, score_two_distances,
    visual_acuity_score,
};
pub use mean::{MeanAcuity, mean_acuity};
pub use near_impairment::{NearImpairment, NearPrint, near_impairment};
pub use notation::{Acuity, Notation};
pub use optotype::{GratingCutOff, Optotype, grating_cut_off, optotype};
pub use parse::{BareNumber, Parsed, Reading, parse};
pub use print::{Scale, written};
