//! What the targets share.

use arcminute_core::Error;
use arcminute_core::bounds::{self, Bound};
use arcminute_core::explain::Explain;
use std::fmt::Display;

/// The longest beginning that is text.
pub(crate) fn text(bytes: &[u8]) -> &str {
    bytes.utf8_chunks().next().map_or("", |chunk| chunk.valid())
}

/// One of a list, chosen by the first byte, and the text that follows.
pub(crate) fn chosen<'a, T>(list: &'a [T], bytes: &'a [u8]) -> Option<(&'a T, &'a str)> {
    let (first, rest) = bytes.split_first()?;
    Some((list.get(usize::from(*first) % list.len())?, text(rest)))
}

/// One of the table of ranges and the text that follows. The place is counted from the letter `A`, so that a corpus can be read.
pub(crate) fn bound(bytes: &[u8]) -> Option<(&'static Bound, &str)> {
    let (first, rest) = bytes.split_first()?;
    let place = usize::from(first.wrapping_sub(b'A')) % bounds::ALL.len();
    Some((bounds::ALL.get(place)?, text(rest)))
}

/// A refusal says briefly what was wrong, and what to do.
#[track_caller]
pub(crate) fn refusal(error: &Error) {
    let (message, hint) = (error.to_string(), error.hint().to_string());
    for said in [&message, &hint] {
        assert!(3 < said.len() && said.len() < 400, "too little or too much is said: `{said}`");
        assert!(!said.ends_with('.'), "a full stop: `{said}`");
    }
}

/// The two are the same but for the last bits.
#[track_caller]
pub(crate) fn same(what: impl Display, one: f64, other: f64) {
    assert!(one.is_finite() && other.is_finite(), "{what}: {one} and {other} are not both numbers");
    let apart = (one - other).abs();
    assert!(apart <= 1e-12 * one.abs().max(1.0), "{what}: {one} and {other} are not the same");
}

/// What was read back from a print prints the same. Beyond fifteen digits the last bit of a number may differ.
#[track_caller]
pub(crate) fn reprinted(again: &str, printed: &str) {
    let many_digits =
        printed.split(|c: char| !c.is_ascii_digit() && c != '.').any(|number| 15 < number.len());
    assert!(many_digits || again == printed, "`{printed}` is printed as `{again}` when it was read back");
}

/// The working of a result agrees with its numbers.
#[track_caller]
pub(crate) fn working(result: &dyn Explain) {
    for step in result.steps() {
        assert_eq!(step.check(), Ok(()), "{step:?}");
    }
}
