//! `formulas`: prints the sheet of formulas, one page of HTML; `formulas --write` writes it into the tree.
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "printing is this program's work")]

use arcminute_tests::{root, sheet};
use std::process::ExitCode;

fn main() -> ExitCode {
    match done(std::env::args().nth(1).as_deref()) {
        Ok(text) => {
            println!("{}", text.trim_end());
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("formulas: {why}.");
            ExitCode::FAILURE
        }
    }
}

fn done(argument: Option<&str>) -> Result<String, String> {
    match argument {
        None => sheet::page(),
        Some("--write") => {
            std::fs::write(root().join(sheet::PATH), sheet::page()?)
                .map_err(|error| format!("`{}` cannot be written: {error}", sheet::PATH))?;
            Ok(sheet::PATH.into())
        }
        Some(other) => Err(format!("say nothing or `--write`, not `{other}`")),
    }
}
