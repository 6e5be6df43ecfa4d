//! What a person can read off the page.

use crate::act;
use crate::find;
use crate::page::{Element, Page, Place};
use crate::wait::{SOON, within};
use serde_json::Value;
use std::path::PathBuf;

/// The words in the element with this `id`, as shown now.
#[track_caller]
pub(crate) fn text(page: &Page, id: &str) -> String {
    find::id(page, id).text()
}

/// Waits until the element with this `id` reads exactly so.
#[track_caller]
pub(crate) fn reads(page: &Page, id: &str, words: &str) {
    wait_for_text(page, id, &format!("{id:?} to read {words:?}"), |seen| seen == words);
}

/// Waits until the element with this `id` holds these words among others.
#[track_caller]
pub(crate) fn holds(page: &Page, id: &str, words: &str) {
    wait_for_text(page, id, &format!("{id:?} to hold {words:?}"), |seen| seen.contains(words));
}

#[track_caller]
fn wait_for_text(page: &Page, id: &str, wanted: &str, fits: impl Fn(&str) -> bool) {
    within(SOON, wanted, || {
        let seen = find::id(page, id).try_text().map_err(|refusal| refusal.to_string())?;
        if fits(&seen) { Ok(()) } else { Err(format!("{seen:?}")) }
    });
}

/// What is in the box, or chosen in the list, with this label.
#[track_caller]
pub(crate) fn value(place: &impl Place, label: &str) -> String {
    let value = find::label(place, label).property("value");
    value.as_str().unwrap_or_default().to_owned()
}

/// Whether the radio button, tick box or tab with this label is on.
#[track_caller]
pub(crate) fn is_on(place: &impl Place, label: &str) -> bool {
    act::is_on(&find::label(place, label))
}

/// How many elements a CSS selector finds now.
#[track_caller]
pub(crate) fn count(place: &impl Place, css: &str) -> usize {
    find::all(place, css).len()
}

/// The words of each element a CSS selector finds now.
#[track_caller]
pub(crate) fn texts(place: &impl Place, css: &str) -> Vec<String> {
    find::all(place, css).iter().map(Element::text).collect()
}

/// What has the focus, as a screen reader names it: `textbox "Distance acuity"`.
#[track_caller]
pub(crate) fn focused(page: &Page) -> String {
    let active = page.get("element/active");
    let id = crate::driver::ElementId::from_json(&active).expect("something always has the focus");
    Element { page, id }.announced()
}

/// Presses Tab from where the focus is, and names each stop until the focus leaves the page or has been round.
#[track_caller]
pub(crate) fn tab_stops(page: &Page, limit: usize) -> Vec<String> {
    let mut stops = Vec::new();
    let mut first = None;
    for _ in 0..limit {
        act::press(page, &["Tab"]);
        let body = "return document.activeElement === document.body ? null : document.activeElement";
        let Some(id) = crate::driver::ElementId::from_json(&page.script(body, &[])) else { return stops };
        if first.as_ref() == Some(&id) {
            return stops;
        }
        stops.push(Element { page, id: id.clone() }.announced());
        first.get_or_insert(id);
    }
    panic!("more than {limit} stops: {stops:?}");
}

/// By how many CSS pixels the page is wider than its window; 0 means no sideways scrolling.
#[track_caller]
pub(crate) fn overflow(page: &Page) -> i64 {
    let body = "const root = document.scrollingElement; return root.scrollWidth - root.clientWidth";
    page.script(body, &[]).as_i64().expect("a whole number of pixels")
}

/// The finished download whose name ends so.
#[track_caller]
pub(crate) fn download(page: &Page, ending: &str) -> PathBuf {
    within(SOON, &format!("a download ending in {ending:?}"), || {
        let listed = std::fs::read_dir(page.downloads()).expect("the download folder");
        let files: Vec<PathBuf> = listed.map(|entry| entry.expect("a listed file").path()).collect();
        // Its name is there before its content is.
        let is_written = |path: &PathBuf| std::fs::metadata(path).is_ok_and(|file| 0 < file.len());
        let found = files.iter().find(|path| path.to_string_lossy().ends_with(ending) && is_written(path));
        found.cloned().ok_or_else(|| format!("{files:?}"))
    })
}

/// Waits until a service worker holds the site, so that it opens without its server.
#[track_caller]
pub(crate) fn kept_for_offline(page: &Page) {
    within(SOON, "a service worker in charge", || {
        let body = "const done = arguments[0]; navigator.serviceWorker.getRegistration()\
                    .then((found) => done(found?.active?.state ?? 'none'), (fault) => done(String(fault)))";
        match page.script_async(body, &[]).as_str() {
            Some("activated") => Ok(()),
            state => Err(format!("{state:?}; console: {:?}", page.console_errors())),
        }
    });
}

/// Fails if the page wrote an error to the console or did something its policy forbids.
#[track_caller]
pub(crate) fn no_errors(page: &Page) {
    let (errors, violations) = (page.console_errors(), page.violations());
    assert!(errors.is_empty(), "errors on the console: {errors:#?}");
    assert!(violations.is_empty(), "stopped by the policy: {violations:#?}");
}

/// Everything stored in the browser for this page, by kind and key; empty after "erase".
#[track_caller]
pub(crate) fn stored(page: &Page) -> Vec<String> {
    let body = "const done = arguments[arguments.length - 1]; (async () => {
        const kept = [];
        for (const [kind, store] of [['local', localStorage], ['session', sessionStorage]])
            for (const key of Object.keys(store)) kept.push(kind + ':' + key);
        for (const base of await indexedDB.databases()) kept.push('database:' + base.name);
        if ('caches' in window) for (const name of await caches.keys()) kept.push('cache:' + name);
        if (document.cookie) kept.push('cookie:' + document.cookie);
        return kept;
    })().then(done, (fault) => done(['unreadable: ' + fault]))";
    let kept = page.script_async(body, &[]);
    kept.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect()
}
