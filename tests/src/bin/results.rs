//! `results FILE`: reads a case file and prints every result with its working, as JSON.
//!
//! What cannot be read is one sentence on the error output, and the exit code is 1.
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "printing is this program's work")]

use arcminute_web::model::{case_file, report::report};
use std::process::ExitCode;

fn main() -> ExitCode {
    match printed(std::env::args().skip(1).collect()) {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("results: {why}.");
            ExitCode::FAILURE
        }
    }
}

fn printed(arguments: Vec<String>) -> Result<String, String> {
    let [path] = <[String; 1]>::try_from(arguments).map_err(|_| "name one case file".to_owned())?;
    let text = std::fs::read_to_string(&path).map_err(|error| format!("`{path}` cannot be read: {error}"))?;
    let file = case_file::read(&text).map_err(|error| format!("`{path}`: {error}"))?;
    serde_json::to_string_pretty(&report(&file.case)).map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::printed;

    fn case(name: &str) -> String {
        arcminute_tests::root().join("demo-scenarios").join(name).to_string_lossy().into_owned()
    }

    #[test]
    fn a_case_is_printed_with_its_working() {
        let text = printed(vec![case("adult-20-160.json")]).expect("a case");
        for part in ["\"power-needed\"", "\"MAR_now / MAR_goal\"", "\"standing\": \"geometry or definition\""]
        {
            let part = part.trim_start_matches('"');
            assert!(text.contains(part), "{part} is not in it");
        }
    }

    #[test]
    fn what_is_no_case_is_one_sentence() {
        assert_eq!(printed(Vec::new()), Err("name one case file".into()));
        let none = printed(vec![case("none.json")]).expect_err("there is none");
        assert!(none.contains("none.json` cannot be read: "), "{none}");
        let list = printed(vec![case("aids.schema.json")]).expect_err("a list is no case");
        assert!(list.contains("aids.schema.json`: the file is not a case: unknown field"), "{list}");
    }
}
