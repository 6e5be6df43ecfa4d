//! Words that belong to no file of the project: places of one machine, and talk about how the work was done.

use crate::tree::{self, Except, File, except, without};

/// Each in two pieces, so that this file does not hold it itself.
const FORBIDDEN: &[&str] = &[
    concat!("/ho", "me/"),
    concat!("/ro", "ot/"),
    concat!("/wo", "rk/"),
    concat!("/tm", "p/"),
    concat!("/Us", "ers/"),
    concat!("c:\\", "users"),
    concat!("index.crates", ".io"),
    concat!("static.crates", ".io"),
    concat!("registry.npm", "js"),
    concat!("pypi", ".org"),
    concat!("python", "hosted.org"),
    concat!("artifact", "ory"),
    concat!("seed doc", "ument"),
    concat!("trans", "cript"),
    concat!("language ", "model"),
];

const EXCEPTIONS: &[Except] =
    &[except("xtask/src/gate.rs", "the gate that keeps such places out of the built page has to name them")];

fn violations(files: &[File]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files {
        for (index, line) in file.text.lines().enumerate() {
            let line = line.to_lowercase();
            for word in FORBIDDEN.iter().filter(|word| line.contains(&word.to_lowercase())) {
                found.push(format!("{}:{}: `{word}`", file.path, index + 1));
            }
        }
    }
    found
}

#[test]
fn no_file_names_a_machine_or_tells_how_it_was_made() {
    crate::nothing(&without(violations(&tree::all()), EXCEPTIONS));
    for word in FORBIDDEN {
        let planted = [File::planted("a.md", &format!("one\nsee {} there\n", word.to_uppercase()))];
        crate::planted(&violations(&planted), &[&format!("a.md:2: `{word}`")]);
    }
}
