//! A plus lens: by squares seen through it and beside it, by trial lenses, by the image of a lamp.

use super::{measured, no_solution, spread};
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A power from squared paper seen through the lens and beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SquaresCompared {
    /// Paper to lens.
    pub paper_to_lens: Length,
    /// Lens to the observer's eye.
    pub lens_to_eye: Length,
    /// Squares beside the lens over the squares in it that cover the same width; a pure ratio.
    pub ratio: f64,
    /// Equivalent power.
    pub power: Vergence,
    /// Least and greatest power with both distances misread by half a millimetre; `None` where no power is left.
    pub misread: Option<(Vergence, Vergence)>,
}

/// The equivalent power of a thin lens over squared paper: `F = (1 − 1/R)·(u + z)/(u·z)`.
///
/// * `ratio` R: squares beside the lens over squares in it, above zero; above one for a plus lens.
/// * Domain: thin lens; the print inside its focus, the eye anywhere.
/// * Source: paraxial, the ratio of equivalent viewing distances with and without the lens.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for distances or a ratio that are not possible.
///
/// ```
/// use arcminute_core::{unmarked::by_squares, unit::Length};
/// // 8 squares on 4, paper 4 cm under the lens, eye 36 cm above: 13.9 D (computed).
/// let compared = by_squares(Length::from_cm(4.0), Length::from_cm(36.0), 2.0)?;
/// assert!((compared.power.dioptres() - 13.89).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn by_squares(paper_to_lens: Length, lens_to_eye: Length, ratio: f64) -> Result<SquaresCompared, Error> {
    let (u, z) = (measured(paper_to_lens)?, measured(lens_to_eye)?);
    crate::bounds::ENLARGEMENT.check(ratio)?;
    let power = |[u, z]: [f64; 2]| (1.0 - 1.0 / ratio) * (u + z) / (u * z);
    let d = Vergence::from_dioptres;
    Ok(SquaresCompared {
        paper_to_lens,
        lens_to_eye,
        ratio,
        power: d(power([u, z])),
        misread: spread([u, z], power).map(|(least, most)| (d(least), d(most))),
    })
}

/// A vertex power from trial lenses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Neutralised {
    /// Trial lens with which a distant thing no longer moves.
    pub trial: Vergence,
    /// Vertex power of the face it was held against; not the equivalent power of a thick lens.
    pub vertex_power: Vergence,
}

/// The vertex power of the face against which this trial lens stops all movement: the trial lens with the other sign.
///
/// For a thin lens that is its power. Of a thick one it is more: by 3 % at 12 D, 10 % at 20 D, 27 % at 30 D in the forms
/// computed. Source: definition; named as a method in teaching notes.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for a trial lens that is not possible.
///
/// ```
/// use arcminute_core::{unmarked::by_neutralising, unit::Vergence};
/// assert_eq!(by_neutralising(Vergence::from_dioptres(-8.0))?.vertex_power.dioptres(), 8.0);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn by_neutralising(trial: Vergence) -> Result<Neutralised, Error> {
    crate::bounds::SPHERE.check(trial.dioptres())?;
    Ok(Neutralised { trial, vertex_power: -trial })
}

/// A power from the real image of a lamp or window.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LampImage {
    /// Lamp to lens.
    pub lamp_to_lens: Length,
    /// Height of the lamp.
    pub lamp: Length,
    /// Height of its image on paper.
    pub image: Length,
    /// Power of the lens.
    pub power: Vergence,
    /// Least and greatest power with all three misread by half a millimetre; `None` where no power is left.
    pub misread: Option<(Vergence, Vergence)>,
}

/// The power of a thin lens that throws an image of a lamp on paper: `F = (1 + h/h')/x`. Never of the sun.
///
/// * Domain: thin plus lens, the image sharp.
/// * Source: paraxial: the image is as much larger as it is farther away.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for lengths that are not possible; [`crate::Why::NoSolution`] when they leave no power.
///
/// ```
/// use arcminute_core::{unmarked::by_lamp_image, unit::Length};
/// let mm = Length::from_mm;
/// // A lamp 100 mm high, 1 m away, 10 mm on the paper: 11 D (computed).
/// let image = by_lamp_image(mm(1000.0), mm(100.0), mm(10.0))?;
/// assert!((image.power.dioptres() - 11.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn by_lamp_image(lamp_to_lens: Length, lamp: Length, image: Length) -> Result<LampImage, Error> {
    let lengths = [measured(lamp_to_lens)?, measured(lamp)?, measured(image)?];
    let power = |[x, lamp, image]: [f64; 3]| (1.0 + lamp / image) / x;
    let d = Vergence::from_dioptres;
    let value = power(lengths);
    if !value.is_finite() {
        return Err(no_solution("image", format_args!("{} mm", image.mm()), "it leaves no power"));
    }
    Ok(LampImage {
        lamp_to_lens,
        lamp,
        image,
        power: d(value),
        misread: spread(lengths, power).map(|(least, most)| (d(least), d(most))),
    })
}

#[cfg(feature = "alloc")]
fn dioptre(symbol: &'static str, power: Vergence) -> Named {
    Named::new(symbol, power.dioptres(), Unit::Dioptre)
}
#[cfg(feature = "alloc")]
fn mm(symbol: &'static str, length: Length) -> Named {
    Named::new(symbol, length.mm(), Unit::Millimetre)
}

#[cfg(feature = "alloc")]
impl Explain for SquaresCompared {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::POWER_FROM_SQUARES,
            dioptre("F", self.power),
            [
                Named::new("R", self.ratio, Unit::Times),
                mm("u", self.paper_to_lens),
                mm("z", self.lens_to_eye),
            ],
        )]
    }
}

#[cfg(feature = "alloc")]
impl Explain for Neutralised {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::POWER_BY_NEUTRALISING,
            dioptre("F_v", self.vertex_power),
            [dioptre("F_trial", self.trial)],
        )]
    }
}

#[cfg(feature = "alloc")]
impl Explain for LampImage {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::POWER_FROM_LAMP,
            dioptre("F", self.power),
            [mm("h", self.lamp), mm("h'", self.image), mm("x", self.lamp_to_lens)],
        )]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn length(mm: f64) -> Length {
        Length::from_mm(mm)
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for step in by_squares(length(40.0), length(360.0), 2.5)?
            .steps()
            .into_iter()
            .chain(by_neutralising(Vergence::from_dioptres(-6.0))?.steps())
            .chain(by_lamp_image(length(1500.0), length(60.0), length(7.0))?.steps())
        {
            assert_eq!(step.check(), Ok(()), "{step:?}");
        }
        Ok(())
    }

    #[test]
    fn a_misreading_spreads_the_power() -> Result<(), Error> {
        let d = |power: Option<(Vergence, Vergence)>| {
            power.map(|(least, most)| (least.dioptres(), most.dioptres())).expect("some power is left")
        };
        // By hand: (1 − 1/2)·(u + z)/(u·z) at 40.5 and 360.5 mm, at 39.5 and 359.5 mm.
        let (least, most) = d(by_squares(length(40.0), length(360.0), 2.0)?.misread);
        assert!((least - 13.732_6).abs() < 1e-4 && (most - 14.049_1).abs() < 1e-4, "{least} {most}");
        // Lamp 100 ± 0.5, image 10 ∓ 0.5, distance 1000 ∓ 0.5.
        let (least, most) = d(by_lamp_image(length(1000.0), length(100.0), length(10.0))?.misread);
        assert!((least - 10.471).abs() < 1e-3 && (most - 11.584_7).abs() < 1e-3, "{least} {most}");
        assert_eq!(by_squares(length(0.4), length(360.0), 2.0)?.misread, None, "no paper distance left");
        Ok(())
    }

    #[test]
    fn what_cannot_be_measured_is_refused() {
        let error = by_squares(length(40.0), length(360.0), 0.0).expect_err("no ratio");
        assert_eq!(error.to_string(), "enlargement `0 times` is not possible");
        let error = by_lamp_image(length(1000.0), length(100.0), length(f64::NAN)).expect_err("not a number");
        assert_eq!(error.to_string(), "measured length `NaN mm` is not possible");
    }
}
