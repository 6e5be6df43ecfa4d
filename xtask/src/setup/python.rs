//! A Python environment of the project's own, with the packages that the reference tests compare results with.

use std::path::PathBuf;
use std::process::Command;

use super::{is_current, system};
use crate::{Outcome, paths, run};

const LIST: &str = "tests/reference/requirements.txt";
const OTHERWISE: &str = "Elsewhere: install Python 3.11 or newer with its venv module.";

/// The Python to use, or nothing while no test asks for packages.
pub(super) fn environment() -> Outcome<Option<PathBuf>> {
    let Ok(wanted) = paths::read(LIST) else {
        return Ok(None);
    };
    let folder = paths::tools().join("python");
    let python = folder.join(if cfg!(windows) { "Scripts/python.exe" } else { "bin/python" });
    let kept = folder.join("installed.txt");
    if is_current(&kept, &wanted) && run::succeeds(&python, &["--version"]) {
        return Ok(Some(python));
    }
    println!("Setting up Python in .tools/python with the packages of {LIST}.");
    let system_python = with_venv()?;
    let mut venv = Command::new(system_python);
    run::shown(venv.args(["-m", "venv", "--clear"]).arg(&folder), "check that .tools/ can be written to")?;
    let mut pip = Command::new(&python);
    pip.current_dir(paths::root()).args([
        "-m",
        "pip",
        "install",
        "--quiet",
        "--disable-pip-version-check",
        "-r",
        LIST,
    ]);
    run::shown(
        &mut pip,
        "it needs the network, once; check the connection and the versions in that list, then try again",
    )?;
    paths::write(&kept, wanted)?;
    Ok(Some(python))
}

/// A Python of the system that can make environments.
fn with_venv() -> Outcome<PathBuf> {
    let able = || {
        let python = run::find(&["python3", "python"])?;
        run::succeeds(&python, &["-c", "import sys, venv, ensurepip; sys.exit(sys.version_info < (3, 11))"])
            .then_some(python)
    };
    if let Some(python) = able() {
        return Ok(python);
    }
    system::install("Python 3 with venv", &["python3", "python3-venv"], OTHERWISE)?;
    able().ok_or_else(|| format!("Python 3 still cannot make an environment. {OTHERWISE}"))
}
