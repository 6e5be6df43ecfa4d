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
///
/// ```
/// use arcminute_core::{optics::{Element, Train, field_of_view}, unit::Length};
/// let mm = Length::from_mm;
/// // A hole of 40 mm, 10 cm before a pupil of 4 mm: tangents of half the field 18, 20 and 22 over 100 (computed).
/// let hole = Train::new([Element::Stop(mm(40.0))]).to_eye(mm(100.0));
/// let field = field_of_view(&hole, mm(4.0)).expect("the hole limits it");
/// let tangents = [field.full, field.half, field.last].map(|full_angle| (full_angle / 2.0).tangent());
/// assert!(tangents.iter().zip([0.18, 0.20, 0.22]).all(|(got, wanted)| (got - wanted).abs() < 1e-12));
/// ```
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
///
/// ```
/// use arcminute_core::{optics::{Element, Train, field_of_view_at}, unit::{Length, Vergence}};
/// let mm = Length::from_mm;
/// // Print 20 cm away behind a hole of 40 mm at 10 cm: the bundle is half as wide there as the pupil of 4 mm, so that
/// // it is whole up to a tangent of 19 over 100, and not 18 as for a far thing (computed).
/// let hole = Train::new([Element::Stop(mm(40.0))]).to_eye(mm(100.0));
/// let field = field_of_view_at(&hole, mm(4.0), Vergence::from_dioptres(5.0)).expect("the hole limits it");
/// assert!(((field.full / 2.0).tangent() - 0.19).abs() < 1e-12);
/// ```
#[must_use]
pub fn field_of_view_at(train: &Train, pupil: Length, focus_demand: Vergence) -> Option<Field> {
    Openings::of(train, pupil, focus_demand).field()
}

/// Share of the pupil's area that light from the middle of the thing fills, at most 1; a pure ratio.
///
/// * `train` ends at the eye; the light arrives with this demand.
/// * Domain: paraxial, round openings on the axis.
/// * Source: Smith, p. 281 (`(E/p)²` for a telescope with exit pupil E); generalised here to any train.
///
/// ```
/// use arcminute_core::{optics::{Telescope, share_of_pupil}, unit::{Length, Vergence}};
/// let d = Vergence::from_dioptres;
/// let mm = Length::from_mm;
/// // A 4x12 has an exit pupil of 3 mm: (3/4)² of a pupil of 4 mm.
/// let telescope = Telescope::from_lenses(d(20.0), d(80.0), mm(12.0))?;
/// let share = share_of_pupil(&telescope.afocal_train().to_eye(mm(15.0)), mm(4.0), Vergence::ZERO);
/// assert!((share - 0.5625).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
#[must_use]
pub fn share_of_pupil(train: &Train, pupil: Length, focus_demand: Vergence) -> f64 {
    Openings::of(train, pupil, focus_demand).share_of(pupil)
}

/// Both of them, for whoever needs both: [`field_of_view_at`] and [`share_of_pupil`].
pub(crate) fn field_and_share(train: &Train, pupil: Length, focus_demand: Vergence) -> (Option<Field>, f64) {
    let openings = Openings::of(train, pupil, focus_demand);
    (openings.field(), openings.share_of(pupil))
}

/// The openings of a train as heights in the plane of the pupil.
struct Openings {
    /// (drift, half-width): the interval of heights is ±half-width − drift·slope.
    intervals: ArrayVec<(f64, f64), INTERVALS>,
    /// Least slope that an opening in the plane of an image stops altogether.
    hard_limit: f64,
    /// Width of the bundle on the axis, in metres.
    on_axis: f64,
}

impl Openings {
    fn of(train: &Train, pupil: Length, focus_demand: Vergence) -> Self {
        let mut openings = Self { intervals: ArrayVec::new(), hard_limit: f64::INFINITY, on_axis: 0.0 };
        let mut least = pupil.m() / 2.0;
        // Never full: the pupil and no more openings than parts.
        let _ = openings.intervals.try_push((0.0, least));
        for aperture in train.apertures() {
            let (beta, radius) = (aperture.beta.m(), aperture.radius.m());
            // A ray of the bundle, y off the middle of the pupil, is steeper than the middle one by the demand times y.
            let alpha = aperture.alpha + beta * focus_demand.dioptres();
            if math::abs(alpha) * pupil.m() <= 1e-9 * radius {
                // In the plane of an image: all of the bundle passes or none.
                openings.hard_limit = openings.hard_limit.min(radius / math::abs(beta));
            } else {
                let half_width = radius / math::abs(alpha);
                least = least.min(half_width);
                let _ = openings.intervals.try_push((beta / alpha, half_width));
            }
        }
        openings.on_axis = 2.0 * least;
        openings
    }

    fn field(&self) -> Option<Field> {
        let angle = |share| Angle::from_tangent(self.slope_leaving(share)) * 2.0;
        let last = self.slope_leaving(0.0);
        last.is_finite().then(|| Field {
            full: angle(1.0),
            half: angle(0.5),
            last: Angle::from_tangent(last) * 2.0,
        })
    }

    /// Share of the pupil's area that is filled.
    fn share_of(&self, pupil: Length) -> f64 {
        let filled = self.on_axis / pupil.m();
        filled * filled
    }

    /// Slope at which this share of the bundle's width on the axis is left; infinite where nothing limits it.
    fn slope_leaving(&self, share: f64) -> f64 {
        let mut least = self.hard_limit;
        for (drift_top, half_top) in &self.intervals {
            for (drift_bottom, half_bottom) in &self.intervals {
                let closing = drift_bottom - drift_top;
                if closing > 1e-12 {
                    least = least.min((half_top + half_bottom - share * self.on_axis) / closing);
                }
            }
        }
        least.max(0.0)
    }
}

impl Field {
    /// The same three angles before the train: what of a far world is taken in, full angles.
    ///
    /// ```
    /// use arcminute_core::{optics::{Telescope, field_of_view}, unit::{Length, Vergence}};
    /// let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
    /// // 4x with a field stop of 10 mm, 50 mm behind the objective and 12.5 mm before the eyepiece (computed).
    /// let telescope = Telescope { field_stop: Some(mm(10.0)), ..Telescope::from_lenses(d(20.0), d(80.0), mm(12.0))? };
    /// let train = telescope.afocal_train().to_eye(mm(15.0));
    /// let apparent = field_of_view(&train, mm(3.0)).expect("the stop limits it");
    /// assert!((apparent.half.degrees() - 43.60).abs() < 0.005);
    /// assert!((apparent.real(&train).half.degrees() - 11.42).abs() < 0.005);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn real(&self, train: &Train) -> Self {
        let magnification = math::abs(view(train, Sight::Far).enlargement);
        let real = |apparent: Angle| Angle::from_tangent((apparent / 2.0).tangent() / magnification) * 2.0;
        Self { full: real(self.full), half: real(self.half), last: real(self.last) }
    }
    /// Width taken in at the half-light edge at an equivalent viewing distance: `2·EVD·tan(a/2)`.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train, field_of_view}, unit::{Length, Vergence}};
    /// let mm = Length::from_mm;
    /// // A +10 D lens of 40 mm, 10 cm before the eye, the print in its focus: print as wide as the lens (computed).
    /// let lens = Element::Lens { power: Vergence::from_dioptres(10.0), clear_diameter: Some(mm(40.0)) };
    /// let field = field_of_view(&Train::new([lens]).to_eye(mm(100.0)), mm(4.0)).expect("the rim limits it");
    /// assert!((field.width_at(mm(100.0)).mm() - 40.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn width_at(&self, equivalent_viewing_distance: Length) -> Length {
        equivalent_viewing_distance * (2.0 * (self.half / 2.0).tangent())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::optics::Element;

    /// A field stop so far before an eyepiece of 50 mm, whose exit pupil lies 60 mm behind it.
    fn behind_stop(diameter: f64, before_eyepiece: f64) -> Field {
        let mm = Length::from_mm;
        let train = Train::new([
            Element::Stop(mm(diameter)),
            Element::Gap(mm(before_eyepiece)),
            Element::Lens { power: Vergence::from_dioptres(20.0), clear_diameter: None },
        ]);
        field_of_view(&train.to_eye(mm(60.0)), mm(4.0)).expect("the stop limits it")
    }

    #[test]
    fn a_stop_in_the_focus_of_the_eyepiece_cuts_sharply() {
        let sharp = behind_stop(10.0, 50.0);
        assert_eq!((sharp.full, sharp.half), (sharp.last, sharp.last), "all of the bundle or none");
        // Half of 10 mm in the focus of 50 mm.
        assert!(((sharp.last / 2.0).tangent() - 0.1).abs() < 1e-12, "{sharp:?}");
    }

    /// By similar triangles: a micrometre off the focus the bundle of 4 mm is 4/50 µm wide, seen from 50 mm.
    #[test]
    fn a_stop_a_hair_beside_the_focus_does_not() {
        let soft = behind_stop(10.0, 50.001);
        let [full, last] = [soft.full, soft.last].map(|angle| (angle / 2.0).tangent());
        assert!((last - full - 4.0 * 0.001 / 50.0 / 50.0).abs() < 1e-10, "{soft:?}");
    }

    #[test]
    fn a_closed_stop_lets_nothing_through() {
        let closed = behind_stop(0.0, 50.0);
        assert_eq!([closed.full, closed.half, closed.last], [Angle::ZERO; 3]);
    }
}
