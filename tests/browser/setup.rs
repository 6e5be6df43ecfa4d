//! Where the browser, the rules and the built page are; every missing thing says how to get it.

use std::path::{Path, PathBuf};
use std::{env, fs};

/// The folder with `arcminute.html` and `site/`.
#[track_caller]
pub(crate) fn dist() -> PathBuf {
    // No default: a page left over from an earlier build would be tested in silence.
    existing(required("ARCMINUTE_DIST"), "the built page")
}

/// The page as one file.
#[track_caller]
pub(crate) fn single_file() -> PathBuf {
    existing(dist().join("arcminute.html"), "the built page in one file")
}

/// The page as a folder for a web server.
#[track_caller]
pub(crate) fn site() -> PathBuf {
    existing(dist().join("site"), "the built site")
}

#[track_caller]
pub(crate) fn chromium() -> PathBuf {
    program("ARCMINUTE_CHROMIUM", &["chromium", "chromium-browser", "google-chrome"])
}

#[track_caller]
pub(crate) fn chromedriver() -> PathBuf {
    program("ARCMINUTE_CHROMEDRIVER", &["chromedriver"])
}

/// The text of `axe.min.js`.
#[track_caller]
pub(crate) fn axe_source() -> String {
    let path = existing(required("ARCMINUTE_AXE"), "the accessibility rules (axe.min.js)");
    fs::read_to_string(path).expect("axe.min.js in UTF-8")
}

/// One of the programs that read PDF files.
#[track_caller]
pub(crate) fn poppler(name: &str) -> PathBuf {
    on_path(name).unwrap_or_else(|| panic!("{name} (poppler-utils) is missing: run cargo xtask test"))
}

/// Where pictures and measured figures go; made if need be.
pub(crate) fn screens() -> PathBuf {
    let folder = named("ARCMINUTE_SCREENS").unwrap_or_else(|| workspace().join("target/screens"));
    fs::create_dir_all(&folder).expect("a folder for screenshots");
    folder
}

fn workspace() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the package is inside the workspace").to_path_buf()
}

fn named(variable: &str) -> Option<PathBuf> {
    env::var_os(variable).filter(|value| !value.is_empty()).map(PathBuf::from)
}

#[track_caller]
fn required(variable: &str) -> PathBuf {
    named(variable).unwrap_or_else(|| panic!("{variable} is not set: run cargo xtask test"))
}

#[track_caller]
fn existing(path: PathBuf, what: &str) -> PathBuf {
    assert!(path.exists(), "{what} is missing at {}: run cargo xtask test", path.display());
    path
}

#[track_caller]
fn program(variable: &str, names: &[&str]) -> PathBuf {
    if let Some(path) = named(variable) {
        return existing(path, variable);
    }
    names
        .iter()
        .find_map(|name| on_path(name))
        .unwrap_or_else(|| panic!("no {} on the PATH and no {variable} set: run cargo xtask test", names[0]))
}

fn on_path(name: &str) -> Option<PathBuf> {
    env::split_paths(&env::var_os("PATH")?).map(|folder| folder.join(name)).find(|path| path.is_file())
}
