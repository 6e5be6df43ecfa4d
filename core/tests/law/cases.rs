//! How many random inputs a law is put to.

/// So many; or as many as `ARCMINUTE_CASES` says when the tests are built, where that is fewer. It is for runs that put the
/// same laws to changed code many times over, or count the lines they reach.
pub(crate) const fn cases(full: u32) -> u32 {
    let Some(wanted) = option_env!("ARCMINUTE_CASES") else { return full };
    match u32::from_str_radix(wanted, 10) {
        Ok(fewer) if fewer < full => fewer,
        Ok(_) => full,
        Err(_) => panic!("ARCMINUTE_CASES is no number"),
    }
}
