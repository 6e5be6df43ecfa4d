//! Chromium's own commands, beyond the common protocol.

use super::{Driver, Refusal};
use crate::setup;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};

impl Driver {
    #[track_caller]
    pub(crate) fn cdp(&self, command: &str, params: Value) -> Value {
        self.try_cdp(command, params).unwrap_or_else(|refusal| panic!("{command}: {refusal}"))
    }

    pub(crate) fn try_cdp(&self, command: &str, params: Value) -> Result<Value, Refusal> {
        self.try_post("goog/cdp/execute", &json!({ "cmd": command, "params": params }))
    }

    /// Runs a script in each later document before the document's own; no policy applies to it.
    pub(super) fn run_in_every_document(&self, source: &str) {
        self.cdp("Page.enable", json!({}));
        self.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source }));
    }

    /// The page's size in CSS pixels, exactly (a window cannot be made as narrow as a phone).
    pub(crate) fn set_viewport(&self, width: u32, height: u32) {
        let size = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
        self.cdp("Emulation.setDeviceMetricsOverride", size);
    }

    /// Pretends a user setting, such as `("prefers-color-scheme", "dark")` or `("forced-colors", "active")`.
    pub(crate) fn prefer(&self, settings: &[(&str, &str)]) {
        let features: Vec<Value> =
            settings.iter().map(|(name, value)| json!({ "name": name, "value": value })).collect();
        self.cdp("Emulation.setEmulatedMedia", json!({ "features": features }));
    }

    /// Takes the network away, or gives it back.
    pub(crate) fn set_offline(&self, offline: bool) {
        self.cdp("Network.enable", json!({}));
        let none = json!({
            "offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1,
        });
        self.cdp("Network.emulateNetworkConditions", none);
    }

    /// Slows the page's processor this many times.
    pub(crate) fn slow_down(&self, times: f64) {
        self.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": times }));
    }

    /// Prints to a tagged PDF with the page's own paper size and colours.
    #[track_caller]
    pub(crate) fn print_pdf(&self, path: &Path) {
        let printed = self.cdp(
            "Page.printToPDF",
            json!({ "preferCSSPageSize": true, "generateTaggedPDF": true, "printBackground": true }),
        );
        let bytes = decoded(&printed);
        fs::write(path, bytes).expect("a place for the PDF");
    }

    pub(crate) fn try_screenshot(&self, name: &str) -> Result<PathBuf, Refusal> {
        let taken = self
            .try_cdp("Page.captureScreenshot", json!({ "format": "png", "captureBeyondViewport": true }))?;
        let safe = name.replace(|letter: char| !letter.is_alphanumeric() && letter != '-', "_");
        let path = setup::screens().join(format!("{safe}.png"));
        fs::write(&path, decoded(&taken))
            .map_err(|fault| Refusal { error: "not written".into(), message: fault.to_string() })?;
        Ok(path)
    }
}

fn decoded(answer: &Value) -> Vec<u8> {
    STANDARD.decode(answer["data"].as_str().unwrap_or_default()).expect("a file in base64")
}
