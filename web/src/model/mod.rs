//! Drafts, typed entries, answers, files: everything about a case that needs neither a framework nor a browser.

pub mod answer;
pub mod case_file;
pub mod compared;
pub mod demo;
pub mod devices;
pub mod draft;
pub mod entry;
pub mod field;
mod fill;
pub mod format;
pub mod goals;
pub mod grips;
pub mod handed;
pub mod kept;
pub mod list;
pub mod report;
pub mod sealed;
pub mod sheets;
pub mod shelf;
pub mod shown;
pub mod summary;
pub mod words;
pub mod working;
