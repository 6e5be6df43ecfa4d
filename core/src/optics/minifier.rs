//! A minus lens held at arm's length: more field, less detail.

use super::{Element, Sight, Train, view};
use crate::unit::{Length, Magnification, Vergence};

/// What a hand-held minus lens does to a far scene.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MinusLens {
    /// Angular magnification, below one.
    pub magnification: Magnification,
    /// Focusing needed at the eye.
    pub focus_demand: Vergence,
}

/// A lens of `power` (negative) held `lens_to_eye` away, looking at a far scene.
///
/// Source: paraxial; `M = 1/(1 − D·F)` and demand `−F/(1 − D·F)` are the closed forms.
#[must_use]
pub fn minus_lens(power: Vergence, lens_to_eye: Length) -> MinusLens {
    let lens = Train::new([Element::Lens { power, clear_diameter: None }]);
    let seen = view(&lens.to_eye(lens_to_eye), Sight::Far);
    MinusLens { magnification: Magnification::from_times(seen.enlargement), focus_demand: seen.focus_demand }
}
