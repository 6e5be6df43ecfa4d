//! Each public function of the core has an example that runs.

use crate::tree::{self, File};

/// Public functions whose comment has no block of code, with their lines. Those of tests are not public.
fn violations(files: &[File]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.is_in(&["core/src/"])) {
        let mut has_example = false;
        for (index, line) in file.text.lines().enumerate() {
            let line = line.trim_start();
            match line {
                _ if line.starts_with("/// ```") || line.contains("comes_back!") => has_example = true,
                _ if line.starts_with("///") || line.starts_with("#[") => {}
                _ => {
                    let rest = line.strip_prefix("pub const fn ").or_else(|| line.strip_prefix("pub fn "));
                    if let (Some(rest), false) = (rest, has_example) {
                        let name = rest.split(['(', '<']).next().unwrap_or_default();
                        found.push(format!("{}:{}: `{name}` has no example", file.path, index + 1));
                    }
                    has_example = false;
                }
            }
        }
    }
    found
}

#[test]
fn every_public_function_of_the_core_has_an_example() {
    crate::nothing(&violations(&tree::rust()));
    let planted = |text: &str| violations(&[File::planted("core/src/predict.rs", text)]);
    crate::planted(
        &planted("/// One.\n/// ```\n/// ```\npub fn one() {}\n\n/// Two.\n#[must_use]\npub fn two() {}"),
        &["core/src/predict.rs:8: `two` has no example"],
    );
    crate::planted(
        &planted("    pub const fn three<T>() {}"),
        &["core/src/predict.rs:1: `three` has no example"],
    );
    crate::planted(&planted("fn four() {}\npub(crate) fn five() {}\n/// ```\n///\npub fn six() {}"), &[]);
}
