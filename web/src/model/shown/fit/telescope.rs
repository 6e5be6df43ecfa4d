//! What to mark and order of a telescope in a carrier lens.

use super::{Shown, eye_words};
use crate::model::answer::FitDone;
use crate::model::format;
use arcminute_core::explain::{Explain, Step};
use arcminute_core::fit::{Mounting, Placement, TiltReference};
use arcminute_core::unit::{Angle, Length};

/// What a tilt is measured from, as it stands behind the number.
fn measured_from(reference: TiltReference) -> &'static str {
    match reference {
        TiltReference::CarrierNormal => "from the carrier lens",
        TiltReference::StraightAhead => "from the straight-ahead line of sight",
        TiltReference::NotStated => "not said from what (taken as from the carrier lens)",
    }
}

pub(super) fn marks(done: &FitDone) -> Vec<Shown> {
    let mut marks = of_eye(&done.mounting, "");
    marks.extend(ordered_by_hand(&done.mounting, ""));
    if let Some(other) = &done.other {
        marks.extend(of_eye(&other.mounting, "-other"));
        marks.extend(ordered_by_hand(&other.mounting, "-other"));
    }
    marks.extend(aim(done));
    marks.extend(around(done));
    marks
}

fn of_eye(mounting: &Mounting, key: &str) -> Vec<Shown> {
    let request = &mounting.request;
    let eye = eye_words(request.eye);
    let mut marks = Vec::new();
    let mut say = |name: &str, what: &str, value: String, note: String| {
        let what = if key.is_empty() { what.to_owned() } else { format!("{what}, {eye}") };
        marks.push(Shown::new(format!("{name}{key}"), what, value, note));
    };
    let exact = format::mm;
    say(
        "fit-x",
        "Sideways",
        exact(mounting.to_mark.x),
        format!(
            "{eye}: middle of the bridge to eyepiece centre, to the half millimetre (exact {})",
            exact(mounting.eyepiece.x)
        ),
    );
    say(
        "fit-y",
        "Height",
        exact(mounting.to_mark.y),
        format!(
            "eyepiece centre above the lowest point of the lens, to the half millimetre (exact {})",
            exact(mounting.eyepiece.y)
        ),
    );
    say(
        "fit-tilt",
        "Tilt from the carrier lens",
        format::degrees(mounting.tilt_to_carrier),
        "upward; measured from the line at right angles to the lens; also the angle of the front from vertical when the dropped head looks level through the ring".into(),
    );
    let (drop, how) = if mounting.head_drop < Angle::ZERO {
        ("Eyes drop to use it", "axis below the straight-ahead line of sight")
    } else {
        ("Head drop to use it", "axis above the straight-ahead line of sight")
    };
    say("fit-head-drop", drop, format::degrees(mounting.head_drop.abs()), how.into());
    if mounting.toe_in != Angle::ZERO {
        let distance = request.working_distance.map(format::close).unwrap_or_default();
        say(
            "fit-toe-in",
            "Turned in",
            format::degrees(mounting.toe_in),
            format!("for {distance} from the lens"),
        );
    }
    say(
        "fit-opening",
        "Opening",
        format!(
            "{} wide, {} high",
            exact(mounting.hole_half_width * 2.0),
            exact(mounting.hole_half_height * 2.0)
        ),
        format!(
            "barrel {} and {} of play all round",
            exact(request.barrel_radius * 2.0),
            exact(request.play)
        ),
    );
    say(
        "fit-web",
        "Thinnest lens left",
        exact(mounting.web.least),
        format!("{} or more is wanted", exact(request.least_web)),
    );
    if !matches!(request.rule, Placement::Low) && key.is_empty() {
        say(
            "fit-smallest-b",
            "Smallest box height for this place",
            exact(mounting.smallest_box_height),
            "above the opening; corners are judged by the thinnest lens left".into(),
        );
    }
    if Length::ZERO < mounting.segment_max {
        say(
            "fit-segment-max",
            "Segment top at most",
            exact(mounting.segment_max),
            "above the lowest point of the lens".into(),
        );
    }
    marks
}

/// A tilt that was ordered by hand, with what it is measured from and how far it passes the eye.
fn ordered_by_hand(mounting: &Mounting, key: &str) -> Option<Shown> {
    let request = &mounting.request;
    let (ordered, miss) = (request.ordered_tilt?, mounting.miss_distance?);
    let limit = mounting.miss_limit.map(|limit| format!("; at most {} lets light in", format::mm(limit)));
    let value = format!(
        "{} {}, misses the eye by {}",
        format::degrees(ordered),
        measured_from(request.tilt_reference),
        format::mm(miss.abs())
    );
    let note = format!("past the centre of rotation{}", limit.unwrap_or_default());
    let what = "Tilt ordered by hand";
    let what = if key.is_empty() { what.to_owned() } else { format!("{what}, {}", eye_words(request.eye)) };
    Some(Shown::new(format!("fit-miss{key}"), what, value, note))
}

/// What light is left beside the axis, and whether the telescope serves the other eye turned over.
fn aim(done: &FitDone) -> Vec<Shown> {
    let mut marks = Vec::new();
    if let Some(alignment) = &done.alignment {
        let left: Vec<String> = alignment
            .shifts
            .iter()
            .map(|shift| {
                format!("{} at {}", format::percent(shift.left), format::trimmed(shift.aside.mm(), 1))
            })
            .collect();
        marks.push(Shown::new(
            "fit-alignment",
            "Light left when it sits beside the eye",
            format!("{} mm", left.join(", ")),
            format!(
                "half is left at {}, none at {}; exit pupil {}, eye pupil {}",
                format::mm(alignment.half_at.aside),
                format::mm(alignment.none_at),
                format::mm(alignment.exit_pupil),
                format::mm(alignment.pupil)
            ),
        ));
    }
    if let Some(over) = &done.turned_over {
        let limit = over.limit.map(|limit| format!("; at most {} lets light in", format::mm(limit)));
        marks.push(Shown::new(
            "fit-turned-over",
            "Turned over to the other eye",
            format!("misses it by {}", format::mm(over.miss)),
            format!(
                "{} sideways, {} in height{}",
                format::mm(over.aside.abs()),
                format::mm(over.up.abs()),
                limit.unwrap_or_default()
            ),
        ));
    }
    marks
}

/// What else the workshop needs of the carrier lens.
fn around(done: &FitDone) -> Vec<Shown> {
    let mut marks = Vec::new();
    if let Some(blank) = &done.blank {
        marks.push(Shown::new(
            "fit-blank",
            "Carrier blank at least",
            format::mm(blank.diameter),
            format!(
                "optical centre before the pupil, {} for edging; by the rule of thumb {}",
                format::mm(blank.allowance),
                format::mm(blank.diameter_by_rule)
            ),
        ));
    }
    if let Some(near) = &done.segment {
        marks.push(Shown::new(
            "fit-segment-inset",
            "Segments set in, both together",
            format::mm(near.segment_inset),
            format!(
                "for {} from the lens, with {} across in the carrier",
                format::close(near.working_distance),
                format::dioptres(near.distance_power)
            ),
        ));
    }
    marks
}

pub(super) fn steps(done: &FitDone) -> Vec<Step> {
    let mut steps: Vec<Step> = done.mountings().flat_map(Explain::steps).collect();
    steps.extend(done.alignment.iter().flat_map(Explain::steps));
    steps.extend(done.turned_over.iter().flat_map(Explain::steps));
    steps.extend(done.blank.iter().flat_map(Explain::steps));
    steps.extend(done.segment.iter().flat_map(Explain::steps));
    steps
}
