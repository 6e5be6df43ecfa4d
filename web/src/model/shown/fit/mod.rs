//! The numbers to mark and order, and the checks.

use super::Shown;
use crate::model::answer::{FitAnswer, FitDone};
use crate::model::{format, words};
use arcminute_core::fit::{Eye, Severity};

/// A check in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckShown {
    /// What is looked at.
    pub title: String,
    /// How severe.
    pub severity: Severity,
    /// The same in words.
    pub severity_words: &'static str,
    /// Found against allowed.
    pub sentence: String,
    /// How its limit is known.
    pub basis: &'static str,
    /// What would mend it.
    pub ways: Vec<String>,
}

/// The numbers to mark on the lens and to order.
#[must_use]
pub fn marks(fit: &FitAnswer) -> Vec<Shown> {
    let FitAnswer::Done(done) = fit else { return Vec::new() };
    let FitDone { mounting, request, .. } = done.as_ref();
    let eye = if request.eye == Eye::Right { "RIGHT eye" } else { "LEFT eye" };
    let mut marks = vec![
        Shown::new(
            "fit-x",
            "Sideways",
            format::mm(mounting.to_mark.x),
            format!(
                "{eye}: middle of the bridge to eyepiece centre, to the half millimetre (exact {})",
                format::mm(mounting.eyepiece.x)
            ),
        ),
        Shown::new(
            "fit-y",
            "Height",
            format::mm(mounting.to_mark.y),
            format!(
                "eyepiece centre above the lowest point of the lens, to the half millimetre (exact {})",
                format::mm(mounting.eyepiece.y)
            ),
        ),
        Shown::new(
            "fit-tilt",
            "Tilt from the carrier lens",
            format::degrees(mounting.tilt_to_carrier),
            "upward; also the angle of the front from vertical when the dropped head looks level through the ring",
        ),
        Shown::new(
            "fit-head-drop",
            "Head drop to use it",
            format::degrees(mounting.head_drop),
            "axis above the straight-ahead line of sight",
        ),
        Shown::new(
            "fit-opening",
            "Opening",
            format!(
                "{} wide, {} high",
                format::mm(mounting.hole_half_width * 2.0),
                format::mm(mounting.hole_half_height * 2.0)
            ),
            format!(
                "barrel {} and {} of play all round",
                format::mm(request.barrel_radius * 2.0),
                format::mm(request.play)
            ),
        ),
        Shown::new(
            "fit-web",
            "Thinnest lens left",
            format::mm(mounting.web.least),
            format!("{} or more is wanted", format::mm(request.least_web)),
        ),
        Shown::new(
            "fit-smallest-b",
            "Smallest box height for this place",
            format::mm(mounting.smallest_box_height),
            "above the opening; corners are judged by the thinnest lens left",
        ),
        Shown::new(
            "fit-segment-max",
            "Segment top at most",
            format::mm(mounting.segment_max),
            "above the lowest point of the lens",
        ),
    ];
    if let (Some(ordered), Some(miss)) = (request.ordered_tilt, mounting.miss_distance) {
        let limit = mounting
            .miss_limit
            .map(|limit| format!("; at most {} lets light in", format::mm(limit)))
            .unwrap_or_default();
        marks.push(Shown::new(
            "fit-miss",
            "Tilt ordered by hand",
            format!("{}, misses the eye by {}", format::degrees(ordered), format::mm(miss.abs())),
            format!("past the centre of rotation{limit}"),
        ));
    }
    marks
}

/// The checks, worst first.
#[must_use]
pub fn checks(fit: &FitAnswer) -> Vec<CheckShown> {
    let FitAnswer::Done(done) = fit else { return Vec::new() };
    let worst_first = [Severity::Refuse, Severity::Warning, Severity::Pass];
    worst_first
        .iter()
        .flat_map(|severity| done.checks.iter().filter(move |check| check.severity == *severity))
        .map(|check| CheckShown {
            title: words::check_name(check),
            severity: check.severity,
            severity_words: words::severity(check.severity),
            sentence: words::check_sentence(check),
            basis: words::check_basis(check.id),
            ways: if check.severity == Severity::Pass {
                Vec::new()
            } else {
                check.ways_out.iter().map(words::way_out).collect()
            },
        })
        .collect()
}
