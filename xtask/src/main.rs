//! Build helper: builds and opens the page, runs every test, passes small jobs on. `cargo xtask help` lists the commands.

mod bare;
mod bench;
mod build;
mod bundle;
mod coverage;
mod encode;
mod fuzz;
mod gate;
mod glue;
mod mutants;
mod notice;
mod open;
mod page;
mod paths;
mod policy;
mod run;
mod serve;
mod setup;
mod site;
mod size;
mod steps;
mod test;

use std::process::ExitCode;

/// What a command gives back. The error is a sentence for the person at the keyboard: what happened and what to do.
type Outcome<T = ()> = Result<T, String>;

struct Command {
    name: &'static str,
    arguments: &'static str,
    about: &'static str,
    run: fn(&[String]) -> Outcome,
}

const COMMANDS: &[Command] = &[
    Command {
        name: "open",
        arguments: "",
        about: "build the page, then open dist/arcminute.html in the default browser",
        run: |arguments| {
            none(arguments)?;
            open::in_browser(&build::all()?.one_file)
        },
    },
    Command {
        name: "build",
        arguments: "",
        about: "build dist/arcminute.html (one file) and dist/site/ (static site)",
        run: |arguments| {
            none(arguments)?;
            build::all().map(drop)
        },
    },
    Command {
        name: "serve",
        arguments: "[PORT]",
        about: "serve dist/site/ to this computer only, port 8460 unless said otherwise",
        run: serve::command,
    },
    Command {
        name: "test",
        arguments: "[STEP...] [-- FILTER...]",
        about: "set up what is missing, then run every check and test, or only the named steps",
        run: test::command,
    },
    Command {
        name: "fuzz",
        arguments: "[TARGET...] [--seconds N | --file FILE | --keep]",
        about: "bytes of any kind for what reads text; --keep puts what is found into the corpus",
        run: fuzz::command,
    },
    Command {
        name: "mutants",
        arguments: "[--shard K/N] [--file GLOB...] [--jobs N] [--seconds N]",
        about: "change the core in one place at a time; the tests must notice 90 %",
        run: mutants::command,
    },
    Command {
        name: "coverage",
        arguments: "",
        about: "which lines of the core its tests run; 97 % must be",
        run: coverage::command,
    },
    Command {
        name: "bench",
        arguments: "",
        about: "time many aids for many wishes: natively, in a browser's engine, NumPy, a spreadsheet",
        run: bench::command,
    },
    Command {
        name: "results",
        arguments: "FILE",
        about: "print the results for a saved case",
        run: |arguments| pass_on("results", arguments),
    },
    Command {
        name: "schema",
        arguments: "",
        about: "print the JSON Schema of the case file",
        run: |arguments| pass_on("schema", arguments),
    },
    Command {
        name: "formulas",
        arguments: "[--write]",
        about: "print the sheet of formulas, or write formulas.html anew",
        run: |arguments| pass_on("formulas", arguments),
    },
    Command {
        name: "notice",
        arguments: "",
        about: "write NOTICE anew: the licences of everything the page is built from",
        run: |arguments| {
            none(arguments)?;
            notice::write()
        },
    },
];

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match dispatch(&arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("\n{message}");
            ExitCode::FAILURE
        }
    }
}

fn dispatch(arguments: &[String]) -> Outcome {
    let Some((name, rest)) = arguments.split_first() else {
        print!("{}", help());
        return Ok(());
    };
    if ["help", "-h", "--help"].contains(&name.as_str()) {
        print!("{}", help());
        return Ok(());
    }
    let command = COMMANDS.iter().find(|command| command.name == name);
    let command = command.ok_or_else(|| format!("there is no command `{name}`\n\n{}", help()))?;
    (command.run)(rest)
}

fn help() -> String {
    let mut text = String::from("Usage: cargo xtask COMMAND\n\n");
    for Command { name, arguments, about, .. } in COMMANDS {
        text += &format!("  {:<32} {about}\n", format!("{name} {arguments}"));
    }
    text += &format!("\nSteps of `test`: {}\n", steps::names().join(", "));
    text
}

fn none(arguments: &[String]) -> Outcome {
    match arguments.first() {
        None => Ok(()),
        Some(extra) => Err(format!("this command takes no arguments; leave out `{extra}`")),
    }
}

/// Runs one of the small programs of the tests package.
fn pass_on(program: &str, arguments: &[String]) -> Outcome {
    let mut cargo = run::cargo(&["run", "--quiet", "--package", "arcminute-tests", "--bin", program, "--"]);
    run::quietly(cargo.args(arguments), "see the message above")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn help_names_every_command() {
        let help = help();
        assert!(COMMANDS.iter().all(|command| help.contains(command.name)));
    }

    #[test]
    fn an_unknown_command_is_answered_with_the_list() {
        let error = dispatch(&["biuld".into()]).expect_err("this must fail");
        assert!(error.starts_with("there is no command `biuld`"));
        assert!(error.contains("build"));
    }
}
