//! A telescope arranged for any distance: far, focused by its tube, with a reading cap, or fixed for far.
//!
//! A reading cap is a plus lens on the objective with the print in its focus: power of the telescope times power of the
//! cap, at the working distance of the cap alone.
//!
//! ```text
//!   print |<-- 1 / F_cap -->( cap, objective )<-- tube -->( eyepiece )<-- to the eye -->| entrance pupil
//! ```

use super::{
    Arrangement, Eye,
    focus::{before_objective, focused_at},
};
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{
    Element, Focused, Sight, Telescope, ThroughAfocal, Train, ametropia_at_eyepiece, through_afocal,
};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// How the telescope is set to the distance of the thing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Setting {
    /// For far things, with a far thing before it.
    Far,
    /// The tube stays as for far, and the thing is nearer: what is left to focus is left to the eye.
    FixedFar {
        /// Thing to the eye's entrance pupil.
        thing_to_eye: Length,
    },
    /// Its tube is lengthened for a thing this far from the eye's entrance pupil.
    Tube {
        /// Thing to the eye's entrance pupil.
        thing_to_eye: Length,
    },
    /// A cap on the objective, with the thing at the cap's front focus; the tube stays as for far.
    Cap {
        /// Power of the cap, above zero.
        cap: Vergence,
    },
}

/// What the eye's refraction is met by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RefractionBy {
    /// Glasses behind the telescope, or nothing, as the eye wears them.
    Glasses,
    /// The tube; the eye wears nothing, and its cylinder stays.
    Tube,
}

/// A telescope in use.
#[derive(Clone, Debug, PartialEq)]
pub struct TelescopeInUse {
    /// The telescope as focused, cap not counted.
    pub focused: Focused,
    /// How it is set.
    pub setting: Setting,
    /// Eyepiece to the eye's entrance pupil.
    pub eyepiece_to_eye: Length,
    /// Power the light leaves the eyepiece with because the tube meets the refraction; zero behind glasses.
    pub by_tube: Vergence,
    /// Thing to the first part: objective or cap; `None` for far.
    pub thing_to_aid: Option<Length>,
    /// Distance at which the bare thing would look as large, to the eye's entrance pupil; `None` for far.
    pub equivalent_viewing_distance: Option<Length>,
    /// Demand at the eye's entrance pupil.
    pub focus_demand: Vergence,
    /// The light of a near thing behind a tube that stays as for far, with nothing behind the eyepiece; `None` for every
    /// other setting, and where the tube meets a refraction.
    pub through_far: Option<ThroughAfocal>,
    /// The same as a train.
    pub arrangement: Arrangement,
}

/// A telescope before an eye, set for a distance.
///
/// Behind a cap of power F the equivalent viewing power is `|M|·F`, whatever the gap to the eye; where the tube meets
/// the refraction K, `|M'|·F/(1 − e·K)`. Source: Schwartz, chapter 12; paraxial.
///
/// Fixed for far, light of a thing x before the objective leaves the eyepiece with `−M²/(x + d·M)`, about as much as M²
/// times what it asks of the bare eye. Source: paraxial.
///
/// * `eyepiece_to_eye`: to the eye's entrance pupil; with glasses behind, at least as far as they are.
///
/// # Errors
/// [`Why::NoSolution`] when no tube length focuses it, the thing is nearer than the telescope is long, the cap has no
/// front focus, or glasses would have to stand in front of the eyepiece.
///
/// ```
/// use arcminute_core::device::{Eye, RefractionBy, Setting, aim};
/// use arcminute_core::optics::Telescope;
/// use arcminute_core::unit::{Length, LogMar, Vergence};
/// let d = Vergence::from_dioptres;
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// let telescope = Telescope::from_lenses(d(20.0), d(-50.0), Length::from_mm(25.0))?;
/// // Schwartz, chapter 12: 2.5x with a cap of 5 D is 12.5 D at 20 cm.
/// let used = aim(&telescope, &eye, Length::from_mm(20.0), RefractionBy::Glasses, Setting::Cap { cap: d(5.0) })?;
/// let evd = used.equivalent_viewing_distance.unwrap_or_default();
/// assert!((1.0 / evd.m() - 12.5).abs() < 1e-9);
/// assert!((used.thing_to_aid.unwrap_or_default().cm() - 20.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn aim(
    telescope: &Telescope,
    eye: &Eye,
    eyepiece_to_eye: Length,
    refraction: RefractionBy,
    setting: Setting,
) -> Result<TelescopeInUse, Error> {
    let by_tube = match refraction {
        RefractionBy::Glasses => Vergence::ZERO,
        RefractionBy::Tube => {
            ametropia_at_eyepiece(eye.mean_sphere(), eye.spectacle_to_eye, eyepiece_to_eye).ametropia
        }
    };
    let (distance, cap) = match setting {
        Setting::Far | Setting::FixedFar { .. } => (None, None),
        Setting::Tube { thing_to_eye } => (Some(thing_to_eye), None),
        Setting::Cap { cap } => (None, Some(front_focus_of(cap)?)),
    };
    let focused = focused_at(telescope, distance, by_tube, eyepiece_to_eye)?;
    let behind = behind_eyepiece(eye, eyepiece_to_eye, refraction)?;
    let (train, sight) = match (cap, setting) {
        (Some((cap, print)), _) => {
            let cap = Train::new([Element::Lens { power: cap, clear_diameter: None }]);
            (cap.then(&focused.train)?, Sight::At(print))
        }
        (None, Setting::FixedFar { thing_to_eye }) => {
            let thing = before_objective(thing_to_eye, focused.length + eyepiece_to_eye)?;
            (focused.train.clone(), Sight::At(thing))
        }
        (None, _) => (focused.train.clone(), focused.sight),
    };
    let train = train.then(&behind)?;
    let thing_to_aid = match sight {
        Sight::Far => None,
        Sight::At(distance) => Some(distance),
    };
    let through_far = match (setting, thing_to_aid) {
        (Setting::FixedFar { .. }, Some(thing)) if by_tube == Vergence::ZERO => {
            Some(through_afocal(telescope, thing, eyepiece_to_eye))
        }
        _ => None,
    };
    let arrangement = Arrangement {
        hand_room: thing_to_aid,
        transmittance: telescope.transmittance,
        ..Arrangement::of(train, sight)
    };
    Ok(TelescopeInUse {
        focused,
        setting,
        eyepiece_to_eye,
        by_tube,
        thing_to_aid,
        equivalent_viewing_distance: arrangement.equivalent_viewing_distance(),
        focus_demand: arrangement.view().focus_demand,
        through_far,
        arrangement,
    })
}

fn front_focus_of(cap: Vergence) -> Result<(Vergence, Length), Error> {
    let print = cap.focal_length();
    if Length::ZERO < print && print.is_finite() {
        return Ok((cap, print));
    }
    let why = Why::NoSolution { because: "it has no focus in front of it" };
    Err(Error::about("cap", format_args!("{} D", cap.dioptres()), why))
}

/// What lies between eyepiece and eye.
fn behind_eyepiece(eye: &Eye, eyepiece_to_eye: Length, refraction: RefractionBy) -> Result<Train, Error> {
    let worn = eye.worn_power();
    if refraction == RefractionBy::Tube || worn == Vergence::ZERO {
        return Ok(Train::default().to_eye(eyepiece_to_eye));
    }
    let gap = eyepiece_to_eye - eye.spectacle_to_eye;
    if gap < Length::ZERO {
        let why = Why::NoSolution { because: "the glasses would stand in front of the eyepiece" };
        return Err(Error::about("eyepiece to eye", format_args!("{} mm", eyepiece_to_eye.mm()), why));
    }
    let glasses = Element::Lens { power: worn, clear_diameter: None };
    Ok(Train::new([Element::Gap(gap), glasses]).to_eye(eye.spectacle_to_eye))
}

#[cfg(feature = "alloc")]
impl Explain for TelescopeInUse {
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.focused.steps();
        if let Setting::FixedFar { .. } = self.setting {
            // Glasses behind the eyepiece change what arrives at the eye: then no closed form is printed here.
            let arriving = |through: &&ThroughAfocal| {
                (through.at_eye + self.focus_demand).abs() <= Vergence::from_dioptres(1e-9)
            };
            steps.extend(self.through_far.iter().filter(arriving).flat_map(Explain::steps));
            return steps;
        }
        let Some(evd) = self.equivalent_viewing_distance else { return steps };
        // Behind glasses the light leaves them as the eye needs it only if they fit it: then nothing is printed here.
        if self.by_tube == Vergence::ZERO && Vergence::from_dioptres(1e-9) < self.focus_demand.abs() {
            return steps;
        }
        let evp = Named::new("EVP", Vergence::of_focal_length(evd).dioptres(), Unit::Dioptre);
        let m = Named::new("M_near", self.focused.magnification.times(), Unit::Times);
        let k = Named::new("K", self.by_tube.dioptres(), Unit::Dioptre);
        let e = Named::new("e", self.eyepiece_to_eye.mm(), Unit::Millimetre);
        match (self.setting, self.focused.sight) {
            (Setting::Cap { cap }, _) => {
                let cap = Named::new("F_cap", cap.dioptres(), Unit::Dioptre);
                steps.push(Step::formula(&formula::CAP_POWER_IN_USE, evp, [m, cap, k, e]));
            }
            (_, Sight::At(distance)) => {
                let x = Named::new("x", distance.m(), Unit::Metre);
                steps.push(Step::formula(&formula::TUBE_POWER_IN_USE, evp, [m, x, k, e]));
            }
            (_, Sight::Far) => {}
        }
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::Worn;
    use crate::unit::LogMar;
    use alloc::string::ToString;

    fn used(
        sphere: f64,
        worn: Worn,
        eyepiece_to_eye: f64,
        refraction: RefractionBy,
        setting: Setting,
    ) -> Result<TelescopeInUse, Error> {
        let d = Vergence::from_dioptres;
        let eye =
            Eye { sphere: d(sphere), worn, ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)) };
        let lenses = Telescope::from_lenses(d(20.0), d(80.0), Length::from_mm(12.0))?;
        let telescope = Telescope { transmittance: 0.8, ..lenses };
        aim(&telescope, &eye, Length::from_mm(eyepiece_to_eye), refraction, setting)
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        let settings = [
            Setting::Far,
            Setting::Tube { thing_to_eye: Length::from_m(0.6) },
            Setting::Cap { cap: Vergence::from_dioptres(4.0) },
        ];
        for setting in settings {
            for sphere in [-8.0, 0.0, 6.0] {
                let used = used(sphere, Worn::Nothing, 15.0, RefractionBy::Tube, setting)?;
                let steps = used.steps();
                let closing = steps
                    .iter()
                    .any(|step| matches!(step, Step::Formula { result, .. } if result.symbol == "EVP"));
                assert_eq!(closing, setting != Setting::Far, "{setting:?}");
                for step in steps {
                    assert_eq!(step.check(), Ok(()), "{setting:?} {sphere} D");
                }
            }
        }
        let behind_glasses = used(0.0, Worn::Distance, 15.0, RefractionBy::Glasses, settings[2])?;
        assert!(behind_glasses.steps().len() > behind_glasses.focused.steps().len(), "the cap shows");
        // Glasses that do not fit the eye's need for parallel light: the closed form does not hold, and is not shown.
        let myope = used(-6.0, Worn::Distance, 20.0, RefractionBy::Glasses, settings[2])?;
        assert_eq!(myope.steps(), myope.focused.steps());
        Ok(())
    }

    /// By hand, for 4x of 20 and 80 D, 62.5 mm long, 15 mm before the eye, the thing 1 m before the objective: −1 D becomes
    /// 19, 1/19 − 0.0625 m before the eyepiece is −101.333 D, and 80 more leave −21.333 D; 15 mm on that is −16.162 D. An
    /// image a quarter as large, 61.875 mm from the eye, looks as the thing at 247.5 mm.
    #[test]
    fn a_tube_fixed_for_far_leaves_a_near_thing_to_the_eye() -> Result<(), Error> {
        let fixed = Setting::FixedFar { thing_to_eye: Length::from_m(1.0775) };
        let near = used(0.0, Worn::Nothing, 15.0, RefractionBy::Glasses, fixed)?;
        let far = used(0.0, Worn::Nothing, 15.0, RefractionBy::Glasses, Setting::Far)?;
        assert_eq!(near.focused, far.focused, "the same tube");
        assert!((near.thing_to_aid.unwrap_or_default().m() - 1.0).abs() < 1e-12, "{near:?}");
        assert_eq!(near.arrangement.hand_room, near.thing_to_aid);
        assert!((near.focus_demand.dioptres() - 16.161_616).abs() < 1e-6, "{:?}", near.focus_demand);
        let evd = near.equivalent_viewing_distance.unwrap_or_default();
        assert!((evd.mm() - 247.5).abs() < 1e-9, "{evd:?}");
        assert_eq!((far.through_far, far.equivalent_viewing_distance), (None, None));
        let told = |steps: &[Step], of: &str| {
            steps.iter().any(|step| matches!(step, Step::Formula { result, .. } if result.symbol == of))
        };
        for (sphere, worn, closes) in
            [(0.0, Worn::Distance, true), (-3.0, Worn::Nothing, true), (-3.0, Worn::Distance, false)]
        {
            let steps = used(sphere, worn, 15.0, RefractionBy::Glasses, fixed)?.steps();
            assert_eq!(told(&steps, "U_eye"), closes, "{sphere} D, {worn:?}");
            assert!(!told(&steps, "EVP"), "no closed form of it is printed");
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{sphere} D, {worn:?}");
            }
        }
        let by_tube = used(-3.0, Worn::Nothing, 15.0, RefractionBy::Tube, fixed)?;
        assert_eq!((by_tube.through_far, by_tube.steps()), (None, by_tube.focused.steps()));
        Ok(())
    }

    #[test]
    fn a_thing_within_a_tube_fixed_for_far_is_refused() {
        // The objective stands 77.5 mm before the eye.
        for (metres, is_before) in [(0.078, true), (0.077, false), (0.0, false), (f64::NAN, false)] {
            let fixed = Setting::FixedFar { thing_to_eye: Length::from_m(metres) };
            let result = used(0.0, Worn::Nothing, 15.0, RefractionBy::Glasses, fixed);
            assert_eq!(result.is_ok(), is_before, "{metres} m");
            if let Err(error) = result {
                let told = alloc::format!(
                    "distance `{metres} m` has no solution: it is nearer than the telescope is long"
                );
                assert_eq!(error.to_string(), told);
            }
        }
    }

    #[test]
    fn glasses_that_fit_leave_the_telescope_afocal() -> Result<(), Error> {
        let cap = Setting::Cap { cap: Vergence::from_dioptres(4.0) };
        let used = used(-6.0, Worn::Distance, 20.0, RefractionBy::Glasses, cap)?;
        assert_eq!(used.by_tube, Vergence::ZERO);
        // The glasses carry −6 D, the eye meets that much at its pupil: 6/(1 + 0.09).
        assert!((used.focus_demand.dioptres() - 6.0 / 1.09).abs() < 1e-9, "{:?}", used.focus_demand);
        assert_eq!(used.thing_to_aid, Some(Length::from_cm(25.0)));
        assert_eq!(used.arrangement.hand_room, used.thing_to_aid, "nothing in the way but the cap");
        assert!((used.arrangement.transmittance - 0.8).abs() < 1e-15, "that of the telescope");
        Ok(())
    }

    #[test]
    fn what_cannot_be_built_is_refused() {
        for (cap, written) in [(0.0, "0"), (-4.0, "-4"), (f64::INFINITY, "inf"), (f64::NAN, "NaN")] {
            let cap = Setting::Cap { cap: Vergence::from_dioptres(cap) };
            let error = used(0.0, Worn::Distance, 20.0, RefractionBy::Glasses, cap).expect_err("no cap");
            let message = alloc::format!("cap `{written} D` has no solution: it has no focus in front of it");
            assert_eq!(error.to_string(), message);
        }
        let error = used(-6.0, Worn::Distance, 14.0, RefractionBy::Glasses, Setting::Far)
            .expect_err("the eyepiece is behind the glasses");
        assert_eq!(
            error.to_string(),
            "eyepiece to eye `14 mm` has no solution: the glasses would stand in front of the eyepiece"
        );
        assert!(used(-6.0, Worn::Distance, 15.0, RefractionBy::Glasses, Setting::Far).is_ok(), "touching");
        assert!(used(-6.0, Worn::Distance, 14.0, RefractionBy::Tube, Setting::Far).is_ok(), "no glasses");
    }
}
