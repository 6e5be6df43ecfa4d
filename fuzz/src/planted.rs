//! A planted fault: it shows that the counters see into the core and that a fault which they lead to is found.

use arcminute_core::acuity::{BareNumber, Notation, Parsed, Reading, parse};
use std::hint::black_box;

/// Panics for one acuity in a great many; each step towards it is a place that the counters see.
pub(crate) fn fault(text: &str) {
    let Parsed::Understood(Reading::Measured(acuity)) = parse(text, BareNumber::Ask) else { return };
    let Notation::Metres { numerator, letters, .. } = acuity.notation else { return };
    if black_box(letters) < -4 {
        black_box(numerator);
        assert!(3.0 <= black_box(numerator), "the planted fault was found");
    }
}
