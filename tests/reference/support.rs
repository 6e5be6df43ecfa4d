//! What the reference tests share.

use arcminute_core::Error;
use arcminute_core::optics::Telescope;
use arcminute_core::unit::{Length, Vergence};

/// Passes when `got`, rounded to the digits that are printed, is what is printed.
#[track_caller]
pub(crate) fn rounds_to(got: f64, printed: &str) {
    let value: f64 = printed.parse().expect("the printed text is a plain number");
    let decimals = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let half_of_last_place = 0.5 * arcminute_core::math::pow(0.1, decimals as f64);
    let apart = (got - value).abs();
    assert!(apart <= half_of_last_place * (1.0 + 1e-9), "got {got}, printed {printed}");
}

/// A telescope of two thin lenses, dioptres, and an objective of so many millimetres.
pub(crate) fn telescope(objective: f64, eyepiece: f64, diameter_mm: f64) -> Result<Telescope, Error> {
    let power = Vergence::from_dioptres;
    Telescope::from_lenses(power(objective), power(eyepiece), Length::from_mm(diameter_mm))
}

#[test]
fn rounding_takes_the_printed_digits_as_tolerance() {
    rounds_to(62.54, "62.5");
    rounds_to(-0.4444, "-0.444");
    rounds_to(12.4, "12");
    assert!(std::panic::catch_unwind(|| rounds_to(62.56, "62.5")).is_err(), "62.56 is 62.6");
    assert!(std::panic::catch_unwind(|| rounds_to(12.6, "12")).is_err(), "12.6 is 13");
    assert!(std::panic::catch_unwind(|| rounds_to(f64::NAN, "12")).is_err(), "not-a-number is nothing");
}
