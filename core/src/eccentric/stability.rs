//! Fixation in three classes, by how many points lie in two circles.

use super::fixation::{Gaze, centre_of, check_points};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Step};
use crate::math;
#[cfg(feature = "alloc")]
use crate::source;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Share of the points that a circle has to hold.
const ENOUGH: f64 = 0.75;

/// How steady, in three classes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stability {
    /// 75 % or more of the points in a circle 2 degrees across.
    Stable,
    /// Fewer than that, but 75 % or more in a circle 4 degrees across.
    RelativelyUnstable,
    /// Fewer still.
    Unstable,
}

impl Stability {
    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::eccentric::class_of;
    /// assert_eq!(class_of(0.60, 0.80)?.class.key(), "relatively-unstable");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Stable => "stable",
            Self::RelativelyUnstable => "relatively-unstable",
            Self::Unstable => "unstable",
        }
    }
}

/// A class of fixation and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixationClass {
    /// Share of the points in a circle 2 degrees across; a pure ratio.
    pub within_2_degrees: f64,
    /// Share of the points in a circle 4 degrees across; a pure ratio.
    pub within_4_degrees: f64,
    /// The class.
    pub class: Stability,
}

/// The class of fixation from the shares of points in two circles, 2 and 4 degrees across.
///
/// The rule is from memory ([`crate::source::FUJII_2002`]); its classes overlap widely with areas of the ellipse.
///
/// # Errors
/// [`Why::OutOfRange`] for shares that are not between 0 and 1, or where the larger circle holds fewer.
///
/// ```
/// use arcminute_core::eccentric::{Stability, class_of};
/// assert_eq!(class_of(0.60, 0.80)?.class, Stability::RelativelyUnstable);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn class_of(within_2_degrees: f64, within_4_degrees: f64) -> Result<FixationClass, Error> {
    for (quantity, share, min) in [
        ("share within 2 degrees", within_2_degrees, 0.0),
        ("share within 4 degrees", within_4_degrees, within_2_degrees),
    ] {
        if !(min <= share && share <= 1.0) {
            let why = Why::OutOfRange { min, max: 1.0, unit: "" };
            return Err(Error::about(quantity, format_args!("{share}"), why));
        }
    }
    let class = if within_2_degrees >= ENOUGH {
        Stability::Stable
    } else if within_4_degrees >= ENOUGH {
        Stability::RelativelyUnstable
    } else {
        Stability::Unstable
    };
    Ok(FixationClass { within_2_degrees, within_4_degrees, class })
}

/// The class of fixation of recorded points of gaze; the circles are drawn round their middle.
///
/// Points on a circle's rim count as inside. That the circles are centred on the middle is from memory too
/// ([`crate::source::FUJII_2002`]).
///
/// # Errors
/// [`Why::NoSolution`] for fewer than three points, [`Why::OutOfRange`] outside [`bounds::GAZE`](crate::bounds::GAZE).
///
/// ```
/// use arcminute_core::eccentric::{Gaze, Stability, fixation_class};
/// use arcminute_core::unit::Angle;
/// let gaze = |x, y| Gaze { x: Angle::from_degrees(x), y: Angle::from_degrees(y) };
/// // A square of 2 degrees: its corners are 1.41 degrees from the middle, outside the small circle.
/// let corners = [gaze(-1.0, -1.0), gaze(1.0, -1.0), gaze(1.0, 1.0), gaze(-1.0, 1.0)];
/// assert_eq!(fixation_class(&corners)?.class, Stability::RelativelyUnstable);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn fixation_class(points: &[Gaze]) -> Result<FixationClass, Error> {
    check_points(points)?;
    let (centre, count) = centre_of(points);
    let (mut small, mut large) = (0.0, 0.0);
    for point in points {
        let away = math::hypot((point.x - centre.x).degrees(), (point.y - centre.y).degrees());
        small += f64::from(u8::from(away <= 1.0));
        large += f64::from(u8::from(away <= 2.0));
    }
    class_of(small / count, large / count)
}

#[cfg(feature = "alloc")]
impl Explain for FixationClass {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::Rule { because: self.class.key(), source: &source::FUJII_2002 }]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::Angle;
    use alloc::string::ToString;

    #[test]
    fn the_classes_change_at_three_quarters() -> Result<(), Error> {
        for (small, large, class) in [
            (0.75, 0.75, Stability::Stable),
            (1.0, 1.0, Stability::Stable),
            (0.749, 0.75, Stability::RelativelyUnstable),
            (0.749, 1.0, Stability::RelativelyUnstable),
            (0.0, 0.749, Stability::Unstable),
            (0.749, 0.749, Stability::Unstable),
        ] {
            let got = class_of(small, large)?;
            assert_eq!(got, FixationClass { within_2_degrees: small, within_4_degrees: large, class });
            let rule = Step::Rule { because: class.key(), source: &source::FUJII_2002 };
            assert_eq!(got.steps(), [rule]);
        }
        assert_eq!(
            [Stability::Stable, Stability::RelativelyUnstable, Stability::Unstable].map(Stability::key),
            ["stable", "relatively-unstable", "unstable"]
        );
        Ok(())
    }

    #[test]
    fn points_are_counted_to_the_rim() -> Result<(), Error> {
        let across = |degrees: f64| {
            let gaze = |x| Gaze { x: Angle::from_degrees(x), y: Angle::from_degrees(3.0) };
            fixation_class(&[gaze(5.0 - degrees), gaze(5.0), gaze(5.0), gaze(5.0 + degrees)])
        };
        for (degrees, small, large) in
            [(0.5, 1.0, 1.0), (1.0, 1.0, 1.0), (1.01, 0.5, 1.0), (2.0, 0.5, 1.0), (2.01, 0.5, 0.5)]
        {
            let class = across(degrees)?;
            assert!((class.within_2_degrees - small).abs() < 1e-15, "{degrees}: small circle {class:?}");
            assert!((class.within_4_degrees - large).abs() < 1e-15, "{degrees}: large circle {class:?}");
        }
        let upward = |y| Gaze { x: Angle::ZERO, y: Angle::from_degrees(y) };
        let class = fixation_class(&[upward(-1.5), upward(0.0), upward(1.5)])?;
        assert!((class.within_2_degrees - 1.0 / 3.0).abs() < 1e-15, "up and down counts: {class:?}");
        Ok(())
    }

    #[test]
    fn what_is_no_share_is_refused() {
        for (small, large, said) in [
            (-0.1, 0.5, "share within 2 degrees `-0.1` is not possible"),
            (1.1, 1.1, "share within 2 degrees `1.1` is not possible"),
            (f64::NAN, 0.5, "share within 2 degrees `NaN` is not possible"),
            (0.5, 0.4, "share within 4 degrees `0.4` is not possible"),
            (0.5, 1.1, "share within 4 degrees `1.1` is not possible"),
            (0.5, f64::NAN, "share within 4 degrees `NaN` is not possible"),
        ] {
            assert_eq!(class_of(small, large).expect_err("no share").to_string(), said);
        }
        let error = class_of(0.5, 0.4).expect_err("the larger circle holds the smaller");
        assert_eq!(error.hint().to_string(), "use 0.5 to 1");
        let two = [Gaze { x: Angle::ZERO, y: Angle::ZERO }; 2];
        assert!(fixation_class(&two).is_err(), "two points");
    }
}
