//! The working behind a fit.

use super::blank::Blank;
use super::face_form::FaceForm;
use super::frame::Frame;
use super::mounting::Mounting;
use super::near::NearCentres;
use super::request::{Placement, TiltReference};
use crate::explain::{Explain, Formula, Named, Step, Unit, formula};
use crate::source;
use crate::unit::{Angle, Length};
use alloc::vec;
use alloc::vec::Vec;

pub(super) fn mm(symbol: &'static str, length: Length) -> Named {
    Named::new(symbol, length.mm(), Unit::Millimetre)
}
pub(super) fn degrees(symbol: &'static str, angle: Angle) -> Named {
    Named::new(symbol, angle.degrees(), Unit::Degree)
}

fn effective_diameter(frame: &Frame) -> Step {
    let inputs = [mm("A", frame.box_width), mm("B", frame.box_height), mm("r", frame.corner_radius)];
    Step::formula(&formula::EFFECTIVE_DIAMETER, mm("ED", frame.effective_diameter()), inputs)
}

impl Explain for Blank {
    fn steps(&self) -> Vec<Step> {
        let Frame { box_width, box_height, bridge, corner_radius } = self.frame;
        let (a, b, dbl, r) =
            (mm("A", box_width), mm("B", box_height), mm("DBL", bridge), mm("r", corner_radius));
        let (inward, raise) = (mm("d_in", self.decentration), mm("d_up", self.raise));
        let allowance = mm("t", self.allowance);
        vec![
            Step::formula(&formula::FRAME_PD, mm("PD_frame", self.frame.frame_pd()), [a, dbl]),
            Step::formula(&formula::DECENTRATION, inward, [a, dbl, mm("PD_m", self.optical_centre.x)]),
            Step::formula(&formula::RAISE, raise, [mm("Y_oc", self.optical_centre.y), b]),
            effective_diameter(&self.frame),
            Step::formula(
                &formula::BLANK_SIZE,
                mm("MBS", self.diameter),
                [inward, a, r, raise, b, allowance],
            ),
            Step::formula(
                &formula::BLANK_RULE,
                mm("MBS_rule", self.diameter_by_rule),
                [mm("ED", self.effective_diameter), inward, allowance],
            ),
        ]
    }
}

impl Explain for NearCentres {
    fn steps(&self) -> Vec<Step> {
        let inputs = [mm("PD", self.pd), mm("W", self.working_distance), mm("s", self.stop_distance)];
        let [pd, w, s] = inputs;
        let power = Named::new("F", self.distance_power.dioptres(), Unit::Dioptre);
        vec![
            Step::formula(&formula::NEAR_PD, mm("NPD", self.near_pd), inputs),
            Step::formula(&formula::SEGMENT_INSET, mm("I", self.segment_inset), [pd, w, s, power]),
        ]
    }
}

impl Explain for FaceForm {
    fn steps(&self) -> Vec<Step> {
        let inputs = [mm("PD_m", self.monocular_pd), degrees("w", self.angle)];
        vec![Step::formula(&formula::FACE_FORM, mm("PD_lens", self.in_lens_plane), inputs)]
    }
}

impl Explain for Mounting {
    /// Closing values of the iteration: each satisfies its equation with the others.
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.place();
        steps.extend(self.tilt());
        steps.extend(self.lens());
        steps.extend(self.order());
        steps
    }
}

impl Mounting {
    fn place(&self) -> Vec<Step> {
        let asked = &self.request;
        let (pupil, half) = (mm("H_p", asked.pupil_height), mm("h_v", self.oval_half_height));
        let y = mm("Y_e", self.eyepiece.y);
        let (because, rule, inputs): (_, &'static Formula, Vec<Named>) = match asked.rule {
            Placement::PupilTop => (
                "placement-pupil-top",
                &formula::RULE_PUPIL_TOP,
                vec![pupil, mm("r_p", asked.pupil_radius), half],
            ),
            Placement::Highest => (
                "placement-highest",
                &formula::RULE_HIGHEST,
                vec![mm("B", asked.frame.box_height), mm("m", asked.least_web), half, mm("c", asked.play)],
            ),
            Placement::Centred => ("placement-centred", &formula::RULE_CENTRED, vec![pupil]),
            Placement::Low => {
                ("placement-low", &formula::RULE_LOW, vec![pupil, mm("r_p", asked.pupil_radius), half])
            }
            Placement::ByHand(_) => {
                let because = "placement-by-hand";
                let mut steps =
                    vec![Step::Rule { because, source: &source::COMMON_PRACTICE }, self.stop_step()];
                steps.extend(self.near_inputs().map(|inputs| self.toe_in_step(inputs)));
                return steps;
            }
        };
        let mut steps = vec![Step::Rule { because, source: rule.source }, self.stop_step()];
        if let Some(inputs) = self.near_inputs() {
            steps.push(Step::formula(&formula::NEAR_PLACE, mm("X_e", self.eyepiece.x), inputs));
            steps.push(self.toe_in_step(inputs));
        } else {
            let inputs = [mm("PD_m", asked.monocular_pd)];
            steps.push(Step::formula(&formula::DISTANCE_PLACE, mm("X_e", self.eyepiece.x), inputs));
        }
        steps.push(Step::formula(rule, y, inputs));
        steps
    }

    /// What place and toe-in of a near telescope follow from.
    fn near_inputs(&self) -> Option<[Named; 3]> {
        let asked = &self.request;
        let distance = asked.working_distance?;
        Some([mm("PD_m", asked.monocular_pd), mm("W", distance), mm("s", self.stop_distance)])
    }

    fn toe_in_step(&self, inputs: [Named; 3]) -> Step {
        Step::formula(&formula::TOE_IN, degrees("toe", self.toe_in), inputs)
    }

    fn stop_step(&self) -> Step {
        let asked = &self.request;
        let inputs = [mm("v", asked.vertex), mm("q", asked.cornea_to_rotation)];
        Step::formula(&formula::STOP_DISTANCE, mm("s", self.stop_distance), inputs)
    }

    fn tilt(&self) -> Vec<Step> {
        let asked = &self.request;
        let (rise, beta, tau) =
            (mm("e", self.rise), degrees("beta", self.head_drop), degrees("tau", self.tilt_to_carrier));
        let (radius, half) = (mm("r_b", asked.barrel_radius), mm("h_v", self.oval_half_height));
        vec![
            Step::formula(
                &formula::EYEPIECE_RISE,
                rise,
                [mm("Y_e", self.eyepiece.y), mm("H_p", asked.pupil_height)],
            ),
            Step::formula(&formula::HEAD_DROP, beta, [rise, mm("s", self.stop_distance)]),
            Step::formula(&formula::TILT_TO_CARRIER, tau, [beta, degrees("phi", asked.pantoscopic)]),
            Step::formula(&formula::OVAL_HALF_HEIGHT, half, [radius, tau]),
            Step::formula(
                &formula::OVAL_HALF_WIDTH,
                mm("h_w", self.oval_half_width),
                [radius, degrees("toe", self.toe_in)],
            ),
        ]
    }

    fn lens(&self) -> Vec<Step> {
        let asked = &self.request;
        let (y, half) = (mm("Y_e", self.eyepiece.y), mm("h_v", self.oval_half_height));
        let (play, web, gap) = (mm("c", asked.play), mm("m", asked.least_web), mm("k", asked.segment_gap));
        let Frame { box_width, box_height, bridge, corner_radius } = asked.frame;
        let highest = mm("H_max", self.segment_max);
        vec![
            Step::Rule { because: "web-thinnest-direction", source: &source::GEOMETRY },
            Step::formula(
                &formula::LEAST_WEB,
                mm("web", self.web.least),
                [
                    mm("A", box_width),
                    mm("B", box_height),
                    mm("DBL", bridge),
                    mm("r", corner_radius),
                    mm("X_e", self.eyepiece.x),
                    y,
                    mm("h_w", self.oval_half_width),
                    half,
                    play,
                    degrees("theta", self.web.direction),
                ],
            ),
            Step::formula(&formula::SMALLEST_B, mm("B_min", self.smallest_box_height), [y, half, play, web]),
            Step::formula(&formula::SEGMENT_MAX, highest, [y, half, gap]),
            Step::formula(
                &formula::SEGMENT_MAX_HOLE,
                mm("H_max_hole", self.segment_max_hole),
                [y, half, play, gap],
            ),
            Step::formula(
                &formula::SEGMENT_DROP,
                mm("drop", self.segment_drop),
                [mm("B", box_height), highest],
            ),
        ]
    }

    fn order(&self) -> Vec<Step> {
        let asked = &self.request;
        let (Some(ordered), Some(to_carrier), Some(miss)) =
            (asked.ordered_tilt, self.ordered_to_carrier, self.miss_distance)
        else {
            return Vec::new();
        };
        let (tau, phi) = (degrees("tau_0", to_carrier), degrees("phi", asked.pantoscopic));
        let mut steps = Vec::new();
        if asked.tilt_reference == TiltReference::StraightAhead {
            steps.push(Step::formula(&formula::ORDERED_TO_CARRIER, tau, [degrees("beta_0", ordered), phi]));
        }
        let inputs = [mm("e", self.rise), mm("s", self.stop_distance), tau, phi];
        steps.push(Step::formula(&formula::MISS_DISTANCE, mm("miss", miss), inputs));
        if let (Some(exit), Some(limit)) = (asked.exit_pupil, self.miss_limit) {
            let inputs = [mm("E", exit), mm("r_p", asked.pupil_radius)];
            steps.push(Step::formula(&formula::MISS_LIMIT, mm("miss_most", limit), inputs));
        }
        steps
    }
}
