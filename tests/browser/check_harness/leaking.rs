//! The leak proof sees every planted leak, on our fixture in both flavours.

use crate::driver::Options;
use crate::leak::{Trap, assert_nothing_leaves};
use crate::page::Page;
use crate::plant::{self, STOPPED};
use crate::server::Server;
use crate::temp::{TempDir, file_url};
use crate::trial::{self, Subject};
use crate::{act, fixture, see};
use std::panic::catch_unwind;

/// Uses the fixture a little, as a person would.
fn use_it(page: &Page) {
    act::fill(page, "Test distance, m", "4");
    act::click(page, "button", "Save the case");
    see::download(page, ".json");
}

#[test]
fn a_clean_page_leaks_nothing() {
    let folder = TempDir::new();
    let url = file_url(&folder.write("page.html", fixture::single_file()));
    assert_nothing_leaves(&url, &Options::desktop(), use_it);
}

#[test]
fn a_clean_site_leaks_nothing() {
    let folder = fixture::site();
    let server = Server::start(folder.path());
    assert_nothing_leaves(&server.url(""), &Options::phone(), use_it);
}

#[test]
fn asking_its_own_server_after_loading_is_a_leak() {
    let folder = fixture::site();
    let server = Server::start(folder.path());
    let trap = Trap::set(&Options::desktop());
    let leaks = trap.observe(&server.url(""), |page| {
        page.script("fetch('collect?said=20/200')", &[]);
    });
    let told: Vec<(&str, &str)> = leaks.iter().map(|leak| (leak.kind.as_str(), leak.url.as_str())).collect();
    assert_eq!(told, [("fetch", server.url("collect?said=20/200").as_str())], "the policy lets it pass");
}

#[test]
fn the_assertion_names_the_leak() {
    let folder = TempDir::new();
    let html = plant::with_policy(&fixture::single_file(), &STOPPED[0].script("collector.example"));
    let url = file_url(&folder.write("page.html", html));
    let told = catch_unwind(|| assert_nothing_leaves(&url, &Options::desktop(), plant::set_off))
        .expect_err("a leak was planted");
    let told = told.downcast_ref::<String>().expect("a message");
    assert!(told.contains("http://collector.example/planted-fetch?said=20/200 (did not arrive"), "{told}");
}

fn file() -> (Subject, TempDir) {
    let folder = TempDir::new();
    (Subject::File(folder.write("page.html", fixture::single_file())), folder)
}

fn site() -> (Subject, TempDir) {
    let folder = fixture::site();
    (Subject::Site(folder.path().to_path_buf()), folder)
}

#[test]
fn without_policy_each_plant_arrives_from_a_file() {
    let (subject, _folder) = file();
    trial::without_policy_each_arrives(&subject);
}

#[test]
fn without_policy_each_plant_arrives_from_a_site() {
    let (subject, _folder) = site();
    trial::without_policy_each_arrives(&subject);
}

#[test]
fn with_policy_each_plant_in_a_file_is_stopped_and_reported() {
    let (subject, _folder) = file();
    trial::with_policy_each_is_stopped_and_reported(&subject);
    trial::with_policy_each_says_nothing_and_is_reported(&subject);
}

#[test]
fn with_policy_each_plant_in_a_site_is_stopped_and_reported() {
    let (subject, _folder) = site();
    trial::with_policy_each_is_stopped_and_reported(&subject);
    trial::with_policy_each_says_nothing_and_is_reported(&subject);
}

#[test]
fn open_ways_out_of_a_file_are_reported() {
    let (subject, _folder) = file();
    trial::open_ways_are_reported(&subject);
}

#[test]
fn open_ways_out_of_a_site_are_reported() {
    let (subject, _folder) = site();
    trial::open_ways_are_reported(&subject);
}

#[test]
fn planting_refuses_a_page_it_does_not_understand() {
    for (html, words) in [
        ("<html><body></body></html>", "one Content-Security-Policy"),
        ("<meta http-equiv=content-security-policy content=\"default-src 'none'\"></body>", "no script-src"),
        ("<meta http-equiv=content-security-policy content=\"script-src 'self'\">", "no </body>"),
    ] {
        let told = catch_unwind(|| plant::with_policy(html, "x")).expect_err("not a page to plant in");
        let told = told
            .downcast_ref::<String>()
            .cloned()
            .or_else(|| told.downcast_ref::<&str>().map(|s| (*s).into()));
        assert!(told.as_deref().is_some_and(|told| told.contains(words)), "{told:?} for {html}");
    }
    let single = "<META content='default-src &#39;none&#39;; script-src &#39;self&#39;' http-equiv='Content-Security-Policy'>";
    let planted = plant::with_policy(&format!("{single}<p>a > b</BODY>"), "x");
    assert!(
        planted.contains("script-src &#39;sha256-") && planted.ends_with("<script>x</script></BODY>"),
        "{planted}"
    );
}
