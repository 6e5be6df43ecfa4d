//! Sealed files: a text under a passphrase, in a small JSON that any program with the same two methods can open.
//!
//! ```text
//! { "format": "arcminute-sealed", "version": 1,
//!   "key": { "name": "argon2id", "memory_kib": 19456, "passes": 2, "lanes": 1, "salt": base64 of 16 bytes },
//!   "cipher": "chacha20-poly1305", "nonce": base64 of 12 bytes,
//!   "sealed": base64 of the sealed bytes and their tag of 16 }
//! ```
//!
//! * Key: Argon2id, version 0x13 (RFC 9106), 32 bytes, of the passphrase as typed, in UTF-8.
//! * Sealing: ChaCha20-Poly1305 (RFC 8439). Salt and nonce are fresh for every file.
//! * Held in place beside it: `arcminute-sealed 1 argon2id 19456 2 1 SALT chacha20-poly1305 NONCE`, the values as they
//!   stand in the file, so that nothing of the head can be changed unseen.
//!
//! A passphrase that is forgotten cannot be found again: nobody else has it.

use argon2::{Algorithm, Argon2, Params, Version};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{ChaCha20Poly1305, Key, Nonce};
use serde::{Deserialize, Serialize};

/// Name of the format.
pub const FORMAT: &str = "arcminute-sealed";
/// Version written.
pub const VERSION: u32 = 1;
/// Longest file read, bytes.
pub const MOST_BYTES: usize = 4_000_000;

const KEY_NAME: &str = "argon2id";
const CIPHER: &str = "chacha20-poly1305";
/// Work that one guess of a passphrase costs: the second choice of RFC 9106 is heavier than a phone bears, this is what
/// is recommended for passwords at least (OWASP, from memory).
const MEMORY_KIB: u32 = 19_456;
const PASSES: u32 = 2;
const LANES: u32 = 1;
/// No file may ask for more work than this.
const MOST_MEMORY_KIB: u32 = 262_144;
const MOST_PASSES: u32 = 10;
const MOST_LANES: u32 = 4;

/// Bytes that no other file has, from the browser's generator.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fresh {
    /// For the key.
    pub salt: [u8; 16],
    /// For the sealing.
    pub nonce: [u8; 12],
}

/// Why a file cannot be opened, or a text not be sealed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SealedError {
    /// Too long.
    TooLong,
    /// No sealed file, or not whole.
    NotSealed,
    /// A version this page does not know.
    OtherVersion(u32),
    /// Another method, or more work than is done here.
    OtherMethod,
    /// The passphrase is empty.
    NoPassphrase,
    /// Another passphrase, or a damaged file: nobody can tell which.
    DoesNotOpen,
}

impl std::fmt::Display for SealedError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::TooLong => write!(f, "the file is longer than {MOST_BYTES} bytes; it is no sealed case"),
            Self::NotSealed => f.write_str("the file is no sealed case, or not whole"),
            Self::OtherVersion(found) => {
                write!(f, "the sealed file is of version {found}; this page opens version {VERSION}")
            }
            Self::OtherMethod => f.write_str("the file is sealed in a way that this page does not know"),
            Self::NoPassphrase => f.write_str("a passphrase is needed"),
            Self::DoesNotOpen => f.write_str(
                "it does not open: the passphrase is another, or the file was damaged; nothing on the page has changed",
            ),
        }
    }
}

impl std::error::Error for SealedError {}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KeyMade {
    name: String,
    memory_kib: u32,
    passes: u32,
    lanes: u32,
    salt: String,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Sealed {
    format: String,
    version: u32,
    key: KeyMade,
    cipher: String,
    nonce: String,
    sealed: String,
}

impl Sealed {
    /// What is held in place beside the sealed bytes.
    fn head(&self) -> String {
        let Self { format, version, key, cipher, nonce, .. } = self;
        let KeyMade { name, memory_kib, passes, lanes, salt } = key;
        format!("{format} {version} {name} {memory_kib} {passes} {lanes} {salt} {cipher} {nonce}")
    }

    fn cipher_of(&self, passphrase: &str) -> Result<ChaCha20Poly1305, SealedError> {
        let KeyMade { memory_kib, passes, lanes, salt, .. } = &self.key;
        let bounded = *memory_kib <= MOST_MEMORY_KIB && *passes <= MOST_PASSES && *lanes <= MOST_LANES;
        let salt = STANDARD.decode(salt).map_err(|_| SealedError::NotSealed)?;
        let params = Params::new(*memory_kib, *passes, *lanes, Some(32)).ok().filter(|_| bounded);
        let params = params.ok_or(SealedError::OtherMethod)?;
        let mut key = [0; 32];
        Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
            .hash_password_into(passphrase.as_bytes(), &salt, &mut key)
            .map_err(|_| SealedError::NotSealed)?;
        Ok(ChaCha20Poly1305::new(&Key::from(key)))
    }

    fn nonce_bytes(&self) -> Result<Nonce, SealedError> {
        let bytes = STANDARD.decode(&self.nonce).map_err(|_| SealedError::NotSealed)?;
        let bytes: [u8; 12] = bytes.try_into().map_err(|_| SealedError::NotSealed)?;
        Ok(Nonce::from(bytes))
    }
}

/// Seals a text.
///
/// # Errors
/// [`SealedError::NoPassphrase`] for an empty one, [`SealedError::TooLong`] for a text that could not be opened again.
pub fn seal(text: &str, passphrase: &str, fresh: Fresh) -> Result<String, SealedError> {
    seal_at(text, passphrase, fresh, MEMORY_KIB, PASSES)
}

/// The same, at this much work for the key.
fn seal_at(
    text: &str,
    passphrase: &str,
    fresh: Fresh,
    memory_kib: u32,
    passes: u32,
) -> Result<String, SealedError> {
    if passphrase.is_empty() {
        return Err(SealedError::NoPassphrase);
    }
    if MOST_BYTES / 2 < text.len() {
        return Err(SealedError::TooLong);
    }
    let mut file = Sealed {
        format: FORMAT.into(),
        version: VERSION,
        key: KeyMade {
            name: KEY_NAME.into(),
            memory_kib,
            passes,
            lanes: LANES,
            salt: STANDARD.encode(fresh.salt),
        },
        cipher: CIPHER.into(),
        nonce: STANDARD.encode(fresh.nonce),
        sealed: String::new(),
    };
    let head = file.head();
    let payload = Payload { msg: text.as_bytes(), aad: head.as_bytes() };
    let sealed = file.cipher_of(passphrase)?.encrypt(&file.nonce_bytes()?, payload);
    file.sealed = STANDARD.encode(sealed.map_err(|_| SealedError::TooLong)?);
    Ok(serde_json::to_string_pretty(&file).unwrap_or_default())
}

/// Whether a text says that it is a sealed file; it may be damaged all the same.
#[must_use]
pub fn is_sealed(text: &str) -> bool {
    text.len() <= MOST_BYTES && text.trim_start().starts_with('{') && text.contains("\"arcminute-sealed\"")
}

/// Opens a sealed file.
///
/// # Errors
/// [`SealedError`], whole or not at all; for another passphrase and for a damaged file the same.
pub fn open(text: &str, passphrase: &str) -> Result<String, SealedError> {
    if MOST_BYTES < text.len() {
        return Err(SealedError::TooLong);
    }
    let file: Sealed = serde_json::from_str(text).map_err(|_| SealedError::NotSealed)?;
    if file.format != FORMAT {
        return Err(SealedError::NotSealed);
    }
    if file.version != VERSION {
        return Err(SealedError::OtherVersion(file.version));
    }
    if file.key.name != KEY_NAME || file.cipher != CIPHER {
        return Err(SealedError::OtherMethod);
    }
    if passphrase.is_empty() {
        return Err(SealedError::NoPassphrase);
    }
    let bytes = STANDARD.decode(&file.sealed).map_err(|_| SealedError::NotSealed)?;
    let nonce = file.nonce_bytes()?;
    let head = file.head();
    let payload = Payload { msg: &bytes, aad: head.as_bytes() };
    let text = file.cipher_of(passphrase)?.decrypt(&nonce, payload).map_err(|_| SealedError::DoesNotOpen)?;
    String::from_utf8(text).map_err(|_| SealedError::DoesNotOpen)
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRESH: Fresh = Fresh { salt: [7; 16], nonce: [9; 12] };

    fn sealed() -> String {
        seal("{ \"a case\": \"20/160 \u{2212}2\" }", "four words of mine", FRESH).expect("it is sealed")
    }

    #[test]
    fn what_was_sealed_opens_with_its_passphrase_and_no_other() {
        let file = sealed();
        assert!(is_sealed(&file) && !is_sealed("{}") && !is_sealed(""));
        assert_eq!(open(&file, "four words of mine").as_deref(), Ok("{ \"a case\": \"20/160 \u{2212}2\" }"));
        assert_eq!(open(&file, "four words of mine "), Err(SealedError::DoesNotOpen));
        assert_eq!(open(&file, ""), Err(SealedError::NoPassphrase));
        assert_eq!(seal("x", "", FRESH), Err(SealedError::NoPassphrase));
        assert!(!file.contains("160"), "nothing of it can be read");
        let other = seal("x", "p", Fresh { salt: [1; 16], ..FRESH }).expect("it is sealed");
        assert_ne!(seal("x", "p", FRESH), Ok(other), "fresh bytes make another file");
    }

    #[test]
    fn whatever_is_changed_in_the_head_is_refused() {
        let file = sealed();
        let with = |from: &str, to: &str| {
            assert!(file.contains(from), "{from}");
            open(&file.replace(from, to), "four words of mine")
        };
        assert_eq!(with("\"passes\": 2", "\"passes\": 1"), Err(SealedError::DoesNotOpen));
        assert_eq!(with("\"memory_kib\": 19456", "\"memory_kib\": 19457"), Err(SealedError::DoesNotOpen));
        assert_eq!(with("\"memory_kib\": 19456", "\"memory_kib\": 4000000"), Err(SealedError::OtherMethod));
        assert_eq!(with("\"passes\": 2", "\"passes\": 4000000"), Err(SealedError::OtherMethod));
        assert_eq!(with("\"lanes\": 1", "\"lanes\": 0"), Err(SealedError::OtherMethod));
        assert_eq!(with("argon2id", "scrypt"), Err(SealedError::OtherMethod));
        assert_eq!(with("chacha20-poly1305", "none"), Err(SealedError::OtherMethod));
        assert_eq!(with("\"version\": 1", "\"version\": 2"), Err(SealedError::OtherVersion(2)));
        assert_eq!(with("arcminute-sealed", "something"), Err(SealedError::NotSealed));
        assert_eq!(with("\"nonce\": \"", "\"nonce\": \"AAAA"), Err(SealedError::NotSealed));
        assert_eq!(with("\"sealed\"", "\"seal\""), Err(SealedError::NotSealed));
        assert_eq!(open(&file[..file.len() / 2], "p"), Err(SealedError::NotSealed));
        assert_eq!(open(&" ".repeat(MOST_BYTES + 1), "p"), Err(SealedError::TooLong));
    }

    /// Little work for the key, so that many files can be tried.
    #[test]
    fn a_file_with_a_bit_turned_over_or_cut_off_opens_whole_or_not_at_all() {
        let text = "20/200, right eye; letters of 40 mm at 6 m";
        let file = seal_at(text, "p", FRESH, 8, 1).expect("it is sealed").into_bytes();
        let (mut refused, mut bit) = (0, 0_usize);
        for damage in 0..100_000_usize {
            // Steps that share no factor with the number of bits come to each of them.
            bit = (bit + 7919) % (file.len() * 8);
            let mut damaged = file.clone();
            damaged[bit / 8] ^= 1 << (bit % 8);
            if damage % 10 == 9 {
                damaged.truncate(bit / 8);
            }
            match open(&String::from_utf8_lossy(&damaged), "p") {
                Ok(opened) => assert_eq!(opened, text, "bit {bit}"),
                Err(_) => refused += 1,
            }
        }
        assert!(90_000 < refused, "blanks between the words of the file may change: {refused}");
    }

    #[test]
    fn each_refusal_says_what_it_is() {
        for (error, words) in [
            (SealedError::TooLong, "the file is longer than 4000000 bytes; it is no sealed case"),
            (SealedError::NotSealed, "the file is no sealed case, or not whole"),
            (SealedError::OtherVersion(2), "the sealed file is of version 2; this page opens version 1"),
            (SealedError::OtherMethod, "the file is sealed in a way that this page does not know"),
            (SealedError::NoPassphrase, "a passphrase is needed"),
            (
                SealedError::DoesNotOpen,
                "it does not open: the passphrase is another, or the file was damaged; nothing on the page has changed",
            ),
        ] {
            assert_eq!(error.to_string(), words);
        }
    }
}
