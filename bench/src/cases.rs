//! Aids, wishes and an eye to time with: invented, and the same at each run.

use arcminute_core::Error;
use arcminute_core::device::{
    Aid, Bar, Detail, DistanceCamera, Dome, Eye, FresnelSheet, HandMagnifier, HeadMountedDisplay,
    HighPlusSpectacles, LensForm, RefractionBy, Screen, ScreenAid, Setting, StandData, StandMagnifier, Worn,
    stand_optics,
};
use arcminute_core::optics::{RealDome, Telescope};
use arcminute_core::unit::{Angle, Length, LogMar, PrintSize, Vergence};

/// Which kinds of aid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kinds {
    /// All of them.
    All,
    /// Those with one lens before the glasses, whose closed forms fit on a page.
    Closed,
}

/// How many kinds there are, and how many of them, the first ones, have short closed forms.
const ALL: usize = 12;
const CLOSED: usize = 8;

/// Numbers that look random and are the same everywhere (the generator `SplitMix64`).
struct Numbers(u64);

impl Numbers {
    /// The next one between two.
    fn between(&mut self, least: f64, most: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        let high = u32::try_from((mixed ^ (mixed >> 31)) >> 32).unwrap_or(u32::MAX);
        least + (most - least) * f64::from(high) / (f64::from(u32::MAX) + 1.0)
    }
    fn mm(&mut self, least: f64, most: f64) -> Length {
        Length::from_mm(self.between(least, most))
    }
    fn dioptres(&mut self, least: f64, most: f64) -> Vergence {
        Vergence::from_dioptres(self.between(least, most))
    }
}

/// A short-sighted eye with a reading addition and a little accommodation.
#[must_use]
pub fn eye() -> Eye {
    Eye {
        sphere: Vergence::from_dioptres(-3.0),
        cylinder: Vergence::from_dioptres(-1.0),
        worn: Worn::Near { add: Vergence::from_dioptres(4.0) },
        spectacle_to_eye: Length::from_mm(14.0),
        accommodation: Vergence::from_dioptres(1.0),
        ..Eye::corrected(LogMar::from_log(0.9), LogMar::from_log(0.2))
    }
}

/// Print of 0.6 to 8 M at reading distance and letters far off, in turn, with reserves of 1 to 3. Each has a distance, so
/// that every aid has an answer.
#[must_use]
pub fn wishes(count: usize) -> Vec<Detail> {
    let mut numbers = Numbers(2);
    (0..count)
        .map(|place| {
            let (height, distance) = if place % 2 == 0 {
                let print = PrintSize::from_m_units(numbers.between(0.6, 8.0));
                (print.x_height(), numbers.mm(250.0, 500.0))
            } else {
                (numbers.mm(10.0, 120.0), numbers.mm(1500.0, 20_000.0))
            };
            Detail { height, distance: Some(distance), reserve: numbers.between(1.0, 3.0) }
        })
        .collect()
}

/// So many aids, the same number of each kind, kind by kind.
///
/// # Errors
/// None, as long as the ranges below are possible ones.
pub fn aids(count: usize, kinds: Kinds) -> Result<Vec<Aid>, Error> {
    let mut numbers = Numbers(1);
    let kinds = if kinds == Kinds::All { ALL } else { CLOSED };
    (0..count).map(|place| aid(place * kinds / count, &mut numbers)).collect()
}

fn aid(kind: usize, numbers: &mut Numbers) -> Result<Aid, Error> {
    let transmittance = numbers.between(0.8, 0.99);
    let clear_diameter = numbers.mm(30.0, 60.0);
    Ok(match kind {
        0 => {
            Aid::NearerAndLarger { larger: numbers.between(1.0, 3.0), thing_to_eye: numbers.mm(60.0, 400.0) }
        }
        1 => Aid::HighPlus {
            spectacles: HighPlusSpectacles {
                form: LensForm::Addition { add: numbers.dioptres(6.0, 40.0) },
                clear_diameter,
                transmittance,
            },
            accommodation_used: numbers.dioptres(0.0, 1.0),
        },
        2 => Aid::Hand {
            magnifier: HandMagnifier { power: numbers.dioptres(6.0, 40.0), clear_diameter, transmittance },
            lens_to_spectacle: numbers.mm(20.0, 300.0),
        },
        3 => Aid::Sheet {
            sheet: FresnelSheet {
                power: numbers.dioptres(2.0, 6.0),
                width: numbers.mm(80.0, 250.0),
                transmittance,
            },
            sheet_to_spectacle: numbers.mm(100.0, 300.0),
        },
        4 => {
            let power = numbers.dioptres(8.0, 40.0);
            let print_to_lens = power.focal_length() * numbers.between(0.6, 0.97);
            Aid::Stand {
                stand: StandMagnifier {
                    optics: stand_optics(StandData::Nominal { power, print_to_lens })?,
                    clear_diameter,
                    transmittance,
                },
                lens_to_spectacle: numbers.mm(20.0, 300.0),
            }
        }
        5 => Aid::Dome {
            dome: Dome { solid: solid(numbers), clear_diameter, transmittance },
            page_to_eye: numbers.mm(200.0, 450.0),
        },
        6 => Aid::Bar {
            bar: Bar {
                section: solid(numbers),
                length: numbers.mm(100.0, 250.0),
                clear_width: clear_diameter,
                transmittance,
            },
            page_to_eye: numbers.mm(200.0, 450.0),
        },
        7 => Aid::Screen {
            screen: ScreenAid {
                screen: screen(numbers),
                enlargement: numbers.between(2.0, 40.0),
                camera_to_print: Some(numbers.mm(100.0, 300.0)),
            },
            screen_to_eye: numbers.mm(200.0, 600.0),
        },
        8 => Aid::DistanceCamera {
            camera: DistanceCamera {
                screen: screen(numbers),
                camera_field: Angle::from_degrees(numbers.between(2.0, 20.0)),
            },
            screen_to_eye: numbers.mm(200.0, 600.0),
        },
        9 => Aid::HeadMounted {
            display: HeadMountedDisplay {
                display_field: Angle::from_degrees(numbers.between(25.0, 70.0)),
                camera_field: Angle::from_degrees(numbers.between(5.0, 20.0)),
                image_distance: None,
                display_pixels: 1280.0,
                camera_pixels: 1920.0,
            },
        },
        10 => far_or_cap(numbers)?,
        _ => Aid::MinusLens {
            power: numbers.dioptres(-10.0, -2.0),
            clear_diameter: numbers.mm(40.0, 80.0),
            lens_to_spectacle: numbers.mm(100.0, 400.0),
        },
    })
}

/// A telescope of either design, for far or with a reading cap.
fn far_or_cap(numbers: &mut Numbers) -> Result<Aid, Error> {
    let eyepiece = numbers.between(30.0, 80.0) * if numbers.between(-1.0, 1.0) < 0.0 { -1.0 } else { 1.0 };
    let telescope = Telescope::from_lenses(
        numbers.dioptres(10.0, 20.0),
        Vergence::from_dioptres(eyepiece),
        numbers.mm(15.0, 30.0),
    )?;
    let cap = numbers.dioptres(2.0, 8.0);
    Ok(Aid::Telescope {
        telescope,
        eyepiece_to_eye: numbers.mm(15.0, 25.0),
        refraction: RefractionBy::Glasses,
        setting: if numbers.between(0.0, 1.0) < 0.5 { Setting::Far } else { Setting::Cap { cap } },
    })
}

fn solid(numbers: &mut Numbers) -> RealDome {
    let radius = numbers.mm(20.0, 45.0);
    RealDome { radius, thickness: radius * numbers.between(0.8, 1.4), index: numbers.between(1.45, 1.6) }
}

fn screen(numbers: &mut Numbers) -> Screen {
    Screen { width: numbers.mm(80.0, 600.0), height: numbers.mm(60.0, 350.0) }
}
