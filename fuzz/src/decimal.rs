//! Decimal numbers, against the language's own reading of them.

use arcminute_core::math::of_decimal;
use arcminute_core::scan::LONGEST;

/// Any text no longer than an entry.
pub(crate) fn any(text: &str) {
    if LONGEST < text.len() {
        return;
    }
    let is_number = text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.')
        && text.bytes().filter(|byte| *byte == b'.').count() <= 1
        && text.bytes().any(|byte| byte.is_ascii_digit());
    let ours = of_decimal(text);
    assert_eq!(ours.is_some(), is_number, "`{text}` gave {ours:?}");
    let Some(ours) = ours else { return };
    let theirs: f64 = text.parse().expect("the language reads it too");
    assert!(ours.is_finite(), "`{text}` gave {ours}");
    let digits = text.bytes().filter(u8::is_ascii_digit).count();
    if digits <= 15 {
        assert_eq!(ours.to_bits(), theirs.to_bits(), "`{text}` gave {ours}, not {theirs}");
    }
    // Each multiplication by ten beyond the exact powers rounds once.
    let slack = 1e-16 * (digits as f64 + 2.0);
    assert!((ours - theirs).abs() <= slack * theirs, "`{text}` gave {ours}, not {theirs}");
}
