//! The two ratios that are called contrast, and measuring them.
//!
//! Weber contrast is taken here on the brighter of the two, `(L_max − L_min)/L_max`, as charts do, so that it runs from
//! 0 to 1 for light letters on dark as well. Papers that divide by the background instead can have more than 1 there.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{LogContrast, Luminance};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Weber contrast on the brighter of the two, `(L_max − L_min)/L_max`; 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Weber(f64);

/// Michelson contrast, `(L_max − L_min)/(L_max + L_min)`; 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Michelson(f64);

impl Weber {
    /// From the ratio itself, 0 to 1.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] outside 0 to 1 and for what is not a number.
    ///
    /// ```
    /// use arcminute_core::contrast::Weber;
    /// assert_eq!(Weber::from_ratio(0.9)?.ratio(), 0.9);
    /// assert!(Weber::from_ratio(1.1).is_err());
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn from_ratio(ratio: f64) -> Result<Self, Error> {
        bounds::CONTRAST.check(ratio).map(Self)
    }
    /// The ratio itself, 0 to 1.
    ///
    /// ```
    /// use arcminute_core::contrast::of_reflectances;
    /// // Ink of 20 % on paper of 80 % (computed).
    /// assert!((of_reflectances(0.80, 0.20)?.weber.ratio() - 0.75).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn ratio(self) -> f64 {
        self.0
    }
    /// The same contrast after Michelson, `C_M = C_W/(2 − C_W)`.
    ///
    /// ```
    /// use arcminute_core::contrast::Weber;
    /// // Weber 0.90 is Michelson 0.818, computed by hand.
    /// assert!((Weber::from_ratio(0.90)?.michelson().ratio() - 0.818).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn michelson(self) -> Michelson {
        Michelson(self.0 / (2.0 - self.0))
    }
    /// The least contrast seen at this log contrast sensitivity, `10^−log`.
    ///
    /// ```
    /// use arcminute_core::{contrast::Weber, unit::LogContrast};
    /// // A log contrast sensitivity of 1.05 is a threshold of 8.9 %, computed by hand.
    /// let threshold = Weber::threshold_of(LogContrast::from_log(1.05))?;
    /// assert!((threshold.ratio() - 0.0891).abs() < 5e-5);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Why::NoSolution`] below zero, where no contrast is strong enough, and for what is not a number.
    pub fn threshold_of(sensitivity: LogContrast) -> Result<Self, Error> {
        if LogContrast::ZERO <= sensitivity && sensitivity.is_finite() {
            return Ok(Self(sensitivity.threshold()));
        }
        let why = Why::NoSolution { because: "even full contrast is not seen" };
        Err(Error::about("log contrast sensitivity", format_args!("{}", sensitivity.log()), why))
    }
    /// The log contrast sensitivity of one who just sees this contrast, `−log10 C`.
    ///
    /// # Errors
    /// [`Why::NoSolution`] for no contrast at all, which nobody sees.
    ///
    /// ```
    /// use arcminute_core::contrast::Weber;
    /// // A contrast of 9 % just seen is a log contrast sensitivity of 1.05 (computed).
    /// assert!((Weber::from_ratio(0.09)?.as_threshold()?.log() - 1.05).abs() < 0.005);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn as_threshold(self) -> Result<LogContrast, Error> {
        if 0.0 < self.0 {
            return Ok(LogContrast::of_threshold(self.0));
        }
        let why = Why::NoSolution { because: "no contrast at all is seen by nobody" };
        Err(Error::about("least contrast seen", format_args!("{}", self.0), why))
    }
}

impl Michelson {
    /// From the ratio itself, 0 to 1.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] outside 0 to 1 and for what is not a number.
    ///
    /// ```
    /// use arcminute_core::contrast::Michelson;
    /// assert_eq!(Michelson::from_ratio(0.9)?.ratio(), 0.9);
    /// assert!(Michelson::from_ratio(1.1).is_err());
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn from_ratio(ratio: f64) -> Result<Self, Error> {
        bounds::CONTRAST.check(ratio).map(Self)
    }
    /// The ratio itself, 0 to 1.
    ///
    /// ```
    /// use arcminute_core::contrast::of_reflectances;
    /// // Ink of 20 % on paper of 80 %: less than the 0.75 of Weber's (computed).
    /// assert!((of_reflectances(0.80, 0.20)?.michelson.ratio() - 0.60).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn ratio(self) -> f64 {
        self.0
    }
    /// The same contrast after Weber, `C_W = 2C_M/(1 + C_M)`.
    ///
    /// ```
    /// use arcminute_core::contrast::Michelson;
    /// // Michelson 0.50 is Weber 0.667, computed by hand.
    /// assert!((Michelson::from_ratio(0.50)?.weber().ratio() - 0.667).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn weber(self) -> Weber {
        Weber(2.0 * self.0 / (1.0 + self.0))
    }
}

/// Which of the two is the brighter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Polarity {
    /// Dark letters on a light ground, as in print.
    DarkOnLight,
    /// Light letters on a dark ground.
    LightOnDark,
}

/// Both contrasts of two amounts of light, not both nothing.
pub(super) fn compare(background: f64, letter: f64) -> (Option<Polarity>, Weber) {
    let polarity = if letter < background {
        Some(Polarity::DarkOnLight)
    } else if background < letter {
        Some(Polarity::LightOnDark)
    } else {
        None
    };
    let (most, least) = (background.max(letter), background.min(letter));
    (polarity, Weber((most - least) / most))
}

#[cfg(feature = "alloc")]
pub(super) fn steps(background: Named, letter: Named, weber: Weber, michelson: Michelson) -> Vec<Step> {
    let weber = Named::new("C_W", weber.0, Unit::Plain);
    alloc::vec![
        Step::formula(&formula::WEBER, weber, [background, letter]),
        Step::formula(&formula::MICHELSON_FROM_WEBER, Named::new("C_M", michelson.0, Unit::Plain), [weber]),
    ]
}

/// Contrast of a letter on a ground, both measured as luminances.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LuminanceContrast {
    /// Luminance of the ground.
    pub background: Luminance,
    /// Luminance of the letter.
    pub letter: Luminance,
    /// Which is the brighter; nothing when they are alike.
    pub polarity: Option<Polarity>,
    /// Contrast on the brighter of the two.
    pub weber: Weber,
    /// The same after Michelson.
    pub michelson: Michelson,
}

/// Contrast of two measured luminances, veiling light included as it was measured.
///
/// Source: definition.
///
/// ```
/// use arcminute_core::{contrast::of_luminances, unit::Luminance};
/// let cd = Luminance::from_candela_per_m2;
/// // Computed by hand: (100 − 20)/100.
/// assert!((of_luminances(cd(100.0), cd(20.0))?.weber.ratio() - 0.80).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible luminance, [`Why::NoSolution`] when both are zero.
pub fn of_luminances(background: Luminance, letter: Luminance) -> Result<LuminanceContrast, Error> {
    let ground = bounds::LUMINANCE.check(background.candela_per_m2())?;
    let on_it = bounds::LUMINANCE.check(letter.candela_per_m2())?;
    if ground.max(on_it) <= 0.0 {
        let why = Why::NoSolution { because: "there is no light to compare" };
        return Err(Error::about("luminance", format_args!("{ground} cd/m²"), why));
    }
    let (polarity, weber) = compare(ground, on_it);
    Ok(LuminanceContrast { background, letter, polarity, weber, michelson: weber.michelson() })
}

#[cfg(feature = "alloc")]
impl Explain for LuminanceContrast {
    fn steps(&self) -> Vec<Step> {
        let luminance = |symbol, value: Luminance| {
            Named::new(symbol, value.candela_per_m2(), Unit::CandelaPerSquareMetre)
        };
        steps(luminance("b", self.background), luminance("l", self.letter), self.weber, self.michelson)
    }
}

/// Contrast of ink on paper in the same light, from what each sends back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReflectanceContrast {
    /// Share of the light that the paper sends back.
    pub background: f64,
    /// Share that the ink sends back.
    pub letter: f64,
    /// Which is the brighter; nothing when they are alike.
    pub polarity: Option<Polarity>,
    /// Contrast on the brighter of the two.
    pub weber: Weber,
    /// The same after Michelson.
    pub michelson: Michelson,
}

/// Contrast of two matt surfaces in the same even light, whose amount cancels.
///
/// * `background`, `letter`: reflectances, 0 to 1.
/// * Source: definition. A published example calls 90 % paper with 10 % ink "80 %": that is the Michelson value.
///
/// ```
/// use arcminute_core::contrast::of_reflectances;
/// let print = of_reflectances(0.90, 0.10)?;
/// assert!((print.michelson.ratio() - 0.80).abs() < 1e-12);
/// assert!((print.weber.ratio() - 0.889).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`Why::OutOfRange`] for a reflectance outside 0 to 1, [`Why::NoSolution`] when both are zero.
pub fn of_reflectances(background: f64, letter: f64) -> Result<ReflectanceContrast, Error> {
    bounds::REFLECTANCE.check(background)?;
    bounds::REFLECTANCE.check(letter)?;
    if background.max(letter) <= 0.0 {
        let why = Why::NoSolution { because: "there is no light to compare" };
        return Err(Error::about("reflectance", format_args!("{background}"), why));
    }
    let (polarity, weber) = compare(background, letter);
    Ok(ReflectanceContrast { background, letter, polarity, weber, michelson: weber.michelson() })
}

#[cfg(feature = "alloc")]
impl Explain for ReflectanceContrast {
    fn steps(&self) -> Vec<Step> {
        let share = |symbol, value| Named::new(symbol, value, Unit::Plain);
        steps(share("b", self.background), share("l", self.letter), self.weber, self.michelson)
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use crate::math;
    use alloc::string::ToString;

    #[test]
    fn the_brighter_of_the_two_is_the_measure() -> Result<(), Error> {
        for (background, letter, polarity) in [
            (0.8, 0.2, Some(Polarity::DarkOnLight)),
            (0.2, 0.8, Some(Polarity::LightOnDark)),
            (0.5, 0.5, None),
            (1.0, 0.0, Some(Polarity::DarkOnLight)),
            (0.0, 1.0, Some(Polarity::LightOnDark)),
        ] {
            let found = of_reflectances(background, letter)?;
            assert_eq!(found.polarity, polarity, "{background} with {letter}");
            let most = f64::max(background, letter);
            let direct = math::abs(background - letter) / (background + letter);
            assert!(math::abs(found.michelson.ratio() - direct) < 1e-15, "{background} with {letter}");
            assert!(math::abs(found.weber.ratio() * most - math::abs(background - letter)) < 1e-15);
            let measured = of_luminances(
                Luminance::from_candela_per_m2(200.0 * background),
                Luminance::from_candela_per_m2(200.0 * letter),
            )?;
            assert_eq!(measured.polarity, polarity);
            assert!(math::abs(measured.weber.ratio() - found.weber.ratio()) < 1e-15, "light cancels");
            for step in found.steps().into_iter().chain(measured.steps()) {
                assert_eq!(step.check(), Ok(()));
            }
        }
        Ok(())
    }

    #[test]
    fn what_has_no_contrast_is_refused() {
        let dark = of_luminances(Luminance::ZERO, Luminance::ZERO).expect_err("no light");
        assert_eq!(dark.to_string(), "luminance `0 cd/m²` has no solution: there is no light to compare");
        assert_eq!(dark.hint().to_string(), "change one of the values it depends on");
        let black = of_reflectances(0.0, 0.0).expect_err("nothing sends light back");
        assert_eq!(black.to_string(), "reflectance `0` has no solution: there is no light to compare");
        let more = of_reflectances(1.5, 0.1).expect_err("more than falls on it");
        assert_eq!(more.to_string(), "reflectance `1.5` is not possible");
        assert_eq!(more.hint().to_string(), "use 0 to 1");
        assert!(of_reflectances(0.9, f64::NAN).is_err(), "not-a-number is no reflectance");
        let cd = Luminance::from_candela_per_m2;
        let negative = of_luminances(cd(100.0), cd(-1.0)).expect_err("no such luminance");
        assert_eq!(negative.to_string(), "luminance `-1 cd/m²` is not possible");
        assert!(of_luminances(cd(f64::INFINITY), cd(1.0)).is_err(), "infinite light");
        let above = Weber::from_ratio(1.01).expect_err("above one");
        assert_eq!(above.to_string(), "contrast `1.01` is not possible");
        assert_eq!(Michelson::from_ratio(-0.1).expect_err("below zero").hint().to_string(), "use 0 to 1");
    }

    #[test]
    fn threshold_and_sensitivity_are_one_thing() -> Result<(), Error> {
        assert_eq!(Weber::threshold_of(LogContrast::ZERO)?.ratio(), 1.0);
        let below = Weber::threshold_of(LogContrast::from_log(-0.15)).expect_err("below the chart");
        assert_eq!(
            below.to_string(),
            "log contrast sensitivity `-0.15` has no solution: even full contrast is not seen"
        );
        assert!(Weber::threshold_of(LogContrast::from_log(f64::NAN)).is_err());
        assert!(Weber::threshold_of(LogContrast::from_log(f64::INFINITY)).is_err());
        let nothing = Weber::from_ratio(0.0)?.as_threshold().expect_err("nobody sees it");
        assert_eq!(
            nothing.to_string(),
            "least contrast seen `0` has no solution: no contrast at all is seen by nobody"
        );
        let log = Weber::from_ratio(0.01)?.as_threshold()?;
        assert!(math::abs(log.log() - 2.0) < 1e-15);
        Ok(())
    }
}
