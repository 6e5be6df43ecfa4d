//! Aids of every family: what is drawn follows from their optics.

use super::super::super::laws::check_sound;
use super::super::path::{Course, Image, Leaving};
use super::super::*;
use super::near as close;
use arcminute_core::Error;
use arcminute_core::device::Detail;
use arcminute_core::device::{
    Aid, Bar, DistanceCamera, Dome, Eye, FresnelSheet, HandMagnifier, HeadMountedDisplay, HighPlusSpectacles,
    LensForm, RefractionBy, Screen, ScreenAid, Setting, StandData, StandMagnifier, Worn, look, stand_optics,
};
use arcminute_core::optics::{RealDome, Telescope, ThickLens};
use arcminute_core::unit::{Angle, LogMar, Vergence};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}
fn d(power: f64) -> Vergence {
    Vergence::from_dioptres(power)
}
fn eye(worn: Worn) -> Eye {
    Eye { worn, ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)) }
}

fn hand() -> Aid {
    let magnifier = HandMagnifier { power: d(12.5), clear_diameter: mm(50.0), transmittance: 0.92 };
    Aid::Hand { magnifier, lens_to_spectacle: mm(135.0) }
}
/// +20 D, enlarges three times, its image 100 mm under the lens.
fn stand() -> Result<Aid, Error> {
    let optics = stand_optics(StandData::PowerAndEnlargement { power: d(20.0), enlargement: 3.0 })?;
    let stand = StandMagnifier { optics, clear_diameter: mm(40.0), transmittance: 0.92 };
    Ok(Aid::Stand { stand, lens_to_spectacle: mm(150.0) })
}
fn spectacles(form: LensForm, used: f64) -> Aid {
    let spectacles = HighPlusSpectacles { form, clear_diameter: mm(40.0), transmittance: 0.92 };
    Aid::HighPlus { spectacles, accommodation_used: d(used) }
}
fn screen() -> Screen {
    Screen { width: mm(480.0), height: mm(270.0) }
}
fn acrylic(radius: f64, thickness: f64) -> RealDome {
    RealDome { radius: mm(radius), thickness: mm(thickness), index: 1.49 }
}
fn dome(thickness: f64) -> Aid {
    let dome = Dome { solid: acrylic(30.0, thickness), clear_diameter: mm(50.0), transmittance: 0.92 };
    Aid::Dome { dome, page_to_eye: mm(400.0) }
}
fn telescope(objective: f64, eyepiece: f64, setting: Setting) -> Result<(Aid, Telescope), Error> {
    let telescope = Telescope::from_lenses(d(objective), d(eyepiece), mm(25.0))?;
    let refraction = RefractionBy::Glasses;
    Ok((Aid::Telescope { telescope, eyepiece_to_eye: mm(20.0), refraction, setting }, telescope))
}

/// One of each family, some in more than one way, and the telescope where it is one.
fn every_aid() -> Result<Vec<(Aid, Option<Telescope>)>, Error> {
    let thick = ThickLens { front: d(14.0), back: d(7.0), thickness: mm(10.0), index: 1.498 };
    let tablet = ScreenAid { screen: screen(), enlargement: 10.0, camera_to_print: Some(mm(200.0)) };
    let bar =
        Bar { section: acrylic(15.0, 15.0), length: mm(200.0), clear_width: mm(30.0), transmittance: 0.9 };
    let display = HeadMountedDisplay {
        display_field: Angle::from_degrees(40.0),
        camera_field: Angle::from_degrees(10.0),
        image_distance: None,
        display_pixels: 1280.0,
        camera_pixels: 1280.0,
    };
    let sheet = FresnelSheet { power: d(3.0), width: mm(200.0), transmittance: 0.85 };
    let camera = DistanceCamera { screen: screen(), camera_field: Angle::from_degrees(10.0) };
    let mut all: Vec<(Aid, Option<Telescope>)> = [
        Aid::NearerAndLarger { larger: 1.0, thing_to_eye: mm(100.0) },
        Aid::NearerAndLarger { larger: 1.8, thing_to_eye: mm(400.0) },
        Aid::NearerAndLarger { larger: 1.0, thing_to_eye: Length::from_m(6.0) },
        spectacles(LensForm::Addition { add: d(10.0) }, 0.0),
        spectacles(LensForm::Addition { add: d(8.0) }, 4.0),
        spectacles(LensForm::Thick(thick), 0.0),
        hand(),
        Aid::Sheet { sheet, sheet_to_spectacle: mm(200.0) },
        stand()?,
        dome(30.0),
        dome(40.5),
        Aid::Bar { bar, page_to_eye: mm(400.0) },
        Aid::Screen { screen: tablet, screen_to_eye: mm(400.0) },
        Aid::Screen { screen: tablet, screen_to_eye: Length::from_m(2.0) },
        Aid::DistanceCamera { camera, screen_to_eye: mm(600.0) },
        Aid::HeadMounted { display },
        Aid::HeadMounted { display: HeadMountedDisplay { image_distance: Some(mm(1000.0)), ..display } },
        Aid::MinusLens { power: d(-5.0), clear_diameter: mm(80.0), lens_to_spectacle: mm(300.0) },
    ]
    .map(|aid| (aid, None))
    .into();
    for setting in [
        Setting::Far,
        Setting::FixedFar { thing_to_eye: Length::from_m(2.0) },
        Setting::Cap { cap: d(4.0) },
        Setting::Tube { thing_to_eye: Length::from_m(1.0) },
        Setting::Tube { thing_to_eye: Length::from_m(6.0) },
    ] {
        for (objective, eyepiece) in [(20.0, -50.0), (20.0, 80.0), (-50.0, 20.0)] {
            if let Ok((aid, telescope)) = telescope(objective, eyepiece, setting) {
                all.push((aid, Some(telescope)));
            }
        }
    }
    Ok(all)
}

fn worn() -> [Worn; 3] {
    [Worn::Nothing, Worn::Distance, Worn::Near { add: d(4.0) }]
}

#[track_caller]
fn course<T>(aid: Aid, eye: &Eye, check: impl FnOnce(&RaysInput<'_>, &Course) -> T) -> T {
    let arrangement = aid.arrange(eye, Some(Length::from_m(3.0))).expect("it serves");
    let input = RaysInput::of(&arrangement, eye.pupil);
    check(&input, &Course::of(&input))
}

fn image(course: &Course) -> &Image {
    let Some(Leaving::From(image)) = &course.leaving else { panic!("no image: {:?}", course.leaving) };
    image
}

#[test]
fn print_in_the_focus_of_a_hand_magnifier_sends_parallel_light() {
    course(hand(), &eye(Worn::Distance), |input, course| {
        assert_eq!(course.leaving, Some(Leaving::Parallel));
        assert_eq!((course.parts.names.as_slice(), course.object), (&["lens".into()][..], Some(80.0)));
        assert_eq!((course.on_axis.len(), course.off_axis.len()), (2, 3));
        for ray in course.on_axis.iter() {
            let [(_, at_lens), .., (_, at_eye)] = &ray.points[..] else { panic!("too few points") };
            close(*at_lens, *at_eye);
            close(at_eye.abs(), 2.0); // the edge of the pupil
            close(ray.points[0].1 - 80.0 * ray.slope, 0.0); // from the foot of the print
        }
        // All dashed rays start at the tip of the print and leave the lens with one slope: that of its middle.
        let slope = -course.arrow / 80.0;
        for ray in &course.off_axis {
            close(ray.points[0].1 - 80.0 * ray.slope, course.arrow);
            let [(_, at_lens), .., (_, at_eye)] = &ray.points[..] else { panic!("too few points") };
            close((at_eye - at_lens) / 150.0, slope);
            assert!(at_lens.abs() <= 25.0 + 1e-6, "through the rim: {at_lens}");
        }
        // By hand: the middle of the light from the edge goes from the rim, 25 mm up, to the middle of the pupil 150 mm
        // behind; through the middle of the lens that slope begins 80 · 25/150 mm from the axis.
        close(course.arrow, 80.0 * 25.0 / 150.0);
        let drawing = rays(input, true);
        assert_eq!(
            drawing.description,
            "Rays from the print, 80.0 mm before the lens, lengths to scale: lens +12.5 D, 50.0 mm wide; the eye's pupil, \
             4.0 mm wide, 150.0 mm behind the lens. The light leaves the lens parallel, as from an image far off. The light \
             reaches the eye parallel (demand 0.00 D). Heights drawn 2x. The dashed rays come from the edge of the field, where half \
             of the light is left: 26.7 mm of the print is seen at once."
        );
        assert!(drawing.svg().contains(">image far off, not drawn<"), "no image in the picture");
        assert!(!drawing.svg().contains("rays-back"), "and no ray back to one");
    });
}

/// Places in the picture are in proportion to those in the train: print 80 mm before the lens, eye 150 mm behind.
#[test]
fn what_is_near_is_drawn_in_its_place() {
    course(hand(), &eye(Worn::Distance), |input, _| {
        for narrow in [true, false] {
            let drawing = rays(input, narrow);
            let path = |wanted: &str| {
                let found = drawing.shapes.iter().find_map(|shape| match shape {
                    Shape::Path { d, class } if *class == wanted => d[1..].split(' ').next()?.parse().ok(),
                    _ => None,
                });
                found.unwrap_or(f64::NAN)
            };
            let eye = drawing.shapes.iter().find_map(|shape| match shape {
                Shape::Line { x1, class: "rays-eye", .. } => Some(*x1),
                _ => None,
            });
            let (print, lens, eye) = (path("rays-object"), path("rays-lens"), eye.unwrap_or(f64::NAN));
            assert!(math::abs((lens - print) / (eye - lens) - 80.0 / 150.0) < 1e-3, "{print} {lens} {eye}");
        }
    });
}

/// By hand: +20 D, three times: print 33.3 mm, image 100 mm before the lens.
#[test]
fn the_rays_of_a_stand_drawn_backwards_meet_in_its_image() {
    let aid = stand().expect("a stand");
    for worn in worn() {
        course(aid, &eye(worn), |input, course| {
            let image = image(course);
            close(image.before, 100.0);
            close(image.larger.expect("a near thing"), 3.0);
            close(image.height, 3.0 * course.arrow);
            for (rays, height) in [(&course.on_axis, 0.0), (&course.off_axis, 3.0 * course.arrow)] {
                for ray in rays {
                    let [(_, at_lens), (glasses, at_glasses), ..] = ray.points[..] else {
                        panic!("too few points")
                    };
                    close(at_lens - 100.0 * (at_glasses - at_lens) / glasses, height);
                }
            }
            let drawing = rays(input, false);
            assert_eq!(drawing.svg().matches("rays-back").count(), 3, "two from the foot, one from the tip");
            assert!(drawing.svg().contains(">fine dashes: back to the image<"), "and what they are");
        });
    }
    let near = eye(Worn::Near { add: d(4.0) });
    course(aid, &near, |input, course| {
        assert_eq!(course.parts.names, ["lens", "glasses"]);
        let words = rays(input, false).description;
        let said = "lens +20.0 D, 40.0 mm wide; glasses +4.0 D, 150.0 mm behind the first; the eye's pupil, 4.0 mm wide, \
                    165.0 mm behind the lens. The light seems to come from an image 100.0 mm before the lens, 3.0x as large. \
                    The light reaches the eye parallel (demand 0.00 D).";
        assert!(words.contains(said), "{words}");
    });
}

/// By hand: a hemisphere of acrylic leaves the image in the page; one of 1.35 radii puts it 8.38 mm below, 1.798 times.
#[test]
fn a_dome_lies_on_its_print() {
    for (thickness, below, larger) in [(30.0, 0.0, 1.49), (40.5, 8.38, 1.798)] {
        course(dome(thickness), &eye(Worn::Distance), |input, course| {
            let image = image(course);
            assert!(math::abs(image.place + below) < 5e-3, "{image:?}");
            assert!(image.larger.is_some_and(|times| math::abs(times - larger) < 5e-4), "{image:?}");
            let [dome] = course.parts.lenses[..] else { panic!("one block") };
            assert_eq!((dome.place, dome.back(), course.object), (0.0, thickness, Some(0.0)));
            let drawing = rays(input, true);
            assert!(
                drawing.svg().contains("rays-solid") && !drawing.svg().contains("rays-lens"),
                "a block, no lens"
            );
            assert!(drawing.description.starts_with(&format!(
                "Rays from the print, on which the block lies, lengths to scale: block top +16.3 D, 50.0 mm wide, {thickness:.1} \
                 mm high; "
            )));
            assert!(drawing.svg().contains(">print under the block<"), "{}", drawing.svg());
        });
    }
}

/// By hand: an eye that focuses 4 D sees what is 25 cm before it.
#[test]
fn strong_spectacles_show_an_image_where_the_eye_focuses() {
    let aid = spectacles(LensForm::Addition { add: d(8.0) }, 4.0);
    course(aid, &eye(Worn::Distance), |input, course| {
        close(image(course).before + 15.0, 250.0);
        // A field of 40 mm so near to the eye is wider than what is drawn.
        assert!(!course.at_edge, "the lens is wide");
        let words = rays(input, false).description;
        assert!(
            words.contains("The light reaches the eye as from 250.0 mm away (demand 4.00 D)."),
            "{words}"
        );
        assert!(words.contains("beside the middle; the field reaches further: "), "{words}");
    });
    let thick = ThickLens { front: d(14.0), back: d(7.0), thickness: mm(10.0), index: 1.498 };
    course(spectacles(LensForm::Thick(thick), 0.0), &eye(Worn::Distance), |input, course| {
        let [lens] = course.parts.lenses[..] else { panic!("two surfaces are one lens") };
        close(lens.power.dioptres(), thick.powers().expect("a lens").equivalent.dioptres());
        assert_eq!(course.leaving, Some(Leaving::Parallel));
        let words = rays(input, false).description;
        assert!(
            words.contains("lens +20.3 D (+14.0 D and +7.0 D), 40.0 mm wide, 10.0 mm thick; "),
            "{words}"
        );
    });
}

#[test]
fn print_held_nearer_is_a_cone_of_light() {
    let aid = Aid::NearerAndLarger { larger: 1.0, thing_to_eye: mm(100.0) };
    course(aid, &eye(Worn::Distance), |input, course| {
        assert!(course.parts.lenses.is_empty(), "glasses without power are none");
        assert_eq!((course.leaving.as_ref(), course.off_axis.len()), (None, 0));
        let ends: Vec<f64> =
            course.on_axis.iter().filter_map(|ray| ray.points.last()).map(|end| end.1).collect();
        assert_eq!(ends.len(), 2);
        close(ends[0], 2.0);
        close(ends[1], -2.0);
        assert_eq!(
            rays(input, true).description,
            "Rays from the print, 100.0 mm before the eye, lengths to scale: the eye's pupil, 4.0 mm wide. The light reaches the eye \
             as from 100.0 mm away (demand 10.00 D). Heights drawn 5x."
        );
    });
    let copy = Aid::NearerAndLarger { larger: 1.8, thing_to_eye: mm(400.0) };
    course(copy, &eye(Worn::Near { add: d(2.5) }), |input, course| {
        assert_eq!(course.parts.names, ["glasses"]);
        let words = rays(input, true).description;
        assert!(
            words.starts_with("Rays from a copy of the print, 1.8x its size, 385.0 mm before the glasses, "),
            "{words}"
        );
    });
    let far = Aid::NearerAndLarger { larger: 1.0, thing_to_eye: Length::from_m(6.0) };
    course(far, &eye(Worn::Near { add: d(2.5) }), |input, _| {
        let svg = rays(input, true).svg();
        assert!(svg.contains(">print 5.99 m away, not to scale<"), "{svg}");
        assert_eq!(svg.matches("rays-break").count(), 2, "beyond a break");
    });
}

#[test]
fn a_screen_shines_and_shows_larger() {
    let aid = ScreenAid { screen: screen(), enlargement: 10.0, camera_to_print: Some(mm(200.0)) };
    course(Aid::Screen { screen: aid, screen_to_eye: mm(400.0) }, &eye(Worn::Distance), |input, course| {
        assert_eq!(input.shown, Shown::Screen { larger: 10.0, width: mm(48.0) });
        assert!(course.off_axis.is_empty(), "only the cone of light");
        let drawing = rays(input, true);
        assert!(drawing.svg().contains("rays-screen") && !drawing.svg().contains("rays-object"), "no arrow");
        assert_eq!(
            drawing.description,
            "Rays from a screen 400.0 mm before the eye, lengths to scale: the eye's pupil, 4.0 mm wide. The screen shines by \
             itself; it shows the print 10.0x its size, 48.0 mm of it at once, and only the middle of the screen is drawn. The light \
             reaches the eye as from 400.0 mm away (demand 2.50 D). Heights drawn 10x."
        );
    });
}

/// By hand: −5 D shows far things as if they were 200 mm before it.
#[test]
fn a_minus_lens_brings_far_things_near() {
    let aid = Aid::MinusLens { power: d(-5.0), clear_diameter: mm(80.0), lens_to_spectacle: mm(285.0) };
    course(aid, &eye(Worn::Distance), |input, course| {
        let image = image(course);
        close(image.place, -200.0);
        assert_eq!((image.larger, course.object), (None, None));
        // What comes from the edge: through the rim, 40 mm up, to the eye 300 mm behind; drawn back, 200 mm before.
        close(image.height.abs(), 40.0 * 500.0 / 300.0);
        let drawing = rays(input, false);
        assert!(drawing.svg().contains("rays-diverging"), "its arrowheads point inward");
        let said = "The light seems to come from an image 200.0 mm before the lens. The light reaches the eye as from 500.0 mm away \
                    (demand 2.00 D).";
        assert!(drawing.description.contains(said), "{}", drawing.description);
    });
}

#[test]
fn a_telescope_names_its_parts() {
    let near = eye(Worn::Near { add: d(1.0) });
    let drawn = |objective, eyepiece, setting| {
        let (aid, telescope) = telescope(objective, eyepiece, setting)?;
        let arrangement = aid.arrange(&near, None)?;
        let afocal = telescope.afocal();
        let input = RaysInput { afocal: Some(&afocal), ..RaysInput::of(&arrangement, near.pupil) };
        Ok::<_, Error>((Course::of(&input), rays(&input, true)))
    };
    let (course, drawing) = drawn(20.0, -50.0, Setting::Cap { cap: d(4.0) }).expect("it works");
    assert_eq!(course.parts.names, ["cap, objective", "eyepiece", "glasses"]);
    assert!(
        drawing.description.starts_with(
            "Rays from the print 25 cm away through the 2.5x Galilean telescope, lengths behind the break to scale: "
        ),
        "{}",
        drawing.description
    );
    let (course, drawing) = drawn(-50.0, 20.0, Setting::Far).expect("it works");
    assert_eq!(course.parts.names, ["objective", "eyepiece", "glasses"]);
    assert!(
        drawing.description.contains("through the 0.4x Galilean telescope, used in reverse, "),
        "{drawing:?}"
    );
}

#[test]
fn the_caller_may_name_lenses_and_thing() {
    course(hand(), &eye(Worn::Near { add: d(2.5) }), |input, _| {
        let named = RaysInput { names: &["reading glass"], thing: "label", ..*input };
        let drawing = rays(&named, true);
        assert!(drawing.description.starts_with("Rays from the label, 80.0 mm before the reading glass, "));
        for label in [">reading glass<", ">glasses<", ">label<", ">eye<"] {
            assert!(drawing.svg().contains(label), "{label}");
        }
    });
}

#[test]
fn what_the_light_does_in_words() {
    let lens = |power| Element::Lens { power: d(power), clear_diameter: Some(mm(40.0)) };
    let said = |power: f64, sight: Sight| {
        let train = Train::new([lens(power)]).to_eye(mm(100.0));
        let drawing = rays(&RaysInput::through(&train, sight, mm(4.0)), true);
        (drawing.description.clone(), drawing.svg())
    };
    // By hand: 1/(20 − 1/0.049) D = −2.45 m, and 1/(20 − 1/0.08) D = 133.3 mm.
    let (words, svg) = said(20.0, Sight::At(mm(49.0)));
    let far = "The light seems to come from an image 2.45 m before the lens, 50.0x as large, too far off to be drawn.";
    assert!(words.contains(far), "{words}");
    assert!(svg.contains(">image 2.45 m away, not drawn<"), "{svg}");
    let (words, _) = said(20.0, Sight::At(mm(80.0)));
    let together = "The light runs together towards a point 133.3 mm behind the lens. The light reaches the eye converging \
                    (demand −30.00 D).";
    assert!(words.contains(together), "{words}");
    let (words, _) = said(f64::INFINITY, Sight::At(mm(49.0)));
    assert!(words.contains("The light reaches the eye without forming an image (demand – D)."), "{words}");
    let (words, svg) = said(10.0, Sight::At(Length::from_m(20.0)));
    assert!(
        words
            .starts_with("Rays from the print, 20.00 m before the lens, lengths behind the break to scale: "),
        "{words}"
    );
    assert!(svg.contains(">print 20.00 m away, not to scale<"), "{svg}");
    let screen = Shown::Screen { larger: 0.29, width: Length::from_m(1.05) };
    let train = Train::new([]).to_eye(mm(15.0));
    let far = RaysInput { shown: screen, ..RaysInput::through(&train, Sight::Far, mm(4.0)) };
    let drawing = rays(&far, true);
    let shines = "Rays from a screen that is seen as if it were far off, lengths to scale: the eye's pupil, 4.0 mm wide. The \
                  screen shines by itself; it shows the thing 0.29x its size, 1.05 m of it at once, and";
    assert!(drawing.description.starts_with(shines), "{}", drawing.description);
    assert!(drawing.svg().contains(">from a screen seen as far off<"));
    let copy = RaysInput { shown: Shown::Copy { larger: 2.0 }, ..far };
    assert!(
        rays(&copy, true).description.starts_with("Rays from a copy of the thing, 2.0x its size, far off, ")
    );
}

/// Law: what is said to be seen at once is what the engine gives, and the arrow is half of it where it stands at the edge.
#[test]
fn the_edge_of_the_field_is_that_of_the_engine() {
    let (mut compared, mut drawn) = (0, 0);
    for worn in worn() {
        let eye = eye(worn);
        for (aid, _) in every_aid().expect("all can be built") {
            let Ok(arrangement) = aid.arrange(&eye, Some(Length::from_m(3.0))) else { continue };
            let detail = Detail { height: mm(2.0), distance: None, reserve: 1.0 };
            let input = RaysInput::of(&arrangement, eye.pupil);
            let course = Course::of(&input);
            let Ok(outcome) = look(&arrangement, &eye, detail) else { continue };
            close(course.demand.dioptres(), outcome.focus.demand.dioptres());
            let Some(widths) = outcome.widths.filter(|_| arrangement.window.is_none()) else { continue };
            close(course.width.expect("the engine has one").mm(), widths.half.mm());
            compared += 1;
            if course.at_edge && course.object.is_some() {
                close(2.0 * course.arrow.abs(), widths.half.mm());
                drawn += 1;
            }
        }
    }
    assert!(20 < compared && 10 < drawn, "{compared} and {drawn} of them");
}

#[test]
fn every_family_makes_a_sound_picture() {
    let names =
        ["a name so long that nobody would ever give it to a lens", "another long name", "and a third one"];
    let mut pictures = 0;
    for worn in worn() {
        for (aid, telescope) in every_aid().expect("all can be built") {
            let Ok(arrangement) = aid.arrange(&eye(worn), Some(Length::from_m(3.0))) else { continue };
            let afocal = telescope.map(|telescope| telescope.afocal());
            for pupil in [1.0, 4.0, 8.0] {
                for names in [&[][..], &names[..]] {
                    let of = RaysInput::of(&arrangement, mm(pupil));
                    let input = RaysInput { afocal: afocal.as_ref(), names, ..of };
                    for narrow in [true, false] {
                        let drawing = rays(&input, narrow);
                        check_sound(&drawing);
                        assert_eq!(drawing.title, "Rays through the aid");
                        for ray in Course::of(&input).on_axis {
                            let (_, end) = ray.points.last().expect("it goes somewhere");
                            let reaches = telescope.is_some() || math::abs(*end) <= pupil / 2.0 + 1e-6;
                            assert!(reaches, "into the pupil: {end} of {pupil}, {aid:?}");
                        }
                        pictures += 1;
                    }
                }
            }
        }
    }
    assert!(900 < pictures, "{pictures} pictures");
}
