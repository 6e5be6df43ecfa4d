//! The packages of npm that tests use, at the versions in the lock file: the accessibility checker axe-core, and a validator
//! of FHIR resources. No page holds them.

use std::path::PathBuf;
use std::process::Command;

use super::{is_current, system};
use crate::{Outcome, paths, run};

const FOLDER: &str = "tests/browser";
const OTHERWISE: &str = "Elsewhere: install Node.js 18 or newer, npm included.";

/// The checker's script, or nothing while no test asks for it.
pub(super) fn axe() -> Outcome<Option<PathBuf>> {
    installed("axe-core/axe.min.js")
}

/// The folder of the validator, or nothing while no test asks for it.
pub(super) fn fhir() -> Outcome<Option<PathBuf>> {
    installed("fhir")
}

/// A file or folder of a package, once all packages of the lock file are there.
fn installed(wanted: &str) -> Outcome<Option<PathBuf>> {
    let (Ok(package), Ok(lock)) =
        (paths::read(&format!("{FOLDER}/package.json")), paths::read(&format!("{FOLDER}/package-lock.json")))
    else {
        return Ok(None);
    };
    let folder = paths::tools().join("npm");
    let place = folder.join("node_modules").join(wanted);
    let kept = folder.join("installed.txt");
    if is_current(&kept, &lock) && place.exists() {
        return Ok(Some(place));
    }
    let npm = npm()?;
    println!("Setting up the packages of {FOLDER}/package-lock.json in .tools/npm.");
    paths::write(&folder.join("package.json"), package)?;
    paths::write(&folder.join("package-lock.json"), &lock)?;
    let mut install = Command::new(npm);
    install.current_dir(&folder).args(["ci", "--ignore-scripts", "--no-audit", "--no-fund"]);
    run::shown(
        &mut install,
        "it needs the network, once; check the connection and the lock file, then try again",
    )?;
    if !place.exists() {
        return Err(format!(
            "npm did not install {wanted}; name it in {FOLDER}/package.json and make the lock file anew"
        ));
    }
    paths::write(&kept, lock)?;
    Ok(Some(place))
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
