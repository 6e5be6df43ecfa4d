//! Reading: reserves, the magnification a print size asks for, speed against size, and measured series.
//!
//! Print that is only just read is read slowly. What is read with ease is larger, and how much larger is the reserve.
//!
//! ```text
//!   size  ────┬───────────────┬──────────────────┬────────►  larger
//!          threshold     critical size       print, goal
//!             |<-- all of this is reserve ------>|            reserve = goal / threshold, at the same distance
//! ```
//!
//! * [`acuity_reserve`], [`contrast_reserve`] and [`print_with_reserve`] say how far print lies above the threshold;
//!   [`anchors`] lists how much reserve studies found to be enough.
//! * [`needed_viewing`] gives the equivalent viewing distance for a goal, [`power_from_acuity`] the power; [`shortcuts`]
//!   holds rules of thumb against them.
//! * [`LinearCurve`] and [`LogCurve`] give speed from size and size from speed.
//! * [`series`] scores sentences read; [`plateau`], [`critical_by_share`] and [`fit_curve`] find greatest speed and
//!   critical print size in them, each by its own rule, which the result names.
//! * [`reading_acuity`] and [`accessibility_index`] score a chart; [`norms`] has what people of an age reach.
//! * [`characters`] and [`positions`] say how much of a line is seen at once; [`field_needed`] lists how much is needed.
//!
//! Print sizes as angles are logMAR at the distance of reading. Higher is larger print, and a smaller angle takes more
//! sight to read. Speed is not to be predicted from acuity: the greatest speed hardly depends on it
//! ([`source::SPEED_CURVE`](crate::source::SPEED_CURVE)). Nothing here is a verdict on a person.
//!
//! Then read [`crate::contrast`] and [`crate::light`] for what else print needs, or go on to [`crate::optics`].

pub mod anchors;
pub mod field_needed;
mod fit;
mod lines;
mod needed;
pub mod norms;
mod plateau;
mod reserve;
mod scores;
mod series;
mod share;
pub mod shortcuts;
mod speed;

#[cfg(test)]
mod laws;

pub use fit::{Fit, NoFit, fit_curve};
pub use lines::{CharactersSeen, Positions, ReadingField, characters, mean_pitch, positions};
pub use needed::{NeededViewing, PowerFromAcuity, needed_viewing, power_from_acuity};
pub use plateau::{Critical, NoPlateau, Plateau, plateau};
pub use reserve::{
    AcuityReserve, ContrastLimit, ContrastReserve, PrintWithReserve, acuity_reserve, contrast_reserve,
    print_with_reserve,
};
pub use scores::{AccessibilityIndex, ReadingAcuity, accessibility_index, index_sizes, reading_acuity};
pub use series::{Sentence, SentenceSpeed, Series, SizeRead, Trial, sentence_speed, series};
pub use share::{NoCrossing, ShareCrossing, critical_by_share};
pub use speed::{
    LinearCurve, LinearSize, LinearSpeed, LogCurve, LogSize, LogSpeed, UsualCritical, usual_critical,
};
