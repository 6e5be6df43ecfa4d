//! The ladder lying down, for a phone: one line with the person, the first goal and the chosen aid.

use super::super::scale::{Linear, TEXT, fitted, hatch, spread, text_width};
use super::super::shape::number;
use super::super::{Anchor, Drawing, Shape, ViewBox};
use super::{LadderInput, sane, text, words};

const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 60.0;
const LINE: f64 = 32.0;
const ENDS: (f64, f64) = (10.0, 330.0);

/// The ladder in one line, 340 by 60: finer is to the right.
#[must_use]
pub fn ladder_strip(input: &LadderInput<'_>) -> Drawing {
    let goals = &input.goals[..input.goals.len().min(1)];
    let arrow = input.spoken();
    let arrows: Vec<_> = arrow.into_iter().collect();
    let (finest, coarsest) = input.range(goals, &arrows);
    let scale = Linear::new((coarsest + 0.1, finest - 0.1), ENDS);
    let now = scale.at(input.now());
    let line = |x1, y1, x2, y2, class| Shape::Line { x1, y1, x2, y2, class };
    let mut shapes = vec![line(ENDS.0, LINE, ENDS.1, LINE, "ladder-rail")];
    let mut tenths = arcminute_core::math::ceil((finest - 0.1) * 10.0);
    while tenths <= (coarsest + 0.1) * 10.0 {
        let x = scale.at(tenths / 10.0);
        shapes.push(line(x, LINE - 3.0, x, LINE + 3.0, "ladder-rung"));
        tenths += 1.0;
    }
    let mut band = |middle: f64, half: f64, class| {
        let (x, end) = (scale.at(middle + input.limit()), scale.at(middle - input.limit()));
        let (y, height) = (LINE - half, 2.0 * half);
        shapes.push(Shape::Rect { x, y, width: end - x, height, class });
        shapes.push(Shape::Path { d: hatch(x, y, end - x, height, 6.0), class: "ladder-hatch" });
    };
    band(input.now(), 7.0, "ladder-retest");
    if let Some(arrow) = arrow {
        let value = input.now() - arrow.climb();
        band(value, 5.0, "ladder-tip-band");
        let tip = scale.at(value);
        shapes.push(line(now, LINE, tip, LINE, arrow.class()));
        let back = (now - tip).clamp(-9.0, 9.0);
        let (shaft, y1, y2) = (number(tip + back), number(LINE - 6.0), number(LINE + 6.0));
        if 0.5 < arcminute_core::math::abs(back) {
            let d = format!("M{} {}L{shaft} {y1}L{shaft} {y2}Z", number(tip), number(LINE));
            shapes.push(Shape::Path { d, class: "ladder-head ladder-chosen" });
        }
        let content = fitted(&arrow.label, WIDTH / 2.0, TEXT);
        let half = text_width(&content, TEXT) / 2.0;
        let x = ((now + tip) / 2.0).clamp(half, WIDTH - half);
        shapes.push(text(x, 15.0, Anchor::Middle, content, "plot-text plot-strong"));
    }
    shapes.push(line(now, LINE - 10.0, now, LINE + 10.0, "ladder-now"));
    shapes.push(Shape::Circle { cx: now, cy: LINE, r: 5.0, class: "ladder-person-head" });
    let mut names = vec![(now, input.person_label.clone(), "plot-text plot-strong")];
    if let Some((name, acuity)) = goals.first() {
        let x = scale.at(sane(*acuity));
        shapes.push(line(x, LINE - 18.0, x, LINE + 10.0, "ladder-goal"));
        let (foot, flag) = (number(x), number(x + 9.0));
        let d = format!(
            "M{foot} {}L{flag} {}L{foot} {}",
            number(LINE - 20.0),
            number(LINE - 16.0),
            number(LINE - 12.0)
        );
        shapes.push(Shape::Path { d, class: "ladder-flag" });
        names.push((x, name.clone(), "plot-text"));
    }
    for name in &mut names {
        name.1 = fitted(&name.1, WIDTH / 2.0 - 6.0, TEXT);
    }
    let wanted: Vec<_> = names.iter().map(|name| (name.0, text_width(&name.1, TEXT) + 8.0)).collect();
    for ((_, name, class), x) in names.into_iter().zip(spread(&wanted, (0.0, WIDTH))) {
        shapes.push(text(x, HEIGHT - 5.0, Anchor::Middle, name, class));
    }
    Drawing {
        view_box: ViewBox { x: 0.0, y: 0.0, width: WIDTH, height: HEIGHT },
        unit_mm: None,
        title: "Ladder of the finest detail seen".into(),
        description: words::summary(input),
        rows: words::rows(input),
        shapes,
    }
}
