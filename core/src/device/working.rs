//! The working of a telescope's outcome.

use super::telescope::own_power;
use super::{FieldBasis, FocusReach, TelescopeOutcome};
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::Sight;
use crate::unit::Vergence;
use alloc::vec::Vec;

impl Explain for TelescopeOutcome {
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.afocal.steps();
        steps.extend(self.refraction.steps());
        steps.extend(self.focused.steps());
        steps.extend(self.in_use_steps());
        steps.extend(self.prediction.steps());
        steps.extend(self.light.steps());
        steps.extend(self.field_steps());
        steps.extend(self.ring.steps());
        steps
    }
}

impl TelescopeOutcome {
    /// The closed form of the power in use holds in focus only.
    fn in_use_steps(&self) -> Vec<Step> {
        if self.reach != FocusReach::InFocus {
            return Vec::new();
        }
        let first = &self.refraction.first;
        let m_use = Named::new("M_use", self.in_use.times(), Unit::Times);
        let m_near = Named::new("M_near", self.focused.magnification.times(), Unit::Times);
        let f_s = Named::new("F_s", own_power(&self.refraction).dioptres(), Unit::Dioptre);
        let k = Named::new("K", self.refraction.ametropia.dioptres(), Unit::Dioptre);
        let v = Named::new("v", first.spectacle_to_eye.mm(), Unit::Millimetre);
        let e = Named::new("e", first.eyepiece_to_eye.mm(), Unit::Millimetre);
        match (self.distance, self.focused.sight) {
            (Some(distance), Sight::At(before_objective)) => {
                let far = Named::new("D", distance.m(), Unit::Metre);
                let x = Named::new("x", before_objective.m(), Unit::Metre);
                let tube = Named::new("d'", self.focused.length.mm(), Unit::Millimetre);
                alloc::vec![
                    Step::formula(&formula::OBJECTIVE_TO_TARGET, x, [far, tube, e]),
                    Step::formula(&formula::POWER_IN_USE_NEAR, m_use, [m_near, far, v, f_s, x, e, k]),
                ]
            }
            _ => alloc::vec![Step::formula(&formula::POWER_IN_USE_FAR, m_use, [m_near, v, f_s, e, k])],
        }
    }

    fn field_steps(&self) -> Vec<Step> {
        let mut steps = Vec::new();
        let real = Named::new("r", self.real_field.degrees(), Unit::Degree);
        if self.field_basis != FieldBasis::Marked && self.afocal.eyepiece < Vergence::ZERO {
            steps.push(Step::formula(
                &formula::FIELD_GALILEAN,
                real,
                [
                    Named::new("D_o", self.afocal.objective_diameter.mm(), Unit::Millimetre),
                    Named::new("M", self.afocal.magnification.times(), Unit::Times),
                    Named::new("p", self.light.pupil.mm(), Unit::Millimetre),
                    Named::new("d", self.afocal.length.mm(), Unit::Millimetre),
                    Named::new("v", self.refraction.first.eyepiece_to_eye.mm(), Unit::Millimetre),
                ],
            ));
        }
        let (Some(width), Some(distance)) = (self.width_at_task, self.distance) else { return steps };
        let w = Named::new("w", width.m(), Unit::Metre);
        match self.width_from_lenses {
            Some((evd, apparent)) => steps.push(Step::formula(
                &formula::FIELD_WIDTH,
                w,
                [Named::new("EVD", evd.m(), Unit::Metre), Named::new("a", apparent.degrees(), Unit::Degree)],
            )),
            None => steps.push(Step::formula(
                &formula::FIELD_AT_DISTANCE,
                w,
                [Named::new("x", distance.m(), Unit::Metre), real],
            )),
        }
        steps
    }
}
