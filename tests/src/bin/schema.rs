//! `schema [case|aids|aids.md]`: prints the JSON Schema of the case file or of a
//! list of aids, or the document of its columns. `schema --write`: writes them all into `demo-scenarios/`.
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "printing is this program's work")]

use arcminute_tests::{root, schema};
use std::process::ExitCode;

fn main() -> ExitCode {
    let argument = std::env::args().nth(1).unwrap_or_else(|| "case".into());
    if argument == "--write" {
        return written();
    }
    match kept().find(|one| one.name == argument) {
        Some(one) => {
            print!("{}", (one.text)());
            ExitCode::SUCCESS
        }
        None => {
            eprintln!("schema: say `case`, `aids`, `aids.md` or `--write`.");
            ExitCode::FAILURE
        }
    }
}

fn kept() -> impl Iterator<Item = &'static schema::Kept> {
    schema::ALL.iter().chain(schema::DOCUMENTS)
}

fn written() -> ExitCode {
    for one in kept() {
        if let Err(error) = std::fs::write(root().join(one.path), (one.text)()) {
            eprintln!("schema: `{}` cannot be written: {error}.", one.path);
            return ExitCode::FAILURE;
        }
        println!("{}", one.path);
    }
    ExitCode::SUCCESS
}
