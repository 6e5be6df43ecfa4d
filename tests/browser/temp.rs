//! Folders that vanish with their owner, so that tests running side by side share nothing.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

static COUNTER: AtomicU32 = AtomicU32::new(0);

/// A folder of our own under the system's temporary one.
pub(crate) struct TempDir(PathBuf);

impl TempDir {
    pub(crate) fn new() -> TempDir {
        loop {
            let serial = COUNTER.fetch_add(1, Ordering::Relaxed);
            let path = std::env::temp_dir().join(format!("arcminute-{}-{serial}", std::process::id()));
            // A folder left by a killed run may have our process number: take the next name.
            match fs::create_dir(&path) {
                Ok(()) => return TempDir(path),
                Err(fault) if fault.kind() == std::io::ErrorKind::AlreadyExists => {}
                Err(fault) => panic!("no temporary folder at {}: {fault}", path.display()),
            }
        }
    }

    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    /// Writes one file, with the folders above it, and returns its path.
    pub(crate) fn write(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        let path = self.0.join(name);
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder).expect("a folder inside our own");
        }
        fs::write(&path, content).expect("a file inside our own folder");
        path
    }

    /// Copies a folder's content into this one.
    pub(crate) fn copy_from(&self, folder: &Path) {
        copy(folder, &self.0);
    }
}

impl Drop for TempDir {
    fn drop(&mut self) {
        // The browser may still be closing its files; what stays is in the system's temporary folder.
        let _left_behind = fs::remove_dir_all(&self.0);
    }
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder to copy into");
    for entry in fs::read_dir(from).expect("the folder to copy") {
        let path = entry.expect("an entry of the folder to copy").path();
        let target = to.join(path.file_name().expect("a listed file has a name"));
        if path.is_dir() {
            copy(&path, &target);
        } else {
            fs::copy(&path, &target).expect("a file copied");
        }
    }
}

/// The `file://` address of a path.
pub(crate) fn file_url(path: &Path) -> String {
    let whole = fs::canonicalize(path).expect("an existing file");
    let text = whole.to_str().expect("a path in UTF-8");
    let mut url = String::from("file://");
    for byte in text.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'/' | b'.' | b'-' | b'_' | b'~' => {
                url.push(byte as char)
            }
            _ => url.push_str(&format!("%{byte:02X}")),
        }
    }
    url
}
