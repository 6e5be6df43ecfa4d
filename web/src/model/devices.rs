//! The list of telescopes that Bench offers. The demonstration list is invented; no real device is in it.

use super::fill::{self, fields};
use arcminute_core::Error;
use arcminute_core::optics::{Design, Label, Telescope};
use arcminute_core::unit::{Angle, Length, Magnification};
use serde::{Deserialize, Deserializer, Serialize};
use std::sync::OnceLock;

const DEMO: &str = include_str!("../../../demo-scenarios/telescopes.json");

/// Kind of telescope in a list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum DesignName {
    /// Converging eyepiece, erecting prisms.
    #[default]
    Keplerian,
    /// Diverging eyepiece.
    Galilean,
}

impl<'de> Deserialize<'de> for DesignName {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        fill::choice(deserializer, &[Self::Keplerian, Self::Galilean], &["Keplerian", "Galilean"])
    }
}

/// One telescope as a list gives it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Device {
    /// Stable key.
    pub id: String,
    /// What the list calls it.
    pub name: String,
    /// Keplerian or Galilean.
    pub design: DesignName,
    /// Marked power.
    pub power_times: f64,
    /// Objective diameter.
    pub objective_mm: f64,
    /// Marked real field, full angle.
    #[serde(default)]
    pub real_field_deg: Option<f64>,
    /// Nearest distance it focuses for, from the eye; absent when it is fixed for far.
    #[serde(default)]
    pub near_focus_m: Option<f64>,
    /// Lens to lens in air, where known.
    #[serde(default)]
    pub length_mm: Option<f64>,
    /// Diameter of the barrel where it passes the carrier lens.
    pub barrel_mm: f64,
    /// Weight.
    pub weight_g: f64,
    /// Light let through, per cent.
    pub transmittance_percent: f64,
}
fields!(Device {
    id, name, design, power_times, objective_mm, real_field_deg, near_focus_m, length_mm, barrel_mm, weight_g,
    transmittance_percent,
} required { id, name, design, power_times, objective_mm, barrel_mm, weight_g, transmittance_percent });

/// A list of telescopes.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct DeviceList {
    /// Always `arcminute-telescopes`.
    #[cfg_attr(feature = "schema", schemars(extend("const" = "arcminute-telescopes")))]
    pub format: String,
    /// Version of the format: 1.
    #[cfg_attr(feature = "schema", schemars(extend("const" = 1)))]
    pub version: u32,
    /// What the list is.
    pub about: String,
    /// The telescopes.
    pub telescopes: Vec<Device>,
}
fields!(DeviceList { format, version, about, telescopes } required { format, version, about, telescopes });

impl Device {
    /// The telescope as core knows it.
    ///
    /// # Errors
    /// What [`Telescope::from_label`] refuses.
    pub fn telescope(&self) -> Result<Telescope, Error> {
        Telescope::from_label(&Label {
            design: match self.design {
                DesignName::Keplerian => Design::Keplerian,
                DesignName::Galilean => Design::Galilean,
            },
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

/// The invented demonstration list.
///
/// # Panics
/// If the list in the source tree is damaged; a test reads it.
#[must_use]
pub fn demo() -> &'static DeviceList {
    static LIST: OnceLock<DeviceList> = OnceLock::new();
    LIST.get_or_init(|| serde_json::from_str(DEMO).expect("the demonstration list is tested"))
}

/// A telescope of the demonstration list by its id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Device> {
    demo().telescopes.iter().find(|device| device.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_telescope_of_the_demonstration_list_is_possible() {
        let list = demo();
        assert_eq!((list.format.as_str(), list.version), ("arcminute-telescopes", 1));
        assert!(10 <= list.telescopes.len(), "a list worth choosing from");
        for device in &list.telescopes {
            let telescope = device.telescope().unwrap_or_else(|error| panic!("{}: {error}", device.id));
            let magnification = telescope.afocal().magnification.size();
            assert!((magnification - device.power_times).abs() < 1e-9, "{}: {magnification}", device.id);
        }
    }
}
