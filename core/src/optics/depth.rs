//! How far a thing may be moved before it blurs.

use super::Train;
use crate::unit::{Length, Vergence};

/// Distances in focus, from the front of the train.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepthOfField {
    /// Nearest distance in focus.
    pub nearest: Length,
    /// Farthest distance in focus; `None` when everything beyond the nearest is.
    pub farthest: Option<Length>,
}

impl DepthOfField {
    /// From nearest to farthest; `None` when it has no far end.
    #[must_use]
    pub fn range(&self) -> Option<Length> {
        self.farthest.map(|farthest| farthest - self.nearest)
    }
}

/// Distances at which light reaches the end of `train` within `tolerance` (either way) of parallel.
///
/// * `tolerance`: half of the depth of focus, above zero. `None` when nothing in front of the train is in focus.
/// * Domain: paraxial. The short rule `2δ/EVP²` is the same for a lens and a reading telescope of equal power.
/// * Source: the engine's `D/B`, solved for the distance.
///
/// ```
/// use arcminute_core::{optics::{Element, Train, depth_of_field}, unit::Vergence};
/// // A +12.5 D lens, half a dioptre either way.
/// let lens = Train::new([Element::Lens { power: Vergence::from_dioptres(12.5), clear_diameter: None }]);
/// let depth = depth_of_field(&lens, Vergence::from_dioptres(0.5)).expect("a magnifier has a focus");
/// assert!((depth.nearest.mm() - 76.92).abs() < 0.005);
/// assert!((depth.range().unwrap_or_default().mm() - 6.41).abs() < 0.005);
/// ```
#[must_use]
pub fn depth_of_field(train: &Train, tolerance: Vergence) -> Option<DepthOfField> {
    let m = train.matrix();
    let asks_for = |demand: Vergence| {
        let distance = (m.d - demand.dioptres() * m.b.m()) / (demand * m.a - m.c).dioptres();
        (0.0 < distance && distance.is_finite()).then(|| Length::from_m(distance))
    };
    Some(DepthOfField { nearest: asks_for(tolerance)?, farthest: asks_for(-tolerance) })
}
