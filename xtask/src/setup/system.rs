//! Packages of the operating system: installed where this is a Debian-like system and we may, asked for otherwise.

use std::process::Command;

use crate::{Outcome, run};

/// Installs packages, or says which to install. `what` is the thing that is missing, in words.
pub(super) fn install(what: &str, packages: &[&str], otherwise: &str) -> Outcome {
    let list = packages.join(" ");
    let Some(prefix) = privilege() else {
        return Err(format!(
            "{what} is missing. On Debian or Ubuntu: `sudo apt-get install {list}`. {otherwise}"
        ));
    };
    println!("{what} is missing: installing {list} with apt-get.");
    let advice = format!("install {list} by hand, then try again. {otherwise}");
    run::shown(&mut apt(prefix, &["update", "--quiet"]), &advice)?;
    let install = ["install", "--yes", "--quiet", "--no-install-recommends"];
    run::shown(apt(prefix, &install).args(packages), &advice)
}

/// How to call apt-get with the right to install: as we are, or through a sudo that asks for no password.
fn privilege() -> Option<&'static [&'static str]> {
    run::find(&["apt-get"])?;
    if is_root() {
        Some(&[])
    } else if run::succeeds("sudo", &["-n", "true"]) {
        Some(&["sudo", "-n"])
    } else {
        None
    }
}

fn is_root() -> bool {
    let id = Command::new("id").arg("-u").output();
    id.is_ok_and(|output| output.stdout.trim_ascii() == b"0")
}

fn apt(prefix: &[&str], arguments: &[&str]) -> Command {
    let words: Vec<&str> =
        prefix.iter().chain(&["env", "DEBIAN_FRONTEND=noninteractive", "apt-get"]).copied().collect();
    let mut command = Command::new(words[0]);
    command.args(&words[1..]).args(arguments);
    command
}
