//! Screens, cameras and displays before the eyes: engine against `EVD = d/ER` and what follows.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::device::{
    Detail, DistanceCamera, Eye, HeadMountedDisplay, Screen, ScreenAid, Worn, camera_sampling,
    enlargement_for, latency_slip, look, pixel_limit, pixel_pitch, screen_of_diagonal, watch_far,
    watch_screen, wear_display, zoom_needed,
};
use arcminute_core::math::{PI, tan};
use arcminute_core::print::size_of_pixels;
use arcminute_core::unit::{
    Angle, AngularSpeed, Duration, Length, LogMar, Magnification, PrintSize, Vergence,
};
use proptest::prelude::*;

fn metres(value: f64) -> Length {
    Length::from_m(value)
}

fn eye(sphere: f64, worn: Worn, to_eye: f64) -> Eye {
    Eye {
        sphere: Vergence::from_dioptres(sphere),
        worn,
        spectacle_to_eye: metres(to_eye),
        ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
}

/// Width and height in metres, and an enlargement.
fn aids() -> impl Strategy<Value = (f64, f64, f64)> {
    (0.05..1.5, 0.04..0.9, 0.5..80.0)
}

fn aid((width, height, enlargement): (f64, f64, f64)) -> ScreenAid {
    let screen = Screen { width: metres(width), height: metres(height) };
    ScreenAid { screen, enlargement, camera_to_print: None }
}

fn tan_of_degrees(degrees: f64) -> f64 {
    tan(degrees * PI / 180.0)
}

fn turn(degrees: f64) -> Angle {
    Angle::from_degrees(degrees)
}

/// `EVD = d/ER`, `EVP = ER/d`, `A = 1/d`, field `W/ER`, characters `W/(ER·1.30·M)`.
#[test]
fn a_screen_before_a_bare_eye() {
    holds((aids(), 0.03..3.0, 0.5..8.0), |(parts, d, print)| {
        let (width, height, enlargement) = parts;
        let person = eye(0.0, Worn::Nothing, 0.0);
        let used = watch_screen(aid(parts), &person, metres(d)).expect("before the eye");
        agree("EVD", used.equivalent_viewing_distance.m(), d / enlargement)?;
        agree("EVP", used.equivalent_viewing_power.dioptres(), enlargement * (1.0 / d))?;
        agree("demand", used.focus_demand.dioptres(), 1.0 / d)?;
        agree("width", used.field_width.m(), width / enlargement)?;
        agree("height", used.field_height.m(), height / enlargement)?;
        let size = PrintSize::from_m_units(print);
        let detail = Detail { height: size.x_height(), distance: None, reserve: 1.0 };
        let seen = look(&used.arrangement, &person, detail).expect("an image to view");
        agree(
            "characters",
            seen.characters.expect("it ends"),
            width * 1000.0 / (enlargement * 1.30 * print),
        )?;
        // Once the screen is nearer, all is larger and no less is shown.
        let nearer = watch_screen(aid(parts), &person, metres(d * 0.9)).expect("before the eye");
        prop_assert!(
            nearer.equivalent_viewing_distance < used.equivalent_viewing_distance,
            "nearer is larger"
        );
        agree("the same field", nearer.field_width.m(), used.field_width.m())?;
        shows_its_working(&used)
    });
}

/// Behind glasses: the screen is a thing before them; the enlargement found for a distance gives that distance.
#[test]
fn a_screen_before_glasses() {
    let inputs = (aids(), 0.05..3.0, 0.0..0.03, -12.0..12.0, 0.0..6.0, any::<bool>());
    holds(inputs, |(parts, d, s, sphere, add, bare)| {
        let worn = if bare { Worn::Nothing } else { Worn::Near { add: Vergence::from_dioptres(add) } };
        let glasses = if bare { 0.0 } else { sphere + add };
        let person = eye(sphere, worn, s);
        let used = watch_screen(aid(parts), &person, metres(d)).expect("before the glasses");
        let arriving = -1.0 / (d - s) + glasses;
        prop_assume!(0.02 < (1.0 - s * arriving).abs());
        let evd = (d - s) * (1.0 - s * arriving).abs() / parts.2;
        agree("EVD", used.equivalent_viewing_distance.m(), evd)?;
        vanishes("demand", used.focus_demand.dioptres() + arriving / (1.0 - s * arriving), 1.0 / (d - s))?;
        agree("back", enlargement_for(&person, metres(d), metres(evd)).expect("as it was"), parts.2)?;
        prop_assume!(1e-3 < used.focus_demand.dioptres().abs());
        shows_its_working(&used)
    });
}

/// In the focus of the addition, and only there, the power is enlargement times addition, wherever the eye is behind it.
#[test]
fn enlargement_times_addition_in_its_focus() {
    holds((aids(), 0.5..12.0, 0.0..0.03, 0.5..0.95), |(parts, add, s, nearer)| {
        let person = eye(0.0, Worn::Near { add: Vergence::from_dioptres(add) }, s);
        let at =
            |before: f64| watch_screen(aid(parts), &person, metres(before + s)).expect("before the glasses");
        let used = at(1.0 / add);
        agree("EVP", used.equivalent_viewing_power.dioptres(), parts.2 * add)?;
        vanishes("demand", used.focus_demand.dioptres(), add)?;
        let inside = at(nearer / add).equivalent_viewing_power.dioptres();
        prop_assert!(parts.2 * add < inside, "nearer it is more: {inside}");
        Ok(())
    });
}

/// Sides of a screen: in the aspect ratio, and the diagonal by Pythagoras.
#[test]
fn sides_of_a_screen() {
    holds((1.0..100.0, 1.0..30.0, 1.0..30.0), |(inches, across, down)| {
        let sized = screen_of_diagonal(Length::from_inches(inches), across, down).expect("a screen");
        let (width, height) = (sized.screen.width.m(), sized.screen.height.m());
        agree("aspect", width / height, across / down)?;
        agree("diagonal", (width * width + height * height).sqrt(), inches * 0.0254)?;
        shows_its_working(&sized)
    });
}

/// A pixel at the limit subtends the least detail; the camera's does at the largest useful enlargement.
#[test]
fn pixels_at_the_limit() {
    holds((0.5..100.0, 0.1..5.0, 0.5..8.0, 1e-5..1e-3), |(mar, d, print, pixel)| {
        let tangent = tan_of_degrees(mar / 60.0);
        let limit = pixel_limit(Angle::from_arcmin(mar), metres(d)).expect("a distance");
        agree("pitch", limit.pitch.m(), d * tangent)?;
        agree("per inch", limit.per_inch, 0.0254 / (d * tangent))?;
        let sampling = camera_sampling(
            PrintSize::from_m_units(print),
            metres(pixel),
            Angle::from_arcmin(mar),
            metres(d),
        )
        .expect("a camera");
        agree("samples", sampling.samples_per_character, 1.30 * print / (1000.0 * pixel))?;
        let enlarged = pixel * sampling.largest_useful;
        agree("a sample on the screen", enlarged / d, tangent)?;
        agree("pitch of a row", pixel_pitch(metres(d), 1000.0).expect("a row").m(), d / 1000.0)?;
        shows_its_working(&limit)?;
        shows_its_working(&sampling)
    });
}

/// The zoom for a size of print gives text of that size: `M = zoom·px·k·(25.4/ppi)/1.4544`.
#[test]
fn text_on_a_screen() {
    holds((8.0..40.0, 0.4..0.6, 50.0..300.0, 1.0..20.0), |(px, k, ppi, wanted)| {
        let pixel = Length::from_inches(1.0 / ppi);
        let text = size_of_pixels(px, pixel, k).expect("a text");
        let m_unit = 1000.0 * tan_of_degrees(5.0 / 60.0);
        let print = px * k * (25.4 / ppi) / m_unit;
        let needed = zoom_needed(text.size, PrintSize::from_m_units(wanted)).expect("a zoom");
        agree("zoom", needed.zoom, wanted / print)?;
        let zoomed = size_of_pixels(px, pixel * needed.zoom, k).expect("the same text");
        agree("that print", zoomed.size.m_units(), wanted)?;
        shows_its_working(&needed)
    });
}

/// A camera for far things: the angle of the screen over that of the camera, whatever the distance of the thing.
#[test]
fn a_far_camera() {
    holds((aids(), 0.1..3.0, 0.2..150.0, 0.5..500.0), |(parts, d, field, x)| {
        let (width, height, _) = parts;
        let screen = Screen { width: metres(width), height: metres(height) };
        let camera = DistanceCamera { screen, camera_field: turn(field) };
        let used = watch_far(camera, &eye(0.0, Worn::Nothing, 0.0), metres(d), metres(x)).expect("in use");
        let half = tan_of_degrees(field / 2.0);
        agree("angular", used.angular.times(), width / d / (2.0 * half))?;
        agree("field", used.field_at_thing.m(), 2.0 * x * half)?;
        agree("EVD", used.screen.equivalent_viewing_distance.m(), d * 2.0 * x * half / width)?;
        agree("shown", used.screen.field_width.m(), 2.0 * x * half)?;
        shows_its_working(&used)
    });
}

/// A display before the eyes: `M = display/camera`, `EVD = x/M`, wherever the display's image is.
#[test]
fn a_display_before_the_eyes() {
    let inputs =
        (5.0..120.0, 1.0..120.0, 0.05..50.0, prop::option::of(0.1..10.0), 0.0..0.03, -12.0..8.0, 0.5..40.0);
    holds(inputs, |(display, camera, x, image, s, sphere, mar)| {
        let worn = HeadMountedDisplay {
            display_field: turn(display),
            camera_field: turn(camera),
            image_distance: image.map(metres),
            display_pixels: 1280.0,
            camera_pixels: 1920.0,
        };
        let times = display / camera;
        let bare = wear_display(worn, &eye(sphere, Worn::Nothing, s), metres(x)).expect("before the eye");
        agree("magnification", bare.magnification.times(), times)?;
        agree("EVD", bare.equivalent_viewing_distance.m(), x / times)?;
        vanishes("demand", bare.focus_demand.dioptres() - image.map_or(0.0, |d| 1.0 / d), 1.0)?;
        shows_its_working(&bare)?;
        let glasses = wear_display(worn, &eye(sphere, Worn::Distance, s), metres(x)).expect("before them");
        // Glasses before the eye make all of it larger by 1/(1 − sL), L behind them.
        let before = image.map_or(0.0, |d| -1.0 / (d - s));
        let arriving = before + sphere;
        let shrunk = (1.0 - s * arriving) / (1.0 - s * before);
        prop_assume!(0.02 < shrunk);
        agree("EVD behind glasses", glasses.equivalent_viewing_distance.m(), x / times * shrunk)?;
        let pixels = worn.pixels(Angle::from_arcmin(mar)).expect("a display");
        agree("display needed", pixels.display_needed, 60.0 / mar)?;
        agree("camera needed", pixels.camera_needed, 60.0 * times / mar)?;
        agree("display", pixels.display_per_degree, 1280.0 / display)?;
        agree("camera", pixels.camera_per_degree, 1920.0 / camera)?;
        shows_its_working(&pixels)
    });
}

/// A near image of the display: angles beside the eye's own, so the same magnification as an infinitely far one.
#[test]
fn the_display_shows_the_same_from_any_distance() {
    holds((5.0..120.0, 1.0..120.0, 0.1..10.0, 0.1..50.0), |(display, camera, image, x)| {
        let person = eye(0.0, Worn::Nothing, 0.0);
        let print = Detail { height: Length::from_mm(2.0), distance: Some(metres(x)), reserve: 1.0 };
        let angular = |image_distance| {
            let worn = HeadMountedDisplay {
                display_field: turn(display),
                camera_field: turn(camera),
                image_distance,
                display_pixels: 1280.0,
                camera_pixels: 1280.0,
            };
            let used = wear_display(worn, &person, metres(x)).expect("before the eye");
            look(&used.arrangement, &person, print).expect("an image to view").angular.times()
        };
        agree("near and far", angular(Some(metres(image))), angular(None))?;
        agree("the ratio of fields", angular(None), display / camera)
    });
}

/// `slip = M·speed·latency`, without sign.
#[test]
fn a_late_picture() {
    holds((-12.0..12.0, 0.0..400.0, 0.0..500.0), |(times, speed, latency)| {
        let late = latency_slip(
            Magnification::from_times(times),
            AngularSpeed::from_degrees_per_second(speed),
            Duration::from_milliseconds(latency),
        )
        .expect("a head");
        agree("slip", late.slip.degrees(), f64::abs(times) * speed * latency / 1000.0)?;
        shows_its_working(&late)
    });
}
