//! A telescope known only by what is marked on it.

use super::{Design, Telescope, lenses_from_length};
use crate::bounds;
use crate::error::Error;
use crate::math;
use crate::unit::{Angle, Length, Magnification};

/// What a label gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Label {
    /// Keplerian or Galilean.
    pub design: Design,
    /// Magnification as marked, without sign.
    pub power: Magnification,
    /// Diameter of the objective.
    pub objective_diameter: Length,
    /// Real field, full angle.
    pub real_field: Option<Angle>,
    /// Nearest distance it focuses for; `None` when fixed for far.
    pub near_focus: Option<Length>,
    /// Lens to lens, air-equivalent, where it is known.
    pub length: Option<Length>,
    /// Share of the light let through.
    pub transmittance: f64,
}

/// Eyepiece focal length taken when a label does not give the length of a Keplerian: it puts the exit pupil of a 4x about
/// 16 mm behind the eyepiece. Assumed.
const KEPLERIAN_EYEPIECE_MM: f64 = 12.5;
/// Eyepiece focal length taken when a label does not give the length of a Galilean. Assumed.
const GALILEAN_EYEPIECE_MM: f64 = 20.0;

impl Telescope {
    /// A telescope from its label. Without the length the lenses are assumed, and the record says so.
    ///
    /// The field stop of a Keplerian is made to give the marked field: `D_s = 2·f_o·tan(r/2)`.
    ///
    /// # Errors
    /// [`crate::Why::OutOfRange`] for a power, diameter, field, length, nearest focus or transmittance that no telescope
    /// has.
    ///
    /// ```
    /// use arcminute_core::optics::{Design, Label, Telescope};
    /// use arcminute_core::unit::{Angle, Length, Magnification};
    /// // An 8x20 of 6.5 degrees: exit pupil 2.5 mm.
    /// let label = Label {
    ///     design: Design::Keplerian,
    ///     power: Magnification::from_times(8.0),
    ///     objective_diameter: Length::from_mm(20.0),
    ///     real_field: Some(Angle::from_degrees(6.5)),
    ///     near_focus: None,
    ///     length: None,
    ///     transmittance: 1.0,
    /// };
    /// assert!((Telescope::from_label(&label)?.afocal().exit_pupil.mm() - 2.5).abs() < 1e-9);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn from_label(label: &Label) -> Result<Self, Error> {
        let size = bounds::POWER.check(label.power.times())?;
        bounds::OBJECTIVE.check(label.objective_diameter.mm())?;
        if let Some(field) = label.real_field {
            bounds::REAL_FIELD.check(field.degrees())?;
        }
        if let Some(length) = label.length {
            bounds::TUBE_LENGTH.check(length.mm())?;
        }
        if let Some(near_focus) = label.near_focus {
            bounds::NEAR_FOCUS.check(near_focus.m())?;
        }
        bounds::TRANSMITTANCE.check(label.transmittance)?;
        let (signed, assumed_length) = match label.design {
            Design::Keplerian => (-size, Length::from_mm(KEPLERIAN_EYEPIECE_MM * (size + 1.0))),
            // Below 1x it is reversed, and the eyepiece the plus lens.
            Design::Galilean => (size, Length::from_mm(GALILEAN_EYEPIECE_MM * math::abs(size - 1.0))),
        };
        let lenses =
            lenses_from_length(label.length.unwrap_or(assumed_length), Magnification::from_times(signed))?;
        let focal_length = lenses.objective.focal_length();
        let field_stop = match label.design {
            Design::Keplerian => label.real_field.map(|real| focal_length * (2.0 * (real / 2.0).tangent())),
            Design::Galilean => None,
        };
        Ok(Self {
            marked_field: label.real_field,
            near_focus: label.near_focus,
            transmittance: label.transmittance,
            lenses_assumed: label.length.is_none(),
            field_stop,
            ..Self::from_lenses(lenses.objective, lenses.eyepiece, label.objective_diameter)?
        })
    }
}
