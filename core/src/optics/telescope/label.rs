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

#[cfg(test)]
mod tests {
    use super::*;

    fn label(design: Design, power: f64) -> Label {
        Label {
            design,
            power: Magnification::from_times(power),
            objective_diameter: Length::from_mm(20.0),
            real_field: Some(Angle::from_degrees(12.5)),
            near_focus: Some(Length::from_m(0.4)),
            length: None,
            transmittance: 0.9,
        }
    }

    /// Focal lengths by hand: an eyepiece of 12.5 mm and an objective `M` times as long, or one of 20 mm within it.
    #[test]
    fn lenses_behind_a_label_are_assumed() -> Result<(), Error> {
        use Design::{Galilean, Keplerian};
        for (design, power, signed, [objective, eyepiece, length]) in [
            (Keplerian, 4.0, -4.0, [50.0, 12.5, 62.5]),
            (Keplerian, 8.0, -8.0, [100.0, 12.5, 112.5]),
            (Galilean, 3.0, 3.0, [60.0, -20.0, 40.0]),
            (Galilean, 2.2, 2.2, [44.0, -20.0, 24.0]),
            // Reversed: the eyepiece is the plus lens.
            (Galilean, 0.5, 0.5, [-10.0, 20.0, 10.0]),
        ] {
            let telescope = Telescope::from_label(&label(design, power))?;
            let afocal = telescope.afocal();
            assert_eq!(telescope.design(), design, "{power}");
            for (what, got, wanted) in [
                ("power", afocal.magnification.times(), signed),
                ("objective", telescope.objective.focal_length().mm(), objective),
                ("eyepiece", telescope.eyepiece.focal_length().mm(), eyepiece),
                ("length", afocal.length.mm(), length),
            ] {
                assert!((got - wanted).abs() < 1e-9, "{design:?} {power}: {what} {got}");
            }
            assert!(telescope.lenses_assumed, "{design:?} {power}: no length is marked");
        }
        // 12.5·(1 + 1/4) mm.
        let four = Telescope::from_label(&label(Keplerian, 4.0))?.afocal();
        assert!((four.exit_pupil_behind_eyepiece.mm() - 15.625).abs() < 1e-9, "about 16 mm");
        Ok(())
    }

    #[test]
    fn what_is_marked_is_kept() -> Result<(), Error> {
        let marked = Label { length: Some(Length::from_mm(50.0)), ..label(Design::Keplerian, 4.0) };
        let telescope = Telescope::from_label(&marked)?;
        assert!(!telescope.lenses_assumed, "the length is marked");
        assert!((telescope.afocal().length.mm() - 50.0).abs() < 1e-9, "as marked");
        assert_eq!(
            (telescope.marked_field, telescope.near_focus, telescope.objective_diameter),
            (marked.real_field, marked.near_focus, marked.objective_diameter)
        );
        assert!((telescope.transmittance - 0.9).abs() < 1e-15, "as marked");
        // 2·40·tan 6.25°, for an objective of 40 mm.
        let stop = telescope.field_stop.expect("a field is marked");
        assert!((stop.mm() - 8.761).abs() < 5e-4, "{stop:?}");
        let fixed = Label { real_field: None, near_focus: None, ..marked };
        let telescope = Telescope::from_label(&fixed)?;
        assert_eq!((telescope.field_stop, telescope.marked_field, telescope.near_focus), (None, None, None));
        assert_eq!(Telescope::from_label(&label(Design::Galilean, 3.0))?.field_stop, None, "it has no image");
        Ok(())
    }
}
