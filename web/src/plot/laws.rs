//! What holds for every picture.

use super::scale::{TEXT, text_width};
use super::{Anchor, Drawing, Shape};

/// Left, upper, right and lower edge of a text.
fn extent(shape: &Shape) -> Option<(f64, f64, f64, f64, &str)> {
    let Shape::Text { x, y, anchor, content, .. } = shape else { return None };
    let width = text_width(content, TEXT);
    let left = match anchor {
        Anchor::Start => *x,
        Anchor::Middle => x - width / 2.0,
        Anchor::End => x - width,
    };
    Some((left, y - 0.75 * TEXT, left + width, y + 0.2 * TEXT, content))
}

/// Fails unless every number in it is one, every label is inside, no label lies over another and the words are there.
#[track_caller]
pub(crate) fn check_sound(drawing: &Drawing) {
    for shape in &drawing.shapes {
        let svg = shape.svg();
        let numbers = svg.split('>').next().unwrap_or_default();
        assert!(!numbers.contains("NaN") && !numbers.contains("inf"), "no number in {svg}");
    }
    assert!(!drawing.description.contains("NaN"), "no number in {}", drawing.description);
    let frame = drawing.view_box;
    assert!(0.0 < frame.width && 0.0 < frame.height, "nothing is shown: {frame:?}");
    assert!(frame.width <= 360.0 || (600.0..=640.0).contains(&frame.width), "small words: {frame:?}");
    let texts: Vec<_> = drawing.shapes.iter().filter_map(extent).collect();
    for (index, &(left, top, right, bottom, content)) in texts.iter().enumerate() {
        let inside = frame.x - 0.5 <= left
            && right <= frame.x + frame.width + 0.5
            && frame.y - 0.5 <= top
            && bottom <= frame.y + frame.height + 0.5;
        assert!(inside, "`{content}` leaves the picture: {left} {top} {right} {bottom} in {frame:?}");
        for &(other_left, other_top, other_right, other_bottom, other) in &texts[..index] {
            let apart =
                right <= other_left || other_right <= left || bottom <= other_top || other_bottom <= top;
            assert!(apart, "`{content}` lies over `{other}`");
        }
    }
    assert!(
        !drawing.title.is_empty() && drawing.description.ends_with('.'),
        "words: {}",
        drawing.description
    );
    assert!(
        drawing.rows.iter().all(|(label, value)| !label.is_empty() && !value.is_empty()),
        "{:?}",
        drawing.rows
    );
}
