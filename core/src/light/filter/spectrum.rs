//! Coloured filters: what they let through at each wavelength, and what the eye makes of it in daylight.
//!
//! Luminous transmittance is `Σ τ·V·S / Σ V·S` over the visible wavelengths, V being the luminous efficiency of the eye
//! in daylight and S the spectrum of the daylight D65, as the standard for sunglasses has it.

use super::Tint;
use crate::error::{Error, Why};
use crate::unit::Length;

/// Samples of a spectrum: 380 to 780 nm in steps of 10 nm.
pub const SAMPLES: usize = 41;

/// Relative luminous efficiency of the eye in daylight, V(λ), at 380 to 780 nm in steps of 10 nm
/// ([`crate::source::CIE_EFFICIENCY`]).
#[rustfmt::skip]
pub static LUMINOUS_EFFICIENCY: [f64; SAMPLES] = [
    0.000_039, 0.000_12, 0.000_396, 0.001_21, 0.004, 0.0116, 0.023, 0.038, 0.06, 0.090_98,
    0.139_02, 0.208_02, 0.323, 0.503, 0.71, 0.862, 0.954, 0.994_950_1, 0.995, 0.952,
    0.87, 0.757, 0.631, 0.503, 0.381, 0.265, 0.175, 0.107, 0.061, 0.032,
    0.017, 0.008_21, 0.004_102, 0.002_091, 0.001_047, 0.000_52, 0.000_249_2, 0.000_12, 0.000_06, 0.000_03,
    0.000_014_99,
];

/// Relative power of the daylight D65, 100 at 560 nm, at 380 to 780 nm in steps of 10 nm
/// ([`crate::source::CIE_DAYLIGHT`]).
#[rustfmt::skip]
pub static DAYLIGHT: [f64; SAMPLES] = [
    49.9755, 54.6482, 82.7549, 91.486, 93.4318, 86.6823, 104.865, 117.008, 117.812, 114.861,
    115.923, 108.811, 109.354, 107.802, 104.79, 107.689, 104.405, 104.046, 100.0, 96.3342,
    95.788, 88.6856, 90.0062, 89.5991, 87.6987, 83.2886, 83.6992, 80.0268, 80.2146, 82.2778,
    78.2842, 69.7213, 71.6091, 74.349, 61.604, 69.8856, 75.087, 63.5927, 46.4182, 66.8054,
    63.3828,
];

/// The wavelengths of the samples, in air, shortest first.
///
/// ```
/// use arcminute_core::light::filter::{DAYLIGHT, wavelengths};
/// let at_560 = wavelengths().zip(DAYLIGHT).find(|(wavelength, _)| (wavelength.m() - 560e-9).abs() < 1e-12);
/// assert_eq!(at_560.map(|(_, power)| power), Some(100.0));
/// ```
pub fn wavelengths() -> impl Iterator<Item = Length> {
    (38_u16..=78).map(|tens| Length::from_m(f64::from(tens) * 1e-8))
}

/// What a filter lets through at each wavelength.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spectrum {
    samples: [f64; SAMPLES],
}

impl Spectrum {
    /// From transmittances at 380 to 780 nm in steps of 10 nm, 0 to 1 each.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for a sample outside 0 to 1 and for what is not a number.
    ///
    /// ```
    /// use arcminute_core::light::filter::{SAMPLES, Spectrum};
    /// let half = Spectrum::from_samples([0.5; SAMPLES])?;
    /// assert!((half.luminous_transmittance() - 0.5).abs() < 1e-12);
    /// assert!(Spectrum::from_samples([50.0; SAMPLES]).is_err(), "a share and not per cent");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn from_samples(samples: [f64; SAMPLES]) -> Result<Self, Error> {
        match samples.iter().find(|sample| !(0.0..=1.0).contains(*sample)) {
            Some(sample) => {
                let why = Why::OutOfRange { min: 0.0, max: 1.0, unit: "" };
                Err(Error::about("transmittance at a wavelength", format_args!("{sample}"), why))
            }
            None => Ok(Self { samples }),
        }
    }
    /// From the transmittance as a function of the wavelength.
    ///
    /// # Errors
    /// As [`Self::from_samples`].
    ///
    /// ```
    /// use arcminute_core::light::filter::Spectrum;
    /// // A grey filter lets through the same share of all light.
    /// let grey = Spectrum::from_curve(|_| 0.25)?;
    /// assert!((grey.luminous_transmittance() - 0.25).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn from_curve(transmittance: impl Fn(Length) -> f64) -> Result<Self, Error> {
        let mut samples = [0.0; SAMPLES];
        for (sample, wavelength) in samples.iter_mut().zip(wavelengths()) {
            *sample = transmittance(wavelength);
        }
        Self::from_samples(samples)
    }
    /// The samples, shortest wavelength first.
    ///
    /// ```
    /// use arcminute_core::light::filter::Spectrum;
    /// // A filter that takes the blue away: nothing at 380 nm, 0.9 at 780 nm.
    /// let yellow = Spectrum::from_curve(|wavelength| if wavelength.m() < 500e-9 { 0.0 } else { 0.9 })?;
    /// assert_eq!((yellow.samples()[0], yellow.samples()[40]), (0.0, 0.9));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn samples(&self) -> &[f64; SAMPLES] {
        &self.samples
    }
    /// What is left behind this filter and another: the product at each wavelength.
    ///
    /// ```
    /// use arcminute_core::light::filter::Spectrum;
    /// let blue = Spectrum::from_curve(|wavelength| if wavelength.m() < 500e-9 { 0.8 } else { 0.0 })?;
    /// let red = Spectrum::from_curve(|wavelength| if wavelength.m() < 600e-9 { 0.0 } else { 0.9 })?;
    /// // Blue behind red is black, and red behind red 0.81.
    /// assert_eq!(blue.through(&red).luminous_transmittance(), 0.0);
    /// assert!((red.through(&red).samples()[40] - 0.81).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn through(&self, other: &Self) -> Self {
        let mut samples = self.samples;
        for (sample, other) in samples.iter_mut().zip(other.samples) {
            *sample *= other;
        }
        Self { samples }
    }
    /// Luminous transmittance in the daylight D65: `Σ τ·V·S / Σ V·S`.
    ///
    /// * Domain: filters whose curve is smooth over 10 nm; a sharp edge between two samples is known to half a step.
    /// * Source: definition, with [`crate::source::CIE_EFFICIENCY`] and [`crate::source::CIE_DAYLIGHT`].
    ///
    /// ```
    /// use arcminute_core::light::filter::Spectrum;
    /// let grey = Spectrum::from_curve(|_| 0.15)?;
    /// assert!((grey.luminous_transmittance() - 0.15).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn luminous_transmittance(&self) -> f64 {
        let (mut through, mut all) = (0.0, 0.0);
        for ((sample, efficiency), power) in self.samples.iter().zip(LUMINOUS_EFFICIENCY).zip(DAYLIGHT) {
            through += sample * efficiency * power;
            all += efficiency * power;
        }
        through / all
    }
}

/// Coloured filters one behind the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColouredStack {
    /// What they let through at each wavelength.
    pub spectrum: Spectrum,
    /// All of them together.
    pub together: Tint,
    /// The product of what each lets through alone: right for grey filters only, shown for comparison.
    pub product: f64,
}

/// What coloured filters let through together, from their spectra.
///
/// Two alike that cut the spectrum off sharply let through as much as one; the product would say a half of a half. Two
/// of different colours can let through nearly nothing where the product says a quarter.
///
/// Source: definition, as [`Spectrum::luminous_transmittance`].
///
/// ```
/// use arcminute_core::light::filter::{Spectrum, coloured_stack};
/// use arcminute_core::unit::Length;
/// // Computed: all light above 555 nm, and none below, is about half of what the eye gets from daylight.
/// let amber = Spectrum::from_curve(|wavelength| f64::from(u8::from(wavelength > Length::from_m(555e-9))))?;
/// let two = coloured_stack(&[amber, amber])?;
/// assert!((two.together.transmittance - 0.50).abs() < 0.05);
/// assert!((two.product - 0.25).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`Why::NoSolution`] for no filter at all and for filters that together let nothing through.
pub fn coloured_stack(filters: &[Spectrum]) -> Result<ColouredStack, Error> {
    let refused = |because| {
        let count = filters.len();
        Error::about("filters", format_args!("{count}"), Why::NoSolution { because })
    };
    let spectrum = filters.iter().copied().reduce(|all, next| all.through(&next));
    let spectrum = spectrum.ok_or_else(|| refused("there is none to look through"))?;
    let together = Tint::of(spectrum.luminous_transmittance().min(1.0))
        .map_err(|_| refused("together they let nothing through"))?;
    let product = filters.iter().map(Spectrum::luminous_transmittance).product();
    Ok(ColouredStack { spectrum, together, product })
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use crate::math;
    use alloc::string::ToString;
    use alloc::vec::Vec;

    fn long_pass(from_nm: f64) -> Spectrum {
        Spectrum::from_curve(|wavelength| if wavelength.m() * 1e9 < from_nm { 0.0 } else { 1.0 })
            .expect("it lets nothing or everything through")
    }

    #[test]
    fn tables_are_whole_and_peak_where_they_should() {
        let all: Vec<f64> = wavelengths().map(|wavelength| math::round(wavelength.m() * 1e9)).collect();
        assert_eq!((all.len(), all.first(), all.last()), (SAMPLES, Some(&380.0), Some(&780.0)));
        let peak = LUMINOUS_EFFICIENCY.iter().copied().fold(0.0, f64::max);
        let at = wavelengths().zip(LUMINOUS_EFFICIENCY).find(|(_, value)| *value == peak);
        assert!(at.is_some_and(|(wavelength, _)| math::abs(wavelength.m() - 560e-9) < 1e-12));
        assert!(DAYLIGHT.iter().all(|power| (40.0..120.0).contains(power)));
    }

    #[test]
    fn samples_outside_are_refused() {
        let mut samples = [0.5; SAMPLES];
        assert!(Spectrum::from_samples(samples).is_ok());
        for wrong in [-0.01, 1.01, f64::NAN, f64::INFINITY] {
            *samples.last_mut().expect("there are samples") = wrong;
            let error = Spectrum::from_samples(samples).expect_err("no share of light");
            assert!(error.to_string().starts_with("transmittance at a wavelength `"), "{error}");
            assert_eq!(error.hint().to_string(), "use 0 to 1");
        }
        assert!(Spectrum::from_curve(|_| 2.0).is_err());
        let curve = Spectrum::from_curve(|wavelength| wavelength.m() * 1e6).expect("0.38 to 0.78");
        let ends = (curve.samples().first(), curve.samples().last());
        assert!(
            matches!(ends, (Some(a), Some(b)) if math::abs(a - 0.38) < 1e-12 && math::abs(b - 0.78) < 1e-12)
        );
    }

    #[test]
    fn two_alike_that_cut_sharply_are_as_one() -> Result<(), Error> {
        for from_nm in [480.0, 550.0, 560.0, 600.0] {
            let one = long_pass(from_nm);
            let two = coloured_stack(&[one, one])?;
            let alone = one.luminous_transmittance();
            assert!(math::abs(two.together.transmittance - alone) < 1e-15, "cut at {from_nm} nm");
            assert!(math::abs(two.product - alone * alone) < 1e-15, "cut at {from_nm} nm");
            assert_eq!(two.spectrum, one);
        }
        Ok(())
    }

    #[test]
    fn stacks_without_light_or_filters_are_refused() -> Result<(), Error> {
        let none = coloured_stack(&[]).expect_err("no filter");
        assert_eq!(none.to_string(), "filters `0` has no solution: there is none to look through");
        let short = Spectrum::from_curve(|wavelength| if wavelength.m() * 1e9 < 555.0 { 1.0 } else { 0.0 })?;
        let crossed = coloured_stack(&[short, long_pass(555.0)]).expect_err("nothing in common");
        assert_eq!(crossed.to_string(), "filters `2` has no solution: together they let nothing through");
        let clear = coloured_stack(&[long_pass(0.0)])?;
        assert_eq!(clear.together.transmittance, 1.0);
        Ok(())
    }
}
