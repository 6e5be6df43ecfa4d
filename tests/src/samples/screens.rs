//! Samples: screens, cameras and head-mounted displays.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::device::{
    DistanceCamera, Eye, HeadMountedDisplay, Screen, ScreenAid, camera_sampling, latency_slip, pixel_limit,
    screen_of_diagonal, watch_far, watch_screen, wear_display, zoom_needed,
};
use arcminute_core::print::{css_pixel, size_of_pixels, typeface};
use arcminute_core::unit::{Angle, AngularSpeed, Duration, Length, LogMar, Magnification, PrintSize};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let (mm, degrees) = (Length::from_mm, Angle::from_degrees);
    let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    let forty = Length::from_cm(40.0);
    to.add(&screen_of_diagonal(Length::from_inches(22.0), 16.0, 9.0)?);
    let screen = Screen { width: mm(480.0), height: mm(270.0) };
    let aid = ScreenAid { screen, enlargement: 10.0, camera_to_print: Some(mm(200.0)) };
    to.add(&watch_screen(aid, &eye, forty)?);
    let camera = DistanceCamera { screen, camera_field: degrees(10.0) };
    to.add(&watch_far(camera, &eye, forty, Length::from_m(6.0))?);
    to.add(&pixel_limit(Angle::from_arcmin(5.0), forty)?);
    let one_m = PrintSize::from_m_units(1.0);
    to.add(&camera_sampling(one_m, mm(0.1), Angle::from_arcmin(5.0), forty)?);
    let text = size_of_pixels(16.0, css_pixel(), typeface::TIMES.ratio)?;
    to.add(&zoom_needed(text.size, PrintSize::from_m_units(8.0))?);
    let far = HeadMountedDisplay {
        display_field: degrees(40.0),
        camera_field: degrees(10.0),
        image_distance: None,
        display_pixels: 1280.0,
        camera_pixels: 1280.0,
    };
    to.add(&wear_display(far, &eye, forty)?);
    to.add(&wear_display(HeadMountedDisplay { image_distance: Some(mm(1000.0)), ..far }, &eye, forty)?);
    to.add(&far.pixels(Angle::from_arcmin(10.0))?);
    let speed = AngularSpeed::from_degrees_per_second(20.0);
    to.add(&latency_slip(Magnification::from_times(4.0), speed, Duration::from_milliseconds(50.0))?);
    Ok(())
}
