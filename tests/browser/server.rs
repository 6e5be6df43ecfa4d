//! A static file server on loopback for the site flavour; it can be stopped, and it counts what it sends.

use std::fs;
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// One answered request.
#[derive(Clone, Debug)]
pub(crate) struct Served {
    pub(crate) path: String,
    pub(crate) status: u16,
    pub(crate) bytes: usize,
}

pub(crate) struct Server {
    address: SocketAddr,
    served: Arc<Mutex<Vec<Served>>>,
    stop: Arc<AtomicBool>,
    accepting: Option<JoinHandle<()>>,
}

impl Server {
    pub(crate) fn start(folder: &Path) -> Server {
        let tcp = TcpListener::bind("127.0.0.1:0").expect("a free TCP port");
        let address = tcp.local_addr().expect("a bound socket has an address");
        let served = Arc::new(Mutex::new(Vec::new()));
        let stop = Arc::new(AtomicBool::new(false));
        let accepting = {
            let (folder, served, stop) = (folder.to_path_buf(), served.clone(), stop.clone());
            thread::spawn(move || accept(&tcp, &folder, &served, &stop))
        };
        Server { address, served, stop, accepting: Some(accepting) }
    }

    /// The address of a path on this server; `""` is the first page.
    pub(crate) fn url(&self, path: &str) -> String {
        format!("http://{}/{path}", self.address)
    }

    /// All requests answered so far.
    pub(crate) fn served(&self) -> Vec<Served> {
        self.served.lock().expect("the server's list").clone()
    }

    /// From now on nothing listens at the address.
    pub(crate) fn stop(&mut self) {
        let Some(accepting) = self.accepting.take() else { return };
        self.stop.store(true, Ordering::SeqCst);
        let _woken = TcpStream::connect_timeout(&self.address, Duration::from_secs(1));
        accepting.join().expect("the server's thread ended well");
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}

fn accept(tcp: &TcpListener, folder: &Path, served: &Arc<Mutex<Vec<Served>>>, stop: &AtomicBool) {
    for stream in tcp.incoming() {
        if stop.load(Ordering::SeqCst) {
            return;
        }
        let Ok(stream) = stream else { continue };
        let (folder, served) = (folder.to_path_buf(), served.clone());
        thread::spawn(move || answer(stream, &folder, &served));
    }
}

fn answer(mut stream: TcpStream, folder: &Path, served: &Mutex<Vec<Served>>) {
    let _may_fail_when_closed = stream.set_read_timeout(Some(Duration::from_secs(5)));
    let mut request = Vec::new();
    let mut chunk = [0; 4096];
    while !request.windows(4).any(|window| window == b"\r\n\r\n") {
        match stream.read(&mut chunk) {
            Ok(count) if count > 0 => request.extend_from_slice(&chunk[..count]),
            _ => return,
        }
    }
    let head = String::from_utf8_lossy(&request).into_owned();
    let mut words = head.split_whitespace();
    let (method, target) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
    let file = (method == "GET" || method == "HEAD").then(|| locate(folder, target)).flatten();
    let content = file.as_deref().and_then(|path| fs::read(path).ok());
    let (status, reason, kind, body) = match (&file, content) {
        (Some(path), Some(body)) => (200, "OK", media_type(path), body),
        _ => (404, "Not Found", "text/plain; charset=utf-8", b"not here".to_vec()),
    };
    served.lock().expect("the server's list").push(Served {
        path: target.to_owned(),
        status,
        bytes: body.len(),
    });
    let head = format!(
        "HTTP/1.1 {status} {reason}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n\
         X-Content-Type-Options: nosniff\r\nCache-Control: no-cache\r\nConnection: close\r\n\r\n",
        body.len()
    );
    let _may_be_gone = stream.write_all(head.as_bytes());
    if method == "GET" {
        let _may_be_gone = stream.write_all(&body);
    }
}

/// The file for a request, and none for anything that would climb out of the folder.
pub(crate) fn locate(folder: &Path, target: &str) -> Option<PathBuf> {
    let path = target.split(['?', '#']).next()?.trim_start_matches('/');
    let relative = Path::new(path);
    if !relative.components().all(|part| matches!(part, Component::Normal(_) | Component::CurDir)) {
        return None;
    }
    let file = folder.join(relative);
    Some(if file.is_dir() { file.join("index.html") } else { file })
}

fn media_type(path: &Path) -> &'static str {
    match path.extension().and_then(|ending| ending.to_str()).unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "txt" | "md" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}
