//! A Chromium browser with its driver, and the programs that read printed pages back.

use std::path::PathBuf;

use super::system;
use crate::{Outcome, run};

const CHROMIUM: &str = "ARCMINUTE_CHROMIUM";
const DRIVER: &str = "ARCMINUTE_CHROMEDRIVER";
const OTHERWISE: &str = "Elsewhere: install Chrome or Chromium and the chromedriver of the same version, put both on the PATH, \
     or name them in ARCMINUTE_CHROMIUM and ARCMINUTE_CHROMEDRIVER.";

/// The browser and its driver.
pub(super) fn chromium() -> Outcome<(PathBuf, PathBuf)> {
    if let (Some(browser), Some(driver)) = (browser()?, driver()?) {
        return Ok((browser, driver));
    }
    system::install("Chromium with its driver", &["chromium", "chromium-driver"], OTHERWISE)?;
    match (browser()?, driver()?) {
        (Some(browser), Some(driver)) => Ok((browser, driver)),
        _ => Err(format!("Chromium and chromedriver are still not to be found. {OTHERWISE}")),
    }
}

fn browser() -> Outcome<Option<PathBuf>> {
    let usual = PathBuf::from("/Applications/Google Chrome.app/Contents/MacOS/Google Chrome");
    let installed = || {
        run::find(&["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"])
            .or_else(|| usual.is_file().then_some(usual))
    };
    Ok(named(CHROMIUM)?.or_else(installed))
}

fn driver() -> Outcome<Option<PathBuf>> {
    Ok(named(DRIVER)?.or_else(|| run::find(&["chromedriver"])))
}

/// The file that a variable of the environment names.
fn named(variable: &str) -> Outcome<Option<PathBuf>> {
    match std::env::var_os(variable).map(PathBuf::from) {
        Some(file) if !file.is_file() => Err(format!(
            "{variable} names {}, which is not a file; correct it, or unset it to use the PATH",
            file.display()
        )),
        file => Ok(file),
    }
}

/// pdfinfo and pdftotext.
pub(super) fn pdf_tools() -> Outcome {
    if run::find(&["pdfinfo"]).is_some() && run::find(&["pdftotext"]).is_some() {
        return Ok(());
    }
    system::install("pdfinfo, which reads printed pages,", &["poppler-utils"], "Elsewhere: install poppler.")
}
