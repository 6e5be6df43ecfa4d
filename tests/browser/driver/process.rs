//! The chromedriver program: started on a port of its own choosing, ended with its owner.

use crate::setup;
use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

pub(super) struct Chromedriver {
    child: Child,
    port: u16,
}

impl Chromedriver {
    pub(super) fn start() -> Chromedriver {
        let program = setup::chromedriver();
        let mut child = Command::new(&program)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|fault| panic!("{} does not start ({fault}): run cargo xtask test", program.display()));
        let output = child.stdout.take().expect("chromedriver's output is piped");
        let (tell, told) = mpsc::channel();
        thread::spawn(move || {
            // Reads on to the end: a full pipe would stop chromedriver.
            for line in BufReader::new(output).lines().map_while(Result::ok) {
                if let Some(port) = port_in(&line) {
                    let _listener_may_be_gone = tell.send(port);
                }
            }
        });
        match told.recv_timeout(Duration::from_secs(30)) {
            Ok(port) => Chromedriver { child, port },
            Err(_) => {
                let _may_have_ended = child.kill();
                panic!("chromedriver named no port within 30 s: run cargo xtask test");
            }
        }
    }

    pub(super) fn base(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }
}

impl Drop for Chromedriver {
    fn drop(&mut self) {
        let _may_have_ended = self.child.kill();
        let _reaped = self.child.wait();
    }
}

/// The port in chromedriver's greeting, `ChromeDriver was started successfully on port 40123.`
fn port_in(line: &str) -> Option<u16> {
    line.split_once("successfully on port ")?.1.trim_end_matches('.').parse().ok()
}

/// Ends a browser that outlived its session.
pub(super) fn end_if_alive(process: u64) {
    let alive = || std::path::Path::new(&format!("/proc/{process}/exe")).exists();
    let start = Instant::now();
    while alive() {
        if start.elapsed() > Duration::from_secs(5) {
            let _may_have_ended = Command::new("kill").args(["-9", &process.to_string()]).status();
            return;
        }
        thread::sleep(Duration::from_millis(10));
    }
}
