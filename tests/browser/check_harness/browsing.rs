//! The client drives a browser and reports what it did.

use super::{open, open_fixture};
use crate::driver::Options;
use crate::fixture;
use crate::measure;
use crate::page::Page;
use crate::see;
use crate::server::Server;
use crate::temp::file_url;
use crate::wait::{SOON, within};
use serde_json::json;
use std::fs;
use std::panic::catch_unwind;
use std::path::Path;
use std::time::Duration;

#[test]
fn runs_scripts_at_once_and_later() {
    let (page, _folder) = open_fixture(&Options::desktop());
    assert_eq!(page.script("return arguments[0] + 1", &[json!(41)]), json!(42), "a plain script");
    let later = page.script_async("setTimeout(() => arguments[0]('late'), 10)", &[]);
    assert_eq!(later, json!("late"), "a script that answers later");
    let refused = page.try_script("throw new Error('odd')", &[]).expect_err("a script that throws");
    assert_eq!(refused.error, "javascript error", "{refused}");
}

#[test]
fn shows_exactly_the_size_asked_for() {
    for options in [Options::desktop(), Options::sized(320, 640), Options::phone()] {
        // A phone zooms out from a page that is too wide, so this one is narrow.
        let (page, _folder) = open(&fixture::single_file_with("<p>here</p>"), &options);
        let size = page.script("return [innerWidth, innerHeight, navigator.maxTouchPoints > 0]", &[]);
        assert_eq!(size, json!([options.width, options.height, options.touch]), "of {options:?}");
    }
}

#[test]
fn a_clean_page_has_no_errors_and_a_faulty_one_has() {
    let (page, _folder) = open_fixture(&Options::desktop());
    see::no_errors(&page);
    page.script("setTimeout(() => { throw new Error('planted') })", &[]);
    within(SOON, "the thrown error on the console", || match page.console_errors() {
        errors if errors.iter().any(|text| text.contains("planted")) => Ok(()),
        errors => Err(format!("{errors:?}")),
    });
}

#[test]
fn tells_what_the_policy_stopped_even_after_leaving() {
    let (page, _folder) = open_fixture(&Options::desktop());
    page.script(
        "document.body.setAttribute('style', 'color: red'); new Image().src = 'http://127.0.0.1:9/x'",
        &[],
    );
    page.go("about:blank");
    let kinds: Vec<(String, String)> =
        page.violations().into_iter().map(|violation| (violation.kind, violation.url)).collect();
    assert!(kinds.contains(&("img-src".into(), "http://127.0.0.1:9/x".into())), "{kinds:?}");
    assert!(kinds.contains(&("style-src-attr".into(), "inline".into())), "{kinds:?}");
}

#[test]
fn takes_the_network_away() {
    let folder = fixture::site();
    let server = Server::start(folder.path());
    let page = Page::open(&server.url("page.css"), &Options::desktop());
    page.set_offline(true);
    let refused = page.try_post("url", &json!({ "url": server.url("page.js") })).expect_err("no network");
    assert!(refused.message.contains("ERR_INTERNET_DISCONNECTED"), "{refused}");
    page.set_offline(false);
    page.go(&server.url("page.js"));
    assert!(page.url().ends_with("page.js"), "the network is back");
}

#[test]
fn pretends_user_settings() {
    let (page, _folder) = open_fixture(&Options::desktop());
    let dark = "return matchMedia('(prefers-color-scheme: dark)').matches \
                && matchMedia('(forced-colors: active)').matches";
    assert_eq!(page.script(dark, &[]), json!(false), "by default light");
    page.prefer(&[("prefers-color-scheme", "dark"), ("forced-colors", "active")]);
    assert_eq!(page.script(dark, &[]), json!(true), "as asked");
}

#[test]
fn takes_pictures() {
    let (page, _folder) = open_fixture(&Options::phone());
    let picture = fs::read(page.screenshot("harness-phone")).expect("a written picture");
    assert!(picture.starts_with(b"\x89PNG"), "a PNG file");
}

#[test]
fn measures_the_first_render_and_a_reaction() {
    let folder = crate::temp::TempDir::new();
    let url = file_url(&folder.write("page.html", fixture::single_file()));
    let times = measure::first_render(&url, &Options::desktop(), 3, 1.0);
    assert!(times.first_paint > 0.0 && times.first_paint <= times.largest_paint, "{times:?}");
    let page = Page::open(&url, &Options::desktop());
    let took = measure::reaction(&page, "later-read", |page| crate::act::click(page, "button", "Later"));
    // The fixture waits 150 ms before it answers.
    assert!((140.0..3000.0).contains(&took), "{took} ms");
    measure::note("fixture", &json!({ "first_paint_ms": times.first_paint, "later_ms": took }));
}

#[test]
fn waits_say_what_they_saw_instead() {
    let told = catch_unwind(|| {
        within(Duration::from_millis(60), "the moon", || Err::<(), _>("a lamp".to_owned()));
    })
    .expect_err("nothing to find");
    let told = told.downcast_ref::<String>().expect("a message");
    assert_eq!(told, "not within 60ms: the moon; instead: a lamp", "the message");
}

#[test]
fn leaves_no_browser_and_no_folder_behind() {
    let (page, folder) = open("<p>here</p>", &Options::desktop());
    let (downloads, pages) = (page.downloads().to_path_buf(), folder.path().to_path_buf());
    let process = page.browser_process().expect("Linux and chromedriver name the process");
    let alive = || Path::new(&format!("/proc/{process}/exe")).exists();
    assert!(alive() && downloads.exists() && pages.exists(), "all there while in use");
    drop((page, folder));
    assert!(!alive() && !downloads.exists() && !pages.exists(), "all gone afterwards");
}
