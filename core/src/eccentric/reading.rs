//! Letters among letters, and print, beside the fovea.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::source::{self, Source};
use crate::unit::{Angle, ReadingSpeed};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Growth of the critical spacing with eccentricity: least, mean and greatest of the survey; pure ratios.
const SPACING: (f64, f64, f64) = (0.24, 0.30, 0.35);
/// Critical print size at the fovea and at the far end of the measurements, and where that is; degrees.
const PRINT: (f64, f64, f64) = (0.16, 2.22, 20.0);

/// How far letters have to be apart not to crowd each other, centre to centre, along the radius from the fovea.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crowding {
    /// Fovea to the letter.
    pub eccentricity: Angle,
    /// Least spacing, mean of people: `0.30·(E + 0.15°)`.
    pub spacing: Angle,
    /// The same for the people least crowded, factor 0.24.
    pub least: Angle,
    /// The same for the people most crowded, factor 0.35.
    pub most: Angle,
}

/// The spacing of letters below which they crowd each other, at an eccentricity; healthy retina.
///
/// Source: [`source::PELLI_2017`]; the range of factors is [`source::BOUMA_SURVEY_2023`].
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) for an eccentricity outside [`bounds::ECCENTRICITY`].
///
/// ```
/// use arcminute_core::eccentric::crowding;
/// use arcminute_core::unit::Angle;
/// // 0.30 * (5 + 0.15) degrees (computed).
/// assert!((crowding(Angle::from_degrees(5.0))?.spacing.degrees() - 1.545).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn crowding(eccentricity: Angle) -> Result<Crowding, Error> {
    bounds::ECCENTRICITY.check(eccentricity.degrees())?;
    let moved = eccentricity + Angle::from_degrees(0.15);
    let (least, mean, most) = SPACING;
    Ok(Crowding { eccentricity, spacing: moved * mean, least: moved * least, most: moved * most })
}

#[cfg(feature = "alloc")]
impl Explain for Crowding {
    fn steps(&self) -> Vec<Step> {
        let e = Named::new("E", self.eccentricity.degrees(), Unit::Degree);
        let (least, mean, most) = SPACING;
        [(mean, self.spacing), (least, self.least), (most, self.most)]
            .map(|(factor, spacing)| {
                let spacing = Named::new("spacing", spacing.degrees(), Unit::Degree);
                Step::formula(&formula::CROWDING, spacing, [Named::new("b", factor, Unit::Plain), e])
            })
            .into()
    }
}

/// Smallest print that is read at full speed, at an eccentricity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EccentricPrint {
    /// Fovea to the print.
    pub eccentricity: Angle,
    /// Size at the fovea.
    pub at_fovea: Angle,
    /// Eccentricity at which the size doubles.
    pub e2: Angle,
    /// The size.
    pub size: Angle,
}

/// The smallest print that a healthy retina reads at full speed, at an eccentricity.
///
/// A straight line from 0.16 degrees at the fovea to 2.22 at 20 degrees, so that it doubles at 1.55; larger print does
/// not bring the speed of the fovea back ([`READING_SPEEDS`]). Source: [`source::CHUNG_1998`]; the line is derived.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) for an eccentricity outside [`bounds::ECCENTRICITY`].
///
/// ```
/// use arcminute_core::eccentric::critical_print;
/// use arcminute_core::unit::Angle;
/// let print = critical_print(Angle::from_degrees(20.0))?;
/// assert!((print.size.degrees() - 2.22).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn critical_print(eccentricity: Angle) -> Result<EccentricPrint, Error> {
    bounds::ECCENTRICITY.check(eccentricity.degrees())?;
    let (fovea, outside, eccentric) = PRINT;
    let at_fovea = Angle::from_degrees(fovea);
    let e2 = Angle::from_degrees(eccentric * fovea / (outside - fovea));
    Ok(EccentricPrint { eccentricity, at_fovea, e2, size: at_fovea * (1.0 + eccentricity / e2) })
}

#[cfg(feature = "alloc")]
impl Explain for EccentricPrint {
    fn steps(&self) -> Vec<Step> {
        let degrees = |symbol, angle: Angle| Named::new(symbol, angle.degrees(), Unit::Degree);
        let size = degrees("CPS", self.size);
        let inputs =
            [degrees("CPS_0", self.at_fovea), degrees("E", self.eccentricity), degrees("E_2", self.e2)];
        alloc::vec![Step::formula(&formula::ECCENTRIC_PRINT, size, inputs)]
    }
}

/// Greatest reading speed at an eccentricity, print as large as wanted; healthy eyes, word after word in one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PeripheralSpeed {
    /// Where it was published.
    pub source: &'static Source,
    degrees: f64,
    words_per_minute: f64,
}

impl PeripheralSpeed {
    /// Fovea to the words.
    ///
    /// ```
    /// use arcminute_core::eccentric::READING_SPEEDS;
    /// assert_eq!(READING_SPEEDS.map(|row| row.eccentricity().degrees()), [0.0, 20.0]);
    /// ```
    #[must_use]
    pub fn eccentricity(&self) -> Angle {
        Angle::from_degrees(self.degrees)
    }
    /// Words in a minute.
    ///
    /// ```
    /// use arcminute_core::eccentric::READING_SPEEDS;
    /// // Chung, Mansfield & Legge 1998: 807 words a minute at the fovea and 135 at 20 degrees.
    /// let [fovea, beside] = READING_SPEEDS.map(|row| row.speed().words_per_minute());
    /// assert!((fovea / beside - 6.0).abs() < 0.05);
    /// ```
    #[must_use]
    pub fn speed(&self) -> ReadingSpeed {
        ReadingSpeed::from_words_per_minute(self.words_per_minute)
    }
}

/// Reading speeds at the fovea and 20 degrees beside it: six times slower ([`source::CHUNG_1998`]).
pub static READING_SPEEDS: [PeripheralSpeed; 2] = [
    PeripheralSpeed { source: &source::CHUNG_1998, degrees: 0.0, words_per_minute: 807.0 },
    PeripheralSpeed { source: &source::CHUNG_1998, degrees: 20.0, words_per_minute: 135.0 },
];

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for degrees in [0.0, 0.5, 5.0, 20.0, 60.0] {
            let at = Angle::from_degrees(degrees);
            let mut steps = crowding(at)?.steps();
            assert_eq!(steps.len(), 3);
            steps.extend(critical_print(at)?.steps());
            for step in steps {
                assert_eq!(step.check(), Ok(()), "{degrees}");
            }
        }
        Ok(())
    }

    #[test]
    fn the_spread_of_people_is_round_the_mean() -> Result<(), Error> {
        let at = crowding(Angle::from_degrees(9.85))?;
        for (got, printed) in [(at.least, 2.4), (at.spacing, 3.0), (at.most, 3.5)] {
            assert!((got.degrees() - printed).abs() < 1e-12, "{} against {printed}", got.degrees());
        }
        Ok(())
    }

    #[test]
    fn what_is_no_eccentricity_is_refused() {
        for degrees in [-0.1, 61.0, f64::NAN] {
            let at = Angle::from_degrees(degrees);
            assert!(crowding(at).is_err() && critical_print(at).is_err(), "{degrees}");
        }
        let error = crowding(Angle::from_degrees(61.0)).expect_err("beyond the field");
        assert_eq!(error.to_string(), "eccentricity `61 degrees` is not possible");
    }
}
