//! The documents name only what is there.

use crate::tree::{self, File};

const DOCUMENTS: &[&str] = &["README.md", "DEVELOPERS.md", "hazards.md", "demo-scenarios/README.md"];

/// Folders that a build makes.
const MADE: &[&str] = &["target/", "dist/"];

/// Endings that make a word the name of a file.
const ENDINGS: &[&str] =
    &[".rs", ".toml", ".md", ".json", ".css", ".html", ".js", ".py", ".woff2", ".lock", ".txt"];

/// Words in backticks that look like paths, and where links lead, with their lines.
fn paths(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut fenced = false;
    for (index, line) in text.lines().enumerate() {
        if line.starts_with("```") {
            fenced = !fenced;
            continue;
        }
        let linked = line.split("](").skip(1).filter_map(|rest| rest.split(')').next());
        found.extend(linked.filter(|to| !to.contains([':', '#'])).map(|to| (index + 1, to.to_owned())));
        for word in line.split('`').skip(1).step_by(2).filter(|_| !fenced) {
            let is_file = ENDINGS.iter().any(|ending| word.ends_with(ending));
            let is_folder = word.ends_with('/');
            let plain = !word.contains([' ', '<', '*', '(', ':', '"']);
            if plain && (is_file || is_folder) && !MADE.iter().any(|made| word.starts_with(made)) {
                found.push((index + 1, word.to_owned()));
            }
        }
    }
    found
}

/// Names in a document that lead nowhere. A path counts from the top or from the document's own folder.
fn missing(document: &File, files: &[File], folders: &dyn Fn(&str) -> bool) -> Vec<String> {
    let folder = document.path.rsplit_once('/').map_or(String::new(), |(folder, _)| format!("{folder}/"));
    let there = |path: &str| {
        let path = path.trim_start_matches("./").trim_start_matches('/');
        files.iter().any(|file| file.path == path) || folders(path)
    };
    paths(&document.text)
        .into_iter()
        .filter(|(_, path)| !there(path) && !there(&format!("{folder}{path}")))
        .map(|(line, path)| format!("{}:{line}: `{path}` is not there", document.path))
        .collect()
}

#[test]
fn the_documents_name_what_is_there() {
    let files = tree::all();
    let on_disk = |path: &str| arcminute_tests::root().join(path).exists();
    let mut found = Vec::new();
    for name in DOCUMENTS {
        match files.iter().find(|file| file.path == *name) {
            Some(document) => found.extend(missing(document, &files, &on_disk)),
            None => found.push(format!("{name}: it is missing")),
        }
    }
    crate::nothing(&found);
    let document =
        File::planted("docs/A.md", "`core/src/`, `b.rs`\n`gone.rs`, `x.y()`, `dist/a.html`\n![a](c.png)");
    let there = [File::planted("docs/b.rs", "")];
    crate::planted(
        &missing(&document, &there, &|path| path == "core/src/"),
        &["docs/A.md:2: `gone.rs` is not there", "docs/A.md:3: `c.png` is not there"],
    );
}
