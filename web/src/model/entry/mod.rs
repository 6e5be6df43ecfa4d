//! From what a person types to what the core takes.
//!
//! A box's text is kept as typed; these functions say what it means. Empty is not an error: it is `Ok(None)` or
//! `Empty`. What is impossible is refused with an [`Error`](arcminute_core::Error) that says what to type; what is only
//! unusual is used, and [`Bound::is_unusual`](arcminute_core::bounds::Bound::is_unusual) tells. What can mean two things
//! is asked about (`Ask`), never guessed.
//!
//! Typographic signs, digits of other scripts and decimal commas are made plain first ([`normalise`]).

mod length;
mod number;
mod pd;
mod plain;
mod refraction;

#[cfg(test)]
mod tests;

pub use length::length;
pub use number::{angle, dioptres, number};
pub use pd::{Pd, PdParsed, pd};
pub use plain::normalise;
pub use refraction::{RefractionEntry, prescription, refraction};

use arcminute_core::acuity::{self, BareNumber};
use arcminute_core::print;

/// What an acuity box says; see [`acuity::parse`].
///
/// ```
/// use arcminute_core::acuity::{BareNumber, Parsed};
/// use arcminute_web::model::entry;
/// assert!(matches!(entry::acuity("20/200−2", BareNumber::Ask), Parsed::Understood(_)));
/// assert!(matches!(entry::acuity("0,1", BareNumber::Ask), Parsed::Ask { .. }));
/// ```
#[must_use]
pub fn acuity(text: &str, bare: BareNumber) -> acuity::Parsed {
    match plain::plain("acuity", text) {
        Ok(plain) => acuity::parse(&plain, bare),
        Err(error) => acuity::Parsed::Refused(error),
    }
}

/// What a print box says; see [`print::parse`](print::parse()).
///
/// ```
/// use arcminute_core::print::Parsed;
/// use arcminute_web::model::entry;
/// assert!(matches!(entry::print("1,6 M"), Parsed::Understood(_)));
/// assert!(matches!(entry::print("8"), Parsed::Ask { .. }));
/// ```
#[must_use]
pub fn print(text: &str) -> print::Parsed {
    match plain::plain("print size", text) {
        Ok(plain) => print::parse(&plain),
        Err(error) => print::Parsed::Refused(error),
    }
}
