//! Examples of displays before the eyes, and their messages.

use super::*;
use crate::device::{Detail, Worn, look};
use crate::unit::LogMar;
use alloc::format;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}
fn display(field: f64, camera: f64, image: Option<f64>) -> HeadMountedDisplay {
    HeadMountedDisplay {
        display_field: Angle::from_degrees(field),
        camera_field: Angle::from_degrees(camera),
        image_distance: image.map(mm),
        display_pixels: 1280.0,
        camera_pixels: 640.0,
    }
}
fn eye(worn: Worn) -> Eye {
    Eye {
        sphere: Vergence::from_dioptres(-3.0),
        worn,
        ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
}
fn message<T: core::fmt::Debug>(result: Result<T, Error>) -> alloc::string::String {
    let error = result.expect_err("refused");
    format!("{error}; {}", error.hint())
}

#[test]
fn working_agrees() -> Result<(), Error> {
    for worn in [Worn::Nothing, Worn::Distance] {
        for image in [None, Some(500.0), Some(2000.0)] {
            for camera in [8.0, 80.0] {
                let used = wear_display(display(40.0, camera, image), &eye(worn), mm(700.0))?;
                assert_eq!(used.steps().len(), 4);
                for step in used.steps() {
                    assert_eq!(step.check(), Ok(()), "{worn:?} {image:?} {camera} degrees");
                }
            }
        }
    }
    let pixels = display(40.0, 10.0, None).pixels(Angle::from_arcmin(5.0))?;
    let late = latency_slip(
        Magnification::from_times(-3.0),
        AngularSpeed::from_degrees_per_second(45.0),
        Duration::from_milliseconds(33.0),
    )?;
    for step in pixels.steps().into_iter().chain(late.steps()) {
        assert_eq!(step.check(), Ok(()));
    }
    Ok(())
}

#[test]
fn a_near_and_a_far_image_are_looked_at_alike() -> Result<(), Error> {
    let corrected = Eye { sphere: Vergence::ZERO, ..eye(Worn::Distance) };
    for image in [None, Some(500.0)] {
        let used = wear_display(display(40.0, 10.0, image), &corrected, mm(400.0))?;
        assert!((used.equivalent_viewing_distance.mm() - 100.0).abs() < 1e-9, "{image:?}: {used:?}");
        let demand = image.map_or(0.0, |mm| 1000.0 / mm);
        assert!((used.focus_demand.dioptres() - demand).abs() < 1e-9, "{image:?}: {used:?}");
        let print = Detail { height: mm(1.45), distance: Some(mm(400.0)), reserve: 1.0 };
        let seen = look(&used.arrangement, &corrected, print)?;
        assert!((seen.angular.times() - 4.0).abs() < 1e-9, "{image:?}: {:?}", seen.angular);
        // 2·400·tan 5°.
        let width = seen.widths.expect("the display ends").half.mm();
        assert!((width - 69.990_930_8).abs() < 1e-6, "{image:?}: {width}");
        assert!((used.field_width.mm() - width).abs() < 1e-9, "{image:?}: {used:?}");
    }
    Ok(())
}

#[test]
fn pixels_suffice_when_both_do() -> Result<(), Error> {
    // Display 32 to a degree, camera 64 to a degree, 4 times: good to 60·4/64 = 3.75 arcmin, display to 1.875.
    let display = display(40.0, 10.0, None);
    for (mar, suffice) in [(3.74, false), (3.75, true), (10.0, true)] {
        assert_eq!(display.pixels(Angle::from_arcmin(mar))?.suffice(), suffice, "{mar} arcmin, camera");
    }
    let fine_camera = HeadMountedDisplay { camera_pixels: 6400.0, ..display };
    for (mar, suffice) in [(1.87, false), (1.875, true)] {
        assert_eq!(fine_camera.pixels(Angle::from_arcmin(mar))?.suffice(), suffice, "{mar} arcmin, display");
    }
    let pixels = display.pixels(Angle::from_arcmin(5.0))?;
    assert!((pixels.display_per_degree - 32.0).abs() < 1e-12, "{pixels:?}");
    assert!((pixels.camera_per_degree - 64.0).abs() < 1e-12, "{pixels:?}");
    Ok(())
}

#[test]
fn what_is_published_is_in_order() {
    assert_eq!(LATENCIES_PUBLISHED.len(), 4);
    for latency in LATENCIES_PUBLISHED {
        assert!(latency.from_ms <= latency.to_ms && !latency.what.is_empty(), "{latency:?}");
    }
    assert!(LATENCY_LIMIT.starts_with("no low-vision threshold"), "none is known");
}

#[test]
fn what_is_no_display_is_refused() {
    let worn = |display, distance: f64| message(wear_display(display, &eye(Worn::Distance), mm(distance)));
    assert_eq!(
        worn(display(0.0, 10.0, None), 400.0),
        "display field `0 degrees` is not possible; use 1 to 170 degrees"
    );
    assert_eq!(
        worn(display(40.0, 0.0, None), 400.0),
        "camera field `0 degrees` is not possible; use 0.1 to 170 degrees"
    );
    assert_eq!(
        worn(display(40.0, 10.0, None), 0.0),
        "distance of the thing `0 m` is not possible; use 0.02 to 1000 m"
    );
    assert_eq!(
        worn(display(40.0, 10.0, Some(15.0)), 400.0),
        "image of the display `15 mm` has no solution: the image would have to be behind the glasses; \
         change one of the values it depends on"
    );
    assert!(
        worn(display(40.0, 10.0, Some(f64::INFINITY)), 400.0).starts_with("image of the display `inf mm`")
    );
    let pixels = |display: HeadMountedDisplay, mar| message(display.pixels(Angle::from_arcmin(mar)));
    let good = display(40.0, 10.0, None);
    let across = "pixels across `0` is not possible; use 1 to 100000";
    assert_eq!(pixels(HeadMountedDisplay { display_pixels: 0.0, ..good }, 5.0), across);
    assert_eq!(pixels(HeadMountedDisplay { camera_pixels: 0.0, ..good }, 5.0), across);
    assert!(pixels(good, 0.0).starts_with("logMAR `-inf` is not possible"));
    assert!(pixels(display(0.0, 10.0, None), 5.0).starts_with("display field `0 degrees`"));
    assert!(pixels(display(40.0, 0.0, None), 5.0).starts_with("camera field `0 degrees`"));
    let late = |speed, latency| {
        let speed = AngularSpeed::from_degrees_per_second(speed);
        message(latency_slip(Magnification::from_times(4.0), speed, Duration::from_milliseconds(latency)))
    };
    assert_eq!(late(-1.0, 50.0), "speed of the head `-1 degrees/s` is not possible; use 0 to 2000 degrees/s");
    assert_eq!(late(20.0, f64::NAN), "latency `NaN ms` is not possible; use 0 to 5000 ms");
}
