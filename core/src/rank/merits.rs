//! What a person would weigh of one aid for one wish.

use crate::device::Outcome;
use crate::predict::Reach;
use crate::unit::{Angle, Length, LogMar, Magnification, Vergence};

/// How likely a wish is reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance {
    /// Chance that a measurement is at the goal or better; a pure ratio of 0 to 1.
    pub share: f64,
    /// How much of the retest band reaches the goal.
    pub reach: Reach,
}

/// How much is seen at once. What was measured in different ways is not compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SeenAtOnce {
    /// This many characters of the print; a count.
    Characters(f64),
    /// This share of the width that is wanted; a pure ratio.
    ShareOfWidth(f64),
    /// This angle, at the bare eye.
    Field(Angle),
    /// Nothing limits it; more than any of the others.
    Everything,
}

/// A length that may have no end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Extent {
    /// So much.
    Of(Length),
    /// Without end, or nothing is in the way.
    Unlimited,
}

/// Hands that are left free.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FreeHands {
    /// Neither.
    None,
    /// One.
    One,
    /// Both.
    Both,
}

/// What a person would weigh of one aid for one wish; `None` is not known.
///
/// Each field is given as it is measured. Where less is better (`out_of_focus`, `motion_loss`, `power`), the comparison
/// turns it round.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Merits {
    /// Chance of the wish.
    pub chance: Option<Chance>,
    /// How much is seen at once.
    pub seen_at_once: Option<SeenAtOnce>,
    /// From the thing to the nearest part of the aid.
    pub hand_room: Option<Extent>,
    /// Blur beyond what the eye bears without harm; zero or more, less is better.
    pub out_of_focus: Option<Vergence>,
    /// How far the thing may move and still be in focus.
    pub depth: Option<Extent>,
    /// Light against the bare eye; a pure ratio.
    pub light: Option<f64>,
    /// Hands left free.
    pub hands_free: Option<FreeHands>,
    /// Whether both eyes use it.
    pub both_eyes: Option<bool>,
    /// Acuity that movement of head or hand costs; less is better.
    pub motion_loss: Option<LogMar>,
    /// Whether it can be worn while walking.
    pub walking: Option<bool>,
    /// How many times as large as the same thing looks in the same viewing bare; less is better.
    pub power: Option<Magnification>,
}

/// What optics does not tell of an aid; `None` is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Handling {
    /// Hands left free.
    pub hands_free: Option<FreeHands>,
    /// Whether both eyes use it.
    pub both_eyes: Option<bool>,
    /// Acuity that movement of head or hand costs.
    pub motion_loss: Option<LogMar>,
    /// Whether it can be worn while walking.
    pub walking: Option<bool>,
}

impl Merits {
    /// The merits of what was seen through an aid.
    ///
    /// * Seen at once: characters of a thing that can be brought nearer; of one that cannot, the share of the `wanted`
    ///   width, or without one the angle at the bare eye. All of it to the half-light edge.
    /// * Out of focus: strength of the blur less the defocus that the eye bears with the loss of
    ///   [`crate::device::FOCUS_LOSS`].
    /// * Power: angular magnification of a thing whose distance is fixed; of another, size over that at 1 m, a number that
    ///   is the equivalent viewing power in dioptres.
    ///
    /// ```
    /// use arcminute_core::device::{Aid, Detail, Eye, look};
    /// use arcminute_core::rank::{Extent, Handling, Merits};
    /// use arcminute_core::unit::{Length, LogMar};
    /// // Bare print at 10 cm: nothing in the way, and as large as through 10 D (computed).
    /// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// let nearer = Aid::NearerAndLarger { larger: 1.0, thing_to_eye: Length::from_cm(10.0) };
    /// let print = Detail { height: Length::from_mm(1.5), distance: None, reserve: 1.0 };
    /// let seen = look(&nearer.arrange(&eye, None)?, &eye, print)?;
    /// let merits = Merits::of(&seen, Handling::default(), None);
    /// assert_eq!(merits.hand_room, Some(Extent::Unlimited));
    /// assert!((merits.power.unwrap_or_default().times() - 10.0).abs() < 1e-9);
    /// assert_eq!(merits.both_eyes, None, "not known from the optics");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn of(outcome: &Outcome, handling: Handling, wanted: Option<Length>) -> Self {
        let out_of_focus = (outcome.blurred.strength - outcome.tolerance).max(Vergence::ZERO);
        Self {
            chance: Some(Chance { share: outcome.prediction.chance, reach: outcome.prediction.reach }),
            seen_at_once: seen_at_once(outcome, wanted),
            hand_room: Some(outcome.arrangement.hand_room.map_or(Extent::Unlimited, Extent::Of)),
            out_of_focus: Some(out_of_focus),
            depth: outcome.depth.map(|depth| depth.range().map_or(Extent::Unlimited, Extent::Of)),
            light: Some(outcome.light),
            hands_free: handling.hands_free,
            both_eyes: handling.both_eyes,
            motion_loss: handling.motion_loss,
            walking: handling.walking,
            power: match (outcome.detail.distance, outcome.equivalent_viewing_distance) {
                (None, Some(distance)) => Some(Magnification::from_times(Length::from_m(1.0) / distance)),
                _ => Some(Magnification::from_times(outcome.angular.size())),
            },
        }
    }
}

fn seen_at_once(outcome: &Outcome, wanted: Option<Length>) -> Option<SeenAtOnce> {
    let Some(widths) = outcome.widths else { return Some(SeenAtOnce::Everything) };
    match (outcome.detail.distance, wanted) {
        (None, _) => outcome.characters.map(SeenAtOnce::Characters),
        (Some(_), Some(wanted)) => Some(SeenAtOnce::ShareOfWidth((widths.half / wanted).min(1.0))),
        (Some(distance), None) => Some(SeenAtOnce::Field(Angle::subtended(widths.half, distance))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::{Aid, Detail, Eye, HandMagnifier, RefractionBy, Setting, look};
    use crate::error::Error;
    use crate::math;
    use crate::optics::Telescope;

    fn mm(length: f64) -> Length {
        Length::from_mm(length)
    }
    fn d(power: f64) -> Vergence {
        Vergence::from_dioptres(power)
    }
    fn seen(aid: Aid, detail: Detail) -> Result<Outcome, Error> {
        let eye = Eye::corrected(LogMar::from_log(0.9), LogMar::from_log(0.2));
        look(&aid.arrange(&eye, detail.distance)?, &eye, detail)
    }
    fn print() -> Detail {
        Detail { height: mm(1.6), distance: None, reserve: 1.0 }
    }

    #[test]
    fn of_print_through_a_magnifier() -> Result<(), Error> {
        let magnifier = HandMagnifier { power: d(10.0), clear_diameter: mm(50.0), transmittance: 0.92 };
        let outcome = seen(Aid::Hand { magnifier, lens_to_spectacle: mm(150.0) }, print())?;
        let handling = Handling {
            hands_free: Some(FreeHands::One),
            both_eyes: Some(false),
            motion_loss: Some(LogMar::from_log(0.05)),
            walking: Some(false),
        };
        let merits = Merits::of(&outcome, handling, Some(mm(100.0)));
        let prediction = outcome.prediction;
        assert_eq!(
            merits,
            Merits {
                chance: Some(Chance { share: prediction.chance, reach: prediction.reach }),
                // A width that is wanted is that of a thing that stays where it is.
                seen_at_once: outcome.characters.map(SeenAtOnce::Characters),
                hand_room: Some(Extent::Of(mm(100.0))),
                out_of_focus: Some(Vergence::ZERO),
                depth: outcome.depth.and_then(|depth| depth.range()).map(Extent::Of),
                light: Some(outcome.light),
                hands_free: handling.hands_free,
                both_eyes: handling.both_eyes,
                motion_loss: handling.motion_loss,
                walking: handling.walking,
                power: merits.power,
            }
        );
        assert!(merits.seen_at_once.is_some() && merits.depth.is_some(), "{merits:?}");
        let power = merits.power.unwrap_or_default().times();
        assert!(math::abs(power - 10.0) < 1e-9, "the equivalent power in dioptres: {power}");
        Ok(())
    }

    #[test]
    fn of_a_board_through_a_telescope() -> Result<(), Error> {
        let telescope = Aid::Telescope {
            telescope: Telescope::from_lenses(d(20.0), d(80.0), mm(20.0))?,
            eyepiece_to_eye: mm(15.0),
            refraction: RefractionBy::Glasses,
            setting: Setting::Far,
        };
        let board = Detail { height: mm(40.0), distance: Some(Length::from_m(60.0)), reserve: 1.0 };
        let outcome = seen(telescope, board)?;
        let half = outcome.widths.expect("the lenses limit it").half;
        let power = |merits: Merits| merits.power.unwrap_or_default().times();
        let angle = Merits::of(&outcome, Handling::default(), None);
        let wanted = Angle::subtended(half, Length::from_m(60.0));
        assert_eq!(angle.seen_at_once, Some(SeenAtOnce::Field(wanted)));
        assert!(math::abs(power(angle) - outcome.angular.size()) < 1e-12, "without its sign: {angle:?}");
        for (wanted, share) in [(half * 2.0, 0.5), (half / 2.0, 1.0)] {
            let merits = Merits::of(&outcome, Handling::default(), Some(wanted));
            let Some(SeenAtOnce::ShareOfWidth(found)) = merits.seen_at_once else { panic!("{merits:?}") };
            assert!(math::abs(found - share) < 1e-12, "{merits:?}");
        }
        Ok(())
    }

    #[test]
    fn of_print_without_an_aid_too_near_for_an_eye_that_does_not_focus() -> Result<(), Error> {
        let outcome = seen(Aid::NearerAndLarger { larger: 1.0, thing_to_eye: mm(200.0) }, print())?;
        let merits = Merits::of(&outcome, Handling::default(), None);
        assert_eq!(merits.hand_room, Some(Extent::Unlimited));
        assert_eq!(merits.seen_at_once, Some(SeenAtOnce::Everything));
        // 5 D too near, of which an eye of 0.9 logMAR bears 1.92 D with a loss of 0.1 log (by hand).
        let left = merits.out_of_focus.unwrap_or_default();
        assert!(math::abs(left.dioptres() - (5.0 - 1.915)) < 5e-4, "{merits:?}");
        assert_eq!(merits.hands_free, None, "optics does not tell");
        Ok(())
    }
}
