//! What kind of browser window a test wants.

use crate::setup;
use serde_json::{Map, Value, json};
use std::path::Path;

/// A browser window; start from [`Options::desktop`] or [`Options::phone`] and change what matters.
#[derive(Clone, Debug)]
pub(crate) struct Options {
    /// Size of the page in CSS pixels.
    pub(crate) width: u32,
    pub(crate) height: u32,
    /// Touch, small-screen layout and three device pixels to a CSS pixel.
    pub(crate) touch: bool,
    /// Keep Chromium's log of network events, for [`super::Driver::network_events`].
    pub(crate) network_log: bool,
    /// The loopback port that every host name leads to; by default names lead nowhere.
    pub(crate) every_host: Option<u16>,
}

/// Nothing of its own accord: no updates, no sync, no suggestions, no proxy from the environment.
const QUIET: &[&str] = &[
    "--headless=new",
    "--no-sandbox",
    "--no-proxy-server",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-dev-shm-usage",
    "--disable-domain-reliability",
    "--disable-extensions",
    "--disable-search-engine-choice-screen",
    "--disable-sync",
    "--metrics-recording-only",
    "--mute-audio",
];

/// The local-network check would stop a control run, which has to reach its listener.
const FEATURES_OFF: &str = "--disable-features=LocalNetworkAccessChecks,MediaRouter,OptimizationHints,\
                            Translate,AutofillServerCommunication,InterestFeedContentSuggestions,NetworkTimeServiceQuerying";

/// Hosts that Chromium calls by itself in spite of the switches above (seen in a browser left alone).
/// A page's call to them is still in its network log and stopped by its policy.
const BROWSERS_OWN: &[&str] = &["accounts.google.com", "update.googleapis.com"];

impl Options {
    pub(crate) fn desktop() -> Options {
        Options { width: 1280, height: 900, touch: false, network_log: false, every_host: None }
    }

    /// A phone held upright.
    pub(crate) fn phone() -> Options {
        Options { width: 390, height: 844, touch: true, ..Options::desktop() }
    }

    /// A desktop window of this size: 320 wide is also 1280 at 400 % zoom.
    pub(crate) fn sized(width: u32, height: u32) -> Options {
        Options { width, height, ..Options::desktop() }
    }

    /// The exact page size to set after the start; phones get theirs from the emulation.
    pub(super) fn viewport(&self) -> Option<(u32, u32)> {
        (!self.touch).then_some((self.width, self.height))
    }

    /// No test touches the outside: host names lead to a listener of ours or nowhere.
    fn host_rules(&self) -> String {
        let own = BROWSERS_OWN.iter().map(|host| format!("MAP {host} ~NOTFOUND, ")).collect::<String>();
        let others = self.every_host.map_or("~NOTFOUND".to_owned(), |port| format!("127.0.0.1:{port}"));
        format!("{own}MAP * {others}, EXCLUDE 127.0.0.1")
    }

    pub(super) fn capabilities(&self, profile: &Path, downloads: &Path) -> Value {
        let mut args: Vec<String> = QUIET.iter().map(|switch| (*switch).to_owned()).collect();
        args.push(FEATURES_OFF.to_owned());
        args.push(format!("--user-data-dir={}", profile.display()));
        args.push(format!("--window-size={},{}", self.width, self.height));
        args.push(format!("--host-resolver-rules={}", self.host_rules()));
        let mut chrome = json!({
            "binary": setup::chromium(),
            "args": args,
            "prefs": {
                "download.default_directory": downloads,
                "download.prompt_for_download": false,
                "credentials_enable_service": false,
                // No start page of the distribution's choosing.
                "session.restore_on_startup": 4,
                "session.startup_urls": ["about:blank"],
                "homepage": "about:blank",
                "homepage_is_newtabpage": false,
                "signin.allowed": false,
                "search.suggest_enabled": false,
            },
        });
        if self.touch {
            chrome["mobileEmulation"] = json!({ "deviceMetrics": {
                "width": self.width, "height": self.height, "pixelRatio": 3.0, "touch": true, "mobile": true,
            }});
        }
        let mut logs = Map::from_iter([("browser".to_owned(), json!("ALL"))]);
        if self.network_log {
            logs.insert("performance".to_owned(), json!("ALL"));
        }
        json!({ "capabilities": { "alwaysMatch": {
            "browserName": "chrome",
            "timeouts": { "script": 30_000, "pageLoad": 60_000, "implicit": 0 },
            "goog:loggingPrefs": logs,
            "goog:chromeOptions": chrome,
        }}})
    }
}
