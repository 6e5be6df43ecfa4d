//! What to mark and order of spectacles for near.

use super::{Shown, eye_words};
use crate::model::answer::NearDone;
use crate::model::format;
use arcminute_core::fit::{Eye, NearLensFit, PrismRuleKind};
use arcminute_core::unit::{Length, Prism, Vergence};

/// Prism with its base in words: inward for a positive one.
fn prism(base_in: Prism) -> String {
    let amount = base_in.prism_dioptres();
    let base = if amount < 0.0 { "out" } else { "in" };
    format!("{} prism dioptres base {base}", format::decimals(arcminute_core::math::abs(amount), 2))
}

pub(super) fn marks(done: &NearDone) -> Vec<Shown> {
    let fit = &done.fit;
    let print = fit.request.print_to_lens;
    let mut marks = vec![Shown::new(
        "fit-print",
        "Lens to the print",
        format!("{} ({} in)", format::close(print), format::trimmed(print.inches(), 1)),
        "hold it there, and light it well",
    )];
    for eye in [Eye::Right, Eye::Left] {
        if let Some(lens) = fit.lens(eye) {
            marks.extend(of_eye(lens, print));
        }
    }
    if let Some(both) = &fit.both {
        marks.push(Shown::new(
            "fit-near-pd",
            "Optical centres apart",
            format::mm(both.centres_apart),
            format!("PD for near by geometry {}", format::mm(both.near_pd)),
        ));
        marks.push(Shown::new(
            "fit-turned-in",
            "Both eyes turn in by",
            format!("{} prism dioptres", format::decimals(both.turned_in.prism_dioptres(), 1)),
            format!("without the spectacles {}", format::decimals(both.bare.prism_dioptres(), 1)),
        ));
    }
    marks
}

fn of_eye(lens: &NearLensFit, print: Length) -> Vec<Shown> {
    let (eye, key) = (eye_words(lens.eye), if lens.eye == Eye::Right { "right" } else { "left" });
    let mut marks = Vec::new();
    let mut say = |name: &str, what: &str, value: String, note: String| {
        marks.push(Shown::new(format!("fit-{name}-{key}"), format!("{eye}: {what}"), value, note));
    };
    say(
        "centre",
        "optical centre",
        format!(
            "{} out, {} up",
            format::mm(lens.centre_in_lens_plane.in_lens_plane),
            format::mm(lens.optical_centre.y)
        ),
        format!(
            "from the middle of the bridge and from the lowest point of the lens; set in by {}",
            format::mm(lens.inset.inset)
        ),
    );
    say(
        "power",
        "power as worn",
        lens.moved.worn.rounded(Vergence::from_dioptres(0.01)).to_string(),
        "at the worn vertex distance, before rounding to what can be ordered".into(),
    );
    say(
        "prism",
        "prism that spares the eye all but what 40 cm asks of it",
        prism(lens.exact_prism.base_in),
        lens.rules
            .iter()
            .map(|rule| format!("{}: {}", rule_words(rule.kind), prism(rule.base_in)))
            .collect::<Vec<_>>()
            .join("; "),
    );
    say(
        "convergence",
        "turns in by",
        format!("{} prism dioptres", format::decimals(lens.convergence.per_eye.prism_dioptres(), 1)),
        format!(
            "without the lens {}; with {} worked on it, at {} from the lens",
            format::decimals(lens.convergence.bare.prism_dioptres(), 1),
            prism(lens.asked.base_in),
            format::close(print)
        ),
    );
    say(
        "induced",
        "prism if centred for far",
        format!(
            "{} prism dioptres base out",
            format::decimals(lens.inset.induced_base_out.prism_dioptres(), 2)
        ),
        "why the optical centre is set in".into(),
    );
    say(
        "blank",
        "blank at least",
        format::mm(lens.blank.diameter),
        format!(
            "{} for edging; by the rule of thumb {}",
            format::mm(lens.blank.allowance),
            format::mm(lens.blank.diameter_by_rule)
        ),
    );
    let [pantoscopic, wrap] = lens.tilt_change;
    say(
        "tilt",
        "what the tilt does to the power",
        format!("{} and {}", format::dioptres(pantoscopic), format::dioptres(wrap)),
        format!(
            "pantoscopic angle and face form, at most in any meridian; the first is nothing with the optical centre at {}",
            format::mm(lens.centre_for_tilt)
        ),
    );
    marks
}

fn rule_words(kind: PrismRuleKind) -> &'static str {
    match kind {
        PrismRuleKind::EachEyeAdd => "1 for each dioptre of add, each eye",
        PrismRuleKind::EachEyeAddAndTwo => "add and 2, each eye",
        PrismRuleKind::AddAndTwoInTotal => "add and 2, both eyes together",
    }
}
