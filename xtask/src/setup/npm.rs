//! The accessibility checker axe-core, from npm, at the version in the lock file. Only tests use it; no page holds it.

use std::path::PathBuf;
use std::process::Command;

use super::{is_current, system};
use crate::{Outcome, paths, run};

const FOLDER: &str = "tests/browser";
const OTHERWISE: &str = "Elsewhere: install Node.js 18 or newer, npm included.";

/// The checker's script, or nothing while no test asks for it.
pub(super) fn axe() -> Outcome<Option<PathBuf>> {
    let (Ok(package), Ok(lock)) =
        (paths::read(&format!("{FOLDER}/package.json")), paths::read(&format!("{FOLDER}/package-lock.json")))
    else {
        return Ok(None);
    };
    let folder = paths::tools().join("npm");
    let script = folder.join("node_modules/axe-core/axe.min.js");
    let kept = folder.join("installed.txt");
    if is_current(&kept, &lock) && script.is_file() {
        return Ok(Some(script));
    }
    let npm = npm()?;
    println!("Setting up axe-core in .tools/npm from {FOLDER}/package-lock.json.");
    paths::write(&folder.join("package.json"), package)?;
    paths::write(&folder.join("package-lock.json"), &lock)?;
    let mut install = Command::new(npm);
    install.current_dir(&folder).args(["ci", "--ignore-scripts", "--no-audit", "--no-fund"]);
    run::shown(
        &mut install,
        "it needs the network, once; check the connection and the lock file, then try again",
    )?;
    if !script.is_file() {
        return Err(format!(
            "npm did not install axe-core; name it in {FOLDER}/package.json and make the lock file anew"
        ));
    }
    paths::write(&kept, lock)?;
    Ok(Some(script))
}

fn npm() -> Outcome<PathBuf> {
    let programs = if cfg!(windows) { ["npm.cmd", "npm"] } else { ["npm", "npm"] };
    let on_path = || run::find(&programs).filter(|npm| run::succeeds(npm, &["--version"]));
    if let Some(npm) = on_path() {
        return Ok(npm);
    }
    system::install("npm", &["nodejs", "npm"], OTHERWISE)?;
    on_path().ok_or_else(|| format!("npm still does not run. {OTHERWISE}"))
}
