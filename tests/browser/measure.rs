//! How fast the page is, and a place to write the figures down.

use crate::driver::Options;
use crate::page::Page;
use crate::setup;
use serde_json::{Value, json};
use std::fs::OpenOptions;
use std::io::Write;

/// Times in milliseconds from the start of the navigation, medians over several loads.
#[derive(Clone, Copy, Debug)]
pub(crate) struct FirstRender {
    /// First words or shapes on the screen.
    pub(crate) first_paint: f64,
    /// The largest part of the page on the screen.
    pub(crate) largest_paint: f64,
}

/// Loads a page this many times, with the processor slowed down `slower` times (1 for not at all).
#[track_caller]
pub(crate) fn first_render(url: &str, options: &Options, loads: usize, slower: f64) -> FirstRender {
    let page = Page::blank(options);
    page.slow_down(slower);
    let (mut first, mut largest) = (Vec::new(), Vec::new());
    for _ in 0..loads {
        page.go("about:blank");
        page.go(url);
        page.wait_until_up();
        let times = page.script_async(PAINT_TIMES, &[]);
        first.push(times["first"].as_f64().unwrap_or_else(|| panic!("no first paint: {times}")));
        largest.push(times["largest"].as_f64().unwrap_or_else(|| panic!("no largest paint: {times}")));
    }
    FirstRender { first_paint: median(first), largest_paint: median(largest) }
}

const PAINT_TIMES: &str = "const done = arguments[0]; const seen = {}; const look = () => { \
    if ('first' in seen && 'largest' in seen) { watch.disconnect(); done(seen); } }; \
    const watch = new PerformanceObserver((list) => { for (const entry of list.getEntries()) { \
        if (entry.name === 'first-contentful-paint') seen.first = entry.startTime; \
        if (entry.entryType === 'largest-contentful-paint') seen.largest = entry.startTime; } look(); }); \
    watch.observe({ type: 'paint', buffered: true }); \
    watch.observe({ type: 'largest-contentful-paint', buffered: true })";

/// Milliseconds from the first key press or click inside `act` to the next change of the element with this `id`.
#[track_caller]
pub(crate) fn reaction(page: &Page, id: &str, act: impl FnOnce(&Page)) -> f64 {
    page.script(WATCH_REACTION, &[json!(id)]);
    act(page);
    crate::wait::within(crate::wait::SOON, &format!("a change of {id:?}"), || {
        let took = page.try_script("return window.arcminuteReaction.took", &[]);
        let took = took.map_err(|refusal| refusal.to_string())?;
        took.as_f64().ok_or_else(|| "none".to_owned())
    })
}

const WATCH_REACTION: &str = "const told = window.arcminuteReaction = { took: null }; let start = null; \
    for (const kind of ['keydown', 'pointerdown']) \
        addEventListener(kind, (event) => { start ??= event.timeStamp; }, { capture: true, once: true }); \
    const watch = new MutationObserver(() => { if (start === null) return; \
        told.took = performance.now() - start; watch.disconnect(); }); \
    watch.observe(document.getElementById(arguments[0]), \
        { childList: true, characterData: true, subtree: true, attributes: true })";

/// Adds a line to `measured.jsonl` in the screens folder.
pub(crate) fn note(what: &str, figures: &Value) {
    let path = setup::screens().join("measured.jsonl");
    let mut file = OpenOptions::new().create(true).append(true).open(path).expect("a file for figures");
    let line = json!({ "what": what, "figures": figures });
    // One write for the line: tests run side by side.
    file.write_all(format!("{line}\n").as_bytes()).expect("a line of figures");
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}
