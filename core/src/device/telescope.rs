//! A spectacle-mounted telescope for one eye and one goal.

use super::{RefractionThrough, refraction_through};
use crate::error::Error;
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{
    Afocal, Element, Field, Focused, LightThrough, Ring, Sight, Telescope, Train, field_of_view,
    light_through, ring_scotoma, view,
};
use crate::predict::{Prediction, predict};
use crate::task::{Demand, Goal};
use crate::unit::{Angle, Length, LogMar, Magnification, Vergence};
use alloc::vec::Vec;

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
/// [`crate::Why::NoSolution`] when no tube length focuses it or nothing limits its field.
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
    let nearer_by = afocal.length + viewer.eyepiece_to_eye;
    let sight = distance.map_or(Sight::Far, |distance| Sight::At(distance - nearer_by));
    let (by_focusing, in_eyepiece) = match viewer.correction {
        CorrectionPlace::ByFocusing => (refraction.ametropia, None),
        CorrectionPlace::InEyepiece => (Vergence::ZERO, Some(refraction.ametropia)),
    };
    let too_near = match (distance, telescope.near_focus) {
        (None, _) => false,
        (Some(_), None) => true,
        (Some(distance), Some(nearest)) => distance < nearest,
    };
    // Out of its range it stays where it is set: at its nearest distance, or for far.
    let set_for = match telescope.near_focus {
        _ if !too_near => sight,
        Some(nearest) => Sight::At((nearest - nearer_by).max(telescope.objective.focal_length() * 1.01)),
        None => Sight::Far,
    };
    let focused = telescope.focused(set_for, by_focusing)?;
    let train = with_lens(focused.train.clone(), in_eyepiece).to_eye(viewer.eyepiece_to_eye);
    let seen = view(&train, sight);
    let own = own_correction(&refraction, viewer);
    let own_sight = distance.map_or(Sight::Far, |distance| Sight::At(distance - viewer.spectacle_to_eye));
    let in_use = Magnification::from_times(seen.enlargement / view(&own, own_sight).enlargement);
    let needed_at_eye = -refraction.ametropia.after(viewer.eyepiece_to_eye);
    let demand_left = seen.focus_demand - needed_at_eye;
    let reach = match telescope.near_focus {
        _ if !too_near => FocusReach::InFocus,
        Some(_) => FocusReach::TooNear { demand: demand_left },
        None => FocusReach::FixedForFar { demand: demand_left },
    };
    let apparent = field_of_view(&train, viewer.pupil);
    let far_train = telescope.afocal_train().to_eye(viewer.eyepiece_to_eye);
    let computed = field_of_view(&far_train, viewer.pupil).map(|field| field.real(&far_train).half);
    let (real_field, field_basis) = match (telescope.marked_field, computed) {
        (Some(marked), _) => (marked, FieldBasis::Marked),
        (None, Some(computed)) if telescope.lenses_assumed => (computed, FieldBasis::Assumed),
        (None, Some(computed)) => (computed, FieldBasis::Computed),
        (None, None) => return Err(no_field()),
    };
    let width_at_task = distance.map(|distance| {
        let from_lenses =
            apparent.zip(seen.equivalent_viewing_distance).map(|(field, evd)| field.width_at(evd));
        match from_lenses {
            Some(width) if telescope.field_stop.is_some() || telescope.marked_field.is_none() => width,
            _ => distance * (2.0 * (real_field / 2.0).tangent()),
        }
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
        ring: ring_scotoma(afocal.magnification, real_field),
        train,
        focused,
        afocal,
    })
}

fn no_field() -> Error {
    Error::new("field", "none", crate::Why::NoSolution { because: "nothing limits the field" })
}

/// The person's own glasses (mean sphere) in their usual place, up to the eye.
fn own_correction(refraction: &RefractionThrough, viewer: &Viewer) -> Train {
    let power = refraction.ametropia.after(viewer.eyepiece_to_eye - viewer.spectacle_to_eye);
    Train::new([Element::Lens { power, clear_diameter: None }]).to_eye(viewer.spectacle_to_eye)
}

fn with_lens(mut train: Train, power: Option<Vergence>) -> Train {
    if let Some(power) = power {
        train.elements.push(Element::Lens { power, clear_diameter: None });
    }
    train
}

impl Explain for TelescopeOutcome {
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.afocal.steps();
        steps.extend(self.refraction.steps());
        steps.extend(self.focused.steps());
        steps.extend(self.prediction.steps());
        steps.extend(self.light.steps());
        steps.extend(self.ring.steps());
        let (Some(width), Some(distance)) = (self.width_at_task, self.distance) else { return steps };
        if let (Some(field), true) = (self.apparent, self.field_stopped()) {
            let evd =
                view(&self.train, Sight::At(distance - self.train.length())).equivalent_viewing_distance;
            steps.push(Step::formula(
                &formula::FIELD_WIDTH,
                Named::new("w", width.m(), Unit::Metre),
                [
                    Named::new("EVD", evd.unwrap_or_default().m(), Unit::Metre),
                    Named::new("a", field.half.degrees(), Unit::Degree),
                ],
            ));
        } else {
            steps.push(Step::formula(
                &formula::FIELD_AT_DISTANCE,
                Named::new("w", width.m(), Unit::Metre),
                [
                    Named::new("x", distance.m(), Unit::Metre),
                    Named::new("r", self.real_field.degrees(), Unit::Degree),
                ],
            ));
        }
        steps
    }
}

impl TelescopeOutcome {
    /// Whether the width at the goal came from the lenses, not from the marked field alone.
    fn field_stopped(&self) -> bool {
        self.field_basis != FieldBasis::Marked
            || self.train.elements.iter().any(|element| matches!(element, Element::Stop(_)))
    }
}
