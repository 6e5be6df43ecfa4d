//! Bytes as text that a page can carry, and the hashes that a policy names.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

/// Base64 with padding.
pub(crate) fn base64(bytes: impl AsRef<[u8]>) -> String {
    STANDARD.encode(bytes)
}

/// `sha256-…` as a policy and an `integrity` attribute spell it.
pub(crate) fn sha256(bytes: impl AsRef<[u8]>) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(bytes)))
}

/// A short name for some content: 16 hexadecimal digits of its hash.
pub(crate) fn short_hash(bytes: impl AsRef<[u8]>) -> String {
    Sha256::digest(bytes).iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

/// Bytes as text for a script: one character for each byte.
#[derive(Debug)]
pub(crate) struct Packed {
    /// The character that stands for each byte, 0 to 255 in order.
    pub(crate) alphabet: String,
    pub(crate) text: String,
}

/// Packs bytes for a script literal. The commonest bytes get the characters that UTF-8 writes in one byte, the others two; a server
/// that compresses then transfers about a twentieth more than the bytes themselves take. Base64 would cost a third more, since it
/// blurs where bytes begin.
pub(crate) fn packed(bytes: &[u8]) -> Packed {
    let mut counts = [0_usize; 256];
    for &byte in bytes {
        counts[usize::from(byte)] += 1;
    }
    let mut commonest: Vec<usize> = (0..256).collect();
    commonest.sort_by_key(|&byte| (std::cmp::Reverse(counts[byte]), byte));
    // Every character that may stand in a literal as it is: none of these needs an escape.
    let plain = ('\u{1}'..='\u{7f}').filter(|c| !['"', '\\', '\n', '\r'].contains(c));
    let mut letters = ['\0'; 256];
    for (byte, letter) in commonest.into_iter().zip(plain.chain('\u{100}'..)) {
        letters[byte] = letter;
    }
    Packed {
        alphabet: letters.iter().collect(),
        text: bytes.iter().map(|&byte| letters[usize::from(byte)]).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hashes_match_the_published_ones() {
        // FIPS 180-2, appendix B.1: "abc".
        assert_eq!(sha256("abc"), "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
        assert_eq!(short_hash("abc"), "ba7816bf8f01cfea");
    }

    #[test]
    fn packed_text_needs_no_escape() {
        let all: Vec<u8> = (0..=255).collect();
        let Packed { alphabet, text } = packed(&all);
        assert_eq!(alphabet, text);
        assert!(!text.contains(['"', '\\', '\n', '\r', '\0', '\u{2028}', '\u{2029}']));
    }

    /// Reads the text the way the page does.
    #[test]
    fn packing_gives_every_byte_back() {
        let bytes: Vec<u8> = (0..=255).chain((0..=255).rev()).chain([0xff; 9]).collect();
        let Packed { alphabet, text } = packed(&bytes);
        assert_eq!(alphabet.chars().count(), 256);
        let byte_of = |letter| alphabet.chars().position(|c| c == letter);
        let read: Vec<usize> = text.chars().filter_map(byte_of).collect();
        assert_eq!(read, bytes.iter().map(|&byte| usize::from(byte)).collect::<Vec<_>>());
        assert_eq!(packed(&[0xff, 0xff, 0]).text, "\u{1}\u{1}\u{2}");
    }
}
