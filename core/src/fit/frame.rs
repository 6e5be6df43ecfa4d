//! The front of a frame in the boxing system, with a rounded rectangle as model of the lens edge.
//!
//! Box sizes alone do not say where the edge is at a given height. The rounded rectangle is the least model that does,
//! and A, B and ED, which are printed or measured, fix it. It is a model: the traced shape decides.

use crate::bounds;
use crate::error::{Error, Why};
use crate::math;
use crate::unit::Length;

/// A place in the plane of one lens.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// From the middle of the bridge, outward positive.
    pub x: Length,
    /// Above the lowest boxed tangent.
    pub y: Length,
}

impl Point {
    /// A place `x` out from the middle of the bridge and `y` above the lowest boxed tangent, both in millimetres.
    ///
    /// ```
    /// use arcminute_core::{fit::Point, unit::Length};
    /// // A pupil 31.5 mm from the middle of the bridge and 23 mm above the lowest tangent.
    /// let pupil = Point::from_mm(31.5, 23.0);
    /// assert_eq!((pupil.x, pupil.y), (Length::from_mm(31.5), Length::from_mm(23.0)));
    /// ```
    #[must_use]
    pub fn from_mm(x: f64, y: f64) -> Self {
        Self { x: Length::from_mm(x), y: Length::from_mm(y) }
    }
}

/// A symmetrical frame front.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// A: width of the box round a lens.
    pub box_width: Length,
    /// B: height of that box.
    pub box_height: Length,
    /// DBL: gap between the two boxes.
    pub bridge: Length,
    /// Radius of the corners of the model outline, at most half of A and half of B.
    pub corner_radius: Length,
}

impl Frame {
    /// A frame from its boxing sizes and the corner radius of the model outline.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for a size outside [`bounds`] or corners too large for the box.
    ///
    /// ```
    /// use arcminute_core::{fit::Frame, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(42.0), mm(20.0), mm(8.0)).expect("a usual frame");
    /// assert!((frame.effective_diameter().mm() - 57.231).abs() < 5e-4);
    /// assert_eq!(frame.frame_pd().mm(), 68.0);
    /// ```
    pub fn new(
        box_width: Length,
        box_height: Length,
        bridge: Length,
        corner_radius: Length,
    ) -> Result<Self, Error> {
        let frame = Self { box_width, box_height, bridge, corner_radius };
        frame.verify()?;
        Ok(frame)
    }

    /// A frame from its boxing sizes and effective diameter, the four numbers that are printed or measured.
    ///
    /// # Errors
    /// As [`Frame::new`] and [`corner_radius_from_effective_diameter`].
    ///
    /// ```
    /// use arcminute_core::{fit::Frame, unit::Length};
    /// let mm = Length::from_mm;
    /// // 48 by 42, bridge 20, effective diameter 57.231: corners of 8 mm (computed).
    /// let frame = Frame::with_effective_diameter(mm(48.0), mm(42.0), mm(20.0), mm(57.231))?;
    /// assert!((frame.corner_radius.mm() - 8.0).abs() < 0.005);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn with_effective_diameter(
        box_width: Length,
        box_height: Length,
        bridge: Length,
        effective_diameter: Length,
    ) -> Result<Self, Error> {
        let corner = corner_radius_from_effective_diameter(box_width, box_height, effective_diameter)?;
        Self::new(box_width, box_height, bridge, corner)
    }

    /// Whether its sizes are possible, alone and together.
    ///
    /// # Errors
    /// As [`Frame::new`].
    ///
    /// ```
    /// use arcminute_core::{fit::Frame, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(30.0), mm(20.0), mm(8.0))?;
    /// // Half of B is 15 mm: corners of a larger radius do not go into the box.
    /// let refused = Frame { corner_radius: mm(16.0), ..frame }.verify().unwrap_err();
    /// assert_eq!(refused.hint().to_string(), "use 0 to 15 mm");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn verify(&self) -> Result<(), Error> {
        bounds::BOX_WIDTH.check(self.box_width.mm())?;
        bounds::BOX_HEIGHT.check(self.box_height.mm())?;
        bounds::BRIDGE.check(self.bridge.mm())?;
        let (radius, max) = (self.corner_radius.mm(), self.box_width.min(self.box_height).mm() / 2.0);
        if 0.0 <= radius && radius <= max {
            return Ok(());
        }
        Err(Error::about(
            "corner radius",
            format_args!("{radius} mm"),
            Why::OutOfRange { min: 0.0, max, unit: "mm" },
        ))
    }

    /// The centre of the box round the lens.
    ///
    /// ```
    /// use arcminute_core::{fit::{Frame, Point}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(42.0), mm(20.0), mm(8.0))?;
    /// // Half of 48 and 20 outward, half of 42 up.
    /// assert_eq!(frame.box_centre(), Point::from_mm(34.0, 21.0));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn box_centre(&self) -> Point {
        Point { x: self.frame_pd() / 2.0, y: self.box_height / 2.0 }
    }

    /// Half-sides and corner radius of the outline in millimetres: `(A / 2, B / 2, r)`.
    pub(super) fn halves(&self) -> (f64, f64, f64) {
        (self.box_width.mm() / 2.0, self.box_height.mm() / 2.0, self.corner_radius.mm())
    }

    /// Distance of a place to the lens edge: negative on the lens, positive off it.
    ///
    /// * Domain: the rounded-rectangle model. Source: geometry.
    ///
    /// ```
    /// use arcminute_core::{fit::{Frame, Point}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(42.0), mm(20.0), mm(8.0))?;
    /// // The middle is 21 mm inside the edge, the corner of the box 8·(√2 − 1) = 3.314 mm outside it (computed).
    /// assert!((frame.signed_distance(Point::from_mm(34.0, 21.0)).mm() + 21.0).abs() < 1e-9);
    /// assert!((frame.signed_distance(Point::from_mm(58.0, 42.0)).mm() - 3.314).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn signed_distance(&self, at: Point) -> Length {
        let (a, b, r) = self.halves();
        let centre = self.box_centre();
        let beyond_x = math::abs((at.x - centre.x).mm()) - (a - r);
        let beyond_y = math::abs((at.y - centre.y).mm()) - (b - r);
        let outside = math::hypot(beyond_x.max(0.0), beyond_y.max(0.0));
        Length::from_mm(outside + beyond_x.max(beyond_y).min(0.0) - r)
    }

    /// Where the lens ends at this height, on the nasal and on the temporal side, from the middle of the bridge; `None`
    /// above and below the lens.
    ///
    /// * Domain: the rounded-rectangle model. Source: geometry.
    ///
    /// ```
    /// use arcminute_core::{fit::{Frame, Point}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(42.0), mm(20.0), mm(8.0))?;
    /// // Half way up from 10 to 58 mm; 4 mm up, half a corner, 8·(1 − √(1 − 0.25)) = 1.072 mm less on each side (computed).
    /// for (height, from, to) in [(21.0, 10.0, 58.0), (4.0, 11.072, 56.928)] {
    ///     let (nasal, temporal) = frame.ends_at(mm(height)).expect("on the lens");
    ///     assert!((nasal.mm() - from).abs() < 5e-4 && (temporal.mm() - to).abs() < 5e-4);
    /// }
    /// assert_eq!((frame.ends_at(mm(42.5)), frame.ends_at(mm(-0.5))), (None, None));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn ends_at(&self, height: Length) -> Option<(Length, Length)> {
        let (a, b, r) = self.halves();
        let centre = self.box_centre();
        let aside = math::abs((height - centre.y).mm());
        if b < aside {
            return None;
        }
        // Height within a corner, from the level where its arc begins.
        let into_corner = (aside - (b - r)).max(0.0);
        let half = Length::from_mm(a - r + math::sqrt((r * r - into_corner * into_corner).max(0.0)));
        Some((centre.x - half, centre.x + half))
    }

    /// ED: twice the longest radius from the box centre to the edge.
    ///
    /// ```
    /// use arcminute_core::{fit::Frame, unit::Length};
    /// let mm = Length::from_mm;
    /// // Square corners: the diagonal of the box, 63.78 mm of 48 by 42 (computed).
    /// let square = Frame::new(mm(48.0), mm(42.0), mm(20.0), Length::ZERO)?;
    /// assert!((square.effective_diameter().mm() - 63.78).abs() < 0.005);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn effective_diameter(&self) -> Length {
        let (a, b, r) = self.halves();
        Length::from_mm(2.0 * (math::hypot(a - r, b - r) + r))
    }

    /// Distance between the box centres, `A + DBL`.
    ///
    /// * Source: [`crate::source::ISO_8624`].
    ///
    /// ```
    /// use arcminute_core::{fit::Frame, unit::Length};
    /// let mm = Length::from_mm;
    /// // Marked 52□18: 70 mm.
    /// assert_eq!(Frame::new(mm(52.0), mm(36.0), mm(18.0), mm(8.0))?.frame_pd().mm(), 70.0);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn frame_pd(&self) -> Length {
        Length::from_mm(self.box_width.mm() + self.bridge.mm())
    }

    /// How far the pupil lies inward of the box centre; negative when it lies outward.
    ///
    /// * Source: [`crate::source::ISO_8624`].
    ///
    /// ```
    /// use arcminute_core::{fit::Frame, unit::Length};
    /// let mm = Length::from_mm;
    /// // Half of a frame PD of 70 mm is 35 mm; the pupil is at 31.5.
    /// let frame = Frame::new(mm(52.0), mm(36.0), mm(18.0), mm(8.0))?;
    /// assert_eq!(frame.decentration(mm(31.5)).mm(), 3.5);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn decentration(&self, monocular_pd: Length) -> Length {
        Length::from_mm(self.frame_pd().mm() / 2.0 - monocular_pd.mm())
    }
}

/// The corner radius that gives a rounded rectangle this effective diameter; the inverse of
/// [`Frame::effective_diameter`].
///
/// `r = a + b − R − √(2(R − a)(R − b))` with `a`, `b` half of A and B and `R` half of ED.
///
/// * Domain: ED from the longer side (fully round ends) to the diagonal of the box (square corners).
/// * Source: geometry; the inverse is a test.
///
/// # Errors
/// [`Why::OutOfRange`] for an effective diameter that no such outline has.
///
/// ```
/// use arcminute_core::{fit::corner_radius_from_effective_diameter, unit::Length};
/// let mm = Length::from_mm;
/// let radius = corner_radius_from_effective_diameter(mm(48.0), mm(42.0), mm(57.231)).expect("between side and diagonal");
/// assert!((radius.mm() - 8.0).abs() < 1e-3);
/// ```
pub fn corner_radius_from_effective_diameter(
    box_width: Length,
    box_height: Length,
    effective_diameter: Length,
) -> Result<Length, Error> {
    let a = bounds::BOX_WIDTH.check(box_width.mm())? / 2.0;
    let b = bounds::BOX_HEIGHT.check(box_height.mm())? / 2.0;
    let ed = bounds::EFFECTIVE_DIAMETER.check(effective_diameter.mm())?;
    let (min, max) = (2.0 * a.max(b), 2.0 * math::hypot(a, b));
    // Printed sizes are rounded to tenths: an ED no more than half a tenth beyond a limit is taken as that limit.
    if ed < min - 0.05 || max + 0.05 < ed {
        let why = Why::OutOfRange { min, max: math::floor(max * 10.0) / 10.0, unit: "mm" };
        return Err(Error::about("effective diameter ED", format_args!("{ed} mm"), why));
    }
    let radius = ed.max(min).min(max) / 2.0;
    let corner = a + b - radius - math::sqrt(2.0 * (radius - a) * (radius - b));
    Ok(Length::from_mm(corner.max(0.0).min(a.min(b))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;
    use alloc::string::ToString;

    fn frame(a: f64, b: f64, r: f64) -> Frame {
        let mm = Length::from_mm;
        Frame::new(mm(a), mm(b), mm(20.0), mm(r)).expect("possible")
    }

    #[test]
    fn the_radius_from_ed_is_the_inverse_of_ed_from_the_radius() {
        for (a, b) in [(48.0, 42.0), (40.0, 52.0), (45.0, 45.0)] {
            for share in [0.0, 0.2, 0.5, 0.9, 1.0] {
                let radius = share * f64::min(a, b) / 2.0;
                let ed = frame(a, b, radius).effective_diameter();
                let back = Frame::with_effective_diameter(
                    Length::from_mm(a),
                    Length::from_mm(b),
                    Length::from_mm(20.0),
                    ed,
                )
                .expect("an outline has this ED");
                assert!(
                    (back.corner_radius.mm() - radius).abs() < 1e-6,
                    "A {a}, B {b}: {radius} came back as {back:?}"
                );
            }
        }
    }

    #[test]
    fn the_edge_is_where_the_box_says() {
        let frame = frame(48.0, 42.0, 8.0);
        for (x, y, wanted) in [
            (10.0, 21.0, 0.0),
            (58.0, 21.0, 0.0),
            (34.0, 42.0, 0.0),
            (34.0, 45.0, 3.0),
            (34.0, 21.0, -21.0),
            (58.0, 42.0, 8.0 * (core::f64::consts::SQRT_2 - 1.0)),
        ] {
            let got = frame.signed_distance(Point::from_mm(x, y)).mm();
            assert!((got - wanted).abs() < 1e-9, "at ({x}, {y}): got {got}, wanted {wanted}");
        }
    }

    /// A box of 48 by 36 mm: from 48 mm with round ends of 18 mm to the diagonal of 60 mm with square corners.
    #[test]
    fn half_a_tenth_beyond_a_limit_is_that_limit() {
        let mm = Length::from_mm;
        let corner = |ed| corner_radius_from_effective_diameter(mm(48.0), mm(36.0), mm(ed)).map(Length::mm);
        for (ed, radius) in [(48.0, 18.0), (47.95, 18.0), (60.0, 0.0), (60.05, 0.0)] {
            assert_eq!(corner(ed), Ok(radius), "ED {ed}");
        }
        assert!(corner(47.94).is_err() && corner(60.06).is_err(), "a little more than half a tenth");
    }

    #[test]
    fn what_no_outline_has_is_refused() {
        let mm = Length::from_mm;
        let error =
            Frame::new(mm(48.0), mm(30.0), mm(20.0), mm(16.0)).expect_err("corners larger than half of B");
        assert_eq!(
            (format!("{error}"), error.hint().to_string()),
            ("corner radius `16 mm` is not possible".into(), "use 0 to 15 mm".into())
        );
        let error = corner_radius_from_effective_diameter(mm(48.0), mm(36.0), mm(61.0))
            .expect_err("beyond the diagonal");
        assert_eq!(error.hint().to_string(), "use 48 to 60 mm");
        let error = corner_radius_from_effective_diameter(mm(48.0), mm(36.0), mm(47.9))
            .expect_err("less than the longer side");
        assert_eq!(error.to_string(), "effective diameter ED `47.9 mm` is not possible");
        assert_eq!(error.hint().to_string(), "use 48 to 60 mm");
        assert!(
            corner_radius_from_effective_diameter(mm(48.0), mm(36.0), mm(f64::NAN)).is_err(),
            "not a number"
        );
    }
}
