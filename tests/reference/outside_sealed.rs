//! Sealed files against a cryptography library of others in another language, both ways.

use crate::outside::{Random, asked_outside};
use arcminute_web::model::sealed::{Fresh, SealedError, open, seal};
use serde_json::{Value, json};

const EACH: usize = 12;

fn bytes<const N: usize>(random: &mut Random) -> [u8; N] {
    std::array::from_fn(|_| random.between(0.0, 256.0) as u8)
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A text and a passphrase of signs of one to four bytes.
fn text(random: &mut Random, most: usize) -> String {
    const SIGNS: [char; 12] = ['a', 'Z', '0', ' ', '\n', '"', '\\', 'é', '−', '″', '語', '𝛼'];
    let count = 1 + random.between(0.0, most as f64) as usize;
    (0..count).map(|_| SIGNS[random.between(0.0, 12.0) as usize]).collect()
}

/// Source: RFC 9106 (Argon2id) and RFC 8439 (ChaCha20-Poly1305), as that library has them.
#[test]
fn each_opens_what_the_other_sealed() {
    let mut random = Random(20_28);
    let cases: Vec<(String, String)> =
        (0..EACH).map(|_| (text(&mut random, 2000), text(&mut random, 40))).collect();
    let ours: Vec<String> = cases
        .iter()
        .map(|(text, passphrase)| {
            let fresh = Fresh { salt: bytes(&mut random), nonce: bytes(&mut random) };
            seal(text, passphrase, fresh).expect("it can be sealed")
        })
        .collect();
    let mut to_open: Vec<Value> =
        ours.iter().zip(&cases).map(|(file, (_, passphrase))| json!([file, passphrase])).collect();
    to_open.push(json!([ours[0], format!("{} ", cases[0].1)]));
    let to_seal: Vec<Value> = cases
        .iter()
        .enumerate()
        .map(|(place, (text, passphrase))| {
            let (salt, nonce) = (bytes::<16>(&mut random), bytes::<12>(&mut random));
            let lanes = 1 + place % 3;
            json!([text, passphrase, hex(&salt), hex(&nonce), 1024 * lanes, 1 + place % 4, lanes])
        })
        .collect();
    let answer = asked_outside("sealed_check.py", &json!({ "open": to_open, "seal": to_seal }));
    let opened = answer["opened"].as_array().expect("a list");
    for ((text, _), told) in cases.iter().zip(opened) {
        assert_eq!(told.as_str(), Some(text.as_str()), "what we sealed");
    }
    assert_eq!(opened.last(), Some(&Value::Null), "another passphrase opens nothing there either");
    let theirs = answer["sealed"].as_array().expect("a list");
    assert_eq!(theirs.len(), cases.len());
    for ((text, passphrase), file) in cases.iter().zip(theirs) {
        let file = file.as_str().expect("a text");
        assert_eq!(open(file, passphrase).as_deref(), Ok(text.as_str()), "what they sealed");
        assert_eq!(open(file, &format!("{passphrase}.")), Err(SealedError::DoesNotOpen));
    }
}
