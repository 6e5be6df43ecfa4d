//! A page in its own browser, and the elements found on it.

use crate::driver::{Driver, ElementId, Options, Refusal};
use crate::wait::{SOON, within};
use serde_json::{Value, json};
use std::ops::Deref;
use std::thread;

/// One browser window on one page. Everything a [`Driver`] can do, a page can.
pub(crate) struct Page {
    driver: Driver,
}

impl Page {
    /// A new browser showing this address.
    #[track_caller]
    pub(crate) fn open(url: &str, options: &Options) -> Page {
        let page = Page::blank(options);
        page.go(url);
        page
    }

    /// A new browser showing nothing yet.
    pub(crate) fn blank(options: &Options) -> Page {
        Page { driver: Driver::start(options) }
    }

    /// Waits until the page has put up its main part: a `main` element with words in it.
    #[track_caller]
    pub(crate) fn wait_until_up(&self) {
        within(SOON, "a main part with words in it", || {
            let words = self
                .try_script("return document.querySelector('main, [role=main]')?.innerText ?? ''", &[])
                .map_err(|refusal| refusal.to_string())?;
            match words.as_str() {
                Some(text) if !text.trim().is_empty() => Ok(()),
                _ => Err(format!("none; console: {:?}", self.console_errors())),
            }
        });
    }
}

impl Deref for Page {
    type Target = Driver;

    fn deref(&self) -> &Driver {
        &self.driver
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        if thread::panicking() {
            let name = thread::current().name().unwrap_or("test").to_owned();
            let _best_effort = self.driver.try_screenshot(&format!("failed-{name}"));
        }
    }
}

/// An element on a page. Found afresh for each use: a page that redraws makes old ones stale.
#[derive(Clone)]
pub(crate) struct Element<'p> {
    pub(crate) page: &'p Page,
    pub(crate) id: ElementId,
}

/// Where to look: the whole page, or inside one element.
pub(crate) trait Place {
    fn page(&self) -> &Page;
    fn inside(&self) -> Option<&ElementId>;
}

impl Place for Page {
    fn page(&self) -> &Page {
        self
    }

    fn inside(&self) -> Option<&ElementId> {
        None
    }
}

impl Place for Element<'_> {
    fn page(&self) -> &Page {
        self.page
    }

    fn inside(&self) -> Option<&ElementId> {
        Some(&self.id)
    }
}

impl Element<'_> {
    /// The words as rendered, each run of white space (no-break spaces too) as one space.
    #[track_caller]
    pub(crate) fn text(&self) -> String {
        self.try_text().unwrap_or_else(|refusal| panic!("text: {refusal}"))
    }

    pub(crate) fn try_text(&self) -> Result<String, Refusal> {
        let text = self.page.try_get(&format!("element/{}/text", self.id.0))?;
        Ok(plain_spaces(text.as_str().unwrap_or_default()))
    }

    /// A property of the element as the page's scripts would read it.
    #[track_caller]
    pub(crate) fn property(&self, name: &str) -> Value {
        self.page.get(&format!("element/{}/property/{name}", self.id.0))
    }

    /// An attribute as written, if it is there.
    #[track_caller]
    pub(crate) fn attribute(&self, name: &str) -> Option<String> {
        let body = "return arguments[0].getAttribute(arguments[1])";
        self.page.script(body, &[self.id.to_json(), json!(name)]).as_str().map(str::to_owned)
    }

    /// Clicks in the middle, as the mouse or a finger would; waits while something lies over it.
    #[track_caller]
    pub(crate) fn click(&self) {
        within(SOON, "an element that takes a click", || {
            let clicked = self.page.try_post(&format!("element/{}/click", self.id.0), &json!({}));
            clicked.map_err(|refusal| refusal.to_string())
        });
    }

    /// Types into the element; it gets the focus first. For a file chooser, the path of a file.
    #[track_caller]
    pub(crate) fn send_keys(&self, text: &str) {
        self.page.post(&format!("element/{}/value", self.id.0), &json!({ "text": text }));
    }

    /// What assistive technology is told: role and accessible name, `button "Save"`.
    #[track_caller]
    pub(crate) fn announced(&self) -> String {
        let told = |what: &str| self.page.get(&format!("element/{}/{what}", self.id.0));
        let (role, name) = (told("computedrole"), told("computedlabel"));
        format!("{} {:?}", role.as_str().unwrap_or_default(), plain_spaces(name.as_str().unwrap_or_default()))
    }
}

pub(crate) fn plain_spaces(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
