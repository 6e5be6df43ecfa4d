//! A case as a file: what is written, what a file that is chosen turns out to be, and what is said when it is no case.
//!
//! A plain file carries a check of its own text in its `about`, so that a measurement that was damaged on the way is not
//! taken for one. Whoever changes a plain file by hand takes the check out.

use crate::model::case_file::{self, CaseFileError};
use crate::model::draft::Draft;
use crate::model::sealed::{self, Fresh, SealedError};

/// Longest file read, bytes.
pub const MOST_BYTES: usize = sealed::MOST_BYTES;
/// Shortest passphrase that seals a case; common practice, no source.
pub const LEAST_CHARACTERS: usize = 8;

/// Said of a file that is too large to be looked at.
pub const TOO_LARGE: &str =
    "This file was not opened: it is too large to be a case; nothing on the page has changed.";
/// Said of a file that the browser cannot read.
pub const UNREADABLE: &str = "This file was not opened: the browser cannot read it; nothing on the page has changed. Choose it again, or another copy.";
/// What stands in a plain file before it is checked.
const UNCHECKED: &str = "\"about\": \"\"";
/// What stands there afterwards, before eight digits and a quote.
const CHECKED: &str = "\"about\": \"check ";
/// Said of anything that is no case.
const NO_CASE: &str = "it is not a case, or it was damaged";

/// A case under a passphrase: nothing of it can be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SealedCase(String);

impl SealedCase {
    /// The text of the sealed file.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.0
    }
}

/// What a file that was chosen is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// A case.
    Case(Box<Draft>),
    /// A sealed case; its text.
    Sealed(String),
}

/// A passphrase that was chosen and typed twice.
///
/// # Errors
/// What is wrong with it, in one sentence.
pub fn chosen<'a>(passphrase: &'a str, again: &str) -> Result<&'a str, &'static str> {
    if passphrase.chars().count() < LEAST_CHARACTERS {
        Err("The passphrase is too short: take at least 8 characters, better four words.")
    } else if passphrase != again {
        Err("The two passphrases are not the same: type both again.")
    } else {
        Ok(passphrase)
    }
}

/// The text of a plain file; it is read back before it is given away.
///
/// # Errors
/// That the case is too large, in one sentence.
pub fn plain(case: &Draft) -> Result<String, &'static str> {
    let text = case_file::write("", case);
    let text = text.replacen(UNCHECKED, &format!("{CHECKED}{:08x}\"", crc_32(&text)), 1);
    match read(&text) {
        Ok(read) if *read == *case => Ok(text),
        _ => Err("The case is too large for a file: shorten the notes, or take goals out."),
    }
}

/// Seals a case.
///
/// # Errors
/// Why it cannot be sealed, in one sentence.
pub fn seal(case: &Draft, passphrase: &str, fresh: Option<Fresh>) -> Result<SealedCase, &'static str> {
    let fresh =
        fresh.ok_or("This browser gives no random numbers, so nothing can be sealed: use another.")?;
    let sealed = sealed::seal(&plain(case)?, passphrase, fresh);
    sealed.map(SealedCase).map_err(|_| "The case could not be sealed: choose another passphrase.")
}

/// What a file is; a sealed one is whole as far as can be told without its passphrase.
///
/// # Errors
/// Why it is not opened, in one sentence.
pub fn look(bytes: Vec<u8>) -> Result<Found, String> {
    let text = String::from_utf8(bytes).map_err(|_| refused(NO_CASE))?;
    let text = text.trim_start_matches('\u{feff}');
    if !sealed::is_sealed(text) {
        return read(text).map(Found::Case);
    }
    match sealed::open(text, "") {
        Err(SealedError::NoPassphrase) => Ok(Found::Sealed(text.to_owned())),
        Err(SealedError::OtherVersion(_) | SealedError::OtherMethod) => {
            Err(refused("it is sealed in a way that this page does not know"))
        }
        _ => Err(refused(NO_CASE)),
    }
}

/// Opens a sealed case.
///
/// # Errors
/// Why it is not opened, in one sentence.
pub fn unseal(text: &str, passphrase: &str) -> Result<Box<Draft>, String> {
    match sealed::open(text, passphrase) {
        Ok(text) => read(&text),
        Err(SealedError::NoPassphrase) => Err("Type the passphrase first.".into()),
        Err(_) => Err(
            "It does not open: the passphrase is another, or the file was damaged; nothing on the page has \
             changed."
                .into(),
        ),
    }
}

/// Name of a file: the label with letters, digits and dashes only, the day, and whether it is sealed.
#[must_use]
pub fn file_name(label: &str, day: &str, kind: &str) -> String {
    let mut name = String::from("case");
    let words = label.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    for word in words.chain([day]) {
        if word == day || name.len() + word.len() < 60 {
            name.push('-');
            name.push_str(word);
        }
    }
    name + "." + kind + ".arcminute.json"
}

/// Whether a text is as it was written, as far as its own check tells; one without a check is.
fn is_whole(text: &str) -> bool {
    let Some((before, after)) = text.split_once(CHECKED) else { return true };
    let Some((check, after)) = after.split_once('"') else { return true };
    let lines = [before, UNCHECKED, after].concat().replace('\r', "");
    format!("{:08x}", crc_32(&lines)) == check
}

/// The cyclic redundancy check of Ethernet, reflected, polynomial 0x04C11DB7 (IEEE 802.3, from memory): it tells every bit
/// that was turned over from none.
fn crc_32(text: &str) -> u32 {
    !text.bytes().fold(!0, |crc, byte| {
        (0..8).fold(
            crc ^ u32::from(byte),
            |crc, _| if crc & 1 == 1 { crc >> 1 ^ 0xEDB8_8320 } else { crc >> 1 },
        )
    })
}

fn read(text: &str) -> Result<Box<Draft>, String> {
    let why = match case_file::read(text) {
        Ok(file) if is_whole(text) => return Ok(Box::new(file.case)),
        Ok(_) => "it was changed after it was saved",
        Err(CaseFileError::TooLong) => "it is too large to be a case",
        Err(CaseFileError::OtherVersion(_)) => "it is of a version that this page does not know",
        Err(CaseFileError::NotOfItsVersion(..)) => "it holds what its version did not have",
        Err(CaseFileError::Goals(_)) => "it holds no goal, or more than 30",
        Err(CaseFileError::NotACase(_) | CaseFileError::OtherFormat(_)) => NO_CASE,
    };
    Err(refused(why))
}

fn refused(why: &str) -> String {
    format!("This file was not opened: {why}; nothing on the page has changed.")
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRESH: Fresh = Fresh { salt: [7; 16], nonce: [9; 12] };

    fn case() -> Draft {
        Draft { label: "A-1 / 2".into(), ..Draft::default() }
    }

    #[test]
    fn a_case_is_saved_and_opened_plain_and_sealed() {
        let plain = plain(&case()).expect("it is written");
        assert_eq!(look(plain.clone().into_bytes()), Ok(Found::Case(Box::new(case()))));
        assert_eq!(
            look(format!("\u{feff}{plain}").into_bytes()),
            Ok(Found::Case(Box::new(case()))),
            "a mark at the front"
        );
        let sealed = seal(&case(), "four words of mine", Some(FRESH)).expect("it is sealed");
        assert!(!sealed.text().contains("A-1"), "nothing of it can be read");
        assert_eq!(look(sealed.text().as_bytes().to_vec()), Ok(Found::Sealed(sealed.text().into())));
        assert_eq!(unseal(sealed.text(), "four words of mine"), Ok(Box::new(case())));
    }

    /// The check value of "123456789" is published with the polynomial (the catalogue of parametrised algorithms, from
    /// memory); that of "The quick brown fox" is zlib's.
    #[test]
    fn the_check_is_the_common_one() {
        assert_eq!(crc_32("123456789"), 0xCBF4_3926);
        assert_eq!(crc_32("The quick brown fox jumps over the lazy dog"), 0x414F_A339);
        assert_eq!(crc_32(""), 0);
    }

    #[test]
    fn a_plain_file_that_was_changed_is_noticed_and_one_without_a_check_opens() {
        let text = plain(&case()).expect("it is written");
        let open = |text: &str| look(text.as_bytes().to_vec());
        let changed =
            "This file was not opened: it was changed after it was saved; nothing on the page has changed.";
        assert_eq!(open(&text.replace("20/40", "20/50")), Err(changed.into()));
        assert_eq!(open(&text.replace("check ", "check 0")), Err(changed.into()));
        assert_eq!(
            open(&text.replace('\n', "\r\n")),
            Ok(Found::Case(Box::new(case()))),
            "lines that end otherwise"
        );
        let (before, after) = text.split_once(CHECKED).expect("it has a check");
        let by_hand = [before, UNCHECKED, &after[9..]].concat().replace("20/40", "20/50");
        let mut expected = case();
        expected.goals[0].acuity = "20/50".into();
        assert_eq!(open(&by_hand), Ok(Found::Case(Box::new(expected))));
        let mut quotes = case();
        quotes.label = "\"about\": \"\"".into();
        let text = plain(&quotes).expect("it is written");
        assert_eq!(
            open(&text),
            Ok(Found::Case(Box::new(quotes))),
            "what is typed is not taken for the check"
        );
    }

    #[test]
    fn what_is_no_case_is_refused_in_one_sentence() {
        let plain = plain(&case()).expect("it is written");
        let sealed = seal(&case(), "four words of mine", Some(FRESH)).expect("it is sealed");
        let sealed = sealed.text();
        let said = |text: &str| look(text.as_bytes().to_vec()).expect_err("refused");
        let version = format!("\"version\": {}", case_file::VERSION);
        let no_case =
            "This file was not opened: it is not a case, or it was damaged; nothing on the page has changed.";
        assert_eq!(said(""), no_case);
        assert_eq!(said("date,amount\n"), no_case);
        assert_eq!(look(vec![0xFF, 0xFE, 0]), Err(no_case.into()));
        assert_eq!(said(&plain[..plain.len() / 2]), no_case);
        assert_eq!(said(&sealed[..sealed.len() / 2]), no_case);
        assert_eq!(said(&plain.replace("arcminute-case", "something")), no_case);
        let other = "This file was not opened: it is of a version that this page does not know; nothing on the page has \
             changed.";
        assert_eq!(said(&plain.replace(&version, "\"version\": 99")), other);
        let old = "This file was not opened: it holds what its version did not have; nothing on the page has changed.";
        let mut detail = case();
        detail.goals[0].kind = crate::model::draft::GoalKind::Detail;
        let detail = case_file::write("", &detail).replace(&version, "\"version\": 1");
        assert_eq!(said(&detail), old);
        let goals =
            "This file was not opened: it holds no goal, or more than 30; nothing on the page has changed.";
        assert_eq!(said(&case_file::write("", &Draft { goals: Vec::new(), ..case() })), goals);
        let method = "This file was not opened: it is sealed in a way that this page does not know; nothing on the page \
             has changed.";
        assert_eq!(said(&sealed.replace("\"version\": 1", "\"version\": 2")), method);
        assert_eq!(said(&sealed.replace("argon2id", "scrypt")), method);
        assert_eq!(said(&" ".repeat(1_000_001)), TOO_LARGE);
        assert_eq!(unseal(sealed, ""), Err("Type the passphrase first.".into()));
        assert_eq!(
            unseal(sealed, "another of mine"),
            Err("It does not open: the passphrase is another, or the file was damaged; nothing on the page has \
                changed."
                .into())
        );
    }

    #[test]
    fn what_cannot_be_saved_says_why() {
        let mut large = case();
        large.person.notes = "x".repeat(1_000_001);
        let words = "The case is too large for a file: shorten the notes, or take goals out.";
        assert_eq!(plain(&large), Err(words));
        assert_eq!(seal(&large, "four words of mine", Some(FRESH)), Err(words));
        let words = "This browser gives no random numbers, so nothing can be sealed: use another.";
        assert_eq!(seal(&case(), "four words of mine", None), Err(words));
        let words = "The case could not be sealed: choose another passphrase.";
        assert_eq!(seal(&case(), "", Some(FRESH)), Err(words));
    }

    #[test]
    fn a_passphrase_is_long_enough_and_typed_twice() {
        assert_eq!(chosen("äöüßäöüß", "äöüßäöüß"), Ok("äöüßäöüß"));
        let short = "The passphrase is too short: take at least 8 characters, better four words.";
        assert_eq!(chosen("äöüßäöü", "äöüßäöü"), Err(short));
        let apart = "The two passphrases are not the same: type both again.";
        assert_eq!(chosen("four words of mine", "four words of mine "), Err(apart));
        assert!(apart != short && short.contains(&LEAST_CHARACTERS.to_string()), "the words say the number");
    }

    #[test]
    fn a_file_name_holds_letters_digits_and_dashes_of_the_label() {
        let name = |label: &str| file_name(label, "2026-11-29", "sealed");
        assert_eq!(name("DEMO-1"), "case-DEMO-1-2026-11-29.sealed.arcminute.json");
        assert_eq!(name(""), "case-2026-11-29.sealed.arcminute.json");
        assert_eq!(name("../../a: <b> \u{202e}c"), "case-a-b-c-2026-11-29.sealed.arcminute.json");
        assert_eq!(name(&"x".repeat(300)), "case-2026-11-29.sealed.arcminute.json");
        assert_eq!(file_name("7", "2026-11-29", "plain"), "case-7-2026-11-29.plain.arcminute.json");
    }
}
