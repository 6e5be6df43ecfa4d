//! The gates: a build that could talk to anything, or that tells where it was built, does not come out.
//!
//! The policy in the page forbids every connection at run time; the gates see to it that the program does not even hold the
//! words. What a policy cannot stop, navigation and WebRTC, is stopped here only.

use crate::Outcome;

/// Any import whose name holds one of these could open a connection or run foreign code.
const CONNECTING: &[&str] = &[
    "fetch",
    "xmlhttprequest",
    "websocket",
    "sendbeacon",
    "eventsource",
    "rtcpeerconnection",
    "rtcdatachannel",
    "webtransport",
    "importscripts",
    "newnoargs",
    "new_no_args",
    "new_with_args",
    "worker",
];

/// Imports that could run foreign code, navigate the page away, or load something by address: the whole name, between prefix
/// and hash.
const WHOLE: &[&str] = &[
    "eval",
    "open",
    "assign",
    "replace",
    "navigate",
    "submit",
    "requestsubmit",
    "set_href",
    "set_src",
    "set_location",
    "set_action",
];

/// The same for the text of a script: whole words, in code and in strings alike.
const WORDS: &[&str] = &[
    "fetch",
    "XMLHttpRequest",
    "WebSocket",
    "WebSocketStream",
    "sendBeacon",
    "EventSource",
    "RTCPeerConnection",
    "webkitRTCPeerConnection",
    "RTCDataChannel",
    "WebTransport",
    "importScripts",
    "eval",
    "Worker",
    "SharedWorker",
    "import",
];

/// And sequences that whole words do not catch.
const SEQUENCES: &[&str] = &[
    "new Function",
    "window.open",
    "location.assign",
    "location.replace",
    "location =",
    "location=",
    "location.href =",
    "location.href=",
];

/// Checks the names of what the program asks of the browser.
pub(crate) fn imports<'a>(names: impl IntoIterator<Item = &'a str>) -> Outcome {
    let found: Vec<&str> = names.into_iter().filter(|name| leaks(name)).collect();
    if found.is_empty() {
        return Ok(());
    }
    Err(format!(
        "the program imports what could connect or navigate: {}\n\
         Arcminute promises to send nothing. Take the call out of web/, or leave out the crate feature that brings it in. \
         For a download, set `href` by `set_attribute` on an `<a download>` with a blob address.",
        found.join(", ")
    ))
}

fn leaks(name: &str) -> bool {
    let name = name.to_lowercase();
    let bare = name.strip_prefix("__wbg_").unwrap_or(&name);
    let bare = bare.rsplit_once('_').filter(|(_, hash)| hash.len() == 16).map_or(bare, |(bare, _)| bare);
    CONNECTING.iter().any(|part| bare.contains(part)) || WHOLE.contains(&bare)
}

/// Checks a script: it must start with `belt`, the statement that takes away what no policy covers, and hold no word that
/// connects besides the `allowed` ones.
pub(crate) fn script(name: &str, text: &str, belt: &str, allowed: &[&str]) -> Outcome {
    let rest = text.strip_prefix(belt).ok_or_else(|| {
        format!("{name} does not start with the statement in xtask/site/belt.js; keep it first, before any other script")
    })?;
    let mut found: Vec<&str> =
        words(rest).filter(|word| WORDS.contains(word) && !allowed.contains(word)).collect();
    found.extend(SEQUENCES.iter().filter(|sequence| rest.contains(**sequence)));
    found.sort_unstable();
    found.dedup();
    if found.is_empty() {
        return Ok(());
    }
    Err(format!(
        "{name} holds what could connect or navigate: {}\n\
         Arcminute promises to send nothing. Take it out of the script, or cut it out of the generated part in xtask/src/glue.rs.",
        found.join(", ")
    ))
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !(c.is_alphanumeric() || c == '_' || c == '$')).filter(|word| !word.is_empty())
}

/// Checks that no folder of the building machine is in the program.
pub(crate) fn folders(program: &[u8], folders: &[String]) -> Outcome {
    let usual = ["home", "root", "Users"].map(|name| format!("/{name}/"));
    let holds = |text: &&String| !text.is_empty() && contains(program, text.as_bytes());
    match folders.iter().chain(&usual).find(holds) {
        None => Ok(()),
        Some(folder) => Err(format!(
            "the program holds the name of a folder of this machine, {folder}; add it to the remapped ones in xtask/src/build.rs"
        )),
    }
}

fn contains(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|window| window == part)
}

#[cfg(test)]
mod tests {
    use super::*;

    const BELT: &str = "delete window.RTCPeerConnection;\n";

    #[test]
    fn imports_of_an_ordinary_page_pass() {
        let names = [
            "__wbg_createElement_de4a31ed2fb252be",
            "__wbg_addEventListener_847fd86b8c33ec43",
            "__wbg_queueMicrotask_1e8503a8a690f0a3",
            "__wbg_replaceState_1e8503a8a690f0a3",
            "__wbg_set_innerHTML_a9d3a267967b5117",
            "__wbg_set_hash_a9d3a267967b5117",
            "__wbg_set_nodeValue_7e9217115013d873",
            "__wbindgen_init_externref_table",
            "__wbg___wbindgen_throw_4c88d8bf264fd984",
        ];
        assert_eq!(imports(names), Ok(()));
    }

    #[test]
    fn each_leaking_import_is_named() {
        for name in [
            "__wbg_fetch_b7bf320f681242d2",
            "__wbg_new_XMLHttpRequest_b7bf320f681242d2",
            "__wbg_sendBeacon_b7bf320f681242d2",
            "__wbg_new_websocket",
            "__wbg_newnoargs_105ed471475aaf50",
            "__wbg_new_no_args_105ed471475aaf50",
            "__wbg_eval_105ed471475aaf50",
            "__wbg_open_b7bf320f681242d2",
            "__wbg_assign_b7bf320f681242d2",
            "__wbg_set_href_b7bf320f681242d2",
            "__wbg_new_Worker_b7bf320f681242d2",
        ] {
            let error = imports(["__wbg_body_5f971cbc6950ca4f", name]).expect_err(name);
            assert!(error.contains(name) && !error.contains("__wbg_body"), "{error}");
        }
    }

    #[test]
    fn an_ordinary_script_passes() {
        let text = format!(
            "{BELT}const prefetched = important + evaluate; // navigator.serviceWorker, relocation\n"
        );
        assert_eq!(script("app.js", &text, BELT, &[]), Ok(()));
    }

    #[test]
    fn a_script_that_could_connect_fails() {
        for code in [
            "fetch('x')",
            "window['fetch']('x')",
            "new XMLHttpRequest()",
            "navigator.sendBeacon('x')",
            "new WebSocket('wss:x')",
            "new RTCPeerConnection()",
            "import('x')",
            "eval('x')",
            "new Function('x')",
            "new Worker('x')",
            "window.open('x')",
            "location.href = 'x'",
        ] {
            let error = script("app.js", &format!("{BELT}{code}"), BELT, &[]).expect_err(code);
            assert!(error.starts_with("app.js holds what could connect or navigate: "), "{error}");
        }
    }

    #[test]
    fn a_word_may_be_allowed_by_name() {
        assert_eq!(script("sw.js", "fetch('x')", "", &["fetch"]), Ok(()));
        assert!(script("sw.js", "fetch('x'); new WebSocket('x')", "", &["fetch"]).is_err());
    }

    #[test]
    fn the_belt_must_come_first() {
        assert!(script("app.js", &format!("let a;\n{BELT}"), BELT, &[]).is_err());
    }

    #[test]
    fn a_folder_of_the_machine_fails() {
        assert_eq!(folders(b"at src/page.rs:3", &["/somewhere".into(), String::new()]), Ok(()));
        assert!(folders(b"at /somewhere/page.rs:3", &["/somewhere".into()]).is_err());
        assert!(folders(b"at /home/someone/page.rs:3", &[]).is_err());
    }
}
