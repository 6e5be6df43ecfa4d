//! The only door to the browser.

mod activity;
mod chance;
mod files;
mod kept;
mod pointing;

pub use activity::{doing, now_ms, on_leaving, on_step_keys, on_touch_and_each_second, time_of_day};
pub use chance::fresh;
pub use files::{Chosen, hand_over, read_chosen};
pub use kept::{forget_case, forget_list, keep_case, keep_list, kept_case, kept_list, may_keep_case};
pub use pointing::{hold_pointer, place_in};

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

/// Readies the page: takes the notice away that stands there while the page loads.
pub fn start() {
    if let Some(notice) = document().get_element_by_id("loading") {
        notice.remove();
    }
}

/// Opens the browser's print dialogue.
pub fn print() {
    // A browser that cannot print does nothing; there is no one to tell.
    let _ = window().print();
}

/// Today as `2026-11-25`, by the clock of this computer.
#[must_use]
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    format!("{:04}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// Now, with seconds and the zone: `2026-11-29T10:15:00+01:00`.
#[must_use]
pub fn moment() -> String {
    let now = js_sys::Date::new_0();
    // Minutes that the clock here is behind the one of Greenwich.
    let behind = now.get_timezone_offset();
    let sign = if 0.0 < behind { '-' } else { '+' };
    let apart = behind.abs() as u32;
    format!(
        "{}T{:02}:{:02}:{:02}{sign}{:02}:{:02}",
        today(),
        now.get_hours(),
        now.get_minutes(),
        now.get_seconds(),
        apart / 60,
        apart % 60
    )
}

/// Whether the page is as narrow as a phone; follows the window.
#[must_use]
pub fn narrow() -> Signal<bool> {
    let is_narrow =
        || window().inner_width().ok().and_then(|width| width.as_f64()).is_some_and(|width| width < 700.0);
    let narrow = RwSignal::new(is_narrow());
    let listening = window_event_listener(leptos::ev::resize, move |_| narrow.set(is_narrow()));
    on_cleanup(move || listening.remove());
    narrow.into()
}

/// Moves the keyboard focus to an element, once it is there, and shows it: the heading of a place with what stands above it.
pub fn focus_soon(id: String) {
    request_animation_frame(move || {
        if let Some(element) =
            document().get_element_by_id(&id).and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok())
        {
            // An element that cannot take the focus leaves it where it is.
            let _ = element.focus();
            if element.tag_name() == "H1" {
                window().scroll_to_with_x_and_y(0.0, 0.0);
            } else {
                element.scroll_into_view();
            }
        }
    });
}

/// The key of the mark in a picture that was clicked, if one was.
#[must_use]
pub fn picked(click: &leptos::ev::MouseEvent) -> Option<String> {
    click.target()?.dyn_into::<web_sys::Element>().ok()?.get_attribute("data-pick")
}

/// Size of the printed page: replaces the one rule set here before, if any.
pub fn set_page_size(css_size: &str) {
    let Some(sheet) = document().style_sheets().item(0) else { return };
    let Ok(sheet) = sheet.dyn_into::<web_sys::CssStyleSheet>() else { return };
    let rule = format!("@page {{ size: {css_size}; margin: 0 }}");
    let Ok(rules) = sheet.css_rules() else { return };
    let last = rules.length();
    let is_ours = last > 0 && rules.item(last - 1).is_some_and(|rule| rule.css_text().starts_with("@page"));
    if is_ours {
        // Only this function adds a page rule at the end; taking it away cannot fail then.
        let _ = sheet.delete_rule(last - 1);
    }
    let at = if is_ours { last - 1 } else { last };
    // A browser that does not know page sizes keeps its own.
    let _ = sheet.insert_rule_with_index(&rule, at);
}
