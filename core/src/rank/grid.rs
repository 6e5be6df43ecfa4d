//! Merits on their grids: what is left of them when differences that do not matter are taken off.

use super::Criterion;
use super::merits::{Extent, FreeHands, Merits, SeenAtOnce};
use crate::math;
use crate::predict::Reach;
use crate::unit::{Angle, Length, LogMar, Vergence};
use core::cmp::Ordering;

/// Steps of the grids: differences within one are not worth telling apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeastDifferences {
    /// Of the chance; a pure ratio. A change of class counts whatever the chance.
    pub chance: f64,
    /// Of characters seen at once; a count.
    pub characters: f64,
    /// Of the share of the wanted width; a pure ratio.
    pub share_of_width: f64,
    /// Of the angle seen at once.
    pub field: Angle,
    /// Of the room for the hand.
    pub hand_room: Length,
    /// Of the blur beyond what is borne.
    pub out_of_focus: Vergence,
    /// Of the depth in focus.
    pub depth: Length,
    /// Of the light; a pure ratio.
    pub light: f64,
    /// Of the loss by movement.
    pub motion_loss: LogMar,
    /// Of the power, as a logarithm (base ten) of the ratio of two; a pure number.
    pub power_log: f64,
}

impl LeastDifferences {
    /// The steps in use. Chosen here: no source gives any.
    ///
    /// ```
    /// use arcminute_core::rank::LeastDifferences;
    /// assert_eq!(LeastDifferences::chosen().chance, 0.01);
    /// ```
    #[must_use]
    pub fn chosen() -> Self {
        Self {
            chance: 0.01,
            characters: 0.5,
            share_of_width: 0.01,
            field: Angle::from_degrees(0.1),
            hand_room: Length::from_mm(5.0),
            out_of_focus: Vergence::from_dioptres(0.05),
            depth: Length::from_mm(1.0),
            light: 0.01,
            motion_loss: LogMar::from_log(0.01),
            power_log: 0.01,
        }
    }
}

/// A merit on its grid: more is better. Whole numbers, so that equal ones are the same to the last bit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Level {
    /// In one of the ways of measuring that are not compared with each other.
    Of(u8, f64),
    /// More than any of them.
    Unlimited,
}

impl Level {
    /// For one aid against another; nothing where they were measured in different ways.
    pub(super) fn against(self, other: Self) -> Option<Ordering> {
        match (self, other) {
            (Self::Of(way, _), Self::Of(other_way, _)) if way != other_way => None,
            _ => Some(self.in_list(other)),
        }
    }

    /// For a place in a list, where everything has one.
    pub(super) fn in_list(self, other: Self) -> Ordering {
        match (self, other) {
            (Self::Unlimited, Self::Unlimited) => Ordering::Equal,
            (Self::Unlimited, Self::Of(..)) => Ordering::Greater,
            (Self::Of(..), Self::Unlimited) => Ordering::Less,
            (Self::Of(way, level), Self::Of(other_way, other)) => {
                // The way named first stands first.
                other_way.cmp(&way).then(level.total_cmp(&other))
            }
        }
    }
}

/// What rounding may take off a step that ends in a half: two aids that do the same in two ways are not told apart.
const SAME: f64 = 1e-9;

/// The nearest whole number, halves away from zero.
fn whole(in_steps: f64) -> f64 {
    let away = math::floor(math::abs(in_steps) + 0.5 + SAME);
    // Zero has one sign here, or two aids that are alike would differ.
    if in_steps < 0.0 { 0.0 - away } else { away }
}

/// Number of steps, rounded; nothing for what is not a number.
fn steps(in_steps: f64) -> Option<Level> {
    let level = whole(in_steps);
    (!level.is_nan()).then_some(Level::Of(0, level))
}

fn extent(extent: Extent, step: Length) -> Option<Level> {
    match extent {
        Extent::Of(length) => steps(length / step),
        Extent::Unlimited => Some(Level::Unlimited),
    }
}

fn yes(yes: bool) -> Option<Level> {
    steps(f64::from(u8::from(yes)))
}

/// More than the steps of any chance, 0 to 1.
const CLASS: f64 = 1000.0;

impl Merits {
    /// The merit on its grid; `None` when it is not known.
    pub(super) fn level(&self, criterion: Criterion) -> Option<Level> {
        let least = LeastDifferences::chosen();
        match criterion {
            Criterion::Chance => self.chance.and_then(|chance| {
                let class = match chance.reach {
                    Reach::No => 0.0,
                    Reach::BetterEnd => 1.0,
                    Reach::Middle => 2.0,
                    Reach::WholeBand => 3.0,
                };
                steps(class * CLASS + whole(chance.share.clamp(0.0, 1.0) / least.chance))
            }),
            Criterion::SeenAtOnce => self.seen_at_once.and_then(|seen| {
                let (way, in_steps) = match seen {
                    SeenAtOnce::Characters(characters) => (0, characters / least.characters),
                    SeenAtOnce::ShareOfWidth(share) => (1, share / least.share_of_width),
                    SeenAtOnce::Field(field) => (2, field / least.field),
                    SeenAtOnce::Everything => return Some(Level::Unlimited),
                };
                match steps(in_steps)? {
                    Level::Of(_, level) => Some(Level::Of(way, level)),
                    Level::Unlimited => Some(Level::Unlimited),
                }
            }),
            Criterion::HandRoom => self.hand_room.and_then(|room| extent(room, least.hand_room)),
            Criterion::Focus => self.out_of_focus.and_then(|left| steps(-(left / least.out_of_focus))),
            Criterion::Depth => self.depth.and_then(|depth| extent(depth, least.depth)),
            Criterion::Light => self.light.and_then(|light| steps(light / least.light)),
            Criterion::HandsFree => self.hands_free.and_then(|hands| match hands {
                FreeHands::None => steps(0.0),
                FreeHands::One => steps(1.0),
                FreeHands::Both => steps(2.0),
            }),
            Criterion::BothEyes => self.both_eyes.and_then(yes),
            Criterion::Steadiness => self.motion_loss.and_then(|loss| steps(-(loss / least.motion_loss))),
            Criterion::Walking => self.walking.and_then(yes),
            Criterion::LowPower => {
                self.power.and_then(|power| steps(-math::log10(power.size()) / least.power_log))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::merits::Chance;
    use super::*;
    use crate::unit::Magnification;

    #[test]
    fn a_half_goes_up_though_rounding_took_its_last_digits_off() {
        let light = |light: f64| Merits { light: Some(light), ..Merits::default() }.level(Criterion::Light);
        assert_eq!(light(0.505 - 1e-13), light(0.505 + 1e-13));
        assert_ne!(light(0.505 - 1e-4), light(0.505));
        for (in_steps, wanted) in [(-2.5, -3.0), (-0.4, 0.0), (0.5 - 1e-12, 1.0), (2.4, 2.0)] {
            assert_eq!(whole(in_steps).to_bits(), f64::to_bits(wanted), "{in_steps}");
        }
    }

    /// One merit, each time a little more or less.
    #[test]
    fn more_is_better_on_every_criterion_and_what_is_within_half_a_step_is_alike() {
        let mm = |length| Some(Extent::Of(Length::from_mm(length)));
        let d = |left| Some(Vergence::from_dioptres(left));
        let base = Merits {
            chance: Some(Chance { share: 0.6, reach: Reach::Middle }),
            seen_at_once: Some(SeenAtOnce::Characters(10.0)),
            hand_room: mm(100.0),
            out_of_focus: d(1.0),
            depth: mm(10.0),
            light: Some(0.8),
            hands_free: Some(FreeHands::One),
            both_eyes: Some(false),
            motion_loss: Some(LogMar::from_log(0.1)),
            walking: Some(false),
            power: Some(Magnification::from_times(-4.0)),
        };
        let chance = |share, reach| Some(Chance { share, reach });
        let better = [
            (Criterion::Chance, Merits { chance: chance(0.61, Reach::Middle), ..base }),
            (Criterion::Chance, Merits { chance: chance(0.6, Reach::WholeBand), ..base }),
            (Criterion::SeenAtOnce, Merits { seen_at_once: Some(SeenAtOnce::Characters(10.5)), ..base }),
            (Criterion::SeenAtOnce, Merits { seen_at_once: Some(SeenAtOnce::Everything), ..base }),
            (Criterion::HandRoom, Merits { hand_room: mm(105.0), ..base }),
            (Criterion::HandRoom, Merits { hand_room: Some(Extent::Unlimited), ..base }),
            (Criterion::Focus, Merits { out_of_focus: d(0.95), ..base }),
            (Criterion::Depth, Merits { depth: mm(11.0), ..base }),
            (Criterion::Depth, Merits { depth: Some(Extent::Unlimited), ..base }),
            (Criterion::Light, Merits { light: Some(0.81), ..base }),
            (Criterion::HandsFree, Merits { hands_free: Some(FreeHands::Both), ..base }),
            (Criterion::BothEyes, Merits { both_eyes: Some(true), ..base }),
            (Criterion::Steadiness, Merits { motion_loss: Some(LogMar::from_log(0.09)), ..base }),
            (Criterion::Walking, Merits { walking: Some(true), ..base }),
            (Criterion::LowPower, Merits { power: Some(Magnification::from_times(3.9)), ..base }),
        ];
        for (criterion, better) in better {
            for each in Criterion::ALL {
                let (one, other) = (better.level(each).expect("known"), base.level(each).expect("known"));
                let wanted = if each == criterion { Ordering::Greater } else { Ordering::Equal };
                assert_eq!(one.against(other), Some(wanted), "{criterion:?}: {each:?}");
                assert_eq!(other.against(one), Some(wanted.reverse()), "{criterion:?}: {each:?}");
                assert_eq!(one.in_list(other), wanted, "{criterion:?}: {each:?}");
            }
        }
        let alike = Merits {
            chance: chance(0.604, Reach::Middle),
            seen_at_once: Some(SeenAtOnce::Characters(10.2)),
            hand_room: mm(102.0),
            out_of_focus: d(1.02),
            depth: mm(10.4),
            light: Some(0.797),
            motion_loss: Some(LogMar::from_log(0.104)),
            power: Some(Magnification::from_times(4.01)),
            ..base
        };
        for each in Criterion::ALL {
            assert_eq!(alike.level(each), base.level(each), "{each:?}");
        }
    }

    #[test]
    fn what_was_measured_in_different_ways_is_not_compared_but_has_a_place() {
        let level = |seen| {
            Merits { seen_at_once: Some(seen), ..Merits::default() }
                .level(Criterion::SeenAtOnce)
                .expect("known")
        };
        let ways = [
            SeenAtOnce::Everything,
            SeenAtOnce::Characters(0.0),
            SeenAtOnce::ShareOfWidth(1.0),
            SeenAtOnce::Field(Angle::from_degrees(100.0)),
        ]
        .map(level);
        for (place, one) in ways.into_iter().enumerate() {
            for (other_place, other) in ways.into_iter().enumerate() {
                assert_eq!(one.in_list(other), other_place.cmp(&place), "{one:?} and {other:?}");
                let comparable = place == other_place || place == 0 || other_place == 0;
                assert_eq!(one.against(other).is_some(), comparable, "{one:?} and {other:?}");
            }
        }
    }

    #[test]
    fn what_is_no_number_is_not_known_and_nothing_has_one_sign() {
        let nan = Merits {
            chance: Some(Chance { share: f64::NAN, reach: Reach::No }),
            seen_at_once: Some(SeenAtOnce::Characters(f64::NAN)),
            hand_room: Some(Extent::Of(Length::from_mm(f64::NAN))),
            out_of_focus: Some(Vergence::from_dioptres(f64::NAN)),
            light: Some(f64::NAN),
            power: Some(Magnification::from_times(f64::NAN)),
            ..Merits::default()
        };
        for each in Criterion::ALL {
            assert_eq!(nan.level(each), None, "{each:?}");
            assert_eq!(Merits::default().level(each), None, "{each:?}");
        }
        let sharp = |left| Merits { out_of_focus: Some(Vergence::from_dioptres(left)), ..Merits::default() };
        let level = |left| sharp(left).level(Criterion::Focus).expect("known");
        assert_eq!(level(0.0).in_list(level(-0.0)), Ordering::Equal);
        assert_eq!(level(0.01).in_list(level(0.0)), Ordering::Equal);
    }
}
