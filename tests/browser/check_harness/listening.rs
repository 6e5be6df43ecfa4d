//! The listener hears each kind of thing once, and nothing that was not sent.

use crate::listener::{Arrival, Listener};
use crate::wait::{SOON, within};
use std::io::{Read, Write};
use std::net::{TcpStream, UdpSocket};

fn first_arrival(listener: &Listener, fits: impl Fn(&Arrival) -> bool) -> Arrival {
    within(SOON, "an arrival", || {
        listener.arrivals().into_iter().find(&fits).ok_or_else(|| format!("{:?}", listener.arrivals()))
    })
}

fn say(listener: &Listener, text: &str) -> String {
    let mut stream = TcpStream::connect(listener.host()).expect("the listener accepts");
    stream.write_all(text.as_bytes()).expect("the listener reads");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("the listener answers");
    answer
}

#[test]
fn hears_a_request_with_its_path_and_body() {
    let listener = Listener::start();
    assert_eq!(listener.arrivals(), [], "nothing was sent yet");
    let answer = say(&listener, "POST /a?said=1 HTTP/1.1\r\nHost: x\r\nContent-Length: 5\r\n\r\n20/40");
    assert!(answer.starts_with("HTTP/1.1 204"), "a kind answer, not {answer:?}");
    let heard = first_arrival(&listener, |seen| matches!(seen, Arrival::Http { .. }));
    let expected = Arrival::Http {
        method: "POST".into(),
        path: "/a?said=1".into(),
        upgrade: false,
        body: "20/40".into(),
    };
    assert_eq!(heard, expected, "method, path and body as sent");
    assert!(listener.heard("/a?said=1"), "heard by its path");
    assert!(!listener.heard("/a"), "a path without its query is another path");
    listener.forget();
    assert_eq!(listener.arrivals(), [], "forgotten");
}

#[test]
fn knows_a_websocket_by_its_handshake() {
    let listener = Listener::start();
    say(&listener, "GET /socket HTTP/1.1\r\nHost: x\r\nConnection: Upgrade\r\nUpgrade: WebSocket\r\n\r\n");
    let heard = first_arrival(&listener, |seen| matches!(seen, Arrival::Http { .. }));
    assert!(matches!(heard, Arrival::Http { upgrade: true, .. }), "an upgrade, not {heard:?}");
}

#[test]
fn counts_a_connection_that_says_nothing() {
    let listener = Listener::start();
    let silent = TcpStream::connect(listener.host()).expect("the listener accepts");
    let heard = first_arrival(&listener, |_| true);
    assert_eq!(heard, Arrival::Connection { first_bytes: Vec::new() }, "counted while still open");
    drop(silent);
}

#[test]
fn closes_the_connections_it_forgets() {
    let listener = Listener::start();
    let mut stored = TcpStream::connect(listener.host()).expect("the listener accepts");
    first_arrival(&listener, |_| true);
    listener.forget();
    let read = stored.read(&mut [0]).expect("an orderly end");
    assert_eq!(read, 0, "closed from the other side");
}

#[test]
fn keeps_the_first_bytes_of_what_it_cannot_read() {
    let listener = Listener::start();
    let mut stream = TcpStream::connect(listener.host()).expect("the listener accepts");
    stream.write_all(b"\x16\x03\x01example.org").expect("the listener reads");
    let heard = first_arrival(
        &listener,
        |seen| matches!(seen, Arrival::Connection { first_bytes } if !first_bytes.is_empty()),
    );
    assert_eq!(heard, Arrival::Connection { first_bytes: b"\x16\x03\x01example.org".to_vec() }, "as sent");
}

#[test]
fn tells_stun_from_other_packets() {
    let listener = Listener::start();
    let socket = UdpSocket::bind("127.0.0.1:0").expect("a free UDP port");
    let mut binding_request = vec![0, 1, 0, 0, 0x21, 0x12, 0xA4, 0x42];
    binding_request.extend([7; 12]);
    socket.send_to(&binding_request, listener.host()).expect("a packet sent");
    socket.send_to(b"hello", listener.host()).expect("a packet sent");
    first_arrival(&listener, |seen| *seen == Arrival::Udp { bytes: 20, stun: true });
    first_arrival(&listener, |seen| *seen == Arrival::Udp { bytes: 5, stun: false });
}
