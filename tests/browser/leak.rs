//! The proof that nothing leaves the page, and what would count as leaving.
//!
//! Three witnesses are heard, because each is blind somewhere: Chromium's network log (does not see
//! WebRTC, preconnects or what a policy stopped early), the policy's own violation events (see only what it
//! stops), and a listener that every host name in the world resolves to (sees only what really left).
//! An attempt that was stopped is still a leak: the page must not even try.
//! That the witnesses are awake is proved by planting leaks in copies of the page (`plant.rs`), and at the
//! end of each run by a request of our own, which must arrive.

use crate::driver::Options;
use crate::listener::{Arrival, Listener};
use crate::page::Page;
use crate::wait::{SOON, until_quiet, within};
use serde_json::Value;
use std::fmt;
use std::time::Duration;

/// How long nothing more must happen before we believe that nothing more will.
const CALM: Duration = Duration::from_millis(400);

const REHEARSE_LEAVING: &str = "
    Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => 'hidden' });
    document.dispatchEvent(new Event('visibilitychange', { bubbles: true }));
    for (const kind of ['beforeunload', 'unload']) dispatchEvent(new Event(kind));
    dispatchEvent(new PageTransitionEvent('pagehide'));
    delete document.visibilityState;";

/// What a connection over which nothing was said is called.
pub(crate) const NOTHING_SENT: &str = "opened, nothing sent";

/// An attempt to send something out of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Leak {
    /// `fetch`, `image`, `connect-src`, `RTCPeerConnection`, `udp`...: what the first witness called it.
    pub(crate) kind: String,
    pub(crate) url: String,
    /// Whether it reached the listener; if not, something stopped it on the way.
    pub(crate) arrived: bool,
    /// Who saw it.
    pub(crate) witnesses: Vec<&'static str>,
}

impl fmt::Display for Leak {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let fate = if self.arrived { "arrived" } else { "did not arrive" };
        write!(f, "{} {} ({fate}; seen by {})", self.kind, self.url, self.witnesses.join(", "))
    }
}

/// A browser in which nothing can leave unseen.
pub(crate) struct Trap {
    listener: Listener,
    /// A second listener for our own closing request, so that it cannot be taken for the page's.
    fence: Listener,
    page: Page,
}

impl Trap {
    pub(crate) fn set(options: &Options) -> Trap {
        let (listener, fence) = (Listener::start(), Listener::start());
        // Whatever name the page uses, the connection comes to us.
        let options = Options { network_log: true, every_host: Some(listener.port()), ..options.clone() };
        let page = Page::blank(&options);
        page.watch_connections();
        Trap { listener, fence, page }
    }

    /// `127.0.0.1:port` of the listener, for plants to send to.
    pub(crate) fn host(&self) -> String {
        self.listener.host()
    }

    /// Opens the page, lets `drive` use it, leaves it, and returns every attempt to send something.
    ///
    /// While it loads, a page may ask for its own file and, over http, for files of its own server.
    /// From then on it may ask for nothing but `data:` and `blob:`.
    #[track_caller]
    pub(crate) fn observe(&self, url: &str, drive: impl FnOnce(&Page)) -> Vec<Leak> {
        let page = &self.page;
        page.go("about:blank");
        page.forget_logs(true);
        self.listener.forget();
        self.fence.forget();

        page.go(url);
        self.settle();
        let loading = page.network_events().len();
        drive(page);
        self.settle();
        // Leaving is a moment of its own: beacons are made for it. First a rehearsal, because what a policy
        // stops while the document really goes is told to nobody.
        page.cdp("Runtime.evaluate", serde_json::json!({ "expression": REHEARSE_LEAVING }));
        self.settle();
        page.go("about:blank");
        self.settle();
        let events = page.network_events();
        let arrivals = self.listener.arrivals();
        self.prove_awake();

        let mut leaks = Leaks { arrivals: &arrivals, found: Vec::new() };
        for (index, event) in events.iter().enumerate() {
            let Some((kind, target)) = outgoing(event) else { continue };
            if !(is_local(&target) || index < loading && belongs_to(&target, url)) {
                leaks.add(kind, &target, "network log");
            }
        }
        // A refusal without an address (inline script or style) is an error of the page, not a leak.
        for stopped in page.violations().into_iter().filter(|stopped| stopped.url.contains(':')) {
            if !is_local(&stopped.url) {
                leaks.add(stopped.kind, &stopped.url, "policy");
            }
        }
        for used in page.connections() {
            leaks.add(used.kind, &used.url, "page watch");
        }
        leaks.with_unexplained_arrivals()
    }

    fn settle(&self) {
        until_quiet(CALM, Duration::from_secs(30), || {
            self.page.network_count() + self.listener.arrivals().len()
        });
    }

    /// The same browser reaches a listener of ours now: its silence before meant something.
    #[track_caller]
    fn prove_awake(&self) {
        // Answered with "no content", so the browser stays where it is.
        let url = format!("http://{}/fence", self.fence.host());
        let _no_content = self.page.try_post("url", &serde_json::json!({ "url": url }));
        within(SOON, "our own request to arrive", || {
            if self.fence.heard("/fence") { Ok(()) } else { Err(format!("{:?}", self.fence.arrivals())) }
        });
    }
}

/// Fails if using this page sends anything, or tries to.
#[track_caller]
pub(crate) fn assert_nothing_leaves(url: &str, options: &Options, drive: impl FnOnce(&Page)) {
    let leaks = Trap::set(options).observe(url, drive);
    assert!(leaks.is_empty(), "the page tried to send something:\n{}", listed(&leaks));
}

pub(crate) fn listed(leaks: &[Leak]) -> String {
    leaks.iter().map(Leak::to_string).collect::<Vec<_>>().join("\n")
}

/// Leaks by address: one attempt is often seen by several witnesses.
struct Leaks<'a> {
    arrivals: &'a [Arrival],
    found: Vec<Leak>,
}

impl Leaks<'_> {
    fn add(&mut self, kind: String, url: &str, witness: &'static str) {
        if let Some(known) = self.found.iter_mut().find(|leak| leak.url == url) {
            if !known.witnesses.contains(&witness) {
                known.witnesses.push(witness);
            }
            return;
        }
        self.found.push(Leak { kind, url: url.to_owned(), arrived: false, witnesses: vec![witness] });
    }

    fn with_unexplained_arrivals(mut self) -> Vec<Leak> {
        for arrival in self.arrivals {
            let (kind, url) = match arrival {
                Arrival::Http { path, upgrade, .. } => {
                    (if *upgrade { "websocket" } else { "http" }, path.clone())
                }
                Arrival::Udp { stun: true, .. } => ("udp", "stun:".to_owned()),
                Arrival::Udp { bytes, .. } => ("udp", format!("{bytes} bytes")),
                Arrival::Connection { first_bytes } => ("connection", describe(first_bytes)),
            };
            let fits = |leak: &&mut Leak| {
                leak.url == url
                    || path_of(&leak.url) == Some(&url)
                    || url == "stun:" && leak.url.starts_with(&url)
            };
            match self.found.iter_mut().find(fits) {
                Some(known) => {
                    known.arrived = true;
                    if !known.witnesses.contains(&"listener") {
                        known.witnesses.push("listener");
                    }
                }
                None => self.found.push(Leak {
                    kind: kind.to_owned(),
                    url,
                    arrived: true,
                    witnesses: vec!["listener"],
                }),
            }
        }
        self.found
    }
}

/// Path and query of an address with a host.
fn path_of(url: &str) -> Option<&str> {
    let rest = url.split_once("://")?.1;
    let path = &rest[rest.find('/')?..];
    path.split('#').next()
}

/// What a connection without a readable request began with; encryption names its host in clear.
fn describe(first_bytes: &[u8]) -> String {
    if first_bytes.is_empty() {
        return NOTHING_SENT.to_owned();
    }
    let readable = |byte: &u8| byte.is_ascii_alphanumeric() || b".-".contains(byte);
    let words =
        first_bytes.split(|byte| !readable(byte)).filter(|word| word.len() > 5 && word.contains(&b'.'));
    let hosts: Vec<String> = words.map(|word| String::from_utf8_lossy(word).into_owned()).collect();
    format!("{} unreadable bytes, naming {hosts:?}", first_bytes.len())
}

/// Kind and address, for the events that mean something is sent.
fn outgoing(event: &Value) -> Option<(String, String)> {
    let params = &event["params"];
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    match event["method"].as_str()? {
        "Network.requestWillBeSent" => {
            Some((text(&params["type"]).to_lowercase(), text(&params["request"]["url"])))
        }
        "Network.webSocketCreated" => Some(("websocket".to_owned(), text(&params["url"]))),
        "Network.webTransportCreated" => Some(("webtransport".to_owned(), text(&params["url"]))),
        "Page.windowOpen" => Some(("window".to_owned(), text(&params["url"]))),
        _ => None,
    }
}

/// Addresses that stay inside the browser.
fn is_local(url: &str) -> bool {
    url.is_empty() || ["data", "blob", "about"].iter().any(|scheme| url.split(':').next() == Some(scheme))
}

/// What the page at `page` may load as its own.
fn belongs_to(url: &str, page: &str) -> bool {
    let origin = |address: &str| address.splitn(4, '/').take(3).collect::<Vec<_>>().join("/");
    if page.starts_with("file:") { url == page } else { origin(url) == origin(page) }
}
