//! The picture of two things weighed against each other.

use super::super::laws::check_sound;
use super::*;

fn percent(value: f64) -> String {
    format!("{value:.0} %")
}
fn plain(value: f64) -> String {
    format!("{value:.1}")
}

fn axis<'a>(name: &str, words: &'a dyn Fn(f64) -> String) -> Axis<'a> {
    Axis { name: name.into(), less_is_better: false, ratio: false, words }
}

fn point(key: &str, across: f64, up: f64) -> TradeoffPoint {
    TradeoffPoint { key: key.into(), name: format!("Aid {key}"), across, up, chosen: false }
}

fn input(points: Vec<TradeoffPoint>) -> TradeoffInput<'static> {
    TradeoffInput { across: axis("Seen at once", &plain), up: axis("Chance of the goal", &percent), points }
}

/// Where the mark of a key stands, and its class.
fn mark(drawing: &Drawing, wanted: &str) -> (f64, f64, &'static str) {
    drawing
        .shapes
        .iter()
        .find_map(|shape| match shape {
            Shape::Pick { cx, cy, class, key, .. } if key == wanted => Some((*cx, *cy, *class)),
            _ => None,
        })
        .expect("it is drawn")
}

#[test]
fn what_none_beats_is_on_the_line_and_the_rest_under_it() {
    let mut points =
        vec![point("a", 1.0, 90.0), point("b", 5.0, 60.0), point("c", 4.0, 50.0), point("d", 9.0, 10.0)];
    points[2].chosen = true;
    let drawing = tradeoff(&input(points)).expect("a picture");
    check_sound(&drawing);
    for key in ["a", "b", "d"] {
        assert_eq!(mark(&drawing, key).2, "tradeoff-mark tradeoff-best", "{key}");
    }
    assert_eq!(mark(&drawing, "c").2, "tradeoff-mark tradeoff-chosen");
    let [(ax, ay, _), (bx, by, _), (dx, dy, _)] = ["a", "b", "d"].map(|key| mark(&drawing, key));
    assert!(ax < bx && bx < dx && ay < by && by < dy, "better is to the right and up");
    assert_eq!(
        drawing.description,
        "4 aids by seen at once and chance of the goal; better is to the right and up. No other is better on both than \
         Aid a, Aid b and Aid d. The chosen one, Aid c, is beaten on both by another."
    );
    assert_eq!(drawing.title, "Chance of the goal against seen at once");
    let told = ("Aid c (chosen)".into(), "seen at once 4.0, chance of the goal 50 %: beaten on both".into());
    assert!(drawing.rows.contains(&told), "{:?}", drawing.rows);
}

#[test]
fn where_less_is_better_the_axis_runs_backwards() {
    let mut input = input(vec![point("weak", 2.0, 50.0), point("strong", 20.0, 50.0)]);
    input.across = Axis { less_is_better: true, ratio: true, ..axis("Power", &plain) };
    let drawing = tradeoff(&input).expect("a picture");
    check_sound(&drawing);
    let ((weak, _, best), (strong, _, beaten)) = (mark(&drawing, "weak"), mark(&drawing, "strong"));
    assert!(strong < weak, "less is better, so it stands to the right");
    assert_eq!((best, beaten), ("tradeoff-mark tradeoff-best", "tradeoff-mark"));
}

#[test]
fn what_is_no_number_is_left_out() {
    assert_eq!(tradeoff(&input(vec![])), None);
    assert_eq!(tradeoff(&input(vec![point("a", f64::NAN, 1.0)])), None);
    let mut ratio = input(vec![point("a", 0.0, 1.0), point("b", 1.0, 1.0)]);
    ratio.across.ratio = true;
    let drawing = tradeoff(&ratio).expect("one is left");
    assert_eq!(drawing.rows.len(), 1, "{:?}", drawing.rows);
    check_sound(&drawing);
}

/// Numbers of 0 to 1 without a pattern, the same at each run (xorshift, Marsaglia 2003).
fn numbers(mut seed: u64) -> impl FnMut() -> f64 {
    move || {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        (seed >> 11) as f64 / (1_u64 << 53) as f64
    }
}

#[test]
fn any_aids_make_a_sound_picture() {
    let mut number = numbers(0x5eed);
    for case in 0..400 {
        let aids = 1 + (number() * 50.0) as usize;
        // Some values stand twice.
        let values: Vec<(f64, f64)> = (0..aids)
            .map(|_| (math::pow(10.0, math::round_to(number() * 5.0 - 1.0, 0.1)), number() * 100.0))
            .collect();
        let mut points: Vec<_> = values
            .iter()
            .enumerate()
            .map(|(at, (across, up))| point(&at.to_string(), *across, *up))
            .collect();
        if let Some(point) = points.get_mut(case % 60) {
            point.chosen = true;
        }
        let mut input = input(points);
        let less_is_better = case % 2 == 1;
        (input.across.ratio, input.across.less_is_better) = (case % 3 == 0, less_is_better);
        let drawing = tradeoff(&input).expect("a picture");
        check_sound(&drawing);
        // By comparing every pair anew.
        let better = |one: f64, other: f64| if less_is_better { one < other } else { other < one };
        for (place, (across, up)) in values.iter().enumerate() {
            let beaten = values.iter().any(|(a, u)| {
                let no_worse = !better(*across, *a) && up <= u;
                no_worse && (better(*a, *across) || up < u)
            });
            let best = mark(&drawing, &place.to_string()).2.contains("tradeoff-best");
            assert_eq!(best, !beaten, "aid {place} of {values:?}");
        }
    }
}
