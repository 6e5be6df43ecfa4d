//! A small file server for `dist/site`, for this computer only, with the headers that the site asks for.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::time::Duration;

use crate::{Outcome, paths, policy};

const PORT: u16 = 8460;
/// Longest request that is read; ours are far shorter.
const LIMIT: u64 = 16 * 1024;

/// `cargo xtask serve [PORT]`.
pub(crate) fn command(arguments: &[String]) -> Outcome {
    let port = match arguments {
        [] => PORT,
        [port] => {
            port.parse().map_err(|_| format!("`{port}` is not a port; use a number from 0 to 65535"))?
        }
        _ => return Err("give one port, or none".into()),
    };
    let folder = paths::site();
    if !folder.join("index.html").is_file() {
        return Err("there is no site in dist/site yet; make it with `cargo xtask build`".into());
    }
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))
        .map_err(|error| format!("cannot listen on port {port}: {error}; name another one, or 0 for any"))?;
    let address = listener.local_addr().map_err(|error| format!("cannot tell the port: {error}"))?;
    println!("Serving dist/site at http://localhost:{}/ - stop with Ctrl+C.", address.port());
    for stream in listener.incoming().flatten() {
        let folder = folder.clone();
        // A broken connection is the browser's affair.
        std::thread::spawn(move || drop(answer(stream, &folder)));
    }
    Ok(())
}

fn answer(mut stream: TcpStream, folder: &Path) -> std::io::Result<()> {
    stream.set_read_timeout(Some(Duration::from_secs(10)))?;
    let mut reader = BufReader::new(stream.try_clone()?.take(LIMIT));
    let mut request = String::new();
    reader.read_line(&mut request)?;
    // The rest of the head must be read, or closing the connection would look like a fault.
    let mut line = String::new();
    while reader.read_line(&mut line)? > 2 {
        line.clear();
    }
    let mut words = request.split_whitespace();
    let method = words.next().unwrap_or_default();
    let Some(name) = words.next().and_then(name_in_site).filter(|_| ["GET", "HEAD"].contains(&method)) else {
        return reply(&mut stream, "400 Bad Request", "", b"this server only hands out files\n", method);
    };
    let file = if name.is_empty() { "index.html" } else { &name };
    match std::fs::read(folder.join(file)) {
        Ok(content) => {
            let mut head = format!("Content-Type: {}\r\n", media_type(file));
            for (key, value) in policy::headers(&name) {
                head += &format!("{key}: {value}\r\n");
            }
            reply(&mut stream, "200 OK", &head, &content, method)
        }
        Err(_) => reply(&mut stream, "404 Not Found", "", b"there is no such file\n", method),
    }
}

fn reply(stream: &mut TcpStream, status: &str, head: &str, body: &[u8], method: &str) -> std::io::Result<()> {
    write!(stream, "HTTP/1.1 {status}\r\nContent-Length: {}\r\nConnection: close\r\n{head}\r\n", body.len())?;
    if method != "HEAD" {
        stream.write_all(body)?;
    }
    stream.flush()
}

/// The file that an address names, or nothing if it would lead out of the folder.
fn name_in_site(address: &str) -> Option<String> {
    let path = address.split(['?', '#']).next()?.strip_prefix('/')?;
    let plain = |c: char| c.is_ascii_alphanumeric() || "._-/".contains(c);
    let inside = path.split('/').all(|part| part != ".." && part != ".") && !path.starts_with('/');
    (inside && path.chars().all(plain)).then(|| path.to_owned())
}

fn media_type(name: &str) -> &'static str {
    match Path::new(name).extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("woff2") => "font/woff2",
        Some("webmanifest") => "application/manifest+json",
        _ => "text/plain; charset=utf-8",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_stay_inside_the_site() {
        assert_eq!(name_in_site("/"), Some(String::new()));
        assert_eq!(name_in_site("/fonts/a.woff2?v=1"), Some("fonts/a.woff2".into()));
        for address in ["", "x", "/../x", "/a/../../x", "//x", "/%2e%2e/x", "/./x", "/a\\b", "http://x/"] {
            assert_eq!(name_in_site(address), None, "{address}");
        }
    }

    #[test]
    fn scripts_are_served_as_utf_8() {
        assert_eq!(media_type("app.wasm.js"), "text/javascript; charset=utf-8");
    }
}
