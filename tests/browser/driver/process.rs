//! The chromedriver program: started on a port of its own choosing, ended with its owner.

use crate::setup;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

pub(super) struct Chromedriver {
    child: Child,
    port: u16,
}

const STARTUP: Duration = Duration::from_secs(30);

/// It takes a free port, then the same one over IPv6, and ends at once if that is taken.
const TRIES: usize = 10;

impl Chromedriver {
    /// `temporary` takes what it and the browser would leave in the system's temporary folder.
    pub(super) fn start(temporary: &Path) -> Chromedriver {
        let mut said = String::new();
        for _ in 0..TRIES {
            match Chromedriver::try_start(temporary) {
                Ok(started) => return started,
                Err(words) => said = words,
            }
        }
        panic!("chromedriver does not start (it said {said:?}): run cargo xtask test");
    }

    fn try_start(temporary: &Path) -> Result<Chromedriver, String> {
        let program = setup::chromedriver();
        let mut child = Command::new(&program)
            .arg("--port=0")
            .env("TMPDIR", temporary)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|fault| fault.to_string())?;
        let output = child.stdout.take().expect("chromedriver's output is piped");
        let (tell, told) = mpsc::channel();
        thread::spawn(move || {
            // Reads on to the end: a full pipe would stop chromedriver.
            for line in BufReader::new(output).lines().map_while(Result::ok) {
                let _nobody_may_listen = tell.send(line);
            }
        });
        let (start, mut said) = (Instant::now(), String::new());
        while let Ok(line) = told.recv_timeout(STARTUP.saturating_sub(start.elapsed())) {
            if let Some(port) = port_in(&line) {
                return Ok(Chromedriver { child, port });
            }
            said.push_str(&line);
            said.push('\n');
        }
        let _may_have_ended = child.kill();
        let _reaped = child.wait();
        Err(said)
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
    let alive = || Path::new(&format!("/proc/{process}/exe")).exists();
    let start = Instant::now();
    while alive() {
        if start.elapsed() > Duration::from_secs(5) {
            let _may_have_ended = Command::new("kill").args(["-9", &process.to_string()]).status();
            return;
        }
        thread::sleep(Duration::from_millis(10));
    }
}
