//! Contrast: how much a letter differs from what it stands on, and how little of it a person sees.
//!
//! * The word has several meanings: every value here is a [`Weber`] or a [`Michelson`] contrast, never a bare number.
//! * [`of_luminances`] and [`of_reflectances`] measure things, [`of_colours`] two colours of a screen.
//! * [`score_letters`] turns letters read on a contrast chart into log contrast sensitivity; [`bands_for`] says which
//!   published bands it falls into. The bands disagree, and all of them are shown.
//! * [`TYPICAL`] and [`POLARITY`] hold what has been found of contrasts met in daily life and of light letters on dark.
//!
//! Higher log contrast sensitivity is better; a threshold of 2.2 % is 1.65.
//!
//! Then read [`crate::light`]: what falls on the page.

mod band;
mod chart;
mod colour;
mod display;
mod found;
mod ratio;

#[cfg(test)]
mod laws;

pub use band::{BANDS, Band, NORMS, Norm, Scheme, bands_for};
pub use chart::{ContrastScore, LetterChart, ScoringRule, StopRule, score_letters};
pub use colour::{Colour, ColourLight};
pub use display::{
    CRITERIA, ColourContrast, Criterion, DisplayContrast, RatioMeaning, contrast_at_ratio, of_colours,
};
pub use found::{LightOnDark, Measure, POLARITY, TYPICAL, Typical};
pub use ratio::{
    LuminanceContrast, Michelson, Polarity, ReflectanceContrast, Weber, of_luminances, of_reflectances,
};
