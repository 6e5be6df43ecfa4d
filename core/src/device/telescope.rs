//! A spectacle-mounted telescope for one eye and one goal.
//!
//! The tube is focused for the distance of the goal and for the refraction, as far as it reaches; what it cannot supply
//! the eye has to find. The goal's distance is from the eye, so the objective is nearer to it by the tube and the gap
//! behind it.
//!
//! ```text
//!   goal |<------ to the objective ------>( objective )<-- tube -->( eyepiece )<-- to the eye -->| entrance pupil
//!        |<--------------------------------------- distance of the goal ---------------------------------->|
//! ```

use super::focus::{before_objective, focus_reach, focused_at};
use super::{RefractionThrough, refraction_through};
use crate::error::{Error, Why};
use crate::optics::{
    Afocal, Element, Field, Focused, LightThrough, Ring, Sight, Telescope, Train, field_of_view,
    field_of_view_at, light_through, ring_scotoma, view,
};
use crate::predict::{Prediction, predict};
use crate::task::{Demand, Goal};
use crate::unit::{Angle, Length, LogMar, Magnification, Vergence};

/// Where the refraction goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CorrectionPlace {
    /// The tube is refocused for the mean sphere; the cylinder stays.
    ByFocusing,
    /// Sphere and cylinder stand in the eyepiece.
    InEyepiece,
}

/// The eye behind the telescope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Viewer {
    /// Acuity with best correction.
    pub acuity: LogMar,
    /// 95 % limit of repeats of that measurement.
    pub retest_limit: LogMar,
    /// Diameter of the eye's pupil.
    pub pupil: Length,
    /// Sphere at the spectacle plane.
    pub sphere: Vergence,
    /// Cylinder at the spectacle plane.
    pub cylinder: Vergence,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Eyepiece to the eye's entrance pupil.
    pub eyepiece_to_eye: Length,
    /// Where the refraction goes.
    pub correction: CorrectionPlace,
}

/// Whether the telescope can be focused for the goal's distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FocusReach {
    /// It can; in focus the eye has nothing to add.
    InFocus,
    /// It focuses from its nearest distance on, and the goal is nearer: the eye has to find this demand itself.
    TooNear {
        /// Demand at the eye, positive.
        demand: Vergence,
    },
    /// It is fixed for far, and the goal is near: the eye has to find this demand itself.
    FixedForFar {
        /// Demand at the eye, positive.
        demand: Vergence,
    },
}

/// How the real field is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FieldBasis {
    /// Marked by the maker.
    Marked,
    /// Half-light edge computed from the lenses at this eye distance.
    Computed,
    /// Half-light edge computed from assumed lenses.
    Assumed,
}

/// What the telescope does for the eye and the goal.
#[derive(Clone, Debug, PartialEq)]
pub struct TelescopeOutcome {
    /// The telescope set for far.
    pub afocal: Afocal,
    /// As focused for the goal and the refraction.
    pub focused: Focused,
    /// Whether that focus can be reached.
    pub reach: FocusReach,
    /// The refraction behind it.
    pub refraction: RefractionThrough,
    /// Magnification in use against the person's own correction at the same place, signed.
    pub in_use: Magnification,
    /// Acuity predicted against the goal.
    pub prediction: Prediction,
    /// Light against the bare eye.
    pub light: LightThrough,
    /// Apparent field from the lenses, where anything limits it.
    pub apparent: Option<Field>,
    /// Real field for far things, full angle.
    pub real_field: Angle,
    /// How that is known.
    pub field_basis: FieldBasis,
    /// Eye to the goal; `None` when the goal is an acuity.
    pub distance: Option<Length>,
    /// Width seen at once at the goal.
    pub width_at_task: Option<Length>,
    /// Equivalent viewing distance and apparent field behind that width, where it comes from the lenses and not from
    /// the marked field alone.
    pub width_from_lenses: Option<(Length, Angle)>,
    /// Ring hidden from this eye while it looks through.
    pub ring: Ring,
    /// Everything from objective to the eye's entrance pupil, as used.
    pub train: Train,
}

/// What `telescope` does for `viewer` and `demand`, through the ray-transfer engine.
///
/// The goal's distance is from the eye; the objective is nearer to it by the tube and the eye distance.
///
/// # Errors
/// [`crate::Why::NoSolution`] when no tube length focuses it, the goal is nearer than the telescope is long, the image
/// cannot be viewed, or nothing limits its field.
///
/// ```
/// use arcminute_core::device::{CorrectionPlace, Viewer, evaluate_telescope};
/// use arcminute_core::{optics::Telescope, task::{Goal, demand}};
/// use arcminute_core::unit::{Angle, Length, LogMar, Vergence};
/// let (mm, d, log) = (Length::from_mm, Vergence::from_dioptres, LogMar::from_log);
/// let mut telescope = Telescope::from_lenses(d(20.0), d(80.0), mm(12.0))?;
/// telescope.marked_field = Some(Angle::from_degrees(8.0));
/// let viewer = Viewer {
///     acuity: log(0.9),
///     retest_limit: log(0.2),
///     pupil: mm(4.0),
///     sphere: d(0.0),
///     cylinder: d(0.0),
///     spectacle_to_eye: mm(15.0),
///     eyepiece_to_eye: mm(15.0),
///     correction: CorrectionPlace::ByFocusing,
/// };
/// // 4x: from 0.9 to 0.298 (computed).
/// let outcome = evaluate_telescope(&telescope, &viewer, &demand(Goal::Acuity(log(0.3))))?;
/// assert!((outcome.prediction.with_aid.log() - 0.298).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn evaluate_telescope(
    telescope: &Telescope,
    viewer: &Viewer,
    demand: &Demand,
) -> Result<TelescopeOutcome, Error> {
    let afocal = telescope.afocal();
    let pupil_in_use = afocal.exit_pupil.min(viewer.pupil);
    let refraction = refraction_through(
        viewer.sphere,
        viewer.cylinder,
        viewer.spectacle_to_eye,
        viewer.eyepiece_to_eye,
        pupil_in_use,
        afocal.magnification,
        viewer.acuity,
    );
    let distance = match demand.goal {
        Goal::Acuity(_) => None,
        Goal::Target(target) => Some(target.distance),
    };
    let (by_focusing, in_eyepiece) = match viewer.correction {
        CorrectionPlace::ByFocusing => (refraction.ametropia, Vergence::ZERO),
        CorrectionPlace::InEyepiece => (Vergence::ZERO, refraction.ametropia),
    };
    let out_of_range = match (distance, telescope.near_focus) {
        (None, _) => None,
        (Some(_), None) => Some(None),
        (Some(distance), Some(nearest)) => (distance < nearest).then_some(Some(nearest)),
    };
    // Out of its range it stays where it is set: at its nearest distance, or for far.
    let focused = match out_of_range {
        None => focused_at(telescope, distance, by_focusing, viewer.eyepiece_to_eye)?,
        Some(nearest) => focused_at(telescope, nearest, by_focusing, viewer.eyepiece_to_eye)?,
    };
    let mut train = focused.train.clone();
    if in_eyepiece != Vergence::ZERO {
        train = train.then(&Train::new([Element::Lens { power: in_eyepiece, clear_diameter: None }]))?;
    }
    let train = train.to_eye(viewer.eyepiece_to_eye);
    let sight = match distance {
        None => Sight::Far,
        Some(distance) => Sight::At(before_objective(distance, train.length())?),
    };
    let seen = view(&train, sight);
    let own = own_correction(&refraction, viewer);
    let own_sight = distance.map_or(Sight::Far, |distance| Sight::At(distance - viewer.spectacle_to_eye));
    let in_use = Magnification::from_times(seen.enlargement / view(&own, own_sight).enlargement);
    let wanted_at_eye = -refraction.ametropia.after(viewer.eyepiece_to_eye);
    let reach = focus_reach(out_of_range, seen.focus_demand - wanted_at_eye)?;
    let apparent = field_of_view_at(&train, viewer.pupil, seen.focus_demand);
    let far_train = telescope.afocal_train().to_eye(viewer.eyepiece_to_eye);
    let computed = field_of_view(&far_train, viewer.pupil).map(|field| field.real(&far_train).half);
    let (real_field, field_basis) = match (telescope.marked_field, computed) {
        (Some(marked), _) => (marked, FieldBasis::Marked),
        (None, Some(computed)) if telescope.lenses_assumed => (computed, FieldBasis::Assumed),
        (None, Some(computed)) => (computed, FieldBasis::Computed),
        (None, None) => return Err(no_field()),
    };
    // A marked field without a field stop says more than assumed rims would.
    let width_from_lenses = seen
        .equivalent_viewing_distance
        .zip(apparent.map(|field| field.half))
        .filter(|_| telescope.field_stop.is_some() || telescope.marked_field.is_none());
    let width_at_task = distance.map(|distance| match (width_from_lenses, apparent) {
        (Some((evd, _)), Some(field)) => field.width_at(evd),
        _ => distance * (2.0 * (real_field / 2.0).tangent()),
    });
    Ok(TelescopeOutcome {
        reach,
        refraction,
        in_use,
        prediction: predict(viewer.acuity, in_use, demand.to_reach, viewer.retest_limit),
        light: light_through(afocal.exit_pupil, viewer.pupil, telescope.transmittance),
        apparent,
        real_field,
        field_basis,
        distance,
        width_at_task,
        width_from_lenses,
        ring: ring_scotoma(afocal.magnification, real_field),
        train,
        focused,
        afocal,
    })
}

fn no_field() -> Error {
    Error::new("field", "none", Why::NoSolution { because: "nothing limits the field" })
}

/// The person's own glasses (mean sphere) in their usual place, up to the eye.
fn own_correction(refraction: &RefractionThrough, viewer: &Viewer) -> Train {
    let power = own_power(refraction);
    Train::new([Element::Lens { power, clear_diameter: None }]).to_eye(viewer.spectacle_to_eye)
}

/// The mean sphere at the spectacle plane: that of the eyepiece plane carried back.
pub(super) fn own_power(refraction: &RefractionThrough) -> Vergence {
    let first = &refraction.first;
    refraction.ametropia.after(first.eyepiece_to_eye - first.spectacle_to_eye)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::explain::{Explain, Step};
    use crate::task::{Target, demand};
    use alloc::vec::Vec;

    fn d(dioptres: f64) -> Vergence {
        Vergence::from_dioptres(dioptres)
    }
    fn mm(length: f64) -> Length {
        Length::from_mm(length)
    }
    /// 4x of +20 D and ±80 D, objective 12 mm.
    fn four_times(eyepiece: f64) -> Telescope {
        Telescope::from_lenses(d(20.0), d(eyepiece), mm(12.0)).expect("a tube")
    }
    fn viewer(sphere: f64, spectacle_to_eye: f64, eyepiece_to_eye: f64) -> Viewer {
        Viewer {
            acuity: LogMar::from_log(0.9),
            retest_limit: LogMar::from_log(0.2),
            pupil: mm(4.0),
            sphere: d(sphere),
            cylinder: Vergence::ZERO,
            spectacle_to_eye: mm(spectacle_to_eye),
            eyepiece_to_eye: mm(eyepiece_to_eye),
            correction: CorrectionPlace::ByFocusing,
        }
    }
    fn board(metres: f64) -> Demand {
        demand(Goal::Target(Target { height: mm(40.0), distance: Length::from_m(metres), reserve: 1.0 }))
    }
    fn marked(telescope: Telescope) -> Telescope {
        Telescope { marked_field: Some(Angle::from_degrees(8.0)), ..telescope }
    }
    fn at(telescope: &Telescope, metres: f64) -> TelescopeOutcome {
        evaluate_telescope(telescope, &viewer(0.0, 15.0, 15.0), &board(metres)).expect("seen")
    }

    #[test]
    fn it_focuses_from_its_nearest_distance_on() {
        let telescope = Telescope { near_focus: Some(Length::from_m(0.5)), ..marked(four_times(80.0)) };
        for (metres, in_focus) in [(6.0, true), (0.51, true), (0.5, true), (0.49, false), (0.45, false)] {
            let outcome = at(&telescope, metres);
            assert_eq!(outcome.reach == FocusReach::InFocus, in_focus, "{metres} m: {:?}", outcome.reach);
            let told = matches!(outcome.reach, FocusReach::TooNear { demand } if Vergence::ZERO < demand);
            assert_eq!(told, !in_focus, "{metres} m: {:?}", outcome.reach);
        }
    }

    /// By hand, for a myope of 4 D whose eyepiece stands where the glasses did: the tube is 50 + 1000/84 = 61.905 mm, the
    /// board 1.9231 m before it; its light leaves the eyepiece with −14.607 D and arrives with −11.982 D, where the eye
    /// would be served by −4/1.06 = −3.774 D.
    #[test]
    fn what_the_eye_is_left_to_do_is_counted_from_its_own_refraction() {
        let outcome = evaluate_telescope(&marked(four_times(80.0)), &viewer(-4.0, 15.0, 15.0), &board(2.0));
        let reach = outcome.expect("seen").reach;
        let FocusReach::FixedForFar { demand } = reach else { panic!("it is fixed: {reach:?}") };
        assert!((demand.dioptres() - (11.981_6 - 3.773_6)).abs() < 1e-3, "{demand:?}");
    }

    /// The glasses were −8 D wherever the eyepiece stands.
    #[test]
    fn ones_own_power_is_that_of_the_glasses() {
        for (glasses, eyepiece) in [(15.0, 15.0), (12.0, 25.0), (20.0, 10.0)] {
            let telescope = marked(four_times(80.0));
            let outcome = evaluate_telescope(&telescope, &viewer(-8.0, glasses, eyepiece), &board(6.0));
            let own = own_power(&outcome.expect("seen").refraction).dioptres();
            assert!((own + 8.0).abs() < 1e-9, "glasses {glasses} mm, eyepiece {eyepiece} mm: {own}");
        }
    }

    #[test]
    fn a_field_says_how_it_is_known() {
        let galilean = four_times(-80.0);
        let assumed = Telescope { lenses_assumed: true, ..galilean };
        for (telescope, basis) in [
            (galilean, FieldBasis::Computed),
            (assumed, FieldBasis::Assumed),
            (marked(galilean), FieldBasis::Marked),
            (marked(assumed), FieldBasis::Marked),
        ] {
            assert_eq!(at(&telescope, 6.0).field_basis, basis, "{telescope:?}");
        }
    }

    /// Marked 8 degrees are 2·tan 4° of the distance; a stop of 7 mm, 50 mm behind the objective, is 0.14 of it, from the
    /// objective (by hand).
    #[test]
    fn the_width_is_from_the_lenses_where_they_are_known_to_limit_it() {
        let stopped = |telescope| Telescope { field_stop: Some(mm(7.0)), ..telescope };
        let (galilean, keplerian) = (four_times(-80.0), four_times(80.0));
        for (telescope, from_lenses) in [
            (galilean, true),
            (marked(galilean), false),
            (marked(keplerian), false),
            (stopped(keplerian), true),
            (marked(stopped(keplerian)), true),
        ] {
            let outcome = at(&telescope, 6.0);
            assert_eq!(outcome.width_from_lenses.is_some(), from_lenses, "{telescope:?}");
            let width = outcome.width_at_task.expect("a board").m();
            let by_hand = match (telescope.field_stop, telescope.marked_field) {
                (Some(_), _) => 0.14 * (6.0 - 0.0775),
                (None, Some(_)) => 0.839_12,
                (None, None) => continue,
            };
            assert!((width - by_hand).abs() < 1e-4, "{width} m for {by_hand} m: {telescope:?}");
        }
    }

    /// The closed form of the field is that of a minus eyepiece behind which nothing else limits it.
    #[test]
    fn only_a_computed_galilean_field_has_a_formula() {
        let stopped = Telescope { field_stop: Some(mm(7.0)), ..four_times(80.0) };
        for (telescope, shown) in
            [(four_times(-80.0), true), (marked(four_times(-80.0)), false), (stopped, false)]
        {
            let steps = at(&telescope, 6.0).steps();
            let ids = steps.iter().filter_map(|step| match step {
                Step::Formula { formula, .. } => Some(formula.id),
                _ => None,
            });
            assert_eq!(ids.collect::<Vec<_>>().contains(&"field-galilean"), shown, "{telescope:?}");
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{telescope:?}");
            }
        }
    }
}
