//! The rays: by hand, in words, and whatever comes.

mod near;

use super::super::laws::check_sound;
use super::path::Course;
use super::*;
use arcminute_core::optics::{Element, Telescope};
use arcminute_core::unit::Vergence;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn telescope(objective: f64, eyepiece: f64, stop: Option<f64>) -> Telescope {
    let d = Vergence::from_dioptres;
    let plain = Telescope::from_lenses(d(objective), d(eyepiece), mm(12.0)).expect("a telescope");
    Telescope { field_stop: stop.map(mm), ..plain }
}

#[track_caller]
fn near(got: f64, wanted: f64) {
    assert!(math::abs(got - wanted) < 1e-6, "{got}, not {wanted}");
}

/// +20 D and +80 D: 62.5 mm long, exit pupil 3 mm wide and 15.625 mm behind the eyepiece, where the eye is.
fn keplerian(check: impl Fn(&RaysInput<'_>, &Course)) {
    let telescope = telescope(20.0, 80.0, Some(10.0));
    let train = telescope.afocal_train().to_eye(mm(15.625));
    let afocal = telescope.afocal();
    let input = RaysInput { afocal: Some(&afocal), ..RaysInput::through(&train, Sight::Far, mm(4.0)) };
    check(&input, &Course::of(&input));
}

#[test]
fn a_keplerian_by_hand() {
    keplerian(|input, course| {
        let points = &course.on_axis[0].points;
        for (point, (place, height)) in
            points.iter().zip([(0.0, 6.0), (50.0, 0.0), (62.5, -1.5), (78.125, -1.5)])
        {
            near(point.0, place);
            near(point.1, height);
        }
        let exit = course.exit_pupil.expect("an exit pupil");
        near(exit.place - 62.5, input.afocal.expect("a telescope").exit_pupil_behind_eyepiece.mm());
        near(2.0 * exit.radius, input.afocal.expect("a telescope").exit_pupil.mm());
        // The middle ray of the edge of the field goes through the middle of the objective, the edge of the stop and
        // the middle of the eye's pupil.
        let chief = &course.off_axis[1].points;
        near(chief[0].1, 0.0);
        near(math::abs(chief[1].1), 5.0);
        near(chief[3].1, 0.0);
    });
}

/// By hand: 23.4375 mm before, 82.8125 mm behind the front on 304 units are 2.861176 units a millimetre.
#[test]
fn lengths_and_heights_are_to_scale() {
    keplerian(|input, _| {
        let drawing = rays(input, true);
        let lens = drawing.shapes.iter().find_map(|shape| match shape {
            Shape::Path { d, class: "rays-lens" } => Some(d.as_str()),
            _ => None,
        });
        // Half the objective is 6 mm; the chief ray at the eyepiece (6.25 mm times 1.2) sets the height; twice fits 70.
        assert!(lens.is_some_and(|d| d.starts_with("M75.059 ")), "{lens:?}");
        assert!(drawing.rows.contains(&("heights".into(), "Heights drawn 2x".into())), "{:?}", drawing.rows);
        let stops: Vec<_> = drawing
            .shapes
            .iter()
            .filter_map(|shape| match shape {
                Shape::Line { x1, y1, class: "rays-stop", .. } => Some((*x1, *y1)),
                _ => None,
            })
            .collect();
        let [(x, upper), (_, lower)] = stops[..] else { panic!("two blades, not {stops:?}") };
        assert!(math::abs(x - (75.058_824 + 50.0 * 2.861_176)) < 1e-3, "{x}");
        assert!(math::abs(lower - upper - 10.0 * 2.0 * 2.861_176) < 1e-3, "10 mm wide, twice as high");
    });
}

#[test]
fn words_of_a_keplerian() {
    keplerian(|input, _| {
        assert_eq!(
            rays(input, true).description,
            "Rays from a thing far off through the 4.0x Keplerian telescope, lengths to scale: objective +20.0 D, \
             12.0 mm wide; eyepiece +80.0 D, 62.5 mm behind the first; exit pupil 3.0 mm wide, 15.6 mm behind the \
             eyepiece; the eye's pupil, 4.0 mm wide, 15.6 mm behind the eyepiece. The light reaches the eye parallel (demand 0.00 D). Heights drawn 2x. The dashed rays \
             come from the edge of the field, where half of the light is left. The prisms that set the image upright are not \
             drawn: their path is shown unfolded, at its length in air."
        );
    });
}

/// +20 D and −60 D, 3x: 33.33 mm long, exit pupil 4 mm wide and 11.11 mm inside the tube.
#[test]
fn a_galilean_has_its_exit_pupil_inside_and_no_prisms() {
    let telescope = telescope(20.0, -60.0, None);
    let (train, afocal) = (telescope.afocal_train().to_eye(mm(10.0)), telescope.afocal());
    let input = RaysInput { afocal: Some(&afocal), ..RaysInput::through(&train, Sight::Far, mm(4.0)) };
    let course = Course::of(&input);
    let exit = course.exit_pupil.expect("an exit pupil");
    near(exit.place, 100.0 / 3.0 - 100.0 / 9.0);
    // Half-light edge: the middle ray of the whole bundle would just meet the rim, so what enters is the inner half.
    let at_objective: Vec<f64> = course.off_axis.iter().map(|ray| math::abs(ray.points[0].1)).collect();
    assert!(
        at_objective.iter().all(|height| *height <= 6.0 + 1e-9),
        "no ray outside the objective: {at_objective:?}"
    );
    let drawing = rays(&input, true);
    assert!(drawing.svg().contains("rays-exit rays-virtual"), "marked as one that no light goes through");
    assert!(!drawing.description.contains("prisms"), "{}", drawing.description);
    check_sound(&drawing);
}

#[test]
fn a_near_object_stands_beyond_a_break() {
    let telescope = telescope(20.0, 80.0, Some(10.0));
    let sight = Sight::At(mm(500.0));
    let focused = telescope.focused(sight, Vergence::ZERO).expect("it focuses");
    let (train, afocal) = (focused.train.to_eye(mm(15.0)), telescope.afocal());
    let input = RaysInput { afocal: Some(&afocal), ..RaysInput::through(&train, sight, mm(4.0)) };
    let course = Course::of(&input);
    near(course.on_axis[0].slope, 6.0 / 500.0);
    for ray in course.on_axis.iter() {
        let [.., at_eyepiece, at_eye] = &ray.points[..] else { panic!("too few points") };
        near(at_eyepiece.1, at_eye.1); // in focus the light of a point leaves parallel
    }
    let drawing = rays(&input, true);
    assert!(drawing.svg().contains("print 50 cm away, not to scale"), "the break is said");
    assert_eq!(drawing.svg().matches("rays-break").count(), 2);
}

#[test]
fn sound_whatever_comes() {
    for (objective, eyepiece, stop) in [
        (20.0, 80.0, Some(10.0)),
        (20.0, -60.0, None),
        (10.0, 100.0, None),
        (-30.0, 15.0, None),
        (5.0, 80.0, Some(1e-3)),
    ] {
        let telescope = telescope(objective, eyepiece, stop);
        for eye in [0.0, 10.0, 60.0] {
            for sight in [
                Sight::Far,
                Sight::At(mm(400.0)),
                Sight::At(mm(1.0)),
                Sight::At(Length::ZERO),
                Sight::At(mm(1e9)),
            ] {
                for pupil in [1.0, 4.0, 8.0] {
                    let (train, afocal) = (telescope.afocal_train().to_eye(mm(eye)), telescope.afocal());
                    let input =
                        RaysInput { afocal: Some(&afocal), ..RaysInput::through(&train, sight, mm(pupil)) };
                    check_sound(&rays(&input, true));
                    check_sound(&rays(&input, false));
                }
            }
        }
    }
    let afocal = telescope(20.0, 80.0, None).afocal();
    let lens = Element::Lens { power: Vergence::from_dioptres(f64::INFINITY), clear_diameter: None };
    for elements in [vec![], vec![lens], vec![lens, Element::Gap(mm(f64::NAN)), lens]] {
        let train = Train::of(&elements).expect("few parts");
        let input =
            RaysInput { afocal: Some(&afocal), ..RaysInput::through(&train, Sight::Far, Length::ZERO) };
        check_sound(&rays(&input, true));
    }
}
