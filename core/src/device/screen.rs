//! Screens: a camera over the print, a tablet, text on a screen.
//!
//! ```text
//!   print --camera--> screen |<-------- d -------->| eye's entrance pupil
//!                              --> glasses --s-->
//! ```
//!
//! * The enlargement is that of sizes: on the screen over on the print. What is seen depends on how far the screen is as
//!   well: moving nearer is magnification without cost.
//! * Text on a screen is the same with its zoom for the enlargement, and its size at 100 % for the thing.
//! * An addition only keeps the screen in focus: enlargement times addition is the equivalent power only with the screen
//!   in the focus of that addition.
//! * The screen shines by itself: the share of light that an arrangement gives is of the glasses alone.
//! * Source: Bailey 2004 ([`source::BAILEY_2004`]); geometry.

mod far;
mod head_mounted;
mod pixels;
mod text;

pub use far::{DistanceCamera, DistanceCameraInUse, watch_far};
pub use head_mounted::{
    DisplayPixels, HeadMountedDisplay, HeadMountedInUse, LATENCIES_PUBLISHED, LATENCY_LIMIT,
    LatencyPublished, LatencySlip, latency_slip, wear_display,
};
pub use pixels::{
    CameraSampling, PixelLimit, SAMPLES_FOR_LARGE_LETTERS, SAMPLES_FOR_SMALL_LETTERS, camera_sampling,
    pixel_limit, pixel_pitch,
};
pub use text::{ZoomNeeded, css_reference_pixel, zoom_needed};

use super::{Arrangement, Eye};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::optics::{Element, Sight, Train};
#[cfg(doc)]
use crate::source;
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// The part of a screen that shows something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screen {
    /// Width.
    pub width: Length,
    /// Height.
    pub height: Length,
}

/// A screen by its diagonal, as screens are sold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScreenOfDiagonal {
    /// Corner to corner.
    pub diagonal: Length,
    /// Parts of the aspect ratio: across, as 16 of 16:9; a pure ratio.
    pub across: f64,
    /// And down.
    pub down: f64,
    /// The screen.
    pub screen: Screen,
}

/// Width and height of a screen from its diagonal and aspect ratio.
///
/// # Errors
/// [`Why::OutOfRange`] for what no screen has.
///
/// ```
/// use arcminute_core::{device::screen_of_diagonal, unit::Length};
/// // 7 inches, 16:9: 155.0 by 87.2 mm (computed).
/// let screen = screen_of_diagonal(Length::from_inches(7.0), 16.0, 9.0)?.screen;
/// assert!((screen.width.mm() - 155.0).abs() < 0.05 && (screen.height.mm() - 87.2).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn screen_of_diagonal(diagonal: Length, across: f64, down: f64) -> Result<ScreenOfDiagonal, Error> {
    bounds::SCREEN_DIAGONAL.check(diagonal.inches())?;
    bounds::ASPECT_PART.check(across)?;
    bounds::ASPECT_PART.check(down)?;
    let part = diagonal / math::hypot(across, down);
    let screen = Screen { width: part * across, height: part * down };
    Ok(ScreenOfDiagonal { diagonal, across, down, screen })
}

/// A screen that shows print larger.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScreenAid {
    /// The screen.
    pub screen: Screen,
    /// Size on the screen over size of the thing; of text on a screen, its zoom. A pure ratio.
    pub enlargement: f64,
    /// Print to the camera: room for the hand; `None` where the text is on the screen itself.
    pub camera_to_print: Option<Length>,
}

/// A screen in use.
#[derive(Clone, Debug, PartialEq)]
pub struct ScreenInUse {
    /// The screen and what it shows.
    pub aid: ScreenAid,
    /// Screen to the eye's entrance pupil.
    pub screen_to_eye: Length,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Power that stands in the spectacle plane.
    pub worn: Vergence,
    /// Distance at which the bare thing would look as large, to the eye's entrance pupil.
    pub equivalent_viewing_distance: Length,
    /// Its reciprocal.
    pub equivalent_viewing_power: Vergence,
    /// Demand at the eye's entrance pupil.
    pub focus_demand: Vergence,
    /// Width of the thing that the screen shows at once.
    pub field_width: Length,
    /// Height of the thing that the screen shows at once.
    pub field_height: Length,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// A screen that shows print `enlargement` times as large, looked at from `screen_to_eye` through what the eye wears.
///
/// `EVD = d/ER`, field `W/ER`. Source: Bailey 2004; what the glasses add or take is paraxial.
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible enlargement or screen; [`Why::NoSolution`] when the screen would have to be
/// behind the glasses.
///
/// ```
/// use arcminute_core::device::{Eye, Screen, ScreenAid, watch_screen};
/// use arcminute_core::unit::{Length, LogMar};
/// let mm = Length::from_mm;
/// let aid = ScreenAid {
///     screen: Screen { width: mm(480.0), height: mm(270.0) },
///     enlargement: 10.0,
///     camera_to_print: Some(mm(200.0)),
/// };
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// // Bailey: 10 times on a screen 100 cm away is like 10 cm.
/// let used = watch_screen(aid, &eye, Length::from_m(1.0))?;
/// assert!((used.equivalent_viewing_distance.cm() - 10.0).abs() < 1e-9);
/// assert!((used.field_width.mm() - 48.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn watch_screen(aid: ScreenAid, eye: &Eye, screen_to_eye: Length) -> Result<ScreenInUse, Error> {
    bounds::ENLARGEMENT.check(aid.enlargement)?;
    shown(aid, eye, screen_to_eye)
}

/// What `larger` makes of a thing, whatever the enlargement is; of a far thing it is much below one.
fn shown(aid: ScreenAid, eye: &Eye, screen_to_eye: Length) -> Result<ScreenInUse, Error> {
    bounds::SCREEN_SIDE.check(aid.screen.width.mm())?;
    bounds::SCREEN_SIDE.check(aid.screen.height.mm())?;
    let worn = eye.worn_power();
    let train =
        Train::new([Element::Lens { power: worn, clear_diameter: None }]).to_eye(eye.spectacle_to_eye);
    let field_width = aid.screen.width / aid.enlargement;
    let arrangement = Arrangement {
        shown_larger: aid.enlargement,
        hand_room: aid.camera_to_print,
        window: Some(field_width),
        ..Arrangement::of(train, Sight::At(before_glasses(eye, screen_to_eye)?))
    };
    let equivalent_viewing_distance = arrangement.equivalent_viewing_distance().unwrap_or(screen_to_eye);
    Ok(ScreenInUse {
        aid,
        screen_to_eye,
        spectacle_to_eye: eye.spectacle_to_eye,
        worn,
        equivalent_viewing_distance,
        equivalent_viewing_power: Vergence::of_focal_length(equivalent_viewing_distance),
        focus_demand: arrangement.view().focus_demand,
        field_width,
        field_height: aid.screen.height / aid.enlargement,
        arrangement,
    })
}

/// From a screen so far from the eye to the glasses.
fn before_glasses(eye: &Eye, screen_to_eye: Length) -> Result<Length, Error> {
    bounds::SCREEN_TO_EYE.check(screen_to_eye.mm())?;
    let left = screen_to_eye - eye.spectacle_to_eye;
    if Length::ZERO < left {
        return Ok(left);
    }
    let why = Why::NoSolution { because: "the screen would have to be behind the glasses" };
    Err(Error::about("screen to eye", format_args!("{} mm", screen_to_eye.mm()), why))
}

/// Enlargement that a screen so far from the eye needs for an equivalent viewing distance; a pure ratio.
///
/// The inverse of [`watch_screen`], through the same glasses: half the distance halves what is needed. Source: Bailey
/// 2004.
///
/// # Errors
/// [`Why::OutOfRange`] for an enlargement that is not possible; [`Why::NoSolution`] when the screen would have to be
/// behind the glasses.
///
/// ```
/// use arcminute_core::device::{Eye, enlargement_for};
/// use arcminute_core::unit::{Length, LogMar};
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// // 5 cm wanted: 20 times at 1 m, 5 times at 25 cm (Bailey: 5x from 25 cm is 5 cm).
/// let needed = |cm| enlargement_for(&eye, Length::from_cm(cm), Length::from_cm(5.0));
/// assert!((needed(100.0)? - 20.0).abs() < 1e-9 && (needed(25.0)? - 5.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn enlargement_for(
    eye: &Eye,
    screen_to_eye: Length,
    equivalent_viewing_distance: Length,
) -> Result<f64, Error> {
    let train = Train::new([Element::Lens { power: eye.worn_power(), clear_diameter: None }])
        .to_eye(eye.spectacle_to_eye);
    let screen = Arrangement::of(train, Sight::At(before_glasses(eye, screen_to_eye)?));
    let alone = screen.equivalent_viewing_distance().unwrap_or(screen_to_eye);
    bounds::ENLARGEMENT.check(alone / equivalent_viewing_distance)
}

#[cfg(feature = "alloc")]
impl Explain for ScreenOfDiagonal {
    fn steps(&self) -> Vec<Step> {
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let diagonal = mm("D", self.diagonal);
        let (across, down) =
            (Named::new("across", self.across, Unit::Plain), Named::new("down", self.down, Unit::Plain));
        alloc::vec![
            Step::formula(&formula::SCREEN_WIDTH, mm("W", self.screen.width), [diagonal, across, down]),
            Step::formula(&formula::SCREEN_HEIGHT, mm("H", self.screen.height), [diagonal, across, down]),
        ]
    }
}

#[cfg(feature = "alloc")]
impl Explain for ScreenInUse {
    fn steps(&self) -> Vec<Step> {
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let (d, v) = (mm("d", self.screen_to_eye), mm("v", self.spectacle_to_eye));
        let (f_w, a) = (dioptre("F_w", self.worn), dioptre("A", self.focus_demand));
        let er = Named::new("ER", self.aid.enlargement, Unit::Times);
        let evd = mm("EVD", self.equivalent_viewing_distance);
        let (w, h) = (mm("W", self.aid.screen.width), mm("H", self.aid.screen.height));
        alloc::vec![
            Step::formula(&formula::SCREEN_EVD, evd, [d, v, f_w, er]),
            Step::formula(&formula::EVP_OF_EVD, dioptre("EVP", self.equivalent_viewing_power), [evd]),
            Step::formula(&formula::DEMAND_NEARER, a, [d, v, f_w]),
            Step::formula(&formula::SCREEN_FIELD_WIDTH, mm("w", self.field_width), [w, er]),
            Step::formula(&formula::SCREEN_FIELD_HEIGHT, mm("h", self.field_height), [h, er]),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::Worn;
    use crate::unit::LogMar;
    use alloc::format;

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn eye(worn: Worn) -> Eye {
        Eye {
            sphere: Vergence::from_dioptres(-3.0),
            worn,
            ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
        }
    }
    fn aid(enlargement: f64) -> ScreenAid {
        let screen = Screen { width: mm(480.0), height: mm(270.0) };
        ScreenAid { screen, enlargement, camera_to_print: Some(mm(120.0)) }
    }
    fn message<T: core::fmt::Debug>(result: Result<T, Error>) -> alloc::string::String {
        let error = result.expect_err("refused");
        format!("{error}; {}", error.hint())
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for worn in [Worn::Nothing, Worn::Distance, Worn::Near { add: Vergence::from_dioptres(4.0) }] {
            for distance in [40.0, 250.0, 1000.0] {
                let used = watch_screen(aid(7.5), &eye(worn), mm(distance))?;
                assert_eq!(used.steps().len(), 5);
                for step in used.steps() {
                    assert_eq!(step.check(), Ok(()), "{worn:?} {distance} mm");
                }
            }
        }
        let screen = screen_of_diagonal(Length::from_inches(10.0), 4.0, 3.0)?;
        assert_eq!(screen.steps().len(), 2);
        for step in screen.steps() {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    #[test]
    fn what_the_screen_shows_limits_the_field() -> Result<(), Error> {
        let used = watch_screen(aid(8.0), &eye(Worn::Distance), mm(400.0))?;
        assert_eq!(used.arrangement.window, Some(mm(60.0)), "480 mm over 8");
        assert!((used.field_height.mm() - 33.75).abs() < 1e-9, "270 mm over 8");
        assert_eq!(used.arrangement.hand_room, Some(mm(120.0)), "under the camera");
        assert!((used.arrangement.transmittance - 1.0).abs() < 1e-15, "it shines by itself");
        assert!((used.arrangement.shown_larger - 8.0).abs() < 1e-15, "the enlargement");
        Ok(())
    }

    #[test]
    fn an_addition_only_keeps_it_in_focus() -> Result<(), Error> {
        let add = Worn::Near { add: Vergence::from_dioptres(2.5) };
        let corrected = Eye { sphere: Vergence::ZERO, ..eye(add) };
        // In the focus of the addition: 40 cm before the glasses, 15 mm before the eye.
        let used = watch_screen(aid(8.0), &corrected, mm(415.0))?;
        assert!((used.equivalent_viewing_power.dioptres() - 20.0).abs() < 1e-9, "8 times 2.5 D: {used:?}");
        assert!(used.focus_demand.dioptres().abs() < 1e-9, "nothing to focus: {used:?}");
        let nearer = watch_screen(aid(8.0), &corrected, mm(215.0))?;
        assert!(38.0 < nearer.equivalent_viewing_power.dioptres(), "8 at 20 cm, not 8 times 2.5: {nearer:?}");
        Ok(())
    }

    #[test]
    fn what_is_no_screen_is_refused() {
        let watch = |enlargement, width, height, distance| {
            let screen = Screen { width: mm(width), height: mm(height) };
            let aid = ScreenAid { screen, enlargement, camera_to_print: None };
            message(watch_screen(aid, &eye(Worn::Distance), mm(distance)))
        };
        assert_eq!(
            watch(0.0, 480.0, 270.0, 400.0),
            "enlargement `0 times` is not possible; use 0.05 to 200 times"
        );
        let side = "screen side `0 mm` is not possible; use 2 to 5000 mm";
        assert_eq!(watch(8.0, 0.0, 270.0, 400.0), side);
        assert_eq!(watch(8.0, 480.0, 0.0, 400.0), side);
        assert_eq!(
            watch(8.0, 480.0, 270.0, 15.0),
            "screen to eye `15 mm` has no solution: the screen would have to be behind the glasses; \
             change one of the values it depends on"
        );
        assert_eq!(
            watch(8.0, 480.0, 270.0, f64::NAN),
            "screen to eye `NaN mm` is not possible; use 10 to 20000 mm"
        );
        let diagonal =
            |inches, across, down| message(screen_of_diagonal(Length::from_inches(inches), across, down));
        assert_eq!(
            diagonal(0.0, 16.0, 9.0),
            "screen diagonal `0 inches` is not possible; use 0.2 to 200 inches"
        );
        let part = "part of the aspect ratio `0` is not possible; use 0.1 to 100";
        assert_eq!((diagonal(7.0, 0.0, 9.0).as_str(), diagonal(7.0, 16.0, 0.0).as_str()), (part, part));
        let needed =
            |distance, wanted| message(enlargement_for(&eye(Worn::Nothing), mm(distance), mm(wanted)));
        assert_eq!(needed(400.0, 0.0), "enlargement `inf times` is not possible; use 0.05 to 200 times");
        assert!(
            needed(10.0, 50.0).starts_with("screen to eye `10 mm` has no solution"),
            "behind the glasses"
        );
    }
}
