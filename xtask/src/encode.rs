//! Bytes as text that a page can carry, and the hashes that a policy names.

use std::io::Write as _;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use lzma_rust2::{LzmaOptions, LzmaWriter};
use sha2::{Digest as _, Sha256};

use crate::Outcome;

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

/// Bytes as a bare LZMA stream, in the one form that `site/unpack.js` reads: no header, no end mark, and no context of
/// literals or places, which a program hardly gains from. Base64 over it is smaller than what any server makes of the bytes.
pub(crate) fn squeezed(bytes: &[u8]) -> Outcome<Vec<u8>> {
    let failed = |error| format!("cannot pack the program: {error}");
    let mut writer = LzmaWriter::new_no_header(Vec::new(), &packing(bytes.len()), false).map_err(failed)?;
    writer.write_all(bytes).map_err(failed)?;
    writer.finish().map_err(failed)
}

/// The strongest setting, with a window as large as what is packed.
fn packing(bytes: usize) -> LzmaOptions {
    let window = u32::try_from(bytes.next_power_of_two()).unwrap_or(u32::MAX);
    LzmaOptions {
        dict_size: window.max(1 << 16),
        lc: 0,
        lp: 0,
        pb: 0,
        nice_len: 273,
        ..LzmaOptions::with_preset(9)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lzma_rust2::LzmaReader;
    use std::io::Read as _;

    #[test]
    fn hashes_match_the_published_ones() {
        // FIPS 180-2, appendix B.1: "abc".
        assert_eq!(sha256("abc"), "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
        assert_eq!(short_hash("abc"), "ba7816bf8f01cfea");
    }

    #[test]
    fn packing_gives_every_byte_back() {
        let bytes: Vec<u8> = (0..=255).cycle().take(70_000).chain([0xff; 9]).collect();
        let packed = squeezed(&bytes).expect("it can be packed");
        assert!(packed.len() < 2_000, "{} bytes of so even a text", packed.len());
        let window = packing(bytes.len()).dict_size;
        let mut reader =
            LzmaReader::new(&packed[..], bytes.len() as u64, 0, 0, 0, window, None).expect("a reader");
        let mut read = Vec::new();
        reader.read_to_end(&mut read).expect("it can be read");
        assert!(read == bytes, "the same bytes");
        assert_eq!(packed[0], 0, "the script takes the first byte for granted");
    }
}
