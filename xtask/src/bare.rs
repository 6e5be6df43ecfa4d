//! `cargo xtask test bare`: the core needs no allocator, and nothing that goes into it makes it panic.
//!
//! The core is compiled for a bare microcontroller with every function kept, private ones too, each for itself, so that
//! the optimiser may assume nothing about what goes in. Integer overflow is made a panic. What it cannot prove away is
//! written in the assembly as a call of a panic, and found there. The core's calls into other crates are followed in a
//! second build, `tests/bare`, which is linked whole, without an allocator. A planted panic has to be found.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use crate::{Outcome, paths, run};

const TARGET: &str = "thumbv7em-none-eabi";
const CORE: &str = "arcminute_core";

/// Functions of the standard library that keep ways to a panic, and why none is taken.
const EXCEPT: &[(&[&str], &str)] = &[
    (
        &["core", "fmt", "float"],
        "prints a number: its assertions are about its own buffers, whatever the number is",
    ),
    (&["core", "num", "flt2dec"], "the digits of a number, for the same"),
    (&["core", "num", "bignum"], "the long integers behind those digits"),
];

/// What the assembly says of each function or table: which other names it uses.
type Uses = BTreeMap<String, BTreeSet<String>>;

/// Everything; says how many functions were looked at.
pub(crate) fn check() -> Outcome {
    let advice = "the core may use `core`, libm and arrayvec, and `alloc` with its feature only; use crate::math instead of f64's own functions";
    for features in [&[][..], &["--no-default-features"]] {
        let mut check = run::cargo(&["check", "--package", CORE_PACKAGE, "--target", TARGET]);
        run::shown(check.args(features), advice)?;
    }
    for (name, features) in [("core", &["--no-default-features"][..]), ("core-alloc", &[])] {
        let uses = core(name, features)?;
        let kept = reached(&uses);
        none(&panics(&uses, &kept))?;
        let functions = kept.iter().filter(|symbol| symbol.contains(CORE)).count();
        println!("  {name}: no way to a panic in any of {functions} functions, derived ones among them");
    }
    let linked = linked("linked", &[])?;
    none(&panics(&linked, &linked.keys().cloned().collect()))?;
    needed(&linked)?;
    println!("  linked whole without an allocator: no way to a panic but in the printing of numbers");
    let planted = linked_planted()?;
    println!("  the planted panic is found in {planted}");
    Ok(())
}

const CORE_PACKAGE: &str = "arcminute-core";

/// The core by itself, every function kept.
fn core(name: &str, features: &[&str]) -> Outcome<Uses> {
    let mut cargo =
        run::cargo(&["rustc", "--quiet", "--profile", "bare", "--package", CORE_PACKAGE, "--lib"]);
    cargo.args(features);
    assembly(&mut cargo, name, &["-C", "link-dead-code"])
}

/// The program of `tests/bare`, with everything that it draws in.
fn linked(name: &str, features: &[&str]) -> Outcome<Uses> {
    let mut cargo =
        run::cargo(&["rustc", "--quiet", "--profile", "bare-linked", "--package", "arcminute-bare"]);
    cargo.args(features);
    assembly(&mut cargo, name, &["--emit=link"])
}

/// Name of the function where the planted panic was found.
fn linked_planted() -> Outcome<String> {
    let uses = linked("planted", &["--features", "planted"])?;
    let found = panics(&uses, &uses.keys().cloned().collect());
    found
        .into_iter()
        .find(|symbol| symbol.contains("planted"))
        .map(|symbol| readable(&symbol))
        .ok_or_else(|| "the planted panic was not found, so this step finds nothing".into())
}

fn assembly(cargo: &mut std::process::Command, name: &str, flags: &[&str]) -> Outcome<Uses> {
    let place = paths::target().join(format!("bare-{name}.s"));
    let emit = format!("--emit=asm={}", place.display());
    cargo.args(["--target", TARGET, "--"]).args(flags).arg(emit);
    run::shown(cargo, "mend what the compiler names above")?;
    read(&place)
}

fn read(place: &Path) -> Outcome<Uses> {
    let text = std::fs::read_to_string(place).map_err(|error| {
        format!("cannot read {}: {error}; try again after `cargo clean`", place.display())
    })?;
    Ok(uses(&text))
}

/// Functions and tables of an assembly text, with the names that each uses.
fn uses(text: &str) -> Uses {
    let mut uses = Uses::new();
    let mut inside: Option<String> = None;
    for line in text.lines() {
        let mut words = line.split([' ', '\t', ',']).filter(|word| !word.is_empty());
        match words.next() {
            Some(".type") => {
                uses.entry(words.next().unwrap_or_default().into()).or_default();
            }
            Some(".size") => inside = None,
            Some(label) if label.ends_with(':') && !line.starts_with(char::is_whitespace) => {
                let label = label.trim_end_matches(':');
                if uses.contains_key(label) {
                    inside = Some(label.into());
                }
            }
            Some(".long" | ".word") => note(&mut uses, inside.as_ref(), words),
            Some(other) if !other.starts_with('.') => note(&mut uses, inside.as_ref(), words),
            _ => {}
        }
    }
    uses
}

fn note<'a>(uses: &mut Uses, inside: Option<&String>, words: impl Iterator<Item = &'a str>) {
    let Some(names) = inside.and_then(|inside| uses.get_mut(inside)) else { return };
    for word in words {
        let word =
            word.trim_start_matches('#').trim_start_matches(":lower16:").trim_start_matches(":upper16:");
        let word = word.split(['+', '(']).next().unwrap_or_default();
        if word.contains(['_', '.']) {
            names.insert(word.into());
        }
    }
}

/// The core's own functions and all that they use, in turn.
fn reached(uses: &Uses) -> BTreeSet<String> {
    let mut reached: BTreeSet<String> = uses.keys().filter(|name| name.contains(CORE)).cloned().collect();
    let mut ahead: Vec<String> = reached.iter().cloned().collect();
    while let Some(name) = ahead.pop() {
        for used in uses.get(&name).into_iter().flatten() {
            if reached.insert(used.clone()) {
                ahead.push(used.clone());
            }
        }
    }
    reached
}

/// Those of `kept` that may call a panic, the panics themselves and the exceptions left out.
fn panics(uses: &Uses, kept: &BTreeSet<String>) -> Vec<String> {
    let may = |name: &&String| uses.get(*name).into_iter().flatten().any(|used| is_panic(used));
    kept.iter().filter(|name| !is_panic(name) && !is_excepted(name)).filter(may).cloned().collect()
}

/// Each exception is one: something that it names can panic, so the text that was looked at is the whole program's.
fn needed(linked: &Uses) -> Outcome {
    let can = |symbol: &str| linked.get(symbol).into_iter().flatten().any(|used| is_panic(used));
    match EXCEPT.iter().find(|(path, _)| !linked.keys().any(|symbol| is_in(symbol, path) && can(symbol))) {
        Some((path, _)) => Err(format!(
            "the exception {} is needed no more; take it out of xtask/src/bare.rs",
            path.join("::")
        )),
        None => Ok(()),
    }
}

/// Whether it is one of the functions that start a panic. Running out of memory is none: no input is at fault.
fn is_panic(symbol: &str) -> bool {
    ["panic", "_fail", "rust_begin_unwind"].iter().any(|part| symbol.contains(part)) && !symbol.contains(CORE)
}

fn is_excepted(symbol: &str) -> bool {
    EXCEPT.iter().any(|(path, _)| is_in(symbol, path))
}

/// Whether a symbol is of this module of the standard library.
fn is_in(symbol: &str, path: &[&str]) -> bool {
    let mangled: String = path.iter().map(|part| format!("{}{part}", part.len())).collect();
    symbol.contains(&mangled) && !symbol.contains(CORE)
}

fn none(panics: &[String]) -> Outcome {
    if panics.is_empty() {
        return Ok(());
    }
    let names: Vec<String> = panics.iter().map(|symbol| format!("  {}", readable(symbol))).collect();
    Err(format!(
        "The optimiser cannot rule out a panic in:\n{}\nUse `get`, an iterator, a checked or saturating sum, `List` instead of `ArrayVec` in a record that is copied.",
        names.join("\n")
    ))
}

/// The names in a mangled symbol; a symbol of another kind as it is.
fn readable(symbol: &str) -> String {
    let Some(mut rest) = symbol.strip_prefix("_ZN") else { return symbol.into() };
    let mut parts = Vec::new();
    while let Some(end) = rest.find(|c: char| !c.is_ascii_digit()).filter(|end| *end > 0) {
        let Ok(length) = rest[..end].parse::<usize>() else { break };
        let Some(part) = rest.get(end..end + length) else { break };
        parts.push(part.replace("$LT$", "<").replace("$GT$", ">").replace("$u20$", " ").replace("..", "::"));
        rest = &rest[end + length..];
    }
    if parts.last().is_some_and(|last| last.len() == 17 && last.starts_with('h')) {
        // A hash, which tells nothing.
        parts.pop();
    }
    parts.join("::")
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "\
\t.type\t_ZN14arcminute_core4mind17h1E,%function
_ZN14arcminute_core4mind17h1E:
\t.fnstart
\tmovw\tr0, :lower16:.Ltable
\tbl\t_ZN4core6helper17h2E
\t.size\t_ZN14arcminute_core4mind17h1E, .Lfunc_end0-_ZN14arcminute_core4mind17h1E
\t.type\t_ZN4core6helper17h2E,%function
_ZN4core6helper17h2E:
\tbl\t_ZN4core9panicking5panic17h3E
\t.size\t_ZN4core6helper17h2E, 4
\t.type\t_ZN4core6unused17h4E,%function
_ZN4core6unused17h4E:
\tbl\t_ZN4core9panicking5panic17h3E
\t.size\t_ZN4core6unused17h4E, 4
\t.type\t.Ltable,%object
.Ltable:
\t.long\t_ZN4core3fmt5float5print17h5E
\t.size\t.Ltable, 4
\t.type\t_ZN4core3fmt5float5print17h5E,%function
_ZN4core3fmt5float5print17h5E:
\tb.w\t_ZN4core9panicking5panic17h3E
\t.size\t_ZN4core3fmt5float5print17h5E, 4
\t.addrsig_sym _ZN4core6unused17h4E
";

    #[test]
    fn a_panic_is_found_behind_what_the_core_uses_and_nowhere_else() {
        let uses = uses(TEXT);
        let kept = reached(&uses);
        assert!(kept.contains("_ZN4core3fmt5float5print17h5E"), "through the table: {kept:?}");
        assert_eq!(
            panics(&uses, &kept),
            ["_ZN4core6helper17h2E"],
            "what is not reached and what is excepted do not count"
        );
        let told = none(&panics(&uses, &kept)).expect_err("there is one");
        assert!(told.contains("\n  core::helper\n"), "{told}");
        assert_eq!(none(&[]), Ok(()));
        let told = needed(&uses).expect_err("two of the exceptions are not met with");
        assert!(told.starts_with("the exception core::num::flt2dec is needed no more"), "{told}");
    }

    #[test]
    fn only_the_standard_library_is_excepted() {
        assert!(is_excepted("_RNvMs2_NtNtCsaFjvQsOnSLx_4core3num6bignumNtB5_8Big32x4010mul_digits"));
        assert!(!is_excepted("_ZN14arcminute_core3num4core3fmt5float17h1E"));
        assert!(!is_excepted("_ZN4core3fmt5write17h1E"));
        assert_eq!(readable("_ZN4core6helper17h0123456789abcdefE"), "core::helper");
        assert!(is_panic("_RNvNtCsaFjvQsOnSLx_4core9panicking18panic_bounds_check"));
        assert!(!is_panic("_ZN14arcminute_core5panic17h1E"), "a name of ours");
    }
}
