//! Compiles the program for the page, reproducibly, and writes both flavours.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::setup::{self, Need};
use crate::{Outcome, bundle, paths, run, site, size};

const TARGET: &str = "wasm32-unknown-unknown";

/// Where the two flavours are.
pub(crate) struct Built {
    pub(crate) one_file: PathBuf,
    pub(crate) site: PathBuf,
}

/// Compiles, bundles, checks and writes everything.
pub(crate) fn all() -> Outcome<Built> {
    setup::ensure(&[Need::WasmTarget])?;
    println!("Compiling the program. The first time takes a minute or two.");
    let renamed = renamed_folders()?;
    let compiled = compile(&renamed)?;
    println!("Bundling.");
    let folders: Vec<String> = renamed.into_iter().map(|(folder, _)| folder).collect();
    let parts = bundle::parts(&compiled, &folders)?;
    let page = site::one_file(&parts)?;
    let files = site::site(&parts)?;
    let built = write(&page, &files)?;
    // After writing, so that what is too big can be looked at.
    size::check(&parts.wasm, page.as_bytes(), &files)?;
    Ok(built)
}

fn write(page: &str, files: &[site::File]) -> Outcome<Built> {
    let built = Built { one_file: paths::one_file(), site: paths::site() };
    // A file of an earlier build must not stay on among the new ones.
    if built.site.exists() {
        std::fs::remove_dir_all(&built.site)
            .map_err(|error| format!("cannot empty dist/site: {error}; close whatever has it open"))?;
    }
    for file in files {
        paths::write(&built.site.join(file.name), &file.content)?;
    }
    paths::write(&built.one_file, page)?;
    println!(
        "Built dist/arcminute.html (open it with a double click) and dist/site/ (put it on any web server)."
    );
    Ok(built)
}

fn compile(renamed: &[(String, String)]) -> Outcome<PathBuf> {
    // Leptos: one type for every view keeps compile time and size down.
    let mut flags = vec!["--cfg".to_owned(), "erase_components".to_owned()];
    flags.extend(renamed.iter().map(|(from, to)| format!("--remap-path-prefix={from}={to}")));
    let mut cargo = run::cargo(&["build", "--release", "--locked", "--target", TARGET]);
    cargo
        .args(["--package", "arcminute-web", "--bin", "arcminute"])
        .env("CARGO_ENCODED_RUSTFLAGS", flags.join("\u{1f}"))
        .env("ARCMINUTE_BUILD", stamp());
    run::shown(&mut cargo, "mend what the compiler says above")?;
    Ok(paths::target().join(TARGET).join("release/arcminute.wasm"))
}

/// Folders of this machine and what the program calls them instead, so that it neither tells where it was built nor differs by it.
fn renamed_folders() -> Outcome<Vec<(String, String)>> {
    let rustc = || Command::new("rustc");
    let advice = "check the Rust toolchain with `rustup show`";
    let sysroot = run::capture(rustc().args(["--print", "sysroot"]), advice)?;
    let version = run::capture(rustc().arg("-vV"), advice)?;
    let commit = version.lines().find_map(|line| line.strip_prefix("commit-hash: ")).unwrap_or("rust");
    let library = Path::new(sysroot.trim()).join("lib/rustlib/src/rust");
    let mut renamed = vec![
        (shown(&paths::root()), "src".to_owned()),
        (shown(&cargo_home()), "cargo".to_owned()),
        (shown(&library), format!("/rustc/{commit}")),
        (sysroot.trim().to_owned(), "rust".to_owned()),
    ];
    // The compiler lets the last one that fits win; that must be the innermost folder.
    renamed.sort_by_key(|(folder, _)| folder.len());
    Ok(renamed)
}

fn cargo_home() -> PathBuf {
    let home = || std::env::home_dir().unwrap_or_default().join(".cargo");
    std::env::var_os("CARGO_HOME").map_or_else(home, PathBuf::from)
}

fn shown(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

/// Which version this is: the commit, with `+` if files differ from it. Cut to a fixed length, since git's own short form grows
/// with the repository.
fn stamp() -> String {
    let git = |arguments: &[&str]| {
        let output = Command::new("git").current_dir(paths::root()).args(arguments).output().ok()?;
        output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
    };
    let Some(commit) = git(&["rev-parse", "--verify", "--quiet", "HEAD"]) else {
        return "unversioned".into();
    };
    let changed =
        git(&["status", "--porcelain", "--untracked-files=no"]).is_some_and(|list| !list.is_empty());
    format!("{}{}", commit.get(..12).unwrap_or(&commit), if changed { "+" } else { "" })
}
