//! What a person does to the page as a whole: touches it, leaves it, comes back, asks for a step back.

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;

/// How often a pointer went down or up: odd while it is down.
static PRESSES: AtomicU32 = AtomicU32::new(0);

/// The time by the clock of this computer, milliseconds; it goes on while the computer sleeps.
#[must_use]
pub fn now_ms() -> f64 {
    js_sys::Date::now()
}

/// The time of day as `14:05`, by the clock of this computer.
#[must_use]
pub fn time_of_day() -> String {
    let now = js_sys::Date::new_0();
    format!("{:02}:{:02}", now.get_hours(), now.get_minutes())
}

/// Listens to the window; once for all events.
fn listen(event: &'static str, then: impl Fn(web_sys::Event) + 'static) {
    let then: Box<dyn Fn(web_sys::Event)> = Box::new(then);
    window_event_listener_untyped(event, then);
}

/// Calls whenever the page is touched: a key, a pointer, a wheel. And each second, and when the page is seen again.
pub fn on_touch_and_each_second(
    touched: impl Fn() + Copy + 'static,
    each_second: impl Fn() + Copy + 'static,
) {
    for event in ["keydown", "pointerdown", "pointermove", "wheel"] {
        listen(event, move |_| touched());
    }
    listen("pointerdown", |_| PRESSES.store(PRESSES.load(Ordering::Relaxed) | 1, Ordering::Relaxed));
    for event in ["pointerup", "pointercancel"] {
        listen(event, |_| {
            let presses = PRESSES.load(Ordering::Relaxed);
            PRESSES.store(presses.wrapping_add(presses & 1), Ordering::Relaxed);
        });
    }
    listen("focus", move |_| each_second());
    set_interval(each_second, Duration::from_secs(1));
}

/// What is being done that belongs together: the press that lasts, or the key of the box or slider that has the focus.
#[must_use]
pub fn doing() -> Option<String> {
    let presses = PRESSES.load(Ordering::Relaxed);
    if presses & 1 == 1 {
        return Some(format!("press {presses}"));
    }
    let active = document().active_element()?;
    let slides = active.get_attribute("role").is_some_and(|role| role == "slider");
    (slides || is_text_box(&active)).then(|| active.id())
}

fn is_text_box(element: &web_sys::Element) -> bool {
    element.dyn_ref::<web_sys::HtmlInputElement>().is_some_and(|input| {
        let kind = input.type_();
        kind == "text" || kind == "password"
    })
}

/// Calls with no for a step back (Ctrl+Z) and with yes for a step forth (Ctrl+Shift+Z, Ctrl+Y). In a text box the keys are
/// left to the box, unless its key `is_ours`: browsers then take back what was typed in another box as well.
pub fn on_step_keys(is_ours: impl Fn(&str) -> bool + 'static, step: impl Fn(bool) + 'static) {
    listen("keydown", move |event| {
        let event: web_sys::KeyboardEvent = event.unchecked_into();
        if event.alt_key() || !(event.ctrl_key() || event.meta_key()) {
            return;
        }
        let forth = match event.key().as_str() {
            "z" | "Z" => event.shift_key(),
            "y" => true,
            _ => return,
        };
        if document().active_element().is_none_or(|active| !is_text_box(&active) || is_ours(&active.id())) {
            event.prevent_default();
            step(forth);
        }
    });
}

/// Has the browser ask before the page is left while `unsaved`; and calls when the page is left, and when it is shown again
/// as it was left.
pub fn on_leaving(unsaved: impl Fn() -> bool + 'static, left: impl Fn() + Copy + 'static) {
    listen("beforeunload", move |event| {
        if unsaved() {
            event.prevent_default();
            // Browsers of some years ago ask only for this.
            event.unchecked_into::<web_sys::BeforeUnloadEvent>().set_return_value("unsaved");
        }
    });
    listen("pagehide", move |_| left());
    listen("pageshow", move |event| {
        if event.unchecked_ref::<web_sys::PageTransitionEvent>().persisted() {
            left();
        }
    });
}
