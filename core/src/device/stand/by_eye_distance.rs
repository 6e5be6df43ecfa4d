//! What a fixed stand magnifier is worth at each eye distance.

use super::{StandOptics, bare_lens};
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Sight, Train, view};
#[cfg(doc)]
use crate::source;
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Eye distances of the usual table, in centimetres, magnifier to eye.
pub const USUAL_EYE_DISTANCES_CM: [f64; 6] = [2.5, 5.0, 10.0, 15.0, 25.0, 40.0];

/// Least and greatest share of the nominal power that 31 stand magnifiers reached on a bench at 30 cm, with additions of
/// 1.50 to 2.00 D; pure ratios.
///
/// Only at 2 cm did they come near the nominal value, and then +4 to +6 D were needed. Source:
/// [`source::STAND_BENCH_STUDY`].
pub const BENCH_SHARE_AT_30_CM: (f64, f64) = (0.44, 0.70);

/// A fixed stand magnifier seen from one distance, nothing worn in between.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandAtEye {
    /// The stand.
    pub optics: StandOptics,
    /// Lens to the eye's entrance pupil.
    pub lens_to_eye: Length,
    /// Demand there: what addition and accommodation have to meet together.
    pub focus_demand: Vergence,
    /// Distance at which the bare print would look as large.
    pub equivalent_viewing_distance: Length,
    /// Its reciprocal.
    pub equivalent_viewing_power: Vergence,
    /// A quarter of it: the magnification as used, against 25 cm; a pure ratio.
    pub actual: f64,
    /// The equivalent viewing power over the power of the lens, or as used over as labelled F/4; a pure ratio.
    pub share_of_nominal: f64,
}

impl StandOptics {
    /// What the stand is worth from this distance.
    ///
    /// `EVD = (z + v)/ER`, `A = 1/(z + v)`, `EVP = F + A − zFA`: the power of the lens at `z = 1/F` wherever the image
    /// is, more nearer by, less farther off. Source: Bailey 2004; paraxial.
    ///
    /// # Errors
    /// [`crate::Why::OutOfRange`] for a distance that no eye is at.
    ///
    /// ```
    /// use arcminute_core::device::{StandData, stand_optics};
    /// use arcminute_core::unit::{Length, Vergence};
    /// // +20 D with enlargement 3, from 15 cm: 83.3 mm or 12 D, 3.0x and not 5x; 4 D to be met (computed).
    /// let (power, enlargement) = (Vergence::from_dioptres(20.0), 3.0);
    /// let stand = stand_optics(StandData::PowerAndEnlargement { power, enlargement })?;
    /// let seen = stand.seen_from(Length::from_cm(15.0))?;
    /// assert!((seen.equivalent_viewing_power.dioptres() - 12.0).abs() < 1e-9);
    /// assert!((seen.focus_demand.dioptres() - 4.0).abs() < 1e-9);
    /// assert!((seen.share_of_nominal - 0.6).abs() < 1e-9);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn seen_from(self, lens_to_eye: Length) -> Result<StandAtEye, Error> {
        bounds::LENS_TO_EYE.check(lens_to_eye.mm())?;
        Ok(self.seen_at(lens_to_eye))
    }

    fn seen_at(self, lens_to_eye: Length) -> StandAtEye {
        let seen =
            view(&Train::new([bare_lens(self.power)]).to_eye(lens_to_eye), Sight::At(self.print_to_lens));
        let equivalent_viewing_distance = seen.equivalent_viewing_distance.unwrap_or(self.print_to_lens);
        let equivalent_viewing_power = Vergence::of_focal_length(equivalent_viewing_distance);
        StandAtEye {
            optics: self,
            lens_to_eye,
            focus_demand: seen.focus_demand,
            equivalent_viewing_distance,
            equivalent_viewing_power,
            actual: equivalent_viewing_power.dioptres() / 4.0,
            share_of_nominal: equivalent_viewing_power / self.power,
        }
    }

    /// The table of eye distances that is usual for a stand magnifier: at [`USUAL_EYE_DISTANCES_CM`].
    ///
    /// ```
    /// use arcminute_core::device::{StandData, stand_optics};
    /// use arcminute_core::unit::Vergence;
    /// let (power, enlargement) = (Vergence::from_dioptres(20.0), 3.0);
    /// let table = stand_optics(StandData::PowerAndEnlargement { power, enlargement })?.table();
    /// let [.., last] = table;
    /// assert!((last.equivalent_viewing_distance.mm() - 166.7).abs() < 0.05); // from 40 cm (computed)
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn table(self) -> [StandAtEye; 6] {
        USUAL_EYE_DISTANCES_CM.map(|cm| self.seen_at(Length::from_cm(cm)))
    }
}

#[cfg(feature = "alloc")]
impl Explain for StandAtEye {
    fn steps(&self) -> Vec<Step> {
        let f = Named::new("F", self.optics.power.dioptres(), Unit::Dioptre);
        let a = Named::new("A", self.focus_demand.dioptres(), Unit::Dioptre);
        let z = Named::new("z", self.lens_to_eye.mm(), Unit::Millimetre);
        let evp = Named::new("EVP", self.equivalent_viewing_power.dioptres(), Unit::Dioptre);
        let mut steps = self.optics.steps();
        if let Some(image) = self.optics.image {
            let v = Named::new("v", image.to_lens.mm(), Unit::Millimetre);
            let er = Named::new("ER", image.enlargement, Unit::Times);
            let evd = Named::new("EVD", self.equivalent_viewing_distance.mm(), Unit::Millimetre);
            steps.push(Step::formula(&formula::STAND_EVD, evd, [z, v, er]));
            steps.push(Step::formula(&formula::STAND_DEMAND, a, [z, v]));
        }
        steps.push(Step::formula(&formula::STAND_EVP, evp, [f, a, z]));
        let actual = Named::new("M_actual", self.actual, Unit::Times);
        steps.push(Step::formula(&formula::LABEL_ACTUAL, actual, [evp]));
        let share = Named::new("share", self.share_of_nominal, Unit::Plain);
        steps.push(Step::formula(&formula::SHARE_OF_NOMINAL, share, [evp, f]));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::{StandData, stand_optics};
    use alloc::string::ToString;

    fn stand(height_mm: f64) -> StandOptics {
        let data = StandData::Nominal {
            power: Vergence::from_dioptres(20.0),
            print_to_lens: Length::from_mm(height_mm),
        };
        stand_optics(data).expect("a stand")
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for height in [10.0, 33.0, 45.0, 50.0] {
            for cm in [0.0, 2.5, 5.0, 40.0] {
                let seen = stand(height).seen_from(Length::from_cm(cm))?;
                assert_eq!(seen.steps().len(), if height < 50.0 { 8 } else { 3 }, "{height} mm");
                for step in seen.steps() {
                    assert_eq!(step.check(), Ok(()), "{height} mm, {cm} cm");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn the_table_is_at_the_usual_distances() {
        let table = stand(33.0).table();
        for (row, cm) in table.iter().zip(USUAL_EYE_DISTANCES_CM) {
            assert_eq!(Ok(*row), stand(33.0).seen_from(Length::from_cm(cm)), "{cm} cm");
        }
    }

    #[test]
    fn an_eye_is_behind_the_lens() {
        for (mm, found) in [(-1.0, "-1"), (2001.0, "2001")] {
            let error = stand(33.0).seen_from(Length::from_mm(mm)).expect_err("no eye is there");
            assert_eq!(error.to_string(), alloc::format!("magnifier to eye `{found} mm` is not possible"));
            assert_eq!(error.hint().to_string(), "use 0 to 2000 mm");
        }
    }
}
