//! The aids other than telescopes that Bench shows: an invented list, one or two of each family, with no real device in
//! it.

use super::words::Where;
use arcminute_core::Error;
use arcminute_core::device::{
    Arrangement, Bar, DistanceCamera, Dome, Eye, HandMagnifier, HeadMountedDisplay, HighPlusSpectacles,
    LensForm, PrintPlace, RefractionBy, Screen, ScreenAid, Setting, StandData, StandMagnifier, Worn, aim,
    hold, hold_minus, lay_bar, lay_dome, look_from, place_stand, stand_optics, watch_far, watch_screen, wear,
    wear_display,
};
use arcminute_core::explain::{Explain, Step};
use arcminute_core::optics::{RealDome, Telescope, ThickLens};
use arcminute_core::unit::{Angle, Length, Vergence};

/// What an aid is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum For {
    /// Print near.
    Print,
    /// The goal at its distance.
    Far,
    /// More of the surroundings at once, for a small field; it costs detail.
    Field,
}

/// What the eye wears with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wears {
    /// The correction for far.
    Distance,
    /// The correction for far, with the add where one is written.
    Add,
    /// Nothing: the aid stands in place of the glasses.
    Nothing,
}

/// An aid of the list.
#[derive(Clone, Copy, Debug)]
pub struct Listed {
    /// Stable key.
    pub id: &'static str,
    /// What it is, in trade words.
    pub name: &'static str,
    /// How it is used.
    pub used: &'static str,
    /// What it is for.
    pub serves: For,
    /// What is worn with it.
    pub wears: Wears,
    /// Whether what it shows shines by itself.
    pub shines: bool,
    /// The risks that come with it.
    pub cautions: &'static [Where],
    /// Something to know of it; may be empty.
    pub note: &'static str,
    /// Its measures.
    pub kind: Kind,
}

impl Listed {
    /// What stands in the spectacle plane of an eye with this add.
    #[must_use]
    pub fn worn(&self, add: Option<Vergence>) -> Worn {
        match (self.wears, add) {
            (Wears::Nothing, _) => Worn::Nothing,
            (Wears::Add, Some(add)) if Vergence::ZERO < add => Worn::Near { add },
            (Wears::Add | Wears::Distance, _) => Worn::Distance,
        }
    }
}

fn mm(length: f64) -> Length {
    Length::from_mm(length)
}
fn d(power: f64) -> Vergence {
    Vergence::from_dioptres(power)
}

/// Measures of an aid and of the way it is used. Lengths in millimetres, powers in dioptres; distances to the eye end at
/// its entrance pupil, those to the glasses at the spectacle plane.
#[derive(Clone, Copy, Debug, PartialEq)]
#[expect(missing_docs, reason = "each field is the measure it is called, in the units said above")]
pub enum Kind {
    /// Without a device: the print this much larger, at this distance from the eye.
    Nearer { larger: f64, distance: f64 },
    /// High-plus spectacles with this addition, one thin lens.
    HighPlus { add: f64 },
    /// High-plus spectacles of one thick lens, front and back surface.
    Thick { surfaces: (f64, f64), thickness: f64, index: f64 },
    /// A hand magnifier or a Fresnel sheet, the print in its focus; the share of light it lets through.
    Hand { power: f64, diameter: f64, to_glasses: f64, light: f64 },
    /// A stand magnifier: size of its image and how far below the lens it lies.
    Stand { larger: f64, image: f64, diameter: f64, to_glasses: f64 },
    /// A dome of acrylic on the page, the page so far from the eye.
    Dome { radius: f64, height: f64, diameter: f64, distance: f64 },
    /// Half a cylinder of acrylic on the page, the page so far from the eye.
    Bar { radius: f64, length: f64, width: f64, distance: f64 },
    /// A screen that shows print larger, and how far its camera is from the print.
    Screen { size: (f64, f64), larger: f64, camera: Option<f64>, distance: f64 },
    /// A telescope of objective and eyepiece, set for far, with a reading cap or without.
    Telescope { lenses: (f64, f64), objective: f64, cap: Option<f64> },
    /// A camera for far things and its screen.
    DistanceCamera { size: (f64, f64), camera_degrees: f64, distance: f64 },
    /// A display before the eyes, its image far.
    HeadMounted { display_degrees: f64, camera_degrees: f64, pixels: f64 },
    /// A minus lens held before the eye.
    MinusLens { power: f64, diameter: f64, to_glasses: f64 },
}

/// Light let through by one plain lens.
const GLASS: f64 = 0.92;
/// Index of acrylic.
const ACRYLIC: f64 = 1.49;
/// Room behind the eyepiece for the glasses. Assumed.
const BEHIND_EYEPIECE_MM: f64 = 5.0;
/// Clear diameter of high-plus spectacles.
const SPECTACLES_MM: f64 = 40.0;

fn screen((width, height): (f64, f64)) -> Screen {
    Screen { width: mm(width), height: mm(height) }
}

impl Kind {
    /// The aid as this eye uses it, and the closed forms of its family if its working is asked for; `distance` is that of
    /// a far thing.
    ///
    /// # Errors
    /// Those of the family: for measures that no aid has, and where optics have no answer.
    pub fn used(
        self,
        eye: &Eye,
        distance: Option<Length>,
        working: bool,
    ) -> Result<(Arrangement, Vec<Step>), Error> {
        let far = distance.unwrap_or_default();
        let told = |family: &dyn Explain, arrangement: &Arrangement| {
            (arrangement.clone(), if working { family.steps() } else { Vec::new() })
        };
        let worn = |form| {
            let spectacles =
                HighPlusSpectacles { form, clear_diameter: mm(SPECTACLES_MM), transmittance: GLASS };
            let worn = wear(spectacles, eye, Vergence::ZERO)?;
            Ok(told(&worn, &worn.arrangement))
        };
        Ok(match self {
            Self::Nearer { larger, distance } => {
                let seen = look_from(eye, mm(distance), larger)?;
                told(&seen, &seen.arrangement)
            }
            Self::HighPlus { add } => return worn(LensForm::Addition { add: d(add) }),
            Self::Thick { surfaces: (front, back), thickness, index } => {
                let (front, back, thickness) = (d(front), d(back), mm(thickness));
                return worn(LensForm::Thick(ThickLens { front, back, thickness, index }));
            }
            Self::Hand { power, diameter, to_glasses, light } => {
                let magnifier =
                    HandMagnifier { power: d(power), clear_diameter: mm(diameter), transmittance: light };
                let held = hold(magnifier, eye, mm(to_glasses), PrintPlace::AtLensFocus)?;
                told(&held, &held.arrangement)
            }
            Self::Stand { larger, image, diameter, to_glasses } => {
                let data = StandData::ImagePlace { enlargement: larger, image_to_lens: mm(image) };
                let (optics, clear_diameter) = (stand_optics(data)?, mm(diameter));
                let stand = StandMagnifier { optics, clear_diameter, transmittance: GLASS };
                let placed = place_stand(stand, eye, mm(to_glasses))?;
                told(&placed, &placed.arrangement)
            }
            Self::Dome { radius, height, diameter, distance } => {
                let solid = RealDome { radius: mm(radius), thickness: mm(height), index: ACRYLIC };
                let dome = Dome { solid, clear_diameter: mm(diameter), transmittance: GLASS };
                let laid = lay_dome(dome, eye, mm(distance))?;
                told(&laid, &laid.arrangement)
            }
            Self::Bar { radius, length, width, distance } => {
                let section = RealDome { radius: mm(radius), thickness: mm(radius), index: ACRYLIC };
                let bar = Bar { section, length: mm(length), clear_width: mm(width), transmittance: GLASS };
                let laid = lay_bar(bar, eye, mm(distance))?;
                told(&laid, &laid.arrangement)
            }
            Self::Screen { size, larger, camera, distance } => {
                let aid =
                    ScreenAid { screen: screen(size), enlargement: larger, camera_to_print: camera.map(mm) };
                let watched = watch_screen(aid, eye, mm(distance))?;
                told(&watched, &watched.arrangement)
            }
            Self::Telescope { lenses: (first, second), objective, cap } => {
                let telescope = Telescope::from_lenses(d(first), d(second), mm(objective))?;
                let behind = eye.spectacle_to_eye + mm(BEHIND_EYEPIECE_MM);
                let setting = cap.map_or(Setting::Far, |cap| Setting::Cap { cap: d(cap) });
                let aimed = aim(&telescope, eye, behind, RefractionBy::Glasses, setting)?;
                told(&aimed, &aimed.arrangement)
            }
            Self::DistanceCamera { size, camera_degrees, distance } => {
                let camera_field = Angle::from_degrees(camera_degrees);
                let camera = DistanceCamera { screen: screen(size), camera_field };
                let watched = watch_far(camera, eye, mm(distance), far)?;
                told(&watched, &watched.screen.arrangement)
            }
            Self::HeadMounted { display_degrees, camera_degrees, pixels } => {
                let display = HeadMountedDisplay {
                    display_field: Angle::from_degrees(display_degrees),
                    camera_field: Angle::from_degrees(camera_degrees),
                    image_distance: None,
                    display_pixels: pixels,
                    camera_pixels: pixels,
                };
                let worn = wear_display(display, eye, far)?;
                told(&worn, &worn.arrangement)
            }
            Self::MinusLens { power, diameter, to_glasses } => {
                let held = hold_minus(d(power), mm(diameter), eye, mm(to_glasses))?;
                told(&held, &held.arrangement)
            }
        })
    }
}

/// What the list is.
pub const ABOUT: &str = "An invented list, one or two of each family; no real device is in it.";

use Where::{Close, PlusLens, Standing};

/// The list, near aids first.
pub static LIST: &[Listed] = &[
    Listed {
        id: "nearer",
        name: "Print held nearer",
        used: "The same print at 20 cm from the eye, with the near glasses if there are any",
        serves: For::Print,
        wears: Wears::Add,
        shines: false,
        cautions: &[Close],
        note: "",
        kind: Kind::Nearer { larger: 1.0, distance: 200.0 },
    },
    Listed {
        id: "larger",
        name: "Larger print",
        used: "A copy twice as large, at 40 cm from the eye",
        serves: For::Print,
        wears: Wears::Add,
        shines: false,
        cautions: &[],
        note: "",
        kind: Kind::Nearer { larger: 2.0, distance: 400.0 },
    },
    Listed {
        id: "high-plus",
        name: "High-plus spectacles, +10 D",
        used: "Worn: the correction for far with +10 D added, one thin lens of 40 mm",
        serves: For::Print,
        wears: Wears::Distance,
        shines: false,
        cautions: &[Close, PlusLens, Standing],
        note: "",
        kind: Kind::HighPlus { add: 10.0 },
    },
    Listed {
        id: "high-plus-thick",
        name: "High-plus spectacles, thick lens",
        used: "Worn in place of glasses: front +12 D, back +9 D, 9 mm thick, index 1.5",
        serves: For::Print,
        wears: Wears::Nothing,
        shines: false,
        cautions: &[Close, PlusLens, Standing],
        note: "",
        kind: Kind::Thick { surfaces: (12.0, 9.0), thickness: 9.0, index: 1.5 },
    },
    Listed {
        id: "hand-12",
        name: "Hand magnifier, +12 D, 60 mm",
        used: "Held 15 cm before the glasses for far, the print in its focus",
        serves: For::Print,
        wears: Wears::Distance,
        shines: false,
        cautions: &[PlusLens],
        note: "",
        kind: Kind::Hand { power: 12.0, diameter: 60.0, to_glasses: 150.0, light: GLASS },
    },
    Listed {
        id: "hand-28",
        name: "Hand magnifier, +28 D, 30 mm",
        used: "Held 5 cm before the glasses for far, the print in its focus",
        serves: For::Print,
        wears: Wears::Distance,
        shines: false,
        cautions: &[Close, PlusLens],
        note: "",
        kind: Kind::Hand { power: 28.0, diameter: 30.0, to_glasses: 50.0, light: GLASS },
    },
    Listed {
        id: "fresnel-sheet",
        name: "Fresnel sheet, +3 D",
        used: "Held 20 cm before the glasses for far, 200 mm wide, the print in its focus",
        serves: For::Print,
        wears: Wears::Distance,
        shines: false,
        cautions: &[PlusLens],
        note: "Its grooves take contrast: that is not in these numbers.",
        kind: Kind::Hand { power: 3.0, diameter: 200.0, to_glasses: 200.0, light: 0.85 },
    },
    Listed {
        id: "stand",
        name: "Stand magnifier, +20 D, 50 mm",
        used: "On the page, 15 cm before the near glasses; image 6 times as large, 25 cm below the lens",
        serves: For::Print,
        wears: Wears::Add,
        shines: false,
        cautions: &[PlusLens],
        note: "The add is right at one distance from lens to glasses only.",
        kind: Kind::Stand { larger: 6.0, image: 250.0, diameter: 50.0, to_glasses: 150.0 },
    },
    Listed {
        id: "dome",
        name: "Dome, 60 mm",
        used: "On the page, the eye at 40 cm, with the near glasses; radius 30 mm, 35 mm high, acrylic",
        serves: For::Print,
        wears: Wears::Add,
        shines: false,
        cautions: &[PlusLens],
        note: "",
        kind: Kind::Dome { radius: 30.0, height: 35.0, diameter: 58.0, distance: 400.0 },
    },
    Listed {
        id: "bar",
        name: "Bar, 200 mm",
        used: "On a line of print, the eye at 40 cm, with the near glasses; half a cylinder of acrylic, 15 mm high",
        serves: For::Print,
        wears: Wears::Add,
        shines: false,
        cautions: &[PlusLens],
        note: "It makes letters higher, not wider: the numbers are of heights.",
        kind: Kind::Bar { radius: 15.0, length: 200.0, width: 30.0, distance: 400.0 },
    },
    Listed {
        id: "desk-screen",
        name: "Desk screen with camera",
        used: "480 mm wide, 10 times, at 40 cm with the near glasses; print under the camera",
        serves: For::Print,
        wears: Wears::Add,
        shines: true,
        cautions: &[],
        note: "",
        kind: Kind::Screen { size: (480.0, 270.0), larger: 10.0, camera: Some(200.0), distance: 400.0 },
    },
    Listed {
        id: "hand-screen",
        name: "Hand-held screen with camera",
        used: "110 mm wide, 6 times, laid on the page, the eye at 30 cm with the near glasses",
        serves: For::Print,
        wears: Wears::Add,
        shines: true,
        cautions: &[],
        note: "",
        kind: Kind::Screen { size: (110.0, 62.0), larger: 6.0, camera: Some(30.0), distance: 300.0 },
    },
    Listed {
        id: "tablet",
        name: "Tablet",
        used: "200 mm wide, text 3 times the size of the print, at 33 cm with the near glasses",
        serves: For::Print,
        wears: Wears::Add,
        shines: true,
        cautions: &[],
        note: "",
        kind: Kind::Screen { size: (200.0, 150.0), larger: 3.0, camera: None, distance: 330.0 },
    },
    Listed {
        id: "reading-cap",
        name: "Telescope with reading cap, 2.5x and +4 D",
        used: "Before the glasses for far, set for far; the print in the focus of the cap",
        serves: For::Print,
        wears: Wears::Distance,
        shines: false,
        cautions: &[Close, PlusLens, Standing],
        note: "",
        kind: Kind::Telescope { lenses: (20.0, -50.0), objective: 25.0, cap: Some(4.0) },
    },
    Listed {
        id: "distance-camera",
        name: "Distance camera with screen",
        used: "Beside the person: 10° of the scene on a screen 300 mm wide, at 40 cm with the near glasses",
        serves: For::Far,
        wears: Wears::Add,
        shines: true,
        cautions: &[],
        note: "",
        kind: Kind::DistanceCamera { size: (300.0, 170.0), camera_degrees: 10.0, distance: 400.0 },
    },
    Listed {
        id: "head-mounted",
        name: "Head-mounted display",
        used: "Over the glasses for far: 10° of the scene on a display of 40°, 1280 pixels, focused for far",
        serves: For::Far,
        wears: Wears::Distance,
        shines: true,
        cautions: &[Standing],
        note: "Its pixels and the delay of its picture are not in these numbers.",
        kind: Kind::HeadMounted { display_degrees: 40.0, camera_degrees: 10.0, pixels: 1280.0 },
    },
    Listed {
        id: "reversed-telescope",
        name: "Reversed telescope, 0.4x",
        used: "A 2.5x telescope looked through from its other end, before the glasses for far",
        serves: For::Field,
        wears: Wears::Distance,
        shines: false,
        cautions: &[PlusLens, Standing],
        note: "",
        kind: Kind::Telescope { lenses: (-50.0, 20.0), objective: 12.0, cap: None },
    },
    Listed {
        id: "minus-lens",
        name: "Minus lens, -5 D, 80 mm",
        used: "Held 30 cm before the near glasses, looking far",
        serves: For::Field,
        wears: Wears::Add,
        shines: false,
        cautions: &[Standing],
        note: "",
        kind: Kind::MinusLens { power: -5.0, diameter: 80.0, to_glasses: 300.0 },
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use arcminute_core::unit::LogMar;
    use std::collections::BTreeSet;

    #[test]
    fn every_aid_of_the_list_is_possible_and_has_a_key_of_its_own() {
        let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
        let ids: BTreeSet<_> = LIST.iter().map(|listed| listed.id).collect();
        assert_eq!(ids.len(), LIST.len(), "a key stands twice");
        for listed in LIST {
            let distance = (listed.serves != For::Print).then(|| Length::from_m(6.0));
            let used = |working| listed.kind.used(&eye, distance, working).map(|(_, steps)| steps.len());
            assert_eq!(used(false), Ok(0), "{}: it is possible, and its working is not asked for", listed.id);
            assert!(used(true).is_ok_and(|steps| 0 < steps), "{}: it has a working", listed.id);
        }
    }

    #[test]
    fn what_is_worn_follows_the_add_that_is_written() {
        let find = |id| LIST.iter().find(|listed| listed.id == id).expect("it is in the list");
        let add = Some(d(2.5));
        assert_eq!(find("stand").worn(add), Worn::Near { add: d(2.5) });
        assert_eq!(find("stand").worn(None), Worn::Distance);
        assert_eq!(find("stand").worn(Some(d(0.0))), Worn::Distance, "no add");
        assert_eq!(find("hand-12").worn(add), Worn::Distance);
        assert_eq!(find("high-plus-thick").worn(add), Worn::Nothing);
    }
}
