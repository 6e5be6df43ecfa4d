//! The axe-core accessibility rules: WCAG 2.0 to 2.2 at A and AA, and text contrast at AAA.

use crate::page::Page;
use crate::setup;
use serde_json::{Value, json};
use std::fmt;

/// One element that breaks a rule, or about which a rule cannot decide.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Fault {
    pub(crate) rule: String,
    pub(crate) html: String,
    pub(crate) message: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}\n    {}", self.rule, self.html, self.message.replace('\n', "\n    "))
    }
}

pub(crate) struct Report {
    pub(crate) faults: Vec<Fault>,
    /// Where axe cannot tell: text on a picture, and the like. To be looked at by a person.
    pub(crate) unsure: Vec<Fault>,
    /// Rules that found something to check and were content.
    pub(crate) passed: usize,
}

/// Runs the rules over the page as it stands.
#[track_caller]
pub(crate) fn run(page: &Page) -> Report {
    if page.script("return typeof axe === 'undefined'", &[]) == json!(true) {
        // In the page's own world, past its policy, as only a browser's driver can.
        page.script(&format!("{}; window.axe = axe;", setup::axe_source()), &[]);
    }
    let options = json!({
        "runOnly": { "type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
        "rules": { "color-contrast-enhanced": { "enabled": true } },
        // Would fetch style sheets, which the policy forbids.
        "preload": false,
    });
    let body = "const done = arguments[1]; \
                axe.run(document, arguments[0]).then(done, (fault) => done({ fault: String(fault) }))";
    let result = page.script_async(body, &[options]);
    assert!(result["fault"].is_null(), "axe did not finish: {}", result["fault"]);
    Report {
        faults: faults(&result["violations"]),
        unsure: faults(&result["incomplete"]),
        passed: result["passes"].as_array().map_or(0, Vec::len),
    }
}

/// Fails with every fault found.
#[track_caller]
pub(crate) fn assert_clean(page: &Page) {
    let report = run(page);
    // A run over nothing has no faults either.
    assert!(report.passed >= 5, "axe checked only {} rules on {}", report.passed, page.url());
    let told: Vec<String> = report.faults.iter().map(Fault::to_string).collect();
    assert!(told.is_empty(), "accessibility faults on {}:\n{}", page.url(), told.join("\n"));
}

fn faults(rules: &Value) -> Vec<Fault> {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let rules = rules.as_array().into_iter().flatten();
    rules
        .flat_map(|rule| {
            let nodes = rule["nodes"].as_array().into_iter().flatten();
            nodes.map(move |node| Fault {
                rule: text(&rule["id"]),
                html: text(&node["html"]),
                message: text(&node["failureSummary"]),
            })
        })
        .collect()
}
