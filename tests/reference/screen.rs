//! Screens, cameras, text on screens, displays before the eyes.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::device::{
    Detail, Eye, HeadMountedDisplay, SAMPLES_FOR_LARGE_LETTERS, SAMPLES_FOR_SMALL_LETTERS, Screen, ScreenAid,
    ScreenInUse, Worn, camera_sampling, css_reference_pixel, latency_slip, look, pixel_limit,
    screen_of_diagonal, watch_screen, wear_display, zoom_needed,
};
use arcminute_core::print::{TypeSize, css_pixel, size_of_pixels, typeface};
use arcminute_core::unit::{
    Angle, AngularSpeed, Duration, Length, LogMar, Magnification, PrintSize, Vergence,
};

fn cm(value: f64) -> Length {
    Length::from_cm(value)
}
/// With nothing worn.
fn eye() -> Eye {
    Eye { worn: Worn::Nothing, ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)) }
}
/// A screen 480 mm wide.
fn seen_from(distance: Length, enlargement: f64) -> Result<ScreenInUse, Error> {
    let screen = Screen { width: Length::from_mm(480.0), height: Length::from_mm(300.0) };
    watch_screen(ScreenAid { screen, enlargement, camera_to_print: None }, &eye(), distance)
}
/// 16 pixels of Times on a screen with 96 pixels to the inch.
fn sixteen_pixels(zoom: f64) -> Result<TypeSize, Error> {
    size_of_pixels(16.0, css_pixel() * zoom, typeface::TIMES.ratio)
}

/// Source: Bailey 2004 (case 4 of the reference table): 10x from 100 and 25 cm, 5x from 25 cm.
#[test]
fn near_case_04_a_screen_from_two_distances() -> Result<(), Error> {
    for (enlargement, distance, evd) in
        [(10.0, 100.0, "100.0"), (10.0, 25.0, "25.0"), (5.0, 25.0, "50.0"), (10.0, 40.0, "40.0")]
    {
        rounds_to(seen_from(cm(distance), enlargement)?.equivalent_viewing_distance.mm(), evd);
    }
    Ok(())
}

/// Source: geometry, computed: 480 mm wide, 10 times: 48 mm of the page, 37 characters of 1 M.
#[test]
fn field_of_a_screen() -> Result<(), Error> {
    let used = seen_from(cm(40.0), 10.0)?;
    rounds_to(used.field_width.mm(), "48.0");
    let print = Detail { height: PrintSize::from_m_units(1.0).x_height(), distance: None, reserve: 1.0 };
    let seen = look(&used.arrangement, &eye(), print)?;
    rounds_to(seen.widths.expect("the screen ends").half.mm(), "48.0");
    rounds_to(seen.characters.expect("the screen ends"), "36.9");
    Ok(())
}

/// Source: geometry, computed: screens by diagonal and aspect ratio.
#[test]
fn sizes_of_screens() -> Result<(), Error> {
    for (inches, across, down, width, height) in [
        (7.0, 16.0, 9.0, "155.0", "87.2"),
        (5.0, 16.0, 9.0, "110.7", "62.3"),
        (10.0, 4.0, 3.0, "203.2", "152.4"),
        (22.0, 16.0, 9.0, "487", "274"),
        (24.0, 16.0, 9.0, "531", "299"),
    ] {
        let sized = screen_of_diagonal(Length::from_inches(inches), across, down)?;
        rounds_to(sized.screen.width.mm(), width);
        rounds_to(sized.screen.height.mm(), height);
    }
    Ok(())
}

/// Source: teaching notes that write the power as magnification times addition; computed: right in its focus alone.
#[test]
fn an_addition_keeps_the_screen_in_focus() -> Result<(), Error> {
    let add = Worn::Near { add: Vergence::from_dioptres(2.5) };
    let person = Eye { worn: add, spectacle_to_eye: Length::ZERO, ..eye() };
    let screen = Screen { width: Length::from_mm(480.0), height: Length::from_mm(300.0) };
    let aid = ScreenAid { screen, enlargement: 8.0, camera_to_print: None };
    for (distance, power) in [(40.0, "20.0"), (20.0, "40.0"), (80.0, "10.0")] {
        // Against the eye in the plane of the addition: 8/d, whatever is worn.
        rounds_to(watch_screen(aid, &person, cm(distance))?.equivalent_viewing_power.dioptres(), power);
    }
    Ok(())
}

/// Source: geometry, computed: pixels to the inch that subtend 1 arcmin, and 5 arcmin at 25 cm.
#[test]
fn pixels_that_are_not_seen_singly() -> Result<(), Error> {
    for (mar, distance, per_inch) in [
        (1.0, 25.0, "349"),
        (1.0, 30.0, "291"),
        (1.0, 40.0, "218"),
        (1.0, 60.0, "146"),
        (1.0, 100.0, "87"),
        (5.0, 25.0, "70"),
    ] {
        rounds_to(pixel_limit(Angle::from_arcmin(mar), cm(distance))?.per_inch, per_inch);
    }
    Ok(())
}

/// Source: Legge et al. 1985 (abstract) for the samples needed; computed for a camera of 0.1 mm on the print.
#[test]
fn samples_of_a_camera() -> Result<(), Error> {
    rounds_to(SAMPLES_FOR_SMALL_LETTERS, "4");
    rounds_to(SAMPLES_FOR_LARGE_LETTERS, "20");
    let (print, pixel) = (PrintSize::from_m_units(1.0), Length::from_mm(0.1));
    let sampling = camera_sampling(print, pixel, Angle::from_arcmin(10.0), cm(40.0))?;
    rounds_to(sampling.samples_per_character, "13.0");
    // 400 mm · tan 10′ = 1.164 mm on the screen.
    rounds_to(sampling.largest_useful, "11.64");
    Ok(())
}

/// Source: W3C, CSS Values (reference pixel); x-height as style sheets give it; computed (case 17 of the reference table).
#[test]
fn near_case_17_sixteen_pixels_as_print() -> Result<(), Error> {
    rounds_to(css_reference_pixel().degrees(), "0.0213");
    rounds_to(sixteen_pixels(1.0)?.size.m_units(), "1.310");
    let doubled = sixteen_pixels(2.0)?;
    rounds_to(doubled.size.m_units(), "2.620");
    rounds_to(Angle::subtended(doubled.height / 5.0, cm(60.0)).arcmin(), "4.366");
    Ok(())
}

/// Source: computed: 10 arcmin with a reserve of 2 from 50 cm need 10 M, a zoom of 7.6.
#[test]
fn a_zoom_that_asks_for_a_nearer_screen() -> Result<(), Error> {
    let text = sixteen_pixels(1.0)?;
    let zoom = zoom_needed(text.size, PrintSize::from_m_units(10.0 * 2.0 * 0.5))?.zoom;
    rounds_to(zoom, "7.6");
    // The text at 100 % is the thing, its zoom the enlargement: what the eye sees is twice its least detail.
    let used = seen_from(cm(50.0), zoom)?;
    let detail = Detail { height: text.height, distance: None, reserve: 2.0 };
    let person = Eye { accommodation: Vergence::from_dioptres(4.0), ..eye() };
    rounds_to(look(&used.arrangement, &person, detail)?.reserve_reached, "2.00");
    Ok(())
}

/// Source: geometry, computed; head-mounted displays as reviewed by Ehrlich et al. 2017.
#[test]
fn a_display_before_the_eyes() -> Result<(), Error> {
    let display = HeadMountedDisplay {
        display_field: Angle::from_degrees(40.0),
        camera_field: Angle::from_degrees(10.0),
        image_distance: None,
        display_pixels: 1280.0,
        camera_pixels: 1280.0,
    };
    let worn = wear_display(display, &eye(), cm(40.0))?;
    rounds_to(worn.magnification.times(), "4.00");
    rounds_to(worn.equivalent_viewing_distance.mm(), "100.0");
    let pixels = display.pixels(Angle::from_arcmin(5.0))?;
    rounds_to(pixels.display_needed, "12.0");
    rounds_to(pixels.camera_needed, "48.0");
    assert!(pixels.suffice(), "32 and 128 to a degree");
    Ok(())
}

/// Source: computed: 20 degrees a second, 50 ms, 4 times and once.
#[test]
fn a_late_picture() -> Result<(), Error> {
    for (times, slip) in [(4.0, "4.0"), (1.0, "1.0")] {
        let late = latency_slip(
            Magnification::from_times(times),
            AngularSpeed::from_degrees_per_second(20.0),
            Duration::from_milliseconds(50.0),
        )?;
        rounds_to(late.slip.degrees(), slip);
    }
    Ok(())
}
