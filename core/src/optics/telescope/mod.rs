//! Two-lens telescopes, Keplerian and Galilean.

mod afocal;
mod correction;
mod focused;
mod label;
mod through;

pub use afocal::{Afocal, Lenses, lenses_from_length};
pub use correction::{AtEyepiece, CorrectionOnObjective, ametropia_at_eyepiece, correction_on_objective};
pub use focused::Focused;
pub use label::Label;
pub use through::{Cap, ThroughAfocal, reading_cap, through_afocal};

use super::{Element, Train};
use crate::error::{Error, Why};
use crate::unit::{Angle, Length, Vergence};

/// Whether both converge or both diverge.
fn same_sign(one: Vergence, other: Vergence) -> bool {
    0.0 < one.dioptres() * other.dioptres()
}

/// The two kinds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Design {
    /// Converging eyepiece; the image is inverted and set upright by prisms. The exit pupil lies behind the eyepiece.
    Keplerian,
    /// Diverging eyepiece; upright of itself. The exit pupil lies inside the tube.
    Galilean,
}

/// A telescope by its lenses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Telescope {
    /// Power of the objective, above zero for a magnifying telescope.
    pub objective: Vergence,
    /// Power of the eyepiece: above zero Keplerian, below zero Galilean.
    pub eyepiece: Vergence,
    /// Clear diameter of the objective.
    pub objective_diameter: Length,
    /// Clear diameter of the eyepiece, where it limits the field.
    pub eyepiece_diameter: Option<Length>,
    /// Diameter of the field stop in the image plane of a Keplerian.
    pub field_stop: Option<Length>,
    /// Real field, full angle, as marked by the maker.
    pub marked_field: Option<Angle>,
    /// Nearest distance it can be focused for; `None` when it is fixed for far.
    pub near_focus: Option<Length>,
    /// Share of the light that the glass lets through.
    pub transmittance: f64,
    /// Whether the lens powers are guesses behind a label that gives only the power.
    pub lenses_assumed: bool,
}

impl Telescope {
    /// A telescope of two thin lenses and an objective of this diameter; nothing else limits it.
    ///
    /// # Errors
    /// [`Why::NoSolution`] when a power is zero or the tube would have no length.
    ///
    /// ```
    /// use arcminute_core::{optics::Telescope, unit::{Length, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// let telescope = Telescope::from_lenses(d(20.0), d(80.0), Length::from_mm(12.0))?;
    /// let afocal = telescope.afocal();
    /// assert!((afocal.magnification.times() + 4.0).abs() < 1e-12); // Keplerian: inverted, so negative
    /// assert!((afocal.length.mm() - 62.5).abs() < 1e-9);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn from_lenses(
        objective: Vergence,
        eyepiece: Vergence,
        objective_diameter: Length,
    ) -> Result<Self, Error> {
        let length = objective.focal_length() + eyepiece.focal_length();
        if !length.is_finite() || length <= Length::ZERO {
            return Err(Error::about(
                "telescope",
                format_args!("{} D and {} D", objective.dioptres(), eyepiece.dioptres()),
                Why::NoSolution { because: "the lenses leave no tube between them" },
            ));
        }
        Ok(Self {
            objective,
            eyepiece,
            objective_diameter,
            eyepiece_diameter: None,
            field_stop: None,
            marked_field: None,
            near_focus: None,
            transmittance: 1.0,
            lenses_assumed: false,
        })
    }

    /// Which kind it is; a reversed Galilean (minus objective, plus eyepiece) is one still.
    ///
    /// ```
    /// use arcminute_core::{optics::{Design, Telescope}, unit::{Length, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// let design = |objective, eyepiece| {
    ///     Telescope::from_lenses(d(objective), d(eyepiece), Length::from_mm(20.0)).map(|telescope| telescope.design())
    /// };
    /// assert_eq!((design(20.0, 80.0)?, design(20.0, -50.0)?), (Design::Keplerian, Design::Galilean));
    /// assert_eq!(design(-50.0, 20.0)?, Design::Galilean);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn design(&self) -> Design {
        if same_sign(self.objective, self.eyepiece) { Design::Keplerian } else { Design::Galilean }
    }

    /// The train from objective to eyepiece with the lenses this far apart.
    ///
    /// The field stop sits in the image, `image_to_eyepiece` before the eyepiece.
    pub(crate) fn train(&self, length: Length, image_to_eyepiece: Length) -> Train {
        let objective =
            Element::Lens { power: self.objective, clear_diameter: Some(self.objective_diameter) };
        let eyepiece = Element::Lens { power: self.eyepiece, clear_diameter: self.eyepiece_diameter };
        match self.field_stop {
            Some(stop) => Train::new([
                objective,
                Element::Gap(length - image_to_eyepiece),
                Element::Stop(stop),
                Element::Gap(image_to_eyepiece),
                eyepiece,
            ]),
            None => Train::new([objective, Element::Gap(length), eyepiece]),
        }
    }
}
