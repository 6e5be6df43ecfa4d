//! What a wish asks of an aid.

use arcminute_core::device::Detail;
use arcminute_core::unit::Length;

/// A wish as aids are measured against it.
#[derive(Clone, Debug, PartialEq)]
pub struct Wish {
    /// Whether it is print, which can be held where it suits unless [`Wish::at`] says where it is.
    pub print: bool,
    /// The thing, at the nearest and at the farthest distance that it is at; one where there is no range.
    pub ends: Vec<Detail>,
    /// From where to where print must be, if it cannot be moved.
    pub at: Option<(Length, Length)>,
    /// Width that should be seen at once.
    pub width: Option<Length>,
    /// Characters that should be seen at once, a count.
    pub characters: Option<f64>,
    /// Hands that have to be free.
    pub hands: u8,
    /// Whether it is done while walking.
    pub walking: bool,
    /// Whether both eyes should be used.
    pub both_eyes: bool,
}
