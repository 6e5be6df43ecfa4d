//! Seeing beside the fovea: what a healthy retina resolves there, and how steadily an eye looks.
//!
//! Who has lost the middle of sight looks with a place beside it. There even a healthy retina sees less, and letters
//! must stand farther apart.
//!
//! ```text
//!        fovea        place looked with
//!   ───────┼────────────────┼───────►   E: eccentricity, an angle at the eye, from the fovea
//!          |<----- E ------>|
//! ```
//!
//! * [`best_case`] gives the acuity that a *healthy* retina reaches at an eccentricity, as a range over published laws
//!   ([`laws`], [`DOUBLING`]). It is a floor for expectations: an eye with macular disease reads worse than this. No
//!   function goes the other way, from acuity to the size of a scotoma, and none must ([`Caution`]).
//! * [`crowding`] and [`critical_print`] say how far apart and how large letters have to be out there.
//! * [`fixation_ellipse`] and [`fixation_of`] give the area of fixation, always with the share of points it holds;
//!   [`fixation_class`] sorts by the three-class rule; [`FIXATION_NORMS`] are areas that were measured.
//!
//! Eccentricities and places of gaze are angles at the eye, from the fovea or from the target, not negative.
//!
//! Then read [`crate::everyday`]: what there is to be seen.

mod best_case;
mod cautions;
mod fixation;
mod law;
mod norms;
mod reading;
mod stability;

pub use best_case::{AtLaw, BestCase, best_case};
pub use cautions::Caution;
pub use fixation::{FixationArea, FixationEllipse, Gaze, fixation_ellipse, fixation_of};
pub use law::{DOUBLING, Doubling, Form, Law, laws};
pub use norms::{FIXATION_NORMS, FixationNorm, POINTS_WITHIN, PointsWithin};
pub use reading::{Crowding, EccentricPrint, PeripheralSpeed, READING_SPEEDS, critical_print, crowding};
pub use stability::{FixationClass, Stability, class_of, fixation_class};
