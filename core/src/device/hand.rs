//! A magnifier held in the hand, over the glasses or the bare eye.
//!
//! A plus lens held so that the print lies in its focus shows it far away, and as large as if it were looked at from
//! one focal length. With an addition before the eye the two lenses work together, and the gap between them counts.
//!
//! ```text
//!   print |<-- print to lens -->( lens )<-- lens to spectacle -->( worn )<-- spectacle to eye -->| entrance pupil
//! ```
//!
//! Nearer to the eye the power is the same and more is seen at once; that is why a hand magnifier is not always held
//! far out.

use super::{Arrangement, Eye};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, Train};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A lens to be held in the hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HandMagnifier {
    /// Equivalent power, above zero.
    pub power: Vergence,
    /// Clear diameter of the lens.
    pub clear_diameter: Length,
    /// Share of the light it lets through; a pure ratio.
    pub transmittance: f64,
}

/// Where the print is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PrintPlace {
    /// In the front focus of the magnifier: the light leaves it parallel.
    AtLensFocus,
    /// In the front focus of magnifier and addition together: the light reaches the eye's own correction parallel.
    AtCombinedFocus,
    /// So far from the magnifier, above zero.
    At(Length),
}

/// A hand magnifier in use.
#[derive(Clone, Debug, PartialEq)]
pub struct HandMagnifierInUse {
    /// The lens.
    pub magnifier: HandMagnifier,
    /// Magnifier to the spectacle plane.
    pub lens_to_spectacle: Length,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Power that stands in the spectacle plane.
    pub worn: Vergence,
    /// Addition that is part of it.
    pub add: Vergence,
    /// Print to magnifier: room for the hand.
    pub print_to_lens: Length,
    /// Print to magnifier in the front focus of magnifier and addition together; zero or less where there is none.
    pub combined_focus: Length,
    /// Power of magnifier and addition together, `F_m + F_a − z·F_m·F_a`.
    pub combined_power: Vergence,
    /// Distance at which the bare print would look as large, to the eye's entrance pupil.
    pub equivalent_viewing_distance: Length,
    /// Demand at the eye's entrance pupil.
    pub focus_demand: Vergence,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// A magnifier held `lens_to_spectacle` in front of the glasses (or of the plane where they would be).
///
/// With an addition, the combined power is the equivalent power only while the print lies in the combined front focus;
/// beyond one focal length of the magnifier the addition takes power away. Source: Schwartz, Geometrical and Visual
/// Optics (worked examples of a magnifier and an addition); paraxial.
///
/// # Errors
/// [`Why::NoSolution`] when the combined focus does not lie in front of the magnifier, or the print would be on it.
///
/// ```
/// use arcminute_core::device::{Eye, HandMagnifier, PrintPlace, Worn, hold};
/// use arcminute_core::unit::{Length, LogMar, Vergence};
/// let d = Vergence::from_dioptres;
/// let magnifier =
///     HandMagnifier { power: d(10.0), clear_diameter: Length::from_mm(50.0), transmittance: 1.0 };
/// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// eye.worn = Worn::Near { add: d(2.5) };
/// // Schwartz: +10 D held 5 cm before a +2.50 addition are 11.25 D together.
/// let held = hold(magnifier, &eye, Length::from_cm(5.0), PrintPlace::AtCombinedFocus)?;
/// assert!((held.combined_power.dioptres() - 11.25).abs() < 1e-12);
/// assert!((held.print_to_lens.mm() - 77.78).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn hold(
    magnifier: HandMagnifier,
    eye: &Eye,
    lens_to_spectacle: Length,
    print: PrintPlace,
) -> Result<HandMagnifierInUse, Error> {
    let (power, add, worn) = (magnifier.power, eye.add(), eye.worn_power());
    let together = combination(power, lens_to_spectacle, add);
    let combined_power = -together.matrix().c;
    // Light from the front focus of a system leaves it parallel: distance·C + D is zero there.
    let combined_focus = Length::from_m(together.matrix().d / combined_power.dioptres());
    let print_to_lens = match print {
        PrintPlace::AtLensFocus => power.focal_length(),
        PrintPlace::AtCombinedFocus => combined_focus,
        PrintPlace::At(distance) => distance,
    };
    if !(Length::ZERO < print_to_lens && print_to_lens.is_finite()) {
        let why = Why::NoSolution { because: "the print would have to lie on the magnifier or behind it" };
        return Err(Error::about("print to magnifier", format_args!("{} mm", print_to_lens.mm()), why));
    }
    let train = Train::new([
        Element::Lens { power, clear_diameter: Some(magnifier.clear_diameter) },
        Element::Gap(lens_to_spectacle),
        Element::Lens { power: worn, clear_diameter: None },
    ])
    .to_eye(eye.spectacle_to_eye);
    let arrangement = Arrangement {
        hand_room: Some(print_to_lens),
        transmittance: magnifier.transmittance,
        ..Arrangement::of(train, Sight::At(print_to_lens))
    };
    let seen = arrangement.view();
    Ok(HandMagnifierInUse {
        magnifier,
        lens_to_spectacle,
        spectacle_to_eye: eye.spectacle_to_eye,
        worn,
        add,
        print_to_lens,
        combined_focus,
        combined_power,
        equivalent_viewing_distance: seen.equivalent_viewing_distance.unwrap_or(Length::ZERO),
        focus_demand: seen.focus_demand,
        arrangement,
    })
}

fn combination(power: Vergence, gap: Length, add: Vergence) -> Train {
    let lens = |power| Element::Lens { power, clear_diameter: None };
    Train::new([lens(power), Element::Gap(gap), lens(add)])
}

#[cfg(feature = "alloc")]
impl Explain for HandMagnifierInUse {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let (f_m, f_a) = (dioptre("F_m", self.magnifier.power), dioptre("F_a", self.add));
        let (z, u) = (mm("z", self.lens_to_spectacle), mm("u", self.print_to_lens));
        let together = dioptre("F", self.combined_power);
        let (f_w, v) = (dioptre("F_w", self.worn), mm("v", self.spectacle_to_eye));
        let evd = mm("EVD", self.equivalent_viewing_distance);
        alloc::vec![
            Step::formula(&formula::MAGNIFIER_AND_ADD, together, [f_m, f_a, z]),
            Step::formula(&formula::PRINT_IN_FOCUS, mm("u_F", self.combined_focus), [z, f_a, together]),
            Step::formula(&formula::EVD_BEFORE_GLASSES, evd, [u, z, v, f_m, f_w]),
            Step::formula(
                &formula::DEMAND_BEHIND_GLASSES,
                dioptre("A", self.focus_demand),
                [u, z, v, f_m, f_w],
            ),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::Worn;
    use crate::unit::LogMar;
    use alloc::string::ToString;

    fn held(worn: Worn, z: f64, print: PrintPlace) -> Result<HandMagnifierInUse, Error> {
        let eye = Eye { worn, ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)) };
        let magnifier = HandMagnifier {
            power: Vergence::from_dioptres(10.0),
            clear_diameter: Length::from_mm(50.0),
            transmittance: 0.9,
        };
        hold(magnifier, &eye, Length::from_cm(z), print)
    }

    #[test]
    fn working_agrees() {
        let add = Worn::Near { add: Vergence::from_dioptres(2.5) };
        for worn in [Worn::Nothing, Worn::Distance, add] {
            for z in [1.0, 5.0, 20.0] {
                for print in [
                    PrintPlace::AtLensFocus,
                    PrintPlace::AtCombinedFocus,
                    PrintPlace::At(Length::from_mm(60.0)),
                ] {
                    for step in held(worn, z, print).expect("within reach").steps() {
                        assert_eq!(step.check(), Ok(()), "{worn:?} {z} cm {print:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn beyond_the_reach_of_the_addition_nothing_is_in_focus() {
        let add = Worn::Near { add: Vergence::from_dioptres(4.0) };
        let error = held(add, 26.0, PrintPlace::AtCombinedFocus).expect_err("26 cm behind, 25 cm of reach");
        assert_eq!(
            (error.quantity, error.hint().to_string().as_str()),
            ("print to magnifier", "change one of the values it depends on")
        );
        assert!(
            error.to_string().ends_with("the print would have to lie on the magnifier or behind it"),
            "{error}"
        );
        assert!(held(add, 24.0, PrintPlace::AtCombinedFocus).is_ok(), "one centimetre inside");
    }

    #[test]
    fn print_on_the_magnifier_is_refused() {
        for (mm, written) in [(0.0, "0"), (-10.0, "-10"), (f64::INFINITY, "inf"), (f64::NAN, "NaN")] {
            let error = held(Worn::Distance, 5.0, PrintPlace::At(Length::from_mm(mm))).expect_err(written);
            let why = "the print would have to lie on the magnifier or behind it";
            let message = alloc::format!("print to magnifier `{written} mm` has no solution: {why}");
            assert_eq!(error.to_string(), message);
        }
    }

    #[test]
    fn the_hand_has_room_up_to_the_lens_and_the_lens_takes_its_light() -> Result<(), Error> {
        let held = held(Worn::Distance, 5.0, PrintPlace::At(Length::from_mm(60.0)))?;
        assert_eq!(held.arrangement.hand_room, Some(Length::from_mm(60.0)));
        assert!((held.arrangement.transmittance - 0.9).abs() < 1e-15, "that of the magnifier");
        Ok(())
    }
}
