//! The aids other than telescopes that Bench shows: an invented list, one or two of each family, with no real device in
//! it.

use super::words::Where;
use arcminute_core::Error;
use arcminute_core::device::{
    Aid, Bar, DistanceCamera, Dome, Eye, FresnelSheet, HandMagnifier, HeadMountedDisplay, HighPlusSpectacles,
    LensForm, RefractionBy, Screen, ScreenAid, Setting, StandData, StandMagnifier, Worn, stand_optics,
};
use arcminute_core::optics::{RealDome, Telescope};
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
    /// The aid as this eye uses it.
    pub aid: fn(&Eye) -> Result<Aid, Error>,
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

/// Light let through by one plain lens.
const GLASS: f64 = 0.92;

fn hand(power: f64, diameter: f64, lens_to_spectacle: f64) -> Aid {
    let magnifier = HandMagnifier { power: d(power), clear_diameter: mm(diameter), transmittance: GLASS };
    Aid::Hand { magnifier, lens_to_spectacle: mm(lens_to_spectacle) }
}

fn worn(form: LensForm) -> Aid {
    let spectacles = HighPlusSpectacles { form, clear_diameter: mm(40.0), transmittance: GLASS };
    Aid::HighPlus { spectacles, accommodation_used: Vergence::ZERO }
}

fn screen(size: (f64, f64), enlargement: f64, camera_to_print: Option<f64>, screen_to_eye: f64) -> Aid {
    let screen = Screen { width: mm(size.0), height: mm(size.1) };
    let screen = ScreenAid { screen, enlargement, camera_to_print: camera_to_print.map(mm) };
    Aid::Screen { screen, screen_to_eye: mm(screen_to_eye) }
}

/// Room behind the eyepiece for the glasses. Assumed.
const BEHIND_EYEPIECE_MM: f64 = 5.0;

fn telescope(
    objective: f64,
    eyepiece: f64,
    diameter: f64,
    eye: &Eye,
    setting: Setting,
) -> Result<Aid, Error> {
    Ok(Aid::Telescope {
        telescope: Telescope::from_lenses(d(objective), d(eyepiece), mm(diameter))?,
        eyepiece_to_eye: eye.spectacle_to_eye + mm(BEHIND_EYEPIECE_MM),
        refraction: RefractionBy::Glasses,
        setting,
    })
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
        aid: |_| Ok(Aid::NearerAndLarger { larger: 1.0, thing_to_eye: mm(200.0) }),
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
        aid: |_| Ok(Aid::NearerAndLarger { larger: 2.0, thing_to_eye: mm(400.0) }),
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
        aid: |_| Ok(worn(LensForm::Addition { add: d(10.0) })),
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
        aid: |_| {
            let (front, back, thickness) = (d(12.0), d(9.0), mm(9.0));
            Ok(worn(LensForm::Thick { front, back, thickness, index: 1.5 }))
        },
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
        aid: |_| Ok(hand(12.0, 60.0, 150.0)),
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
        aid: |_| Ok(hand(28.0, 30.0, 50.0)),
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
        aid: |_| {
            let sheet = FresnelSheet { power: d(3.0), width: mm(200.0), transmittance: 0.85 };
            Ok(Aid::Sheet { sheet, sheet_to_spectacle: mm(200.0) })
        },
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
        aid: |_| {
            let data = StandData::ImagePlace { enlargement: 6.0, image_to_lens: mm(250.0) };
            let stand = StandMagnifier {
                optics: stand_optics(data)?,
                clear_diameter: mm(50.0),
                transmittance: GLASS,
            };
            Ok(Aid::Stand { stand, lens_to_spectacle: mm(150.0) })
        },
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
        aid: |_| {
            let solid = RealDome { radius: mm(30.0), thickness: mm(35.0), index: 1.49 };
            let dome = Dome { solid, clear_diameter: mm(58.0), transmittance: GLASS };
            Ok(Aid::Dome { dome, page_to_eye: mm(400.0) })
        },
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
        aid: |_| {
            let section = RealDome { radius: mm(15.0), thickness: mm(15.0), index: 1.49 };
            let bar = Bar { section, length: mm(200.0), clear_width: mm(30.0), transmittance: GLASS };
            Ok(Aid::Bar { bar, page_to_eye: mm(400.0) })
        },
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
        aid: |_| Ok(screen((480.0, 270.0), 10.0, Some(200.0), 400.0)),
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
        aid: |_| Ok(screen((110.0, 62.0), 6.0, Some(30.0), 300.0)),
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
        aid: |_| Ok(screen((200.0, 150.0), 3.0, None, 330.0)),
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
        aid: |eye| telescope(20.0, -50.0, 25.0, eye, Setting::Cap { cap: d(4.0) }),
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
        aid: |_| {
            let screen = Screen { width: mm(300.0), height: mm(170.0) };
            let camera = DistanceCamera { screen, camera_field: Angle::from_degrees(10.0) };
            Ok(Aid::DistanceCamera { camera, screen_to_eye: mm(400.0) })
        },
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
        aid: |_| {
            let display = HeadMountedDisplay {
                display_field: Angle::from_degrees(40.0),
                camera_field: Angle::from_degrees(10.0),
                image_distance: None,
                display_pixels: 1280.0,
                camera_pixels: 1280.0,
            };
            Ok(Aid::HeadMounted { display })
        },
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
        aid: |eye| telescope(-50.0, 20.0, 12.0, eye, Setting::Far),
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
        aid: |_| {
            Ok(Aid::MinusLens { power: d(-5.0), clear_diameter: mm(80.0), lens_to_spectacle: mm(300.0) })
        },
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
            let aid = (listed.aid)(&eye).unwrap_or_else(|error| panic!("{}: {error}", listed.id));
            let distance = (listed.serves != For::Print).then(|| Length::from_m(6.0));
            assert!(aid.arrange(&eye, distance).is_ok(), "{}", listed.id);
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
