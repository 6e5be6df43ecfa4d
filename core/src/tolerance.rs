//! What a finished lens may differ from its order by.
//!
//! From a summary of the 2015 text of ANSI Z80.1 ([`source::ANSI_Z80_1`]), single vision and multifocal lenses. The
//! standard itself was not read, and a later edition exists.
//!
//! Then read [`crate::delivery`], which holds a lens against these limits.

use crate::math;
use crate::source::{self, Source};
use crate::unit::{Angle, Vergence};

/// How the table is known, to be shown beside every value from it.
pub const STANDING: &str = "from a summary of the 2015 text";

/// What may be off, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Allowed {
    /// A fixed amount, in the unit of the table.
    Fixed(f64),
    /// A percentage of the value ordered.
    Percent(f64),
}

/// One row: values up to and including this one, sign left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Greatest value the row is for; infinite in the last row.
    pub up_to: f64,
    /// What may be off.
    pub allowed: Allowed,
}

/// The rows for one item of a lens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Table {
    /// What may be off: `sphere`.
    pub item: &'static str,
    /// What the rows go by, with its unit.
    pub by: &'static str,
    /// Unit of what may be off.
    pub unit: &'static str,
    /// Rows, smallest values first.
    pub bands: &'static [Band],
    /// Where the rows come from.
    pub source: &'static Source,
}

impl Table {
    /// What may be off at a value, in the table's unit; `value` in the unit of [`Table::by`], its sign left out.
    fn at(&self, value: f64) -> f64 {
        let size = math::abs(value);
        let band = self.bands.iter().find(|band| size <= band.up_to);
        match band.map(|band| band.allowed) {
            Some(Allowed::Fixed(amount)) => amount,
            Some(Allowed::Percent(percent)) => size * percent / 100.0,
            None => f64::NAN,
        }
    }
}

const fn up_to(up_to: f64, fixed: f64) -> Band {
    Band { up_to, allowed: Allowed::Fixed(fixed) }
}
const fn above(allowed: Allowed) -> Band {
    Band { up_to: f64::INFINITY, allowed }
}

macro_rules! tables {
    ($($(#[$meta:meta])* $name:ident: $item:literal by $by:literal in $unit:literal, [$($band:expr),+];)+) => {
        $($(#[$meta])* pub static $name: Table =
            Table { item: $item, by: $by, unit: $unit, bands: &[$($band),+], source: &source::ANSI_Z80_1 };)+
        /// The whole summary.
        pub static ALL: &[&Table] = &[$(&$name),+];
    };
}

tables! {
    /// Sphere, by the stronger meridian.
    SPHERE: "sphere" by "power of the stronger meridian, D" in "D", [up_to(6.5, 0.13), above(Allowed::Percent(2.0))];
    /// Cylinder.
    CYLINDER: "cylinder" by "cylinder, D" in "D", [up_to(2.0, 0.13), up_to(4.5, 0.15), above(Allowed::Percent(4.0))];
    /// Axis.
    AXIS: "axis" by "cylinder, D" in "degrees",
        [up_to(0.25, 14.0), up_to(0.5, 7.0), up_to(0.75, 5.0), up_to(1.5, 3.0), above(Allowed::Fixed(2.0))];
    /// Addition for near.
    ADD: "add" by "add, D" in "D", [up_to(4.0, 0.12), above(Allowed::Fixed(0.18))];
}

/// What the power of a lens may be off by, either way.
///
/// * `strongest_meridian`: [`Refraction::strongest_meridian`](crate::refraction::Refraction::strongest_meridian).
///
/// ```
/// use arcminute_core::{tolerance, unit::Vergence};
/// assert_eq!(tolerance::sphere(Vergence::from_dioptres(12.0)).dioptres(), 0.24);
/// ```
#[must_use]
pub fn sphere(strongest_meridian: Vergence) -> Vergence {
    Vergence::from_dioptres(SPHERE.at(strongest_meridian.dioptres()))
}

/// What the cylinder may be off by, either way.
///
/// ```
/// use arcminute_core::{tolerance, unit::Vergence};
/// assert_eq!(tolerance::cylinder(Vergence::from_dioptres(-2.25)).dioptres(), 0.15);
/// ```
#[must_use]
pub fn cylinder(cylinder: Vergence) -> Vergence {
    Vergence::from_dioptres(CYLINDER.at(cylinder.dioptres()))
}

/// What the axis of a cylinder may be off by, either way; without a cylinder the widest row, which means nothing.
///
/// ```
/// use arcminute_core::{tolerance, unit::Vergence};
/// assert_eq!(tolerance::axis(Vergence::from_dioptres(0.76)).degrees(), 3.0);
/// ```
#[must_use]
pub fn axis(cylinder: Vergence) -> Angle {
    Angle::from_degrees(AXIS.at(cylinder.dioptres()))
}

/// What the addition may be off by, either way.
///
/// ```
/// use arcminute_core::{tolerance, unit::Vergence};
/// assert_eq!(tolerance::add(Vergence::from_dioptres(4.25)).dioptres(), 0.18);
/// ```
#[must_use]
pub fn add(add: Vergence) -> Vergence {
    Vergence::from_dioptres(ADD.at(add.dioptres()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_ascend_and_end_open() {
        for table in ALL {
            assert!(table.bands.is_sorted_by(|a, b| a.up_to < b.up_to), "{}", table.item);
            assert_eq!(table.bands.last().map(|band| band.up_to), Some(f64::INFINITY), "{}", table.item);
        }
    }

    #[test]
    fn the_sign_of_the_order_does_not_matter() {
        for value in [0.0, 0.25, 2.0, 6.5, 12.0] {
            for table in ALL {
                assert_eq!(
                    table.at(value).to_bits(),
                    table.at(-value).to_bits(),
                    "{} at {value}",
                    table.item
                );
            }
        }
    }
}
