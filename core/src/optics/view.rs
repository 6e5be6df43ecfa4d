//! What the eye sees through a train.

use super::Train;
use crate::unit::{Length, Vergence};

/// Where the thing looked at is, measured from the front of the train.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sight {
    /// So far that its light arrives parallel.
    Far,
    /// At a distance in front of the first part, above zero.
    At(Length),
}

impl Sight {
    /// Vergence of its light at the front of the train; zero or negative.
    ///
    /// ```
    /// use arcminute_core::{optics::Sight, unit::Length};
    /// // Print at 40 cm: −2.5 D.
    /// assert_eq!(Sight::At(Length::from_cm(40.0)).vergence().dioptres(), -2.5);
    /// assert_eq!(Sight::Far.vergence().dioptres(), 0.0);
    /// ```
    #[must_use]
    pub fn vergence(self) -> Vergence {
        match self {
            Self::Far => Vergence::ZERO,
            Self::At(distance) => Vergence::of_object_at(distance),
        }
    }
}

/// What reaches the eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// Distance at which the bare thing would look as large as its image does; `None` for a far one.
    pub equivalent_viewing_distance: Option<Length>,
    /// Vergence demand at the eye: positive when the light arrives diverging, zero for a relaxed corrected eye.
    pub focus_demand: Vergence,
    /// Angle seen over the angle the bare eye at the same place would see; negative when inverted. A pure ratio.
    pub enlargement: f64,
}

/// What the eye at the end of `train` sees of a thing at `sight`.
///
/// * The train ends at the eye's entrance pupil ([`Train::to_eye`]).
/// * Domain: paraxial, air at both ends.
/// * Source: chief ray and axial ray of the matrix product; textbook closed forms agree to rounding.
///
/// ```
/// use arcminute_core::{optics::{Element, Sight, Train, view}, unit::{Length, Vergence}};
/// // A +10 D lens with the print at its focus: 10 cm equivalent, nothing to focus, wherever the eye is.
/// let lens = Train::new([Element::Lens { power: Vergence::from_dioptres(10.0), clear_diameter: None }]);
/// let seen = view(&lens.to_eye(Length::from_cm(7.0)), Sight::At(Length::from_cm(10.0)));
/// assert!((seen.equivalent_viewing_distance.unwrap_or_default().cm() - 10.0).abs() < 1e-12);
/// assert!(seen.focus_demand.dioptres().abs() < 1e-12);
/// ```
#[must_use]
pub fn view(train: &Train, sight: Sight) -> View {
    let m = train.matrix();
    match sight {
        Sight::Far => {
            View { equivalent_viewing_distance: None, focus_demand: m.c / m.a, enlargement: 1.0 / m.a }
        }
        Sight::At(distance) => {
            let b = distance * m.a + m.b;
            let d = m.c.dioptres() * distance.m() + m.d;
            View {
                equivalent_viewing_distance: Some(b.abs()),
                focus_demand: Vergence::from_dioptres(d / b.m()),
                enlargement: (distance + train.length()) / b,
            }
        }
    }
}

/// Distance in front of `train` from which light reaches its end with this demand; `None` when no real thing there does.
///
/// The inverse of [`View::focus_demand`]. Source: the engine's `D/B`, solved for the distance.
///
/// ```
/// use arcminute_core::{optics::{Element, Train, distance_for_demand}, unit::{Length, Vergence}};
/// let d = Vergence::from_dioptres;
/// // +8 D worn 14 mm before an eye that focuses 4 D: print 81.72 mm from the lens (computed).
/// let lens = Train::new([Element::Lens { power: d(8.0), clear_diameter: None }]).to_eye(Length::from_mm(14.0));
/// assert!((distance_for_demand(&lens, d(4.0)).unwrap_or_default().mm() - 81.72).abs() < 0.005);
/// ```
#[must_use]
pub fn distance_for_demand(train: &Train, demand: Vergence) -> Option<Length> {
    let m = train.matrix();
    let distance = (m.d - demand.dioptres() * m.b.m()) / (demand * m.a - m.c).dioptres();
    (0.0 < distance && distance.is_finite()).then(|| Length::from_m(distance))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::optics::Element;

    /// An eye that focuses 10 D sees sharply what is 10 cm before it.
    #[test]
    fn what_would_touch_the_lens_is_no_distance() {
        let lens = Element::Lens { power: Vergence::from_dioptres(8.0), clear_diameter: None };
        let at = |eye: f64| {
            let train = Train::new([lens]).to_eye(Length::from_mm(eye));
            distance_for_demand(&train, Vergence::from_dioptres(10.0))
        };
        assert_eq!(at(100.0), None, "in the plane of the lens");
        assert_eq!(at(101.0), None, "behind it");
        assert!(at(99.0).is_some_and(|distance| Length::ZERO < distance), "before it");
    }
}
