//! How far a thing may be moved before it blurs.

use super::{RayMatrix, Train};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::source::{self, Source};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Distances in focus, from the front of the train.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepthOfField {
    /// The train.
    pub matrix: RayMatrix,
    /// Demand that the eye meets now, at the end of the train.
    pub demand: Vergence,
    /// Defocus that is borne, either way.
    pub tolerance: Vergence,
    /// Equivalent viewing power where the demand is met.
    pub equivalent_viewing_power: Vergence,
    /// Nearest distance in focus; zero when it is the front of the train.
    pub nearest: Length,
    /// Farthest distance in focus; `None` when everything beyond the nearest is.
    pub farthest: Option<Length>,
    /// The rule for the whole depth, `2e/EVP²`; it is too short, by less than 2 % for e below EVP/8.
    pub rule: Length,
}

impl DepthOfField {
    /// From nearest to farthest; `None` when it has no far end.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train, depth_of_field}, unit::Vergence};
    /// // +4 D, half a dioptre either way: 1/3.5 − 1/4.5 m = 63.5 mm (computed); 4 D either way never ends.
    /// let lens = Train::new([Element::Lens { power: Vergence::from_dioptres(4.0), clear_diameter: None }]);
    /// let range = |bears| depth_of_field(&lens, Vergence::from_dioptres(bears)).and_then(|depth| depth.range());
    /// assert!((range(0.5).unwrap_or_default().mm() - 63.5).abs() < 0.05);
    /// assert_eq!(range(4.0), None);
    /// ```
    #[must_use]
    pub fn range(&self) -> Option<Length> {
        self.farthest.map(|farthest| farthest - self.nearest)
    }
}

/// Distances at which light reaches the end of `train` within `tolerance` (either way) of parallel.
///
/// * `tolerance`: half of the depth of focus, above zero. `None` when nothing in front of the train is in focus.
/// * Domain: paraxial. The short rule `2e/EVP²` is the same for a lens and a reading telescope of equal power.
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
    depth_of_field_about(train, Vergence::ZERO, tolerance)
}

/// Distances at which light reaches the end of `train` within `tolerance` (either way) of `demand_now`.
///
/// * `demand_now`: what the eye at the end of the train meets, positive for light that arrives diverging; it is held,
///   so nothing more is focused. `tolerance`: half of the depth of focus; its sign does not count.
/// * `None` when nothing in front of the train is in focus. A train whose light crosses over can have a second stretch,
///   nearer than the one given.
/// * Source: the engine's `D/B`, solved for the distance; for a thin lens at the eye `1/(EVP + e)` to `1/(EVP − e)`.
///
/// ```
/// use arcminute_core::{optics::{Element, Train, depth_of_field_about}, unit::Vergence};
/// let d = Vergence::from_dioptres;
/// // +3 D and 2 D of accommodation, 0.4 D either way: 185.2 to 217.4 mm, as a lens of 5 D.
/// let lens = Train::new([Element::Lens { power: d(3.0), clear_diameter: None }]);
/// let depth = depth_of_field_about(&lens, d(2.0), d(0.4)).expect("it has a focus");
/// assert!((depth.nearest.mm() - 185.19).abs() < 0.005);
/// assert!((depth.farthest.unwrap_or_default().mm() - 217.39).abs() < 0.005);
/// ```
#[must_use]
pub fn depth_of_field_about(
    train: &Train,
    demand_now: Vergence,
    tolerance: Vergence,
) -> Option<DepthOfField> {
    let matrix = train.matrix();
    let tolerance = tolerance.abs();
    let power = |demand: Vergence| (demand * matrix.a - matrix.c).dioptres();
    let distance = |demand: Vergence| (matrix.d - demand.dioptres() * matrix.b.m()) / power(demand);
    let (most, least) = (demand_now + tolerance, demand_now - tolerance);
    let (nearest, farthest) = (distance(most), distance(least));
    // Between two demands whose powers have different signs lies that of a thing at infinity.
    let endless = power(most) * power(least) <= 0.0;
    if !nearest.is_finite() || (farthest <= 0.0 && !endless) {
        return None;
    }
    let now = Vergence::from_dioptres(math::abs(power(demand_now)));
    Some(DepthOfField {
        matrix,
        demand: demand_now,
        tolerance,
        equivalent_viewing_power: now,
        nearest: Length::from_m(nearest.max(0.0)),
        farthest: (!endless).then(|| Length::from_m(farthest)),
        rule: Length::from_m(2.0 * tolerance.dioptres() / (now.dioptres() * now.dioptres())),
    })
}

#[cfg(feature = "alloc")]
impl Explain for DepthOfField {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let (a, d) =
            (Named::new("A", self.matrix.a, Unit::Plain), Named::new("D", self.matrix.d, Unit::Plain));
        let (b, c) = (mm("B", self.matrix.b), dioptre("C", self.matrix.c));
        let (demand, e) = (dioptre("Q", self.demand), dioptre("e", self.tolerance));
        let power = dioptre("EVP", self.equivalent_viewing_power);
        let nearest = mm("x_near", self.nearest);
        let mut steps = alloc::vec![Step::formula(&formula::VIEWING_POWER, power, [demand, a, c])];
        if self.matrix == RayMatrix::lens(-self.matrix.c) && Vergence::ZERO <= self.demand - self.matrix.c {
            steps.push(Step::formula(&formula::DEPTH_NEAR_SIMPLE, nearest, [power, e]));
            if let Some(farthest) = self.farthest {
                steps.push(Step::formula(&formula::DEPTH_FAR_SIMPLE, mm("x_far", farthest), [power, e]));
            }
        } else {
            steps.push(Step::formula(&formula::DEPTH_NEAR, nearest, [a, b, c, d, demand, e]));
            if let Some(farthest) = self.farthest {
                let inputs = [a, b, c, d, demand, e];
                steps.push(Step::formula(&formula::DEPTH_FAR, mm("x_far", farthest), inputs));
            }
        }
        if self.rule.is_finite() {
            steps.push(Step::formula(&formula::DEPTH_RULE, mm("x_rule", self.rule), [e, power]));
        }
        steps
    }
}

/// A published depth of focus: the defocus from just noticed on one side to just noticed on the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepthOfFocus {
    /// Where it was published.
    pub source: &'static Source,
    pupil_mm: f64,
    whole_dioptres: f64,
}

impl DepthOfFocus {
    /// Diameter of the pupil; through an instrument, the smaller of exit pupil and eye pupil.
    ///
    /// ```
    /// use arcminute_core::optics::DEPTH_OF_FOCUS;
    /// assert_eq!(DEPTH_OF_FOCUS.map(|row| row.pupil().mm()), [2.0, 4.0, 6.0]);
    /// ```
    #[must_use]
    pub fn pupil(&self) -> Length {
        Length::from_mm(self.pupil_mm)
    }
    /// The whole depth; half of it is a tolerance either way.
    ///
    /// ```
    /// use arcminute_core::optics::DEPTH_OF_FOCUS;
    /// assert_eq!(DEPTH_OF_FOCUS.map(|row| row.whole().dioptres()), [0.86, 0.59, 0.55]);
    /// ```
    #[must_use]
    pub fn whole(&self) -> Vergence {
        Vergence::from_dioptres(self.whole_dioptres)
    }
}

/// Depth of focus for blur that is just noticed, normal eyes, by pupil; small letters. With letters of 0.87 log of
/// detail in place of −0.2 it is about 0.6 larger ([`LARGER_LETTERS`]).
pub static DEPTH_OF_FOCUS: [DepthOfFocus; 3] = [
    DepthOfFocus { source: &source::ATCHISON_1997, pupil_mm: 2.0, whole_dioptres: 0.86 },
    DepthOfFocus { source: &source::ATCHISON_1997, pupil_mm: 4.0, whole_dioptres: 0.59 },
    DepthOfFocus { source: &source::ATCHISON_1997, pupil_mm: 6.0, whole_dioptres: 0.55 },
];

/// Depth of focus for letters of 0.87 log of detail over that for letters of −0.2: about 1.6, a pure ratio
/// ([`source::ATCHISON_1997`]).
pub const LARGER_LETTERS: f64 = 1.6;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::optics::Element;

    fn d(dioptres: f64) -> Vergence {
        Vergence::from_dioptres(dioptres)
    }
    fn lens(power: f64) -> Train {
        Train::new([Element::Lens { power: d(power), clear_diameter: None }])
    }

    #[test]
    fn the_ends_of_the_stretch() {
        let bare = Train::new([Element::Gap(Length::from_mm(150.0))]);
        let all = depth_of_field(&bare, d(10.0)).expect("10 D bear everything from 15 cm on");
        assert_eq!((all.nearest, all.farthest), (Length::ZERO, None), "{all:?}");
        let held = depth_of_field_about(&bare, d(6.0), d(1.0)).expect("6 D are met at 16.7 cm");
        assert_eq!(held.nearest, Length::ZERO, "7 D would be behind the front: {held:?}");
        assert!((held.farthest.unwrap_or_default().mm() - 50.0).abs() < 1e-9, "1/5 m, less 15 cm: {held:?}");
        assert_eq!(depth_of_field_about(&bare, d(9.0), d(1.0)), None, "all nearer than the front");
        assert_eq!(depth_of_field(&lens(-3.0), d(1.0)), None, "nothing real is in focus");
        assert_eq!(depth_of_field(&lens(5.0), d(5.0)).map(|depth| depth.farthest), Some(None), "to infinity");
        assert_eq!(
            depth_of_field(&lens(5.0), d(4.9)).and_then(|x| x.range()).map(|x| x.m() > 9.0),
            Some(true)
        );
        assert_eq!(depth_of_field(&lens(5.0), d(-0.4)), depth_of_field(&lens(5.0), d(0.4)), "either way");
        assert_eq!(depth_of_field(&lens(5.0), d(f64::NAN)), None, "no tolerance");
        assert_eq!(depth_of_field(&Train::default(), Vergence::ZERO), None, "nothing at infinity");
    }

    #[test]
    fn working_agrees() {
        let behind = |power| lens(power).to_eye(Length::from_mm(150.0));
        for train in [lens(5.0), lens(20.0), lens(-2.0), behind(10.0), behind(3.0)] {
            for demand in [0.0, 2.5, 4.0] {
                for tolerance in [0.1, 0.5, 4.0] {
                    let Some(depth) = depth_of_field_about(&train, d(demand), d(tolerance)) else { continue };
                    for step in depth.steps() {
                        assert_eq!(step.check(), Ok(()), "{depth:?}");
                    }
                }
            }
        }
        let simple = depth_of_field_about(&lens(3.0), d(2.0), d(0.4)).expect("in focus");
        assert_eq!(simple.steps().len(), 4, "power, near, far, rule");
        let Some(Step::Formula { formula, .. }) = simple.steps().into_iter().nth(1) else {
            panic!("a formula stands second")
        };
        assert_eq!(formula.id, "depth-near-simple", "a thin lens at the eye has the simple form");
    }

    #[test]
    fn a_thing_at_infinity_has_no_rule() {
        let far = depth_of_field(&Train::default(), d(0.5)).expect("far things are in focus");
        assert_eq!((far.nearest.m(), far.farthest, far.rule.is_finite()), (2.0, None, false));
        assert_eq!(far.steps().len(), 2, "power and near end");
    }
}
