//! The front of a frame in sentences and rows.

use arcminute_core::fit::{Alignment, Eye, Frame, Mounting, NearLensFit, NearSpectacles};
use arcminute_core::unit::{Angle, Length};

/// How the drawing is looked at.
pub(super) const VIEW: &str = "Seen from in front: the person's RIGHT eye is on the viewer's left.";

fn mm(length: Length) -> String {
    format!("{:.1} mm", length.mm())
}
fn exact(length: Length) -> String {
    format!("{:.2} mm", length.mm())
}
fn degrees(angle: Angle) -> String {
    format!("{:.1} degrees", angle.degrees())
}

fn name(eye: Eye) -> &'static str {
    match eye {
        Eye::Right => "RIGHT eye",
        Eye::Left => "LEFT eye",
    }
}

/// Where round the opening a direction points, in eight parts.
fn side(direction: Angle) -> &'static str {
    const SIDES: [&str; 8] = [
        "on the temporal side",
        "above, toward the temple",
        "above",
        "above, toward the nose",
        "on the nasal side",
        "below, toward the nose",
        "below",
        "below, toward the temple",
    ];
    let eighth = arcminute_core::math::round(direction.degrees() / 45.0) as usize;
    SIDES[eighth % SIDES.len()]
}

pub(super) fn title(mountings: &[Mounting]) -> String {
    let eyes: Vec<_> = mountings.iter().map(|mounting| name(mounting.request.eye)).collect();
    if eyes.is_empty() {
        return "Front of the frame".into();
    }
    format!("Front of the frame with the telescope before the {}", eyes.join(" and the "))
}

pub(super) fn description(frame: &Frame, mountings: &[Mounting]) -> String {
    let mut text = format!(
        "Front of the frame, at true size when printed at 100 %. {VIEW} Each lens is {} wide (A) and {} high (B), {} apart (DBL), with corners \
         of {} radius; the outline is a model, the traced shape decides.",
        mm(frame.box_width),
        mm(frame.box_height),
        mm(frame.bridge),
        mm(frame.corner_radius)
    );
    for mounting in mountings {
        text.push(' ');
        text.push_str(&one_eye(mounting));
    }
    text
}

fn one_eye(mounting: &Mounting) -> String {
    let asked = &mounting.request;
    let web = if mounting.web.least < Length::ZERO {
        format!(
            "The opening leaves the lens by {}, {}",
            mm(-mounting.web.least),
            side(mounting.web.direction)
        )
    } else {
        let enough =
            if mounting.web.least.mm() < asked.least_web.mm() - 1e-6 { "less than" } else { "at least" };
        let (least, wanted) = (mm(mounting.web.least), mm(asked.least_web));
        format!(
            "The web of lens is thinnest {}: {least}, {enough} the {wanted} wanted",
            side(mounting.web.direction)
        )
    };
    let segment =
        asked.segment_height.map_or(String::new(), |top| format!(" The segment line is at {}.", mm(top)));
    let room = if Length::ZERO < mounting.segment_max {
        format!(" A segment may reach up to {}.", mm(mounting.segment_max))
    } else {
        String::new()
    };
    let toe = if mounting.toe_in == Angle::ZERO {
        String::new()
    } else {
        format!(" It is turned in by {}.", degrees(mounting.toe_in))
    };
    format!(
        "{}: the pupil is {} from the middle of the bridge and {} above the lowest tangent. The eyepiece centre is {} from \
         the middle of the bridge and {} above the lowest tangent; mark {} and {}. The opening is {} wide and {} high. \
         The barrel is tilted {} to the carrier lens, and {} to use it.{toe} {web}.{room}{segment}",
        name(asked.eye),
        mm(asked.monocular_pd),
        mm(asked.pupil_height),
        exact(mounting.eyepiece.x),
        exact(mounting.eyepiece.y),
        mm(mounting.to_mark.x),
        mm(mounting.to_mark.y),
        mm(mounting.hole_half_width * 2.0),
        mm(mounting.hole_half_height * 2.0),
        degrees(mounting.tilt_to_carrier),
        drop_words(mounting.head_drop),
    )
}

/// Head or eyes drop, to look through what sits high or low.
fn drop_words(head_drop: Angle) -> String {
    let who = if head_drop < Angle::ZERO { "the eyes drop" } else { "the head drops" };
    format!("{who} by {}", degrees(head_drop.abs()))
}

pub(super) fn rows(frame: &Frame, mountings: &[Mounting]) -> Vec<(String, String)> {
    let mut rows: Vec<(String, String)> = [
        ("Box width A", frame.box_width),
        ("Box height B", frame.box_height),
        ("Bridge DBL", frame.bridge),
        ("Corner radius of the model outline", frame.corner_radius),
        ("Effective diameter ED", frame.effective_diameter()),
        ("Frame PD", frame.frame_pd()),
    ]
    .into_iter()
    .map(|(label, value)| (label.into(), mm(value)))
    .collect();
    for mounting in mountings {
        let eye = name(mounting.request.eye);
        rows.extend(eye_rows(mounting).into_iter().map(|(label, value)| (format!("{eye}: {label}"), value)));
    }
    rows
}

fn eye_rows(mounting: &Mounting) -> Vec<(&'static str, String)> {
    let asked = &mounting.request;
    let mut rows = vec![
        ("pupil from bridge centre", mm(asked.monocular_pd)),
        ("pupil above lowest tangent", mm(asked.pupil_height)),
        ("eyepiece X from bridge centre, to mark", mm(mounting.to_mark.x)),
        ("eyepiece X from bridge centre, exact", exact(mounting.eyepiece.x)),
        ("eyepiece Y above lowest tangent, to mark", mm(mounting.to_mark.y)),
        ("eyepiece Y above lowest tangent, exact", exact(mounting.eyepiece.y)),
        ("eyepiece above pupil", exact(mounting.rise)),
        ("head drop", degrees(mounting.head_drop)),
        ("tilt to the carrier lens", degrees(mounting.tilt_to_carrier)),
        ("eyepiece oval, width and height", pair(mounting.oval_half_width, mounting.oval_half_height)),
        ("opening, width and height", pair(mounting.hole_half_width, mounting.hole_half_height)),
        ("least web", format!("{} {}", exact(mounting.web.least), side(mounting.web.direction))),
        ("smallest box height B by the web above", exact(mounting.smallest_box_height)),
        ("segment top at most", exact(mounting.segment_max)),
    ];
    if mounting.toe_in != Angle::ZERO {
        rows.push(("toe-in", degrees(mounting.toe_in)));
    }
    if let Some(top) = asked.segment_height {
        rows.push(("segment top", mm(top)));
    }
    rows
}

/// How far the eyepiece may sit beside the eye.
pub(super) fn halo(alignment: &Alignment) -> String {
    format!(
        "Round each eyepiece: half of the light is left when it sits {} beside the eye, and none at {}.",
        mm(alignment.half_at.aside),
        mm(alignment.none_at)
    )
}

pub(super) fn halo_rows(alignment: &Alignment) -> Vec<(String, String)> {
    vec![
        ("Half of the light is left at".into(), mm(alignment.half_at.aside)),
        ("No light is left at".into(), mm(alignment.none_at)),
    ]
}

pub(super) const NEAR_TITLE: &str = "Front of the spectacles for near with their optical centres";

pub(super) fn near_description(fit: &NearSpectacles) -> String {
    let frame = &fit.request.frame;
    let mut text = format!(
        "Front of the frame, at true size when printed at 100 %. {VIEW} Each lens is {} wide (A) and {} high (B), {} apart \
         (DBL). Dashed: the blank that each lens is cut from.",
        mm(frame.box_width),
        mm(frame.box_height),
        mm(frame.bridge),
    );
    for lens in lenses(fit) {
        text.push_str(&format!(
            " {}: the pupil is {} from the middle of the bridge and {} above the lowest tangent; the optical centre {} and {}.",
            name(lens.eye),
            mm(lens.asked.monocular_pd),
            mm(lens.asked.pupil_height),
            mm(lens.optical_centre.x),
            mm(lens.optical_centre.y),
        ));
    }
    text
}

pub(super) fn near_rows(fit: &NearSpectacles) -> Vec<(String, String)> {
    let mut rows = Vec::new();
    for lens in lenses(fit) {
        let eye = name(lens.eye);
        for (what, value) in [
            ("pupil from bridge centre", lens.asked.monocular_pd),
            ("pupil above lowest tangent", lens.asked.pupil_height),
            ("optical centre from bridge centre", lens.optical_centre.x),
            ("optical centre above lowest tangent", lens.optical_centre.y),
            ("blank at least", lens.blank.diameter),
        ] {
            rows.push((format!("{eye}: {what}"), exact(value)));
        }
    }
    rows
}

pub(super) fn lenses(fit: &NearSpectacles) -> impl Iterator<Item = &NearLensFit> {
    [Eye::Right, Eye::Left].into_iter().filter_map(|eye| fit.lens(eye))
}

fn pair(half_width: Length, half_height: Length) -> String {
    format!("{:.2} by {:.2} mm", half_width.mm() * 2.0, half_height.mm() * 2.0)
}
