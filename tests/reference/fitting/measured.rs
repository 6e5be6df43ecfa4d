//! Brute force: the outline as a polygon, the opening as points, every distance measured; over random frames and faces.

#[path = "../../../core/tests/law/cases.rs"]
mod cases;

use self::cases::cases;
use super::mm;
use arcminute_core::bounds;
use arcminute_core::fit::{
    CheckId, Context, Eye, FellowLens, Fit, Frame, Mounting, MountingRequest, Placement, Point, Severity,
    check, mount, ways_out,
};
use arcminute_core::math;
use arcminute_core::unit::{Angle, Length};
use proptest::prelude::{ProptestConfig, Strategy, prop_assert, proptest};
use proptest::sample::select;

/// Corner points of the outline; straight sides are one segment each, corners arcs of so many chords: 36 leave the arc by
/// at most 0.007 mm.
fn outline(frame: &Frame, chords: usize) -> Vec<(f64, f64)> {
    let (a, b, r) = (frame.box_width.mm() / 2.0, frame.box_height.mm() / 2.0, frame.corner_radius.mm());
    let (x, y) = (frame.bridge.mm() / 2.0 + a, b);
    let mut points = Vec::new();
    for (quarter, (sx, sy)) in [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)].into_iter().enumerate() {
        for chord in 0..=chords {
            let turn = math::PI / 2.0 * (quarter as f64 + chord as f64 / chords as f64);
            points.push((x + sx * (a - r) + r * math::cos(turn), y + sy * (b - r) + r * math::sin(turn)));
        }
    }
    points
}

/// Distance to the polygon, negative inside (an odd number of sides lies to the right of the point).
fn distance_to(polygon: &[(f64, f64)], x: f64, y: f64) -> f64 {
    let (mut nearest, mut inside) = (f64::INFINITY, false);
    let mut from = polygon[polygon.len() - 1];
    for &to in polygon {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let squared = dx * dx + dy * dy;
        let along = if squared > 0.0 { ((x - from.0) * dx + (y - from.1) * dy) / squared } else { 0.0 };
        let along = along.clamp(0.0, 1.0);
        let (px, py) = (x - from.0 - along * dx, y - from.1 - along * dy);
        nearest = f64::min(nearest, px * px + py * py);
        if (from.1 > y) != (to.1 > y) && x < from.0 + (y - from.1) / dy * dx {
            inside = !inside;
        }
        from = to;
    }
    let distance = math::sqrt(nearest);
    if inside { -distance } else { distance }
}

/// Least web by measuring from points of the opening, 3 degrees apart and then 0.1 degrees apart round the worst.
fn measured_web(mounting: &Mounting) -> f64 {
    let polygon = outline(&mounting.request.frame, 36);
    let (x, y) = (mounting.eyepiece.x.mm(), mounting.eyepiece.y.mm());
    let (w, h) = (mounting.hole_half_width.mm(), mounting.hole_half_height.mm());
    let web_at = |degrees: f64| {
        let turn = degrees * math::PI / 180.0;
        -distance_to(&polygon, x + w * math::cos(turn), y + h * math::sin(turn))
    };
    let least = |degrees: &mut dyn Iterator<Item = f64>| {
        degrees.map(|at| (web_at(at), at)).fold((f64::INFINITY, 0.0), |a, b| if b.0 < a.0 { b } else { a })
    };
    let (_, worst) = least(&mut (0..120).map(|step| f64::from(step) * 3.0));
    least(&mut (-30..=30).map(|step| worst + f64::from(step) * 0.1)).0
}

/// Nasal and temporal end of the outline at a height: where its sides cross that level. Near the top and the bottom of a
/// corner a chord that is a little inside is far aside, so there are many.
fn measured_ends(frame: &Frame, height: f64) -> Option<(f64, f64)> {
    let polygon = outline(frame, 720);
    let mut ends: Option<(f64, f64)> = None;
    let mut from = polygon[polygon.len() - 1];
    for &to in &polygon {
        if (from.1 > height) != (to.1 > height) {
            let x = from.0 + (to.0 - from.0) * (height - from.1) / (to.1 - from.1);
            ends = Some(ends.map_or((x, x), |(low, high)| (low.min(x), high.max(x))));
        }
        from = to;
    }
    ends
}

/// What an opening lacks of its web and a segment of its gap, by measurement; above zero when both are kept.
fn measured_slack(mounting: &Mounting) -> f64 {
    let request = &mounting.request;
    let web = measured_web(mounting) - request.least_web.mm();
    let bottom = mounting.eyepiece.y.mm() - mounting.oval_half_height.mm();
    let gap = |top: Length| bottom - request.segment_gap.mm() - top.mm();
    request.segment_height.map_or(web, |top| web.min(gap(top)))
}

/// Any frame, face and order that `bounds` calls possible and that have a pupil behind the lens: every rule, and a place by
/// hand anywhere about the lens; far and near; corners from square to as round as the box allows.
fn any_request() -> impl Strategy<Value = MountingRequest> {
    let sizes = (
        36.0..66.0_f64,
        24.0..60.0_f64,
        10.0..28.0_f64,
        select(vec![0.0, 0.1, 0.35, 0.6, 0.9, 1.0]),
        0.0..0.1_f64,
    );
    let face = (22.0..42.0_f64, 0.2..0.8_f64, 1.0..4.0_f64, -5.0..15.0_f64);
    let scope = (6.0..26.0_f64, 0.0..1.5_f64, 1.0..5.0_f64, 0..=Placement::ALL.len());
    let place = (-0.05..1.05_f64, -0.05..1.05_f64, select(vec![None, Some(120.0), Some(400.0)]));
    (sizes, face, scope, place).prop_map(
        |(
            (a, b, dbl, corner, more),
            (pd, height, pupil, lean),
            (barrel, play, web, rule),
            (across, up, near),
        )| {
            let corner = mm(f64::min(corner + more, 1.0) * a.min(b) / 2.0);
            let frame = Frame { box_width: mm(a), box_height: mm(b), bridge: mm(dbl), corner_radius: corner };
            let by_hand = Placement::ByHand(Point::from_mm(dbl / 2.0 + across * a, up * b));
            MountingRequest {
                pupil_radius: mm(pupil),
                play: mm(play),
                least_web: mm(web),
                pantoscopic: Angle::from_degrees(lean),
                rule: Placement::ALL.get(rule).copied().unwrap_or(by_hand),
                working_distance: near.map(mm),
                ..MountingRequest::usual(Eye::Left, frame, mm(pd), mm(height * b), mm(barrel))
            }
        },
    )
}

fn config() -> ProptestConfig {
    ProptestConfig { cases: cases(10_000), failure_persistence: None, ..ProptestConfig::default() }
}

/// How far a closed form may lie from what is measured on the sampled outline, in millimetres.
const AGREES: f64 = 0.01;

/// Asked of a mounting as the shortest way out: with this change it is kept by measurement, with a little less it is not.
fn is_turning_point(with: &dyn Fn(f64) -> Option<Mounting>, at: f64, less: f64) -> Result<(), String> {
    let slack = |value: f64| with(value).map_or(f64::NEG_INFINITY, |mounting| measured_slack(&mounting));
    let (kept, broken) = (slack(at), slack(less));
    if kept < -AGREES {
        return Err(format!("{at} breaks by {kept}"));
    }
    if AGREES < broken {
        return Err(format!("{less} already keeps it, by {broken}"));
    }
    Ok(())
}

proptest! {
    #![proptest_config(config())]

    /// Law: over 10,000 random frames and openings, least web, its box form straight above and the ends of a segment are
    /// what the sampled outline measures; tau less beta is phi.
    #[test]
    fn closed_geometry_agrees_with_measurement(request in any_request(), share in 0.02..0.98_f64) {
        let frame = &request.frame;
        let level = share * frame.box_height.mm();
        let (nasal, temporal) = frame.ends_at(mm(level)).expect("on the lens");
        let (low, high) = measured_ends(frame, level).expect("on the lens");
        prop_assert!(
            (nasal.mm() - low).abs() < AGREES && (temporal.mm() - high).abs() < AGREES,
            "ends {nasal:?} {temporal:?}, measured {low} {high}"
        );
        if let Ok(mounting) = mount(&request) {
            let measured = measured_web(&mounting);
            prop_assert!((mounting.web.least.mm() - measured).abs() < AGREES, "web {:?}, measured {measured}", mounting.web);
            let lean = mounting.tilt_to_carrier - mounting.head_drop;
            prop_assert!((lean - request.pantoscopic).abs().degrees() < 1e-9, "lean {lean:?}");
            let top = mounting.eyepiece.y.mm() + mounting.hole_half_height.mm() + request.least_web.mm();
            prop_assert!((mounting.smallest_box_height.mm() - top).abs() < 1e-9, "{:?}", mounting.smallest_box_height);
        }
    }

    /// Law: no accepted fit breaks the web, box or segment rule by measurement; no refused one keeps them all.
    #[test]
    fn accepted_fits_keep_the_rules(
        request in any_request(),
        (top, width, inset) in (2.0..30.0_f64, 15.0..60.0_f64, -3.0..6.0_f64),
    ) {
        let request = MountingRequest { segment_height: Some(mm(top)), ..request };
        let Ok(mounting) = mount(&request) else { return Ok(()) };
        let slack = measured_slack(&mounting);
        let middle = request.monocular_pd.mm() - inset;
        let room = measured_ends(&request.frame, top)
            .map_or(f64::NEG_INFINITY, |(low, high)| f64::min(middle - low, high - middle) - width / 2.0);
        let context = Context {
            fellow_lens: Some(FellowLens::Clear),
            segment_width: Some(mm(width)),
            segment_inset: Some(mm(inset)),
            ..Context::default()
        };
        let checks = check(&mounting, &context);
        if Fit::of(&checks) != Fit::Refused {
            prop_assert!(-AGREES < slack, "accepted, short by {slack}");
            prop_assert!(-AGREES < room, "accepted, segment off the lens by {room}");
        }
        let refused = |by: fn(CheckId) -> bool| {
            checks.iter().any(|check| check.severity == Severity::Refuse && by(check.id))
        };
        prop_assert!(refused(|id| id != CheckId::SegmentOnLens) || -AGREES < slack, "not refused, short by {slack}");
        prop_assert!(!refused(|id| id != CheckId::SegmentOnLens) || slack < AGREES, "refused, kept by {slack}");
        prop_assert!(refused(|id| id == CheckId::SegmentOnLens) || -AGREES < room, "not refused, off by {room}");
        prop_assert!(!refused(|id| id == CheckId::SegmentOnLens) || room < AGREES, "refused, on by {room}");
    }

    /// Law: the sizes that a refused fit names are where it becomes possible, by measurement: box height, barrel, depth below.
    #[test]
    fn ways_out_are_where_measurement_turns(request in any_request()) {
        let ways = ways_out(&request);
        let with_height = |height: f64| {
            let frame = Frame { box_height: mm(height), ..request.frame };
            mount(&MountingRequest { frame, ..request }).ok()
        };
        let with_barrel = |diameter: f64| {
            mount(&MountingRequest { barrel_radius: mm(diameter / 2.0), ..request }).ok()
        };
        let with_depth = |deeper: f64| {
            let frame = Frame { box_height: request.frame.box_height + mm(deeper), ..request.frame };
            let pupil_height = request.pupil_height + mm(deeper);
            mount(&MountingRequest { frame, pupil_height, ..request }).ok()
        };
        for (what, with, at, less) in [
            ("height", &with_height as &dyn Fn(f64) -> Option<Mounting>, ways.smallest_box_height, -1.0),
            ("barrel", &with_barrel, ways.largest_barrel, 1.0),
            ("depth", &with_depth, ways.deeper_below, -1.0),
        ] {
            let Some(at) = at.map(Length::mm) else { continue };
            // An end of what is possible is no turning point, nor is a box as low as its own corners.
            let end = match what {
                "height" => at - bounds::BOX_HEIGHT.possible.0 < 0.02
                    || at < 2.0 * request.frame.corner_radius.mm() + 0.02
                    || at - request.pupil_height.mm() < 0.02,
                "barrel" => bounds::BARREL.possible.1 - at < 0.02,
                _ => at < 0.02,
            };
            let less = if end { None } else { Some(at + less * 0.02) };
            let turned = is_turning_point(with, at, less.unwrap_or(f64::NAN));
            prop_assert!(turned == Ok(()), "{what} {at}: {turned:?}");
        }
        // The closed form is the smallest height where it is the top that is thin, and never above it.
        let smallest = ways.smallest_box_height.filter(|_| request.rule == Placement::PupilTop).map(Length::mm);
        if let Some((smallest, at)) = smallest.and_then(|height| Some((height, with_height(height)?))) {
            let (closed, corners) = (at.smallest_box_height.mm(), 2.0 * request.frame.corner_radius.mm() + 0.1);
            prop_assert!(closed <= smallest + 1e-5, "closed form {closed}, searched {smallest}");
            let top_is_thin = (at.web.direction.degrees() - 90.0).abs() < 1e-3 && corners < smallest;
            prop_assert!(!top_is_thin || (closed - smallest).abs() < 1e-4, "closed form {closed}, searched {smallest}");
        }
        if let Some(highest) = ways.highest_segment {
            let mounting = mount(&MountingRequest { segment_height: Some(highest), ..request }).expect("possible");
            let bottom = mounting.eyepiece.y.mm() - mounting.oval_half_height.mm();
            prop_assert!((bottom - highest.mm() - request.segment_gap.mm()).abs() < 1e-9, "segment {highest:?}");
        }
        for rule in ways.rules {
            let other = mount(&MountingRequest { rule, ..request }).expect("possible");
            prop_assert!(-AGREES < measured_slack(&other), "{rule:?} is offered");
        }
    }
}
