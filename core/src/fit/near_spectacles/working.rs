//! The working behind near spectacles.

use super::{NearLensFit, NearMoved, NearPair, NearSpectacles, PrismRule, PrismRuleKind};
use crate::explain::{Explain, Formula, Named, Step, Unit, formula};
use crate::fit::working::{degrees, mm};
use crate::refraction::Tilted;
use crate::source;
use crate::unit::{Prism, Vergence};
use alloc::vec;
use alloc::vec::Vec;

fn dioptre(symbol: &'static str, power: Vergence) -> Named {
    Named::new(symbol, power.dioptres(), Unit::Dioptre)
}
fn prism(symbol: &'static str, prism: Prism) -> Named {
    Named::new(symbol, prism.prism_dioptres(), Unit::PrismDioptre)
}

/// The step of this formula among those of a record.
fn only(steps: Vec<Step>, wanted: &'static Formula) -> impl Iterator<Item = Step> {
    steps
        .into_iter()
        .filter(move |step| matches!(step, Step::Formula { formula, .. } if formula.id == wanted.id))
}

impl Explain for NearMoved {
    fn steps(&self) -> Vec<Step> {
        let u = mm("u", self.print_to_lens);
        let light = |found, leaving| {
            Step::formula(&formula::LEAVING_LENS, dioptre("L", leaving), [dioptre("F", found), u])
        };
        let lens = |moved, worn| {
            Step::formula(&formula::NEAR_LENS_MOVED, dioptre("F_w", worn), [dioptre("F_moved", moved), u])
        };
        let (from, to) = (&self.leaving.from, &self.leaving.to);
        let mut steps = vec![light(self.found.sphere, from.sphere)];
        let cylindrical = self.found.cylinder != Vergence::ZERO;
        if cylindrical {
            steps.push(light(self.found.sphere + self.found.cylinder, from.sphere + from.cylinder));
        }
        steps.extend(self.leaving.steps());
        steps.push(lens(to.sphere, self.worn.sphere));
        if cylindrical {
            steps.push(lens(to.sphere + to.cylinder, self.worn.sphere + self.worn.cylinder));
        }
        steps.extend(self.as_for_far.steps());
        steps
    }
}

impl NearLensFit {
    fn place(&self) -> Vec<Step> {
        let request = &self.request;
        let v = [mm("v", request.vertex), mm("q", request.cornea_to_rotation)];
        let because = match self.asked.centration {
            super::Centration::NearCrossing => "centred-at-the-near-crossing",
            super::Centration::DistancePd => "centred-at-the-pd-for-far",
            super::Centration::Given(_) => "centred-as-given",
        };
        let mut steps = vec![Step::formula(&formula::STOP_DISTANCE, mm("s", self.stop_distance), v)];
        steps.extend(self.face_form.steps());
        steps.extend(self.inset.steps());
        steps.push(Step::Rule { because, source: &source::COMMON_PRACTICE });
        steps.extend(self.centre_in_lens_plane.steps());
        steps
    }

    fn prisms(&self) -> Vec<Step> {
        let mut steps = self.convergence.steps();
        steps.extend(self.prism_by_place.steps());
        steps.extend(only(self.target.steps(), &formula::BARE_CONVERGENCE));
        steps.extend(only(self.exact_prism.steps(), &formula::PRISM_FOR_TARGET));
        for PrismRule { kind, base_in, leaves } in &self.rules {
            let rule = match kind {
                PrismRuleKind::EachEyeAdd => &formula::PRISM_EACH_ADD,
                PrismRuleKind::EachEyeAddAndTwo => &formula::PRISM_ADD_AND_TWO,
                PrismRuleKind::AddAndTwoInTotal => &formula::PRISM_ADD_IN_TOTAL,
            };
            steps.push(Step::formula(rule, prism("delta", *base_in), [dioptre("Add", self.asked.add)]));
            steps.extend(only(leaves.steps(), &formula::CONVERGENCE));
        }
        steps
    }

    fn lens(&self) -> Vec<Step> {
        let request = &self.request;
        let frame = &request.frame;
        let (s, phi) = (mm("s", self.stop_distance), degrees("phi", request.pantoscopic));
        let y_t = mm("Y_t", self.centre_for_tilt);
        let mut steps = self.blank.steps();
        steps.push(Step::formula(
            &formula::ROOM,
            mm("room", self.room),
            [
                mm("d_in", self.blank.decentration),
                mm("d_up", self.blank.raise),
                mm("A", frame.box_width),
                mm("B", frame.box_height),
                mm("r", frame.corner_radius),
            ],
        ));
        if self.moved.worn.cylinder != Vergence::ZERO {
            let worn = &self.moved.worn;
            let mean = dioptre("M", self.pantoscopic_effect.power);
            let inputs = [dioptre("S", worn.sphere), dioptre("C", worn.cylinder)];
            steps.push(Step::formula(&formula::MEAN_SPHERE, mean, inputs));
        }
        steps.push(Step::formula(
            &formula::CENTRE_FOR_TILT,
            y_t,
            [mm("H_p", self.asked.pupil_height), s, phi],
        ));
        let inputs = [mm("Y_oc", self.optical_centre.y), y_t, s, phi];
        steps.push(Step::formula(&formula::TILT_AT_CENTRE, degrees("t", self.tilt), inputs));
        for (tilted, change) in
            [&self.pantoscopic_effect, &self.face_form_effect].into_iter().zip(self.tilt_change)
        {
            let Tilted { power, sphere, cylinder, .. } = *tilted;
            steps.extend(tilted.steps());
            let inputs = [dioptre("S_t", sphere), dioptre("C_t", cylinder), dioptre("S", power)];
            steps.push(Step::formula(&formula::TILT_CHANGE, dioptre("dF", change), inputs));
        }
        let inputs = [dioptre("Add", self.asked.add)];
        steps.push(Step::formula(&formula::ADD_DISTANCE, mm("u_0", self.in_focus_at), inputs));
        steps
    }
}

impl Explain for NearLensFit {
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.place();
        steps.extend(self.moved.steps());
        steps.extend(self.prisms());
        steps.extend(self.lens());
        steps
    }
}

impl NearPair {
    fn steps(&self, right: &NearLensFit, left: &NearLensFit) -> [Step; 4] {
        let sum = |both, of: &dyn Fn(&'static str, &NearLensFit) -> Named| {
            Step::formula(&formula::BOTH_EYES, both, [of("right", right), of("left", left)])
        };
        [
            sum(mm("both", self.near_pd), &|symbol, lens| mm(symbol, lens.inset.crossing)),
            sum(mm("both", self.centres_apart), &|symbol, lens| mm(symbol, lens.optical_centre.x)),
            sum(prism("both", self.bare), &|symbol, lens| prism(symbol, lens.convergence.bare)),
            sum(prism("both", self.turned_in), &|symbol, lens| prism(symbol, lens.convergence.per_eye)),
        ]
    }
}

impl Explain for NearSpectacles {
    /// Of the right lens, of the left one, and of both together.
    fn steps(&self) -> Vec<Step> {
        let mut steps: Vec<Step> =
            [&self.right, &self.left].into_iter().flatten().flat_map(Explain::steps).collect();
        if let (Some(both), Some(right), Some(left)) = (&self.both, &self.right, &self.left) {
            steps.extend(both.steps(right, left));
        }
        steps
    }
}
