//! What the browser wrote down: the console, the policy's refusals, the network events.

use super::Driver;
use serde_json::{Value, json};

/// A line of the console.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Console {
    /// `SEVERE`, `WARNING`, `INFO` or `DEBUG`.
    pub(crate) level: String,
    pub(crate) text: String,
}

/// Something a watching script of ours told: the kind is the policy's directive or the name of a constructor.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Violation {
    pub(crate) kind: String,
    pub(crate) url: String,
}

impl Driver {
    /// The whole console since the start or the last [`Driver::forget_logs`].
    pub(crate) fn console(&self) -> Vec<Console> {
        let fresh = self.post("se/log", &json!({ "type": "browser" }));
        let mut console = self.console.borrow_mut();
        console.extend(fresh.as_array().into_iter().flatten().map(|entry| Console {
            level: entry["level"].as_str().unwrap_or_default().to_owned(),
            text: entry["message"].as_str().unwrap_or_default().to_owned(),
        }));
        console.clone()
    }

    /// Errors on the console; uncaught exceptions and blocked loads are among them.
    pub(crate) fn console_errors(&self) -> Vec<String> {
        self.console().into_iter().filter(|line| line.level == "SEVERE").map(|line| line.text).collect()
    }

    /// What the content security policy refused, in any document since the start.
    pub(crate) fn violations(&self) -> Vec<Violation> {
        self.told("policy")
    }

    /// Uses of WebRTC, WebTransport and connection hints; needs [`Driver::watch_connections`] before the page.
    pub(crate) fn connections(&self) -> Vec<Violation> {
        self.told("connection")
    }

    /// Has later documents tell of the ways out that no policy governs.
    pub(crate) fn watch_connections(&self) {
        self.run_in_every_document(include_str!("connection_watch.js"));
    }

    fn told(&self, watch: &str) -> Vec<Violation> {
        let mark = format!("arcminute-watch:{watch}:");
        self.console().iter().filter_map(|line| read_note(&line.text, &mark)).collect()
    }

    /// Chromium's network events since the start, as `{method, params}`; needs `network_log`.
    pub(crate) fn network_events(&self) -> Vec<Value> {
        self.network_count();
        self.network.borrow().clone()
    }

    /// How many network events there were so far.
    pub(crate) fn network_count(&self) -> usize {
        let fresh = self.post("se/log", &json!({ "type": "performance" }));
        let mut network = self.network.borrow_mut();
        for entry in fresh.as_array().into_iter().flatten() {
            let text = entry["message"].as_str().unwrap_or_default();
            let mut event: Value = serde_json::from_str(text).expect("a network event in JSON");
            network.push(event["message"].take());
        }
        network.len()
    }

    /// Starts both logs anew.
    pub(crate) fn forget_logs(&self, network: bool) {
        self.console();
        self.console.borrow_mut().clear();
        if network {
            self.network_count();
            self.network.borrow_mut().clear();
        }
    }
}

/// Chromedriver writes a console line as `source line:column "text"`; the note itself is percent-encoded.
fn read_note(line: &str, mark: &str) -> Option<Violation> {
    let encoded = line.split_once(mark)?.1.trim_end_matches('"');
    let note: Value = serde_json::from_str(&percent_decoded(encoded)?).ok()?;
    Some(Violation { kind: note["kind"].as_str()?.to_owned(), url: note["url"].as_str()?.to_owned() })
}

fn percent_decoded(text: &str) -> Option<String> {
    let mut bytes = Vec::new();
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let pair = [rest.next()?, rest.next()?];
            bytes.push(u8::from_str_radix(std::str::from_utf8(&pair).ok()?, 16).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}
