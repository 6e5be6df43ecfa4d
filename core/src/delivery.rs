//! A finished lens against its order.
//!
//! The limits are those of [`crate::tolerance`]: a summary of one text of one standard, to be shown as such.
//! A clinic may put its own in their place. Nothing is claimed for standards whose tables were not read.
//!
//! Then read [`crate::explain`]: how every number above shows where it comes from.

use crate::error::{Error, Why};
use crate::math;
use crate::refraction::Refraction;
use crate::tolerance;
use crate::unit::{Angle, Vergence};

/// What may be off, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Power of either principal meridian.
    pub sphere: Vergence,
    /// Cylinder.
    pub cylinder: Vergence,
    /// Axis of the cylinder.
    pub axis: Angle,
    /// Addition.
    pub add: Vergence,
    /// Whether the clinic put its own in place of the summary's.
    pub own: bool,
}

impl Limits {
    /// The summary's limits for a lens ordered like this ([`tolerance`], [`crate::source::ANSI_Z80_1`]).
    ///
    /// ```
    /// use arcminute_core::{delivery::Limits, refraction::Refraction, unit::Vergence};
    /// let d = Vergence::from_dioptres;
    /// let limits = Limits::of_summary(&Refraction::of(d(12.0), d(-0.75), Some(90))?, None);
    /// assert_eq!((limits.sphere.dioptres(), limits.axis.degrees()), (0.24, 5.0));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn of_summary(ordered: &Refraction, add: Option<Vergence>) -> Self {
        Self {
            sphere: tolerance::sphere(ordered.strongest_meridian()),
            cylinder: tolerance::cylinder(ordered.cylinder),
            axis: tolerance::axis(ordered.cylinder),
            add: tolerance::add(add.unwrap_or(Vergence::ZERO)),
            own: false,
        }
    }
}

/// A lens, ordered or measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lens {
    /// Sphere, cylinder, axis, in either notation.
    pub refraction: Refraction,
    /// Addition.
    pub add: Option<Vergence>,
}

/// How one value came out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deviation<Q> {
    /// Measured less ordered.
    pub off: Q,
    /// What it may be, either way.
    pub limit: Q,
    /// Whether it is within.
    pub within: bool,
}

/// A finished lens against its order, item by item.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Delivery {
    /// As ordered.
    pub ordered: Lens,
    /// As measured, its cylinder written with the sign of the order.
    pub measured: Lens,
    /// The limits used.
    pub limits: Limits,
    /// Sphere, the meridian of the axis.
    pub sphere: Deviation<Vergence>,
    /// The other meridian, sphere and cylinder.
    pub other_meridian: Deviation<Vergence>,
    /// Cylinder.
    pub cylinder: Deviation<Vergence>,
    /// Axis; `None` without a cylinder on both sides.
    pub axis: Option<Deviation<Angle>>,
    /// Addition; `None` where none was ordered.
    pub add: Option<Deviation<Vergence>>,
    /// Whether every item is within its limit.
    pub all_within: bool,
}

/// A finished lens against its order.
///
/// * A cylinder written with the other sign is transposed first; axes are compared the short way round.
/// * A rounding error on the limit counts as within.
/// * Source of the limits: as given in [`Limits`].
///
/// # Errors
/// [`Why::Missing`] when an addition was ordered and none measured, or measured and none ordered.
///
/// ```
/// use arcminute_core::delivery::{Lens, Limits, verify};
/// use arcminute_core::{refraction::Refraction, unit::Vergence};
/// let d = Vergence::from_dioptres;
/// let ordered = Lens { refraction: Refraction::of(d(6.5), d(-1.0), Some(178))?, add: None };
/// let measured = Lens { refraction: Refraction::of(d(5.62), d(1.0), Some(90))?, add: None };
/// let delivery = verify(ordered, measured, Limits::of_summary(&ordered.refraction, None))?;
/// // +6.62 −1.00 x180 in the notation of the order: 0.12 D of 0.13, 2 of 3 degrees.
/// assert!(delivery.all_within);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn verify(ordered: Lens, measured: Lens, limits: Limits) -> Result<Delivery, Error> {
    let add = match (ordered.add, measured.add) {
        (None, None) => None,
        (Some(ordered), Some(measured)) => Some(dioptres(measured - ordered, limits.add)),
        (Some(add), None) => return Err(missing("add ordered", add, "the add measured")),
        (None, Some(add)) => return Err(missing("add measured", add, "the add ordered")),
    };
    let measured = Lens { refraction: as_ordered(measured.refraction, ordered.refraction), ..measured };
    let (asked, got) = (ordered.refraction, measured.refraction);
    let sphere = dioptres(got.sphere - asked.sphere, limits.sphere);
    let other_meridian =
        dioptres((got.sphere + got.cylinder) - (asked.sphere + asked.cylinder), limits.sphere);
    let cylinder = dioptres(got.cylinder - asked.cylinder, limits.cylinder);
    let axis = asked.axis.zip(got.axis).map(|(asked, got)| axis_between(asked, got, limits.axis));
    let all_within = sphere.within
        && other_meridian.within
        && cylinder.within
        && axis.is_none_or(|axis| axis.within)
        && add.is_none_or(|add| add.within);
    Ok(Delivery { ordered, measured, limits, sphere, other_meridian, cylinder, axis, add, all_within })
}

/// The lens with its cylinder in the sign of the order's.
fn as_ordered(measured: Refraction, ordered: Refraction) -> Refraction {
    if measured.cylinder.dioptres() * ordered.cylinder.dioptres() < 0.0 {
        measured.transposed()
    } else {
        measured
    }
}

/// Rounding of decimal entries, not measurement.
const ROUNDING: f64 = 1e-9;

fn dioptres(off: Vergence, limit: Vergence) -> Deviation<Vergence> {
    Deviation { off, limit, within: off.abs().dioptres() <= limit.dioptres() + ROUNDING }
}

/// Between −90 and 90 degrees: the short way round.
fn axis_between(asked: u16, got: u16, limit: Angle) -> Deviation<Angle> {
    let apart = f64::from(got) - f64::from(asked);
    let turns = math::round(apart / 180.0);
    let off = Angle::from_degrees(apart - 180.0 * turns);
    Deviation { off, limit, within: off.abs().degrees() <= limit.degrees() + ROUNDING }
}

fn missing(quantity: &'static str, add: Vergence, part: &'static str) -> Error {
    Error::about(quantity, format_args!("{:+.2}", add.dioptres()), Why::Missing { part, example: "+2.50" })
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn lens(sphere: f64, cylinder: f64, axis: u16, add: Option<f64>) -> Lens {
        let d = Vergence::from_dioptres;
        let refraction = Refraction::of(d(sphere), d(cylinder), Some(axis)).expect("possible");
        Lens { refraction, add: add.map(d) }
    }

    fn checked(ordered: Lens, measured: Lens) -> Delivery {
        verify(ordered, measured, Limits::of_summary(&ordered.refraction, ordered.add)).expect("complete")
    }

    #[test]
    fn each_item_is_held_to_its_own_limit() {
        let ordered = lens(2.0, -1.5, 90, Some(2.5));
        let fits = checked(ordered, lens(2.13, -1.5, 93, Some(2.62)));
        assert!(fits.all_within, "on every limit: {fits:?}");
        assert!(!checked(ordered, lens(2.14, -1.5, 90, Some(2.5))).sphere.within, "sphere");
        assert!(!checked(ordered, lens(2.0, -1.64, 90, Some(2.5))).cylinder.within, "cylinder");
        let other = checked(ordered, lens(2.1, -1.37, 90, Some(2.5)));
        assert!(other.sphere.within && other.cylinder.within && !other.other_meridian.within, "{other:?}");
        assert!(!other.all_within, "one item is enough");
        let turned = checked(ordered, lens(2.0, -1.5, 94, Some(2.5)));
        assert!(!turned.axis.expect("a cylinder").within && !turned.all_within, "axis");
        let add = checked(ordered, lens(2.0, -1.5, 90, Some(2.63)));
        assert!(!add.add.expect("an add").within && !add.all_within, "add");
        assert!((add.add.expect("an add").off.dioptres() - 0.13).abs() < 1e-12, "measured less ordered");
    }

    #[test]
    fn axes_are_compared_the_short_way_round() {
        let off = |asked: u16, got: u16| axis_between(asked, got, Angle::from_degrees(2.0)).off.degrees();
        for (asked, got, between) in
            [(179, 2, 3.0), (2, 179, -3.0), (90, 90, 0.0), (180, 1, 1.0), (10, 95, 85.0)]
        {
            assert!((off(asked, got) - between).abs() < 1e-9, "{asked} to {got}: {}", off(asked, got));
        }
    }

    #[test]
    fn either_notation_will_do() {
        let ordered = lens(2.0, -1.5, 90, None);
        let transposed = checked(ordered, lens(0.5, 1.5, 180, None));
        assert_eq!(transposed.measured, ordered);
        assert!(transposed.all_within && transposed.add.is_none(), "{transposed:?}");
        let plain = Lens { refraction: Refraction::of_sphere(Vergence::from_dioptres(2.0)), add: None };
        assert_eq!(checked(plain, plain).axis, None, "no axis without a cylinder");
    }

    #[test]
    fn a_clinic_may_set_its_own_limits() {
        let ordered = lens(2.0, -1.5, 90, None);
        let own = Limits {
            sphere: Vergence::from_dioptres(0.25),
            own: true,
            ..Limits::of_summary(&ordered.refraction, None)
        };
        let delivery = verify(ordered, lens(2.25, -1.5, 90, None), own).expect("complete");
        assert!(delivery.all_within && delivery.limits.own, "{delivery:?}");
        assert!(!Limits::of_summary(&ordered.refraction, None).own, "the summary's are not their own");
    }

    #[test]
    fn an_add_on_one_side_only_is_asked_for() {
        let (with, without) = (lens(2.0, -1.5, 90, Some(2.5)), lens(2.0, -1.5, 90, None));
        let limits = Limits::of_summary(&with.refraction, with.add);
        assert_eq!(
            verify(with, without, limits).expect_err("not measured").to_string(),
            "add ordered `+2.50` needs the add measured"
        );
        assert_eq!(
            verify(without, with, limits).expect_err("not ordered").to_string(),
            "add measured `+2.50` needs the add ordered"
        );
    }

    /// A lens ordered without a cylinder has no sign to be written in.
    #[test]
    fn a_cylinder_that_was_not_ordered_stays_as_measured() {
        for (ordered, measured, other) in [(0.0, -0.25, -0.25), (0.0, 0.25, 0.25), (-0.25, 0.0, 0.25)] {
            let (ordered, measured) = (lens(2.0, ordered, 90, None), lens(2.0, measured, 90, None));
            let delivery = checked(ordered, measured);
            assert_eq!(delivery.measured, measured, "not transposed");
            assert!(delivery.sphere.off.dioptres().abs() < 1e-12, "the sphere is as ordered: {delivery:?}");
            assert!((delivery.other_meridian.off.dioptres() - other).abs() < 1e-12, "{delivery:?}");
        }
    }
}
