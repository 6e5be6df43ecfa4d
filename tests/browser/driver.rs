//! A small blocking `WebDriver` client: one chromedriver, one Chromium and one profile for each [`Driver`].
//!
//! Only what the tests need of the W3C protocol, plus Chromium's own commands through
//! [`Driver::cdp`]. A refused command panics with the browser's words unless the name starts with `try_`.

mod devtools;
mod log;
mod options;
mod process;

use log::Console;
pub(crate) use options::Options;

use crate::temp::TempDir;
use process::Chromedriver;
use serde_json::{Value, json};
use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::time::Duration;
use ureq::Agent;

/// Key under which the protocol hands out elements (W3C `WebDriver`, section 12.1).
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";

/// Written into every document before its own scripts; reports to the console log.
const POLICY_WATCH: &str = include_str!("driver/policy_watch.js");

pub(crate) struct Driver {
    agent: Agent,
    session: String,
    browser_process: Option<u64>,
    console: RefCell<Vec<Console>>,
    network: RefCell<Vec<Value>>,
    // Fields drop in this order: first the program, then its folders.
    _chromedriver: Chromedriver,
    downloads: TempDir,
    _profile: TempDir,
}

/// Why the browser refused a command.
#[derive(Clone, Debug)]
pub(crate) struct Refusal {
    pub(crate) error: String,
    pub(crate) message: String,
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.error, self.message)
    }
}

/// An element of the page, as the protocol names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ElementId(pub(crate) String);

impl ElementId {
    /// The form in which scripts take an element as argument.
    pub(crate) fn to_json(&self) -> Value {
        json!({ ELEMENT: self.0 })
    }

    pub(crate) fn from_json(value: &Value) -> Option<ElementId> {
        value.get(ELEMENT)?.as_str().map(|id| ElementId(id.to_owned()))
    }
}

impl Driver {
    pub(crate) fn start(options: &Options) -> Driver {
        let (profile, downloads) = (TempDir::new(), TempDir::new());
        let chromedriver = Chromedriver::start(profile.path());
        // No proxy from the environment: everything here is on loopback.
        let agent: Agent = Agent::config_builder()
            .timeout_global(Some(Duration::from_secs(90)))
            .http_status_as_error(false)
            .proxy(None)
            .build()
            .into();
        let wanted = options.capabilities(profile.path(), downloads.path());
        let opened = call(&agent, "POST", &format!("{}/session", chromedriver.base()), &wanted)
            .unwrap_or_else(|refusal| panic!("no browser session: {refusal}"));
        let id = opened["sessionId"].as_str().expect("a new session has an id");
        let driver = Driver {
            session: format!("{}/session/{id}", chromedriver.base()),
            browser_process: opened["capabilities"]["goog:processID"].as_u64(),
            agent,
            console: RefCell::default(),
            network: RefCell::default(),
            _chromedriver: chromedriver,
            downloads,
            _profile: profile,
        };
        driver.run_in_every_document(POLICY_WATCH);
        if let Some((width, height)) = options.viewport() {
            driver.set_viewport(width, height);
        }
        driver
    }

    /// One protocol command below the session, `POST`ed.
    pub(crate) fn try_post(&self, path: &str, body: &Value) -> Result<Value, Refusal> {
        call(&self.agent, "POST", &format!("{}/{path}", self.session), body)
    }

    pub(crate) fn try_get(&self, path: &str) -> Result<Value, Refusal> {
        call(&self.agent, "GET", &format!("{}/{path}", self.session), &Value::Null)
    }

    #[track_caller]
    pub(crate) fn post(&self, path: &str, body: &Value) -> Value {
        self.try_post(path, body).unwrap_or_else(|refusal| panic!("{path}: {refusal}"))
    }

    #[track_caller]
    pub(crate) fn get(&self, path: &str) -> Value {
        self.try_get(path).unwrap_or_else(|refusal| panic!("{path}: {refusal}"))
    }

    /// Opens an address and returns after the page's `load` event.
    #[track_caller]
    pub(crate) fn go(&self, url: &str) {
        self.post("url", &json!({ "url": url }));
    }

    #[track_caller]
    pub(crate) fn reload(&self) {
        self.post("refresh", &json!({}));
    }

    #[track_caller]
    pub(crate) fn url(&self) -> String {
        self.get("url").as_str().unwrap_or_default().to_owned()
    }

    /// Runs a function body in the page; `arguments` are its arguments, `return` its answer.
    #[track_caller]
    pub(crate) fn script(&self, body: &str, arguments: &[Value]) -> Value {
        self.try_script(body, arguments).unwrap_or_else(|refusal| panic!("script: {refusal}"))
    }

    pub(crate) fn try_script(&self, body: &str, arguments: &[Value]) -> Result<Value, Refusal> {
        self.try_post("execute/sync", &json!({ "script": body, "args": arguments }))
    }

    /// As [`Driver::script`], but the answer is what the body gives to its last argument, a function.
    #[track_caller]
    pub(crate) fn script_async(&self, body: &str, arguments: &[Value]) -> Value {
        self.post("execute/async", &json!({ "script": body, "args": arguments }))
    }

    /// Presses and releases keys on whatever has the focus. A list inside the list is a chord:
    /// its keys go down in order and up in reverse.
    #[track_caller]
    pub(crate) fn keys(&self, chords: &[Vec<String>]) {
        let key = |action: &str, value: &str| json!({ "type": action, "value": value });
        let mut actions = Vec::new();
        for chord in chords {
            actions.extend(chord.iter().map(|value| key("keyDown", value)));
            actions.extend(chord.iter().rev().map(|value| key("keyUp", value)));
        }
        self.post(
            "actions",
            &json!({ "actions": [{ "type": "key", "id": "keyboard", "actions": actions }] }),
        );
    }

    /// The number of the browser's process, where the system tells it.
    pub(crate) fn browser_process(&self) -> Option<u64> {
        self.browser_process
    }

    /// Where the page's downloads land.
    pub(crate) fn downloads(&self) -> &Path {
        self.downloads.path()
    }

    /// Saves a picture of the whole page (not only of the window) and returns its path.
    #[track_caller]
    pub(crate) fn screenshot(&self, name: &str) -> PathBuf {
        self.try_screenshot(name).unwrap_or_else(|refusal| panic!("screenshot {name}: {refusal}"))
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // Ending the session closes the browser; killing chromedriver alone would leave it running.
        let _may_be_gone = call(&self.agent, "DELETE", &self.session, &Value::Null);
        if let Some(process) = self.browser_process {
            process::end_if_alive(process);
        }
    }
}

fn call(agent: &Agent, method: &str, url: &str, body: &Value) -> Result<Value, Refusal> {
    let broken = |fault: ureq::Error| Refusal { error: "no answer".into(), message: fault.to_string() };
    let sent = match method {
        "POST" => agent.post(url).send_json(body),
        "DELETE" => agent.delete(url).call(),
        _ => agent.get(url).call(),
    };
    let mut answer: Value =
        sent.map_err(broken)?.body_mut().with_config().limit(1 << 28).read_json().map_err(broken)?;
    let value = answer["value"].take();
    match value.get("error").and_then(Value::as_str) {
        Some(error) => Err(Refusal {
            error: error.to_owned(),
            message: value["message"]
                .as_str()
                .unwrap_or_default()
                .lines()
                .next()
                .unwrap_or_default()
                .to_owned(),
        }),
        None => Ok(value),
    }
}
