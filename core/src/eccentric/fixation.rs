//! How steadily an eye looks: the ellipse that holds a given share of the points of gaze.
//!
//! The area means nothing without the share, so the share is part of every result. Works write it as `2kπ…` with k = 1
//! for 63.2 %; here k is −2·ln(1 − share), so 2 for 63.2 %.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
#[cfg(feature = "alloc")]
use crate::source;
use crate::unit::{Angle, SquareDegrees};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Fewest points of gaze that have a spread in two directions.
const FEWEST: usize = 3;

/// Area of the ellipse that holds a share of the points of gaze, taken as scattering normally in two directions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixationEllipse {
    /// Standard deviation sideways.
    pub sigma_x: Angle,
    /// Standard deviation up and down.
    pub sigma_y: Angle,
    /// Correlation of the two; a pure ratio of −1 to 1.
    pub correlation: f64,
    /// Share of the points that the ellipse holds; a pure ratio, 0.95 for 95 %.
    pub share: f64,
    /// `−2·ln(1 − share)`; a pure ratio.
    pub k: f64,
    /// The area, of this share.
    pub area: SquareDegrees,
}

/// The area of fixation from the spread of gaze.
///
/// `k·π·σx·σy·√(1 − ρ²)` with `k = −2·ln(1 − share)`; normal scatter in two directions ([`source::BIVARIATE_NORMAL`]
/// in the working).
///
/// * `share`: of the points that the ellipse should hold, 0.95 for 95 %.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::FIXATION_SPREAD`], [`bounds::FIXATION_CORRELATION`] and
/// [`bounds::FIXATION_SHARE`].
///
/// ```
/// use arcminute_core::eccentric::fixation_ellipse;
/// use arcminute_core::unit::Angle;
/// // 0.5 and 0.4 degrees, correlation 0.2: 3.688 square degrees hold 95 % (computed).
/// let degrees = Angle::from_degrees;
/// let ellipse = fixation_ellipse(degrees(0.5), degrees(0.4), 0.2, 0.95)?;
/// assert!((ellipse.area.square_degrees() - 3.688).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// [`source::BIVARIATE_NORMAL`]: crate::source::BIVARIATE_NORMAL
pub fn fixation_ellipse(
    sigma_x: Angle,
    sigma_y: Angle,
    correlation: f64,
    share: f64,
) -> Result<FixationEllipse, Error> {
    let x = bounds::FIXATION_SPREAD.check(sigma_x.degrees())?;
    let y = bounds::FIXATION_SPREAD.check(sigma_y.degrees())?;
    bounds::FIXATION_CORRELATION.check(correlation)?;
    bounds::FIXATION_SHARE.check(share)?;
    let k = -2.0 * math::ln(1.0 - share);
    let area = k * math::PI * x * y * math::sqrt(1.0 - correlation * correlation);
    let area = SquareDegrees::from_square_degrees(area);
    Ok(FixationEllipse { sigma_x, sigma_y, correlation, share, k, area })
}

impl FixationEllipse {
    /// The same scatter, with the ellipse that holds another share.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] outside [`bounds::FIXATION_SHARE`].
    ///
    /// ```
    /// use arcminute_core::{eccentric::fixation_ellipse, unit::Angle};
    /// let degrees = Angle::from_degrees;
    /// let ellipse = fixation_ellipse(degrees(1.0), degrees(0.5), 0.0, 0.632)?;
    /// // Twice the logarithm, twice the area: ln(1 − 0.8646) is twice ln(1 − 0.632) (computed).
    /// let wider = ellipse.holding(1.0 - (1.0 - 0.632) * (1.0 - 0.632))?;
    /// assert!((wider.area / ellipse.area - 2.0).abs() < 1e-9);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn holding(&self, share: f64) -> Result<Self, Error> {
        fixation_ellipse(self.sigma_x, self.sigma_y, self.correlation, share)
    }
}

#[cfg(feature = "alloc")]
impl Explain for FixationEllipse {
    fn steps(&self) -> Vec<Step> {
        let k = Named::new("k", self.k, Unit::Plain);
        alloc::vec![
            Step::formula(&formula::ELLIPSE_SHARE, k, [Named::new("P", self.share, Unit::Plain)]),
            Step::formula(
                &formula::ELLIPSE_AREA,
                Named::new("BCEA", self.area.square_degrees(), Unit::SquareDegree),
                [
                    k,
                    Named::new("sigma_x", self.sigma_x.degrees(), Unit::Degree),
                    Named::new("sigma_y", self.sigma_y.degrees(), Unit::Degree),
                    Named::new("rho", self.correlation, Unit::Plain),
                ],
            ),
        ]
    }
}

/// Where an eye looked at one moment, from the target or any other fixed place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gaze {
    /// To the right.
    pub x: Angle,
    /// Upward.
    pub y: Angle,
}

impl Gaze {
    pub(super) fn check(self) -> Result<Self, Error> {
        bounds::GAZE.check(self.x.degrees())?;
        bounds::GAZE.check(self.y.degrees())?;
        Ok(self)
    }
}

/// The area of fixation of recorded points of gaze.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixationArea {
    /// How many points.
    pub points: usize,
    /// Their middle.
    pub centre: Gaze,
    /// Their ellipse, with the standard deviations of a sample (divided by one less than the points).
    pub ellipse: FixationEllipse,
}

/// The middle of some points of gaze, and how many there are as a number; not of an empty list.
pub(super) fn centre_of(points: &[Gaze]) -> (Gaze, f64) {
    let (mut count, mut x, mut y) = (0.0, Angle::ZERO, Angle::ZERO);
    for point in points {
        count += 1.0;
        x = x + point.x;
        y = y + point.y;
    }
    (Gaze { x: x / count, y: y / count }, count)
}

/// Refuses fewer points than have a spread, and points that are none.
pub(super) fn check_points(points: &[Gaze]) -> Result<(), Error> {
    if points.len() < FEWEST {
        let why = Why::NoSolution { because: "fewer than three have no spread in two directions" };
        return Err(Error::about("points of gaze", format_args!("{}", points.len()), why));
    }
    points.iter().try_for_each(|point| point.check().map(|_| ()))
}

/// The area of fixation of recorded points of gaze, all taken as they are: blinks have to be out already.
///
/// # Errors
/// [`Why::NoSolution`] for fewer than three points and for points that lie on one level or one plumb line,
/// [`Why::OutOfRange`] outside [`bounds::GAZE`] and as [`fixation_ellipse`].
///
/// ```
/// use arcminute_core::eccentric::{Gaze, fixation_of};
/// use arcminute_core::unit::Angle;
/// let gaze = |x, y| Gaze { x: Angle::from_degrees(x), y: Angle::from_degrees(y) };
/// // The corners of a square of 2 degrees: standard deviations of 2/sqrt(3), no correlation (computed).
/// let corners = [gaze(-1.0, -1.0), gaze(1.0, -1.0), gaze(1.0, 1.0), gaze(-1.0, 1.0)];
/// let area = fixation_of(&corners, 0.632)?;
/// assert!((area.ellipse.sigma_x.degrees() - 1.1547).abs() < 5e-5);
/// assert_eq!(area.ellipse.correlation, 0.0);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn fixation_of(points: &[Gaze], share: f64) -> Result<FixationArea, Error> {
    check_points(points)?;
    let (centre, count) = centre_of(points);
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for point in points {
        let (x, y) = ((point.x - centre.x).degrees(), (point.y - centre.y).degrees());
        xx += x * x;
        xy += x * y;
        yy += y * y;
    }
    let product = xx * yy;
    if product <= 0.0 {
        let why = Why::NoSolution { because: "they lie on one level or one plumb line" };
        return Err(Error::about("points of gaze", format_args!("{}", points.len()), why));
    }
    let correlation = (xy / math::sqrt(product)).clamp(-1.0, 1.0);
    let spread = |squares: f64| Angle::from_degrees(math::sqrt(squares / (count - 1.0)));
    let ellipse = fixation_ellipse(spread(xx), spread(yy), correlation, share)?;
    Ok(FixationArea { points: points.len(), centre, ellipse })
}

#[cfg(feature = "alloc")]
impl Explain for FixationArea {
    fn steps(&self) -> Vec<Step> {
        let mut steps =
            alloc::vec![Step::Rule { because: "spread-of-the-sample", source: &source::BIVARIATE_NORMAL }];
        steps.extend(self.ellipse.steps());
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn gaze(x: f64, y: f64) -> Gaze {
        Gaze { x: Angle::from_degrees(x), y: Angle::from_degrees(y) }
    }

    fn ellipse(x: f64, y: f64, correlation: f64, share: f64) -> Result<FixationEllipse, Error> {
        fixation_ellipse(Angle::from_degrees(x), Angle::from_degrees(y), correlation, share)
    }

    /// Computed by hand: about (2, 1) the squares add to 14 and 4, the products to 6.
    #[test]
    fn spread_and_correlation_by_hand() -> Result<(), Error> {
        let points = [gaze(0.0, 0.0), gaze(1.0, 0.0), gaze(2.0, 2.0), gaze(5.0, 2.0)];
        let area = fixation_of(&points, 0.95)?;
        assert_eq!(area.points, 4);
        for (what, got, by_hand) in [
            ("middle, x", area.centre.x.degrees(), 2.0),
            ("middle, y", area.centre.y.degrees(), 1.0),
            ("spread, x", area.ellipse.sigma_x.degrees(), math::sqrt(14.0 / 3.0)),
            ("spread, y", area.ellipse.sigma_y.degrees(), math::sqrt(4.0 / 3.0)),
            ("correlation", area.ellipse.correlation, 6.0 / math::sqrt(56.0)),
        ] {
            assert!((got - by_hand).abs() < 1e-12, "{what}: {got} against {by_hand}");
        }
        assert!((area.ellipse.share - 0.95).abs() < 1e-15, "the share is kept");
        Ok(())
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for correlation in [-1.0, -0.999, -0.3, 0.0, 0.5, 1.0] {
            for share in [0.01, 0.5, 0.632, 0.6827, 0.95, 0.999] {
                for (x, y) in [(0.0, 0.3), (0.5, 0.4), (10.0, 0.01)] {
                    for step in ellipse(x, y, correlation, share)?.steps() {
                        assert_eq!(step.check(), Ok(()), "{x} {y} {correlation} {share}");
                    }
                }
            }
        }
        let steps = fixation_of(&[gaze(0.0, 0.0), gaze(1.0, 0.5), gaze(2.0, 0.4)], 0.6827)?.steps();
        assert_eq!(steps.len(), 3, "a rule and two formulas");
        assert!(steps.iter().all(|step| step.check().is_ok()), "{steps:?}");
        Ok(())
    }

    #[test]
    fn an_ellipse_without_width_has_no_area() -> Result<(), Error> {
        for flat in
            [ellipse(0.5, 0.4, 1.0, 0.95)?, ellipse(0.5, 0.4, -1.0, 0.95)?, ellipse(0.0, 1.0, 0.0, 0.5)?]
        {
            assert_eq!(flat.area, SquareDegrees::ZERO);
        }
        let slanted = fixation_of(&[gaze(0.0, 0.0), gaze(1.0, 2.0), gaze(3.0, 6.0)], 0.95)?;
        assert!(slanted.ellipse.area.square_degrees() < 1e-6, "points on a slanted line");
        Ok(())
    }

    #[test]
    fn another_share_of_the_same_scatter() -> Result<(), Error> {
        let small = ellipse(0.5, 0.4, 0.2, 0.632)?;
        let large = small.holding(0.95)?;
        assert_eq!(large, ellipse(0.5, 0.4, 0.2, 0.95)?);
        assert!(small.holding(1.0).is_err(), "no ellipse holds every point");
        Ok(())
    }

    #[test]
    fn what_has_no_area_is_refused() {
        let said = |error: Error| error.to_string();
        assert_eq!(
            said(fixation_of(&[gaze(0.0, 0.0), gaze(1.0, 1.0)], 0.95).expect_err("two points")),
            "points of gaze `2` has no solution: fewer than three have no spread in two directions"
        );
        for line in [
            [gaze(0.0, 1.0), gaze(1.0, 1.0), gaze(2.0, 1.0)],
            [gaze(1.0, 0.0), gaze(1.0, 1.0), gaze(1.0, 2.0)],
            [gaze(1.0, 1.0); 3],
        ] {
            assert_eq!(
                said(fixation_of(&line, 0.95).expect_err("on a line")),
                "points of gaze `3` has no solution: they lie on one level or one plumb line"
            );
        }
        for bad in [f64::NAN, 91.0, -91.0, f64::INFINITY] {
            assert!(fixation_of(&[gaze(0.0, bad), gaze(1.0, 1.0), gaze(2.0, 0.0)], 0.95).is_err(), "y {bad}");
            assert!(fixation_of(&[gaze(0.0, 2.0), gaze(bad, 1.0), gaze(2.0, 0.0)], 0.95).is_err(), "x {bad}");
        }
        assert_eq!(
            said(ellipse(0.5, 0.4, 0.2, 0.0).expect_err("no share")),
            "share of fixation points `0` is not possible"
        );
        assert_eq!(
            said(ellipse(0.5, 0.4, 1.1, 0.95).expect_err("no correlation")),
            "correlation of fixation `1.1` is not possible"
        );
        assert_eq!(
            said(ellipse(-0.1, 0.4, 0.0, 0.95).expect_err("no spread")),
            "spread of fixation `-0.1 degrees` is not possible"
        );
        assert!(ellipse(0.1, 61.0, 0.0, 0.95).is_err(), "spread up and down");
    }
}
