//! Contrast of two colours of a screen: the guideline's ratio, and what it is as contrast.
//!
//! The ratio `r = (L_1 + 0.05)/(L_2 + 0.05)` holds a term for light that veils the screen. Whether it is there makes a
//! difference: without it the contrast of a ratio depends on the ground, with it the contrast is `1 − 1/r`.

use super::ratio::compare;
use super::{Colour, ColourLight, Michelson, Polarity, Weber};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::source::{self, Source};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Veiling light that the guideline counts in, white being 1.
const FLARE: f64 = 0.05;
/// Rounding of a luminance of nothing or of white.
const ROUNDING: f64 = 1e-12;

/// Contrast of two lights of a screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DisplayContrast {
    /// On the brighter of the two.
    pub weber: Weber,
    /// The same after Michelson.
    pub michelson: Michelson,
}

fn display(background: f64, letter: f64) -> DisplayContrast {
    let (_, weber) = compare(background, letter);
    DisplayContrast { weber, michelson: weber.michelson() }
}

fn without_flare(background: f64, letter: f64) -> Option<DisplayContrast> {
    (0.0 < background.max(letter)).then(|| display(background, letter))
}

fn with_flare(background: f64, letter: f64) -> DisplayContrast {
    display(background + FLARE, letter + FLARE)
}

#[cfg(feature = "alloc")]
fn display_steps(
    background: f64,
    letter: f64,
    ratio: f64,
    without: Option<DisplayContrast>,
    with: DisplayContrast,
) -> Vec<Step> {
    let plain = |symbol, value| Named::new(symbol, value, Unit::Plain);
    let mut steps = without.map_or_else(Vec::new, |found| {
        super::ratio::steps(plain("b", background), plain("l", letter), found.weber, found.michelson)
    });
    let ratio = plain("r", ratio);
    steps.push(Step::formula(&formula::WEBER_WITH_FLARE, plain("C_W", with.weber.ratio()), [ratio]));
    steps.push(Step::formula(&formula::MICHELSON_WITH_FLARE, plain("C_M", with.michelson.ratio()), [ratio]));
    steps
}

/// Contrast of letters of one colour on a ground of another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColourContrast {
    /// Light of the ground.
    pub background: ColourLight,
    /// Light of the letters.
    pub letter: ColourLight,
    /// Which is the brighter; nothing when they are alike.
    pub polarity: Option<Polarity>,
    /// The guideline's ratio, 1 to 21; the same with the colours changed over.
    pub ratio: f64,
    /// Contrast on a screen in the dark; nothing for black on black.
    pub without_flare: Option<DisplayContrast>,
    /// Contrast if the screen is veiled by a twentieth of white.
    pub with_flare: DisplayContrast,
}

/// The contrast of letters of one colour on a ground of another, on a screen that shows sRGB as meant.
///
/// Source: [`source::WCAG`]; the contrasts follow from the definitions.
///
/// ```
/// use arcminute_core::contrast::{Colour, of_colours};
/// // #767676 on white: 4.54 to 1; Weber 0.8188 without flare. Computed by hand.
/// let grey = of_colours(Colour::WHITE, Colour::parse("#767676")?);
/// assert!((grey.ratio - 4.5422).abs() < 5e-5);
/// assert!((grey.without_flare.map_or(0.0, |dark| dark.weber.ratio()) - 0.8188).abs() < 5e-5);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
#[must_use]
pub fn of_colours(background: Colour, letter: Colour) -> ColourContrast {
    let (background, letter) = (background.light(), letter.light());
    let (ground, on_it) = (background.luminance, letter.luminance);
    ColourContrast {
        background,
        letter,
        polarity: compare(ground + FLARE, on_it + FLARE).0,
        ratio: (ground.max(on_it) + FLARE) / (ground.min(on_it) + FLARE),
        without_flare: without_flare(ground, on_it),
        with_flare: with_flare(ground, on_it),
    }
}

#[cfg(feature = "alloc")]
impl Explain for ColourContrast {
    fn steps(&self) -> Vec<Step> {
        let plain = |symbol, value| Named::new(symbol, value, Unit::Plain);
        let (ground, letter) = (self.background.luminance, self.letter.luminance);
        let mut steps = self.background.steps();
        steps.extend(self.letter.steps());
        steps.push(Step::formula(
            &formula::COLOUR_RATIO,
            plain("r", self.ratio),
            [plain("b", ground), plain("l", letter)],
        ));
        steps.extend(display_steps(ground, letter, self.ratio, self.without_flare, self.with_flare));
        steps
    }
}

/// What the guideline asks of a kind of text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Criterion {
    /// Stable key.
    pub id: &'static str,
    /// Of what it is asked, and at which level.
    pub text: &'static str,
    /// Least ratio.
    pub ratio: f64,
    /// Where it stands.
    pub source: &'static Source,
}

impl Criterion {
    /// Whether a ratio is enough; it is not rounded first.
    ///
    /// ```
    /// use arcminute_core::contrast::CRITERIA;
    /// let text = CRITERIA.iter().find(|row| row.id == "text-aa").expect("in the table");
    /// // #767676 on white is 4.542; 4.499 would be 4.5 only if it were rounded.
    /// assert!(text.is_met(4.542) && !text.is_met(4.499));
    /// ```
    #[must_use]
    pub fn is_met(&self, ratio: f64) -> bool {
        self.ratio <= ratio
    }
}

/// The guideline's least ratios. Large is 18 pt and above, or 14 pt bold and above.
///
/// They are made for people in general: they are no measure of what one person with low vision needs.
pub static CRITERIA: &[Criterion] = &[
    Criterion { id: "large-aa", text: "large text, level AA", ratio: 3.0, source: &source::WCAG },
    Criterion { id: "text-aa", text: "text, level AA", ratio: 4.5, source: &source::WCAG },
    Criterion { id: "text-aaa", text: "text, level AAA", ratio: 7.0, source: &source::WCAG },
];

/// What a ratio of the guideline is as contrast, on one ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatioMeaning {
    /// Luminance of the ground, white being 1.
    pub background: f64,
    /// The ratio.
    pub ratio: f64,
    /// Which is the brighter.
    pub polarity: Polarity,
    /// Luminance that the letters have to have, white being 1.
    pub letter: f64,
    /// Contrast on a screen in the dark; nothing for black on black.
    pub without_flare: Option<DisplayContrast>,
    /// Contrast if the screen is veiled by a twentieth of white.
    pub with_flare: DisplayContrast,
}

/// The contrast that a ratio of the guideline stands for on a ground of this luminance.
///
/// * `background`: 0 to 1, white being 1.
/// * `ratio`: 1 to 21.
/// * Source: [`source::WCAG`], solved for the letters.
///
/// ```
/// use arcminute_core::contrast::{Polarity, contrast_at_ratio};
/// // On white 4.5 to 1 is Weber 0.817 without flare and 0.778 with it, computed by hand.
/// let meaning = contrast_at_ratio(1.0, 4.5, Polarity::DarkOnLight)?;
/// assert!((meaning.without_flare.map_or(0.0, |dark| dark.weber.ratio()) - 0.817).abs() < 5e-4);
/// assert!((meaning.with_flare.weber.ratio() - 0.778).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
///
/// # Errors
/// [`Why::OutOfRange`] for an impossible luminance or ratio; [`Why::NoSolution`] when neither black nor white letters
/// reach the ratio on this ground.
pub fn contrast_at_ratio(background: f64, ratio: f64, polarity: Polarity) -> Result<RatioMeaning, Error> {
    bounds::RELATIVE_LUMINANCE.check(background)?;
    bounds::COLOUR_RATIO.check(ratio)?;
    let (letter, because) = match polarity {
        Polarity::DarkOnLight => {
            ((background + FLARE) / ratio - FLARE, "black letters do not reach it on this ground")
        }
        Polarity::LightOnDark => {
            ((background + FLARE) * ratio - FLARE, "white letters do not reach it on this ground")
        }
    };
    if !(-ROUNDING..=1.0 + ROUNDING).contains(&letter) {
        return Err(Error::about("contrast ratio", format_args!("{ratio}"), Why::NoSolution { because }));
    }
    let letter = letter.clamp(0.0, 1.0);
    Ok(RatioMeaning {
        background,
        ratio,
        polarity,
        letter,
        without_flare: without_flare(background, letter),
        with_flare: with_flare(background, letter),
    })
}

#[cfg(feature = "alloc")]
impl Explain for RatioMeaning {
    fn steps(&self) -> Vec<Step> {
        let plain = |symbol, value| Named::new(symbol, value, Unit::Plain);
        let text = match self.polarity {
            Polarity::DarkOnLight => &formula::DARK_LETTERS_OF_RATIO,
            Polarity::LightOnDark => &formula::LIGHT_LETTERS_OF_RATIO,
        };
        let inputs = [plain("b", self.background), plain("r", self.ratio)];
        let mut steps = alloc::vec![Step::formula(text, plain("l", self.letter), inputs)];
        steps.extend(display_steps(
            self.background,
            self.letter,
            self.ratio,
            self.without_flare,
            self.with_flare,
        ));
        steps
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use crate::math;
    use alloc::string::ToString;

    #[test]
    fn black_on_black_has_no_contrast_without_flare() {
        let nothing = of_colours(Colour::BLACK, Colour::BLACK);
        assert_eq!((nothing.ratio, nothing.polarity, nothing.without_flare), (1.0, None, None));
        assert_eq!(nothing.with_flare.weber.ratio(), 0.0);
        let most = of_colours(Colour::BLACK, Colour::WHITE);
        assert!(math::abs(most.ratio - 21.0) < 1e-12, "{}", most.ratio);
        assert_eq!(most.polarity, Some(Polarity::LightOnDark));
        assert_eq!(most.without_flare.map(|dark| dark.weber.ratio()), Some(1.0));
        assert_eq!(of_colours(Colour::WHITE, Colour::BLACK).polarity, Some(Polarity::DarkOnLight));
    }

    #[test]
    fn ratios_are_not_rounded_before_they_are_judged() {
        let met = |ratio: f64| CRITERIA.iter().filter(move |one| one.is_met(ratio)).count();
        for (ratio, count) in [(2.999, 0), (3.0, 1), (4.499, 1), (4.5, 2), (6.999, 2), (7.0, 3), (21.0, 3)] {
            assert_eq!(met(ratio), count, "{ratio}");
        }
        assert!(CRITERIA.iter().all(|one| !one.is_met(f64::NAN)), "not-a-number meets nothing");
    }

    #[test]
    fn a_ratio_that_no_letter_reaches_is_refused() -> Result<(), Error> {
        let dim = contrast_at_ratio(0.1, 4.5, Polarity::DarkOnLight).expect_err("black is too light");
        assert_eq!(
            dim.to_string(),
            "contrast ratio `4.5` has no solution: black letters do not reach it on this ground"
        );
        let bright = contrast_at_ratio(0.5, 4.5, Polarity::LightOnDark).expect_err("white is too dark");
        assert_eq!(
            bright.to_string(),
            "contrast ratio `4.5` has no solution: white letters do not reach it on this ground"
        );
        let low = contrast_at_ratio(1.0, 0.5, Polarity::DarkOnLight).expect_err("below 1");
        assert_eq!(low.to_string(), "contrast ratio `0.5` is not possible");
        assert_eq!(low.hint().to_string(), "use 1 to 21");
        let light = contrast_at_ratio(1.5, 3.0, Polarity::DarkOnLight).expect_err("above white");
        assert_eq!(light.to_string(), "relative luminance `1.5` is not possible");
        assert!(contrast_at_ratio(1.0, f64::NAN, Polarity::DarkOnLight).is_err());
        assert!(contrast_at_ratio(f64::NAN, 3.0, Polarity::LightOnDark).is_err());
        // The greatest ratio is that of black and white, either way.
        assert!(math::abs(contrast_at_ratio(1.0, 21.0, Polarity::DarkOnLight)?.letter) < 1e-15);
        assert!(math::abs(contrast_at_ratio(0.0, 21.0, Polarity::LightOnDark)?.letter - 1.0) < 1e-15);
        assert_eq!(contrast_at_ratio(0.0, 1.0, Polarity::LightOnDark)?.without_flare, None);
        Ok(())
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for ratio in [1.0, 1.5, 3.0, 4.5, 7.0, 21.0] {
            for step in contrast_at_ratio(1.0, ratio, Polarity::DarkOnLight)?.steps() {
                assert_eq!(step.check(), Ok(()), "{ratio} to 1 on white");
            }
            for step in contrast_at_ratio(0.0, ratio, Polarity::LightOnDark)?.steps() {
                assert_eq!(step.check(), Ok(()), "{ratio} to 1 on black");
            }
        }
        for blue in 0..=255 {
            for ground in [Colour::WHITE, Colour::BLACK, Colour { red: 9, green: 200, blue: 11 }] {
                for step in of_colours(ground, Colour { red: 255 - blue, green: 12, blue }).steps() {
                    assert_eq!(step.check(), Ok(()), "blue {blue} on {ground}");
                }
            }
        }
        Ok(())
    }
}
