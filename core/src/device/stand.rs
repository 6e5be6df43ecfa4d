//! Stand magnifiers: a lens that keeps its distance from the page.
//!
//! ```text
//!   image ....... page --u--> lens --z--> glasses --s--> eye's entrance pupil
//!     |<-------- v -------->|
//! ```
//!
//! * The lens of a fixed stand stands nearer to the page than its focus: the image is below the page, at a finite
//!   distance, and the light leaves the lens diverging. So an addition or accommodation is needed, and the ordinary
//!   reading addition is right at one eye distance only.
//! * Heights and distances are to the principal plane of the lens and positive; the emergent vergence is negative where
//!   the light diverges.
//! * What is measured (enlargement and place of the image) is worth more than what is nominal (power and height): near
//!   the focus a millimetre of height changes both a great deal ([`misread_height`]).
//! * Sources: paraxial; Bailey 2004 ([`source::BAILEY_2004`]) for the equivalent power from enlargement and demand;
//!   Brown & Siemsen 2008 ([`source::BROWN_SIEMSEN_2008`]) for what labels leave out.

mod by_eye_distance;
mod design;
mod in_use;

pub use by_eye_distance::{BENCH_SHARE_AT_30_CM, StandAtEye, USUAL_EYE_DISTANCES_CM};
pub use design::{HeightMisread, StandDesign, StandWithAdd, misread_height, stand_for_add};
pub use in_use::{StandInUse, StandMagnifier, VariableStand, focus_stand, height_for_image, place_stand};

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::optics::{Element, Train};
#[cfg(doc)]
use crate::source;
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// An image this many stand heights away counts as infinitely far: there its distance is no longer a number that
/// rounding leaves alone.
const AS_GOOD_AS_INFINITE: f64 = 1e6;

/// What is known of a stand magnifier.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StandData {
    /// As it is said to be built.
    Nominal {
        /// Equivalent power, above zero.
        power: Vergence,
        /// Stand height: page to the principal plane of the lens.
        print_to_lens: Length,
    },
    /// Measured: size of the image against the print, and how far below the lens it lies.
    ImagePlace {
        /// Height of the image over height of the print, above 1; a pure ratio.
        enlargement: f64,
        /// Image to lens.
        image_to_lens: Length,
    },
    /// Measured: size of the image, and the vergence that leaves the lens (by neutralising, or with a telescope).
    EmergentVergence {
        /// Height of the image over height of the print, above 1; a pure ratio.
        enlargement: f64,
        /// Vergence at the lens, below zero: the light diverges.
        emergent_vergence: Vergence,
    },
    /// Measured size of the image, and the power.
    PowerAndEnlargement {
        /// Equivalent power, above zero.
        power: Vergence,
        /// Height of the image over height of the print, above 1; a pure ratio.
        enlargement: f64,
    },
}

/// The image that a stand magnifier shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandImage {
    /// Image to lens, on the side of the page.
    pub to_lens: Length,
    /// Its height over that of the print; a pure ratio.
    pub enlargement: f64,
}

/// A stand magnifier as optics: power, height and image.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandOptics {
    /// What it follows from.
    pub data: StandData,
    /// Equivalent power.
    pub power: Vergence,
    /// Page to the principal plane of the lens.
    pub print_to_lens: Length,
    /// Vergence that leaves the lens: negative where it diverges.
    pub emergent_vergence: Vergence,
    /// The image on the side of the page; `None` where it is infinitely far, or the light converges.
    pub image: Option<StandImage>,
}

/// Power, height and image of a fixed stand magnifier, from what is known of it.
///
/// `L' = F − 1/u`, `v = −1/L'`, `ER = v/u = 1/(1 − uF) = 1 + vF`; from measured values `F = (ER − 1)/v`, `u = v/ER`.
/// Domain: paraxial, page in or inside the focus. Source: paraxial; the ways of measuring are common practice, no source.
///
/// # Errors
/// [`Why::OutOfRange`] for what no magnifier has; [`Why::NoSolution`] when the page would lie beyond the focus, or the
/// image is no larger than the print.
///
/// ```
/// use arcminute_core::device::{StandData, stand_optics};
/// use arcminute_core::unit::Length;
/// // Enlargement 3, image 100 mm below the lens: +20 D, 33.33 mm above the page (computed).
/// let data = StandData::ImagePlace { enlargement: 3.0, image_to_lens: Length::from_mm(100.0) };
/// let stand = stand_optics(data)?;
/// assert!((stand.power.dioptres() - 20.0).abs() < 1e-9);
/// assert!((stand.print_to_lens.mm() - 33.33).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn stand_optics(data: StandData) -> Result<StandOptics, Error> {
    let (power, print_to_lens) = match data {
        StandData::Nominal { power, print_to_lens } => (power, print_to_lens),
        StandData::ImagePlace { enlargement, image_to_lens } => {
            bounds::IMAGE_TO_LENS.check(image_to_lens.mm())?;
            from_image(magnified(enlargement)?, image_to_lens)
        }
        StandData::EmergentVergence { enlargement, emergent_vergence } => {
            bounds::EMERGENT_VERGENCE.check(emergent_vergence.dioptres())?;
            from_image(magnified(enlargement)?, -emergent_vergence.focal_length())
        }
        StandData::PowerAndEnlargement { power, enlargement } => {
            bounds::MAGNIFIER_POWER.check(power.dioptres())?;
            (power, power.focal_length() * (1.0 - 1.0 / magnified(enlargement)?))
        }
    };
    bounds::MAGNIFIER_POWER.check(power.dioptres())?;
    bounds::STAND_HEIGHT.check(print_to_lens.mm())?;
    let optics = StandOptics::at_height(data, power, print_to_lens);
    if optics.image.is_none() && optics.emergent_vergence != Vergence::ZERO {
        let why = Why::NoSolution { because: "the page would lie beyond the focus of the lens" };
        return Err(Error::about("stand height", format_args!("{} mm", print_to_lens.mm()), why));
    }
    Ok(optics)
}

/// `F = (ER − 1)/v` and `u = v/ER`.
fn from_image(enlargement: f64, image_to_lens: Length) -> (Vergence, Length) {
    (Vergence::of_focal_length(image_to_lens) * (enlargement - 1.0), image_to_lens / enlargement)
}

fn magnified(enlargement: f64) -> Result<f64, Error> {
    bounds::ENLARGEMENT.check(enlargement)?;
    if enlargement <= 1.0 {
        let why = Why::NoSolution { because: "a stand magnifier shows the print larger than it is" };
        return Err(Error::about("enlargement", format_args!("{enlargement} times"), why));
    }
    Ok(enlargement)
}

/// A thin lens of this power whose rim does not count.
fn bare_lens(power: Vergence) -> Element {
    Element::Lens { power, clear_diameter: None }
}

impl StandOptics {
    /// The lens at any height, the image where there is one.
    fn at_height(data: StandData, power: Vergence, print_to_lens: Length) -> Self {
        let path = Train::new([Element::Gap(print_to_lens), bare_lens(power)]).matrix();
        // Of the path from the page: enlargement 1/D, vergence −D/B behind the lens.
        let parallel = math::abs(path.d) * AS_GOOD_AS_INFINITE < 1.0;
        let emergent_vergence =
            if parallel { Vergence::ZERO } else { Vergence::from_dioptres(-path.d / path.b.m()) };
        let image = (!parallel && 0.0 < path.d)
            .then(|| StandImage { to_lens: path.b / path.d, enlargement: 1.0 / path.d });
        Self { data, power, print_to_lens, emergent_vergence, image }
    }
}

#[cfg(feature = "alloc")]
impl Explain for StandOptics {
    fn steps(&self) -> Vec<Step> {
        let f = Named::new("F", self.power.dioptres(), Unit::Dioptre);
        let u = Named::new("u", self.print_to_lens.mm(), Unit::Millimetre);
        let leaving = Named::new("L'", self.emergent_vergence.dioptres(), Unit::Dioptre);
        let Some(image) = self.image else { return Vec::new() };
        let v = Named::new("v", image.to_lens.mm(), Unit::Millimetre);
        let er = Named::new("ER", image.enlargement, Unit::Times);
        let vergence = Step::formula(&formula::STAND_EMERGENT, leaving, [f, u]);
        let power = Step::formula(&formula::STAND_POWER, f, [er, v]);
        let height = Step::formula(&formula::STAND_HEIGHT, u, [v, er]);
        match self.data {
            StandData::Nominal { .. } => alloc::vec![
                vergence,
                Step::formula(&formula::STAND_IMAGE, v, [leaving]),
                Step::formula(&formula::STAND_ENLARGEMENT, er, [v, u]),
            ],
            StandData::ImagePlace { .. } => alloc::vec![power, height, vergence],
            StandData::EmergentVergence { .. } => {
                alloc::vec![Step::formula(&formula::STAND_IMAGE, v, [leaving]), power, height]
            }
            StandData::PowerAndEnlargement { .. } => {
                alloc::vec![Step::formula(&formula::STAND_IMAGE_FROM_POWER, v, [er, f]), height, vergence]
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    pub(super) fn nominal(power: f64, height_mm: f64) -> StandData {
        StandData::Nominal {
            power: Vergence::from_dioptres(power),
            print_to_lens: Length::from_mm(height_mm),
        }
    }
    fn near(got: f64, wanted: f64) {
        assert!((got - wanted).abs() < 1e-9 * wanted.abs().max(1.0), "got {got}, wanted {wanted}");
    }

    #[test]
    fn every_way_of_knowing_a_stand_gives_the_same_stand() -> Result<(), Error> {
        let emergent = |dioptres| StandData::EmergentVergence {
            enlargement: 3.0,
            emergent_vergence: Vergence::from_dioptres(dioptres),
        };
        for data in [
            nominal(20.0, 100.0 / 3.0),
            StandData::ImagePlace { enlargement: 3.0, image_to_lens: Length::from_mm(100.0) },
            emergent(-10.0),
            StandData::PowerAndEnlargement { power: Vergence::from_dioptres(20.0), enlargement: 3.0 },
        ] {
            let stand = stand_optics(data)?;
            near(stand.power.dioptres(), 20.0);
            near(stand.print_to_lens.mm(), 100.0 / 3.0);
            near(stand.emergent_vergence.dioptres(), -10.0);
            let image = stand.image.expect("inside the focus");
            near(image.to_lens.mm(), 100.0);
            near(image.enlargement, 3.0);
            assert_eq!(stand.data, data, "what it follows from is kept");
            assert_eq!(stand.steps().len(), 3, "{data:?}");
            for step in stand.steps() {
                assert_eq!(step.check(), Ok(()), "{data:?}");
            }
        }
        Ok(())
    }

    #[test]
    fn in_the_focus_the_image_is_infinitely_far() -> Result<(), Error> {
        for (height, finite) in [(50.0, false), (50.0 * (1.0 - 2e-6), true), (50.0 * (1.0 - 0.5e-6), false)] {
            let stand = stand_optics(nominal(20.0, height))?;
            assert_eq!(stand.image.is_some(), finite, "{height} mm: {stand:?}");
            assert_eq!(stand.emergent_vergence == Vergence::ZERO, !finite, "{height} mm: {stand:?}");
            assert_eq!(stand.steps().is_empty(), !finite, "an infinite distance is not printed");
        }
        Ok(())
    }

    #[test]
    fn what_is_no_stand_is_refused() {
        let d = Vergence::from_dioptres;
        let image =
            |enlargement, mm| StandData::ImagePlace { enlargement, image_to_lens: Length::from_mm(mm) };
        let emergent =
            |dioptres| StandData::EmergentVergence { enlargement: 3.0, emergent_vergence: d(dioptres) };
        for (data, message, hint) in [
            (
                nominal(20.0, 51.0),
                "stand height `51 mm` has no solution: the page would lie beyond the focus of the lens",
                "change one of the values it depends on",
            ),
            (nominal(0.0, 30.0), "magnifier power `0 D` is not possible", "use 0.5 to 120 D"),
            (nominal(f64::NAN, 30.0), "magnifier power `NaN D` is not possible", "use 0.5 to 120 D"),
            (nominal(20.0, 0.0), "stand height `0 mm` is not possible", "use 0.1 to 2000 mm"),
            (
                image(1.0, 100.0),
                "enlargement `1 times` has no solution: a stand magnifier shows the print larger than it is",
                "change one of the values it depends on",
            ),
            (image(201.0, 100.0), "enlargement `201 times` is not possible", "use 0.05 to 200 times"),
            (image(3.0, 0.0), "image to lens `0 mm` is not possible", "use 1 to 100000 mm"),
            (emergent(0.0), "emergent vergence `0 D` is not possible", "use -1000 to -0.01 D"),
            (
                StandData::PowerAndEnlargement { power: d(-3.0), enlargement: 2.0 },
                "magnifier power `-3 D` is not possible",
                "use 0.5 to 120 D",
            ),
            // (3 − 1)/0.001 m, far beyond any magnifier.
            (image(3.0, 1.0), "magnifier power `2000 D` is not possible", "use 0.5 to 120 D"),
        ] {
            let error = stand_optics(data).expect_err(message);
            assert_eq!((error.to_string().as_str(), error.hint().to_string().as_str()), (message, hint));
        }
    }
}
