//! A display worn before the eyes, with a camera.
//!
//! Angular magnification is the angle of the display over that of the camera, where the same pixels fill both. What is
//! magnified is the turning of the head as well, and what a late picture makes of it.

use crate::bounds;
use crate::device::{Arrangement, Eye};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, Train};
use crate::source::{self, Source};
use crate::unit::{Angle, AngularSpeed, Duration, Length, Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A display before the eyes and the camera that feeds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadMountedDisplay {
    /// What the display fills at the eye, across, full angle.
    pub display_field: Angle,
    /// What the camera takes in of the world across the display, full angle.
    pub camera_field: Angle,
    /// Distance of the display's image from the eye's entrance pupil; `None` where it is infinitely far.
    pub image_distance: Option<Length>,
    /// Pixels across the display; a count.
    pub display_pixels: f64,
    /// Pixels across what the camera takes in; a count.
    pub camera_pixels: f64,
}

/// A display before the eyes in use.
#[derive(Clone, Debug, PartialEq)]
pub struct HeadMountedInUse {
    /// The display and its camera.
    pub display: HeadMountedDisplay,
    /// Thing to the eye's entrance pupil, and to the camera.
    pub distance: Length,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Power that stands in the spectacle plane, behind the display.
    pub worn: Vergence,
    /// Display field over camera field.
    pub magnification: Magnification,
    /// Distance at which the bare thing would look as large.
    pub equivalent_viewing_distance: Length,
    /// Demand at the eye's entrance pupil.
    pub focus_demand: Vergence,
    /// Width of the thing's plane that the camera takes in.
    pub field_width: Length,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// A thing at `distance` on a display before the eyes: `M = display field/camera field`, `EVD = distance/M`.
///
/// What is worn stands between display and eye. Domain: the pixels spread evenly over both angles; camera and eye equally
/// far from the thing. Source: geometry; reviewed in [`source::EHRLICH_2017`].
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible display or distance; [`Why::NoSolution`] when the display's image would have to
/// be behind the glasses.
///
/// ```
/// use arcminute_core::device::{Eye, HeadMountedDisplay, wear_display};
/// use arcminute_core::unit::{Angle, Length, LogMar};
/// let display = HeadMountedDisplay {
///     display_field: Angle::from_degrees(40.0),
///     camera_field: Angle::from_degrees(10.0),
///     image_distance: None,
///     display_pixels: 1280.0,
///     camera_pixels: 1280.0,
/// };
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// // 40 over 10 degrees: 4 times, so print at 40 cm is as at 10 cm (computed).
/// let worn = wear_display(display, &eye, Length::from_cm(40.0))?;
/// assert!((worn.magnification.times() - 4.0).abs() < 1e-12);
/// assert!((worn.equivalent_viewing_distance.cm() - 10.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn wear_display(
    display: HeadMountedDisplay,
    eye: &Eye,
    distance: Length,
) -> Result<HeadMountedInUse, Error> {
    bounds::DISPLAY_FIELD.check(display.display_field.degrees())?;
    bounds::CAMERA_FIELD.check(display.camera_field.degrees())?;
    bounds::DISPLAY_DISTANCE.check(distance.m())?;
    let magnification = display.display_field / display.camera_field;
    let (sight, shown_larger) = match display.image_distance {
        None => (Sight::Far, magnification),
        Some(image) => (Sight::At(image - eye.spectacle_to_eye), magnification * (image / distance)),
    };
    if let Sight::At(before) = sight
        && !(Length::ZERO < before && before.is_finite())
    {
        let why = Why::NoSolution { because: "the image would have to be behind the glasses" };
        let image = display.image_distance.unwrap_or_default();
        return Err(Error::about("image of the display", format_args!("{} mm", image.mm()), why));
    }
    let worn = eye.worn_power();
    let train =
        Train::new([Element::Lens { power: worn, clear_diameter: None }]).to_eye(eye.spectacle_to_eye);
    let field_width = distance * (2.0 * (display.camera_field / 2.0).tangent());
    let arrangement =
        Arrangement { shown_larger, window: Some(field_width), ..Arrangement::of(train, sight) };
    let seen = arrangement.view();
    let equivalent_viewing_distance = arrangement
        .equivalent_viewing_distance()
        .unwrap_or((distance / (seen.enlargement * shown_larger)).abs());
    Ok(HeadMountedInUse {
        display,
        distance,
        spectacle_to_eye: eye.spectacle_to_eye,
        worn,
        magnification: Magnification::from_times(magnification),
        equivalent_viewing_distance,
        focus_demand: seen.focus_demand,
        field_width,
        arrangement,
    })
}

/// The pixels of a display before the eyes, against what a reader sees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DisplayPixels {
    /// Least detail that the reader sees.
    pub mar: Angle,
    /// Display field over camera field.
    pub magnification: Magnification,
    /// Pixels of the display to a degree of what is seen; a count.
    pub display_per_degree: f64,
    /// As many as would not be seen singly, `60/MAR`.
    pub display_needed: f64,
    /// Pixels of the camera to a degree of the world; a count.
    pub camera_per_degree: f64,
    /// As many as would not be seen singly once magnified, `60·M/MAR`.
    pub camera_needed: f64,
}

impl DisplayPixels {
    /// Whether neither the pixels of the display nor those of the camera limit what this reader sees.
    ///
    /// ```
    /// use arcminute_core::{device::HeadMountedDisplay, unit::Angle};
    /// let display = HeadMountedDisplay {
    ///     display_field: Angle::from_degrees(40.0),
    ///     camera_field: Angle::from_degrees(20.0),
    ///     image_distance: None,
    ///     display_pixels: 1280.0,
    ///     camera_pixels: 1280.0,
    /// };
    /// // 32 a degree on the display and 64 in the camera: enough for 2 arcmin, not for 1 (computed).
    /// assert!(display.pixels(Angle::from_arcmin(2.0))?.suffice());
    /// assert!(!display.pixels(Angle::from_arcmin(1.0))?.suffice());
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn suffice(&self) -> bool {
        self.display_needed <= self.display_per_degree && self.camera_needed <= self.camera_per_degree
    }
}

impl HeadMountedDisplay {
    /// Its pixels against what a reader with this least detail sees. Source: geometry.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for an impossible display or acuity.
    ///
    /// ```
    /// use arcminute_core::device::HeadMountedDisplay;
    /// use arcminute_core::unit::Angle;
    /// let display = HeadMountedDisplay {
    ///     display_field: Angle::from_degrees(40.0),
    ///     camera_field: Angle::from_degrees(10.0),
    ///     image_distance: None,
    ///     display_pixels: 1280.0,
    ///     camera_pixels: 320.0,
    /// };
    /// // For 6 arcmin: 10 a degree of 32 on the display, 40 of 32 in the camera (computed).
    /// let pixels = display.pixels(Angle::from_arcmin(6.0))?;
    /// assert_eq!((pixels.display_needed, pixels.camera_needed, pixels.suffice()), (10.0, 40.0, false));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn pixels(&self, mar: Angle) -> Result<DisplayPixels, Error> {
        bounds::DISPLAY_FIELD.check(self.display_field.degrees())?;
        bounds::CAMERA_FIELD.check(self.camera_field.degrees())?;
        bounds::PIXELS_ACROSS.check(self.display_pixels)?;
        bounds::PIXELS_ACROSS.check(self.camera_pixels)?;
        bounds::LOG_MAR.check(crate::math::log10(mar.arcmin()))?;
        let magnification = self.display_field / self.camera_field;
        let display_needed = Angle::from_degrees(1.0) / mar;
        Ok(DisplayPixels {
            mar,
            magnification: Magnification::from_times(magnification),
            display_per_degree: self.display_pixels / self.display_field.degrees(),
            display_needed,
            camera_per_degree: self.camera_pixels / self.camera_field.degrees(),
            camera_needed: display_needed * magnification,
        })
    }
}

/// How far a late picture lies from where it should be while the head turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LatencySlip {
    /// Angular magnification.
    pub magnification: Magnification,
    /// Speed at which the head turns.
    pub head_speed: AngularSpeed,
    /// Camera to display.
    pub latency: Duration,
    /// How far the picture is off.
    pub slip: Angle,
}

/// Latencies below which low vision is served: none has been found published.
pub const LATENCY_LIMIT: &str = "no low-vision threshold is known";

/// The error of place of a late picture: magnification times speed of the head times latency, if only the magnified
/// picture is seen.
///
/// How much is tolerated with low vision is not known: [`LATENCY_LIMIT`]; for what is published, see
/// [`LATENCIES_PUBLISHED`]. Source: geometry.
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible latency or speed.
///
/// ```
/// use arcminute_core::device::latency_slip;
/// use arcminute_core::unit::{AngularSpeed, Duration, Magnification};
/// let (speed, latency) = (AngularSpeed::from_degrees_per_second(20.0), Duration::from_milliseconds(50.0));
/// // 20 degrees a second, 50 ms, 4 times: 4 degrees (computed).
/// let late = latency_slip(Magnification::from_times(4.0), speed, latency)?;
/// assert!((late.slip.degrees() - 4.0).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn latency_slip(
    magnification: Magnification,
    head_speed: AngularSpeed,
    latency: Duration,
) -> Result<LatencySlip, Error> {
    bounds::HEAD_SPEED.check(head_speed.degrees_per_second())?;
    bounds::LATENCY.check(latency.milliseconds())?;
    let turned = Angle::from_degrees(head_speed.degrees_per_second() * latency.seconds());
    Ok(LatencySlip { magnification, head_speed, latency, slip: turned * magnification.size() })
}

/// A latency, or a range of them, that a work reports, in milliseconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LatencyPublished {
    /// What about it.
    pub what: &'static str,
    /// Least, in milliseconds.
    pub from_ms: u32,
    /// Greatest, in milliseconds.
    pub to_ms: u32,
    /// The work.
    pub source: &'static Source,
}

/// Latencies of displays before the eyes that are published; none is of people with low vision.
pub static LATENCIES_PUBLISHED: &[LatencyPublished] = &[
    LatencyPublished {
        what: "of today's systems",
        from_ms: 12,
        to_ms: 60,
        source: &source::LATENCY_CATCHING,
    },
    LatencyPublished {
        what: "preferred to 23 and 29 ms in catching a ball",
        from_ms: 2,
        to_ms: 14,
        source: &source::LATENCY_CATCHING,
    },
    LatencyPublished { what: "typical by now", from_ms: 15, to_ms: 25, source: &source::LAVALLE },
    LatencyPublished { what: "once thought acceptable", from_ms: 60, to_ms: 60, source: &source::LAVALLE },
];

#[cfg(feature = "alloc")]
impl Explain for HeadMountedInUse {
    fn steps(&self) -> Vec<Step> {
        let metre = |symbol, length: Length| Named::new(symbol, length.m(), Unit::Metre);
        let degree = |symbol, angle: Angle| Named::new(symbol, angle.degrees(), Unit::Degree);
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let (x, s) = (metre("x", self.distance), mm("s", self.spectacle_to_eye));
        let (a_d, a_c) =
            (degree("a_d", self.display.display_field), degree("a_c", self.display.camera_field));
        let f_w = Named::new("F_w", self.worn.dioptres(), Unit::Dioptre);
        let m = Named::new("M_a", self.magnification.times(), Unit::Times);
        let evd = metre("EVD", self.equivalent_viewing_distance);
        let a = Named::new("A", self.focus_demand.dioptres(), Unit::Dioptre);
        let mut steps = alloc::vec![Step::formula(&formula::DISPLAY_MAGNIFICATION, m, [a_d, a_c])];
        if let Some(image) = self.display.image_distance {
            let d = mm("d", image);
            steps.push(Step::formula(&formula::DISPLAY_EVD_NEAR, evd, [x, d, s, f_w, m]));
            let v = mm("v", self.spectacle_to_eye);
            steps.push(Step::formula(&formula::DEMAND_NEARER, a, [d, v, f_w]));
        } else {
            steps.push(Step::formula(&formula::DISPLAY_EVD_FAR, evd, [x, s, f_w, m]));
            steps.push(Step::formula(&formula::DISPLAY_DEMAND_FAR, a, [s, f_w]));
        }
        let width = mm("w_x", self.field_width);
        steps.push(Step::formula(&formula::CAMERA_FIELD_WIDTH, width, [x, a_c]));
        steps
    }
}

#[cfg(feature = "alloc")]
impl Explain for DisplayPixels {
    fn steps(&self) -> Vec<Step> {
        let mar = Named::new("MAR", self.mar.arcmin(), Unit::Arcmin);
        let m = Named::new("M_a", self.magnification.times(), Unit::Times);
        alloc::vec![
            Step::formula(
                &formula::DISPLAY_PIXELS_NEEDED,
                Named::new("n_d", self.display_needed, Unit::Plain),
                [mar]
            ),
            Step::formula(
                &formula::CAMERA_PIXELS_NEEDED,
                Named::new("n_c", self.camera_needed, Unit::Plain),
                [m, mar]
            ),
        ]
    }
}

#[cfg(feature = "alloc")]
impl Explain for LatencySlip {
    fn steps(&self) -> Vec<Step> {
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        let speed = Named::new("omega", self.head_speed.degrees_per_second(), Unit::DegreePerSecond);
        let latency = Named::new("t", self.latency.seconds(), Unit::Second);
        let slip = Named::new("slip", self.slip.degrees(), Unit::Degree);
        alloc::vec![Step::formula(&formula::LATENCY_SLIP, slip, [m, speed, latency])]
    }
}

#[cfg(test)]
mod tests;
