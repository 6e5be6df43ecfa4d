//! The least round blank that a lens can be cut from.

use super::frame::{Frame, Point};
use crate::bounds;
use crate::error::Error;
use crate::math;
use crate::unit::Length;

/// Decentration and blank size of one lens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blank {
    /// The frame.
    pub frame: Frame,
    /// Where the optical centre is to be.
    pub optical_centre: Point,
    /// Added to the diameter for edging.
    pub allowance: Length,
    /// Optical centre inward of the box centre; negative outward.
    pub decentration: Length,
    /// Optical centre above the box centre; negative below.
    pub raise: Length,
    /// ED of the frame.
    pub effective_diameter: Length,
    /// Least diameter by the outline: twice the greatest distance from optical centre to edge, and the allowance.
    pub diameter: Length,
    /// Least diameter by the rule of thumb, which leaves vertical decentration out.
    pub diameter_by_rule: Length,
}

/// The least blank for an optical centre at a given place.
///
/// `2 (√((|d| + a − r)² + (|dy| + b − r)²) + r) + t`, and beside it the rule `ED + 2|d| + t`.
///
/// * Domain: the rounded-rectangle outline; the optical centre is the middle of the blank.
/// * Source: geometry; the rule is common in study guides.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible frame, pupil distance or height.
///
/// ```
/// use arcminute_core::{fit::{blank, Frame, Point}, unit::Length};
/// let mm = Length::from_mm;
/// let frame = Frame::new(mm(48.0), mm(42.0), mm(20.0), mm(8.0)).expect("a usual frame");
/// let blank = blank(&frame, Point::from_mm(31.5, 22.0), Length::ZERO).expect("possible");
/// assert!((blank.diameter.mm() - 62.400).abs() < 5e-4);
/// assert!((blank.diameter_by_rule.mm() - 62.231).abs() < 5e-4);
/// ```
pub fn blank(frame: &Frame, optical_centre: Point, allowance: Length) -> Result<Blank, Error> {
    frame.verify()?;
    bounds::MONOCULAR_PD.check(optical_centre.x.mm())?;
    bounds::PUPIL_HEIGHT.check(optical_centre.y.mm())?;
    Ok(blank_for(frame, optical_centre, allowance))
}

/// The same for a possible frame and any place of the optical centre.
pub(super) fn blank_for(frame: &Frame, optical_centre: Point, allowance: Length) -> Blank {
    let (a, b, r) = frame.halves();
    let decentration = frame.decentration(optical_centre.x);
    let raise = Length::from_mm(optical_centre.y.mm() - frame.box_height.mm() / 2.0);
    let effective_diameter = frame.effective_diameter();
    // The outline is a rectangle grown by r: the point farthest from any place lies r beyond the farthest corner.
    let farthest = math::hypot(math::abs(decentration.mm()) + a - r, math::abs(raise.mm()) + b - r) + r;
    Blank {
        frame: *frame,
        optical_centre,
        allowance,
        decentration,
        raise,
        effective_diameter,
        diameter: Length::from_mm(2.0 * farthest + allowance.mm()),
        diameter_by_rule: effective_diameter + decentration.abs() * 2.0 + allowance,
    }
}
