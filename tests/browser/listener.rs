//! A listener on loopback that writes down whatever reaches it, over TCP and over UDP.
//!
//! A request that fails because nobody listens proves nothing; one that would have been heard here does.
//! Both sockets share one port number, so that a browser told to send every host here sends both kinds.

use std::io::{Read, Write};
use std::net::{Shutdown, SocketAddr, TcpListener, TcpStream, UdpSocket};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::Duration;

/// Something that reached the listener.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Arrival {
    /// A TCP connection that sent nothing we can read as a request (a preconnect, or encryption).
    Connection { first_bytes: Vec<u8> },
    /// An HTTP request; `upgrade` marks the opening handshake of a WebSocket.
    Http { method: String, path: String, upgrade: bool, body: String },
    /// A UDP packet; `stun` marks the opening message of WebRTC.
    Udp { bytes: usize, stun: bool },
}

/// What arrived, each with the number of its connection.
type Seen = Mutex<Vec<(usize, Arrival)>>;

pub(crate) struct Listener {
    address: SocketAddr,
    seen: Arc<Seen>,
    open: Arc<Mutex<Vec<TcpStream>>>,
    stop: Arc<AtomicBool>,
}

impl Listener {
    pub(crate) fn start() -> Listener {
        let (tcp, udp) = bind_both();
        let address = tcp.local_addr().expect("a bound socket has an address");
        let seen = Arc::new(Mutex::new(Vec::new()));
        let open = Arc::new(Mutex::new(Vec::new()));
        let stop = Arc::new(AtomicBool::new(false));
        {
            let (seen, open, stop) = (seen.clone(), open.clone(), stop.clone());
            thread::spawn(move || accept(&tcp, &seen, &open, &stop));
        }
        {
            let (seen, stop) = (seen.clone(), stop.clone());
            thread::spawn(move || receive(&udp, &seen, &stop));
        }
        Listener { address, seen, open, stop }
    }

    /// `127.0.0.1:port`.
    pub(crate) fn host(&self) -> String {
        self.address.to_string()
    }

    pub(crate) fn port(&self) -> u16 {
        self.address.port()
    }

    /// All that arrived since the start or the last [`Listener::forget`].
    pub(crate) fn arrivals(&self) -> Vec<Arrival> {
        self.seen.lock().expect("the listener's list").iter().map(|(_, arrival)| arrival.clone()).collect()
    }

    /// Starts the list anew, and closes every connection: browsers keep some in store, and one opened
    /// before would otherwise be used unseen.
    pub(crate) fn forget(&self) {
        for stream in self.open.lock().expect("the open connections").drain(..) {
            let _may_be_closed = stream.shutdown(Shutdown::Both);
        }
        self.seen.lock().expect("the listener's list").clear();
    }

    /// Whether a request for this path (query included) arrived.
    pub(crate) fn heard(&self, wanted: &str) -> bool {
        self.arrivals().iter().any(|seen| matches!(seen, Arrival::Http { path, .. } if path == wanted))
    }
}

impl Drop for Listener {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::SeqCst);
        // Wakes the accepting thread so that it sees the flag.
        let _woken = TcpStream::connect_timeout(&self.address, Duration::from_secs(1));
    }
}

fn bind_both() -> (TcpListener, UdpSocket) {
    for _ in 0..50 {
        let tcp = TcpListener::bind("127.0.0.1:0").expect("a free TCP port");
        let address = tcp.local_addr().expect("a bound socket has an address");
        if let Ok(udp) = UdpSocket::bind(address) {
            udp.set_read_timeout(Some(Duration::from_millis(100))).expect("a read timeout");
            return (tcp, udp);
        }
    }
    panic!("no port number is free for TCP and UDP together");
}

/// UDP has no connections.
const UDP: usize = usize::MAX;

fn receive(udp: &UdpSocket, seen: &Seen, stop: &AtomicBool) {
    let mut packet = [0; 2048];
    while !stop.load(Ordering::SeqCst) {
        if let Ok((bytes, _)) = udp.recv_from(&mut packet) {
            // RFC 8489 section 5: the fixed value at bytes 4 to 7 of every STUN message.
            let stun = bytes >= 20 && packet[4..8] == [0x21, 0x12, 0xA4, 0x42];
            seen.lock().expect("the listener's list").push((UDP, Arrival::Udp { bytes, stun }));
        }
    }
}

fn accept(tcp: &TcpListener, seen: &Arc<Seen>, open: &Mutex<Vec<TcpStream>>, stop: &AtomicBool) {
    for (number, stream) in tcp.incoming().enumerate() {
        if stop.load(Ordering::SeqCst) {
            return;
        }
        let Ok(stream) = stream else { continue };
        // Written down at once: a connection counts even if nothing follows.
        let opened = Arrival::Connection { first_bytes: Vec::new() };
        seen.lock().expect("the listener's list").push((number, opened));
        if let Ok(same) = stream.try_clone() {
            open.lock().expect("the open connections").push(same);
        }
        let seen = seen.clone();
        thread::spawn(move || {
            let told = converse(&stream);
            // The list of open connections holds it too, so letting go of ours would not close it.
            let _may_be_closed = stream.shutdown(Shutdown::Both);
            let mut list = seen.lock().expect("the listener's list");
            // Not there any more means it was forgotten meanwhile.
            if let Some((_, place)) = list.iter_mut().find(|(other, _)| *other == number) {
                *place = told;
            }
        });
    }
}

/// Reads one request, answers it kindly, and says what it was.
fn converse(mut stream: &TcpStream) -> Arrival {
    let _may_fail_when_closed = stream.set_read_timeout(Some(Duration::from_secs(5)));
    let mut bytes = Vec::new();
    let mut chunk = [0; 4096];
    let head_end = loop {
        if let Some(end) = find(&bytes, b"\r\n\r\n") {
            break end;
        }
        match stream.read(&mut chunk) {
            Ok(count) if count > 0 && looks_like_http(&bytes, &chunk[..count]) => {
                bytes.extend_from_slice(&chunk[..count]);
            }
            Ok(count) => {
                bytes.extend_from_slice(&chunk[..count]);
                bytes.truncate(4096);
                return Arrival::Connection { first_bytes: bytes };
            }
            Err(_) => return Arrival::Connection { first_bytes: bytes },
        }
    };
    let head = String::from_utf8_lossy(&bytes[..head_end]).into_owned();
    let mut words = head.split_whitespace();
    let method = words.next().unwrap_or_default().to_owned();
    let path = words.next().unwrap_or_default().to_owned();
    let length = header(&head, "content-length").and_then(|text| text.parse().ok()).unwrap_or(0);
    let mut body = bytes[head_end + 4..].to_vec();
    while body.len() < length {
        match stream.read(&mut chunk) {
            Ok(count) if count > 0 => body.extend_from_slice(&chunk[..count]),
            _ => break,
        }
    }
    // Answers as a helpful stranger would: everything is allowed, so nothing stops for the listener's sake.
    let _may_be_gone = stream.write_all(
        b"HTTP/1.1 204 No Content\r\nAccess-Control-Allow-Origin: *\r\nAccess-Control-Allow-Headers: *\r\n\
          Access-Control-Allow-Methods: *\r\nAccess-Control-Allow-Private-Network: true\r\n\
          Connection: close\r\n\r\n",
    );
    let upgrade = header(&head, "upgrade").is_some_and(|value| value.eq_ignore_ascii_case("websocket"));
    Arrival::Http { method, path, upgrade, body: String::from_utf8_lossy(&body).into_owned() }
}

fn looks_like_http(before: &[u8], now: &[u8]) -> bool {
    !before.is_empty() || now.first().is_some_and(u8::is_ascii_uppercase)
}

fn header(head: &str, name: &str) -> Option<String> {
    head.lines().skip(1).find_map(|line| {
        let (key, value) = line.split_once(':')?;
        key.trim().eq_ignore_ascii_case(name).then(|| value.trim().to_owned())
    })
}

fn find(haystack: &[u8], needle: &[u8]) -> Option<usize> {
    haystack.windows(needle.len()).position(|window| window == needle)
}
