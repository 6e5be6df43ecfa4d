//! The front of spectacles for near, at true size: pupils, optical centres and the blanks that the lenses are cut from.

use super::frame_front::{captions, front, measures, outward, view};
use super::frame_words::{NEAR_TITLE, lenses, near_description, near_rows};
use super::shape::{Drawing, Shape};
use arcminute_core::fit::{NearLensFit, NearSpectacles};

/// Radius of the mark of a pupil; its size does not matter here.
const PUPIL_MM: f64 = 2.0;

/// Draws the front with the lenses of the eyes that are used, to scale, with the same content in words.
#[must_use]
pub fn near_front(fit: &NearSpectacles) -> Drawing {
    let frame = &fit.request.frame;
    let mut shapes = front(frame);
    for lens in lenses(fit) {
        shapes.extend(marks(lens));
        shapes.extend(measures(frame, lens.eye, lens.optical_centre, lens.optical_centre));
    }
    shapes.extend(captions(frame));
    let mut view_box = view(frame);
    // The blanks reach above the lenses.
    let top = lenses(fit).map(|lens| -lens.optical_centre.y.mm() - lens.blank.diameter.mm() / 2.0 - 2.0);
    let above = top.fold(view_box.y, f64::min);
    (view_box.y, view_box.height) = (above, view_box.height + view_box.y - above);
    Drawing {
        view_box,
        unit_mm: Some(1.0),
        title: NEAR_TITLE.into(),
        description: near_description(fit),
        rows: near_rows(fit),
        shapes,
    }
}

fn marks(lens: &NearLensFit) -> [Shape; 4] {
    let side = outward(lens.eye);
    let (x, y) = (side * lens.optical_centre.x.mm(), -lens.optical_centre.y.mm());
    let line = |x1, y1, x2, y2| Shape::Line { x1, y1, x2, y2, class: "cross" };
    [
        Shape::Circle { cx: x, cy: y, r: lens.blank.diameter.mm() / 2.0, class: "blank" },
        Shape::Circle {
            cx: side * lens.asked.monocular_pd.mm(),
            cy: -lens.asked.pupil_height.mm(),
            r: PUPIL_MM,
            class: "pupil",
        },
        line(x - 2.0, y, x + 2.0, y),
        line(x, y - 2.0, x, y + 2.0),
    ]
}
