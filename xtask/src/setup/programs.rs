//! Programs of cargo's own kind, at one version each: taken from the PATH where they are there, else built into `.tools/`.

use std::path::PathBuf;
use std::process::Command;

use crate::{Outcome, paths, run};

/// A program and the version that the project is tried with.
pub(crate) struct Program {
    name: &'static str,
    /// The word that has it say its version: cargo gives its programs their own name first.
    word: &'static str,
    version: &'static str,
}

/// Runs the tests over changed code.
pub(crate) const MUTANTS: Program = Program { name: "cargo-mutants", word: "mutants", version: "27.1.0" };
/// Counts the lines that tests run.
pub(crate) const COVERAGE: Program = Program { name: "cargo-llvm-cov", word: "llvm-cov", version: "0.9.1" };

/// Where the program is.
pub(crate) fn program(wanted: &Program) -> Outcome<PathBuf> {
    let Program { name, version, .. } = wanted;
    let home = paths::tools().join("cargo");
    let own = home.join("bin").join(format!("{name}{}", std::env::consts::EXE_SUFFIX));
    if let Some(there) = run::find(&[name]).into_iter().chain([own.clone()]).find(|file| is_it(file, wanted))
    {
        return Ok(there);
    }
    println!("Building {name} {version} into .tools/cargo; this takes some minutes, once.");
    let mut install = run::cargo(&["install", "--quiet", "--locked", "--version", version, name, "--root"]);
    let advice = "it needs the network, once; check the connection, then try again";
    run::shown(install.arg(&home).env("CARGO_TARGET_DIR", home.join("build")), advice)?;
    // What it was built from is large and not needed any more.
    let _ = std::fs::remove_dir_all(home.join("build"));
    if is_it(&own, wanted) { Ok(own) } else { Err(format!("{name} {version} was built, but does not run")) }
}

fn is_it(file: &PathBuf, wanted: &Program) -> bool {
    let output = Command::new(file).args([wanted.word, "--version"]).output();
    output.is_ok_and(|output| {
        String::from_utf8_lossy(&output.stdout).trim().ends_with(&format!(" {}", wanted.version))
    })
}
