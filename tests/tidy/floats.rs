//! Floating-point functions whose results differ between platforms go through `arcminute_core::math`.

use crate::rust::{Rust, code};
use crate::tree;

/// What `f64` has and `libm` does otherwise, or may; `clippy.toml` bans the same, but sees only what it compiles.
const BANNED: &[&str] = &[
    "acos", "acosh", "asin", "asinh", "atan", "atan2", "atanh", "cbrt", "cos", "cosh", "exp", "exp2",
    "exp_m1", "hypot", "ln", "ln_1p", "log", "log10", "log2", "mul_add", "powf", "powi", "sin", "sin_cos",
    "sinh", "tan", "tanh",
];
/// `LogMar::log()`, the logarithm itself, is the one name of ours among them.
const OURS: &str = "log";

fn violations(files: &[Rust]) -> Vec<String> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.path != "core/src/math.rs") {
        for name in &file.names {
            let last = name.parts.last().map_or("", String::as_str);
            let method = name.dotted && name.called && name.parts.len() == 1 && last != OURS;
            let function = name.has(&["f64", "f32"]);
            if BANNED.contains(&last) && (method || function) {
                found
                    .push(format!("{}:{}: `{last}` goes through arcminute_core::math", file.path, name.line));
            }
        }
    }
    found
}

#[test]
fn floating_point_functions_go_through_one_door() {
    crate::nothing(&violations(&code(&tree::rust(), &["core/src/", "web/src/"])));
    let planted =
        |text: &str| violations(&code(&[tree::File::planted("web/src/plot/scale.rs", text)], &["web/src/"]));
    crate::planted(
        &planted("let x = y\n    .tan();"),
        &["web/src/plot/scale.rs:2: `tan` goes through arcminute_core::math"],
    );
    crate::planted(
        &planted("xs.iter().map(f64::log10)"),
        &["web/src/plot/scale.rs:1: `log10` goes through arcminute_core::math"],
    );
    crate::planted(&planted("math::log10(x) + acuity.log() + x.sqrt() // x.tan()"), &[]);
    crate::planted(&planted("#[cfg(test)]\nmod tests { fn t() { x.tan(); } }"), &[]);
}

#[test]
fn clippy_bans_the_same() {
    let files = tree::all();
    let file = files.iter().find(|file| file.path == "clippy.toml").expect("there is a clippy.toml");
    let listed: Vec<&str> =
        file.text.lines().filter_map(|line| line.split("f64::").nth(1)?.split('"').next()).collect();
    assert_eq!(listed, BANNED, "clippy.toml and this test ban the same functions, in the same order");
}
