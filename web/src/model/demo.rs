//! The demonstration cases. All people, clinics and devices in them are invented.

use super::case_file::{self, CaseFile};
use super::draft::Draft;

/// A case of the demonstration menu.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DemoCase {
    /// Stable key: the file's name.
    pub id: &'static str,
    /// The file's text.
    pub text: &'static str,
}

macro_rules! cases {
    ($($id:literal,)+) => {
        /// All of them, in teaching order.
        pub static CASES: &[DemoCase] = &[$(DemoCase {
            id: $id,
            text: include_str!(concat!("../../../demo-scenarios/", $id, ".json")),
        },)+];
    };
}

cases! {
    "adult-20-160",
    "adult-20-300",
    "pupil-reads-the-board",
    "frame-too-shallow",
}

impl DemoCase {
    /// The file, read.
    ///
    /// # Panics
    /// If the file in the source tree is damaged; a test opens each.
    #[must_use]
    pub fn file(&self) -> CaseFile {
        case_file::read(self.text).unwrap_or_else(|error| panic!("{}: {error}", self.id))
    }
    /// The case in it.
    #[must_use]
    pub fn case(&self) -> Draft {
        self.file().case
    }
}
