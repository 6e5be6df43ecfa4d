//! A camera that looks far away and shows it on a screen.

use super::{Screen, ScreenAid, ScreenInUse, shown};
use crate::bounds;
use crate::device::Eye;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, Length, Magnification};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A camera for far things, and its screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DistanceCamera {
    /// The screen.
    pub screen: Screen,
    /// What the camera takes in across the width of the screen as it is zoomed, full angle.
    pub camera_field: Angle,
}

/// A camera for far things in use.
#[derive(Clone, Debug, PartialEq)]
pub struct DistanceCameraInUse {
    /// The camera.
    pub camera: DistanceCamera,
    /// Thing to the camera, and to the eye's entrance pupil.
    pub distance: Length,
    /// Width of the thing's plane that the camera takes in.
    pub field_at_thing: Length,
    /// The screen, with the small enlargement that it has against a far thing.
    pub screen: ScreenInUse,
    /// Angle on the screen over that at which the bare eye sees the thing.
    pub angular: Magnification,
}

/// A far thing on a screen: `ER = W/(2·x·tan(a/2))`, and against the bare eye in the same place `x/EVD`.
///
/// Camera and eye are taken to be equally far from the thing. Source: geometry.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible camera, screen or distance; [`crate::Why::NoSolution`] when the screen
/// would have to be behind the glasses.
///
/// ```
/// use arcminute_core::device::{DistanceCamera, Eye, Screen, watch_far};
/// use arcminute_core::unit::{Angle, Length, LogMar};
/// let screen = Screen { width: Length::from_mm(300.0), height: Length::from_mm(170.0) };
/// let camera = DistanceCamera { screen, camera_field: Angle::from_degrees(10.0) };
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// // 10 degrees across 300 mm, 40 cm away: (0.3/0.4)/(2·tan 5°) = 4.29 times, at any distance (computed).
/// let board = watch_far(camera, &eye, Length::from_cm(40.0), Length::from_m(6.0))?;
/// assert!((board.angular.times() - 4.29).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn watch_far(
    camera: DistanceCamera,
    eye: &Eye,
    screen_to_eye: Length,
    distance: Length,
) -> Result<DistanceCameraInUse, Error> {
    bounds::CAMERA_FIELD.check(camera.camera_field.degrees())?;
    bounds::TASK_DISTANCE.check(distance.m())?;
    let field_at_thing = distance * (2.0 * (camera.camera_field / 2.0).tangent());
    let enlargement = camera.screen.width / field_at_thing;
    let aid = ScreenAid { screen: camera.screen, enlargement, camera_to_print: None };
    let screen = shown(aid, eye, screen_to_eye)?;
    let angular = Magnification::from_times(distance / screen.equivalent_viewing_distance);
    Ok(DistanceCameraInUse { camera, distance, field_at_thing, screen, angular })
}

#[cfg(feature = "alloc")]
impl Explain for DistanceCameraInUse {
    fn steps(&self) -> Vec<Step> {
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let x = Named::new("x", self.distance.m(), Unit::Metre);
        let a = Named::new("a_c", self.camera.camera_field.degrees(), Unit::Degree);
        let width = mm("w_x", self.field_at_thing);
        let er = Named::new("ER", self.screen.aid.enlargement, Unit::Times);
        let evd = mm("EVD", self.screen.equivalent_viewing_distance);
        let gain = Named::new("M", self.angular.times(), Unit::Times);
        let mut steps = alloc::vec![
            Step::formula(&formula::CAMERA_FIELD_WIDTH, width, [x, a]),
            Step::formula(&formula::CAMERA_ENLARGEMENT, er, [mm("W", self.camera.screen.width), width]),
        ];
        steps.extend(self.screen.steps());
        steps.push(Step::formula(&formula::GAIN_IN_PLACE, gain, [mm("d", self.distance), evd]));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::{Detail, look};
    use crate::unit::LogMar;
    use alloc::format;

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn far(field: f64, screen_to_eye: f64, distance: f64) -> Result<DistanceCameraInUse, Error> {
        let screen = Screen { width: mm(300.0), height: mm(170.0) };
        let camera = DistanceCamera { screen, camera_field: Angle::from_degrees(field) };
        let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
        watch_far(camera, &eye, mm(screen_to_eye), Length::from_m(distance))
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for field in [3.0, 40.0] {
            for distance in [2.0, 20.0] {
                let used = far(field, 400.0, distance)?;
                assert_eq!(used.steps().len(), 8);
                for step in used.steps() {
                    assert_eq!(step.check(), Ok(()), "{field} degrees, {distance} m");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn a_look_at_the_screen_agrees() -> Result<(), Error> {
        let used = far(10.0, 400.0, 6.0)?;
        let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
        let letter = Detail { height: mm(40.0), distance: Some(Length::from_m(6.0)), reserve: 1.0 };
        let seen = look(&used.screen.arrangement, &eye, letter)?;
        assert!(
            (seen.angular / used.angular - 1.0).abs() < 1e-12,
            "{:?} and {:?}",
            seen.angular,
            used.angular
        );
        let widths = seen.widths.expect("the screen ends");
        assert!((widths.half / used.field_at_thing - 1.0).abs() < 1e-12, "{widths:?}");
        assert_eq!(used.screen.arrangement.hand_room, None, "nothing is in the way of the hand");
        Ok(())
    }

    #[test]
    fn what_is_no_camera_is_refused() {
        for (result, refused) in [
            (far(0.0, 400.0, 6.0), "camera field `0 degrees` is not possible; use 0.1 to 170 degrees"),
            (far(10.0, 400.0, 0.0), "distance `0 m` is not possible; use 0.1 to 1000 m"),
            (far(10.0, 0.0, 6.0), "screen to eye `0 mm` is not possible; use 10 to 20000 mm"),
        ] {
            let error = result.expect_err(refused);
            assert_eq!(format!("{error}; {}", error.hint()), refused);
        }
    }
}
