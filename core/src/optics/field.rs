//! How much can be seen at once.

use super::{Sight, Train, view};
use crate::math;
use crate::unit::{Angle, Length, Vergence};
use arrayvec::ArrayVec;

/// The pupil and every part of a train.
const INTERVALS: usize = 17;

/// Apparent field at the eye: full angles at which the bundle that fills the pupil on axis is whole, half, gone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Field {
    /// Nothing is cut off inside this angle.
    pub full: Angle,
    /// Half of the bundle's width is left.
    pub half: Angle,
    /// The last light goes.
    pub last: Angle,
}

/// Apparent field of `train`, which ends at the eye, for a pupil of this diameter; `None` where nothing limits it.
///
/// The light is taken to arrive parallel; where it does not (an ametropic eye), see [`field_of_view_at`].
#[must_use]
pub fn field_of_view(train: &Train, pupil: Length) -> Option<Field> {
    field_of_view_at(train, pupil, Vergence::ZERO)
}

/// Apparent field of `train`, which ends at the eye, for a pupil of this diameter and light that arrives with this
/// demand: [`View::focus_demand`](super::View::focus_demand). `None` where nothing limits it.
///
/// In the section through the axis each opening, carried to the pupil's plane, leaves an interval of heights that moves
/// with the slope; the field ends where the common interval has shrunk to the wanted share of its width on axis. Slopes
/// are those of the ray through the middle of the pupil.
///
/// * Domain: paraxial, round openings. Off the section the shares differ a little; full and last do not.
/// * Source: Smith, chapter 13 (Galilean: the eye's pupil is the stop, the objective the window; Keplerian: the field
///   stop or the eyepiece rim); generalised here, and checked against those closed forms.
#[must_use]
pub fn field_of_view_at(train: &Train, pupil: Length, focus_demand: Vergence) -> Option<Field> {
    // (drift, half-width): the interval of heights at the pupil is drift·slope ± half-width.
    let mut intervals: ArrayVec<(f64, f64), INTERVALS> = ArrayVec::new();
    let _ = intervals.try_push((0.0, pupil.m() / 2.0));
    let mut hard_limit = f64::INFINITY;
    for aperture in train.apertures() {
        let (beta, radius) = (aperture.beta.m(), aperture.radius.m());
        // A ray of the bundle, y off the middle of the pupil, is steeper than the middle one by the demand times y.
        let alpha = aperture.alpha + beta * focus_demand.dioptres();
        if math::abs(alpha) * pupil.m() < 1e-9 * radius {
            // In the plane of an image: all of the bundle passes or none.
            hard_limit = hard_limit.min(radius / math::abs(beta));
        } else {
            // Never full: the pupil and no more openings than parts.
            let _ = intervals.try_push((-beta / alpha, radius / math::abs(alpha)));
        }
    }
    let on_axis = 2.0 * intervals.iter().map(|interval| interval.1).fold(f64::INFINITY, f64::min);
    let slope_leaving = |share: f64| {
        let mut least = hard_limit;
        for (drift_top, half_top) in &intervals {
            for (drift_bottom, half_bottom) in &intervals {
                let closing = drift_bottom - drift_top;
                if closing > 1e-12 {
                    least = least.min((half_top + half_bottom - share * on_axis) / closing);
                }
            }
        }
        least.max(0.0)
    };
    let angle = |share| Angle::from_tangent(slope_leaving(share)) * 2.0;
    slope_leaving(0.0).is_finite().then(|| Field { full: angle(1.0), half: angle(0.5), last: angle(0.0) })
}

impl Field {
    /// The same three angles before the train: what of a far world is taken in, full angles.
    #[must_use]
    pub fn real(&self, train: &Train) -> Self {
        let magnification = math::abs(view(train, Sight::Far).enlargement);
        let real = |apparent: Angle| Angle::from_tangent((apparent / 2.0).tangent() / magnification) * 2.0;
        Self { full: real(self.full), half: real(self.half), last: real(self.last) }
    }
    /// Width taken in at the half-light edge at an equivalent viewing distance: `2·EVD·tan(a/2)`.
    #[must_use]
    pub fn width_at(&self, equivalent_viewing_distance: Length) -> Length {
        equivalent_viewing_distance * (2.0 * (self.half / 2.0).tangent())
    }
}
