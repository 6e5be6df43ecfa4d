//! Running other programs.

use std::ffi::OsString;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::{Outcome, paths};

/// A cargo command at the root of the project, with the same cargo that runs this program.
pub(crate) fn cargo(arguments: &[&str]) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| OsString::from("cargo")));
    command.current_dir(paths::root()).args(arguments).env("CARGO_TARGET_DIR", paths::target());
    command
}

/// Runs a command after showing it; `advice` says what to do if it fails.
pub(crate) fn shown(command: &mut Command, advice: &str) -> Outcome {
    println!("  $ {}", line(command));
    quietly(command, advice)
}

/// Runs a command without showing it first.
pub(crate) fn quietly(command: &mut Command, advice: &str) -> Outcome {
    let status = command.status().map_err(|error| cannot_start(command, &error))?;
    if status.success() { Ok(()) } else { Err(failed(command, advice)) }
}

/// Runs a command and hands back what it printed.
pub(crate) fn capture(command: &mut Command, advice: &str) -> Outcome<String> {
    let output = command.stderr(Stdio::inherit()).output().map_err(|error| cannot_start(command, &error))?;
    if !output.status.success() {
        return Err(failed(command, advice));
    }
    String::from_utf8(output.stdout)
        .map_err(|_| format!("`{}` printed something that is not text", line(command)))
}

/// Runs a command after showing it, passes its output through, and shows each line to `see` as well.
pub(crate) fn watched(command: &mut Command, advice: &str, mut see: impl FnMut(&str)) -> Outcome {
    println!("  $ {}", line(command));
    let mut child = command.stdout(Stdio::piped()).spawn().map_err(|error| cannot_start(command, &error))?;
    if let Some(output) = child.stdout.take() {
        for text in BufReader::new(output).split(b'\n') {
            let text = text.map_err(|error| format!("lost the output of `{}`: {error}", line(command)))?;
            let text = String::from_utf8_lossy(&text);
            // A closed pipe on our side is no reason to stop the work.
            let _ = writeln!(std::io::stdout(), "{text}");
            see(&text);
        }
    }
    let status = child.wait().map_err(|error| cannot_start(command, &error))?;
    if status.success() { Ok(()) } else { Err(failed(command, advice)) }
}

/// Whether a command can be started and ends well; its output is not shown.
pub(crate) fn succeeds(program: impl AsRef<Path>, arguments: &[&str]) -> bool {
    let mut command = Command::new(program.as_ref());
    command.args(arguments).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    command.status().is_ok_and(|status| status.success())
}

/// The first of these programs that is on the PATH.
pub(crate) fn find(programs: &[&str]) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    let folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
    let named = |program: &&str| {
        folders
            .iter()
            .map(|folder| folder.join(format!("{program}{}", std::env::consts::EXE_SUFFIX)))
            .find(|file| file.is_file())
    };
    programs.iter().find_map(named)
}

fn line(command: &Command) -> String {
    let program = Path::new(command.get_program()).file_name().unwrap_or(command.get_program());
    let words = std::iter::once(program).chain(command.get_args());
    words.map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
}

fn failed(command: &Command, advice: &str) -> String {
    format!("`{}` failed: {advice}", line(command))
}

fn cannot_start(command: &Command, error: &std::io::Error) -> String {
    format!("cannot start `{}`: {error}; install it or put it on the PATH", line(command))
}
