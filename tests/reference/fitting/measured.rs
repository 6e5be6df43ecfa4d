//! Brute force: the outline as a polygon, the opening as points, every distance measured; over random frames and faces.

use super::mm;
use arcminute_core::fit::{
    CheckId, Context, Eye, Frame, Mounting, MountingRequest, Placement, Severity, check, mount, ways_out,
};
use arcminute_core::math;
use arcminute_core::unit::{Angle, Length};
use proptest::prelude::{ProptestConfig, Strategy, prop_assert, proptest};
use proptest::sample::select;

/// Corner points of the outline; straight sides are one segment each, corners arcs of chords that leave the arc by at
/// most 0.007 mm.
fn outline(frame: &Frame) -> Vec<(f64, f64)> {
    const CHORDS: usize = 36;
    let (a, b, r) = (frame.box_width.mm() / 2.0, frame.box_height.mm() / 2.0, frame.corner_radius.mm());
    let (x, y) = (frame.bridge.mm() / 2.0 + a, b);
    let mut points = Vec::new();
    for (quarter, (sx, sy)) in [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)].into_iter().enumerate() {
        for chord in 0..=CHORDS {
            let turn = math::PI / 2.0 * (quarter as f64 + chord as f64 / CHORDS as f64);
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
    let polygon = outline(&mounting.request.frame);
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

/// Any frame and face that `bounds` calls possible and that have a pupil behind the lens.
fn any_request() -> impl Strategy<Value = MountingRequest> {
    let sizes = (36.0..66.0_f64, 24.0..60.0_f64, 10.0..28.0_f64, 0.0..1.0_f64);
    let face = (22.0..42.0_f64, 0.2..0.8_f64, 1.0..4.0_f64, -5.0..15.0_f64);
    let scope = (6.0..26.0_f64, 0.0..1.5_f64, 1.0..5.0_f64, select(Placement::ALL.to_vec()));
    (sizes, face, scope).prop_map(
        |((a, b, dbl, corner), (pd, height, pupil, lean), (barrel, play, web, rule))| {
            let corner = mm(corner * a.min(b) / 2.0);
            let frame = Frame { box_width: mm(a), box_height: mm(b), bridge: mm(dbl), corner_radius: corner };
            MountingRequest {
                pupil_radius: mm(pupil),
                play: mm(play),
                least_web: mm(web),
                pantoscopic: Angle::from_degrees(lean),
                rule,
                ..MountingRequest::usual(Eye::Left, frame, mm(pd), mm(height * b), mm(barrel))
            }
        },
    )
}

fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(cases(10_000))]

    /// 10,000 random frames: least web against measurement, and tau less beta is phi.
    #[test]
    fn least_web_agrees_with_measurement(request in any_request()) {
        if let Ok(mounting) = mount(&request) {
            let measured = measured_web(&mounting);
            prop_assert!((mounting.web.least.mm() - measured).abs() < 0.01, "web {:?}, measured {measured}", mounting.web);
            let lean = mounting.tilt_to_carrier - mounting.head_drop;
            prop_assert!((lean - request.pantoscopic).abs().degrees() < 1e-9, "lean {lean:?}");
        }
    }
}

proptest! {
    #![proptest_config(cases(250))]

    /// No accepted fit breaks the web, box or segment rule by measurement; no refused one keeps them all.
    #[test]
    fn accepted_fits_keep_the_rules(request in any_request(), segment in 5.0..25.0_f64) {
        let request = MountingRequest { segment_height: Some(mm(segment)), ..request };
        if let Ok(mounting) = mount(&request) {
            let web = measured_web(&mounting) - request.least_web.mm();
            let gap = mounting.eyepiece.y.mm() - mounting.oval_half_height.mm() - segment - request.segment_gap.mm();
            let refused = check(&mounting, &Context::default()).iter().any(|check| {
                check.severity == Severity::Refuse && check.id != CheckId::SegmentOnLens
            });
            prop_assert!(refused || (web > -0.01 && gap > -0.01), "accepted with web {web}, gap {gap} over the least");
            prop_assert!(!refused || web < 0.01 || gap < 0.01, "refused with web {web}, gap {gap} over the least");
        }
    }

    /// Law: under rule P the smallest box height is accepted, 0.1 mm less is not; the closed form is that height when it is the
    /// top that is thin, and never above it.
    #[test]
    fn the_smallest_box_height_is_the_smallest(request in any_request()) {
        let request = MountingRequest { rule: Placement::PupilTop, ..request };
        let with = |height: Length| {
            let frame = Frame { box_height: height, ..request.frame };
            mount(&MountingRequest { frame, ..request })
        };
        let fits = |mounting: &Mounting| mounting.web.least.mm() >= request.least_web.mm() - 1e-6;
        if let Some(smallest) = ways_out(&request).smallest_box_height {
            let at = with(smallest).expect("a possible frame");
            prop_assert!(fits(&at), "{smallest:?} is accepted");
            // A box lower than its two corners is no outline of the model: there the search stops at the corners.
            if smallest.mm() < 2.0 * request.frame.corner_radius.mm() + 0.1 {
                return Ok(());
            }
            prop_assert!(!with(smallest - mm(0.1)).is_ok_and(|less| fits(&less)), "0.1 mm less than {smallest:?} is not");
            prop_assert!(at.smallest_box_height.mm() <= smallest.mm() + 1e-5, "closed form {:?}", at.smallest_box_height);
            if (at.web.direction.degrees() - 90.0).abs() < 1e-3 {
                let apart = (at.smallest_box_height - smallest).abs().mm();
                prop_assert!(apart < 1e-4, "closed form {:?}, searched {smallest:?}", at.smallest_box_height);
            }
        }
    }
}
