//! Other engines to compare with: the one of a browser, and a spreadsheet's.

use std::path::PathBuf;

use super::system;
use crate::{Outcome, run};

/// Node, which runs the engine of a browser without one.
pub(crate) fn node() -> Outcome<PathBuf> {
    there(&["node", "nodejs"], "Node.js", &["nodejs"], "Elsewhere: install Node.js 18 or newer.")
}

/// `LibreOffice` with its spreadsheet.
pub(crate) fn spreadsheet() -> Outcome<PathBuf> {
    let otherwise = "Elsewhere: install LibreOffice and put `soffice` on the PATH.";
    there(&["soffice", "libreoffice"], "LibreOffice Calc", &["libreoffice-calc"], otherwise)
}

fn there(programs: &[&str], what: &str, packages: &[&str], otherwise: &str) -> Outcome<PathBuf> {
    if let Some(program) = run::find(programs) {
        return Ok(program);
    }
    system::install(what, packages, otherwise)?;
    run::find(programs).ok_or_else(|| format!("{what} is still not to be found. {otherwise}"))
}
