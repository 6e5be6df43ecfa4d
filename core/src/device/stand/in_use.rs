//! A stand magnifier on the page, before an eye and what it wears.

use super::{StandData, StandOptics, bare_lens};
use crate::bounds;
use crate::device::{Arrangement, Eye};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, Train, distance_for_demand};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A fixed stand magnifier.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandMagnifier {
    /// Power, height and image: see [`stand_optics`](super::stand_optics).
    pub optics: StandOptics,
    /// Clear diameter of the lens.
    pub clear_diameter: Length,
    /// Share of the light it lets through; a pure ratio.
    pub transmittance: f64,
}

/// A stand magnifier in use.
#[derive(Clone, Debug, PartialEq)]
pub struct StandInUse {
    /// The magnifier, at the height it has in use.
    pub stand: StandMagnifier,
    /// Lens to the spectacle plane.
    pub lens_to_spectacle: Length,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Power that stands in the spectacle plane.
    pub worn: Vergence,
    /// Distance at which the bare print would look as large, to the eye's entrance pupil.
    pub equivalent_viewing_distance: Length,
    /// Its reciprocal.
    pub equivalent_viewing_power: Vergence,
    /// The equivalent viewing power over the power of the lens: as used over as labelled F/4. A pure ratio.
    pub share_of_nominal: f64,
    /// Demand at the eye's entrance pupil, behind what is worn.
    pub focus_demand: Vergence,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// A fixed stand magnifier on the page, `lens_to_spectacle` in front of the glasses (or of the plane where they would
/// be).
///
/// `EVD = (z + v)/ER` and `A = 1/(z + v)`, carried through the glasses to the entrance pupil. Source: Bailey 2004;
/// paraxial.
///
/// # Errors
/// [`Why::OutOfRange`] for a distance that no eye is at.
///
/// ```
/// use arcminute_core::device::{Eye, StandData, StandMagnifier, Worn, place_stand, stand_optics};
/// use arcminute_core::unit::{Length, LogMar, Vergence};
/// let d = Vergence::from_dioptres;
/// let stand = StandMagnifier {
///     optics: stand_optics(StandData::PowerAndEnlargement { power: d(20.0), enlargement: 3.0 })?,
///     clear_diameter: Length::from_mm(40.0),
///     transmittance: 1.0,
/// };
/// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// eye.worn = Worn::Near { add: d(4.0) };
/// // The addition of 4 D is right 15 cm above the lens, and 12 D result: 60 % of the label (computed).
/// let used = place_stand(stand, &eye, Length::from_cm(15.0))?;
/// assert!(used.focus_demand.dioptres().abs() < 1e-9);
/// assert!((used.equivalent_viewing_power.dioptres() - 12.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn place_stand(stand: StandMagnifier, eye: &Eye, lens_to_spectacle: Length) -> Result<StandInUse, Error> {
    bounds::LENS_TO_EYE.check(lens_to_spectacle.mm())?;
    let StandOptics { power, print_to_lens, .. } = stand.optics;
    let worn = eye.worn_power();
    let train = Train::new([
        Element::Lens { power, clear_diameter: Some(stand.clear_diameter) },
        Element::Gap(lens_to_spectacle),
        bare_lens(worn),
    ])
    .to_eye(eye.spectacle_to_eye);
    let arrangement = Arrangement {
        hand_room: Some(print_to_lens),
        transmittance: stand.transmittance,
        ..Arrangement::of(train, Sight::At(print_to_lens))
    };
    let seen = arrangement.view();
    let equivalent_viewing_distance = seen.equivalent_viewing_distance.unwrap_or(print_to_lens);
    let equivalent_viewing_power = Vergence::of_focal_length(equivalent_viewing_distance);
    Ok(StandInUse {
        stand,
        lens_to_spectacle,
        spectacle_to_eye: eye.spectacle_to_eye,
        worn,
        equivalent_viewing_distance,
        equivalent_viewing_power,
        share_of_nominal: equivalent_viewing_power / power,
        focus_demand: seen.focus_demand,
        arrangement,
    })
}

/// What a height may miss an end of the travel by: rounding of the sum, not of the stand; in millimetres.
const ROUNDING: f64 = 1e-6;

/// A stand magnifier whose height can be set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VariableStand {
    /// Equivalent power, above zero.
    pub power: Vergence,
    /// Least height that can be set, page to the principal plane of the lens.
    pub lowest: Length,
    /// Greatest height that can be set.
    pub highest: Length,
    /// Clear diameter of the lens.
    pub clear_diameter: Length,
    /// Share of the light it lets through; a pure ratio.
    pub transmittance: f64,
}

/// Height of a lens above the page that puts the image so far below the lens; `None`: infinitely far.
///
/// `u = v/(1 + vF)`, and `1/F` for an infinitely far image. Source: paraxial.
///
/// # Errors
/// [`Why::OutOfRange`] for what no magnifier has.
///
/// ```
/// use arcminute_core::device::height_for_image;
/// use arcminute_core::unit::{Length, Vergence};
/// // +20 D: from an infinitely far image to one at 25 cm are 8.3 mm of travel (computed).
/// let power = Vergence::from_dioptres(20.0);
/// let travel = height_for_image(power, None)? - height_for_image(power, Some(Length::from_cm(25.0)))?;
/// assert!((travel.mm() - 8.3).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn height_for_image(power: Vergence, image_to_lens: Option<Length>) -> Result<Length, Error> {
    bounds::MAGNIFIER_POWER.check(power.dioptres())?;
    let demand = match image_to_lens {
        Some(distance) => {
            bounds::IMAGE_TO_LENS.check(distance.mm())?;
            Vergence::of_focal_length(distance)
        }
        None => Vergence::ZERO,
    };
    // There always is one: the demand is not below zero and the power above it.
    Ok(distance_for_demand(&Train::new([bare_lens(power)]), demand).unwrap_or(power.focal_length()))
}

/// A stand magnifier set to the height at which the image is sharp for an eye that uses this much accommodation.
///
/// So it also makes up for a refraction that is not worn: the demand is set to what the relaxed eye meets, minus its
/// refraction. Source: paraxial.
///
/// # Errors
/// [`Why::NoSolution`] when the stand cannot be set so; [`Why::OutOfRange`] for what no magnifier has.
///
/// ```
/// use arcminute_core::device::{Eye, VariableStand, Worn, focus_stand};
/// use arcminute_core::unit::{Length, LogMar, Vergence};
/// let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
/// let stand = VariableStand {
///     power: d(20.0),
///     lowest: mm(35.0),
///     highest: mm(52.0),
///     clear_diameter: mm(40.0),
///     transmittance: 1.0,
/// };
/// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// (eye.sphere, eye.worn) = (d(-5.0), Worn::Nothing);
/// // A bare eye of −5 D with the lens at the spectacle plane: 40 mm, as L' = −5 D asks for (computed).
/// let set = focus_stand(stand, &eye, Length::ZERO, Vergence::ZERO)?;
/// assert!((set.stand.optics.print_to_lens.mm() - 40.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn focus_stand(
    stand: VariableStand,
    eye: &Eye,
    lens_to_spectacle: Length,
    accommodation_used: Vergence,
) -> Result<StandInUse, Error> {
    bounds::MAGNIFIER_POWER.check(stand.power.dioptres())?;
    let train =
        Train::new([bare_lens(stand.power), Element::Gap(lens_to_spectacle), bare_lens(eye.worn_power())])
            .to_eye(eye.spectacle_to_eye);
    let demand = eye.relaxed_demand() + accommodation_used;
    let refused = |height: Option<Length>, because| {
        let why = Why::NoSolution { because };
        height.map_or_else(
            || Error::new("stand height", "none", why.clone()),
            |height| Error::about("stand height", format_args!("{} mm", height.mm()), why.clone()),
        )
    };
    let Some(height) = distance_for_demand(&train, demand) else {
        return Err(refused(None, "no height makes the image sharp for this eye"));
    };
    if height.mm() < stand.lowest.mm() - ROUNDING {
        return Err(refused(Some(height), "the stand cannot be set so low"));
    }
    if stand.highest.mm() + ROUNDING < height.mm() {
        return Err(refused(Some(height), "the stand cannot be set so high"));
    }
    let data = StandData::Nominal { power: stand.power, print_to_lens: height };
    let optics = StandOptics::at_height(data, stand.power, height);
    let (clear_diameter, transmittance) = (stand.clear_diameter, stand.transmittance);
    place_stand(StandMagnifier { optics, clear_diameter, transmittance }, eye, lens_to_spectacle)
}

#[cfg(feature = "alloc")]
impl Explain for StandInUse {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let optics = self.stand.optics;
        let (f, f_w) = (dioptre("F", optics.power), dioptre("F_w", self.worn));
        let z = mm("z", self.lens_to_spectacle);
        let (evd, a) = (mm("EVD", self.equivalent_viewing_distance), dioptre("A", self.focus_demand));
        let mut steps = optics.steps();
        if let Some(image) = optics.image {
            let (v, s) = (mm("v", image.to_lens), mm("s", self.spectacle_to_eye));
            let er = Named::new("ER", image.enlargement, Unit::Times);
            steps.push(Step::formula(&formula::STAND_EVD_BEHIND_GLASSES, evd, [z, v, s, f_w, er]));
            steps.push(Step::formula(&formula::STAND_DEMAND_BEHIND_GLASSES, a, [z, v, s, f_w]));
        } else {
            let (u, v) = (mm("u", optics.print_to_lens), mm("v", self.spectacle_to_eye));
            let f_m = dioptre("F_m", optics.power);
            steps.push(Step::formula(&formula::EVD_BEFORE_GLASSES, evd, [u, z, v, f_m, f_w]));
            steps.push(Step::formula(&formula::DEMAND_BEHIND_GLASSES, a, [u, z, v, f_m, f_w]));
        }
        let evp = dioptre("EVP", self.equivalent_viewing_power);
        let share = Named::new("share", self.share_of_nominal, Unit::Plain);
        steps.push(Step::formula(&formula::EVP_OF_EVD, evp, [evd]));
        steps.push(Step::formula(&formula::SHARE_OF_NOMINAL, share, [evp, f]));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::{Worn, stand_optics};
    use crate::unit::LogMar;
    use alloc::format;

    fn d(value: f64) -> Vergence {
        Vergence::from_dioptres(value)
    }
    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn eye(sphere: f64, worn: Worn) -> Eye {
        Eye { sphere: d(sphere), worn, ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)) }
    }
    fn fixed(height: f64) -> StandMagnifier {
        let data = StandData::Nominal { power: d(20.0), print_to_lens: mm(height) };
        let optics = stand_optics(data).expect("a stand");
        StandMagnifier { optics, clear_diameter: mm(40.0), transmittance: 0.9 }
    }
    fn variable(lowest: f64, highest: f64) -> VariableStand {
        VariableStand {
            power: d(20.0),
            lowest: mm(lowest),
            highest: mm(highest),
            clear_diameter: mm(40.0),
            transmittance: 0.9,
        }
    }
    fn message<T: core::fmt::Debug>(result: Result<T, Error>) -> alloc::string::String {
        let error = result.expect_err("refused");
        format!("{error}; {}", error.hint())
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for sphere in [-8.0, 0.0, 5.0] {
            for worn in [Worn::Nothing, Worn::Distance, Worn::Near { add: d(2.5) }] {
                for height in [10.0, 33.0, 45.0, 50.0] {
                    for z in [0.0, 100.0, 380.0] {
                        let used = place_stand(fixed(height), &eye(sphere, worn), mm(z))?;
                        assert_eq!(used.steps().len(), if height < 50.0 { 7 } else { 4 }, "{height} mm");
                        for step in used.steps() {
                            assert_eq!(step.check(), Ok(()), "{sphere} D {worn:?} {height} mm {z} mm");
                        }
                    }
                }
            }
        }
        Ok(())
    }

    #[test]
    fn hand_room_and_light_are_those_of_the_stand() -> Result<(), Error> {
        let used = place_stand(fixed(33.0), &eye(0.0, Worn::Distance), mm(100.0))?;
        assert_eq!(used.arrangement.hand_room, Some(mm(33.0)), "page to lens");
        assert_eq!(used.arrangement.sight, Sight::At(mm(33.0)), "page to lens");
        assert!((used.arrangement.transmittance - 0.9).abs() < 1e-15, "that of the lens");
        assert!((used.arrangement.train.length().mm() - 115.0).abs() < 1e-9, "z and 15 mm to the eye");
        Ok(())
    }

    #[test]
    fn a_variable_stand_is_set_within_its_travel() -> Result<(), Error> {
        let corrected = eye(0.0, Worn::Distance);
        let set = focus_stand(variable(40.0, 50.5), &corrected, mm(100.0), Vergence::ZERO)?;
        assert!((set.stand.optics.print_to_lens.mm() - 50.0).abs() < 1e-9, "in the focus: {set:?}");
        assert!(set.focus_demand.dioptres().abs() < 1e-9, "nothing to focus: {set:?}");
        for step in set.steps() {
            assert_eq!(step.check(), Ok(()));
        }
        let bare = eye(5.0, Worn::Nothing);
        let set = focus_stand(variable(40.0, 70.0), &bare, Length::ZERO, Vergence::ZERO)?;
        // A bare eye of +5 D uses light that converges by 5 D at the spectacle plane: u = 1/(20 − 5).
        assert!((set.stand.optics.print_to_lens.mm() - 1000.0 / 15.0).abs() < 1e-9, "{set:?}");
        assert_eq!(set.stand.optics.image, None, "no image on the side of the page");
        assert!((set.stand.optics.emergent_vergence.dioptres() - 5.0).abs() < 1e-9, "converging: {set:?}");
        assert_eq!(set.steps().len(), 4, "without steps of an image");
        for step in set.steps() {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    /// Law: a stand whose travel ends where the image is sharp can be set there, from either side, however the sum rounds;
    /// one that ends a hundredth of a millimetre before it cannot.
    #[test]
    fn the_ends_of_the_travel_can_be_set() -> Result<(), Error> {
        for power in [8.0, 10.0, 12.5, 16.0, 20.0, 25.0, 40.0, 50.0] {
            let focal = 1000.0 / power;
            for z in [0.0, 10.0, 50.0, 100.0, 150.0, 200.0, 250.0, 300.0] {
                for sphere in [-5.0, 0.0, 3.0] {
                    // Behind a full correction the image is sharp with the page in the focus.
                    let set = |lowest, highest| {
                        let stand = VariableStand { power: d(power), ..variable(lowest, highest) };
                        focus_stand(stand, &eye(sphere, Worn::Distance), mm(z), Vergence::ZERO)
                    };
                    set(focal, focal + 10.0)?;
                    set(focal - 10.0, focal)?;
                    assert!(set(focal + 0.01, focal + 10.0).is_err(), "{power} D {z} mm {sphere} D: too low");
                    assert!(
                        set(focal - 10.0, focal - 0.01).is_err(),
                        "{power} D {z} mm {sphere} D: too high"
                    );
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_cannot_be_set_is_refused() {
        let corrected = eye(0.0, Worn::Distance);
        let set = |lowest, highest| focus_stand(variable(lowest, highest), &corrected, mm(100.0), d(0.0));
        let hint = "change one of the values it depends on";
        let high = message(set(40.0, 49.0));
        assert!(high.starts_with("stand height `50 mm` has no solution"), "{high}");
        assert!(high.ends_with(&format!("the stand cannot be set so high; {hint}")), "{high}");
        let low = message(set(51.0, 60.0));
        assert!(low.ends_with(&format!("the stand cannot be set so low; {hint}")), "{low}");
        // Light that converges by more than the lens can make it.
        let strong = eye(40.0, Worn::Nothing);
        assert_eq!(
            message(focus_stand(variable(0.0, 1e9), &strong, Length::ZERO, Vergence::ZERO)),
            format!(
                "stand height `none` has no solution: no height makes the image sharp for this eye; {hint}"
            )
        );
        let none = VariableStand { power: d(0.0), ..variable(40.0, 60.0) };
        assert_eq!(
            message(focus_stand(none, &corrected, mm(100.0), Vergence::ZERO)),
            "magnifier power `0 D` is not possible; use 0.5 to 120 D"
        );
        let behind = "magnifier to eye `-1 mm` is not possible; use 0 to 2000 mm";
        assert_eq!(message(place_stand(fixed(33.0), &corrected, mm(-1.0))), behind);
        assert_eq!(message(focus_stand(variable(40.0, 60.0), &corrected, mm(-1.0), Vergence::ZERO)), behind);
    }

    #[test]
    fn heights_for_an_image() -> Result<(), Error> {
        assert!((height_for_image(d(20.0), None)?.mm() - 50.0).abs() < 1e-9, "the focal length");
        assert!((height_for_image(d(20.0), Some(mm(250.0)))?.mm() - 250.0 / 6.0).abs() < 1e-9, "v/(1 + vF)");
        assert_eq!(
            message(height_for_image(d(121.0), None)),
            "magnifier power `121 D` is not possible; use 0.5 to 120 D"
        );
        assert_eq!(
            message(height_for_image(d(20.0), Some(mm(0.0)))),
            "image to lens `0 mm` is not possible; use 1 to 100000 mm"
        );
        Ok(())
    }
}
