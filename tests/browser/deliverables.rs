//! The two things we hand out, as they were built: the single file and the site.

use crate::driver::Options;
use crate::leak::assert_nothing_leaves;
use crate::page::Page;
use crate::server::Server;
use crate::temp::file_url;
use crate::trial::{self, Subject};
use crate::{axe, measure, see, setup};
use flate2::Compression;
use flate2::write::GzEncoder;
use serde_json::json;
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;

/// A stick or a mailbox takes the single file; this much is still quick to open.
const SINGLE_FILE_BYTES: u64 = 1_500_000;

/// What a first visit may really fetch, compressed as any web server would. The build has its own, tighter
/// budget for the files it writes; this one counts what a browser asked for.
const FIRST_VISIT_GZIP_BYTES: usize = 540_000;

/// First words on the screen from disk, on a desktop machine and on one six times slower.
const FIRST_PAINT_MS: [(f64, f64); 2] = [(1.0, 1000.0), (6.0, 3000.0)];

#[test]
fn the_single_file_opens_from_disk_without_errors() {
    let page = Page::open(&file_url(&setup::single_file()), &Options::desktop());
    page.wait_until_up();
    see::no_errors(&page);
    page.screenshot("deliverable-single-file");
    axe::assert_clean(&page);
}

#[test]
fn the_single_file_opens_on_a_phone() {
    let page = Page::open(&file_url(&setup::single_file()), &Options::phone());
    page.wait_until_up();
    see::no_errors(&page);
    page.screenshot("deliverable-phone");
    assert_eq!(see::overflow(&page), 0, "no sideways scrolling");
    axe::assert_clean(&page);
}

#[test]
fn the_single_file_needs_no_network_and_stays_small() {
    let page = Page::blank(&Options::desktop());
    page.set_offline(true);
    page.go(&file_url(&setup::single_file()));
    page.wait_until_up();
    let bytes = fs::metadata(setup::single_file()).expect("the single file").len();
    measure::note("single file", &json!({ "bytes": bytes }));
    assert!(bytes <= SINGLE_FILE_BYTES, "{bytes} bytes");
}

#[test]
fn the_site_opens_without_errors_and_then_without_its_server() {
    let mut server = Server::start(&setup::site());
    let page = Page::open(&server.url(""), &Options::desktop());
    page.wait_until_up();
    see::no_errors(&page);
    see::kept_for_offline(&page);
    server.stop();
    let before = server.served().len();
    page.reload();
    page.wait_until_up();
    see::no_errors(&page);
    assert_eq!(server.served().len(), before, "nothing was asked of the server");
}

#[test]
fn the_first_visit_is_light() {
    let server = Server::start(&setup::site());
    let page = Page::open(&server.url(""), &Options::phone());
    page.wait_until_up();
    see::kept_for_offline(&page);
    // Each file counts once. A worker asks again for what the page has just loaded; our server has no
    // validators and sends it again, one that has them (any real one) answers "not modified".
    let mut files = BTreeMap::new();
    for served in server.served() {
        assert!(served.status == 200 || served.path == "/favicon.ico", "{} is missing", served.path);
        if let Some(path) =
            crate::server::locate(&setup::site(), &served.path).filter(|_| served.status == 200)
        {
            files.insert(path, served.bytes);
        }
    }
    let raw: usize = files.values().sum();
    let gzip: usize = files.keys().map(|path| gzipped(&fs::read(path).expect("a served file"))).sum();
    measure::note(
        "first visit",
        &json!({ "requests": server.served().len(), "files": files.len(), "bytes": raw, "gzip_bytes": gzip }),
    );
    assert!(gzip <= FIRST_VISIT_GZIP_BYTES, "{gzip} bytes after gzip, {raw} before");
}

#[test]
fn the_first_words_come_quickly() {
    let url = file_url(&setup::single_file());
    for (slower, limit) in FIRST_PAINT_MS {
        let times = measure::first_render(&url, &Options::desktop(), 5, slower);
        measure::note(
            "first render",
            &json!({ "slower": slower, "first_ms": times.first_paint, "largest_ms": times.largest_paint }),
        );
        assert!(times.largest_paint <= limit, "{times:?} at a processor {slower} times slower");
    }
}

#[test]
fn nothing_leaves_the_single_file_as_it_opens() {
    assert_nothing_leaves(&file_url(&setup::single_file()), &Options::desktop(), Page::wait_until_up);
}

#[test]
fn nothing_leaves_the_site_as_it_opens() {
    let server = Server::start(&setup::site());
    assert_nothing_leaves(&server.url(""), &Options::desktop(), |page| {
        page.wait_until_up();
        see::kept_for_offline(page);
    });
}

#[test]
fn leaks_planted_in_the_single_file_arrive_without_its_policy() {
    trial::without_policy_each_arrives(&Subject::File(setup::single_file()));
}

#[test]
fn leaks_planted_in_the_single_file_are_stopped_and_reported() {
    let subject = Subject::File(setup::single_file());
    trial::with_policy_each_is_stopped_and_reported(&subject);
    trial::with_policy_each_says_nothing_and_is_reported(&subject);
}

#[test]
fn leaks_planted_in_the_single_file_are_reported_where_no_policy_stops_them() {
    trial::open_ways_are_reported(&Subject::File(setup::single_file()));
}

#[test]
fn leaks_planted_in_the_site_arrive_without_its_policy() {
    trial::without_policy_each_arrives(&Subject::Site(setup::site()));
}

#[test]
fn leaks_planted_in_the_site_are_stopped_and_reported() {
    let subject = Subject::Site(setup::site());
    trial::with_policy_each_is_stopped_and_reported(&subject);
    trial::with_policy_each_says_nothing_and_is_reported(&subject);
}

#[test]
fn leaks_planted_in_the_site_are_reported_where_no_policy_stops_them() {
    trial::open_ways_are_reported(&Subject::Site(setup::site()));
}

fn gzipped(bytes: &[u8]) -> usize {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes).expect("memory takes all");
    encoder.finish().expect("memory takes all").len()
}
