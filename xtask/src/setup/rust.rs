//! Targets and components of the pinned Rust toolchain. rustup may be told not to add them by itself, so this asks for them.

use std::process::Command;

use crate::{Outcome, paths, run};

/// Makes sure of a compile target.
pub(super) fn target(name: &str) -> Outcome {
    let advice = "check the Rust toolchain with `rustup show`";
    let mut rustc = Command::new("rustc");
    rustc.current_dir(paths::root()).args(["--print", "target-libdir", "--target", name]);
    let library = run::capture(&mut rustc, advice)?;
    if std::path::Path::new(library.trim()).is_dir() {
        return Ok(());
    }
    println!("Adding the Rust target {name}.");
    rustup(&["target", "add", name])
}

/// Makes sure of rustfmt, clippy and the like.
pub(super) fn components(names: &[&str]) -> Outcome {
    for name in names {
        let program = if *name == "clippy" { "cargo-clippy" } else { name };
        if !run::succeeds(program, &["--version"]) {
            println!("Adding the Rust component {name}.");
            rustup(&["component", "add", name])?;
        }
    }
    Ok(())
}

/// Makes sure of the tools that read coverage counters; they lie beside the compiler, not on the PATH.
pub(super) fn llvm_tools() -> Outcome {
    let advice = "check the Rust toolchain with `rustup show`";
    let mut rustc = Command::new("rustc");
    let library = run::capture(rustc.current_dir(paths::root()).args(["--print", "target-libdir"]), advice)?;
    let program = format!("llvm-cov{}", std::env::consts::EXE_SUFFIX);
    let there = std::path::Path::new(library.trim()).parent().map(|folder| folder.join("bin").join(program));
    if there.is_some_and(|program| program.is_file()) {
        return Ok(());
    }
    println!("Adding the Rust component llvm-tools.");
    rustup(&["component", "add", "llvm-tools"])
}

fn rustup(arguments: &[&str]) -> Outcome {
    let mut command = Command::new("rustup");
    let advice = "it needs rustup (see rustup.rs) and the network, once; with both in place try again";
    run::shown(command.current_dir(paths::root()).args(arguments), advice)
}
