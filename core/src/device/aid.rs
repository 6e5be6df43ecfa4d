//! Any aid, and a table of what every aid does for every wish.

use super::arrangement::{Own, Through};
use super::{
    Arrangement, Bar, Detail, DistanceCamera, Dome, Eye, FresnelSheet, HandMagnifier, HeadMountedDisplay,
    HighPlusSpectacles, Outcome, PrintPlace, RefractionBy, ScreenAid, Setting, StandMagnifier, aim, hold,
    hold_minus, lay_bar, lay_dome, look_from, place_stand, watch_far, watch_screen, wear, wear_display,
};
use crate::error::{Error, Why};
use crate::optics::Telescope;
use crate::unit::{Length, Vergence};

/// An aid and the way it is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Aid {
    /// No device: the thing, or a copy that is larger, at this distance.
    NearerAndLarger {
        /// Size of the copy over that of the thing; one for the thing itself.
        larger: f64,
        /// Thing to the eye's entrance pupil.
        thing_to_eye: Length,
    },
    /// High-plus spectacles, the print where the eye sees it with this much accommodation.
    HighPlus {
        /// The spectacles.
        spectacles: HighPlusSpectacles,
        /// Accommodation that is used.
        accommodation_used: Vergence,
    },
    /// A hand magnifier with the print in its focus.
    Hand {
        /// The magnifier.
        magnifier: HandMagnifier,
        /// Magnifier to the spectacle plane.
        lens_to_spectacle: Length,
    },
    /// A Fresnel sheet with the print in its focus.
    Sheet {
        /// The sheet.
        sheet: FresnelSheet,
        /// Sheet to the spectacle plane.
        sheet_to_spectacle: Length,
    },
    /// A stand magnifier on the page.
    Stand {
        /// The magnifier.
        stand: StandMagnifier,
        /// Lens to the spectacle plane.
        lens_to_spectacle: Length,
    },
    /// A dome on the page.
    Dome {
        /// The dome.
        dome: Dome,
        /// Page to the eye's entrance pupil.
        page_to_eye: Length,
    },
    /// A bar on the page.
    Bar {
        /// The bar.
        bar: Bar,
        /// Page to the eye's entrance pupil.
        page_to_eye: Length,
    },
    /// A screen that shows print larger.
    Screen {
        /// The screen.
        screen: ScreenAid,
        /// Screen to the eye's entrance pupil.
        screen_to_eye: Length,
    },
    /// A camera for far things and its screen; the distance is the wish's.
    DistanceCamera {
        /// The camera.
        camera: DistanceCamera,
        /// Screen to the eye's entrance pupil.
        screen_to_eye: Length,
    },
    /// A display before the eyes; the distance is the wish's.
    HeadMounted {
        /// The display.
        display: HeadMountedDisplay,
    },
    /// A telescope.
    Telescope {
        /// The telescope.
        telescope: Telescope,
        /// Eyepiece to the eye's entrance pupil.
        eyepiece_to_eye: Length,
        /// What meets the refraction.
        refraction: RefractionBy,
        /// What it is set for.
        setting: Setting,
    },
    /// A minus lens held before the eye, looking far.
    MinusLens {
        /// Power, below zero.
        power: Vergence,
        /// Clear diameter.
        clear_diameter: Length,
        /// Lens to the spectacle plane.
        lens_to_spectacle: Length,
    },
}

impl Aid {
    /// Whether it is arranged anew for each distance that things are at.
    ///
    /// ```
    /// use arcminute_core::device::{Aid, DistanceCamera, Screen};
    /// use arcminute_core::unit::{Angle, Length};
    /// let (screen_to_eye, camera_field) = (Length::from_cm(40.0), Angle::from_degrees(10.0));
    /// let screen = Screen { width: Length::from_mm(480.0), height: Length::from_mm(270.0) };
    /// let camera = Aid::DistanceCamera { camera: DistanceCamera { screen, camera_field }, screen_to_eye };
    /// assert!(camera.depends_on_distance(), "a board at 2 m and one at 6 m are not shown alike");
    /// assert!(!Aid::NearerAndLarger { larger: 1.0, thing_to_eye: screen_to_eye }.depends_on_distance());
    /// ```
    #[must_use]
    pub fn depends_on_distance(&self) -> bool {
        matches!(self, Self::DistanceCamera { .. } | Self::HeadMounted { .. })
    }

    /// The aid before an eye; `distance` is that of the thing, where the aid cannot choose it.
    ///
    /// # Errors
    /// Those of the family's own function; [`Why::Missing`] where the distance is needed and not given.
    ///
    /// ```
    /// use arcminute_core::device::{Aid, Eye};
    /// use arcminute_core::unit::{Length, LogMar};
    /// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    /// let nearer = Aid::NearerAndLarger { larger: 1.0, thing_to_eye: Length::from_cm(10.0) };
    /// let evd = nearer.arrange(&eye, None)?.equivalent_viewing_distance();
    /// assert!((evd.unwrap_or_default().cm() - 10.0).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn arrange(&self, eye: &Eye, distance: Option<Length>) -> Result<Arrangement, Error> {
        let needed = || {
            let why = Why::Missing { part: "the distance of the thing", example: "6 m" };
            distance.ok_or_else(|| Error::new("aid for far things", "no distance", why))
        };
        Ok(match *self {
            Self::NearerAndLarger { larger, thing_to_eye } => {
                look_from(eye, thing_to_eye, larger)?.arrangement
            }
            Self::HighPlus { spectacles, accommodation_used } => {
                wear(spectacles, eye, accommodation_used)?.arrangement
            }
            Self::Hand { magnifier, lens_to_spectacle } => {
                hold(magnifier, eye, lens_to_spectacle, PrintPlace::AtLensFocus)?.arrangement
            }
            Self::Sheet { sheet, sheet_to_spectacle } => {
                let place = PrintPlace::AtLensFocus;
                hold(sheet.as_hand_magnifier(), eye, sheet_to_spectacle, place)?.arrangement
            }
            Self::Stand { stand, lens_to_spectacle } => {
                place_stand(stand, eye, lens_to_spectacle)?.arrangement
            }
            Self::Dome { dome, page_to_eye } => lay_dome(dome, eye, page_to_eye)?.arrangement,
            Self::Bar { bar, page_to_eye } => lay_bar(bar, eye, page_to_eye)?.arrangement,
            Self::Screen { screen, screen_to_eye } => watch_screen(screen, eye, screen_to_eye)?.arrangement,
            Self::DistanceCamera { camera, screen_to_eye } => {
                watch_far(camera, eye, screen_to_eye, needed()?)?.screen.arrangement
            }
            Self::HeadMounted { display } => wear_display(display, eye, needed()?)?.arrangement,
            Self::Telescope { telescope, eyepiece_to_eye, refraction, setting } => {
                aim(&telescope, eye, eyepiece_to_eye, refraction, setting)?.arrangement
            }
            Self::MinusLens { power, clear_diameter, lens_to_spectacle } => {
                hold_minus(power, clear_diameter, eye, lens_to_spectacle)?.arrangement
            }
        })
    }
}

/// What every aid does for every wish of one eye, aid by aid: `each` is given the places in both lists and the outcome.
///
/// The same as arranging and looking one by one, but an aid is arranged, and looked through, once for all wishes unless
/// it depends on their distance.
///
/// ```
/// use arcminute_core::device::{Aid, Detail, Eye, every_outcome};
/// use arcminute_core::unit::{Length, LogMar, Vergence};
/// let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// eye.accommodation = Vergence::from_dioptres(10.0); // enough for both distances
/// let aids = [10.0, 20.0].map(|cm| Aid::NearerAndLarger { larger: 1.0, thing_to_eye: Length::from_cm(cm) });
/// let print = Detail { height: Length::from_mm(1.4544), distance: None, reserve: 1.0 };
/// let mut reserves = vec![];
/// every_outcome(&aids, &[print], &eye, |_, _, outcome| reserves.extend(outcome.map(|seen| seen.reserve_reached)));
/// assert!((reserves[0] / reserves[1] - 2.0).abs() < 1e-4); // computed: half the distance
/// ```
pub fn every_outcome(
    aids: &[Aid],
    details: &[Detail],
    eye: &Eye,
    mut each: impl FnMut(usize, usize, Result<Outcome, Error>),
) {
    let own = Own::of(eye);
    for (place, aid) in aids.iter().enumerate() {
        let once = (!aid.depends_on_distance()).then(|| aid.arrange(eye, None));
        let through = once.as_ref().map(|once| once.as_ref().map(|arranged| Through::of(arranged, &own)));
        for (wish, detail) in details.iter().enumerate() {
            let outcome = match &through {
                Some(Ok(through)) => through.outcome(*detail),
                Some(Err(error)) => Err((*error).clone()),
                None => aid
                    .arrange(eye, detail.distance)
                    .and_then(|arrangement| Through::of(&arrangement, &own).outcome(*detail)),
            };
            each(place, wish, outcome);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::{LensForm, Screen, StandData, Worn, look, stand_optics};
    use crate::optics::RealDome;
    use crate::unit::{Angle, LogMar};
    use alloc::string::ToString;
    use alloc::vec::Vec;

    fn mm(length: f64) -> Length {
        Length::from_mm(length)
    }
    fn d(power: f64) -> Vergence {
        Vergence::from_dioptres(power)
    }

    /// One of each family.
    fn aids() -> Result<[Aid; 12], Error> {
        let screen = Screen { width: mm(480.0), height: mm(270.0) };
        let section = RealDome { radius: mm(30.0), thickness: mm(35.0), index: 1.49 };
        Ok([
            Aid::NearerAndLarger { larger: 1.5, thing_to_eye: mm(150.0) },
            Aid::HighPlus {
                spectacles: HighPlusSpectacles {
                    form: LensForm::Addition { add: d(10.0) },
                    clear_diameter: mm(40.0),
                    transmittance: 0.92,
                },
                accommodation_used: d(0.0),
            },
            Aid::Hand {
                magnifier: HandMagnifier { power: d(12.0), clear_diameter: mm(50.0), transmittance: 0.92 },
                lens_to_spectacle: mm(150.0),
            },
            Aid::Sheet {
                sheet: FresnelSheet { power: d(3.0), width: mm(200.0), transmittance: 0.85 },
                sheet_to_spectacle: mm(200.0),
            },
            Aid::Stand {
                stand: StandMagnifier {
                    optics: stand_optics(StandData::Nominal { power: d(20.0), print_to_lens: mm(33.0) })?,
                    clear_diameter: mm(40.0),
                    transmittance: 0.92,
                },
                lens_to_spectacle: mm(150.0),
            },
            Aid::Dome {
                dome: Dome { solid: section, clear_diameter: mm(55.0), transmittance: 0.92 },
                page_to_eye: mm(400.0),
            },
            Aid::Bar {
                bar: Bar { section, length: mm(200.0), clear_width: mm(30.0), transmittance: 0.92 },
                page_to_eye: mm(400.0),
            },
            Aid::Screen {
                screen: ScreenAid { screen, enlargement: 10.0, camera_to_print: Some(mm(200.0)) },
                screen_to_eye: mm(400.0),
            },
            Aid::DistanceCamera {
                camera: DistanceCamera { screen, camera_field: Angle::from_degrees(10.0) },
                screen_to_eye: mm(400.0),
            },
            Aid::HeadMounted {
                display: HeadMountedDisplay {
                    display_field: Angle::from_degrees(40.0),
                    camera_field: Angle::from_degrees(10.0),
                    image_distance: None,
                    display_pixels: 1280.0,
                    camera_pixels: 1280.0,
                },
            },
            Aid::Telescope {
                telescope: Telescope::from_lenses(d(20.0), d(-50.0), mm(25.0))?,
                eyepiece_to_eye: mm(20.0),
                refraction: RefractionBy::Glasses,
                setting: Setting::Cap { cap: d(4.0) },
            },
            Aid::MinusLens { power: d(-5.0), clear_diameter: mm(80.0), lens_to_spectacle: mm(300.0) },
        ])
    }

    #[test]
    fn the_table_is_what_each_aid_gives_alone() -> Result<(), Error> {
        let eye = Eye {
            worn: Worn::Near { add: d(2.5) },
            accommodation: d(1.0),
            ..Eye::corrected(LogMar::from_log(0.8), LogMar::from_log(0.2))
        };
        let details = [None, Some(Length::from_m(3.0))].map(|distance| Detail {
            height: mm(5.0),
            distance,
            reserve: 2.0,
        });
        let aids = aids()?;
        let mut cells = Vec::new();
        every_outcome(&aids, &details, &eye, |aid, wish, outcome| cells.push((aid, wish, outcome)));
        assert_eq!(cells.len(), aids.len() * details.len(), "one cell for each");
        let mut served = 0;
        for (aid, wish, outcome) in cells {
            let alone = aids[aid]
                .arrange(&eye, details[wish].distance)
                .and_then(|arrangement| look(&arrangement, &eye, details[wish]));
            served += usize::from(outcome.is_ok());
            assert_eq!(outcome, alone, "{:?} for {:?}", aids[aid], details[wish]);
        }
        assert_eq!(served, 21, "all but the three far aids without a distance");
        Ok(())
    }

    #[test]
    fn far_aids_ask_for_the_distance() -> Result<(), Error> {
        let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
        for aid in aids()?.into_iter().filter(Aid::depends_on_distance) {
            let error = aid.arrange(&eye, None).expect_err("a far aid");
            assert_eq!(error.to_string(), "aid for far things `no distance` needs the distance of the thing");
            assert_eq!(error.hint().to_string(), "type for example `6 m`");
        }
        Ok(())
    }

    #[test]
    fn every_outcome_shows_its_working() -> Result<(), Error> {
        use crate::explain::Explain;
        let eye = Eye { sphere: d(-3.0), ..Eye::corrected(LogMar::from_log(0.8), LogMar::from_log(0.2)) };
        let detail = Detail { height: mm(20.0), distance: Some(Length::from_m(3.0)), reserve: 1.5 };
        every_outcome(&aids()?, &[detail], &eye, |aid, _, outcome| {
            for step in outcome.expect("all serve").steps() {
                assert_eq!(step.check(), Ok(()), "aid {aid}");
            }
        });
        Ok(())
    }
}
