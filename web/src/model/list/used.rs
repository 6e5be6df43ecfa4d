//! From an aid of a list to what the core judges.

use super::aid::ListedAid;
use super::column::Column;
use super::family::Family;
use crate::model::devices::{Device, Spectacles};
use arcminute_core::device::{
    Aid, Bar, DistanceCamera, Dome, FresnelSheet, HandMagnifier, HeadMountedDisplay, HighPlusSpectacles,
    LensForm, RefractionBy, Screen, ScreenAid, Setting, StandData, StandMagnifier, stand_optics,
};
use arcminute_core::optics::{Design, Label, RealDome, Telescope, ThickLens};
use arcminute_core::unit::{Angle, Length, Magnification, Vergence};
use arcminute_core::{Error, Why};

/// The columns of an aid as quantities. What a row must say is there: an aid that lacks it is not taken from a file.
impl ListedAid {
    fn plain(&self, column: Column) -> f64 {
        self.number(column).unwrap_or_default()
    }
    fn mm(&self, column: Column) -> Length {
        Length::from_mm(self.plain(column))
    }
    fn dioptres(&self, column: Column) -> Vergence {
        Vergence::from_dioptres(self.plain(column))
    }
    fn degrees(&self, column: Column) -> Angle {
        Angle::from_degrees(self.plain(column))
    }
    fn transmittance(&self) -> f64 {
        self.plain(Column::LightThrough) / 100.0
    }
    fn design(&self) -> Design {
        if self.word(Column::Design) == Some(0) { Design::Galilean } else { Design::Keplerian }
    }

    /// The aid as it is used, the glasses `spectacle_to_eye` before the eye's entrance pupil; `distance` is that of a far
    /// thing, for which a telescope that can be focused is set; before one that cannot, the eye focuses what is left. The
    /// lengths that the list does not give are assumed ([`ListedAid::assumed`]).
    ///
    /// # Errors
    /// Those of the family: for measures that no aid has, and for a distance nearer than a telescope can be focused.
    pub fn used(&self, spectacle_to_eye: Length, distance: Option<Length>) -> Result<Aid, Error> {
        use Column as C;
        let page_to_eye = self.mm(C::EyeToPage);
        let screen_to_eye = self.mm(C::EyeToScreen);
        let lens_to_spectacle = self.mm(C::LensToGlasses);
        let clear_diameter = self.mm(C::ClearDiameter);
        let transmittance = self.transmittance();
        let spectacles = |form| Aid::HighPlus {
            spectacles: HighPlusSpectacles { form, clear_diameter, transmittance },
            accommodation_used: Vergence::ZERO,
        };
        let solid = RealDome {
            radius: self.mm(C::Radius),
            thickness: self.mm(C::Height),
            index: self.plain(C::Index),
        };
        Ok(match self.family {
            Family::Nearer => Aid::NearerAndLarger { larger: 1.0, thing_to_eye: page_to_eye },
            Family::Larger => {
                Aid::NearerAndLarger { larger: self.plain(C::Enlargement), thing_to_eye: page_to_eye }
            }
            Family::HighPlus => spectacles(LensForm::Addition { add: self.dioptres(C::Addition) }),
            Family::ThickHighPlus => spectacles(LensForm::Thick(ThickLens {
                front: self.dioptres(C::FrontSurface),
                back: self.dioptres(C::BackSurface),
                thickness: self.mm(C::Thickness),
                index: self.plain(C::Index),
            })),
            Family::Hand => Aid::Hand {
                magnifier: HandMagnifier { power: self.dioptres(C::Power), clear_diameter, transmittance },
                lens_to_spectacle,
            },
            Family::Sheet => Aid::Sheet {
                sheet: FresnelSheet {
                    power: self.dioptres(C::Power),
                    width: self.mm(C::Width),
                    transmittance,
                },
                sheet_to_spectacle: lens_to_spectacle,
            },
            Family::Stand => Aid::Stand {
                stand: StandMagnifier { optics: stand_optics(self.stand())?, clear_diameter, transmittance },
                lens_to_spectacle,
            },
            Family::Dome => Aid::Dome { dome: Dome { solid, clear_diameter, transmittance }, page_to_eye },
            Family::Bar => {
                let (length, clear_width) = (self.mm(C::BarLength), self.mm(C::Width));
                Aid::Bar { bar: Bar { section: solid, length, clear_width, transmittance }, page_to_eye }
            }
            Family::DeskScreen | Family::HandScreen | Family::Tablet => {
                let camera_to_print = self.number(C::CameraToPrint).map(Length::from_mm);
                let enlargement = self.plain(C::Enlargement);
                let screen = ScreenAid { screen: self.screen(), enlargement, camera_to_print };
                Aid::Screen { screen, screen_to_eye }
            }
            Family::DistanceCamera => {
                let camera_field = self.degrees(C::CameraField);
                Aid::DistanceCamera {
                    camera: DistanceCamera { screen: self.screen(), camera_field },
                    screen_to_eye,
                }
            }
            Family::HeadMounted => Aid::HeadMounted {
                display: HeadMountedDisplay {
                    display_field: self.degrees(C::DisplayField),
                    camera_field: self.degrees(C::CameraField),
                    image_distance: self.number(C::DisplayImage).map(Length::from_m),
                    display_pixels: self.plain(C::DisplayPixels),
                    camera_pixels: self.plain(C::CameraPixels),
                },
            },
            Family::MinusLens => {
                Aid::MinusLens { power: self.dioptres(C::Power), clear_diameter, lens_to_spectacle }
            }
            Family::HandTelescope
            | Family::MountedTelescope
            | Family::CappedTelescope
            | Family::ReversedTelescope => self.aimed(spectacle_to_eye + lens_to_spectacle, distance)?,
        })
    }

    fn screen(&self) -> Screen {
        Screen { width: self.mm(Column::Width), height: self.mm(Column::Height) }
    }

    /// What is known of a stand magnifier; what was measured goes before what is marked.
    fn stand(&self) -> StandData {
        let power = self.dioptres(Column::Power);
        let enlargement = self.plain(Column::Enlargement);
        match self.pair() {
            Some([Column::Enlargement, _]) => {
                StandData::ImagePlace { enlargement, image_to_lens: self.mm(Column::ImageBelowLens) }
            }
            Some([_, Column::Enlargement]) => StandData::PowerAndEnlargement { power, enlargement },
            _ => StandData::Nominal { power, print_to_lens: self.mm(Column::StandHeight) },
        }
    }

    fn telescope(&self) -> Result<Telescope, Error> {
        Telescope::from_label(&Label {
            design: self.design(),
            power: Magnification::from_times(self.plain(Column::Magnification)),
            objective_diameter: self.mm(Column::Objective),
            real_field: self.number(Column::RealField).map(Angle::from_degrees),
            near_focus: self.number(Column::NearestFocus).map(Length::from_m),
            length: self.number(Column::TubeLength).map(Length::from_mm),
            transmittance: self.transmittance(),
        })
    }

    /// A telescope before the eye. One that is mounted and can be focused meets the refraction by its tube; before one
    /// that cannot, the refraction stands in the eyepiece, which is as if glasses were there.
    fn aimed(&self, eyepiece_to_eye: Length, distance: Option<Length>) -> Result<Aid, Error> {
        let telescope = self.telescope()?;
        let setting = match (self.number(Column::ReadingCap), telescope.near_focus, distance) {
            (Some(cap), ..) => Setting::Cap { cap: Vergence::from_dioptres(cap) },
            (None, Some(nearest), Some(distance)) if distance < nearest => {
                let why = Why::NoSolution { because: "it cannot be focused for so near a thing" };
                return Err(Error::about("distance", format_args!("{} m", distance.m()), why));
            }
            (None, Some(_), Some(distance)) => Setting::Tube { thing_to_eye: distance },
            (None, None, Some(distance)) => Setting::FixedFar { thing_to_eye: distance },
            (None, _, None) => Setting::Far,
        };
        let refraction =
            if self.is_focused_for_the_eye() { RefractionBy::Tube } else { RefractionBy::Glasses };
        Ok(Aid::Telescope { telescope, eyepiece_to_eye, refraction, setting })
    }

    /// Whether its tube meets the refraction: the eye then wears nothing behind it, and a cylinder stays.
    pub(in crate::model) fn is_focused_for_the_eye(&self) -> bool {
        self.family == Family::MountedTelescope && self.number(Column::NearestFocus).is_some()
    }

    /// The telescope for far to be set in a carrier lens; nothing for any other aid.
    #[must_use]
    pub fn device(&self) -> Option<Device> {
        (self.family == Family::MountedTelescope).then(|| self.as_device(self.plain(Column::Barrel)))
    }

    /// The telescope with a cap for near, where its barrel is known; nothing for any other aid.
    #[must_use]
    pub fn near_device(&self) -> Option<Device> {
        let barrel = self.number(Column::Barrel)?;
        (self.family == Family::CappedTelescope).then(|| self.as_device(barrel))
    }

    /// Strong spectacles for near; nothing for any other aid.
    #[must_use]
    pub fn spectacles(&self) -> Option<Spectacles> {
        let eye = Length::from_mm(super::aid::SPECTACLES_TO_EYE_MM);
        let Aid::HighPlus { spectacles, .. } = self.used(eye, None).ok()? else { return None };
        let (power, adds_refraction) = match spectacles.form {
            LensForm::Addition { add } => (add, true),
            LensForm::Thick(lens) => (lens.powers().ok()?.equivalent, false),
        };
        Some(Spectacles {
            id: self.id.clone(),
            name: self.name.clone(),
            power,
            adds_refraction,
            both_eyes: self.traits().both_eyes,
            weight_g: self.weight_g(),
        })
    }

    fn as_device(&self, barrel_mm: f64) -> Device {
        Device {
            id: self.id.clone(),
            name: self.name.clone(),
            design: self.design(),
            power_times: self.plain(Column::Magnification),
            objective_mm: self.plain(Column::Objective),
            real_field_deg: self.number(Column::RealField),
            near_focus_m: self.number(Column::NearestFocus),
            length_mm: self.number(Column::TubeLength),
            barrel_mm,
            weight_g: self.plain(Column::Weight),
            transmittance_percent: self.plain(Column::LightThrough),
            cap_d: self.number(Column::ReadingCap),
        }
    }
}
