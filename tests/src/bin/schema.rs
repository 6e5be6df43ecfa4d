//! `schema [case|telescopes]`: prints the JSON Schema of the case file, or of the list of telescopes.
//! `schema --write`: writes both into `demo-scenarios/`.
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "printing is this program's work")]

use arcminute_tests::{root, schema};
use std::process::ExitCode;

fn main() -> ExitCode {
    let argument = std::env::args().nth(1).unwrap_or_else(|| "case".into());
    if argument == "--write" {
        return written();
    }
    match schema::ALL.iter().find(|one| one.name == argument) {
        Some(one) => {
            print!("{}", (one.text)());
            ExitCode::SUCCESS
        }
        None => {
            eprintln!("schema: say `case`, `telescopes` or `--write`.");
            ExitCode::FAILURE
        }
    }
}

fn written() -> ExitCode {
    for one in schema::ALL {
        if let Err(error) = std::fs::write(root().join(one.path), (one.text)()) {
            eprintln!("schema: `{}` cannot be written: {error}.", one.path);
            return ExitCode::FAILURE;
        }
        println!("{}", one.path);
    }
    ExitCode::SUCCESS
}
