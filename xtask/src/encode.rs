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

/// A JavaScript string literal with one character, U+0000 to U+00FF, for each byte. Written as UTF-8 it compresses to within a
/// few per cent of the bytes themselves; base64 would cost a third more, since it blurs the byte boundaries.
pub(crate) fn script_string(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len() * 3 / 2);
    text.push('"');
    for (i, &byte) in bytes.iter().enumerate() {
        match byte {
            b'"' => text.push_str("\\\""),
            b'\\' => text.push_str("\\\\"),
            b'\n' => text.push_str("\\n"),
            b'\r' => text.push_str("\\r"),
            // `\0` before a digit would be read as an octal escape.
            0 if bytes.get(i + 1).is_some_and(u8::is_ascii_digit) => text.push_str("\\x00"),
            0 => text.push_str("\\0"),
            _ => text.push(char::from(byte)),
        }
    }
    text.push('"');
    text
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
    fn script_string_escapes_what_a_script_cannot_hold() {
        assert_eq!(script_string(b"\0a\x001\"\\\n\r"), r#""\0a\x001\"\\\n\r""#);
        assert_eq!(script_string(&[0x7f, 0x80, 0xff]), "\"\u{7f}\u{80}\u{ff}\"");
    }

    /// Reads the literal the way a script engine does.
    #[test]
    fn script_string_gives_every_byte_back() {
        let bytes: Vec<u8> = (0..=255).chain((0..=255).rev()).chain(*b"\x000\x009").collect();
        let literal = script_string(&bytes);
        let mut text = literal[1..literal.len() - 1].chars();
        let mut read = Vec::new();
        while let Some(c) = text.next() {
            let value = match c {
                '\\' => match text.next().expect("an escape has a letter") {
                    'n' => 10,
                    'r' => 13,
                    '0' => 0,
                    'x' => {
                        assert_eq!((text.next(), text.next()), (Some('0'), Some('0')));
                        0
                    }
                    other => u32::from(other),
                },
                other => u32::from(other),
            };
            read.push(u8::try_from(value).expect("one byte in each character"));
        }
        assert_eq!(read, bytes);
    }
}
