//! How an aid of a list is used, in a few words, and the working of its own family.

use super::aid::ListedAid;
use super::column::Column;
use super::family::Family;
use super::purpose::Wears;
use crate::model::format::{close, times, trimmed};
use arcminute_core::Error;
use arcminute_core::device::{
    Aid, Eye, PrintPlace, aim, hold, hold_minus, lay_bar, lay_dome, look_from, place_stand, watch_far,
    watch_screen, wear, wear_display,
};
use arcminute_core::explain::{Explain, Step};
use arcminute_core::unit::Length;

impl ListedAid {
    /// How it is used, with the distances that the list gives or that are assumed: `Held 15 cm before the glasses for
    /// far, the print in its focus`.
    #[must_use]
    pub fn how(&self) -> String {
        use Column as C;
        let number = |column| self.number(column).unwrap_or_default();
        let plain = |column| trimmed(number(column), 2);
        let far_off = |column| close(Length::from_mm(number(column)));
        let signed = |column| format!("{:+} D", number(column));
        let (before, with) = match self.traits().glasses {
            Wears::Nothing => ("the bare eye", "without glasses"),
            Wears::Distance => ("the glasses for far", "with the glasses for far"),
            Wears::Add => ("the near glasses", "with the near glasses"),
        };
        let held = || format!("Held {} before {before}", far_off(C::LensToGlasses));
        match self.family {
            Family::Nearer => format!("The print itself, {} from the eye, {with}", far_off(C::EyeToPage)),
            Family::Larger => {
                let larger = plain(C::Enlargement);
                format!("A copy {larger} times as large, {} from the eye, {with}", far_off(C::EyeToPage))
            }
            Family::HighPlus => format!("Worn: the correction for far with {} added", signed(C::Addition)),
            Family::ThickHighPlus => format!(
                "Worn in place of glasses: front {}, back {}, {} mm thick, index {}",
                signed(C::FrontSurface),
                signed(C::BackSurface),
                plain(C::Thickness),
                plain(C::Index)
            ),
            Family::Hand | Family::Sheet => format!("{}, the print in its focus", held()),
            Family::Stand => format!("On the page, the lens {} before {before}", far_off(C::LensToGlasses)),
            Family::Dome | Family::Bar => {
                format!("On the page, the eye at {}, {with}", far_off(C::EyeToPage))
            }
            Family::DeskScreen | Family::HandScreen | Family::Tablet => format!(
                "{} mm wide, {} times, the eye at {}, {with}",
                plain(C::Width),
                plain(C::Enlargement),
                far_off(C::EyeToScreen)
            ),
            Family::DistanceCamera => format!(
                "{}° of the scene on a screen {} mm wide, the eye at {}, {with}",
                plain(C::CameraField),
                plain(C::Width),
                far_off(C::EyeToScreen)
            ),
            Family::HeadMounted => {
                let focus = match self.number(C::DisplayImage) {
                    Some(metres) => format!("its image at {}", close(Length::from_m(metres))),
                    None => "focused for far".into(),
                };
                let (seen, fills) = (plain(C::CameraField), plain(C::DisplayField));
                format!("Before {before}: {seen}° of the scene on a display of {fills}°, {focus}")
            }
            Family::HandTelescope => format!("Held before {before}, {}", self.set()),
            Family::MountedTelescope => format!("Set in a carrier lens, {}", self.set()),
            Family::CappedTelescope => {
                format!("Before {before}, set for far; the print in the focus of the cap")
            }
            Family::ReversedTelescope => {
                let forward = times(1.0 / number(C::Magnification));
                format!("A {forward} telescope looked through from its other end, before {before}")
            }
            Family::MinusLens => format!("{}, looking far", held()),
        }
    }

    fn set(&self) -> &'static str {
        if self.number(Column::NearestFocus).is_some() { "focused for the distance" } else { "fixed for far" }
    }
}

/// The closed forms of an aid's own family, as this eye uses it; `distance` is that of a far thing.
///
/// # Errors
/// Those of the family, as [`Aid::arrange`] has them.
pub fn family_steps(aid: &Aid, eye: &Eye, distance: Option<Length>) -> Result<Vec<Step>, Error> {
    let far = distance.unwrap_or_default();
    Ok(match *aid {
        Aid::NearerAndLarger { larger, thing_to_eye } => look_from(eye, thing_to_eye, larger)?.steps(),
        Aid::HighPlus { spectacles, accommodation_used } => {
            wear(spectacles, eye, accommodation_used)?.steps()
        }
        Aid::Hand { magnifier, lens_to_spectacle } => {
            hold(magnifier, eye, lens_to_spectacle, PrintPlace::AtLensFocus)?.steps()
        }
        Aid::Sheet { sheet, sheet_to_spectacle } => {
            hold(sheet.as_hand_magnifier(), eye, sheet_to_spectacle, PrintPlace::AtLensFocus)?.steps()
        }
        Aid::Stand { stand, lens_to_spectacle } => place_stand(stand, eye, lens_to_spectacle)?.steps(),
        Aid::Dome { dome, page_to_eye } => lay_dome(dome, eye, page_to_eye)?.steps(),
        Aid::Bar { bar, page_to_eye } => lay_bar(bar, eye, page_to_eye)?.steps(),
        Aid::Screen { screen, screen_to_eye } => watch_screen(screen, eye, screen_to_eye)?.steps(),
        Aid::DistanceCamera { camera, screen_to_eye } => watch_far(camera, eye, screen_to_eye, far)?.steps(),
        Aid::HeadMounted { display } => wear_display(display, eye, far)?.steps(),
        Aid::Telescope { telescope, eyepiece_to_eye, refraction, setting } => {
            aim(&telescope, eye, eyepiece_to_eye, refraction, setting)?.steps()
        }
        Aid::MinusLens { power, clear_diameter, lens_to_spectacle } => {
            hold_minus(power, clear_diameter, eye, lens_to_spectacle)?.steps()
        }
    })
}

#[cfg(test)]
mod tests {
    use crate::model::list::demo_aid;

    #[test]
    fn how_each_family_is_used_is_said() {
        for (id, wanted) in [
            ("nearer", "The print itself, 20 cm from the eye, with the near glasses"),
            ("larger", "A copy 2 times as large, 40 cm from the eye, with the near glasses"),
            ("high-plus", "Worn: the correction for far with +10 D added"),
            ("high-plus-thick", "Worn in place of glasses: front +12 D, back +9 D, 9 mm thick, index 1.5"),
            ("hand-12", "Held 15 cm before the glasses for far, the print in its focus"),
            ("fresnel-sheet", "Held 20 cm before the glasses for far, the print in its focus"),
            ("stand", "On the page, the lens 15 cm before the near glasses"),
            ("dome", "On the page, the eye at 40 cm, with the near glasses"),
            ("bar", "On the page, the eye at 40 cm, with the near glasses"),
            ("desk-screen", "480 mm wide, 10 times, the eye at 40 cm, with the near glasses"),
            ("tablet", "200 mm wide, 3 times, the eye at 33 cm, with the near glasses"),
            (
                "distance-camera",
                "10° of the scene on a screen 300 mm wide, the eye at 40 cm, with the near glasses",
            ),
            (
                "head-mounted",
                "Before the glasses for far: 10° of the scene on a display of 40°, focused for far",
            ),
            ("hand-telescope-40", "Held before the glasses for far, focused for the distance"),
            ("g22-20", "Set in a carrier lens, fixed for far"),
            ("k40-13", "Set in a carrier lens, focused for the distance"),
            ("reading-cap", "Before the glasses for far, set for far; the print in the focus of the cap"),
            (
                "reversed-telescope",
                "A 2.5x telescope looked through from its other end, before the glasses for far",
            ),
            ("minus-lens", "Held 30 cm before the near glasses, looking far"),
        ] {
            assert_eq!(demo_aid(id).map(|aid| aid.how()).as_deref(), Some(wanted), "{id}");
        }
    }
}
