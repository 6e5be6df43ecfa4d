//! Fuzzing: whatever is typed or opened, the parsers neither panic nor let a number pass that they should not.
//!
//! One program holds every target; `ARCMINUTE_FUZZ` names the one to run, the arguments are libFuzzer's. A target takes
//! bytes of any kind and panics where a property does not hold. `cargo xtask fuzz` builds it with coverage counters and
//! runs it; `corpus/` holds the inputs that together reach everything reached so far, `words/` a dictionary for each target
//! that gains by one.
#![no_main]

mod acuity;
mod aids;
mod case;
mod check;
mod colour;
mod decimal;
mod entry;
mod files;
mod formula;
mod pd;
mod planted;
mod print;
mod refraction;
mod scan;

use libfuzzer_sys::fuzz_target;
use std::sync::OnceLock;

type Target = fn(&[u8]);

/// Every target by name; `corpus/` has a folder for each.
const TARGETS: &[(&str, Target)] = &[
    ("acuity", |bytes| acuity::any(check::text(bytes))),
    ("aids", aids::any),
    ("case", |bytes| case::any(check::text(bytes))),
    ("case_file", |bytes| files::case_file(check::text(bytes))),
    ("category", acuity::category),
    ("colour", |bytes| colour::any(check::text(bytes))),
    ("decimal", |bytes| decimal::any(check::text(bytes))),
    ("dioptres", entry::dioptres),
    ("formula", |bytes| formula::any(check::text(bytes))),
    ("length", entry::length),
    ("number", entry::number),
    ("pd", |bytes| pd::any(check::text(bytes))),
    ("plain", |bytes| entry::plain(check::text(bytes))),
    ("planted", |bytes| planted::fault(check::text(bytes))),
    ("print", |bytes| print::any(check::text(bytes))),
    ("refraction", |bytes| refraction::any(check::text(bytes))),
    ("scan", scan::any),
];

fn target() -> Target {
    let name = std::env::var("ARCMINUTE_FUZZ").unwrap_or_default();
    let named = TARGETS.iter().find(|(target, _)| *target == name);
    let names = || TARGETS.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    named.map(|(_, target)| *target).unwrap_or_else(|| panic!("ARCMINUTE_FUZZ names one of {}", names()))
}

static CHOSEN: OnceLock<Target> = OnceLock::new();

fuzz_target!(init: { CHOSEN.get_or_init(target); }, |bytes: &[u8]| {
    CHOSEN.get_or_init(target)(bytes);
});
