//! Opens a file in the default browser.

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use crate::{Outcome, run};

/// Opens `file`; where no browser can be started, says where the file is. Both count as done.
pub(crate) fn in_browser(file: &Path) -> Outcome {
    match opener().map(|mut command| started(command.arg(file))) {
        Some(true) => println!("Opening {} in the default browser.", file.display()),
        _ => println!(
            "There is no browser to open here. Open this file in one, by double click or by its address:\n  {}\n  {}",
            file.display(),
            address(file)
        ),
    }
    Ok(())
}

fn opener() -> Option<Command> {
    let command = match std::env::consts::OS {
        "macos" => Command::new("open"),
        "windows" => {
            let mut command = Command::new("cmd");
            command.args(["/C", "start", ""]);
            command
        }
        _ => {
            let screen = ["DISPLAY", "WAYLAND_DISPLAY"].iter().any(|name| std::env::var_os(name).is_some());
            let program = run::find(&["xdg-open", "wslview"]).filter(|_| screen)?;
            Command::new(program)
        }
    };
    Some(command)
}

/// Some openers end at once, some stay as long as the browser: still running after a moment is as good as done.
fn started(command: &mut Command) -> bool {
    let Ok(mut child) = command.stdout(Stdio::null()).stderr(Stdio::null()).spawn() else {
        return false;
    };
    let begun = Instant::now();
    while begun.elapsed() < Duration::from_secs(4) {
        match child.try_wait() {
            Ok(Some(status)) => return status.success(),
            Ok(None) => std::thread::sleep(Duration::from_millis(50)),
            Err(_) => return false,
        }
    }
    true
}

fn address(file: &Path) -> String {
    let path =
        file.to_string_lossy().replace('\\', "/").replace('%', "%25").replace(' ', "%20").replace('#', "%23");
    format!("file://{}{path}", if path.starts_with('/') { "" } else { "/" })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_can_be_pasted() {
        assert_eq!(address(Path::new("/a b/c#1.html")), "file:///a%20b/c%231.html");
        assert_eq!(address(Path::new("C:\\a\\b.html")), "file:///C:/a/b.html");
    }
}
