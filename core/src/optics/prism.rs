//! Where a prism puts the image.

use crate::unit::{Angle, Length};

/// Deviation of a prism of this many prism dioptres: `atan(P/100)`.
///
/// Source: definition; 40 prism dioptres are about 22 degrees in [`crate::source::APFELBAUM_2013`].
///
/// ```
/// use arcminute_core::optics::prism_deviation;
/// assert!((prism_deviation(40.0).degrees() - 21.80).abs() < 0.005);
/// ```
#[must_use]
pub fn prism_deviation(prism_dioptres: f64) -> Angle {
    Angle::from_tangent(prism_dioptres / 100.0)
}

/// Sideways shift of the image of a thing at `distance`: `P·x/100`.
#[must_use]
pub fn prism_displacement(prism_dioptres: f64, distance: Length) -> Length {
    distance * (prism_dioptres / 100.0)
}
