//! Nothing of a case leaves the page, and nothing of it stays.

use super::cases::case;
use super::places::{PLACES, boxes, fill, go, load, shown, use_everything, wipe};
use crate::driver::Options;
use crate::leak::{Leak, Trap, assert_nothing_leaves, listed};
use crate::page::Page;
use crate::plant::{self, Plant, STOPPED};
use crate::server::Server;
use crate::temp::{TempDir, file_url};
use crate::{act, find, see, setup};
use std::fs;
use std::path::Path;

#[test]
fn nothing_leaves_the_single_file_while_everything_in_it_is_used() {
    assert_nothing_leaves(&file_url(&setup::single_file()), &Options::desktop(), |page| {
        page.wait_until_up();
        use_everything(page);
    });
}

#[test]
fn nothing_leaves_the_site_while_everything_in_it_is_used() {
    let server = Server::start(&setup::site());
    assert_nothing_leaves(&server.url(""), &Options::phone(), |page| {
        page.wait_until_up();
        see::kept_for_offline(page);
        use_everything(page);
    });
}

/// Puts a script into a page.
type Put = fn(&str, &str) -> String;

/// The plants set off amid real use of the built page; `deliverables` tries the rest of them on the page as it opens.
const AMID_USE: [&str; 4] = ["fetch", "image", "websocket", "beacon-on-leaving"];

fn amid_use() -> impl Iterator<Item = &'static Plant> {
    AMID_USE
        .iter()
        .map(|name| STOPPED.iter().find(|plant| plant.name == *name).expect("a plant of this name"))
}

/// Uses the page, sets the leak off, and uses it on.
fn use_with_leak(page: &Page) {
    page.wait_until_up();
    load(page, case("adult-20-160"));
    for place in PLACES {
        go(page, place);
    }
    plant::set_off(page);
    go(page, "Person");
    fill(page, "RIGHT eye: best corrected distance acuity", "20/200-2");
}

fn is_reported(planted: &Plant, leaks: &[Leak], arrived: bool) -> bool {
    leaks.iter().any(|leak| leak.url.ends_with(&planted.path()) && leak.arrived == arrived)
}

#[test]
fn a_leak_planted_in_the_single_file_is_reported_amid_real_use() {
    let trap = Trap::set(&Options::desktop());
    let original = fs::read_to_string(setup::single_file()).expect("the page");
    // Whether it arrives, and how it is put in.
    let puts: [(bool, Put); 2] = [(false, plant::with_policy), (true, plant::without_policy)];
    for planted in amid_use() {
        for (arrives, put) in puts {
            let folder = TempDir::new();
            let copy = folder.write("page.html", put(&original, &planted.script(&trap.host())));
            let leaks = trap.observe(&file_url(&copy), use_with_leak);
            assert!(is_reported(planted, &leaks, arrives), "{}: [{}]", planted.name, listed(&leaks));
        }
    }
}

#[test]
fn a_leak_planted_in_the_site_is_reported_amid_real_use() {
    let trap = Trap::set(&Options::desktop());
    for planted in amid_use() {
        let folder = TempDir::new();
        folder.copy_from(&setup::site());
        let original = fs::read_to_string(setup::site().join("index.html")).expect("the page");
        folder.write("index.html", plant::with_policy(&original, &planted.script(&trap.host())));
        let server = Server::start(folder.path());
        let leaks = trap.observe(&server.url(""), use_with_leak);
        assert!(is_reported(planted, &leaks, false), "{}: [{}]", planted.name, listed(&leaks));
    }
}

/// Words that stand in no text of the page by themselves.
const MARKS: [&str; 4] = ["Quagga-7", "Okapi-8", "Dugong-9", "Bongo-10"];

/// A case with these words in every box for words, and numbers in the others.
fn fill_a_case(page: &Page) {
    load(page, case("adult-20-160"));
    fill(page, "Case label", MARKS[0]);
    fill(page, "Notes", MARKS[1]);
    fill(page, "LEFT eye: refraction", "0.1.2 unreadable");
    go(page, "Goals");
    fill(page, "What is it?", MARKS[2]);
    go(page, "Sheets");
    fill(page, "Notes for the workshop", MARKS[3]);
}

#[test]
fn a_new_case_wipes_everything() {
    let page = super::open(&Options::desktop());
    let fresh: Vec<String> = PLACES
        .iter()
        .map(|place| {
            go(&page, place);
            shown(&page)
        })
        .collect();
    go(&page, "Person");
    fill_a_case(&page);
    see::holds(&page, "voice", "1 entry cannot be used.");
    see::holds(&page, "sheet", MARKS[0]);
    act::click(&page, "button", "New case");
    act::click(&page, "button", "Keep it");
    see::holds(&page, "sheet", MARKS[0]);

    wipe(&page);
    for (place, fresh) in PLACES.iter().zip(&fresh) {
        go(&page, place);
        assert_eq!(&shown(&page), fresh, "{place} after wiping is {place} of a page just opened");
        for id in boxes(&page) {
            let left = find::id(&page, &id).property("value");
            let by_itself = if id == "goal-1-acuity" { "20/40" } else { "" };
            assert_eq!(left.as_str(), Some(by_itself), "box {id}");
        }
    }
    see::reads(&page, "voice", "");
    let markup = page.script("return document.documentElement.outerHTML", &[]);
    let markup = markup.as_str().expect("the page's markup");
    for mark in MARKS.iter().chain(&["20/160", "31.5", "DEMO-1"]) {
        // A script or a style of the page may hold any letters; what it shows may not.
        let shown = markup.split("<body").nth(1).expect("a body").split("<script").next().unwrap_or_default();
        assert!(!shown.contains(mark), "{mark} is still in the page");
    }
    assert_eq!(page.script("return document.title", &[]), "Arcminute", "the title");
    see::no_errors(&page);
}

#[test]
fn nothing_of_a_case_is_kept_by_the_browser() {
    let server = Server::start(&setup::site());
    let site = Page::open(&server.url(""), &Options::desktop());
    site.wait_until_up();
    see::kept_for_offline(&site);
    let file = super::open(&Options::desktop());
    for page in [&file, &site] {
        let (url, kept, before) = (page.url(), see::stored(page), history(page));
        fill_a_case(page);
        page.cdp("Page.printToPDF", serde_json::json!({}));
        assert_eq!(page.url(), url, "no address changes");
        assert_eq!(page.script("return document.title", &[]), "Arcminute", "the title says nothing");
        assert_eq!(history(page), before, "nothing in the history");
        assert_eq!(see::stored(page), kept, "nothing more is stored than before");
        assert!(kept.iter().all(|kept| kept.starts_with("cache:")), "only the site's own files: {kept:?}");
        // Nor does it come back.
        page.reload();
        page.wait_until_up();
        for place in PLACES {
            go(page, place);
            let shown = shown(page);
            assert!(MARKS.iter().all(|mark| !shown.contains(mark)), "{place} after a reload: {shown}");
        }
    }
    only_own_files(&site, &setup::site());
}

fn history(page: &Page) -> serde_json::Value {
    page.script("return [history.length, history.state]", &[])
}

/// Every stored answer is a file of the site, unchanged.
#[track_caller]
fn only_own_files(page: &Page, site: &Path) {
    let body = "const done = arguments[0]; (async () => { const kept = []; \
        for (const name of await caches.keys()) { const cache = await caches.open(name); \
            for (const request of await cache.keys()) { const answer = await cache.match(request); \
                kept.push([new URL(request.url).pathname, (await answer.arrayBuffer()).byteLength]); } } \
        return kept; })().then(done)";
    let kept = page.script_async(body, &[]);
    let kept = kept.as_array().expect("a list");
    assert!(kept.len() > 3, "the site is kept for offline: {kept:?}");
    for file in kept {
        let path =
            crate::server::locate(site, file[0].as_str().expect("a path")).expect("a path in the site");
        let bytes = fs::metadata(&path).map(|known| known.len()).unwrap_or_default();
        assert_eq!(file[1].as_u64(), Some(bytes), "{} is not a file of the site", path.display());
    }
}
