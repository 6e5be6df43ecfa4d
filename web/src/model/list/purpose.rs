//! What an aid is for, and what the eye wears with it.

/// What an aid is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum For {
    /// Print near.
    Print,
    /// The goal at its distance.
    Far,
    /// More of the surroundings at once, for a small field; it costs detail.
    Field,
}

/// What the eye wears with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wears {
    /// The correction for far.
    Distance,
    /// The correction for far, with the add where one is written.
    Add,
    /// Nothing: the aid stands in place of the glasses.
    Nothing,
}
