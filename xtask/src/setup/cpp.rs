//! A C++ compiler, which the fuzzer's engine is built with.

use super::system;
use crate::{Outcome, run};

const OTHERWISE: &str = "Elsewhere: install a C++ compiler and put it on the PATH, or name it in CXX.";

/// Makes sure of a compiler.
pub(super) fn compiler() -> Outcome {
    let there = || std::env::var_os("CXX").is_some() || run::find(&["c++", "g++", "clang++", "cl"]).is_some();
    if there() {
        return Ok(());
    }
    system::install("A C++ compiler", &["g++"], OTHERWISE)?;
    if there() { Ok(()) } else { Err(format!("A C++ compiler is still not to be found. {OTHERWISE}")) }
}
