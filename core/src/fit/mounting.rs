//! Where the eyepiece sits, how the barrel is tilted, and what of the lens remains.

use super::edge::{Web, least_web};
use super::frame::Point;
use super::request::{MountingRequest, Placement, TiltReference};
use crate::error::{Error, Why};
use crate::math;
use crate::unit::{Angle, Length};

/// Everything that follows from a [`MountingRequest`]. All heights are above the lowest boxed tangent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mounting {
    /// What was asked.
    pub request: MountingRequest,
    /// Back of the lens to the centre of rotation of the eye.
    pub stop_distance: Length,
    /// Where the line of sight crosses the lens sideways: at the PD, or nearer the nose for a near telescope.
    pub line_of_sight: Length,
    /// Centre of the eyepiece in the lens plane, exact.
    pub eyepiece: Point,
    /// The same in half millimetres, as a rule can mark it; for the rule *highest* never above the exact height.
    pub to_mark: Point,
    /// Eyepiece centre over the straight-ahead pupil.
    pub rise: Length,
    /// Axis above the straight-ahead line; the head must drop by as much to use the telescope.
    pub head_drop: Angle,
    /// Axis against the normal of the carrier lens, upward positive: the tilt to be made.
    pub tilt_to_carrier: Angle,
    /// Axis turned in toward an object on the midline; zero for distance.
    pub toe_in: Angle,
    /// Half width of the oval in which the barrel cuts the lens.
    pub oval_half_width: Length,
    /// Half height of that oval.
    pub oval_half_height: Length,
    /// Half width of the opening: oval and play.
    pub hole_half_width: Length,
    /// Half height of the opening: oval and play.
    pub hole_half_height: Length,
    /// Bottom of the eyepiece above the top of the pupil, or for a low one its top below the bottom of the pupil; negative
    /// when the eyepiece stands before the pupil.
    pub clearance: Length,
    /// The thinnest place round the opening, exact placement.
    pub web: Web,
    /// Box height that leaves the web above the opening where it now is. Corners are not in it: see
    /// [`super::ways_out`].
    pub smallest_box_height: Length,
    /// Highest top of a segment, measured from the eyepiece.
    pub segment_max: Length,
    /// Highest top of a segment, measured from the opening: stricter by the play.
    pub segment_max_hole: Length,
    /// The highest top of a segment, below the box centre; negative above it.
    pub segment_drop: Length,
    /// The ordered tilt against the normal of the carrier lens, if one is ordered.
    pub ordered_to_carrier: Option<Angle>,
    /// How far the ordered axis passes the centre of rotation; positive above it.
    pub miss_distance: Option<Length>,
    /// Miss distance up to which exit pupil and eye pupil still touch: half the sum of their diameters.
    pub miss_limit: Option<Length>,
}

impl Mounting {
    /// The thinnest place round the opening when its centre stands at [`Mounting::to_mark`].
    ///
    /// ```
    /// use arcminute_core::{fit::{mount, Eye, Frame, MountingRequest}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0))?;
    /// let mounting = mount(&MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0)))?;
    /// // Marked at 32.5 for 32.413 mm: 3.587 mm are left above the opening, and not 3.674 (computed).
    /// assert!((mounting.web.least.mm() - 3.674).abs() < 5e-4);
    /// assert!((mounting.web_as_marked().least.mm() - 3.587).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn web_as_marked(&self) -> Web {
        least_web(&self.request.frame, self.to_mark, self.hole_half_width, self.hole_half_height)
    }
}

/// Rounds of the iteration; published fits need fewer than twenty.
const MOST_ROUNDS: usize = 2000;
/// Change of height at which the iteration has closed, in millimetres.
const CLOSED: f64 = 1e-12;
/// A barrel tilted more than this against the lens does not pass through it.
const STEEPEST: f64 = 80.0;

/// Sets a telescope in a carrier lens.
///
/// The axis must pass the centre of rotation of the eye, so the head drop is `β = atan(e / s)` and the tilt to the
/// carrier's normal `τ = β + φ`. A round barrel so tilted cuts the lens in an oval of half height `r_b / cos τ`, on which
/// the placement rule depends in turn: rules *pupil-top*, *highest* and *low* are iterated until the height stands still.
///
/// * Domain: thin flat lens plane, upright oval; the slant that tilt and toe-in give the oval together is left out.
/// * Source: [`crate::source::GREER`] (axis, web), [`crate::source::YOHO_2009`] (places), geometry; the rule
///   *pupil-top* is common practice.
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible value; [`Why::NoSolution`] when no height satisfies the rule or the barrel would
/// have to lie along the lens. A hole that leaves the lens is no error: [`super::check()`] refuses it and says why.
///
/// # Example
/// ```
/// use arcminute_core::{fit::{mount, Eye, Frame, MountingRequest}, unit::Length};
/// let mm = Length::from_mm;
/// let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("a usual frame");
/// let mounting = mount(&MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0))).expect("possible");
/// assert!((mounting.eyepiece.y.mm() - 32.413).abs() < 5e-4);
/// assert!((mounting.head_drop.degrees() - 19.220).abs() < 5e-4);
/// assert_eq!(mounting.to_mark.y.mm(), 32.5);
/// ```
pub fn mount(request: &MountingRequest) -> Result<Mounting, Error> {
    request.verify()?;
    let stop_distance = request.stop_distance();
    let s = stop_distance.mm();
    let pd = request.monocular_pd.mm();
    let (line_of_sight, toe_in) = match request.working_distance.map(Length::mm) {
        None => (pd, Angle::ZERO),
        Some(w) => (pd * w / (w + s), Angle::from_tangent(pd / (w + s))),
    };
    let height = closed_height(request)?;
    let eyepiece = match request.rule {
        Placement::ByHand(place) => place,
        _ => Point::from_mm(line_of_sight, height.y),
    };
    let to_mark = marked(eyepiece, request.rule);

    let (radius, play, web) = (request.barrel_radius.mm(), request.play.mm(), request.least_web.mm());
    let half_width = radius / toe_in.cosine();
    let (hole_half_width, hole_half_height) =
        (Length::from_mm(half_width + play), Length::from_mm(height.half + play));
    let frame = &request.frame;
    let segment_max = height.y - height.half - request.segment_gap.mm();
    let rise = height.y - request.pupil_height.mm();
    let beside_pupil = match request.rule {
        Placement::Low | Placement::ByHand(_) => math::abs(rise),
        Placement::PupilTop | Placement::Highest | Placement::Centred => rise,
    };
    let aim = ordered_aim(request, rise);
    Ok(Mounting {
        request: *request,
        stop_distance,
        line_of_sight: Length::from_mm(line_of_sight),
        eyepiece,
        to_mark,
        rise: Length::from_mm(rise),
        head_drop: height.head_drop,
        tilt_to_carrier: height.tilt,
        toe_in,
        oval_half_width: Length::from_mm(half_width),
        oval_half_height: Length::from_mm(height.half),
        hole_half_width,
        hole_half_height,
        clearance: Length::from_mm(beside_pupil - height.half - request.pupil_radius.mm()),
        web: least_web(frame, eyepiece, hole_half_width, hole_half_height),
        smallest_box_height: Length::from_mm(height.y + height.half + play + web),
        segment_max: Length::from_mm(segment_max),
        segment_max_hole: Length::from_mm(height.y - height.half - play - request.segment_gap.mm()),
        segment_drop: Length::from_mm(frame.box_height.mm() / 2.0 - segment_max),
        ordered_to_carrier: aim.map(|aim| aim.0),
        miss_distance: aim.map(|aim| aim.1),
        miss_limit: request.exit_pupil.map(|exit| exit / 2.0 + request.pupil_radius),
    })
}

/// Height of the eyepiece and what hangs on it, at the close of the iteration; millimetres.
struct Height {
    y: f64,
    half: f64,
    head_drop: Angle,
    tilt: Angle,
}

fn closed_height(request: &MountingRequest) -> Result<Height, Error> {
    let (pupil, radius, s) =
        (request.pupil_height.mm(), request.barrel_radius.mm(), request.stop_distance().mm());
    let mut y = rule_height(request, radius);
    for _ in 0..MOST_ROUNDS {
        let head_drop = Angle::from_tangent((y - pupil) / s);
        let tilt = head_drop + request.pantoscopic;
        if tilt.abs().degrees() > STEEPEST {
            break;
        }
        let half = radius / tilt.cosine();
        let next = rule_height(request, half);
        if math::abs(next - y) <= CLOSED {
            return Ok(Height { y, half, head_drop, tilt });
        }
        // "Highest" overshoots, since a higher eyepiece is a taller oval: go half the way.
        y = if request.rule == Placement::Highest { (y + next) / 2.0 } else { next };
    }
    let because = "the higher the eyepiece, the more it must be tilted, and the taller its opening: the height never settles";
    Err(Error::about(
        "eyepiece height",
        format_args!("barrel {} mm", 2.0 * radius),
        Why::NoSolution { because },
    ))
}

/// Height of the eyepiece centre by the rule, for an oval of this half height; millimetres.
fn rule_height(request: &MountingRequest, half: f64) -> f64 {
    match request.rule {
        Placement::PupilTop => request.pupil_height.mm() + request.pupil_radius.mm() + half,
        Placement::Highest => {
            request.frame.box_height.mm() - request.least_web.mm() - half - request.play.mm()
        }
        Placement::Centred => request.pupil_height.mm(),
        Placement::Low => request.pupil_height.mm() - request.pupil_radius.mm() - half,
        Placement::ByHand(place) => place.y.mm(),
    }
}

fn marked(exact: Point, rule: Placement) -> Point {
    let halves = |value: f64| math::round_to(value, 0.5);
    let y = exact.y.mm();
    let y = if rule == Placement::Highest { math::floor(y * 2.0) / 2.0 } else { halves(y) };
    Point::from_mm(halves(exact.x.mm()), y)
}

/// The ordered tilt against the carrier's normal, and its miss of the rotation centre.
fn ordered_aim(request: &MountingRequest, rise: f64) -> Option<(Angle, Length)> {
    let ordered = request.ordered_tilt?;
    let to_carrier = match request.tilt_reference {
        TiltReference::StraightAhead => ordered + request.pantoscopic,
        TiltReference::CarrierNormal | TiltReference::NotStated => ordered,
    };
    let over_gaze = to_carrier - request.pantoscopic;
    let miss = (rise - request.stop_distance().mm() * over_gaze.tangent()) * over_gaze.cosine();
    Some((to_carrier, Length::from_mm(miss)))
}
