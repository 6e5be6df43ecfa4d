//! Who may know whom.

use crate::rust::{Name, Rust, code};
use crate::tree;

/// Layers of the core, lowest first. A module may name modules of lower layers only, so never one of its own layer.
const CORE: &[&[&str]] = &[
    &["math"],
    &["unit"],
    &["error", "list", "source"],
    &["bounds", "explain", "scan"],
    &["print"],
    &[
        "acuity",
        "contrast",
        "eccentric",
        "light",
        "optics",
        "predict",
        "reading",
        "refraction",
        "steadiness",
        "task",
    ],
    &["accommodation", "convergence", "scene", "tolerance", "unmarked"],
    &["delivery", "device", "everyday", "fit"],
    &["kit", "rank", "trial"],
];

/// Names that no file of some folders may use.
struct Ban {
    /// The folders.
    folders: &'static [&'static str],
    /// Files in them that may.
    but: &'static [&'static str],
    /// What must not be named.
    names: &'static [&'static str],
    /// Why, for the message.
    because: &'static str,
}

/// The doors to the browser; some are functions, and count only where they are called.
const BROWSER: &[&str] = &["web_sys", "js_sys", "wasm_bindgen", "window", "document"];
/// Names that are ordinary words, and count only as functions.
const ONLY_CALLED: &[&str] = &["window", "document", "fetch"];

const BANS: &[Ban] = &[
    Ban {
        folders: &["core/src/"],
        but: &[],
        names: &[
            "std",
            "serde",
            "serde_json",
            "leptos",
            "web_sys",
            "js_sys",
            "wasm_bindgen",
            "arcminute_web",
        ],
        because: "the core knows no standard library, no file format and no page",
    },
    Ban {
        folders: &["web/src/model/", "web/src/plot/"],
        but: &[],
        names: &["leptos", "web_sys", "js_sys", "wasm_bindgen"],
        because: "model and plot know no framework and no browser",
    },
    Ban {
        folders: &["web/src/model/", "web/src/plot/"],
        but: &[],
        names: &["Instant", "SystemTime", "thread", "fs", "env", "net", "process"],
        because: "what the page has not got must not be asked for",
    },
    Ban {
        folders: &["web/src/"],
        but: &["web/src/platform/"],
        names: BROWSER,
        because: "only platform knows the browser",
    },
    Ban {
        folders: &["web/src/"],
        but: &["web/src/platform/kept.rs"],
        names: &[
            "local_storage",
            "session_storage",
            "localStorage",
            "sessionStorage",
            "indexed_db",
            "Storage",
        ],
        because: "only the list of aids and a sealed case may be kept",
    },
    Ban {
        folders: &["web/src/"],
        but: &[],
        names: &[
            "fetch",
            "fetch_with_str",
            "fetch_with_request",
            "XmlHttpRequest",
            "XMLHttpRequest",
            "WebSocket",
            "EventSource",
            "RtcPeerConnection",
            "WebTransport",
            "BroadcastChannel",
            "send_beacon",
            "sendBeacon",
        ],
        because: "the page connects to nothing",
    },
    Ban {
        folders: &["web/src/"],
        but: &[],
        names: &["Reflect", "inline_js", "eval", "new_no_args", "new_with_args"],
        because: "no name is looked up at run time and no script is carried in Rust",
    },
];

/// Modules of the page that a folder of the page must not name.
const PAGE: &[(&str, &[&str])] = &[
    ("web/src/model/", &["plot", "ui", "page", "platform", "app"]),
    ("web/src/plot/", &["model", "ui", "page", "platform", "app"]),
    ("web/src/platform/", &["ui", "page", "app"]),
    ("web/src/ui/", &["page", "app"]),
    ("web/src/page/", &["app"]),
];

/// Parts of the browser's interface that would let the page connect, as features of `web-sys`.
const CONNECTING: &[&str] = &[
    "Beacon",
    "BroadcastChannel",
    "Cache",
    "EventSource",
    "Fetch",
    "Idb",
    "Navigator",
    "Request",
    "Response",
    "Rtc",
    "ServiceWorker",
    "WebSocket",
    "WebTransport",
    "Worker",
    "XmlHttp",
];

/// A crate's module that this name leads to, from a file in this folder.
fn crate_module<'a>(name: &'a Name, path: &str, folder: &str) -> Option<&'a str> {
    let inside = path.strip_prefix(folder)?.trim_end_matches(".rs").trim_end_matches("/mod");
    let depth = if inside == "lib" { 0 } else { inside.split('/').count() };
    let climbs = name.parts.iter().take_while(|part| *part == "super").count();
    match name.parts.first().map(String::as_str) {
        Some("crate") => name.parts.get(1).map(String::as_str),
        Some("super") if depth <= climbs => name.parts.get(climbs).map(String::as_str),
        _ => None,
    }
}

/// The module of the top level that a file belongs to.
fn own_module<'a>(path: &'a str, folder: &str) -> &'a str {
    let inside = path.strip_prefix(folder).unwrap_or(path).trim_end_matches(".rs");
    inside.split_once('/').map_or(inside, |(module, _)| module)
}

fn layer(module: &str) -> Option<usize> {
    CORE.iter().position(|layer| layer.contains(&module))
}

fn core_layers(files: &[Rust]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files {
        let own = own_module(&file.path, "core/src/");
        if own == "lib" {
            continue;
        }
        let Some(own_layer) = layer(own) else {
            found.push(format!("{}: module `{own}` has no place in the layers", file.path));
            continue;
        };
        for name in &file.names {
            let Some(other) = crate_module(name, &file.path, "core/src/").filter(|other| *other != own)
            else {
                continue;
            };
            if layer(other).is_some_and(|other| own_layer <= other) {
                found.push(format!(
                    "{}:{}: `{own}` names `{other}`, which is not below it",
                    file.path, name.line
                ));
            }
        }
    }
    found
}

fn page_layers(files: &[Rust]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files {
        for (folder, never) in PAGE.iter().filter(|(folder, _)| file.path.starts_with(folder)) {
            for name in &file.names {
                if let Some(other) =
                    crate_module(name, &file.path, "web/src/").filter(|other| never.contains(other))
                {
                    found.push(format!("{}:{}: {folder} names `{other}`", file.path, name.line));
                }
            }
        }
    }
    found
}

fn bans(files: &[Rust]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files {
        for ban in BANS {
            let holds = |folders: &[&str]| folders.iter().any(|folder| file.path.starts_with(folder));
            if !holds(ban.folders) || holds(ban.but) {
                continue;
            }
            for name in &file.names {
                let banned = name.parts.iter().enumerate().find(|(index, part)| {
                    let counts = !ONLY_CALLED.contains(&part.as_str())
                        || (name.called && !name.dotted && *index + 1 == name.parts.len());
                    counts && ban.names.contains(&part.as_str())
                });
                // A field of our own may be called `process`; a path, a plain name or a call may not.
                let is_field = name.dotted && !name.called;
                if banned.is_some() && !is_field {
                    let written = name.written();
                    found.push(format!("{}:{}: `{written}`: {}", file.path, name.line, ban.because));
                }
            }
        }
    }
    found
}

/// Features of `web-sys` that are asked for in a manifest.
fn features(manifest: &str) -> Vec<String> {
    let after = manifest.split("[dependencies.web-sys]").nth(1).unwrap_or_default();
    let list =
        after.split_once("features = [").map_or("", |(_, rest)| rest.split(']').next().unwrap_or_default());
    list.split(',')
        .map(|feature| feature.trim().trim_matches('"').to_owned())
        .filter(|f| !f.is_empty())
        .collect()
}

fn connecting(manifest: &str) -> Vec<String> {
    features(manifest)
        .into_iter()
        .filter(|feature| CONNECTING.iter().any(|part| feature.starts_with(part)))
        .map(|feature| format!("web/Cargo.toml: web-sys feature `{feature}` lets the page connect or keep"))
        .collect()
}

#[test]
fn the_core_is_layered() {
    let files = tree::rust();
    crate::nothing(&core_layers(&code(&files, &["core/src/"])));
    let planted =
        |path: &str, text: &str| core_layers(&code(&[tree::File::planted(path, text)], &["core/src/"]));
    let path = "core/src/optics/field.rs";
    crate::planted(
        &planted(path, "use crate::{unit::Length,\nfit::Frame};"),
        &["core/src/optics/field.rs:2: `optics` names `fit`, which is not below it"],
    );
    crate::planted(
        &planted(path, "use super::super::acuity::parse;"),
        &["core/src/optics/field.rs:1: `optics` names `acuity`, which is not below it"],
    );
    crate::planted(&planted(path, "use super::train::Train; fn f() { crate::math::sqrt(2.0) }"), &[]);
    crate::planted(
        &planted("core/src/spells.rs", ""),
        &["core/src/spells.rs: module `spells` has no place in the layers"],
    );
}

#[test]
fn every_layer_is_there() {
    let files = tree::rust();
    for module in CORE.concat() {
        let there = files.iter().any(|file| {
            file.path == format!("core/src/{module}.rs") || file.path == format!("core/src/{module}/mod.rs")
        });
        assert!(there, "core has no module `{module}`; take it out of the layers");
    }
}

#[test]
fn the_page_is_layered() {
    crate::nothing(&page_layers(&code(&tree::rust(), &["web/src/"])));
    let planted =
        |path: &str, text: &str| page_layers(&code(&[tree::File::planted(path, text)], &["web/src/"]));
    crate::planted(
        &planted("web/src/ui/entry.rs", "use crate::page::BenchPlace;"),
        &["web/src/ui/entry.rs:1: web/src/ui/ names `page`"],
    );
    crate::planted(
        &planted("web/src/model/format.rs", "use super::super::plot;"),
        &["web/src/model/format.rs:1: web/src/model/ names `plot`"],
    );
    crate::planted(
        &planted("web/src/platform/mod.rs", "fn f() { crate::page::go() }"),
        &["web/src/platform/mod.rs:1: web/src/platform/ names `page`"],
    );
    crate::planted(&planted("web/src/page/fit.rs", "use crate::ui::Entry;"), &[]);
}

#[test]
fn nothing_is_named_where_it_must_not_be() {
    crate::nothing(&bans(&code(&tree::rust(), &["core/src/", "web/src/"])));
    let planted =
        |path: &str, text: &str| bans(&code(&[tree::File::planted(path, text)], &["core/src/", "web/src/"]));
    for (path, text, because) in [
        (
            "core/src/math.rs",
            "use std::f64;",
            "the core knows no standard library, no file format and no page",
        ),
        (
            "core/src/unit/angle.rs",
            "extern crate std;",
            "the core knows no standard library, no file format and no page",
        ),
        (
            "core/src/unit/angle.rs",
            "#[derive(serde::Serialize)]",
            "the core knows no standard library, no file format and no page",
        ),
        (
            "web/src/model/draft.rs",
            "use leptos::prelude::*;",
            "model and plot know no framework and no browser",
        ),
        (
            "web/src/plot/scale.rs",
            "std::time::Instant::now()",
            "what the page has not got must not be asked for",
        ),
        ("web/src/page/fit.rs", "window().print()", "only platform knows the browser"),
        ("web/src/ui/entry.rs", "leptos::prelude::document()", "only platform knows the browser"),
        ("web/src/app.rs", "use web_sys::Window;", "only platform knows the browser"),
        ("web/src/ui/entry.rs", "x.local_storage()", "only the list of aids and a sealed case may be kept"),
        (
            "web/src/platform/mod.rs",
            "x.local_storage()",
            "only the list of aids and a sealed case may be kept",
        ),
        ("web/src/platform/mod.rs", "x.send_beacon(y)", "the page connects to nothing"),
        ("web/src/platform/mod.rs", "WebSocket::new(x)", "the page connects to nothing"),
        (
            "web/src/platform/mod.rs",
            "js_sys::Reflect::get(x, y)",
            "no name is looked up at run time and no script is carried in Rust",
        ),
    ] {
        let found = planted(path, text);
        assert!(found.iter().any(|line| line.ends_with(because)), "{path}: {text} passes: {found:?}");
    }
    crate::planted(&planted("web/src/platform/mod.rs", "window().print()"), &[]);
    crate::planted(&planted("web/src/page/fit.rs", "let document = view.window; document.x"), &[]);
}

#[test]
fn the_browser_is_asked_for_nothing_that_connects() {
    let manifest = |files: &[tree::File]| {
        let file = files.iter().find(|file| file.path == "web/Cargo.toml").expect("the page has a manifest");
        file.text.clone()
    };
    let text = manifest(&tree::all());
    assert!(5 < features(&text).len(), "the features of web-sys were not found");
    crate::nothing(&connecting(&text));
    crate::planted(
        &connecting("[dependencies.web-sys]\nfeatures = [\"Window\", \"RequestInit\"]"),
        &["web/Cargo.toml: web-sys feature `RequestInit` lets the page connect or keep"],
    );
}
