//! Grips over the front of a frame: each is moved by a pointer or by the arrow keys, and has boxes beside the picture.

use super::{Part, live, use_case, words};
use crate::model::draft::EyeChoice;
use crate::model::grips::{GripPlace, STEPS_MM, grips, move_to};
use crate::platform;
use crate::plot::{Drawing, ViewBox};
use arcminute_core::fit::Point;
use leptos::prelude::*;

/// Radius of what can be taken hold of, drawing units.
const REACH_MM: f64 = 5.0;

/// From the middle of the bridge outward, for one unit across in the drawing.
fn outward(eye: EyeChoice) -> f64 {
    if eye == EyeChoice::Right { -1.0 } else { 1.0 }
}

/// The grips of the fit, laid over its picture.
#[component]
pub fn Grips(
    /// The picture.
    #[prop(into)]
    drawing: Signal<Option<Drawing>>,
) -> impl IntoView {
    let case = use_case();
    let view = Part::new(move || drawing.read().as_ref().map(|drawing| drawing.view_box));
    let places = case.of_answer(grips);
    // Which there are changes seldom: a grip that is held stays the same mark while it is moved.
    let which = Part::new(move || {
        let is_shown = |grip: &GripPlace| {
            let across = outward(grip.grip.eye()) * grip.at.x.mm();
            view.get().is_some_and(|view| view.x <= across && across <= view.x + view.width)
        };
        places.get().iter().filter(|grip| is_shown(grip)).map(|place| place.grip).collect::<Vec<_>>()
    });
    let frame = words(move || view.get().map(|view| view.svg()).unwrap_or_default());
    let marks = live(move || {
        let marks = which.get().into_iter().map(|grip| {
            let place = Part::new(move || places.get().into_iter().find(|place| place.grip == grip));
            view! { <GripMark grip=grip place=place view=view/> }.into_any()
        });
        marks.collect_view()
    });
    view! { <svg class="grips" viewBox=frame>{marks}</svg> }.into_any()
}

#[component]
fn GripMark(
    /// What it moves.
    grip: crate::model::grips::Grip,
    /// Where it is.
    place: Part<Option<GripPlace>>,
    /// The part of the drawing that is shown.
    view: Part<Option<ViewBox>>,
) -> impl IntoView {
    let case = use_case();
    let side = outward(grip.eye());
    let at = move || place.get().map_or_else(|| Point::from_mm(0.0, 0.0), |place| place.at);
    let put = move |to: Point, step: f64| case.draft.update(|draft| move_to(draft, grip, to, step));
    // From the pointer to the middle of the grip while it is held.
    let held = RwSignal::new(None::<(f64, f64)>);
    let pointer = move |event: &leptos::ev::PointerEvent| {
        platform::place_in(event, &untrack(|| view.get())?).map(|(across, down)| (side * across, -down))
    };
    let take = move |event: leptos::ev::PointerEvent| {
        event.prevent_default();
        platform::hold_pointer(&event);
        let (here, at) = (pointer(&event), at());
        held.set(here.map(|(out, up)| (at.x.mm() - out, at.y.mm() - up)));
    };
    let drag = move |event: leptos::ev::PointerEvent| {
        if let (Some((beside, above)), Some((out, up))) = (held.get_untracked(), pointer(&event)) {
            put(Point::from_mm(out + beside, up + above), STEPS_MM[0]);
        }
    };
    let step = move |event: leptos::ev::KeyboardEvent| {
        let step = STEPS_MM[usize::from(event.shift_key())];
        let (across, up) = match event.key().as_str() {
            "ArrowLeft" => (-step, 0.0),
            "ArrowRight" => (step, 0.0),
            "ArrowUp" => (0.0, step),
            "ArrowDown" => (0.0, -step),
            _ => return,
        };
        event.prevent_default();
        let at = at();
        put(Point::from_mm(at.x.mm() + side * across, at.y.mm() + up), step);
    };
    let text = move |take: fn(GripPlace) -> String| words(move || place.get().map(take).unwrap_or_default());
    view! {
        <circle
            class="grip"
            tabindex="0"
            role="slider"
            aria-label=text(|place| place.name)
            aria-valuetext=text(|place| place.said)
            aria-valuenow=text(|place| place.at.y.mm().to_string())
            aria-valuemin="-20"
            aria-valuemax="100"
            r=REACH_MM.to_string()
            cx=words(move || (side * at().x.mm()).to_string())
            cy=words(move || (-at().y.mm()).to_string())
            on:pointerdown=take
            on:pointermove=drag
            on:pointerup=move |_| held.set(None)
            on:pointercancel=move |_| held.set(None)
            on:keydown=step
        ></circle>
    }
    .into_any()
}
