//! What of a list is worn in a frame: the telescopes that Bench focuses, and all that Fit places.

use super::draft::{Draft, FellowChoice};
use super::list::{self, ListedAid};
use arcminute_core::Error;
use arcminute_core::optics::{Design, Label, Telescope};
use arcminute_core::unit::{Angle, Length, Magnification, Vergence};
use std::sync::OnceLock;

/// One telescope as a list gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Device {
    /// Stable key.
    pub id: String,
    /// What the list calls it.
    pub name: String,
    /// Keplerian or Galilean.
    pub design: Design,
    /// Marked power.
    pub power_times: f64,
    /// Objective diameter.
    pub objective_mm: f64,
    /// Marked real field, full angle.
    pub real_field_deg: Option<f64>,
    /// Nearest distance it focuses for, from the eye; absent when it is fixed for far.
    pub near_focus_m: Option<f64>,
    /// Lens to lens in air, where known.
    pub length_mm: Option<f64>,
    /// Diameter of the barrel where it passes the carrier lens.
    pub barrel_mm: f64,
    /// Weight.
    pub weight_g: f64,
    /// Light let through, per cent.
    pub transmittance_percent: f64,
    /// Power of the cap for near that belongs to it.
    pub cap_d: Option<f64>,
}

/// Strong spectacles for near as a list gives them.
#[derive(Clone, Debug, PartialEq)]
pub struct Spectacles {
    /// Stable key.
    pub id: String,
    /// What the list calls them.
    pub name: String,
    /// Power for near: the addition, or that of a thick lens which stands for the whole.
    pub power: Vergence,
    /// Whether the correction of the eye is to be added to it.
    pub adds_refraction: bool,
    /// Whether both eyes can be used.
    pub both_eyes: bool,
    /// Weight, where the list gives it.
    pub weight_g: Option<f64>,
}

impl Spectacles {
    /// Whether a lens is made for each eye: both can be used, and the other one is not covered.
    #[must_use]
    pub fn is_for_both(&self, draft: &Draft) -> bool {
        self.both_eyes && draft.order.fellow != FellowChoice::Covered
    }
}

/// What of a list is worn in a frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// Telescopes for far, to be set in a carrier lens.
    pub telescopes: Vec<Device>,
    /// Telescopes with a cap for near, of which the barrel is known.
    pub near_telescopes: Vec<Device>,
    /// Strong spectacles for near.
    pub spectacles: Vec<Spectacles>,
}

impl Device {
    /// The telescope as core knows it.
    ///
    /// # Errors
    /// What [`Telescope::from_label`] refuses.
    pub fn telescope(&self) -> Result<Telescope, Error> {
        Telescope::from_label(&Label {
            design: self.design,
            power: Magnification::from_times(self.power_times),
            objective_diameter: Length::from_mm(self.objective_mm),
            real_field: self.real_field_deg.map(Angle::from_degrees),
            near_focus: self.near_focus_m.map(Length::from_m),
            length: self.length_mm.map(Length::from_mm),
            transmittance: self.transmittance_percent / 100.0,
        })
    }

    /// Power and objective as the trade writes them: `4x12`.
    #[must_use]
    pub fn marking(&self) -> String {
        format!("{}x{}", self.power_times, self.objective_mm)
    }
}

/// What of a list is worn in a frame.
#[must_use]
pub fn stock(list: &[ListedAid]) -> Stock {
    let mut stock = Stock::default();
    for aid in list {
        stock.telescopes.extend(aid.device());
        stock.near_telescopes.extend(aid.near_device());
        stock.spectacles.extend(aid.spectacles());
    }
    stock
}

/// That of the invented demonstration list.
#[must_use]
pub fn demo_stock() -> &'static Stock {
    static STOCK: OnceLock<Stock> = OnceLock::new();
    STOCK.get_or_init(|| stock(&list::demo().list))
}

/// The telescopes of the invented demonstration list that are to be set in a carrier lens.
#[must_use]
pub fn demo() -> &'static [Device] {
    &demo_stock().telescopes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_demonstration_list_has_each_kind_of_what_is_worn() {
        let stock = demo_stock();
        assert!(1 < stock.near_telescopes.len() && 3 < stock.spectacles.len());
        for device in &stock.near_telescopes {
            assert!(device.telescope().is_ok() && device.cap_d.is_some_and(|cap| 1.0 < cap), "{}", device.id);
        }
        for one in &stock.spectacles {
            assert!(4.0 < one.power.dioptres(), "{}", one.id);
        }
    }

    #[test]
    fn every_telescope_of_the_demonstration_list_is_possible() {
        assert!(10 <= demo().len(), "a list worth choosing from");
        for device in demo() {
            let telescope = device.telescope().unwrap_or_else(|error| panic!("{}: {error}", device.id));
            let magnification = telescope.afocal().magnification.size();
            assert!((magnification - device.power_times).abs() < 1e-9, "{}: {magnification}", device.id);
        }
    }
}
