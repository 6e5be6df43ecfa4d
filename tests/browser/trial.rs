//! Trials of the leak proof on any page: every plant, with nothing in its way and under the page's policy.

use crate::driver::Options;
use crate::leak::{Leak, NOTHING_SENT, Trap, listed};
use crate::page::Page;
use crate::plant::{self, OPEN, PEER, PEER_KEPT, Plant, STOPPED, STOPPED_LATE};
use crate::server::Server;
use crate::temp::{TempDir, file_url};
use std::fs;
use std::path::{Path, PathBuf};

/// The page to plant leaks in; the original is only read.
pub(crate) enum Subject {
    File(PathBuf),
    Site(PathBuf),
}

/// Control: without a policy each planted leak really arrives, and is reported so.
#[track_caller]
pub(crate) fn without_policy_each_arrives(subject: &Subject) {
    for_each(
        STOPPED.iter().chain(STOPPED_LATE).chain([&PEER_KEPT]),
        subject,
        plant::without_policy,
        |planted, leaks| leaks.iter().any(|leak| leak.arrived && is_of(planted, leak)),
    );
}

/// Under the page's policy nothing of a planted leak arrives, and the attempt is still reported.
#[track_caller]
pub(crate) fn with_policy_each_is_stopped_and_reported(subject: &Subject) {
    for_each(STOPPED.iter().chain([&PEER]), subject, plant::with_policy, |planted, leaks| {
        leaks.iter().any(|leak| is_of(planted, leak)) && leaks.iter().all(|leak| !leak.arrived)
    });
}

/// The same for what leaves a connection behind: opened, and nothing said over it.
#[track_caller]
pub(crate) fn with_policy_each_says_nothing_and_is_reported(subject: &Subject) {
    for_each(STOPPED_LATE.iter(), subject, plant::with_policy, |planted, leaks| {
        let silent = |leak: &Leak| !leak.arrived || leak.kind == "connection" && leak.url == NOTHING_SENT;
        leaks.iter().any(|leak| is_of(planted, leak)) && leaks.iter().all(silent)
    });
}

/// What no policy can stop does arrive, and is reported: here the proof is the only guard.
#[track_caller]
pub(crate) fn open_ways_are_reported(subject: &Subject) {
    for_each(OPEN.iter().chain([&PEER_KEPT]), subject, plant::with_policy_early, |planted, leaks| {
        // A question to a name server cannot be heard at a listener.
        leaks.iter().any(|leak| is_of(planted, leak) && (leak.arrived || leak.kind == "dns-prefetch"))
    });
}

/// Plants each leak in a fresh copy, sets it off, and says of all plants at once which went wrong.
#[track_caller]
fn for_each<'a>(
    plants: impl Iterator<Item = &'a Plant>,
    subject: &Subject,
    put: impl Fn(&str, &str) -> String,
    right: impl Fn(&Plant, &[Leak]) -> bool,
) {
    let trap = Trap::set(&Options::desktop());
    let mut wrong = Vec::new();
    for planted in plants {
        let script = planted.script(&trap.host());
        let copy = Copy::of(subject, |html| put(html, &script));
        let leaks = trap.observe(&copy.url, |page: &Page| plant::set_off(page));
        if !right(planted, &leaks) {
            wrong.push(format!("{}: [{}]", planted.name, listed(&leaks)));
        }
    }
    assert!(wrong.is_empty(), "not reported as they should be:\n{}", wrong.join("\n"));
}

/// Whether this leak is the planted one: by its path, or by what has no path.
fn is_of(planted: &Plant, leak: &Leak) -> bool {
    match planted.name {
        "preconnect" => leak.kind == "connection",
        "dns-prefetch" => leak.kind == "dns-prefetch" && leak.url.contains("said-20-200.collector.example"),
        // The policy names only the host of a frame.
        "frame" if leak.kind == "frame-src" => true,
        name if name.starts_with("webrtc") => leak.kind == "RTCPeerConnection",
        _ => leak.url.ends_with(&planted.path()),
    }
}

/// A changed copy of the page, at an address of its own.
struct Copy {
    url: String,
    _server: Option<Server>,
    _folder: TempDir,
}

impl Copy {
    fn of(subject: &Subject, change: impl Fn(&str) -> String) -> Copy {
        let folder = TempDir::new();
        match subject {
            Subject::File(original) => {
                let path = folder.write("page.html", change(&read(original)));
                Copy { url: file_url(&path), _server: None, _folder: folder }
            }
            Subject::Site(original) => {
                folder.copy_from(original);
                folder.write("index.html", change(&read(&original.join("index.html"))));
                let server = Server::start(folder.path());
                Copy { url: server.url(""), _server: Some(server), _folder: folder }
            }
        }
    }
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}
