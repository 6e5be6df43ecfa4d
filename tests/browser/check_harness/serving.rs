//! The file server gives its folder and nothing else, and is gone once stopped.

use crate::driver::Options;
use crate::page::Page;
use crate::server::{Server, locate};
use crate::temp::TempDir;
use crate::{fixture, see};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::Path;

fn ask(server: &Server, path: &str) -> String {
    let host = server.url("").trim_start_matches("http://").trim_end_matches('/').to_owned();
    let mut stream = TcpStream::connect(host).expect("the server accepts");
    stream.write_all(format!("GET {path} HTTP/1.1\r\nHost: x\r\n\r\n").as_bytes()).expect("the server reads");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("the server answers");
    answer
}

#[test]
fn gives_files_with_their_media_type_and_counts_bytes() {
    let folder = TempDir::new();
    folder.write("index.html", "<p>here</p>");
    folder.write("part/app.wasm", "wasm");
    let server = Server::start(folder.path());
    let first = ask(&server, "/");
    assert!(
        first.contains("200 OK") && first.contains("text/html") && first.ends_with("<p>here</p>"),
        "{first}"
    );
    let wasm = ask(&server, "/part/app.wasm?v=1");
    assert!(wasm.contains("application/wasm"), "{wasm}");
    assert!(ask(&server, "/none").contains("404"), "what is not there is not found");
    let served: Vec<(String, u16, usize)> =
        server.served().into_iter().map(|one| (one.path, one.status, one.bytes)).collect();
    let expected = [("/".into(), 200, 11), ("/part/app.wasm?v=1".into(), 200, 4), ("/none".into(), 404, 8)];
    assert_eq!(served, expected, "each request counted");
}

#[test]
fn does_not_climb_out_of_its_folder() {
    let folder = Path::new("site");
    assert_eq!(locate(folder, "/a/b.js?x#y"), Some(folder.join("a/b.js")), "a path inside");
    for outside in ["/../secret", "/a/../../secret", "/./../x"] {
        assert_eq!(locate(folder, outside), None, "{outside} leads out");
    }
}

#[test]
fn is_gone_once_stopped() {
    let folder = TempDir::new();
    let mut server = Server::start(folder.path());
    ask(&server, "/");
    server.stop();
    let host = server.url("").trim_start_matches("http://").trim_end_matches('/').to_owned();
    assert!(TcpStream::connect(host).is_err(), "nobody listens any more");
}

#[test]
fn a_site_with_a_worker_opens_without_its_server_and_one_without_does_not() {
    let folder = fixture::site();
    let mut server = Server::start(folder.path());
    let page = Page::open(&server.url(""), &Options::desktop());
    see::kept_for_offline(&page);
    server.stop();
    let before = server.served().len();
    page.reload();
    page.wait_until_up();
    assert_eq!(server.served().len(), before, "nothing was asked of the server");

    folder.write("page.js", "");
    let mut server = Server::start(folder.path());
    page.go(&server.url(""));
    server.stop();
    let again = serde_json::json!({ "url": server.url("") });
    let refused = page.try_post("url", &again).expect_err("nothing keeps this page");
    assert!(refused.message.contains("ERR_CONNECTION_REFUSED"), "{refused}");
}
