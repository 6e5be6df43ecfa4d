//! Size of print: the units it is written in, what they come to in M units, and reading what practitioners write.
//!
//! Print is a thing of a size, whoever reads it. Only together with a distance is it an angle, and so an acuity.
//!
//! ```text
//!    d   k ─── height of capitals and tall letters
//!    a o x ─┬─ x-height               1 M has 1.4544 mm of it: 5 minutes of arc from 1 m
//!    ───────┴─ line                   MAR in minutes of arc = M units / metres
//! ```
//!
//! * [`parse`] reads print as it is written (`1.6 M`, `N8`, `12 pt Times`, `20/50 at 40 cm`) and says what it read; a
//!   number alone, a point size without a typeface and a fraction without a distance are asked about, never guessed.
//! * [`Print`] keeps the notation; [`Print::size`] gives its size in M units, by the rule named for N notation.
//! * [`size_of_type`], [`size_of_pixels`] and [`size_of_n`] turn points, pixels and N into M units, [`points_for`] and
//!   [`n_for`] back; [`typeface`] lists how tall lower case and capitals are.
//! * [`print_angle`] gives the angle at the eye, which is the near acuity if it is the smallest print read;
//!   [`print_for`] gives the print for an angle.
//!
//! What is measured is the x-height of lower case, or the height of capitals; 1 M is 1.4544 mm of it. The best is to
//! measure it on the page: typefaces differ by 15 % at the same point size. Jaeger numbers are kept as they are written
//! and have no size.
//!
//! Then read [`crate::reading`]: how much larger than only just readable print should be.

mod ask;
mod n_notation;
mod near;
mod notation;
mod parse;
mod point;
mod size;
pub mod typeface;
mod written;

#[cfg(test)]
mod laws;

pub use n_notation::{NRule, NSize, n_for, size_of_n};
pub use near::{PrintAngle, PrintForAngle, ReducedSnellen, print_angle, print_for, reduced_snellen};
pub use notation::{Notation, Print, Road, SizedPrint, Type, WrittenLength};
pub use parse::{Parsed, parse};
pub use point::{PointSystem, css_pixel};
pub use size::{TypeSize, points_for, size_of_pixels, size_of_type};
pub use typeface::{HALF_OF_BODY, Letters, Typeface};
