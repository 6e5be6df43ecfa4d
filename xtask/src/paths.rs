//! Where things are.

use std::path::PathBuf;

use crate::Outcome;

/// The folder with the workspace's `Cargo.toml`. Cargo says at run time where this package is, so a moved folder is no trouble.
pub(crate) fn root() -> PathBuf {
    let package = std::env::var_os("CARGO_MANIFEST_DIR").unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into());
    PathBuf::from(package).parent().map(PathBuf::from).unwrap_or_default()
}

/// What the build leaves for people: the site and the one-file page.
pub(crate) fn dist() -> PathBuf {
    root().join("dist")
}

/// The site inside [`dist`].
pub(crate) fn site() -> PathBuf {
    dist().join("site")
}

/// The one-file page inside [`dist`].
pub(crate) fn one_file() -> PathBuf {
    dist().join("arcminute.html")
}

/// Test tools that set-up installs beside the project, never elsewhere.
pub(crate) fn tools() -> PathBuf {
    root().join(".tools")
}

/// Cargo's target folder, absolute.
pub(crate) fn target() -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR") {
        Some(folder) => std::env::current_dir().unwrap_or_default().join(folder),
        None => root().join("target"),
    }
}

/// Reads a text file of the project, named from the root.
pub(crate) fn read(name: &str) -> Outcome<String> {
    std::fs::read_to_string(root().join(name)).map_err(|error| format!("cannot read {name}: {error}"))
}

/// Writes a file and the folders above it.
pub(crate) fn write(path: &std::path::Path, content: impl AsRef<[u8]>) -> Outcome {
    let made = path.parent().map_or(Ok(()), std::fs::create_dir_all);
    made.and_then(|()| std::fs::write(path, content)).map_err(|error| {
        format!("cannot write {}: {error}; check that the folder is yours and not full", path.display())
    })
}
