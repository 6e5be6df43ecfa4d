//! The rules of the architecture, read from the source files.
//!
//! Each rule is a function from files to violations. It runs twice: over the tree, where it must find nothing, and over
//! a planted text, where it must find what was planted, so that a rule that cannot fail is caught. Exceptions stand in
//! tables with a reason each; an exception that nothing needs any more is a violation too.

mod catalogue;
mod documents;
mod examples;
mod files;
mod floats;
mod hazards;
mod layers;
mod rust;
mod style;
mod tree;
mod words;

/// Fails when a rule found something, and says all of it.
#[track_caller]
fn nothing(violations: &[String]) {
    assert!(violations.is_empty(), "{} violations:\n{}", violations.len(), violations.join("\n"));
}

/// Fails unless a rule found exactly this in a planted text.
#[track_caller]
fn planted(violations: &[String], wanted: &[&str]) {
    assert_eq!(violations, wanted, "the rule does not see what was planted");
}
