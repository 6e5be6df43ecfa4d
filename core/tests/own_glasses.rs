//! The acuity was measured through glasses, and so is held against what is seen through them.

use arcminute_core::Error;
use arcminute_core::device::{
    Aid, CorrectionPlace, Detail, Eye, HandMagnifier, RefractionBy, Setting, Viewer, Worn,
    evaluate_telescope, look, spectacle_magnification,
};
use arcminute_core::optics::{Design, Label, Telescope};
use arcminute_core::task::{Goal, Target, demand};
use arcminute_core::unit::{Length, LogMar, Magnification, Vergence};

fn eye(sphere: f64) -> Eye {
    let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    Eye { sphere: Vergence::from_dioptres(sphere), spectacle_to_eye: Length::from_mm(16.05), ..eye }
}

const SPHERES: [f64; 6] = [-12.0, -4.0, -1.25, 0.0, 5.0, 11.0];

/// With the glasses on, print in the focus of a lens in the hand is seen by every eye as by one without ametropia.
#[test]
fn a_lens_in_the_hand_does_the_same_through_any_glasses_for_far() -> Result<(), Error> {
    let magnifier = HandMagnifier {
        power: Vergence::from_dioptres(20.0),
        clear_diameter: Length::from_mm(40.0),
        transmittance: 0.92,
    };
    let aid = Aid::Hand { magnifier, lens_to_spectacle: Length::from_mm(150.0) };
    let print = Detail { height: Length::from_mm(1.4544), distance: None, reserve: 1.0 };
    let reached = |sphere: f64| -> Result<f64, Error> {
        Ok(look(&aid.arrange(&eye(sphere), None)?, &eye(sphere), print)?.reserve_reached)
    };
    let bare = reached(0.0)?;
    assert!((bare - 2.0).abs() < 1e-3, "1 M at 5 cm is 20 minutes of detail, 10 are seen: {bare}");
    for sphere in SPHERES {
        // An angle that is larger is not quite as much larger as its tangent.
        assert!((reached(sphere)? - bare).abs() < 1e-5, "{sphere} D: {} {bare}", reached(sphere)?);
    }
    Ok(())
}

/// Without them they do not: a short-sighted eye sees more of what is at its far point than its acuity says.
#[test]
fn an_eye_without_its_glasses_is_held_against_its_acuity_with_them() -> Result<(), Error> {
    let bare = Eye { worn: Worn::Nothing, ..eye(-10.0) };
    // Its far point lies 100 mm before the spectacle plane.
    let nearer = Aid::NearerAndLarger { larger: 1.0, thing_to_eye: Length::from_mm(116.05) };
    let print = Detail { height: Length::from_mm(1.4544), distance: None, reserve: 1.0 };
    let seen = look(&nearer.arrange(&bare, None)?, &bare, print)?;
    let times = spectacle_magnification(bare.mean_sphere(), bare.spectacle_to_eye);
    assert!((times - 1.0 / 1.1605).abs() < 1e-12, "computed: {times}");
    assert!(seen.focus.is_sharp());
    // 1000/116.05 minutes of detail for each M, 1.1605 times as much as glasses would show; 10 are seen.
    assert!((seen.reserve_reached - 1.0).abs() < 1e-4, "{}", seen.reserve_reached);
    Ok(())
}

/// The same telescope by its own record and by the engine that holds for every aid.
#[test]
fn a_telescope_is_the_same_by_both_records() -> Result<(), Error> {
    let telescope = Telescope::from_label(&Label {
        design: Design::Keplerian,
        power: Magnification::from_times(4.0),
        objective_diameter: Length::from_mm(13.0),
        real_field: None,
        near_focus: Some(Length::from_cm(25.0)),
        length: Some(Length::from_mm(62.0)),
        transmittance: 0.82,
    })?;
    let (height, distance) = (Length::from_mm(40.0), Length::from_m(6.0));
    for sphere in SPHERES {
        for by in [RefractionBy::Tube, RefractionBy::Glasses] {
            let eye = eye(sphere);
            let aid = Aid::Telescope {
                telescope,
                eyepiece_to_eye: eye.spectacle_to_eye,
                refraction: by,
                setting: Setting::Tube { thing_to_eye: distance },
            };
            let board = Detail { height, distance: Some(distance), reserve: 1.0 };
            let seen = look(&aid.arrange(&eye, Some(distance))?, &eye, board)?;
            let viewer = Viewer {
                acuity: eye.acuity,
                retest_limit: eye.retest_limit,
                pupil: eye.pupil,
                sphere: eye.sphere,
                cylinder: eye.cylinder,
                spectacle_to_eye: eye.spectacle_to_eye,
                eyepiece_to_eye: eye.spectacle_to_eye,
                correction: match by {
                    RefractionBy::Tube => CorrectionPlace::ByFocusing,
                    RefractionBy::Glasses => CorrectionPlace::InEyepiece,
                },
            };
            let target = Goal::Target(Target { height, distance, reserve: 1.0 });
            let outcome = evaluate_telescope(&telescope, &viewer, &demand(target))?;
            let (one, other) = (seen.prediction.chance, outcome.prediction.chance);
            assert!((one - other).abs() < 1e-3, "{sphere} D, {by:?}: {one} and {other}");
        }
    }
    Ok(())
}
