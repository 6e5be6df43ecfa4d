//! Filters before the eye: how dark a tint is, what it may be worn for, and what several let through together.
//!
//! * [`Tint`] puts a luminous transmittance into its category and says what the standard says of driving; national law
//!   decides, and may ask for more ([`CAUTIONS`]).
//! * [`Stack`] multiplies filters that are grey; for coloured ones [`coloured_stack`] adds up their spectra, because the
//!   product can be wrong either way.
//! * [`uncoated`] and [`coated`] say what the surfaces of lenses take away.
//!
//! A transmittance is a plain ratio, 0 to 1.

mod spectrum;
mod stack;
mod surface;
mod tint;

pub use spectrum::{
    ColouredStack, DAYLIGHT, LUMINOUS_EFFICIENCY, SAMPLES, Spectrum, coloured_stack, wavelengths,
};
pub use stack::{BehindFilter, MOST_FILTERS, Stack, behind};
pub use surface::{COATINGS, Coating, Surfaces, coated, uncoated};
pub use tint::{CAUTIONS, Category, Caution, Driving, Tint};
