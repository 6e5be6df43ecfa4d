//! The case file: the draft with a format name and a version, as JSON.
//!
//! Version 3 is [`CaseFile`]. Every measured value is text, kept exactly as it was typed; the name ends in the unit a
//! bare number has. A later version reads earlier ones; this one reads nothing it does not know.
//!
//! Version 1 knew two kinds of goals, each with print beside it. What it called `target` is `letters` now, and print
//! beside a goal becomes a goal of its own right after it, so that every wish is one goal.
//!
//! Version 2 knew one telescope in a carrier lens: a tilt ordered by hand was measured from the lens, and what a trial
//! reached belonged to the aid that was looked at.

mod version_1;
mod version_2;

use super::draft::Draft;
use super::fill::fields;
use serde::Serialize;

/// Name of the format.
pub const FORMAT: &str = "arcminute-case";
/// Version written.
pub const VERSION: u32 = 3;
/// Longest file read, bytes.
pub const MOST_BYTES: usize = 1_000_000;
/// Most goals read.
pub const MOST_GOALS: usize = 30;

/// A saved case.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct CaseFile {
    /// Always `arcminute-case`.
    #[cfg_attr(feature = "schema", schemars(extend("const" = FORMAT)))]
    pub format: String,
    /// Version of the format: 3.
    #[cfg_attr(feature = "schema", schemars(extend("const" = VERSION)))]
    pub version: u32,
    /// One line that says what the case shows; shown in the menu of demonstration cases.
    #[serde(default)]
    pub about: String,
    /// The case.
    pub case: Draft,
}
fields!(CaseFile { format, version, about, case } required { format, version, case });

/// Why a file is not a case this page can open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CaseFileError {
    /// Too long.
    TooLong,
    /// Not JSON of the right shape; what the reader said.
    NotACase(String),
    /// Another format.
    OtherFormat(String),
    /// A version this page does not know.
    OtherVersion(u32),
    /// Something that its version did not have.
    NotOfItsVersion(u32, &'static str),
    /// More goals than the page can hold, or none.
    Goals(usize),
}

impl std::fmt::Display for CaseFileError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::TooLong => write!(f, "the file is longer than {MOST_BYTES} bytes; it is not a case"),
            Self::NotACase(why) => write!(f, "the file is not a case: {why}"),
            Self::OtherFormat(found) => {
                write!(f, "the file says its format is `{found}`; a case says `{FORMAT}`")
            }
            Self::OtherVersion(found) => {
                write!(f, "the file is of version {found}; this page reads versions 1 to {VERSION}")
            }
            Self::NotOfItsVersion(version, what) => {
                write!(f, "the file says that it is of version {version}, which had no {what}")
            }
            Self::Goals(found) => write!(f, "the file holds {found} goals; a case holds 1 to {MOST_GOALS}"),
        }
    }
}

impl std::error::Error for CaseFileError {}

/// Reads a case file.
///
/// # Errors
/// [`CaseFileError`], whole or not at all: nothing is taken from a file that is wrong in part.
pub fn read(text: &str) -> Result<CaseFile, CaseFileError> {
    if MOST_BYTES < text.len() {
        return Err(CaseFileError::TooLong);
    }
    let mut file: CaseFile =
        serde_json::from_str(text).map_err(|error| CaseFileError::NotACase(error.to_string()))?;
    if file.format != FORMAT {
        return Err(CaseFileError::OtherFormat(file.format.chars().take(40).collect()));
    }
    let version = file.version;
    let too_new = |what| CaseFileError::NotOfItsVersion(version, what);
    if version == 0 || VERSION < version {
        return Err(CaseFileError::OtherVersion(version));
    }
    if version < 2 {
        file.case = version_1::read(file.case).map_err(too_new)?;
    }
    if version < 3 {
        file.case = version_2::read(file.case).map_err(too_new)?;
    }
    file.version = VERSION;
    let goals = file.case.goals.len();
    if goals == 0 || MOST_GOALS < goals {
        return Err(CaseFileError::Goals(goals));
    }
    Ok(file)
}

/// Writes a case file; reading it back gives the same.
///
/// # Panics
/// Never: the structs hold only text, numbers and named choices.
#[must_use]
pub fn write(about: &str, case: &Draft) -> String {
    let file = CaseFile { format: FORMAT.into(), version: VERSION, about: about.into(), case: case.clone() };
    serde_json::to_string_pretty(&file).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reading_back_gives_the_same() {
        let mut draft = Draft::default();
        draft.person.right.acuity = "20/160-2 \u{2212} \"as typed\"".into();
        let read_back = read(&write("about", &draft)).expect("what was written is read");
        assert_eq!(read_back.case, draft);
        assert_eq!(read_back.about, "about");
    }

    #[test]
    fn what_is_not_a_case_is_refused_whole() {
        let good = write("", &Draft::default());
        let said = |text: &str| read(text).expect_err("refused").to_string();
        assert!(said("").starts_with("the file is not a case: EOF"), "{}", said(""));
        assert_eq!(
            said(&good.replace("arcminute-case", "something-else")),
            "the file says its format is `something-else`; a case says `arcminute-case`"
        );
        assert_eq!(
            said(&good.replace("\"version\": 3", "\"version\": 4")),
            "the file is of version 4; this page reads versions 1 to 3"
        );
        assert_eq!(
            said(&" ".repeat(MOST_BYTES + 1)),
            "the file is longer than 1000000 bytes; it is not a case"
        );
        let mut none = Draft::default();
        none.goals.clear();
        assert_eq!(said(&write("", &none)), "the file holds 0 goals; a case holds 1 to 30");
        assert!(
            said(&good.replace("\"label\"", "\"lable\"")).contains("unknown field `lable`"),
            "unknown fields"
        );
    }
}
