//! The files of the source tree.

use std::fs;
use std::path::Path;

/// A text file of the tree.
#[derive(Clone, Debug)]
pub(crate) struct File {
    /// Path from the top, with `/`.
    pub(crate) path: String,
    /// Its text.
    pub(crate) text: String,
}

impl File {
    /// A planted file.
    pub(crate) fn planted(path: &str, text: &str) -> Self {
        Self { path: path.into(), text: text.into() }
    }
    /// Whether it lies in one of these folders, each written `web/src/`.
    pub(crate) fn is_in(&self, folders: &[&str]) -> bool {
        folders.iter().any(|folder| self.path.starts_with(folder))
    }
    /// Whether its name ends like this.
    pub(crate) fn ends(&self, ending: &str) -> bool {
        self.path.ends_with(ending)
    }
}

/// An exception to a rule.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Except {
    /// The file, or the name, that the rule does not hold for.
    pub(crate) what: &'static str,
    /// Why not.
    pub(crate) because: &'static str,
}

/// An exception with its reason.
pub(crate) const fn except(what: &'static str, because: &'static str) -> Except {
    Except { what, because }
}

/// Violations without the excepted ones, and a violation for each exception without a reason or without a use.
/// A violation is excepted when it contains the exception's text.
pub(crate) fn without(violations: Vec<String>, exceptions: &[Except]) -> Vec<String> {
    let excepts = |violation: &String, exception: &Except| violation.contains(exception.what);
    let mut left: Vec<String> = exceptions
        .iter()
        .filter(|exception| {
            exception.because.is_empty() || !violations.iter().any(|violation| excepts(violation, exception))
        })
        .map(|exception| format!("exception `{}`: it has no reason, or nothing needs it", exception.what))
        .collect();
    left.extend(
        violations
            .into_iter()
            .filter(|violation| !exceptions.iter().any(|exception| excepts(violation, exception))),
    );
    left
}

/// Every text file of the tree that is kept, in order of path.
pub(crate) fn all() -> Vec<File> {
    let mut files = Vec::new();
    walk(&arcminute_tests::root(), "", &mut files);
    files.sort_unstable_by(|one, other| one.path.cmp(&other.path));
    assert!(100 < files.len(), "only {} files were found: the tree is not where it should be", files.len());
    files
}

/// The Rust files.
pub(crate) fn rust() -> Vec<File> {
    all().into_iter().filter(|file| file.ends(".rs")).collect()
}

fn walk(top: &Path, folder: &str, files: &mut Vec<File>) {
    let here = top.join(folder);
    let ignored = ignored(&fs::read_to_string(here.join(".gitignore")).unwrap_or_default());
    let entries = fs::read_dir(&here).expect("a folder of the tree can be read");
    for entry in entries {
        let entry = entry.expect("an entry can be read");
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = if folder.is_empty() { name.clone() } else { format!("{folder}/{name}") };
        if entry.path().is_dir() {
            // `target` even where no list names it: a build may have been sent there.
            if name != ".git" && name != "target" && !ignored.contains(&name) {
                walk(top, &path, files);
            }
        } else if let Ok(text) = fs::read_to_string(entry.path()) {
            files.push(File { path, text });
        }
    }
}

/// Folders that a list of ignored files names, all written `name/` or `/name/`.
fn ignored(list: &str) -> Vec<String> {
    list.lines().filter_map(|line| Some(line.strip_suffix('/')?.trim_start_matches('/').to_owned())).collect()
}

#[test]
fn an_exception_needs_a_reason_and_a_use() {
    let found = || vec!["a.rs:1: one".to_owned(), "b.rs:2: two".to_owned()];
    assert_eq!(without(found(), &[except("a.rs", "planted")]), ["b.rs:2: two"]);
    for useless in [except("a.rs", ""), except("c.rs", "planted")] {
        let left = without(found(), &[useless]);
        assert!(left[0].ends_with("it has no reason, or nothing needs it"), "{left:?}");
    }
}

#[test]
fn ignored_folders_are_left_out() {
    assert_eq!(ignored("/target/\nnode_modules/\n*.log\n"), ["target", "node_modules"]);
    let files = all();
    assert!(files.iter().any(|file| file.path == "core/src/math.rs"), "the core is read");
    assert!(!files.iter().any(|file| file.path.contains("node_modules/")), "ignored folders are not");
}
