//! A colour of a screen and the light it stands for.

use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Formula, Named, Step, Unit, formula};
use crate::math;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;
use arrayvec::ArrayVec;
use core::fmt;

/// A colour as screens are told it: three parts of 0 to 255 of sRGB.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl Colour {
    /// All three at their greatest.
    pub const WHITE: Self = Self { red: 255, green: 255, blue: 255 };
    /// None of the three.
    pub const BLACK: Self = Self { red: 0, green: 0, blue: 0 };

    /// Reads `#RRGGBB` or the short `#RGB`, letters large or small, blanks round it left out.
    ///
    /// ```
    /// use arcminute_core::contrast::Colour;
    /// assert_eq!(Colour::parse("#767676")?, Colour { red: 0x76, green: 0x76, blue: 0x76 });
    /// assert_eq!(Colour::parse("#fC0")?, Colour::parse("#FFCC00")?);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Why::NotANumber`] for everything else.
    pub fn parse(text: &str) -> Result<Self, Error> {
        let refused = || Error::new("colour", text, Why::NotANumber { example: "#1A2B3C" });
        let digits = text.trim().strip_prefix('#').ok_or_else(refused)?;
        let mut read = ArrayVec::<u8, 6>::new();
        for digit in digits.chars() {
            let value = digit.to_digit(16).and_then(|value| u8::try_from(value).ok()).ok_or_else(refused)?;
            read.try_push(value).map_err(|_| refused())?;
        }
        let pair = |high: u8, low: u8| (high << 4) | low;
        match *read.as_slice() {
            [r, g, b] => Ok(Self { red: pair(r, r), green: pair(g, g), blue: pair(b, b) }),
            [r1, r2, g1, g2, b1, b2] => {
                Ok(Self { red: pair(r1, r2), green: pair(g1, g2), blue: pair(b1, b2) })
            }
            _ => Err(refused()),
        }
    }

    /// The light that the colour stands for, white being 1.
    ///
    /// Each part `c/255` is `c/12.92` up to 0.04045 and `((c + 0.055)/1.055)^2.4` above; the luminance is
    /// `0.2126·R + 0.7152·G + 0.0722·B` ([`crate::source::WCAG`]; until May 2021 the guideline printed 0.03928, which
    /// changes nothing for parts of 0 to 255).
    ///
    /// ```
    /// use arcminute_core::contrast::Colour;
    /// // Computed by hand: #767676 sends out 0.18116 of what white does.
    /// assert!((Colour::parse("#767676")?.light().luminance - 0.18116).abs() < 5e-6);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn light(self) -> ColourLight {
        let (red, green, blue) = (linear(self.red), linear(self.green), linear(self.blue));
        let luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue;
        ColourLight { colour: self, red, green, blue, luminance }
    }
}

/// As `#RRGGBB`.
impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{:02X}{:02X}{:02X}", self.red, self.green, self.blue)
    }
}

/// Greatest share of 255 on the straight part of the curve.
const STRAIGHT: f64 = 0.04045;

fn share(part: u8) -> f64 {
    f64::from(part) / 255.0
}

/// Light of one part, its greatest being 1.
fn linear(part: u8) -> f64 {
    let share = share(part);
    if share <= STRAIGHT { share / 12.92 } else { math::pow((share + 0.055) / 1.055, 2.4) }
}

/// The light of a colour, in shares of what white sends out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColourLight {
    /// The colour.
    pub colour: Colour,
    /// Red light, its greatest being 1.
    pub red: f64,
    /// Green light, its greatest being 1.
    pub green: f64,
    /// Blue light, its greatest being 1.
    pub blue: f64,
    /// Luminance, white being 1.
    pub luminance: f64,
}

#[cfg(feature = "alloc")]
fn curve(part: u8) -> &'static Formula {
    if share(part) <= STRAIGHT { &formula::COLOUR_PART_DARK } else { &formula::COLOUR_PART }
}

#[cfg(feature = "alloc")]
impl Explain for ColourLight {
    fn steps(&self) -> Vec<Step> {
        let Colour { red, green, blue } = self.colour;
        let plain = |symbol, value| Named::new(symbol, value, Unit::Plain);
        let mut steps: Vec<Step> = [(red, self.red), (green, self.green), (blue, self.blue)]
            .into_iter()
            .map(|(part, light)| {
                Step::formula(curve(part), plain("part", light), [plain("c", f64::from(part))])
            })
            .collect();
        let parts = [plain("R", self.red), plain("G", self.green), plain("B", self.blue)];
        steps.push(Step::formula(&formula::COLOUR_LUMINANCE, plain("L", self.luminance), parts));
        steps
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]
    use super::*;
    use alloc::format;
    use alloc::string::ToString;

    #[test]
    fn every_colour_is_read_as_it_is_written() -> Result<(), Error> {
        for red in 0..=255 {
            let colour = Colour { red, green: 255 - red, blue: red / 2 };
            assert_eq!(Colour::parse(&format!("{colour}"))?, colour);
            assert_eq!(Colour::parse(&format!("  {colour}\n").to_lowercase())?, colour);
        }
        for digit in 0..16 {
            let short = Colour::parse(&format!("#{digit:x}0F"))?;
            assert_eq!(short, Colour { red: 17 * digit, green: 0, blue: 255 });
        }
        assert_eq!(Colour::parse("#12aBcD")?, Colour { red: 0x12, green: 0xAB, blue: 0xCD });
        assert_eq!(Colour { red: 1, green: 2, blue: 0xA0 }.to_string(), "#0102A0");
        Ok(())
    }

    #[test]
    fn what_is_no_colour_is_refused() {
        for text in [
            "",
            "#",
            "#1",
            "#12",
            "#1234",
            "#12345",
            "#1234567",
            "767676",
            "#76767g",
            "##767676",
            "#７６７６７６",
            "red",
            "# 767676",
            "#-12",
            "#+12",
            "#1 2",
        ] {
            let error = Colour::parse(text).expect_err(text);
            assert_eq!(error.to_string(), format!("colour `{text}` was not understood"));
            assert_eq!(error.hint().to_string(), "type for example `#1A2B3C`");
        }
        assert!(Colour::parse(&"#".repeat(10_000)).is_err(), "a long text");
    }

    #[test]
    fn the_curve_rises_and_shows_its_working() {
        assert_eq!(Colour::BLACK.light().luminance, 0.0);
        assert!(math::abs(Colour::WHITE.light().luminance - 1.0) < 1e-15);
        for part in 0..=255_u8 {
            let grey = Colour { red: part, green: part, blue: part }.light();
            assert!(math::abs(grey.luminance - grey.red) < 1e-15, "the three shares make one");
            if let Some(darker) = part.checked_sub(1) {
                assert!(linear(darker) < grey.red, "{part} is lighter than {darker}");
            }
            let mixed = Colour { red: part, green: 10, blue: 11 }.light();
            for step in mixed.steps().into_iter().chain(grey.steps()) {
                assert_eq!(step.check(), Ok(()), "{part}");
            }
        }
        // 10/255 is on the straight part, 11/255 on the curve; both by hand.
        assert!(math::abs(linear(10) - 10.0 / 255.0 / 12.92) < 1e-18);
        assert!(math::abs(linear(11) - 0.003_346_535_763_899_161) < 1e-15);
        assert_eq!((curve(10).id, curve(11).id), ("colour-part-dark", "colour-part"));
    }
}
