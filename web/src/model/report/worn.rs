//! What is worn and how it sits, for programs: what stands beside a telescope, and spectacles for near.

use super::{checked, dioptres, key, mm, plain, quantity, result};
use crate::model::answer::{FitDone, NearDone};
use arcminute_core::explain::{Step, Unit};
use arcminute_core::fit::Eye;
use arcminute_core::unit::Prism;
use serde_json::Value;

fn prism(prism: Prism) -> Value {
    quantity(prism.prism_dioptres(), Unit::PrismDioptre.symbol())
}

/// What is told of a telescope beside where it sits.
pub(super) fn beside(done: &FitDone) -> Vec<(&'static str, Value)> {
    let mut values = Vec::new();
    if let Some(alignment) = &done.alignment {
        let [half, one, two] = alignment.shifts.map(|shift| plain(shift.left));
        values.extend([
            ("light_left_at_0_5_mm", half),
            ("light_left_at_1_mm", one),
            ("light_left_at_2_mm", two),
        ]);
        values.push(("half_the_light_at", mm(alignment.half_at.aside)));
    }
    if let Some(over) = &done.turned_over {
        values.push(("turned_over_miss", mm(over.miss)));
    }
    if let Some(blank) = &done.blank {
        values.push(("carrier_blank", mm(blank.diameter)));
    }
    if let Some(segment) = &done.segment {
        values.push(("segment_inset_both", mm(segment.segment_inset)));
    }
    if let Some(other) = &done.other {
        values.push(("other_eyepiece_x", mm(other.mounting.eyepiece.x)));
        values.push(("other_eyepiece_y", mm(other.mounting.eyepiece.y)));
        values.push(("other_least_web", mm(other.mounting.web.least)));
    }
    values
}

/// Spectacles for near, centred and judged.
pub(super) fn near(done: &NearDone, steps: &[Step]) -> Value {
    let mut values = vec![("print_to_lens", mm(done.fit.request.print_to_lens))];
    for eye in [Eye::Right, Eye::Left] {
        let Some(lens) = done.fit.lens(eye) else { continue };
        let of = |right: &'static str, left: &'static str| if eye == Eye::Right { right } else { left };
        values.extend([
            (of("right_centre_x", "left_centre_x"), mm(lens.optical_centre.x)),
            (of("right_centre_y", "left_centre_y"), mm(lens.optical_centre.y)),
            (of("right_inset", "left_inset"), mm(lens.inset.inset)),
            (of("right_blank", "left_blank"), mm(lens.blank.diameter)),
            (of("right_sphere_as_worn", "left_sphere_as_worn"), dioptres(lens.moved.worn.sphere)),
            (of("right_turns_in", "left_turns_in"), prism(lens.convergence.per_eye)),
            (of("right_base_in_exact", "left_base_in_exact"), prism(lens.exact_prism.base_in)),
        ]);
    }
    if let Some(both) = &done.fit.both {
        values.extend([("near_pd", mm(both.near_pd)), ("turned_in", prism(both.turned_in))]);
    }
    let mut fit = result("fit", &done.name, &values, &[("verdict", key(&done.verdict))], steps);
    fit["corner_assumed"] = done.corner_assumed.into();
    let checks = done.checks.iter().map(|one| {
        let mut told = checked(&one.check);
        told["eye"] = one.eye.map(|eye| key(&eye)).into();
        told
    });
    fit["checks"] = checks.collect();
    fit
}
