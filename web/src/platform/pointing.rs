//! Where a pointer is in a picture.

use crate::plot::ViewBox;
use leptos::wasm_bindgen::JsCast;

/// Lets all that a pointer does until it is lifted go to the mark that it was put on.
pub fn hold_pointer(event: &leptos::ev::PointerEvent) {
    let target = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    if let Some(target) = target {
        // A pointer that has been lifted meanwhile holds nothing.
        let _ = target.set_pointer_capture(event.pointer_id());
    }
}

/// The place of a pointer in the drawing units of the picture that the mark belongs to, which is shown whole.
#[must_use]
pub fn place_in(event: &leptos::ev::PointerEvent, view: &ViewBox) -> Option<(f64, f64)> {
    let mark = event.current_target()?.dyn_into::<web_sys::Element>().ok()?;
    let shown = mark.closest("svg").ok()??.get_bounding_client_rect();
    let per_unit = (shown.width() / view.width).min(shown.height() / view.height);
    if per_unit <= 0.0 {
        return None;
    }
    // What is left over beside the picture is the same on both sides.
    let left = shown.left() + (shown.width() - view.width * per_unit) / 2.0;
    let top = shown.top() + (shown.height() - view.height * per_unit) / 2.0;
    let across = (f64::from(event.client_x()) - left) / per_unit + view.x;
    let down = (f64::from(event.client_y()) - top) / per_unit + view.y;
    Some((across, down))
}
