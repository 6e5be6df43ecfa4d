//! What happens to a case besides being typed: its steps back and forth, its files, and how long it may lie open.

mod file;
mod history;
mod idle;

pub use file::{
    Found, LEAST_CHARACTERS, MOST_BYTES, SealedCase, TOO_LARGE, UNREADABLE, chosen, file_name, look, plain,
    seal, unseal,
};
pub use history::{History, MOST_STEPS, PAUSE_MS};
pub use idle::{DEFAULT_MINUTES, MINUTES, Phase, phase};
