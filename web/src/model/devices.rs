//! The telescopes of a list that are set in a carrier lens: what Bench focuses, and what Fit places.

use super::list::{self, ListedAid};
use arcminute_core::Error;
use arcminute_core::optics::{Design, Label, Telescope};
use arcminute_core::unit::{Angle, Length, Magnification};
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

/// The telescopes of a list that are to be set in a carrier lens.
#[must_use]
pub fn of(list: &[ListedAid]) -> Vec<Device> {
    list.iter().filter_map(ListedAid::device).collect()
}

/// Those of the invented demonstration list.
#[must_use]
pub fn demo() -> &'static [Device] {
    static DEVICES: OnceLock<Vec<Device>> = OnceLock::new();
    DEVICES.get_or_init(|| of(&list::demo().list))
}

#[cfg(test)]
mod tests {
    use super::*;

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
